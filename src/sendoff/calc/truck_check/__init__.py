"""Truck check: may this truck tow this trailer, with this load; one limit at a time.

Nothing here approves towing. Each function holds one limit against one demand; what was not asked stays unchecked.
"""

from __future__ import annotations

import importlib
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sendoff.calc.truck_check import (
        adapters,
        chains,
        coupling,
        coupling_load,
        electrics,
        hitch_strength,
        ratings,
        receiver,
        ride_height,
        tow_rating,
        weight_distribution,
    )

__all__ = [
    "adapters",
    "chains",
    "coupling",
    "coupling_load",
    "electrics",
    "hitch_strength",
    "ratings",
    "receiver",
    "ride_height",
    "tow_rating",
    "weight_distribution",
]


def __getattr__(name: str) -> ModuleType:
    """Import a module of the family when it is first asked for."""
    if name in __all__:
        return importlib.import_module(f"{__name__}.{name}")
    raise AttributeError(name)
