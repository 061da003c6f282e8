"""What an owner wants to carry, as the deck planner needs it; what cannot be is refused, all of it at once.

A vehicle stands on two axles, a machine on the rollers of its tracks, and what is set down on the whole of its length,
pressed as its center of mass asks. Measures that are not known stay unknown: the planner names what it did not check.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from sendoff.calc import deck_plan
from sendoff.calc.deck_plan.problem import MOST_ITEMS, MOST_PLACED
from sendoff.catalogue.freight import Cargo, CargoItem
from sendoff.errors import Fault, FaultyInput, OutOfRange

CELLS: Final = 4
"""Stretches that what is set down is cut into; each presses at its middle."""
SHORT_m: Final = 0.8
"""What is shorter than this is cut into two."""
PADS: Final = 2
NEAR_m: Final = 0.02
"""Measures of one item may contradict each other by so much."""
GAP_m: Final = 0.1016
"""4 in between two items where the file says nothing: room for a strap and a hand (common practice, no source)."""


def faults_of_cargo(cargo: Cargo, file: str) -> list[Fault]:
    """Return what is wrong with any cargo, whatever it is asked for: two of one name, a middle outside its item."""
    found = []
    seen = Counter(item.id for item in cargo.items)
    for name, count in seen.items():
        if count > 1:
            found.append(
                Fault(
                    file, f"item {name}", f"{count} times", "two items have this id", "Give each its own id."
                )
            )
    for number, item in enumerate(cargo.items, start=1):
        found += [_fault(file, number, item, *told) for told in _of_any(item)]
    return found


def _fault(file: str, number: int, item: CargoItem, key: str, value: str, problem: str, cure: str) -> Fault:
    return Fault(file, f"item[{number}] {item.id}: {key}", value, problem, cure)


def _of_any(item: CargoItem) -> Iterator[tuple[str, str, str, str]]:
    long, center = item.length, item.center_of_mass
    if center is not None and (center.si < 0 or (long is not None and center.si > long.si)):
        problem = "the center of mass lies outside the item"
        yield "center_of_mass", center.given, problem, "Measure it from the item's own front end, along it."
    if item.heaviest_wheel is not None and item.heaviest_wheel.si > item.mass.si:
        problem = "one wheel weighs more than the whole item"
        yield "heaviest_wheel", item.heaviest_wheel.given, problem, "Weigh both again."
    if item.mass_error is not None and item.mass_error.si >= item.mass.si:
        problem = "the mass may be wrong by as much as the whole of it"
        yield "mass_error", item.mass_error.given, problem, "Weigh it, or take the maker's mass."


def items_of(cargo: Cargo, file: str, *, choosing: bool = False) -> tuple[deck_plan.Item, ...]:
    """Return the items of a cargo; refuse what cannot be placed, naming the item and the cure."""
    faults = faults_of_cargo(cargo, file)
    most = MOST_ITEMS if choosing else MOST_PLACED
    if len(cargo.items) > most:
        cure = (
            f"Ask for at most {MOST_ITEMS} at a time."
            if choosing or len(cargo.items) > MOST_ITEMS
            else f"Ask with --choose which of them to take, or place at most {MOST_PLACED}."
        )
        faults.append(Fault(file, "item", str(len(cargo.items)), f"more than {most} items", cure))
    made = []
    for number, item in enumerate(cargo.items, start=1):
        missing = [_fault(file, number, item, *told) for told in _missing(item)]
        if missing:
            faults += missing
            continue
        try:
            made.append(_item(item))
        except OutOfRange as refused:
            name = refused.name.removeprefix(f"item {item.id}: ")
            faults.append(
                _fault(file, number, item, name, f"{refused.value}", "that cannot be", refused.allowed)
            )
    if faults:
        raise FaultyInput(faults)
    return tuple(made)


def _missing(item: CargoItem) -> Iterator[tuple[str, str, str, str]]:
    """Yield what the planner needs and the file does not tell, or tells twice and differently."""
    if item.length is None:
        yield "length", "", "the deck plan needs it", "Measure the item over everything that sticks out."
    if item.set_down:
        if item.center_of_mass is None:
            cure = "Find where it balances, from its front end; of an even load, half its length."
            yield "center_of_mass", "", "the deck plan needs it", cure
    elif item.tracks_length is not None or item.tracks_front is not None:
        yield from _tracks_missing(item)
    else:
        yield from _wheels_missing(item)


def _tracks_missing(item: CargoItem) -> Iterator[tuple[str, str, str, str]]:
    if item.tracks_length is None:
        yield "tracks_length", "", "the deck plan needs it", "Measure what lies on the ground."
    if item.center_of_mass is None:
        cure = "Measure where the machine balances, with its tools as they ride, from its front end."
        yield "center_of_mass", "", "the deck plan needs it", cure


def _wheels_missing(item: CargoItem) -> Iterator[tuple[str, str, str, str]]:
    if item.wheelbase is None:
        cure = "Measure from the middle of its front wheels to the middle of its rear ones, or write set_down = true."
        yield "wheelbase", "", "the deck plan needs it", cure
    if item.front_overhang is None:
        cure = "Measure from its front end to the middle of its front wheels."
        yield "front_overhang", "", "the deck plan needs it", cure
    if item.front_share is None and item.center_of_mass is None:
        cure = "Weigh both axles and give front_share, or give center_of_mass."
        yield "front_share", "", "the deck plan needs it", cure
    if item.wheelbase is None or item.front_overhang is None:
        return
    reach = item.front_overhang.si + item.wheelbase.si
    if item.length is not None and reach > item.length.si:
        cure = "Measure all three again: length, front_overhang, wheelbase."
        yield "wheelbase", item.wheelbase.given, "its rear wheels would stand behind its own end", cure
    elif item.length is not None and item.rear_overhang is not None:
        off = reach + item.rear_overhang.si - item.length.si
        if abs(off) > NEAR_m:
            cure = "front_overhang, wheelbase and rear_overhang add up to the length: measure them again."
            yield (
                "rear_overhang",
                item.rear_overhang.given,
                f"the lengths differ by {abs(off) * 1000:.0f} mm",
                cure,
            )
    center = item.center_of_mass
    if center is None:
        return
    if not item.front_overhang.si <= center.si <= reach:
        cure = "It lies between the wheels, or the item would tip over: weigh each axle."
        yield "center_of_mass", center.given, "the center of mass lies outside the wheelbase", cure
    elif item.front_share is not None:
        by_share = item.front_overhang.si + item.wheelbase.si * (1 - item.front_share.si)
        if abs(by_share - center.si) > NEAR_m:
            cure = "They say the same in two ways: weigh each axle and leave one of them out."
            yield "front_share", item.front_share.given, "it contradicts center_of_mass", cure


def _item(item: CargoItem) -> deck_plan.Item:
    if item.length is None:
        raise AssertionError(item.id)  # refused before
    base = deck_plan.Item(
        item.id,
        item.mass.si,
        item.length.si,
        _contacts(item, item.length.si),
        mass_error_kg=item.mass_error.si if item.mass_error is not None else 0.0,
        width_m=_si(item.width),
        height_m=_si(item.height),
        track_inner_m=_si(item.track_inner),
        track_outer_m=_si(item.track_outer),
        clearance_m=_si(item.clearance),
        approach_rad=_si(item.approach),
        departure_rad=_si(item.departure),
        facings=deck_plan.problem.FACINGS if item.faces == "either" else (item.faces,),
        drop_count=item.drop,
        moved_by="lifted" if item.set_down else item.moved,
        strap_reach_m=_si(item.strap_reach),
        worth_ratio=item.worth,
    )
    return base if not item.set_down else replace(base, track_inner_m=None, track_outer_m=None)


def _si(size: object) -> float | None:
    return getattr(size, "si", None)


def _contacts(item: CargoItem, long_m: float) -> tuple[deck_plan.Contact, ...]:
    center = _si(item.center_of_mass)
    if item.set_down and center is not None:
        return spread(long_m, center)
    if item.tracks_length is not None and center is not None:
        return deck_plan.on_tracks(
            item.id,
            item.mass.si,
            length_m=long_m,
            tracks_front_m=_si(item.tracks_front) or 0.0,
            tracks_length_m=item.tracks_length.si,
            center_m=center,
        ).contacts
    ahead, base = _si(item.front_overhang) or 0.0, _si(item.wheelbase) or 0.0
    share = item.front_share.si if item.front_share is not None else 1 - ((center or 0.0) - ahead) / base
    return deck_plan.vehicle(
        item.id,
        item.mass.si,
        length_m=long_m,
        front_overhang_m=ahead,
        wheelbase_m=base,
        front_share_ratio=min(max(share, 0.0), 1.0),
    ).contacts


def spread(long_m: float, center_m: float) -> tuple[deck_plan.Contact, ...]:
    """Return what a load that lies on the deck presses with, stretch by stretch, its pressure a straight line.

    Where its center lies outside the middle third, it bears on three times the way from there to the nearer end only.

    >>> [(contact.offset_m, contact.share_ratio) for contact in spread(2.0, 1.0)]
    [(0.25, 0.25), (0.75, 0.25), (1.25, 0.25), (1.75, 0.25)]
    >>> sum(contact.offset_m * contact.share_ratio for contact in spread(3.0, 0.6))
    0.6
    """
    near = max(min(center_m, long_m - center_m), long_m * 0.02)
    bearing = min(long_m, 3 * near)
    begin = 0.0 if center_m <= long_m / 2 else long_m - bearing
    cells = CELLS if bearing >= SHORT_m else 2
    places = [begin + bearing * (2 * cell + 1) / (2 * cells) for cell in range(cells)]
    middle = begin + bearing / 2
    width = sum((place - middle) ** 2 for place in places)
    lean = (center_m - middle) / width
    shares = [max(0.0, 1 / cells + lean * (place - middle)) for place in places]
    whole = sum(shares)
    return tuple(
        deck_plan.Contact(round(place, 9), share / whole, PADS)
        for place, share in zip(places, shares, strict=True)
    )
