"""References between the files of a catalogue: cards, variants, slots, stations, options, acts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from sendoff.catalogue.fields import Entry
from sendoff.catalogue.schema import Card, FromAxles, TrailerType
from sendoff.errors import Fault

NO_CARD: Final = "there is no such part card"


def faults(
    cards: Mapping[str, Card],
    types: Mapping[str, TrailerType],
    files: Mapping[str, str],
    unread: frozenset[str] = frozenset(),
) -> list[Fault]:
    """Return every reference that leads nowhere and every id used twice; unread files may hold what is looked for."""
    found = [
        fault
        for name, trailer in sorted(types.items())
        for fault in _of_type(trailer, cards, files[f"type:{name}"])
        if not (fault.problem == NO_CARD and fault.value.partition("/")[0] in unread)
    ]
    if unread:
        return [
            *found,
            *(fault for name, card in sorted(cards.items()) for fault in _twice(card, files[f"card:{name}"])),
        ]
    slots = {slot for trailer in types.values() for slot in trailer.slots}
    found += [
        fault
        for name, card in sorted(cards.items())
        for fault in _of_card(card, slots, cards, types, files[f"card:{name}"])
    ]
    return found


def candidates(trailer: TrailerType, slot: str) -> set[str]:
    """Return every `card/variant` that may fill a slot of a type."""
    found = {option.fits[slot] for option in trailer.options.values() if slot in option.fits}
    standard = trailer.slots[slot].standard
    return found | ({standard} if standard else set())


def _no_such(file: str, key: str, value: str, what: str, known: Iterable[str]) -> Fault:
    listed = ", ".join(sorted(known)[:30]) or "none"
    return Fault(file, key, value, f"there is no such {what}", f"Use one of: {listed}.")


def _reference(reference: str, cards: Mapping[str, Card], file: str, key: str) -> Iterator[Fault]:
    card, _, variant = reference.partition("/")
    if card not in cards:
        yield _no_such(file, key, reference, "part card", cards)
    elif variant not in cards[card].variants:
        yield _no_such(file, key, reference, f"variant of {card}", cards[card].variants)


def _of_type(trailer: TrailerType, cards: Mapping[str, Card], file: str) -> Iterator[Fault]:
    for name, slot in trailer.slots.items():
        stations = [slot.station] if isinstance(slot.station, str) else list(slot.station.values())
        for station in stations:
            if station not in trailer.stations:
                yield _no_such(file, f"slots.{name}.station", station, "station", trailer.stations)
        if slot.standard:
            yield from _reference(slot.standard, cards, file, f"slots.{name}.standard")
        yield from _places(trailer, name, file)
        if not candidates(trailer, name):
            yield Fault(
                file,
                f"slots.{name}",
                "",
                "nothing ever fills this slot",
                "Give it a standard part or an option, or delete it.",
            )
    for name, met in trailer.stations.items():
        if met.twin_of is not None and met.twin_of not in trailer.stations:
            yield _no_such(file, f"stations.{name}.twin_of", met.twin_of, "station", trailer.stations)
        elif met.twin_of == name:
            yield Fault(
                file,
                f"stations.{name}.twin_of",
                name,
                "a station is no twin of itself",
                "Name the other one.",
            )
    yield from _options(trailer, cards, file)
    yield from _labels(trailer, file)


def _labels(trailer: TrailerType, file: str) -> Iterator[Fault]:
    labels = trailer.labels
    least, most = labels.coupling_share
    if least.si > most.si:
        found = f"{least.given}, {most.given}"
        yield Fault(
            file, "labels.coupling_share", found, "the least is more than the most", "Write the least first."
        )
    if labels.empty_mass.si >= labels.gvwr.si:
        yield Fault(
            file,
            "labels.empty_mass",
            labels.empty_mass.given,
            f"empty it weighs as much as it may weigh loaded ({labels.gvwr.given})",
            "Correct it, or gvwr.",
        )
    axles = trailer.frame.axles
    if len(axles.braked) != len(axles.x):
        yield Fault(
            file,
            "frame.axles.braked",
            str(len(axles.braked)),
            f"the type has {_axles(len(axles.x))}",
            "Say true or false for each axle.",
        )
    if len(trailer.labels.gawr) != len(axles.x):
        yield Fault(
            file,
            "labels.gawr",
            str(len(trailer.labels.gawr)),
            f"the type has {_axles(len(axles.x))}",
            "Give one rating an axle.",
        )


def _axles(count: int) -> str:
    return "1 axle" if count == 1 else f"{count} axles"


def _places(trailer: TrailerType, name: str, file: str) -> Iterator[Fault]:
    slot = trailer.slots[name]
    if isinstance(slot.places, FromAxles):
        if slot.places.dual and trailer.frame.axles.dual_spacing is None:
            yield Fault(
                file,
                f"slots.{name}.places",
                "dual",
                "the axles have no dual spacing",
                "Add dual_spacing to frame.axles.",
            )
        sides = set(slot.places.sides)
    else:
        if not slot.places:
            yield Fault(
                file, f"slots.{name}.places", "", "the slot has no place", "Say where its part stands."
            )
        for place, times in Counter(place.id for place in slot.places).items():
            if times > 1:
                yield Fault(
                    file,
                    f"slots.{name}.places",
                    place,
                    "the place is named twice",
                    "Give each place its own id.",
                )
        sides = {place.side for place in slot.places}  # type: ignore[misc]
    if isinstance(slot.station, dict) and not sides <= set(slot.station):
        missing = ", ".join(sorted(sides - set(slot.station)))
        yield Fault(
            file,
            f"slots.{name}.station",
            missing,
            "places on this side have no station",
            f"Add station.{missing} = …",
        )


def _options(trailer: TrailerType, cards: Mapping[str, Card], file: str) -> Iterator[Fault]:
    for name, option in trailer.options.items():
        key = f"options.{name}"
        for slot, reference in option.fits.items():
            if slot not in trailer.slots:
                yield _no_such(file, f"{key}.fits", slot, "slot", trailer.slots)
            yield from _reference(reference, cards, file, f"{key}.fits.{slot}")
        for slot in option.empties:
            if slot not in trailer.slots:
                yield _no_such(file, f"{key}.empties", slot, "slot", trailer.slots)
        for word, others in (("requires", option.requires), ("excludes", option.excludes)):
            for other in others:
                if other not in trailer.options:
                    yield _no_such(file, f"{key}.{word}", other, "option", trailer.options)
                elif other == name:
                    yield Fault(file, f"{key}.{word}", name, "that is the option itself", "Name another one.")
        for other in sorted(set(option.requires) & set(option.excludes)):
            yield Fault(
                file, key, other, "it is required and excluded", "Take it out of requires or of excludes."
            )


def acts_of(card: Card) -> set[str]:
    """Return the ids of a card's steps and checks: what an order can speak of."""
    return {step.id for step in card.steps} | {check.id for check in card.checks}


def _of_card(
    card: Card, slots: set[str], cards: Mapping[str, Card], types: Mapping[str, TrailerType], file: str
) -> Iterator[Fault]:
    yield from _twice(card, file)
    yield from _conditions(card, slots, cards, file)
    own = acts_of(card)
    leaning: list[tuple[str, tuple[str, ...]]] = [
        *((step.id, step.needs_before) for step in card.steps),
        *((check.id, check.needs_before) for check in card.checks),
        *((trouble.id, trouble.first) for trouble in card.troubles),
    ]
    for entry, references in leaning:
        for reference in references:
            yield from _act(reference, own, slots, cards, types, file, entry)


def _twice(card: Card, file: str) -> Iterator[Fault]:
    """Yield what a card says of itself that cannot be: one id for two things, steps of a passive part."""
    groups: dict[str, list[str]] = {
        "step or check": [step.id for step in card.steps] + [check.id for check in card.checks],
        "caution": [caution.id for caution in card.cautions],
        "upkeep": [upkeep.id for upkeep in card.upkeep],
        "fault": [trouble.id for trouble in card.troubles],
        "show_me": [question.id for question in card.show_me],
        "handed_over": [item.id for item in card.handed_over],
        "line": [line.id for line in card.lines],
    }
    for what, ids in groups.items():
        for name, times in Counter(ids).items():
            if times > 1:
                yield Fault(file, what, name, "the id is used twice in this card", "Give each its own id.")
    if card.passive is not None and card.steps:
        yield Fault(file, "passive", "", "a passive part has no steps", "Delete passive, or the steps.")


def _conditions(card: Card, slots: set[str], cards: Mapping[str, Card], file: str) -> Iterator[Fault]:
    for slot in card.needs:
        if slot not in slots:
            yield _no_such(file, "needs", slot, "slot on any type", slots)
    entries: tuple[Entry, ...] = (
        *card.steps,
        *card.cautions,
        *card.checks,
        *card.upkeep,
        *card.troubles,
        *card.show_me,
        *card.handed_over,
        *card.lines,
    )
    for item in entries:
        for condition in (*item.if_fitted, *item.unless_fitted):
            slot, _, other = condition.partition("=")
            if slot not in slots:
                yield _no_such(file, f"{item.id}.if_fitted", condition, "slot on any type", slots)
            elif other and other not in cards:
                yield _no_such(file, f"{item.id}.if_fitted", condition, "part card", cards)


def _act(
    reference: str,
    own: set[str],
    slots: set[str],
    cards: Mapping[str, Card],
    types: Mapping[str, TrailerType],
    file: str,
    key: str,
) -> Iterator[Fault]:
    slot, colon, act = reference.removesuffix("?").rpartition(":")
    if not colon:
        if act not in own:
            yield _no_such(file, key, reference, "step or check in this card", own)
        return
    if slot not in slots:
        yield _no_such(file, key, reference, "slot on any type", slots)
        return
    fillers = {
        found.partition("/")[0]
        for trailer in types.values()
        if slot in trailer.slots
        for found in candidates(trailer, slot)
    }
    known = {name for card in fillers & set(cards) for name in acts_of(cards[card])}
    if act not in known:
        yield _no_such(file, key, reference, f"step or check of what fills {slot}", known)
