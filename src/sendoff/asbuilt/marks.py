"""Is what is stamped on this unit possible: its VIN, the numbers molded on its tires, the places they are noted at."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence

from sendoff.asbuilt.sheet import BuildSheet, PartMarks, Ticket
from sendoff.calc.identity import tire_identification, vin_check
from sendoff.errors import Fault, OutOfRange, shown

EARLIEST_BUILD = datetime.date(1990, 1, 1)
LATEST_DAY = datetime.date(2099, 12, 31)
LONGEST_UNIT_NUMBER = 24


def faults_of_marks(sheet: BuildSheet, places: Mapping[str, Sequence[str]] | None, file: str) -> list[Fault]:
    """Return everything wrong with unit number, VIN, days, marks and the places (None: not known) they are noted at."""
    faults = [*_of_unit_number(sheet.unit, file), *faults_of_vin(sheet.vin, file), *_of_days(sheet, file)]
    faults += _of_tickets(sheet.tickets, file)
    for slot, rows in sheet.parts.items():
        for place, marks in rows.items():
            if marks.tin is not None:
                faults += faults_of_tire_number(marks.tin, sheet.built, file, f"parts.{slot}.{place}.tin")
        if places is not None:
            faults += _of_places(slot, rows, places, file)
    return faults


def _of_unit_number(unit: str, file: str) -> Iterator[Fault]:
    if len(unit) > LONGEST_UNIT_NUMBER:
        yield Fault(
            file,
            "unit",
            shown(unit),
            f"a number of {len(unit)} signs fits on no label",
            f"Keep it to {LONGEST_UNIT_NUMBER}.",
        )


def _of_days(sheet: BuildSheet, file: str) -> Iterator[Fault]:
    built = sheet.built
    if built < EARLIEST_BUILD:
        cure = "Write the day it was finished."
        yield Fault(file, "built", built.isoformat(), "no unit of this yard is that old", cure)
    for key, day in (
        ("built", built),
        ("collects.on", sheet.collects.on),
        *((f"ticket[{number}].on", ticket.on) for number, ticket in enumerate(sheet.tickets, start=1)),
    ):
        if day > LATEST_DAY:
            yield Fault(file, key, day.isoformat(), "that day is too far off", "Check the year.")
    if sheet.collects.on < built:
        cure = "Write the day it leaves; a unit cannot leave before it is built."
        problem = f"that is before it was built ({built})"
        yield Fault(file, "collects.on", sheet.collects.on.isoformat(), problem, cure)
    for number, ticket in enumerate(sheet.tickets, start=1):
        if ticket.on < built:
            cure = "Write the day on the ticket, or correct the day it was built."
            problem = f"that is before it was built ({built})"
            yield Fault(file, f"ticket[{number}].on", ticket.on.isoformat(), problem, cure)


def _of_tickets(tickets: Sequence[Ticket], file: str) -> Iterator[Fault]:
    """Yield tickets of a part that weighs more than the whole of the same state."""
    wholes = {(ticket.state, ticket.coupled): ticket for ticket in tickets if ticket.what == "whole"}
    for number, ticket in enumerate(tickets, start=1):
        whole = wholes.get((ticket.state, ticket.coupled))
        if ticket.what != "whole" and whole is not None and ticket.mass.si > whole.mass.si:
            cure = "Read both tickets again: say which stands on which, empty or loaded."
            problem = f"that is more than the whole trailer weighed ({whole.mass.given})"
            yield Fault(file, f"ticket[{number}].mass", ticket.mass.given, problem, cure)


def _of_places(
    slot: str, rows: Mapping[str, PartMarks], places: Mapping[str, Sequence[str]], file: str
) -> Iterator[Fault]:
    if slot not in places:
        cure = "Delete the rows, or add the option."
        yield Fault(file, f"parts.{slot}", "", "nothing is fitted in that slot on this unit", cure)
        return
    for place in rows:
        if place not in places[slot]:
            cure = f"Use one of: {', '.join(places[slot])}."
            yield Fault(file, f"parts.{slot}.{place}", place, "there is no such place", cure)
    missing = [place for place in places[slot] if place not in rows]
    if missing:
        cure = "Add a row for each place of the slot."
        yield Fault(file, f"parts.{slot}", ", ".join(missing), "these places have no row", cure)


def faults_of_vin(vin: str, file: str) -> list[Fault]:
    """Return what is wrong with a VIN."""
    cure = "Read it again from the frame stamp and the plate, letter by letter."
    try:
        check = vin_check(vin)
    except OutOfRange as refused:
        return [Fault(file, "vin", shown(vin), refused.allowed, cure)]
    return [Fault(file, "vin", shown(vin), problem, cure) for problem in check.problems]


def faults_of_tire_number(tire_number: str, built: object, file: str, key: str) -> list[Fault]:
    """Return what is wrong with a tire's number, also beside the day the unit was built, where that is known."""
    cure = "Read it again from the sidewall, from DOT to the last four figures."
    try:
        parts = tire_identification(tire_number)
    except OutOfRange as refused:
        return [Fault(file, key, shown(tire_number), refused.allowed, cure)]
    if type(built) is datetime.date and parts.first_day > built:
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
