"""The way onto the deck: what a machine does to the coupling while it stands behind the axles, and what it drives over.

As long as the tail's tip or the gate's end rests on the ground, all that the trailer feels of a machine on it comes
through the hinge. So the worst of the whole way on is the machine's whole weight at the hinge (without one, at the
rear end of the deck): less than that is a lesser pull on the coupling.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Hinge
from sendoff.calc.contract import worked
from sendoff.calc.statics.trailer import add_item
from sendoff.catalogue.freight import Cargo
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.findings.weighed import Empty, axle_group_x_m

LEAST_BEHIND_m: Final = 0.05
"""A hinge less than this behind the axles cannot lift a coupling worth a word."""


@dataclass(frozen=True, slots=True)
class Entry:
    """Where a machine comes onto the trailer."""

    x_m: float
    hinge_id: str | None
    """None where it drives over no hinge."""
    tail_middle_x_m: float | None
    """Middle of a deck that turns with the hinge; None where the hinge carries none."""


def entry_of(unit: AsBuiltUnit) -> Entry:
    """Return where machines come on: the hindmost hinge behind the axles, else the rear end of the deck."""
    behind = [
        hinge
        for hinge in unit.geometry.hinges
        if hinge.lowered_rad > 0 and hinge.x_m > axle_group_x_m(unit) and not _is_raised(unit, hinge)
    ]
    if not behind:
        return Entry(max(deck.x1_m for deck in unit.geometry.decks), None, None)
    hinge = max(behind, key=lambda one: one.x_m)
    deck = next((one for one in unit.geometry.decks if one.id == hinge.id), None)
    return Entry(hinge.x_m, hinge.id, (deck.x0_m + deck.x1_m) / 2 if deck is not None else None)


def _is_raised(unit: AsBuiltUnit, hinge: Hinge) -> bool:
    """Tell whether a hinge raises the deck ahead of it, as that of a dump body: nobody drives over such a one."""
    return any(deck.id == hinge.id and deck.x0_m < hinge.x_m for deck in unit.geometry.decks)


def driven_over(unit: AsBuiltUnit, entry: Entry) -> FittedPart | None:
    """Return the tail, gate or ramps that a machine drives over on its way on, or None."""
    return unit.part(entry.hinge_id if entry.hinge_id is not None else "ramps")


def legs_kg(unit: AsBuiltUnit, entry: Entry) -> float | None:
    """Return what the legs under the rear end bear while a machine comes on; None where there are none."""
    over = driven_over(unit, entry)
    return over.si("legs_rating") if over is not None else None


def lifts_at_kg(coupling_kg: float, axles_x_m: float, x_m: float) -> float | None:
    """Return the mass that, standing there, just takes all load off the coupling; None ahead of the axles.

    >>> lifts_at_kg(300.0, 5.0, 6.0), lifts_at_kg(300.0, 5.0, 5.0)
    (1500.0, None)
    """
    arm = x_m - axles_x_m
    return max(coupling_kg, 0.0) * axles_x_m / arm if arm > LEAST_BEHIND_m else None


def findings_of(unit: AsBuiltUnit, cargo: Cargo, empty: Empty | None) -> Iterator[Finding]:
    """Yield what the heaviest item that drives on does on its way, onto the empty trailer."""
    driven = [item for item in cargo.items if not item.set_down]
    if not driven:
        return
    item = max(driven, key=lambda one: one.mass.si)
    entry, axles, mass = entry_of(unit), axle_group_x_m(unit), item.mass.si
    words, sources = {"item": str(item.name)}, all_references_of(add_item)
    over, legs = driven_over(unit, entry), legs_kg(unit, entry)
    if legs is not None:
        yield Finding(
            "cargo.way_on", "way_on_legs", "mass", Limit(most=legs), mass, demand_origin="sheet", words=words
        )
    elif entry.x_m - axles > LEAST_BEHIND_m:
        if empty is None or empty.coupling_kg is None:
            yield unknown(
                "cargo.way_on", "way_on", "mass", "weigh_coupling_empty", words=words, sources=sources
            )
        elif most := lifts_at_kg(empty.coupling_kg, axles, entry.x_m):
            taken = worked(add_item, mass, axles - entry.x_m, axles)
            yield Finding(
                "cargo.way_on",
                "way_on",
                "mass",
                Limit(most=most),
                mass,
                demand_origin="sheet",
                words=words,
                steps=taken.steps,
                sources=sources,
                notes=_notes(entry, empty.coupling_kg, taken.result.coupling_change_kg, axles),
            )
    if over is not None and (rating := over.si("load_rating") or over.si("pair_rating")) is not None:
        yield Finding(
            "cargo.crossing", "crossing", "mass", Limit(most=rating), mass, demand_origin="sheet", words=words
        )


def _notes(entry: Entry, coupling_kg: float, change_kg: float, axles_x_m: float) -> tuple[Note, ...]:
    left = coupling_kg + change_kg
    notes = [
        Note("coupling_left", {"left": Amount("mass", left)})
        if left >= 0
        else Note("coupling_lifts", {"lift": Amount("mass", -left)})
    ]
    if entry.tail_middle_x_m is not None:
        most = lifts_at_kg(coupling_kg, axles_x_m, entry.tail_middle_x_m)
        if most is not None:
            notes.append(Note("tip_in_the_air", {"most": Amount("mass", most, "capacity")}))
    return tuple(notes)
