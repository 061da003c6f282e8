"""The load card: the most a trailer may carry, where the weight must stand, what a truck allows, what comes first.

A frozen record for one page the owner keeps; the papers typeset it, the command line says it in a few lines. All
positions count rearwards from the coupling; `deck_front_x_m` is what a reader measures from.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.freight import Truck
from sendoff.display import Role, show
from sendoff.findings import fill_limits
from sendoff.findings.load_window import LoadLimits, Window, limits_of, room_of
from sendoff.findings.model import Amount, Note
from sendoff.findings.telling import say_note
from sendoff.findings.unit_limits import NOT_CHECKED
from sendoff.findings.way_on import Entry, entry_of, lifts_at_kg
from sendoff.findings.weighed import Empty, axle_group_x_m, empty_of
from sendoff.phrases import say
from sendoff.units import System

SHARES: Final = (0.25, 0.5, 0.75, 1.0)
"""Shares of the most it may carry for which a band of places is told."""
ROUND_UP: Final[Role] = "demand"
ROUND_DOWN: Final[Role] = "capacity"


@dataclass(frozen=True, slots=True)
class Band:
    """Where the middle of a load may stand."""

    cargo_kg: float
    window: Window


@dataclass(frozen=True, slots=True)
class Allowed:
    """What may be carried: by the trailer alone, or with one truck."""

    most_kg: float
    by: tuple[str, ...]
    """The limits that end it (phrases `ends_by.…`)."""
    bands: tuple[Band, ...]
    """From light to full; empty where nothing may be carried."""
    least_kg: float
    """Loads below this cannot bring the coupling into its window from any place on the deck."""
    not_known: tuple[str, ...] = ()
    """Limits of the truck nobody can hold yet (phrases `finding.…`)."""


@dataclass(frozen=True, slots=True)
class LoadCard:
    """All of it for one unit."""

    unit: str
    empty: Empty
    gross_kg: float
    share: tuple[float, float]
    """Least and most of the whole weight on the coupling."""
    deck_front_x_m: float
    deck_rear_x_m: float
    axles_x_m: float
    alone: Allowed | None
    """None where the coupling's share of the empty weight is not known: weigh it."""
    with_truck: Allowed | None
    truck_name: str | None
    entry: Entry
    lifts_at_kg: float | None
    """Mass at the hinge (or the deck's rear end) that takes all load off the coupling while it comes on; None where
    nothing can."""
    lifts_on_tail_kg: float | None
    """The same at the tail's middle, its tip in the air."""
    tie_down_points: int
    point_limit_kg: float | None
    filled: tuple[Note, ...] = ()
    """How deep a body may be filled with each material, how many head go in."""
    not_checked: tuple[str, ...] = field(default=())


def load_card(unit: AsBuiltUnit, truck: Truck | None = None) -> LoadCard | None:
    """Return the load card of a unit; None where its plate tells no weights."""
    empty, gross = empty_of(unit), unit.plate.gvwr.si
    least, most = unit.plate.coupling_share_least.si, unit.plate.coupling_share_most.si
    if empty is None or gross is None or least is None or most is None:
        return None
    alone = limits_of(unit, empty)
    towed = limits_of(unit, empty, truck) if truck is not None else None
    entry, points = entry_of(unit), unit.part("tie_downs")
    room, axles = room_of(unit), axle_group_x_m(unit)

    def lifts(x_m: float | None) -> float | None:
        known = x_m is not None and empty.coupling_kg is not None and unit.part("floor") is not None
        return lifts_at_kg(empty.coupling_kg or 0.0, axles, x_m or 0.0) if known else None

    return LoadCard(
        unit=unit.unit,
        empty=empty,
        gross_kg=gross,
        share=(least, most),
        deck_front_x_m=room.front_x_m,
        deck_rear_x_m=room.rear_x_m,
        axles_x_m=axles,
        alone=_allowed(alone) if alone is not None else None,
        with_truck=_allowed(towed) if towed is not None else None,
        truck_name=str(truck.name) if truck is not None else None,
        entry=entry,
        lifts_at_kg=lifts(entry.x_m),
        lifts_on_tail_kg=lifts(entry.tail_middle_x_m),
        tie_down_points=len(points.places) if points is not None else 0,
        point_limit_kg=points.si("working_load_limit") if points is not None else None,
        filled=fill_limits.notes_for_card(unit),
        not_checked=(
            "load_moves",
            *(name for name in NOT_CHECKED if name != "load" and (truck is None or name != "truck")),
        ),
    )


def _allowed(limits: LoadLimits) -> Allowed:
    most = limits.most_cargo()
    bands = [
        Band(share * most.cargo_kg, limits.window(share * most.cargo_kg)) for share in SHARES if most.cargo_kg
    ]
    return Allowed(
        most.cargo_kg,
        most.by,
        tuple(band for band in bands if band.window.exists),
        most.least_kg,
        limits.not_known,
    )


@dataclass(frozen=True, slots=True)
class ToldAllowed:
    """`Allowed` in words and shown values."""

    title: str
    most: str
    first: str
    """Which limits come first."""
    bands: tuple[tuple[str, str, str], ...]
    """Load, from, to: from the front of the deck."""
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ToldCard:
    """A load card for one reader."""

    title: str
    empty: str
    measured_from: str
    allowed: tuple[ToldAllowed, ...]
    remarks: tuple[str, ...]
    not_checked: tuple[str, ...]
    authority: str


def tell_card(card: LoadCard, language: str, system: System) -> ToldCard:
    """Return a load card in a reader's words and units; what may be carried rounds down, bands round inwards."""

    light = card.alone.least_kg if card.alone is not None else 0.0

    def shown(kind: str, si: float, role: Role) -> str:
        return str(show(kind, si, system, role))

    def allowed(found: Allowed, title: str) -> ToldAllowed:
        bands = tuple(
            (
                shown("mass", band.cargo_kg, ROUND_DOWN),
                shown("length", band.window.front_x_m - card.deck_front_x_m, ROUND_UP),
                shown("length", band.window.rear_x_m - card.deck_front_x_m, ROUND_DOWN),
            )
            for band in found.bands
        )
        first = ", ".join(dict.fromkeys(say(f"ends_by.{name}", language) for name in found.by))
        remarks = (
            [say("load_card.not_held", language, names=_names(found, language))] if found.not_known else []
        )
        if found.least_kg > (0.0 if found is card.alone else light):
            remarks.append(say("load_card.light", language, least=shown("mass", found.least_kg, ROUND_UP)))
        return ToldAllowed(title, shown("mass", found.most_kg, ROUND_DOWN), first, bands, tuple(remarks))

    told = []
    if card.alone is not None:
        told.append(allowed(card.alone, say("load_card.alone", language)))
    if card.with_truck is not None:
        told.append(allowed(card.with_truck, say("load_card.with_truck", language, truck=card.truck_name)))
    return ToldCard(
        title=say("load_card.title", language),
        empty=say(
            "load_card.empty_weighed" if card.empty.weighed else "load_card.empty_plate",
            language,
            mass=shown("mass", card.empty.mass_kg, ROUND_UP),
        ),
        measured_from=say("load_card.measured_from", language),
        allowed=tuple(told),
        remarks=tuple(say_note(note, language, system) for note in _remarks(card)),
        not_checked=tuple(say(f"not_checked.{name}", language) for name in card.not_checked),
        authority=say("answer.authority", language),
    )


def _names(found: Allowed, language: str) -> str:
    return ", ".join(say(f"ends_by.{name}", language) for name in found.not_known)


def _remarks(card: LoadCard) -> list[Note]:
    notes = [] if card.alone is not None else [Note("card_weigh_coupling")]
    notes += card.filled
    if card.lifts_at_kg is not None:
        where = "hinge" if card.entry.hinge_id is not None else "deck_end"
        notes.append(Note(f"card_lifts_{where}", {"most": Amount("mass", card.lifts_at_kg, "capacity")}))
    if card.lifts_on_tail_kg is not None:
        notes.append(Note("tip_in_the_air", {"most": Amount("mass", card.lifts_on_tail_kg, "capacity")}))
    if card.point_limit_kg is not None:
        limit = Amount("mass", card.point_limit_kg, "capacity")
        notes.append(Note("card_points", {"each": limit}, {"n": str(card.tie_down_points)}))
    return notes
