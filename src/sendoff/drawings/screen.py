"""The plan on a screen: the walk solid where walked and dashed ahead, its stations as links that show their state."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal
from xml.etree import ElementTree as ET

from sendoff.drawings.projection import Projection
from sendoff.drawings.sheets import stand, walk_first
from sendoff.drawings.svg import INK, VIOLET, WHITE, Canvas, Drawing, Pen, number
from sendoff.drawings.views import AT_360_PX, Views, paint
from sendoff.drawings.walk import Lap
from sendoff.phrases import say

State = Literal["to_do", "done", "now"]
ASIDE_MM: Final = 12.0
RING_MM: Final = 4.6
GAP_MM: Final = 10.6
_WALKED: Final = Pen(1.0, (), VIOLET)
_AHEAD: Final = Pen(0.7, (2.2, 1.6), VIOLET)
_LEADER: Final = Pen(0.22)
_POINTS: Final = 12.5


@dataclass(frozen=True, slots=True)
class StationMark:
    """How a station is marked: to do, done or now; a second ring where something is to be put right."""

    state: State
    put_right: bool
    link: str
    told: str
    """What the link says to whoever cannot see it."""


class ScreenMap:
    """The plan of one unit at one width: where everything stands is worked out once, the marks drawn each time."""

    def __init__(self, views: Views, width_mm: float = 184.0, gap_mm: float = GAP_MM) -> None:
        geometry = views.geometry
        edge = RING_MM + 1.2
        mm = (width_mm - 2 * (edge + ASIDE_MM)) / geometry.overall_length_m
        half = geometry.overall_width_m / 2 * mm
        self.views, self.size = views, (width_mm, 2 * (half + ASIDE_MM + edge))
        self.at = Projection(mm, (edge + ASIDE_MM - geometry.front_x_m * mm, self.size[1] / 2))
        self.lap = Lap(edge, edge, width_mm - edge, self.size[1] - edge, walk_first(views))
        self.standing = stand(views, self.at, self.lap, gap_mm)

    def drawn(self, language: str, marks: Mapping[int, StationMark]) -> Drawing:
        """Return the plan with the walk; each station is a link to its page."""
        canvas = Canvas(*self.size)
        paint(canvas, self.views.plan, self.at, AT_360_PX)
        walked = max(
            (stop.along for stop in self.standing if marks[stop.number].state != "to_do"), default=0.0
        )
        _lap(canvas, self.lap, walked)
        for stop in self.standing:
            canvas.leader(stop.ring, stop.target, _LEADER)
        for stop in self.standing:
            _station(canvas, stop.number, stop.ring, marks[stop.number])
        name = self.views.unit.type_name[language]
        return canvas.done("", say("drawing.shows.map", language, type=name, stations=""))


def _lap(canvas: Canvas, lap: Lap, walked: float) -> None:
    steps = 160
    points = [lap.at(lap.length * step / steps)[0] for step in range(steps + 1)]
    turn = round(steps * walked / lap.length)
    canvas.polyline(points[turn:], _AHEAD)
    if turn:
        canvas.polyline(points[: turn + 1], _WALKED)


def _station(canvas: Canvas, figure: int, center: tuple[float, float], mark: StationMark) -> None:
    link = ET.SubElement(canvas.root, "a", {"href": mark.link, "aria-label": mark.told})
    x, y = number(center[0]), number(center[1])
    fill = {"to_do": WHITE, "done": INK, "now": VIOLET}[mark.state]
    ring = VIOLET if mark.state == "now" else INK
    radius = RING_MM + (0.5 if mark.state == "now" else 0.0)

    def circle(r: float, **more: str) -> None:
        ET.SubElement(link, "circle", {"cx": x, "cy": y, "r": number(r)} | more)

    circle(radius + 3.0, fill="none", **{"pointer-events": "all"})
    if mark.put_right:
        circle(radius + 1.0, fill=WHITE, stroke=INK, **{"stroke-width": "0.45"})
        radius -= 0.4
    circle(radius, fill=fill, stroke=ring, **{"stroke-width": "0.6"})
    words = {
        "x": x,
        "y": number(center[1] + 1.5),
        "text-anchor": "middle",
        "font-family": "Source Sans Pro",
        "font-size": number(_POINTS * 0.3528),
        "font-weight": "600",
        "fill": INK if mark.state == "to_do" else WHITE,
    }
    ET.SubElement(link, "text", words).text = str(figure)


def ruler(mm_a_meter: float, feet: int, step: int = 10) -> str:
    """Return the ruler in feet that stands over lists, to the scale of their side views."""
    foot = 0.3048 * mm_a_meter
    canvas = Canvas(feet * foot + 8.0, 6.5)
    canvas.strokes([(2.0, 6.0), (2.0 + feet * foot, 6.0)], Pen(0.25))
    for mark in range(0, feet + 1, 2):
        x = 2.0 + mark * foot
        canvas.strokes([(x, 6.0), (x, 3.4 if mark % step == 0 else 4.8)], Pen(0.25))
        if mark % step == 0:
            words = {"x": number(x), "y": "2.6", "text-anchor": "middle", "font-size": "3", "fill": INK}
            ET.SubElement(canvas.root, "text", words | {"font-family": "Source Sans Pro"}).text = str(mark)
    return canvas.done("", "").svg
