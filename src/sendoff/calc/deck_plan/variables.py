"""The variables of the search: every way an item may stand, as an interval of positions.

Along a deck, the positions of one item facing one way fall into cells: while it moves inside a cell its wheels stay
in the same zones and off every strip, so what it puts on each zone is a constant. A way is one such cell. Everything
is flattened to plain numbers in plain sequences, so that the same code runs on lists and, compiled, on arrays.
"""

from __future__ import annotations

import math
from typing import Any, Final, NamedTuple

from sendoff.calc.deck_plan.accelerate import Reals, Wholes, kernel
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.calc.deck_plan.limits import Line
from sendoff.calc.deck_plan.problem import FACINGS, Deck, Item, Problem, Zone, tight_ratio

NEAR: Final = 1e-9
BIG: Final = 1e18
BACKED_ON: Final = 1
WINCHED_BACKWARD: Final = 2
REARRANGED: Final = 3
"""Effort: of backing an item on, of winching it on backward, of moving one item out of the way of another."""


class Flat(NamedTuple):
    """A problem as plain numbers. Items stand in Smith's order: heaviest for its length first."""

    counts: Wholes
    """Items, decks, zones, zones with a total that matters."""
    mass: Reals
    length: Reals
    reach: Reals
    """Length with the gap behind it."""
    twin: Wholes
    """For each item the one before it that is its like, or -1."""
    drop: Wholes
    facing: Wholes
    """Two for each item: whether it may face so."""
    center: Reals
    """Two for each item: center of mass behind its forward-most end."""
    effort: Wholes
    contact_start: Wholes
    contact_offset: Reals
    """As it faces forward."""
    contact_load: Reals
    wheel_load: Reals
    deck_first: Reals
    deck_last: Reals
    deck_effort: Wholes
    over: Wholes
    """Decks times decks: whether the first leaves over the second."""
    zone_start: Wholes
    zone_front: Reals
    zone_rear: Reals
    zone_wheel: Reals
    zone_counts: Wholes
    """Which column of loads the zone has, or -1 where its total can never matter."""
    column_limit: Reals
    column_scale: Reals
    column_rear: Reals
    column_deck: Wholes
    zone_wheel_scale: Reals
    edge: float
    body_may: Wholes
    wheel_may: Wholes
    """Items times zones: whether the body may be over it, the wheels on it."""
    access: Wholes
    """Items times decks: whether the item comes up there at all."""
    strip_start: Wholes
    strip_front: Reals
    strip_rear: Reals
    strap_start: Wholes
    strap_at: Reals
    strap_reach: Reals
    must_drop: int
    any_drop: int


class Ways(NamedTuple):
    """All ways of all items: for deck d and item i those from start[d·n + i] to start[d·n + i + 1]."""

    start: Wholes
    low: Reals
    high: Reals
    center: Reals
    worst: Reals
    """Least margin under its wheels."""
    facing: Wholes
    effort: Wholes
    onto: Reals
    """Ways times columns: what it puts on each zone that matters."""


class Scratch(NamedTuple):
    """Room for the cutting: edges of one item's cells, the column under each of its contacts."""

    edges: Reals
    here: Wholes


def order_of_items(problem: Problem) -> list[int]:
    """Return the items' numbers in Smith's order; among equals by what they are, never by how they are called."""

    def key(number: int) -> tuple[Any, ...]:
        item = problem.items[number]
        return (-item.mass_kg / (item.length_m + problem.gap_m), -item.mass_kg, _nature(item), number)

    return sorted(range(len(problem.items)), key=key)


def _nature(item: Item) -> tuple[Any, ...]:
    """Return everything that makes an item what it is for the search, but its name."""
    contacts = tuple(
        (contact.offset_m, contact.share_ratio, contact.wheel_count) for contact in item.contacts
    )
    known = tuple(
        -1.0 if value is None else value
        for value in (
            item.width_m, item.height_m, item.track_inner_m, item.track_outer_m, item.clearance_m,
            item.approach_rad, item.departure_rad, item.strap_reach_m, item.worth_ratio,
        )
    )  # fmt: skip
    return (
        item.mass_kg,
        item.length_m,
        contacts,
        known,
        tuple(sorted(item.facings)),
        item.drop_count,
        item.moved_by,
    )


def flatten(problem: Problem, order: list[int], highest: float) -> Flat:
    """Return the problem as plain numbers; no margin can be better than `highest`."""
    items = [problem.items[number] for number in order]
    natures = [_nature(item) for item in items]
    twins = [
        number - 1 if number and natures[number] == natures[number - 1] else -1
        for number in range(len(items))
    ]
    free = "drop_order" in problem.dropped
    any_way = "facing" in problem.dropped
    contact_start, offsets, loads, wheels = [0], [], [], []
    facing, center, effort = [], [], []
    for item in items:
        for contact in item.contacts:
            offsets.append(contact.offset_m)
            loads.append(contact.share_ratio * item.mass_kg)
            wheels.append(contact.share_ratio * item.mass_kg / contact.wheel_count)
        contact_start.append(len(offsets))
        either = any_way or f"facing:{item.name}" in problem.dropped
        facing += [int(either or way in item.facings) for way in FACINGS]
        center += [item.center_m, item.length_m - item.center_m]
        effort += [0, {"driven": BACKED_ON, "winched": WINCHED_BACKWARD, "lifted": 0}[item.moved_by]]
    decks = problem.decks
    zones = [zone for deck in decks for zone in deck.zones]
    room = sum(item.length_m + problem.gap_m for item in items)
    fronts, rears, firsts, lasts = _ends(problem, room)
    total_mass = sum(item.mass_kg for item in items)
    columns, column_deck = [], []
    limits: list[float] = []
    scales: list[float] = []
    column_rear: list[float] = []
    other = problem.tight.other_ratio
    for deck_number, deck in enumerate(decks):
        for zone in deck.zones:
            limit = INFINITE if f"zone_total:{zone.name}" in problem.dropped else zone.total_limit_kg
            scale = tight_ratio(problem, f"zone_total:{zone.name}", other) * limit
            if limit == INFINITE or (limit - total_mass) / scale >= highest:
                columns.append(-1)
                continue
            columns.append(len(limits))
            limits.append(limit)
            scales.append(scale)
            column_rear.append(rears[len(columns) - 1])
            column_deck.append(deck_number)
    return Flat(
        counts=[len(items), len(decks), len(zones), len(limits)],
        mass=[item.mass_kg for item in items],
        length=[item.length_m for item in items],
        reach=[item.length_m + problem.gap_m for item in items],
        twin=twins,
        drop=[0 if free else item.drop_count or 1_000_000 for item in items],
        facing=facing,
        center=center,
        effort=effort,
        contact_start=contact_start,
        contact_offset=offsets,
        contact_load=loads,
        wheel_load=wheels,
        deck_first=firsts,
        deck_last=lasts,
        deck_effort=[deck.effort_count for deck in decks],
        over=[int(other.name in deck.leaves_over) for deck in decks for other in decks],
        zone_start=_starts([len(deck.zones) for deck in decks]),
        zone_front=fronts,
        zone_rear=rears,
        zone_wheel=[
            INFINITE if f"zone_wheel:{zone.name}" in problem.dropped else zone.wheel_limit_kg
            for zone in zones
        ],
        zone_counts=columns,
        column_limit=limits,
        column_scale=scales,
        column_rear=column_rear,
        column_deck=column_deck,
        zone_wheel_scale=[
            tight_ratio(problem, f"zone_wheel:{zone.name}", other) * min(zone.wheel_limit_kg, BIG)
            for zone in zones
        ],
        edge=float(problem.edge_m),
        body_may=[int(body_may_be_over(problem, item, zone)) for item in items for zone in zones],
        wheel_may=[int(wheels_may_stand_on(problem, item, zone)) for item in items for zone in zones],
        access=[int(not barred_from(problem, item, deck)) for item in items for deck in decks],
        **_strips_and_straps(problem, items),
        must_drop=int(problem.drop_rule == "must" and not free),
        any_drop=int(not free and len({item.drop_count for item in items}) > 1),
    )


def _ends(problem: Problem, room: float) -> tuple[list[float], list[float], list[float], list[float]]:
    """Return front and rear of zones, first and last of decks; without its room limit a deck goes on at both ends."""
    fronts, rears, firsts, lasts = [], [], [], []
    for deck in problem.decks:
        more = room if f"room:{deck.name}" in problem.dropped else 0.0
        deck_fronts = [zone.front_m for zone in deck.zones]
        deck_rears = [zone.rear_m for zone in deck.zones]
        deck_fronts[0] -= more
        deck_rears[-1] += more
        fronts += deck_fronts
        rears += deck_rears
        firsts.append(deck.first_m - more)
        lasts.append(deck.last_m + more)
    return fronts, rears, firsts, lasts


def _starts(sizes: list[int]) -> list[int]:
    starts = [0]
    for size in sizes:
        starts.append(starts[-1] + size)
    return starts


def _strips_and_straps(problem: Problem, items: list[Item]) -> dict[str, Any]:
    strips = [
        [strip for strip in deck.strips if f"strip:{strip.name}" not in problem.dropped]
        for deck in problem.decks
    ]
    points = [
        () if f"straps:{deck.name}" in problem.dropped else deck.strap_points_m for deck in problem.decks
    ]
    return {
        "strip_start": _starts([len(row) for row in strips]),
        "strip_front": [strip.front_m for row in strips for strip in row],
        "strip_rear": [strip.rear_m for row in strips for strip in row],
        "strap_start": _starts([len(row) for row in points]),
        "strap_at": [point for row in points for point in sorted(row)],
        "strap_reach": [BIG if item.strap_reach_m is None else item.strap_reach_m for item in items],
    }


def body_may_be_over(problem: Problem, item: Item, zone: Zone) -> bool:
    """Return whether width and height let the item's body be over a zone."""
    if (
        item.width_m is not None
        and item.width_m > zone.width_limit_m + NEAR
        and f"width:{zone.name}" not in problem.dropped
    ):
        return False
    high = item.height_m is not None and item.height_m > zone.height_limit_m + NEAR
    return not (high and f"height:{zone.name}" not in problem.dropped)


def wheels_may_stand_on(problem: Problem, item: Item, zone: Zone) -> bool:
    """Return whether the item's wheels find the wheel ways of a zone."""
    narrow = item.track_inner_m is not None and item.track_inner_m < zone.lane_inner_m - NEAR
    wide = item.track_outer_m is not None and item.track_outer_m > zone.lane_outer_m + NEAR
    return not (narrow or wide) or f"lane:{zone.name}" in problem.dropped


def barred_from(problem: Problem, item: Item, deck: Deck) -> tuple[str, ...]:
    """Return which limits of the ramp keep an item off a deck; nothing where all known measures allow it.

    Its belly must clear the crest: half the wheelbase times the tangent of half the angle. Both overhangs must clear
    the foot: the slope itself. A tire's own radius, which helps, is left out.
    """
    if deck.ramp is None or item.moved_by == "lifted":
        return ()
    found = []
    base = item.contacts[-1].offset_m - item.contacts[0].offset_m
    crest = base / 2 * math.tan(deck.ramp.at_crest_rad / 2)
    if item.clearance_m is not None and item.clearance_m < crest - NEAR:
        found.append(f"ramp_crest:{deck.name}")
    ends = [angle for angle in (item.approach_rad, item.departure_rad) if angle is not None]
    if ends and min(ends) < deck.ramp.angle_rad - NEAR:
        found.append(f"ramp_foot:{deck.name}")
    heaviest = max(contact.share_ratio * item.mass_kg / contact.wheel_count for contact in item.contacts)
    if heaviest > deck.ramp.wheel_limit_kg * (1 + NEAR):
        found.append(f"ramp_wheel:{deck.name}")
    if item.mass_kg > deck.ramp.item_limit_kg * (1 + NEAR):
        found.append(f"ramp_item:{deck.name}")
    return tuple(name for name in found if name not in problem.dropped)


def slopes(limit_lines: tuple[Line, ...], mass_kg: float) -> tuple[list[float], list[float]]:
    """Return each line's margin at no moment and its margin per moment, for one total mass."""
    pairs = [line.slope(mass_kg) for line in limit_lines]
    return [rest for rest, _ in pairs], [slope for _, slope in pairs]


@kernel
def cut(flat: Flat, highest: float, scratch: Scratch, ways: Ways) -> int:
    """Fill in all ways; return how many there are, or -1 where there is no room for them."""
    item_count, deck_count = flat.counts[0], flat.counts[1]
    count = 0
    for deck in range(deck_count):
        for item in range(item_count):
            ways.start[deck * item_count + item] = count
            for face in range(2):
                if flat.access[item * deck_count + deck] and flat.facing[2 * item + face]:
                    count = cut_one(flat, highest, scratch, ways, count, deck, item, face)
                    if count < 0:
                        return -1
    ways.start[deck_count * item_count] = count
    return count


@kernel
def cut_one(
    flat: Flat, highest: float, scratch: Scratch, ways: Ways, count: int, deck: int, item: int, face: int
) -> int:
    """Fill in the ways of one item facing one way on one deck; return how many there are now in all."""
    edges, begun, before = scratch.edges, count, -BIG
    if flat.deck_last[deck] - flat.deck_first[deck] < flat.length[item] - NEAR:
        return count
    edge_count = find_edges(flat, deck, item, face, edges)
    for number in range(edge_count - 1):
        begin, end = edges[number], edges[number + 1]
        if end - begin <= NEAR and edge_count > 2:
            continue
        margin = look(flat, deck, item, face, 0.5 * (begin + end), scratch.here)
        if margin <= -BIG:
            continue
        if count >= len(ways.low):
            return -1
        ways.worst[count] = BIG if margin >= highest else margin
        load_columns(flat, scratch, ways, count, item)
        if count > begun and before >= begin - NEAR and alike(flat, ways, count):
            ways.high[count - 1] = end
        else:
            ways.low[count], ways.high[count] = begin, end
            ways.center[count], ways.facing[count] = flat.center[2 * item + face], face
            ways.effort[count] = flat.effort[2 * item + face] + flat.deck_effort[deck]
            count += 1
        before = end
    return count


@kernel
def load_columns(flat: Flat, scratch: Scratch, ways: Ways, count: int, item: int) -> None:
    """Fill in what a way puts on each zone that matters."""
    base = count * flat.counts[3]
    for column in range(flat.counts[3]):
        ways.onto[base + column] = 0.0
    for contact in range(flat.contact_start[item], flat.contact_start[item + 1]):
        column = scratch.here[contact - flat.contact_start[item]]
        if column >= 0:
            ways.onto[base + column] += flat.contact_load[contact]


@kernel
def alike(flat: Flat, ways: Ways, count: int) -> bool:
    """Return whether a way differs from the one before in nothing but its place."""
    column_count = flat.counts[3]
    if ways.worst[count] != ways.worst[count - 1]:
        return False
    for column in range(column_count):
        if ways.onto[count * column_count + column] != ways.onto[(count - 1) * column_count + column]:
            return False
    return True


@kernel
def find_edges(flat: Flat, deck: int, item: int, face: int, edges: Reals) -> int:
    """Fill in, sorted, every position at which something changes for an item; return how many."""
    length = flat.length[item]
    first, last = flat.deck_first[deck], flat.deck_last[deck] - length
    count = 0
    for contact in range(flat.contact_start[item], flat.contact_start[item + 1]):
        offset = flat.contact_offset[contact]
        if face == 1:
            offset = length - offset
        for zone in range(flat.zone_start[deck], flat.zone_start[deck + 1]):
            count = add_edge(edges, count, flat.zone_front[zone] + flat.edge - offset, first, last)
            count = add_edge(edges, count, flat.zone_rear[zone] - flat.edge - offset, first, last)
        for strip in range(flat.strip_start[deck], flat.strip_start[deck + 1]):
            count = add_edge(edges, count, flat.strip_front[strip] - flat.edge - offset, first, last)
            count = add_edge(edges, count, flat.strip_rear[strip] + flat.edge - offset, first, last)
        if flat.strap_reach[item] < BIG:
            for strap in range(flat.strap_start[deck], flat.strap_start[deck + 1]):
                count = add_edge(
                    edges, count, flat.strap_at[strap] - flat.strap_reach[item] - offset, first, last
                )
                count = add_edge(
                    edges, count, flat.strap_at[strap] + flat.strap_reach[item] - offset, first, last
                )
    zone_count = flat.counts[2]
    for zone in range(flat.zone_start[deck], flat.zone_start[deck + 1]):
        if not flat.body_may[item * zone_count + zone]:
            count = add_edge(edges, count, flat.zone_front[zone] - length, first, last)
            count = add_edge(edges, count, flat.zone_rear[zone], first, last)
    edges[count] = first
    edges[count + 1] = max(first, last)
    count += 2
    for number in range(1, count):
        value = edges[number]
        at = number - 1
        while at >= 0 and edges[at] > value:
            edges[at + 1] = edges[at]
            at -= 1
        edges[at + 1] = value
    return count


@kernel
def add_edge(edges: Reals, count: int, value: float, first: float, last: float) -> int:
    """Keep an edge if it lies inside; return how many there are."""
    if first + NEAR < value < last - NEAR:
        edges[count] = value
        return count + 1
    return count


@kernel
def look(flat: Flat, deck: int, item: int, face: int, position: float, here: Wholes) -> float:
    """Return the least margin under the wheels at a position, -BIG where it must not stand; fill in columns."""
    zone_count, length = flat.counts[2], flat.length[item]
    for zone in range(flat.zone_start[deck], flat.zone_start[deck + 1]):
        inside = position < flat.zone_rear[zone] - NEAR and position + length > flat.zone_front[zone] + NEAR
        if inside and not flat.body_may[item * zone_count + zone]:
            return -BIG
    margin = BIG
    begin = flat.contact_start[item]
    for contact in range(begin, flat.contact_start[item + 1]):
        offset = flat.contact_offset[contact]
        if face == 1:
            offset = length - offset
        found = stand(flat, deck, item, position + offset)
        if found < 0:
            return -BIG
        here[contact - begin] = flat.zone_counts[found]
        limit = flat.zone_wheel[found]
        if limit < BIG:
            margin = min(margin, (limit - flat.wheel_load[contact]) / flat.zone_wheel_scale[found])
    return margin


@kernel
def stand(flat: Flat, deck: int, item: int, at: float) -> int:
    """Return the zone in which a contact of an item may stand at a place; -1 where it may not."""
    for strip in range(flat.strip_start[deck], flat.strip_start[deck + 1]):
        if flat.strip_front[strip] - flat.edge + NEAR < at < flat.strip_rear[strip] + flat.edge - NEAR:
            return -1
    reach = flat.strap_reach[item]
    if reach < BIG and flat.strap_start[deck] < flat.strap_start[deck + 1]:
        away = BIG
        for strap in range(flat.strap_start[deck], flat.strap_start[deck + 1]):
            away = min(away, abs(flat.strap_at[strap] - at))
        if away > reach + NEAR:
            return -1
    for zone in range(flat.zone_start[deck], flat.zone_start[deck + 1]):
        if flat.zone_front[zone] + flat.edge - NEAR <= at <= flat.zone_rear[zone] - flat.edge + NEAR:
            return zone if flat.wheel_may[item * flat.counts[2] + zone] else -1
    return -1
