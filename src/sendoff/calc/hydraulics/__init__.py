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
    pump_flow,
    pump_motor_current,
    relief_check,
    shaft_torque,
)
from sendoff.calc.hydraulics.telescopic import telescopic_cylinder

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
    "pump_flow",
    "pump_motor_current",
    "relief_check",
    "reservoir_check",
    "rod_speed",
    "shaft_torque",
    "telescopic_cylinder",
    "trapped_oil_pressure",
]
