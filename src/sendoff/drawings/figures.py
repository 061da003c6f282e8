"""The figure of one station: what stands there, cut from the side or the plan, each part with its letter.

The view is the one a person has who stands there: the driver's side, the passenger side (then the coupling is on the
right), or from above for what lies spread over the deck. Letters stand in small rings, never to be taken for
stations; where they stand is computed: near their part, in free paper if there is any, no leader across another.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from sendoff.asbuilt.unit import FittedPart, Place, UnitStation
from sendoff.drawings import anchors, shapes
from sendoff.drawings.hoists import rises
from sendoff.drawings.marks import FIGURE, Mark, Pair, Pairs, turned
from sendoff.drawings.projection import Near, Projection
from sendoff.drawings.room import Ink, box_round
from sendoff.drawings.shapes_ramps import LYING
from sendoff.drawings.small import remoteness, side_of
from sendoff.drawings.svg import INK, Canvas, Drawing, Pen, Point
from sendoff.drawings.views import AT_FINE_FIGURE, ON_FIGURE, Style, Views, ground, paint, targets
from sendoff.drawings.walk import clash
from sendoff.phrases import say

WIDTH_MM: Final = 56.0
MOST_TALL_MM: Final = 50.0
LETTER_MM: Final = 2.1
LETTER_POINTS: Final = 7.5
_SCALES: Final = (6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64, 80, 96, 128, 192, 256, 384)
_AROUND_M: Final = 0.22
"""Least of its neighborhood that is shown round every part."""
_EACH_SHOWN: Final = frozenset({"fitting", "lamp", "tie_down_point"})
"""Kinds of which each place gets a dot: to grease, look at or use every one of them is the point."""
_EACH_MM: Final = 0.45
_END_M: Final = 4.5
"""How much of the trailer's end belongs to what is met there."""


def letters_of(station: UnitStation) -> dict[str, str]:
    """Return the letters of a station's slots, in their order: a, b, c …"""
    return {slot: chr(ord("a") + number) for number, slot in enumerate(station.slots)}


def station_figure(
    views: Views,
    station: UnitStation,
    number: int,
    language: str,
    letters: Mapping[str, str] | None = None,
    *,
    key: bool = False,
) -> Drawing:
    """Return the figure of a station, 56 mm wide; with `key`, the names of its parts under it."""
    letters = letters or letters_of(station)
    parts = [part for part in views.unit.parts if part.slot in station.slots and part.slot in letters]
    parts.sort(key=lambda part: letters[part.slot])
    from_above = _is_spread(views, station)
    near = side_of(station)
    window = _window(views, station, parts, from_above=from_above)
    scale, style = _scale(window)
    mm = 1000 / scale
    tall = min(window[3] * mm, MOST_TALL_MM)
    lines = [f"{part.name[language]}" for part in parts] if key else []
    canvas = Canvas(WIDTH_MM, tall + len(lines) * 4.4 + (2.0 if key else 0.0))
    at = _placed(window, mm, tall, "left" if from_above else near)
    view = views.plan if from_above else views.beside(near)
    marks = _shown(view, station, window, WIDTH_MM / mm, tall / mm)
    with canvas.window((0.0, 0.0), WIDTH_MM, tall):
        paint(canvas, marks, at, style)
        if not from_above:
            ground(canvas, at, 0.0, WIDTH_MM, style)
    for part in parts:
        if shapes.kind_of(part) in _EACH_SHOWN:
            for _, spot in _seen(views, station, part, near, from_above=from_above):
                x, y = at(spot)
                if 0.5 < x < WIDTH_MM - 0.5 and 0.5 < y < tall - 0.5:
                    canvas.circle((x, y), _EACH_MM, None, INK)
    spots = [
        (letters[part.slot], at(_spot(views, station, part, near, from_above=from_above))) for part in parts
    ]
    _place_letters(canvas, spots, Ink(marks, at, style.level), tall)
    for line, (part, name) in enumerate(zip(parts, lines, strict=False)):
        y = tall + 5.2 + line * 4.4
        canvas.text((0.4, y), letters[part.slot], 9.0, weight=600)
        canvas.text((5.6, y), name, 9.0)
    told = "; ".join(f"{letters[part.slot]} {part.name[language]}" for part in parts)
    words = say("drawing.shows.figure", language, n=number, name=station.name[language], parts=told)
    return canvas.done(f"1:{scale}", words)


# ── what to show ────────────────────────────────────────────────────────────────────────────────────────────────────


def _is_spread(views: Views, station: UnitStation) -> bool:
    """Tell whether the parts of a station lie spread over the deck or both sides, so that only a plan shows them."""
    found = targets(views.unit, station.id)
    if {shapes.kind_of(part) for part, _ in found} & {"tie_down_point", "infill", *LYING}:
        return True
    for part in {part.slot: part for part, _ in found}.values():
        sides = [place.side for place in part.places if place.station == station.id]
        if min(sides.count("left"), sides.count("right")) >= 2:
            return True
    return False


def _seen(
    views: Views, station: UnitStation, part: FittedPart, near: Near, *, from_above: bool
) -> list[tuple[Place, Pair]]:
    """Return the places of a part at a station with their spots: from the side, only those on the near side if any."""
    places = [place for place in part.places if place.station == station.id]
    if not from_above:
        far = "left" if near == "right" else "right"
        places = [place for place in places if place.side != far] or places
    point = anchors.above if from_above else anchors.beside
    return [(place, point(views.unit, part, place)) for place in places]


def _spot(views: Views, station: UnitStation, part: FittedPart, near: Near, *, from_above: bool) -> Pair:
    seen = _seen(views, station, part, near, from_above=from_above)
    best = min(
        seen,
        key=lambda found: (remoteness(views, station, found[1][0]), abs(found[0].y_m) * -1, found[0].id),
    )
    return best[1]


def _window(
    views: Views, station: UnitStation, parts: Sequence[FittedPart], *, from_above: bool
) -> tuple[float, float, float, float]:
    """Return the middle (x and z or y) and the width and height in meters of what is shown."""
    near = side_of(station)
    spots = []
    for part in parts:
        seen = _seen(views, station, part, near, from_above=from_above)
        seen.sort(key=lambda found: (remoteness(views, station, found[1][0]), found[0].id))
        if part.slot in anchors.ON_WHEEL:
            seen = seen[:1]
        elif station.side in {"rear", "front"}:
            seen = [found for found in seen if remoteness(views, station, found[1][0]) < _END_M] or seen[:1]
        spots += [spot for _, spot in seen]
    slots = {part.slot for part in parts}
    doors = {part.slot for part in parts if shapes.kind_of(part) == "door"}
    marks = views.plan if from_above else views.beside(near)
    left, right = min(x for x, _ in spots) - _AROUND_M, max(x for x, _ in spots) + _AROUND_M
    low, high = min(z for _, z in spots) - _AROUND_M, max(z for _, z in spots) + _AROUND_M
    for mark in marks:
        if mark.slot not in slots and mark.piece not in slots:
            continue
        x0, x1, z0, z1 = mark.spread()
        small = x1 - x0 < 1.3 and z1 - z0 < (1.6 if mark.slot in slots - doors else 2.2)
        near_by = small and x1 > left and x0 < right and z1 > low and z0 < high
        if near_by or mark.line == "ghost":
            left, right = min(left, x0 - 0.08), max(right, x1 + 0.08)
            low, high = min(low, z0 - 0.08), max(high, z1 + 0.08)
    for x0, x1, z0, z1 in _hinged(views, parts, marks) if not from_above else ():
        left, right = min(left, x0 - 0.1), max(right, x1 + 0.1)
        low, high = min(low, z0 - 0.1), max(high, z1 + 0.1)
    if from_above:
        half = views.geometry.overall_width_m / 2 + 0.1
        low, high = -half, half
    elif low < 0.45:
        low = -0.06
    wide = max(right - left, (high - low) * WIDTH_MM / MOST_TALL_MM, 0.9)
    return (left + right) / 2, (low + high) / 2, wide, high - low


def _hinged(
    views: Views, parts: Sequence[FittedPart], marks: Sequence[Mark]
) -> Iterator[tuple[float, float, float, float]]:
    """Yield the extents of hinged bodies, in both positions, that a part without marks of its own stands for."""
    drawn = {mark.slot for mark in marks}
    for part in parts:
        if part.slot in drawn:
            continue
        for hinge in views.geometry.hinges:
            pieces = [member for member in views.geometry.members if member.id in hinge.members]
            up = rises(hinge, (point for member in pieces for point in member.side))
            for member in pieces:
                if len(member.side) < 3 or up:
                    continue
                lowered = turned(member.side, (hinge.x_m, hinge.z_m), hinge.lowered_rad)
                on_it = any(_about(member.side, place.x_m, place.z_m) for place in part.places)
                for outline in (member.side, lowered) if on_it else ():
                    xs, zs = [x for x, _ in outline], [z for _, z in outline]
                    yield min(xs), max(xs), min(zs), max(zs)


def _about(outline: Pairs, x: float, z: float) -> bool:
    """Tell whether a spot lies on an outline or within a hand of its extent."""
    xs, zs = [px for px, _ in outline], [pz for _, pz in outline]
    return min(xs) - 0.1 <= x <= max(xs) + 0.1 and min(zs) - 0.1 <= z <= max(zs) + 0.1


def _shown(
    marks: Sequence[Mark],
    station: UnitStation,
    window: tuple[float, float, float, float],
    wide: float,
    high: float,
) -> list[Mark]:
    """Return the marks that reach into the window; what only figures show, for this station's own parts alone."""
    x, z = window[0], window[1]
    found = []
    for mark in marks:
        x0, x1, z0, z1 = mark.spread()
        within = x1 > x - wide / 2 and x0 < x + wide / 2 and z1 > z - high / 2 and z0 < z + high / 2
        if within and (mark.least < FIGURE or mark.slot in station.slots):
            found.append(mark)
    return found


def _scale(window: tuple[float, float, float, float]) -> tuple[int, Style]:
    scale = next(
        (
            scale
            for scale in _SCALES
            if window[2] * 1000 / scale <= WIDTH_MM and window[3] * 1000 / scale <= MOST_TALL_MM
        ),
        _SCALES[-1],
    )
    return scale, ON_FIGURE if scale <= 40 else AT_FINE_FIGURE


def _placed(window: tuple[float, float, float, float], mm: float, tall: float, near: Near) -> Projection:
    x, z = window[0], window[1]
    along = x * mm if near == "right" else -x * mm
    return Projection(mm, (WIDTH_MM / 2 + along, tall / 2 + z * mm), near)


# ── letters ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def _place_letters(canvas: Canvas, spots: Sequence[tuple[str, Point]], ink: Ink, tall: float) -> None:
    taken: list[tuple[Point, Point]] = []
    placed = []
    for letter, target in spots:
        ring = _free_ring(target, [spot for _, spot in spots], taken, ink, tall)
        taken.append((ring, target))
        placed.append((letter, ring, target))
    for _, ring, target in placed:
        canvas.leader(ring, target, Pen(0.18))
    for letter, ring, _ in placed:
        canvas.ring(ring, letter, LETTER_MM, Pen(0.25), LETTER_POINTS)


def _off(line: tuple[Point, Point], spot: Point) -> float:
    """Return how far a spot lies from a leader."""
    (x0, y0), (x1, y1) = line
    dx, dy = x1 - x0, y1 - y0
    along = min(max(((spot[0] - x0) * dx + (spot[1] - y0) * dy) / (dx * dx + dy * dy), 0.0), 1.0)
    return math.dist(spot, (x0 + along * dx, y0 + along * dy))


def _free_ring(
    target: Point, spots: Sequence[Point], taken: Sequence[tuple[Point, Point]], ink: Ink, tall: float
) -> Point:
    """Return where a letter stands: near its spot, on free paper, clear of all that stands already."""
    best: tuple[float, Point] | None = None
    edge = LETTER_MM + 0.3
    for reach in (5.5, 7.5, 9.5, 12.0, 15.0, 19.0, 24.0):
        if best is not None and best[0] < reach:
            break
        for turn in range(24):
            angle = turn * math.pi / 12
            ring = (target[0] + reach * math.sin(angle), target[1] - reach * math.cos(angle))
            if not (edge <= ring[0] <= WIDTH_MM - edge and edge <= ring[1] <= max(tall - edge, edge)):
                continue
            crowd = min((math.dist(ring, spot) for spot in spots if spot != target), default=99.0)
            if crowd < LETTER_MM + 1.2 or any(
                math.dist(ring, other) < 2 * LETTER_MM + 0.8 for other, _ in taken
            ):
                continue
            if any(clash((ring, target), other, LETTER_MM) for other in taken):
                continue
            if any(_off((ring, target), spot) < 1.0 for spot in spots if spot != target):
                continue
            covered = ink.met_by(box_round(ring, 2 * LETTER_MM, 2 * LETTER_MM))
            cost = reach + 2.0 * min(covered, 5) + (0.4 if turn % 6 == 0 else 0.0)
            if best is None or cost < best[0]:
                best = (cost, ring)
    if best is not None:
        return best[1]
    row = min(len(taken) * (2 * LETTER_MM + 1.0) + edge, WIDTH_MM - edge)
    return row, edge
