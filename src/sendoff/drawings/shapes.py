"""The shapes that part cards name, to their own measures, as seen from the side (from above: `shapes_above.py`).

A shape takes its measures from the card (a tire its outer diameter, a box its length, width and height). A measure
that a card leaves out gets a plain default, so that a part with a shape is never invisible. x and y of a place are the
middle of the part; its z is the underside of what stands on something (boxes, battery, charger, pump, winch), the top
of a jack, the deck for a tie-down point, the middle of all else.
"""
# ruff: noqa: ARG001  every shape takes the same three arguments, so that one table can hold them all

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Final

from sendoff.asbuilt.unit import Deck, FittedPart, Geometry, Place
from sendoff.catalogue.bodies import GUARD_DEEP_M
from sendoff.drawings.marks import (
    FIGURE,
    LIST,
    SHEET,
    SMALL,
    Mark,
    Pair,
    area,
    bar,
    between,
    block,
    disc,
    hanging,
    inside,
    stroke,
)

Make = Callable[[Geometry, FittedPart, Place], Iterator[Mark]]

IN_FRONT, BETWEEN, BEHIND, WHEELS = 5.0, -3.0, -9.5, 0.0
"""Layers of a side view: parts on the near side, between the rails, on the far side; members say theirs."""
SMALL_LAMP_M: Final = (0.09, 0.032)


def measure(part: FittedPart, name: str, default_m: float) -> float:
    """Return a measure of a part's shape."""
    return part.shape.measures.get(name, default_m) if part.shape is not None else default_m


def kind_of(part: FittedPart) -> str:
    """Return the shape a part is drawn as, or nothing."""
    return part.shape.kind if part.shape is not None else ""


def stands_upright(place: Place) -> bool:
    """Tell whether a spare stands upright on a side, or lies flat on the center line."""
    return place.side in {"left", "right"}


# ── from the side: x and z ──────────────────────────────────────────────────────────────────────────────────────────


def _side_tire(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    radius = measure(part, "outer_diameter", 0.7) / 2
    center = (place.x_m, radius)
    yield disc(center, radius, "outline", "white", LIST)
    yield disc(center, radius * 0.93, "detail", "none", SHEET)


def _side_wheel(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    rim, studs = measure(part, "rim_diameter", 0.4) / 2, measure(part, "bolt_circle", 0.14) / 2
    center = (place.x_m, place.z_m)
    yield disc(center, rim * 1.05, "edge", "white", SMALL)
    yield disc(center, rim * 0.86, "detail", "none", SHEET)
    yield disc(center, studs * 0.55, "edge", "white", SMALL)
    count = int(part.si("stud_count") or 0)
    for number in range(count):
        angle = 2 * math.pi * number / count
        stud = (center[0] + studs * math.sin(angle), center[1] + studs * math.cos(angle))
        yield disc(stud, 0.012, "thin", "white", SHEET)


def _side_hub(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield disc((place.x_m, place.z_m), 0.032, "thin", "white", SHEET)


def _side_box(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, height = measure(part, "length", 0.9), measure(part, "height", 0.4)
    small = max(length, height) < 0.3
    yield block(
        place.x_m,
        place.z_m,
        length,
        height,
        "edge" if small else "outline",
        "white",
        SMALL if small else LIST,
    )
    if not small:
        yield block(place.x_m, place.z_m + 0.03, length - 0.06, height - 0.06, "detail", "none", SHEET)
        yield block(place.x_m, place.z_m + height * 0.52, 0.11, 0.035, "thin", "ink", SHEET)


def _side_standing(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, height = measure(part, "length", 0.3), measure(part, "height", 0.25)
    yield block(place.x_m, place.z_m, length, height, "edge", "white", SHEET)


def _side_battery(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, height = measure(part, "length", 0.3), measure(part, "height", 0.23)
    yield block(place.x_m, place.z_m, length, height * 0.9, "edge", "white", SHEET)
    for aside in (-0.3, 0.3):
        yield block(
            place.x_m + aside * length, place.z_m + height * 0.9, 0.03, height * 0.1, "thin", "ink", SHEET
        )


def _side_jack(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    leg = measure(part, "leg", 0.8)
    wide = 0.115 if leg > 0.7 else 0.06
    low = place.z_m - leg
    yield block(place.x_m, 0.0, wide * 2.1, 0.025, "edge", "white", SMALL)
    yield block(place.x_m, 0.025, wide * 0.72, low - 0.025, "edge", "white", LIST)
    yield block(place.x_m, low, wide, leg, "outline", "white", LIST)
    yield block(place.x_m, low + leg * 0.06, wide * 0.3, wide * 0.3, "thin", "ink", SHEET)
    yield stroke(
        ((place.x_m, place.z_m), (place.x_m - 0.16, place.z_m + 0.03), (place.x_m - 0.16, place.z_m + 0.1)),
        "edge",
        SHEET,
    )


def underside(geometry: Geometry, x: float, above: float) -> float:
    """Return how high the lowest body hangs over a point, or a little above it where there is none."""
    found = [
        z0 + (x - x0) * (z1 - z0) / (x1 - x0)
        for member in geometry.members
        if member.fill != "none" and len(member.side) > 2
        for (x0, z0), (x1, z1) in zip(member.side, (*member.side[1:], member.side[0]), strict=True)
        if min(x0, x1) <= x <= max(x0, x1) and x0 != x1
    ]
    return min((z for z in found if z > above + 0.1), default=above + 0.5)


def _side_gooseneck(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    x, z = place.x_m, place.z_m
    ball = measure(part, "ball", 0.059)
    top = underside(geometry, x, z) + 0.12
    yield block(x, z + 0.05, 0.102, top - z - 0.05, "outline", "white", LIST)
    yield stroke(((x - 0.03, z + 0.13), (x - 0.03, top)), "detail", SHEET)
    cup = ball * 0.95
    bell = ((x - cup, z - 0.035), (x - 0.085, z + 0.03), (x - 0.07, z + 0.12), (x + 0.07, z + 0.12))
    yield area((*bell, (x + 0.085, z + 0.03), (x + cup, z - 0.035)), "outline", "white", LIST)
    yield stroke(((x + 0.085, z + 0.02), (x + 0.2, z + 0.02)), "edge", SHEET)
    yield disc((x + 0.2, z + 0.02), 0.02, "edge", "white", SHEET)
    yield disc((x, z - 0.005), ball / 2, "detail", "none", SHEET)


def _side_ball(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    x, z = place.x_m, place.z_m
    shape = (
        (-0.066, -0.035), (-0.076, 0.0), (-0.06, 0.045), (-0.02, 0.066), (0.05, 0.062), (0.12, 0.036), (0.31, 0.03),
        (0.31, 0.0), (0.15, 0.0), (0.12, -0.04), (0.05, -0.035),
    )  # fmt: skip
    yield area([(x + dx, z + dz) for dx, dz in shape], "outline", "white", LIST)
    yield area(
        [(x + dx, z + dz) for dx, dz in ((0.03, 0.064), (0.06, 0.085), (0.2, 0.06), (0.2, 0.045))],
        "edge",
        "white",
        SHEET,
    )
    yield disc((x, z - 0.005), measure(part, "ball", 0.0508) / 2, "detail", "none", SHEET)


def _side_winch(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    deep, height = measure(part, "width", 0.17), measure(part, "height", 0.22)
    yield block(place.x_m, place.z_m, deep * 1.3, height * 0.16, "edge", "white", SMALL)
    yield block(place.x_m, place.z_m + height * 0.16, deep, height * 0.84, "outline", "white", SMALL)
    yield disc((place.x_m, place.z_m + height * 0.56), deep * 0.36, "edge", "pale", SHEET)


def _side_lamp(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    if place.side in {"left", "right"}:
        yield block(
            place.x_m, place.z_m - SMALL_LAMP_M[1] / 2, *SMALL_LAMP_M, line="thin", fill="ink", least=SHEET
        )
    else:
        height = measure(part, "height", 0.06)
        yield block(place.x_m - 0.02, place.z_m - height / 2, 0.04, height, "thin", "ink", SHEET)


def _side_plate(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, height = measure(part, "length", 0.15), measure(part, "height", 0.1)
    low = place.z_m - height / 2
    yield block(place.x_m, low, length, height, "edge", "white", SHEET)
    for share in (0.35, 0.65):
        yield stroke(
            (
                (place.x_m - length * 0.36, low + height * share),
                (place.x_m + length * 0.36, low + height * share),
            ),
            "detail",
            SHEET,
        )


def _side_control(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a pendant: it hangs upright, its longest measure down."""
    length, width = measure(part, "length", 0.15), measure(part, "width", 0.06)
    yield block(place.x_m, place.z_m - length / 2, width, length, "edge", "white", FIGURE)
    for share in (0.35, 0.65):
        yield disc((place.x_m, place.z_m + (share - 0.5) * length), width * 0.22, "thin", "ink", FIGURE)


def _side_inlet(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    size = measure(part, "length", 0.09)
    yield block(place.x_m, place.z_m - size / 2, size, size, "edge", "white", FIGURE)
    yield disc((place.x_m, place.z_m), size * 0.32, "thin", "white", FIGURE)


def _side_ring(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    opening = measure(part, "opening", 0.075)
    half = opening / 2
    points = tuple(
        (place.x_m - half * math.cos(angle), place.z_m + half * 0.9 * math.sin(angle))
        for angle in (math.pi * step / 8 for step in range(9))
    )
    yield stroke(points, "edge", SHEET)


def _side_cylinder(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    for eyes in (hinge.cylinders for hinge in geometry.hinges):
        if eyes is not None and eyes.slot == part.slot:
            yield from cylinder_between(part, eyes.frame_m, eyes.body_m)


def barrel_m(part: FittedPart, long_m: float) -> float:
    """Return how long a cylinder's barrel is drawn: its stroke and its two ends, between half and most of the whole."""
    return min(max(measure(part, "stroke", 0.5) + 0.1, long_m * 0.55), long_m * 0.7)


def cylinder_between(part: FittedPart, frame: Pair, body: Pair) -> Iterator[Mark]:
    """Return a cylinder between its two eyes: barrel, rod, and the eyes themselves."""
    long = math.dist(frame, body)
    bore, barrel = measure(part, "bore", 0.09), barrel_m(part, long)
    stages = int(part.si("stages") or 1)
    if stages > 1:
        yield from _telescope(frame, body, bore, measure(part, "closed", long), stages)
        return
    head = between(frame, body, barrel / long)
    yield bar(head, body, bore * 0.55, "edge", SMALL)
    yield bar(frame, head, bore * 1.15, "edge", SMALL)
    yield bar(between(frame, body, (barrel - 0.05) / long), head, bore * 1.3, "thin", SHEET)
    for eye in (frame, body):
        yield disc(eye, bore * 0.42, "edge", "white", SHEET)


def _telescope(frame: Pair, body: Pair, thinnest: float, closed: float, stages: int) -> Iterator[Mark]:
    """Yield a telescopic cylinder: its barrel as long as it is drawn in, and what its stages stand out beyond it."""
    long = math.dist(frame, body)
    reach = closed * 0.9
    out = max(long - reach, 0.0) / stages
    for stage in range(stages, -1, -1):
        end = between(frame, body, min(reach + stage * out, long) / long)
        yield bar(frame, end, thinnest * (1 + 0.22 * (stages - stage)), "edge", SMALL)
    for eye in (frame, body):
        yield disc(eye, thinnest * 0.7, "edge", "white", SHEET)


def _side_fill_lines(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Yield the lines painted inside a dump body, seen through its side, in the figure of their station only."""
    deck = next((one for one in geometry.decks if one.id == part.slot), None)
    if deck is not None:
        for name in ("gravel", "soil", "mulch"):
            z = deck.height_m + measure(part, name, 0.0)
            yield stroke(((deck.x0_m, z), (deck.x1_m, z)), "hidden", FIGURE)


def _side_spare(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    radius, thick = measure(part, "outer_diameter", 0.7) / 2, measure(part, "section_width", 0.22)
    center = (place.x_m, place.z_m)
    if stands_upright(place):
        yield disc(center, radius, "outline", "white", LIST)
        yield disc(center, radius * 0.56, "edge", "white", SMALL)
        yield disc(center, radius * 0.17, "edge", "white", SHEET)
        return
    x, z, half, bevel = place.x_m, place.z_m, thick / 2, thick * 0.22
    right = (
        (radius - bevel, -half),
        (radius, -half + bevel),
        (radius, half - bevel),
        (radius - bevel, half),
    )
    around = [*right, *((-dx, dz) for dx, dz in reversed(right))]
    yield area([(x + dx, z + dz) for dx, dz in around], "outline", "white", LIST)
    for aside in (-0.3, 0.3):
        yield stroke(((x - radius, z + aside * half), (x + radius, z + aside * half)), "detail", SHEET)


def _on_a_body(geometry: Geometry, corners: tuple[Pair, ...]) -> bool:
    return any(
        all(inside(corner, member.side) for corner in corners)
        for member in geometry.members
        if member.fill != "none" and len(member.side) > 2
    )


def _side_tape(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return tape where a body is there to bear it: strips of dark and light, a strip's length apart (half covered)."""
    if place.side not in {"left", "right"}:
        return
    low, high, strip, dark = place.z_m - 0.0254, place.z_m + 0.0254, 0.4572, 0.28
    start = min(deck.x0_m for deck in geometry.decks) + 0.1
    end = max(deck.x1_m for deck in geometry.decks)
    for number in range(int((end - start) / (2 * strip)) + 1):
        x = start + number * 2 * strip
        corners = tuple((corner, z) for corner in (x, x + strip) for z in (low + 0.004, high - 0.004))
        if x + strip <= end and _on_a_body(geometry, corners):
            yield block(x + strip / 2, low, strip, high - low, "detail", "white", SHEET)
            yield block(x + dark / 2, low, dark, high - low, "none", "ink", SHEET)


def _side_chain(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length = measure(part, "length", 0.0)
    if length:
        end = (place.x_m + length * 0.42, place.z_m)
        yield stroke(hanging((place.x_m, place.z_m), end, min(length * 0.2, place.z_m * 0.5)), "edge", SMALL)
        yield disc(end, 0.016, "thin", "white", SHEET)
    else:  # loose gear without a length of its own: a coil where it lies
        for radius in (0.1, 0.075, 0.05):
            yield disc((place.x_m, place.z_m), radius, "thin", "white", FIGURE)


def _side_plug(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    start, end = (place.x_m + 0.28, place.z_m), (place.x_m, place.z_m - 0.03)
    yield stroke(hanging(start, end, min(0.16, place.z_m * 0.4)), "edge", SMALL)
    yield block(place.x_m - 0.02, place.z_m - 0.05, 0.08, 0.055, "thin", "ink", SMALL)


def _side_door(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a door for people in a side wall: its frame, its panel, its handle."""
    width, height = measure(part, "length", 0.9), measure(part, "height", 1.85)
    low = place.z_m - height / 2
    yield block(place.x_m, low, width, height, "edge", "white", SMALL)
    yield block(place.x_m, low + 0.04, width - 0.08, height - 0.08, "detail", "none", SHEET)
    yield block(place.x_m + width * 0.36, place.z_m - 0.05, 0.09, 0.05, "thin", "ink", SHEET)


def _side_latch(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    wide, high = measure(part, "width", 0.0), measure(part, "height", 0.0)
    if wide and high and place.side in {"left", "right"}:  # a door, with its handle
        yield block(place.x_m, place.z_m - high / 2, wide, high, "edge", "white", SMALL)
        yield block(place.x_m, place.z_m - high / 2 + 0.03, wide - 0.06, high - 0.06, "detail", "none", SHEET)
        yield disc((place.x_m - wide * 0.36, place.z_m), 0.028, "thin", "ink", SHEET)
    elif place.side in {"left", "right"}:
        yield block(place.x_m, place.z_m - 0.06, 0.1, 0.12, "edge", "white", SHEET)
        yield disc((place.x_m, place.z_m), 0.028, "thin", "ink", SHEET)


def _side_guard(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a rear impact guard: its bar, on arms up to the body it hangs under."""
    height = measure(part, "height", 0.1)
    top = place.z_m + height / 2
    body = underside(geometry, place.x_m, top - 0.1)
    yield block(place.x_m, top, 0.05, max(body - top, 0.0), "edge", "white", SMALL)
    yield block(place.x_m, place.z_m - height / 2, GUARD_DEEP_M, height, "outline", "white", LIST)


def _side_fitting(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    if place.side != "center":
        yield disc((place.x_m, place.z_m), 0.016, "thin", "ink", FIGURE)


def deck_at(geometry: Geometry, x_m: float) -> Deck | None:
    """Return the deck a place stands on, by its x."""
    return next((deck for deck in geometry.decks if deck.x0_m <= x_m <= deck.x1_m), None)


SIDE: Final[dict[str, Make]] = {
    "tire": _side_tire,
    "wheel": _side_wheel,
    "hub": _side_hub,
    "box": _side_box,
    "battery": _side_battery,
    "charger": _side_standing,
    "pump": _side_standing,
    "jack": _side_jack,
    "gooseneck_coupler": _side_gooseneck,
    "ball_coupler": _side_ball,
    "winch": _side_winch,
    "lamp": _side_lamp,
    "marker": _side_lamp,
    "plate": _side_plate,
    "control": _side_control,
    "inlet": _side_inlet,
    "tie_down_point": _side_ring,
    "cylinder": _side_cylinder,
    "spare": _side_spare,
    "tape": _side_tape,
    "chain": _side_chain,
    "plug": _side_plug,
    "latch": _side_latch,
    "door": _side_door,
    "fitting": _side_fitting,
    "fill_lines": _side_fill_lines,
    "guard": _side_guard,
}
ON_TOP: Final = frozenset(
    {"gooseneck_coupler", "ball_coupler", "tie_down_point", "lamp", "marker", "fitting", "latch"}
)
"""Kinds that the plan shows whatever lies above them."""
INSIDE: Final = frozenset({"battery", "charger", "pump"})
"""Kinds that stand in a box where there is one at their place."""


def height_of(part: FittedPart, place: Place) -> float:
    """Return how high the top of a part stands."""
    kind = kind_of(part)
    if kind in {"box", "battery", "charger", "pump", "winch"}:
        return place.z_m + measure(part, "height", 0.3)
    if kind == "tire":
        return measure(part, "outer_diameter", 0.7)
    if kind == "spare":
        across = (
            measure(part, "outer_diameter", 0.7)
            if stands_upright(place)
            else measure(part, "section_width", 0.2)
        )
        return place.z_m + across / 2
    return place.z_m
