"""What a briefing is: everything said about one unit, in one language and one system of units, ready for any page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sendoff.asbuilt.unit import Origin
from sendoff.catalogue.fields import PaperName, Section, SignalWord, State
from sendoff.display import Shown
from sendoff.units import System


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety message, ready to print."""

    id: str
    signal: SignalWord
    word: str
    hazard: str
    consequence: str
    avoid: str


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do."""

    key: str
    """slot:step"""
    text: str
    state: State
    hands: int
    other_state: bool
    """Whether it is done in another state than its station's, so that a page must say so."""


@dataclass(frozen=True, slots=True)
class Check:
    """Something looked at, felt or measured, with what it should be and how far it may differ."""

    key: str
    text: str
    part: str
    how: Literal["seen", "felt", "measured"]
    state: State
    hands: int
    target: Shown | None
    minus: Shown | None
    plus: Shown | None
    tool: str | None
    safety: bool
    stale_after_s: float | None
    places: tuple[str, ...]
    """Readable names of the places; empty for one reading."""


@dataclass(frozen=True, slots=True)
class Number:
    """A value of this unit, with where it comes from."""

    key: str
    """slot.value, or plate.value"""
    label: str
    shown: Shown
    second: Shown | None
    """In the other system of units, where it differs."""
    origin: Origin
    section: Section | None
    part: str
    note: str | None = None
    count: int = 1
    """How many places it holds for."""
    typed: bool = False
    """Whether it is something typed in, such as a serial, set with a dotted zero."""


@dataclass(frozen=True, slots=True)
class UpkeepLine:
    """Something that falls due again and again, or at the first miles."""

    key: str
    station: int
    part: str
    text: str
    every: str
    """When, in words: "10 loads or 1 month, whichever first"."""
    loads: int | None
    trips: int | None
    miles: int | None
    hours: int | None
    months: int | None
    at_miles: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Trouble:
    """What usually goes wrong, and what to look at first."""

    key: str
    see: str
    look: str


@dataclass(frozen=True, slots=True)
class PartSaid:
    """A part at a station: what it is, why it is fitted."""

    slot: str
    letter: str
    name: str
    variant: str
    what: str
    why: str
    passive: str | None
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Station:
    """Everything said at one station."""

    number: int
    id: str
    name: str
    state: State
    hands: int
    twin: int | None
    """Number of the station that teaches the same, when this is its twin on the other side."""
    parts: tuple[PartSaid, ...]
    cautions: tuple[Caution, ...]
    steps: tuple[Step, ...]
    checks: tuple[Check, ...]
    numbers: tuple[Number, ...]
    upkeep: tuple[UpkeepLine, ...]
    troubles: tuple[Trouble, ...]


@dataclass(frozen=True, slots=True)
class Visit:
    """What is checked at one station in one state."""

    station: int
    name: str
    steps: tuple[Step, ...]
    checks: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class Leg:
    """One lap in one state."""

    state: State
    title: str
    visits: tuple[Visit, ...]


@dataclass(frozen=True, slots=True)
class Question:
    """A question by which the owner shows it was understood: one right answer among named mistakes."""

    key: str
    station: int
    hurts: SignalWord
    text: str
    answers: tuple[str, ...]
    right: int
    """Position of the right one."""
    mistakes: tuple[str, ...]
    """For each answer the mistake that makes it, empty for the right one."""


@dataclass(frozen=True, slots=True)
class LooseItem:
    """A loose item or paper handed over with the unit."""

    key: str
    text: str
    count: int


@dataclass(frozen=True, slots=True)
class PaperLine:
    """What a one-page paper says of a part."""

    key: str
    """slot:line"""
    paper: PaperName
    rank: int
    station: int
    part: str
    text: str


@dataclass(frozen=True, slots=True)
class Briefing:
    """All that is said about one unit."""

    unit: str
    language: str
    units: System
    stations: tuple[Station, ...]
    legs: tuple[Leg, ...]
    numbers: tuple[Number, ...]
    """The numbers sheet, by section."""
    sentences: tuple[str, ...]
    questions: tuple[Question, ...]
    upkeep: tuple[UpkeepLine, ...]
    loose_items: tuple[LooseItem, ...]
    lines: tuple[PaperLine, ...]
    """What the one-page papers say of the parts, by rank, then in walking order."""

    def lines_of(self, paper: PaperName) -> tuple[PaperLine, ...]:
        """Return the lines of one paper."""
        return tuple(line for line in self.lines if line.paper == paper)
