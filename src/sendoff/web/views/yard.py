"""The yard: all its units as small side views to one scale, each with what it waits for; and lists over all units."""

from __future__ import annotations

from itertools import groupby

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from sendoff.drawings.screen import ruler
from sendoff.drawings.small import PIXEL_MM
from sendoff.web import stock
from sendoff.web.forms import Sent
from sendoff.web.models import Tool
from sendoff.web.queries import fetch, yard
from sendoff.web.reader import reader_of
from sendoff.web.services import tools as service
from sendoff.web.services.units import LIST_PX_A_METER
from sendoff.web.views.showing import Words, go, show, signed_in

RULER_FEET = 50


@signed_in
@require_GET
def the_yard(request: HttpRequest) -> HttpResponse:
    """Show the units of the person's sites."""
    who = fetch.person(request)
    today = Words(reader_of(request)).today()
    typed = " ".join(request.GET.get("find", "")[:80].split())
    number = request.GET.get("page", "1")
    page = int(number) if number.isdecimal() and len(number) < 6 else 1
    gone = request.GET.get("gone") == "yes"
    found = yard.list_units(who, typed, page, today, gone=gone)
    parts = [
        (when, list(units)) for when, units in groupby(found.units, key=lambda unit: yard.leaves(unit, today))
    ]
    return show(
        request, "yard.html", page="yard", found=found, parts=parts, typed=typed, gone=gone,
        type_names={name: type_.name for name, type_ in stock.catalogue().types.items()},
        ruler=ruler(LIST_PX_A_METER * PIXEL_MM, RULER_FEET),
    )  # fmt: skip


@signed_in
@require_GET
def put_right_all(request: HttpRequest) -> HttpResponse:
    """Show all that is to be put right in the yard."""
    who = fetch.person(request)
    return show(request, "put_right_all.html", page="put_right_all", items=yard.open_put_right(who))


@signed_in
@require_http_methods(["GET", "POST"])
def tools(request: HttpRequest) -> HttpResponse:
    """Show the tools with their calibration dates; whoever may, adds one or gives it a new date."""
    who = fetch.person(request, "look" if request.method == "GET" else "tools")
    sites = fetch.sites(who)
    if request.method == "POST":
        sent = Sent(request)
        site = sent.choice("site", [str(one.pk) for one in sites])
        kind = sent.choice("kind", service.KINDS)
        code, until = sent.text("code", 20, needed=True), sent.day("good_until")
        sent.done()
        service.keep(next(one for one in sites if str(one.pk) == site), code, kind, until)
        return go("tools")
    found = Tool.objects.filter(site__in=sites).select_related("site").order_by("kind", "code")
    return show(request, "tools.html", page="tools", tools=list(found), kinds=service.KINDS, sites=sites)
