"""The drawing sheet of a unit (plan above, driver's side below, at the same x), its cover view, and the walk alone."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from sendoff.asbuilt.unit import UnitStation
from sendoff.drawings import anchors, dimensions
from sendoff.drawings.lettering import fitting_points, lines_of, width_mm
from sendoff.drawings.projection import Projection
from sendoff.drawings.room import Ink, free_spot
from sendoff.drawings.shapes import kind_of, measure
from sendoff.drawings.small import remoteness
from sendoff.drawings.svg import DIMENSION, EDGE, QUIET, RING, WHITE, Canvas, Drawing, Point
from sendoff.drawings.views import AT_360_PX, MOVED, ON_SHEET, Style, Views, ground, paint, targets
from sendoff.drawings.walk import GAP_MM, RING_MM, First, Lap, choose_targets, draw_lap, spread
from sendoff.phrases import say
from sendoff.units import System

SCALES: Final[dict[System, tuple[int, ...]]] = {
    "us": (12, 16, 24, 32, 48, 64, 96, 128, 192),
    "metric": (10, 15, 20, 25, 40, 50, 75, 100, 125, 200),
}
"""Scales of the draftsman's rule, largest drawing first."""
INCH_A_FOOT: Final = {
    12: "1", 16: "3/4", 24: "1/2", 32: "3/8", 48: "1/4", 64: "3/16", 96: "1/8", 128: "3/32", 192: "1/16",
}  # fmt: skip
SHEET_MM: Final = (263.0, 193.0)
"""Landscape Letter less 8 mm at the sides, 9 mm above and 13 mm with the foot line below."""
ASIDE_MM: Final = 11.5
"""Between trailer and walk."""
_TITLE_MM: Final = (61.0, 27.0)
_ROW_MM: Final = (6.4, 5.4)
"""Between the rows of the station list: the closer one only where the other fits at no scale."""
_CHAIN_MM: Final = 6.2
_LIST_POINTS: Final = (9.5, 9.0, 8.5, 8.0)
_LIST_RING_MM: Final = 2.4


def walk_first(views: Views) -> First:
    """Return the side of the trailer this unit's walk goes down first."""
    for station in views.unit.stations:
        if station.side == "left" or station.side == "right":  # noqa: PLR1714 mypy narrows by these only
            return station.side
    return "left"


def scale_words(scale: int, language: str, system: System) -> str:
    """Return a scale as a title block says it."""
    if system == "us" and scale in INCH_A_FOOT:
        return say("drawing.rule", language, ratio=f"1:{scale}", inch=INCH_A_FOOT[scale])
    return f"1:{scale}"


# ── the cover ───────────────────────────────────────────────────────────────────────────────────────────────────────


def cover(
    views: Views, language: str, system: System, width_mm_: float = 184.0, most_mm: float = 78.0
) -> Drawing:
    """Return the large side view of the cover, at a scale of the rule."""
    low, high = views.geometry.front_x_m, views.rear_m
    scale = next(
        (
            scale
            for scale in SCALES[system]
            if (high - low) * 1000 / scale <= width_mm_ - 6 and views.highest_m * 1000 / scale <= most_mm - 3
        ),
        SCALES[system][-1],
    )
    mm = 1000 / scale
    tall = views.highest_m * mm + 2.0
    canvas = Canvas(width_mm_, tall)
    at = Projection(mm, ((width_mm_ - (high + low) * mm) / 2, tall - ON_SHEET.ground - 0.1))
    paint(canvas, views.side, at, ON_SHEET, ghosts=False)
    ground(canvas, at, 0.4, width_mm_ - 0.4, ON_SHEET)
    return canvas.done(f"1:{scale}", say("drawing.shows.side", language, type=views.unit.type_name[language]))


# ── stations on the walk ────────────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class Standing:
    """A station standing on the lap."""

    number: int
    along: float
    ring: Point
    target: Point


def stand(views: Views, at: Projection, lap: Lap, gap: float = GAP_MM) -> list[Standing]:
    """Return where each station stands on the lap and what its leader points at."""
    stations = views.unit.stations
    wishes = []
    for station in stations:
        near = _spots(views, station)
        aim = near[0] if near else (station.x_m, station.y_m)
        x = station.x_m if station.side in {"left", "right", "center"} else aim[0]
        wishes.append(lap.wish(station.side, at((x, aim[1]))))
    alongs = spread(wishes, gap, 0.0, lap.length - gap)
    rings = [lap.at(along)[0] for along in alongs]
    options = [_candidates(views, station, at, ring) for station, ring in zip(stations, rings, strict=True)]
    stubs = [_stub(views, lap, at, along, ring) for along, ring in zip(alongs, rings, strict=True)]
    aims = choose_targets(rings, options, stubs)
    return [
        Standing(number, along, ring, aim)
        for number, (along, ring, aim) in enumerate(zip(alongs, rings, aims, strict=True), start=1)
    ]


def _spots(views: Views, station: UnitStation) -> list[tuple[float, float]]:
    """Return x and y of the parts of a station, those of its first slots and on its own side first."""
    first = {slot: rank for rank, slot in enumerate(station.slots)}
    ranked = []
    for part, place in targets(views.unit, station.id):
        x, y = anchors.above(views.unit, part, place)
        away = (station.side == "left" and y > 0.05) or (station.side == "right" and y < -0.05)
        ranked.append((away, first[part.slot], remoteness(views, station, x), place.id, (x, y)))
    return [spot for *_, spot in sorted(ranked)]


def _candidates(views: Views, station: UnitStation, at: Projection, ring: Point) -> list[Point]:
    """Return what a station's leader may point at, best first."""
    spots = [at(spot) for spot in _spots(views, station)]
    order = {spot: rank for rank, spot in reversed(list(enumerate(spots)))}
    along = 1 if station.side in {"front", "rear"} else 0
    return sorted(order, key=lambda spot: (order[spot] * 6.0 + abs(spot[along] - ring[along]) * 0.6, spot))


def _stub(views: Views, lap: Lap, at: Projection, along: float, ring: Point) -> Point:
    """Return the end of a short leader straight in from a ring, to where the trailer is widest or ends."""
    _, (dx, dy) = lap.at(along)
    inward = (-dy, dx) if lap.first == "right" else (dy, -dx)
    geometry = views.geometry
    half = geometry.overall_width_m / 2
    (left, low), (right, high) = at((geometry.front_x_m, -half)), at((views.rear_m, half))
    reach = ASIDE_MM
    if abs(inward[0]) > abs(inward[1]):
        reach = left - ring[0] if inward[0] > 0 else ring[0] - right
    else:
        reach = ring[1] - low if inward[1] < 0 else high - ring[1]
    reach = max(reach, RING_MM + 2.0)
    return ring[0] + inward[0] * reach, ring[1] + inward[1] * reach


def draw_walk(canvas: Canvas, lap: Lap, standing: Sequence[Standing]) -> None:
    """Draw the lap, the leaders, then the rings, so that no line runs over a figure."""
    draw_lap(canvas, lap, [stop.along for stop in standing])
    for stop in standing:
        canvas.leader(stop.ring, stop.target)
    for stop in standing:
        canvas.ring(stop.ring, str(stop.number), RING_MM)


# ── the sheet ───────────────────────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where things lie on the sheet at one scale."""

    scale: int
    left: float
    """Left end of the lap."""
    plan_middle: float
    ground: float
    rows: int
    """Chains of dimensions under the side view."""
    list_at: Point
    columns: tuple[float, ...]
    """Widths of the columns of the station list."""
    points: float
    """Size of its words."""
    row: float
    """Between its rows."""

    @property
    def mm(self) -> float:
        """Millimeters of paper a meter."""
        return 1000 / self.scale


def _columns(names: Sequence[str], count: int, points: float) -> tuple[float, ...]:
    """Return how wide each of so many columns of the station list must be."""
    rows = math.ceil(len(names) / count)
    parts = [names[start : start + rows] for start in range(0, len(names), rows)]
    return tuple(max(width_mm(name, points) for name in part) + 2 * _LIST_RING_MM + 5.4 for part in parts)


def _lists(names: Sequence[str], room: float, points: float) -> tuple[float, ...]:
    """Return the widths of as many columns as fit a room side by side."""
    for count in range(min(len(names), 6), 1, -1):
        columns = _columns(names, count, points)
        if sum(columns) <= room and len(columns) == count:
            return columns
    return _columns(names, 1, points)


def _layouts(views: Views, names: Sequence[str], system: System) -> Iterator[_Layout]:
    """Yield layouts that fit, the largest drawing first; the list below before the list beside."""
    wide, tall = SHEET_MM
    geometry = views.geometry
    lists = [
        (columns, at_side, points)
        for points in _LIST_POINTS
        for columns, at_side in (
            (_lists(names, wide - _TITLE_MM[0] - 5.0, points), False),
            (_columns(names, 1, points), True),
        )
    ]
    for row, scale in itertools.product(_ROW_MM, SCALES[system]):
        mm = 1000 / scale
        ghost = max(views.reach_m[1] - views.rear_m, 0.0) * mm
        views_wide = (
            2 * (RING_MM + ASIDE_MM) + geometry.overall_length_m * mm + max(8.6, ghost + 9.5 - ASIDE_MM)
        )
        plan_tall = geometry.overall_width_m * mm + 2 * ASIDE_MM
        high = views.highest_m * mm
        for (columns, at_side, points), rows in itertools.product(lists, (3, 2)):
            depth = math.ceil(len(names) / len(columns)) * row
            aside = max(columns[0], _TITLE_MM[0]) + 4 if at_side else 0.0
            under = max(depth, _TITLE_MM[1]) + 3 if not at_side else 0.0
            views_tall = 8.4 + plan_tall + RING_MM + 2.5 + high + 4.0 + _CHAIN_MM * rows
            spare_wide, spare_tall = wide - aside - views_wide, tall - under - views_tall
            if min(spare_wide, spare_tall) < 0 or (at_side and depth + _TITLE_MM[1] + 6 > tall):
                continue
            middle = 8.4 + spare_tall * 0.2 + plan_tall / 2
            yield _Layout(
                scale,
                RING_MM + 0.4 + spare_wide / 2,
                middle,
                middle + plan_tall / 2 + RING_MM + 2.5 + spare_tall * 0.35 + high,
                rows,
                (wide - aside + 4, 1.0) if at_side else (0.4, tall - max(depth, _TITLE_MM[1])),
                columns,
                points,
                row,
            )


def sheet(views: Views, language: str, system: System) -> Drawing:
    """Return the landscape drawing sheet: plan with the walk, side view with dimensions, stations, scale."""
    unit, geometry = views.unit, views.geometry
    names = [station.name[language] for station in unit.stations]
    layout = next(_layouts(views, names, system), None)
    if layout is None:
        raise ValueError(f"{unit.type} does not fit a sheet at any scale of the rule")
    canvas = Canvas(*SHEET_MM)
    mm = layout.mm
    zero = layout.left + ASIDE_MM - geometry.front_x_m * mm
    half = geometry.overall_width_m / 2 * mm
    lap = Lap(
        layout.left,
        layout.plan_middle - half - ASIDE_MM,
        zero + views.rear_m * mm + ASIDE_MM,
        layout.plan_middle + half + ASIDE_MM,
        walk_first(views),
    )
    plan, side = Projection(mm, (zero, layout.plan_middle)), Projection(mm, (zero, layout.ground))
    paint(canvas, views.plan, plan, ON_SHEET)
    _plan_dimensions(canvas, views, plan, lap, system)
    standing = stand(views, plan, lap)
    draw_walk(canvas, lap, standing)
    paint(canvas, views.side, side, ON_SHEET)
    ghost = max(views.reach_m[1], views.rear_m)
    ground(canvas, side, lap.left - RING_MM, zero + ghost * mm + 9, ON_SHEET)
    _side_dimensions(canvas, views, side, system, layout.rows)
    _ghost_words(canvas, views, side, language)
    _station_list(canvas, names, layout)
    _title_block(canvas, views, layout, language, system)
    told = "; ".join(f"{number} {name}" for number, name in enumerate(names, start=1))
    return canvas.done(
        f"1:{layout.scale}",
        say("drawing.shows.sheet", language, type=unit.type_name[language], stations=told),
    )


def coupling_height_m(views: Views) -> float:
    """Return how high the unit couples: what its kingpin's plate says where it has one, else the type's height."""
    coupler = views.unit.part("coupler")
    plate = measure(coupler, "plate_height", 0.0) if coupler is not None else 0.0
    return plate or views.geometry.coupling_height_m


def _plan_dimensions(canvas: Canvas, views: Views, at: Projection, lap: Lap, system: System) -> None:
    geometry = views.geometry
    ends = [geometry.front_x_m, views.rear_m]
    half = geometry.overall_width_m / 2
    deck_edge = at((0.0, half))[1]
    y = lap.top - RING_MM - 2.6
    dimensions.chains(canvas, [ends], lambda x: at((x, 0.0))[0], (y, 0.0), deck_edge - 1.5, system)
    low, high = at((views.rear_m, -half)), at((views.rear_m, half))
    words = dimensions.said(-half, half, system)
    dimensions.upright(canvas, low, high, lap.right + RING_MM + 5.0, words)


def _side_dimensions(canvas: Canvas, views: Views, at: Projection, system: System, rows: int) -> None:
    geometry = views.geometry
    level = at((0.0, 0.0))[1]
    axles = geometry.axles.x_m
    decks = sorted({edge for deck in geometry.decks for edge in (deck.x0_m, deck.x1_m)})
    merged = [edge for edge, before in zip(decks, [-9.9, *decks], strict=False) if edge - before > 0.05]
    if views.rear_m - merged[-1] < 0.05:
        merged[-1] = views.rear_m
    chains = [
        [0.0, *merged],
        [0.0, *axles, views.rear_m],
        [0.0, sum(axles) / len(axles), views.rear_m] if len(axles) > 1 else [0.0, views.rear_m],
    ]
    dimensions.chains(
        canvas, chains[:rows], lambda x: at((x, 0.0))[0], (level + 6.2, _CHAIN_MM), level + 1.6, system
    )
    coupled_at = coupling_height_m(views)
    coupling = at((0.0, coupled_at))
    left = at((geometry.front_x_m, 0.0))[0] - 5.5
    words = dimensions.said(0.0, coupled_at, system)
    dimensions.upright(
        canvas, (coupling[0], level), (coupling[0] - 1.6, coupling[1]), left, words, from_low=False
    )
    deck = max(geometry.decks, key=lambda deck: deck.x1_m)
    right = at((max(views.reach_m[1], views.rear_m), 0.0))[0] + 5.5
    top = at((views.rear_m, deck.height_rear_m))
    words = dimensions.said(0.0, deck.height_rear_m, system)
    dimensions.upright(canvas, (right, level), top, right, words, from_low=False)


def _ghost_words(canvas: Canvas, views: Views, at: Projection, language: str) -> None:
    """Name what is drawn as a ghost, where nothing else is drawn."""
    named = [(f"{MOVED}{hinge.id}", hinge.name[language]) for hinge in views.geometry.hinges]
    named += [
        (part.slot, say("drawing.ramps_out", language))
        for part in views.unit.parts
        if kind_of(part) == "ramp"
    ]
    taken: list[tuple[Point, Point]] = []
    for slot, words in named:
        ghosts = [mark for mark in views.side if mark.line == "ghost" and mark.slot == slot]
        points = [at(point) for mark in ghosts for point in mark.points]
        if points:
            _ghost_word(canvas, views, at, words, points, taken)


def _ghost_word(
    canvas: Canvas,
    views: Views,
    at: Projection,
    words: str,
    points: Sequence[Point],
    taken: list[tuple[Point, Point]],
) -> None:
    size = (width_mm(words, 8.0) + 1.0, 3.0)
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    level, deck = at((0.0, 0.0))[1], max(views.geometry.decks, key=lambda deck: deck.x1_m)
    witness = at((0.0, deck.height_rear_m))[1]
    aside = at((max(views.reach_m[1], views.rear_m), 0.0))[0] - 1.0
    behind = at((views.rear_m, 0.0))[0]
    lines = [((behind, witness), (SHEET_MM[0], witness)), ((aside, 0.0), (aside, level)), *taken]
    spot = free_spot(Ink(views.side, at, ON_SHEET.level, lines), size, middle, 26.0, floor=level - 0.6)
    if spot is None:
        return
    taken.append(((spot[0] - size[0] / 2, spot[1]), (spot[0] + size[0] / 2, spot[1])))
    near = min(points, key=lambda point: math.dist(point, spot))
    canvas.text((spot[0], spot[1] + 1.0), words, 8.0, anchor="middle", italic=True)
    if math.dist(near, spot) > size[0] / 2 + 4.0:
        edge = (spot[0] + math.copysign(size[0] / 2 + 0.6, near[0] - spot[0]), spot[1])
        canvas.line(edge, near, DIMENSION)


def _station_list(canvas: Canvas, names: Sequence[str], layout: _Layout) -> None:
    rows = math.ceil(len(names) / len(layout.columns))
    for position, name in enumerate(names):
        across, down = divmod(position, rows)
        x = layout.list_at[0] + _LIST_RING_MM + 0.2 + sum(layout.columns[:across])
        y = layout.list_at[1] + (down + 0.5) * layout.row
        canvas.ring((x, y), str(position + 1), _LIST_RING_MM, RING, 8.0)
        canvas.text((x + _LIST_RING_MM + 2.0, y + 1.1), name, layout.points)


def _title_block(canvas: Canvas, views: Views, layout: _Layout, language: str, system: System) -> None:
    wide, tall = _TITLE_MM
    x, y = SHEET_MM[0] - wide, SHEET_MM[1] - tall
    split = 24.0
    canvas.rect((x, y), wide - 0.2, 20.5, EDGE, WHITE)
    canvas.line((x + split, y), (x + split, y + 9.3))
    canvas.line((x, y + 9.3), (x + wide - 0.2, y + 9.3))
    scale = scale_words(layout.scale, language, system)
    for left, label, words, room in (
        (x + 1.8, "unit", views.unit.unit, split - 3.4),
        (x + split + 1.8, "scale", scale, wide - split - 3.6),
    ):
        canvas.text((left, y + 3.5), say(f"drawing.{label}", language), 7.5, color=QUIET)
        canvas.text((left, y + 7.7), words, fitting_points(words, room, 9.5, 600), weight=600)
    canvas.text((x + 1.8, y + 12.7), say("drawing.walk", language), 7.5, color=QUIET)
    told = say(f"drawing.walk_{walk_first(views)}_first", language)
    for number, line in enumerate(lines_of(told, wide - 3.6, 8.0, 600)):
        canvas.text((x + 1.8, y + 16.0 + 3.2 * number), line, 8.0, weight=600)
    dimensions.scale_bar(canvas, (x, y + 23.6), layout.mm, system, wide)


# ── the walk alone ──────────────────────────────────────────────────────────────────────────────────────────────────


def walk_map(views: Views, language: str, width_mm_: float = 184.0, style: Style = AT_360_PX) -> Drawing:
    """Return the plan with the walk alone, for a screen or a page of its own."""
    geometry = views.geometry
    mm = (width_mm_ - 2 * (ASIDE_MM + RING_MM + 0.4)) / geometry.overall_length_m
    half = geometry.overall_width_m / 2 * mm
    tall = 2 * (half + ASIDE_MM + RING_MM + 0.4)
    canvas = Canvas(width_mm_, tall)
    at = Projection(mm, (ASIDE_MM + RING_MM + 0.4 - geometry.front_x_m * mm, tall / 2))
    edge = RING_MM + 0.4
    lap = Lap(edge, edge, width_mm_ - edge, tall - edge, walk_first(views))
    paint(canvas, views.plan, at, style)
    draw_walk(canvas, lap, stand(views, at, lap, 9.0))
    told = "; ".join(
        f"{number} {station.name[language]}" for number, station in enumerate(views.unit.stations, start=1)
    )
    return canvas.done(
        "", say("drawing.shows.map", language, type=views.unit.type_name[language], stations=told)
    )
