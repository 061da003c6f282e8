"""Showing a page: what every template is given, and how times, names and refusals are said."""

from __future__ import annotations

import datetime
import uuid
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial, wraps
from typing import Any, Concatenate, Final, ParamSpec

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme, urlencode

from sendoff.errors import FaultyInput
from sendoff.phrases import load, say
from sendoff.web.models import Person, Unit
from sendoff.web.reader import Reader, reader_of
from sendoff.web.rights import Right, may

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponse]

UNIT_PAGES: Final[tuple[tuple[str, Right], ...]] = (
    ("unit", "look"),
    ("inspection", "look"),
    ("put_right", "look"),
    ("truck", "look"),
    ("loose", "look"),
    ("briefing", "look"),
    ("gate_pass", "look"),
    ("sheet", "sheet"),
    ("history", "look"),
)
"""The pages of one unit in the order of its navigation; each has a phrase `web.page.NAME`."""
YARD_PAGES: Final[tuple[tuple[str, Right], ...]] = (
    ("yard", "look"),
    ("put_right_all", "look"),
    ("owes", "look"),
    ("parts", "look"),
    ("tools", "look"),
    ("people", "people"),
)


def signed_in(view: View[P]) -> View[P]:
    """Let nobody see a page who has not signed in."""

    @wraps(view)
    def answer(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if not isinstance(request.user, Person):
            back = urlencode({"next": request.get_full_path()}) if request.method == "GET" else ""
            return HttpResponseRedirect(f"{reverse('sign_in')}?{back}")
        return view(request, *args, **kwargs)

    return answer


def local(request: HttpRequest, address: str, otherwise: str) -> str:
    """Return an address of this yard; anything else gives the other one."""
    ours = url_has_allowed_host_and_scheme(address, {request.get_host()}, require_https=request.is_secure())
    return address if ours and address.startswith("/") else otherwise


@dataclass(frozen=True, slots=True)
class Words:
    """Says times, days and values to one reader."""

    reader: Reader

    def t(self, key: str, **values: object) -> str:
        """Return a phrase of the web pages."""
        return say(f"web.{key}", self.reader.language, **values)

    def word(self, key: str) -> str:
        """Return a phrase of another room."""
        return say(key, self.reader.language)

    def known(self, key: str) -> bool:
        """Tell whether the web pages have such a phrase."""
        return f"web.{key}" in load()

    def day(self, day: datetime.date) -> str:
        """Return a day as "25 Nov 2026"."""
        month = self.t("months").split()[day.month - 1]
        return f"{day.day} {month} {day.year}"

    def when(self, moment: datetime.datetime) -> str:
        """Return a moment at the site: the hour alone where it is today."""
        here = moment.astimezone(self.reader.zone)
        hour = f"{here:%H:%M}"
        if here.date() == timezone.now().astimezone(self.reader.zone).date():
            return hour
        return f"{here.day} {self.t('months').split()[here.month - 1]} {hour}"

    def waits(self, unit: Unit) -> str:
        """Return what a unit waits for, in words."""
        told = dict(unit.waits_told)
        until = told.pop("until", None)
        if until is not None and datetime.datetime.fromisoformat(until) <= timezone.now():
            return self.t("waits.ran_out")
        if "state" in told:
            told["state"] = self.word(f"state.{told['state']}")
        return self.t(f"waits.{unit.waits_for}.told", **told)

    def today(self) -> datetime.date:
        """Return the day at the site."""
        return timezone.now().astimezone(self.reader.zone).date()


def show(
    request: HttpRequest,
    template: str,
    *,
    unit: Unit | None = None,
    page: str = "",
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    """Return a page; `unit` puts the unit's own pages into its head, `page` says which of them this is."""
    reader = reader_of(request)
    words = Words(reader)
    who = request.user if isinstance(request.user, Person) else None
    context = {
        "t": words.t,
        "word": words.word,
        "say": partial(_said, reader.language),
        "words": words,
        "when": words.when,
        "day": words.day,
        "waits": words.waits,
        "reader": reader,
        "who": who,
        "unit": unit,
        "page": page,
        "unit_pages": [name for name, right in UNIT_PAGES if who is not None and may(who, right)],
        "yard_pages": [name for name, right in YARD_PAGES if who is not None and may(who, right)],
        "can": (lambda right: may(who, right)) if who is not None else (lambda _right: False),
        "here": request.get_full_path(),
        "new_act": lambda: str(uuid.uuid4()),
        "faults": {},
        "sent": request.POST,
    } | more
    return render(request, template, context, status=status)


def _said(language: str, texts: dict[str, str]) -> str:
    return texts[language]


def told_faults(request: HttpRequest, refused: FaultyInput) -> dict[str, str]:
    """Return what was refused, by field, in the reader's words."""
    words = Words(reader_of(request))
    return {
        fault.key: words.t(f"refused.{fault.problem}")
        if words.known(f"refused.{fault.problem}")
        else str(fault)
        for fault in refused.faults
    }


def go(name: str, /, *args: object, query: Sequence[tuple[str, str]] = ()) -> HttpResponseRedirect:
    """Send the reader on to a page."""
    address = reverse(name, args=args)
    return HttpResponseRedirect(f"{address}?{urlencode(query)}" if query else address)
