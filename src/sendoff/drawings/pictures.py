"""Pictures for whoever reads no language: one act each, drawn for what this unit has, 41 mm wide for a row of its own.

They are signs, not views: no scale, nothing that belongs to one maker. What is on the unit decides what is drawn: its
coupling, the number of its axles, its plug, whether it has brakes and a breakaway cable.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import (
    DETAIL,
    EDGE,
    GROUND,
    INK,
    MID,
    OUTLINE,
    PALE,
    WHITE,
    Canvas,
    Drawing,
    Pen,
    Point,
)
from sendoff.drawings.views import AT_60_MM, Views, ground, paint
from sendoff.drawings.wheel_nuts import order_of
from sendoff.findings.shape_limits import highest_m
from sendoff.phrases import say

WIDTH_MM: Final = 41.0
HEIGHT_MM: Final = 22.0
_THICK: Final = Pen(1.0)
_CABLE: Final = Pen(0.45)
_FLOOR: Final = HEIGHT_MM - 1.0
MOST_NUMBERED: Final = 8
"""Nuts up to this many still carry readable numbers in so small a wheel."""


def _done(canvas: Canvas, name: str, language: str, **values: object) -> Drawing:
    return canvas.done("", say(f"drawing.picture.{name}", language, **values))


# ── coupling ────────────────────────────────────────────────────────────────────────────────────────────────────────


def coupling(unit: AsBuiltUnit, language: str) -> Drawing:
    """Return the coupling closed and pinned, and the arrow of the lift that proves it."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    draw: dict[str, Callable[[Canvas], None]] = {
        "ball": _ball, "gooseneck": _gooseneck, "pintle": _pintle, "fifth_wheel": _fifth_wheel,
    }  # fmt: skip
    draw[unit.coupling](canvas)
    return _done(canvas, f"coupling_{unit.coupling}", language)


def _up(canvas: Canvas, x: float, low: float, high: float) -> None:
    canvas.line((x, low), (x, high + 1.6), Pen(0.7))
    canvas.arrow((x, high), (0.0, -1.0), 3.0, 1.2)


def _lock_pin(canvas: Canvas, spot: Point) -> None:
    canvas.line((spot[0] - 2.6, spot[1]), (spot[0] + 2.6, spot[1]), _THICK)
    canvas.circle((spot[0] + 4.2, spot[1]), 1.5, Pen(0.5), WHITE)
    canvas.circle(spot, 5.4, Pen(0.35, (1.0, 0.8)))


def _ball(canvas: Canvas) -> None:
    canvas.polygon([(1.0, 15.6), (13.6, 15.6), (13.6, 17.6), (1.0, 17.6)], OUTLINE, PALE)
    canvas.rect((9.6, 13.4), 2.2, 2.4, EDGE, WHITE)
    canvas.circle((10.7, 11.6), 2.8, OUTLINE, MID)
    canvas.polygon(
        [(6.6, 12.6), (6.6, 8.2), (9.0, 6.8), (38.0, 6.8), (38.0, 11.2), (15.4, 11.2), (14.4, 12.6)],
        OUTLINE,
        WHITE,
    )
    canvas.circle((10.7, 11.6), 2.8, DETAIL)
    canvas.polygon([(15.0, 6.6), (16.2, 4.6), (25.2, 4.6), (26.0, 6.6)], EDGE, PALE)
    _lock_pin(canvas, (20.4, 5.6))
    canvas.rect((32.0, 8.0), 2.4, 10.4, EDGE, WHITE)
    canvas.rect((29.8, 18.4), 6.8, 1.4, EDGE, PALE)
    canvas.line((0.5, _FLOOR), (40.5, _FLOOR), GROUND)
    _up(canvas, 38.6, 19.0, 13.4)


def _gooseneck(canvas: Canvas) -> None:
    canvas.polygon(
        [(8.0, 0.6), (40.4, 4.2), (40.4, 8.2), (17.6, 5.8), (17.6, 7.4), (8.0, 7.4)], OUTLINE, WHITE
    )
    canvas.polygon(
        [(10.4, 7.4), (15.2, 7.4), (15.2, 13.4), (16.4, 14.6), (9.2, 14.6), (10.4, 13.4)], OUTLINE, WHITE
    )
    canvas.circle((12.8, 15.2), 2.3, OUTLINE, MID)
    canvas.rect((11.7, 17.2), 2.2, 2.6, EDGE, WHITE)
    canvas.rect((2.0, 19.6), 26.0, 1.6, OUTLINE, PALE)
    _lock_pin(canvas, (14.6, 11.6))
    _up(canvas, 33.0, 20.0, 11.0)


def _pintle(canvas: Canvas) -> None:
    canvas.rect((1.0, 3.4), 3.6, 15.6, OUTLINE, PALE)
    canvas.circle((15.4, 9.6), 4.6, Pen(1.5))
    canvas.rect((19.6, 8.0), 20.4, 3.2, OUTLINE, WHITE)
    jaw = [
        (4.6, 11.4),
        (11.4, 11.4),
        (12.4, 13.0),
        (15.4, 13.0),
        (16.2, 9.4),
        (18.2, 9.0),
        (18.6, 12.6),
        (16.8, 16.0),
        (4.6, 16.0),
    ]
    canvas.polygon(jaw, OUTLINE, WHITE)
    canvas.polygon(
        [(4.6, 5.0), (16.0, 3.4), (18.4, 5.8), (18.2, 7.8), (16.2, 7.8), (15.4, 6.4), (4.6, 8.4)],
        OUTLINE,
        WHITE,
    )
    _lock_pin(canvas, (9.0, 5.9))
    canvas.line((0.5, _FLOOR), (40.5, _FLOOR), GROUND)
    _up(canvas, 34.0, 20.0, 14.0)


def _fifth_wheel(canvas: Canvas) -> None:
    canvas.rect((3.0, 3.0), 36.0, 4.0, OUTLINE, WHITE)
    canvas.rect((17.4, 7.0), 3.2, 5.6, OUTLINE, MID)
    canvas.polygon([(6.0, 8.6), (32.0, 8.6), (29.4, 12.6), (8.6, 12.6)], OUTLINE, PALE)
    canvas.polygon([(13.6, 12.6), (24.4, 12.6), (26.6, 18.6), (11.4, 18.6)], OUTLINE, WHITE)
    _lock_pin(canvas, (27.0, 10.6))
    canvas.line((0.5, _FLOOR), (40.5, _FLOOR), GROUND)
    _up(canvas, 37.4, 20.0, 12.0)


# ── chains, cable, lamps ────────────────────────────────────────────────────────────────────────────────────────────


def chains(unit: AsBuiltUnit, language: str) -> Drawing:
    """Return two chains crossed from trailer to truck, and the breakaway cable on its own where there is one."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    cable = unit.part("breakaway") is not None
    low = 13.6 if cable else 17.4
    canvas.line((3.0, 0.8), (3.0, _FLOOR), Pen(1.1))
    canvas.line((38.0, 0.8), (38.0, _FLOOR), Pen(1.1))
    for start, end in (((3.0, 4.0), (38.0, low)), ((3.0, low), (38.0, 4.0))):
        _chain(canvas, start, end)
    if cable:
        canvas.rect((0.8, 16.4), 4.4, 4.0, OUTLINE, WHITE)
        canvas.curve((5.2, 18.4), (14.0, 15.2), (20.5, 18.2), _CABLE)
        canvas.curve((20.5, 18.2), (28.0, 21.4), (36.6, 18.4), _CABLE)
        canvas.circle((38.0, 18.4), 1.4, Pen(0.5), WHITE)
    return _done(canvas, "chains_cable" if cable else "chains", language)


def _chain(canvas: Canvas, start: Point, end: Point) -> None:
    long = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    count = 7
    half = long / count / 2
    for number in range(count):
        middle = (start[0] + ux * half * (2 * number + 1), start[1] + uy * half * (2 * number + 1))
        across = 1.35 if number % 2 == 0 else 0.5
        corners = [
            (middle[0] + a * (half + 0.5) * ux - b * across * uy, middle[1] + a * (half + 0.5) * uy + b * across * ux)
            for a, b in ((-1.0, 0.0), (-0.6, -1.0), (0.6, -1.0), (1.0, 0.0), (0.6, 1.0), (-0.6, 1.0))
        ]  # fmt: skip
        canvas.polygon(corners, Pen(0.5), WHITE)


def lamps(unit: AsBuiltUnit, language: str) -> Drawing:
    """Return the plug, the rear with its lamps lit, and the pedal or the hand lever where there are brakes."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    _plug(canvas, unit)
    canvas.rect((19.6, 9.0), 20.4, 7.0, OUTLINE, WHITE)
    for x in (22.4, 37.2):
        canvas.circle((x, 12.5), 1.7, OUTLINE, MID)
        for turn in range(3):
            angle = math.radians(-45 + 45 * turn)
            sine, cosine = math.sin(angle), math.cos(angle)
            canvas.line(
                (x + 3.0 * sine, 12.5 - 4.6 * cosine), (x + 5.2 * sine, 12.5 - 7.4 * cosine), Pen(0.4)
            )
    canvas.rect((27.0, 11.2), 5.6, 2.6, EDGE, WHITE)
    for x in (22.0, 35.2):
        canvas.rect((x, 16.0), 2.4, 4.4, EDGE, PALE)
    canvas.line((18.6, _FLOOR), (40.5, _FLOOR), GROUND)
    return _done(canvas, "lamps", language)


def _plug(canvas: Canvas, unit: AsBuiltUnit) -> None:
    plug = unit.part("plug")
    count = int(plug.si("terminals") or 0) if plug is not None else 0
    if count in {4, 5}:
        canvas.rect((1.0, 8.4), 14.6, 5.6, OUTLINE, WHITE, 2.4)
        for number in range(count):
            x = 3.2 + number * 10.2 / (count - 1)
            canvas.circle((x, 11.2), 1.0, EDGE if number == 0 else None, WHITE if number == 0 else INK)
    else:
        canvas.circle((8.3, 11.2), 7.2, OUTLINE, WHITE)
        canvas.rect((7.0, 3.0), 2.6, 1.8, EDGE, WHITE)
        ring = max(count - 1, 3)
        for number in range(ring):
            angle = 2 * math.pi * number / ring + math.pi / ring
            canvas.circle((8.3 + 4.4 * math.sin(angle), 11.2 - 4.4 * math.cos(angle)), 0.95, None, INK)
        canvas.circle((8.3, 11.2), 0.95, None, INK)


# ── tires, nuts ─────────────────────────────────────────────────────────────────────────────────────────────────────


def pressure(language: str) -> Drawing:
    """Return a tire with a gauge on its valve."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    _tire(canvas, (12.0, 10.9), 9.6)
    canvas.curve((17.6, 13.4), (21.0, 16.4), (25.0, 12.4), _CABLE)
    canvas.circle((31.6, 9.4), 7.6, OUTLINE, WHITE)
    for turn in range(7):
        angle = math.radians(-135 + 45 * turn)
        sine, cosine = math.sin(angle), math.cos(angle)
        canvas.line(
            (31.6 + 6.0 * sine, 9.4 - 6.0 * cosine), (31.6 + 7.0 * sine, 9.4 - 7.0 * cosine), Pen(0.35)
        )
    canvas.line((31.6, 9.4), (35.4, 6.2), Pen(0.8))
    canvas.circle((31.6, 9.4), 1.0, None, INK)
    canvas.line((0.5, _FLOOR), (24.0, _FLOOR), GROUND)
    return _done(canvas, "pressure", language)


def _tire(canvas: Canvas, middle: Point, radius: float) -> None:
    canvas.circle(middle, radius, OUTLINE, PALE)
    canvas.circle(middle, radius * 0.58, EDGE, WHITE)
    canvas.circle(middle, radius * 0.16, EDGE, WHITE)


def nuts(unit: AsBuiltUnit, language: str) -> Drawing:
    """Return the wheel's nuts in the order they are tightened, with a torque wrench on one of them."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    middle = (12.0, HEIGHT_MM / 2)
    order = order_of(unit)
    wheels = unit.part("wheels")
    count = len(order) if order else int((wheels.si("stud_count") if wheels is not None else None) or 5)
    canvas.circle(middle, 10.6, OUTLINE, WHITE)
    canvas.circle(middle, 3.0, EDGE)
    size = 2.3 if count <= MOST_NUMBERED else 1.6
    for stud in range(1, count + 1):
        angle = 2 * math.pi * (stud - 1) / count
        spot = (middle[0] + 7.2 * math.sin(angle), middle[1] - 7.2 * math.cos(angle))
        corners = [
            (spot[0] + size * math.sin(turn * math.pi / 3), spot[1] - size * math.cos(turn * math.pi / 3))
            for turn in range(6)
        ]
        canvas.polygon(corners, EDGE, WHITE)
        if order and count <= MOST_NUMBERED:
            canvas.words_in(spot, str(order.index(stud) + 1), 7.0, weight=700)
    canvas.line((24.6, 4.4), (39.0, 4.4), Pen(1.2))
    canvas.line((34.0, 4.4), (39.6, 4.4), Pen(2.0))
    canvas.circle((24.6, 4.4), 1.9, None, INK)
    canvas.arc((36.6, 7.8), (30.0, 16.4), 16.0, Pen(0.5))
    canvas.arrow((29.0, 17.4), (-0.75, 0.66), 2.6, 1.0)
    return _done(canvas, "nuts", language, count=count)


# ── height, load, heat ──────────────────────────────────────────────────────────────────────────────────────────────


def height(views: Views, language: str) -> Drawing:
    """Return this unit from the side, to its own proportions, with the height at its highest."""
    low, high = views.geometry.front_x_m, views.rear_m
    tallest = highest_m(views.unit)
    mm = min((WIDTH_MM - 6.5) / (high - low), (HEIGHT_MM - 4.0) / tallest)
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    at = Projection(mm, (0.8 - low * mm, _FLOOR - 0.2))
    paint(canvas, views.side, at, AT_60_MM, ghosts=False)
    ground(canvas, at, 0.2, WIDTH_MM - 0.5, AT_60_MM)
    top = at((0.0, tallest))[1]
    x = WIDTH_MM - 3.0
    canvas.line((0.8, top - 0.3), (WIDTH_MM - 0.6, top - 0.3), Pen(0.25, (1.6, 0.8)))
    canvas.line((x, top + 1.4), (x, _FLOOR - 1.8), Pen(0.5))
    canvas.arrow((x, top - 0.1), (0.0, -1.0), 2.2, 0.9)
    canvas.arrow((x, _FLOOR - 0.4), (0.0, 1.0), 2.2, 0.9)
    return _done(canvas, "height", language)


def held(language: str) -> Drawing:
    """Return a wheeled load held down at both ends, and a hand-sized arrow that says: pull on it again."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    deck = 17.6
    canvas.rect((0.8, deck), 39.4, 1.8, OUTLINE, WHITE)
    _tire(canvas, (20.5, deck - 6.9), 6.6)
    for side in (-1.0, 1.0):
        foot = (20.5 + side * 14.0, deck)
        canvas.line((20.5 + side * 5.6, deck - 11.2), foot, Pen(0.9))
        canvas.circle(foot, 1.5, None, INK)
    canvas.arc((15.2, deck - 11.4), (25.8, deck - 11.4), 7.6, Pen(0.9))
    canvas.polygon([(30.2, 9.8), (33.0, 11.8), (31.6, 13.8), (28.8, 11.8)], OUTLINE, WHITE)
    canvas.arc((34.6, 6.6), (38.4, 12.0), 4.6, Pen(0.5))
    canvas.arrow((38.3, 13.2), (-0.1, 1.0), 2.4, 0.9)
    return _done(canvas, "held", language)


def hot(unit: AsBuiltUnit, language: str) -> Drawing:
    """Return this unit's axles with heat over their hubs: stop and call."""
    canvas = Canvas(WIDTH_MM, HEIGHT_MM)
    axles = min(max(len(unit.geometry.axles.x_m), 1), 4)
    radius, pitch = 4.4, 9.6
    first = WIDTH_MM / 2 - pitch * (axles - 1) / 2
    canvas.line((1.0, 12.0), (40.0, 12.0), Pen(1.0))
    for number in range(axles):
        x = first + pitch * number
        _tire(canvas, (x, _FLOOR - radius), radius)
        for side in (-2.0, 0.0, 2.0):
            canvas.curve((x + side, 9.6), (x + side + 1.6, 7.6), (x + side, 5.8), Pen(0.5))
            canvas.curve((x + side, 5.8), (x + side - 1.6, 4.0), (x + side, 2.0), Pen(0.5))
    canvas.line((0.5, _FLOOR), (40.5, _FLOOR), GROUND)
    return _done(canvas, "hot", language)
