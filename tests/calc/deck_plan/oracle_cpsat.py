"""The deck problem for CP-SAT, on a grid of one millimeter: intervals that must not overlap, whole numbers throughout.

Positions are whole millimeters, as all lengths of `instances` are; the margin is counted in ten-thousandths. The best
margin on the grid can only be a little lower than the best anywhere: every arrangement can be moved to the front
by less than one millimeter for each item.
"""

from __future__ import annotations

import time

from ortools.sat.python import cp_model

from sendoff.calc.deck_plan import Problem
from sendoff.calc.deck_plan.gear import INFINITE
from tests.calc.deck_plan.oracle_highs import Answer, body_pieces, comes_up, on, pieces

SCALE = 10_000
"""Steps of a margin of one."""
FINE = 1 << 16
HIGHEST = 100


def mm(value: float) -> int:
    return round(value * 1000)


def solve(problem: Problem, *, threads: int = 1, seconds: float = 60.0, choose: bool = False) -> Answer:
    """Return the best least margin on the grid, or with `choose` the best worth."""
    began = time.perf_counter()
    m = cp_model.CpModel()
    margin = m.new_int_var(0 if choose else -HIGHEST * SCALE, 0 if choose else HIGHEST * SCALE, "margin")
    items, decks = problem.items, problem.decks
    place, rides, here = [], [], {}
    zone_terms: dict[str, list[cp_model.LinearExprT]] = {}
    intervals: dict[int, list[cp_model.IntervalVar]] = {d: [] for d in range(len(decks))}
    room = sum(mm(item.length_m + problem.gap_m) for item in items)
    turned = []
    for i, item in enumerate(items):
        low = min(mm(deck.first_m) - (0 if on(problem, f"room:{deck.name}") else room) for deck in decks)
        high = max(mm(deck.last_m) + (0 if on(problem, f"room:{deck.name}") else room) for deck in decks)
        p = m.new_int_var(min(low, 0), max(high, 0), f"p{i}")
        ride = m.new_bool_var(f"ride{i}")
        if not choose:
            m.add(ride == 1)
        place.append(p)
        rides.append(ride)
        every = []
        for d, deck in enumerate(decks):
            facings = item.facings
            if not on(problem, "facing") or not on(problem, f"facing:{item.name}"):
                facings = ("forward", "backward")
            on_deck = []
            for facing in facings if comes_up(problem, deck, item) else ():
                y = m.new_bool_var(f"y{i}{d}{facing}")
                on_deck.append(y)
                m.add_linear_expression_in_domain(
                    p,
                    cp_model.Domain.from_intervals(
                        [[mm(a), mm(b)] for a, b in body_pieces(problem, deck, item)]
                    ),
                ).only_enforce_if(y)
                offsets = item.offsets_m(facing)
                for j, contact in enumerate(item.contacts):
                    by_zone: dict[str, list[list[int]]] = {}
                    for begin, end, zone in pieces(problem, deck, item):
                        by_zone.setdefault(zone.name, []).append([mm(begin), mm(end)])
                    choices = []
                    for zone in deck.zones:
                        if zone.name not in by_zone:
                            continue
                        v = m.new_bool_var("")
                        choices.append(v)
                        m.add_linear_expression_in_domain(
                            p + mm(offsets[j]), cp_model.Domain.from_intervals(by_zone[zone.name])
                        ).only_enforce_if(v)
                        load = contact.share_ratio * item.mass_kg
                        zone_terms.setdefault(zone.name, []).append(round(load * 1000) * v)
                        if zone.wheel_limit_kg < INFINITE and on(problem, f"zone_wheel:{zone.name}"):
                            part = (zone.wheel_limit_kg - load / contact.wheel_count) / (
                                problem.tight.other_ratio * zone.wheel_limit_kg
                            )
                            m.add(margin <= int(min(part, HIGHEST) * SCALE // 1)).only_enforce_if(v)
                    m.add_exactly_one([*choices, y.negated()])
                center = sum(c.share_ratio * o for c, o in zip(item.contacts, offsets, strict=True))
                turned.append((y, item.mass_kg * center * 1000))
            ahead = m.new_bool_var(f"on{i}{d}")
            m.add(sum(on_deck) == ahead)
            here[i, d] = ahead
            every.append(ahead)
            size = mm(item.length_m + problem.gap_m)
            intervals[d].append(m.new_optional_fixed_size_interval_var(p, size, ahead, f"i{i}{d}"))
        m.add(sum(every) == ride)
        if choose:  # left behind it stands at zero and counts for nothing
            m.add(p == 0).only_enforce_if(ride.negated())
    for d in range(len(decks)):
        m.add_no_overlap(intervals[d])
    _order_of_drops(problem, m, place, here)
    for deck in decks:
        for zone in deck.zones:
            if (
                zone.total_limit_kg < INFINITE
                and zone.name in zone_terms
                and on(problem, f"zone_total:{zone.name}")
            ):
                unit = problem.tight.other_ratio * zone.total_limit_kg * 1000 / SCALE
                terms = sum(zone_terms[zone.name]) * FINE  # grams
                m.add(terms + margin * round(unit * FINE) <= round(zone.total_limit_kg * 1000 * FINE))
    _lines(problem, m, margin, place, turned, rides, choose=choose)
    m.maximize(
        sum(round(item.worth) * ride for item, ride in zip(items, rides, strict=True)) if choose else margin
    )
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = threads
    solver.parameters.max_time_in_seconds = seconds
    building = time.perf_counter() - began
    status = solver.solve(m)
    proved = status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    found = solver.objective_value if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
    unit = 1 if choose else SCALE
    return Answer(
        None if found is None else found / unit,
        proved,
        solver.wall_time,
        solver.best_objective_bound / unit,
        building,
    )


def _order_of_drops(
    problem: Problem,
    m: cp_model.CpModel,
    place: list[cp_model.IntVar],
    here: dict[tuple[int, int], cp_model.IntVar],
) -> None:
    if problem.drop_rule != "must" or not on(problem, "drop_order"):
        return
    drop = [item.drop_count or 10**6 for item in problem.items]
    for a in range(len(drop)):
        for b in range(len(drop)):
            if drop[a] < drop[b]:  # a comes off first: not ahead of b
                for d, deck in enumerate(problem.decks):
                    m.add(place[b] < place[a]).only_enforce_if([here[a, d], here[b, d]])
                    for e, other in enumerate(problem.decks):
                        if other.name in deck.leaves_over:
                            m.add_bool_or([here[a, d].negated(), here[b, e].negated()])


def _lines(
    problem: Problem, m: cp_model.CpModel, margin: cp_model.IntVar, place, turned, rides, *, choose: bool
) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001
    """Limits of pin, axles and truck: each load is found by putting a unit mass and a unit moment aboard."""
    from tests.calc.deck_plan.checker import statics

    masses = [item.mass_kg for item in problem.items]
    total = sum(masses)
    empty, mass_only, both = (
        statics(problem, 0.0, 0.0),
        statics(problem, total, 0.0),
        statics(problem, total, total),
    )
    for name, (load, limit, tight, least) in both.items():
        if not on(problem, name):
            continue
        sign = -1 if least else 1
        by_moment = sign * (load - mass_only[name][0]) / total / 1000  # per kg mm
        by_mass = (
            sign * ((mass_only[name][0] - empty[name][0]) - (mass_only[name][1] - empty[name][1])) / total
        )
        left_empty = sign * (empty[name][1] - empty[name][0])
        unit = tight * limit / SCALE
        # load part <= limit part - margin steps, all times FINE / unit
        factor = FINE / unit
        terms = [round(by_moment * factor * mass) * p for p, mass in zip(place, masses, strict=True)]
        terms += [round(by_moment * factor * turn) * y for y, turn in turned]
        terms += [round(by_mass * factor * mass) * ride for ride, mass in zip(rides, masses, strict=True)]
        m.add(sum(terms) + margin * FINE <= round(left_empty * factor))
