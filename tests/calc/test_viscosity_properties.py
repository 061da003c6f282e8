"""Viscosity: what must hold for any oil and temperature."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import viscosity
from sendoff.errors import OutOfRange

grades = st.sampled_from([15, 22, 32, 46, 68, 100, 150])
indices = st.floats(60.0, 160.0)


@given(st.floats(10.0, 500.0), indices, st.floats(268.0, 400.0))
def test_warmer_oil_is_thinner_and_the_temperature_comes_back(
    at_40: float, index: float, temperature_K: float
) -> None:
    at_100C = viscosity.viscosity_at_100C(at_40 * 1e-6, index)
    try:
        one = viscosity.viscosity_at(at_40 * 1e-6, at_100C, temperature_K)
        warmer = viscosity.viscosity_at(at_40 * 1e-6, at_100C, temperature_K + 2)
    except OutOfRange as refusal:
        assert refusal.name == "temperature_K"  # noqa: PT017
        return
    assert warmer < one
    if one >= 2.0e-6:
        back = viscosity.temperature_of_viscosity(at_40 * 1e-6, at_100C, one)
        assert math.isclose(back, temperature_K, abs_tol=1e-4)


@given(st.floats(10.0, 500.0), indices)
def test_the_index_comes_back_from_the_viscosity_found_for_it(at_40: float, index: float) -> None:
    at_100C = viscosity.viscosity_at_100C(at_40 * 1e-6, index)
    assert math.isclose(viscosity.viscosity_index(at_40 * 1e-6, at_100C), index, abs_tol=0.4)


@given(grades, st.floats(240.0, 370.0))
def test_a_thicker_grade_never_starts_colder(grade: int, temperature_K: float) -> None:
    found = viscosity.cold_start(grade, temperature_K)
    assert found.works_from_K > found.starts_from_K
    assert (found.verdict == "too thick to start") == (temperature_K < found.starts_from_K - 1e-6)
    if grade < 150:
        thicker = viscosity.cold_start(
            {15: 22, 22: 32, 32: 46, 46: 68, 68: 100, 100: 150}[grade], temperature_K
        )
        assert thicker.starts_from_K > found.starts_from_K


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_viscosity_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange):
        viscosity.viscosity_at(bad, 5.4e-6, 300.0)
    with pytest.raises(OutOfRange):
        viscosity.viscosity_index(bad, 5.4e-6)
