"""Battery: charge from a reading, what is usable, when it freezes, how long it runs and how long it charges."""

from __future__ import annotations

from sendoff.calc.battery.budget import cycle_charge, cycles_per_charge, duty_budget, usable_charge
from sendoff.calc.battery.charging import (
    alternator_state,
    overnight_charge,
    recharge_time,
    solar_charge,
    tow_lead_charge,
)
from sendoff.calc.battery.cold import (
    cold_capacity,
    freezing_check,
    freezing_point_by_charge,
    freezing_point_by_gravity,
)
from sendoff.calc.battery.discharge import peukert_exponent, peukert_run_time, reserve_capacity_charge
from sendoff.calc.battery.on_the_way import charge_converter, solar_recharge_time, tow_lead_charge_time
from sendoff.calc.battery.state import (
    cell_spread,
    charge_from_gravity,
    charge_from_rest_voltage,
    gravity_at_80F,
    rest_voltage_from_gravity,
)
from sendoff.calc.battery.storage import sealed_stand_charge, stand_gravity, storage_recharge_due

__all__ = [
    "alternator_state",
    "cell_spread",
    "charge_converter",
    "charge_from_gravity",
    "charge_from_rest_voltage",
    "cold_capacity",
    "cycle_charge",
    "cycles_per_charge",
    "duty_budget",
    "freezing_check",
    "freezing_point_by_charge",
    "freezing_point_by_gravity",
    "gravity_at_80F",
    "overnight_charge",
    "peukert_exponent",
    "peukert_run_time",
    "recharge_time",
    "reserve_capacity_charge",
    "rest_voltage_from_gravity",
    "sealed_stand_charge",
    "solar_charge",
    "solar_recharge_time",
    "stand_gravity",
    "storage_recharge_due",
    "tow_lead_charge",
    "tow_lead_charge_time",
    "usable_charge",
]
