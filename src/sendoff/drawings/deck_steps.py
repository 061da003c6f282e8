"""Loading in small pictures: a side view for each step, what comes on now dark."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sendoff.drawings.deck_sheet import (
    STYLE,
    standing_of,
)
from sendoff.drawings.marks import SMALL, Mark
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import Canvas, Drawing
from sendoff.drawings.views import Style, Views, ground, paint
from sendoff.findings.deck.answer import DeckAnswer
from sendoff.phrases import say


def loading_pictures(found: DeckAnswer, language: str, width: float = 58.0) -> list[Drawing]:
    """Return one small side view a step: what stands already pale, what comes on now dark."""
    views = Views(found.case.unit)
    rows = standing_of(found)
    low = min([views.geometry.front_x_m, *(row.step.front_m for row in rows)])
    high = max([views.rear_m, *(row.rear_m for row in rows)])
    mm = (width - 1.0) / (high - low)
    top = max([views.highest_m, *(mark.spread()[3] for row in rows for mark in row.marks)])
    pictures = []
    for count in range(1, len(rows) + 1):
        ground_y = top * mm + 0.8
        canvas = Canvas(width, ground_y + 0.6)
        at = Projection(mm, (0.5 - low * mm, ground_y))
        style = Style(SMALL, dict.fromkeys(STYLE.widths, 0.12) | {"outline": 0.2}, 0.3, 0.6)
        paint(canvas, [mark for mark in views.side if mark.layer < 0], at, style, ghosts=False)
        for row in rows[:count]:
            paint(canvas, _shaded(row.marks, dark=row.number == count), at, style)
        paint(canvas, [mark for mark in views.side if mark.layer >= 0], at, style, ghosts=False)
        ground(canvas, at, 0.2, width - 0.2, style)
        name = found.case.item_name(rows[count - 1].item.name)
        pictures.append(canvas.done("", say("drawing.shows.loading_step", language, n=count, item=name)))
    return pictures


def _shaded(marks: Sequence[Mark], *, dark: bool) -> Iterator[Mark]:

    for mark in marks:
        yield replace(mark, fill="mid") if dark and mark.fill == "pale" else mark
