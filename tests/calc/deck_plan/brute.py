"""Every arrangement on a grid, for up to three items: no bound, no order, no cells; just all of them.

Each item may stand at every step of the grid on every deck, either way round. What one item does there (rules kept,
zones loaded, margin under its wheels, moment) is asked of the independent checker's rules one by one; then all
combinations are tried at once.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from sendoff.calc.deck_plan import Item, Placement, Problem
from sendoff.calc.deck_plan.gear import INFINITE
from tests.calc.deck_plan.checker import check, limits_under

Numbers = np.ndarray[Any, np.dtype[Any]]
Spread = Callable[[Numbers, int], Numbers]


@dataclass
class Spots:
    """All places of one item on the grid that break no rule by themselves."""

    deck: Numbers
    front: Numbers
    moment: Numbers
    worst: Numbers
    loads: Numbers


def spots(problem: Problem, item: Item, step: float) -> Spots:
    """Try every place of one item alone."""
    zones = [zone for deck in problem.decks for zone in deck.zones]
    alone = replace(problem, items=(item,))
    rows = []
    for number, deck in enumerate(problem.decks):
        for facing in item.facings:
            first = math.ceil(deck.first_m / step)
            last = math.floor((deck.last_m - item.length_m) / step)
            for at in range(first, last + 1):
                front = at * step
                if check(alone, [Placement(item.name, deck.name, facing, front)])[0]:
                    continue
                offsets = item.offsets_m(facing)
                loads, worst, edge = [0.0] * len(zones), math.inf, False
                for contact, offset in zip(item.contacts, offsets, strict=True):
                    place, kg = front + offset, contact.share_ratio * item.mass_kg
                    here = [
                        z
                        for z in deck.zones
                        if z.front_m + problem.edge_m <= place <= z.rear_m - problem.edge_m
                    ]
                    if len(here) != 1:
                        edge = True  # on the very edge of two zones: either may count, left out here
                        continue
                    loads[zones.index(here[0])] += kg
                    if here[0].wheel_limit_kg < INFINITE:
                        limit = here[0].wheel_limit_kg
                        worst = min(
                            worst, (limit - kg / contact.wheel_count) / limit / problem.tight.other_ratio
                        )
                if not edge:
                    shares = [contact.share_ratio for contact in item.contacts]
                    moment = item.mass_kg * sum(s * (front + o) for s, o in zip(shares, offsets, strict=True))
                    rows.append((number, front, moment, worst, loads))
    return Spots(
        np.array([row[0] for row in rows], dtype=float),
        np.array([row[1] for row in rows], dtype=float),
        np.array([row[2] for row in rows], dtype=float),
        np.array([row[3] for row in rows], dtype=float),
        np.array([row[4] for row in rows], dtype=float).reshape(len(rows), len(zones)),
    )


def best_on_grid(problem: Problem, step: float) -> float:
    """Return the best least margin of all arrangements on the grid; -inf where there is none."""
    every = [spots(problem, item, step) for item in problem.items]
    if any(len(each.deck) == 0 for each in every):
        return -math.inf
    count = len(every)

    def spread(values: Numbers, at: int) -> Numbers:
        return values.reshape([-1 if axis == at else 1 for axis in range(count)])

    shape = tuple(len(each.deck) for each in every)
    margin = np.full(shape, math.inf)
    moment = np.zeros(shape)
    for at, each in enumerate(every):
        margin = np.minimum(margin, spread(each.worst, at))
        moment = moment + spread(each.moment, at)
    for at, one in enumerate(every):
        for further in range(at + 1, count):
            margin = np.where(apart(problem, at, further, one, every[further], spread), margin, -math.inf)
    for number, zone in enumerate(zone for deck in problem.decks for zone in deck.zones):
        if zone.total_limit_kg < INFINITE:
            onto = sum(spread(each.loads[:, number], at) for at, each in enumerate(every))
            margin = np.minimum(
                margin, (zone.total_limit_kg - onto) / zone.total_limit_kg / problem.tight.other_ratio
            )
    mass = sum(item.mass_kg for item in problem.items)
    at_zero, at_one = (limits_under(problem, [(mass, center)]) for center in (0.0, 1.0))
    for name, (load, limit, tight, least) in at_zero.items():
        if name not in problem.dropped:
            there = load + (at_one[name][0] - load) * moment / mass
            left = there - limit if least else limit - there
            margin = np.minimum(margin, left / limit / tight)
    return float(margin.max())


def apart(problem: Problem, at: int, further: int, one: Spots, other: Spots, spread: Spread) -> Numbers:
    """Whether two items may stand so: on other decks, or with room between them, and neither in the other's way."""
    a, b = problem.items[at], problem.items[further]
    same = spread(one.deck, at) == spread(other.deck, further)
    behind = spread(other.front, further) - spread(one.front, at)
    fine = (
        ~same | (behind >= a.length_m + problem.gap_m - 1e-9) | (-behind >= b.length_m + problem.gap_m - 1e-9)
    )
    if problem.drop_rule == "must":
        first, second = a.drop_count or math.inf, b.drop_count or math.inf
        if first < second:
            fine &= ~(same & (behind > 0))
        if second < first:
            fine &= ~(same & (behind < 0))
        names = [deck.name for deck in problem.decks]
        for number, deck in enumerate(problem.decks):
            for under in (names.index(name) for name in deck.leaves_over):
                if first < second:
                    fine &= ~((spread(one.deck, at) == number) & (spread(other.deck, further) == under))
                if second < first:
                    fine &= ~((spread(other.deck, further) == number) & (spread(one.deck, at) == under))
    return np.asarray(fine)
