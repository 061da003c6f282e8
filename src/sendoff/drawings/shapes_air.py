"""Shapes of heavy couplings and of air brakes: kingpin, drawbar ring, air lines, tanks, chambers."""
# ruff: noqa: ARG001  every shape takes the same three arguments, so that one table can hold them all

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import FittedPart, Geometry, Place
from sendoff.drawings.marks import LIST, SHEET, SMALL, TOP, Mark, area, block, disc, hanging, stroke
from sendoff.drawings.shapes import Make, measure, underside

PLATE_M: Final = (0.9, 0.02)
"""Length and thickness of the plate a kingpin stands in."""


def _side_kingpin(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return the kingpin under its plate, and the post that carries the plate under the neck."""
    plate, wide = measure(part, "plate_height", 1.19), measure(part, "diameter", 0.0508)
    top = underside(geometry, place.x_m, plate)
    if top - plate > 0.05:
        yield block(
            place.x_m + 0.06, plate + PLATE_M[1], 0.34, top - plate - PLATE_M[1], "edge", "white", LIST
        )
    yield block(place.x_m + 0.05, plate, *PLATE_M, line="outline", fill="white", least=LIST)
    yield block(place.x_m, plate - 0.084, wide * 1.4, 0.03, "edge", "white", SMALL)
    yield block(place.x_m, plate - 0.054, wide, 0.054, "edge", "white", SMALL)


def _plan_kingpin(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    long, _ = PLATE_M
    yield block(place.x_m + 0.05, place.y_m - 0.3, long, 0.6, "hidden", "none", SHEET)
    yield disc((place.x_m, place.y_m), measure(part, "diameter", 0.0508), "none", "ink", SMALL)


def _side_ring(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a drawbar ring seen edge on, its shank running back into the drawbar."""
    thick = measure(part, "section", 0.04)
    long = measure(part, "opening", 0.07) + 2 * thick
    x, z = place.x_m, place.z_m
    yield block(x + long / 2 + 0.09, z - 0.05, 0.2, 0.1, "outline", "white", SMALL)
    yield block(x, z - thick / 2, long, thick, "outline", "white", LIST)
    for aside in (-1, 1):
        at = x + aside * (long / 2 - thick)
        yield stroke(((at, z - thick / 2), (at, z + thick / 2)), "thin")


def _plan_ring(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    opening, thick = measure(part, "opening", 0.07), measure(part, "section", 0.04)
    x, y = place.x_m, place.y_m
    yield block(x + opening / 2 + thick + 0.08, y - 0.06, 0.18, 0.12, "outline", "white", SMALL)
    yield disc((x, y), opening / 2 + thick, "outline", "white", SMALL)
    yield disc((x, y), opening / 2, "edge", "white", SMALL)


def _side_air_line(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a hose that hangs from the drawbar to its coupling head."""
    start, end = (place.x_m + 0.5, place.z_m - 0.1), (place.x_m, place.z_m)
    yield stroke(hanging(start, end, 0.12), "edge", SMALL)
    yield block(place.x_m - 0.02, place.z_m - 0.03, 0.1, 0.06, "thin", "ink", SMALL)


def _plan_air_line(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield stroke(((place.x_m, place.y_m), (place.x_m + 0.5, place.y_m * 0.6)), "edge", SHEET)
    yield block(place.x_m, place.y_m - 0.035, 0.09, 0.07, "none", "ink", SHEET)


def _lying(part: FittedPart, along: float, across: float, line: str) -> Iterator[Mark]:
    length, wide = measure(part, "length", 0.6), measure(part, "diameter", 0.25)
    left, right, bend = along - length / 2, along + length / 2, wide * 0.22
    low, high = across - wide / 2, across + wide / 2
    corners = (
        (left + bend, low), (right - bend, low), (right, low + bend), (right, high - bend),
        (right - bend, high), (left + bend, high), (left, high - bend), (left, low + bend),
    )  # fmt: skip
    yield area(corners, "outline" if line == "outline" else "edge", "white", SMALL)
    for x in (left + bend, right - bend):
        yield stroke(((x, low), (x, high)), "detail", SHEET)


def _side_tank(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield from _lying(part, place.x_m, place.z_m, "outline")
    wide = measure(part, "diameter", 0.25)
    yield block(place.x_m, place.z_m - wide / 2 - 0.035, 0.03, 0.035, "thin", "ink", SHEET)


def _plan_tank(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield from _lying(part, place.x_m, place.y_m, "outline")


def _side_chamber(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a chamber behind its wheel: hidden lines."""
    for mark in _lying(part, place.x_m, place.z_m, "edge"):
        yield Mark(mark.points, "hidden", "none", closed=mark.closed, least=SHEET, layer=TOP)


def _plan_chamber(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield from _lying(part, place.x_m, place.y_m, "edge")
    length = measure(part, "length", 0.3)
    yield stroke(
        ((place.x_m + length / 2, place.y_m), (place.x_m + length / 2 + 0.12, place.y_m)), "edge", SHEET
    )


SIDE: Final[dict[str, Make]] = {
    "kingpin": _side_kingpin,
    "ring_eye": _side_ring,
    "air_line": _side_air_line,
    "air_tank": _side_tank,
    "air_chamber": _side_chamber,
}
PLAN: Final[dict[str, Make]] = {
    "kingpin": _plan_kingpin,
    "ring_eye": _plan_ring,
    "air_line": _plan_air_line,
    "air_tank": _plan_tank,
    "air_chamber": _plan_chamber,
}
ON_TOP: Final = frozenset({"kingpin", "ring_eye", "air_line"})
"""Kinds that the plan shows whatever lies above them."""
