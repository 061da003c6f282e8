"""The truck check: the very truck at the gate, as built and as changed, held against this unit and its load."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.db.models import Max

from sendoff import units
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.freight import Truck
from sendoff.catalogue.loading import read_record
from sendoff.errors import Fault, FaultyInput
from sendoff.findings import load_limits, truck_limits
from sendoff.findings.all_limits import cargo_of, not_checked
from sendoff.findings.model import Finding, Verdict, sorted_by_limit
from sendoff.web import lists, stock
from sendoff.web.models import Person, TruckCheck, Unit
from sendoff.web.services import facts
from sendoff.web.services.writing import Told, open_books

PLUGS: Final = ("flat_4", "flat_5", "round_6", "blade_7", "round_pin_7")
CONTROLLERS: Final = ("none", "time", "inertia", "factory")
_BARE: Final = re.compile(r"^[0-9][0-9,. ]*$")
_SOURCE: Final = "gate"


@dataclass(frozen=True, slots=True)
class Answer:
    """What was found of a truck."""

    found: tuple[Finding, ...]
    verdict: Verdict
    not_checked: tuple[str, ...]
    weigh_first: bool
    """Something was changed on the truck, and it was not weighed as it stands."""


def with_unit(field: str, given: str, system: units.System) -> str:
    """Return a value as entered, with the unit of the reader's page where only a number was typed."""
    if not given or not _BARE.match(given):
        return given
    mass, length = ("lb", "in") if system == "us" else ("kg", "mm")
    return f"{given} {mass if lists.read('truck')['kind'][field] == 'mass' else length}"


def as_record(entered: Mapping[str, Any], name: str) -> Truck:
    """Return the truck as the calculations know it, or refuse it field by field."""
    tables: dict[str, Any] = {
        "schema": 1,
        "id": "truck_at_the_gate",
        "name": name or "truck",
        "sources": [_SOURCE],
    }
    tables |= {key: value for key, value in entered.items() if value and key in _FIELDS}
    missing = [
        Fault("", field, "", "needed", "")
        for field in lists.read("truck")["needed"]["fields"]
        if field not in tables
    ]
    if missing:
        raise FaultyInput(missing)
    try:
        return read_record(tables, Truck, "")
    except FaultyInput as refused:
        raise FaultyInput(
            Fault("", fault.key, fault.value, fault.problem, fault.cure) for fault in refused.faults
        ) from None


_FIELDS: Final = frozenset(Truck.__struct_fields__) - {"schema_version", "id", "name", "sources"}


def check(unit: Unit, truck: Truck, changes: Sequence[str]) -> Answer:
    """Hold a truck against a unit, with the load its sheet names unless it leaves empty."""
    built: AsBuiltUnit = stock.built(unit)
    found = list(truck_limits.findings_with_truck(built, truck))
    load = unit.facts.filter(line="load", answer="yes").order_by("-at").first()
    cargo = None
    if load is None or load.told.get("loaded") != "empty":
        cargo = cargo_of(built, stock.catalogue())
    if cargo is not None:
        found += load_limits.findings_of(built, cargo, truck)
    told = sorted_by_limit(found)
    weighed = truck.weighed_front is not None and truck.weighed_rear is not None
    weigh_first = not weighed and any(lists.read("truck")["changes"][one]["weigh"] for one in changes)
    return Answer(told, _verdict(told, weigh_first=weigh_first), not_checked(told), weigh_first)


def _verdict(found: Sequence[Finding], *, weigh_first: bool) -> Verdict:
    verdicts = {one.verdict for one in found}
    if "over" in verdicts:
        return "over"
    if "unknown" in verdicts or weigh_first:
        return "unknown"
    return "tight" if "tight" in verdicts else "within"


def keep(unit: Unit, entered: Mapping[str, Any], plate: str, told: Told, *, at_gate: bool) -> None:
    """Write a truck check."""
    changes = [one for one in entered.get("changes", ()) if one in lists.read("truck")["changes"]]
    truck = as_record(entered, str(entered.get("name", "")))
    by = told.person
    if not isinstance(by, Person):
        raise TypeError("somebody checks it")
    with open_books(unit) as book:
        book.once(told, "truck_check")
        if book.unit.left_at is not None:
            raise FaultyInput(Fault("", "truck", "", "it_has_left", ""))
        answer = check(book.unit, truck, changes)
        number = (book.unit.truck_checks.aggregate(most=Max("number"))["most"] or 0) + 1
        row = TruckCheck(
            act=told.act, unit=book.unit, number=number, truck=dict(entered), plate=plate, at_gate=at_gate,
            verdict=answer.verdict, found=[{"id": one.id, "verdict": one.verdict} for one in answer.found],
            not_checked=list(answer.not_checked), by=by, at=book.at,
        )  # fmt: skip
        row.save(force_insert=True)
        book.write("truck_check", told, facts.truck_check(row), {"plate": plate})
