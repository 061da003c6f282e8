"""93 real cars (numbers only, see tests/calc/deck_plan/cars93.csv) loaded, driven up ramps and tied down.

Nothing here knows an expected load: what is held against is conservation (what a car weighs must be found again on
coupling and axles, whole, and ramps must bear its weight and no more), and what the data set says of itself.
"""

from __future__ import annotations

import csv
import itertools
import math
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest

from sendoff.calc.ramps import (
    axle_loads_on_slope,
    breakover_angle,
    crest_check,
    least_ramp_length,
    loading_check,
    ramp_angle,
    ramp_rating_check,
)
from sendoff.calc.securement.commodities import car_tie_downs
from sendoff.calc.securement.plan import tie_down_plan
from sendoff.calc.securement.us import aggregate_wll
from sendoff.calc.statics.trailer import (
    add_item,
    center_of_mass,
    move_item,
    trailer_loads,
    two_support_loads,
)
from sendoff.calc.statics.truck import center_from_axle_loads
from sendoff.calc.winch import winch_pull
from sendoff.units import STANDARD_GRAVITY_mps2 as G
from sendoff.units import to_si

LB: Final = 0.45359237
INCH: Final = 0.0254
FRONT_SHARE: Final = {"front": 0.62, "rear": 0.53, "both": 0.57}
"""Share of the front axle by driven axle: not in the data, invented and the same for all (as in the deck planner's)."""
DATA: Final = Path(__file__).parents[1] / "calc" / "deck_plan" / "cars93.csv"


@dataclass(frozen=True, slots=True)
class Car:
    """What the data set tells of one car."""

    row: str
    mass_kg: float
    length_m: float
    wheelbase_m: float
    width_m: float
    front_share: float


def _cars() -> list[Car]:
    lines = [line for line in DATA.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return [
        Car(
            row["row"],
            float(row["weight_lb"]) * LB,
            float(row["length_in"]) * INCH,
            float(row["wheelbase_in"]) * INCH,
            float(row["width_in"]) * INCH,
            FRONT_SHARE[row["driven"]],
        )
        for row in csv.DictReader(lines)
    ]


CARS: Final = _cars()
every_car = pytest.mark.parametrize("car", CARS, ids=lambda car: car.row)


def test_the_data_are_what_their_source_says_they_are() -> None:
    assert len(CARS) == 93
    for values, unit, low, high in (
        ([car.mass_kg for car in CARS], LB, 1695, 4105),
        ([car.length_m for car in CARS], INCH, 141, 219),
        ([car.wheelbase_m for car in CARS], INCH, 90, 119),
        ([car.width_m for car in CARS], INCH, 60, 78),
    ):
        assert min(values) == pytest.approx(low * unit)
        assert max(values) == pytest.approx(high * unit)
    mean_lb = sum(car.mass_kg for car in CARS) / LB / 93
    assert mean_lb == pytest.approx(3073.0, abs=0.5)
    assert 4289 / mean_lb == pytest.approx(1.396, abs=0.001), "the average new light vehicle of 2021 over it"


def test_a_planning_weight_of_3000_lb_is_too_light_for_more_than_half_of_them() -> None:
    """A State aid for inspectors plans with 3,000 lb a car: far too light for a car hauler."""
    heavier = sum(car.mass_kg > 3000 * LB for car in CARS)
    assert heavier > 93 / 2


@every_car
def test_a_car_on_its_wheels_weighs_what_it_weighs(car: Car) -> None:
    ahead = (1 - car.front_share) * car.wheelbase_m
    on = two_support_loads(car.mass_kg, ahead, car.wheelbase_m - ahead)
    assert on.first_load_kg + on.second_load_kg == pytest.approx(car.mass_kg, rel=1e-12)
    assert on.first_load_kg == pytest.approx(car.front_share * car.mass_kg, rel=1e-12)
    back = center_from_axle_loads(on.first_load_kg, on.second_load_kg, car.wheelbase_m)
    assert back.vehicle_mass_kg == pytest.approx(car.mass_kg, rel=1e-12)
    assert back.center_behind_front_axle_m == pytest.approx(ahead, rel=1e-12)


@every_car
def test_a_car_on_a_trailer_is_found_again_on_coupling_and_axles(car: Car) -> None:
    empty_kg, empty_x_m, axles_m = 1600.0, 4.4, 5.0
    bare = trailer_loads(empty_kg, empty_x_m, axles_m)
    for center_x_m in (2.5, 4.2, 4.9):
        whole = center_of_mass((empty_kg, car.mass_kg), (empty_x_m, center_x_m))
        loaded = trailer_loads(whole.total_mass_kg, whole.center_x_m, axles_m)
        assert loaded.coupling_load_kg + loaded.axle_group_load_kg == pytest.approx(
            empty_kg + car.mass_kg, rel=1e-12
        )
        added = add_item(car.mass_kg, axles_m - center_x_m, axles_m)
        assert loaded.coupling_load_kg - bare.coupling_load_kg == pytest.approx(
            added.coupling_change_kg, rel=1e-9
        )
        assert loaded.axle_group_load_kg - bare.axle_group_load_kg == pytest.approx(
            added.axle_group_change_kg, rel=1e-9
        )
        moved = move_item(car.mass_kg, 0.4, axles_m)
        behind = trailer_loads(
            whole.total_mass_kg, whole.center_x_m + 0.4 * car.mass_kg / whole.total_mass_kg, axles_m
        )
        assert behind.coupling_load_kg - loaded.coupling_load_kg == pytest.approx(
            moved.coupling_change_kg, rel=1e-9
        )
        assert moved.coupling_change_kg == pytest.approx(-moved.axle_group_change_kg)


def test_two_cars_are_the_sum_of_each() -> None:
    for first, second in itertools.pairwise(CARS):
        both = add_item(first.mass_kg, 1.1, 6.0), add_item(second.mass_kg, -0.7, 6.0)
        center = center_of_mass((first.mass_kg, second.mass_kg), (4.9, 6.7))
        together = add_item(center.total_mass_kg, 6.0 - center.center_x_m, 6.0)
        assert together.coupling_change_kg == pytest.approx(
            sum(one.coupling_change_kg for one in both), abs=1e-9
        )
        assert together.axle_group_change_kg == pytest.approx(sum(one.axle_group_change_kg for one in both))


@every_car
def test_a_car_on_a_ramp_presses_on_it_with_its_weight_and_no_more(car: Car) -> None:
    behind_front = (1 - car.front_share) * car.wheelbase_m
    for degrees in (0.0, 8.0, 14.0, 20.0):
        angle = math.radians(degrees)
        on = axle_loads_on_slope(car.mass_kg, car.wheelbase_m, behind_front, 0.55, angle)
        square = on.upper_N + on.lower_N
        along = car.mass_kg * G * math.sin(angle)
        assert math.hypot(square, along) == pytest.approx(car.mass_kg * G, rel=1e-12)
        level = two_support_loads(car.mass_kg, behind_front, car.wheelbase_m - behind_front)
        if degrees == 0:
            assert on.lower_N == pytest.approx(level.second_force_N, rel=1e-12)
        else:
            assert on.lower_N > level.second_force_N * math.cos(angle), "the lower axle takes more"
        pull = winch_pull(car.mass_kg, math.tan(angle), "steel_deck")
        assert pull.grade_N == pytest.approx(along, rel=1e-9, abs=1e-9), "what the winch holds is what slides"


@every_car
def test_ramps_that_just_do_just_do(car: Car) -> None:
    belly_m, rise_m = 0.14, 0.66
    sharpest = breakover_angle(car.wheelbase_m, belly_m)
    just = least_ramp_length(rise_m, sharpest)
    assert ramp_angle(rise_m, just) == pytest.approx(sharpest, rel=1e-12)
    assert crest_check(car.wheelbase_m, belly_m, sharpest).clearance_m == pytest.approx(0.0, abs=1e-12)
    assert crest_check(car.wheelbase_m, belly_m, sharpest * 0.99).passes
    assert not crest_check(car.wheelbase_m, belly_m, sharpest * 1.01).passes
    wide = math.radians(60)
    assert loading_check(rise_m, just * 1.001, car.wheelbase_m, belly_m, wide, wide).passes
    short = loading_check(rise_m, just * 0.999, car.wheelbase_m, belly_m, wide, wide)
    assert not short.passes
    assert short.least_ramp_m == pytest.approx(just, rel=1e-9)


@every_car
def test_ramps_bear_an_axle_or_the_whole_car_never_more(car: Car) -> None:
    heavy = max(car.front_share, 1 - car.front_share)
    long = ramp_rating_check(car.mass_kg, heavy, car.wheelbase_m, 0.55, car.wheelbase_m + 0.2, 0.2, 2000.0)
    short = ramp_rating_check(car.mass_kg, heavy, car.wheelbase_m, 0.55, car.wheelbase_m - 0.2, 0.2, 2000.0)
    assert heavy * car.mass_kg * math.cos(0.2) <= short.demand_kg <= long.demand_kg <= car.mass_kg
    assert long.both_axles
    assert not short.both_axles


@every_car
def test_a_car_is_tied_down_at_each_corner_and_its_limits_add_up(car: Car) -> None:
    front_m = 3.0
    rear_m = front_m + car.wheelbase_m
    half = car.width_m / 2
    plan = tie_down_plan(
        "car",
        car.mass_kg,
        (front_m, front_m, rear_m, rear_m),
        (-half, half, -half, half),
        (front_m - 1.0, front_m - 1.0, rear_m + 1.0, rear_m + 1.0),
        (-1.0, 1.0, -1.0, 1.0),
        (to_si(5000, "lb", "mass"),),
        (to_si(3333, "lb", "mass"),) * 4,
        (to_si(8, "ft", "length"),),
    )
    assert plan.feasible, plan.why_not
    assert plan.needed_count == car_tie_downs(car.mass_kg).least_count == len(plan.tie_downs)
    assert {(one.pulls, one.side) for one in plan.tie_downs} == {
        (pull, side) for pull in ("forward", "rearward") for side in ("left", "right")
    }
    whole = aggregate_wll(car.mass_kg, (to_si(3333, "lb", "mass"),) * 4, ("to_item",))
    assert plan.aggregate_kg == pytest.approx(whole.aggregate_kg)
    assert plan.margin_kg == pytest.approx(plan.aggregate_kg - car.mass_kg / 2)
    assert sum(whole.counted_kg) == pytest.approx(whole.aggregate_kg)
    less = tie_down_plan(
        "car",
        car.mass_kg,
        (front_m, front_m, rear_m, rear_m),
        (-half, half, -half, half),
        (front_m - 1.0, front_m - 1.0, rear_m + 1.0, rear_m + 1.0),
        (-1.0, 1.0, -1.0, 1.0),
        (to_si(5000, "lb", "mass"),),
        (to_si(3333, "lb", "mass"),) * 3,
        (to_si(8, "ft", "length"),),
    )
    assert not less.feasible, "three are not four"
