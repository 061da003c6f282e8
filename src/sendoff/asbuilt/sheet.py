"""The build sheet: what one unit was ordered and built as."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from msgspec import Meta, field

from sendoff.catalogue.fields import Id, Mass, PlainText, Record

Monthly = Annotated[int, Meta(ge=0, le=100_000)]
PUBLIC_ID_SIGNS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Signs of a public id: no 0, O, 1 or I, which are read for one another."""
PublicId = Annotated[str, Meta(pattern=f"^[{PUBLIC_ID_SIGNS}]{{10}}$")]


class Reader(Record, frozen=True, kw_only=True):
    """The language and the units the papers of this unit are written in."""

    language: Literal["en", "es"] = "en"
    units: Literal["us", "metric"] = "us"


class Use(Record, frozen=True, kw_only=True):
    """How much the owner expects to use it each month; upkeep dates are forecast from it."""

    miles: Monthly | None = None
    loads: Monthly | None = None
    trips: Monthly | None = None
    hours: Monthly | None = None


class Owner(Record, frozen=True, kw_only=True):
    """Whose it is."""

    name: PlainText
    telephone: PlainText | None = None
    use: Use = Use()


class Collects(Record, frozen=True, kw_only=True):
    """Who takes it away, and when."""

    who: Literal["owner", "hired_driver", "carrier", "yard_delivers"]
    on: datetime.date
    name: PlainText | None = None


class PartMarks(Record, frozen=True, kw_only=True):
    """What is stamped or molded on the part at one place."""

    serial: PlainText | None = None
    lot: PlainText | None = None
    tin: PlainText | None = None
    """Tire identification number, as molded: DOT …"""


class Ticket(Record, frozen=True, kw_only=True):
    """One weighing."""

    on: datetime.date
    what: Literal["whole", "coupling", "axle_group"]
    """What stood on the scale: the whole trailer, the coupling alone, or its axles."""
    coupled: bool
    state: Literal["empty", "loaded"] = "empty"
    mass: Mass
    error: Mass | None = None
    """How far the scale may be off."""
    scale: PlainText | None = None


class BuildSheet(Record, frozen=True, kw_only=True):
    """The file that says what one unit was ordered and built as."""

    schema_version: Literal[1] = field(name="schema")
    unit: PlainText
    """The yard's own number for it."""
    public_id: PublicId
    """What its labels carry; random, made once by `sendoff new`, says nothing about anybody."""
    type: Id
    options: tuple[Id, ...] = ()
    vin: PlainText
    built: datetime.date
    reader: Reader = Reader()
    owner: Owner
    collects: Collects
    parts: dict[Id, dict[Id, PartMarks]] = {}
    """Per slot and place: serials, lots, tire identification numbers."""
    tickets: tuple[Ticket, ...] = field(default=(), name="ticket")
    truck: Id | None = None
    cargo: Id | None = None
