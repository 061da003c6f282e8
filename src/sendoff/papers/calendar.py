"""upkeep.ics: what falls due in the first year, with alarms, for any calendar program (RFC 5545).

What falls due within days of one another is done in one round, on the day of its first: a phone that rings for each
grease fitting apart is soon silenced. A round is never later than the plan of the booklet says.
"""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, UpkeepLine
from sendoff.briefing.plan import plan
from sendoff.phrases import say

if TYPE_CHECKING:
    from icalendar import Event

ALARMS: Final = (datetime.timedelta(days=-3, hours=9), datetime.timedelta(hours=9))
"""Three days before and on the day, at nine in the morning where the phone is."""
PRODUCT: Final = "-//Sendoff//upkeep plan//EN"
ROUND_DAYS: Final = 6
"""What falls due up to this long after the first of a round is done with it: a house rule, no source."""


@dataclass(frozen=True, slots=True)
class Round:
    """What is done on one day."""

    id: str
    on: datetime.date
    lines: tuple[UpkeepLine, ...]


def calendar(unit: AsBuiltUnit, briefing: Briefing, day: datetime.date) -> bytes:
    """Return upkeep.ics: the same bytes for the same unit and day; entries keep their identity when made again."""
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    made.add("x-wr-calname", say("calendar.name", briefing.language, unit=unit.unit))
    for found in rounds(unit, briefing):
        made.add_component(_event(unit, briefing, found, day))
    return bytes(made.to_ical())


def rounds(unit: AsBuiltUnit, briefing: Briefing) -> Iterator[Round]:
    """Yield the rounds of the first year: the first miles on the day it is collected, then what the plan expects."""
    first = tuple(line for line in briefing.upkeep if line.at_miles)
    if first:
        yield Round("first miles", unit.collects.on, first)
    waiting = list(plan(unit, briefing.upkeep))
    number = 0
    while waiting:
        number += 1
        on = waiting[0].due_on
        last = on + datetime.timedelta(days=ROUND_DAYS)
        together = [due for due in waiting if due.due_on <= last]
        waiting = [due for due in waiting if due.due_on > last]
        lines = {
            due.line.key: due.line
            for due in sorted(together, key=lambda due: (due.line.station, due.line.key))
        }
        yield Round(f"round {number}", on, tuple(lines.values()))


def _event(unit: AsBuiltUnit, briefing: Briefing, found: Round, day: datetime.date) -> Event:
    from icalendar import Alarm, Event

    language = briefing.language
    title = say("calendar.title", language, unit=unit.unit, count=len(found.lines))
    tasks = [
        say("calendar.task", language, n=line.station, part=line.part, text=line.text, every=line.every)
        for line in found.lines
    ]
    event = Event()
    event.add("uid", f"{_identity(unit.public_id, found.id)}@sendoff.invalid")
    event.add("dtstamp", datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC))
    event.add("dtstart", found.on)
    event.add("dtend", found.on + datetime.timedelta(days=1))
    event.add("summary", title)
    event.add(
        "description",
        "\n".join([say("calendar.lead", language), *tasks, say("answer.authority", language)]),
    )
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
