"""Why nothing fits: limits that clash, none of them for nothing, and repairs that help."""

from __future__ import annotations

from dataclasses import replace

import pytest

from proofs.prove_deck_plan import assert_helps, conflicts
from sendoff.calc.deck_plan import compare, explain, limit_names, plan, with_mass, without
from sendoff.calc.deck_plan.explain import RANK
from sendoff.calc.deck_plan.problem import Problem, with_items
from sendoff.calc.deck_plan.solve import HOLDS, best
from tests.calc.deck_plan.fleets import LB, hauler, today
from tests.calc.deck_plan.instances import random_problem


def margin(problem: Problem) -> float:
    return best(problem, code="plain")[0].margin


@pytest.mark.parametrize("seed", range(20))
def test_limits_told_clash_and_without_any_one_of_them_the_others_hold(seed: int) -> None:
    problem = random_problem(seed, 2 + seed % 3)
    if margin(problem) >= HOLDS:
        return
    clash = explain(problem, code="plain")
    assert clash.proved
    assert clash.names
    only = without(problem, [name for name in limit_names(problem) if name not in clash.names])
    assert margin(only) < HOLDS
    for name in clash.names:
        assert margin(without(only, [name])) >= HOLDS, name
    for repair in clash.repairs:
        assert_helps(problem, repair.kind, repair.names, repair.amount_kg, repair.amount_m, repair.placements)
    assert [RANK[repair.kind] for repair in clash.repairs] == sorted(
        RANK[repair.kind] for repair in clash.repairs
    )


def test_highs_confirms_conflicts() -> None:
    counted = conflicts(3, range(4))
    assert counted["conflicts"] > 0
    assert counted["unproved_highs"] == 0


def three() -> Problem:
    fleet = {item.name: item for item in today()}
    return hauler((fleet["pickup_01"], fleet["wagon_01"], fleet["electric_01"]), up=False)


def test_what_is_short_of_a_limit_is_just_what_is_missing() -> None:
    """A rating 100 lb below what trailer and cars weigh together: 100 lb is what is missing."""
    problem = three()
    gross = problem.trailer.empty_mass_kg + sum(item.mass_kg for item in problem.items)
    roomy = replace(problem, dropped=frozenset({"height:lift_deck"}))
    tight = replace(roomy, trailer=replace(roomy.trailer, gross_limit_kg=gross - 100 * LB))
    assert margin(replace(roomy, trailer=replace(roomy.trailer, gross_limit_kg=gross))) >= HOLDS
    clash = plan(tight, code="plain").conflict
    assert clash
    assert clash.names == ("gross",)
    raised = {repair.names: repair.amount_kg for repair in clash.repairs if repair.kind == "raise"}
    assert raised[("gross",)] == pytest.approx(100 * LB, abs=1e-6)
    lighter = [repair.amount_kg for repair in clash.repairs if repair.kind == "lighten"]
    assert lighter[0] == pytest.approx(100 * LB, abs=0.01)


def test_a_way_to_face_that_would_help_is_told_first() -> None:
    """Engine over the rear axle and made to face forward, the axles bear too much; the other way round they do not."""
    fleet = {item.name: item for item in today()}
    item = replace(fleet["pickup_04"], facings=("forward",))
    problem = hauler((item,), up=False)
    short = replace(
        problem,
        decks=(
            replace(
                problem.decks[0],
                zones=(replace(problem.decks[0].zones[1], rear_m=10.95),),
                strips=(),
                front_overhang_m=0.3,
                rear_overhang_m=0.3,
            ),
        ),
    )
    either = best(replace(short, items=(replace(item, facings=("forward", "backward")),)), code="plain")[0]
    forward = best(short, code="plain")[0]
    backward = best(replace(short, items=(replace(item, facings=("backward",)),)), code="plain")[0]
    assert either.margin == max(forward.margin, backward.margin)
    good, bad = sorted((forward, backward), key=lambda found: -found.margin)
    # a pin limit between the two: only one way round holds
    names = {1: "forward", 0: "backward"}
    wrong = names[int(bad is forward)]
    between = _pin_limit_between(short, wrong)
    found = plan(between, code="plain")
    assert found.conflict
    assert found.conflict.repairs[0].kind == "turn"
    assert good.margin > bad.margin


def _pin_limit_between(problem: Problem, wrong: str) -> Problem:
    """Let the item face the wrong way only, and set the pin's rating where that alone does not hold."""
    item = problem.items[0]
    only = with_items(problem, [replace(item, facings=(wrong,))])  # type: ignore[arg-type]
    low, high = 1.0, 6000.0
    for _ in range(60):
        middle = (low + high) / 2
        tried = replace(
            only,
            trailer=replace(
                only.trailer, pin_limit_kg=middle, pin_share_most_ratio=1.0, pin_share_least_ratio=0.0
            ),
        )
        if margin(tried) >= HOLDS:
            high = middle
        else:
            low = middle
    trailer = replace(
        only.trailer, pin_limit_kg=low - 1e-6, pin_share_most_ratio=1.0, pin_share_least_ratio=0.0
    )
    return replace(only, trailer=trailer)


def test_the_other_way_to_set_up_the_decks_is_compared() -> None:
    fleet = {item.name: item for item in today()}
    items = (fleet["electric_01"], fleet["electric_02"], fleet["electric_03"])
    ways = {"up": hauler(items), "down": hauler(items, up=False)}
    plans = compare(ways, code="plain")
    assert set(plans) == {"up", "down"}
    margins = [found.margin for found in plans.values()]
    assert margins == sorted(margins, reverse=True)


def test_what_if_the_pickup_is_heavier() -> None:
    """ "It will stand these two; what if the pick-up is 400 lb heavier" has an answer on each side of its leeway."""
    fleet = {item.name: item for item in today()}
    problem = hauler((fleet["pickup_01"], fleet["electric_01"]), up=False)
    found = plan(problem, code="plain")
    assert found.answer == "fits"
    heavier = plan(with_mass(problem, "pickup_01", fleet["pickup_01"].mass_kg + 400 * LB), code="plain")
    assert heavier.margin <= found.margin + 1e-9
    monster = plan(with_mass(problem, "pickup_01", 7000.0), code="plain")
    assert monster.answer == "does_not_fit"
    assert monster.conflict
