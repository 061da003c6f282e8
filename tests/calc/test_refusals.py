"""Input out of range is refused by the name of the argument: for each one of statics, truck check, rules, securement.

A call that its source answers (the first worked example of each calculation) is spoiled in one argument at a time.
Every number must be finite and measurable; which must be above zero, and between which bounds counts lie, is told here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, Final

import pytest

from sendoff.calc import arguments, calculations
from sendoff.errors import OutOfRange
from tests.calc.test_cases import CASES

FAMILIES: Final = ("statics", "truck_check", "rules_of_the_road", "securement")
ABOVE_ZERO: Final = "above zero"
NOT_BELOW: Final = "not below zero"
ANY: Final = "any number"

# what a number may be, where its name does not tell; all other quantities must be above zero
MAY_BE: Final[dict[str, str]] = dict.fromkeys(
    """
    item_x_m item_y_m center_ahead_of_axles_m item_ahead_of_axles_m moved_rearwards_m first_to_center_m
    center_to_second_m speed_change_mps nose_up_rad center_right_of_middle_m coupling_load_kg
    coupling_behind_rear_axle_m added_behind_front_axle_m right_of_center_m deviation_m hold_x_m hold_y_m
    deck_point_x_m deck_point_y_m item_front_x_m axle_x_m center_x_m low_ratio high_ratio
    """.split(),
    ANY,
) | dict.fromkeys(
    """
    item_mass_kg item_z_m front_axle_empty_kg rear_axle_empty_kg added_mass_kg front_axle_load_kg rear_axle_load_kg
    scale_reading_kg tongue_load_level_kg tongue_load_lowered_kg load_kg extension_m gear_mass_kg nose_ahead_of_ball_m
    least_m tolerance_m bar_pull_kg restored_ratio gear_behind_axle_kg greatest_speed_mps gear_sticking_out_m
    axle_load_kg payload_left_kg mass_on_mat_kg rated_ratio hold_height_m extra_length_m center_to_edge_m
    maker_nose_down_ratio lashing_angle_rad turned_from_direction_rad maker_low_ratio
    """.split(),
    NOT_BELOW,
)
# the same name may mean something stricter or wider in one calculation
HERE: Final[dict[tuple[str, str], str]] = {
    **{
        (name, "coupling_load_kg"): NOT_BELOW
        for name in ("truck_axle_loads", "payload_left", "bar_rating_check", "bar_pull_for_restoration")
    },
    **{
        (name, "item_mass_kg"): ABOVE_ZERO
        for name in """aggregate_wll tie_downs_by_length tie_downs_needed securement_forces over_top_lashings
        blocking_force tipping_lashings tie_down_plan over_top_plan en_lashing_plan""".split()
    },
    ("place_for_tongue_share", "empty_coupling_load_kg"): ANY,
    ("place_for_tongue_share", "wanted_share_ratio"): NOT_BELOW,
    ("place_for_tongue_share", "item_mass_kg"): ABOVE_ZERO,
    ("coupling_lift_off", "coupling_load_kg"): NOT_BELOW,
    ("coupling_lift_off", "load_kg"): NOT_BELOW,
    ("torsion_axle_loads", "axle_x_m"): ABOVE_ZERO,
    ("torsion_axle_loads", "center_x_m"): NOT_BELOW,
    ("trailer_loads", "center_x_m"): NOT_BELOW,
    ("equalized_axle_loads", "axle_group_load_kg"): ABOVE_ZERO,
    ("bar_rating_check", "trailer_mass_kg"): NOT_BELOW,
    ("receiver_check", "trailer_mass_kg"): NOT_BELOW,
    ("receiver_check", "tongue_load_kg"): NOT_BELOW,
    ("tire_loads", "axle_load_kg"): ABOVE_ZERO,
    ("pull_in_leg", "load_kg"): ABOVE_ZERO,
    ("over_top_force", "lashing_angle_rad"): ABOVE_ZERO,
    ("over_top_lashings", "lashing_angle_rad"): ABOVE_ZERO,
    ("over_top_mass_held", "lashing_angle_rad"): ABOVE_ZERO,
    ("tipping_lashings", "lashing_angle_rad"): ABOVE_ZERO,
}
COUNTS: Final[dict[tuple[str, str], tuple[int, int]]] = {
    ("equalized_axle_loads", "axle_count"): (1, 12),
    ("payload_left", "people_count"): (0, 100),
    ("tow_rating_as_loaded", "people_count"): (1, 100),
    ("brake_performance_of_combination", "truck_axle_count"): (2, 6),
    ("license_group", "seats_count"): (0, 300),
    ("bridge_formula", "axle_count"): (2, 9),
    ("pull_in_leg", "leg_count"): (1, 8),
    ("direct_lashing_mass_held", "lashing_count"): (1, 100),
}
BOUNDS: Final[dict[tuple[str, str], tuple[float, float]]] = {
    ("center_height_by_tilting", "nose_down_rad"): (math.radians(1), math.radians(20)),
    ("coupling_load_check", "low_ratio"): (0.0, 1.0),
    ("bar_pull_for_restoration", "restored_ratio"): (0.0, 1.0),
    ("place_for_tongue_share", "wanted_share_ratio"): (0.0, 0.6),
    ("heaviest_trailer", "coupling_share_ratio"): (1e-12, 1.0),
    ("friction_mat_resistance", "rated_ratio"): (0.0, 1.0),
    ("tie_downs_by_length", "item_length_m"): (1e-12, 100.0),
    ("load_recheck_stops", "trip_m"): (1e-12, 1e7),
    ("load_recheck_stops", "average_speed_mps"): (1.0, 50.0),
    ("pull_in_leg", "angle_to_deck_rad"): (math.radians(5), math.pi / 2),
    ("over_top_force", "lashing_angle_rad"): (math.radians(30), math.pi / 2),
    ("over_top_force", "friction_ratio"): (0.01, 1.0),
    ("tipping_lashings", "lashing_angle_rad"): (math.radians(30), math.pi / 2),
    ("dynamic_friction", "friction_ratio"): (0.01, 1.0),
    ("blocking_force", "friction_ratio"): (0.01, 1.0),
    ("direct_lashing_mass_held", "friction_ratio"): (0.01, 1.0),
    ("direct_lashing_mass_held", "lashing_angle_rad"): (0.0, math.radians(80)),
    ("direct_lashing_mass_held", "turned_from_direction_rad"): (0.0, math.radians(80)),
    ("en_lashing_plan", "friction_ratio"): (0.01, 1.0),
    ("k_factor_equivalent", "safety_ratio"): (1.0, 2.0),
    ("rating_through_adapter", "maker_kept_ratio"): (1e-12, 1.0),
}


# inputs that no worked example names
MORE: Final[dict[str, dict[str, Any]]] = {
    "ball_height_match": {"tolerance_m": 0.03},
    "blocking_force": {"gravity_mps2": 9.81},
    "cab_clearance_in_turn": {"least_m": 0.01},
    "commercial_threshold": {"trailer_mass_kg": 1500.0, "gcwr_label_kg": 5000.0},
    "direct_lashing_mass_held": {"vehicle_total_mass_kg": 7500.0, "gravity_mps2": 9.81},
    "en_lashing_plan": {"hold_height_m": 0.3, "extra_length_m": 0.3},
    "front_fender_restored": {"maker_limit_ratio": 0.5},
    "license_group": {"truck_mass_kg": 3000.0},
    "over_top_force": {"lashing_angle_rad": 1.5},
    "over_top_lashings": {"vehicle_total_mass_kg": 7500.0, "gravity_mps2": 9.81},
    "over_top_mass_held": {"vehicle_total_mass_kg": 7500.0, "gravity_mps2": 9.81},
    "payload_left": {"person_mass_kg": 68.0},
    "ride_level": {"maker_nose_down_ratio": 0.01},
    "rope_wll": {"marked_wll_kg": 300.0},
    "strapping_wll": {"marked_wll_kg": 300.0},
    "tie_down_plan": {"hold_wll_kg": (2000.0,), "hold_height_m": 0.3, "extra_length_m": 0.3},
    "tipping_lashings": {"lashing_angle_rad": 1.5, "vehicle_total_mass_kg": 7500.0, "gravity_mps2": 9.81},
    "tow_rating_as_loaded": {"person_mass_kg": 68.0},
}


def _bases() -> Iterator[tuple[str, dict[str, Any]]]:
    """A good call of each calculation: the worked example that names most inputs, and what others name beside it."""
    known = calculations()
    good: dict[str, list[dict[str, Any]]] = {}
    for case in CASES:
        calculation = known.get(case["function"])
        if calculation and calculation.family in FAMILIES and "refused" not in case:
            good.setdefault(calculation.name, []).append(arguments.read(calculation, case["inputs"]))
    for name, calls in sorted(good.items()):
        base = max(calls, key=len)
        for more in [*calls, MORE.get(name, {})]:
            for argument, value in more.items():
                if argument not in base and _refusal(name, {**base, argument: value}) == "":
                    base = {**base, argument: value}
        yield name, base


def _refusal(name: str, inputs: dict[str, Any]) -> str:
    """The name of the argument a call is refused for, empty where it is answered."""
    try:
        calculations()[name].function(**inputs)
    except OutOfRange as refusal:
        return refusal.name if str(refusal).startswith(f"{refusal.name}: ") else "not named"
    return ""


BASES: Final = dict(_bases())


def _numbers() -> Iterator[tuple[str, str]]:
    for name, inputs in BASES.items():
        for argument, value in inputs.items():
            one = value[0] if isinstance(value, tuple) and value else value
            if isinstance(one, float):
                yield name, argument


def _spoiled(name: str, argument: str, value: float) -> dict[str, Any]:
    inputs = BASES[name]
    old = inputs[argument]
    return {**inputs, argument: (*old[:-1], value) if isinstance(old, tuple) else value}


@pytest.mark.parametrize(("name", "argument"), list(_numbers()))
def test_what_is_no_number_or_beyond_any_measure_is_refused_by_name(name: str, argument: str) -> None:
    for value in (math.nan, math.inf, -math.inf, 2e12, -2e12):
        assert _refusal(name, _spoiled(name, argument, value)) == argument, f"{argument} = {value}"


@pytest.mark.parametrize(("name", "argument"), list(_numbers()))
def test_what_must_be_above_zero_is_refused_by_name(name: str, argument: str) -> None:
    may_be = HERE.get((name, argument), MAY_BE.get(argument, ABOVE_ZERO))
    if may_be == ABOVE_ZERO:
        assert _refusal(name, _spoiled(name, argument, 0.0)) == argument
        assert _refusal(name, _spoiled(name, argument, 1e-13)) == argument
    if may_be in {ABOVE_ZERO, NOT_BELOW}:
        assert _refusal(name, _spoiled(name, argument, -1e-3)) == argument
    if may_be == NOT_BELOW:
        assert _refusal(name, _spoiled(name, argument, 0.0)) != argument or argument == "item_mass_kg"


@pytest.mark.parametrize(("name", "argument"), list(COUNTS))
def test_counts_are_allowed_from_their_least_to_their_greatest(name: str, argument: str) -> None:
    low, high = COUNTS[name, argument]
    for value, allowed in ((low - 1, False), (low, True), (high, True), (high + 1, False)):
        refused = _refusal(name, {**BASES[name], argument: value})
        assert (refused != argument) == allowed, f"{argument} = {value}"


@pytest.mark.parametrize(("name", "argument"), list(BOUNDS))
def test_numbers_are_allowed_up_to_their_bounds_and_not_beyond(name: str, argument: str) -> None:
    low, high = BOUNDS[name, argument]
    step = 1e-6 * max(abs(low), abs(high), 1.0)
    for value in (low, high):
        assert _refusal(name, {**BASES[name], argument: value}) != argument, f"{argument} = {value}"
    assert _refusal(name, {**BASES[name], argument: high + step}) == argument
    if low > 1e-9 or low < 0:
        assert _refusal(name, {**BASES[name], argument: low - step}) == argument


def _lists() -> Iterator[tuple[str, str]]:
    for name, inputs in BASES.items():
        lists = [
            argument for argument, value in inputs.items() if isinstance(value, tuple) and len(value) > 1
        ]
        lists = [
            argument for argument in lists if not argument.startswith("gear_")
        ]  # one length stands for all
        if len(lists) > 1 and name not in {"safety_chain_check", "width_check"}:
            for argument in lists:
                yield name, argument


@pytest.mark.parametrize(("name", "argument"), list(_lists()))
def test_a_list_of_another_length_is_refused(name: str, argument: str) -> None:
    inputs = BASES[name]
    longer = {**inputs, argument: (*inputs[argument], *inputs[argument][-1:] * 2)}
    assert _refusal(name, longer) in [other for other, value in inputs.items() if isinstance(value, tuple)]


def test_a_window_is_in_order_and_within_the_whole() -> None:
    call = calculations()["coupling_load_check"].function
    assert call(500.0, 5000.0, 0.0, 1.0).holds
    for low, high, name in (
        (0.1, 0.1, "high_ratio"),
        (0.2, 0.1, "high_ratio"),
        (0.1, 1.001, "high_ratio"),
        (1.0, 1.0, "high_ratio"),
    ):
        with pytest.raises(OutOfRange, match=name):
            call(500.0, 5000.0, low, high)


@pytest.mark.parametrize("name", ["tie_down_plan", "over_top_plan", "en_lashing_plan"])
def test_gear_and_points_are_named_one_by_one_or_one_for_all(name: str) -> None:
    inputs = BASES[name]
    gear = "gear_capacity_N" if name == "en_lashing_plan" else "gear_wll_kg"
    assert _refusal(name, {**inputs, "gear_length_m": (5.0, 5.0, 5.0)}) == "gear_length_m"
    assert _refusal(name, {**inputs, gear: inputs[gear] * 21}) == gear
    assert _refusal(name, {**inputs, gear: ()}) == gear
    bears = "deck_point_capacity_N" if name == "en_lashing_plan" else "deck_point_wll_kg"
    assert _refusal(name, {**inputs, bears: inputs[bears] * 2}) == bears
    many = {key: inputs[key] * 11 for key in ("deck_point_x_m", "deck_point_y_m")}
    assert _refusal(name, {**inputs, **many}) == "deck_point_x_m"


ALL: Final = (
    (test_what_is_no_number_or_beyond_any_measure_is_refused_by_name, list(_numbers())),
    (test_what_must_be_above_zero_is_refused_by_name, list(_numbers())),
    (test_counts_are_allowed_from_their_least_to_their_greatest, list(COUNTS)),
    (test_numbers_are_allowed_up_to_their_bounds_and_not_beyond, list(BOUNDS)),
    (test_a_list_of_another_length_is_refused, list(_lists())),
)
"""Every test here that asks one calculation at a time, with what it is asked: for the proof by planted faults."""
