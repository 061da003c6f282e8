"""Truck check: may this truck tow this trailer, with this load; one limit at a time.

Nothing here approves towing. Each function holds one limit against one demand; what was not asked stays unchecked.
"""

from __future__ import annotations

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
