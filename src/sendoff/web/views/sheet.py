"""A unit's build sheet: shown, and changed with a reason; first the difference, then the change."""

from __future__ import annotations

import difflib
import json

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods

from sendoff.asbuilt.unit import to_json
from sendoff.briefing.numbers import place_name
from sendoff.errors import FaultyInput
from sendoff.web import stock
from sendoff.web.forms import Sent
from sendoff.web.models import Unit
from sendoff.web.queries import fetch
from sendoff.web.reader import reader_of
from sendoff.web.services import units as service
from sendoff.web.views.showing import go, show, signed_in, told_faults

LONGEST = 60_000


def differences(unit: Unit, text: str) -> tuple[list[str], set[tuple[str, str]]]:
    """Return which values of the as-built unit a sheet changes, and which checks must be done again."""
    before, after = stock.built(unit), service.resolve_text(text, unit.number)
    old, new = (_flat(json.loads(one), "") for one in (unit.as_built, to_json(after).decode()))
    changed = [
        line
        for line in difflib.unified_diff(old, new, lineterm="", n=0)
        if line[:1] in "+-" and not line.startswith(("+++", "---")) and "digests" not in line
    ]
    return changed, service.checks_to_do_again(before, after)


def _flat(value: object, key: str) -> list[str]:
    if isinstance(value, dict):
        return [line for name in sorted(value) for line in _flat(value[name], f"{key}.{name}".lstrip("."))]
    if isinstance(value, list):
        return [
            line for number, item in enumerate(value) for line in _flat(item, f"{key}[{_name(item, number)}]")
        ]
    return [f"{key} = {value}"]


def _name(item: object, number: int) -> str:
    if isinstance(item, dict):
        return str(item.get("slot") or item.get("id") or number)
    return str(number)


@signed_in
@require_http_methods(["GET", "POST"])
def sheet(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show the sheet; what is changed shows its difference first and is kept with a reason."""
    who, unit = fetch.unit(request, public_id, "sheet")
    versions = list(unit.sheets.select_related("by").order_by("-number"))
    faults: dict[str, str] = {}
    text, changed, again = versions[0].text, None, set[tuple[str, str]]()
    if request.method == "POST":
        sent = Sent(request)
        do, told = sent.choice("do", ("look", "keep")), sent.told(who)
        text = request.POST.get("text", "")[:LONGEST].replace("\r\n", "\n")
        reason = sent.text("reason", 300, needed=do == "keep")
        try:
            changed, again = differences(unit, text)
            sent.done()
            if do == "keep":
                service.change_sheet(unit, text, reason, told)
                return go("sheet", public_id)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    reader = reader_of(request)
    briefing = stock.briefing(unit, reader.language, reader.units)
    names = {check.key: check.text for leg in briefing.legs for visit in leg.visits for check in visit.checks}
    told_again = [
        f"{names.get(key, key)}{', ' + place_name(place, reader.language) if place else ''}"
        for key, place in sorted(again)
    ]
    return show(
        request, "sheet.html", unit=unit, page="sheet", text=text, changed=changed, again=told_again, versions=versions,
        faults=faults, status=422 if faults else 200,
    )  # fmt: skip
