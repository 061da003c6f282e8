"""In which order items go on and come off."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sendoff.calc.deck_plan import Placement, loading_order, plan, stops
from sendoff.calc.deck_plan.evaluate import blocking_pairs
from sendoff.calc.deck_plan.problem import Problem, with_items
from tests.calc.deck_plan.checker import check
from tests.calc.deck_plan.fleets import cars93, hauler
from tests.calc.deck_plan.instances import random_problem


def with_drops(problem: Problem, drops: tuple[int, ...], **more: object) -> Problem:
    items = [replace(item, drop_count=drop) for item, drop in zip(problem.items, drops, strict=True)]
    return replace(with_items(problem, items), **more)  # type: ignore[arg-type]


def three() -> Problem:
    cars = cars93()
    return hauler((cars[0], cars[10], cars[82]))


def test_the_deck_left_over_another_is_loaded_first_and_each_deck_from_the_front() -> None:
    problem = three()
    names = [item.name for item in problem.items]
    placements = [
        Placement(names[0], "lower", "forward", 9.0),
        Placement(names[1], "lower", "forward", 3.0),
        Placement(names[2], "lift", "forward", -1.0),
    ]
    assert [step.item for step in loading_order(problem, placements)] == [names[2], names[1], names[0]]
    assert [stop.off for stop in stops(problem, placements)] == [(names[0], names[1], names[2])]


def test_first_off_stands_behind_and_what_leaves_over_the_lower_deck_comes_off_last() -> None:
    for drops in ((1, 2, 3), (3, 1, 2), (2, 3, 1), (1, 0, 1)):
        problem = with_drops(three(), drops)
        found = plan(problem, code="plain")
        assert found.answer == "fits"
        assert not blocking_pairs(problem, found.placements)
        assert check(problem, found.placements)[0] == []
        for stop in found.stops:
            assert not stop.moved
        off = [
            problem.items[[item.name for item in problem.items].index(name)].drop_count or 99
            for stop in found.stops
            for name in stop.off
        ]
        assert off == sorted(off)


def test_where_the_order_is_only_wished_for_moving_costs_effort_and_is_told() -> None:
    problem = with_drops(three(), (1, 2, 3), drop_rule="prefer")
    names = [item.name for item in problem.items]
    blocked = [
        Placement(names[0], "lower", "forward", 2.4),
        Placement(names[1], "lower", "forward", 7.5),
        Placement(names[2], "lift", "forward", -1.0),
    ]
    found = stops(problem, blocked)
    assert found[0].off == (names[0],)
    assert found[0].moved == (names[1],)
    must = replace(problem, drop_rule="must")
    assert "drop_order" in {rule.name for rule in plan_rules(must, blocked)}


def plan_rules(problem: Problem, placements: list[Placement]):  # type: ignore[no-untyped-def]  # noqa: ANN201
    from sendoff.calc.deck_plan import evaluate

    return evaluate(problem, placements).broken


@pytest.mark.parametrize("seed", range(12))
def test_less_effort_is_only_had_for_a_smaller_margin(seed: int) -> None:
    problem = random_problem(seed, 4)
    found = plan(problem, code="plain", reasons=False)
    for better, cheaper in zip(found.choices, found.choices[1:], strict=False):
        assert cheaper.effort_count < better.effort_count
        assert cheaper.margin < better.margin
        assert check(problem, cheaper.placements)[0] == []
        assert check(problem, cheaper.placements)[1] == pytest.approx(cheaper.margin, abs=1e-9)
