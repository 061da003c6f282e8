"""Units come in by their build sheet, and the sheet may change, with a reason, until the gate pass."""

from __future__ import annotations

import tempfile
from pathlib import Path

from django.db import IntegrityError, transaction
from django.utils import timezone

from sendoff import books
from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit, to_json
from sendoff.briefing.inspection import planned
from sendoff.canonical import digest
from sendoff.drawings.small import PIXEL_MM, small_side
from sendoff.drawings.views import Views
from sendoff.errors import Fault, FaultyInput, of_sheet
from sendoff.web import stock
from sendoff.web.models import CheckStanding, Person, SheetVersion, Site, Unit, UnitPart
from sendoff.web.services.writing import Told, open_books, told_now

LIST_PX_A_METER = 20.0
"""Scale of the side views in lists: one for all units, so that a long trailer looks long."""


def resolve_text(text: str, name: str) -> AsBuiltUnit:
    """Return the as-built unit of a build sheet's text, or refuse it with everything that is wrong in it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "sheet.toml"
        path.write_text(text, encoding="utf-8")
        try:
            return as_built(path, stock.catalogue())
        except FaultyInput as refused:
            named = FaultyInput(
                Fault(
                    name if fault.file == str(path) else fault.file,
                    fault.key,
                    fault.value,
                    fault.problem,
                    fault.cure,
                )
                for fault in refused.faults
            )
            raise of_sheet(named, name) from None


def list_view(unit: AsBuiltUnit) -> tuple[str, float]:
    """Return the side view of lists and its width in millimeters of a screen."""
    views = Views(unit)
    width = (views.rear_m - unit.geometry.front_x_m) * LIST_PX_A_METER * PIXEL_MM + 3.0
    return small_side(views, "en", width).svg, round(width, 2)


def fill(row: Unit, unit: AsBuiltUnit) -> None:
    """Put into a row what its pages show and it is searched by."""
    text = to_json(unit).decode()
    row.number, row.vin, row.type = unit.unit, unit.vin, unit.type
    row.owner, row.collects, row.leaves_on = str(unit.owner.name), unit.collects.who, unit.collects.on
    row.as_built, row.digest = text, digest(text)
    row.silhouette, row.silhouette_mm = list_view(unit)
    marks = [
        mark
        for part in unit.parts
        for place in part.places
        for mark in (place.marks.serial, place.marks.lot, place.marks.tin)
    ]
    names = [part.name[language] for part in unit.parts for language in ("en", "es")]
    words = [
        unit.unit,
        unit.vin,
        unit.public_id,
        str(unit.owner.name),
        *unit.type_name.values(),
        *filter(None, marks),
        *names,
    ]
    row.found_by = "\n".join(dict.fromkeys(word.casefold() for word in words))


def list_parts(row: Unit, unit: AsBuiltUnit) -> None:
    """Write anew which parts a unit carries."""
    row.parts.all().delete()
    UnitPart.objects.bulk_create(
        UnitPart(
            unit=row, slot=part.slot, place=place.id, card=part.card, variant=part.variant,
            marks=" ".join(filter(None, (place.marks.serial, place.marks.lot, place.marks.tin)))[:200],
        )
        for part in unit.parts
        for place in part.places
    )  # fmt: skip


def add(site: Site, text: str, name: str, person: Person | None) -> Unit:
    """Take a unit into the yard by its build sheet."""
    built = resolve_text(text, name)
    if Unit.objects.filter(public_id=built.public_id).exists():
        raise FaultyInput(
            Fault(
                name,
                "public_id",
                built.public_id,
                "a unit with that id is here already",
                "Change its sheet instead.",
            )
        )
    row = Unit(site=site, public_id=built.public_id, chain_digest=books.begin(built.public_id).digest)
    fill(row, built)
    told = told_now(person)
    try:
        with transaction.atomic():
            row.save(force_insert=True)
            list_parts(row, built)
            with open_books(row) as book:
                _version(row, 1, text, "", told)
                book.write(
                    "sheet", told, {"number": 1, "reason": ""}, {"sheet": text, "as_built": row.as_built}
                )
    except IntegrityError:
        cure = "A number and a VIN stand for one unit only; correct the sheet."
        raise FaultyInput(
            Fault(name, "unit, vin", built.unit, "another unit has this number or this VIN", cure)
        ) from None
    row.refresh_from_db()
    return row


def _version(row: Unit, number: int, text: str, reason: str, told: Told) -> SheetVersion:
    version = SheetVersion(
        unit=row, act=told.act, number=number, text=text, as_built=row.as_built, digest=row.digest, reason=reason,
        by=told.person, at=timezone.now(),
    )  # fmt: skip
    version.save(force_insert=True)
    return version


def checks_to_do_again(before: AsBuiltUnit, after: AsBuiltUnit) -> set[tuple[str, str]]:
    """Return the checks whose meaning a changed sheet changes: another part, target, bounds or mark, a new place."""
    catalogue = stock.catalogue()
    parts = {part.slot: (part.card, part.variant) for part in before.parts}
    marks = {(part.slot, place.id): place.marks for part in before.parts for place in part.places}
    old = {
        (one.key, one.place): (one.target_si, one.least_si, one.most_si) for one in planned(before, catalogue)
    }
    found = set()
    for one in planned(after, catalogue):
        part = after.part(one.slot)
        if part is None:
            continue
        same_part = parts.get(one.slot) == (part.card, part.variant)
        same_marks = all(
            marks.get((part.slot, place.id)) == place.marks
            for place in part.places
            if not one.place or place.id == one.place
        )
        if not (
            same_part
            and same_marks
            and old.get((one.key, one.place)) == (one.target_si, one.least_si, one.most_si)
        ):
            found.add((one.key, one.place))
    return found


def change_sheet(unit: Unit, text: str, reason: str, told: Told) -> set[tuple[str, str]]:
    """Change a unit's build sheet, with a reason; return the checks that must be done again."""
    built = resolve_text(text, unit.number)
    if built.public_id != unit.public_id:
        raise FaultyInput(
            Fault(
                unit.number,
                "public_id",
                built.public_id,
                "that is another unit's id",
                f"Leave it at {unit.public_id}.",
            )
        )
    again: set[tuple[str, str]] = set()
    with open_books(unit) as book:
        book.once(told, "sheet")
        row = book.unit
        if row.passes.filter(taken_back=None).exists():
            raise FaultyInput(
                Fault(
                    unit.number, "", "", "its gate pass is signed", "Take the pass back first, with a reason."
                )
            )
        again = checks_to_do_again(stock.built(row), built)
        for key, place in again:
            CheckStanding.objects.filter(unit=row, check_key=key, place=place).update(again=True)
        fill(row, built)
        list_parts(row, built)
        number = row.sheets.count() + 1
        _version(row, number, text, reason, told)
        facts = {
            "number": number,
            "reason": reason,
            "again": sorted(f"{key}@{place}" for key, place in again),
        }
        book.write("sheet", told, facts, {"sheet": text, "as_built": row.as_built})
    return again
