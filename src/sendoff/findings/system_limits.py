"""The limits of a unit's own systems, from the values of its cards: brakes, power, lift, shape, tie-down points.

What is not fitted asks for nothing. What is fitted but lacks a number says what to measure, or whom to ask. Limits go
by the slot and by these names of values, so that a yard's own cards are held the same way:

    brakes       magnet_resistance, magnets_per_axle, drum        tail         load_rating, time_up
    harness      brake_gauge or feed_gauge ("8 AWG …"), length    cylinders    bore
    breakaway    capacity, rest_voltage, rating_10min … 30min,    winch        line_pull, full_pull_current, pull_most,
                 rating_end_voltage                                            fuse, rope_breaking_force, hook_limit
    charge_lead  gauge, fuse, gives                               jacks        capacity_each
    pump         relief_pressure, motor_current, lift_current,    rear_guard   ground, side_gap, set_in, bar_height
                 fuse                                             tape         mark ("DOT-C2"), width, share
    battery      capacity                                         wheels       rim_diameter, stud
    charger      current, from_half                               wheel_nuts   torque, seat, thread
    tie_downs    working_load_limit                               valve_stems  pressure_rating, kind, hole
    body         load_rating, mass, time_up, length, width,       stock_floor  head, animal_mass
                 depth, line_gravel, line_soil, line_mulch
    tie_down_gear  chain_wll, count                               floor        wheel_load, area_load
"""

from __future__ import annotations

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.findings import brake_limits, fill_limits, lift_limits, power_limits, shape_limits
from sendoff.findings.model import Finding


def findings_of(unit: AsBuiltUnit) -> tuple[Finding, ...]:
    """Return every finding of a unit's own systems."""
    return (
        *brake_limits.findings_of(unit),
        *power_limits.findings_of(unit),
        *lift_limits.findings_of(unit),
        *fill_limits.findings_of(unit),
        *shape_limits.findings_of(unit),
    )
