"""Edges of the truck check: sizes a hair apart, limits met exactly, what is said with each verdict."""

from __future__ import annotations

from typing import Any

import pytest

from sendoff.calc import truck_check as tc
from sendoff.calc._limits import inches, pounds
from sendoff.errors import OutOfRange

LBF = 4.4482216152605


def refused(name: str, call: Any, *args: Any, **kwargs: Any) -> None:
    with pytest.raises(OutOfRange) as refusal:
        call(*args, **kwargs)
    assert refusal.value.name == name


# -- ball and coupling


def test_sizes_count_as_one_up_to_a_quarter_millimeter() -> None:
    for ball, fit in (
        (50.00, "fits"),
        (50.24, "fits"),
        (49.76, "fits"),
        (50.26, "ball_too_large_does_not_latch"),
        (49.74, "ball_too_small_pops_off"),
        (58.7375, "ball_too_large_does_not_latch"),
    ):
        found = tc.coupling.ball_size_match(0.050, ball / 1000)
        assert found.fit == fit
        assert found.fits == (fit == "fits")
        assert found.difference_m == pytest.approx((ball - 50) / 1000)


def test_threads_may_not_be_fewer_than_none() -> None:
    refused("threads_past_nut_count", tc.coupling.ball_shank_fit, 0.0254, 0.0254, None, -1)
    assert tc.coupling.ball_shank_fit(0.0254, 0.0254, None, 0).threads_enough is False
    assert tc.coupling.ball_shank_fit(0.0254, 0.0254, None, 2).threads_enough is True
    assert tc.coupling.ball_shank_fit(0.0254, 0.0254).threads_enough is None


def test_sizes_that_are_no_sizes_are_refused_as_such() -> None:
    with pytest.raises(OutOfRange, match="above zero"):
        tc.coupling.ball_typical_rating(0.0, 0.0254)
    with pytest.raises(OutOfRange, match="above zero"):
        tc.coupling.bed_ball_typical_rating(-1.0)
    with pytest.raises(OutOfRange, match="above zero"):
        tc.coupling.ball_nut_torque(0.0)
    with pytest.raises(OutOfRange, match="above zero"):
        tc.hitch_strength.hitch_test_forces(0.0)


# -- chains


def test_the_weakest_chain_counts_and_both_scopes_are_told() -> None:
    check = tc.chains.safety_chain_check(pounds(9000), (12_000 * LBF, 8_000 * LBF))
    assert check.weakest_chain_N == 8_000 * LBF
    assert not check.holds
    assert "does not speak of semitrailers" in check.scope
    assert "SAE J684 applies up to 10,000 lb" in check.scope
    full = tc.chains.safety_chain_check(pounds(10_001), (12_000 * LBF,) * 2, "full_trailer")
    assert "speaks of full trailers" in full.scope
    assert "does not" not in full.scope
    assert "SAE J684 ends at 10,000 lb" in full.scope
    assert "applies" not in full.scope
    assert not full.j684_applies
    assert full.holds


def test_chains_must_be_named() -> None:
    refused("chain_breaking_force_N", tc.chains.safety_chain_check, 1000.0, ())


def test_attachment_points_a_hair_off() -> None:
    place = tc.chains.chain_attachment_place
    assert place((0.0,)).holds
    assert not place((-0.001,)).holds
    assert not place((-1e-8,)).holds
    assert place((-inches(12), inches(12.25))).holds
    assert not place((-inches(12), inches(12.26))).holds
    assert not place((inches(11.9), inches(12))).holds
    assert not place((0.0, 0.001)).holds
    assert not place((-0.001, 0.0)).holds
    assert "6 in" in place((0.0,)).why
    assert "each side" in place((-1.0, 1.0)).why


# -- window


def test_whose_window_it_is_is_told() -> None:
    window = tc.coupling_load.coupling_share_window
    assert window("utility", "ball").whose == "table_for_this_coupling"
    assert window("boat", "ball").whose == "table_for_this_trailer"
    assert window("boat", "ball", maker_low_ratio=0.06, maker_high_ratio=0.09).whose == "maker"


def test_half_a_makers_window_is_refused_and_so_is_one_out_of_order() -> None:
    window = tc.coupling_load.coupling_share_window
    refused("maker_low_ratio", window, "boat", "ball", maker_high_ratio=0.1)
    refused("maker_high_ratio", window, "boat", "ball", maker_low_ratio=0.1)
    refused("maker_high_ratio", window, "boat", "ball", maker_low_ratio=0.1, maker_high_ratio=0.1)
    refused("maker_high_ratio", window, "boat", "ball", maker_low_ratio=0.1, maker_high_ratio=1.01)
    refused("maker_low_ratio", window, "boat", "ball", maker_low_ratio=-0.1, maker_high_ratio=0.1)
    whole = window("boat", "ball", maker_low_ratio=0.0, maker_high_ratio=1.0)
    assert (whole.low_ratio, whole.high_ratio) == (0.0, 1.0)


def test_the_edges_of_a_window_are_within() -> None:
    check = tc.coupling_load.coupling_load_check
    for load, where in ((100.0, "within"), (150.0, "within"), (99.9, "below"), (150.1, "above")):
        assert check(load, 1000.0, 0.10, 0.15).where == where


# -- ratings


def test_payload_without_gear_or_trailer_takes_off_people_alone() -> None:
    left = tc.ratings.payload_left(1000.0, 2, 100.0)
    assert left.left_kg == left.left_for_trailer_and_gear_kg == 800.0
    assert tc.ratings.payload_left(1000.0, 10, 100.0).holds
    assert not tc.ratings.payload_left(1000.0, 10, 100.1).holds


def test_a_trailer_allowed_may_be_none_at_all() -> None:
    allowed = tc.ratings.heaviest_trailer(0.15, 9000.0, 8000.0, tow_rating_kg=5000.0)
    assert (allowed.least_kg, allowed.limited_by) == (0.0, "combination_rating")
    by_tongue = tc.ratings.heaviest_trailer(0.1, receiver_tongue_rating_kg=200.0, tow_rating_kg=5000.0)
    assert (by_tongue.least_kg, by_tongue.limited_by) == (2000.0, "receiver_tongue")
    assert by_tongue.by_payload_kg is None
    assert tc.ratings.heaviest_trailer(1.0, tow_rating_kg=5000.0).limited_by == "tow_rating"
    assert tc.ratings.heaviest_trailer(0.1, payload_left_kg=0.0).least_kg == 0.0


def test_a_tow_rating_is_whole_with_two_light_people() -> None:
    assert tc.tow_rating.tow_rating_as_loaded(1000.0, 2) == pytest.approx(1000.0)
    assert tc.tow_rating.tow_rating_as_loaded(1000.0, 2, gear_mass_kg=10.0) == pytest.approx(990.0)


# -- bars


def test_restoration_within_a_limit_counts_up_to_it() -> None:
    restored = tc.weight_distribution.front_axle_restored
    assert restored(2000.0, 1800.0, 1900.0, 0.5).within_limit
    assert not restored(2000.0, 1800.0, 1901.0, 0.5).within_limit
    assert restored(2000.0, 1800.0, 2000.0).within_limit
    assert not restored(2000.0, 1800.0, 2000.1).within_limit
    refused("maker_limit_ratio", restored, 2000.0, 1800.0, 1900.0, 0.0)


def test_a_coupling_ahead_of_the_axle_loads_the_front_and_is_told_so() -> None:
    found = tc.weight_distribution.front_axle_restored(2000.0, 2100.0, 2050.0)
    assert not found.lost_by_coupling
    by_tape = tc.weight_distribution.front_fender_restored(0.90, 0.88, 0.89)
    assert not by_tape.lost_by_coupling
    assert by_tape.restored_ratio == pytest.approx(0.5)


def test_a_change_of_less_than_a_millionth_is_no_change() -> None:
    restored = tc.weight_distribution.front_axle_restored
    refused("front_coupled_kg", restored, 2000.0, 2000.0 - 1e-3, 2000.0)
    assert restored(2000.0, 2000.0 - 3e-3, 2000.0).restored_ratio == pytest.approx(1.0)
    refused("fender_coupled_m", tc.weight_distribution.front_fender_restored, 0.9, 0.9, 0.9)


def test_bars_hold_up_to_both_ratings() -> None:
    check = tc.weight_distribution.bar_rating_check
    assert check(500.0, 5000.0, 600.0, 5000.0, 100.0).holds
    assert not check(500.0, 5000.0, 600.0, 5000.0, 100.1).holds
    assert not check(500.0, 5000.1, 600.0, 5000.0).holds
    assert check(600.0, 5000.0, 600.0, 5000.0).holds


# -- ride height


def test_clearances_hold_up_to_their_least() -> None:
    rail = tc.ride_height.bed_rail_clearance
    assert rail(1.5 + inches(6), 1.5).holds
    assert not rail(1.5 + inches(6) - 1e-6, 1.5).holds
    assert rail(1.6, 1.5, 0.1).margin_m == pytest.approx(0.0)
    assert rail(1.7, 1.5).margin_m == pytest.approx(0.2 - inches(6))
    cab = tc.ride_height.cab_clearance_in_turn
    assert cab(0.5, 0.3, 0.8).holds
    assert not cab(0.499, 0.3, 0.8).holds
    assert not cab(0.55, 0.3, 0.8, 0.06).holds
    assert cab(0.55, 0.3, 0.8, 0.04).margin_m == pytest.approx(0.01)


def test_a_tenth_of_a_degree_is_level() -> None:
    level = tc.ride_height.ride_level
    for rise, attitude in (
        (0.0, "level"),
        (0.0174, "level"),
        (0.0176, "nose_down"),
        (-0.0174, "level"),
        (-0.0176, "nose_up"),
    ):
        assert level(1.0, 1.0 + rise, 10.0).attitude == attitude
    assert level(1.0, 1.1, 12.0).within_goal
    assert not level(1.0, 1.1001, 12.0).within_goal
    assert not level(1.0, 1.1, 12.0, 0.005).within_goal
    assert level(1.0, 1.2, 12.0, 0.02).within_goal


def test_a_ball_too_high_wants_drop_and_one_too_low_wants_rise() -> None:
    match = tc.ride_height.ball_height_match
    assert match(0.5, 0.5).change == "none"
    assert match(0.5 + inches(1), 0.5).holds
    assert match(0.5 + inches(1.01), 0.5).change == "more_drop"
    assert match(0.5 - inches(1.01), 0.5).change == "more_rise"
    assert match(0.5, 0.5, 0.0).holds


# -- electrics


def plug(truck: Any, trailer: Any, *needs: Any) -> Any:
    return tc.electrics.plug_match(truck, trailer, needs)


def test_the_plug_is_told_with_what_to_do() -> None:
    assert "no brake output" in plug("heavy_duty_7", "blade_7", "brake").remark
    assert "no brake output" in plug("flat_4", "blade_7", "brake", "charge").remark
    lacking = plug("flat_4", "flat_5", "reverse_lockout")
    assert "does not carry" in lacking.remark
    assert lacking.missing == ("reverse_lockout",)
    same = plug("flat_4", "flat_4", "tail")
    assert same.remark.startswith("Same plug")
    assert same.same_plug
    other = plug("blade_7", "flat_4", "tail")
    assert other.remark.startswith("An adapter is needed")
    assert not other.same_plug
    refused("trailer_needs", plug, "flat_4", "flat_4")


def test_stop_lamps_ride_with_the_turn_signals_only_where_there_is_no_lead_of_their_own() -> None:
    for truck in ("flat_4", "flat_5", "blade_7", "heavy_duty_7", "iso_7", "iso_13"):
        assert plug(truck, truck, "stop").missing == ()
    assert plug("flat_4", "flat_4", "abs_power").missing == ("abs_power",)
    assert plug("blade_7", "blade_7", "abs_power").missing == ("abs_power",)
    assert plug("heavy_duty_7", "heavy_duty_7", "reverse").missing == ("reverse",)
    assert plug("heavy_duty_7", "heavy_duty_7", "reverse").to_be_tested == ()
    assert plug("blade_7", "blade_7", "reverse_lockout").to_be_tested == ("reverse_lockout",)
    assert plug("iso_13", "iso_13", "charge", "tail", "ground").missing == ()
    assert plug("iso_7", "iso_7", "reverse").missing == ("reverse",)


@pytest.mark.parametrize(
    ("brakes", "controller", "suits", "said"),
    [
        ("none", "none", True, "no brakes"),
        ("none", "electric_only", True, "no brakes"),
        ("surge", "none", True, "surge brakes"),
        ("surge", "air", True, "surge brakes"),
        ("electric", "electric_only", True, "gain"),
        ("electric", "electric_and_hydraulic", True, "Choose electric in its menu"),
        ("electric", "air", False, "cannot work"),
        ("electric", "none", False, "cannot work"),
        ("electric_over_hydraulic", "electric_and_hydraulic", True, "electric-over-hydraulic in its menu"),
        ("electric_over_hydraulic", "electric_only", False, "ask both makers"),
        ("electric_over_hydraulic", "none", False, "cannot work"),
        ("air", "air", True, "antilock"),
        ("air", "none", False, "cannot work"),
    ],
)
def test_every_pair_of_brakes_and_controller_has_its_answer(
    brakes: Any, controller: Any, suits: bool, said: str
) -> None:
    found = tc.electrics.controller_match(brakes, controller)
    assert found.suits == suits
    assert said in found.remark


def test_unknown_brakes_and_controllers_are_refused() -> None:
    match: Any = tc.electrics.controller_match
    refused("trailer_brakes", match, "magic", "none")
    refused("controller", match, "none", "magic")


# -- receiver


def test_the_row_of_the_label_that_counts() -> None:
    check = tc.receiver.receiver_check
    rows: Any = {"distributing_trailer_rating_kg": 4000.0, "distributing_tongue_rating_kg": 400.0}
    assert not check(3000.0, 100.0, 2000.0, 200.0, **rows).holds
    assert check(3000.0, 300.0, 2000.0, 200.0, bars_fitted=True, **rows).holds
    assert not check(4000.1, 300.0, 2000.0, 200.0, bars_fitted=True, **rows).holds
    assert not check(4000.0, 400.1, 2000.0, 200.0, bars_fitted=True, **rows).holds
    refused(
        "distributing_tongue_rating_kg",
        check,
        1.0,
        1.0,
        2.0,
        2.0,
        bars_fitted=True,
        distributing_trailer_rating_kg=4.0,
        distributing_tongue_rating_kg=0.0,
    )
    refused(
        "distributing_trailer_rating_kg",
        check,
        1.0,
        1.0,
        2.0,
        2.0,
        bars_fitted=True,
        distributing_trailer_rating_kg=-4.0,
        distributing_tongue_rating_kg=1.0,
    )
