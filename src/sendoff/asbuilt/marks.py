"""Is what is stamped on this unit possible: its VIN, the numbers molded on its tires, the places they are noted at."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from sendoff.asbuilt.sheet import BuildSheet
from sendoff.calc.identity import tire_identification, vin_check
from sendoff.errors import Fault, OutOfRange

EARLIEST_BUILD = datetime.date(1990, 1, 1)


def faults_of_marks(sheet: BuildSheet, places: Mapping[str, Sequence[str]], file: str) -> list[Fault]:
    """Return everything wrong with the VIN, the marks and the places they are noted at."""
    faults = _of_vin(sheet.vin, file)
    if sheet.built < EARLIEST_BUILD:
        faults.append(
            Fault(
                file,
                "built",
                sheet.built.isoformat(),
                "no unit of this yard is that old",
                "Write the day it was finished.",
            )
        )
    if sheet.collects.on < sheet.built:
        cure = "Write the day it leaves; a unit cannot leave before it is built."
        faults.append(
            Fault(
                file,
                "collects.on",
                sheet.collects.on.isoformat(),
                f"that is before it was built ({sheet.built})",
                cure,
            )
        )
    for slot, rows in sheet.parts.items():
        if slot not in places:
            faults.append(
                Fault(
                    file,
                    f"parts.{slot}",
                    "",
                    "nothing is fitted in that slot on this unit",
                    "Delete the rows, or add the option.",
                )
            )
            continue
        for place, marks in rows.items():
            key = f"parts.{slot}.{place}"
            if place not in places[slot]:
                faults.append(
                    Fault(
                        file, key, place, "there is no such place", f"Use one of: {', '.join(places[slot])}."
                    )
                )
            if marks.tin is not None:
                faults += _of_tire_number(marks.tin, sheet.built, file, f"{key}.tin")
        missing = [place for place in places[slot] if place not in rows]
        if missing:
            faults.append(
                Fault(
                    file,
                    f"parts.{slot}",
                    ", ".join(missing),
                    "these places have no row",
                    "Add a row for each place of the slot.",
                )
            )
    return faults


def _of_vin(vin: str, file: str) -> list[Fault]:
    cure = "Read it again from the frame stamp and the plate, letter by letter."
    try:
        check = vin_check(vin)
    except OutOfRange as refused:
        return [Fault(file, "vin", vin, refused.allowed, cure)]
    return [Fault(file, "vin", vin, problem, cure) for problem in check.problems]


def _of_tire_number(tire_number: str, built: datetime.date, file: str, key: str) -> list[Fault]:
    cure = "Read it again from the sidewall, from DOT to the last four figures."
    try:
        parts = tire_identification(tire_number)
    except OutOfRange as refused:
        return [Fault(file, key, tire_number, refused.allowed, cure)]
    if parts.first_day > built:
        return [
            Fault(
                file,
                key,
                tire_number,
                f"that tire was made after the unit ({parts.first_day} against {built})",
                cure,
            )
        ]
    return []
