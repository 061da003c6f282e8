"""A unit, its truck and its cargo as one problem of the deck planner, for each way to set up the decks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from sendoff.asbuilt.unit import AsBuiltUnit, Way
from sendoff.calc import deck_plan
from sendoff.calc.deck_plan import Problem
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.load import Catalogue
from sendoff.errors import Fault, FaultyInput
from sendoff.findings.all_limits import named, read_cargo
from sendoff.findings.deck.gear import Gear, Law, gear_of
from sendoff.findings.deck.items import GAP_m, items_of
from sendoff.findings.deck.surfaces import surfaces


@dataclass(frozen=True, slots=True)
class DeckCase:
    """Everything a deck plan is asked with, and the names to tell it by."""

    unit: AsBuiltUnit
    cargo: Cargo
    truck: Truck | None
    gear: Gear
    problems: Mapping[str, Problem]
    """By the way the decks are set up; one of no name where there is only one way."""
    law: Law

    @property
    def first_way(self) -> str:
        """The way that is asked for where none is chosen."""
        return next(iter(self.problems))

    def item_name(self, item_id: str) -> str:
        """Return what the owner calls an item."""
        return next(str(item.name) for item in self.cargo.items if item.id == item_id)

    def way(self, way_id: str) -> Way | None:
        """Return a way to set up the decks; None where there is only one."""
        return next((way for way in self.unit.geometry.ways if way.id == way_id), None)

    def deck_front_m(self, surface: str) -> float:
        """Return where a surface begins: what places are measured from."""
        first = surface.partition("+")[0]
        geometry = self.unit.geometry
        decks = (*geometry.decks, *(deck for way in geometry.ways for deck in way.decks))
        return next(deck.x0_m for deck in decks if deck.id == first)

    def only(self, way_id: str) -> DeckCase:
        """Return the same with one way alone."""
        if way_id not in self.problems:
            known = ", ".join(name for name in self.problems if name) or "this type has only one"
            raise FaultyInput(
                Fault("--way", "", way_id, "there is no such way to set up the decks", f"Use: {known}.")
            )
        return replace(self, problems={way_id: self.problems[way_id]})


def case_of(
    unit: AsBuiltUnit,
    cargo: Cargo,
    truck: Truck | None = None,
    *,
    file: str = "cargo file",
    law: Law = "us",
    highest_m: float | None = None,
    choosing: bool = False,
) -> DeckCase:
    """Return the problem of a cargo on a unit behind a truck, for every way to set up the decks."""
    items = items_of(cargo, file, choosing=choosing)
    gear = gear_of(unit, truck, law)
    decks = {
        way.id if way is not None else "": surfaces(unit, way, highest_m)
        for way in (unit.geometry.ways or (None,))
    }
    longest = max(deck.last_m - deck.first_m for surface in decks.values() for deck in surface)
    _refuse_too_long(cargo, longest, file)
    problems = {
        way: Problem(
            items,
            surface,
            gear.trailer,
            gear.truck,
            gear.groups,
            gap_m=cargo.gap.si if cargo.gap is not None else GAP_m,
            drop_rule=cargo.drops,
        )
        for way, surface in decks.items()
        if max(deck.last_m - deck.first_m for deck in surface) >= max(item.length_m for item in items)
    }
    return DeckCase(unit, cargo, truck, gear, problems, law)


def _refuse_too_long(cargo: Cargo, longest_m: float, file: str) -> None:
    faults = [
        Fault(
            file,
            f"item[{number}] {item.id}: length",
            item.length.given,
            f"it is longer than the longest deck, {deck_plan_length(longest_m)}",
            "Leave it out, or take a longer trailer.",
        )
        for number, item in enumerate(cargo.items, start=1)
        if item.length is not None and item.length.si > longest_m + 1e-9
    ]
    if faults:
        raise FaultyInput(faults)


def deck_plan_length(length_m: float) -> str:
    """Return a length as a fault says it, in both systems."""
    from sendoff.display import show

    return f"{show('length', length_m, 'us', 'capacity')} ({show('length', length_m, 'metric', 'capacity')})"


def cargo_file(
    unit: AsBuiltUnit, catalogue: Catalogue, given: Path | None = None
) -> tuple[Cargo, str] | None:
    """Return the cargo given, else the one a unit's sheet names, with its file's name; None where there is neither."""
    path = given or named(unit.cargo, catalogue, "cargo", "cargo")
    if path is None:
        return None
    return read_cargo(path), str(path)


def order_of_drops(cargo: Cargo, first_off: tuple[str, ...]) -> Cargo:
    """Return the cargo with an order in which items come off; those not named stay on to the last stop."""
    _known(cargo, first_off, "--drops")
    numbers = {name: number for number, name in enumerate(first_off, start=1)}
    import msgspec

    items = tuple(msgspec.structs.replace(item, drop=numbers.get(item.id, 0)) for item in cargo.items)
    return msgspec.structs.replace(cargo, items=items)


def _known(cargo: Cargo, names: tuple[str, ...], option: str) -> None:
    ids = [item.id for item in cargo.items]
    for name in names:
        if name not in ids:
            raise FaultyInput(
                Fault(option, "", name, "there is no such item in the cargo file", f"Use: {', '.join(ids)}.")
            )


def heavier(case: DeckCase, item_id: str, by_kg: float) -> DeckCase:
    """Return the case with one item heavier (or lighter): what if the pick-up carries its tools."""
    _known(case.cargo, (item_id,), "--heavier")

    def changed(problem: Problem) -> Problem:
        old = next(item.mass_kg for item in problem.items if item.name == item_id)
        return deck_plan.with_mass(problem, item_id, old + by_kg)

    return replace(case, problems={way: changed(problem) for way, problem in case.problems.items()})
