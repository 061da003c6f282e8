"""The put-right list: found, put right, checked again by another look; safety items are never waived."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Max

from sendoff.errors import Fault, FaultyInput
from sendoff.web import lists, stock
from sendoff.web.models import Person, PutRightItem, PutRightStep, StoredFile, Unit
from sendoff.web.services.readings import item_facts, step_facts
from sendoff.web.services.writing import Told, open_books


def _refuse(field: str, why: str) -> FaultyInput:
    return FaultyInput(Fault("", field, "", why, ""))


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What somebody found wrong."""

    kind: str
    station: str
    slot: str = ""
    place: str = ""
    what: str = ""
    size: str = ""
    whose: str = "not_known"
    photo: StoredFile | None = None


def find(unit: Unit, found: Found, told: Told) -> None:
    """Open a put-right item."""
    if found.kind not in lists.kinds() or found.whose not in lists.whose():
        raise _refuse("kind", "no_kind")
    if not found.what.strip():
        raise _refuse("what", "no_words")
    built = stock.built(unit)
    station = next((one for one in built.stations if one.id == found.station), None)
    if station is None or (found.slot and found.slot not in station.slots):
        raise _refuse("station", "no_station")
    part = built.part(found.slot) if found.slot else None
    system = part.system if part is not None else None
    with open_books(unit) as book:
        book.once(told, "put_right.found")
        number = (book.unit.put_right.aggregate(most=Max("number"))["most"] or 0) + 1
        item = PutRightItem(
            act=told.act, unit=book.unit, number=number, station=found.station, slot=found.slot, place=found.place,
            kind=found.kind, what=found.what, size=found.size, whose=found.whose, photo=found.photo,
            safety=lists.is_safety(found.kind, system), found_by=_somebody(told), at=book.at,
        )  # fmt: skip
        item.save(force_insert=True)
        book.write("put_right.found", told, item_facts(item))
        PutRightStep.objects.create(
            act=told.act, item=item, kind="found", by=item.found_by, at=book.at, note=found.what
        )


def _somebody(told: Told) -> Person:
    if told.person is None:
        raise ValueError("somebody does it")
    return told.person


def step(item: PutRightItem, kind: str, note: str, told: Told, photo: StoredFile | None = None) -> None:
    """Take an item one step on: put_right, checked, not_yet or waived."""
    person = _somebody(told)
    with open_books(item.unit) as book:
        book.once(told, f"put_right.{kind}")
        row = PutRightItem.objects.select_for_update(of=("self",)).get(pk=item.pk)
        _refuse_step(row, kind, note, person, photo)
        if kind == "put_right":
            row.status, row.put_right_by = "put_right", person
        elif kind == "not_yet":
            row.status, row.put_right_by = "found", None
        else:
            row.status = kind
        row.save()
        made = PutRightStep.objects.create(
            act=told.act, item=row, kind=kind, note=note, by=person, at=book.at, photo=photo
        )
        book.write(f"put_right.{kind}", told, step_facts(made))


def _refuse_step(row: PutRightItem, kind: str, note: str, person: Person, photo: StoredFile | None) -> None:
    if kind == "put_right" and row.status != "found":
        raise _refuse("step", "not_found_now")
    if kind in {"checked", "not_yet"}:
        if row.status != "put_right":
            raise _refuse("step", "not_put_right_yet")
        if kind == "checked" and row.put_right_by_id == person.pk:
            raise _refuse("step", "same_hand")
        if kind == "checked" and row.check_key:
            raise _refuse("step", "read_again")
    if kind == "waived":
        if row.safety or not lists.is_cosmetic(row.kind):
            raise _refuse("step", "never_waived")
        if row.status != "found" or photo is None or not note.strip():
            raise _refuse("step", "no_consent")
