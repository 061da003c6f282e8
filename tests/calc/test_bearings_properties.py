"""Bearings: what must hold for any hub."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import bearings
from sendoff.errors import OutOfRange

ORDER = ["too tight", "as both texts say", "only by the wider text", "too loose"]


@given(st.floats(0.001, 0.5), st.floats(0.001, 0.2), st.floats(0.0002, 0.009))
def test_the_strokes_give_the_charge_and_one_fewer_does_not(
    outside: float, width: float, stroke: float
) -> None:
    charge = bearings.bearing_grease_charge(outside, width)
    strokes = bearings.grease_strokes(charge, own_stroke_kg=stroke)
    assert strokes * stroke >= charge * (1 - 1e-6)
    assert (strokes - 1) * stroke <= charge * (1 + 1e-6)


@given(st.floats(0.0, 0.001), st.floats(0.0, 0.001))
def test_more_play_never_reads_tighter(one: float, other: float) -> None:
    low, high = sorted((one, other))
    tighter, looser = bearings.end_play_check(low), bearings.end_play_check(high)
    assert ORDER.index(tighter.verdict) <= ORDER.index(looser.verdict)


@given(st.floats(250.0, 400.0), st.lists(st.floats(250.0, 400.0), min_size=1, max_size=7))
def test_a_hotter_hub_is_never_let_go_where_a_cooler_one_is_stopped(hub_K: float, mates: list[float]) -> None:
    one = bearings.hub_temperature_check(hub_K, tuple(mates))
    hotter = bearings.hub_temperature_check(hub_K + 5, tuple(mates))
    assert hotter.stop >= one.stop
    assert math.isclose(hotter.over_mates_dK, one.over_mates_dK + 5)


@given(
    st.floats(0.0, 1e8),
    st.floats(0.0, 1e8),
    st.sampled_from(["packed", "access_cap", "oil_bath", "water_dipped"]),
)
def test_a_hub_once_due_stays_due(driven: float, elapsed: float, hub: bearings.Hub) -> None:
    if bearings.hub_service(hub, driven, elapsed).due:
        assert bearings.hub_service(hub, driven * 1.1, elapsed * 1.1).due


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_no_time_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        bearings.water_wait(bad)
    assert refusal.value.name == "stood_s"
