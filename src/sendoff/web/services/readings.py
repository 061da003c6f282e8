"""Answers to checks: kept as entered; two that disagree are both kept, and the worse counts until another look."""

from __future__ import annotations

import datetime
import uuid
from dataclasses import dataclass
from typing import Final, Literal

from django.db.models import Max

from sendoff import units
from sendoff.briefing.inspection import PlannedCheck, as_asked, judge
from sendoff.errors import Fault, FaultyInput
from sendoff.web.models import (
    CheckStanding,
    Person,
    PutRightItem,
    PutRightStep,
    Reading,
    StoredFile,
    Tool,
    Unit,
)
from sendoff.web.services.writing import Book, Told, open_books

Outcome = Literal["in_order", "not_in_order", "skipped"]
WORSE: Final = {"in_order": 0, "skipped": 1, "not_in_order": 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What somebody answers to a check."""

    outcome: Outcome
    given: str = ""
    """A value as entered, with its unit."""
    first_given: str = ""
    reason: str = ""
    tool: Tool | None = None
    second: Person | None = None
    photo: StoredFile | None = None
    saw: uuid.UUID | None = None
    """The newest reading of this check that its taker's page showed."""
    whose: str = "factory"
    """Whose doing it is, when it opens a put-right item."""


def judged(check: PlannedCheck, given: str) -> tuple[units.Quantity, str]:
    """Return a value as entered and where it lies: within, low, high, or open."""
    if check.quantity is None:
        raise FaultyInput(Fault("", "given", given, "this check takes no value", "Answer it in words."))
    try:
        entered = units.parse(given, check.quantity)
    except units.UnitError as error:
        raise FaultyInput(Fault("", "given", given, str(error), "Type the number the tool shows.")) from None
    return entered, judge(entered.si, *as_asked(check, entered.unit))


def read(unit: Unit, check: PlannedCheck, answer: Answer, told: Told, today: datetime.date) -> None:
    """Write one answer; what is not in order opens a put-right item."""
    _refuse(check, answer, told, today)
    entered = judged(check, answer.given) if answer.given else None
    outcome = answer.outcome
    if entered is not None and entered[1] != "open":
        outcome = "in_order" if entered[1] == "within" else "not_in_order"
    with open_books(unit) as book:
        book.once(told, "reading")
        row = Reading(
            act=told.act, unit=book.unit, check_key=check.key, place=check.place, outcome=outcome,
            given=answer.given, quantity=check.quantity or "" if entered is not None else "",
            si=entered[0].si if entered is not None else None,
            least_si=check.least_si, most_si=check.most_si, first_given=answer.first_given, reason=answer.reason,
            tool=answer.tool, photo=answer.photo, by=_somebody(told), second=answer.second,
            taken_at=told.taken_at, offset_min=told.offset_min, received_at=book.at, saw=answer.saw,
        )  # fmt: skip
        row.save(force_insert=True)
        book.write("reading", told, facts_of(row))
        _stand(book.unit, check, row)
        if outcome == "not_in_order":
            _open_item(book, check, row, answer)
        elif outcome == "in_order":
            _close_item(book, check, row)


def facts_of(row: Reading) -> dict[str, object]:
    """Return what the chain says of a reading; the audit compares the row with it."""
    return {
        "check": row.check_key,
        "place": row.place,
        "outcome": row.outcome,
        "given": row.given,
        "first_given": row.first_given,
        "quantity": row.quantity,
        "si": row.si,
        "least_si": row.least_si,
        "most_si": row.most_si,
        "reason": row.reason,
        "tool": row.tool_id,
        "photo": row.photo.digest if row.photo is not None else None,
        "by": row.by_id,
        "second": row.second_id,
        "saw": str(row.saw) if row.saw is not None else None,
    }


def _somebody(told: Told) -> Person:
    if told.person is None:
        raise ValueError("a reading is taken by somebody")
    return told.person


def _refuse(check: PlannedCheck, answer: Answer, told: Told, today: datetime.date) -> None:
    """Refuse an answer that is none, with what is missing (phrase keys below `web.refused`)."""
    if answer.outcome == "skipped":
        if not answer.reason.strip():
            raise FaultyInput(Fault("", "reason", "", "no_reason", ""))
        return
    if check.how == "measured" and check.quantity is not None and not answer.given:
        raise FaultyInput(Fault("", "given", "", "no_value", ""))
    if check.tool is not None and check.how == "measured":
        if answer.tool is None:
            raise FaultyInput(Fault("", "tool", "", "no_tool", ""))
        if answer.tool.kind != check.tool:
            raise FaultyInput(Fault("", "tool", answer.tool.code, "other_tool", ""))
        if answer.tool.good_until is not None and answer.tool.good_until < today:
            raise FaultyInput(Fault("", "tool", answer.tool.code, "lapsed_tool", ""))
    if check.hands == 2 and (answer.second is None or answer.second == told.person):
        raise FaultyInput(Fault("", "second", "", "no_second", ""))


def _stand(unit: Unit, check: PlannedCheck, row: Reading) -> None:
    """Let the check stand by its newest reading, or by the worse of two that did not know of each other."""
    standing = (
        CheckStanding.objects.select_related("reading")
        .filter(unit=unit, check_key=check.key, place=check.place)
        .first()
    )
    if standing is None:
        CheckStanding.objects.create(
            unit=unit,
            check_key=check.key,
            place=check.place,
            reading=row,
            outcome=row.outcome,
            taken_at=row.taken_at,
        )
        return
    before = standing.reading
    unseen = row.saw != before.pk and before.by_id != row.by_id and not standing.again
    disagrees = unseen and (before.outcome != row.outcome or before.si != row.si)
    standing.against = before if disagrees else None
    standing.outcome = row.outcome
    if disagrees and WORSE[before.outcome] > WORSE[row.outcome]:
        standing.outcome = before.outcome
    standing.reading, standing.taken_at, standing.again = row, row.taken_at, False
    standing.save()


def _open_item(book: Book, check: PlannedCheck, row: Reading, answer: Answer) -> None:
    """Open a put-right item for what is not in order, unless one for the same check at the same place is open."""
    from sendoff.web.stock import built

    unit = book.unit
    same = PutRightItem.objects.filter(unit=unit, check_key=check.key, place=check.place)
    if same.exclude(status__in=("checked", "waived")).exists():
        return
    told = Told(uuid.uuid5(row.act, "put-right"), row.by, row.taken_at, row.offset_min)
    number = (unit.put_right.aggregate(most=Max("number"))["most"] or 0) + 1
    item = PutRightItem(
        act=told.act, unit=unit, number=number, station=built(unit).stations[check.station - 1].id, slot=check.slot,
        place=check.place, check_key=check.key, kind="reading", what=answer.reason, whose=answer.whose,
        safety=check.safety, found_by=row.by, at=book.at, photo=answer.photo,
    )  # fmt: skip
    item.save(force_insert=True)
    book.write("put_right.found", told, item_facts(item))
    PutRightStep.objects.create(
        act=told.act, item=item, kind="found", by=row.by, at=book.at, note=answer.reason
    )


def _close_item(book: Book, check: PlannedCheck, row: Reading) -> None:
    """Let a reading in order be the other look at what was put right, if another hand took it."""
    waiting = PutRightItem.objects.filter(
        unit=book.unit, check_key=check.key, place=check.place, status="put_right"
    ).exclude(put_right_by=row.by)
    for item in waiting:
        told = Told(uuid.uuid5(row.act, f"checked {item.number}"), row.by, row.taken_at, row.offset_min)
        item.status = "checked"
        item.save()
        made = PutRightStep.objects.create(act=told.act, item=item, kind="checked", by=row.by, at=book.at)
        book.write("put_right.checked", told, step_facts(made))


def step_facts(made: PutRightStep) -> dict[str, object]:
    """Return what the chain says of a step; the audit compares the row with it."""
    return {
        "item": made.item.number,
        "step": made.kind,
        "note": made.note,
        "by": made.by_id,
        "photo": made.photo.digest if made.photo is not None else None,
    }


def item_facts(item: PutRightItem) -> dict[str, object]:
    """Return what the chain says of a put-right item when it is found."""
    return {
        "number": item.number,
        "station": item.station,
        "slot": item.slot,
        "place": item.place,
        "check": item.check_key,
        "kind": item.kind,
        "what": item.what,
        "size": item.size,
        "whose": item.whose,
        "safety": item.safety,
        "found_by": item.found_by_id,
        "photo": item.photo.digest if item.photo is not None else None,
    }
