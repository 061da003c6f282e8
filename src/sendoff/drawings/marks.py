"""Marks: what a view paints, in meters of the view, before any scale or sheet is known."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

Pair = tuple[float, float]
Pairs = tuple[Pair, ...]
Line = Literal["outline", "edge", "thin", "detail", "hidden", "ghost", "center", "none"]
Fill = Literal["white", "pale", "mid", "ink", "none"]

LIST, SMALL, SHEET, FIGURE = 0, 1, 2, 3
"""Levels of detail: list silhouette, small view, drawing sheet, figure of one station (insides of boxes as well)."""
TOP: Final = 20.0
"""Layer of what is drawn over everything: hidden lines, ghosts."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing to paint."""

    points: Pairs
    """Corners; the center of a disc; starts and ends by turns where `strokes`."""
    line: Line = "edge"
    fill: Fill = "white"
    radius: float = 0.0
    """A disc where it is not zero."""
    closed: bool = True
    strokes: bool = False
    """The points are pairs of ends of short strokes."""
    least: int = SMALL
    """Least level of detail at which it is drawn."""
    layer: float = 0.0
    slot: str = ""
    piece: str = ""
    """The slot of a piece of frame or body that belongs to a part, such as a gate."""

    def spread(self) -> tuple[float, float, float, float]:
        """Return least and most of both coordinates."""
        across = [x for x, _ in self.points]
        along = [y for _, y in self.points]
        return (
            min(across) - self.radius,
            max(across) + self.radius,
            min(along) - self.radius,
            max(along) + self.radius,
        )


def area(points: Iterable[Pair], line: Line = "edge", fill: Fill = "white", least: int = SMALL) -> Mark:
    """Return a closed outline."""
    return Mark(tuple(points), line, fill, least=least)


def block(
    middle: float,
    low: float,
    length: float,
    height: float,
    line: Line = "edge",
    fill: Fill = "white",
    least: int = SMALL,
) -> Mark:
    """Return an upright rectangle from the middle of its lower side."""
    left, right, high = middle - length / 2, middle + length / 2, low + height
    return area(((left, low), (right, low), (right, high), (left, high)), line, fill, least)


def disc(center: Pair, radius: float, line: Line = "edge", fill: Fill = "white", least: int = SMALL) -> Mark:
    """Return a disc."""
    return Mark((center,), line, fill, radius=radius, least=least)


def stroke(points: Iterable[Pair], line: Line = "edge", least: int = SHEET) -> Mark:
    """Return an open line."""
    return Mark(tuple(points), line, "none", closed=False, least=least)


def strokes(ends: Iterable[tuple[Pair, Pair]], line: Line = "detail", least: int = SHEET) -> Mark:
    """Return many short lines that belong together."""
    return Mark(tuple(point for pair in ends for point in pair), line, "none", strokes=True, least=least)


def hanging(start: Pair, end: Pair, sag: float, steps: int = 10) -> Pairs:
    """Return a line that hangs between two points, its middle `sag` below them."""
    (x0, z0), (x1, z1) = start, end
    return tuple(
        (x0 + (x1 - x0) * t, z0 + (z1 - z0) * t - 4 * sag * t * (1 - t))
        for t in (step / steps for step in range(steps + 1))
    )


def bar(start: Pair, end: Pair, width: float, line: Line = "edge", least: int = SMALL) -> Mark:
    """Return a straight bar between two points."""
    (x0, z0), (x1, z1) = start, end
    long = math.hypot(x1 - x0, z1 - z0)
    across = (-(z1 - z0) / long * width / 2, (x1 - x0) / long * width / 2)
    corners = (
        (x0 + across[0], z0 + across[1]),
        (x1 + across[0], z1 + across[1]),
        (x1 - across[0], z1 - across[1]),
        (x0 - across[0], z0 - across[1]),
    )
    return area(corners, line, "white", least)


def between(start: Pair, end: Pair, share: float) -> Pair:
    """Return the point at a share of the way from one point to another."""
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def on(layer: float, slot: str, marks: Iterable[Mark]) -> list[Mark]:
    """Return marks put on a layer, each knowing whose part it is."""
    return [replace(mark, layer=layer + mark.layer, slot=slot) for mark in marks]


def inside(point: Pair, outline: Sequence[Pair]) -> bool:
    """Tell whether a point lies in a closed outline (even-odd rule)."""
    x, y = point
    found = False
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            found = not found
    return found


def turned(points: Iterable[Pair], about: Pair, angle_rad: float) -> Pairs:
    """Return side points turned about a hinge; a positive angle lowers what lies behind it.

    >>> [(round(x, 3), round(z, 3)) for x, z in turned([(2.0, 1.0)], (1.0, 1.0), math.pi / 2)]
    [(1.0, 0.0)]
    """
    sine, cosine = math.sin(angle_rad), math.cos(angle_rad)
    return tuple(
        (
            about[0] + (x - about[0]) * cosine + (z - about[1]) * sine,
            about[1] - (x - about[0]) * sine + (z - about[1]) * cosine,
        )
        for x, z in points
    )
