"""Where a load's middle may stand: the side view to scale, and under it a bar for each load, at the place it means.

The rule under the ground counts from the front of the deck. Bars of one heading stand together; each carries its load
on the left, and its two ends in figures.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from sendoff import units
from sendoff.drawings.lettering import width_mm
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import BAR, DIMENSION, EDGE, INK, QUIET, Canvas, Drawing, Pen
from sendoff.drawings.views import AT_360_PX, Views, ground, paint
from sendoff.phrases import say
from sendoff.units import System

WIDTH_MM: Final = 184.0
ROW_MM, HEAD_MM, BAR_MM = 6.0, 6.5, 3.8
_RULE_MM: Final = 9.0
_LEAST_BAR_MM: Final = 0.8
_DASHED: Final = Pen(0.18, (1.6, 0.8))
_STEP: Final[dict[System, tuple[float, str, int]]] = {"us": (1.0, "ft", 2), "metric": (0.5, "m", 2)}
"""Step of the rule's ticks, their unit, and every how many a figure stands."""


@dataclass(frozen=True, slots=True)
class BandRow:
    """One load: its ends from the coupling, and the three figures that stand beside it."""

    front_x_m: float
    rear_x_m: float
    load: str
    front: str
    rear: str


@dataclass(frozen=True, slots=True)
class BandGroup:
    """The loads under one heading."""

    title: str
    rows: tuple[BandRow, ...]


def load_bands(
    views: Views, groups: Sequence[BandGroup], deck: tuple[float, float], language: str, system: System
) -> Drawing:
    """Return the side view with the bands of each group; `deck` is where the room for a load begins and ends."""
    low, high = views.geometry.front_x_m, views.rear_m
    mm = (WIDTH_MM - 3.0) / (high - low)
    ground_y = views.highest_m * mm + 1.0
    rows = sum(HEAD_MM + ROW_MM * len(group.rows) for group in groups)
    canvas = Canvas(WIDTH_MM, ground_y + _RULE_MM + rows + 1.0)
    at = Projection(mm, (1.5 - low * mm, ground_y))
    paint(canvas, views.side, at, AT_360_PX, ghosts=False)
    ground(canvas, at, 0.5, WIDTH_MM - 0.5, AT_360_PX)
    _rule(canvas, at, deck, ground_y + 4.6, system)
    y = ground_y + _RULE_MM
    bottom = y + rows
    for x in (*deck, sum(views.geometry.axles.x_m) / len(views.geometry.axles.x_m)):
        canvas.line((at((x, 0.0))[0], ground_y + _RULE_MM + 0.6), (at((x, 0.0))[0], bottom), _DASHED)
    for group in groups:
        canvas.words_on_patch(
            (width_mm(group.title, 9.0, 600) / 2 + 0.4, y + HEAD_MM / 2), group.title, 9.0, weight=600
        )
        y += HEAD_MM
        for row in group.rows:
            _band(canvas, at, row, y)
            y += ROW_MM
    told = "; ".join(f"{row.load}: {row.front} … {row.rear}" for group in groups for row in group.rows)
    return canvas.done("", say("drawing.shows.load_bands", language, bands=told))


def _rule(canvas: Canvas, at: Projection, deck: tuple[float, float], y: float, system: System) -> None:
    step, unit, every = _STEP[system]
    step_m = units.to_si(step, unit, "length")
    start, end = (at((x, 0.0))[0] for x in deck)
    canvas.line((start, y), (end, y), EDGE)
    number = 0
    while deck[0] + number * step_m <= deck[1] + 1e-6:
        x = at((deck[0] + number * step_m, 0.0))[0]
        long = number % every == 0
        canvas.line((x, y), (x, y + (1.6 if long else 0.9)), DIMENSION)
        if long:
            canvas.text((x, y + 4.3), f"{number * step:g}", 7.5, anchor="middle", color=QUIET)
        number += 1
    canvas.text((start - 3.0, y + 4.3), unit, 7.5, anchor="end", color=QUIET)


def _band(canvas: Canvas, at: Projection, row: BandRow, top: float) -> None:
    left, right = (at((x, 0.0))[0] for x in (row.front_x_m, row.rear_x_m))
    right = max(right, left + _LEAST_BAR_MM)
    middle = top + ROW_MM / 2
    canvas.rect((left, middle - BAR_MM / 2), right - left, BAR_MM, Pen(0.25), BAR)
    for x in (left, right):
        canvas.line((x, middle - BAR_MM / 2 - 0.7), (x, middle + BAR_MM / 2 + 0.7), Pen(0.5, color=INK))
    canvas.words_on_patch((left - width_mm(row.front, 9.0) / 2 - 1.6, middle), row.front, 9.0)
    canvas.words_on_patch((right + width_mm(row.rear, 9.0) / 2 + 1.6, middle), row.rear, 9.0)
    canvas.words_on_patch((width_mm(row.load, 11.0, 600) / 2 + 0.6, middle), row.load, 11.0, weight=600)
