"""Over all units: the catalogue with the units that carry each part, taking units in by their sheets, and exports."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

from django.db.models import Count
from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from sendoff.errors import SendoffError
from sendoff.web import stock
from sendoff.web.forms import Sent
from sendoff.web.models import UnitPart
from sendoff.web.queries import fetch
from sendoff.web.reader import reader_of
from sendoff.web.services import units as service
from sendoff.web.views.showing import Words, show, signed_in

MOST_FILES, LARGEST = 40, 200_000
COLUMNS = (
    "number",
    "public_id",
    "vin",
    "type",
    "owner",
    "collects",
    "leaves_on",
    "left_at",
    "waits_for",
    "turn",
)


@signed_in
@require_GET
def parts(request: HttpRequest) -> HttpResponse:
    """Show every kind of part of the catalogue, with how many units carry it."""
    who = fetch.person(request)
    counted = dict(
        UnitPart.objects.filter(unit__site__in=fetch.sites(who))
        .values_list("card")
        .annotate(n=Count("unit", distinct=True))
    )
    language = reader_of(request).language
    rows = [
        (card.id, card.name[language], card.system, counted.get(card.id, 0))
        for card in stock.catalogue().cards.values()
    ]
    return show(request, "parts.html", page="parts", rows=sorted(rows, key=lambda row: (row[2], row[1])))


@signed_in
@require_GET
def part(request: HttpRequest, card: str) -> HttpResponse:
    """Show which units carry a part, by variant, lot and serial."""
    who = fetch.person(request)
    found = stock.catalogue().cards.get(card)
    if found is None:
        raise Http404
    lot = " ".join(request.GET.get("lot", "")[:60].split())
    rows = UnitPart.objects.filter(unit__site__in=fetch.sites(who), card=card)
    if lot:
        rows = rows.filter(marks__icontains=lot)
    shown = rows.select_related("unit").defer("unit__as_built", "unit__found_by", "unit__silhouette")
    language = reader_of(request).language
    names = {name: variant.name[language] for name, variant in found.variants.items()}
    return show(
        request, "part.html", page="parts", card=found,
        rows=list(shown.order_by("unit__number", "slot", "place")[:400]),
        units=rows.values("unit").distinct().count(), variants=names, lot=lot,
    )  # fmt: skip


@signed_in
@require_http_methods(["GET", "POST"])
def take_in(request: HttpRequest) -> HttpResponse:
    """Take units in by their build sheets; each is accepted or refused with its reason."""
    who = fetch.person(request, "sheet")
    sites = fetch.sites(who)
    outcomes: list[tuple[str, str, list[str]]] = []
    if request.method == "POST":
        sent = Sent(request)
        site = sent.choice("site", [str(one.pk) for one in sites])
        sent.done()
        chosen = next(one for one in sites if str(one.pk) == site)
        for file in request.FILES.getlist("sheets")[:MOST_FILES]:
            name = (file.name or "")[:80]
            try:
                text = file.read(LARGEST).decode("utf-8-sig")
                made = service.add(chosen, text, name, who)
                outcomes.append((name, made.number, []))
            except UnicodeDecodeError:
                outcomes.append((name, "", ["UTF-8"]))
            except SendoffError as refused:
                outcomes.append((name, "", str(refused).splitlines()))
    taken = sum(bool(number) for _, number, _ in outcomes)
    return show(request, "take_in.html", page="yard", sites=sites, outcomes=outcomes, taken=taken)


@signed_in
@require_GET
def export(request: HttpRequest, form: str) -> HttpResponse:
    """Give the units of a person's sites as CSV or JSON."""
    who = fetch.person(request, "export")
    rows: list[dict[str, Any]] = [dict(row) for row in fetch.units(who).order_by("number").values(*COLUMNS)]
    for row in rows:
        row |= {key: value.isoformat() for key, value in row.items() if hasattr(value, "isoformat")}
    day = Words(reader_of(request)).today().isoformat()
    if form == "json":
        answer = HttpResponse(json.dumps(rows, ensure_ascii=False, indent=1), content_type="application/json")
    elif form == "csv":
        out = io.StringIO()
        writer = csv.DictWriter(out, COLUMNS)
        writer.writeheader()
        writer.writerows({key: _plain(value) for key, value in row.items()} for row in rows)
        answer = HttpResponse(out.getvalue(), content_type="text/csv; charset=utf-8")
    else:
        raise Http404
    answer["Content-Disposition"] = f'attachment; filename="units-{day}.{form}"'
    return answer


def _plain(value: Any) -> str:
    """Return a value as a spreadsheet takes it: never as a formula."""
    text = "" if value is None else str(value)
    return f"'{text}" if text[:1] in "=+-@\t\r" else text
