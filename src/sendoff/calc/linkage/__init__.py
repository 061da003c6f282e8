"""Linkage: what a deck, tail or dump body lifts over its stroke, and what its lock pins carry."""

from __future__ import annotations

from sendoff.calc.linkage.hoist import folding_hoist_curve, folding_hoist_thrust
from sendoff.calc.linkage.lift import hinged_lift, hinged_lift_curve, scissor_capacity, scissor_force
from sendoff.calc.linkage.locks import (
    lock_pin_diameter,
    lock_pin_load,
    raised_body_check,
    side_slope_limit,
    side_tip,
)

__all__ = [
    "folding_hoist_curve",
    "folding_hoist_thrust",
    "hinged_lift",
    "hinged_lift_curve",
    "lock_pin_diameter",
    "lock_pin_load",
    "raised_body_check",
    "scissor_capacity",
    "scissor_force",
    "side_slope_limit",
    "side_tip",
]
