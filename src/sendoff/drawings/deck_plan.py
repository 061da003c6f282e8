"""The deck plan drawn to scale: every item where it stands, from the side and from above, and what bears how much.

Above the side view each item's number and weight stand over its center of mass; under the ground the arrows of the
coupling, the axles and the truck, to one scale of weight, with the share of the limit that ends first. In the plan the
driver's side lies at the bottom; black dots are tie-down points.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from sendoff.calc.deck_plan import Item, LoadingStep, Share
from sendoff.display import figure, show
from sendoff.drawings import cargo_shapes
from sendoff.drawings.cargo_shapes import HEIGHT_M, Looks, Riding
from sendoff.drawings.deck_truck import paint_truck, truck_of
from sendoff.drawings.lettering import width_mm
from sendoff.drawings.marks import SMALL, Mark, Pair, area, stroke
from sendoff.drawings.sheets import SCALES, scale_words
from sendoff.drawings.svg import DIMENSION, INK, MID, PALE, QUIET, WHITE, Canvas, Drawing, Pen, Point
from sendoff.drawings.views import ON_SHEET, Projection, Style, Views, ground, paint
from sendoff.findings.deck_answer import DeckAnswer
from sendoff.findings.deck_telling import Teller
from sendoff.phrases import say
from sendoff.units import System, from_si, to_si

WIDTH_MM: Final = 184.0
SIDE_MM: Final = 3.0
TALL_MM: Final = 95.0
"""What side view and plan may take of the paper's height together."""
STYLE: Final = Style(
    SMALL,
    {
        "outline": 0.4,
        "edge": 0.25,
        "thin": 0.15,
        "hidden": 0.15,
        "ghost": 0.15,
        "detail": 0.13,
        "center": 0.13,
    },
    ON_SHEET.ground,
)
DISC_MM: Final = 2.4
LEAST_DIMENSION_M: Final = 0.1
KEY_MM: Final = 5.0
LABEL_MM: Final = 4.0
LONGEST_MM: Final = 16.0
"""The longest arrow."""
STEPS: Final = (25, 50, 75, 100, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1500, 2000)
"""What one millimeter of an arrow may stand for, in the reader's unit of weight."""
STRAP: Final = Pen(0.45)
REACH_M: Final = 1.5
"""How far a strap is drawn where nobody told its reach."""
DASHED: Final = Pen(0.18, (1.6, 0.8))


@dataclass(frozen=True, slots=True)
class Standing:
    """An item where it is drawn."""

    number: int
    item: Item
    step: LoadingStep
    riding: Riding
    front: Pair
    """Its forward-most end on the deck: x and z."""
    slope_rad: float
    center_x_m: float
    width_m: float | None

    @property
    def marks(self) -> list[Mark]:
        """Return it as painted."""
        backward = self.step.facing == "backward"
        return [
            cargo_shapes.stood(mark, self.front, self.slope_rad, self.item.length_m, backward=backward)
            for mark in cargo_shapes.marks_of(self.riding)
        ]

    @property
    def rear_m(self) -> float:
        """Where it ends."""
        return self.step.front_m + self.item.length_m

    def wheels(self) -> list[Pair]:
        """Return where it bears on the deck."""
        sine, cosine = math.sin(self.slope_rad), math.cos(self.slope_rad)
        return [
            (self.front[0] + along * cosine, self.front[1] - along * sine)
            for along in sorted(self.item.offsets_m(self.step.facing))
        ]


def standing_of(found: DeckAnswer) -> list[Standing]:
    """Return all items where they stand, in the order of loading."""
    items = {item.name: item for item in found.problem.items}
    rows = []
    for number, step in enumerate(found.plan.loading, start=1):
        item = items[step.item]
        offsets = item.offsets_m(step.facing)
        first, last = step.front_m + min(offsets), step.front_m + max(offsets)
        low, high = _height(found, step.deck, first), _height(found, step.deck, last)
        slope = math.atan2(low - high, last - first) if last > first else 0.0
        rows.append(
            Standing(
                number,
                item,
                step,
                _riding(found, item),
                (step.front_m, low + (first - step.front_m) * math.tan(slope)),
                slope,
                step.front_m + sum(c.share_ratio * o for c, o in zip(item.contacts, offsets, strict=True)),
                item.width_m,
            )
        )
    return rows


def _riding(found: DeckAnswer, item: Item) -> Riding:
    told = next(row for row in found.case.cargo.items if row.id == item.name)
    tracks = told.tracks_length is not None
    looks: Looks = told.drawn_as or ("cargo" if told.set_down else "machine" if tracks else "car")
    wheels = tuple(contact.offset_m for contact in item.contacts)
    return Riding(looks, item.length_m, item.height_m or HEIGHT_M[looks], wheels, tracks)


def _height(found: DeckAnswer, surface: str, x_m: float) -> float:
    """Return how high a surface stands at a place; beyond its ends, as at its ends."""
    geometry = found.case.unit.geometry
    way = found.case.way(found.way)
    decks = [*geometry.decks, *(way.decks if way is not None else ())]
    row = [deck for deck in decks if deck.id in surface.split("+")]
    deck = min(row, key=lambda deck: max(deck.x0_m - x_m, x_m - deck.x1_m, 0.0))
    share = min(max((x_m - deck.x0_m) / (deck.x1_m - deck.x0_m), 0.0), 1.0)
    return deck.height_m + (deck.height_rear_m - deck.height_m) * share


# ── the drawing ─────────────────────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Forces:
    """One scale of arrows, and the words beside them."""

    kg_a_mm: float
    told: str


class Sheet:
    """Where everything of one drawing lies on paper."""

    def __init__(self, found: DeckAnswer, language: str, system: System) -> None:
        self.found, self.language, self.system = found, language, system
        self.views = Views(found.case.unit)
        self.teller = Teller(found, language, system)
        self.rows = standing_of(found)
        self.truck = truck_of(found.case)
        fronts = [row.step.front_m for row in self.rows]
        if self.truck is not None:
            fronts.append(self.truck.front_m)
        low = min([self.views.geometry.front_x_m, *fronts])
        high = max([self.views.rear_m, *(row.rear_m for row in self.rows)])
        tops = [mark.spread()[3] for row in self.rows for mark in row.marks]
        self.top_m = max(
            [self.views.highest_m, *tops, *([self.truck.top_m] if self.truck is not None else [])]
        )
        self.half_m = (
            max([self.views.geometry.overall_width_m, *(row.width_m or 0.0 for row in self.rows)]) / 2
        )
        scales = [
            scale
            for scale in SCALES[system]
            if (high - low) * 1000 / scale <= WIDTH_MM - 2 * SIDE_MM
            and (self.top_m + 2 * self.half_m) * 1000 / scale <= TALL_MM
        ]
        self.scale = scales[0] if scales else SCALES[system][-1]
        self.mm = 1000 / self.scale
        self.zero_x = (WIDTH_MM - (high - low) * self.mm) / 2 - low * self.mm
        self.ends = (self.zero_x + low * self.mm, self.zero_x + high * self.mm)

    def x(self, at_m: float) -> float:
        """Return where a place along the trailer lies on paper."""
        return self.zero_x + at_m * self.mm


def deck_drawing(found: DeckAnswer, language: str, system: System) -> Drawing:
    """Return the drawing of an answer's arrangement."""
    sheet = Sheet(found, language, system)
    forces = _forces(sheet)
    labels = _label_rows(sheet)
    ground_y = labels * (LABEL_MM + 0.6) + LONGEST_MM + 3.0 + sheet.top_m * sheet.mm
    half = sheet.half_m * sheet.mm
    below = 34.0 + (20.0 if sheet.truck is not None else 0.0)
    plan_y = ground_y + below + half
    canvas = Canvas(WIDTH_MM, plan_y + half + _measures_tall(sheet) + KEY_MM * len(sheet.rows) + 9.0)
    side = Projection(sheet.mm, (sheet.zero_x, ground_y))
    _paint_side(canvas, sheet, side)
    ground(canvas, side, 0.5, WIDTH_MM - 0.5, STYLE)
    _weights(canvas, sheet, side, forces, labels)
    _bearings(canvas, sheet, ground_y, forces)
    _paint_plan(canvas, sheet, Projection(sheet.mm, (sheet.zero_x, plan_y)))
    y = _measures(canvas, sheet, plan_y + half)
    _key(canvas, sheet, y)
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
                low = _height(found, row.step.deck, at)
                yield (at, low + row.riding.height_m), (at, low)
        return
    ends = [row.wheels()[0], row.wheels()[-1]]
    tire = min(row.riding.height_m * 0.2, 0.35) if row.riding.on_tracks else row.riding.tire_m
    for x, z in ends:
        ahead = [at for at in points if 0 < x - at <= reach]
        behind = [at for at in points if 0 <= at - x <= reach]
        nearest = [*((at, -0.7) for at in ahead[-1:]), *((at, 0.7) for at in behind[:1])]
        for at, side in nearest:
            yield (x + side * tire, z + 1.7 * tire), (at, _height(found, row.step.deck, at))


# ── weights and what bears them ─────────────────────────────────────────────────────────────────────────────────────


def _forces(sheet: Sheet) -> Forces:
    """Return the scale of the arrows: the longest is no longer than there is room for."""
    loads = [row.item.mass_kg for row in sheet.rows]
    loads += [abs(load) for _, load, _ in _bearing_loads(sheet)]
    unit = "lb" if sheet.system == "us" else "kg"
    most = from_si(max(loads), unit, "mass")
    step = next((step for step in STEPS if most / step <= LONGEST_MM), STEPS[-1])
    return Forces(to_si(step, unit, "mass"), say("drawing.arrows", sheet.language, weight=f"{step:,} {unit}"))


def _labels(sheet: Sheet) -> list[tuple[Standing, str, float]]:
    found = []
    for row in sheet.rows:
        words = str(show("mass", row.item.mass_kg, sheet.system, "demand"))
        found.append((row, words, 2 * DISC_MM + 1.2 + width_mm(words, 8.5)))
    return found


def _rows_of(spans: Sequence[tuple[float, float]]) -> list[int]:
    """Return in which row each label stands so that none touches another, the lowest row first."""
    free: list[float] = []
    rows = []
    for left, right in spans:
        row = next((number for number, end in enumerate(free) if end + 1.2 <= left), len(free))
        if row == len(free):
            free.append(right)
        free[row] = right
        rows.append(row)
    return rows


def _label_places(sheet: Sheet) -> list[tuple[Standing, str, float, int]]:
    """Return each item's label with the middle it stands at and its row."""
    labels = sorted(_labels(sheet), key=lambda label: label[0].center_x_m)
    spans = []
    for row, _, wide in labels:
        middle = min(max(sheet.x(row.center_x_m), wide / 2 + 0.5), WIDTH_MM - wide / 2 - 0.5)
        spans.append((middle - wide / 2, middle + wide / 2))
    levels = _rows_of(spans)
    return [
        (row, words, left, level)
        for (row, words, _), (left, _), level in zip(labels, spans, levels, strict=True)
    ]


def _label_rows(sheet: Sheet) -> int:
    return max((level for *_, level in _label_places(sheet)), default=0) + 1


def _weights(canvas: Canvas, sheet: Sheet, at: Projection, forces: Forces, rows: int) -> None:
    """Draw each item's arrow over its center of mass, and its number and weight above it."""
    bottom = rows * (LABEL_MM + 0.6)
    for row, words, left, level in _label_places(sheet):
        x = sheet.x(row.center_x_m)
        top = max(mark.spread()[3] for mark in row.marks)
        tip = at((0.0, top))[1] - 1.2
        long = max(row.item.mass_kg / forces.kg_a_mm, 2.2)
        y = bottom - (level + 0.5) * (LABEL_MM + 0.6)
        canvas.line((x, y + DISC_MM), (x, tip - long), Pen(0.13))
        canvas.line((x, tip - long), (x, tip - 1.5), Pen(0.6))
        canvas.arrow((x, tip), (0, 1), 2.0, 0.8)
        wide = 2 * DISC_MM + 1.2 + width_mm(words, 8.5)
        canvas.rect((left - 0.3, y - DISC_MM), wide + 0.6, 2 * DISC_MM, None, WHITE)
        canvas.disc((left + DISC_MM, y), str(row.number), DISC_MM, 8.5)
        canvas.text((left + 2 * DISC_MM + 1.2, y + 1.05), words, 8.5)


def _worst(shares: Mapping[str, Share], names: Sequence[str]) -> str:
    """Return the share of the limit that ends first, in percent; nothing where there is none."""
    rows = [shares[name] for name in names if name in shares and not shares[name].least]
    if not rows:
        return ""
    return f"{figure(max(row.load_kg / row.limit_kg for row in rows) * 100, 1, 'demand')} %"


def _bearing_loads(sheet: Sheet) -> list[tuple[float, float, str]]:
    """Return place, load and name of what bears the trailer: coupling, axles."""
    looked_at = sheet.found.looked_at
    if looked_at is None:
        return []
    shares = {share.name: share for share in looked_at.shares}
    bent = {share.name: share for share in looked_at.shares_flexible}
    trailer = sheet.found.problem.trailer
    axles = [
        max((row[f"axle_{n}"].load_kg for row in (shares, bent) if f"axle_{n}" in row), default=0.0)
        for n in range(1, len(trailer.axle_m) + 1)
    ]
    gross = trailer.empty_mass_kg + looked_at.payload_kg
    pin = gross - sum(shares[f"axle_{n}"].load_kg for n in range(1, len(axles) + 1))
    pin = max(pin, bent["pin_weight"].load_kg) if "pin_weight" in bent else pin
    found = [(0.0, pin, "coupling")]
    found += [
        (at, load, f"axle_{n}") for n, (at, load) in enumerate(zip(trailer.axle_m, axles, strict=True), 1)
    ]
    truck = sheet.found.problem.truck
    if truck is not None and sheet.truck is not None:
        onto_rear = -truck.front_axle_m / (truck.rear_axle_m - truck.front_axle_m)
        found.append((truck.front_axle_m, truck.front_empty_kg + pin * (1 - onto_rear), "truck_front"))
        found.append((truck.rear_axle_m, truck.rear_empty_kg + pin * onto_rear, "truck_rear"))
    return found


def _bearings(canvas: Canvas, sheet: Sheet, ground_y: float, forces: Forces) -> None:
    """Draw the arrows under the ground: coupling and axles, and lower down the truck's axles."""
    looked_at = sheet.found.looked_at
    if looked_at is None:
        return
    shares = {share.name: share for share in looked_at.shares}
    shares |= {
        share.name: share
        for share in looked_at.shares_flexible
        if share.name not in shares or share.load_kg > shares[share.name].load_kg
    }
    loads = _bearing_loads(sheet)
    own = [row for row in loads if not row[2].startswith("truck")]
    truck = [row for row in loads if row[2].startswith("truck")]
    y = ground_y + 1.2 + LONGEST_MM + 3.6
    for at_m, load, name in truck:
        x, top = sheet.x(at_m), ground_y + 1.2
        if name == "truck_rear":  # too near the coupling to stand beside it
            top = y + 6.0
            canvas.line((x, ground_y + 1.2), (x, top), DASHED)
        _up(canvas, x, top, load, forces)
        words = say(f"drawing.{name}", sheet.language)
        _told_at(canvas, sheet, x, top + LONGEST_MM + 2.4, words, load, _worst(shares, (name,)))
    for at_m, load, _ in own:
        _up(canvas, sheet.x(at_m), ground_y + 1.2, load, forces)
    coupling = _worst(shares, ("pin_weight", "coupling", "pin_share_most"))
    _told_at(canvas, sheet, sheet.x(0.0), y, say("drawing.coupling", sheet.language), own[0][1], coupling)
    _axle_words(canvas, sheet, y, own[1:], shares)
    legend = f"{say('drawing.share_of_limit', sheet.language)} · {forces.told}"
    canvas.text((WIDTH_MM - 0.5, y + 9.0), legend, 7.5, anchor="end", color=QUIET)


def _up(canvas: Canvas, x: float, top: float, load_kg: float, forces: Forces) -> None:
    """Draw an arrow up to the ground; a load that lifts points down."""
    long = max(abs(load_kg) / forces.kg_a_mm, 2.2)
    if load_kg >= 0:
        canvas.line((x, top + 1.5), (x, top + long), Pen(0.6))
        canvas.arrow((x, top), (0, -1), 2.0, 0.8)
    else:
        canvas.line((x, top), (x, top + long - 1.5), Pen(0.6))
        canvas.arrow((x, top + long), (0, 1), 2.0, 0.8)


def _told_at(canvas: Canvas, sheet: Sheet, x: float, y: float, name: str, load_kg: float, share: str) -> None:
    """Write a name, and under it a load with its share of the limit, centered under an arrow, within the paper."""
    load = str(show("mass", load_kg, sheet.system, "demand"))
    told = f"{load} · {share}" if share else load
    wide = max(width_mm(name, 8.0), width_mm(told, 8.5, 600))
    middle = min(max(x, wide / 2 + 0.5), WIDTH_MM - wide / 2 - 0.5)
    canvas.rect((middle - wide / 2 - 0.8, y - 2.8), wide + 1.6, 7.0, None, WHITE)
    canvas.words_in((middle, y - 1.2), name, 8.0)
    canvas.words_in((middle, y + 2.4), told, 8.5, weight=600)


def _axle_words(
    canvas: Canvas,
    sheet: Sheet,
    y: float,
    axles: Sequence[tuple[float, float, str]],
    shares: Mapping[str, Share],
) -> None:
    """Write what the axles bear: once for all where they bear alike, else the most first."""
    middle = sheet.x(sum(at for at, _, _ in axles) / len(axles))
    numbers = range(1, len(axles) + 1)
    names = [name for n in numbers for name in (f"axle_{n}", f"tires_{n}")]
    loads = [load for _, load, _ in axles]
    alike = max(loads) - min(loads) < 1e-6
    if len(axles) == 1:
        title = say("drawing.axle", sheet.language)
    elif alike:
        title = say("drawing.axles_each", sheet.language, n=len(axles))
    else:
        title = say("drawing.axles_most", sheet.language, n=len(axles))
    _told_at(canvas, sheet, middle, y, title, max(loads), _worst(shares, names))


# ── the plan ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _paint_plan(canvas: Canvas, sheet: Sheet, at: Projection) -> None:
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


def _measures_tall(sheet: Sheet) -> float:
    return 4.5 + 5.0 * len(_lines_of_places(sheet))


def _measures(canvas: Canvas, sheet: Sheet, low: float) -> float:
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
    return low + _measures_tall(sheet)


def _key(canvas: Canvas, sheet: Sheet, y: float) -> None:
    """Write who is who: number, name, weight, way round, place; and how to read the drawing."""
    for row in sheet.rows:
        y += KEY_MM
        teller = sheet.teller
        place = next(place for place in teller.places() if place.number == row.number)
        canvas.disc((DISC_MM + 0.4, y - 1.2), str(row.number), 2.0, 7.5)
        canvas.text((6.4, y), place.name, 9.0, weight=600)
        x = 6.4 + width_mm(place.name, 9.0, 600) + 2.5
        where = teller.where(row.step)
        canvas.text((x, y), f"{place.mass} · {place.facing} · {where}", 9.0)
    words = scale_words(sheet.scale, sheet.language, sheet.system)
    canvas.text((WIDTH_MM - 0.5, y + 6.0), words, 8.0, anchor="end", color=QUIET)
    canvas.text((0.5, y + 6.0), say("drawing.deck_key", sheet.language), 7.5, color=QUIET)


# ── loading, step by step ───────────────────────────────────────────────────────────────────────────────────────────


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
    from dataclasses import replace

    for mark in marks:
        yield replace(mark, fill="mid") if dark and mark.fill == "pale" else mark
