"""What holds for every set of weights: more weight never frees from a rule, and thresholds hold to the pound."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import rules_of_the_road as rr
from sendoff.calc._limits import feet, pounds
from sendoff.errors import OutOfRange
from tests.calc.numbers_of import numbers

pound_weights = st.integers(500, 40_000)
anything = st.floats(allow_nan=True, allow_infinity=True)
RANK = {"not reached by these weights": 0, "C": 1, "B": 2, "A": 3}


@given(pound_weights, pound_weights)
def test_the_license_group_is_the_rule_counted_in_whole_pounds(truck: int, trailer: int) -> None:
    found = rr.license_groups.license_group(pounds(truck), pounds(trailer))
    if truck + trailer >= 26_001 and trailer > 10_000:
        assert found.group == "A"
    elif truck >= 26_001:
        assert found.group == "B"
    else:
        assert found.group == "not reached by these weights"
    assert found.combination_margin_kg == pytest.approx(pounds(26_001 - truck - trailer), abs=1e-6)


@given(pound_weights, pound_weights, st.integers(0, 5000), st.integers(0, 5000))
def test_more_weight_never_lowers_the_license_group(truck: int, trailer: int, more: int, still: int) -> None:
    light = rr.license_groups.license_group(pounds(truck), pounds(trailer))
    heavy = rr.license_groups.license_group(
        pounds(truck), pounds(trailer), pounds(truck + more), pounds(trailer + still)
    )
    assert RANK[heavy.group] >= RANK[light.group]
    assert heavy.combination_mass_kg >= light.combination_mass_kg - 1e-9


@given(pound_weights, pound_weights)
def test_no_answer_sounds_like_nothing_is_needed(truck: int, trailer: int) -> None:
    group = rr.license_groups.license_group(pounds(truck), pounds(trailer))
    threshold = rr.license_groups.commercial_threshold(pounds(truck), pounds(trailer))
    for said in (group.said, threshold.said, group.group):
        assert "none" not in said.lower().split()
        assert "nothing" not in said.lower()
        assert "no license" not in said.lower()
    if group.group == "not reached by these weights":
        assert "10,001 lb" in group.said
        assert "Ask" in group.said
    assert threshold.reached == (truck + trailer >= 10_001)


@given(st.integers(100, 6000), st.integers(1000, 30_000), st.floats(0.1, 1.0))
def test_brakes_are_asked_for_as_the_rule_says_in_whole_pounds(gross: int, truck: int, share: float) -> None:
    axles = max(int(gross * share), 1)
    asked = rr.brakes_required.trailer_brakes_required(pounds(gross), pounds(axles), pounds(truck))
    assert asked.brakes_required == (gross > 3000 or Fraction(axles, truck) > Fraction(2, 5))


@given(st.integers(2000, 40_000), st.integers(500, 25_000), st.integers(500, 25_000))
def test_surge_brakes_are_allowed_as_the_rule_says_in_whole_pounds(
    truck: int, rating: int, weight: int
) -> None:
    surge = rr.brakes_required.surge_brakes_allowed(pounds(truck), pounds(rating), pounds(weight))
    counted = max(rating, weight)
    if counted >= 20_001:
        assert not surge.allowed
        return
    limit = Fraction(7, 4) if counted <= 12_000 else Fraction(5, 4)
    assert surge.allowed == (Fraction(counted, truck) <= limit)
    assert surge.least_truck_gvwr_kg == pytest.approx(pounds(float(counted / limit)))
    heavier = rr.brakes_required.surge_brakes_allowed(pounds(truck + 1000), pounds(rating), pounds(weight))
    assert heavier.allowed or not surge.allowed


@given(st.integers(9, 60), st.integers(2, 9))
def test_the_bridge_table_is_the_formula_rounded_as_printed(distance: int, count: int) -> None:
    weight = rr.bridge.bridge_formula(feet(distance), count)
    exact = 500 * (Fraction(distance * count, count - 1) + 12 * count + 36)
    assert weight.formula_mass_kg == pytest.approx(pounds(float(exact)))
    table = weight.table_mass_kg / pounds(1)
    assert table == pytest.approx(round(table / 500) * 500)
    if exact <= min(count * 20_000, 80_000) - 250:
        assert table - float(exact) + 1e-6 >= -250
        assert table - float(exact) < 250 - 1e-6, "exact halves go down"


@given(st.floats(0.5, 20.0), st.floats(0.0, 3.0), st.integers(2, 8))
def test_longer_groups_and_more_axles_may_carry_more(distance: float, longer: float, count: int) -> None:
    here = rr.bridge.bridge_formula(distance, count)
    assert rr.bridge.bridge_formula(distance + longer, count).table_mass_kg >= here.table_mass_kg
    assert rr.bridge.bridge_formula(distance, count + 1).formula_mass_kg > 0


@given(
    st.lists(st.tuples(st.floats(0.6, 8.0), st.floats(500.0, 10_000.0)), min_size=2, max_size=7),
    st.floats(1.0, 2.0),
)
def test_heavier_axles_never_hold_better(axles: list[tuple[float, float]], more: float) -> None:
    places, at = [], 0.0
    for gap, _ in axles:
        at += gap
        places.append(at)
    light = rr.bridge.axle_weights_check(tuple(places), tuple(load for _, load in axles))
    heavy = rr.bridge.axle_weights_check(tuple(places), tuple(load * more for _, load in axles))
    assert heavy.least_margin_kg <= light.least_margin_kg + 1e-9
    assert light.holds or not heavy.holds
    assert light.holds == (light.least_margin_kg >= -1e-6)
    assert light.gross_mass_kg == pytest.approx(math.fsum(load for _, load in axles))
    assert [group.margin_kg for group in light.groups] == sorted(group.margin_kg for group in light.groups)
    pairs = {(group.first_axle, group.last_axle) for group in light.groups}
    assert len(pairs) == len(axles) * (len(axles) + 1) / 2, "every group of consecutive axles"


@given(st.floats(0.5, 4.0), st.lists(st.floats(0.0, 0.3), max_size=4))
def test_what_is_left_out_of_the_width_is_within_three_inches(body: float, gear: list[float]) -> None:
    check = rr.sizes.width_check(body, tuple(gear))
    assert check.counted_width_m >= body
    assert len(check.gear_excluded) == len(gear)
    for out, left_out in zip(gear, check.gear_excluded, strict=True):
        assert left_out == (out <= 0.0762 * (1 + 1e-9))
    loaded = rr.sizes.width_check(body, tuple(gear), gear_carries_load=True)
    assert loaded.counted_width_m >= check.counted_width_m
    assert not any(loaded.gear_excluded)


@given(st.lists(anything, min_size=4, max_size=4))
def test_no_input_whatever_gives_a_number_that_is_none(values: list[float]) -> None:
    one, two, three, four = values
    attempts: list[Callable[[], Any]] = [
        lambda: rr.brakes_required.trailer_brakes_required(one, two, three),
        lambda: rr.brakes_required.state_brakes_required("TX", one, two),
        lambda: rr.brakes_required.surge_brakes_allowed(one, two, three),
        lambda: rr.brakes_required.brake_performance_of_combination(one, two),
        lambda: rr.license_groups.license_group(one, two, three, four, one),
        lambda: rr.license_groups.commercial_threshold(one, two, three, four, one),
        lambda: rr.license_groups.license_combination_weight((one, two), (three, four), one),
        lambda: rr.bridge.bridge_formula(one, 3),
        lambda: rr.bridge.axle_weights_check(tuple(values), tuple(values)),
        lambda: rr.sizes.width_check(one, (two, three)),
        lambda: rr.sizes.size_check(one, two),
    ]
    for attempt in attempts:
        try:
            result = attempt()
        except OutOfRange:
            continue
        assert all(math.isfinite(number) for number in numbers(result))
