"""Ramps and clearances: angles, the knee, ramp rating, height with cargo, distance from power lines."""

from __future__ import annotations

from sendoff.calc.ramps.angles import (
    approach_angle,
    breakover_angle,
    crest_check,
    departure_angle,
    least_ramp_length,
    loading_check,
    off_highway_check,
    ramp_angle,
)
from sendoff.calc.ramps.clearances import overall_height, power_line_distance, power_line_transit
from sendoff.calc.ramps.loads import axle_loads_on_slope, ramp_rating_check

__all__ = [
    "approach_angle",
    "axle_loads_on_slope",
    "breakover_angle",
    "crest_check",
    "departure_angle",
    "least_ramp_length",
    "loading_check",
    "off_highway_check",
    "overall_height",
    "power_line_distance",
    "power_line_transit",
    "ramp_angle",
    "ramp_rating_check",
]
