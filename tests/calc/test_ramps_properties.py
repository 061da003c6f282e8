"""Ramps: what must hold for any ramp, vehicle and line."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import ramps
from sendoff.errors import OutOfRange

rises = st.floats(0.05, 1.5)
lengths = st.floats(1.6, 6.0)


@given(rises, lengths)
def test_a_longer_ramp_is_flatter_and_the_length_comes_back(rise: float, length: float) -> None:
    angle = ramps.ramp_angle(rise, length)
    assert ramps.ramp_angle(rise, length + 0.5) < angle
    if angle > math.radians(1):
        assert math.isclose(ramps.least_ramp_length(rise, angle), length, rel_tol=1e-9)


@given(st.floats(1.5, 6.0), st.floats(0.05, 0.5), st.floats(0.02, 0.9))
def test_the_knee_touches_just_when_it_is_sharper_than_the_breakover_angle(
    base: float, belly: float, knee: float
) -> None:
    breakover = ramps.breakover_angle(base, belly)
    found = ramps.crest_check(base, belly, knee)
    if abs(knee - breakover) > 1e-9:
        assert found.passes == (knee < breakover)


@given(st.floats(1.5, 4.0), st.floats(0.08, 0.4), st.floats(0.0, 1.0), st.floats(0.05, 0.6))
def test_the_knee_stands_as_high_as_a_drawing_of_it_says(
    base: float, belly: float, share: float, knee: float
) -> None:
    """Wheels laid on both planes, the belly line drawn between them: nowhere on the crest is it nearer."""
    found = ramps.crest_check(base, belly, knee)
    reach = base / (
        2 * math.cos(knee / 2)
    )  # each wheel from the knee, along its plane, so that they stand L apart
    slide = (share - 0.5) * 0.2
    first, second = reach + slide, reach - slide
    lower = (-first * math.cos(knee), -first * math.sin(knee))
    upper = (second, 0.0)
    along = math.dist(lower, upper)
    above = abs(lower[0] * upper[1] - lower[1] * upper[0]) / along
    assert above <= found.crest_m + 1e-6


@given(
    rises,
    st.floats(2.0, 6.0),
    st.floats(1.8, 4.0),
    st.floats(0.08, 0.4),
    st.floats(0.1, 0.6),
    st.floats(0.1, 0.6),
)
def test_a_ramp_of_the_length_advised_passes(
    rise: float, length: float, base: float, belly: float, approach: float, departure: float
) -> None:
    found = ramps.loading_check(rise, length, base, belly, approach, departure)
    assert found.passes == (found.first_to_touch == "")
    longer = ramps.loading_check(rise, found.least_ramp_m * 1.001, base, belly, approach, departure)
    assert longer.passes


@given(
    st.floats(500.0, 5000.0),
    st.floats(1.5, 4.0),
    st.floats(0.05, 0.95),
    st.floats(0.2, 1.0),
    st.floats(0.0, 0.5),
)
def test_axle_loads_sum_to_the_weight_square_to_the_ramp(
    mass: float, base: float, share: float, height: float, angle: float
) -> None:
    try:
        found = ramps.axle_loads_on_slope(mass, base, share * base, height, angle)
    except OutOfRange as refusal:
        assert refusal.name == "ramp_rad"  # noqa: PT017
        return
    assert math.isclose(found.upper_N + found.lower_N, mass * 9.80665 * math.cos(angle), rel_tol=1e-9)
    assert found.lower_share_ratio >= share - 1e-9


@given(st.floats(1.0, 7.4e5), st.floats(1.0, 7.4e5))
def test_more_voltage_never_allows_less_distance(one_V: float, other_V: float) -> None:
    low, high = sorted((one_V, other_V))
    assert ramps.power_line_distance(low).least_m <= ramps.power_line_distance(high).least_m
    assert ramps.power_line_transit(low).keep_m <= ramps.power_line_transit(high).keep_m


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_length_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        ramps.ramp_angle(0.5, bad)
    assert refusal.value.name == "ramp_length_m"
