"""The shapes of decks: where a load may stand, what each part of a deck bears, and the ways to set decks up."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta, field

from sendoff.catalogue.fields import Id, Length, Record, Size, Text, Weight


class Strip(Record, frozen=True, kw_only=True):
    """A stretch of a deck where no wheel may stand: a hinge, a hatch, an opening."""

    id: Id
    name: Text
    x0: Length
    x1: Length


class Deck(Record, frozen=True, kw_only=True):
    """A level where a load may stand. Decks of one height that follow each other are one surface to stand on."""

    id: Id
    x0: Length
    x1: Length
    width: Size
    height: Size
    """Of its front edge above the ground."""
    height_rear: Size | None = None
    name: Text | None = None
    total: Weight | None = None
    """All that may stand on it; none: not limited by itself."""
    wheel: Weight | None = None
    """Under one wheel; none: what the floor's card says."""
    floor: Id = "floor"
    """Slot of the floor it is laid with."""
    height_limit: Size | None = None
    """How high what stands on it may be, where something is above it."""
    lane_inner: Size | None = None
    """Where there are only two wheel ways: between their insides."""
    lane_outer: Size | None = None
    """Over their outsides."""
    over_front: Size | None = None
    """How far a body may stick out ahead of it; none: not at all."""
    over_rear: Size | None = None
    slot: Id | None = None
    """It is there only where this slot is filled (an infill, a deck over the neck); none: always."""
    strips: tuple[Strip, ...] = field(default=(), name="strip")


class Way(Record, frozen=True, kw_only=True):
    """One way to set up the decks: what is there beyond the decks that never move, and what it takes away."""

    id: Id
    name: Text
    decks: tuple[Deck, ...] = field(default=(), name="deck")
    """Decks that are there only in this way, such as the lift deck where it stands when it is up."""
    takes_away: tuple[Id, ...] = ()
    """Decks that cannot be used in this way."""
    headroom: dict[Id, Size] = {}
    """How high what stands on a deck may be in this way."""
    over_front: dict[Id, Size] = {}
    """How far a body may stick out ahead of a deck in this way, such as a nose under the lift deck that is up."""
    after: dict[Id, tuple[Id, ...]] = {}
    """Decks that must be loaded before others and cleared after them: `after = { main = ["lift"] }`."""
    effort: Annotated[int, Meta(ge=0, le=9)] = 0
    """Further steps to bring an item up to the decks of this way, such as running the lift."""


class Rails(Record, frozen=True, kw_only=True):
    """The two main rails of the frame, each an I-beam of steel."""

    height: Size
    flange_width: Size
    flange: Size
    """How thick a flange is."""
    web: Size
    """How thick the web is."""
