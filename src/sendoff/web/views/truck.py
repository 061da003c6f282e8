"""The truck check: its numbers copied from sticker and ticket, then the answer with every limit and what would help."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from sendoff.drawings.margins import margin_bar
from sendoff.errors import FaultyInput
from sendoff.findings.all_limits import truck_of
from sendoff.findings.telling import tell
from sendoff.web import lists, stock
from sendoff.web.forms import Sent
from sendoff.web.models import TruckCheck, Unit
from sendoff.web.queries import fetch
from sendoff.web.reader import reader_of
from sendoff.web.services import truck as service
from sendoff.web.views.showing import Words, go, show, signed_in, told_faults


def _before(unit: Unit) -> dict[str, Any]:
    """Return what the form begins with: the last truck checked, else the one the sheet names."""
    last = unit.truck_checks.order_by("-number").first()
    if last is not None:
        return {**last.truck, "plate": last.plate}
    named = truck_of(stock.built(unit), stock.catalogue())
    if named is None:
        return {}
    found: dict[str, Any] = {
        "name": str(named.name),
        "plug": named.plug or "",
        "brake_controller": named.brake_controller or "",
    }
    for field in lists.read("truck")["kind"]:
        value = getattr(named, field)
        found[field] = value.given if value is not None else ""
    return found


@signed_in
@require_http_methods(["GET", "POST"])
def truck(request: HttpRequest, public_id: str) -> HttpResponse:
    """Ask for the numbers of the truck at the gate, and keep the check."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "truck")
    reader = reader_of(request)
    faults: dict[str, str] = {}
    entered = _before(unit)
    if request.method == "POST":
        sent = Sent(request)
        told, plate, name = sent.told(who), sent.text("plate", 20, needed=True), sent.text("name", 80)
        entered = {
            field: service.with_unit(field, sent.text(field, 30), reader.units)
            for field in lists.read("truck")["kind"]
        }
        entered |= {"plug": sent.choice("plug", service.PLUGS, otherwise="")}
        entered |= {"brake_controller": sent.choice("brake_controller", service.CONTROLLERS, otherwise="")}
        entered |= {
            "name": name,
            "changes": [one for one in lists.read("truck")["changes"] if sent.yes(f"change_{one}")],
        }
        try:
            sent.done()
            service.keep(unit, entered, plate, told, at_gate=sent.yes("at_gate"))
            last = unit.truck_checks.order_by("-number").values_list("number", flat=True)[0]
            return go("truck_answer", public_id, last)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
            entered |= {"plate": plate}
    checks = list(unit.truck_checks.select_related("by").order_by("-number")[:5])
    return show(
        request, "truck.html", unit=unit, page="truck", parts=lists.read("truck")["part"], entered=entered,
        plugs=service.PLUGS, controllers=service.CONTROLLERS, changes=list(lists.read("truck")["changes"]),
        faults=faults, checks=checks, needed=lists.read("truck")["needed"]["fields"], status=422 if faults else 200,
    )  # fmt: skip


@signed_in
@require_GET
def answer(request: HttpRequest, public_id: str, number: int) -> HttpResponse:
    """Show what was found of a truck."""
    _, unit = fetch.unit(request, public_id)
    row: TruckCheck | None = unit.truck_checks.select_related("by").filter(number=number).first()
    if row is None:
        raise Http404
    reader = reader_of(request)
    words = Words(reader)
    found = service.check(
        unit, service.as_record(row.truck, row.truck.get("name", "")), row.truck.get("changes", ())
    )
    rows = []
    for one in found.found:
        told = tell(one, reader.language, reader.units)
        bar = margin_bar(
            one.verdict, reader.language, demand=one.demand, most=one.limit.most, least=one.limit.least
        )
        rows.append({"told": told, "bar": bar})
    return show(
        request, "truck_answer.html", unit=unit, page="truck", row=row, rows=rows, weigh_first=found.weigh_first,
        changed={one["id"] for one in row.found} != {one.id for one in found.found} or found.verdict != row.verdict,
        not_checked=[words.word(f"not_checked.{name}") for name in row.not_checked],
    )  # fmt: skip
