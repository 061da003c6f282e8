"""The face of the trailer's plug: where each terminal lies, seen looking into it, and what it does."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.drawings.svg import CENTER, DETAIL, EDGE, INK, OUTLINE, WHITE, Canvas, Drawing, Point
from sendoff.phrases import say

SIZE_MM: Final = 80.0
Kind = Literal["blade_7", "flat_4", "flat_5", "heavy_duty_7"]
_KINDS: Final[dict[int, Kind]] = {7: "blade_7", 4: "flat_4", 5: "flat_5"}
_WIRES: Final[dict[Kind, str]] = {
    "blade_7": "blade_7_trailer_harness",
    "flat_4": "flat_4",
    "flat_5": "flat_5",
    "heavy_duty_7": "sae_j560",
}
HEAVY_DUTY: Final = "SAE J560"
"""What a plug's card gives as its face where its seven terminals are those of a heavy truck, not of a pick-up."""


@dataclass(frozen=True, slots=True)
class Terminal:
    """One terminal of this unit's plug."""

    number: int
    function: str
    does: str
    """What it does, in words."""
    awg: int | None
    """Least gauge of its wire, where a standard or the references give one."""
    clockwise_rad: float | None
    place: int | None


def kind_of(unit: AsBuiltUnit) -> Kind | None:
    """Return which plug the unit has, by its terminals and its face, or None for one whose face is not known."""
    plug = unit.part("plug")
    count = plug.si("terminals") if plug is not None else None
    if plug is None or not count:
        return None
    face = plug.values.get("face")
    if face is not None and face.given == HEAVY_DUTY:
        return "heavy_duty_7"
    return _KINDS.get(int(count))


def terminals(unit: AsBuiltUnit, language: str) -> tuple[Terminal, ...]:
    """Return the terminals of the unit's plug in the order of their numbers; none for a face that is not known."""
    kind = kind_of(unit)
    if kind is None:
        return ()
    wires = tables.load("plug_terminals")
    found = []
    for row in tables.load("plug_faces").where(plug=kind):
        wire = wires.row(standard=_WIRES[kind], function=row["function"])
        found.append(
            Terminal(
                row["number"],
                row["function"],
                say(f"plug.{'heavy_' if kind == 'heavy_duty_7' else ''}{row['function']}", language),
                wire["least_awg"],
                row["clockwise_rad"],
                row["place"],
            )
        )
    return tuple(found)


def number_of(unit: AsBuiltUnit, function: str) -> int | None:
    """Return the number of the terminal with a function, or None."""
    return next((found.number for found in terminals(unit, "en") if found.function == function), None)


def plug_face(unit: AsBuiltUnit, language: str) -> Drawing | None:
    """Return the face of the plug with its terminals numbered."""
    kind = kind_of(unit)
    if kind is None:
        return None
    found = terminals(unit, language)
    told = "; ".join(f"{terminal.number} {terminal.does}" for terminal in found)
    if kind == "heavy_duty_7":
        return _round(found, told, language)
    return _blades(found, told, language) if kind == "blade_7" else _flat(found, told, language)


def _round(found: tuple[Terminal, ...], told: str, language: str) -> Drawing:
    """Return a face with round terminals, six round the one in the middle; that of the ground is the thickest."""
    canvas = Canvas(SIZE_MM, SIZE_MM)
    middle = (SIZE_MM / 2, SIZE_MM / 2)
    canvas.line((middle[0], 0.5), (middle[0], SIZE_MM - 0.5), CENTER)
    canvas.circle(middle, 35.0, OUTLINE)
    canvas.circle(middle, 31.0, EDGE)
    canvas.rect((middle[0] - 3.2, middle[1] - 37.0), 6.4, 4.2, OUTLINE, WHITE)
    canvas.text((middle[0] + 6.4, 4.6), say("plug.key_up", language), 8.0)
    for terminal in found:
        turn = terminal.clockwise_rad
        reach = 20.0 if turn is not None else 0.0
        sine, cosine = math.sin(turn or 0.0), math.cos(turn or 0.0)
        spot = (middle[0] + reach * sine, middle[1] - reach * cosine)
        canvas.circle(spot, 4.0 if terminal.function == "ground" else 3.2, OUTLINE, WHITE)
        canvas.circle(spot, 2.4 if terminal.function == "ground" else 1.8, None, INK)
        beside = (middle[0] + 11.6 * sine, middle[1] - 11.6 * cosine) if reach else (spot[0] + 6.4, spot[1])
        _number(canvas, beside, terminal)
    return canvas.done("", say("drawing.shows.plug", language, terminals=told))


def _blades(found: tuple[Terminal, ...], told: str, language: str) -> Drawing:
    canvas = Canvas(SIZE_MM, SIZE_MM)
    middle = (SIZE_MM / 2, SIZE_MM / 2)
    canvas.line((middle[0], 0.5), (middle[0], SIZE_MM - 0.5), CENTER)
    canvas.circle(middle, 35.0, OUTLINE)
    canvas.circle(middle, 32.6, DETAIL)
    canvas.circle(middle, 26.0, EDGE)
    canvas.rect((middle[0] - 4.4, middle[1] - 37.2), 8.8, 5.0, OUTLINE, WHITE)
    canvas.text((middle[0] + 6.4, 4.6), say("plug.key_up", language), 8.0)
    for terminal in found:
        if terminal.clockwise_rad is None:
            canvas.circle(middle, 2.7, None, INK)
            canvas.circle(middle, 3.9, EDGE)
            _number(canvas, (middle[0], middle[1] + 7.8), terminal)
            continue
        sine, cosine = math.sin(terminal.clockwise_rad), math.cos(terminal.clockwise_rad)
        spot = (middle[0] + 20.0 * sine, middle[1] - 20.0 * cosine)
        canvas.polygon(_blade(spot, sine, cosine), None, INK)
        _number(canvas, (middle[0] + 13.0 * sine, middle[1] - 13.0 * cosine), terminal)
    return canvas.done("", say("drawing.shows.plug", language, terminals=told))


def _blade(spot: Point, sine: float, cosine: float) -> list[Point]:
    """Return a blade that lies along the circle: long across its own radius."""
    along, out = (cosine, sine), (sine, -cosine)
    return [
        (spot[0] + a * 4.0 * along[0] + b * 1.3 * out[0], spot[1] + a * 4.0 * along[1] + b * 1.3 * out[1])
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]


def _number(canvas: Canvas, spot: Point, terminal: Terminal) -> None:
    canvas.circle(spot, 2.9, None, WHITE)
    canvas.words_in(spot, str(terminal.number), 15.0, weight=700)


def _flat(found: tuple[Terminal, ...], told: str, language: str) -> Drawing:
    tall, y, count = 40.0, 16.0, len(found)
    pitch = 16.0 if count < 5 else 14.6
    canvas = Canvas(SIZE_MM, tall)
    left = SIZE_MM / 2 - (count - 1) / 2 * pitch
    canvas.rect((left - pitch / 2, y - 7.0), count * pitch, 14.0, OUTLINE, WHITE, 3.0)
    canvas.rect((left - pitch / 2 + 1.6, y - 5.4), pitch - 3.2, 10.8, EDGE, WHITE, 2.0)
    for terminal in found:
        spot = (left + ((terminal.place or 1) - 1) * pitch, y)
        covered = terminal.place == 1
        canvas.circle(spot, 3.3, OUTLINE if covered else None, WHITE if covered else INK)
        if covered:
            canvas.circle(spot, 1.5, None, INK)
        canvas.words_in((spot[0], y + 12.0), str(terminal.number), 15.0, weight=700)
    canvas.text((left, y - 9.2), say("plug.covered", language), 8.0, anchor="middle")
    canvas.text((left + count / 2 * pitch, y - 9.2), say("plug.bare", language), 8.0, anchor="middle")
    return canvas.done("", say("drawing.shows.plug_flat", language, terminals=told))
