"""Air brakes: push-rod stroke, leaks, reservoirs, valves, spring brakes, antilock brakes and their lamp."""

from __future__ import annotations

from sendoff.calc.air_brakes.air import (
    air_brake_figure,
    air_leak_check,
    low_air_warning,
    pressure_after_application,
    protection_valve_check,
    reservoir_volume,
    trailer_retardation,
)
from sendoff.calc.air_brakes.antilock import (
    abs_axles,
    abs_lamp_check,
    abs_letters_check,
    abs_required,
    air_brake_standard_applies,
    heavy_hauler,
)
from sendoff.calc.air_brakes.stroke import (
    chambers_match,
    push_rod_stroke_check,
    push_rod_stroke_limit,
    unlisted_chamber_limit,
    wedge_brake_check,
)

__all__ = [
    "abs_axles",
    "abs_lamp_check",
    "abs_letters_check",
    "abs_required",
    "air_brake_figure",
    "air_brake_standard_applies",
    "air_leak_check",
    "chambers_match",
    "heavy_hauler",
    "low_air_warning",
    "pressure_after_application",
    "protection_valve_check",
    "push_rod_stroke_check",
    "push_rod_stroke_limit",
    "reservoir_volume",
    "trailer_retardation",
    "unlisted_chamber_limit",
    "wedge_brake_check",
]
