"""An arrangement as given: the same loads and the same broken rules as an independent look finds, and true leeways."""

from __future__ import annotations

import json
import math
import random
from dataclasses import replace

import pytest

from sendoff.calc.deck_plan import Placement, Problem, by_hand, evaluate, judge, plan, with_mass
from sendoff.calc.deck_plan.problem import Facing, with_items
from tests.calc.deck_plan.checker import check, limits_under
from tests.calc.deck_plan.fleets import cars93, hauler
from tests.calc.deck_plan.instances import random_problem


def anywhere(chance: random.Random, problem: Problem) -> list[Placement]:
    """Each item somewhere, mostly where it must not be."""
    found = []
    for item in problem.items:
        deck = chance.choice(problem.decks)
        last = max(deck.first_m, deck.last_m - item.length_m)
        facing: Facing = chance.choice(("forward", "backward"))
        found.append(Placement(item.name, deck.name, facing, chance.uniform(deck.first_m - 0.1, last + 0.1)))
    return found


@pytest.mark.parametrize("seed", range(60))
def test_any_arrangement_is_seen_as_an_independent_look_sees_it(seed: int) -> None:
    problem = random_problem(seed, 1 + seed % 5)
    chance = random.Random(seed)
    placements = anywhere(chance, problem)
    found, (broken, margin) = evaluate(problem, placements), check(problem, placements)
    places_only = [rule for rule in found.broken if not rule.name.startswith("lane:")]
    by_checker = [text for text in broken if "too far" not in text]
    assert bool(places_only) == bool(by_checker), (found.broken, broken)
    if not broken:
        assert found.margin == pytest.approx(margin, abs=1e-9)
    loads = []
    for row in placements:
        item = next(item for item in problem.items if item.name == row.item)
        loads += [
            (contact.share_ratio * item.mass_kg, row.front_m + offset)
            for contact, offset in zip(item.contacts, item.offsets_m(row.facing), strict=True)
        ]
    expected = limits_under(problem, loads)
    for share in found.shares:
        if share.name in expected:
            assert share.load_kg == pytest.approx(expected[share.name][0], abs=1e-6)


@pytest.mark.parametrize("seed", range(60))
def test_a_phone_judges_alone_as_the_planner_does(seed: int) -> None:
    problem = random_problem(seed, 1 + seed % 5)
    record = json.loads(json.dumps(by_hand(problem), allow_nan=False))
    chance = random.Random(seed)
    tries = [anywhere(chance, problem) for _ in range(3)]
    best = plan(problem, code="plain", reasons=False)
    if best.placements:
        tries.append(list(best.placements))
    for placements in tries:
        rows = [
            {"item": p.item, "deck": p.deck, "facing": p.facing, "front_m": p.front_m} for p in placements
        ]
        there, here = judge(record, rows), evaluate(problem, placements)
        assert bool(there["broken"]) == bool(here.broken), (there["broken"], here.broken)
        if not here.broken:
            assert there["margin"] == pytest.approx(here.margin, abs=1e-9)
            worst = {share["name"]: share["left_kg"] for share in there["shares"]}
            for share in here.shares:
                assert worst[share.name] == pytest.approx(share.left_kg, abs=1e-6)


def four_cars() -> Problem:
    cars = cars93()
    return hauler((cars[2], cars[30], cars[55], cars[80]))


def perturbed(problem: Problem, factors: list[float]) -> Problem:
    items = [
        replace(item, mass_kg=item.mass_kg * factor, mass_error_kg=0.0)
        for item, factor in zip(problem.items, factors, strict=True)
    ]
    return with_items(problem, items)


def test_masses_may_be_wrong_by_what_is_said_and_no_further() -> None:
    problem = four_cars()
    found = plan(problem, code="plain")
    assert found.answer == "fits"
    assert found.evaluation
    error = found.evaluation.mass_error_ratio
    assert error > 0
    chance = random.Random(5)
    for _ in range(300):
        factors = [1 + chance.choice((-1, 1)) * error * 0.999999 for _ in problem.items]
        assert evaluate(perturbed(problem, factors), found.placements).margin >= -1e-6
    beyond = [
        evaluate(perturbed(problem, [1 + sign * error * 1.001 for sign in signs]), found.placements).margin
        for signs in _signs(len(problem.items))
    ]
    assert min(beyond) < 0


def _signs(count: int) -> list[list[int]]:
    return [[1 if number >> bit & 1 else -1 for bit in range(count)] for number in range(1 << count)]


def test_one_item_may_be_heavier_by_its_leeway_and_no_further() -> None:
    problem = four_cars()
    found = plan(problem, code="plain")
    assert found.evaluation
    for leeway in found.evaluation.leeway:
        mass = next(item.mass_kg for item in problem.items if item.name == leeway.item)
        just = evaluate(with_mass(problem, leeway.item, mass + leeway.heavier_kg * 0.9999), found.placements)
        beyond = evaluate(
            with_mass(problem, leeway.item, mass + leeway.heavier_kg * 1.0001 + 0.01), found.placements
        )
        assert just.margin > 0 > beyond.margin
        assert beyond.tightest == leeway.heavier_limit


def test_the_items_own_errors_decide_whether_the_plan_holds_them() -> None:
    problem = four_cars()
    found = plan(problem, code="plain")
    assert found.evaluation
    error = found.evaluation.mass_error_ratio
    for part, holds in ((0.99, True), (1.01, False)):
        items = [replace(item, mass_error_kg=item.mass_kg * error * part) for item in problem.items]
        assert evaluate(with_items(problem, items), found.placements).holds_mass_errors is holds


def test_a_bending_frame_is_taken_off_the_margin() -> None:
    problem = four_cars()
    found = plan(problem, code="plain").evaluation
    assert found
    assert found.margin_flexible is not None
    assert {share.name for share in found.shares_flexible} >= {"pin_weight", "axle_1", "axle_3", "truck_rear"}
    rigid = {share.name: share.load_kg for share in found.shares}
    differences = [abs(share.load_kg / rigid[share.name] - 1) for share in found.shares_flexible]
    assert 0 < max(differences) < 0.10
    stiff = replace(problem, trailer=replace(problem.trailer, frame_stiffness_Nm2=None))
    assert plan(stiff, code="plain").evaluation.margin_flexible is None  # type: ignore[union-attr]


def test_items_that_are_not_placed_stay_behind() -> None:
    problem = four_cars()
    alone = evaluate(problem, [Placement(problem.items[0].name, "lower", "forward", 6.0)])
    assert alone.payload_kg == pytest.approx(problem.items[0].mass_kg)
    assert alone.moment_kgm == pytest.approx(problem.items[0].mass_kg * (6.0 + problem.items[0].center_m))
    assert math.isfinite(alone.margin)
