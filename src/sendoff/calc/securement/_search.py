"""Search behind the tie-down plan: which hold goes to which deck point with which piece of gear.

Each slot (front left, rear right, and so on) may be filled by some pairs of a hold on the item and a point on the
deck. Pairs nearest to 45 degrees seen from above come first. Every choice is tried in the order of its cost, the
gear is dealt out so that the sum of the weakest parts is greatest, and the first choice that satisfies is taken.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
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

    Pieces are dealt from the strongest bearing pair down, each to the weakest piece that still bears all it can. Where
    another dealing counts more, because a long way would be left with a weak piece or with none, that one is taken.
    """
    caps = [min(holds[pair.hold].wll_kg, deck[pair.deck].wll_kg) for pair in chosen]
    worth = [
        {key: min(piece.wll_kg, cap) for key, piece in enumerate(gear) if piece.length_m >= pair.length_m}
        for pair, cap in zip(chosen, caps, strict=True)
    ]
    best = greatest_assignment(worth)
    if best is None:
        return None
    dealt: dict[int, int] = {}
    for number in sorted(range(len(chosen)), key=lambda n: (-caps[n], -chosen[n].length_m)):
        fits = [key for key in worth[number] if key not in dealt.values()]
        if not fits:
            break
        # enough for this pair and no more than needed: the strongest stay for the pairs that can use them
        dealt[number] = min(fits, key=lambda k: (-worth[number][k], gear[k].wll_kg, gear[k].length_m, k))
    counts = math.fsum(worth[number][key] for number, key in dealt.items())
    if len(dealt) < len(chosen) or counts < math.fsum(map(dict.__getitem__, worth, best)) * (1 - 1e-9):
        dealt = dict(enumerate(best))
    return tuple(Tied(pair, dealt[n], worth[n][dealt[n]]) for n, pair in enumerate(chosen))


def greatest_assignment(worth: Sequence[Mapping[int, float]]) -> list[int] | None:
    """Return a key of its own for each row, so that the sum of what they are worth is greatest; None if there is none.

    One row after another is let in on the way that adds most: it takes a free key, or one whose row moves on to
    another (augmenting paths, each the longest).

    >>> greatest_assignment([{0: 5.0, 1: 4.0}, {0: 5.0}])
    [1, 0]
    """
    row_of: dict[int, int] = {}
    for newest, row in enumerate(worth):
        gains, before = dict(row), dict.fromkeys(row, -1)
        for _ in row_of:
            for taken, holder in row_of.items():
                for key, value in worth[holder].items():
                    gain = gains.get(taken, -math.inf) - worth[holder][taken] + value
                    if gain > gains.get(key, -math.inf) + 1e-9:
                        gains[key], before[key] = gain, taken
        free = [key for key in gains if key not in row_of]
        if not free:
            return None
        key = max(free, key=lambda k: gains[k])
        while before[key] >= 0:
            row_of[key], key = row_of[before[key]], before[key]
        row_of[key] = newest
    return [key for _, key in sorted((row, key) for key, row in row_of.items())]


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
