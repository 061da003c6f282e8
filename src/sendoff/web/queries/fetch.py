"""Fetching what a page is about for the person who asks: what is not theirs is not there (404)."""

from __future__ import annotations

import uuid

from django.db.models import QuerySet
from django.http import Http404, HttpRequest

from sendoff.web.models import Person, PutRightItem, Site, StoredFile, Tool, Unit
from sendoff.web.rights import Right, may


def person(request: HttpRequest, right: Right = "look") -> Person:
    """Return who is signed in, if their role has the right."""
    found = request.user
    if not isinstance(found, Person) or not may(found, right):
        raise Http404
    return found


def sites(who: Person) -> list[Site]:
    """Return the sites a person belongs to."""
    found: list[Site] | None = getattr(who, "_sites", None)
    if found is None:
        found = list(who.sites.order_by("name"))
        who._sites = found  # type: ignore[attr-defined]  # noqa: SLF001 (asked for once a page)
    return found


def units(who: Person) -> QuerySet[Unit]:
    """Return the units of a person's sites."""
    return Unit.objects.filter(site__in=sites(who))


def unit(request: HttpRequest, public_id: str, right: Right = "look") -> tuple[Person, Unit]:
    """Return who asks and the unit they ask for."""
    who = person(request, right)
    found = units(who).select_related("site").filter(public_id=public_id).first()
    if found is None:
        raise Http404
    return who, found


def put_right_item(of: Unit, number: int) -> PutRightItem:
    """Return a put-right item of a unit by its number."""
    found = of.put_right.select_related("found_by", "put_right_by", "photo").filter(number=number).first()
    if found is None:
        raise Http404
    found.unit = of
    return found


def tool(who: Person, number: int) -> Tool:
    """Return a tool of a person's sites."""
    found = Tool.objects.filter(pk=number, site__in=sites(who)).first()
    if found is None:
        raise Http404
    return found


def file(of: Unit, digest: str) -> StoredFile:
    """Return a photo or document of a unit."""
    found = of.files.filter(digest=digest).first()
    if found is None:
        raise Http404
    return found


def colleague(who: Person, number: int) -> Person:
    """Return another active person of the same sites."""
    found = Person.objects.filter(pk=number, is_active=True, sites__in=sites(who)).distinct().first()
    if found is None:
        raise Http404
    return found


def act_id(text: str) -> uuid.UUID:
    """Return the id of an act as its maker wrote it."""
    try:
        return uuid.UUID(text)
    except ValueError:
        raise Http404 from None
