"""upkeep.ics, read back by the icalendar library and held against RFC 5545 and the plan of the booklet."""

from __future__ import annotations

import datetime
import itertools
from typing import Any

import icalendar
import pytest

from sendoff.briefing.plan import plan
from sendoff.papers.calendar import ROUND_DAYS, calendar, rounds
from tests.papers.conftest import DAY, MakePack, Pack


def events(pack: Pack) -> list[Any]:
    return list(icalendar.Calendar.from_ical(pack.path("upkeep.ics").read_bytes()).walk("VEVENT"))


def test_it_parses_and_every_entry_rings_before_and_on_its_day(pack: Pack) -> None:
    found = events(pack)
    assert found
    for event in found:
        alarms = event.walk("VALARM")
        # RFC 5545, 3.8.6.3: a trigger relative to the start, which for a whole day is its midnight
        assert [alarm["TRIGGER"].dt for alarm in alarms] == [
            datetime.timedelta(days=-3, hours=9),
            datetime.timedelta(hours=9),
        ]
        assert all(alarm["ACTION"] == "DISPLAY" and alarm["DESCRIPTION"] for alarm in alarms)
        assert event["DTEND"].dt - event["DTSTART"].dt == datetime.timedelta(days=1)


def test_lines_end_as_the_standard_asks_and_are_never_longer_than_75_octets(pack: Pack) -> None:
    data = pack.path("upkeep.ics").read_bytes()  # RFC 5545, 3.1
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(len(line) for line in data.split(b"\r\n")) <= 75
    data.decode("utf-8")


def test_everything_due_in_the_first_year_is_on_the_list_and_never_too_late(pack: Pack) -> None:
    found = {
        event["DTSTART"].dt: str(event["DESCRIPTION"]) for event in events(pack) if "DESCRIPTION" in event
    }
    for due in plan(pack.unit, pack.briefing.upkeep):
        days = [
            on
            for on, told in found.items()
            if due.line.text in told and due.due_on - datetime.timedelta(days=ROUND_DAYS) <= on <= due.due_on
        ]
        assert days, (due.line.key, due.due_on)


def test_what_is_due_at_the_first_miles_rings_on_the_day_it_is_collected(pack: Pack) -> None:
    first = [line for line in pack.briefing.upkeep if line.at_miles]
    entry = next(event for event in events(pack) if event["DTSTART"].dt == pack.unit.collects.on)
    for line in first:
        assert line.text in str(entry["DESCRIPTION"])
        assert line.every in str(entry["DESCRIPTION"])


def test_a_week_has_one_entry_at_most(pack: Pack) -> None:
    days = [found.on for found in rounds(pack.unit, pack.briefing) if found.id != "first miles"]
    for one, other in itertools.pairwise(days):
        assert (other - one).days > ROUND_DAYS


def test_entries_keep_their_identity_when_the_pack_is_made_again_on_a_later_day(pack: Pack) -> None:
    later = icalendar.Calendar.from_ical(
        calendar(pack.unit, pack.briefing, DAY + datetime.timedelta(days=40))
    )
    assert [str(event["UID"]) for event in later.walk("VEVENT")] == [
        str(event["UID"]) for event in events(pack)
    ]


def test_no_two_entries_of_any_units_share_an_identity(made: MakePack) -> None:
    found = [
        str(event["UID"])
        for name, language in (("qb-0107", "en"), ("qb-0111", "es"), ("qb-0207", "en"))
        for event in events(made(name, language))
    ]
    assert len(found) == len(set(found))


@pytest.mark.parametrize("secret", ["name", "telephone"])
def test_nothing_about_the_owner_is_in_the_calendar(pack: Pack, secret: str) -> None:
    said = pack.path("upkeep.ics").read_text(encoding="utf-8").replace("\r\n ", "")
    value = getattr(pack.unit.owner, secret)
    assert value is None or str(value) not in said
