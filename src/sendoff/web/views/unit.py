"""A unit: its drawing is the way in; beside it what it waits for, its stations, findings, readings and history."""

from __future__ import annotations

import json
from typing import Any, Final

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET

from sendoff.briefing.inspection import PlannedCheck
from sendoff.drawings.screen import StationMark
from sendoff.drawings.svg import Drawing
from sendoff.findings.all_limits import not_checked
from sendoff.findings.telling import answer
from sendoff.web import stock
from sendoff.web.models import Unit
from sendoff.web.queries import fetch
from sendoff.web.queries.standing import UnitNow, unit_now
from sendoff.web.reader import Reader, reader_of
from sendoff.web.views.showing import Words, show, signed_in

LAST_READINGS = 6
PHONE_MM = 108.0
NO_PLACE: Final = "-"


def address(check: PlannedCheck) -> list[str]:
    """Return what stands for a check in the address of its page."""
    slot, _, name = check.key.partition(":")
    return [slot, name, check.place or NO_PLACE]


def walk_drawing(
    unit: Unit, now: UnitNow, reader: Reader, here: int | None, *, narrow: bool = False
) -> Drawing:
    """Return the plan with its stations as links, marked by how they stand."""
    words = Words(reader)
    built = stock.built(unit)
    wrong = {item.station for item in now.open_items}
    leg = now.next.check.state if now.next is not None else None
    marks = {}
    for number, station in enumerate(built.stations, start=1):
        done, whole = now.by_station.get(number, (0, 0))
        in_leg = now.of(leg, number)
        walked = bool(whole) and all(one.done for one in in_leg) and (bool(in_leg) or done == whole)
        state: Any = "now" if number == here else "done" if walked else "to_do"
        told = words.t(
            "unit.station_link", number=number, name=station.name[reader.language], done=done, all=whole
        )
        marks[number] = StationMark(
            state, station.id in wrong, reverse("station", args=[unit.public_id, number]), told
        )
    width = PHONE_MM if narrow else 184.0
    return stock.screen_map(unit, width).drawn(reader.language, marks)


def told_findings(unit: Unit, reader: Reader, words: Words) -> dict[str, Any]:
    """Return the findings in words with their bars, the answer as a sentence, and what was not checked."""
    found = stock.findings(unit, words.today())
    rows = [
        {"told": told, "bar": bar}
        for told, bar in stock.told_findings(unit, words.today(), reader.language, reader.units)
    ]
    left = [words.word(f"not_checked.{name}") for name in not_checked(found)]
    return {"findings": rows, "answer": answer(found, reader.language), "not_checked": left}


@signed_in
@require_GET
def drawing(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show a unit on one page."""
    _, unit = fetch.unit(request, public_id)
    reader = reader_of(request)
    words = Words(reader)
    now = unit_now(unit)
    built = stock.built(unit)
    here = now.next.check.station if now.next is not None else None
    briefing = stock.briefing(unit, reader.language, reader.units)
    readings = unit.readings.select_related("by", "tool").order_by("-received_at")[:LAST_READINGS]
    names = {check.key: check.text for leg in briefing.legs for visit in leg.visits for check in visit.checks}
    return show(
        request, "unit.html", unit=unit, page="unit", built=built, now=now, here=here, stations=briefing.stations,
        side=stock.drawings(unit, reader.language, reader.units).screen_side,
        map=walk_drawing(unit, now, reader, here), narrow=walk_drawing(unit, now, reader, here, narrow=True),
        readings=list(readings), names=names, address=address,
        links=list(unit.links.select_related("person").order_by("-number")[:LAST_READINGS]),
        **told_findings(unit, reader, words),
    )  # fmt: skip


@signed_in
@require_GET
def history(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show what was done to a unit, newest first, with the digest of each link."""
    _, unit = fetch.unit(request, public_id)
    number = request.GET.get("before", "")
    links = unit.links.select_related("person").order_by("-number")
    if number.isdecimal() and len(number) < 9:
        links = links.filter(number__lt=int(number))
    rows = [(link, json.loads(link.body)) for link in links[:50]]
    return show(request, "history.html", unit=unit, page="history", rows=rows)


@signed_in
@require_GET
def pages(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show the pages of a unit with their state: from any page of a phone one tap away."""
    _, unit = fetch.unit(request, public_id)
    reader = reader_of(request)
    now = unit_now(unit)
    words = Words(reader)
    states = {
        "unit": words.t("pages.stations", n=len(stock.built(unit).stations)),
        "inspection": words.t("of", done=now.done, all=len(now.checks)),
        "put_right": words.t("pages.open", n=len(now.open_items)),
        "history": words.t("pages.entries", n=unit.chain_number),
    }
    side = stock.drawings(unit, reader.language, reader.units).screen_side
    return show(request, "pages.html", unit=unit, page="pages", states=states, side=side)
