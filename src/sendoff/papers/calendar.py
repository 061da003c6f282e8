"""upkeep.ics: what falls due in the first year, with alarms, for any calendar program (RFC 5545)."""

from __future__ import annotations

import datetime
import hashlib
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
    for line in briefing.upkeep:
        if line.at_miles:
            made.add_component(_event(unit, briefing, line, "first", unit.collects.on, "", day))
    for due in plan(unit, briefing.upkeep):
        made.add_component(
            _event(
                unit, briefing, due.line, str(due.number), due.due_on, _spread(due, briefing.language), day
            )
        )
    return bytes(made.to_ical())


def _spread(due: Due, language: str) -> str:
    if due.earliest is None or due.latest is None or due.earliest == due.latest:
        return ""
    return say("calendar.spread", language, earliest=due.earliest.isoformat(), latest=due.latest.isoformat())


def _event(
    unit: AsBuiltUnit,
    briefing: Briefing,
    line: UpkeepLine,
    number: str,
    on: datetime.date,
    spread: str,
    day: datetime.date,
) -> Event:
    from icalendar import Alarm, Event

    language = briefing.language
    title = say("calendar.title", language, unit=unit.unit, part=line.part)
    told = [
        line.text,
        line.every,
        spread,
        say("calendar.station", language, n=line.station),
        say("answer.authority", language),
    ]
    event = Event()
    event.add("uid", f"{_identity(unit.public_id, line.key, number)}@sendoff.invalid")
    event.add("dtstamp", datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC))
    event.add("dtstart", on)
    event.add("dtend", on + datetime.timedelta(days=1))
    event.add("summary", title)
    event.add("description", "\n".join(text for text in told if text))
    event.add("transp", "TRANSPARENT")
    for before in ALARMS:
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", f"{title}: {line.text}")
        alarm.add("trigger", before)
        event.add_component(alarm)
    return event


def _identity(*parts: str) -> str:
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:32]
