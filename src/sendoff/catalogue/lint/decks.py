"""What must hold of decks, their strips and the ways to set them up, beyond the shape of the file."""

from __future__ import annotations

from collections.abc import Iterator

from sendoff.catalogue.decks import Deck
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.schema import TrailerType
from sendoff.errors import Fault


def faults(catalogue: Catalogue) -> list[Fault]:
    """Return every fault of the decks of every trailer type."""
    return [
        fault
        for name, trailer in sorted(catalogue.types.items())
        for fault in _of_trailer(trailer, catalogue.files[f"type:{name}"])
    ]


def _of_trailer(trailer: TrailerType, file: str) -> Iterator[Fault]:
    frame = trailer.frame
    keyed = [(f"frame.deck[{n}]", deck) for n, deck in enumerate(frame.decks, start=1)]
    for number, way in enumerate(frame.ways, start=1):
        keyed += [(f"frame.way[{number}].deck[{n}]", deck) for n, deck in enumerate(way.decks, start=1)]
    yield from _twice([(f"{key}.id", deck.id) for key, deck in keyed], file, "deck")
    yield from _twice([(f"frame.way[{n}].id", way.id) for n, way in enumerate(frame.ways, 1)], file, "way")
    strips = [(f"{key}.strip", strip.id) for key, deck in keyed for strip in deck.strips]
    yield from _twice(strips, file, "strip")
    for key, deck in keyed:
        yield from _of_deck(deck, key, trailer, file)
    if all(deck.slot is not None for deck in frame.decks):
        cure = "Leave the slot of one deck out: it is always there."
        yield Fault(file, "frame.deck", "", "a unit could be built without any deck", cure)
    known = [deck.id for _, deck in keyed]
    for number, way in enumerate(frame.ways, start=1):
        named = [
            *way.takes_away,
            *way.headroom,
            *way.over_front,
            *way.after,
            *(one for row in way.after.values() for one in row),
        ]
        for name in dict.fromkeys(named):
            if name not in known:
                cure = f"Use one of: {', '.join(known)}."
                yield Fault(file, f"frame.way[{number}]", name, "there is no such deck", cure)
        if not way.decks and set(way.takes_away) >= {deck.id for deck in frame.decks}:
            yield Fault(
                file,
                f"frame.way[{number}].takes_away",
                "",
                "no deck is left in this way",
                "Leave one of them.",
            )
    rails = frame.rails
    if rails is not None and (
        2 * rails.flange.si >= rails.height.si or rails.web.si >= rails.flange_width.si
    ):
        cure = "height and flange_width are the whole section; flange and web are how thick the steel is."
        yield Fault(file, "frame.rails", "", "the rails are no I-beam", cure)


def _twice(names: list[tuple[str, str]], file: str, what: str) -> Iterator[Fault]:
    seen = set()
    for key, name in names:
        if name in seen:
            yield Fault(
                file, key, name, f"two of one type have this {what} id", f"Give each {what} its own id."
            )
        seen.add(name)


def _of_deck(deck: Deck, key: str, trailer: TrailerType, file: str) -> Iterator[Fault]:
    for name, slot in (("slot", deck.slot), ("floor", deck.floor if deck.floor != "floor" else None)):
        if slot is not None and slot not in trailer.slots:
            yield Fault(
                file,
                f"{key}.{name}",
                slot,
                "the type has no such slot",
                f"Use one of: {', '.join(trailer.slots)}.",
            )
    if deck.x0.si >= deck.x1.si and "way[" in key:
        yield Fault(file, f"{key}.x1", deck.x1.given, "the deck ends before it begins", "Swap x0 and x1.")
    for strip in deck.strips:
        if not deck.x0.si <= strip.x0.si < strip.x1.si <= deck.x1.si:
            yield Fault(
                file, f"{key}.strip.{strip.id}", f"{strip.x0.given} to {strip.x1.given}",
                "the strip does not lie on its deck, front to rear", "Correct its x0 and x1.",
            )  # fmt: skip
    inner, outer = deck.lane_inner, deck.lane_outer
    if inner is not None and inner.si >= (outer or deck.width).si:
        yield Fault(
            file,
            f"{key}.lane_inner",
            inner.given,
            "the wheel ways have no width",
            "It is less than lane_outer.",
        )
