"""What is said for the gate pass, signing it, taking it back, and the unit's leaving with what is owed from then on."""

from __future__ import annotations

import datetime
import json
import secrets
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from django.db.models import Max

from sendoff.canonical import canonical
from sendoff.errors import Fault, FaultyInput
from sendoff.web import lists, stock
from sendoff.web.models import Debt, GateFact, GatePass, LooseCount, Person, StoredFile, Unit
from sendoff.web.queries.gate import GateNow, gate_now, lines_of, rule
from sendoff.web.services import facts, photos
from sendoff.web.services.audit import make_checkpoint
from sendoff.web.services.writing import Told, open_books, stamp


def refuse(field: str, why: str) -> FaultyInput:
    """Return a refusal (a phrase below `web.refused`)."""
    return FaultyInput(Fault("", field, "", why, ""))


def _somebody(told: Told) -> Person:
    if told.person is None:
        raise ValueError("somebody does it")
    return told.person


def _may_change(unit: Unit) -> None:
    if unit.left_at is not None:
        raise refuse("line", "it_has_left")


# ── loose items ─────────────────────────────────────────────────────────────────────────────────────────────────────


def count_loose(unit: Unit, key: str, counted: int, told: Told) -> None:
    """Write how many of a loose item were counted."""
    wanted = {item.key: item.count for item in stock.briefing(unit, "en", "us").loose_items}
    if key not in wanted:
        raise refuse("key", "no_choice")
    with open_books(unit) as book:
        book.once(told, "loose")
        _may_change(book.unit)
        row = LooseCount(
            act=told.act, unit=book.unit, key=key, counted=counted, expected=wanted[key], by=_somebody(told),
            at=book.at,
        )  # fmt: skip
        row.save(force_insert=True)
        book.write("loose", told, facts.loose(row))


# ── facts ───────────────────────────────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What somebody says for a line: values by field, a photo, or why it is not so."""

    line: str
    answer: str
    values: Mapping[str, str]
    photo: StoredFile | None = None
    today: datetime.date


def give(unit: Unit, given: Given, told: Told) -> None:
    """Write a fact for a line of the gate pass."""
    if given.line not in lines_of(unit.collects) or rule(given.line)["kind"] != "fact":
        raise refuse("line", "no_choice")
    if given.answer == "yes":
        _refuse_values(unit, given)
    elif not given.values.get("reason", "").strip():
        raise refuse("reason", "no_reason")
    fields = {one["id"]: one for one in rule(given.line)["fields"]}
    personal = {
        key: value for key, value in given.values.items() if fields.get(key, {}).get("personal") and value
    }
    open_ = {key: value for key, value in given.values.items() if key not in personal and value}
    if given.line == "code_sent" and given.answer == "yes":
        personal["code"] = f"{secrets.randbelow(1_000_000):06d}"
    with open_books(unit) as book:
        book.once(told, "fact")
        _may_change(book.unit)
        row = GateFact(
            act=told.act, unit=book.unit, line=given.line, answer=given.answer, told=open_, photo=given.photo,
            by=_somebody(told), at=book.at,
        )  # fmt: skip
        row.save(force_insert=True)
        book.write("fact", told, facts.fact(row), personal)


def _refuse_values(unit: Unit, given: Given) -> None:
    faults = []
    for one in rule(given.line)["fields"]:
        value = given.values.get(one["id"], "").strip()
        why = _why_not(unit, one, value, given)
        if why:
            faults.append(Fault("", one["id"], "", why, ""))
    if faults:
        raise FaultyInput(faults)


def _why_not(unit: Unit, one: Mapping[str, Any], value: str, given: Given) -> str:
    kind = one["kind"]
    if kind == "photo":
        return "" if given.photo is not None else "no_photo_yet"
    if kind == "yes":
        return "" if value == "yes" else "not_ticked"
    if not value:
        return "needed"
    if kind in {"day", "past_day"}:
        try:
            day = datetime.date.fromisoformat(value)
        except ValueError:
            return "no_day"
        if kind == "day" and day < given.today:
            return "day_is_past"
        return "day_to_come" if kind == "past_day" and day > given.today else ""
    if kind == "vin":
        return "" if value.upper() == unit.vin else "other_vin"
    if kind == "last_six":
        return "" if "".join(value.split()).upper() == unit.vin[-6:] else "other_trailer"
    if kind == "choice":
        return "" if value in one["choices"] else "no_choice"
    if kind == "code":
        return "" if _is_code(unit, value) else "other_code"
    return ""


def _is_code(unit: Unit, value: str) -> bool:
    sent = unit.facts.filter(line="code_sent", answer="yes").order_by("-at").first()
    if sent is None:
        return False
    kept = unit.personal.filter(act=sent.act, field="code").first()
    return (
        kept is not None and bool(kept.value) and secrets.compare_digest(kept.value, "".join(value.split()))
    )


def pass_over(unit: Unit, line: str, reason: str, told: Told) -> None:
    """Let an engineer pass over a line, with a reason that stays in the books."""
    if line not in lines_of(unit.collects) or not rule(line).get("may_pass_over", True):
        raise refuse("line", "never_passed_over")
    if len(reason.strip()) < 10:
        raise refuse("reason", "reason_too_short")
    with open_books(unit) as book:
        book.once(told, "passed_over")
        _may_change(book.unit)
        row = GateFact(
            act=told.act, unit=book.unit, line=line, answer="over", told={"reason": reason}, by=_somebody(told),
            at=book.at,
        )  # fmt: skip
        row.save(force_insert=True)
        book.write("passed_over", told, facts.fact(row))


# ── the pass ────────────────────────────────────────────────────────────────────────────────────────────────────────


def sign(unit: Unit, told: Told) -> GatePass:
    """Sign the gate pass, if no line holds it; unit, briefing and texts are frozen with it."""
    with open_books(unit) as book:
        book.once(told, "pass.signed")
        row = book.unit
        _may_change(row)
        gate = gate_now(row)
        if gate.holding:
            raise FaultyInput(Fault("", line.id, "", "line_holds", "") for line in gate.holding)
        if gate.signed is not None and gate.signed.good_until > book.at:
            raise refuse("pass", "pass_is_signed")
        frozen = _freeze(row, gate, told, book.at)
        number = (row.passes.aggregate(most=Max("number"))["most"] or 0) + 1
        hours = lists.read("gate_pass")["good_for_h"]
        made = GatePass(
            act=told.act, unit=row, number=number, rules=gate.rules, lines=_told_lines(gate),
            passed_over=[
                {"line": line.id, "reason": line.passed_over.told["reason"], "by": line.passed_over.by_id}
                for line in gate.lines
                if line.passed_over is not None
            ],
            frozen=frozen, by=_somebody(told), at=book.at, good_until=book.at + datetime.timedelta(hours=hours),
        )  # fmt: skip
        made.save(force_insert=True)
        book.write("pass.signed", told, facts.gate_pass(made))
    make_checkpoint()
    return GatePass.objects.get(pk=told.act)


def _told_lines(gate: GateNow) -> list[dict[str, Any]]:
    return [
        {
            "line": line.id,
            "why": line.why,
            "values": line.values,
            "fact": str(line.fact.act) if line.fact else None,
        }
        for line in gate.lines
    ]


def _freeze(unit: Unit, gate: GateNow, told: Told, at: datetime.datetime) -> StoredFile:
    """Keep unit, sheet and briefing as they are now, in both languages, under their digest.

    A random value in it keeps its digest from telling anything about the people named in it.
    """
    whole = {
        "format": 1,
        "nonce": secrets.token_hex(32),
        "at": stamp(at),
        "unit": json.loads(unit.as_built),
        "sheet": unit.sheets.order_by("-number").values_list("text", flat=True)[0],
        "briefing": {
            language: json.loads(
                json.dumps(asdict(stock.briefing(unit, language, stock.built(unit).reader.units)))
            )
            for language in ("en", "es")
        },
        "lines": _told_lines(gate),
    }
    content = canonical(whole)
    digest = photos.put(content)
    row, _ = StoredFile.objects.get_or_create(
        unit=unit,
        digest=digest,
        defaults={"kind": "frozen", "size": len(content), "by": told.person, "at": at},
    )
    return row


def take_back(unit: Unit, reason: str, told: Told) -> None:
    """Take a signed pass back, with a reason."""
    if not reason.strip():
        raise refuse("reason", "no_reason")
    with open_books(unit) as book:
        book.once(told, "pass.taken_back")
        _may_change(book.unit)
        signed = book.unit.passes.filter(taken_back=None).order_by("-number").first()
        if signed is None:
            raise refuse("pass", "no_pass")
        signed.taken_back = book.at
        signed.save(update_fields=["taken_back"])
        book.write("pass.taken_back", told, {"number": signed.number, "reason": reason})


def leave(unit: Unit, told: Told) -> None:
    """Write that a unit has left; what is owed from then on is owed by driver, owner and office."""
    with open_books(unit) as book:
        book.once(told, "left")
        row = book.unit
        _may_change(row)
        signed = row.passes.filter(taken_back=None).order_by("-number").first()
        if signed is None or signed.good_until <= book.at:
            raise refuse("pass", "no_pass")
        signed.left_at = row.left_at = book.at
        signed.save(update_fields=["left_at"])
        book.write("left", told, {"number": signed.number})
        Debt.objects.bulk_create(_debts(row, told, book.at))


def _debts(unit: Unit, told: Told, at: datetime.datetime) -> list[Debt]:
    found = []
    for one in lists.read("gate_pass")["debt"]:
        days = one.get("after_days", [None] * len(one["at_miles"]))
        for miles, after in zip(one["at_miles"], days, strict=True):
            due = at.date() + datetime.timedelta(days=after) if after is not None else None
            found.append(
                Debt(
                    act=told.act,
                    unit=unit,
                    kind=one["kind"],
                    key=one["key"],
                    who=one["who"],
                    at_miles=miles,
                    due_on=due,
                )
            )
    questions = stock.briefing(unit, "en", "us").questions
    answered = set(unit.ticks.filter(what="question", right=True).values_list("key", flat=True))
    found += [
        Debt(act=told.act, unit=unit, kind="question", key=question.key, who="owner", at_miles=0)
        for question in questions
        if question.key not in answered
    ]
    return found


def pay(debt: Debt, said: str, told: Told) -> None:
    """Write that something owed was done."""
    with open_books(debt.unit) as book:
        book.once(told, "debt")
        row = Debt.objects.select_for_update(of=("self",)).get(pk=debt.pk)
        if row.done_at is not None:
            raise refuse("debt", "done_already")
        if not said.strip():
            raise refuse("said", "needed")
        row.done_at, row.done_act, row.told = book.at, told.act, said
        row.save()
        book.write("debt", told, {"kind": row.kind, "key": row.key, "at_miles": row.at_miles, "told": said})
