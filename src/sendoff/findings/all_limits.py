"""Everything that can be found of a unit: by itself, with the truck and the cargo its sheet names or somebody gives."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.load import Catalogue, read_file
from sendoff.errors import THE_SHEET, Fault, FaultyInput
from sendoff.findings import system_limits, unit_limits
from sendoff.findings.deck.items import faults_of_cargo
from sendoff.findings.model import Finding, sorted_by_limit
from sendoff.findings.plain_working import with_working

TRUCK_NOT_CHECKED = ("truck_changes", "truck_tires", "hitch_wear", "bed_clearance", "license")
CARGO_NOT_CHECKED = ("load_as_placed", "tie_down_way", "load_moves")


def all_findings(
    unit: AsBuiltUnit,
    catalogue: Catalogue,
    day: datetime.date,
    truck: Path | None = None,
    cargo: Path | None = None,
) -> tuple[Finding, ...]:
    """Return every finding of a unit, with truck and cargo where they are named, what limits first in front."""
    found = [*unit_limits.findings_of(unit, day), *system_limits.findings_of(unit)]
    tows, carries = truck_of(unit, catalogue, truck), cargo_of(unit, catalogue, cargo)
    if tows is not None:
        from sendoff.findings import truck_limits

        found += truck_limits.findings_with_truck(unit, tows)
    if carries is not None:
        from sendoff.findings import load_limits

        found += load_limits.findings_of(unit, carries, tows)
    return tuple(with_working(finding) for finding in sorted_by_limit(found))


def not_checked(found: Sequence[Finding]) -> tuple[str, ...]:
    """Return what no finding speaks of (phrases `not_checked.…`); every answer lists it."""
    ids = {finding.id for finding in found}
    with_truck = any(one.startswith("truck.") for one in ids)
    with_cargo = any(one.startswith("cargo.") for one in ids)
    told = {"truck"} if with_truck else set()
    told |= {"load", "tie_down"} if with_cargo else set()
    names = [*TRUCK_NOT_CHECKED] if with_truck else []
    names += CARGO_NOT_CHECKED if with_cargo else ()
    names += ("nut_band",) if "wheel_nuts.torque" not in ids else ()
    names += ("motor_cables",) if {"pump.fuse", "winch.fuse"} & ids else ()
    return (*names, *(name for name in unit_limits.NOT_CHECKED if name not in told))


def truck_of(unit: AsBuiltUnit, catalogue: Catalogue, given: Path | None = None) -> Truck | None:
    """Return the truck given, else the one a unit's sheet names; None where there is neither."""
    path = given or named(unit.truck, catalogue, "truck", "trucks")
    return read_file(path, Truck) if path is not None else None


def cargo_of(unit: AsBuiltUnit, catalogue: Catalogue, given: Path | None = None) -> Cargo | None:
    """Return the cargo given, else the one a unit's sheet names; None where there is neither."""
    path = given or named(unit.cargo, catalogue, "cargo", "cargo")
    return read_cargo(path) if path is not None else None


def read_cargo(path: Path) -> Cargo:
    """Read a cargo file, and refuse what no cargo can be."""
    return read_file(path, Cargo, lambda cargo: faults_of_cargo(cargo, str(path)))


def named(name: str | None, catalogue: Catalogue, key: str, folder: str) -> Path | None:
    """Return the file a sheet names: <folder>/<name>.toml beside the catalogue; None when it names none."""
    if name is None:
        return None
    path = catalogue.folder.resolve().parent / folder / f"{name}.toml"
    if not path.is_file():
        raise FaultyInput(
            Fault(
                THE_SHEET,
                key,
                name,
                f"there is no {path.name} in {folder}/",
                f"Name a {key} that is there, or leave the line out.",
            )
        )
    return path
