"""upkeep.ics: what falls due in the first year, with alarms, for any calendar program (RFC 5545)."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, UpkeepLine
from sendoff.briefing.plan import Due, plan
from sendoff.phrases import say

if TYPE_CHECKING:
    from icalendar import Event

ALARMS: Final = (datetime.timedelta(days=-3, hours=9), datetime.timedelta(hours=9))
"""Three days before and on the day, at nine in the morning where the phone is."""
PRODUCT: Final = "-//Sendoff//upkeep plan//EN"


def calendar(unit: AsBuiltUnit, briefing: Briefing, day: datetime.date) -> bytes:
    """Return upkeep.ics: the same bytes for the same unit and day; entries keep their identity when made again."""
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    made.add("x-wr-calname", say("calendar.name", briefing.language, unit=unit.unit))
    first = [line for line in briefing.upkeep if line.at_miles]
    if first:
        title = say("calendar.first_miles", briefing.language, unit=unit.unit)
        told = [_line(line, briefing.language) for line in first]
        made.add_component(_event(unit, briefing, "first", title, told, unit.collects.on, day))
    for week, due in by_week(plan(unit, briefing.upkeep)).items():
        title = say("calendar.title", briefing.language, unit=unit.unit, n=len(due))
        told = [_line(one.line, briefing.language) + _spread(one, briefing.language) for one in due]
        made.add_component(_event(unit, briefing, week, title, told, due[0].due_on, day))
    return bytes(made.to_ical())


def by_week(due: Sequence[Due]) -> dict[str, list[Due]]:
    """Return what falls due week by week, so that a week has one entry and not ten."""
    weeks: dict[str, list[Due]] = {}
    for one in due:
        year, week, _ = one.due_on.isocalendar()
        weeks.setdefault(f"{year}-W{week:02d}", []).append(one)
    return weeks


def _line(line: UpkeepLine, language: str) -> str:
    return say("calendar.line", language, n=line.station, part=line.part, text=line.text, every=line.every)


def _spread(due: Due, language: str) -> str:
    if due.earliest is None or due.latest is None or due.earliest == due.latest:
        return ""
    told = say("calendar.spread", language, earliest=due.earliest.isoformat(), latest=due.latest.isoformat())
    return f" {told}"


def _event(
    unit: AsBuiltUnit,
    briefing: Briefing,
    name: str,
    title: str,
    told: Sequence[str],
    on: datetime.date,
    day: datetime.date,
) -> Event:
    from icalendar import Alarm, Event

    event = Event()
    event.add("uid", f"{_identity(unit.public_id, name)}@sendoff.invalid")
    event.add("dtstamp", datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC))
    event.add("dtstart", on)
    event.add("dtend", on + datetime.timedelta(days=1))
    event.add("summary", title)
    event.add("description", "\n".join([*told, "", say("answer.authority", briefing.language)]))
    event.add("transp", "TRANSPARENT")
    for before in ALARMS:
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", title)
        alarm.add("trigger", before)
        event.add_component(alarm)
    return event


def _identity(*parts: str) -> str:
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:32]
