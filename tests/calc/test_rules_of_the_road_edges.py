"""Edges of the rules of the road: a pound or an inch to either side of each threshold, and what is said there."""

from __future__ import annotations

from typing import Any

import pytest

from sendoff.calc import rules_of_the_road as rr
from sendoff.calc._limits import feet, inches, pounds
from sendoff.errors import OutOfRange


def refused(name: str, call: Any, *args: Any, **kwargs: Any) -> None:
    with pytest.raises(OutOfRange) as refusal:
        call(*args, **kwargs)
    assert refusal.value.name == name


# -- brakes


def test_what_a_state_asks_is_said() -> None:
    asks = rr.brakes_required.state_brakes_required("TX", pounds(9000))
    assert asks.said == "This State asks for brakes at this weight."
    below = rr.brakes_required.state_brakes_required("TX", pounds(900))
    assert "still apply" in below.said


def test_why_surge_brakes_are_or_are_not_allowed_is_said() -> None:
    surge = rr.brakes_required.surge_brakes_allowed
    assert surge(pounds(8000), pounds(10_000)).why == "Trailer over truck is within 1.75 to 1."
    assert surge(pounds(8000), pounds(14_000)).why == "Trailer over truck is above 1.25 to 1."
    assert "20,001 lb" in surge(pounds(30_000), pounds(21_000)).why


def test_stopping_distances_are_the_rules_own_and_no_square_of_speed_over_deceleration() -> None:
    """Notes (b) and (c) of 393.52(d): v²/2a gives 20.49, 25.31 and 30.73 ft where the table says 20, 25, 35 and 40."""
    computed = {21.0: 20.49, 17.0: 25.31, 14.0: 30.73}
    for kind in (
        "A1_car_up_to_10_seats", "A2_small_bus_or_light_passenger_truck", "A3_other_passenger",
        "B1_property_single_up_to_10000_lb", "B2_property_single_heavier_or_light_trailer_or_driveaway",
        "B3_other_property_and_combinations",
    ):  # fmt: skip
        row = rr.brakes_required.brake_performance(kind)
        deceleration = row.deceleration_mps2 / 0.3048
        by_square = (20 * 5280 / 3600) ** 2 / (2 * deceleration)
        assert by_square == pytest.approx(computed[round(deceleration, 6)], abs=0.01)
        assert abs(row.service_stop_m / 0.3048 - by_square) > 0.3, "never computed"
        assert row.braking_force_ratio == pytest.approx(deceleration / 32.2, abs=0.0005), (
            "note (a): only this is"
        )


# -- bridge


def check(*axles: tuple[float, float]) -> Any:
    """Axles as feet and pounds."""
    return rr.bridge.axle_weights_check(
        tuple(feet(place) for place, _ in axles), tuple(pounds(load) for _, load in axles)
    )


def group(result: Any, first: int, last: int) -> Any:
    found = [
        one
        for one in result.groups
        if (one.first_axle, one.last_axle) == (first, last) and one.rule != "gross"
    ]
    assert len(found) == 1
    return found[0]


def test_every_group_is_named_with_its_rule_and_limit() -> None:
    result = check((0, 12_000), (12, 17_000), (16, 17_000), (48, 17_000), (52, 16_000))
    rules = {
        (1, 1): ("single_axle", 20_000), (2, 2): ("single_axle", 20_000), (2, 3): ("tandem", 34_000),
        (4, 5): ("tandem", 34_000), (1, 3): ("bridge_formula", 48_000), (2, 5): ("bridge_formula", 68_500),
        (1, 5): ("bridge_formula", 80_000), (3, 4): ("bridge_formula", 40_000),
    }  # fmt: skip
    for (first, last), (rule, limit) in rules.items():
        found = group(result, first, last)
        assert found.rule == rule, (first, last)
        assert found.limit_kg == pytest.approx(pounds(limit))
    whole = [one for one in result.groups if one.rule == "gross"]
    assert [(one.first_axle, one.last_axle) for one in whole] == [(1, 5)]
    assert whole[0].load_kg == pytest.approx(pounds(79_000))
    assert whole[0].margin_kg == pytest.approx(pounds(1000))
    assert result.holds


def test_the_gross_limit_stands_beside_the_bridge_formula() -> None:
    long = check((0, 1), (100, 1))
    assert [one.limit_kg for one in long.groups if one.rule == "gross"] == [pytest.approx(pounds(80_000))]


@pytest.mark.parametrize(
    ("places", "rule"),
    [
        ((0, 4, 32, 36), "two_tandem_sets"),
        ((10, 14, 42, 46), "two_tandem_sets"),
        ((10, 14, 38, 42), "bridge_formula"),
        ((0, 4, 31.9, 35.9), "bridge_formula"),
        ((0, 8, 30, 38), "two_tandem_sets"),
        ((0, 8.01, 30, 38), "bridge_formula"),
        ((0, 4, 29.9, 38), "bridge_formula"),
        ((0, 3.34, 34, 37.34), "two_tandem_sets"),
        ((0, 40 / 12, 34, 37.4), "bridge_formula"),
        ((0, 4, 34, 34 + 40 / 12), "bridge_formula"),
        ((0, 4, 36, 40), "bridge_formula"),
        ((0, 15, 20, 38), "bridge_formula"),
    ],
)
def test_two_tandem_sets_are_two_pairs_at_least_36_feet_from_end_to_end(places: Any, rule: str) -> None:
    result = check(*((place, 10_000) for place in places))
    found = group(result, 1, 4)
    assert found.rule == rule
    if rule == "two_tandem_sets":
        assert found.limit_kg == pytest.approx(pounds(68_000))


def test_where_the_formula_gives_as_much_the_exception_is_not_needed() -> None:
    # 39 ft and four axles: the table itself says 68,000
    assert group(check((0, 1), (4, 1), (35, 1), (39, 1)), 1, 4).rule == "bridge_formula"


@pytest.mark.parametrize(
    ("spread", "rule", "limit"),
    [
        (40, "single_axle", 20_000),
        (40.01, "tandem", 34_000),
        (96, "tandem", 34_000),
        (96.5, "bridge_formula", 38_000),
    ],
)
def test_axles_are_single_tandem_or_by_the_formula_by_their_spread(
    spread: float, rule: str, limit: float
) -> None:
    found = group(rr.bridge.axle_weights_check((1.0, 1.0 + inches(spread)), (pounds(1), pounds(1))), 1, 2)
    assert (found.rule, found.limit_kg) == (rule, pytest.approx(pounds(limit)))


def test_three_axles_in_eight_feet_are_a_tandem() -> None:
    assert group(check((0, 1), (4, 1), (8, 1)), 1, 3).rule == "tandem"
    assert group(check((0, 1), (4, 1), (8.5, 1)), 1, 3).limit_kg == pytest.approx(pounds(42_000))


@pytest.mark.parametrize(
    ("distance", "table"), [(9.49, 42_500), (9.5, 43_500), (10.49, 43_500), (10.5, 44_000), (8.99, 42_000)]
)
def test_distances_go_to_the_nearest_foot_with_halves_up(distance: float, table: float) -> None:
    weight = rr.bridge.bridge_formula(feet(distance), 3)
    assert weight.table_mass_kg == pytest.approx(pounds(table))
    exact = 500 * (distance * 3 / 2 + 36 + 36)
    assert weight.formula_mass_kg == pytest.approx(pounds(exact))


def test_axles_are_two_to_nine_and_in_order() -> None:
    nine = tuple((10.0 * n, 1.0) for n in range(9))
    assert len(check(*nine).groups) == 9 * 10 / 2 + 1
    refused("axle_x_m", check, *nine, (90.0, 1.0))
    refused("axle_x_m", check, (0.0, 1.0))
    refused("axle_x_m", check, (0.0, 1.0), (0.0, 1.0))
    refused("axle_x_m", check, (1.0, 1.0), (0.0, 1.0))


# -- license


def test_a_truck_above_its_rating_counts_by_its_weight() -> None:
    group_of = rr.license_groups.license_group
    assert group_of(pounds(25_000), truck_mass_kg=pounds(26_001)).group == "B"
    assert group_of(pounds(26_001), truck_mass_kg=pounds(12_000)).group == "B"
    assert group_of(pounds(26_001), pounds(9_000), pounds(12_000), pounds(9_500)).group == "B"
    assert group_of(pounds(17_000), pounds(9_000), trailer_mass_kg=pounds(10_001)).group == "A"


def test_a_truck_alone_tows_nothing() -> None:
    alone = rr.license_groups.license_group(pounds(14_000))
    assert alone.towed_mass_kg == 0.0
    assert alone.combination_mass_kg == pytest.approx(pounds(14_000))


def test_what_is_said_names_the_group_reached() -> None:
    group_of = rr.license_groups.license_group
    assert group_of(pounds(20_000), pounds(12_000)).said.startswith("Group A of")
    assert group_of(pounds(27_000)).said.startswith("Group B of")
    assert group_of(pounds(9_000), placarded_goods=True).said.startswith("Group C of")
    assert group_of(pounds(9_000)).said.startswith("No federal license group is reached")
    assert "commercial motor vehicle" in rr.license_groups.commercial_threshold(pounds(10_001)).said
    assert "passengers for pay" in rr.license_groups.commercial_threshold(pounds(10_000)).said


def test_weights_are_of_each_vehicle_or_left_out() -> None:
    combine = rr.license_groups.license_combination_weight
    refused("vehicle_gvwr_kg", combine, ())
    refused("vehicle_mass_kg", combine, (1000.0, 2000.0), (1000.0,))
    refused("vehicle_mass_kg", combine, (1000.0,), (0.0,))
    refused("truck_mass_kg", rr.license_groups.license_group, 1000.0, None, 0.0)
    assert combine((1000.0, 2000.0), (1500.0, 1000.0)) == 3500.0
    assert combine((1000.0,), gcwr_label_kg=900.0) == 1000.0


# -- sizes


def test_width_holds_to_the_inch() -> None:
    width = rr.sizes.width_check
    assert width(inches(102)).holds
    assert not width(inches(102.1)).holds
    assert width(inches(102.1)).margin_m == pytest.approx(-inches(0.1))
    assert width(inches(96), (inches(3), inches(4), inches(5))).counted_width_m == pytest.approx(inches(106))
    assert width(inches(106), jurisdiction="HI").holds
    assert width(inches(102)).gear_excluded == ()


def test_a_size_holds_up_to_its_limit() -> None:
    assert rr.sizes.size_check(4.0, 4.0).holds
    assert rr.sizes.size_check(4.0, 4.0).margin_m == 0.0
    assert not rr.sizes.size_check(4.001, 4.0).holds


def test_letters_of_a_place_are_two() -> None:
    for wrong in ("U", "USA", "U1", ""):
        refused("jurisdiction", rr.sizes.size_limits, wrong, "width")
        refused("state", rr.brakes_required.state_brakes_required, wrong, 1000.0)
    assert rr.sizes.size_limits(" us ", "width").known
    known = rr.sizes.size_limits("US", "length")
    assert "ask locally" in known.said
    assert {figure.meaning for figure in known.figures} == {"state_may_not_be_below"}
