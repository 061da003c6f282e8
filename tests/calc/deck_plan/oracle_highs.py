"""The deck problem as a mixed-integer program for HiGHS, written from the statics of each body, not from our lines.

Masses in tonnes, lengths in meters. Every wheel (contact) has one binary for each piece of deck it may stand on; axle
loads, pin load and truck axle loads are variables held by equilibrium. Gaps are zero. A second, linear program with
all binaries fixed takes the tolerance of the first one's big constants out of the answer.
"""

from __future__ import annotations

import math
import time
from dataclasses import dataclass, field

import highspy
import numpy as np

from sendoff.calc.deck_plan import Deck, Item, Problem, Zone
from sendoff.calc.deck_plan.gear import INFINITE

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
    inner = math.pi - ramp.angle_rad
    crest = base / 2 / math.tan(inner / 2)
    if on(problem, f"ramp_crest:{deck.name}") and item.clearance_m is not None and item.clearance_m < crest:
        return False
    for angle in (item.approach_rad, item.departure_rad):
        if on(problem, f"ramp_foot:{deck.name}") and angle is not None and angle < ramp.angle_rad:
            return False
    wheels = [contact.share_ratio * item.mass_kg / contact.wheel_count for contact in item.contacts]
    return not on(problem, f"ramp_wheel:{deck.name}") or max(wheels) <= ramp.wheel_limit_kg


@dataclass
class Answer:
    """What HiGHS said: least margin (None: infeasible), whether it proved it, seconds it took, the chosen binaries."""

    margin: float | None
    proved: bool
    seconds: float
    """To solve, on the solver's own clock."""
    bound: float = math.inf
    building: float = 0.0
    """Seconds to write the program and hand it over."""


def build(
    problem: Problem, *, choose: bool = False, objective: str | None = None, twins: bool = True
) -> tuple[Model, dict[str, int]]:
    """Write the program. `choose`: items may stay behind, the worth of those that ride counts, margins must be >= 0.

    `objective`: the margin of this one limit is kept, all others must only hold.
    """
    m, named = Model(), {}
    t = m.column(0.0 if choose else -HIGHEST, 0.0 if choose else HIGHEST, cost=0.0 if choose else 1.0)
    named["margin"] = t

    def keep(name: str, terms: list[tuple[int, float]], limit: float, tight: float) -> None:
        """terms <= limit, with the margin's part of the limit to spare."""
        if not on(problem, name):
            return
        counted = objective is None or name == objective
        m.row(-INFINITE, limit, [*terms, (t, tight * limit)] if counted and not choose else terms)

    items, decks = problem.items, problem.decks
    room = sum(item.length_m + problem.gap_m for item in items)
    place, rides, here, zone_terms = [], [], {}, {}
    for i, item in enumerate(items):
        ride = m.column(0.0 if choose else 1.0, 1.0, whole=choose, cost=item.worth / 1000 if choose else 0.0)
        rides.append(ride)
        named[f"ride:{item.name}"] = ride
        low = min(deck.first_m - (0 if on(problem, f"room:{deck.name}") else room) for deck in decks)
        high = max(
            deck.last_m + (0 if on(problem, f"room:{deck.name}") else room) - item.length_m for deck in decks
        )
        p = m.column(min(low, 0.0), max(high, 0.0))
        place.append(p)
        stands, low_terms, high_terms = [], {}, {}
        body_low, body_high = [], []
        for d, deck in enumerate(decks):
            facings = item.facings
            if not on(problem, "facing") or not on(problem, f"facing:{item.name}"):
                facings = ("forward", "backward")
            on_deck = []
            for facing in facings if comes_up(problem, deck, item) else ():
                y = m.column(0.0, 1.0, whole=True)
                named[f"y:{item.name}:{deck.name}:{facing}"] = y
                stands.append(y)
                on_deck.append(y)
                offsets = item.offsets_m(facing)
                for j, contact in enumerate(item.contacts):
                    choices = []
                    for begin, end, zone in pieces(problem, deck, item):
                        v = m.column(0.0, 1.0, whole=True)
                        choices.append((v, 1.0))
                        low_terms.setdefault(j, []).append((v, begin - offsets[j]))
                        high_terms.setdefault(j, []).append((v, end - offsets[j]))
                        load = contact.share_ratio * item.mass_kg
                        zone_terms.setdefault(zone.name, []).append((v, load / 1000))
                        if zone.wheel_limit_kg < INFINITE and on(problem, f"zone_wheel:{zone.name}"):
                            part = (zone.wheel_limit_kg - load / contact.wheel_count) / (
                                problem.tight.other_ratio * zone.wheel_limit_kg
                            )
                            if choose or (objective is not None and objective != f"zone_wheel:{zone.name}"):
                                if part < 0:
                                    m.row(-INFINITE, 0.0, [(v, 1.0)])
                            else:
                                m.row(-INFINITE, HIGHEST, [(t, 1.0), (v, HIGHEST - part)])
                    m.row(0.0, 0.0, [*choices, (y, -1.0)])
                pieces_of_body = [
                    (m.column(0.0, 1.0, whole=True), a, b) for a, b in body_pieces(problem, deck, item)
                ]
                m.row(0.0, 0.0, [*((b, 1.0) for b, _, _ in pieces_of_body), (y, -1.0)])
                body_low += [(b, begin) for b, begin, _ in pieces_of_body]
                body_high += [(b, end) for b, _, end in pieces_of_body]
            here[i, d] = on_deck
        m.row(0.0, 0.0, [*((y, 1.0) for y in stands), (ride, -1.0)])
        slack_low, slack_high = [], []
        if choose:  # left behind it stands at zero and counts for nothing
            m.row(-INFINITE, 0.0, [(p, 1.0), (ride, -max(high, 0.0))])
            m.row(0.0, INFINITE, [(p, 1.0), (ride, -min(low, 0.0))])
        for j in low_terms:
            m.row(0.0, INFINITE, [(p, 1.0), *((v, -a) for v, a in low_terms[j]), *slack_low])
            m.row(-INFINITE, 0.0, [(p, 1.0), *((v, -b) for v, b in high_terms[j]), *slack_high])
        m.row(0.0, INFINITE, [(p, 1.0), *((v, -a) for v, a in body_low)])
        m.row(-INFINITE, 0.0, [(p, 1.0), *((v, -b) for v, b in body_high)])
    _order(problem, m, place, here, twins=twins)
    for deck in decks:
        for zone in deck.zones:
            if zone.total_limit_kg < INFINITE and zone.name in zone_terms:
                keep(
                    f"zone_total:{zone.name}",
                    zone_terms[zone.name],
                    zone.total_limit_kg / 1000,
                    problem.tight.other_ratio,
                )
    mass = [(ride, item.mass_kg / 1000) for ride, item in zip(rides, items, strict=True)]
    moment = [(p, item.mass_kg / 1000) for p, item in zip(place, items, strict=True)]
    for i, item in enumerate(items):
        for d, deck in enumerate(decks):
            for facing in ("forward", "backward"):
                y = named.get(f"y:{item.name}:{deck.name}:{facing}")
                if y is not None:
                    center = sum(
                        c.share_ratio * o for c, o in zip(item.contacts, item.offsets_m(facing), strict=True)
                    )
                    moment.append((y, item.mass_kg / 1000 * center))
    _statics(
        problem,
        m,
        mass,
        moment,
        keep,
        t,
        counted=lambda name: not choose and (objective is None or name == objective),
    )
    return m, named


def _order(
    problem: Problem, m: Model, place: list[int], here: dict[tuple[int, int], list[int]], *, twins: bool
) -> None:
    items, decks, gap = problem.items, problem.decks, problem.gap_m
    must = problem.drop_rule == "must" and on(problem, "drop_order")
    drop = [item.drop_count or 10**6 for item in items]
    for i in range(len(items)):
        for j in range(i + 1, len(items)):
            # on a common deck one stands ahead of the other
            ij, ji = m.column(0.0, 1.0, whole=True), m.column(0.0, 1.0, whole=True)
            m.row(-INFINITE, 1.0, [(ij, 1.0), (ji, 1.0)])
            for d in range(len(decks)):
                both = [*((y, -1.0) for y in here[i, d]), *((y, -1.0) for y in here[j, d])]
                m.row(-1.0, INFINITE, [(ij, 1.0), (ji, 1.0), *both])
            for a, b, first in ((i, j, ij), (j, i, ji)):
                reach = items[a].length_m + gap
                big = m.upper[place[a]] + reach - m.lower[place[b]]
                m.row(reach - big, INFINITE, [(place[b], 1.0), (place[a], -1.0), (first, -big)])
                if must and drop[a] < drop[b]:
                    m.upper[first] = 0.0
                    for d, deck in enumerate(decks):
                        for e, other in enumerate(decks):
                            if other.name in deck.leaves_over:
                                m.row(
                                    -INFINITE,
                                    1.0,
                                    [*((y, 1.0) for y in here[a, d]), *((y, 1.0) for y in here[b, e])],
                                )
            if twins and len(decks) == 1 and _same(items[i], items[j]):
                m.upper[ji] = 0.0


def _same(one: Item, other: Item) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in one.__slots__ if name != "name")


def _statics(
    problem: Problem,
    m: Model,
    mass: list[tuple[int, float]],
    moment: list[tuple[int, float]],
    keep,
    t: int,
    counted,
) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001
    trailer, tight = problem.trailer, problem.tight
    empty = trailer.empty_mass_kg / 1000
    pin = m.column(-INFINITE, INFINITE)
    axles = [m.column(-INFINITE, INFINITE) for _ in trailer.axle_m]
    # forces up = forces down; moments about the coupling
    m.row(empty, empty, [(pin, 1.0), *((r, 1.0) for r in axles), *((c, -a) for c, a in mass)])
    m.row(
        empty * trailer.empty_center_m, empty * trailer.empty_center_m,
        [*((r, x) for r, x in zip(axles, trailer.axle_m, strict=True)), *((c, -a) for c, a in moment)],
    )  # fmt: skip
    if trailer.suspension == "equalized":
        for r in axles[1:]:
            m.row(0.0, 0.0, [(axles[0], 1.0), (r, -1.0)])
    else:
        turn = m.column(-INFINITE, INFINITE)  # stiffness times the frame's angle
        for r, x in zip(axles, trailer.axle_m, strict=True):
            m.row(trailer.axle_preload_kg / 1000, trailer.axle_preload_kg / 1000, [(r, 1.0), (turn, -x)])
    gross = m.column(-INFINITE, INFINITE)
    m.row(empty, empty, [(gross, 1.0), *((c, -a) for c, a in mass)])
    payload = sum(item.mass_kg for item in problem.items) / 1000
    keep("gross", [(gross, 1.0)], trailer.gross_limit_kg / 1000, tight.other_ratio)
    if trailer.pin_limit_kg < INFINITE:
        keep("pin_weight", [(pin, 1.0)], trailer.pin_limit_kg / 1000, tight.other_ratio)
    least, most = trailer.pin_share_least_ratio, trailer.pin_share_most_ratio
    points = tight.pin_share_ratio * (empty + payload)
    if least > 0 and on(problem, "pin_share_least"):
        m.row(
            -INFINITE,
            0.0,
            [(gross, least), (pin, -1.0), *([(t, points)] if counted("pin_share_least") else [])],
        )
    if most < 1 and on(problem, "pin_share_most"):
        m.row(
            -INFINITE,
            0.0,
            [(pin, 1.0), (gross, -most), *([(t, points)] if counted("pin_share_most") else [])],
        )
    loads = {}
    for number, (r, limit) in enumerate(zip(axles, trailer.axle_limit_kg, strict=True), 1):
        loads[f"axle_{number}"] = r
        keep(f"axle_{number}", [(r, 1.0)], limit / 1000, tight.axle_ratio)
    for number, limit in enumerate(trailer.tire_limit_kg, 1):
        keep(f"tires_{number}", [(axles[number - 1], 1 / trailer.tire_count)], limit / 1000, tight.axle_ratio)
    truck = problem.truck
    if truck is not None:
        front, rear = m.column(-INFINITE, INFINITE), m.column(-INFINITE, INFINITE)
        own = (truck.front_empty_kg + truck.rear_empty_kg) / 1000
        m.row(own, own, [(front, 1.0), (rear, 1.0), (pin, -1.0)])
        about = (truck.front_empty_kg * truck.front_axle_m + truck.rear_empty_kg * truck.rear_axle_m) / 1000
        m.row(about, about, [(front, truck.front_axle_m), (rear, truck.rear_axle_m)])
        loads |= {"truck_front": front, "truck_rear": rear}
        for name, terms, limit, have in (
            ("coupling", [(pin, 1.0)], truck.coupling_limit_kg, 0.0),
            ("tow", [(gross, 1.0)], truck.tow_limit_kg, 0.0),
            ("truck_front", [(front, 1.0)], truck.front_limit_kg, 0.0),
            ("truck_rear", [(rear, 1.0)], truck.rear_limit_kg, 0.0),
            ("truck_gross", [(front, 1.0), (rear, 1.0)], truck.gross_limit_kg, 0.0),
            ("combined", [(gross, 1.0)], truck.combined_limit_kg, own),
        ):
            if limit < INFINITE and on(problem, name):
                part = [(t, tight.other_ratio * limit / 1000)] if counted(name) else []
                m.row(-INFINITE, limit / 1000 - have, [*terms, *part])
        if truck.front_least_kg > 0 and on(problem, "truck_front_least"):
            part = (
                [(t, tight.other_ratio * truck.front_least_kg / 1000)] if counted("truck_front_least") else []
            )
            m.row(-INFINITE, -truck.front_least_kg / 1000, [(front, -1.0), *part])
    for group in problem.axle_groups:
        keep(
            f"law:{group.name}",
            [(loads[name], 1.0) for name in group.axles],
            group.limit_kg / 1000,
            tight.other_ratio,
        )


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


def solver(threads: int, seconds: float, tolerance: float) -> highspy.Highs:
    h = highspy.Highs()
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
    began = time.perf_counter()
    m, _ = build(problem, choose=choose, objective=objective)
    h = solver(threads, seconds, tolerance)
    h.passModel(passed(m))
    building = time.perf_counter() - began
    h.run()
    spent = h.getRunTime()
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
