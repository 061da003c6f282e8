"""Brakes: current of the magnets, the feed that brings it, the controller, linings, seating and adjustment."""

from __future__ import annotations

from sendoff.calc.brakes.electric import (
    brake_current,
    brake_current_reading,
    brake_current_with_open_magnets,
    controller_capacity,
    controller_output,
    magnet_current,
    magnet_resistance_reading,
)
from sendoff.calc.brakes.european import (
    european_brake_force,
    european_overrun_deceleration,
    european_parking_grade,
    european_trailer_class,
)
from sendoff.calc.brakes.feed import brake_feed, brake_feed_by_axle, least_brake_gauge
from sendoff.calc.brakes.upkeep import (
    brake_adjustment,
    brake_seating,
    electric_brakes_pass,
    lining_check,
    magnet_short_test,
)

__all__ = [
    "brake_adjustment",
    "brake_current",
    "brake_current_reading",
    "brake_current_with_open_magnets",
    "brake_feed",
    "brake_feed_by_axle",
    "brake_seating",
    "controller_capacity",
    "controller_output",
    "electric_brakes_pass",
    "european_brake_force",
    "european_overrun_deceleration",
    "european_parking_grade",
    "european_trailer_class",
    "least_brake_gauge",
    "lining_check",
    "magnet_current",
    "magnet_resistance_reading",
    "magnet_short_test",
]
