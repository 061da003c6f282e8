"""The put-right list of a unit: found, put right, looked at again; and photos."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from sendoff.briefing.numbers import place_name
from sendoff.errors import FaultyInput
from sendoff.web import lists, stock
from sendoff.web.forms import Sent
from sendoff.web.queries import fetch
from sendoff.web.reader import reader_of
from sendoff.web.rights import may
from sendoff.web.services import photos
from sendoff.web.services import put_right as service
from sendoff.web.views.showing import go, show, signed_in, told_faults
from sendoff.web.views.unit import NO_PLACE


@signed_in
@require_GET
def put_right(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show what is to be put right on a unit, and what was."""
    _, unit = fetch.unit(request, public_id)
    items = list(unit.put_right.select_related("found_by", "put_right_by").order_by("number"))
    reader = reader_of(request)
    stations = {
        one.id: (one.number, one.name) for one in stock.briefing(unit, reader.language, reader.units).stations
    }
    open_ = [item for item in items if item.status not in {"checked", "waived"}]
    closed = [item for item in items if item.status in {"checked", "waived"}]
    return show(
        request, "put_right.html", unit=unit, page="put_right", open=open_, closed=closed, stations=stations,
        holds=sum(item.safety for item in open_),
    )  # fmt: skip


@signed_in
@require_http_methods(["GET", "POST"])
def new(request: HttpRequest, public_id: str) -> HttpResponse:
    """Open a put-right item: what, where on the drawing, size, whose doing, a photo."""
    who, unit = fetch.unit(request, public_id, "put_right")
    faults: dict[str, str] = {}
    built = stock.built(unit)
    number = request.GET.get("station", "1")
    at = int(number) if number.isdecimal() and 1 <= int(number[:3]) <= len(built.stations) else 1
    if request.method == "POST":
        sent = Sent(request)
        told = sent.told(who)
        where, _, slot = sent.text("where", 100).partition("/")
        kind, whose = (
            sent.choice("kind", lists.kinds()),
            sent.choice("whose", lists.whose(), otherwise="not_known"),
        )
        what, size = sent.text("what", 300, needed=True), sent.text("size", 40)
        try:
            sent.done()
            picture = sent.photo()
            photo = photos.keep(unit, picture, who) if picture is not None else None
            found = service.Found(
                kind=kind, station=where, slot=slot, what=what, size=size, whose=whose, photo=photo
            )
            service.find(unit, found, told)
            return go("put_right", unit.public_id)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    reader = reader_of(request)
    stations = stock.briefing(unit, reader.language, reader.units).stations
    figure = stock.drawings(unit, reader.language, reader.units).station_figure(at, key=True)
    return show(
        request, "put_right_new.html", unit=unit, page="put_right", stations=stations, at=at, figure=figure,
        kinds=lists.kinds(), whose=lists.whose(), faults=faults, status=422 if faults else 200,
    )  # fmt: skip


@signed_in
@require_http_methods(["GET", "POST"])
def item(request: HttpRequest, public_id: str, number: int) -> HttpResponse:
    """Show one item with its steps; take it one step on."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "put_right")
    row = fetch.put_right_item(unit, number)
    faults: dict[str, str] = {}
    if request.method == "POST":
        sent = Sent(request)
        kind = sent.choice("step", ("put_right", "checked", "not_yet", "waived"))
        if kind == "waived" and not may(who, "waive"):
            raise Http404
        told, note = sent.told(who), sent.text("note", 300)
        try:
            sent.done()
            picture = sent.photo()
            photo = photos.keep(unit, picture, who) if picture is not None else None
            service.step(row, kind, note, told, photo)
            return go("put_right_item", unit.public_id, number)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    reader = reader_of(request)
    built = stock.built(unit)
    at = next((n for n, one in enumerate(built.stations, start=1) if one.id == row.station), 1)
    briefing = stock.briefing(unit, reader.language, reader.units)
    words = {check.key: check.text for leg in briefing.legs for visit in leg.visits for check in visit.checks}
    part = built.part(row.slot) if row.slot else None
    return show(
        request, "put_right_item.html", unit=unit, page="put_right", item=row, at=at,
        station=briefing.stations[at - 1], where=stock.drawings(unit, reader.language, reader.units).locator(at),
        steps=list(row.steps.select_related("by", "photo").order_by("at")), check_words=words.get(row.check_key, ""),
        place=place_name(row.place, reader.language) if row.place else "",
        part=part.name[reader.language] if part is not None else "", no_place=NO_PLACE,
        cosmetic=lists.is_cosmetic(row.kind) and not row.safety, faults=faults, status=422 if faults else 200,
    )  # fmt: skip


@signed_in
@require_GET
def photo(request: HttpRequest, public_id: str, digest: str) -> HttpResponse:
    """Give a photo to whoever may see its unit."""
    _, unit = fetch.unit(request, public_id)
    row = fetch.file(unit, digest)
    path = photos.path_of(row.digest)
    if row.kind != "photo" or not path.is_file():
        raise Http404
    answer = HttpResponse(path.read_bytes(), content_type="image/jpeg")
    answer["Cache-Control"] = "private, max-age=86400, immutable"
    return answer
