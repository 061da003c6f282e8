"""The yard's list: all units in the order in which they leave, found by whatever a person types."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from django.db.models import Count, Q, QuerySet

from sendoff.web.models import Person, PutRightItem, Unit
from sendoff.web.queries import fetch

A_PAGE: Final = 25
When = Literal["late", "today", "week", "later", "no_date", "gone"]
SHOWN: Final = (
    "public_id", "number", "type", "vin", "owner", "silhouette", "silhouette_mm", "leaves_on", "left_at", "waits_for",
    "waits_told", "turn", "collects",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class YardPage:
    """One page of the yard's list."""

    units: Sequence[Unit]
    whole: int
    in_yard: int
    leave_today: int
    may_go_today: int
    page: int
    pages: int


def list_units(who: Person, typed: str, page: int, today: datetime.date, *, gone: bool = False) -> YardPage:
    """Return one page of the units of a person's sites (three queries)."""
    mine = fetch.units(who)
    counts = mine.aggregate(
        in_yard=Count("pk", filter=Q(left_at=None)),
        today=Count("pk", filter=Q(left_at=None, leaves_on=today)),
        may_go=Count("pk", filter=Q(left_at=None, leaves_on=today, waits_for="nothing")),
    )
    found = find(mine, typed) if typed else mine.filter(left_at__isnull=not gone)
    whole = found.count() if typed or gone else counts["in_yard"]
    pages = max(1, -(-whole // A_PAGE))
    page = min(max(page, 1), pages)
    order = ("-left_at", "number") if gone else ("leaves_on", "number")
    rows = found.only(*SHOWN).order_by(*order)[(page - 1) * A_PAGE : page * A_PAGE]
    return YardPage(list(rows), whole, counts["in_yard"], counts["today"], counts["may_go"], page, pages)


def find(among: QuerySet[Unit], typed: str) -> QuerySet[Unit]:
    """Return the units that everything typed is found in: number, VIN, public id, owner, part, serial, lot."""
    for word in typed.casefold().split()[:6]:
        among = among.filter(found_by__contains=word)
    return among


def leaves(unit: Unit, today: datetime.date) -> When:
    """Return under which heading of the list a unit stands."""
    if unit.left_at is not None:
        return "gone"
    if unit.leaves_on is None:
        return "no_date"
    ahead = (unit.leaves_on - today).days
    if ahead < 0:
        return "late"
    return "today" if ahead == 0 else "week" if ahead < 7 else "later"


def open_put_right(who: Person) -> Sequence[PutRightItem]:
    """Return all that is to be put right in a person's sites, safety items first."""
    return list(
        PutRightItem.objects.filter(unit__site__in=fetch.sites(who))
        .exclude(status__in=("checked", "waived"))
        .select_related("unit", "put_right_by")
        .defer("unit__as_built", "unit__found_by", "unit__silhouette")
        .order_by("-safety", "at")[:200]
    )
