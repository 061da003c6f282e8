"""Inspection, made for a phone: by state, then station; one check a screen, a keypad for what is measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_GET, require_http_methods

from sendoff import display, units
from sendoff.briefing.inspection import PlannedCheck, as_asked
from sendoff.briefing.model import Briefing
from sendoff.briefing.model import Check as ToldCheck
from sendoff.briefing.numbers import place_name
from sendoff.display import Shown
from sendoff.errors import FaultyInput
from sendoff.web import lists, stock
from sendoff.web.forms import Sent
from sendoff.web.models import Person, Reading, Tool, Unit
from sendoff.web.queries import fetch
from sendoff.web.queries.standing import CheckNow, UnitNow, unit_now
from sendoff.web.reader import Reader, reader_of
from sendoff.web.services import photos
from sendoff.web.services import readings as service
from sendoff.web.views.showing import Words, go, show, signed_in, told_faults
from sendoff.web.views.tape import reading_tape
from sendoff.web.views.unit import NO_PLACE, address, walk_drawing

SKIP_REASONS: Final = ("no_tool", "no_second", "not_coupled", "not_there_yet", "weather")


@dataclass(frozen=True, slots=True)
class Line:
    """One check in a list: what it asks, and how it stands."""

    now: CheckNow
    told: ToldCheck
    place: str
    value: str


def told_checks(briefing: Briefing) -> dict[str, ToldCheck]:
    """Return the words of every check by its key."""
    return {check.key: check for leg in briefing.legs for visit in leg.visits for check in visit.checks}


def lines_of(checks: Sequence[CheckNow], briefing: Briefing, reader: Reader) -> list[Line]:
    """Return checks with their words in the reader's language."""
    told = told_checks(briefing)
    found = []
    for one in checks:
        place = place_name(one.check.place, reader.language) if one.check.place else ""
        value = shown_reading(one.row.reading, reader) if one.row is not None else ""
        found.append(Line(one, told[one.check.key], place, value))
    return found


def shown_reading(reading: Reading, reader: Reader) -> str:
    """Return a reading as it was entered, in the reader's own units where it was entered in others."""
    if reading.si is None:
        return ""
    return str(display.show(reading.quantity, reading.si, reader.units, "fact", given=reading.given))


@signed_in
@require_GET
def walk(request: HttpRequest, public_id: str) -> HttpResponse:
    """Show how far the inspection is, state by state, and what comes next."""
    _, unit = fetch.unit(request, public_id)
    reader = reader_of(request)
    now = unit_now(unit)
    briefing = stock.briefing(unit, reader.language, reader.units)
    upcoming = lines_of([now.next], briefing, reader)[0] if now.next is not None else None
    here = now.next.check.station if now.next is not None else None
    states = []
    for state in now.states:
        checks = now.of(state)
        two = any(one.check.hands == 2 for one in checks)
        states.append(
            {"state": state, "done": sum(one.done for one in checks), "all": len(checks), "two": two}
        )
    return show(
        request, "inspection.html", unit=unit, page="inspection", now=now, states=states, upcoming=upcoming,
        stations=briefing.stations, address=address, map=walk_drawing(unit, now, reader, here, narrow=True),
        wide=walk_drawing(unit, now, reader, here),
    )  # fmt: skip


@signed_in
@require_GET
def station(request: HttpRequest, public_id: str, number: int) -> HttpResponse:
    """Show one station: what stands there, its cautions, its checks by state, and the next of them."""
    _, unit = fetch.unit(request, public_id)
    reader = reader_of(request)
    now = unit_now(unit)
    briefing = stock.briefing(unit, reader.language, reader.units)
    if not 1 <= number <= len(briefing.stations):
        raise Http404
    here = briefing.stations[number - 1]
    groups = []
    for state in now.states:
        checks = now.of(state, number)
        if checks:
            groups.append((state, lines_of(checks, briefing, reader)))
    upcoming = next((line for _, lines in groups for line in lines if not line.now.done), None)
    items = [item for item in now.open_items if item.station == here.id]
    figure = stock.drawings(unit, reader.language, reader.units).station_figure(number)
    return show(
        request, "station.html", unit=unit, page="inspection", station=here, groups=groups, upcoming=upcoming,
        items=items, figure=figure, address=address, last=len(briefing.stations),
    )  # fmt: skip


def _planned(unit: Unit, slot: str, name: str, place: str, now: UnitNow) -> CheckNow:
    wanted = (f"{slot}:{name}", "" if place == NO_PLACE else place)
    found = next((one for one in now.checks if (one.check.key, one.check.place) == wanted), None)
    if found is None:
        raise Http404
    return found


@dataclass(frozen=True, slots=True)
class Keypad:
    """What the keypad asks: the unit it types in, the other one, what is wanted and how far it may be off."""

    unit: str
    other: str
    sign: str
    other_sign: str
    wanted: str
    fraction: bool


def keypad_of(check: PlannedCheck, told: ToldCheck, reader: Reader) -> Keypad | None:
    """Return the keypad of a measured check."""
    if check.how != "measured" or check.quantity is None:
        return None
    about = check.target_si if check.target_si is not None else 0.1
    pair = {system: display.unit_for(check.quantity, about, system) for system in ("us", "metric")}
    pair = {system: {"ft": "in", "m": "mm"}.get(unit, unit) for system, unit in pair.items()}
    own = pair[reader.units]
    if check.target_given is not None:
        entered = units.Quantity(check.quantity, check.target_given, about).unit
        foreign = display.METRIC_ONLY if reader.units == "us" else display.US_ONLY
        own = entered if entered not in foreign and entered != "ft" else own
    other = next((unit for unit in pair.values() if unit != own), "")
    sign = display.SIGNS
    return Keypad(
        own, other, sign.get(own, own), sign.get(other, other), wanted_words(told, reader), own == "in"
    )


def wanted_words(told: ToldCheck, reader: Reader) -> str:
    """Return what is wanted and how far it may be off, in words."""
    if told.target is None:
        return ""
    words = Words(reader)

    def none(shown: Shown | None) -> bool:
        return shown is None or shown.number.strip("0.,") == ""

    minus, plus = told.minus, told.plus
    if minus is None and plus is None:
        return str(told.target)
    if none(minus) and none(plus):
        return words.t("check.exactly", target=told.target)
    if none(minus):
        return words.t("check.up_to_over", target=told.target, plus=plus)
    if none(plus):
        return words.t("check.up_to_under", target=told.target, minus=minus)
    if minus == plus:
        return words.t("check.either_way", target=told.target, off=plus)
    return words.t("check.between", target=told.target, minus=minus, plus=plus)


def next_after(now: UnitNow, check: PlannedCheck) -> CheckNow | None:
    """Return the next check to do, in walking order, after one; those left behind come last."""
    ids = [one.check.id for one in now.checks]
    start = ids.index(check.id) + 1
    return next((one for one in (*now.checks[start:], *now.checks[:start]) if not one.done), None)


@dataclass(frozen=True, slots=True)
class _Page:
    """What both the form and its answers need."""

    who: Person
    unit: Unit
    now: UnitNow
    one: CheckNow
    told: ToldCheck
    reader: Reader

    @property
    def place(self) -> str:
        """The place, in words."""
        return place_name(self.one.check.place, self.reader.language) if self.one.check.place else ""


@signed_in
@require_http_methods(["GET", "POST"])
def check(request: HttpRequest, public_id: str, slot: str, name: str, place: str) -> HttpResponse:
    """Ask one check, and take its answer."""
    who, unit = fetch.unit(request, public_id, "look" if request.method == "GET" else "inspect")
    reader = reader_of(request)
    now = unit_now(unit)
    one = _planned(unit, slot, name, place, now)
    briefing = stock.briefing(unit, reader.language, reader.units)
    page = _Page(who, unit, now, one, told_checks(briefing)[one.check.key], reader)
    if request.method == "GET":
        return _ask(request, page, first=request.GET.get("first", "")[:40])
    try:
        return _take(request, page)
    except FaultyInput as refused:
        return _ask(request, page, told_faults(request, refused), status=422)


def _ask(
    request: HttpRequest, page: _Page, faults: dict[str, str] | None = None, status: int = 200, **more: Any
) -> HttpResponse:
    check, unit = page.one.check, page.unit
    tools = []
    if check.tool is not None:
        rows = Tool.objects.filter(site=unit.site, kind=check.tool, away=False).order_by("code")
        today = Words(page.reader).today()
        tools = [(tool, tool.good_until is not None and tool.good_until < today) for tool in rows]
    colleagues = []
    if check.hands == 2:
        colleagues = list(
            Person.objects.filter(sites=unit.site, is_active=True).exclude(pk=page.who.pk).order_by("name")
        )
    stations = stock.briefing(unit, page.reader.language, page.reader.units).stations
    station_now = stations[check.station - 1]
    row = page.one.row
    same = page.now.of(check.state)
    context: dict[str, Any] = {
        "one": page.one, "check": check, "told": page.told, "place": page.place, "station": station_now,
        "keypad": keypad_of(check, page.told, page.reader), "tools": tools, "colleagues": colleagues,
        "cautions": station_now.cautions, "position": same.index(page.one) + 1, "of": len(same),
        "faults": faults or {}, "first": "", "odd": None, "last_tool": request.session.get(f"tool {check.tool}"),
        "last_second": request.session.get("second"), "saw": str(row.reading_id) if row is not None else "",
        "value": shown_reading(row.reading, page.reader) if row is not None else "",
        "against": shown_reading(row.against, page.reader) if row is not None and row.against is not None else "",
        "tape": reading_tape(check, _values(page), page.reader) if row is not None else None,
        "whose": lists.whose(), "skip_reasons": SKIP_REASONS, "next": next_after(page.now, check), "address": address,
    }  # fmt: skip
    return show(request, "check.html", unit=unit, page="inspection", status=status, **(context | more))


def _values(page: _Page) -> list[float]:
    row = page.one.row
    if row is None:
        return []
    return [one.si for one in (row.reading, row.against) if one is not None and one.si is not None]


def _take(request: HttpRequest, page: _Page) -> HttpResponse:
    check, sent = page.one.check, Sent(request)
    told = sent.told(page.who)
    act = sent.choice("do", ("value", "in_order", "not_in_order", "skip"))
    given = _given(sent, check) if act == "value" or request.POST.get("given") else ""
    first = sent.text("first", 40)
    reason = sent.text("reason", 300)
    if act == "skip" and not reason:
        key = sent.choice("skip_reason", SKIP_REASONS, otherwise="")
        reason = Words(page.reader).t(f"check.skip.{key}") if key else ""
    tool, second = _tool(sent, page, act), _second(sent, page, act)
    sent.done()
    outcome: Any = {"skip": "skipped", "value": "in_order"}.get(act, act)
    if act == "value":
        entered, where = service.judged(check, given)
        if where in {"low", "high"} and not sent.yes("is_right"):
            odd = _odd(page, entered, where)
            return _ask(request, page, first=first, odd=odd, typed=given, tool_now=tool, second_now=second)
        if where == "open" and act == "value":
            return _ask(
                request, page, first=first, judge_it=given, typed=given, tool_now=tool, second_now=second
            )
    picture = sent.photo()
    photo = photos.keep(page.unit, picture, page.who) if picture is not None else None
    answer = service.Answer(
        outcome=outcome, given=given, first_given=first if first != given else "", reason=reason, tool=tool,
        second=second, photo=photo, saw=sent.identity("saw"),
        whose=sent.choice("whose", lists.whose(), otherwise="not_known"),
    )  # fmt: skip
    service.read(page.unit, check, answer, told, Words(page.reader).today())
    upcoming = next_after(unit_now(page.unit), check)
    if upcoming is None or upcoming.check.state != check.state:
        return go("inspection", page.unit.public_id)
    return go("check", page.unit.public_id, *address(upcoming.check))


def _given(sent: Sent, check: PlannedCheck) -> str:
    number = sent.text("given", 20, needed=True).replace(",", "")
    unit = sent.text("unit", 12)
    return f"{number} {unit}".strip() if number else ""


def _tool(sent: Sent, page: _Page, act: str) -> Tool | None:
    number = sent.text("tool", 10)
    if page.one.check.tool is None or act == "skip" or not number.isdecimal():
        return None
    found = fetch.tool(page.who, int(number))
    return found if found.site_id == page.unit.site_id else None


def _second(sent: Sent, page: _Page, act: str) -> Person | None:
    number = sent.text("second", 10)
    if page.one.check.hands != 2 or act == "skip" or not number.isdecimal():
        return None
    return fetch.colleague(page.who, int(number))


def _odd(page: _Page, entered: units.Quantity, where: str) -> dict[str, Any]:
    """Return what is said when a value is out of tolerance: by how much, on the tape, and to look again."""
    least, most = as_asked(page.one.check, entered.unit)
    bound = least if where == "low" else most
    assert bound is not None  # noqa: S101 (a value is only low or high against a bound)
    kind = entered.kind if entered.kind != "temperature" else "temperature_change"
    off = display.show(kind, abs(entered.si - bound), page.reader.units, "demand")
    return {
        "value": str(display.show(entered.kind, entered.si, page.reader.units, "fact", given=entered.given)),
        "off": str(off),
        "where": where,
        "tape": reading_tape(page.one.check, [entered.si], page.reader),
    }
