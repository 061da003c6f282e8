"""The order in which the nuts of a wheel are tightened, drawn on its face."""

from __future__ import annotations

import itertools
import math
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.calc.fasteners import torque_sequence
from sendoff.drawings.svg import CENTER, DETAIL, EDGE, OUTLINE, WHITE, Canvas, Drawing, Pen, Point
from sendoff.errors import OutOfRange
from sendoff.phrases import say

SIZE_MM: Final = 80.0
_RIM_MM, _BORE_MM, _NUT_MM = 35.0, 9.0, 4.9


def order_of(unit: AsBuiltUnit) -> tuple[int, ...] | None:
    """Return the star order for this unit's wheels, studs numbered clockwise, or None if there is none."""
    wheels = unit.part("wheels")
    count = wheels.si("stud_count") if wheels is not None else None
    if not count:
        return None
    try:
        return torque_sequence(int(count))
    except OutOfRange:  # a wheel with a number of studs whose order no table gives
        return None


def wheel_nuts(unit: AsBuiltUnit, language: str) -> Drawing | None:
    """Return the wheel's face, its nuts numbered in the order they are tightened, arrows from each to the next."""
    order = order_of(unit)
    if order is None:
        return None
    count = len(order)
    canvas = Canvas(SIZE_MM, SIZE_MM)
    middle = (SIZE_MM / 2, SIZE_MM / 2)
    circle = 20.5 if count > 6 else 18.5
    canvas.circle(middle, _RIM_MM, OUTLINE, WHITE)
    canvas.circle(middle, _RIM_MM - 2.2, DETAIL)
    canvas.circle(middle, circle, CENTER)
    canvas.circle(middle, _BORE_MM, OUTLINE)
    canvas.circle(middle, _BORE_MM - 1.1, DETAIL)
    for dx, dy in ((1.0, 0.0), (0.0, 1.0)):
        reach = SIZE_MM / 2 - 0.5
        start, end = (
            (middle[0] - dx * reach, middle[1] - dy * reach),
            (middle[0] + dx * reach, middle[1] + dy * reach),
        )
        canvas.line(start, end, CENTER)
    spots = [_spot(middle, circle, stud, count) for stud in order]
    for start, end in itertools.pairwise(spots):
        _step(canvas, start, end)
    for number, spot in enumerate(spots, start=1):
        canvas.polygon(_hexagon(spot), OUTLINE, WHITE)
        canvas.words_in(spot, str(number), 15.0, weight=700)
    clockwise = [str(order.index(stud) + 1) for stud in range(1, count + 1)]
    words = say("drawing.shows.nuts", language, count=count, order=", ".join(clockwise))
    return canvas.done("", words)


def _spot(middle: Point, radius: float, stud: int, count: int) -> Point:
    angle = 2 * math.pi * (stud - 1) / count
    return middle[0] + radius * math.sin(angle), middle[1] - radius * math.cos(angle)


def _hexagon(center: Point) -> list[Point]:
    return [
        (
            center[0] + _NUT_MM * math.sin(turn * math.pi / 3),
            center[1] - _NUT_MM * math.cos(turn * math.pi / 3),
        )
        for turn in range(6)
    ]


def _step(canvas: Canvas, start: Point, end: Point) -> None:
    long = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    free = _NUT_MM + 0.9
    tip = (end[0] - ux * free, end[1] - uy * free)
    canvas.line(
        (start[0] + ux * free, start[1] + uy * free), (tip[0] - ux * 1.6, tip[1] - uy * 1.6), Pen(EDGE.width)
    )
    canvas.arrow(tip, (ux, uy), 2.4, 0.62)
