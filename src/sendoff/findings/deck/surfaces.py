"""Decks of a unit as surfaces to stand on: their zones, what limits each, strap points, and the way up.

Decks of one height that follow each other are one surface, each deck a zone of it. A surface further forward at
another height is reached over those behind it, so it is loaded before them. Machines that move on their own wheels
come over the hindmost hinge, or over the ramps carried along.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, Deck, Hinge, Way
from sendoff.calc import deck_plan
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.errors import THE_SHEET, Fault, FaultyInput
from sendoff.findings.load_window import SAME_LEVEL_m
from sendoff.findings.way_on import entry_of

RAMPS: Final = "ramps"
"""Slot of ramps that are carried along: their card tells `length`, `pair_rating`, `axle_rating`."""
STEEPEST_rad: Final = 1.4
SHORTEST_m: Final = 0.5
"""A shorter surface has no room for the edges that tires keep from."""
TIRE_EDGE_m: Final = 0.10
"""Half of what a tire touches, kept clear of both ends of a surface and of strips (common practice, no source)."""


def surfaces(
    unit: AsBuiltUnit, way: Way | None = None, highest_m: float | None = None
) -> tuple[deck_plan.Deck, ...]:
    """Return the surfaces of a unit with its decks set up in one way; `highest_m` is how high a load may reach."""
    rows = _rows(_decks(unit, way))
    ramp = way_up(unit)
    made = [_surface(unit, row, way, highest_m, ramp) for row in rows]
    zones = {zone.name: surface.name for surface in made for zone in surface.zones}
    after = _in_the_way(rows, made)
    for deck, before in (way.after if way is not None else {}).items():
        for name in before:
            if zones.get(name, deck) != zones.get(deck, deck):
                after.setdefault(zones[name], set()).add(zones[deck])
    return _ordered(made, after, way)


def _decks(unit: AsBuiltUnit, way: Way | None) -> list[Deck]:
    always = [deck for deck in unit.geometry.decks if way is None or deck.id not in way.takes_away]
    return [*always, *(way.decks if way is not None else ())]


def _rows(decks: Iterable[Deck]) -> list[list[Deck]]:
    """Return the decks of each surface, front to rear."""
    rows: list[list[Deck]] = []
    for deck in sorted(decks, key=lambda deck: (deck.x0_m, deck.height_m)):
        row = next((row for row in rows if _follows(row[-1], deck)), None)
        if row is None:
            rows.append([deck])
        else:
            row.append(deck)
    return rows


def _follows(ahead: Deck, behind: Deck) -> bool:
    return (
        abs(behind.x0_m - ahead.x1_m) <= SAME_LEVEL_m
        and abs(behind.height_m - ahead.height_rear_m) <= SAME_LEVEL_m
    )


def _surface(
    unit: AsBuiltUnit,
    row: Sequence[Deck],
    way: Way | None,
    highest_m: float | None,
    ramp: deck_plan.Ramp | None,
) -> deck_plan.Deck:
    first, last = row[0], row[-1]
    points = unit.part("tie_downs")
    places = points.places if points is not None else ()
    heights = {deck.id: _headroom(deck, way, highest_m) for deck in row}
    straps = {
        place.x_m
        for place in places
        for deck in row
        if deck.x0_m <= place.x_m <= deck.x1_m and _on(deck, place.z_m)
    }
    strips = [
        deck_plan.Strip(strip.id, strip.x0_m - TIRE_EDGE_m, strip.x1_m + TIRE_EDGE_m)
        for deck in row
        for strip in deck.strips
    ]
    moves = way is not None and any(deck in way.decks for deck in row)
    edge = TIRE_EDGE_m if last.x1_m - first.x0_m > SHORTEST_m else 0.0
    ends = [first.x0_m + edge, *((a.x1_m + b.x0_m) / 2 for a, b in itertools.pairwise(row)), last.x1_m - edge]
    return deck_plan.Deck(
        "+".join(deck.id for deck in row),
        tuple(
            _zone(unit, deck, ends[at], ends[at + 1], heights[deck.id])
            for at, deck in enumerate(row)
            if ends[at + 1] > ends[at]
        ),
        tuple(strips),
        (way.over_front_m.get(first.id, first.over_front_m) if way is not None else first.over_front_m)
        + edge,
        last.over_rear_m + edge,
        tuple(sorted(straps)),
        ramp,
        effort_count=way.effort if way is not None and moves else 0,
    )


def _on(deck: Deck, z_m: float) -> bool:
    low, high = sorted((deck.height_m, deck.height_rear_m))
    return low - SAME_LEVEL_m <= z_m <= high + SAME_LEVEL_m


def _headroom(deck: Deck, way: Way | None, highest_m: float | None) -> float:
    limits = [deck.height_limit_m, way.headroom_m.get(deck.id) if way is not None else None]
    if highest_m is not None:
        limits.append(highest_m - max(deck.height_m, deck.height_rear_m))
    known = [limit for limit in limits if limit is not None]
    lowest = min(known, default=INFINITE)
    if lowest <= 0:
        raise FaultyInput(
            Fault(
                THE_SHEET,
                "height",
                "",
                f"deck '{deck.id}' itself stands as high as that",
                "Give a greater height.",
            )
        )
    return lowest


def _zone(unit: AsBuiltUnit, deck: Deck, front_m: float, rear_m: float, height_m: float) -> deck_plan.Zone:
    floor = unit.part(deck.floor)
    wheels = [
        limit for limit in (deck.wheel_kg, floor.si("wheel_load") if floor is not None else None) if limit
    ]
    return deck_plan.Zone(
        deck.id,
        front_m,
        rear_m,
        total_limit_kg=deck.total_kg or INFINITE,
        wheel_limit_kg=min(wheels, default=INFINITE),
        width_limit_m=deck.width_m if floor is not None else _road_width_m(deck.width_m),
        height_limit_m=height_m,
        lane_inner_m=deck.lane_inner_m or 0.0,
        lane_outer_m=deck.lane_outer_m or INFINITE,
    )


def _road_width_m(deck_m: float) -> float:
    """Return how wide a hull on bunks may be, which stands out over them: as wide as the road allows."""
    from sendoff.calc.rules_of_the_road.sizes import width_check

    return max(deck_m, width_check(deck_m).limit_m)


def _in_the_way(rows: list[list[Deck]], made: list[deck_plan.Deck]) -> dict[str, set[str]]:
    """Return, for each surface, those that must be empty before it can be: all that stand behind it."""
    found: dict[str, set[str]] = {}
    for (row, surface), (other, behind) in itertools.permutations(zip(rows, made, strict=True), 2):
        if other[0].x0_m >= row[-1].x1_m - SAME_LEVEL_m:
            found.setdefault(surface.name, set()).add(behind.name)
    return found


def _ordered(
    made: list[deck_plan.Deck], after: dict[str, set[str]], way: Way | None
) -> tuple[deck_plan.Deck, ...]:
    """Return the surfaces so that those to be emptied first come first, each knowing them."""
    from dataclasses import replace

    done: list[deck_plan.Deck] = []
    waiting = list(made)
    while waiting:
        ready = [deck for deck in waiting if after.get(deck.name, set()) <= {one.name for one in done}]
        if not ready:
            cure = "Of two decks only one can be loaded before the other."
            names = ", ".join(deck.name for deck in waiting)
            key = f"frame.way {way.id}: after" if way is not None else "frame.deck"
            raise FaultyInput(Fault("trailer type", key, names, "decks wait for each other", cure))
        for deck in ready:
            before = tuple(one.name for one in done if one.name in after.get(deck.name, set()))
            done.append(replace(deck, leaves_over=before))
        waiting = [deck for deck in waiting if deck not in ready]
    return tuple(done)


# ── the way up ──────────────────────────────────────────────────────────────────────────────────────────────────────


def way_up(unit: AsBuiltUnit) -> deck_plan.Ramp | None:
    """Return how steep the way onto the deck is, and what may come over it; None where that is not known."""
    rear = max(unit.geometry.decks, key=lambda deck: deck.x1_m)
    end = math.atan2(rear.height_m - rear.height_rear_m, rear.x1_m - rear.x0_m)
    ramps = unit.part(RAMPS)
    long = ramps.si("length") if ramps is not None else None
    if ramps is not None and long is not None and rear.height_rear_m < long:
        axle, whole = ramps.si("axle_rating"), ramps.si("pair_rating")
        steep = math.asin(rear.height_rear_m / long)
        return _ramp(steep, end, axle / 2 if axle is not None else None, whole)
    entry = entry_of(unit)
    hinge = next((one for one in unit.geometry.hinges if one.id == entry.hinge_id), None)
    if hinge is None:
        return None
    over, slope = unit.part(hinge.id), slope_of(unit, hinge)
    whole = over.si("load_rating") if over is not None else None
    return _ramp(slope, 0.0 if hinge.id == rear.id else end, None, whole)


def _ramp(
    angle_rad: float, end_rad: float, wheel_kg: float | None, item_kg: float | None
) -> deck_plan.Ramp | None:
    """Return a way up at an angle to a deck whose end goes down by another."""
    if not 0 < angle_rad < STEEPEST_rad:
        return None
    crest = max(angle_rad - end_rad, 0.0)
    return deck_plan.Ramp(angle_rad, wheel_kg or INFINITE, item_kg or INFINITE, crest)


def slope_of(unit: AsBuiltUnit, hinge: Hinge) -> float:
    """Return how steep what hangs on a hinge lies when it is lowered: a deck, else the longest side of its outline."""
    deck = next((deck for deck in unit.geometry.decks if deck.id == hinge.id), None)
    if deck is not None:
        level = math.atan2(deck.height_rear_m - deck.height_m, deck.x1_m - deck.x0_m)
    else:
        sides = [
            (math.dist(one, other), math.atan2(abs(other[1] - one[1]), abs(other[0] - one[0])))
            for member in unit.geometry.members
            if member.id in hinge.members
            for one, other in itertools.pairwise(member.side)
        ]
        level = max(sides)[1] if sides else 0.0
    return hinge.lowered_rad - level
