"""Wiring: what must hold for any run of wire."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import wiring
from sendoff.errors import OutOfRange

gauges = st.sampled_from([18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3])
currents = st.floats(0.1, 60.0)
lengths = st.floats(0.5, 30.0)


@given(st.integers(-3, 39))
def test_a_higher_number_is_a_thinner_wire_of_more_resistance(awg: int) -> None:
    assert wiring.wire_area(awg) > wiring.wire_area(awg + 1)
    assert wiring.solid_wire_resistance(awg) < wiring.solid_wire_resistance(awg + 1)


@given(currents, lengths, st.sampled_from([0.03, 0.10]))
def test_the_least_gauge_keeps_the_drop_and_the_next_thinner_one_does_not(
    current_A: float, length_m: float, share: float
) -> None:
    try:
        found = wiring.least_gauge(12.0, current_A, length_m, share, "awg")
    except OutOfRange:
        assert wiring.least_copper_area(current_A, 2 * length_m, 12.0 * share) > wiring.wire_area(-3) * 0.99
        return
    assert found.area_m2 >= found.least_area_m2
    thinner = [awg for awg in (18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2) if awg > found.awg]
    if thinner:
        assert wiring.wire_area(min(thinner)) < found.least_area_m2 * 1.01


@given(currents, lengths, gauges)
def test_drop_grows_with_length_and_never_passes_the_supply(
    current_A: float, length_m: float, awg: int
) -> None:
    try:
        longer = wiring.wire_drop(12.0, current_A, length_m * 1.5, awg)
    except OutOfRange:
        return
    shorter = wiring.wire_drop(12.0, current_A, length_m, awg)
    assert 0 < shorter.drop_V < longer.drop_V < 12.0
    assert math.isclose(shorter.drop_V + shorter.at_load_V, 12.0)


@given(st.floats(0.5, 79.0), gauges.filter(lambda awg: awg != 1))
def test_a_fuse_said_to_protect_never_passes_what_the_wire_carries(load_A: float, awg: int) -> None:
    found = wiring.fuse_size(load_A, awg)
    assert found.fuse_A >= 1.25 * load_A - 1e-9
    assert found.wire_is_protected == (found.fuse_A <= wiring.wire_ampacity(awg))


@given(st.floats(220.0, 470.0), st.floats(220.0, 470.0), st.floats(1e-4, 100.0))
def test_resistance_comes_back_when_the_wire_cools_again(one_K: float, other_K: float, ohm: float) -> None:
    there = wiring.resistance_at_temperature(ohm, one_K, other_K)
    assert math.isclose(wiring.resistance_at_temperature(there, other_K, one_K), ohm, rel_tol=1e-12)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_no_current_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        wiring.wire_drop(12.0, bad, 5.0, 12)
    assert refusal.value.name == "current_A"
