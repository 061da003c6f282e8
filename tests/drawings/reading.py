"""Reading a drawing back as a stranger would: its marks from the SVG alone, in millimeters of the sheet."""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree as ET

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.load import Catalogue, load
from sendoff.drawings import Drawing

ROOT = Path(__file__).resolve().parents[2]
QUILLBACK = ROOT / "examples" / "quillback"
SVG = "{http://www.w3.org/2000/svg}"
POINT_MM = 25.4 / 72
INCH_M = 0.0254
UNITS = (
    "qb-0107", "qb-0111", "qb-0203", "qb-0207", "qb-0302", "qb-0305", "qb-0314", "qb-0401", "qb-0701", "qb-0801",
)  # fmt: skip
Point = tuple[float, float]


@functools.cache
def catalogue() -> Catalogue:
    return load(QUILLBACK / "catalogue")


@functools.cache
def unit(name: str) -> AsBuiltUnit:
    return as_built(QUILLBACK / "sheets" / f"{name}.toml", catalogue())


@dataclass(frozen=True)
class Seen:
    """One element of a drawing, its points, and whether a window may cut it."""

    tag: str
    element: ET.Element
    points: tuple[Point, ...]
    radius: float
    windowed: bool

    @property
    def pen(self) -> float:
        """Half the width of its stroke."""
        return float(self.element.get("stroke-width", "0")) / 2 if self.element.get("stroke") else 0.0


def read(drawing: Drawing) -> list[Seen]:
    """Return every mark of a drawing."""
    return list(_seen(ET.fromstring(drawing.svg), windowed=False))


def _seen(holder: ET.Element, *, windowed: bool) -> Iterator[Seen]:
    for element in holder:
        tag = element.tag.removeprefix(SVG)
        if tag in {"svg", "g"}:
            yield from _seen(element, windowed=windowed or tag == "svg")
            continue
        yield Seen(tag, element, tuple(_points(tag, element)), float(element.get("r", "0")), windowed)


def _points(tag: str, element: ET.Element) -> Iterator[Point]:
    def number(name: str) -> float:
        return float(element.get(name, "0"))

    if tag == "line":
        yield number("x1"), number("y1")
        yield number("x2"), number("y2")
    elif tag in {"polyline", "polygon"}:
        for pair in (element.get("points") or "").split():
            x, y = pair.split(",")
            yield float(x), float(y)
    elif tag == "rect":
        for dx in (0.0, number("width")):
            for dy in (0.0, number("height")):
                yield number("x") + dx, number("y") + dy
    elif tag == "circle":
        yield number("cx"), number("cy")
    elif tag == "path":
        yield from _ends(element.get("d") or "")
    elif tag == "text":
        yield number("x"), number("y")


def _ends(d: str) -> Iterator[Point]:
    """Yield where the steps of a path end: the absolute letters M, L, H, V, A, Q, Z that the canvas writes."""
    x = y = 0.0
    for letter, rest in re.findall(r"([MLHVAQZ])([^MLHVAQZ]*)", d):
        numbers = [float(found) for found in re.findall(r"-?[0-9.]+", rest)]
        if letter == "H":
            x = numbers[0]
        elif letter == "V":
            y = numbers[0]
        elif letter != "Z":
            x, y = numbers[-2:]
        yield x, y


def texts(drawing: Drawing) -> list[Seen]:
    return [seen for seen in read(drawing) if seen.tag == "text"]


def said(seen: Seen) -> str:
    """Return the words of a text as a person reads them, without the sign that keeps f and t apart."""
    return (seen.element.text or "").replace("\N{ZERO WIDTH NON-JOINER}", "")


def points_of(seen: Seen) -> float:
    """Return the size of a text in points of print."""
    return float(seen.element.get("font-size", "0")) / POINT_MM


def circles(drawing: Drawing, radius: float, **attributes: str) -> list[Point]:
    """Return the middles of all circles of a radius with these attributes."""
    return [
        seen.points[0]
        for seen in read(drawing)
        if seen.tag == "circle"
        and math.isclose(seen.radius, radius, abs_tol=1e-3)
        and all(seen.element.get(name.replace("_", "-")) == value for name, value in attributes.items())
    ]


def lines(drawing: Drawing, **attributes: str) -> list[tuple[Point, Point]]:
    """Return the ends of all straight lines with these attributes."""
    return [
        (seen.points[0], seen.points[1])
        for seen in read(drawing)
        if seen.tag == "line"
        and all(seen.element.get(name.replace("_", "-")) == value for name, value in attributes.items())
    ]


def scale_of(drawing: Drawing) -> float:
    """Return millimeters of paper a meter, from the scale a drawing tells."""
    return 1000 / float(drawing.scale.removeprefix("1:"))
