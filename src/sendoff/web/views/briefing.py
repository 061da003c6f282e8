"""The briefing, side by side with whoever takes the unit: stations in walking order, then the show-me questions."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_http_methods

from sendoff.errors import FaultyInput
from sendoff.web import stock
from sendoff.web.forms import Sent
from sendoff.web.queries import fetch
from sendoff.web.reader import reader_of
from sendoff.web.services import briefings as service
from sendoff.web.views.showing import go, show, signed_in, told_faults


@signed_in
@require_http_methods(["GET", "POST"])
def briefing(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show what was explained and answered; tick a station, answer a question."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "brief")
    reader = reader_of(request)
    told_in = stock.briefing(unit, reader.language, reader.units)
    faults: dict[str, str] = {}
    if request.method == "POST":
        sent = Sent(request)
        do, key, told = sent.choice("do", ("station", "question")), sent.text("key", 100), sent.told(who)
        whose = sent.choice("whose", service.WHOSE, otherwise="owner")
        try:
            sent.done()
            right = True
            if do == "question":
                right = service.is_right(told_in, key, sent.number("answer", 0, 20))
                sent.done()
            service.tick(unit, do, key, whose, told, right=right)
            return go("briefing", public_id)
        except FaultyInput as refused:
            faults = told_faults(request, refused)
    ticks: dict[tuple[str, str], dict[str, bool]] = {}
    for row in unit.ticks.order_by("at"):
        ticks.setdefault((row.what, row.key), {})[row.whose] = row.right
    explained = sum("yard" in ticks.get(("station", one.id), {}) for one in told_in.stations)
    answered = sum(any(ticks.get(("question", one.key), {}).values()) for one in told_in.questions)
    return show(
        request, "briefing.html", unit=unit, page="briefing", briefing=told_in, ticks=ticks, explained=explained,
        answered=answered, faults=faults, status=422 if faults else 200,
    )  # fmt: skip
