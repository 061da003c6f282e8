"""Side and plan of a unit at any level of detail, all from its one geometry table.

Bodies are white and painted from back to front, so that what stands in front hides what stands behind; in the plan,
what lies under a deck or a fender is drawn over it with hidden lines. x runs to the right, the coupling is on the left;
in the plan the driver's side lies at the bottom. The passenger side can be seen too: then the coupling is on the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Geometry, Member, Place
from sendoff.drawings import shapes, shapes_above, shapes_air, shapes_ramps
from sendoff.drawings.hoists import hoist, rises
from sendoff.drawings.marks import (
    FIGURE,
    LIST,
    SHEET,
    SMALL,
    TOP,
    Line,
    Mark,
    Pairs,
    area,
    block,
    inside,
    on,
    stroke,
    turned,
)
from sendoff.drawings.projection import Near, Projection
from sendoff.drawings.room import Ink
from sendoff.drawings.svg import INK, MID, PALE, WHITE, Canvas, Pen

SIDE: Final = shapes.SIDE | shapes_ramps.SIDE | shapes_air.SIDE
PLAN: Final = shapes_above.PLAN | shapes_ramps.PLAN | shapes_air.PLAN
ON_TOP: Final = shapes.ON_TOP | shapes_air.ON_TOP | shapes_ramps.ON_TOP
MOVED: Final = "moved:"
"""Before the id of a hinge: the slot of the marks that show its members where they lie in working position."""
BESIDE_M: Final = 0.9
"""A cylinder farther from the middle than this stands outside the rails."""
FILLS: Final = {"white": WHITE, "pale": PALE, "mid": MID, "ink": INK, "none": "none"}
_DASHES: Final[dict[Line, tuple[float, ...]]] = {
    "hidden": (1.6, 0.8),
    "ghost": (3.2, 0.7, 0.4, 0.7, 0.4, 0.7),
    "center": (4.0, 0.8, 0.5, 0.8),
}


@dataclass(frozen=True, slots=True)
class Style:
    """How finely a view is drawn, and with which pens."""

    level: int
    widths: Mapping[str, float]
    ground: float
    shrink: float = 1.0
    """Length of the dashes against those of the drawing sheet."""

    def pen(self, line: Line) -> Pen | None:
        """Return the pen of a line."""
        if line == "none":
            return None
        return Pen(self.widths[line], tuple(dash * self.shrink for dash in _DASHES.get(line, ())))


_SHEET_PENS: Final = {
    "outline": 0.50, "edge": 0.25, "thin": 0.18, "hidden": 0.18, "ghost": 0.18, "detail": 0.13, "center": 0.13,
}  # fmt: skip
_SMALL_PENS: Final = {
    "outline": 0.26, "edge": 0.15, "thin": 0.12, "hidden": 0.12, "ghost": 0.12, "detail": 0.10, "center": 0.10,
}  # fmt: skip
_SCREEN_PENS: Final = {
    "outline": 0.42, "edge": 0.24, "thin": 0.18, "hidden": 0.18, "ghost": 0.18, "detail": 0.13, "center": 0.13,
}  # fmt: skip
ON_SHEET: Final = Style(SHEET, _SHEET_PENS, 0.70)
ON_FIGURE: Final = Style(FIGURE, _SHEET_PENS, 0.70)
AT_FINE_FIGURE: Final = Style(FIGURE, _SMALL_PENS, 0.30, 0.6)
AT_60_MM: Final = Style(SMALL, _SMALL_PENS, 0.30, 0.6)
AT_360_PX: Final = Style(SMALL, _SCREEN_PENS, 0.45, 0.8)


class Views:
    """The marks of one unit's views, made when first asked for."""

    def __init__(self, unit: AsBuiltUnit) -> None:
        self.unit = unit
        self.geometry = unit.geometry
        self.sky: dict[Near, Ink] = {}
        """Ink of the side views at the size of locators, made when first asked for."""

    @cached_property
    def side(self) -> tuple[Mark, ...]:
        """Marks of the side view from the driver's side."""
        return tuple(_side_marks(self.unit, "left"))

    @cached_property
    def right_side(self) -> tuple[Mark, ...]:
        """Marks of the side view from the passenger side."""
        return tuple(_side_marks(self.unit, "right"))

    @cached_property
    def plan(self) -> tuple[Mark, ...]:
        """Marks of the plan."""
        return tuple(_plan_marks(self.unit))

    def beside(self, near: Near) -> tuple[Mark, ...]:
        """Return the marks of the side view from either side."""
        return self.side if near == "left" else self.right_side

    @cached_property
    def highest_m(self) -> float:
        """How high the drawn trailer stands in travel position."""
        return max(mark.spread()[3] for mark in self.side if mark.line not in {"ghost", "center"})

    @cached_property
    def reach_m(self) -> tuple[float, float]:
        """Least and most x that is drawn, what is lowered included."""
        spreads = [mark.spread() for mark in self.side]
        return min(spread[0] for spread in spreads), max(spread[1] for spread in spreads)

    @property
    def rear_m(self) -> float:
        """Where the trailer ends in travel position."""
        return self.geometry.front_x_m + self.geometry.overall_length_m


def paint(
    canvas: Canvas, marks: Iterable[Mark], at: Projection, style: Style, *, ghosts: bool = True
) -> None:
    """Paint the marks of a view that its style's level of detail asks for."""
    for mark in marks:
        if mark.least > style.level or (mark.line == "ghost" and not ghosts):
            continue
        pen = style.pen(mark.line)
        fill = FILLS[mark.fill]
        if mark.strokes:
            if pen is not None:
                canvas.strokes([at(point) for point in mark.points], pen)
        elif mark.radius:
            canvas.circle(at(mark.points[0]), mark.radius * at.mm_a_meter, pen, fill)
        elif mark.closed:
            canvas.polygon([at(point) for point in mark.points], pen, fill)
        elif pen is not None:
            canvas.polyline([at(point) for point in mark.points], pen)


def paint_solid(canvas: Canvas, marks: Iterable[Mark], at: Projection, ring_mm: float) -> None:
    """Paint a list silhouette: solid shapes, tires as discs with a white ring, nothing finer."""
    for mark in marks:
        if mark.least > LIST or mark.fill == "none" or mark.line == "ghost":
            continue
        if mark.radius:
            center, radius = at(mark.points[0]), mark.radius * at.mm_a_meter
            canvas.circle(center, radius + ring_mm, None, WHITE)
            canvas.circle(center, radius, None, INK)
        else:
            canvas.polygon([at(point) for point in mark.points], Pen(ring_mm * 0.8), INK)


def ground(canvas: Canvas, at: Projection, left: float, right: float, style: Style) -> None:
    """Draw the ground under a side view, its upper edge where the tires stand."""
    y = at((0.0, 0.0))[1] + style.ground / 2
    canvas.line((left, y), (right, y), Pen(style.ground))


# ── the side ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _side_marks(unit: AsBuiltUnit, near: Near) -> list[Mark]:
    geometry = unit.geometry
    marks = [mark for member in geometry.members for mark in _member(member, member.side)]
    for part in unit.parts:
        make = SIDE.get(shapes.kind_of(part))
        if make is not None:
            for place in _seen(part, near):
                made = list(_hoist(geometry, part) or make(geometry, part, place))
                if _is_cased(unit, part, place):
                    marks += on(TOP, part.slot, (_through_the_box(mark) for mark in made))
                else:
                    marks += on(_side_layer(geometry, part, place, near), part.slot, made)
    marks += on(-2.5, "", _springs(unit))
    marks += _ghosts(unit)
    return sorted(marks, key=lambda mark: mark.layer)


def _member(member: Member, points: Pairs, *, mirrored: bool = False) -> Iterator[Mark]:
    if not points:
        return
    flat = len(points) < 3 or member.fill == "none"
    for sign in (1, -1) if mirrored else (1,):
        yield Mark(
            tuple((x, sign * y) for x, y in points),
            member.line,
            "none" if flat else member.fill,
            closed=not flat,
            least=member.least_detail,
            layer=member.layer,
            piece=member.slot,
        )


def _seen(part: FittedPart, near: Near) -> Iterator[Place]:
    """Yield the places of a part that a side view draws: of wheels only the near and outermost."""
    if shapes.kind_of(part) not in {"tire", "wheel", "hub"}:
        yield from part.places
        return
    outermost: dict[float, Place] = {}
    for place in part.places:
        if place.side == near:
            best = outermost.get(place.x_m)
            if best is None or abs(place.y_m) > abs(best.y_m):
                outermost[place.x_m] = place
    yield from outermost.values()


def _side_layer(geometry: Geometry, part: FittedPart, place: Place, near: Near) -> float:
    kind = shapes.kind_of(part)
    if kind in {"tire", "wheel", "hub"}:
        beside = abs(place.y_m) > max(deck.width_m for deck in geometry.decks) / 2
        out = shapes.IN_FRONT if beside else shapes.WHEELS
        return out + {"tire": 0.0, "wheel": 0.1, "hub": 0.2}[kind]
    if kind == "tape" and place.side == near:
        return shapes.IN_FRONT + 3.5
    toward = -place.y_m if near == "left" else place.y_m
    if kind in {"cylinder", "gooseneck_coupler", "kingpin"} and toward < BESIDE_M:
        return shapes.BETWEEN
    if toward > 0.28 or (place.side == near and toward > 0):
        return shapes.IN_FRONT + (
            3.0 if kind in {"lamp", "plate", "latch", "control", "inlet", "door"} else 0.0
        )
    if place.side == "rear":
        return shapes.IN_FRONT + 3.0
    if toward < -0.15:
        return shapes.BEHIND
    return 3.0 if kind in {"box", "battery", "charger", "pump"} else shapes.BETWEEN


def _is_cased(unit: AsBuiltUnit, part: FittedPart, place: Place) -> bool:
    return (shapes.kind_of(part) in shapes.INSIDE and _box_around(unit, place)) or _in_the_body(unit, place)


def _in_the_body(unit: AsBuiltUnit, place: Place) -> bool:
    """Tell whether a place lies on the floor of a closed body, where no side view shows it."""
    if unit.part("body") is None:
        return False
    return any(
        deck.x0_m <= place.x_m <= deck.x1_m
        and abs(place.y_m) <= deck.width_m / 2
        and place.z_m >= deck.height_m - 0.01
        for deck in unit.geometry.decks
    )


def _through_the_box(mark: Mark) -> Mark:
    """Return a mark of what stands in a box: hidden lines over it, in figures only."""
    return replace(mark, line="hidden", fill="none", least=FIGURE)


def _box_around(unit: AsBuiltUnit, place: Place) -> bool:
    for part in unit.parts:
        if shapes.kind_of(part) == "box":
            long, wide = shapes.measure(part, "length", 0.9), shapes.measure(part, "width", 0.4)
            high = shapes.measure(part, "height", 0.4)
            for box in part.places:
                within = abs(place.x_m - box.x_m) <= long / 2 and abs(place.y_m - box.y_m) <= wide / 2
                if within and box.z_m <= place.z_m <= box.z_m + high:
                    return True
    return False


def _hoist(geometry: Geometry, part: FittedPart) -> list[Mark]:
    """Return a scissor hoist folded under its body; nothing for any other part."""
    for hinge in geometry.hinges:
        eyes = hinge.cylinders
        if eyes is not None and eyes.slot == part.slot and eyes.arms_m is not None:
            return list(hoist(part, eyes, eyes.body_m))
    return []


def _springs(unit: AsBuiltUnit) -> Iterator[Mark]:
    """Yield leaf springs over the axles, as long as their neighbors let them be."""
    axles = unit.geometry.axles
    tires = unit.part("tires")
    if axles.suspension != "sprung" or tires is None:
        return
    apart = min((b - a for a, b in zip(axles.x_m, axles.x_m[1:], strict=False)), default=0.76)
    half, middle = apart / 2 - 0.03, shapes.measure(tires, "outer_diameter", 0.7) / 2
    for x in axles.x_m:
        frame = shapes.underside(unit.geometry, x - half, middle - 0.1)
        z = min(middle + 0.08, frame - 0.07)
        for drop in (0.0, 0.018):
            yield stroke(
                [(x - half, z + 0.05 - drop), (x, z - drop), (x + half, z + 0.05 - drop)], "edge", SHEET
            )
        for end in (x - half, x + half):
            yield block(end, z + 0.04, 0.05, max(frame - z - 0.04, 0.02), "edge", "white", SHEET)


def _ghosts(unit: AsBuiltUnit) -> Iterator[Mark]:
    """Yield the outlines of what a hinge lowers, where it lies then; a raised body has a drawing of its own."""
    for hinge in unit.geometry.hinges:
        pieces = [member for member in unit.geometry.members if member.id in hinge.members]
        if rises(hinge, (point for member in pieces for point in member.side)):
            continue
        for member in pieces:
            if member.side and member.fill != "none":
                lowered = turned(member.side, (hinge.x_m, hinge.z_m), hinge.lowered_rad)
                yield replace(area(lowered, "ghost", "none", SHEET), layer=TOP, slot=f"{MOVED}{hinge.id}")


# ── the plan ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _plan_marks(unit: AsBuiltUnit) -> list[Mark]:
    geometry = unit.geometry
    marks = [
        mark for member in geometry.members for mark in _member(member, member.plan, mirrored=member.mirror)
    ]
    for part in unit.parts:
        kind = shapes.kind_of(part)
        make = PLAN.get(kind)
        if make is None:
            continue
        for place in part.places:
            made = list(make(geometry, part, place))
            if kind in shapes.INSIDE and _box_around(unit, place):
                marks += on(TOP, part.slot, (_through_the_box(mark) for mark in made))
            elif kind in shapes_ramps.LYING:
                marks += on(6.5, part.slot, made)
            elif kind not in ON_TOP and _covered(geometry, part, place):
                marks += on(TOP, part.slot, (_hidden(mark) for mark in made))
            else:
                marks += on(TOP + 1 if kind in ON_TOP else 9.0, part.slot, made)
    marks += on(TOP - 2, "", _axle_marks(geometry))
    return sorted(marks, key=lambda mark: mark.layer)


def _hidden(mark: Mark) -> Mark:
    return replace(mark, line="hidden", fill="pale" if mark.fill == "pale" else "none")


def _covered(geometry: Geometry, part: FittedPart, place: Place) -> bool:
    """Tell whether a deck, a fender or another body lies over a part."""
    top = shapes.height_of(part, place)
    for member in geometry.members:
        if member.fill == "none" or len(member.plan) < 3 or not member.side:
            continue
        if max(z for _, z in member.side) < top - 0.02:
            continue
        for sign in (1, -1) if member.mirror else (1,):
            if inside((place.x_m, sign * place.y_m), member.plan):
                return True
    return False


def _axle_marks(geometry: Geometry) -> Iterator[Mark]:
    """Yield axle tubes and center lines."""
    half = geometry.axles.track_m / 2
    out = geometry.overall_width_m / 2 + 0.2
    for x in geometry.axles.x_m:
        for aside in (-0.06, 0.06):
            yield stroke(((x + aside, -half), (x + aside, half)), "hidden", SMALL)
        yield stroke(((x, -out), (x, out)), "center", SHEET)
    ends = (geometry.front_x_m - 0.25, geometry.front_x_m + geometry.overall_length_m + 0.25)
    yield stroke(((ends[0], 0.0), (ends[1], 0.0)), "center", SHEET)


def targets(unit: AsBuiltUnit, station_id: str) -> list[tuple[FittedPart, Place]]:
    """Return every part with its places at a station."""
    return [(part, place) for part in unit.parts for place in part.places if place.station == station_id]
