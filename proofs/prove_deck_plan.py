"""Proof: the deck planner finds what general solvers find, and every plan of its stands up to an independent look.

HiGHS (mixed-integer, gaps zero, then polished with all binaries fixed) and CP-SAT (on a grid of one millimeter) are
asked the same questions, written from the statics of bodies, not from the planner's own lines. Only instances that a
solver proved are compared with it; the others are counted. Nothing the planner uses is used by the checker.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from sendoff.calc.deck_plan import choose, evaluate, explain, limit_names, plan, without
from sendoff.calc.deck_plan.problem import Placement, Problem, with_items
from sendoff.calc.deck_plan.solve import HOLDS, Found, Setup, best
from tests.calc.deck_plan import checker, fleets, instances, oracle_cpsat, oracle_highs

TITLE = "Deck plans are equal to those of two general solvers, clean by an independent checker, refusals explained."

HIGHS_s: Final = 60.0
CPSAT_s: Final = 30.0
# instances by number of items, and how many make a step
SAME: Final = {
    1: (40, 20),
    2: (70, 35),
    3: (80, 40),
    4: (80, 40),
    5: (80, 20),
    6: (80, 10),
    7: (50, 5),
    8: (50, 5),
}
CHOICES: Final = {(12, 4): (60, 10), (20, 4): (30, 5), (20, 6): (30, 5)}
CONFLICTS: Final = {2: (40, 40), 3: (40, 20), 4: (40, 20), 5: (30, 10), 6: (30, 10)}
FLEETS: Final = {"cars93": fleets.cars93, "today": fleets.today}


def keys() -> list[str]:
    """Name all steps: same-N-A-B, choose-N-FITTING-A-B, conflict-N-A-B, fleet-NAME-SIZE, errors."""
    found = [f"same-{n}-{a}-{a + size}" for n, (count, size) in SAME.items() for a in range(0, count, size)]
    found += [
        f"choose-{n}-{fit}-{a}-{a + size}"
        for (n, fit), (count, size) in CHOICES.items()
        for a in range(0, count, size)
    ]
    found += [
        f"conflict-{n}-{a}-{a + size}"
        for n, (count, size) in CONFLICTS.items()
        for a in range(0, count, size)
    ]
    found += [f"fleet-{name}-{size}" for name in FLEETS for size in (2, 3, 4)]
    return [*found, "errors"]


def step(key: str) -> dict[str, int | float | str]:
    """Do one step."""
    kind, *rest = key.split("-")
    if kind == "fleet":
        return fleet(rest[0], int(rest[1]))
    if kind == "errors":
        return dict(errors(90))
    numbers = [int(part) for part in rest]
    if kind == "same":
        return dict(same(numbers[0], range(*numbers[1:])))
    if kind == "choose":
        return dict(chosen(numbers[0], numbers[1], range(*numbers[2:])))
    return dict(conflicts(numbers[0], range(*numbers[1:])))


def found_by_planner(problem: Problem) -> Found:
    """The planner's own answer, by the plain code and by the compiled code where they differ in nothing."""
    found, _ = best(problem)
    assert found.proved
    if found.placements:
        broken, margin = checker.check(problem, found.placements)
        assert not broken, broken
        assert abs(margin - found.margin) < 1e-9, (margin, found.margin)
    return found


def same(item_count: int, seeds: range) -> dict[str, int]:
    """Compare with HiGHS to 1e-9 and with CP-SAT within its grid."""
    names = "instances fitting by_weight_too_much no_room clean equal_highs unproved_highs equal_cpsat unproved_cpsat"
    counted = dict.fromkeys(names.split(), 0)
    for seed in seeds:
        problem = instances.random_problem(seed, item_count)
        found = found_by_planner(problem)
        counted["instances"] += 1
        counted["clean"] += bool(found.placements)
        kind = (
            "no_room"
            if not found.placements
            else "fitting"
            if found.margin >= HOLDS
            else "by_weight_too_much"
        )
        counted[kind] += 1
        highs = oracle_highs.solve(problem, seconds=HIGHS_s)
        counted["equal_highs" if highs.proved else "unproved_highs"] += 1
        if highs.proved:
            assert_equal(found, highs.margin, 1e-9, 1e-9, f"HiGHS, {item_count} items, seed {seed}")
        elif found.placements and highs.margin is not None:
            assert found.margin >= highs.margin - 1e-6, f"HiGHS found better, {item_count} items, seed {seed}"
        cpsat = oracle_cpsat.solve(problem, seconds=CPSAT_s)
        counted["equal_cpsat" if cpsat.proved else "unproved_cpsat"] += 1
        if cpsat.proved:
            setup = Setup(problem, "plain")
            steepest = max((abs(slope) for slope in setup.slope), default=0.0)
            grid = steepest * setup.mass_kg * 0.001 + 10 / oracle_cpsat.SCALE
            assert_equal(
                found, cpsat.margin, grid, 10 / oracle_cpsat.SCALE, f"CP-SAT, {item_count} items, seed {seed}"
            )
    return counted


def assert_equal(found: Found, other: float | None, below: float, above: float, where: str) -> None:
    """Hold the planner's answer against another's: not more than so much above or below."""
    assert (other is None) == (not found.placements), f"{where}: {other} against {found.margin}"
    if other is not None:
        assert found.margin - below <= other <= found.margin + above, (
            f"{where}: {other} against {found.margin}"
        )


def chosen(item_count: int, fitting: int, seeds: range) -> dict[str, int]:
    """Compare the worthiest set's worth with both solvers; check the plan of it."""
    counted = dict.fromkeys(("sets", "equal_highs", "unproved_highs", "equal_cpsat", "unproved_cpsat"), 0)
    for seed in seeds:
        problem = instances.random_choice(seed, item_count, fitting)
        found = choose(problem)
        assert found.proved
        counted["sets"] += 1
        where = f"{item_count} items, {fitting} fitting, seed {seed}"
        if found.plan is not None:
            taken = with_items(problem, [item for item in problem.items if item.name in found.items])
            broken, margin = checker.check(taken, found.plan.placements)
            assert not broken, f"{where}: {broken}"
            assert margin >= HOLDS, where
        cpsat = oracle_cpsat.solve(problem, choose=True, seconds=CPSAT_s)
        counted["equal_cpsat" if cpsat.proved else "unproved_cpsat"] += 1
        assert not cpsat.proved or abs((cpsat.margin or 0.0) - found.worth) < 0.5, (
            f"CP-SAT, {where}: {cpsat.margin} against {found.worth}"
        )
        highs = oracle_highs.solve(problem, choose=True, seconds=HIGHS_s / 2)
        counted["equal_highs" if highs.proved else "unproved_highs"] += 1
        worth = 1000 * (highs.margin or 0.0)
        assert not highs.proved or abs(worth - found.worth) < 1e-3, (
            f"HiGHS, {where}: {worth} against {found.worth}"
        )
    return counted


def conflicts(item_count: int, seeds: range) -> dict[str, int]:
    """Confirm by HiGHS that the limits told clash, that each is needed for it, and that repairs help."""
    counted = dict.fromkeys(("conflicts", "limits", "repairs", "unproved_highs"), 0)
    for seed in seeds:
        problem = instances.random_problem(seed, item_count)
        if found_by_planner(problem).margin >= HOLDS:
            continue
        clash = explain(problem)
        where = f"{item_count} items, seed {seed}, {clash.names}"
        assert clash.proved
        assert clash.names, where
        counted["conflicts"] += 1
        counted["limits"] += len(clash.names)
        only = without(problem, [name for name in limit_names(problem) if name not in clash.names])
        counted["unproved_highs"] += not clashes_by_highs(only, where)
        for name in clash.names:
            counted["unproved_highs"] += not holds_by_highs(without(only, [name]), where)
        for further in clash.further:
            assert not set(further) & set(clash.names), where
            other = without(problem, [name for name in limit_names(problem) if name not in further])
            counted["unproved_highs"] += not clashes_by_highs(other, where)
        for repair in clash.repairs:
            assert_helps(
                problem, repair.kind, repair.names, repair.amount_kg, repair.amount_m, repair.placements
            )
            counted["repairs"] += 1
    return counted


def clashes_by_highs(problem: Problem, where: str) -> bool:
    """Return whether HiGHS proved that nothing holds; fail where it proved the contrary."""
    answer = oracle_highs.solve(problem, seconds=HIGHS_s)
    assert not answer.proved or answer.margin is None or answer.margin < 1e-7, f"HiGHS finds a way, {where}"
    return answer.proved


def holds_by_highs(problem: Problem, where: str) -> bool:
    """Return whether HiGHS found an arrangement that holds; fail where it proved that there is none."""
    answer = oracle_highs.solve(problem, seconds=HIGHS_s)
    holds = answer.margin is not None and answer.margin >= -1e-7
    assert not answer.proved or holds, f"HiGHS finds no way, {where}"
    return holds


def assert_helps(
    problem: Problem,
    kind: str,
    names: tuple[str, ...],
    amount_kg: float,
    amount_m: float,
    placements: tuple[Placement, ...],
) -> None:
    """Let the checker look at the arrangement that a repair promises."""
    from sendoff.calc.deck_plan.explain import _longer

    if kind == "leave":
        problem = with_items(problem, [item for item in problem.items if item.name not in names])
    elif kind == "lighten":
        items = [
            replace(item, mass_kg=item.mass_kg - amount_kg * (item.name == names[0]))
            for item in problem.items
        ]
        problem = with_items(problem, items)
    elif kind == "lengthen":
        problem = _longer(problem, names[0], amount_m)
    elif kind == "turn":
        problem = without(problem, [f"facing:{names[0]}"])
    else:
        problem = without(problem, names)
    broken, margin = checker.check(problem, placements)
    assert not broken, (kind, names, broken)
    assert margin >= -1e-6, (kind, names, margin)
    if kind == "raise":
        whole = without(replace(problem, dropped=problem.dropped - set(names)), [])
        loads = [
            (contact.share_ratio * item.mass_kg, row.front_m + offset)
            for row in placements
            for item in problem.items
            if item.name == row.item
            for contact, offset in zip(item.contacts, item.offsets_m(row.facing), strict=True)
        ]
        lines = checker.limits_under(whole, loads)
        if names[0] in lines:
            load, limit, _, least = lines[names[0]]
            assert abs((limit - load if least else load - limit) - amount_kg) < 1e-6, (kind, names)


def fleet(name: str, size: int, count: int = 200) -> dict[str, int | float | str]:
    """Place the same random sets of real or invented cars on the hauler."""
    counted = dict.fromkeys(
        ("sets", "fits", "does_not_fit", "not_decided", "explained", "with_repairs", "hold_3_percent"), 0
    )
    for items in fleets.subsets(FLEETS[name](), size, count):
        problem = fleets.hauler(items)
        found = plan(problem)
        counted["sets"] += 1
        counted[found.answer] += 1
        if found.placements:
            broken, margin = checker.check(problem, found.placements)
            assert not broken, broken
            assert abs(margin - found.margin) < 1e-9
            assert found.answer != "fits" or margin >= HOLDS
        if found.answer == "fits":
            assert found.evaluation
            counted["hold_3_percent"] += found.evaluation.holds_mass_errors
        if found.answer == "does_not_fit":
            assert found.conflict
            assert found.conflict.names
            counted["explained"] += 1
            counted["with_repairs"] += bool(found.conflict.repairs)
    return dict(counted)


def errors(count: int) -> dict[str, int]:
    """Compare how plans stand 5 % of error in every mass, the worse way: the best, and the first by chance that holds.

    By chance: items in any order, any way round, anywhere there is room, until no limit is passed.
    """
    counted = dict.fromkeys(("problems", "best_holds", "first_holds"), 0)
    for seed in range(5000):
        if counted["problems"] == count:
            break
        problem = instances.random_problem(seed, 3 + seed % 3)
        found, _ = best(problem)
        if found.margin < HOLDS:
            continue
        first = by_chance(problem, random.Random(seed))
        if first is None:
            continue
        counted["problems"] += 1
        counted["best_holds"] += evaluate(problem, found.placements).mass_error_ratio >= 0.05
        counted["first_holds"] += evaluate(problem, first).mass_error_ratio >= 0.05
    return counted


def by_chance(problem: Problem, chance: random.Random, tries: int = 3000) -> list[Placement] | None:
    """Return the first arrangement by chance that breaks no rule and passes no limit."""
    for _ in range(tries):
        items = list(problem.items)
        chance.shuffle(items)
        rows, ends = [], {deck.name: deck.first_m for deck in problem.decks}
        for item in items:
            deck = chance.choice(problem.decks)
            front = ends[deck.name] + chance.uniform(0.0, 0.6)
            rows.append(Placement(item.name, deck.name, chance.choice(item.facings), front))
            ends[deck.name] = front + item.length_m + problem.gap_m
        if evaluate(problem, rows).within:
            return rows
    return None


def conclude(figures: Mapping[str, Mapping[str, int | float | str]]) -> str:
    """Add everything up."""
    said = []
    for kind in ("same", "choose", "conflict"):
        total: dict[str, float] = {}
        for key, row in figures.items():
            if key.startswith(f"{kind}-"):
                for name, value in row.items():
                    total[name] = total.get(name, 0) + float(value)
        said.append(f"{kind}: " + ", ".join(f"{name} {value:.0f}" for name, value in total.items()))
    said += [f"{key}: {dict(row)}" for key, row in figures.items() if key.startswith(("fleet", "errors"))]
    return "; ".join(said)
