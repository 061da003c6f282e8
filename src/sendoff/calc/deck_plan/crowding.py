"""How little can be put on one zone: for each set of items the choices between room left and load on the zone.

For a set of items that must still be placed, each choice is a pair: the last place where the first of them may begin,
and what such an arrangement puts on the zone. Only choices that are not beaten in both are kept. Moments are left out,
so what comes of it is a bound: no arrangement from a place on loads the zone less.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from sendoff.calc.deck_plan.accelerate import Reals, Wholes, kernel
from sendoff.calc.deck_plan.bounds import Sets, goes_before
from sendoff.calc.deck_plan.variables import BIG, NEAR, Flat, Ways

CHOICES: Final = 16
"""Kept for each set; beyond that the two nearest are merged into one that is no worse than either."""


class Crowding(NamedTuple):
    """Choices for each zone, deck and set of items: the later it may begin, the more it loads the zone."""

    known: Wholes
    """Whether they are filled in."""
    count: Wholes
    latest: Reals
    onto: Reals


@kernel
def fill_crowding(flat: Flat, ways: Ways, sets: Sets, crowding: Crowding, least: float) -> None:
    """Fill in the choices for every zone, deck and set, of ways with more than a margin under the wheels."""
    item_count, deck_count, column_count = flat.counts[0], flat.counts[1], flat.counts[3]
    size = 1 << item_count
    crowding.known[0] = 1
    for column in range(column_count):
        for deck in range(deck_count - 1, -1, -1):
            base = (column * deck_count + deck) * size
            crowding.count[base] = 1
            crowding.latest[base * CHOICES], crowding.onto[base * CHOICES] = BIG, 0.0
            for chosen in range(1, size):
                at = base + chosen
                crowding.count[at] = 0
                if sets.latest[deck * size + chosen] <= -BIG:
                    continue
                if deck + 1 < deck_count and crowding.count[at + size] > 0:
                    add_choice(crowding, at, BIG, crowding.onto[(at + size) * CHOICES])
                choose_first(flat, ways, crowding, column, deck, chosen, at, least)


@kernel
def choose_first(
    flat: Flat, ways: Ways, crowding: Crowding, column: int, deck: int, chosen: int, at: int, least: float
) -> None:
    """Add the choices of a set that stand one of its items first on the deck."""
    item_count, deck_count, column_count = flat.counts[0], flat.counts[1], flat.counts[3]
    alone = deck + 1 == deck_count and flat.must_drop
    for item in range(item_count):
        if not chosen >> item & 1 or (alone and goes_before(flat, item, chosen)):
            continue
        rest = at - (1 << item)
        for choice in range(crowding.count[rest]):
            limit = crowding.latest[rest * CHOICES + choice] - flat.reach[item]
            for way in range(ways.start[deck * item_count + item], ways.start[deck * item_count + item + 1]):
                if ways.low[way] <= limit + NEAR and ways.worst[way] > least:
                    onto = crowding.onto[rest * CHOICES + choice] + ways.onto[way * column_count + column]
                    add_choice(crowding, at, min(ways.high[way], limit), onto)


@kernel
def add_choice(crowding: Crowding, at: int, latest: float, onto: float) -> None:
    """Add a choice unless it is beaten; drop those it beats. They are kept from least to most load."""
    base, count = at * CHOICES, crowding.count[at]
    place = 0
    while place < count and crowding.onto[base + place] <= onto:
        if crowding.latest[base + place] >= latest:
            return
        place += 1
    end = place
    while end < count and crowding.latest[base + end] <= latest:
        end += 1
    if end > place:
        crowding.onto[base + place], crowding.latest[base + place] = onto, latest
        for number in range(end, count):
            crowding.onto[base + place + 1 + number - end] = crowding.onto[base + number]
            crowding.latest[base + place + 1 + number - end] = crowding.latest[base + number]
        crowding.count[at] = count - (end - place) + 1
        return
    if count == CHOICES:
        merge(crowding, base, place, latest, onto)
        return
    for number in range(count, place, -1):
        crowding.onto[base + number] = crowding.onto[base + number - 1]
        crowding.latest[base + number] = crowding.latest[base + number - 1]
    crowding.onto[base + place], crowding.latest[base + place] = onto, latest
    crowding.count[at] = count + 1


@kernel
def merge(crowding: Crowding, base: int, place: int, latest: float, onto: float) -> None:
    """Take a choice in where there is no room for it: a neighbor takes the better of both."""
    if place == 0:
        crowding.onto[base] = onto
    elif place == CHOICES or onto - crowding.onto[base + place - 1] <= crowding.onto[base + place] - onto:
        crowding.latest[base + place - 1] = latest
    else:
        crowding.onto[base + place] = onto


@kernel
def least_onto(flat: Flat, crowding: Crowding, column: int, deck: int, left: int, begin: float) -> float:
    """Return the least that a set of items from a place on puts on a zone; BIG if they do not fit, 0 if not known."""
    if not crowding.known[0]:
        return 0.0
    at = ((column * flat.counts[1] + deck) << flat.counts[0]) + left
    for choice in range(crowding.count[at]):
        if crowding.latest[at * CHOICES + choice] >= begin - NEAR:
            return float(crowding.onto[at * CHOICES + choice])
    return BIG
