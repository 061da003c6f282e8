"""Winch: pull on a grade and by surface, loss per layer, tackle, anchor, wraps left, current and weakest part."""

from __future__ import annotations

from sendoff.calc.winch.pull import (
    grade_force,
    rolling_force,
    sinking_resistance,
    slope_force,
    winch_pull,
)
from sendoff.calc.winch.rope import drum_capacity, drum_layer, layer_pull, layer_pull_ratio, wraps_left
from sendoff.calc.winch.tackle import (
    anchor_load,
    block_load,
    tackle_line_pull,
    two_leg_pull,
    weakest_in_line,
    winch_rope_limit,
)
from sendoff.calc.winch.work import winch_check, winch_current, winch_pull_charge

__all__ = [
    "anchor_load",
    "block_load",
    "drum_capacity",
    "drum_layer",
    "grade_force",
    "layer_pull",
    "layer_pull_ratio",
    "rolling_force",
    "sinking_resistance",
    "slope_force",
    "tackle_line_pull",
    "two_leg_pull",
    "weakest_in_line",
    "winch_check",
    "winch_current",
    "winch_pull",
    "winch_pull_charge",
    "winch_rope_limit",
    "wraps_left",
]
