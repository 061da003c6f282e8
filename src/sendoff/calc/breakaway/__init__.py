"""Breakaway: how long the battery holds the brakes, what a pulled switch costs, and how long recovery takes."""

from __future__ import annotations

from sendoff.calc.breakaway.drain import breakaway_left_pulled, breakaway_recovery, breakaway_rule
from sendoff.calc.breakaway.hold import (
    breakaway_first_current,
    breakaway_hold_time,
    breakaway_mean_current,
    breakaway_pessimistic_bound,
)

__all__ = [
    "breakaway_first_current",
    "breakaway_hold_time",
    "breakaway_left_pulled",
    "breakaway_mean_current",
    "breakaway_pessimistic_bound",
    "breakaway_recovery",
    "breakaway_rule",
]
