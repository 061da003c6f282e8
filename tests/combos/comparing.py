"""Holding the product's structure of a unit against the independent evaluator's, and mutants that must not pass."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sendoff.asbuilt.fit import fit
from sendoff.asbuilt.lap import lap_of_slots
from sendoff.briefing.outline import Leg, Outline, Standing, Visit, broken_orders, outline
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.schema import TrailerType


@dataclass(frozen=True)
class Structure:
    """What the product says is on a unit and where it is told."""

    fitted: Mapping[str, str]
    walk: Outline


def structure_of(catalogue: Catalogue, trailer: TrailerType, options: frozenset[str]) -> Structure:
    """Return the product's structure for a set of options, by the very functions a pack is made with."""
    fitted = {slot: part.reference for slot, part in fit(trailer, options).items()}
    stations, places = lap_of_slots(trailer, fitted, catalogue.yard.walk)
    parts = [
        Standing(slot, catalogue.cards[reference.partition("/")[0]], places[slot])
        for slot, reference in fitted.items()
    ]
    return Structure(
        fitted, outline([(station, trailer.stations[station].state) for station in stations], parts)
    )


def differences(found: Structure, expected: Mapping[str, Any]) -> list[str]:
    """Return in words how the product's structure differs from the evaluator's; nothing when it is the same."""
    different = differences_of_fit(found.fitted, expected["fitted"])
    if list(found.walk.stations) != expected["stations"]:
        different.append(f"stations: {found.walk.stations} against {expected['stations']}")
    legs = [(leg.state, visit.station) for leg in found.walk.legs for visit in leg.visits]
    if legs != expected["legs"]:
        different.append(f"walk: {legs} against {expected['legs']}")
    for leg in found.walk.legs:
        for visit in leg.visits:
            acts = [(act.slot, act.id, act.places) for act in visit.acts]
            wanted = expected["acts"].get((leg.state, visit.station), set())
            if set(acts) != wanted or len(acts) != len(wanted):
                different.append(f"{leg.state} at {visit.station}: {sorted(set(acts) ^ wanted)}")
    if found.walk.entries != expected["entries"]:
        different.append(f"entries: {sorted(found.walk.entries ^ expected['entries'])}")
    return different


def differences_of_fit(found: Mapping[str, str], expected: Mapping[str, str]) -> list[str]:
    """Return in words which slots are filled differently."""
    if dict(found) == expected:
        return []
    return [f"fitted: {sorted(set(found.items()) ^ set(expected.items()))}"]


def broken(found: Structure, trailer: TrailerType) -> list[str]:
    """Return the orders the walk does not keep."""
    rules = [(rule.before, rule.after) for rule in trailer.orders]
    return [f"{earlier} must come before {later}" for earlier, later in broken_orders(found.walk, rules)]


def _with_visits(found: Structure, change: Callable[[list[Visit]], list[Visit]]) -> Structure:
    legs = tuple(Leg(leg.state, tuple(change(list(leg.visits)))) for leg in found.walk.legs)
    return replace(found, walk=replace(found.walk, legs=legs))


def without_a_card(found: Structure) -> Structure:
    """Drop all acts of the first part that has any."""
    slot = found.walk.acts()[0].slot
    return _with_visits(
        found,
        lambda visits: [
            Visit(visit.station, tuple(act for act in visit.acts if act.slot != slot)) for visit in visits
        ],
    )


def with_a_card_too_many(found: Structure) -> Structure:
    """Tell an act of a part that is not fitted."""
    stranger = replace(found.walk.acts()[0], slot="not_fitted")
    first = found.walk.legs[0].visits[0]
    return _with_visits(
        found, lambda visits: [Visit(v.station, (*v.acts, stranger)) if v is first else v for v in visits]
    )


def with_a_variant_swapped(found: Structure) -> Structure:
    """Fit another variant of one part than the options bring."""
    slot, reference = next(iter(found.fitted.items()))
    return replace(found, fitted={**found.fitted, slot: reference + "_other"})


def with_two_stations_exchanged(found: Structure) -> Structure:
    """Meet two stations of one lap in the wrong order."""

    def exchange(visits: list[Visit]) -> list[Visit]:
        return [visits[1], visits[0], *visits[2:]] if len(visits) > 1 else visits

    return _with_visits(found, exchange)


def without_a_caution(found: Structure) -> Structure:
    """Leave one caution unsaid."""
    caution = min(entry for entry in found.walk.entries if entry[1] == "cautions")
    return replace(found, walk=replace(found.walk, entries=found.walk.entries - {caution}))


MUTANTS = (
    without_a_card,
    with_a_card_too_many,
    with_a_variant_swapped,
    with_two_stations_exchanged,
    without_a_caution,
)
