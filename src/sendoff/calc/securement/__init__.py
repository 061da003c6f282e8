"""Securement: working load limits, the American and the European rules, and a plan of tie-downs.

The two rule sets are chosen by jurisdiction and never stand beside each other: their counts mean different things.
"""

from __future__ import annotations

import importlib
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sendoff.calc.securement import (
        commodities,
        en12195,
        en12195_direct,
        plan,
        plan_en,
        plan_over_top,
        rules,
        us,
        wll,
    )

__all__ = [
    "commodities",
    "en12195",
    "en12195_direct",
    "plan",
    "plan_en",
    "plan_over_top",
    "rules",
    "us",
    "wll",
]


def __getattr__(name: str) -> ModuleType:
    """Import a module of the family when it is first asked for."""
    if name in __all__:
        return importlib.import_module(f"{__name__}.{name}")
    raise AttributeError(name)
