"""Viscosity: of oil at a temperature, its index, its grade, and whether a cold pump can start on it."""

from __future__ import annotations

from sendoff.calc.viscosity.charts import (
    saybolt_viscosity,
    temperature_of_viscosity,
    viscosity_at,
    viscosity_at_100C,
    viscosity_index,
    walther_fit,
)
from sendoff.calc.viscosity.grades import cold_start, oil_grade

__all__ = [
    "cold_start",
    "oil_grade",
    "saybolt_viscosity",
    "temperature_of_viscosity",
    "viscosity_at",
    "viscosity_at_100C",
    "viscosity_index",
    "walther_fit",
]
