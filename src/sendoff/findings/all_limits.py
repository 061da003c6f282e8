"""Everything that can be found of a unit: by itself, and with the truck its sheet names."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.load import Catalogue, read_file
from sendoff.catalogue.schema import Truck
from sendoff.errors import Fault, FaultyInput
from sendoff.findings import truck_limits, unit_limits
from sendoff.findings.model import Finding, sorted_by_limit


def all_findings(
    unit: AsBuiltUnit, catalogue: Catalogue, day: datetime.date, truck: Path | None = None
) -> tuple[Finding, ...]:
    """Return every finding of a unit, with its truck where one is named, what limits first in front."""
    found = unit_limits.findings_of(unit, day)
    path = truck or named_truck(unit, catalogue)
    if path is None:
        return found
    return sorted_by_limit([*found, *truck_limits.findings_with_truck(unit, read_file(path, Truck))])


def not_checked(found: Sequence[Finding]) -> tuple[str, ...]:
    """Return what no finding speaks of (phrases `not_checked.…`); every answer lists it."""
    if not any(finding.id.startswith("truck.") for finding in found):
        return unit_limits.NOT_CHECKED
    return (*truck_limits.NOT_CHECKED, *(name for name in unit_limits.NOT_CHECKED if name != "truck"))


def named_truck(unit: AsBuiltUnit, catalogue: Catalogue) -> Path | None:
    """Return the file of the truck a sheet names: trucks/<id>.toml beside the catalogue; None when it names none."""
    if unit.truck is None:
        return None
    path = catalogue.folder.resolve().parent / "trucks" / f"{unit.truck}.toml"
    if not path.is_file():
        raise FaultyInput(
            Fault(
                "build sheet",
                "truck",
                unit.truck,
                f"there is no {path.name} in trucks/",
                "Name a truck that is there, or leave the line out.",
            )
        )
    return path
