"""The side view with the body raised: how high it reaches, the prop under it, and where it travels as a ghost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, Hinge
from sendoff.drawings import dimensions, shapes
from sendoff.drawings.hoists import hoist, prop_up, rises
from sendoff.drawings.lettering import width_mm
from sendoff.drawings.marks import TOP, Mark, area, on, turned
from sendoff.drawings.projection import Projection
from sendoff.drawings.sheets import SCALES
from sendoff.drawings.svg import DIMENSION, Canvas, Drawing
from sendoff.drawings.views import ON_SHEET, Views, ground, paint
from sendoff.phrases import say
from sendoff.units import System

WIDTH_MM: Final = 184.0
MOST_MM: Final = 118.0
_STAY: Final = frozenset(
    {"tire", "wheel", "hub", "jack", "ball_coupler", "gooseneck_coupler", "box", "battery", "pump"}
)
"""Kinds that stand on the frame; what hangs on the body is left out of this view."""


def raised_hinge(unit: AsBuiltUnit) -> Hinge | None:
    """Return the hinge of a body or a deck that is raised to work, or None."""
    members = {member.id: member.side for member in unit.geometry.members}
    for hinge in unit.geometry.hinges:
        if hinge.lowered_rad < 0 or rises(
            hinge, iter([point for name in hinge.members for point in members[name]])
        ):
            return hinge
    return None


def raised_side(views: Views, language: str, system: System) -> Drawing | None:
    """Return the driver's side with the body up, propped; None for a unit on which nothing is raised."""
    hinge = raised_hinge(views.unit)
    if hinge is None:
        return None
    marks = sorted(_marks(views, hinge), key=lambda mark: mark.layer)
    top = max(mark.spread()[3] for mark in marks)
    low, high = views.geometry.front_x_m, max(views.rear_m, *(mark.spread()[1] for mark in marks))
    scale = next(
        (
            scale
            for scale in SCALES[system]
            if (high - low) * 1000 / scale <= WIDTH_MM - 26 and top * 1000 / scale <= MOST_MM - 9
        ),
        SCALES[system][-1],
    )
    mm = 1000 / scale
    tall = top * mm + 8.0
    canvas = Canvas(WIDTH_MM, tall)
    at = Projection(mm, ((WIDTH_MM - (high + low) * mm) / 2, tall - 1.2))
    paint(canvas, marks, at, ON_SHEET)
    ground(canvas, at, 0.4, WIDTH_MM - 0.4, ON_SHEET)
    x_top = max((point for mark in marks for point in mark.points), key=lambda point: point[1])
    words = dimensions.said(0.0, top, system)
    aside = at((high, 0.0))[0] + 8.0
    dimensions.upright(canvas, (aside, at((0.0, 0.0))[1]), at(x_top), aside, words, from_low=False)
    _name_it(canvas, hinge, at, language)
    told = say("drawing.shows.raised", language, type=views.unit.type_name[language], height=words)
    return canvas.done(f"1:{scale}", told)


def _marks(views: Views, hinge: Hinge) -> Iterator[Mark]:
    """Yield frame and wheels as they stand, the body turned, what lifts and what holds it."""
    unit = views.unit
    about = (hinge.x_m, hinge.z_m)
    for member in unit.geometry.members:
        if not member.side or (hinge.prop is not None and member.id == hinge.prop.slot):
            continue
        points = turned(member.side, about, hinge.lowered_rad) if member.id in hinge.members else member.side
        flat = len(points) < 3 or member.fill == "none"
        yield Mark(
            points,
            member.line,
            "none" if flat else member.fill,
            closed=not flat,
            least=member.least_detail,
            layer=member.layer,
        )
        if member.id in hinge.members and not flat and member.least_detail == 0:
            yield from on(TOP, "", [area(member.side, "ghost", "none")])
    for part in unit.parts:
        if shapes.kind_of(part) in _STAY and part.slot != hinge.id:
            yield from (mark for mark in views.side if mark.slot == part.slot)
    eyes = hinge.cylinders
    lifter = unit.part(eyes.slot) if eyes is not None else None
    if eyes is not None and lifter is not None:
        (body,) = turned([eyes.body_m], about, hinge.lowered_rad)
        yield from on(shapes.BETWEEN, eyes.slot, hoist(lifter, eyes, body))
    if hinge.prop is not None:
        yield from on(-1.5, hinge.prop.slot, prop_up(hinge))


def _name_it(canvas: Canvas, hinge: Hinge, at: Projection, language: str) -> None:
    """Name the prop beside its foot."""
    if hinge.prop is None:
        return
    (top,) = turned([hinge.prop.body_m], (hinge.x_m, hinge.z_m), hinge.lowered_rad)
    foot = hinge.prop.frame_m
    middle = at(((foot[0] + top[0]) / 2, (foot[1] + top[1]) / 2))
    words = say("drawing.prop", language)
    spot = (middle[0] - width_mm(words, 9.0) / 2 - 22.0, middle[1] - 6.0)
    canvas.words_on_patch(spot, words, 9.0)
    canvas.line((spot[0] + width_mm(words, 9.0) / 2 + 0.8, spot[1]), (middle[0] - 0.8, middle[1]), DIMENSION)
