"""The shapes that part cards name, as seen from above: x and y. From the side they are in `shapes.py`."""
# ruff: noqa: ARG001  every shape takes the same three arguments, so that one table can hold them all

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import FittedPart, Geometry, Place
from sendoff.catalogue.bodies import GUARD_DEEP_M
from sendoff.drawings.marks import (
    FIGURE,
    SHEET,
    SMALL,
    Line,
    Mark,
    area,
    bar,
    between,
    block,
    disc,
    strokes,
)
from sendoff.drawings.shapes import (
    SMALL_LAMP_M,
    Make,
    barrel_m,
    deck_at,
    measure,
    stands_upright,
)


def _plan_tire(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, width = measure(part, "outer_diameter", 0.7), measure(part, "section_width", 0.22)
    yield block(place.x_m, place.y_m - width / 2, length, width, "outline", "pale", SMALL)


def _plan_box(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, width = measure(part, "length", 0.9), measure(part, "width", 0.4)
    line: Line = "edge" if max(length, width) < 0.3 else "outline"
    yield block(place.x_m, place.y_m - width / 2, length, width, line, "white", SMALL)


def _plan_standing(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, width = measure(part, "length", 0.3), measure(part, "width", 0.2)
    yield block(place.x_m, place.y_m - width / 2, length, width, "edge", "white", FIGURE)


def _plan_jack(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    wide = 0.115 if measure(part, "leg", 0.8) > 0.7 else 0.06
    yield disc((place.x_m, place.y_m), wide * 0.75, "edge", "white", SMALL)
    yield disc((place.x_m, place.y_m), wide * 0.4, "thin", "white", SHEET)


def _plan_gooseneck(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield disc((place.x_m, place.y_m), 0.09, "edge", "white", SMALL)
    yield disc((place.x_m, place.y_m), 0.045, "none", "ink", SMALL)


def _plan_ball(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    x, y = place.x_m, place.y_m
    half = (
        (-0.076, 0.0),
        (-0.068, 0.03),
        (-0.03, 0.055),
        (0.05, 0.058),
        (0.12, 0.045),
        (0.31, 0.045),
    )
    yield area(
        [*((x + dx, y + dy) for dx, dy in half), *((x + dx, y - dy) for dx, dy in reversed(half))],
        "outline",
        "white",
        SMALL,
    )
    yield disc((x, y), measure(part, "ball", 0.0508) / 2, "none", "ink", SHEET)


def _plan_ring(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    opening = measure(part, "opening", 0.075)
    yield disc((place.x_m, place.y_m), opening / 2, "edge", "white", SMALL)
    yield strokes(
        (((place.x_m - opening / 2, place.y_m), (place.x_m + opening / 2, place.y_m)),), "thin", SHEET
    )


def _plan_lamp(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    if place.side in {"left", "right"}:
        inward = 0.03 if place.y_m < 0 else -0.03
        low = min(place.y_m, place.y_m + inward)
        yield block(place.x_m, low, SMALL_LAMP_M[0], 0.03, "none", "ink", SHEET)
    else:
        length = measure(part, "length", 0.16)
        yield block(place.x_m - 0.02, place.y_m - length / 2, 0.04, length, "none", "ink", SHEET)


def _plan_winch(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a winch with its drum across the trailer, so that its rope runs along the deck."""
    long, deep = measure(part, "length", 0.5), measure(part, "width", 0.17)
    x, y = place.x_m, place.y_m
    yield block(x, y - long / 2, deep, long, "outline", "white", SMALL)
    yield block(x, y - long * 0.22, deep * 0.7, long * 0.44, "edge", "pale", SMALL)
    turns = [y + long * share for share in (-0.14, -0.07, 0.0, 0.07, 0.14)]
    yield strokes((((x - deep * 0.35, at), (x + deep * 0.35, at)) for at in turns), "detail", SHEET)


def _plan_cylinder(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    for eyes in (hinge.cylinders for hinge in geometry.hinges):
        if eyes is not None and eyes.slot == part.slot:
            frame, body = (eyes.frame_m[0], place.y_m), (eyes.body_m[0], place.y_m)
            long, bore = abs(body[0] - frame[0]), measure(part, "bore", 0.09)
            if long < bore:  # it stands upright
                yield disc(frame, bore * 0.9, "edge", "white", SMALL)
                yield disc(frame, bore * 0.5, "thin", "white", SHEET)
                continue
            head = between(frame, body, barrel_m(part, long) / long)
            yield bar(frame, head, bore * 1.15, "edge", SHEET)
            yield bar(head, body, bore * 0.55, "edge", SHEET)


def _plan_spare(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    across, thick = measure(part, "outer_diameter", 0.7), measure(part, "section_width", 0.22)
    center = (place.x_m, place.y_m)
    if stands_upright(place):
        yield block(place.x_m, place.y_m - thick / 2, across, thick, "outline", "white", SMALL)
        return
    yield disc(center, across / 2, "outline", "white", SMALL)
    yield disc(center, across * 0.28, "edge", "white", SMALL)
    yield disc(center, across * 0.08, "edge", "white", SHEET)


def _plan_door(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    width, inward = measure(part, "length", 0.9), -0.04 if place.y_m > 0 else 0.04
    yield block(place.x_m, min(place.y_m, place.y_m + inward), width, 0.04, "edge", "white", SMALL)


def _plan_latch(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    if place.side in {"left", "right"}:
        yield block(place.x_m, place.y_m - 0.045, 0.1, 0.09, "none", "ink", SHEET)


def _plan_guard(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    half = geometry.overall_width_m / 2 - measure(part, "gap", 0.05)
    yield block(place.x_m, -half, GUARD_DEEP_M, 2 * half, "edge", "white", SMALL)


def _plan_fitting(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    if place.side != "center":
        yield disc((place.x_m, place.y_m), 0.016, "thin", "ink", FIGURE)


def _plan_planks(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    deck = deck_at(geometry, place.x_m)
    if deck is None:
        return
    half = deck.width_m / 2 - 0.0635
    boards = max(round(2 * half / 0.19), 2)
    edges = [-half + 2 * half * board / boards for board in range(1, boards)]
    ends = (deck.x0_m + 0.08, deck.x1_m - 0.01)
    yield strokes((((ends[0], y), (ends[1], y)) for y in edges), "detail", SHEET)


def _plan_tread(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return tread plate: short strokes along and across by turns (a slanted hatch belongs to "tight" alone)."""
    deck = deck_at(geometry, place.x_m)
    if deck is None:
        return
    step, half = 0.16, deck.width_m / 2 - 0.0635
    columns = int((deck.x1_m - deck.x0_m - 0.1) / step)
    rows = int(2 * half / step)
    first = (deck.x0_m + 0.1 + step / 2, -(rows - 1) * step / 2)
    ends = []
    for column in range(columns):
        for row in range(rows):
            x, y = first[0] + column * step, first[1] + row * step
            dx, dy = (0.035, 0.0) if (column + row) % 2 else (0.0, 0.035)
            ends.append(((x - dx, y - dy), (x + dx, y + dy)))
    yield strokes(ends, "detail", SHEET)


PLAN: Final[dict[str, Make]] = {
    "tire": _plan_tire,
    "box": _plan_box,
    "battery": _plan_standing,
    "charger": _plan_standing,
    "pump": _plan_standing,
    "jack": _plan_jack,
    "gooseneck_coupler": _plan_gooseneck,
    "ball_coupler": _plan_ball,
    "winch": _plan_winch,
    "lamp": _plan_lamp,
    "marker": _plan_lamp,
    "tie_down_point": _plan_ring,
    "cylinder": _plan_cylinder,
    "spare": _plan_spare,
    "latch": _plan_latch,
    "door": _plan_door,
    "fitting": _plan_fitting,
    "guard": _plan_guard,
    "planks": _plan_planks,
    "tread": _plan_tread,
}
