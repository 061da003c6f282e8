"""Weights over a deck plan and arrows under it: what each item weighs, what coupling, axles and truck bear."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sendoff.calc.deck_plan import Share
from sendoff.display import figure, show
from sendoff.drawings.deck_sheet import (
    DASHED,
    DISC_MM,
    LABEL_MM,
    LONGEST_MM,
    STEPS,
    WIDTH_MM,
    Sheet,
    Standing,
)
from sendoff.drawings.lettering import width_mm
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import QUIET, WHITE, Canvas, Pen
from sendoff.phrases import say
from sendoff.units import from_si, to_si


@dataclass(frozen=True, slots=True)
class Forces:
    """One scale of arrows, and the words beside them."""

    kg_a_mm: float
    told: str


def forces_of(sheet: Sheet) -> Forces:
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


def label_rows(sheet: Sheet) -> int:
    return max((level for *_, level in _label_places(sheet)), default=0) + 1


def weights(canvas: Canvas, sheet: Sheet, at: Projection, forces: Forces, rows: int) -> None:
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


def bearings(canvas: Canvas, sheet: Sheet, ground_y: float, forces: Forces) -> None:
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
