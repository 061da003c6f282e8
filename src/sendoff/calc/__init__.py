"""Calculations: pure functions, SI numbers and tables in, numbers and workings out.

No disk, clock, network or randomness: "today" and published tables are arguments. One module a family;
the contract of a calculation (formula, units, range, worked example, source) is in CONTRIBUTING.md.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping

from sendoff.calc.contract import REGISTRY, Calculation

_NOT_FAMILIES = frozenset({"contract", "arguments", "docstrings"})


def families() -> tuple[str, ...]:
    """Return the names of all families, that is of all modules and packages that hold calculations."""
    names = (module.name for module in pkgutil.iter_modules(__path__))
    return tuple(sorted(name for name in names if name not in _NOT_FAMILIES and not name.startswith("_")))


def calculations() -> Mapping[str, Calculation]:
    """Import every module of every family and return all calculations by name.

    A family imports none of its modules by itself, so that a finding pays only for those it asks.
    """
    for family in families():
        found = importlib.import_module(f"{__name__}.{family}")
        for module in pkgutil.iter_modules(getattr(found, "__path__", ())):
            importlib.import_module(f"{found.__name__}.{module.name}")
    return REGISTRY
