"""A small SVG canvas in millimeters: every value escaped, the same marks giving the same bytes.

Only presentation attributes are written, no style attributes, so that a strict Content-Security-Policy lets them pass,
and no ids, so that any number of drawings can stand in one page.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final, Literal
from xml.etree import ElementTree as ET

from sendoff.drawings.lettering import CAP_HEIGHT, LEAST_POINTS, POINT_MM, unjoined, width_mm

INK: Final = "#17181a"
QUIET: Final = "#5b5d60"
PALE: Final = "#e9e8e4"
MID: Final = "#c9c8c3"
BAR: Final = "#8b8d90"
WHITE: Final = "#ffffff"
VIOLET: Final = "#5A2CA0"
"""The one accent: the walk."""
FACE: Final = "Source Sans Pro"

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing, and what it shows in words for whoever cannot see it."""

    svg: str
    width_mm: float
    height_mm: float
    scale: str
    """Such as "1:48"; empty for what has none."""
    description: str


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn: width and dashes in millimeters on paper, whatever the scale."""

    width: float
    dash: tuple[float, ...] = ()
    color: str = INK


GROUND: Final = Pen(0.70)
OUTLINE: Final = Pen(0.50)
EDGE: Final = Pen(0.25)
DETAIL: Final = Pen(0.13)
HIDDEN: Final = Pen(0.18, (1.6, 0.8))
GHOST: Final = Pen(0.18, (3.2, 0.7, 0.4, 0.7, 0.4, 0.7))
CENTER: Final = Pen(0.13, (4.0, 0.8, 0.5, 0.8))
DIMENSION: Final = Pen(0.13)
LEADER: Final = Pen(0.18)
PATH: Final = Pen(0.55, (2.6, 1.5), VIOLET)
RING: Final = Pen(0.35)
LEADER_DOT_MM: Final = 0.55


def number(value: float) -> str:
    """Return a coordinate with at most three decimals and no trailing zeros.

    >>> number(12.5), number(-0.0001), number(1 / 3)
    ('12.5', '0', '0.333')
    """
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def points_of(points: Iterable[Point]) -> str:
    """Return points as the SVG attribute writes them."""
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


def _stroke(pen: Pen | None) -> dict[str, str]:
    if pen is None:
        return {}
    found = {"stroke": pen.color, "stroke-width": number(pen.width)}
    if pen.dash:
        found["stroke-dasharray"] = " ".join(number(dash) for dash in pen.dash)
        found["stroke-linecap"] = "butt"
    return found


class Canvas:
    """A sheet to draw on; y runs down, all measures are millimeters on paper."""

    def __init__(self, width_mm_: float, height_mm: float) -> None:
        self.width_mm, self.height_mm = width_mm_, height_mm
        self.root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"0 0 {number(width_mm_)} {number(height_mm)}",
                "width": f"{number(width_mm_)}mm",
                "height": f"{number(height_mm)}mm",
                "fill": "none",
                "stroke-linecap": "round",
                "stroke-linejoin": "round",
            },
        )
        self._into = [self.root]

    def _add(self, tag: str, attributes: dict[str, str]) -> ET.Element:
        return ET.SubElement(self._into[-1], tag, attributes)

    # ── lines and areas ─────────────────────────────────────────────────────────────────────────────────────────────

    def line(self, start: Point, end: Point, pen: Pen = EDGE) -> None:
        """Draw a straight line."""
        (x1, y1), (x2, y2) = start, end
        ends = {"x1": number(x1), "y1": number(y1), "x2": number(x2), "y2": number(y2)}
        self._add("line", ends | _stroke(pen))

    def polyline(self, points: Sequence[Point], pen: Pen = EDGE) -> None:
        """Draw an open line through points."""
        self._add("polyline", {"points": points_of(points)} | _stroke(pen))

    def strokes(self, points: Sequence[Point], pen: Pen) -> None:
        """Draw many straight lines at once; the points are their starts and ends by turns."""
        ends = zip(points[::2], points[1::2], strict=True)
        d = "".join(f"M{points_of([start])}L{points_of([end])}" for start, end in ends)
        self._add("path", {"d": d} | _stroke(pen))

    def polygon(self, points: Sequence[Point], pen: Pen | None = OUTLINE, fill: str = "none") -> None:
        """Draw a closed outline."""
        self._add("polygon", {"points": points_of(points), "fill": fill} | _stroke(pen))

    def rect(
        self,
        corner: Point,
        width: float,
        height: float,
        pen: Pen | None = OUTLINE,
        fill: str = "none",
        radius: float = 0.0,
    ) -> None:
        """Draw a rectangle from its upper left corner."""
        at = {"x": number(corner[0]), "y": number(corner[1])}
        at |= {"width": number(width), "height": number(height), "fill": fill}
        if radius:
            at["rx"] = number(radius)
        self._add("rect", at | _stroke(pen))

    def circle(self, center: Point, radius: float, pen: Pen | None = OUTLINE, fill: str = "none") -> None:
        """Draw a circle."""
        at = {"cx": number(center[0]), "cy": number(center[1]), "r": number(radius), "fill": fill}
        self._add("circle", at | _stroke(pen))

    def rounded(self, corner: Point, width: float, height: float, radius: float, pen: Pen) -> None:
        """Draw a closed line round a rectangle with round corners, from the middle of its left side downwards."""
        (x, y), r = corner, radius
        right, low = x + width, y + height
        d = (
            f"M{number(x)},{number(y + height / 2)}V{number(low - r)}"
            f"A{number(r)},{number(r)} 0 0 0 {number(x + r)},{number(low)}H{number(right - r)}"
            f"A{number(r)},{number(r)} 0 0 0 {number(right)},{number(low - r)}V{number(y + r)}"
            f"A{number(r)},{number(r)} 0 0 0 {number(right - r)},{number(y)}H{number(x + r)}"
            f"A{number(r)},{number(r)} 0 0 0 {number(x)},{number(y + r)}Z"
        )
        self._add("path", {"d": d} | _stroke(pen))

    def arc(self, start: Point, end: Point, radius: float, pen: Pen, *, clockwise: bool = True) -> None:
        """Draw the smaller arc of a circle between two points."""
        d = (
            f"M{number(start[0])},{number(start[1])}A{number(radius)},{number(radius)} 0 0 {int(clockwise)} "
            f"{number(end[0])},{number(end[1])}"
        )
        self._add("path", {"d": d} | _stroke(pen))

    def curve(self, start: Point, bend: Point, end: Point, pen: Pen) -> None:
        """Draw a line that hangs from two points towards a third."""
        d = f"M{points_of([start])}Q{points_of([bend])} {points_of([end])}"
        self._add("path", {"d": d} | _stroke(pen))

    # ── words ───────────────────────────────────────────────────────────────────────────────────────────────────────

    def text(
        self,
        at: Point,
        words: str,
        points: float = 8.5,
        *,
        weight: int = 400,
        anchor: Anchor = "start",
        color: str = INK,
        turned: bool = False,
        italic: bool = False,
    ) -> None:
        """Write words with their baseline at a point; `points` is the size in print; turned, they read upwards."""
        if points < LEAST_POINTS - 1e-9:
            raise ValueError(f"{points:g} pt is too small for print: {words!r}")
        x, y = at
        attributes = {"x": number(x), "y": number(y), "font-family": FACE}
        attributes |= {"font-size": number(points * POINT_MM), "font-weight": str(weight), "fill": color}
        if italic:
            attributes["font-style"] = "italic"
        if anchor != "start":
            attributes["text-anchor"] = anchor
        if turned:
            attributes["transform"] = f"rotate(-90 {number(x)} {number(y)})"
        self._add("text", attributes).text = unjoined(words)

    def words_in(
        self,
        center: Point,
        words: str,
        points: float,
        *,
        weight: int = 400,
        color: str = INK,
        turned: bool = False,
    ) -> None:
        """Write words centered on a point, both ways."""
        drop = points * POINT_MM * CAP_HEIGHT / 2
        at = (center[0] + drop, center[1]) if turned else (center[0], center[1] + drop)
        self.text(at, words, points, weight=weight, anchor="middle", color=color, turned=turned)

    def words_on_patch(
        self, center: Point, words: str, points: float = 7.5, *, weight: int = 400, turned: bool = False
    ) -> None:
        """Write words centered on a white patch, so that they may stand on a line."""
        wide, high = width_mm(words, points, weight) + 1.0, points * POINT_MM * 0.95
        across, down = (high, wide) if turned else (wide, high)
        self.rect((center[0] - across / 2, center[1] - down / 2), across, down, None, WHITE)
        self.words_in(center, words, points, weight=weight, turned=turned)

    # ── marks ───────────────────────────────────────────────────────────────────────────────────────────────────────

    def arrow(
        self, tip: Point, toward: Point, length: float = 2.0, half: float = 0.42, color: str = INK
    ) -> None:
        """Draw a filled arrow head at `tip` that flies in the direction `toward`."""
        size = math.hypot(*toward)
        ux, uy = toward[0] / size, toward[1] / size
        back = (tip[0] - length * ux, tip[1] - length * uy)
        wings = [(back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux)]
        self.polygon([tip, *wings], None, color)

    def leader(self, start: Point, target: Point, pen: Pen = LEADER, dot: float = LEADER_DOT_MM) -> None:
        """Draw a leader that ends in a dot on its target."""
        self.line(start, target, pen)
        self.circle(target, dot, None, pen.color)

    def ring(
        self, center: Point, words: str, radius: float = 3.0, pen: Pen = RING, points: float = 9.0
    ) -> None:
        """Draw a white disc with a figure in it: a station on the walk, or a letter."""
        self.circle(center, radius, pen, WHITE)
        self.words_in(center, words, points, weight=600)

    def disc(self, center: Point, words: str, radius: float = 3.0, points: float = 9.0) -> None:
        """Draw a filled disc with a white figure: where you are."""
        self.circle(center, radius, None, INK)
        self.words_in(center, words, points, weight=600, color=WHITE)

    @contextmanager
    def window(self, corner: Point, width: float, height: float) -> Iterator[None]:
        """Draw what follows only inside a rectangle (a nested svg clips by itself, without any id)."""
        x, y = number(corner[0]), number(corner[1])
        w, h = number(width), number(height)
        inner = {"x": x, "y": y, "width": w, "height": h, "viewBox": f"{x} {y} {w} {h}"}
        self._into.append(self._add("svg", inner))
        try:
            yield
        finally:
            self._into.pop()

    def done(self, scale: str, description: str) -> Drawing:
        """Return the finished drawing."""
        return Drawing(
            ET.tostring(self.root, encoding="unicode"), self.width_mm, self.height_mm, scale, description
        )
