"""The deck problem as a mixed-integer program for HiGHS, written from the statics of each body, not from our lines.

Masses in tonnes, lengths in meters. Every wheel (contact) has one binary for each piece of deck it may stand on; axle
loads, pin load and truck axle loads are variables held by equilibrium. Gaps are zero. A second, linear program with
all binaries fixed takes the tolerance of the first one's big constants out of the answer.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass, field

import highspy
import numpy as np

from sendoff.calc.deck_plan import Deck, Item, Problem, Truck, Zone
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.problem import Facing

HIGHEST = 200.0


@dataclass
class Model:
    """Columns and rows as they are collected."""

    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[float, float, list[tuple[int, float]]]] = field(default_factory=list)

    def column(self, lower: float, upper: float, *, whole: bool = False, cost: float = 0.0) -> int:
        self.lower.append(lower)
        self.upper.append(upper)
        self.whole.append(whole)
        self.cost.append(cost)
        return len(self.lower) - 1

    def row(self, lower: float, upper: float, terms: list[tuple[int, float]]) -> None:
        self.rows.append((lower, upper, terms))


def on(problem: Problem, name: str) -> bool:
    return name not in problem.dropped


def pieces(problem: Problem, deck: Deck, item: Item) -> list[tuple[float, float, Zone]]:
    """Where a contact of the item may stand on a deck: zones less strips, near a strap point, within the wheel ways."""
    more = (
        sum(each.length_m + problem.gap_m for each in problem.items)
        if not on(problem, f"room:{deck.name}")
        else 0.0
    )
    found = []
    for number, zone in enumerate(deck.zones):
        if on(problem, f"lane:{zone.name}"):
            if item.track_inner_m is not None and item.track_inner_m < zone.lane_inner_m:
                continue
            if item.track_outer_m is not None and item.track_outer_m > zone.lane_outer_m:
                continue
        front = zone.front_m - (more if number == 0 else 0.0)
        rear = zone.rear_m + (more if number == len(deck.zones) - 1 else 0.0)
        edge = problem.edge_m
        here = [(front + edge, rear - edge)] if rear - front > 2 * edge else []
        for strip in deck.strips:
            if on(problem, f"strip:{strip.name}"):
                here = [
                    part
                    for begin, end in here
                    for part in (
                        (begin, min(end, strip.front_m - edge)),
                        (max(begin, strip.rear_m + edge), end),
                    )
                    if part[1] > part[0]
                ]
        if deck.strap_points_m and item.strap_reach_m is not None and on(problem, f"straps:{deck.name}"):
            here = [
                (max(begin, point - item.strap_reach_m), min(end, point + item.strap_reach_m))
                for begin, end in here
                for point in deck.strap_points_m
                if min(end, point + item.strap_reach_m) > max(begin, point - item.strap_reach_m)
            ]
        found += [(begin, end, zone) for begin, end in here]
    return found


def body_pieces(problem: Problem, deck: Deck, item: Item) -> list[tuple[float, float]]:
    """Where the item's front end may be so that its body is nowhere too wide or too high."""
    more = (
        sum(each.length_m + problem.gap_m for each in problem.items)
        if not on(problem, f"room:{deck.name}")
        else 0.0
    )
    here = [(deck.first_m - more, deck.last_m + more - item.length_m)]
    for number, zone in enumerate(deck.zones):
        wide = (
            item.width_m is not None
            and item.width_m > zone.width_limit_m
            and on(problem, f"width:{zone.name}")
        )
        high = (
            item.height_m is not None
            and item.height_m > zone.height_limit_m
            and on(problem, f"height:{zone.name}")
        )
        if wide or high:
            front = zone.front_m - (more if number == 0 else 0.0)
            rear = zone.rear_m + (more if number == len(deck.zones) - 1 else 0.0)
            here = [
                part
                for begin, end in here
                for part in ((begin, min(end, front - item.length_m)), (max(begin, rear), end))
                if part[1] >= part[0]
            ]
    return [part for part in here if part[1] >= part[0]]


def comes_up(problem: Problem, deck: Deck, item: Item) -> bool:
    """Whether the ramp lets the item up: crest, foot and wheel."""
    ramp = deck.ramp
    if ramp is None or item.moved_by == "lifted":
        return True
    base = item.contacts[-1].offset_m - item.contacts[0].offset_m
    # the crest stands above the chord between the wheels of an isosceles triangle with the outer angle `angle_rad`
    inner = math.pi - (ramp.angle_rad if ramp.crest_rad is None else ramp.crest_rad)
    crest = base / 2 / math.tan(inner / 2)
    if on(problem, f"ramp_crest:{deck.name}") and item.clearance_m is not None and item.clearance_m < crest:
        return False
    for angle in (item.approach_rad, item.departure_rad):
        if on(problem, f"ramp_foot:{deck.name}") and angle is not None and angle < ramp.angle_rad:
            return False
    if on(problem, f"ramp_item:{deck.name}") and item.mass_kg > ramp.item_limit_kg:
        return False
    wheels = [contact.share_ratio * item.mass_kg / contact.wheel_count for contact in item.contacts]
    return not on(problem, f"ramp_wheel:{deck.name}") or max(wheels) <= ramp.wheel_limit_kg


@dataclass
class Answer:
    """What HiGHS said: least margin (None: infeasible), whether it proved it, seconds it took, the chosen binaries."""

    margin: float | None
    proved: bool
    seconds: float
    """To solve: processor time with one thread, so that other work on the machine hardly counts; else by the clock."""
    bound: float = math.inf
    building: float = 0.0
    """Seconds to write the program and hand it over."""


Terms = list[tuple[int, float]]


@dataclass
class Program:
    """The mixed-integer program of one problem, as it is written.

    `choose`: items may stay behind, the worth of those that ride counts, margins must be at least zero. `objective`:
    the margin of this one limit is kept, all others must only hold.
    """

    problem: Problem
    choose: bool = False
    objective: str | None = None
    model: Model = field(default_factory=Model)
    margin: int = 0
    place: list[int] = field(default_factory=list)
    ride: list[int] = field(default_factory=list)
    here: dict[tuple[int, str], list[int]] = field(default_factory=dict)
    """Ways of an item to stand on a deck, one binary for each facing."""
    zones: dict[str, Terms] = field(default_factory=dict)
    turned: Terms = field(default_factory=list)
    """Moment of each item about its own forward end, by the way it faces."""

    def write(self) -> Model:
        """Write all of it."""
        highest = 0.0 if self.choose else HIGHEST
        self.margin = self.model.column(-highest, highest, cost=0.0 if self.choose else 1.0)
        for number, item in enumerate(self.problem.items):
            self.write_item(number, item)
        for one, item in enumerate(self.problem.items):
            for other in range(one + 1, len(self.problem.items)):
                self.write_pair(one, other, alike=_same(item, self.problem.items[other]))
        for zone in (zone for deck in self.problem.decks for zone in deck.zones):
            if zone.total_limit_kg < INFINITE and zone.name in self.zones:
                limit, tight = zone.total_limit_kg / 1000, self.problem.tight.other_ratio
                self.keep(f"zone_total:{zone.name}", self.zones[zone.name], limit, tight * limit)
        self.write_statics()
        return self.model

    def counts(self, name: str) -> bool:
        """Whether a limit's margin counts, and not only that it holds."""
        return not self.choose and (self.objective is None or name == self.objective)

    def keep(self, name: str, terms: Terms, limit: float, unit: float) -> None:
        """Write terms <= limit, with margin units to spare where its margin counts."""
        if on(self.problem, name):
            self.model.row(-INFINITE, limit, [*terms, (self.margin, unit)] if self.counts(name) else terms)

    def write_item(self, number: int, item: Item) -> None:
        """Write where one item may stand."""
        m, decks = self.model, self.problem.decks
        worth = item.worth / 1000 if self.choose else 0.0
        ride = m.column(0.0 if self.choose else 1.0, 1.0, whole=self.choose, cost=worth)
        low = min(begin for begin, _ in (ends(self.problem, deck) for deck in decks))
        high = max(end for _, end in (ends(self.problem, deck) for deck in decks)) - item.length_m
        place = m.column(min(low, 0.0), max(high, 0.0))
        self.ride.append(ride)
        self.place.append(place)
        spots: list[list[tuple[int, float, float]]] = [[] for _ in range(len(item.contacts) + 1)]
        for deck in decks:
            self.here[number, deck.name] = [
                self.write_way(item, deck, facing, spots) for facing in ways_to_face(self.problem, deck, item)
            ]
        m.row(
            0.0, 0.0, [*((way, 1.0) for deck in decks for way in self.here[number, deck.name]), (ride, -1.0)]
        )
        if self.choose:  # left behind it stands at zero and counts for nothing
            m.row(-INFINITE, 0.0, [(place, 1.0), (ride, -max(high, 0.0))])
            m.row(0.0, INFINITE, [(place, 1.0), (ride, -min(low, 0.0))])
        for row in spots:  # one of the pieces under each contact, and one for the body, holds it
            m.row(0.0, INFINITE, [(place, 1.0), *((piece, -begin) for piece, begin, _ in row)])
            m.row(-INFINITE, 0.0, [(place, 1.0), *((piece, -end) for piece, _, end in row)])

    def write_way(
        self, item: Item, deck: Deck, facing: Facing, spots: list[list[tuple[int, float, float]]]
    ) -> int:
        """Write one item facing one way on one deck; return its binary."""
        m, offsets = self.model, item.offsets_m(facing)
        way = m.column(0.0, 1.0, whole=True)
        center = sum(c.share_ratio * offset for c, offset in zip(item.contacts, offsets, strict=True))
        self.turned.append((way, item.mass_kg / 1000 * center))
        for contact, offset, row in zip(item.contacts, offsets, spots, strict=False):
            chosen: Terms = []
            for begin, end, zone in pieces(self.problem, deck, item):
                piece = m.column(0.0, 1.0, whole=True)
                chosen.append((piece, 1.0))
                row.append((piece, begin - offset, end - offset))
                self.zones.setdefault(zone.name, []).append(
                    (piece, contact.share_ratio * item.mass_kg / 1000)
                )
                self.write_wheel(piece, contact.share_ratio * item.mass_kg / contact.wheel_count, zone)
            m.row(0.0, 0.0, [*chosen, (way, -1.0)])
        chosen = []
        for begin, end in body_pieces(self.problem, deck, item):
            piece = m.column(0.0, 1.0, whole=True)
            chosen.append((piece, 1.0))
            spots[-1].append((piece, begin, end))
        m.row(0.0, 0.0, [*chosen, (way, -1.0)])
        return way

    def write_wheel(self, piece: int, load_kg: float, zone: Zone) -> None:
        """Write the limit under one wheel, if it stands there."""
        name, limit = f"zone_wheel:{zone.name}", zone.wheel_limit_kg
        if limit < INFINITE and on(self.problem, name):
            part = (limit - load_kg) / (self.problem.tight.other_ratio * limit)
            if self.counts(name):
                self.model.row(-INFINITE, HIGHEST, [(self.margin, 1.0), (piece, HIGHEST - part)])
            elif part < 0:
                self.model.row(-INFINITE, 0.0, [(piece, 1.0)])

    def write_pair(self, one: int, other: int, *, alike: bool) -> None:
        """Write that of two items on one deck one stands ahead, as the order of drops lets it."""
        m, items, decks = self.model, self.problem.items, self.problem.decks
        ahead, behind = m.column(0.0, 1.0, whole=True), m.column(0.0, 1.0, whole=True)
        m.row(-INFINITE, 1.0, [(ahead, 1.0), (behind, 1.0)])
        for deck in decks:
            both = [(way, -1.0) for number in (one, other) for way in self.here[number, deck.name]]
            m.row(-1.0, INFINITE, [(ahead, 1.0), (behind, 1.0), *both])
        must = self.problem.drop_rule == "must" and on(self.problem, "drop_order")
        for first, second, order in ((one, other, ahead), (other, one, behind)):
            reach = items[first].length_m + self.problem.gap_m
            big = m.upper[self.place[first]] + reach - m.lower[self.place[second]]
            m.row(
                reach - big, INFINITE, [(self.place[second], 1.0), (self.place[first], -1.0), (order, -big)]
            )
            if must and (items[first].drop_count or math.inf) < (items[second].drop_count or math.inf):
                m.upper[order] = 0.0
                for deck in decks:
                    for under in deck.leaves_over:
                        both = [
                            (way, 1.0) for way in (*self.here[first, deck.name], *self.here[second, under])
                        ]
                        m.row(-INFINITE, 1.0, both)
        if alike and len(decks) == 1:
            m.upper[behind] = 0.0

    def write_statics(self) -> None:
        """Write forces up equal to forces down, moments about the coupling, what the suspension does, all limits."""
        m, trailer = self.model, self.problem.trailer
        items, empty = self.problem.items, trailer.empty_mass_kg / 1000
        mass = [(ride, item.mass_kg / 1000) for ride, item in zip(self.ride, items, strict=True)]
        moment = [
            (place, item.mass_kg / 1000) for place, item in zip(self.place, items, strict=True)
        ] + self.turned
        pin, gross = m.column(-INFINITE, INFINITE), m.column(-INFINITE, INFINITE)
        axles = [m.column(-INFINITE, INFINITE) for _ in trailer.axle_m]
        m.row(empty, empty, [(pin, 1.0), *((axle, 1.0) for axle in axles), *((c, -a) for c, a in mass)])
        about = empty * trailer.empty_center_m
        m.row(about, about, [*zip(axles, trailer.axle_m, strict=True), *((c, -a) for c, a in moment)])
        m.row(empty, empty, [(gross, 1.0), *((c, -a) for c, a in mass)])
        turn, preload = m.column(-INFINITE, INFINITE), trailer.axle_preload_kg / 1000
        for axle, at in zip(axles, trailer.axle_m, strict=True):
            if trailer.suspension == "equalized":  # all bear the same
                m.row(0.0, 0.0, [(axle, 1.0), (turn, -1.0)])
            else:  # stiffness times the frame's angle times the distance
                m.row(preload, preload, [(axle, 1.0), (turn, -at)])
        self.limit_trailer(pin, axles, gross)
        loads = {f"axle_{number}": axle for number, axle in enumerate(axles, 1)}
        if self.problem.truck is not None:
            loads |= self.limit_truck(self.problem.truck, pin, gross)
        for group in self.problem.axle_groups:
            limit, tight = group.limit_kg / 1000, self.problem.tight.other_ratio
            self.keep(f"law:{group.name}", [(loads[name], 1.0) for name in group.axles], limit, tight * limit)

    def limit_trailer(self, pin: int, axles: list[int], gross: int) -> None:
        """Write the trailer's own limits."""
        trailer, tight = self.problem.trailer, self.problem.tight
        payload = sum(item.mass_kg for item in self.problem.items)
        points = tight.pin_share_ratio * (trailer.empty_mass_kg + payload) / 1000
        least, most = trailer.pin_share_least_ratio, trailer.pin_share_most_ratio
        rated = trailer.gross_limit_kg / 1000
        self.keep("gross", [(gross, 1.0)], rated, tight.other_ratio * rated)
        if trailer.pin_limit_kg < INFINITE:
            limit = trailer.pin_limit_kg / 1000
            self.keep("pin_weight", [(pin, 1.0)], limit, tight.other_ratio * limit)
        if least > 0:
            self.keep("pin_share_least", [(gross, least), (pin, -1.0)], 0.0, points)
        if most < 1:
            self.keep("pin_share_most", [(pin, 1.0), (gross, -most)], 0.0, points)
        for number, (axle, limit_kg) in enumerate(zip(axles, trailer.axle_limit_kg, strict=True), 1):
            self.keep(f"axle_{number}", [(axle, 1.0)], limit_kg / 1000, tight.axle_ratio * limit_kg / 1000)
        for number, limit_kg in enumerate(trailer.tire_limit_kg, 1):
            each = [(axles[number - 1], 1 / trailer.tire_count)]
            self.keep(f"tires_{number}", each, limit_kg / 1000, tight.axle_ratio * limit_kg / 1000)

    def limit_truck(self, truck: Truck, pin: int, gross: int) -> dict[str, int]:
        """Write the truck's equilibrium and limits; return the columns of its axles."""
        m, tight = self.model, self.problem.tight.other_ratio
        front, rear = m.column(-INFINITE, INFINITE), m.column(-INFINITE, INFINITE)
        own = (truck.front_empty_kg + truck.rear_empty_kg) / 1000
        m.row(own, own, [(front, 1.0), (rear, 1.0), (pin, -1.0)])
        about = (truck.front_empty_kg * truck.front_axle_m + truck.rear_empty_kg * truck.rear_axle_m) / 1000
        m.row(about, about, [(front, truck.front_axle_m), (rear, truck.rear_axle_m)])
        rows: list[tuple[str, Terms, float, float]] = [
            ("coupling", [(pin, 1.0)], truck.coupling_limit_kg, 0.0),
            ("tow", [(gross, 1.0)], truck.tow_limit_kg, 0.0),
            ("truck_front", [(front, 1.0)], truck.front_limit_kg, 0.0),
            ("truck_rear", [(rear, 1.0)], truck.rear_limit_kg, 0.0),
            ("truck_gross", [(front, 1.0), (rear, 1.0)], truck.gross_limit_kg, 0.0),
            ("combined", [(gross, 1.0)], truck.combined_limit_kg, own),
        ]
        for name, terms, limit_kg, have in rows:
            if limit_kg < INFINITE:
                self.keep(name, terms, limit_kg / 1000 - have, tight * limit_kg / 1000)
        if truck.front_least_kg > 0:
            least = truck.front_least_kg / 1000
            self.keep("truck_front_least", [(front, -1.0)], -least, tight * least)
        return {"truck_front": front, "truck_rear": rear}


def _same(one: Item, other: Item) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in one.__slots__ if name != "name")


def ends(problem: Problem, deck: Deck) -> tuple[float, float]:
    """Where bodies may begin and end; far off where the deck's room is no limit."""
    room = sum(item.length_m + problem.gap_m for item in problem.items)
    more = 0.0 if on(problem, f"room:{deck.name}") else room
    return deck.first_m - more, deck.last_m + more


def ways_to_face(problem: Problem, deck: Deck, item: Item) -> tuple[Facing, ...]:
    """Which way round an item may stand on a deck; none where the ramp does not let it up."""
    if not comes_up(problem, deck, item):
        return ()
    free = not on(problem, "facing") or not on(problem, f"facing:{item.name}")
    return ("forward", "backward") if free else item.facings


def passed(m: Model) -> highspy.HighsLp:
    """Return the model in HiGHS's own form, row-wise."""
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(m.lower), len(m.rows)
    lp.sense_ = highspy.ObjSense.kMaximize
    lp.col_cost_ = np.array(m.cost)
    lp.col_lower_, lp.col_upper_ = np.array(m.lower), np.array(m.upper)
    lp.row_lower_ = np.array([low for low, _, _ in m.rows])
    lp.row_upper_ = np.array([high for _, high, _ in m.rows])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    start, index, value = [0], [], []
    for _, _, terms in m.rows:
        merged: dict[int, float] = {}
        for column, factor in terms:
            merged[column] = merged.get(column, 0.0) + factor
        index += list(merged)
        value += list(merged.values())
        start.append(len(index))
    lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = (
        np.array(start),
        np.array(index),
        np.array(value),
    )
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    lp.integrality_ = [kinds[whole] for whole in m.whole]
    return lp


def clock_for(threads: int) -> Callable[[], float]:
    """Return the clock a solver with so many threads is timed by."""
    return time.process_time if threads == 1 else time.perf_counter


def solver(threads: int, seconds: float, tolerance: float) -> highspy.Highs:
    highspy.Highs.resetGlobalScheduler(True)  # else the number of threads of the first run of a process stays
    h = highspy.Highs()  # type: ignore[no-untyped-call]
    h.silent()
    h.setOptionValue("threads", threads)
    h.setOptionValue("time_limit", seconds)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.0)
    h.setOptionValue("mip_feasibility_tolerance", tolerance)
    h.setOptionValue("primal_feasibility_tolerance", tolerance)
    h.setOptionValue("dual_feasibility_tolerance", tolerance)
    return h


def solve(
    problem: Problem,
    *,
    threads: int = 1,
    seconds: float = 60.0,
    choose: bool = False,
    objective: str | None = None,
    tolerance: float = 1e-9,
) -> Answer:
    """Return HiGHS's best least margin (or, with `choose`, the best worth), polished with all binaries fixed."""
    clock = clock_for(threads)
    began = clock()
    m = Program(problem, choose, objective).write()
    h = solver(threads, seconds, tolerance)
    h.passModel(passed(m))
    building = clock() - began
    began = clock()
    h.run()
    spent = clock() - began
    status = h.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Answer(None, True, spent, -math.inf, building)
    solution = np.array(h.getSolution().col_value)
    if status != highspy.HighsModelStatus.kOptimal:
        found = h.getInfo().primal_solution_status == 2
        value = h.getInfo().objective_function_value if found else None
        return Answer(value, False, spent, h.getInfo().mip_dual_bound, building)
    fixed = Model(list(m.lower), list(m.upper), m.cost, [False] * len(m.whole), [])
    for column, whole in enumerate(m.whole):
        if whole:
            fixed.lower[column] = fixed.upper[column] = float(round(solution[column]))
    fixed.rows = m.rows
    again = solver(threads, seconds, 1e-10)
    again.passModel(passed(fixed))
    again.run()
    if again.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return Answer(None, False, spent, h.getInfo().mip_dual_bound, building)
    return Answer(again.getInfo().objective_function_value, True, spent, h.getInfo().mip_dual_bound, building)
