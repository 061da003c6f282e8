"""Edges of statics: where a load changes side, an axle leaves the ground, a value stands on its limit."""

from __future__ import annotations

import math
from typing import Any, get_args

import pytest

from sendoff.calc.statics import suspension, trailer, truck, weighbridge
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2 as G


def refused(name: str, call: Any, *args: Any, **kwargs: Any) -> None:
    with pytest.raises(OutOfRange) as refusal:
        call(*args, **kwargs)
    assert refusal.value.name == name


def test_an_item_over_the_axles_counts_half_ahead_of_them() -> None:
    found = trailer.cargo_ahead_of_axles((300.0, 200.0, 500.0), (2.0, 5.0, 7.0), 5.0)
    assert found.ahead_of_axles_ratio == pytest.approx(0.4)
    assert trailer.cargo_ahead_of_axles((300.0, 0.0), (2.0, 7.0), 5.0).ahead_of_axles_ratio == 1.0
    refused("item_mass_kg", trailer.cargo_ahead_of_axles, (0.0, 0.0), (2.0, 7.0), 5.0)
    assert trailer.cargo_ahead_of_axles((0.5,), (2.0,), 5.0).ahead_of_axles_ratio == 1.0


def test_a_center_may_stand_over_the_coupling_but_not_ahead_of_it() -> None:
    assert trailer.tongue_load(1000.0, 5.0, 5.0).coupling_load_kg == 1000.0
    refused("center_ahead_of_axles_m", trailer.tongue_load, 1000.0, 5.001, 5.0)
    assert trailer.trailer_loads(1000.0, 0.0, 5.0).axle_group_load_kg == 0.0


def test_nothing_moved_changes_nothing_and_leaves_no_minus_zero() -> None:
    moved = trailer.move_item(500.0, 0.0, 5.0)
    assert math.copysign(1.0, moved.coupling_change_kg) == 1.0
    shift = truck.truck_axle_shift(500.0, 3.5, 0.0)
    assert math.copysign(1.0, shift.front_axle_change_kg) == 1.0


def test_supports_must_stand_one_behind_the_other() -> None:
    refused("center_to_second_m", trailer.two_support_loads, 100.0, 1.0, -1.0)
    refused("center_to_second_m", trailer.two_support_loads, 100.0, 1.0, -1.0 + 1e-12)
    refused("center_to_second_m", trailer.two_support_loads, 100.0, 1.0, -2.0)
    beyond = trailer.two_support_loads(100.0, 3.0, -1.0)
    assert (beyond.first_load_kg, beyond.second_load_kg) == (-50.0, 150.0)


def test_a_center_of_mass_of_almost_nothing_is_still_one() -> None:
    assert trailer.center_of_mass((1e-9,), (3.0,)).center_x_m == 3.0
    refused("item_mass_kg", trailer.center_of_mass, (0.0,), (3.0,))


def torsion(slope: float, mass: float = 5000.0, center: float = 4.5, stiffness: float = 100 * G) -> Any:
    return suspension.torsion_axle_loads(mass, center, (4.5, 5.5), stiffness, slope)


def test_the_heaviest_torsion_axle_is_the_rear_one_nose_up_and_the_front_one_nose_down() -> None:
    up, down = torsion(0.1), torsion(-0.1)
    assert up.heaviest_axle_load_kg == up.axle_load_kg[1] > up.axle_load_kg[0]
    assert down.heaviest_axle_load_kg == down.axle_load_kg[0] > down.axle_load_kg[1]
    for one in (up, down):
        assert one.heaviest_over_mean_ratio == pytest.approx(
            one.heaviest_axle_load_kg / (one.axle_group_load_kg / 2)
        )
        assert one.heaviest_over_mean_ratio > 1


@pytest.mark.parametrize("center", [5.5, 5.6])
def test_an_axle_at_exactly_zero_is_on_the_ground(center: float) -> None:
    # k·θ/g = 2, spread 0.5: A = (m·center − 1)/5 and F₁ = A/2 − 1, zero where m·center = 11
    just = suspension.torsion_axle_loads(11.0 / center, center, (4.5, 5.5), 20 * G, 0.1)
    assert just.axle_load_kg[0] == pytest.approx(0.0, abs=1e-12)
    refused("nose_up_rad", suspension.torsion_axle_loads, 10.99 / center, center, (4.5, 5.5), 20 * G, 0.1)


def test_an_axle_group_that_carries_less_than_a_kilogram_still_carries() -> None:
    assert suspension.torsion_axle_loads(0.5, 5.0, (4.5, 5.5), 1e-6, 0.0).axle_load_kg == pytest.approx(
        (0.25, 0.25)
    )
    refused("nose_up_rad", suspension.torsion_axle_loads, 5.0, 0.0, (4.5, 5.5), 1e3, 0.0)


def test_torsion_axles_are_named_from_front_to_rear_and_not_more_than_twelve() -> None:
    twelve = tuple(5.0 + 0.5 * n for n in range(12))
    assert len(suspension.torsion_axle_loads(5000.0, 6.0, twelve, 1e5).axle_load_kg) == 12
    refused("axle_x_m", suspension.torsion_axle_loads, 5000.0, 6.0, (*twelve, 20.0), 1e5)
    refused("axle_x_m", suspension.torsion_axle_loads, 5000.0, 6.0, (), 1e5)
    refused("axle_x_m", suspension.torsion_axle_loads, 5000.0, 4.0, (5.5, 4.5), 1e5)
    refused("axle_x_m", suspension.torsion_axle_loads, 5000.0, 4.0, (4.5, 4.5), 1e5)


def test_tires_come_in_twos_and_fours_and_a_side_load_needs_the_track() -> None:
    for count in (0, 1, 3, 6):
        refused("tire_count", suspension.tire_loads, 1000.0, count)
    assert suspension.tire_loads(1000.0).left_tire_load_kg == 500.0
    refused("track_width_m", suspension.tire_loads, 1000.0, 2, 0.1)
    assert suspension.tire_loads(1000.0, 2, -1.0, 2.0).left_tire_load_kg == 1000.0


def test_a_coupling_may_stand_over_the_front_axle_but_not_ahead_of_it() -> None:
    assert truck.truck_axle_shift(100.0, 4.0, -4.0).front_axle_change_kg == 100.0
    refused("coupling_behind_rear_axle_m", truck.truck_axle_shift, 100.0, 4.0, -4.001)


def test_either_truck_axle_may_just_float() -> None:
    front = truck.truck_axle_loads(500.0, 1000.0, 4.0, 1000.0, 2.0)
    assert front.front_axle_load_kg == 0.0
    refused("coupling_load_kg", truck.truck_axle_loads, 499.9, 1000.0, 4.0, 1000.0, 2.0)
    rear = truck.truck_axle_loads(
        1000.0, 500.0, 4.0, added_mass_kg=(1000.0,), added_behind_front_axle_m=(-2.0,)
    )
    assert rear.rear_axle_load_kg == 0.0
    refused(
        "added_behind_front_axle_m", truck.truck_axle_loads, 1000.0, 499.9, 4.0,
        added_mass_kg=(1000.0,), added_behind_front_axle_m=(-2.0,),
    )  # fmt: skip
    light = truck.truck_axle_loads(0.5, 0.5, 4.0)
    assert (light.front_axle_load_kg, light.rear_axle_load_kg, light.truck_mass_kg) == (0.5, 0.5, 1.0)


def test_what_is_added_is_named_with_its_place() -> None:
    refused("added_behind_front_axle_m", truck.truck_axle_loads, 1000.0, 500.0, 4.0, added_mass_kg=(1.0,))
    refused("wheelbase_m", truck.truck_axle_loads, 1000.0, 500.0, 0.0)


def test_a_vehicle_on_one_axle_balances_there() -> None:
    assert truck.center_from_axle_loads(0.0, 0.5, 2.5).center_behind_front_axle_m == 2.5
    refused("front_axle_load_kg", truck.center_from_axle_loads, 0.0, 0.0, 2.5)


def test_a_frame_beyond_ten_degrees_is_refused_even_if_its_axles_would_stay_down() -> None:
    soft: dict[str, Any] = {
        "total_mass_kg": 5000.0,
        "center_x_m": 4.5,
        "axle_x_m": (4.5, 5.5),
        "axle_stiffness_Npm": 100.0,
    }
    for slope in (math.radians(10), -math.radians(10)):
        assert suspension.torsion_axle_loads(**soft, nose_up_rad=slope).axle_group_load_kg > 0
    for slope in (10.001, -10.001):
        with pytest.raises(OutOfRange, match="nose_up_rad"):
            suspension.torsion_axle_loads(**soft, nose_up_rad=math.radians(slope))


# -- weighbridge


def test_three_weighings_must_grow() -> None:
    refused("all_wheels_coupled_kg", weighbridge.three_weighings, 3000.0, 2900.0, 3000.0)
    refused("truck_wheels_coupled_kg", weighbridge.three_weighings, 3000.0, 6001.0, 6000.0)
    same = weighbridge.three_weighings(3000.0, 6000.0, 6000.0)
    assert (same.trailer_axle_load_kg, same.coupling_share_ratio) == (0.0, 1.0)
    tail_heavy = weighbridge.three_weighings(3000.0, 2900.0, 5000.0)
    assert tail_heavy.coupling_load_kg == -100.0


def solve(*readings: tuple[str, float], spread: float = 10.0, **kwargs: Any) -> weighbridge.WeighingSolution:
    pads: Any = tuple(pad for pad, _ in readings)
    return weighbridge.solve_weighings(pads, tuple(value for _, value in readings), (spread,), **kwargs)


def test_readings_are_one_to_twelve_and_of_like_care() -> None:
    twelve = [("tongue_on_scale", 500.0)] * 12
    assert solve(*twelve).coupling_load_uncertainty_kg == pytest.approx(10 / math.sqrt(12))
    refused("pads", solve, *twelve, ("tongue_on_scale", 500.0))
    refused("pads", weighbridge.solve_weighings, (), (), (10.0,))
    ok = weighbridge.solve_weighings(("tongue_on_scale",) * 2, (500.0, 500.0), (1.0, 1e4))
    assert ok.coupling_load_kg == pytest.approx(500.0)
    refused(
        "reading_uncertainty_kg",
        weighbridge.solve_weighings,
        ("tongue_on_scale",) * 2,
        (500.0, 500.0),
        (1.0, 10_001.0),
    )


def test_readings_agree_up_to_twice_their_uncertainty() -> None:
    assert solve(("tongue_on_scale", 480.0), ("tongue_on_scale", 520.0)).readings_agree
    assert not solve(("tongue_on_scale", 479.9), ("tongue_on_scale", 520.1)).readings_agree


def test_the_share_and_its_uncertainty_are_those_of_a_quotient() -> None:
    told = solve(("tongue_on_scale", 500.0), ("trailer_wheels_alone", 4500.0))
    assert told.coupling_share_ratio == pytest.approx(0.1)
    # s = T/(T + A): ds² = (A·dT)² + (T·dA)² over (T + A)⁴
    spread = math.hypot(4500 * 10, 500 * 10) / 5000**2
    assert told.coupling_share_uncertainty_ratio == pytest.approx(spread)
    assert told.trailer_mass_uncertainty_kg == pytest.approx(10 * math.sqrt(2))


def test_what_settles_most_comes_first_and_easy_readings_before_hard_ones() -> None:
    one = solve(("all_wheels_coupled", 9000.0))
    assert one.settled_by[0] == "truck_alone"
    assert set(one.settled_by) == {"truck_alone", "trailer_alone"}
    two = solve(("all_wheels_coupled", 9000.0), ("truck_alone", 3000.0))
    assert two.settled_by == (
        "truck_wheels_coupled", "trailer_wheels_coupled", "tongue_on_scale", "trailer_wheels_alone",
    )  # fmt: skip


def test_with_the_truck_measured_its_axles_can_be_told_from_a_coupled_ticket() -> None:
    measured = {"wheelbase_m": 4.0, "coupling_behind_rear_axle_m": 1.0}
    # front₀ 1800, rear₀ 1400, T 400: front 1800 − 100, rear 1400 + 500
    told = solve(
        ("truck_front_coupled", 1700.0), ("truck_rear_coupled", 1900.0), ("truck_alone", 3200.0),
        ("all_wheels_coupled", 7600.0), **measured,
    )  # fmt: skip
    assert told.coupling_load_kg == pytest.approx(400.0)
    assert told.trailer_axle_load_kg == pytest.approx(4000.0)
    assert told.truck_front_axle_kg == pytest.approx(1800.0)
    assert told.truck_rear_axle_kg == pytest.approx(1400.0)
    assert told.undetermined == ()
    assert told.settled_by == ()
    all_but = solve(
        ("truck_alone", 3200.0), ("tongue_on_scale", 400.0), ("trailer_alone", 4400.0), **measured
    )
    assert all_but.undetermined == ("truck_front_axle", "truck_rear_axle")
    assert all_but.settled_by == (
        "truck_front_coupled", "truck_rear_coupled", "truck_front_alone", "truck_rear_alone",
    )  # fmt: skip


def test_both_measures_of_the_truck_are_needed_and_must_make_sense() -> None:
    for given in ({"wheelbase_m": 4.0}, {"coupling_behind_rear_axle_m": 1.0}):
        refused("wheelbase_m", solve, ("truck_rear_coupled", 1900.0), **given)
    for behind in (-4.0, 12.0):
        told = solve(("truck_rear_coupled", 1900.0), wheelbase_m=4.0, coupling_behind_rear_axle_m=behind)
        assert "coupling_load" in told.undetermined
    for behind in (-4.01, 12.01):
        refused(
            "coupling_behind_rear_axle_m", solve, ("truck_rear_coupled", 1900.0),
            wheelbase_m=4.0, coupling_behind_rear_axle_m=behind,
        )  # fmt: skip
    refused("wheelbase_m", solve, ("truck_alone", 1.0), wheelbase_m=0.0, coupling_behind_rear_axle_m=0.0)
    refused("pads", solve, ("somewhere", 1900.0))


def test_every_reading_tells_its_own_wheels_alone() -> None:
    alone = {
        "truck_alone": "truck_mass",
        "truck_front_alone": "truck_front_axle",
        "truck_rear_alone": "truck_rear_axle",
        "trailer_wheels_coupled": "trailer_axle_load",
        "all_wheels_coupled": "combination_mass",
        "trailer_alone": "trailer_mass",
        "trailer_wheels_alone": "trailer_axle_load",
        "tongue_on_scale": "coupling_load",
    }
    for pad in get_args(weighbridge.Pads):
        if pad in {"truck_front_coupled", "truck_rear_coupled"}:
            continue
        told = solve((pad, 1234.0))
        known = {name for name in get_args(weighbridge.Quantity) if name not in told.undetermined}
        assert known == ({alone[pad]} if pad in alone else set()), pad
        for name in known:
            assert getattr(told, f"{name}_kg") == pytest.approx(1234.0)
            assert getattr(told, f"{name}_uncertainty_kg") == pytest.approx(10.0)


def test_a_trailer_of_no_mass_has_no_share() -> None:
    told = solve(("truck_alone", 3000.0), ("truck_wheels_coupled", 3000.0), ("all_wheels_coupled", 3000.0))
    assert told.trailer_mass_kg == pytest.approx(0.0, abs=1e-9)
    assert told.coupling_share_ratio is None or math.isfinite(told.coupling_share_ratio)
    assert solve(("tongue_on_scale", 0.2), ("trailer_alone", 0.5)).coupling_share_ratio == pytest.approx(0.4)


def test_the_share_of_three_weighings_counts_what_they_have_in_common() -> None:
    told = solve(("truck_alone", 6820.0), ("truck_wheels_coupled", 7640.0), ("all_wheels_coupled", 13960.0))
    load, whole = 820.0, 7140.0
    # s = (B - A)/(C - A)
    slopes = ((load - whole) / whole**2, 1 / whole, -load / whole**2)
    assert told.coupling_share_uncertainty_ratio == pytest.approx(10 * math.hypot(*slopes))


def test_fine_and_coarse_readings_are_both_kept() -> None:
    told = weighbridge.solve_weighings(
        ("tongue_on_scale", "trailer_wheels_alone"), (500.0, 4000.0), (2.0, 20_000.0)
    )
    assert told.coupling_load_kg == pytest.approx(500.0)
    assert told.trailer_axle_load_kg == pytest.approx(4000.0)
    fine = solve(("tongue_on_scale", 500.0), ("trailer_wheels_alone", 4000.0), spread=0.1)
    assert fine.coupling_load_uncertainty_kg == pytest.approx(0.1)
    share = math.hypot(4000 * 0.1, 500 * 0.1) / 4500**2
    assert fine.coupling_share_uncertainty_ratio == pytest.approx(share)
    refused(
        "reading_uncertainty_kg",
        weighbridge.solve_weighings,
        ("tongue_on_scale",) * 3,
        (500.0,) * 3,
        (1.0, 1.0),
    )


def test_a_short_lever_still_tells_though_hardly() -> None:
    told = solve(
        ("truck_front_alone", 1800.0),
        ("truck_front_coupled", 1799.96),
        wheelbase_m=4.0,
        coupling_behind_rear_axle_m=4e-4,
    )
    assert told.coupling_load_kg == pytest.approx(400.0, rel=1e-6)
    assert told.coupling_load_uncertainty_kg == pytest.approx(10 * math.sqrt(2) / 1e-4, rel=1e-6)


def test_readings_a_thousandth_beyond_twice_their_uncertainty_disagree() -> None:
    assert not solve(("tongue_on_scale", 479.99), ("tongue_on_scale", 520.01)).readings_agree


def test_a_trailer_lighter_than_nothing_has_no_share() -> None:
    told = solve(("truck_alone", 3000.0), ("truck_wheels_coupled", 2995.0), ("all_wheels_coupled", 2990.0))
    assert told.trailer_mass_kg == pytest.approx(-10.0), "within what the scale may be off"
    assert told.coupling_share_ratio is None
    assert told.coupling_share_uncertainty_ratio is None


def test_wheels_that_would_pull_at_the_ground_are_refused() -> None:
    """Each scale is good to 10 kg, a difference to 14.1, and twice that is believed: 28.3 kg."""
    swapped = (("truck_alone", 3000.0), ("truck_wheels_coupled", 2950.0), ("all_wheels_coupled", 2900.0))
    with pytest.raises(OutOfRange, match="trailer axle load less than nothing") as caught:
        solve(*swapped)
    assert caught.value.name == "reading_kg"
    for short, good in ((28.0, True), (28.6, False)):
        pair = (("truck_wheels_coupled", 3000.0), ("all_wheels_coupled", 3000.0 - short))
        if good:
            assert solve(*pair).trailer_axle_load_kg == pytest.approx(-short)
        else:
            with pytest.raises(OutOfRange):
                solve(*pair)


def test_a_coupling_may_be_lifted() -> None:
    told = solve(("truck_alone", 3000.0), ("truck_wheels_coupled", 2900.0), ("all_wheels_coupled", 6000.0))
    assert told.coupling_load_kg == pytest.approx(-100.0)
    assert told.worst_disagreement_kg == 0.0


def test_a_disagreement_of_a_gram_is_told_and_one_of_rounding_is_not() -> None:
    told = solve(("truck_alone", 3000.0), ("truck_alone", 3000.001))
    assert told.worst_disagreement_kg == pytest.approx(0.0005)


def test_a_trailer_of_half_a_kilogram_can_be_weighed() -> None:
    assert weighbridge.three_weighings(3000.0, 3000.1, 3000.5).coupling_share_ratio == pytest.approx(0.2)


def test_a_coupling_stands_over_the_rear_axle_unless_told_otherwise() -> None:
    loads = truck.truck_axle_loads(1800.0, 1300.0, 3.7, 400.0)
    assert loads.front_axle_load_kg == 1800.0
    assert loads.rear_axle_load_kg == pytest.approx(1700.0)
