"""Small views: the side at 60 mm and at 360 px, the list silhouette, and where a station is (its locator)."""

from __future__ import annotations

import math
from typing import Final

from sendoff.asbuilt.unit import UnitStation
from sendoff.drawings import anchors
from sendoff.drawings.marks import Pair
from sendoff.drawings.projection import Near, Projection
from sendoff.drawings.room import Ink, box_round
from sendoff.drawings.svg import Canvas, Drawing, Pen, Point
from sendoff.drawings.views import AT_60_MM, AT_360_PX, Style, Views, ground, paint, paint_solid, targets
from sendoff.phrases import say

PIXEL_MM: Final = 25.4 / 96
LOCATOR_MM: Final = 56.0
_DISC_MM: Final = 3.0


def small_side(views: Views, language: str, width_mm_: float = 60.0) -> Drawing:
    """Return the side view 60 mm wide, to scale though at no scale of the rule."""
    return _fitted(views, language, width_mm_, AT_60_MM)


def screen_side(views: Views, language: str) -> Drawing:
    """Return the side view 360 px wide, for a screen."""
    return _fitted(views, language, 360 * PIXEL_MM, AT_360_PX)


def _fitted(views: Views, language: str, width_mm_: float, style: Style) -> Drawing:
    low, high = views.geometry.front_x_m, views.rear_m
    mm = (width_mm_ - 3.0) / (high - low)
    tall = views.highest_m * mm + style.ground + 0.6
    canvas = Canvas(width_mm_, tall)
    at = Projection(mm, (1.5 - low * mm, tall - style.ground - 0.1))
    paint(canvas, views.side, at, style, ghosts=False)
    ground(canvas, at, style.ground, width_mm_ - style.ground, style)
    return canvas.done("", say("drawing.shows.side", language, type=views.unit.type_name[language]))


def silhouette(views: Views, language: str, longest_m: float | None = None) -> Drawing:
    """Return the silhouette of a list, 90 by 24 px: a drawing of its own from the same table, not a shrunk one.

    `longest_m` is the length of the longest trailer of the list, so that all of them stand at one scale.
    """
    wide, tall = 90 * PIXEL_MM, 24 * PIXEL_MM
    low = views.geometry.front_x_m
    longest = max(longest_m or 0.0, views.geometry.overall_length_m)
    mm = min((wide - 2 * PIXEL_MM) / longest, (tall - 2 * PIXEL_MM) / views.highest_m)
    canvas = Canvas(wide, tall)
    at = Projection(mm, (PIXEL_MM - low * mm, tall - PIXEL_MM))
    paint_solid(canvas, views.side, at, PIXEL_MM * 0.9)
    return canvas.done("", say("drawing.shows.silhouette", language, type=views.unit.type_name[language]))


# ── where a station is ──────────────────────────────────────────────────────────────────────────────────────────────


def side_of(station: UnitStation) -> Near:
    """Return the side from which a station is seen: the passenger side for what is met there, else the driver's."""
    return "right" if station.side == "right" else "left"


def remoteness(views: Views, station: UnitStation, x_m: float) -> float:
    """Return how far along the trailer a spot lies from where its station is met."""
    if station.side == "rear":
        return views.rear_m - x_m
    if station.side == "front":
        return x_m - views.geometry.front_x_m
    return abs(x_m - station.x_m)


def main_spot(views: Views, station: UnitStation) -> Pair:
    """Return x and z of the spot that stands for a station: of its first slot, nearest to where it is met."""
    first = {slot: rank for rank, slot in enumerate(station.slots)}
    near = side_of(station)
    ranked = []
    for part, place in targets(views.unit, station.id):
        x, z = anchors.beside(views.unit, part, place)
        away = place.side not in {near, "center", "front", "rear"}
        ranked.append((first[part.slot], away, remoteness(views, station, x), place.id, (x, z)))
    return min(ranked)[-1] if ranked else (station.x_m, 0.5)


def locator(views: Views, station: UnitStation, number: int, language: str) -> Drawing:
    """Return the side view 56 mm wide with the station's black disc, from the side on which the station is met."""
    near, style = side_of(station), AT_60_MM
    low, high = views.geometry.front_x_m, views.rear_m
    mm = (LOCATOR_MM - 2.0) / (high - low)
    zero = 1.0 - low * mm if near == "left" else LOCATOR_MM - 1.0 + low * mm
    above_ground = Projection(mm, (zero, 0.0), near)
    target = above_ground(main_spot(views, station))
    view = views.highest_m * mm
    # the disc stands in the free sky over the trailer; where there is too little of it, the sheet grows
    stand = None
    top = -view - 0.5
    for extra in (0.0, 1.5, 3.5, 6.0):
        top = -view - 0.5 - extra
        stand = _sky(_locator_ink(views, near, above_ground), target, top)
        if stand is not None:
            break
    if stand is None:
        stand = (min(max(target[0], 3.4), LOCATOR_MM - 3.4), top + 3.3)
    tall = -top + style.ground + 0.1
    canvas = Canvas(LOCATOR_MM, tall)
    at = Projection(mm, (zero, -top), near)
    paint(canvas, views.beside(near), at, style, ghosts=False)
    ground(canvas, at, style.ground, LOCATOR_MM - style.ground, style)
    canvas.leader((stand[0], stand[1] - top), (target[0], target[1] - top), Pen(0.25))
    canvas.disc((stand[0], stand[1] - top), str(number), _DISC_MM)
    words = say("drawing.shows.locator", language, n=number, name=station.name[language])
    return canvas.done("", words)


def _locator_ink(views: Views, near: Near, at: Projection) -> Ink:
    if near not in views.sky:
        views.sky[near] = Ink(views.beside(near), at, AT_60_MM.level)
    return views.sky[near]


def _sky(ink: Ink, target: Point, top: float) -> Point | None:
    """Return the nearest place where the disc covers nothing and its leader is neither cramped nor endless."""
    size = 2 * _DISC_MM + 0.8
    found = []
    for step in range(int(LOCATOR_MM - size) + 1):
        for down in (size / 2, size / 2 + 1.5, size / 2 + 3.0):
            stand = (size / 2 + step, top + down)
            away = math.dist(stand, target)
            if 5.0 <= away <= 22.0 and stand[1] + size / 2 < -1.0:
                found.append((away + abs(abs(stand[0] - target[0]) - 4.0) * 0.5, stand))
    return next((stand for _, stand in sorted(found) if ink.is_free(box_round(stand, size, size))), None)
