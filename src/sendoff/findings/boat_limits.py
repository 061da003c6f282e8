"""What a boat truly weighs, with fuel, water and gear, against the weight it was written down with."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import msgspec

from sendoff.calc.contract import Worked, worked
from sendoff.catalogue.fields import Weight
from sendoff.catalogue.freight import Boat, Cargo, CargoItem
from sendoff.display import show
from sendoff.findings.model import Amount, Finding, Limit, Note
from sendoff.findings.sources_of import all_references_of

if TYPE_CHECKING:
    from sendoff.calc.ratings.boats import BoatMass


def _worked(boat: Boat) -> Worked[BoatMass]:
    from sendoff.calc.ratings.boats import boat_mass

    return worked(
        boat_mass,
        boat.dry.si,
        boat.fuel.si if boat.fuel is not None else 0.0,
        boat.water.si if boat.water is not None else 0.0,
        boat.gear.si if boat.gear is not None else 0.0,
        boat.fuel_kind,
    )


def counted(cargo: Cargo) -> Cargo:
    """Return the cargo with each boat at its true weight, where that is more than what was written down."""
    items = [_counted(item) for item in cargo.items]
    return msgspec.structs.replace(cargo, items=tuple(items))


def _counted(item: CargoItem) -> CargoItem:
    if item.boat is None:
        return item
    total = _worked(item.boat).result.total_kg
    if total <= item.mass.si:
        return item
    return msgspec.structs.replace(item, mass=Weight(str(show("mass", total, "us", "demand")), total))


def findings_of(cargo: Cargo) -> Iterator[Finding]:
    """Yield each boat's true weight against what was written down for it."""
    from sendoff.calc.ratings.boats import boat_mass

    for item in cargo.items:
        if item.boat is None:
            continue
        done = _worked(item.boat)
        parts = {
            "dry": Amount("mass", item.boat.dry.si, given=item.boat.dry.given),
            "fuel": Amount("mass", done.result.fuel_kg, "demand"),
            "water": Amount("mass", done.result.water_kg, "demand"),
            "gear": Amount("mass", item.boat.gear.si if item.boat.gear is not None else 0.0, "demand"),
        }
        yield Finding(
            f"cargo.{item.id}.true_weight",
            "boat_true_weight",
            "mass",
            Limit(most=item.mass.si),
            done.result.total_kg,
            "label",
            limit_given=item.mass.given,
            demand_origin="sheet",
            limit_origin="sheet",
            words={"item": str(item.name)},
            steps=done.steps,
            sources=all_references_of(boat_mass),
            notes=(Note("boat_made_of", parts), Note("boat_counted")),
        )
