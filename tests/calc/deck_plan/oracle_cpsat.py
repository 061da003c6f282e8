"""The deck problem for CP-SAT, on a grid of one millimeter: intervals that must not overlap, whole numbers throughout.

Positions are whole millimeters, as all lengths of `instances` are; the margin is counted in ten-thousandths. The best
margin on the grid can only be a little lower than the best anywhere: every arrangement can be moved to the front
by less than one millimeter for each item.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from ortools.sat.python import cp_model

from sendoff.calc.deck_plan import Deck, Item, Problem, Zone
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.problem import Facing
from tests.calc.deck_plan.checker import statics
from tests.calc.deck_plan.oracle_highs import Answer, body_pieces, clock_for, ends, on, pieces, ways_to_face

SCALE = 10_000
"""Steps of a margin of one."""
FINE = 1 << 16
HIGHEST = 100


def mm(value: float) -> int:
    return round(value * 1000)


@dataclass
class Program:
    """The program of one problem, as it is written; `choose` as for HiGHS."""

    problem: Problem
    choose: bool = False
    model: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    margin: Any = None
    place: list[Any] = field(default_factory=list)
    ride: list[Any] = field(default_factory=list)
    here: dict[tuple[int, str], Any] = field(default_factory=dict)
    zones: dict[str, list[Any]] = field(default_factory=dict)
    turned: list[tuple[Any, float]] = field(default_factory=list)
    intervals: dict[str, list[Any]] = field(default_factory=dict)

    def write(self) -> cp_model.CpModel:
        """Write all of it."""
        m, problem = self.model, self.problem
        highest = 0 if self.choose else HIGHEST * SCALE
        self.margin = m.new_int_var(-highest, highest, "margin")
        for number, item in enumerate(problem.items):
            self.write_item(number, item)
        for deck in problem.decks:
            m.add_no_overlap(self.intervals[deck.name])
        if problem.drop_rule == "must" and on(problem, "drop_order"):
            self.write_drops()
        for zone in (zone for deck in problem.decks for zone in deck.zones):
            if (
                zone.total_limit_kg < INFINITE
                and on(problem, f"zone_total:{zone.name}")
                and zone.name in self.zones
            ):
                grams = zone.total_limit_kg * 1000
                unit = round(problem.tight.other_ratio * grams / SCALE * FINE)
                m.add(sum(self.zones[zone.name]) * FINE + self.margin * unit <= round(grams * FINE))
        self.write_lines()
        worth = sum(round(item.worth) * ride for item, ride in zip(problem.items, self.ride, strict=True))
        m.maximize(worth if self.choose else self.margin)
        return m

    def write_item(self, number: int, item: Item) -> None:
        """Write where one item may stand."""
        m, decks = self.model, self.problem.decks
        low = min(mm(begin) for begin, _ in (ends(self.problem, deck) for deck in decks))
        high = max(mm(end) for _, end in (ends(self.problem, deck) for deck in decks))
        place, ride = (
            m.new_int_var(min(low, 0), max(high, 0), f"place{number}"),
            m.new_bool_var(f"ride{number}"),
        )
        self.place.append(place)
        self.ride.append(ride)
        for deck in decks:
            here = self.here[number, deck.name] = m.new_bool_var(f"here{number}{deck.name}")
            ways = [
                self.write_way(item, deck, facing, place) for facing in ways_to_face(self.problem, deck, item)
            ]
            m.add(sum(ways) == here)
            size = mm(item.length_m + self.problem.gap_m)
            interval = m.new_optional_fixed_size_interval_var(place, size, here, f"span{number}{deck.name}")
            self.intervals.setdefault(deck.name, []).append(interval)
        m.add(sum(self.here[number, deck.name] for deck in decks) == ride)
        if self.choose:  # left behind it stands at zero and counts for nothing
            m.add(place == 0).only_enforce_if(ride.negated())
        else:
            m.add(ride == 1)

    def write_way(self, item: Item, deck: Deck, facing: Facing, place: Any) -> Any:
        """Write one item facing one way on one deck; return its binary."""
        m, offsets = self.model, item.offsets_m(facing)
        way = m.new_bool_var(f"{item.name}{deck.name}{facing}")
        body = cp_model.Domain.from_intervals(
            [[mm(a), mm(b)] for a, b in body_pieces(self.problem, deck, item)]
        )
        m.add_linear_expression_in_domain(place, body).only_enforce_if(way)
        center = sum(c.share_ratio * offset for c, offset in zip(item.contacts, offsets, strict=True))
        self.turned.append((way, item.mass_kg * center * 1000))
        for contact, offset in zip(item.contacts, offsets, strict=True):
            spans: dict[str, list[list[int]]] = {}
            for begin, end, zone in pieces(self.problem, deck, item):
                spans.setdefault(zone.name, []).append([mm(begin), mm(end)])
            chosen = []
            for zone in (zone for zone in deck.zones if zone.name in spans):
                stands = m.new_bool_var("")
                chosen.append(stands)
                where = cp_model.Domain.from_intervals(spans[zone.name])
                m.add_linear_expression_in_domain(place + mm(offset), where).only_enforce_if(stands)
                load = contact.share_ratio * item.mass_kg
                self.zones.setdefault(zone.name, []).append(round(load * 1000) * stands)
                self.write_wheel(stands, load / contact.wheel_count, zone)
            m.add_exactly_one([*chosen, way.negated()])
        return way

    def write_wheel(self, stands: Any, load_kg: float, zone: Zone) -> None:
        """Write the limit under one wheel, if it stands there."""
        limit = zone.wheel_limit_kg
        if limit < INFINITE and on(self.problem, f"zone_wheel:{zone.name}"):
            part = (limit - load_kg) / (self.problem.tight.other_ratio * limit)
            steps = math.floor(min(part, HIGHEST) * SCALE)
            self.model.add(self.margin <= steps).only_enforce_if(stands)

    def write_drops(self) -> None:
        """What comes off first must not stand ahead, nor on a deck left over another where something stays longer."""
        drop = [item.drop_count or math.inf for item in self.problem.items]
        pairs = [(a, b) for a in range(len(drop)) for b in range(len(drop)) if drop[a] < drop[b]]
        for first, second in pairs:
            for deck in self.problem.decks:
                both = [self.here[first, deck.name], self.here[second, deck.name]]
                self.model.add(self.place[second] < self.place[first]).only_enforce_if(both)
                for under in deck.leaves_over:
                    one, other = self.here[first, deck.name], self.here[second, under]
                    self.model.add_bool_or([one.negated(), other.negated()])

    def write_lines(self) -> None:
        """Limits of pin, axles and truck: each load is found by putting a mass and a moment aboard."""
        masses = [item.mass_kg for item in self.problem.items]
        total = sum(masses)
        empty, mass_only = statics(self.problem, 0.0, 0.0), statics(self.problem, total, 0.0)
        for name, (load, limit, tight, least) in statics(self.problem, total, total).items():
            if not on(self.problem, name):
                continue
            sign = -1 if least else 1
            one, none = mass_only[name], empty[name]
            factor = FINE * SCALE / (tight * limit)
            by_moment = sign * (load - one[0]) / total / 1000 * factor  # for each kg mm
            by_mass = sign * ((one[0] - none[0]) - (one[1] - none[1])) / total * factor
            terms = [round(by_moment * mass) * place for place, mass in zip(self.place, masses, strict=True)]
            terms += [round(by_moment * turn) * way for way, turn in self.turned]
            terms += [round(by_mass * mass) * ride for ride, mass in zip(self.ride, masses, strict=True)]
            self.model.add(sum(terms) + self.margin * FINE <= round(sign * (none[1] - none[0]) * factor))


def solve(problem: Problem, *, threads: int = 1, seconds: float = 60.0, choose: bool = False) -> Answer:
    """Return the best least margin on the grid, or with `choose` the best worth."""
    clock = clock_for(threads)
    began = clock()
    model = Program(problem, choose).write()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = threads
    solver.parameters.max_time_in_seconds = seconds
    building = clock() - began
    began = clock()
    status = solver.solve(model)
    spent = clock() - began
    proved = status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    unit = 1 if choose else SCALE
    found = solver.objective_value / unit if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
    return Answer(found, proved, spent, solver.best_objective_bound / unit, building)
