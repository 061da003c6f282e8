"""Wiring: gauge and resistance, voltage drop, fuses, and what each terminal of a plug carries."""

from __future__ import annotations

from sendoff.calc.wiring.fuses import blade_fuse_curve, fuse_size, wire_ampacity
from sendoff.calc.wiring.plugs import (
    color_trap,
    lamp_load,
    plug_color,
    plug_standard,
    plug_terminal,
    plug_wire,
)
from sendoff.calc.wiring.sizing import copper_resistance, least_copper_area, least_gauge
from sendoff.calc.wiring.wire import (
    resistance_at_temperature,
    solid_wire_resistance,
    voltage_drop,
    wire_area,
    wire_diameter,
    wire_drop,
    wire_resistance,
)

__all__ = [
    "blade_fuse_curve",
    "color_trap",
    "copper_resistance",
    "fuse_size",
    "lamp_load",
    "least_copper_area",
    "least_gauge",
    "plug_color",
    "plug_standard",
    "plug_terminal",
    "plug_wire",
    "resistance_at_temperature",
    "solid_wire_resistance",
    "voltage_drop",
    "wire_ampacity",
    "wire_area",
    "wire_diameter",
    "wire_drop",
    "wire_resistance",
]
