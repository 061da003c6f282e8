"""The deck plan drawn to scale: every item where it stands, from the side and from above, and what bears how much.

Above the side view each item's number and weight stand over its center of mass; under the ground the arrows of the
coupling, the axles and the truck, to one scale of weight, with the share of the limit that ends first. In the plan the
driver's side lies at the bottom; black dots are tie-down points.
"""

from __future__ import annotations

from collections.abc import Iterator

from sendoff.display import show
from sendoff.drawings.deck_above import key, key_tall, measures, measures_tall, paint_plan
from sendoff.drawings.deck_forces import bearings, forces_of, label_rows, weights
from sendoff.drawings.deck_sheet import (
    LABEL_MM,
    LONGEST_MM,
    REACH_M,
    STRAP,
    STYLE,
    WIDTH_MM,
    Sheet,
    Standing,
    height_of,
)
from sendoff.drawings.deck_truck import paint_truck
from sendoff.drawings.marks import SMALL, Mark, Pair, area, stroke
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import INK, Canvas, Drawing
from sendoff.drawings.views import ground, paint
from sendoff.findings.deck.answer import DeckAnswer
from sendoff.phrases import say
from sendoff.units import System


def deck_drawing(found: DeckAnswer, language: str, system: System) -> Drawing:
    """Return the drawing of an answer's arrangement."""
    sheet = Sheet(found, language, system)
    forces = forces_of(sheet)
    labels = label_rows(sheet)
    ground_y = labels * (LABEL_MM + 0.6) + LONGEST_MM + 3.0 + sheet.top_m * sheet.mm
    half = sheet.half_m * sheet.mm
    below = 34.0 + (20.0 if sheet.truck is not None else 0.0)
    plan_y = ground_y + below + half
    canvas = Canvas(WIDTH_MM, plan_y + half + measures_tall(sheet) + key_tall(sheet))
    side = Projection(sheet.mm, (sheet.zero_x, ground_y))
    _paint_side(canvas, sheet, side)
    ground(canvas, side, 0.5, WIDTH_MM - 0.5, STYLE)
    weights(canvas, sheet, side, forces, labels)
    bearings(canvas, sheet, ground_y, forces)
    paint_plan(canvas, sheet, Projection(sheet.mm, (sheet.zero_x, plan_y)))
    y = measures(canvas, sheet, plan_y + half)
    key(canvas, sheet, y)
    return canvas.done(f"1:{sheet.scale}", _described(sheet))


def _described(sheet: Sheet) -> str:
    places = "; ".join(
        f"{row.number} {sheet.found.case.item_name(row.item.name)}: "
        f"{say(f'deck.{row.step.facing}', sheet.language)}, "
        f"{show('length', row.step.front_m - sheet.found.case.deck_front_m(row.step.deck), sheet.system)}"
        for row in sheet.rows
    )
    return say("drawing.shows.deck_plan", sheet.language, places=places)


def _paint_side(canvas: Canvas, sheet: Sheet, at: Projection) -> None:
    """Paint the trailer with what stands on it: items behind what stands up before them, straps over all."""
    marks = list(sheet.views.side)
    marks += _way_decks(sheet)
    if sheet.truck is not None:
        paint_truck(canvas, sheet.truck, at, STYLE)
    paint(canvas, [mark for mark in marks if mark.layer < 0], at, STYLE, ghosts=False)
    for row in sorted(sheet.rows, key=lambda row: -row.front[1]):
        paint(canvas, row.marks, at, STYLE)
    paint(canvas, [mark for mark in marks if mark.layer >= 0], at, STYLE, ghosts=False)
    for row in sheet.rows:
        for start, end in straps(sheet.found, row):
            canvas.line(at(start), at(end), STRAP)
            canvas.circle(at(end), 0.55, None, INK)


def _way_decks(sheet: Sheet) -> Iterator[Mark]:
    """Yield the decks that this way of setting up brings, as plain slabs."""
    way = sheet.found.case.way(sheet.found.way)
    for deck in way.decks if way is not None else ():
        thick = 0.08
        yield area(
            (
                (deck.x0_m, deck.height_m), (deck.x1_m, deck.height_rear_m),
                (deck.x1_m, deck.height_rear_m - thick), (deck.x0_m, deck.height_m - thick),
            ),
            "outline",
        )  # fmt: skip
        for x, z in ((deck.x0_m + 0.1, deck.height_m), (deck.x1_m - 0.1, deck.height_rear_m)):
            yield stroke(((x, z - thick), (x, 0.6)), "edge", SMALL)


def straps(found: DeckAnswer, row: Standing) -> Iterator[tuple[Pair, Pair]]:
    """Yield the straps of an item, each from it to a tie-down point: two a wheel, over the top of what is set down."""
    deck = next(deck for deck in found.problem.decks if deck.name == row.step.deck)
    reach = row.item.strap_reach_m or REACH_M
    points = deck.strap_points_m
    if row.item.moved_by == "lifted":
        for at in points:
            if row.step.front_m <= at <= row.rear_m:
                low = height_of(found, row.step.deck, at)
                yield (at, low + row.riding.height_m), (at, low)
        return
    ends = [row.wheels()[0], row.wheels()[-1]]
    tire = min(row.riding.height_m * 0.2, 0.35) if row.riding.on_tracks else row.riding.tire_m
    for x, z in ends:
        ahead = [at for at in points if 0 < x - at <= reach]
        behind = [at for at in points if 0 <= at - x <= reach]
        nearest = [*((at, -0.7) for at in ahead[-1:]), *((at, 0.7) for at in behind[:1])]
        for at, side in nearest:
            yield (x + side * tire, z + 1.7 * tire), (at, height_of(found, row.step.deck, at))
