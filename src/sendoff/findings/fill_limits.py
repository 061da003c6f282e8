"""What owners fill a body with, by this unit's own weights: the painted lines of a dump body, head of stock.

What fits between the sides is not what may be carried. A line is painted for the wet weight of its material; this
unit's options and its scale ticket decide how high it may be. Animals are told by floor and by weight, the smaller
counts; a tenth stays free, because they move.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.calc.bulk import Material, fill_line
from sendoff.calc.contract import worked
from sendoff.calc.livestock import head_count
from sendoff.findings.load_window import LoadLimits, limits_of
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.findings.weighed import Empty, empty_of

LINES: Final[tuple[tuple[str, Material], ...]] = (
    ("line_gravel", "gravel"),
    ("line_soil", "earth"),
    ("line_mulch", "mulch"),
)
"""Value of the body's card that tells a painted line, and its material; each is reckoned wet."""
OTHER_HEAD_lb: Final = (500, 1400)
"""Animals told beside the one of the plate: a weaned calf, a grown cow (from memory)."""
LB_kg: Final = 0.45359237


def findings_of(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Yield the painted lines of a dump body and the head on the plate of a stock body, where they are told."""
    body, floor = unit.part("body"), unit.part("stock_floor")
    empty = empty_of(unit)
    limits = limits_of(unit, empty) if empty is not None else None
    if body is not None and any(body.si(name) for name, _ in LINES):
        yield from _lines(unit, body, empty, limits)
    if floor is not None and floor.si("head") and floor.si("animal_mass"):
        yield from _head(unit, floor, empty, limits)


def notes_for_card(unit: AsBuiltUnit) -> tuple[Note, ...]:
    """Return what the load card says of a body filled with bulk, or of animals: how deep, how many."""
    notes = []
    for found in findings_of(unit):
        if found.limit.most is None:
            continue
        if found.kind == "length":
            depth = Amount("length", found.limit.most, "capacity")
            notes.append(Note(f"card_{found.about}", {"depth": depth}))
        else:
            notes.append(Note("card_head", words={"n": f"{found.limit.most:.0f}", **found.words}))
    return tuple(notes)


def most_at(limits: LoadLimits, x_m: float) -> tuple[float, str]:
    """Return the greatest load whose center stands at a place, and the limit that ends it."""
    worst = limits.empty.mass_kg + limits.empty.error_kg
    caps = [(most - worst, name) for name, most in limits.gross]
    lines = [line for line in limits.front_lines() if x_m < line.b]
    lines += [line for line in limits.rear_lines() if x_m > line.b]
    caps += [(line.a / (x_m - line.b), line.name) for line in lines]
    most, name = min(caps)
    return max(most, 0.0), name


def _lines(
    unit: AsBuiltUnit, body: FittedPart, empty: Empty | None, limits: LoadLimits | None
) -> Iterator[Finding]:
    """Each painted line against what this unit may carry of that material, filled level over the whole floor."""
    length, width, depth = (body.si(name) for name in ("length", "width", "depth"))
    sources = all_references_of(fill_line)
    for name, material in LINES:
        painted = body.si(name)
        if not painted or not length or not width or not depth:
            continue
        about = f"fill_{name}"
        if empty is None or limits is None:
            yield unknown(f"body.{name}", about, "length", "weigh_coupling_empty", sources=sources)
            continue
        deck = next((one for one in unit.geometry.decks if one.id == "body"), unit.geometry.decks[0])
        payload, by = most_at(limits, (deck.x0_m + deck.x1_m) / 2)
        if payload <= 0:
            continue
        done = worked(fill_line, payload, material, length, width, depth)
        full = Amount("mass", done.result.full_body_kg, "demand")
        notes = [
            Note("fill_ends", {"most": Amount("mass", payload, "capacity")}, phrases={"by": f"ends_by.{by}"})
        ]
        if not done.result.body_may_be_full:
            over = Amount("mass", done.result.over_if_full_kg, "demand")
            notes.append(Note("fill_full", {"full": full, "over": over}))
        if not empty.weighed:
            notes.append(Note("not_weighed", {"error": Amount("mass", empty.error_kg)}))
        yield Finding(
            f"body.{name}",
            about,
            "length",
            Limit(most=done.result.depth_m),
            painted,
            "set_point",
            steps=done.steps,
            sources=sources,
            notes=tuple(notes),
        )


def _head(
    unit: AsBuiltUnit, floor: FittedPart, empty: Empty | None, limits: LoadLimits | None
) -> Iterator[Finding]:
    """The head painted at the gate against this unit's floor and weights; lighter and heavier animals beside it."""
    sources = all_references_of(head_count)
    if empty is None or limits is None:
        yield unknown("stock.head", "stock_head", "count", "weigh_coupling_empty", sources=sources)
        return
    area = sum((deck.x1_m - deck.x0_m) * deck.width_m for deck in unit.geometry.decks)
    room = limits.room
    payload, by = most_at(limits, (room.front_x_m + room.rear_x_m) / 2)
    animal = floor.si("animal_mass") or 0.0
    if payload <= 0:
        return
    done = worked(head_count, area, animal, payload)
    notes = [
        Note(
            "head_by",
            {"most": Amount("mass", payload, "capacity")},
            {"floor": str(done.result.by_floor), "mass": str(done.result.by_payload)},
            {"by": f"ends_by.{by}"},
        )
    ]
    for pounds in OTHER_HEAD_lb:
        other = head_count(area, pounds * LB_kg, payload)
        words = {"head": str(other.head), "floor": str(other.by_floor)}
        notes.append(
            Note("head_other", {"animal": Amount("mass", pounds * LB_kg, given=f"{pounds:,} lb")}, words)
        )
    notes.append(Note("head_guide"))
    if not empty.weighed:
        notes.append(Note("not_weighed", {"error": Amount("mass", empty.error_kg)}))
    yield Finding(
        "stock.head",
        "stock_head",
        "count",
        Limit(most=float(done.result.head)),
        floor.si("head") or 0.0,
        "label",
        words={"animal": floor.values["animal_mass"].given},
        steps=done.steps,
        sources=sources,
        notes=tuple(notes),
    )
