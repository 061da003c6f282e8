"""Search behind the tie-down plan: which hold goes to which deck point with which piece of gear.

Each slot (front left, rear right, and so on) may be filled by some pairs of a hold on the item and a point on the
deck. Pairs nearest to 45 degrees seen from above come first. Every choice is tried in the order of its cost, the
gear is dealt out so that the sum of the weakest parts is greatest, and the first choice that satisfies is taken.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

TRIES: Final = 5_000
"""Choices looked at before giving up; far more than a deck has."""


@dataclass(frozen=True, slots=True)
class Point:
    """A place, and what it may bear."""

    x_m: float
    y_m: float
    wll_kg: float


@dataclass(frozen=True, slots=True)
class Gear:
    """A strap or chain on board."""

    wll_kg: float
    length_m: float


@dataclass(frozen=True, slots=True)
class Pair:
    """A hold on the item tied to a point on the deck."""

    hold: int
    deck: int
    along_m: float
    """Rearwards from hold to deck point: above zero the tie-down pulls the item to the rear."""
    across_m: float
    way_m: float
    """Straight from hold to deck point."""
    length_m: float
    """Length of gear it takes."""
    cost: float


@dataclass(frozen=True, slots=True)
class Tied:
    """A pair with its gear, and the limit of the whole."""

    pair: Pair
    gear: int
    wll_kg: float


def pairs_between(
    holds: Sequence[Point], deck: Sequence[Point], height_m: float, extra_m: float
) -> list[Pair]:
    """Return every sensible pair: not across the item, and not straight down or straight sideways."""
    found = []
    for number, hold in enumerate(holds):
        for other, point in enumerate(deck):
            along, across = point.x_m - hold.x_m, point.y_m - hold.y_m
            flat = math.hypot(along, across)
            length = math.hypot(flat, height_m)
            if point.y_m * hold.y_m < 0 or length == 0 or abs(along) < 0.2 * length:
                continue
            cost = abs(abs(along) / length - 0.7) + 0.01 * length
            found.append(Pair(number, other, along, across, length, length + extra_m, cost))
    return sorted(found, key=lambda pair: (pair.cost, pair.hold, pair.deck))


def cheapest_choices(slots: Sequence[Sequence[Pair]]) -> Iterator[tuple[Pair, ...]]:
    """Return one pair for each slot, cheapest sum first; no deck point and no hold-and-direction twice."""
    if not all(slots):
        return
    start = (0,) * len(slots)
    heap = [(sum(slot[0].cost for slot in slots), start)]
    seen = {start}
    for _ in range(TRIES):
        if not heap:
            return
        cost, at = heapq.heappop(heap)
        chosen = tuple(slot[index] for slot, index in zip(slots, at, strict=True))
        if (
            len({pair.deck for pair in chosen})
            == len(chosen)
            == len({pair.hold for pair in chosen} | _crossed(chosen))
        ):
            yield chosen
        for place, slot in enumerate(slots):
            index = at[place] + 1
            following = (*at[:place], index, *at[place + 1 :])
            if index < len(slot) and following not in seen:
                seen.add(following)
                heapq.heappush(heap, (cost + slot[index].cost - slot[index - 1].cost, following))


def _crossed(chosen: tuple[Pair, ...]) -> set[int]:
    """Holds used twice are fine when pulled both ways: count the second use under a number of its own."""
    extra: set[int] = set()
    for number, pair in enumerate(chosen):
        for other in chosen[:number]:
            if other.hold == pair.hold and other.along_m * pair.along_m < 0:
                extra.add(-1 - pair.hold)
    return extra


def deal_gear(
    chosen: Sequence[Pair], holds: Sequence[Point], deck: Sequence[Point], gear: Sequence[Gear]
) -> tuple[Tied, ...] | None:
    """Return the chosen pairs with gear long enough for each, the sum of the weakest parts as great as can be.

    Pieces are dealt from the strongest bearing pair down, each to the strongest piece left that reaches; where a long
    way is then left without a piece, lengths come first instead.
    """
    caps = [min(holds[pair.hold].wll_kg, deck[pair.deck].wll_kg) for pair in chosen]
    orders = (
        sorted(range(len(chosen)), key=lambda n: (-caps[n], -chosen[n].length_m)),
        sorted(range(len(chosen)), key=lambda n: (-chosen[n].length_m, -caps[n])),
    )
    best: tuple[Tied, ...] | None = None
    for order in orders:
        left = dict(enumerate(gear))
        tied: dict[int, Tied] = {}
        for number in order:
            fits = [key for key, piece in left.items() if piece.length_m >= chosen[number].length_m]
            if not fits:
                break
            # enough for this pair and no more than needed: the strongest stay for the pairs that can use them
            key = min(
                fits, key=lambda k: (-min(left[k].wll_kg, caps[number]), left[k].wll_kg, left[k].length_m, k)
            )
            tied[number] = Tied(chosen[number], key, min(left.pop(key).wll_kg, caps[number]))
        if len(tied) == len(chosen):
            dealt = tuple(tied[number] for number in range(len(chosen)))
            if best is None or _sum(dealt) > _sum(best):
                best = dealt
    return best


def _sum(tied: Sequence[Tied]) -> float:
    return math.fsum(one.wll_kg for one in tied)


def first_that_satisfies(
    slots: Sequence[Sequence[Pair]],
    spare: Sequence[Pair],
    holds: Sequence[Point],
    deck: Sequence[Point],
    gear: Sequence[Gear],
    satisfies: Callable[[tuple[Tied, ...]], bool],
) -> tuple[tuple[Tied, ...] | None, tuple[Tied, ...] | None]:
    """Return the first choice that satisfies (more tie-downs added as needed), and the best one that does not.

    A further tie-down goes where it adds most; none is taken away again.
    """
    nearest: tuple[Tied, ...] | None = None
    for chosen in cheapest_choices(slots):
        tied = deal_gear(chosen, holds, deck, gear)
        if tied is None:
            continue
        if satisfies(tied):
            return tied, None
        if nearest is None or _sum(tied) > _sum(nearest):
            nearest = tied
    if nearest is None:
        return None, None
    chosen = tuple(one.pair for one in nearest)
    while len(chosen) < len(gear):
        free = [pair for pair in spare if pair.deck not in {one.deck for one in chosen}]
        grown = [dealt for pair in free if (dealt := deal_gear((*chosen, pair), holds, deck, gear))]
        if not grown:
            return None, nearest
        nearest = max(grown, key=_sum)
        chosen = tuple(one.pair for one in nearest)
        if satisfies(nearest):
            return nearest, None
    return None, nearest
