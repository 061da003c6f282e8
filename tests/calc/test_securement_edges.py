"""Edges of securement: limits met exactly, straps that just reach, points that just do, and what is said."""

from __future__ import annotations

import math
from typing import Any

import pytest

from sendoff.calc import securement as se
from sendoff.calc._limits import feet, inches, pounds
from sendoff.calc.securement import _search
from sendoff.calc.securement._search import Gear, Pair, Point, Tied
from sendoff.errors import OutOfRange


def refused(name: str, call: Any, *args: Any, **kwargs: Any) -> None:
    with pytest.raises(OutOfRange) as refusal:
        call(*args, **kwargs)
    assert refusal.value.name == name


# -- limits and counts


def test_a_size_is_that_of_a_row_to_a_millionth() -> None:
    assert se.wll.webbing_wll(0.0508 * (1 + 5e-7)).wll_kg == pytest.approx(pounds(2000))
    refused("width_m", se.wll.webbing_wll, 0.0508 * (1 + 2e-6))
    with pytest.raises(OutOfRange, match=r"1\.75 in, 2 in, 3 in, 4 in"):
        se.wll.webbing_wll(0.06)


def test_a_mark_stands_for_itself() -> None:
    for found in (
        se.wll.chain_wll(0.2, marked_wll_kg=1234.0),
        se.wll.webbing_wll(0.2, 1234.0),
        se.wll.rope_wll(0.2, marked_wll_kg=1234.0),
        se.wll.strapping_wll(0.2, 0.1, 1234.0),
    ):
        assert (found.wll_kg, found.wll_metric_kg) == (1234.0, None)


def test_legs_are_steep_enough_from_five_degrees_up() -> None:
    pull = se.wll.pull_in_leg
    assert pull(100.0, 1, math.radians(5)) == pytest.approx(100 / math.sin(math.radians(5)))
    assert pull(100.0, 4, math.radians(90)) == pytest.approx(25.0)
    refused("angle_to_deck_rad", pull, 100.0, 1, math.radians(90.1))
    refused("angle_to_deck_rad", pull, 100.0, 1, math.radians(4.99))


def test_strength_asks_for_whole_tie_downs_and_at_least_one() -> None:
    needed = se.us.tie_downs_needed
    assert needed(1000.0, 1.0, 500.0).by_strength == 1
    assert needed(1000.1, 1.0, 500.0).by_strength == 2
    assert needed(1.0, 1.0, 5000.0).by_strength == 1
    assert needed(1000.0, 1.0, 500.0, "to_item").by_strength == 2
    assert needed(1_000_000.0, 1.0, 500.0).needed == 1000
    refused("each_wll_kg", needed, 1_001_000.0, 1.0, 500.0)
    assert needed(1000.0, feet(24), 500.0, blocked_forward=True).needed == 3
    assert needed(1000.0, feet(24), 500.0).needed == 4


def test_lengths_a_hair_over_a_step_after_conversion_do_not_step() -> None:
    assert se.us.tie_downs_by_length(3.048, 1000.0) == 2
    assert se.us.tie_downs_by_length(3.048000001, 1000.0) == 2
    assert se.us.tie_downs_by_length(3.0481, 1000.0) == 3
    assert se.us.tie_downs_by_length(1.524, pounds(1100)) == 1
    assert se.us.tie_downs_by_length(1.5241, 1.0) == 2
    assert se.us.tie_downs_by_length(100.0, 1.0, blocked_forward=True) == 33


# -- goods with rules of their own


def test_both_texts_are_said_and_the_exact_threshold_too() -> None:
    car = se.commodities.car_tie_downs(pounds(4000))
    assert car.said == (
        "Rule text: 2 in all, front and rear held. Drivers' handbook: 2 at each end. "
        "The rule's text and the drivers' handbook disagree; the stricter is the default."
    )
    assert car.each_wll_kg is None
    exact = se.commodities.car_tie_downs(pounds(10_000))
    assert "At exactly 10,000 lb" in exact.said
    assert (exact.least_count, exact.each_end_count) == (4, 2)
    assert exact.each_wll_kg == pytest.approx(pounds(5000))
    assert (exact.rule_text_count, exact.drivers_handbook_count) == (2, 4)
    text = se.commodities.car_tie_downs(pounds(10_000), "rule_text")
    assert (text.least_count, text.each_end_count, text.each_wll_kg) == (4, 2, None)


def test_a_light_machine_may_be_held_as_a_car() -> None:
    light = se.commodities.machine_tie_downs(pounds(9999))
    assert "may be used instead" in light.said
    assert light.each_wll_kg is None
    assert (light.least_count, light.each_end_count) == (4, 2)
    heavy = se.commodities.machine_tie_downs(pounds(10_000))
    assert "Rule text" in heavy.said
    assert heavy.each_wll_kg == pytest.approx(pounds(5000))
    assert "Lower and secure attachments" in light.said
    assert "Lower and secure attachments" in heavy.said


def test_a_bulkhead_reaches_four_feet_or_what_it_blocks() -> None:
    strength = se.commodities.bulkhead_strength
    assert strength(1000.0, feet(4)).holds_height
    assert not strength(1000.0, feet(3.99)).holds_height
    assert strength(1000.0, feet(4.5), feet(5)).holds_height, "the lower of four feet and the blocking height"
    assert strength(1000.0, feet(6)).forward_load_kg == 400.0
    assert strength(1000.0, feet(5.99)).forward_force_N == pytest.approx(500 * 9.80665)


def test_friction_mats_may_be_rated_from_nothing_to_all() -> None:
    mat = se.commodities.friction_mat_resistance
    assert mat(100.0, 1.0) == 100.0
    assert mat(100.0, 0.0) == 0.0
    assert mat(0.0) == 0.0


def test_a_boulder_by_its_base_and_size() -> None:
    boulder = se.commodities.boulder_tie_downs
    assert "straight across" in boulder(6000.0, "cubic").said
    assert "X over the middle" in boulder(6000.0, "stable").said
    assert "Ring chain" in boulder(6000.0, "unstable").said
    assert boulder(6000.0, "stable").stay_count == 0
    assert boulder(6000.0).stay_wll_kg is None
    assert not boulder(pounds(11_000)).rule_applies
    assert boulder(pounds(11_001)).rule_applies
    assert not boulder(100.0, "stable", 2.0).rule_applies
    assert boulder(pounds(11_001), "stable", 1.0).rule_applies


# -- rules


def test_the_rule_set_says_itself() -> None:
    rules = se.rules.securement_rule_set
    assert "393" in rules("us").said
    assert "Standard 10" in rules("CA").said
    assert "EN 12195-1" in rules("EU", 9000.0).said
    small = rules("EU", 3500.0)
    assert "does not apply" in small.said
    assert rules("US", 1000.0).rule_set == "393", "the scope is Europe's alone"


def test_looks_on_the_way_stop_before_the_end() -> None:
    stops = se.rules.load_recheck_stops
    mile = 1609.344
    assert stops(50 * mile, 20.0).stop_at_m == ()
    assert stops(50.001 * mile, 30.0).stop_at_m == pytest.approx((50 * mile,))
    assert stops(60 * mile, 30.0, 50 * mile).stop_at_m == pytest.approx((50 * mile,)), (
        "not twice at one place"
    )
    assert stops(8 * mile, 30.0, 10 * mile).stop_at_m == ()
    assert stops(1e7, 50.0).stop_at_m[-1] < 1e7
    assert "change of duty" in stops(1e5, 20.0).also
    slow = stops(100_000.0, 1.0).stop_at_m
    assert slow[0] == pytest.approx(10_800.0), "three hours come before fifty miles"


# -- Europe


def test_angles_from_thirty_to_ninety_and_lashings_to_a_thousand() -> None:
    force = se.en12195.over_top_force
    assert force(0.5, 1000.0, math.radians(30)) == pytest.approx(500.0)
    assert force(0.5, 1000.0, math.radians(90)) == pytest.approx(1000.0)
    refused("lashing_angle_rad", force, 0.5, 1000.0, math.radians(29.99))
    refused("lashing_angle_rad", force, 0.5, 1000.0, math.radians(90.01))
    one = 2 * 0.3 * 1000 / (0.5 * 9.81 * 1.25)
    count = se.en12195.over_top_lashings
    assert count(one * 999.999, 0.3, 1000.0, "forward").needed_count == 1000
    refused("item_mass_kg", count, one * 1001, 0.3, 1000.0, "forward")


def test_a_whole_number_of_lashings_is_not_rounded_up_again() -> None:
    one = 2 * 0.3 * 1000 / (0.5 * 9.81 * 1.25)
    for number in (1, 2, 3, 7):
        found = se.en12195.over_top_lashings(one * number, 0.3, 1000.0, "forward")
        assert found.needed_count == found.fit_at_least_count == number
        assert "other directions" in found.said
    nothing = se.en12195.over_top_lashings(one, 0.6, 1000.0, "sideways")
    assert "Fit at least one all the same" in nothing.said


def test_friction_that_equals_the_push_holds_alone() -> None:
    alone = se.en12195.over_top_mass_held(0.5, 1000.0, "sideways")
    assert alone.friction_alone
    assert alone.held_kg is None
    nearly = se.en12195.over_top_mass_held(0.4995, 1000.0, "sideways")
    assert nearly.held_kg == pytest.approx(2 * 0.4995 * 1000 / (0.0005 * 9.81 * 1.1)), (
        "upright unless told otherwise"
    )
    assert not nearly.friction_alone
    direct = se.en12195_direct.direct_lashing_mass_held
    assert direct(1, 1000.0, 2 / 3, "sideways", 0.5, 0.5).friction_alone
    assert not direct(1, 1000.0, 0.666, "sideways", 0.5, 0.5).friction_alone
    assert se.en12195_direct.blocking_force(1000.0, 0.5, "sideways") == 0.0


def test_a_load_at_its_tipping_point_stands() -> None:
    tip = se.en12195_direct.tipping_lashings
    stands = tip(1000.0, 1.0, 0.6, 1.2, "sideways", 1000.0)
    assert stands.stands_alone
    falls = tip(1000.0, 1.001, 0.6, 1.2, "sideways", 1000.0)
    assert not falls.stands_alone
    assert falls.exact_number < 0, "with the lesser coefficient and the standard tension it would need none"
    assert tip(1000.0, 1.001, 0.6, 1.2, "sideways", 1000.0, 20_000.0).needed_count == 1
    assert tip(1000.0, 1.0, 1.2, 1.2, "forward", 1000.0).stands_alone
    rear = tip(1000.0, 1.0, 0.4, 1.0, "rearward", 1000.0)
    assert rear.exact_number == pytest.approx(1000 * 9.81 * 0.1 * 1.1 / 1000)
    slanted = tip(1000.0, 1.0, 0.4, 1.0, "rearward", 1000.0, lashing_angle_rad=math.radians(30))
    assert slanted.exact_number == pytest.approx(2 * rear.exact_number)


def test_the_scope_begins_above_three_and_a_half_tonnes_everywhere() -> None:
    count, held = se.en12195.over_top_lashings, se.en12195.over_top_mass_held
    assert count(100.0, 0.3, 1000.0, "forward", vehicle_total_mass_kg=3500.1).needed_count
    refused("vehicle_total_mass_kg", count, 100.0, 0.3, 1000.0, "forward", vehicle_total_mass_kg=3500.0)
    refused("vehicle_total_mass_kg", held, 0.3, 1000.0, "forward", vehicle_total_mass_kg=3500.0)
    refused(
        "vehicle_total_mass_kg", se.en12195_direct.tipping_lashings, 100.0, 1.0, 0.4, 1.0, "forward", 1000.0,
        vehicle_total_mass_kg=3500.0,
    )  # fmt: skip


# -- plans

CAR: dict[str, Any] = {
    "item_kind": "car", "item_mass_kg": 1500.0,
    "hold_x_m": (3.0, 3.0, 5.7, 5.7), "hold_y_m": (-0.75, 0.75, -0.75, 0.75),
    "deck_point_x_m": (2.0, 2.0, 6.7, 6.7), "deck_point_y_m": (-1.0, 1.0, -1.0, 1.0), "deck_point_wll_kg": (2000.0,),
    "gear_wll_kg": (1500.0,) * 4, "gear_length_m": (2.0,),
}  # fmt: skip


def plan(**changed: Any) -> Any:
    return se.plan.tie_down_plan(**{**CAR, **changed})


def test_tie_downs_pull_apart_where_they_can_and_inwards_where_they_must() -> None:
    both = plan(
        deck_point_x_m=(2.0, 2.0, 4.0, 4.0, 4.7, 4.7, 6.7, 6.7), deck_point_y_m=(-1.0, 1.0) * 4,
    )  # fmt: skip
    assert [tie.pulls for tie in both.tie_downs] == ["forward", "forward", "rearward", "rearward"]
    assert [tie.deck_point for tie in both.tie_downs] == [1, 2, 7, 8]
    inwards = plan(deck_point_x_m=(4.0, 4.0, 4.7, 4.7))
    assert inwards.feasible
    assert [tie.pulls for tie in inwards.tie_downs] == ["rearward", "rearward", "forward", "forward"]
    mixed = plan(deck_point_x_m=(2.0, 2.0, 4.7, 4.7))
    assert not mixed.feasible, "all four would pull forward"


def test_a_plan_numbers_gear_holds_and_points_as_they_were_given() -> None:
    found = plan(gear_wll_kg=(500.0, 1500.0, 1600.0, 1700.0, 1800.0))
    assert found.gear_left == (1,)
    assert sorted(tie.gear for tie in found.tie_downs) == [2, 3, 4, 5]
    assert [tie.hold_point for tie in found.tie_downs] == [1, 2, 3, 4]
    assert [tie.side for tie in found.tie_downs] == ["left", "right", "left", "right"]
    assert found.deck_points_left == ()
    first = found.tie_downs[0]
    assert (first.hold_x_m, first.hold_y_m, first.deck_x_m, first.deck_y_m) == (3.0, -0.75, 2.0, -1.0)
    assert first.other_deck_point is None


def test_an_eye_in_the_middle_may_be_tied_to_either_side() -> None:
    middle = plan(hold_x_m=(3.0, 5.7), hold_y_m=(0.0, 0.0), rule="rule_text")
    assert middle.feasible
    assert len(middle.tie_downs) == 2
    stands_in = plan(
        hold_x_m=(3.0, 3.0, 5.7, 5.7),
        hold_y_m=(-0.75, 0.0, 0.0, 0.75),
        deck_point_x_m=(2.0, 2.0, 6.7, 6.7),
    )
    assert stands_in.feasible, "an eye in the middle stands in for the missing hold on either side"
    one_sided = plan(hold_y_m=(0.5, 0.75, 0.5, 0.75), deck_point_y_m=(1.0, 1.1, 1.0, 1.1))
    assert not one_sided.feasible, "two holds on the right do not hold the left"
    straight = plan(
        hold_x_m=(3.0, 5.7),
        hold_y_m=(0.0, 0.0),
        deck_point_x_m=(2.0, 6.7),
        deck_point_y_m=(0.0, 0.0),
        rule="rule_text",
    )
    assert [tie.side for tie in straight.tie_downs] == ["middle", "middle"]
    two_ways = plan(hold_x_m=(3.0, 5.7), hold_y_m=(0.0, 0.0), deck_point_x_m=(2.0, 2.0, 6.7, 6.7))
    assert not two_ways.feasible, "one hold is not tied twice the same way"


def test_a_strap_reaches_with_what_it_needs_beyond_the_straight_way() -> None:
    straight = math.sqrt(1.0**2 + 0.25**2 + 0.3**2)
    assert plan(gear_length_m=(straight + 0.3 + 1e-9,)).feasible
    assert not plan(gear_length_m=(straight + 0.3 - 1e-6,)).feasible
    assert plan(gear_length_m=(straight + 1e-9,), extra_length_m=0.0).feasible
    assert plan(gear_length_m=(math.hypot(1.0, 0.25) + 0.3 + 1e-9,), hold_height_m=0.0).feasible


def test_weak_holds_limit_a_tie_down() -> None:
    weak = plan(hold_wll_kg=(400.0,))
    assert weak.feasible
    assert weak.aggregate_kg == pytest.approx(800.0)
    assert weak.margin_kg == pytest.approx(50.0)
    assert not plan(hold_wll_kg=(300.0,)).feasible
    assert plan(hold_wll_kg=(375.0,)).feasible, "exactly half the weight"


def test_why_there_is_no_plan_is_said() -> None:
    few = plan(gear_wll_kg=(1500.0,) * 3)
    assert few.why_not == ("4 tie-downs are asked for and 3 are on board.",)
    assert few.tie_downs == ()
    weak = plan(gear_wll_kg=(300.0,) * 4)
    assert weak.why_not == (
        "All that fits together counts less than half the weight: stronger gear or more points.",
    )
    assert weak.aggregate_kg == pytest.approx(600.0)
    across = plan(deck_point_y_m=(1.0, -1.0, 1.0, -1.0), deck_point_x_m=(2.0, 2.0, 2.0, 2.0))
    assert across.why_not == (
        "Front and rear cannot both be held on both sides with these points and lengths.",
    )
    none = plan(
        item_kind="machine",
        item_mass_kg=pounds(12_000),
        gear_wll_kg=(3000.0,) * 4,
        deck_point_wll_kg=(1000.0,),
    )
    assert none.why_not == ("No deck point that is strong enough lies where a hold could be tied to it.",)
    machine = plan(item_kind="machine", item_mass_kg=pounds(12_000), gear_wll_kg=(pounds(4999),) * 4)
    assert machine.why_not[0] == "4 tie-downs of at least 5,000 lb each are asked for and 0 are on board."
    fine = plan()
    assert fine.why_not == ()
    assert fine.aggregate_needed_kg == pytest.approx(750.0)
    uneven = plan(deck_point_x_m=(2.0, 2.0, 6.7, 4.7), gear_wll_kg=(1500.0,) * 5)
    assert uneven.why_not == (
        "Front and rear cannot both be held on both sides with these points and lengths.",
    )
    both = plan(
        item_kind="machine",
        item_mass_kg=pounds(12_000),
        gear_wll_kg=(1000.0,) * 4,
        deck_point_wll_kg=(1000.0,),
    )
    assert both.why_not == (
        "4 tie-downs of at least 5,000 lb each are asked for and 0 are on board.",
        "No deck point that is strong enough lies where a hold could be tied to it.",
    )
    lacking = plan(gear_wll_kg=(1500.0, 1500.0), item_mass_kg=100.0)
    assert lacking.why_not[0] == "4 tie-downs are asked for and 2 are on board."


def test_a_heavy_machine_wants_5000_lb_of_gear_holds_and_points() -> None:
    heavy = {"item_kind": "machine", "item_mass_kg": pounds(10_000), "gear_wll_kg": (pounds(5000),) * 4}
    assert plan(**heavy, deck_point_wll_kg=(pounds(5000),)).feasible
    assert not plan(**heavy, deck_point_wll_kg=(pounds(4999),)).feasible
    assert not plan(**heavy, deck_point_wll_kg=(pounds(5000),), hold_wll_kg=(pounds(4999),)).feasible
    assert plan(**heavy, deck_point_wll_kg=(pounds(4999),), rule="rule_text").feasible
    light = {**heavy, "item_mass_kg": pounds(9_000)}
    assert plan(**light, deck_point_wll_kg=(pounds(4999),)).feasible


def test_what_else_to_do_suits_the_item() -> None:
    assert any("electric car" in text for text in plan().also)
    machine = plan(
        item_kind="machine", item_mass_kg=4000.0, gear_wll_kg=(3000.0,) * 4, deck_point_wll_kg=(3000.0,)
    )
    assert any("articulation locked" in text for text in machine.also)
    assert any("first 50 miles" in text for text in machine.also)


def test_points_and_gear_to_forty() -> None:
    many = {"deck_point_x_m": (2.0, 6.7) * 20, "deck_point_y_m": (-1.0, -1.0, 1.0, 1.0) * 10}
    assert plan(**many, gear_wll_kg=(1500.0,) * 40).feasible
    refused("deck_point_x_m", plan, deck_point_x_m=(2.0,) * 41, deck_point_y_m=(1.0,) * 41)
    refused("gear_wll_kg", plan, gear_wll_kg=(1500.0,) * 41)
    refused("deck_point_wll_kg", plan, deck_point_wll_kg=(1500.0,) * 3)
    refused("gear_length_m", plan, gear_length_m=(2.0,) * 3)
    refused("hold_y_m", plan, hold_y_m=(1.0,) * 3)


# -- the search behind the plans


def test_pairs_are_neither_across_nor_straight_down_nor_straight_sideways() -> None:
    def pair(hold: tuple[float, float], deck: tuple[float, float], height: float = 0.3) -> list[Pair]:
        return _search.pairs_between([Point(*hold, 1.0)], [Point(*deck, 1.0)], height, 0.5)

    assert not pair((0.0, -1.0), (1.0, 1.0))
    assert pair((0.0, 0.0), (1.0, 1.0))
    assert not pair((0.0, 1.0), (0.0, 1.0))
    assert not pair((0.0, 1.0), (0.0, 1.0), 0.0)
    assert not pair((0.0, 1.0), (0.19, 1.0 + math.sqrt(1 - 0.19**2)), 0.0)
    (found,) = pair((0.0, 1.0), (0.21, 1.0 + math.sqrt(1 - 0.21**2)), 0.0)
    assert found.way_m == pytest.approx(1.0)
    assert found.length_m == pytest.approx(1.5)
    assert found.along_m == pytest.approx(0.21)
    assert found.cost == pytest.approx(0.49 + 0.01)
    (longer,) = pair((0.0, 1.0), (3.0, 1.0), 4.0)
    assert longer.cost == pytest.approx(abs(0.6 - 0.7) + 0.05), "of two alike the shorter comes first"


def test_the_pair_nearest_to_forty_five_degrees_comes_first() -> None:
    deck = [Point(2.0, 1.0, 1.0), Point(1.0, 2.0, 1.0), Point(0.5, 2.5, 1.0), Point(-1.0, 2.0, 1.0)]
    found = _search.pairs_between([Point(0.0, 1.0, 1.0)], deck, 0.0, 0.0)
    assert [pair.deck for pair in found] == [1, 3, 0, 2]


def ties(*pairs: tuple[int, int, float, float]) -> list[Pair]:
    return [Pair(hold, deck, along, 0.0, 1.0, 1.0, cost) for hold, deck, along, cost in pairs]


def test_choices_come_cheapest_first_without_using_a_point_twice() -> None:
    slots = [
        ties((0, 0, 1.0, 0.1), (0, 1, 1.0, 0.2)),
        ties((1, 0, 1.0, 0.1), (1, 1, 1.0, 0.5), (1, 2, 1.0, 0.9)),
    ]
    found = [tuple(pair.deck for pair in choice) for choice in _search.cheapest_choices(slots)]
    assert found == [(1, 0), (0, 1), (0, 2), (1, 2)]
    assert list(_search.cheapest_choices([slots[0], []])) == []


def test_choices_are_ordered_by_the_sum_of_their_costs() -> None:
    slots = [
        ties((0, 0, 1.0, 0.10), (0, 1, 1.0, 0.50), (0, 2, 1.0, 0.55)),
        ties((1, 3, 1.0, 0.10), (1, 4, 1.0, 0.20), (1, 5, 1.0, 0.60)),
    ]
    found = [tuple(pair.deck for pair in choice) for choice in _search.cheapest_choices(slots)]
    sums = [sum(pair.cost for pair in choice) for choice in _search.cheapest_choices(slots)]
    assert len(found) == 9
    assert sums == sorted(sums)
    assert found[:4] == [(0, 3), (0, 4), (1, 3), (2, 3)]


def test_one_hold_may_be_tied_both_ways_but_not_twice_one_way() -> None:
    both = [ties((0, 0, 1.0, 0.1)), ties((0, 1, -1.0, 0.1))]
    assert len(list(_search.cheapest_choices(both))) == 1
    same = [ties((0, 0, 1.0, 0.1)), ties((0, 1, 1.0, 0.1))]
    assert not list(_search.cheapest_choices(same))
    near = [ties((0, 0, 0.3, 0.1)), ties((0, 1, 0.4, 0.1))]
    assert not list(_search.cheapest_choices(near))
    three = [*both, ties((0, 2, 1.0, 0.1))]
    assert not list(_search.cheapest_choices(three))
    for one, other in ((1, 2), (0, 1), (3, 0)):
        beside = [ties((one, 0, 1.0, 0.1)), ties((other, 1, 1.0, 0.1)), ties((other, 2, -1.0, 0.1))]
        assert len(list(_search.cheapest_choices(beside))) == 1


def test_gear_goes_where_it_counts_most_and_reaches() -> None:
    holds, deck = [Point(0, 0, math.inf)], [Point(1, 0, 1000.0), Point(2, 0, 3000.0)]
    short, long = Pair(0, 0, 1.0, 0.0, 1.0, 1.0, 0.0), Pair(0, 1, 1.0, 0.0, 2.0, 2.0, 0.0)

    def deal(*gear: tuple[float, float]) -> list[tuple[int, float]] | None:
        dealt = _search.deal_gear([short, long], holds, deck, [Gear(*one) for one in gear])
        return None if dealt is None else [(one.gear, one.wll_kg) for one in dealt]

    assert deal((3000.0, 5.0), (1000.0, 5.0)) == [(1, 1000.0), (0, 3000.0)]
    assert deal((1000.0, 5.0), (3000.0, 5.0)) == [(0, 1000.0), (1, 3000.0)]
    assert deal((3000.0, 1.5), (500.0, 2.0)) == [(0, 1000.0), (1, 500.0)]
    assert deal((3000.0, 1.5), (500.0, 1.9)) is None
    assert deal((3000.0, 1.0), (2000.0, 2.0), (2500.0, 2.0)) == [(1, 1000.0), (2, 2500.0)]
    assert deal((3000.0, 5.0)) is None


def test_gear_is_dealt_in_both_orders_and_the_better_sum_is_kept() -> None:
    def deal(pairs: list[tuple[float, float]], *gear: tuple[float, float]) -> Any:
        deck = [Point(1, 0, cap) for cap, _ in pairs]
        chosen = [Pair(0, n, 1.0, 0.0, length, length, 0.0) for n, (_, length) in enumerate(pairs)]
        dealt = _search.deal_gear(chosen, [Point(0, 0, math.inf)], deck, [Gear(*one) for one in gear])
        return None if dealt is None else [(one.gear, one.wll_kg) for one in dealt]

    # by strength first the long way would be left without a piece
    assert deal([(3000.0, 1.0), (1000.0, 5.0)], (3000.0, 5.0), (2000.0, 1.0)) == [(1, 2000.0), (0, 1000.0)]
    # by length first the strongest piece would be wasted
    assert deal([(3000.0, 1.0), (2500.0, 2.0)], (3000.0, 2.0), (2000.0, 2.0)) == [(0, 3000.0), (1, 2000.0)]
    # a dealing that counts a thousandth less is not good enough
    assert deal([(3000.0, 1.0), (2990.0, 2.0)], (3000.0, 2.0), (2999.0, 1.0), (2985.0, 2.0)) == [
        (1, 2999.0),
        (0, 2990.0),
    ]
    # of two ways of one strength the longer goes first
    assert deal([(3000.0, 1.0), (3000.0, 5.0)], (2000.0, 5.0), (2000.0, 2.0)) == [(1, 2000.0), (0, 2000.0)]
    # of two ways of one length the stronger goes first
    assert deal([(1000.0, 2.0), (3000.0, 2.0)], (3000.0, 2.0), (1500.0, 2.0)) == [(1, 1000.0), (0, 3000.0)]


def test_further_tie_downs_are_added_where_they_count_most() -> None:
    holds = [Point(0, 1, math.inf), Point(5, 1, math.inf)]
    deck = [Point(-1, 2, 100.0), Point(6, 2, 100.0), Point(1, 2, 50.0), Point(4, 2, 90.0)]
    pairs = _search.pairs_between(holds, deck, 0.0, 0.0)
    slots = [[pair for pair in pairs if (pair.hold, pair.deck) == wanted] for wanted in ((0, 0), (1, 1))]
    gear = [Gear(100.0, 9.0)] * 4

    def search(enough: float, gear: list[Gear]) -> Any:
        def satisfies(tied: tuple[Tied, ...]) -> bool:
            return sum(one.wll_kg for one in tied) >= enough

        return _search.first_that_satisfies(slots, pairs, holds, deck, gear, satisfies)

    found, close = search(200.0, gear)
    assert [one.pair.deck for one in found] == [0, 1]
    assert close is None
    found, _ = search(290.0, gear)
    assert [one.pair.deck for one in found] == [0, 1, 3]
    found, _ = search(340.0, gear)
    assert [one.pair.deck for one in found] == [0, 1, 3, 2]
    found, close = search(341.0, gear)
    assert found is None
    assert len(close) == 4
    found, close = search(290.0, gear[:2])
    assert found is None
    assert [one.pair.deck for one in close] == [0, 1]
    assert search(1.0, gear[:1]) == (None, None)
    nothing_spare = _search.first_that_satisfies(slots, [], holds, deck, gear, lambda _: False)
    assert nothing_spare[0] is None
    assert [one.pair.deck for one in nothing_spare[1] or ()] == [0, 1]


def test_the_nearest_choice_is_the_one_that_counts_most() -> None:
    holds = [Point(0, 1, math.inf), Point(5, 1, math.inf)]
    deck = [Point(-1, 2, 100.0), Point(6, 2, 100.0), Point(-2, 2, 300.0), Point(-3, 2, 200.0)]
    pairs = _search.pairs_between(holds, deck, 0.0, 0.0)
    front = [pair for pair in pairs if pair.hold == 0 and pair.along_m < 0]
    assert [pair.deck for pair in front] == [0, 2, 3]
    rear = [pair for pair in pairs if (pair.hold, pair.deck) == (1, 1)]
    gear = [Gear(1000.0, 9.0)] * 2
    found, close = _search.first_that_satisfies([front, rear], [], holds, deck, gear, lambda _: False)
    assert found is None
    assert [one.pair.deck for one in close or ()] == [2, 1]


# -- over the top

CRATE: dict[str, Any] = {
    "item_mass_kg": 1000.0, "item_front_x_m": 2.0, "item_length_m": 3.0, "item_width_m": 1.6, "item_height_m": 0.9,
    "deck_point_x_m": (2.3, 2.3, 4.7, 4.7), "deck_point_y_m": (-1.2, 1.2, -1.2, 1.2), "deck_point_wll_kg": (2000.0,),
    "gear_wll_kg": (1500.0,) * 3, "gear_length_m": (9.0,),
}  # fmt: skip


def over(**changed: Any) -> Any:
    return se.plan_over_top.over_top_plan(**{**CRATE, **changed})


def test_straps_go_over_from_one_side_to_the_other() -> None:
    found = over()
    assert [(tie.deck_point, tie.other_deck_point) for tie in found.tie_downs] == [(1, 2), (3, 4)]
    for tie in found.tie_downs:
        assert tie.length_m == pytest.approx(1.6 + 2 * math.hypot(0.4, 0.9))
        assert (tie.pulls, tie.side, tie.hold_y_m, tie.hold_point) == ("down", "across", 0.0, 0)
        assert tie.deck_y_m == -1.2
    assert [tie.hold_x_m for tie in found.tie_downs] == [2.3, 4.7]
    assert found.gear_left == (3,)
    assert found.needed_each_end == 0
    assert found.margin_kg == pytest.approx(3000.0 - 500.0)
    reach = found.tie_downs[0].length_m
    assert over(gear_length_m=(reach + 1e-9,)).feasible
    short = over(gear_length_m=(reach - 1e-6,))
    assert short.why_not == ("The straps on board are too short to go over.",)


def test_the_weaker_of_two_anchors_sets_a_strap_over_the_top() -> None:
    found = over(deck_point_wll_kg=(2000.0, 700.0, 600.0, 2000.0))
    assert [tie.wll_kg for tie in found.tie_downs] == [700.0, 600.0]
    assert found.aggregate_kg == pytest.approx(1300.0)
    assert found.aggregate_needed_kg == pytest.approx(500.0)
    assert found.why_not == ()
    assert over(gear_length_m=(found.tie_downs[0].length_m,)).feasible, "a strap that just reaches"
    enough = over(gear_wll_kg=(100.0, 100.0))
    assert enough.why_not == (
        "All that fits together counts less than half the weight: stronger gear or more points.",
    )
    assert enough.deck_points_left == ()


def test_points_opposite_each_other_are_so_to_half_a_foot_and_along_the_item() -> None:
    near = over(deck_point_x_m=(2.3, 2.3 + inches(6), 4.7, 4.7 - inches(6)))
    assert near.feasible
    assert near.tie_downs[0].length_m == pytest.approx(1.6 + 2 * math.hypot(0.4, 0.9) + inches(6))
    assert near.tie_downs[0].hold_x_m == pytest.approx(2.3 + inches(3))
    far = over(deck_point_x_m=(2.3, 2.3 + inches(6.1), 4.7, 4.7))
    assert not far.feasible
    assert far.why_not[0].startswith("2 pairs of points opposite each other")
    assert far.why_not[0].endswith("and 1 are there.")
    assert over(deck_point_x_m=(2.0, 2.0, 5.0, 5.0)).feasible, "right at its ends"
    assert not over(deck_point_x_m=(1.9, 1.9, 4.7, 4.7)).feasible
    assert not over(deck_point_x_m=(2.3, 2.3, 5.1, 5.1)).feasible
    assert not over(deck_point_y_m=(-1.2, 0.0, -1.2, 1.2)).feasible, "a point in the middle is on no side"
    assert not over(deck_point_y_m=(0.0, 1.2, -1.2, 1.2)).feasible, "neither left nor right"
    narrow = over(deck_point_y_m=(-0.5, 0.5, -0.5, 0.5), item_width_m=0.8)
    assert [(tie.deck_point, tie.other_deck_point) for tie in narrow.tie_downs] == [(1, 2), (3, 4)]


def test_straps_are_spread_along_the_item() -> None:
    places = tuple(x for x in (2.1, 2.4, 3.0, 3.5, 4.0, 4.6, 4.9) for _ in range(2))
    many = {"deck_point_x_m": places, "deck_point_y_m": (-1.2, 1.2) * 7, "gear_wll_kg": (1500.0,) * 7}
    assert [tie.hold_x_m for tie in over(**many).tie_downs] == [2.4, 4.6]
    three = over(**many, item_length_m=3.1)
    assert [tie.hold_x_m for tie in three.tie_downs] == [2.4, 3.5, 4.9]
    one = over(**many, item_length_m=1.5, item_mass_kg=400.0)
    assert [tie.hold_x_m for tie in one.tie_downs] == [2.4] or [tie.hold_x_m for tie in one.tie_downs] == [
        3.0
    ]
    close = tuple(x for x in (2.3, 2.36, 2.4, 3.4, 3.5, 3.7, 4.6, 4.64, 4.7) for _ in range(2))
    fine = {"deck_point_x_m": close, "deck_point_y_m": (-1.2, 1.2) * 9, "gear_wll_kg": (1500.0,) * 9}
    assert [tie.hold_x_m for tie in over(**fine, item_length_m=3.1).tie_downs] == [2.3, 3.5, 4.7]
    assert [tie.hold_x_m for tie in over(**fine).tie_downs] == [2.3, 4.7]
    weak = over(**{**many, "gear_wll_kg": (130.0,) * 7})
    assert len(weak.tie_downs) == 4
    assert weak.feasible
    assert weak.aggregate_kg == pytest.approx(520.0)


def test_the_strongest_strap_that_reaches_goes_on_the_longest_way() -> None:
    found = over(
        deck_point_y_m=(-1.2, 1.2, -2.2, 2.2),
        gear_wll_kg=(1000.0, 900.0, 800.0),
        gear_length_m=(9.0, 3.7, 9.0),
    )
    assert [(tie.gear, tie.wll_kg) for tie in found.tie_downs] == [(2, 900.0), (1, 1000.0)]
    capped = over(deck_point_wll_kg=(700.0,))
    assert [tie.wll_kg for tie in capped.tie_downs] == [700.0, 700.0]


def test_why_there_is_no_plan_over_the_top_is_said() -> None:
    few = over(gear_wll_kg=(1500.0,))
    assert "2 straps are asked for and 1 are on board." in few.why_not
    weak = over(gear_wll_kg=(100.0,) * 3)
    assert weak.why_not == (
        "All that fits together counts less than half the weight: stronger gear or more points.",
    )
    assert any("cover what is loose" in text for text in weak.also)


# -- a European plan


def lashings(**changed: Any) -> Any:
    given: dict[str, Any] = {
        "vehicle_total_mass_kg": 7500.0, "item_mass_kg": 1500.0, "friction_ratio": 0.3,
        "hold_x_m": (3.0, 3.0, 5.0, 5.0), "hold_y_m": (-0.8, 0.8, -0.8, 0.8),
        "deck_point_x_m": (2.0, 2.0, 6.0, 6.0), "deck_point_y_m": (-1.1, 1.1, -1.1, 1.1),
        "deck_point_capacity_N": (20_000.0,), "gear_capacity_N": (20_000.0,) * 4, "gear_length_m": (3.0,),
    }  # fmt: skip
    return se.plan_en.en_lashing_plan(**{**given, **changed})


def test_margins_of_a_european_plan_are_those_of_each_direction() -> None:
    found = lashings()
    way = math.sqrt(1.0 + 0.3**2 + 0.3**2)
    friction = 0.75 * 0.3
    lengthwise = 2 * 20_000 * (friction * 0.3 / way + 1.0 / way)
    sideways = 2 * 20_000 * (friction * 0.3 / way + 0.3 / way)
    assert found.forward_margin_N == pytest.approx(lengthwise - 1500 * 9.81 * (0.8 - friction))
    assert found.rearward_margin_N == pytest.approx(lengthwise - 1500 * 9.81 * (0.5 - friction))
    assert found.left_margin_N == pytest.approx(sideways - 1500 * 9.81 * (0.5 - friction))
    assert found.right_margin_N == pytest.approx(found.left_margin_N)
    assert found.gear_left == ()
    assert found.deck_points_left == ()
    assert [one.capacity_N for one in found.lashings] == [20_000.0] * 4
    assert [(one.gear, one.hold_point, one.deck_point) for one in found.lashings] == [
        (1, 1, 1),
        (2, 2, 2),
        (3, 3, 3),
        (4, 4, 4),
    ]
    assert found.lashings[0].length_m == pytest.approx(way + 0.3)
    assert any("Tipping" in text for text in found.also)


def test_a_european_plan_names_the_sides_apart() -> None:
    lopsided = lashings(deck_point_capacity_N=(20_000.0, 10_000.0, 20_000.0, 10_000.0))
    even = lashings()
    way, friction = math.sqrt(1.0 + 0.3**2 + 0.3**2), 0.75 * 0.3
    lost = 2 * 10_000 * (friction * 0.3 + 0.3) / way
    # lashings on the right pull right: they stop a slide to the left
    assert lopsided.left_margin_N == pytest.approx(even.left_margin_N - lost)
    assert lopsided.right_margin_N == pytest.approx(even.right_margin_N)
    lost = 10_000 * (friction * 0.3 + 1.0) / way
    assert lopsided.forward_margin_N == pytest.approx(even.forward_margin_N - lost)
    assert lopsided.rearward_margin_N == pytest.approx(even.rearward_margin_N - lost)
    nose = lashings(deck_point_capacity_N=(5_000.0, 5_000.0, 20_000.0, 20_000.0))
    assert nose.forward_margin_N > nose.rearward_margin_N, (
        "rear lashings pull rearward and stop a slide forward"
    )


def test_a_european_plan_holds_down_to_the_last_newton() -> None:
    way, friction = math.sqrt(1.0 + 0.3**2 + 0.3**2), 0.75 * 0.3
    sideways = 2 * 20_000 * (friction * 0.3 / way + 0.3 / way)
    most = sideways / (9.81 * (0.5 - friction))
    assert lashings(item_mass_kg=most - 0.1).feasible
    assert not lashings(item_mass_kg=most + 0.1).feasible


def test_a_lashing_that_leans_outwards_by_half_a_millimeter_counts_sideways() -> None:
    found = lashings(deck_point_y_m=(-0.8005, 0.8005, -0.8005, 0.8005))
    way, friction = math.sqrt(1.0 + 0.0005**2 + 0.3**2), 0.75 * 0.3
    sideways = 2 * 20_000 * (friction * 0.3 / way + 0.0005 / way)
    assert found.left_margin_N == pytest.approx(sideways - 1500 * 9.81 * (0.5 - friction))


def test_with_friction_enough_sideways_nothing_more_is_asked_there() -> None:
    rubber = lashings(
        friction_ratio=0.9, item_mass_kg=100_000.0, gear_capacity_N=(1e6,) * 4, deck_point_capacity_N=(1e6,)
    )
    assert rubber.left_margin_N > 0
    assert lashings(hold_height_m=0.0).feasible
