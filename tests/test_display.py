"""How values are shown: never flattering a limit, never converting what was entered in the reader's own units."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import display, units
from sendoff.display import Role, fine, show

KINDS = sorted(units.SI_UNIT)
ROLES: tuple[Role, ...] = get_args(Role)
systems: st.SearchStrategy[units.System] = st.sampled_from(("us", "metric"))


def number(shown: display.Shown) -> float:
    return float(shown.number.replace(",", "").replace("\N{MINUS SIGN}", "-"))


@pytest.mark.parametrize(
    ("given_text", "kind", "us", "metric"),
    [
        ("110 psi", "pressure", "110 psi", "758 kPa"),
        ("110psi", "pressure", "110 psi", "758 kPa"),
        ("1200 lb", "mass", "1,200 lb", "544 kg"),
        ("1,200 lb", "mass", "1,200 lb", "544 kg"),
        ("2-5/16 in", "length", "2-5/16 in", "59 mm"),
        ("2 5/16 in", "length", "2 5/16 in", "59 mm"),
        ("9 ft 6 in", "length", "9 ft 6 in", "2.90 m"),
        ("9 ft 6 1/2 in", "length", "9 ft 6 1/2 in", "2.91 m"),
        ("9'6\"", "length", "9'6\"", "2.90 m"),
        ("758 kPa", "pressure", "110 psi", "758 kPa"),
        ("-12 °F", "temperature", "\N{MINUS SIGN}12 °F", "\N{MINUS SIGN}24 °C"),
        ("12 V", "voltage", "12 V", "12 V"),
        ("450 lbf ft", "torque", "450 lbf·ft", "610 N·m"),
        ("20 %", "ratio", "20 %", "20 %"),
        ("3", "count", "3", "3"),
        ("0.8 g", "acceleration", "0.8 g", "0.8 g"),
    ],
)
def test_what_was_entered_in_the_readers_units_stands_as_entered(
    given_text: str, kind: str, us: str, metric: str
) -> None:
    value = units.parse(given_text, kind)
    assert str(show(kind, value.si, "us", given=value.given)) == us
    assert str(show(kind, value.si, "metric", given=value.given)) == metric


@given(st.sampled_from(KINDS), st.floats(1e-3, 1e6), systems)
def test_a_shown_capacity_is_never_more_and_a_demand_never_less(
    kind: str, si: float, system: units.System
) -> None:
    unit = display.unit_for(kind, si, system) if kind != "count" else ""
    if unit == "ft":
        return
    value = units.from_si(si, unit, kind)
    hair = 2e-6 * display._step(kind, unit, value) if kind != "count" else 1e-5
    assert number(show(kind, si, system, "capacity", unit=unit or None)) <= value + hair
    if kind != "count":
        assert number(show(kind, si, system, "demand", unit=unit)) >= value - hair


@given(st.floats(1.3, 900))
def test_feet_and_inches_round_the_way_their_role_asks(length: float) -> None:
    def back(role: Role) -> float:
        feet, rest = show("length", length, "us", role).number.split(" ft ")
        inches = float(rest.replace("½", "") or 0) + (0.5 if "½" in rest else 0.0)
        return units.to_si(float(feet) * 12 + inches, "in", "length")

    assert back("capacity") <= length + 1e-6
    assert back("demand") >= length - 1e-6
    assert back("demand") - back("capacity") <= 0.0127 + 1e-6


@pytest.mark.parametrize(
    ("length", "role", "expected"),
    [
        (2.8956, "fact", "9 ft 6 in"),
        (2.9083, "fact", "9 ft 6½ in"),
        (1.2319, "fact", "4 ft ½ in"),
        (-2.8956, "fact", "\N{MINUS SIGN}9 ft 6 in"),
        (-2.8957, "capacity", "\N{MINUS SIGN}9 ft 6½ in"),
        (3.6575, "capacity", "11 ft 11½ in"),
        (3.6575, "demand", "12 ft 0 in"),
    ],
)
def test_feet_and_inches(length: float, role: Role, expected: str) -> None:
    assert str(show("length", length, "us", role)) == expected


@given(st.sampled_from(KINDS), st.floats(-1e6, 1e6), systems, st.sampled_from(ROLES))
def test_every_value_can_be_shown(kind: str, si: float, system: units.System, role: Role) -> None:
    shown = show(kind, si, system, role)
    assert "nan" not in shown.number
    assert "e" not in shown.number
    assert not shown.number.startswith("-"), "the minus is a true one"
    assert str(shown) == f"{shown.number} {shown.unit}".strip()


@given(st.sampled_from(KINDS), st.floats(-1e8, 1e8), systems)
def test_a_fine_value_keeps_five_figures(kind: str, si: float, system: units.System) -> None:
    shown = fine(kind, si, system)
    unit = {sign: plain for plain, sign in display.SIGNS.items()}.get(shown.unit, shown.unit)
    unit = {"temperature_change": {"degF": "delta_degF"}}.get(kind, {}).get(unit, unit)
    back = units.to_si(number(shown), unit, kind) if kind != "temperature" else None
    if back is not None and abs(si) > 1e-4:
        assert back == pytest.approx(si, rel=1e-4, abs=1e-9)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_never_shown(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        show("mass", value, "us")
    with pytest.raises(ValueError, match="finite"):
        fine("mass", value, "us")


def test_a_float_a_hair_below_a_step_is_on_the_step() -> None:
    assert display.figure(2999.9999999999995, 10, "capacity") == "3,000"
    assert display.figure(3000.0000000000005, 10, "demand") == "3,000"
    assert display.figure(2999.9, 10, "capacity") == "2,990"
    assert display.figure(0.25, Fraction(1, 10), "fact") == "0.3"
    assert display.figure(-0.01, Fraction(1, 10), "fact") == "0.0", "no minus before nothing"


def test_every_unit_belongs_to_the_readers_it_is_known_to() -> None:
    known = {unit for factors in units.FACTORS.values() for unit in factors} | {
        *units.TEMPERATURES,
        *units.ANGLES,
    }
    assert known >= display.US_ONLY
    assert known >= display.METRIC_ONLY
    assert not display.US_ONLY & display.METRIC_ONLY
    for kind in units.SI_UNIT:
        for system in ("us", "metric"):
            unit = display.unit_for(kind, 1.0, system)
            assert unit in units.units_of(kind)
            foreign = display.METRIC_ONLY if system == "us" else display.US_ONLY
            assert unit not in foreign or kind == "acceleration"
