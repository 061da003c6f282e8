"""Orders between acts: no act may come before itself, however long the way round."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter

from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.references import acts_of, candidates
from sendoff.catalogue.schema import Card, Check, Step, TrailerType
from sendoff.errors import Fault

Act = tuple[str, str, str]
"""Slot, card, act."""


def faults(catalogue: Catalogue) -> list[Fault]:
    """Return each loop in the orders of each type, named act by act."""
    return [fault for _, trailer in sorted(catalogue.types.items()) for fault in _of_type(trailer, catalogue)]


def _of_type(trailer: TrailerType, catalogue: Catalogue) -> Iterator[Fault]:
    fillers = {
        slot: sorted({found.partition("/")[0] for found in candidates(trailer, slot)})
        for slot in trailer.slots
    }
    before = _before(trailer, catalogue.cards, fillers)
    while True:
        try:
            TopologicalSorter(before).prepare()
        except CycleError as error:
            loop: list[Act] = error.args[1]
        else:
            return
        if len({(slot, card) for slot, card, _ in loop}) == len({slot for slot, _, _ in loop}):
            told = " → ".join(f"{slot}:{act}" for slot, _, act in reversed(loop))
            file = catalogue.files[f"type:{trailer.id}"]
            yield Fault(
                file,
                "order",
                told,
                "these acts wait for one another in a loop",
                "Take one of the orders out.",
            )
        before[loop[1]].discard(loop[0])  # one arrow less, so that the next loop can be found


def _before(
    trailer: TrailerType, cards: Mapping[str, Card], fillers: Mapping[str, list[str]]
) -> dict[Act, set[Act]]:
    """Return for each act the acts that must come before it."""

    def named(reference: str, slot: str, card: str) -> set[Act]:
        other, colon, act = reference.removesuffix("?").rpartition(":")
        if not colon:
            return {(slot, card, act)}
        return {(other, filler, act) for filler in fillers.get(other, ()) if act in acts_of(cards[filler])}

    before: dict[Act, set[Act]] = {}
    for slot, names in fillers.items():
        for name in names:
            card = cards[name]
            acts: tuple[Step | Check, ...] = (*card.steps, *card.checks)
            for act in acts:
                waits = before.setdefault((slot, name, act.id), set())
                for reference in act.needs_before:
                    waits |= named(reference, slot, name)
    for rule in trailer.orders:
        for later in named(rule.after, "", ""):
            before.setdefault(later, set()).update(named(rule.before, "", ""))
    return before
