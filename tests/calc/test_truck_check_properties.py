"""What holds for every truck and trailer: margins fall with load, the stricter rule counts, numbers stay numbers."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import truck_check as tc
from sendoff.calc._limits import pounds
from sendoff.errors import OutOfRange
from tests.calc.numbers_of import numbers

masses = st.floats(1.0, 50_000.0)
lengths = st.floats(0.1, 20.0)
shares = st.floats(0.01, 1.0)
anything = st.floats(allow_nan=True, allow_infinity=True)


@given(masses, masses, masses)
def test_a_heavier_load_never_leaves_more_of_a_rating(load: float, more: float, rating: float) -> None:
    light, heavy = tc.coupling.rating_check(load, rating), tc.coupling.rating_check(load + more, rating)
    assert heavy.margin_kg < light.margin_kg
    assert heavy.used_ratio > light.used_ratio
    assert light.holds or not heavy.holds
    assert light.holds == (light.margin_kg >= -1e-9 * rating)


@given(st.lists(masses, min_size=1, max_size=6))
def test_the_lowest_rating_is_one_of_them_and_above_none(ratings: list[float]) -> None:
    found = tc.coupling.lowest_rating(tuple(f"part {n}" for n in range(len(ratings))), tuple(ratings))
    assert found.lowest_rating_kg == min(ratings)
    assert ratings[int(found.lowest_part.split()[1])] == min(ratings)


@given(st.floats(100.0, pounds(10_000)), st.floats(0.0, 500.0))
def test_a_heavier_trailer_never_asks_for_a_weaker_coupler(mass: float, more: float) -> None:
    for state in ("maryland", "new_york"):
        light = tc.hitch_strength.coupler_least_strength(mass, state)
        try:
            heavy = tc.hitch_strength.coupler_least_strength(mass + more, state)
        except OutOfRange:
            continue
        assert heavy.trailer_class >= light.trailer_class
        assert heavy.longitudinal_N >= light.longitudinal_N - 1e-6
        assert heavy.vertical_compression_N >= light.vertical_compression_N - 1e-6


@given(st.floats(100.0, pounds(10_000)))
def test_the_first_print_of_the_strengths_is_the_stricter(mass: float) -> None:
    first = tc.hitch_strength.coupler_least_strength(mass)
    second = tc.hitch_strength.coupler_least_strength(mass, "new_york")
    assert first.vertical_tension_N >= second.vertical_tension_N - 1e-6


@given(
    masses, st.lists(masses, min_size=1, max_size=3), st.sampled_from(["full_trailer", "semitrailer_or_tag"])
)
def test_chains_that_hold_here_hold_under_every_rule(mass: float, chains: list[float], kind: Any) -> None:
    forces = tuple(9.80665 * chain for chain in chains)
    check = tc.chains.safety_chain_check(mass, forces, kind)
    if check.holds:
        assert check.federal_combined_holds
        assert check.weakest_chain_N >= 9.80665 * mass * (1 - 1e-9)
        assert check.j684_each_holds in {True, None}
        assert len(chains) >= 2
    assert check.j684_applies == (mass <= pounds(10_000) * (1 + 1e-9))
    assert (check.j684_each_needed_N is None) == (not check.j684_applies)
    stronger = tc.chains.safety_chain_check(mass, tuple(1.5 * force for force in forces), kind)
    assert stronger.holds or not check.holds
    assert stronger.margin_each_N > check.margin_each_N


@given(st.floats(-2000.0, 20_000.0), masses, st.floats(0.0, 0.4), st.floats(0.01, 0.4))
def test_a_coupling_load_lies_below_within_or_above_its_window(
    load: float, mass: float, low: float, width: float
) -> None:
    check = tc.coupling_load.coupling_load_check(load, mass, low, low + width)
    assert check.holds == (check.where == "within")
    if check.margin_kg > 1e-6 * mass:
        assert check.where == "within"
    if check.margin_kg < -1e-6 * mass:
        assert check.where == ("below" if load < check.least_load_kg else "above")
    assert check.margin_ratio * mass == pytest.approx(check.margin_kg, abs=1e-6)


@given(masses, st.integers(0, 9), st.floats(40.0, 150.0), st.floats(0, 500), st.floats(0, 3000))
def test_payload_is_shared_out_without_a_rest(
    payload: float, people: int, each: float, gear: float, coupling: float
) -> None:
    left = tc.ratings.payload_left(payload, people, each, gear, coupling)
    assert left.people_kg + gear + coupling + left.left_kg == pytest.approx(payload, abs=1e-6)
    assert left.left_for_trailer_and_gear_kg >= left.left_kg - 1e-9
    more = tc.ratings.payload_left(payload, people + 1, each, gear, coupling)
    assert more.left_kg < left.left_kg


@given(shares, masses, masses, masses, masses, masses)
def test_the_heaviest_trailer_breaks_none_of_the_limits(
    share: float, truck: float, gcwr: float, payload: float, receiver: float, tongue: float
) -> None:
    allowed = tc.ratings.heaviest_trailer(share, truck, gcwr, payload, receiver, tongue)
    heaviest = allowed.least_kg
    assert heaviest <= max(gcwr - truck, 0) + 1e-6
    assert heaviest * share <= payload + 1e-6
    assert heaviest * share <= tongue + 1e-6
    assert heaviest <= receiver
    by = {
        "combination_rating": allowed.by_combination_rating_kg,
        "payload": allowed.by_payload_kg,
        "receiver": allowed.by_receiver_kg,
        "receiver_tongue": allowed.by_receiver_tongue_kg,
    }
    assert by[allowed.limited_by] == heaviest


@given(
    st.floats(0.0, 2000.0), st.floats(0.3, 1.5), st.floats(2.5, 5.0), st.floats(0.5, 2.0), st.floats(2.0, 9.0)
)
def test_bars_move_load_and_make_none(
    pull: float, bar: float, base: float, overhang: float, trailer: float
) -> None:
    effect = tc.weight_distribution.weight_distribution_effect(pull, bar, base, overhang, trailer)
    changes = (effect.trailer_axles_change_kg, effect.front_axle_change_kg, effect.rear_axle_change_kg)
    assert math.fsum(changes) == pytest.approx(0.0, abs=1e-9 * (1 + pull))
    assert effect.trailer_axles_change_kg >= 0
    assert effect.front_axle_change_kg >= 0


@given(
    st.floats(0.0, 1.0), st.floats(50.0, 900.0), st.floats(0.3, 1.5), st.floats(0.5, 2.0), st.floats(2.0, 9.0)
)
def test_the_pull_asked_for_restores_what_was_asked(
    share: float, tongue: float, bar: float, overhang: float, trailer: float
) -> None:
    base = 3.6
    pull = tc.weight_distribution.bar_pull_for_restoration(share, tongue, bar, overhang, trailer)
    given_back = tc.weight_distribution.weight_distribution_effect(pull, bar, base, overhang, trailer)
    assert given_back.front_axle_change_kg == pytest.approx(share * tongue * overhang / base, abs=1e-9)


@given(st.floats(500, 3000), st.floats(10, 400), st.floats(-0.5, 2.0))
def test_restoration_reads_the_same_by_scale_and_by_fender(bare: float, lost: float, share: float) -> None:
    by_scale = tc.weight_distribution.front_axle_restored(bare, bare - lost, bare - lost + share * lost)
    rise = lost / 10_000
    by_fender = tc.weight_distribution.front_fender_restored(0.9, 0.9 + rise, 0.9 + rise - share * rise)
    assert by_scale.restored_ratio == pytest.approx(share, abs=1e-6)
    assert by_fender.restored_ratio == pytest.approx(share, abs=1e-6)
    assert by_scale.lost_by_coupling
    assert by_fender.lost_by_coupling
    assert by_scale.within_limit == (by_scale.restored_ratio <= 1 + 1e-9)


@given(st.floats(0.5, 2.0), st.floats(0.0, 1.5), st.floats(0.5, 2.5))
def test_a_wider_or_longer_nose_comes_closer_to_the_cab(cab: float, ahead: float, width: float) -> None:
    here = tc.ride_height.cab_clearance_in_turn(cab, ahead, width)
    assert tc.ride_height.cab_clearance_in_turn(cab, ahead + 0.1, width).clearance_m < here.clearance_m
    assert tc.ride_height.cab_clearance_in_turn(cab, ahead, width + 0.1).clearance_m < here.clearance_m
    assert tc.ride_height.cab_clearance_in_turn(cab + 0.1, ahead, width).clearance_m > here.clearance_m


@given(st.floats(0.3, 1.5), st.floats(0.3, 1.5), st.floats(1.0, 12.0))
def test_a_trailer_turned_round_rides_the_other_way(front: float, rear: float, between: float) -> None:
    one, other = (
        tc.ride_height.ride_level(front, rear, between),
        tc.ride_height.ride_level(rear, front, between),
    )
    assert one.slope_ratio == -other.slope_ratio
    assert {one.attitude, other.attitude} in ({"level"}, {"nose_up", "nose_down"})


LEADS: list[Any] = list(get_args(tc.electrics.Lead))


@given(
    st.sampled_from(["flat_4", "flat_5", "blade_7", "heavy_duty_7", "iso_7", "iso_13"]),
    st.lists(st.sampled_from(LEADS), min_size=1, unique=True),
)
def test_every_function_asked_for_is_carried_missing_or_to_be_tested(plug: Any, needs: list[Any]) -> None:
    match = tc.electrics.plug_match(plug, "blade_7", tuple(needs))
    assert set(match.missing) <= set(needs)
    assert set(match.to_be_tested) <= set(needs)
    assert not set(match.missing) & set(match.to_be_tested)
    assert match.all_functions == (not match.missing)
    if "brake" in needs:
        assert ("brake" in match.missing) == (plug != "blade_7")


THREE: list[Callable[..., Any]] = [
    tc.coupling.ball_size_match,
    tc.coupling.rating_check,
    tc.coupling.ball_shank_fit,
    tc.adapters.tongue_rating_by_leverage,
    tc.coupling_load.coupling_load_check,
    tc.ratings.payload_from_scale,
    tc.ratings.combination_weight_check,
    tc.ratings.truck_axle_ratings_check,
    tc.ratings.heaviest_trailer,
    tc.weight_distribution.weight_distribution_effect,
    tc.weight_distribution.bar_pull_for_restoration,
    tc.weight_distribution.front_axle_restored,
    tc.weight_distribution.front_fender_restored,
    tc.weight_distribution.bar_rating_check,
    tc.ride_height.bed_rail_clearance,
    tc.ride_height.cab_clearance_in_turn,
    tc.ride_height.ride_level,
    tc.ride_height.ball_height_match,
    tc.chains.chain_assembly_strength,
    tc.chains.tracking_margin,
    tc.hitch_strength.coupler_least_strength,
    tc.hitch_strength.hitch_test_forces,
    tc.chains.safety_chain_class_strength,
]


@pytest.mark.parametrize("call", THREE, ids=lambda call: call.__name__)
@given(st.lists(anything, min_size=6, max_size=6))
def test_no_input_whatever_gives_a_number_that_is_none(call: Callable[..., Any], values: list[float]) -> None:
    parameters = [
        name
        for name, parameter in inspect.signature(call).parameters.items()
        if "str" not in str(parameter.annotation)
        and "Literal" not in str(parameter.annotation)
        and "Table" not in str(parameter.annotation)
        and "int" not in str(parameter.annotation)
    ]
    try:
        result = call(**dict(zip(parameters, values, strict=False)))
    except OutOfRange:
        return
    assert all(math.isfinite(number) for number in numbers(result))


@given(st.lists(anything, min_size=1, max_size=3), anything)
def test_no_list_whatever_gives_a_number_that_is_none(values: list[float], mass: float) -> None:
    attempts: list[Callable[[], Any]] = [
        lambda: tc.chains.safety_chain_check(mass, tuple(values)),
        lambda: tc.chains.chain_attachment_place(tuple(values)),
        lambda: tc.coupling.lowest_rating(tuple("abc"[: len(values)]), tuple(values)),
        lambda: tc.ratings.payload_left(mass, len(values), values[0], values[-1]),
        lambda: tc.tow_rating.tow_rating_as_loaded(mass, len(values), values[0], values[-1]),
        lambda: tc.adapters.rating_through_adapter(mass, "receiver_extension", values[0]),
        lambda: tc.chains.chain_breaking_strength(mass, "70"),
    ]
    for attempt in attempts:
        try:
            result = attempt()
        except OutOfRange:
            continue
        assert all(math.isfinite(number) for number in numbers(result))
