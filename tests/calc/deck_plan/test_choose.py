"""Which of many to take: the same worth as trying every set, and as another solver finds."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from proofs.prove_deck_plan import chosen
from sendoff.calc.deck_plan import choose, trips
from sendoff.calc.deck_plan.problem import with_items
from sendoff.calc.deck_plan.solve import HOLDS, Setup, best
from tests.calc.deck_plan import oracle_cpsat
from tests.calc.deck_plan.checker import check
from tests.calc.deck_plan.fleets import cars93, hauler
from tests.calc.deck_plan.instances import random_choice


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("worth", ["mass", "one each"])
def test_no_set_that_holds_is_worth_more(seed: int, worth: str) -> None:
    problem = random_choice(seed, 7, 3)
    if worth == "one each":
        problem = with_items(problem, [replace(item, worth_ratio=1.0) for item in problem.items])
    most = 0.0
    for size in range(1, len(problem.items) + 1):
        for items in itertools.combinations(problem.items, size):
            total = sum(item.worth for item in items)
            if total > most:
                setup = Setup(with_items(problem, items), "plain")
                if setup.find(setup.goal(enough=HOLDS), least=HOLDS - 1e-9).placements:
                    most = total
    found = choose(problem, code="plain")
    assert found.proved
    assert found.worth == pytest.approx(most, abs=1e-9)
    assert found.bound == found.worth
    if found.plan is not None:
        taken = with_items(problem, [item for item in problem.items if item.name in found.items])
        broken, margin = check(taken, found.plan.placements)
        assert not broken
        assert margin >= HOLDS
        assert found.plan.margin == pytest.approx(best(taken, code="plain")[0].margin)


@pytest.mark.parametrize("seed", range(100, 106))
def test_cpsat_finds_nothing_worthier_among_twelve(seed: int) -> None:
    problem = random_choice(seed, 12, 4)
    found, other = choose(problem, code="plain"), oracle_cpsat.solve(problem, choose=True, seconds=20)
    assert found.proved
    if other.proved:
        assert other.margin == pytest.approx(found.worth, abs=0.5)


def test_highs_finds_nothing_worthier_either() -> None:
    assert chosen(12, 4, range(2))["sets"] == 2


def test_out_of_time_the_best_found_comes_with_its_bound_and_is_not_called_proved() -> None:
    problem = random_choice(7, 20, 4)
    whole = choose(problem, code="plain")
    assert whole.proved
    asked = iter(range(10**9))
    short = choose(problem, code="plain", go_on=lambda: next(asked) < 1)
    assert not short.proved
    assert short.worth <= whole.worth <= short.bound + 1e-9


def test_nothing_fits_is_an_answer() -> None:
    problem = random_choice(0, 12, 4)
    heavy = replace(
        problem, trailer=replace(problem.trailer, gross_limit_kg=problem.trailer.empty_mass_kg + 10.0)
    )
    found = choose(heavy, code="plain")
    assert found.proved
    assert found.items == ()
    assert found.plan is None


def test_several_trips_take_everything_that_fits_at_all() -> None:
    cars = cars93()[:10]
    problem = hauler(cars)
    giant = replace(cars[0], name="giant", mass_kg=9000.0, mass_error_kg=0.0)
    found = trips(with_items(problem, [*cars, giant]), code="plain")
    carried = [name for trip in found.trips for name in trip.items]
    assert sorted(carried) == sorted(car.name for car in cars)
    assert found.stranded == ("giant",)
    assert found.count_bound <= len(found.trips)
    for trip in found.trips:
        assert trip.plan
        assert trip.plan.answer in {"fits", "not_decided"}
