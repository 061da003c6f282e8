"""The bare structure of a briefing: which act is met where and when, without a word of text.

Built from the trailer type and what is fitted, so fast that it can be proved over every legal combination of options.
`brief.py` hangs the texts and numbers of one unit on it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.catalogue.fields import STATES, Entry, State
from sendoff.catalogue.schema import Card, Check, Step

LISTS: Final = ("cautions", "upkeep", "troubles", "show_me", "handed_over", "lines")
"""The lists of a card whose entries are no acts of the walk."""
_STATE_ORDER: Final = {state: position for position, state in enumerate(STATES)}


@dataclass(frozen=True, slots=True)
class Standing:
    """A part as the outline needs it: its slot and card, and the places by station, in lap order of the stations."""

    slot: str
    card: Card
    places: Mapping[str, tuple[str, ...]]

    @property
    def home(self) -> str:
        """The station at which it is explained: the first one of its places."""
        return next(iter(self.places))


@dataclass(frozen=True, slots=True)
class Act:
    """A step or check of a part, met at one station in one state."""

    slot: str
    card: str
    id: str
    what: Literal["step", "check"]
    station: str
    state: State
    hands: int
    places: tuple[str, ...]
    """Places where a check is repeated; empty for steps and for checks of the whole unit."""
    waits_for: tuple[tuple[str, str], ...]
    """Acts (slot, id) that must have come before."""

    @property
    def key(self) -> tuple[str, str]:
        """Slot and id, which name an act within a unit."""
        return self.slot, self.id


@dataclass(frozen=True, slots=True)
class Visit:
    """What is done at one station in one state."""

    station: str
    acts: tuple[Act, ...]


@dataclass(frozen=True, slots=True)
class Leg:
    """One lap in one state."""

    state: State
    visits: tuple[Visit, ...]


@dataclass(frozen=True, slots=True)
class Outline:
    """The walk of a unit: its laps by state, each in the order of the stations."""

    stations: tuple[str, ...]
    legs: tuple[Leg, ...]
    entries: frozenset[tuple[str, str, str]]
    """All else that is said: slot, list ("cautions", "upkeep", …) and id of each entry that counts on this unit."""

    def says(self, slot: str, of: str, entry: Entry) -> bool:
        """Tell whether an entry of a slot's card is said on this unit."""
        return (slot, of, entry.id) in self.entries

    def acts(self) -> list[Act]:
        """Return all acts in walking order."""
        return [act for leg in self.legs for visit in leg.visits for act in visit.acts]


def applies(item: Entry, fitted: Mapping[str, str]) -> bool:
    """Tell whether an entry of a card counts on a unit; `fitted` maps each filled slot to its card."""
    return all(_holds(condition, fitted) for condition in item.if_fitted) and not any(
        _holds(condition, fitted) for condition in item.unless_fitted
    )


def _holds(condition: str, fitted: Mapping[str, str]) -> bool:
    slot, equals, card = condition.partition("=")
    return slot in fitted and (not equals or fitted[slot] == card)


def outline(stations: Sequence[tuple[str, State]], parts: Sequence[Standing]) -> Outline:
    """Return the walk of a unit.

    `stations` are those with something fitted, in lap order, with the state in which they are met when an act says
    nothing else; `parts` are in the order in which a station speaks of them.
    """
    fitted = {part.slot: part.card.id for part in parts}
    own_state = dict(stations)
    visits: dict[tuple[int, str], list[Act]] = {}
    for part in parts:
        for step in part.card.steps:
            if applies(step, fitted):
                act = _step(part, step, own_state[part.home], fitted)
                visits.setdefault((_STATE_ORDER[act.state], act.station), []).append(act)
        for check in part.card.checks:
            if applies(check, fitted):
                for act in _checks(part, check, own_state, fitted):
                    visits.setdefault((_STATE_ORDER[act.state], act.station), []).append(act)
    order = [name for name, _ in stations]
    legs = []
    for position, state in enumerate(STATES):
        met = tuple(
            Visit(name, _ordered(visits[position, name])) for name in order if (position, name) in visits
        )
        if met:
            legs.append(Leg(state, met))
    entries = frozenset(
        (part.slot, of, entry.id)
        for part in parts
        for of in LISTS
        for entry in getattr(part.card, of)
        if applies(entry, fitted)
    )
    return Outline(tuple(order), tuple(legs), entries)


def _step(part: Standing, step: Step, state: State, fitted: Mapping[str, str]) -> Act:
    return Act(
        part.slot,
        part.card.id,
        step.id,
        "step",
        part.home,
        step.state or state,
        step.hands,
        (),
        _waits(part.slot, step.needs_before, fitted),
    )


def _checks(
    part: Standing, check: Check, own_state: Mapping[str, State], fitted: Mapping[str, str]
) -> list[Act]:
    waits = _waits(part.slot, check.needs_before, fitted)
    if check.each == "unit":
        state = check.state or own_state[part.home]
        return [Act(part.slot, part.card.id, check.id, "check", part.home, state, check.hands, (), waits)]
    return [
        Act(
            part.slot,
            part.card.id,
            check.id,
            "check",
            station,
            check.state or own_state[station],
            check.hands,
            places,
            waits,
        )
        for station, places in part.places.items()
    ]


def _waits(slot: str, references: Sequence[str], fitted: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    found = []
    for reference in references:
        other, colon, act = reference.removesuffix("?").rpartition(":")
        if not colon:
            found.append((slot, act))
        elif other in fitted or not reference.endswith("?"):
            found.append((other, act))
    return tuple(found)


def _ordered(acts: list[Act]) -> tuple[Act, ...]:
    """Return the acts of one visit: as written, but none before what it waits for; two-person acts together at the end.

    An order that cannot be kept within the visit (a loop) is left as written: the lint names it.
    """
    written = [act for act in acts if act.hands == 1] + [act for act in acts if act.hands == 2]
    here = {act.key for act in written}
    if not any(wait in here for act in written for wait in act.waits_for):
        return tuple(written)
    done: set[tuple[str, str]] = set()
    ordered: list[Act] = []
    waiting = written
    while waiting:
        ready = next(
            (act for act in waiting if all(wait in done or wait not in here for wait in act.waits_for)),
            waiting[0],
        )
        ordered.append(ready)
        done.add(ready.key)
        waiting = [act for act in waiting if act is not ready]
    return tuple(ordered)


def broken_orders(
    walk: Outline, rules: Sequence[tuple[str, str]] = ()
) -> list[tuple[tuple[str, str], tuple[str, str]]]:
    """Return each pair of acts (earlier, later) that the walk meets the wrong way round.

    `rules` are orders of the trailer type, as references "slot:act".
    """
    first: dict[tuple[str, str], int] = {}
    last: dict[tuple[str, str], int] = {}
    wanted: list[tuple[tuple[str, str], tuple[str, str]]] = []
    for position, act in enumerate(walk.acts()):
        first.setdefault(act.key, position)
        last[act.key] = position
        wanted += [(wait, act.key) for wait in act.waits_for]
    for before, after in rules:
        wanted.append((_named(before), _named(after)))
    return [
        (earlier, later)
        for earlier, later in dict.fromkeys(wanted)
        if earlier in last and later in first and last[earlier] >= first[later]
    ]


def _named(reference: str) -> tuple[str, str]:
    slot, _, act = reference.removesuffix("?").partition(":")
    return slot, act
