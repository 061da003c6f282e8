"""Dimension lines, with a rule for where their words go, and the scale bar.

Places are rounded first (to the half inch, or the centimeter) and lengths taken between the rounded places, so that
the links of a chain add up to its whole. Words stand in the line on a white patch where there is room; where there is
not, above the line, the next one higher if they would touch.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from typing import Final

from sendoff import units
from sendoff.display import show
from sendoff.drawings.lettering import POINT_MM, width_mm
from sendoff.drawings.svg import DIMENSION, EDGE, INK, WHITE, Canvas, Point
from sendoff.units import System

ARROW_MM: Final = 1.9
WORDS_POINTS: Final = 7.5
_RISE_MM: Final = WORDS_POINTS * POINT_MM
_STEP_M: Final = {"us": units.to_si(0.5, "in", "length"), "metric": 0.01}


def rounded(place_m: float, system: System) -> float:
    """Return a place rounded as dimension lines are, to the half inch or the centimeter."""
    return math.floor(place_m / _STEP_M[system] + 0.5) * _STEP_M[system]


def said(start_m: float, end_m: float, system: System) -> str:
    """Return the length between two places as a dimension line says it.

    >>> said(0.0, 2.5908, "us"), said(0.0, 2.5908, "metric"), said(0.0, 0.508, "us")
    ('8 ft 6 in', '2.59 m', '1 ft 8 in')
    """
    length = rounded(end_m, system) - rounded(start_m, system)
    return str(show("length", length, system, unit="ft" if system == "us" else "m"))


def chains(
    canvas: Canvas,
    rows: Sequence[Sequence[float]],
    across: Callable[[float], float],
    first_y_and_step: tuple[float, float],
    witness_from: float,
    system: System,
) -> None:
    """Draw chains of dimensions along x, one under the other, with witness lines from `witness_from`."""
    first, step = first_y_and_step
    side = 1.0 if first > witness_from else -1.0
    ends: dict[float, float] = {}
    for number, row in enumerate(rows):
        for place in row:
            ends[round(across(place), 3)] = first + number * step + side
    for x, end in ends.items():
        canvas.line((x, witness_from), (x, end), DIMENSION)
    for number, row in enumerate(rows):
        _chain(canvas, row, across, first + number * step, system)


def _chain(
    canvas: Canvas, places_m: Sequence[float], across: Callable[[float], float], y: float, system: System
) -> None:
    free_from, lifted = -math.inf, 0
    for start, end in itertools.pairwise(places_m):
        words = said(start, end, system)
        left, right = across(start), across(end)
        wide = width_mm(words, WORDS_POINTS)
        middle = (left + right) / 2
        canvas.line((left, y), (right, y), DIMENSION)
        if right - left > 2 * ARROW_MM + 0.8:
            canvas.arrow((left, y), (-1, 0), ARROW_MM)
            canvas.arrow((right, y), (1, 0), ARROW_MM)
        else:  # no room for two arrows: a dot at each end
            canvas.circle((left, y), 0.4, None, INK)
            canvas.circle((right, y), 0.4, None, INK)
        if right - left >= wide + 2 * ARROW_MM + 1.0:
            canvas.words_on_patch((middle, y), words, WORDS_POINTS)
            continue
        lifted = lifted + 1 if middle - wide / 2 < free_from + 0.8 else 0
        canvas.words_on_patch((middle, y - _RISE_MM * (0.8 + 1.05 * lifted)), words, WORDS_POINTS)
        free_from = middle + wide / 2


def upright(canvas: Canvas, low: Point, high: Point, x: float, words: str, *, from_low: bool = True) -> None:
    """Draw a dimension between two heights at `x`; `low` and `high` are where its witness lines start."""
    side = 1.0 if x > high[0] else -1.0
    canvas.line((high[0] + side, high[1]), (x + side, high[1]), DIMENSION)
    if from_low:
        canvas.line((low[0] + side, low[1]), (x + side, low[1]), DIMENSION)
    canvas.line((x, low[1]), (x, high[1]), DIMENSION)
    canvas.arrow((x, low[1]), (0, 1), ARROW_MM)
    canvas.arrow((x, high[1]), (0, -1), ARROW_MM)
    middle = (x, (low[1] + high[1]) / 2)
    tall = abs(high[1] - low[1])
    if tall >= width_mm(words, WORDS_POINTS) + 2 * ARROW_MM + 1.6:
        canvas.words_on_patch(middle, words, WORDS_POINTS, turned=True)
    elif tall >= _RISE_MM + 2 * ARROW_MM + 0.8:
        canvas.words_on_patch(middle, words, WORDS_POINTS)
    else:  # beside the line, and never lower than its foot
        stands = low[1] - max(tall, width_mm(words, WORDS_POINTS) + 1.0) / 2
        canvas.words_in((x + side * (_RISE_MM * 0.6 + 0.4), stands), words, WORDS_POINTS, turned=True)


def scale_bar(canvas: Canvas, corner: Point, mm_a_meter: float, system: System, room_mm: float) -> None:
    """Draw a bar of black and white blocks: as many feet or meters as fit its room, at most ten or three."""
    unit, step, most = ("ft", 2, 10) if system == "us" else ("m", 1, 3)
    block = units.to_si(step, unit, "length") * mm_a_meter
    words_room = width_mm(f"{most} {unit}", 8) + 2
    count = max(1, min(most // step, int((room_mm - words_room) / block)))
    x, y = corner
    for number in range(count):
        canvas.rect((x + number * block, y), block, 1.5, None, INK if number % 2 == 0 else WHITE)
    canvas.rect(corner, count * block, 1.5, EDGE)
    canvas.text((x + count * block + 1.6, y + 1.8), f"{count * step} {unit}", 8)
