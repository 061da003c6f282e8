"""Brakes: what must hold for any trailer's feed and any magnets."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import brakes, wiring
from sendoff.errors import OutOfRange

gauges = st.sampled_from([14, 12, 10, 8, 6, 4, 2])
lengths = st.floats(1.0, 40.0)


@given(lengths, gauges, st.integers(2, 8))
def test_more_magnets_draw_more_and_leave_less(length_m: float, awg: int, magnets: int) -> None:
    one = brakes.brake_feed(12.5, length_m, awg, magnets)
    more = brakes.brake_feed(12.5, length_m, awg, magnets + 1)
    assert more.current_A > one.current_A
    assert more.at_magnets_V < one.at_magnets_V < 12.5
    assert math.isclose(one.drop_V, wiring.voltage_drop(one.current_A, length_m, wiring.wire_resistance(awg)))


@given(lengths, st.floats(0.0, 3.0), st.integers(1, 4), gauges)
def test_the_ladder_is_what_a_matrix_of_nodes_gives(
    first_m: float, between_m: float, axles: int, awg: int
) -> None:
    found = brakes.brake_feed_by_axle(12.5, first_m, between_m + 0.01, axles, awg)
    per_m = 2 * wiring.wire_resistance(awg)
    matrix, right = np.zeros((axles, axles)), np.zeros(axles)
    for at in range(axles):
        before = 1 / (per_m * (first_m if at == 0 else between_m + 0.01))
        matrix[at, at] += before + 2 / 3.2
        if at == 0:
            right[0] = 12.5 * before
        else:
            matrix[at - 1, at - 1] += before
            matrix[at, at - 1] -= before
            matrix[at - 1, at] -= before
    assert np.allclose(np.linalg.solve(matrix, right), found.at_axle_V, rtol=1e-9)


@given(lengths, st.integers(2, 8), st.sampled_from([0.03, 0.10]))
def test_the_gauge_advised_keeps_the_drop(length_m: float, magnets: int, share: float) -> None:
    try:
        awg = brakes.least_brake_gauge(12.5, length_m, magnets, share)
    except OutOfRange:
        assert brakes.brake_feed(12.5, length_m, -3, magnets).drop_ratio > share
        return
    assert brakes.brake_feed(12.5, length_m, awg, magnets).drop_ratio <= share
    assert awg <= 12


@given(st.floats(0.0, 40.0), st.integers(1, 8))
def test_every_reading_gets_one_verdict(measured_A: float, magnets: int) -> None:
    found = brakes.brake_current_reading(measured_A, 0.3048, magnets)
    assert (found.verdict == "within band") == (found.low_A <= measured_A <= found.high_A)
    assert found.meaning


@given(st.floats(0.0, 0.05), st.sampled_from(["air_drum", "air_disc", "hydraulic_or_electric"]))
def test_thicker_lining_never_passes_less(lining_m: float, brake: brakes.upkeep.Brake) -> None:
    thin, thick = brakes.lining_check(lining_m, brake), brakes.lining_check(lining_m + 0.001, brake)
    assert thick.passes_both >= thin.passes_both
    assert thin.passes_both == (thin.operating_rule_passes and thin.annual_list_passes)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_supply_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        brakes.brake_feed(bad, 10.0, 12, 4)
    assert refusal.value.name == "supply_V"
