"""Decks and the ways to set them up, from a trailer type into the as-built unit; and how stiff its frame is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from sendoff.asbuilt import unit as made
from sendoff.catalogue.decks import Deck, Rails, Way

STEEL_Pa: Final = 200e9
"""Young's modulus of structural steel: 29,000 ksi, 200 GPa (common handbook value; from memory)."""


def decks_of(decks: Iterable[Deck], filled: frozenset[str]) -> tuple[made.Deck, ...]:
    """Return decks in meters, without those whose slot is left empty."""
    return tuple(_deck(deck) for deck in decks if deck.slot is None or deck.slot in filled)


def _deck(deck: Deck) -> made.Deck:
    def si(size: object) -> float | None:
        return getattr(size, "si", None)

    return made.Deck(
        id=deck.id,
        x0_m=deck.x0.si,
        x1_m=deck.x1.si,
        width_m=deck.width.si,
        height_m=deck.height.si,
        height_rear_m=(deck.height_rear or deck.height).si,
        name=dict(deck.name) if deck.name is not None else {},
        total_kg=si(deck.total),
        wheel_kg=si(deck.wheel),
        floor=deck.floor,
        height_limit_m=si(deck.height_limit),
        lane_inner_m=si(deck.lane_inner),
        lane_outer_m=si(deck.lane_outer),
        over_front_m=si(deck.over_front) or 0.0,
        over_rear_m=si(deck.over_rear) or 0.0,
        strips=tuple(
            made.Strip(id=strip.id, name=dict(strip.name), x0_m=strip.x0.si, x1_m=strip.x1.si)
            for strip in deck.strips
        ),
    )


def ways_of(ways: Iterable[Way], filled: frozenset[str]) -> tuple[made.Way, ...]:
    """Return the ways to set up the decks, in meters."""
    return tuple(
        made.Way(
            id=way.id,
            name=dict(way.name),
            decks=decks_of(way.decks, filled),
            takes_away=way.takes_away,
            headroom_m={deck: size.si for deck, size in way.headroom.items()},
            over_front_m={deck: size.si for deck, size in way.over_front.items()},
            after=dict(way.after),
            effort=way.effort,
        )
        for way in ways
    )


def frame_stiffness_Nm2(rails: Rails) -> float:
    """Return E·I of two I-beams about their own middle: the whole rectangle less the two gaps beside the web."""
    inner = rails.height.si - 2 * rails.flange.si
    gaps = (rails.flange_width.si - rails.web.si) * inner**3
    return 2 * STEEL_Pa * (rails.flange_width.si * rails.height.si**3 - gaps) / 12
