"""Bounds: how far the moment of what is not yet placed can reach, and what margin that could give at best.

Without zones and strips the least moment of some items behind a given place is had by standing them one behind the
other, heaviest for its length first (Smith's rule), and the greatest by the same from the rear. With further decks
ahead of the search, every way to split the items between this deck and the further ones is looked at beforehand, for
a handful of places where the free part of this deck may begin.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from sendoff.calc.deck_plan.accelerate import Reals, kernel
from sendoff.calc.deck_plan.variables import BIG, NEAR, Flat, Ways

NEVER: Final = -1e17
"""Margins at or below stand for: cannot be at all."""
STEPS: Final = 16
"""Places on a deck for which splits are looked at beforehand."""


class Sets(NamedTuple):
    """What is known of each set of items, numbered by its bits; beyond `reach` for each deck, deck times sets."""

    mass: Reals
    reach: Reals
    near: Reals
    """Least moment about the place it begins at, on this deck."""
    far: Reals
    """Least moment about the place it ends at, looking forward, on this deck."""
    fits: Reals
    """The last place on this deck where the first of them may begin so that all fit on it."""
    latest: Reals
    """The last place where the first of them may begin so that all fit here or on further decks."""
    alone_low: Reals
    """Sum of each item's least moment here or further on, as if the others were not there."""
    alone_high: Reals
    onto: Reals
    """Least that it puts on zones with a total that matters, here or further on."""
    wheels: Reals
    """Best that the margin under the wheels of the worst of them can be, here or further on."""
    split_low: Reals
    """Deck times steps times sets: least moment from that place on, here or further on."""
    split_high: Reals


@kernel
def fill_fits(flat: Flat, ways: Ways, sets: Sets, least: float) -> None:
    """Fill in where each set fits, when only ways with more than a margin under the wheels will do."""
    item_count, deck_count = flat.counts[0], flat.counts[1]
    size = 1 << item_count
    for deck in range(deck_count - 1, -1, -1):
        base, last = deck * size, deck + 1 == deck_count
        sets.fits[base] = sets.latest[base] = BIG
        for chosen in range(1, size):
            sets.fits[base + chosen] = find_latest(flat, ways, sets.fits, deck, chosen, least, 1)
            if not last and sets.latest[base + size + chosen] > -BIG:
                sets.latest[base + chosen] = BIG
            elif last:
                sets.latest[base + chosen] = sets.fits[base + chosen]
            else:
                sets.latest[base + chosen] = find_latest(flat, ways, sets.latest, deck, chosen, least, 0)


@kernel
def fill_sets(flat: Flat, ways: Ways, sets: Sets, least: float) -> None:
    """Fill in what else is known of each set of items, when only ways with more than a margin will do."""
    item_count, deck_count = flat.counts[0], flat.counts[1]
    size = 1 << item_count
    sets.mass[0] = sets.reach[0] = 0.0
    for item in range(item_count):
        for before in range(1 << item):
            here = before | 1 << item
            sets.mass[here] = sets.mass[before] + flat.mass[item]
            sets.reach[here] = sets.reach[before] + flat.reach[item]
    for deck in range(deck_count - 1, -1, -1):
        base = deck * size
        sets.near[base] = sets.far[base] = sets.alone_low[base] = sets.alone_high[base] = sets.onto[base] = (
            0.0
        )
        sets.wheels[base] = BIG
        for item in range(item_count):
            fill_item(flat, ways, sets, deck, item, least)
        if deck + 1 < deck_count:
            fill_splits(flat, sets, deck)


@kernel
def fill_item(flat: Flat, ways: Ways, sets: Sets, deck: int, item: int, least: float) -> None:
    """Fill in all sets whose last item in Smith's order is this one, for one deck."""
    item_count, deck_count, column_count = flat.counts[0], flat.counts[1], flat.counts[3]
    mass, base = flat.mass[item], deck << item_count
    nearest, farthest, low, high, lightest, wheels = BIG, BIG, BIG, -BIG, BIG, -BIG
    for later in range(deck, deck_count):
        for way in range(ways.start[later * item_count + item], ways.start[later * item_count + item + 1]):
            if ways.worst[way] <= least:
                continue
            if later == deck:
                nearest = min(nearest, ways.center[way])
                farthest = min(farthest, flat.length[item] - ways.center[way])
            low = min(low, ways.low[way] + ways.center[way])
            high = max(high, ways.high[way] + ways.center[way])
            wheels = max(wheels, ways.worst[way])
            onto = 0.0
            for column in range(column_count):
                onto += ways.onto[way * column_count + column]
            lightest = min(lightest, onto)
    for before in range(1 << item):
        here = base + (before | 1 << item)
        sets.near[here] = sets.near[base + before] + mass * (sets.reach[before] + nearest)
        sets.far[here] = sets.far[base + before] + mass * (sets.reach[before] + farthest)
        sets.alone_low[here] = sets.alone_low[base + before] + mass * low
        sets.alone_high[here] = sets.alone_high[base + before] + mass * high
        sets.onto[here] = sets.onto[base + before] + lightest
        sets.wheels[here] = min(sets.wheels[base + before], wheels)


@kernel
def find_latest(
    flat: Flat, ways: Ways, latest: Reals, deck: int, chosen: int, least: float, alone: int
) -> float:
    """Return the last place on a deck where the first of a set may begin, when it is known for all smaller sets.

    `alone`: all of them stand on this deck, so what comes off earlier must stand behind.
    """
    item_count = flat.counts[0]
    best = -BIG
    for item in range(item_count):
        if chosen >> item & 1 and not (alone and flat.must_drop and goes_before(flat, item, chosen)):
            limit = latest[(deck << item_count) + (chosen ^ 1 << item)] - flat.reach[item]
            for way in range(ways.start[deck * item_count + item], ways.start[deck * item_count + item + 1]):
                if ways.low[way] <= limit + NEAR and ways.worst[way] > least:
                    best = max(best, min(ways.high[way], limit))
    return best


@kernel
def goes_before(flat: Flat, item: int, chosen: int) -> bool:
    """Return whether an item comes off before another of a set."""
    found = False
    for other in range(flat.counts[0]):
        if chosen >> other & 1 and flat.drop[other] > flat.drop[item]:
            found = True
    return found


@kernel
def blocks(flat: Flat, here: int, rest: int) -> bool:
    """Return whether some item of a set stays aboard longer than one of another that leaves over its deck."""
    found = False
    for item in range(flat.counts[0]):
        if rest >> item & 1 and goes_before(flat, item, here):
            found = True
    return found


@kernel
def fill_splits(flat: Flat, sets: Sets, deck: int) -> None:
    """Fill in, for each set and each step along the deck, the least and greatest moment over all splits."""
    size = 1 << flat.counts[0]
    first, last = flat.deck_first[deck], flat.deck_last[deck]
    bound_over = (
        flat.must_drop and deck + 2 == flat.counts[1] and flat.over[(deck + 1) * flat.counts[1] + deck]
    )
    for step in range(STEPS):
        begin = first + (last - first) * step / STEPS
        base = (deck * STEPS + step) * size
        for chosen in range(size):
            low, high = BIG, -BIG
            here = chosen
            while True:
                rest = chosen ^ here
                if (
                    begin <= sets.fits[deck * size + here] + NEAR
                    and sets.latest[(deck + 1) * size + rest] > -BIG
                    and not (bound_over and blocks(flat, here, rest))
                ):
                    ahead = begin * sets.mass[here] + sets.near[deck * size + here]
                    low = min(
                        low, ahead + least_moment(flat, sets, deck + 1, rest, flat.deck_first[deck + 1])
                    )
                    behind = last * sets.mass[here] - sets.far[deck * size + here]
                    high = max(
                        high, behind + greatest_moment(flat, sets, deck + 1, rest, flat.deck_first[deck + 1])
                    )
                if here == 0:
                    break
                here = here - 1 & chosen
            sets.split_low[base + chosen], sets.split_high[base + chosen] = low, high


@kernel
def step_of(flat: Flat, deck: int, begin: float) -> int:
    """Return the last step along a deck that is not behind a place."""
    first, last = flat.deck_first[deck], flat.deck_last[deck]
    if begin <= first:
        return 0
    return min(STEPS - 1, int((begin - first) / (last - first) * STEPS * (1.0 - 1e-12)))


@kernel
def least_moment(flat: Flat, sets: Sets, deck: int, chosen: int, begin: float) -> float:
    """Return a moment that a set of items from a place on, here or further on, cannot be below."""
    at = (deck << flat.counts[0]) + chosen
    if deck + 1 == flat.counts[1]:
        return float(max(sets.alone_low[at], begin * sets.mass[chosen] + sets.near[at]))
    split = (deck * STEPS + step_of(flat, deck, begin) << flat.counts[0]) + chosen
    return float(max(sets.alone_low[at], sets.split_low[split]))


@kernel
def greatest_moment(flat: Flat, sets: Sets, deck: int, chosen: int, begin: float) -> float:
    """Return a moment that a set of items from a place on, here or further on, cannot be above."""
    at = (deck << flat.counts[0]) + chosen
    if deck + 1 == flat.counts[1]:
        return float(min(sets.alone_high[at], flat.deck_last[deck] * sets.mass[chosen] - sets.far[at]))
    split = (deck * STEPS + step_of(flat, deck, begin) << flat.counts[0]) + chosen
    return float(min(sets.alone_high[at], sets.split_high[split]))


@kernel
def best_moment(rest: Reals, slope: Reals, line_count: int, low: float, high: float) -> float:
    """Return the moment between two bounds at which the least of some lines is greatest."""
    top = BIG
    for one in range(line_count):
        if slope[one] == 0.0:
            top = min(top, rest[one])
        elif slope[one] > 0.0:
            for other in range(line_count):
                if slope[other] < 0.0:
                    top = min(
                        top,
                        (rest[one] * slope[other] - rest[other] * slope[one]) / (slope[other] - slope[one]),
                    )
    begin, end = -BIG, BIG
    for one in range(line_count):
        if slope[one] > 0.0:
            begin = max(begin, (top - rest[one]) / slope[one])
        elif slope[one] < 0.0:
            end = min(end, (top - rest[one]) / slope[one])
    if end < low:
        return low
    if begin > high:
        return high
    return 0.5 * (max(begin, low) + min(end, high))


@kernel
def margin_at(rest: Reals, slope: Reals, line_count: int, moment: float) -> float:
    """Return the least of some lines at a moment."""
    least = BIG
    for line in range(line_count):
        least = min(least, rest[line] + slope[line] * moment)
    return least
