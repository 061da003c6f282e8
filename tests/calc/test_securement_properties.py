"""What holds for every load: more weight never needs less, and no plan breaks the rule it was made for."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sendoff.calc import securement as se
from sendoff.calc._limits import feet, pounds
from sendoff.calc.securement._search import greatest_assignment
from sendoff.errors import OutOfRange
from tests.calc.numbers_of import numbers

masses = st.floats(20.0, 40_000.0)
limits = st.floats(100.0, 8_000.0)
friction = st.floats(0.1, 0.9)
anything = st.floats(allow_nan=True, allow_infinity=True)
WAYS: list[Any] = ["forward", "rearward", "sideways"]
PATHS: list[Any] = ["to_item", "same_side", "over", "direct", "indirect"]


@given(masses, st.lists(st.tuples(limits, st.sampled_from(PATHS)), min_size=1, max_size=8))
def test_the_aggregate_is_half_or_all_of_each(mass: float, ties: list[tuple[float, Any]]) -> None:
    found = se.us.aggregate_wll(mass, tuple(limit for limit, _ in ties), tuple(path for _, path in ties))
    assert math.fsum(found.counted_kg) == pytest.approx(found.aggregate_kg)
    for counted, (limit, path) in zip(found.counted_kg, ties, strict=True):
        assert counted == (limit if path in {"over", "indirect"} else limit / 2)
    assert found.holds == (found.margin_kg >= -1e-9 * mass)
    heavier = se.us.aggregate_wll(
        mass * 1.5, tuple(limit for limit, _ in ties), tuple(path for _, path in ties)
    )
    assert heavier.margin_kg < found.margin_kg


@given(st.integers(1, 60), st.integers(1, 20_000), st.booleans())
def test_the_number_by_length_is_the_rule_counted_in_whole_feet(
    length: int, weight: int, blocked: bool
) -> None:
    found = se.us.tie_downs_by_length(feet(length), pounds(weight), blocked_forward=blocked)
    if blocked:
        assert found == -(-length // 10)
    elif length <= 5:
        assert found == (1 if weight <= 1100 else 2)
    elif length <= 10:
        assert found == 2
    else:
        assert found == 2 + -(-(length - 10) // 10)
    assert se.us.tie_downs_by_length(feet(length + 3), pounds(weight + 500), blocked_forward=blocked) >= found


@given(masses, st.floats(0.5, 15.0), limits, st.sampled_from(PATHS), st.booleans())
def test_as_many_as_needed_satisfy_and_one_fewer_does_not(
    mass: float, length: float, each: float, path: Any, blocked: bool
) -> None:
    found = se.us.tie_downs_needed(mass, length, each, path, blocked_forward=blocked)
    enough = se.us.aggregate_wll(mass, (each,) * found.needed, (path,))
    assert enough.holds
    assert found.needed >= found.by_length
    if found.needed > found.by_length:
        assert not se.us.aggregate_wll(mass, (each,) * (found.needed - 1), (path,)).holds
    at_length = se.us.aggregate_wll(mass, (found.each_needed_kg,) * found.by_length, (path,))
    assert at_length.margin_kg == pytest.approx(0.0, abs=1e-6 * mass)


@given(st.floats(100.0, pounds(10_000)), st.sampled_from(["rule_text", "drivers_handbook"]))
def test_the_stricter_text_is_never_less_than_either(mass: float, rule: Any) -> None:
    stricter, one = se.commodities.car_tie_downs(mass), se.commodities.car_tie_downs(mass, rule)
    assert stricter.least_count >= one.least_count
    assert stricter.each_end_count >= one.each_end_count
    machine, other = (
        se.commodities.machine_tie_downs(mass * 3),
        se.commodities.machine_tie_downs(mass * 3, rule),
    )
    assert machine.least_count >= other.least_count
    assert (machine.each_wll_kg or 0) >= (other.each_wll_kg or 0)
    for found in (stricter, one, machine, other):
        assert "Rule text" in found.said or "may be used instead" in found.said


@given(masses, friction, st.floats(500.0, 8_000.0), st.sampled_from(WAYS), st.floats(30.0, 90.0))
def test_lashings_counted_hold_the_mass_they_were_counted_for(
    mass: float, mu: float, tension: float, way: Any, angle: float
) -> None:
    try:
        found = se.en12195.over_top_lashings(mass, mu, tension, way, math.radians(angle))
    except OutOfRange as refusal:
        assert refusal.name == "item_mass_kg"  # noqa: PT017
        return
    held = se.en12195.over_top_mass_held(mu, tension, way, math.radians(angle))
    assert found.fit_at_least_count >= 1
    assert found.friction_alone == (found.needed_count == 0)
    if held.held_kg is None:
        assert found.friction_alone
        return
    assert found.needed_count * held.held_kg >= mass * (1 - 1e-6)
    assert (found.needed_count - 1) * held.held_kg < mass * (1 + 1e-6)
    assert held.held_kg * found.exact_number == pytest.approx(mass, rel=1e-6)


@given(
    friction, st.floats(1000.0, 30_000.0), st.sampled_from(WAYS), st.floats(0.0, 79.0), st.floats(0.0, 79.0)
)
def test_more_friction_and_straighter_lashings_hold_more(
    mu: float, capacity: float, way: Any, steep: float, turned: float
) -> None:
    def held(mu: float, turned: float, count: int = 1) -> float:
        found = se.en12195_direct.direct_lashing_mass_held(
            count, capacity, mu, way, math.radians(steep), math.radians(turned)
        )
        return math.inf if found.held_kg is None else found.held_kg

    assert held(min(mu + 0.05, 1.0), turned) >= held(mu, turned)
    assert held(mu, max(turned - 5, 0.0)) >= held(mu, turned)
    assert held(mu, turned, 2) == pytest.approx(2 * held(mu, turned))
    block = se.en12195_direct.blocking_force(1000.0, mu, way)
    assert block >= se.en12195_direct.blocking_force(1000.0, min(mu + 0.05, 1.0), way) >= 0


@given(masses, st.floats(0.2, 3.0), st.floats(0.0, 1.5), st.floats(1.5, 2.5), st.sampled_from(WAYS))
def test_a_load_that_stands_needs_no_lashing_and_a_higher_one_never_fewer(
    mass: float, height: float, edge: float, width: float, way: Any
) -> None:
    def tip(height: float) -> Any:
        return se.en12195_direct.tipping_lashings(mass, height, edge, width, way, 50_000.0, 200_000.0)

    low = tip(height)
    if low.stands_alone:
        assert low.needed_count == 0
    assert tip(height + 0.2).exact_number >= low.exact_number
    if low.exact_number > 1e-6:
        assert low.needed_count >= 1


@given(
    st.floats(1_000.0, 3_000_000.0), st.floats(1.0, 40.0), st.one_of(st.none(), st.floats(1000.0, 80_000.0))
)
def test_no_stretch_between_looks_is_longer_than_the_rule_allows(
    trip: float, speed: float, yard: float | None
) -> None:
    stops = se.rules.load_recheck_stops(trip, speed, yard)
    mile = 1609.344
    places = [*stops.stop_at_m, trip]
    assert list(stops.stop_at_m) == sorted(set(stops.stop_at_m))
    assert places[0] <= 50 * mile * (1 + 1e-9) if trip > 50 * mile else True
    for sooner, later in itertools.pairwise(places):
        assert later - sooner <= 150 * mile * (1 + 1e-9)
        assert (later - sooner) / speed <= 3 * 3600 * (1 + 1e-9)
    for place, after in zip(stops.stop_at_m, stops.stop_after_s, strict=True):
        assert after == pytest.approx(place / speed)


points = st.tuples(st.floats(1.0, 9.0), st.sampled_from([-1.2, -1.0, 1.0, 1.2]), st.floats(500.0, 4000.0))
gear = st.tuples(st.floats(500.0, 4000.0), st.floats(0.8, 5.0))
HOLDS_X, HOLDS_Y = (3.5, 3.5, 6.2, 6.2), (-0.75, 0.75, -0.75, 0.75)


def plan_of(kind: Any, mass: float, deck: list[Any], pieces: list[Any], rule: Any = "stricter") -> Any:
    return se.plan.tie_down_plan(
        kind, mass, HOLDS_X, HOLDS_Y,
        tuple(x for x, _, _ in deck), tuple(y for _, y, _ in deck), tuple(w for _, _, w in deck),
        tuple(w for w, _ in pieces), tuple(length for _, length in pieces), rule=rule,
    )  # fmt: skip


@settings(max_examples=150)
@given(
    st.floats(800.0, 4000.0),
    st.lists(points, min_size=4, max_size=8),
    st.lists(gear, min_size=2, max_size=7),
    st.sampled_from(["stricter", "rule_text"]),
)
def test_a_plan_of_a_car_keeps_every_rule(mass: float, deck: list[Any], pieces: list[Any], rule: Any) -> None:
    plan = plan_of("car", mass, deck, pieces, rule)
    ties = plan.tie_downs
    assert len({tie.gear for tie in ties}) == len(ties), "a piece of gear is used once"
    assert len({tie.deck_point for tie in ties}) == len(ties), "an anchor point bears one tie-down"
    assert set(plan.gear_left) == set(range(1, len(pieces) + 1)) - {tie.gear for tie in ties}
    assert set(plan.deck_points_left) == set(range(1, len(deck) + 1)) - {tie.deck_point for tie in ties}
    for tie in ties:
        x, y, anchor = deck[tie.deck_point - 1]
        limit, length = pieces[tie.gear - 1]
        straight = math.dist((tie.hold_x_m, tie.hold_y_m, 0.3), (x, y, 0.0))
        assert tie.length_m == pytest.approx(straight + 0.3)
        assert length >= tie.length_m
        assert tie.wll_kg == min(limit, anchor)
        assert tie.counted_kg == tie.wll_kg / 2
        assert (tie.pulls == "rearward") == (x > tie.hold_x_m)
        assert y * tie.hold_y_m > 0, "not across the car"
    assert plan.aggregate_kg == pytest.approx(math.fsum(tie.counted_kg for tie in ties))
    assert plan.feasible == (not plan.why_not)
    if not plan.feasible:
        return
    assert plan.aggregate_kg >= mass / 2 * (1 - 1e-9)
    assert len(ties) >= plan.needed_count
    first = ties[: 2 * plan.needed_each_end]
    for rear in (False, True):
        end = [tie for tie in first if (tie.hold_x_m > 4.85) == rear]
        assert len(end) >= plan.needed_each_end
        if plan.needed_each_end == 2:
            assert {tie.side for tie in end} == {"left", "right"}
    assert {tie.pulls for tie in first} == {"forward", "rearward"}, "held both ways"


def brute_force(mass: float, deck: list[Any], pieces: list[Any]) -> bool:
    """Whether four tie-downs exist, one a corner and all outwards or all inwards, that satisfy the stricter rule."""
    holds = list(zip(HOLDS_X, HOLDS_Y, strict=True))

    def reach(hold: tuple[float, float], place: Any) -> float:
        return math.dist((*hold, 0.3), (place[0], place[1], 0.0))

    for chosen in itertools.permutations(range(len(deck)), 4):
        ways = []
        for hold, number in zip(holds, chosen, strict=True):
            along = deck[number][0] - hold[0]
            if deck[number][1] * hold[1] < 0 or abs(along) < 0.2 * reach(hold, deck[number]):
                break
            ways.append((along > 0) == (hold[0] > 4.85))
        if len(ways) < 4 or len(set(ways)) > 1:
            continue
        for tied in itertools.permutations(range(len(pieces)), 4):
            total = 0.0
            for hold, number, piece in zip(holds, chosen, tied, strict=True):
                if pieces[piece][1] < reach(hold, deck[number]) + 0.3:
                    break
                total += min(pieces[piece][0], deck[number][2])
            else:
                if total / 2 >= mass / 2:
                    return True
    return False


@settings(max_examples=60)
@given(
    st.floats(1500.0, 4400.0),
    st.lists(points, min_size=4, max_size=6),
    st.lists(gear, min_size=4, max_size=5),
)
def test_where_four_corners_can_be_tied_a_plan_is_found(
    mass: float, deck: list[Any], pieces: list[Any]
) -> None:
    if brute_force(mass, deck, pieces):
        assert plan_of("car", mass, deck, pieces).feasible


@given(
    st.lists(
        st.dictionaries(st.integers(0, 5), st.integers(1, 9).map(float), max_size=6), min_size=1, max_size=5
    )
)
def test_no_other_dealing_is_worth_more(worth: list[dict[int, float]]) -> None:
    """Against every permutation there is."""
    each = [
        math.fsum(row[key] for row, key in zip(worth, keys, strict=True))
        for keys in itertools.permutations(range(6), len(worth))
        if all(key in row for row, key in zip(worth, keys, strict=True))
    ]
    found = greatest_assignment(worth)
    if not each:
        assert found is None
        return
    assert found is not None
    assert len(set(found)) == len(worth)
    assert math.fsum(row[key] for row, key in zip(worth, found, strict=True)) == max(each)


@given(
    st.floats(200.0, 6000.0),
    st.floats(1.0, 6.0),
    st.lists(st.floats(1.0, 9.0), min_size=1, max_size=7),
    limits,
)
def test_a_plan_over_the_top_keeps_every_rule(
    mass: float, length: float, places: list[float], limit: float
) -> None:
    xs = tuple(x for place in places for x in (place, place))
    ys = (-1.2, 1.2) * len(places)
    plan = se.plan_over_top.over_top_plan(
        mass, 2.0, length, 1.5, 1.0, xs, ys, (3000.0,), (limit,) * 5, (8.0,)
    )
    needed = se.us.tie_downs_by_length(length, mass)
    assert plan.needed_count == needed
    used = [number for tie in plan.tie_downs for number in (tie.deck_point, tie.other_deck_point)]
    assert len(set(used)) == len(used)
    for tie in plan.tie_downs:
        assert 2.0 <= tie.hold_x_m <= 2.0 + length
        assert tie.length_m <= 8.0
        assert tie.wll_kg == tie.counted_kg == min(limit, 3000.0)
    if plan.feasible:
        assert len(plan.tie_downs) >= needed
        assert plan.aggregate_kg >= mass / 2 * (1 - 1e-9)
    else:
        assert plan.why_not


@given(st.floats(200.0, 9000.0), friction, st.lists(points, min_size=4, max_size=8), st.floats(5e3, 4e4))
def test_a_european_plan_holds_in_all_four_directions(
    mass: float, mu: float, deck: list[Any], capacity: float
) -> None:
    plan = se.plan_en.en_lashing_plan(
        7500.0, mass, mu, HOLDS_X, HOLDS_Y, tuple(x for x, _, _ in deck), tuple(y for _, y, _ in deck),
        tuple(w * 10 for _, _, w in deck), (capacity,) * 6, (5.0,),
    )  # fmt: skip
    least = min(plan.forward_margin_N, plan.rearward_margin_N, plan.left_margin_N, plan.right_margin_N)
    if plan.feasible:
        assert least >= 0
        assert len({lashing.deck_point for lashing in plan.lashings}) == len(plan.lashings)
        assert {lashing.pulls for lashing in plan.lashings} == {"forward", "rearward"}
    elif plan.lashings:
        assert least < 0


def test_the_two_rule_sets_never_stand_side_by_side() -> None:
    """Neither plan speaks of the other's count, and one question has one answer."""
    american = plan_of(
        "car",
        1500.0,
        [(2.0, -1.2, 3e3), (2.0, 1.2, 3e3), (7.0, -1.2, 3e3), (7.0, 1.2, 3e3)],
        [(1500.0, 4.0)] * 4,
    )
    assert american.feasible
    assert not any(name.endswith("_N") for name in type(american).__slots__)
    european = se.plan_en.LashingPlan.__slots__
    assert not any("aggregate" in name or "wll" in name for name in european)
    assert se.rules.securement_rule_set("US", 7500.0).rule_set == "393"
    assert se.rules.securement_rule_set("EU", 7500.0).rule_set == "en12195_1"


@given(st.lists(anything, min_size=5, max_size=5))
def test_no_input_whatever_gives_a_number_that_is_none(values: list[float]) -> None:
    a, b, c, d, e = values
    pair = (a, b)
    attempts: list[Callable[[], Any]] = [
        lambda: se.us.aggregate_wll(a, (b, c), ("over",)),
        lambda: se.us.tie_downs_by_length(a, b),
        lambda: se.us.tie_downs_needed(a, b, c),
        lambda: se.us.securement_forces(a),
        lambda: se.wll.chain_wll(a, "70", b),
        lambda: se.wll.webbing_wll(a),
        lambda: se.wll.rope_wll(a),
        lambda: se.wll.strapping_wll(a, b),
        lambda: se.wll.tie_down_wll(("a", "b"), pair),
        lambda: se.wll.pull_in_leg(a, 2, b),
        lambda: se.commodities.car_tie_downs(a),
        lambda: se.commodities.machine_tie_downs(a),
        lambda: se.commodities.bulkhead_strength(a, b, c),
        lambda: se.commodities.friction_mat_resistance(a, b),
        lambda: se.commodities.boulder_tie_downs(a, "unstable", b),
        lambda: se.rules.moving_load_check(a, b, "live_animals"),
        lambda: se.rules.load_recheck_stops(a, b, c),
        lambda: se.rules.securement_rule_set("EU", a),
        lambda: se.en12195.dynamic_friction(a),
        lambda: se.en12195.over_top_force(a, b, c),
        lambda: se.en12195.over_top_lashings(a, b, c, "forward", d, e),
        lambda: se.en12195.over_top_mass_held(a, b, "sideways", c, d, e),
        lambda: se.en12195_direct.direct_lashing_mass_held(2, a, b, "forward", c, d, e),
        lambda: se.en12195_direct.blocking_force(a, b, "forward"),
        lambda: se.en12195_direct.tipping_lashings(a, b, c, d, "sideways", e, a),
        lambda: se.en12195_direct.k_factor_equivalent(a),
        lambda: se.plan.tie_down_plan("car", a, pair, (c, d), (d, e), pair, (c,), (d,), (e,)),
        lambda: se.plan_over_top.over_top_plan(a, b, c, d, e, pair, (c, d), (e,), (a,), (b,)),
        lambda: se.plan_en.en_lashing_plan(a, b, c, pair, (c, d), (d, e), pair, (e,), (a,), (b,)),
    ]
    for attempt in attempts:
        try:
            result = attempt()
        except OutOfRange:
            continue
        assert all(math.isfinite(number) for number in numbers(result))
