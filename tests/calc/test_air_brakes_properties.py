"""Air brakes: what must hold for any chamber, leak and pressure."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import air_brakes
from sendoff.errors import OutOfRange

PSI = 6894.757293168361
chambers = st.sampled_from(
    [(row["chamber"], row["chamber_type"]) for row in tables.load("air_chamber_stroke").rows]
)


@given(chambers, st.floats(0.0, 0.1))
def test_a_longer_stroke_never_passes_where_a_shorter_one_fails(
    chamber: tuple[air_brakes.stroke.Chamber, str], stroke_m: float
) -> None:
    kind, size = chamber
    short = air_brakes.push_rod_stroke_check(stroke_m, size, kind)
    longer = air_brakes.push_rod_stroke_check(stroke_m + 0.01, size, kind)
    assert short.passes >= longer.passes
    assert math.isclose(short.left_m + stroke_m, short.limit_m)


@given(st.sampled_from(["12", "16", "20", "24", "30"]))
def test_a_long_stroke_chamber_never_has_the_shorter_limit(size: str) -> None:
    ordinary = air_brakes.push_rod_stroke_limit(size)
    assert air_brakes.push_rod_stroke_limit(size, "clamp_long") > ordinary


@given(st.floats(20.0, 79.0))
def test_more_pressure_asks_for_more_force(psi: float) -> None:
    assert air_brakes.trailer_retardation(psi * PSI) < air_brakes.trailer_retardation((psi + 1) * PSI)


@given(st.floats(0.0, 20.0), st.integers(1, 3), st.floats(30.0, 600.0))
def test_a_leak_released_is_allowed_less_than_one_applied(psi: float, units: int, time_s: float) -> None:
    released = air_brakes.air_leak_check(psi * PSI, units, "released", time_s)
    applied = air_brakes.air_leak_check(psi * PSI, units, "applied", time_s)
    assert released.limit_Pa < applied.limit_Pa
    assert released.passes <= applied.passes


@given(st.floats(40.0, 150.0))
def test_the_warning_pressure_is_the_stricter_of_both_rules(psi: float) -> None:
    found = air_brakes.low_air_warning(psi * PSI)
    assert found.warn_at_Pa == max(found.annual_list_Pa, found.build_standard_Pa)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_no_stroke_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        air_brakes.push_rod_stroke_check(bad, "30")
    assert refusal.value.name == "stroke_m"
