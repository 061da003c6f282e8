"""Judges of tie-down plans that share nothing with the planner: they see only what was given and what came out.

Everything is measured anew from coordinates as vectors, in pounds and exact fractions where the rule counts pounds, and
every fault found is told. A judge never asks how a plan was made; it knows the rule's text.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

import numpy as np

LB_kg: Final = 0.45359237
HAIR: Final = 1e-9


@dataclass(frozen=True)
class Rig:
    """What a planner is given: holds and deck points as (x, y, limit), gear as (limit, length)."""

    mass: float
    holds: Sequence[tuple[float, float, float]]
    deck: Sequence[tuple[float, float, float]]
    gear: Sequence[tuple[float, float]]
    height: float = 0.3
    extra: float = 0.3


def _vector(rig: Rig, hold: int, point: int) -> Any:
    """From the hold down to the deck point: rearwards, to the right, down."""
    hx, hy, _ = rig.holds[hold - 1]
    dx, dy, _ = rig.deck[point - 1]
    return np.array([dx - hx, dy - hy, rig.height])


def asked_of(kind: str, mass: float, rule: str) -> tuple[int, int, float]:
    """Return how many in all, how many at each end, and how strong each in pounds: 393.128, 393.130, the handbook.

    A car, rule text: two in all, front and rear held. Drivers' handbook: two at each end. A machine of 10,000 lb or
    more, both texts: four in all, two at each end, and in the handbook 5,000 lb each.
    """
    heavy = mass / LB_kg >= 10_000 * (1 - HAIR)
    if kind == "car":
        return (2, 1, 0.0) if rule == "rule_text" else (4, 2, 0.0)
    return (4, 2, 5_000.0 if heavy and rule != "rule_text" else 0.0)


def faults_of_plan(rig: Rig, kind: str, plan: Any, rule: str = "stricter") -> Iterator[str]:
    """Yield what is wrong with a plan of a car or machine that calls itself feasible."""
    least, at_end, strong = asked_of(kind, rig.mass, rule)
    ties = plan.tie_downs
    yield from _used_once("gear", [tie.gear for tie in ties], len(rig.gear), plan.gear_left)
    yield from _used_once("point", [tie.deck_point for tie in ties], len(rig.deck), plan.deck_points_left)
    if len(ties) < least:
        yield f"{len(ties)} tie-downs where {least} are asked for"
    counted = Fraction(0)
    for tie in ties:
        way = _vector(rig, tie.hold_point, tie.deck_point)
        limits = (
            rig.gear[tie.gear - 1][0],
            rig.deck[tie.deck_point - 1][2],
            rig.holds[tie.hold_point - 1][2],
        )
        counted += Fraction(min(limits)) / 2
        if np.linalg.norm(way) + rig.extra > rig.gear[tie.gear - 1][1] * (1 + HAIR):
            yield f"gear {tie.gear} is too short"
        if tie.wll_kg > min(limits) * (1 + HAIR):
            yield f"tie-down at point {tie.deck_point} is stronger than its weakest part"
        if min(limits) / LB_kg < strong * (1 - HAIR):
            yield f"a part of the tie-down at point {tie.deck_point} is under {strong:.0f} lb"
        if (way[0] > 0) != (tie.pulls == "rearward") or way[0] == 0:
            yield f"tie-down at point {tie.deck_point} does not pull {tie.pulls}"
        if rig.holds[tie.hold_point - 1][1] * rig.deck[tie.deck_point - 1][1] < 0:
            yield f"tie-down at point {tie.deck_point} runs across the item"
    if counted < Fraction(rig.mass) / 2 * (1 - Fraction(1, 10**9)):
        yield "it counts less than half the weight"
    yield from _ends(rig, ties, at_end)


def _used_once(what: str, used: Sequence[int], there: int, left: Sequence[int]) -> Iterator[str]:
    if len(set(used)) != len(used):
        yield f"one {what} is used twice"
    if sorted([*used, *left]) != list(range(1, there + 1)):
        yield f"{what}: used and left are not all there is"


def _ends(rig: Rig, ties: Sequence[Any], at_end: int) -> Iterator[str]:
    """Yield what is wrong with how front and rear are held: two at each end means left and right."""
    middle = (min(x for x, _, _ in rig.holds) + max(x for x, _, _ in rig.holds)) / 2
    for rear in (False, True):
        end = [tie for tie in ties if (rig.holds[tie.hold_point - 1][0] > middle) == rear]
        if len(end) < at_end:
            yield f"{'rear' if rear else 'front'} is held by {len(end)} where {at_end} are asked for"
        sides = {np.sign(rig.deck[tie.deck_point - 1][1]) for tie in end}
        if at_end == 2 and not {-1.0, 1.0} <= sides:
            yield f"{'rear' if rear else 'front'} is held on one side only"
    if {tie.pulls for tie in ties} != {"forward", "rearward"}:
        yield "it is held one way only"


def corners_can_be_tied(rig: Rig, kind: str, rule: str = "stricter") -> bool:
    """Try every way to tie four holds, one to a corner, all outwards or all inwards; slow, and for few points."""
    least, _, strong = asked_of(kind, rig.mass, rule)
    assert least <= 4 == len(rig.holds)
    middle = sum(x for x, _, _ in rig.holds) / 4
    for points in itertools.permutations(range(1, len(rig.deck) + 1), 4):
        ways = [_vector(rig, hold, point) for hold, point in zip(range(1, 5), points, strict=True)]
        outward = {bool(way[0] > 0) == (rig.holds[hold][0] > middle) for hold, way in enumerate(ways)}
        across = any(
            rig.holds[hold][1] * rig.deck[point - 1][1] < 0
            for hold, point in zip(range(4), points, strict=True)
        )
        if len(outward) != 1 or across or any(abs(way[0]) < 0.2 * np.linalg.norm(way) for way in ways):
            continue
        anchors = [
            min(rig.deck[point - 1][2], rig.holds[hold][2])
            for hold, point in zip(range(4), points, strict=True)
        ]
        lengths = [float(np.linalg.norm(way)) + rig.extra for way in ways]
        for pieces in itertools.permutations(rig.gear, 4):
            tied = [min(piece[0], anchor) for piece, anchor in zip(pieces, anchors, strict=True)]
            if (
                all(piece[1] >= length for piece, length in zip(pieces, lengths, strict=True))
                and min(tied) / LB_kg >= strong
                and sum(tied) >= rig.mass
            ):
                return True
    return False


def faults_over_top(
    plan: Any, mass: float, front: float, size: tuple[float, float, float], deck: Any, gear: Any, count: int
) -> Iterator[str]:
    """Yield what is wrong with straps over the top: each from one side, over the item, to the other side."""
    length, width, height = size
    ends = [number for tie in plan.tie_downs for number in (tie.deck_point, tie.other_deck_point)]
    if len(set(ends)) != len(ends):
        yield "an anchor bears two straps"
    if len({tie.gear for tie in plan.tie_downs}) != len(plan.tie_downs):
        yield "a strap is used twice"
    total = Fraction(0)
    for tie in plan.tie_downs:
        one, other = (np.array(deck[number - 1][:2]) for number in (tie.deck_point, tie.other_deck_point))
        limit, long = gear[tie.gear - 1]
        if one[1] * other[1] >= 0:
            yield "a strap begins and ends on one side"
        for at in (one, other):
            if not front - 0.16 <= at[0] <= front + length + 0.16:
                yield "a strap lies off the item"
        edges = [np.array([at[0], np.sign(at[1]) * width / 2, height]) for at in (one, other)]
        down = [
            np.linalg.norm(edge - np.array([*at, 0.0])) for edge, at in zip(edges, (one, other), strict=True)
        ]
        over = sum(down) + np.linalg.norm(edges[0] - edges[1])
        if over > long + 1e-6:
            yield f"strap {tie.gear} is {over - long:.3f} m too short"
        total += Fraction(min(limit, deck[tie.deck_point - 1][2], deck[tie.other_deck_point - 1][2]))
    if plan.feasible and len(plan.tie_downs) < count:
        yield "fewer straps than the length asks for"
    if plan.feasible and total < Fraction(mass) / 2 * (1 - Fraction(1, 10**9)):
        yield "it counts less than half the weight"


EN_WAYS: Final = (
    ("forward", (-1, 0), 0.8),
    ("rearward", (1, 0), 0.5),
    ("right", (0, 1), 0.5),
    ("left", (0, -1), 0.5),
)
"""Way it would slide as (rearwards, right), and the coefficient of EN 12195-1:2010, table 2."""


def en_left_over(rig: Rig, plan: Any, friction: float) -> dict[str, float]:
    """Return the force left against sliding each way, by vectors: a lashing helps if it pulls against the slide.

    Each helps by its pull against the slide and by 0.75 of the friction under its pull downwards (EN 12195-1, 5.5).
    """
    left = {}
    for name, way, coefficient in EN_WAYS:
        slide = np.array([*way, 0.0])
        weight = rig.mass * 9.81
        held = min(0.75 * friction, coefficient) * weight
        for lashing in plan.lashings:
            pull = _vector(rig, lashing.hold_point, lashing.deck_point)
            pull = (
                pull
                / np.linalg.norm(pull)
                * min(rig.gear[lashing.gear - 1][0], rig.deck[lashing.deck_point - 1][2])
            )
            against = -float(pull @ slide)
            if against > HAIR * np.linalg.norm(pull):
                held += against + 0.75 * friction * float(pull[2])
        left[name] = held - coefficient * weight
    return left
