"""Real weights of 1993 and invented ones of today on the hauler: a fixed slice of the proof."""

from __future__ import annotations

import pytest

from proofs.prove_deck_plan import fleet
from tests.calc.deck_plan.fleets import LB, cars93, today


def test_the_published_numbers_are_all_there() -> None:
    """93 cars, 1,695 to 4,105 lb, 285,780 lb in all; 141 to 219 in long (the data set's own description)."""
    cars = cars93()
    pounds = [car.mass_kg / LB for car in cars]
    assert len(cars) == 93
    assert sum(pounds) == pytest.approx(285780)
    assert (min(pounds), max(pounds)) == pytest.approx((1695, 4105))
    lengths = [car.length_m / 0.0254 for car in cars]
    assert (min(lengths), max(lengths)) == pytest.approx((141, 219))


def test_the_invented_fleet_has_the_weights_of_today() -> None:
    pounds = [item.mass_kg / LB for item in today()]
    assert min(pounds) == pytest.approx(4500)
    assert max(pounds) == pytest.approx(9500)


@pytest.mark.parametrize(("name", "size", "count"), [("cars93", 4, 25), ("today", 2, 30), ("today", 4, 8)])
def test_every_plan_is_clean_and_every_refusal_explained(name: str, size: int, count: int) -> None:
    counted = fleet(name, size, count)
    assert counted["sets"] == count
    assert counted["explained"] == counted["does_not_fit"]
    assert counted["with_repairs"] == counted["explained"]
