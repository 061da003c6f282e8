"""What the search remembers: starts that were followed to the end, so that no start that is worse is followed again.

Two starts with the same items placed, now on the same deck, go on alike. The later one can be left when the earlier
begins no further back, has no greater least moment, no greater loads on zones still open, no smaller margin so far,
and can be pushed at least as far back wherever the next item begins. How far a start is pushed back is, in the place
of the next item, a concave chain of straight lines; so it is enough to look at the corners of the later one's.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from sendoff.calc.deck_plan.accelerate import Reals, Wholes, kernel
from sendoff.calc.deck_plan.variables import Flat, Ways

SAME: Final = 1e-11
"""Places, moments and margins that differ by less are the same here."""
COUNT: Final = 0
LOOKED_AT: Final = 100
"""Starts of one list that are looked at, the latest first: a longer look costs more than it saves."""


class Start(NamedTuple):
    """What decides how a start goes on, as plain numbers: the one being looked at."""

    begin: float
    low: float
    closed_high: float
    worst: float
    effort: int
    lowest: float
    highest: float
    split: int
    """Which item is on which deck, where that matters for what comes off when."""
    first_off: int
    """When the first on the deck being filled comes off: what stands behind must not stay longer."""
    last_off: int
    """When the last on any deck already filled comes off."""
    latest: float
    """The last place where the next item may begin."""


class Memory(NamedTuple):
    """Starts in linked lists, one for each set of items placed and deck being filled."""

    state: Wholes
    head: Wholes
    following: Wholes
    begin: Reals
    low: Reals
    closed_high: Reals
    worst: Reals
    effort: Wholes
    lowest: Reals
    highest: Reals
    split: Wholes
    first_off: Wholes
    last_off: Wholes
    chain_length: Wholes
    chain_way: Wholes
    """Item count for each start: the ways on the deck being filled, front to rear."""
    chain_item: Wholes
    loads: Reals


@kernel
def push(
    flat: Flat, ways: Ways, chain_way: Wholes, chain_item: Wholes, first: int, end: int, limit: float
) -> float:
    """Return the moment of a chain of ways packed to the rear, the next item beginning at `limit`."""
    moment = 0.0
    for at in range(end - 1, first - 1, -1):
        way, item = chain_way[at], chain_item[at]
        limit = min(ways.high[way], limit - flat.reach[item])
        moment += flat.mass[item] * (limit + ways.center[way])
    return moment


@kernel
def keep(
    memory: Memory, key: int, start: Start, item_count: int, column_count: int, chain_way: Wholes,
    chain_item: Wholes, first: int, end: int, loads: Reals, loads_at: int,
) -> None:  # fmt: skip
    """Remember a start, if there is room."""
    at = memory.state[COUNT]
    if at >= len(memory.following):
        return
    memory.state[COUNT] = at + 1
    memory.following[at] = memory.head[key]
    memory.head[key] = at
    memory.begin[at], memory.low[at], memory.closed_high[at] = start.begin, start.low, start.closed_high
    memory.worst[at], memory.effort[at], memory.split[at] = start.worst, start.effort, start.split
    memory.lowest[at], memory.highest[at] = start.lowest, start.highest
    memory.first_off[at], memory.last_off[at] = start.first_off, start.last_off
    memory.chain_length[at] = end - first
    for number in range(end - first):
        memory.chain_way[at * item_count + number] = chain_way[first + number]
        memory.chain_item[at * item_count + number] = chain_item[first + number]
    for column in range(column_count):
        memory.loads[at * column_count + column] = loads[loads_at + column]


@kernel
def no_worse(
    flat: Flat,
    memory: Memory,
    at: int,
    start: Start,
    deck: int,
    peak: float,
    top: float,
    loads: Reals,
    loads_at: int,
) -> bool:
    """Return whether a remembered start is at least as good as another in all but being pushed back."""
    if (
        memory.begin[at] > start.begin + SAME
        or memory.effort[at] > start.effort
        or memory.split[at] != start.split
    ):
        return False
    if memory.first_off[at] < start.first_off or memory.last_off[at] > start.last_off:
        return False
    if memory.low[at] > start.low + SAME and memory.highest[at] > peak:
        return False
    if memory.worst[at] < start.worst - SAME and memory.worst[at] < top:
        return False
    column_count = flat.counts[3]
    for column in range(column_count):
        ahead = flat.column_deck[column] < deck or (
            flat.column_deck[column] == deck and flat.column_rear[column] < start.begin
        )
        if not ahead and memory.loads[at * column_count + column] > loads[loads_at + column] + SAME:
            return False
    return True


@kernel
def pushes_as_far(
    flat: Flat, ways: Ways, memory: Memory, at: int, start: Start, chain_way: Wholes, chain_item: Wholes,
    first: int, end: int,
) -> bool:  # fmt: skip
    """Return whether a remembered start can be pushed back as far as another, wherever the next begins."""
    item_count = flat.counts[0]
    begin = at * item_count
    length = memory.chain_length[at]
    behind = 0.0
    for number in range(end + 1, first - 1, -1):
        if number > end:
            corner = start.latest
        elif number == end:
            corner = start.begin
        else:
            behind += flat.reach[chain_item[number]]
            corner = ways.high[chain_way[number]] + behind
        if corner > start.latest or corner < start.begin:
            continue
        mine = memory.closed_high[at] + push(
            flat, ways, memory.chain_way, memory.chain_item, begin, begin + length, corner
        )
        other = start.closed_high + push(flat, ways, chain_way, chain_item, first, end, corner)
        if mine < other - SAME:
            return False
    return True


@kernel
def seen(
    flat: Flat, ways: Ways, memory: Memory, key: int, start: Start, deck: int, peak: float, top: float,
    chain_way: Wholes, chain_item: Wholes, first: int, end: int, loads: Reals, loads_at: int,
) -> bool:  # fmt: skip
    """Return whether a start at least as good was followed before."""
    at, looked = memory.head[key], 0
    while at >= 0 and looked < LOOKED_AT:
        looked += 1
        if no_worse(flat, memory, at, start, deck, peak, top, loads, loads_at) and (
            memory.lowest[at] >= peak
            or pushes_as_far(flat, ways, memory, at, start, chain_way, chain_item, first, end)
        ):
            return True
        at = memory.following[at]
    return False
