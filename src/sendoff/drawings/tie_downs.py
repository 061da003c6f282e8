"""The plan with the tie-down points: where each stands, and what each may hold."""

from __future__ import annotations

from typing import Final

from sendoff.display import show
from sendoff.drawings import dimensions, shapes
from sendoff.drawings.lettering import width_mm
from sendoff.drawings.marks import SMALL
from sendoff.drawings.projection import Projection
from sendoff.drawings.sheets import SCALES, scale_words
from sendoff.drawings.svg import INK, QUIET, WHITE, Canvas, Drawing
from sendoff.drawings.views import ON_SHEET, Style, Views, paint
from sendoff.phrases import say
from sendoff.units import System

WIDTH_MM: Final = 184.0
_STYLE: Final = Style(SMALL, ON_SHEET.widths, ON_SHEET.ground)
_DOT_MM: Final = 1.3


def tie_downs(views: Views, language: str, system: System) -> Drawing | None:
    """Return the plan with its tie-down points as black dots, their spacing, and what each may hold."""
    part = views.unit.part("tie_downs")
    limit = part.values.get("working_load_limit") if part is not None else None
    if part is None or not part.places:
        return None
    geometry = views.geometry
    room = WIDTH_MM - 13.0
    scale = next(
        (s for s in SCALES[system] if geometry.overall_length_m * 1000 / s <= room), SCALES[system][-1]
    )
    mm = 1000 / scale
    half = geometry.overall_width_m / 2 * mm
    top = 7.5
    canvas = Canvas(WIDTH_MM, top + 2 * half + 12.0)
    zero = (WIDTH_MM - 11.0 - geometry.overall_length_m * mm) / 2 - geometry.front_x_m * mm
    at = Projection(mm, (zero, top + half))
    hidden = {"tie_down_point", "lamp", "marker", "fitting"}
    silent = {found.slot for found in views.unit.parts if shapes.kind_of(found) in hidden}
    paint(canvas, [mark for mark in views.plan if mark.slot not in silent], at, _STYLE)
    for place in part.places:
        spot = at((place.x_m, place.y_m))
        canvas.circle(spot, _DOT_MM + 0.35, None, WHITE)
        canvas.circle(spot, _DOT_MM, None, INK)
    columns = sorted({place.x_m for place in part.places})
    deck = shapes.deck_at(geometry, columns[0])
    ends = [deck.x0_m, *columns] if deck is not None else columns
    low = top + 2 * half
    dimensions.chains(canvas, [ends], lambda x: at((x, 0.0))[0], (low + 6.5, 0.0), low + 1.2, system)
    rows = sorted({place.y_m for place in part.places})
    if len(rows) == 2:
        right = at((views.rear_m, 0.0))[0]
        lower, upper = ((right, at((0.0, y))[1]) for y in rows)
        words = dimensions.said(rows[0], rows[1], system)
        dimensions.upright(canvas, lower, upper, right + 6.0, words)
    value = (
        str(show(limit.quantity, limit.si, system, "capacity", limit.given)) if limit and limit.si else "?"
    )
    _words(
        canvas, part.name[language], value, len(part.places), scale_words(scale, language, system), language
    )
    told = say("drawing.shows.tie_downs", language, count=len(part.places), wll=value)
    return canvas.done(f"1:{scale}", told)


def _words(canvas: Canvas, name: str, value: str, count: int, scale: str, language: str) -> None:
    canvas.circle((_DOT_MM + 0.4, 2.6), _DOT_MM, None, INK)
    canvas.text((4.6, 3.6), name, 9.0, weight=600)
    x = 4.6 + width_mm(name, 9.0, 600) + 4.0
    canvas.text(
        (x, 3.6),
        f"{say('drawing.each', language, count=count, value=value)} {say('drawing.each_point', language)}",
        9.0,
    )
    canvas.text((WIDTH_MM - 0.4, 3.6), scale, 8.0, anchor="end", color=QUIET)
