"""Every factor of the units we read, against the registry of pint."""

from __future__ import annotations

from typing import Final

import pint
import pytest

from sendoff import units

REGISTRY: Final[pint.UnitRegistry[float]] = pint.UnitRegistry()

NAMES: Final[dict[str, str]] = {
    "lb": "pound",
    "oz": "ounce",
    "ton": "short_ton",
    "t": "metric_ton",
    "lbf": "force_pound",
    "daN": "decanewton",
    "in": "inch",
    "gal": "US_liquid_gallon",
    "qt": "US_liquid_quart",
    "pt": "pint",
    "floz": "US_fluid_ounce",
    "gpm": "US_liquid_gallon/minute",
    "gal/min": "US_liquid_gallon/minute",
    "ksi": "kilopsi",
    "Nm": "newton*meter",
    "N·m": "newton*meter",
    "lbf·ft": "force_pound*foot",
    "lbf·in": "force_pound*inch",
    "hp": "horsepower",
    "rev": "turn",
    "rpm": "turn/minute",
    "rad": "radian",
    "min": "minute",
    "h": "hour",
    "d": "day",
    "wk": "week",
    "mph": "mile/hour",
    "ohm/kft": "ohm/kilofoot",
    "mohm": "milliohm",
    "Ah": "ampere*hour",
    "Wh": "watt*hour",
    "kWh": "kilowatt*hour",
    "cSt": "centistokes",
    "degC": "degree_Celsius",
    "degF": "degree_Fahrenheit",
    "delta_degC": "delta_degree_Celsius",
    "delta_degF": "delta_degree_Fahrenheit",
    "K": "kelvin",
    "deg": "degree",
    "L": "liter",
    "cmil": "circular_mil",
    "": "dimensionless",
    "%": "percent",
}
"""What pint calls a unit, where it does not know ours or means another."""


def pint_unit(unit: str, kind: str) -> str:
    """The unit in pint's words, compounds taken apart."""
    if unit == "g":
        return "standard_gravity" if kind == "acceleration" else "gram"
    if unit in NAMES:
        return NAMES[unit]
    for sign in ("/", "2", "3"):
        if sign == "/" and "/" in unit:
            above, below = unit.split("/")
            return f"({pint_unit(above, kind)})/({pint_unit(below, kind)})"
        if sign != "/" and unit.endswith(sign):
            return f"({pint_unit(unit[:-1], kind)})**{sign}"
    return unit


PAIRS: Final = [(kind, unit) for kind in sorted(units.SI_UNIT) for unit in units.units_of(kind)]


@pytest.mark.parametrize(("kind", "unit"), PAIRS)
def test_the_factor_is_pints(kind: str, unit: str) -> None:
    si_unit = "mps" if kind == "speed" else pint_unit(units.SI_UNIT[kind], kind)
    for value in (0.0, 1.0, 110.0, 273.15):
        theirs = REGISTRY.Quantity(value, pint_unit(unit, kind)).to(si_unit).magnitude
        try:
            ours = units.to_si(value, unit, kind)
        except units.UnitError:
            assert theirs < 0, "colder than absolute zero"
            continue
        assert ours == pytest.approx(theirs, rel=1e-13, abs=1e-12)
        assert units.from_si(ours, unit, kind) == pytest.approx(value, rel=1e-12, abs=1e-10)


def test_no_kind_is_left_out() -> None:
    assert {kind for kind, _ in PAIRS} == set(units.SUFFIX_KIND.values())
    assert len(PAIRS) > 100
