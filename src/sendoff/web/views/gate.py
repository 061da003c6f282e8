"""The gate pass line by line, what is said for its lines, loose items, and who owes what next."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from sendoff.errors import FaultyInput
from sendoff.web import stock
from sendoff.web.forms import Sent
from sendoff.web.models import Debt
from sendoff.web.queries import fetch, gate
from sendoff.web.reader import reader_of
from sendoff.web.rights import Right, may
from sendoff.web.services import gate as service
from sendoff.web.services import people, photos
from sendoff.web.views.showing import Words, go, show, signed_in, told_faults

RIGHT_OF_TURN: dict[str, Right] = {"office": "office", "representative": "brief", "yard_hand": "inspect"}
PAGE_OF_LINE = {
    "safety_checks": "inspection", "put_right": "put_right", "loose_items": "loose", "truck_check": "truck",
}  # fmt: skip


@signed_in
@require_http_methods(["GET", "POST"])
def gate_pass(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show why a unit may or may not leave; sign, take back, let it leave."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "sign")
    faults: dict[str, str] = {}
    if request.method == "POST":
        sent = Sent(request)
        do, told = sent.choice("do", ("sign", "take_back", "leave")), sent.told(who)
        try:
            sent.done()
            if do == "sign":
                if not people.by_pin(who, request.session.session_key or "", sent.text("shift_code", 20)):
                    raise service.refuse("shift_code", "no_shift")
                service.sign(unit, told)
            elif do == "take_back":
                service.take_back(unit, sent.text("reason", 300), told)
            else:
                service.leave(unit, told)
            return go("gate_pass", public_id)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
            _, unit = fetch.unit(request, public_id)
    now = gate.gate_now(unit)
    reader = reader_of(request)
    briefing = stock.briefing(unit, reader.language, reader.units)
    names = {check.key: check.text for leg in briefing.legs for visit in leg.visits for check in visit.checks}
    shift = people.on_shift(who, request.session.session_key or "") if may(who, "sign") else False
    side = stock.drawings(unit, reader.language, reader.units).screen_side
    return show(
        request, "gate_pass.html", unit=unit, page="gate_pass", gate=now, names=names, side=side, shift=shift,
        page_of=PAGE_OF_LINE, faults=faults, status=422 if faults else 200,
        owed=list(unit.debts.filter(done_at=None).order_by("at_miles")) if unit.left_at else [],
        questions=len(briefing.questions),
    )  # fmt: skip


@signed_in
@require_http_methods(["GET", "POST"])
def line(request: HttpRequest, public_id: str, name: str) -> HttpResponse:
    """Give a fact for a line; an engineer may pass over it with a reason."""
    who, unit = fetch.unit(request, public_id)
    if name not in gate.lines_of(unit.collects):
        raise Http404
    rule = gate.rule(name)
    own = rule["kind"] == "fact" and may(who, RIGHT_OF_TURN[rule["turn"]])
    over = may(who, "pass_over") and rule.get("may_pass_over", True)
    faults: dict[str, str] = {}
    if request.method == "POST":
        sent = Sent(request)
        do, told = sent.choice("do", ("yes", "no", "over")), sent.told(who)
        if not (over if do == "over" else own):
            raise Http404
        try:
            sent.done()
            if do == "over":
                service.pass_over(unit, name, sent.text("reason", 300), told)
            else:
                values = {
                    one["id"]: sent.text(one["id"], 120) for one in rule["fields"] if one["kind"] != "photo"
                }
                values["reason"] = sent.text("reason", 300)
                picture = sent.photo()
                photo = photos.keep(unit, picture, who) if picture is not None else None
                today = Words(reader_of(request)).today()
                given = service.Given(line=name, answer=do, values=values, photo=photo, today=today)
                service.give(unit, given, told)
            return (
                go("gate_line", public_id, name)
                if name == "code_sent" and do == "yes"
                else go("gate_pass", public_id)
            )
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    now = gate.gate_now(unit)
    here = next(one for one in now.lines if one.id == name)
    context: dict[str, Any] = {
        "gate": now,
        "line": here,
        "rule": rule,
        "own": own,
        "over": over,
        "faults": faults,
    }
    status = 422 if faults else 200
    return show(request, "gate_line.html", unit=unit, page="gate_pass", status=status, **context)


@signed_in
@require_http_methods(["GET", "POST"])
def loose(request: HttpRequest, public_id: str) -> HttpResponse:
    """Count the loose items."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "inspect")
    faults: dict[str, str] = {}
    if request.method == "POST":
        sent = Sent(request)
        key, counted, told = sent.text("key", 100), sent.number("counted", 0, 999), sent.told(who)
        try:
            sent.done()
            service.count_loose(unit, key, counted, told)
            return go("loose", public_id)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    reader = reader_of(request)
    counted_now = {row.key: row for row in unit.loose.select_related("by").order_by("at")}
    rows = [
        (item, counted_now.get(item.key))
        for item in stock.briefing(unit, reader.language, reader.units).loose_items
    ]
    done = sum(row is not None and row.counted >= item.count for item, row in rows)
    return show(
        request, "loose.html", unit=unit, page="loose", rows=rows, done=done, faults=faults,
        status=422 if faults else 200,
    )  # fmt: skip


@signed_in
@require_GET
def owes(request: HttpRequest) -> HttpResponse:
    """Show who owes what next, over all units that have left."""
    who = fetch.person(request)
    found = (
        Debt.objects.filter(unit__site__in=fetch.sites(who), done_at=None)
        .exclude(kind="question")
        .select_related("unit")
        .defer("unit__as_built", "unit__found_by", "unit__silhouette")
        .order_by("due_on", "at_miles")
    )
    return show(request, "owes.html", page="owes", debts=list(found[:200]))


@signed_in
@require_http_methods(["GET", "POST"])
def debt(request: HttpRequest, public_id: str, number: int) -> HttpResponse:
    """Write that something owed was done, with what was said or read."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "office")
    row = unit.debts.filter(pk=number).first()
    if row is None:
        raise Http404
    row.unit = unit
    faults: dict[str, str] = {}
    if request.method == "POST":
        sent = Sent(request)
        said, told = sent.text("said", 300), sent.told(who)
        try:
            sent.done()
            service.pay(row, said, told)
            return go("owes")
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    return show(
        request, "debt.html", unit=unit, page="owes", debt=row, faults=faults, status=422 if faults else 200
    )
