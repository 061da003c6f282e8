"""Sets of items that could ride together, the worthiest first: what length, mass and moment alone do not rule out.

Sets whose worth lies in a band are listed by depth first search over the items, densest in worth first; a branch is
left when even filling the room left with parts of items (or the mass left) would not reach the band. Of what is left
each set must find room, cell by cell, and reach a moment that holds all lines. Whether zones and all the rest hold is
asked of the search afterwards.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from sendoff.calc.deck_plan.accelerate import Reals, Wholes, kernel
from sendoff.calc.deck_plan.variables import BIG, NEAR, Flat, Ways

TOO_MANY: Final = -1
FITTING: Final = 1e-9
MOST_BITS: Final = 12
"""Items that a set may have for its room to be looked at."""


class Fleet(NamedTuple):
    """Items in the order of the search (densest in worth first), and what limits any set of them."""

    item: Wholes
    """Its number in Smith's order."""
    worth: Reals
    mass: Reals
    reach: Reals
    twin: Wholes
    """The one before it that is its like, or -1."""
    near: Reals
    """For each deck and item: least distance of the center of mass behind the item's own forward end."""
    far: Reals
    """Least distance of the center of mass ahead of its rear end."""
    alone_low: Reals
    alone_high: Reals
    richest: Reals
    """Most worth for a kilogram among this and all later items."""
    line_rest: Reals
    """What is left of each limit is rest + per mass · M + per moment · S."""
    line_mass: Reals
    line_moment: Reals
    mass_most: float
    room_most: float
    gap: float


class Listed(NamedTuple):
    """Sets found: the bits of their items in the order of the fleet, and their worth."""

    bits: Wholes
    worth: Reals
    path: Wholes
    """The items chosen so far."""
    sorted: Wholes
    """The same in Smith's order."""
    sums: Reals
    """Worth, mass and reach of the items chosen so far, three a depth."""
    fits: Reals
    """For each deck and each set of the chosen: the last place where the first of them may begin."""
    near: Reals
    far: Reals
    mass: Reals
    reach: Reals


@kernel
def fill_up(fleet: Fleet, begin: int, room: float, mass: float) -> float:
    """Return what could be added at most by items from one on: parts of items in the room, or the richest by mass."""
    added, count = 0.0, len(fleet.worth)
    whole = mass * fleet.richest[begin] if begin < count else 0.0
    for item in range(begin, count):
        if fleet.reach[item] >= room:
            added += fleet.worth[item] * room / fleet.reach[item]
            break
        added += fleet.worth[item]
        room -= fleet.reach[item]
    return min(added, whole)


@kernel
def list_sets(fleet: Fleet, flat: Flat, ways: Ways, low: float, high: float, listed: Listed) -> int:
    """List all sets with a worth from `low` to below `high`; return how many, or TOO_MANY."""
    count, depth, item, bits = 0, 0, 0, 0
    listed.sums[0], listed.sums[1], listed.sums[2] = 0.0, 0.0, 0.0
    size = len(fleet.worth)
    while True:
        worth, mass, reach = listed.sums[3 * depth], listed.sums[3 * depth + 1], listed.sums[3 * depth + 2]
        room, spare = fleet.room_most - reach + FITTING, fleet.mass_most - mass + FITTING
        if item >= size or worth + fill_up(fleet, item, room, spare) < low:
            if depth == 0:
                return count
            depth -= 1
            item = listed.path[depth]
            bits ^= 1 << item
            item += 1
            continue
        twin = fleet.twin[item]
        if fleet.mass[item] > spare or fleet.reach[item] > room or (twin >= 0 and not bits >> twin & 1):
            item += 1
            continue
        listed.path[depth] = item
        bits |= 1 << item
        depth += 1
        listed.sums[3 * depth] = worth + fleet.worth[item]
        listed.sums[3 * depth + 1] = mass + fleet.mass[item]
        listed.sums[3 * depth + 2] = reach + fleet.reach[item]
        if low <= listed.sums[3 * depth] < high and may_ride(fleet, flat, ways, listed, depth):
            if count == len(listed.bits):
                return TOO_MANY
            listed.bits[count], listed.worth[count] = bits, listed.sums[3 * depth]
            count += 1
        item += 1


@kernel
def may_ride(fleet: Fleet, flat: Flat, ways: Ways, listed: Listed, depth: int) -> bool:
    """Return whether the items chosen find room and could reach a moment that holds all lines, as bounds tell."""
    mass = listed.sums[3 * depth + 1]
    low, high = 0.0, 0.0
    for number in range(depth):
        low += fleet.alone_low[listed.path[number]]
        high += fleet.alone_high[listed.path[number]]
    for line in range(len(fleet.line_rest)):
        rest, slope = fleet.line_rest[line] + fleet.line_mass[line] * mass, fleet.line_moment[line]
        if slope > 0.0:
            low = max(low, -rest / slope)
        elif slope < 0.0:
            high = min(high, -rest / slope)
        elif rest < -FITTING * 1000:
            return False
    slack = FITTING * mass
    if low > high + slack:
        return False
    if depth > MOST_BITS:
        return True
    sort_chosen(fleet, listed, depth)
    for deck in range(flat.counts[1]):
        fill_moments(fleet, flat, listed, depth, deck)
    if not splits_reach(flat, listed, depth, low - slack, high + slack):
        return False
    for deck in range(flat.counts[1]):
        fill_fits_of(fleet, flat, ways, listed, depth, deck)
    return splits_reach(flat, listed, depth, low - slack, high + slack)


@kernel
def sort_chosen(fleet: Fleet, listed: Listed, depth: int) -> None:
    """Put the items chosen in Smith's order."""
    for number in range(depth):
        item, at = listed.path[number], number - 1
        while at >= 0 and fleet.item[listed.sorted[at]] > fleet.item[item]:
            listed.sorted[at + 1] = listed.sorted[at]
            at -= 1
        listed.sorted[at + 1] = item


@kernel
def fill_moments(fleet: Fleet, flat: Flat, listed: Listed, depth: int, deck: int) -> None:
    """Fill in each set's least moments from front and rear on one deck; it fits if it is no longer than that."""
    base, size = deck << MOST_BITS, len(fleet.worth)
    room = flat.deck_last[deck] - flat.deck_first[deck] + NEAR
    listed.fits[base], listed.near[base], listed.far[base] = BIG, 0.0, 0.0
    listed.mass[0], listed.reach[0] = 0.0, 0.0
    for last in range(depth):
        item = listed.sorted[last]
        mass, reach = fleet.mass[item], fleet.reach[item]
        near, far = fleet.near[deck * size + item], fleet.far[deck * size + item]
        for before in range(1 << last):
            chosen, behind = before | 1 << last, listed.reach[before]
            listed.mass[chosen] = listed.mass[before] + mass
            listed.reach[chosen] = behind + reach
            listed.near[base + chosen] = listed.near[base + before] + mass * (behind + near)
            listed.far[base + chosen] = listed.far[base + before] + mass * (behind + far)
            # the last one needs no gap behind it
            listed.fits[base + chosen] = BIG if behind + reach <= room + fleet.gap else -BIG


@kernel
def fill_fits_of(fleet: Fleet, flat: Flat, ways: Ways, listed: Listed, depth: int, deck: int) -> None:
    """Fill in, for each set of the chosen, where the first of them may begin at last, cell by cell."""
    base, items = deck << MOST_BITS, flat.counts[0]
    for chosen in range(1, 1 << depth):
        if listed.fits[base + chosen] <= -BIG:
            continue
        best = -BIG
        for first in range(depth):
            if chosen >> first & 1:
                number = fleet.item[listed.sorted[first]]
                limit = listed.fits[base + (chosen ^ 1 << first)] - fleet.reach[listed.sorted[first]]
                if limit > best and not (
                    flat.must_drop and comes_off_before(fleet, flat, listed, first, chosen, depth)
                ):
                    for way in range(
                        ways.start[deck * items + number], ways.start[deck * items + number + 1]
                    ):
                        if ways.low[way] <= limit + NEAR and ways.worst[way] >= 0.0:
                            best = max(best, min(ways.high[way], limit))
        listed.fits[base + chosen] = best


@kernel
def comes_off_before(fleet: Fleet, flat: Flat, listed: Listed, first: int, chosen: int, depth: int) -> bool:
    """Return whether one of the chosen comes off before another of them."""
    drop = flat.drop[fleet.item[listed.sorted[first]]]
    found = False
    for other in range(depth):
        if chosen >> other & 1 and flat.drop[fleet.item[listed.sorted[other]]] > drop:
            found = True
    return found


@kernel
def splits_reach(flat: Flat, listed: Listed, depth: int, low: float, high: float) -> bool:
    """Return whether the chosen can be split between the decks so that all fit and the moment lies between two."""
    full, decks = (1 << depth) - 1, flat.counts[1]
    if decks > 2:
        return True
    for here in range(full, -1, -1):
        rest = full ^ here
        if decks == 1 and rest:
            return False
        if listed.fits[here] <= -BIG or (decks == 2 and listed.fits[(1 << MOST_BITS) + rest] <= -BIG):
            continue
        least = flat.deck_first[0] * listed.mass[here] + listed.near[here]
        most = flat.deck_last[0] * listed.mass[here] - listed.far[here]
        if decks == 2:
            least += flat.deck_first[1] * listed.mass[rest] + listed.near[(1 << MOST_BITS) + rest]
            most += flat.deck_last[1] * listed.mass[rest] - listed.far[(1 << MOST_BITS) + rest]
        if least <= high and most >= low:
            return True
    return False
