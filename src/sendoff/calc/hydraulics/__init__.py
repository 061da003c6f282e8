"""Hydraulics: cylinders, pump and motor, relief, oil in the tank, and which fluid belongs where."""

from __future__ import annotations

from sendoff.calc.hydraulics.cylinder import (
    angled_force,
    cylinder_pull,
    cylinder_push,
    cylinder_time,
    cylinder_volume,
    hydraulic_press,
    piston_pressure,
    rod_speed,
)
from sendoff.calc.hydraulics.oil import (
    fluid_check,
    oil_expansion,
    reservoir_check,
    trapped_oil_pressure,
)
from sendoff.calc.hydraulics.pump import (
    hydraulic_motor_torque,
    hydraulic_power,
    pump_motor_current,
    relief_check,
)

__all__ = [
    "angled_force",
    "cylinder_pull",
    "cylinder_push",
    "cylinder_time",
    "cylinder_volume",
    "fluid_check",
    "hydraulic_motor_torque",
    "hydraulic_power",
    "hydraulic_press",
    "oil_expansion",
    "piston_pressure",
    "pump_motor_current",
    "relief_check",
    "reservoir_check",
    "rod_speed",
    "trapped_oil_pressure",
]
