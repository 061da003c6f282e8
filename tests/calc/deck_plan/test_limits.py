"""The straight lines, held against statics done by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sendoff.calc.deck_plan import AxleGroup, Problem, Trailer, Truck
from sendoff.calc.deck_plan.limits import axle_loads, lines, pin_load, truck_loads
from sendoff.units import to_si
from tests.calc.deck_plan.checker import statics
from tests.calc.deck_plan.instances import random_problem
from tests.calc.deck_plan.test_problem import DECK, TRAILER, car


def kg(pounds: float) -> float:
    return to_si(pounds, "lb", "mass")


def m(inches: float) -> float:
    return to_si(inches, "in", "length")


def test_a_machine_a_foot_further_back_takes_430_lb_off_the_pin() -> None:
    """10,000 lb moved 12 in on 280 in between pin and axles: 10,000 · 12 / 280 = 429 lb (hand calculation)."""
    trailer = Trailer(kg(6000), m(220), (m(280),), "equalized", (kg(14000),), kg(20000))
    pin = pin_load(trailer)
    before = pin.at(kg(10000), kg(10000) * m(150))
    after = pin.at(kg(10000), kg(10000) * m(162))
    assert (before - after) / kg(1) == pytest.approx(10000 * 12 / 280)


def test_torsion_axles_bear_by_their_distance_from_the_coupling() -> None:
    """Axles at 8, 9 and 10 m under a moment of 24,500 kg·m: 24,500 / (64 + 81 + 100) = 100 kg a meter (hand)."""
    trailer = Trailer(1000.0, 4.5, (8.0, 9.0, 10.0), "torsion", (3000.0,) * 3, 9000.0)
    loads = [load.at(4000.0, 20000.0) for load in axle_loads(trailer)]
    assert loads == pytest.approx([800.0, 900.0, 1000.0])
    assert pin_load(trailer).at(4000.0, 20000.0) == pytest.approx(5000.0 - 2700.0)


def test_equalized_axles_bear_alike() -> None:
    """The same moment on equalized axles: 24,500 / 27 kg each (hand)."""
    trailer = Trailer(1000.0, 4.5, (8.0, 9.0, 10.0), "equalized", (3000.0,) * 3, 9000.0)
    assert [load.at(4000.0, 20000.0) for load in axle_loads(trailer)] == pytest.approx([24500 / 27] * 3)


def test_a_pin_ahead_of_the_rear_axle_loads_both_truck_axles() -> None:
    """1,000 kg 0.1 m ahead of the rear axle, wheelbase 4.1 m: front 100/4.1, rear 4000/4.1 kg (lever, by hand)."""
    truck = Truck(-4.0, 0.1, 2000.0, 1500.0)
    front, rear = truck_loads(
        truck, replace(pin_load(TRAILER), constant_kg=0.0, per_mass_ratio=1.0, per_moment_1pm=0.0)
    )
    assert front.at(1000.0, 0.0) == pytest.approx(2000 + 100 / 4.1)
    assert rear.at(1000.0, 0.0) == pytest.approx(1500 + 4000 / 4.1)


def test_weight_behind_the_rear_axle_lifts_the_front() -> None:
    """A ball 1.2 m behind the rear axle, wheelbase 3.6 m: 300 kg take 100 kg off the front axle (lever, by hand)."""
    truck = Truck(-4.8, -1.2, 1400.0, 1100.0, front_least_kg=1000.0)
    load = pin_load(TRAILER)
    front, _ = truck_loads(truck, replace(load, constant_kg=300.0, per_mass_ratio=0.0, per_moment_1pm=0.0))
    assert front.at(0.0, 0.0) == pytest.approx(1300.0)


def test_a_margin_of_one_is_where_little_is_called_left() -> None:
    """Ten percent left on an axle, two points left in the window, five percent of the gross: each a margin of one."""
    trailer = Trailer(
        1000.0,
        5.0,
        (5.0,),
        "equalized",
        (1000.0,),
        1000 / 0.95,
        pin_share_least_ratio=0.05,
        pin_share_most_ratio=0.3,
    )
    by_name = {line.name: line for line in lines(Problem((car(),), (DECK,), trailer))}
    # nothing aboard: the axle bears all 1,000 kg, the pin nothing
    assert by_name["axle_1"].margin(0.0, 0.0) == pytest.approx(0.0)
    # 100 kg at 0 m: pin 100 of 1,100; axle still 1,000
    assert by_name["gross"].margin(0.0, 0.0) == pytest.approx(1.0)
    assert by_name["axle_1"].margin(0.0, -500.0) == pytest.approx(1.0)
    assert by_name["pin_share_least"].margin(0.0, -350.0) == pytest.approx(1.0)
    assert by_name["pin_share_most"].margin(0.0, -1400.0) == pytest.approx(1.0)


@pytest.mark.parametrize("seed", range(30))
def test_every_line_says_what_a_linear_system_of_equilibrium_says(seed: int) -> None:
    problem = random_problem(seed, 3)
    for mass, moment in ((0.0, 0.0), (3000.0, 9000.0), (5200.0, 31000.0)):
        expected = statics(problem, mass, moment)
        for line in lines(problem):
            load, limit, tight, least = expected[line.name]
            assert line.load.at(mass, moment) == pytest.approx(load, abs=1e-6)
            assert line.limit.at(mass, moment) == pytest.approx(limit, abs=1e-6)
            assert line.tight_ratio == pytest.approx(tight)
            assert line.least is least
        assert {line.name for line in lines(problem)} == set(expected)


def test_a_group_of_the_law_adds_up_its_axles() -> None:
    trailer = Trailer(1000.0, 4.5, (8.0, 9.0), "torsion", (3000.0,) * 2, 9000.0)
    problem = Problem(
        (car(),), (DECK,), trailer, axle_groups=(AxleGroup("tandem", ("axle_1", "axle_2"), 4000.0),)
    )
    line = next(line for line in lines(problem) if line.name == "law:tandem")
    assert line.load.at(2000.0, 10000.0) == pytest.approx(
        sum(load.at(2000.0, 10000.0) for load in axle_loads(trailer))
    )
