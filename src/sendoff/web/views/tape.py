"""The tape: where one or two readings lie against what is wanted, true to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final
from xml.etree import ElementTree as ET

from sendoff import display, units
from sendoff.briefing.inspection import PlannedCheck
from sendoff.drawings.svg import INK, WHITE, Canvas, Pen, number
from sendoff.web.reader import Reader

WIDTH_MM: Final = 92.0
_EDGE: Final = 5.0
_TICKS: Final = 12


def reading_tape(check: PlannedCheck, values_si: Sequence[float], reader: Reader) -> str | None:
    """Return the tape as SVG; None where nothing is wanted in numbers."""
    least, most, kind = check.least_si, check.most_si, check.quantity
    if kind is None or (least is None and most is None) or not values_si:
        return None
    unit = display.unit_for(kind, check.target_si or values_si[0], reader.units)
    unit = {"ft": "in", "m": "mm"}.get(unit, unit)

    def told(si: float) -> float:
        return units.from_si(si, unit, kind)

    bounds = [told(one) for one in (least, most) if one is not None]
    points = [*bounds, *(told(one) for one in values_si)]
    wide = max(max(points) - min(points), abs(bounds[0]) * 0.05, 1e-6)
    low, high = min(points) - wide * 0.25, max(points) + wide * 0.25
    step = _step((high - low) / 6)

    def at(value: float) -> float:
        return _EDGE + (value - low) / (high - low) * (WIDTH_MM - 2 * _EDGE)

    canvas = Canvas(WIDTH_MM, 19.0)
    canvas.strokes([(1.0, 12.5), (WIDTH_MM - 1.0, 12.5)], Pen(0.5))
    mark = math.ceil(low / step) * step
    while mark <= high:
        canvas.strokes([(at(mark), 12.5), (at(mark), 14.3)], Pen(0.4))
        _words(canvas, at(mark), 18.2, f"{mark:g}", 400)
        mark = round(mark + step, 9)
    left = at(bounds[0]) if least is not None else 1.0
    right = at(bounds[-1]) if most is not None else WIDTH_MM - 1.0
    if right - left < 0.4:
        canvas.strokes([(left, 8.5), (left, 12.5)], Pen(0.9))
    else:
        canvas.rect((left, 9.3), right - left, 3.2, Pen(0.6), WHITE)
    for si in values_si:
        x = at(told(si))
        canvas.polygon([(x, 12.2), (x - 2.2, 7.6), (x + 2.2, 7.6)], None, INK)
        shown = display.show(kind, si, reader.units, "fact", unit=unit).number
        _words(canvas, x, 5.6, shown, 700)
    return canvas.done("", "").svg


def _words(canvas: Canvas, x: float, y: float, words: str, weight: int) -> None:
    about = {"x": number(x), "y": number(y), "text-anchor": "middle", "font-size": "4.3", "fill": INK}
    ET.SubElement(canvas.root, "text", about | {"font-weight": str(weight)}).text = words


def _step(rough: float) -> float:
    size = 10.0 ** math.floor(math.log10(rough))
    return next(size * factor for factor in (1, 2, 5, 10) if size * factor >= rough)
