"""Reading values as people write them, and nothing else."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import units
from sendoff.units import UnitError, parse

KINDS = sorted(units.SI_UNIT)
UNITS = [(kind, unit) for kind in KINDS for unit in units.units_of(kind)]
exact = st.fractions(min_value=-(10**6), max_value=10**6, max_denominator=10**4)


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("110 psi", "pressure", 758423.3022485197),
        ("110psi", "pressure", 758423.3022485197),
        ("110 PSI", "pressure", 758423.3022485197),
        ("110 psig", "pressure", 758423.3022485197),
        ("758 kPa", "pressure", 758000.0),
        ("758 kpa", "pressure", 758000.0),
        ("1,200 lb", "mass", 544.310844),
        ("1200 pounds", "mass", 544.310844),
        ("5 lb 3 oz", "mass", 2.353010419375),
        ("2 tons", "mass", 1814.36948),
        ("1e3 lb", "mass", 453.59237),
        ("2-5/16 in", "length", 0.0587375),
        ("2 5/16 in", "length", 0.0587375),
        ("5/16in", "length", 0.0079375),
        ("-5/16 in", "length", -0.0079375),
        ("−5/16 in", "length", -0.0079375),
        (".5 in", "length", 0.0127),
        ("9 ft 6 in", "length", 2.8956),
        ("9ft 6in", "length", 2.8956),
        ("9ft6in", "length", 2.8956),
        ("9'6\"", "length", 2.8956),
        ("9'-6\"", "length", 2.8956),
        ("9 ft 6 1/2 in", "length", 2.9083),
        ("9 ft 6-1/2 in", "length", 2.9083),
        ("13' 6 1/2\"", "length", 4.1275),
        ("5 foot 6 inches", "length", 1.6764),
        ("-9 ft 6 in", "length", -2.8956),
        ("450 lbf·ft", "torque", 610.1180767491301),
        ("450 lbf ft", "torque", 610.1180767491301),
        ("450 lb-ft", "torque", 610.1180767491301),
        ("450 FT-LB", "torque", 610.1180767491301),
        ("450 ft lb", "torque", 610.1180767491301),
        ("100 N m", "torque", 100.0),
        ("4.1 tonnes", "mass", 4100.0),
        ("2 short tons", "mass", 1814.36948),
        ("9,500 lb", "force", 42258.10534497475),
        ("9,500 lbf", "force", 42258.10534497475),
        ("9,500 lb", "mass", 4309.127515),
        ("100 lb/in", "stiffness", 17512.683524647636),
        ("72 °F", "temperature", 295.3722222222222),
        ("72 F", "temperature", 295.3722222222222),
        ("20 C", "temperature", 293.15),
        ("20 C", "charge", 20.0),
        ("10 °F", "temperature_change", 50 / 9),
        ("1 h 30 min", "duration", 5400.0),
        ("60 mph", "speed", 26.8224),
        ("60 MPH", "speed", 26.8224),
        ("20 %", "ratio", 0.2),
        ("20%", "ratio", 0.2),
        ("0.2", "ratio", 0.2),
        ("3", "count", 3.0),
        ("90 deg", "angle", math.pi / 2),
        ("5.5 cu yd", "volume", 4.205051718912),
        ("1.24 ohm/1000 ft", "resistance_per_length", 0.004068241469816273),
    ],
)
def test_a_value_is_read_as_people_write_it(text: str, kind: str, si: float) -> None:
    value = parse(text, kind)
    assert value.si == pytest.approx(si, rel=1e-14)
    assert value.given == text
    assert value.unit in units.units_of(kind)


@pytest.mark.parametrize(
    ("text", "kind", "part"),
    [
        ("", "mass", "no value"),
        ("lb", "mass", "not a number"),
        ("- lb", "mass", "not a number"),
        ("110", "pressure", "unit is missing"),
        ("110 lb", "pressure", "'lb' is not a unit of pressure"),
        ("5 mpa", "pressure", "'mpa' is not a unit"),
        ("5 MV", "voltage", "'MV' is not a unit"),
        ("1,00 lb", "mass", "not a number"),
        ("1000,5 kg", "mass", "not a number"),
        ("1 000 lb", "mass", "more than one value"),
        ("1_000 lb", "mass", "not a"),
        ("nan lb", "mass", "not a number"),
        ("inf lb", "mass", "not a number"),
        ("5.5.5 lb", "mass", "not a unit"),
        ("5. in", "length", "not a unit"),
        ("1/0 in", "length", "divides by nothing"),
        ("9 ft 12 in", "length", "more than one value"),
        ("9 ft -6 in", "length", "not a unit"),
        ("9 ft 6 in 2 in", "length", "more than one value"),
        ("6 in 9 ft", "length", "more than one value"),
        ("9 ft 6 in", "mass", "more than one value"),
        ("3 h 70 min", "duration", "more than one value"),
        ("-500 degF", "temperature", "absolute zero"),
        ("-1 K", "temperature", "absolute zero"),
        ("\N{ARABIC-INDIC DIGIT THREE} lb", "mass", "not a number"),
        ("5 lb <b>", "mass", "not a unit"),
        ("5 \N{RIGHT-TO-LEFT OVERRIDE}bl", "mass", "not a unit"),
        ("9" * 61 + " lb", "mass", "too long"),
        ("5 xyz", "count", "not a unit of count"),
    ],
)
def test_what_is_no_such_value_is_refused_with_a_cure(text: str, kind: str, part: str) -> None:
    with pytest.raises(UnitError) as refusal:
        parse(text, kind)
    assert part in refusal.value.problem
    assert refusal.value.cure.endswith((".", "?"))


@given(exact, st.sampled_from(UNITS))
def test_a_value_turned_into_si_and_back_is_the_same(value: Fraction, kind_unit: tuple[str, str]) -> None:
    kind, unit = kind_unit
    try:
        si = units.to_si(value, unit, kind)
    except UnitError as refused:
        assert "absolute zero" in refused.problem  # noqa: PT017
        return
    assert units.from_si(si, unit, kind) == pytest.approx(float(value), rel=1e-12, abs=1e-9)


@given(exact, st.sampled_from(UNITS))
def test_a_written_value_is_read_exactly(value: Fraction, kind_unit: tuple[str, str]) -> None:
    kind, unit = kind_unit
    decimal = f"{float(value):.6f}"
    try:
        read = parse(f"{decimal} {unit}".strip(), kind)
    except UnitError as refused:
        assert "absolute zero" in refused.problem  # noqa: PT017
        return
    assert read.si == units.to_si(Fraction(decimal), unit, kind)


@given(st.integers(0, 200), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_add_up(feet: int, inches: int, sixteenths: int) -> None:
    exact_m = (Fraction(feet * 12 + inches) + Fraction(sixteenths, 16)) * Fraction("0.0254")
    text = f"{feet} ft {inches} {sixteenths}/16 in" if inches else f"{feet} ft {sixteenths}/16 in"
    assert parse(text, "length").si == float(exact_m)
    assert parse(f"{feet}'{inches}-{sixteenths}/16\"", "length").si == float(exact_m)


@given(st.text(max_size=80), st.sampled_from(KINDS))
def test_any_text_is_a_value_or_refused(text: str, kind: str) -> None:
    try:
        value = parse(text, kind)
    except UnitError as refused:
        assert refused.cure  # noqa: PT017
        return
    assert math.isfinite(value.si)
    assert value.unit in units.units_of(kind)


@given(st.text(alphabet="0123456789-−+./,eE ftinlbpsk'\"%°FCh", max_size=24), st.sampled_from(KINDS))
def test_any_text_that_looks_like_a_value_is_one_or_refused(text: str, kind: str) -> None:
    try:
        value = parse(text, kind)
    except UnitError:
        return
    assert math.isfinite(value.si)
    assert parse(value.given, kind) == value, "what is kept as given reads the same again"


def test_every_alias_names_a_unit() -> None:
    known = {unit for kind in KINDS for unit in units.units_of(kind)}
    assert set(units.ALIASES.values()) <= known
    assert not set(units.ALIASES) & known - {"gal/min"}, "an alias of a unit would hide it"
    for kind, own in units.KIND_ALIASES.items():
        assert set(own.values()) <= set(units.units_of(kind))


def test_every_kind_has_one_suffix_and_one_si_unit() -> None:
    assert set(units.SUFFIX_KIND.values()) == set(units.SI_UNIT)
    assert len(set(units.SUFFIX_KIND.values())) == len(units.SUFFIX_KIND)
    for kind, unit in units.SI_UNIT.items():
        assert units.to_si(1, unit, kind) == 1.0


def test_too_large_a_number_is_refused_not_infinite() -> None:
    with pytest.raises(UnitError):
        units.to_si(Fraction(10) ** 400, "lb", "mass")
    with pytest.raises(UnitError, match="beyond any measure"):
        units.to_si(Fraction(10) ** 306, "Ah", "charge")
