"""Plans of tie-downs before judges that know only the rule: what is planned holds, and what could be tied is found."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sendoff.calc.securement.plan import tie_down_plan
from sendoff.calc.securement.plan_en import en_lashing_plan
from sendoff.calc.securement.plan_over_top import over_top_plan
from sendoff.calc.securement.us import tie_downs_by_length
from tests.calc.plan_verifier import (
    LB_kg,
    Rig,
    corners_can_be_tied,
    en_left_over,
    faults_of_plan,
    faults_over_top,
)

OFF_MIDDLE = st.sampled_from([-1.2, -1.05, -0.9, 0.9, 1.05, 1.2])
deck_points = st.tuples(st.floats(0.5, 10.0), OFF_MIDDLE, st.floats(400.0, 5000.0))
pieces = st.tuples(st.floats(400.0, 5000.0), st.floats(0.7, 6.0))
corners = st.tuples(st.floats(2.5, 4.0), st.floats(1.5, 4.5), st.floats(0.5, 0.9), st.floats(800.0, 6000.0))


def rig_of(
    mass: float, corner: tuple[float, float, float, float], deck: Any, gear: Any, height: float
) -> Rig:
    x, base, half, limit = corner
    holds = [(x, -half, limit), (x, half, limit), (x + base, -half, limit), (x + base, half, limit)]
    return Rig(mass, holds, deck, gear, height)


def planned(rig: Rig, kind: Any, rule: Any = "stricter") -> Any:
    def column(rows: Any, at: int) -> tuple[float, ...]:
        return tuple(row[at] for row in rows)

    return tie_down_plan(
        kind, rig.mass, column(rig.holds, 0), column(rig.holds, 1),
        column(rig.deck, 0), column(rig.deck, 1), column(rig.deck, 2), column(rig.gear, 0), column(rig.gear, 1),
        column(rig.holds, 2), rig.height, rig.extra, rule,
    )  # fmt: skip


FRAME = [(1.5, -1.1, 2500.0), (1.5, 1.1, 2500.0), (9.5, -1.1, 2500.0), (9.5, 1.1, 2500.0)]
"""Four anchors round every load that has any place between them."""
rigs = st.builds(
    rig_of,
    st.floats(500.0, 4500.0),
    corners,
    st.one_of(
        st.lists(deck_points, min_size=4, max_size=10),
        st.lists(deck_points, max_size=4).map(lambda more: [*more, *FRAME]),
    ),
    st.lists(pieces, min_size=2, max_size=8),
    st.floats(0.0, 1.2),
)
heavy_rigs = st.builds(
    rig_of,
    st.floats(3000.0, 9000.0),
    corners,
    st.lists(st.tuples(st.floats(0.5, 10.0), OFF_MIDDLE, st.floats(2000.0, 6000.0)), min_size=4, max_size=10),
    st.lists(st.tuples(st.floats(2000.0, 6000.0), st.floats(1.0, 7.0)), min_size=4, max_size=8),
    st.floats(0.0, 1.2),
)


@settings(max_examples=120)
@given(rigs, st.sampled_from(["stricter", "rule_text", "drivers_handbook"]))
def test_the_judge_finds_no_fault_in_a_plan_of_a_car(rig: Rig, rule: str) -> None:
    plan = planned(rig, "car", rule)
    if plan.feasible:
        assert list(faults_of_plan(rig, "car", plan, rule)) == []
        assert plan.margin_kg >= -1e-6
    else:
        assert plan.why_not


@settings(max_examples=120)
@given(heavy_rigs, st.sampled_from(["stricter", "rule_text", "drivers_handbook"]))
def test_the_judge_finds_no_fault_in_a_plan_of_a_machine(rig: Rig, rule: str) -> None:
    plan = planned(rig, "machine", rule)
    if plan.feasible:
        assert list(faults_of_plan(rig, "machine", plan, rule)) == []
    else:
        assert plan.why_not


@settings(max_examples=40)
@given(
    st.builds(
        rig_of,
        st.floats(1000.0, 4500.0),
        corners,
        st.lists(deck_points, min_size=4, max_size=5),
        st.lists(pieces, min_size=4, max_size=5),
        st.floats(0.1, 0.8),
    )
)
def test_what_can_be_tied_at_four_corners_is_found_for_a_car(rig: Rig) -> None:
    if corners_can_be_tied(rig, "car"):
        assert planned(rig, "car").feasible


@settings(max_examples=40)
@given(
    st.builds(
        rig_of,
        st.floats(4600.0, 8000.0),
        st.tuples(st.floats(3.0, 4.0), st.floats(2.0, 3.0), st.floats(0.6, 0.9), st.just(6000.0)),
        st.lists(
            st.tuples(
                st.sampled_from([1.0, 1.8, 2.4, 6.8, 7.4, 8.2]),
                st.sampled_from([-1.2, 1.2]),
                st.floats(2200.0, 6000.0),
            ),
            min_size=4,
            max_size=6,
            unique_by=lambda point: point[:2],
        ),
        st.lists(st.tuples(st.floats(2200.0, 6000.0), st.floats(2.0, 6.0)), min_size=4, max_size=5),
        st.floats(0.1, 0.8),
    )
)
def test_what_can_be_tied_at_four_corners_is_found_for_a_heavy_machine(rig: Rig) -> None:
    if corners_can_be_tied(rig, "machine"):
        assert planned(rig, "machine").feasible


@settings(max_examples=25)
@given(
    corners,
    st.lists(deck_points, min_size=4, max_size=5),
    st.lists(pieces, min_size=4, max_size=5),
    st.floats(0.1, 0.8),
)
def test_the_heaviest_car_that_four_corners_hold_is_planned_too(
    corner: Any, deck: Any, gear: Any, height: float
) -> None:
    """At the very edge only one dealing of the gear will do."""

    def at(mass: float) -> Rig:
        return rig_of(mass, corner, deck, gear, height)

    low, high = 300.0, 4535.0
    if not corners_can_be_tied(at(low), "car"):
        return
    for _ in range(12):
        middle = (low + high) / 2
        low, high = (middle, high) if corners_can_be_tied(at(middle), "car") else (low, middle)
    assert planned(at(low), "car").feasible


def test_the_strongest_chain_goes_where_another_would_be_wasted() -> None:
    """Dealt from the strongest bearing pair down, these five pieces hold 4,000 kg and not the 4,425 they can."""
    rig = rig_of(
        4425.0,
        (3.527789, 1.909916, 0.877044, 3798.0),
        [
            (7.943751, -1.0, 2055.6),
            (1.226214, 1.2, 1650.3),
            (8.100573, 1.0, 1232.5),
            (2.128731, -1.0, 1373.3),
        ],
        [(1231.9, 1.711768), (1418.3, 2.802662), (480.1, 2.751903), (1572.9, 4.333070), (954.0, 3.639225)],
        0.592883,
    )
    assert corners_can_be_tied(rig, "car")
    plan = planned(rig, "car")
    assert plan.feasible
    assert list(faults_of_plan(rig, "car", plan)) == []


def test_a_rig_that_cannot_be_tied_is_called_so() -> None:
    """Nothing at the rear; gear too short; gear too weak by one pound; one strap short of four."""
    corner, strong = (3.0, 2.7, 0.75, 5000.0), [(1500.0, 3.0)] * 4
    square = [(2.0, -1.0, 3000.0), (2.0, 1.0, 3000.0), (6.7, -1.0, 3000.0), (6.7, 1.0, 3000.0)]
    front_only = [(x, y, 3000.0) for x in (1.5, 2.0) for y in (-1.0, 1.0)]
    for deck, gear, mass in (
        (front_only, strong, 1500.0),
        (square, [(1500.0, 1.2)] * 4, 1500.0),
        (square, [(875 * LB_kg, 3.0)] * 4, 3501 * LB_kg),
        (square, strong[:3], 1500.0),
    ):
        rig = rig_of(mass, corner, deck, gear, 0.3)
        assert not planned(rig, "car").feasible
        if len(gear) >= 4:
            assert not corners_can_be_tied(rig, "car")
    exact = rig_of(3500 * LB_kg, corner, square, [(875 * LB_kg, 3.0)] * 4, 0.3)
    assert planned(exact, "car").feasible, "four of 875 lb count 1,750, half of 3,500"


@pytest.mark.parametrize(
    ("spoil", "told"),
    [
        (lambda tie: {"gear": 2 if tie.gear == 1 else 1}, "used twice"),
        (lambda tie: {"wll_kg": tie.wll_kg * 1.01}, "stronger than its weakest part"),
        (lambda tie: {"pulls": "forward" if tie.pulls == "rearward" else "rearward"}, "does not pull"),
        (lambda tie: {"deck_point": {1: 2, 2: 1, 3: 4, 4: 3}[tie.deck_point]}, "runs across"),
    ],
)
def test_the_judge_sees_a_spoiled_plan(spoil: Any, told: str) -> None:
    rig = rig_of(
        1500.0,
        (3.0, 2.7, 0.75, 5000.0),
        [(2.0, -1.0, 3000.0), (2.0, 1.0, 3000.0), (6.7, -1.0, 3000.0), (6.7, 1.0, 3000.0)],
        [(1500.0, 3.0)] * 4,
        0.3,
    )
    plan = planned(rig, "car")
    assert list(faults_of_plan(rig, "car", plan)) == []
    tie = plan.tie_downs[0]
    bad = dataclasses.replace(tie, **spoil(tie))
    spoiled = dataclasses.replace(plan, tie_downs=(bad, *plan.tie_downs[1:]))
    assert any(told in fault for fault in faults_of_plan(rig, "car", spoiled))
    short = dataclasses.replace(plan, tie_downs=plan.tie_downs[1:])
    assert any("asked for" in fault for fault in faults_of_plan(rig, "car", short))


@settings(max_examples=100)
@given(
    st.floats(200.0, 6000.0),
    st.tuples(st.floats(1.0, 6.0), st.floats(0.6, 2.2), st.floats(0.3, 2.0)),
    st.lists(st.tuples(st.floats(1.0, 9.0), st.floats(500.0, 3000.0)), min_size=1, max_size=7),
    st.lists(st.tuples(st.floats(500.0, 3000.0), st.floats(2.0, 9.0)), min_size=1, max_size=7),
)
def test_the_judge_finds_no_fault_in_straps_over_the_top(
    mass: float, size: Any, rows: Any, gear: Any
) -> None:
    deck = [(x, y, limit) for x, limit in rows for y in (-1.25, 1.25)]
    plan = over_top_plan(
        mass, 2.0, size[0], size[1], size[2], tuple(x for x, _, _ in deck), tuple(y for _, y, _ in deck),
        tuple(limit for _, _, limit in deck), tuple(limit for limit, _ in gear), tuple(long for _, long in gear),
    )  # fmt: skip
    count = tie_downs_by_length(size[0], mass)
    assert list(faults_over_top(plan, mass, 2.0, size, deck, gear, count)) == []
    assert plan.feasible or plan.why_not


@settings(max_examples=100)
@given(
    st.builds(
        rig_of,
        st.floats(500.0, 4500.0),
        corners,
        st.lists(deck_points, min_size=0, max_size=4).map(lambda more: [*FRAME, *more]),
        st.lists(st.tuples(st.floats(400.0, 5000.0), st.floats(5.5, 8.0)), min_size=4, max_size=8),
        st.just(0.3),
    ),
    st.floats(0.1, 0.6),
    st.floats(0.2, 1.2),
)
def test_margins_of_a_european_plan_are_those_of_its_vectors(
    rig: Rig, friction: float, height: float
) -> None:
    newtons = Rig(
        rig.mass,
        rig.holds,
        [(x, y, 10 * limit) for x, y, limit in rig.deck],
        [(10 * limit, long) for limit, long in rig.gear],
        height,
    )
    plan = en_lashing_plan(
        7500.0, rig.mass, friction, tuple(x for x, _, _ in rig.holds), tuple(y for _, y, _ in rig.holds),
        tuple(x for x, _, _ in newtons.deck), tuple(y for _, y, _ in newtons.deck),
        tuple(limit for _, _, limit in newtons.deck), tuple(limit for limit, _ in newtons.gear),
        tuple(long for _, long in newtons.gear), height,
    )  # fmt: skip
    if not plan.lashings:  # out of reach: then nothing is claimed
        assert not plan.feasible
        return
    left = en_left_over(newtons, plan, friction)
    told = {way: getattr(plan, f"{way}_margin_N") for way in left}
    for way, margin in left.items():
        assert told[way] == pytest.approx(margin, rel=1e-6, abs=1e-6 * rig.mass), way
    assert plan.feasible == all(margin >= -1e-6 * rig.mass for margin in left.values()) or math.isclose(
        min(left.values()), 0.0, abs_tol=1e-3
    )
