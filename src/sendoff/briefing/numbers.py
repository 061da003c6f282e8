"""The numbers of a unit: those at each station, and the numbers sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Value
from sendoff.briefing.filling import Filler
from sendoff.briefing.model import Number
from sendoff.catalogue.fields import Section
from sendoff.catalogue.schema import Card
from sendoff.display import Shown, show
from sendoff.phrases import say

SECTIONS: Final[tuple[Section, ...]] = ("pressure", "weight", "torque", "electric", "size", "fluid")
"""Blocks of the numbers sheet in their order: weight stands between pressure and torque, which are never neighbors."""


def of_part(part: FittedPart, card: Card, filler: Filler) -> Iterator[Number]:
    """Yield the values of a part as its station shows them, then what is stamped on it."""
    note = card.variants[part.variant].note
    for name, value in part.values.items():
        meaning = card.values[name]
        yield Number(
            key=f"{part.slot}.{name}",
            label=filler.fill(meaning.say, part),
            shown=filler.show(value),
            second=filler.second(value),
            origin=value.origin,
            section=meaning.sheet,
            part=part.name[filler.language],
            note=filler.fill(note, part) if note is not None and meaning.sheet is not None else None,
            count=len(part.places),
        )


def marks_of_part(part: FittedPart, station: str, filler: Filler) -> Iterator[Number]:
    """Yield serials, lots and tire identification numbers of the places at a station."""
    for place in part.places:
        if place.station != station:
            continue
        for kind in ("serial", "lot", "tin"):
            mark = getattr(place.marks, kind)
            if mark is not None:
                where = "" if len(part.places) == 1 else f", {place_name(place.id, filler.language)}"
                label = say(f"mark.{kind}", filler.language, part=part.name[filler.language]) + where
                yield Number(
                    f"{part.slot}.{place.id}.{kind}",
                    label,
                    Shown(mark, ""),
                    None,
                    "sheet",
                    None,
                    part.name[filler.language],
                    typed=True,
                )


def place_name(place: str, language: str) -> str:
    """Return a place's id as a person reads it: "left_1_out" becomes "left 1, outer"."""
    words = []
    for piece in place.split("_"):
        key = f"place.{piece}"
        try:
            words.append(say(key, language))
        except KeyError:
            words.append(piece)
    return " ".join(words)


def sheet(unit: AsBuiltUnit, cards: Mapping[str, Card], filler: Filler) -> tuple[Number, ...]:
    """Return the numbers sheet: the plate's numbers, and of each part those that belong on it, block by block."""
    found = list(_of_plate(unit, filler))
    for part in unit.parts:
        found += [number for number in of_part(part, cards[part.card], filler) if number.section is not None]
    found += _of_size(unit, filler)
    rank = {section: position for position, section in enumerate(SECTIONS)}
    return tuple(sorted(found, key=lambda number: rank[number.section or "size"]))


def _of_plate(unit: AsBuiltUnit, filler: Filler) -> Iterator[Number]:
    plate, language = unit.plate, filler.language
    yield _plate_number("gvwr", plate.gvwr, filler)
    if len({axle.si for axle in plate.gawr}) == 1:
        label = say("number.each_axle" if len(plate.gawr) > 1 else "number.axle", language)
        yield _number("plate.gawr", label, plate.gawr[0], filler, "weight")
    else:
        for position, axle in enumerate(plate.gawr, start=1):
            yield _number(
                f"plate.gawr.{position}", say("number.axle_n", language, n=position), axle, filler, "weight"
            )
    yield _number("plate.empty", say("number.empty", language), empty_mass(unit), filler, "weight")
    least, most = filler.show(plate.coupling_share_least), filler.show(plate.coupling_share_most)
    label = say(f"number.share.{unit.coupling}", language)
    window = Shown(f"{least.number} {say('number.to', language)} {most.number}", "%")
    yield Number("plate.coupling_share", label, window, None, "plate", "weight", "")


def _plate_number(name: str, value: Value, filler: Filler) -> Number:
    return _number(f"plate.{name}", say(f"number.{name}", filler.language), value, filler, "weight")


def _number(key: str, label: str, value: Value, filler: Filler, section: Section) -> Number:
    return Number(key, label, filler.show(value), filler.second(value), value.origin, section, "")


def empty_mass(unit: AsBuiltUnit) -> Value:
    """Return the empty mass: weighed whole and uncoupled where a ticket says so, else what the plate says."""
    weighed = [
        ticket.mass
        for ticket in unit.weighings
        if ticket.what == "whole" and ticket.state == "empty" and not ticket.coupled
    ]
    return weighed[-1] if weighed else unit.plate.empty_mass


def _of_size(unit: AsBuiltUnit, filler: Filler) -> Iterator[Number]:
    geometry = unit.geometry
    sizes = (
        ("length", geometry.overall_length_m),
        ("width", geometry.overall_width_m),
        ("coupling_height", geometry.coupling_height_m),
        ("deck_height", max(deck.height_m for deck in geometry.decks)),
    )
    for name, meters in sizes:
        shown = show("length", meters, filler.units, "demand")
        second = show("length", meters, "metric" if filler.units == "us" else "us", "demand")
        yield Number(
            f"size.{name}", say(f"number.{name}", filler.language), shown, second, "drawing", "size", ""
        )
