"""Rules of the road: brakes asked for, license groups, axle and bridge weights, widths and lengths.

Federal text of the United States, read in the edition its source names; States add their own. What is not known
here says so and sends the reader to ask locally. No answer here means that nothing is needed.
"""

from __future__ import annotations

import importlib
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sendoff.calc.rules_of_the_road import brakes_required, bridge, license_groups, sizes

__all__ = ["brakes_required", "bridge", "license_groups", "sizes"]


def __getattr__(name: str) -> ModuleType:
    """Import a module of the family when it is first asked for."""
    if name in __all__:
        return importlib.import_module(f"{__name__}.{name}")
    raise AttributeError(name)
