"""Where there is room on a view: spots for words, rings and discs at which nothing is drawn yet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from sendoff.drawings.marks import Mark, inside
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import Point

Box = tuple[float, float, float, float]
"""Left, top, right, bottom on paper."""


def _lines(marks: Iterable[Mark], at: Projection, level: int) -> Iterator[tuple[Point, Point]]:
    for mark in marks:
        if mark.least > level or mark.line == "center":
            continue
        if mark.radius:
            x, y = at(mark.points[0])
            r = mark.radius * at.mm_a_meter
            around = [
                (x + r * math.cos(turn * math.pi / 6), y + r * math.sin(turn * math.pi / 6))
                for turn in range(12)
            ]
            yield from zip(around, (*around[1:], around[0]), strict=True)
            continue
        points = [at(point) for point in mark.points]
        if mark.strokes:
            yield from zip(points[::2], points[1::2], strict=True)
        else:
            ends = (*points[1:], points[0]) if mark.closed else points[1:]
            yield from zip(points, ends, strict=False)


def _touches(box: Box, start: Point, end: Point) -> bool:
    """Tell whether a line between two points meets a box (Liang and Barsky's clipping)."""
    left, top, right, bottom = box
    (x0, y0), (x1, y1) = start, end
    enter, leave = 0.0, 1.0
    for step, low, high in ((x1 - x0, left - x0, right - x0), (y1 - y0, top - y0, bottom - y0)):
        if step == 0:
            if low > 0 or high < 0:
                return False
            continue
        first, second = sorted((low / step, high / step))
        enter, leave = max(enter, first), min(leave, second)
        if enter > leave:
            return False
    return True


class Ink:
    """The lines of a view on paper, to be asked which of them a box meets."""

    def __init__(
        self,
        marks: Iterable[Mark],
        at: Projection,
        level: int,
        more: Iterable[tuple[Point, Point]] = (),
    ) -> None:
        drawn = list(marks)
        self._lines = [_boxed(start, end) for start, end in (*_lines(drawn, at, level), *more)]
        self._bodies = [
            [at(point) for point in mark.points]
            for mark in drawn
            if mark.fill != "none" and mark.least <= level and len(mark.points) > 2
        ]

    def _met(self, box: Box) -> Iterator[bool]:
        left, top, right, bottom = box
        for low_x, low_y, high_x, high_y, start, end in self._lines:
            if low_x <= right and high_x >= left and low_y <= bottom and high_y >= top:
                yield _touches(box, start, end)

    def met_by(self, box: Box) -> int:
        """Return how many lines a box meets."""
        return sum(self._met(box))

    def is_free(self, box: Box) -> bool:
        """Tell whether a box meets no line and lies on no body."""
        middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        return not any(self._met(box)) and not any(inside(middle, body) for body in self._bodies)


def _boxed(start: Point, end: Point) -> tuple[float, float, float, float, Point, Point]:
    (x0, y0), (x1, y1) = start, end
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1), start, end


def box_round(center: Point, width: float, height: float) -> Box:
    """Return the box of a size round a point."""
    return (
        center[0] - width / 2,
        center[1] - height / 2,
        center[0] + width / 2,
        center[1] + height / 2,
    )


def free_spot(
    ink: Ink, size: tuple[float, float], near: Point, reach: float, *, floor: float = math.inf
) -> Point | None:
    """Return the nearest spot to a point where a box of a size meets nothing, above the floor, if any."""
    steps = int(reach)
    around = sorted(
        ((float(dx), float(dy)) for dx in range(-steps, steps + 1) for dy in range(-steps, steps + 1)),
        key=lambda step: (math.hypot(step[0], (2.2 if step[1] < 0 else 1.0) * step[1]), step),
    )
    for dx, dy in around:
        center = (near[0] + dx, near[1] + dy)
        box = box_round(center, size[0] + 0.5, size[1] + 0.5)
        if box[3] <= floor and ink.is_free(box):
            return center
    return None
