"""In which order items go on and come off, and what stands in whose way at each stop."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sendoff.calc.deck_plan.evaluate import blocking_pairs
from sendoff.calc.deck_plan.problem import Facing, Placement, Problem


@dataclass(frozen=True, slots=True)
class LoadingStep:
    """One item going on."""

    item: str
    deck: str
    facing: Facing
    front_m: float
    how: str
    """"driven", "winched" or "lifted"."""


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop on the road: what comes off, and what must be taken down and put back for it."""

    number: int
    """As the items' drop_count; 0 is the last stop."""
    off: tuple[str, ...]
    """In the order they come off."""
    moved: tuple[str, ...]
    """Not for this stop, but in the way: off and on again."""


def loading_order(problem: Problem, placements: Sequence[Placement]) -> tuple[LoadingStep, ...]:
    """Return the steps of loading: decks that are left over another first, on each deck from front to rear."""
    moved_by = {item.name: item.moved_by for item in problem.items}
    rank = {deck.name: -number for number, deck in enumerate(problem.decks)}
    rows = sorted(placements, key=lambda placement: (rank[placement.deck], placement.front_m))
    return tuple(LoadingStep(row.item, row.deck, row.facing, row.front_m, moved_by[row.item]) for row in rows)


def stops(problem: Problem, placements: Sequence[Placement]) -> tuple[Stop, ...]:
    """Return the stops in their order with what comes off, last on first off among the items of one stop."""
    number = {item.name: item.drop_count for item in problem.items}
    coming_off = [step.item for step in reversed(loading_order(problem, placements))]
    in_the_way = blocking_pairs(problem, placements)
    wanted = sorted(
        {number[name] for name in coming_off}, key=lambda stop: stop or len(number) + max(number.values())
    )
    found = []
    for stop in wanted:
        off = tuple(name for name in coming_off if number[name] == stop)
        blocking = {other for first, other in in_the_way if first in off}
        found.append(Stop(stop, off, tuple(name for name in coming_off if name in blocking)))
    return tuple(found)
