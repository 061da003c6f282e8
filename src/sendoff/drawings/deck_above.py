"""The plan of a deck plan: outlines and tires of the items, strips, tie-down points, places measured from the front."""

from __future__ import annotations

import math

from sendoff.drawings import cargo_shapes
from sendoff.drawings.deck_sheet import (
    DISC_MM,
    KEY_MM,
    KEY_STEP_MM,
    LEAST_DIMENSION_M,
    STYLE,
    WIDTH_MM,
    Sheet,
    Standing,
)
from sendoff.drawings.lettering import fitting_points, lines_of, width_mm
from sendoff.drawings.projection import Projection
from sendoff.drawings.sheets import scale_words
from sendoff.drawings.svg import DIMENSION, INK, MID, PALE, QUIET, WHITE, Canvas, Pen, Point
from sendoff.drawings.views import paint
from sendoff.phrases import say


def paint_plan(canvas: Canvas, sheet: Sheet, at: Projection) -> None:
    """Paint the plan: the trailer, each item's outline with its tires, strips, tie-down points, centers of mass."""
    paint(canvas, [mark for mark in sheet.views.plan if mark.slot != "tie_downs"], at, STYLE, ghosts=False)
    for deck in sheet.found.problem.decks:
        wide = min(*(zone.width_limit_m for zone in deck.zones), 9.0) / 2
        for strip in deck.strips:
            _hatched(canvas, at((strip.front_m, wide)), at((strip.rear_m, -wide)))
    for row in sorted(sheet.rows, key=lambda row: row.front[1]):
        _item_above(canvas, row, at)
    part = sheet.found.case.unit.part("tie_downs")
    for place in part.places if part is not None else ():
        canvas.circle(at((place.x_m, place.y_m)), 1.1, None, WHITE)
        canvas.circle(at((place.x_m, place.y_m)), 0.8, None, INK)
    for row in sheet.rows:
        _center(canvas, at((row.center_x_m, 0.0)))


def _item_above(canvas: Canvas, row: Standing, at: Projection) -> None:
    half = (row.width_m or 1.8) / 2
    left, top = at((row.step.front_m, half))
    right = at((row.rear_m, 0.0))[0]
    pen = Pen(0.4) if row.width_m is not None else Pen(0.4, (1.6, 0.8))
    outline = cargo_shapes.outline_above(row.riding, 2 * half)
    along = row.rear_m if row.step.facing == "backward" else row.step.front_m
    sign = -1 if row.step.facing == "backward" else 1
    canvas.polygon([at((along + sign * x, y)) for x, y in outline], pen, PALE)
    if row.item.moved_by != "lifted":
        _tires_above(canvas, row, at, half)
    nose = _nose(row)
    tip, back = at((nose, 0.0)), at((nose + (0.3 if row.step.facing == "forward" else -0.3), 0.0))
    if row.item.moved_by != "lifted":
        side = 0.9
        canvas.polyline([(back[0], back[1] - side), (tip[0], tip[1]), (back[0], back[1] + side)], Pen(0.35))
    center = at((row.center_x_m, 0.0))
    room = right - left - 2 * DISC_MM - 0.8
    if room < 2 * (DISC_MM + 2.0):  # too short for number and center of mass beside each other
        canvas.disc((left + 2.3, top + 2.3), str(row.number), 1.9, 7.5)
        return
    x = (left + right) / 2
    if abs(x - center[0]) < DISC_MM + 2.0:
        x = center[0] + (DISC_MM + 2.2 if x >= center[0] else -DISC_MM - 2.2)
    x = min(max(x, left + DISC_MM + 0.4), right - DISC_MM - 0.4)
    canvas.disc((x, center[1]), str(row.number), DISC_MM, 8.5)


def _nose(row: Standing) -> float:
    """Return where an item's own front end stands, a little inside its outline."""
    return row.step.front_m + 0.08 if row.step.facing == "forward" else row.rear_m - 0.08


def _tires_above(canvas: Canvas, row: Standing, at: Projection, half: float) -> None:
    outer = (row.item.track_outer_m or 2 * half - 0.1) / 2
    inner = (row.item.track_inner_m or 2 * outer - 0.5) / 2
    spots = [x for x, _ in row.wheels()]
    if row.riding.on_tracks:
        spans = [(spots[0], spots[-1])]
    else:
        spans = [(x - row.riding.tire_m * 0.8, x + row.riding.tire_m * 0.8) for x in spots]
    for start, end in spans:
        for low, high in ((inner, outer), (-outer, -inner)):
            left, top = at((start, high))
            right, bottom = at((end, low))
            canvas.rect((left, top), right - left, bottom - top, Pen(0.18), MID)


def _center(canvas: Canvas, middle: Point) -> None:
    """Draw a center of mass: a quartered disc."""
    radius = 1.5
    canvas.circle(middle, radius, Pen(0.25), WHITE)
    for turn in (0, 2):
        start = turn * math.pi / 2
        turns = [start + n * math.pi / 12 for n in range(7)]
        arc = [(middle[0] + radius * math.cos(t), middle[1] + radius * math.sin(t)) for t in turns]
        canvas.polygon([middle, *arc], None, INK)


def _hatched(canvas: Canvas, one: Point, other: Point) -> None:
    left, right = sorted((one[0], other[0]))
    top, low = sorted((one[1], other[1]))
    canvas.rect((left, top), right - left, low - top, Pen(0.18), WHITE)
    ends: list[Point] = []
    deep = right - left
    for number in range(int((low - top) / 1.2) + 1):
        y = top + number * 1.2
        if y + deep <= low:
            ends += [(left, y + deep), (right, y)]
    if ends:
        canvas.strokes(ends, Pen(0.18))


def _lines_of_places(sheet: Sheet) -> list[list[float]]:
    """Return a dimension for each item that does not stand right at the front: from there to its forward-most end."""
    rows = sorted(sheet.rows, key=lambda row: row.step.front_m)
    starts = [(sheet.found.case.deck_front_m(row.step.deck), row.step.front_m) for row in rows]
    return [[start, front] for start, front in starts if front - start > LEAST_DIMENSION_M]


def measures_tall(sheet: Sheet) -> float:
    return 4.5 + 5.0 * len(_lines_of_places(sheet))


def measures(canvas: Canvas, sheet: Sheet, low: float) -> float:
    """Draw the places, each from the front of its deck; return where the drawing goes on below them."""
    lines = _lines_of_places(sheet)
    for number, (start, front) in enumerate(lines):
        y, left, right = low + 5.5 + 5.0 * number, sheet.x(start), sheet.x(front)
        for x in (left, right):
            canvas.line((x, low + 1.2), (x, y + 1.0), DIMENSION)
        canvas.line((left, y), (right, y), DIMENSION)
        canvas.arrow((left, y), (-1, 0), 1.9)
        canvas.arrow((right, y), (1, 0), 1.9)
        words = sheet.teller.length(front - start)
        fits = right - left > width_mm(words, 7.5) + 6.0
        middle = (left + right) / 2 if fits else right + 2.0 + width_mm(words, 7.5) / 2
        canvas.words_on_patch((middle, y), words, 7.5)
    return low + measures_tall(sheet)


def _key_lines(sheet: Sheet) -> list[tuple[int, str, list[str]]]:
    """Return number and name of each item, and what is said of it, in as many lines as it takes."""
    found = []
    for place, step in zip(sheet.teller.places(), sheet.found.plan.loading, strict=True):
        told = f"{place.mass} · {place.facing} · {sheet.teller.where(step)}"
        room = WIDTH_MM - 1.0 - _after_name(place.name)
        lines = lines_of(told, room, 9.0)
        if len(lines) > 1:  # a long name or place: the name stands alone
            lines = ["", *lines_of(told, WIDTH_MM - 8.0, 9.0)]
        found.append((place.number, place.name, lines))
    return found


def _after_name(name: str) -> float:
    return 6.4 + width_mm(name, 9.0, 600) + 2.5


def key_tall(sheet: Sheet) -> float:
    return sum(KEY_MM + KEY_STEP_MM * (len(lines) - 1) for _, _, lines in _key_lines(sheet)) + 9.0


def key(canvas: Canvas, sheet: Sheet, y: float) -> None:
    """Write who is who: number, name, weight, way round, place; and how to read the drawing."""
    for number, name, lines in _key_lines(sheet):
        y += KEY_MM
        canvas.disc((DISC_MM + 0.4, y - 1.2), str(number), 2.0, 7.5)
        canvas.text((6.4, y), name, fitting_points(name, WIDTH_MM - 7.0, 9.0, 600), weight=600)
        canvas.text((_after_name(name), y), lines[0], 9.0)
        for line in lines[1:]:
            y += KEY_STEP_MM
            canvas.text((6.4, y), line, 9.0)
    words = scale_words(sheet.scale, sheet.language, sheet.system)
    canvas.text((WIDTH_MM - 0.5, y + 6.0), words, 8.0, anchor="end", color=QUIET)
    canvas.text((0.5, y + 6.0), say("drawing.deck_key", sheet.language), 7.5, color=QUIET)
