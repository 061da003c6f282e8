"""How a unit stands: every check with its newest reading, what went stale, what disagrees, what is to be put right."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

from django.utils import timezone

from sendoff.briefing.inspection import AFTER_LEAVING, PlannedCheck
from sendoff.catalogue.fields import State
from sendoff.web import stock
from sendoff.web.models import CheckStanding, PutRightItem, Unit

Standing = Literal["to_do", "in_order", "not_in_order", "skipped", "stale", "disagree", "again"]
DONE: frozenset[Standing] = frozenset({"in_order", "not_in_order", "skipped", "disagree"})


@dataclass(frozen=True, slots=True)
class CheckNow:
    """One check as it stands now."""

    check: PlannedCheck
    row: CheckStanding | None
    standing: Standing

    @property
    def done(self) -> bool:
        """Whether somebody has given an answer that still counts."""
        return self.standing in DONE


@dataclass(frozen=True)
class UnitNow:
    """A unit as it stands now."""

    unit: Unit
    checks: tuple[CheckNow, ...]
    """Of the yard's inspection, in walking order."""
    open_items: tuple[PutRightItem, ...]
    now: datetime.datetime

    @cached_property
    def done(self) -> int:
        """How many checks are done."""
        return sum(one.done for one in self.checks)

    @cached_property
    def next(self) -> CheckNow | None:
        """The next check in walking order."""
        return next((one for one in self.checks if not one.done), None)

    @cached_property
    def by_station(self) -> dict[int, tuple[int, int]]:
        """Done and all checks by station number."""
        done: Counter[int] = Counter()
        whole: Counter[int] = Counter()
        for one in self.checks:
            whole[one.check.station] += 1
            done[one.check.station] += one.done
        return {station: (done[station], whole[station]) for station in whole}

    @cached_property
    def states(self) -> tuple[State, ...]:
        """The states of its walk in their order."""
        return tuple(dict.fromkeys(one.check.state for one in self.checks))

    def of(self, state: State | None = None, station: int | None = None) -> Sequence[CheckNow]:
        """Return the checks of a state, of a station, or of both."""
        return [
            one
            for one in self.checks
            if (state is None or one.check.state == state)
            and (station is None or one.check.station == station)
        ]


def standing_of(check: PlannedCheck, row: CheckStanding | None, now: datetime.datetime) -> Standing:
    """Return how a check stands: a reading goes stale by its card's own time."""
    if row is None:
        return "to_do"
    if row.again:
        return "again"
    if row.against_id is not None:
        return "disagree"
    if row.outcome == "in_order" and check.stale_after_s is not None:
        age = (now - row.taken_at).total_seconds()
        if age > check.stale_after_s:
            return "stale"
    return row.outcome  # type: ignore[return-value]  # in_order, not_in_order or skipped: a constraint of the table


def unit_now(unit: Unit, now: datetime.datetime | None = None, *, bare: bool = False) -> UnitNow:
    """Return how a unit stands (two queries); bare: without who read what, where nobody looks at it."""
    now = now or timezone.now()
    standings = unit.standings.all()
    items = unit.put_right.exclude(status__in=("checked", "waived")).order_by("number")
    if not bare:
        standings = standings.select_related(
            *(f"{one}{of}" for one in ("reading", "against") for of in _OF_READING)
        )
        items = items.select_related("found_by", "put_right_by")
    rows = {(row.check_key, row.place): row for row in standings}
    asked = [check for check in stock.checks(unit) if check.state not in AFTER_LEAVING]
    found = []
    for check in asked:
        row = rows.get((check.key, check.place))
        found.append(CheckNow(check, row, standing_of(check, row, now)))
    return UnitNow(unit, tuple(found), tuple(items), now)


_OF_READING: Final = ("", "__by", "__tool", "__second")
