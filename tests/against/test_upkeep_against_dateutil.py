"""Months added and repeating days against python-dateutil."""

from __future__ import annotations

import datetime as dt

from dateutil.relativedelta import relativedelta  # type: ignore[import-untyped]
from dateutil.rrule import MONTHLY, rrule  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc.upkeep import dates

days = st.dates(dt.date(1990, 1, 1), dt.date(2150, 1, 1))


@given(days, st.integers(1, 1200))
def test_months_after_is_what_relativedelta_adds(start: dt.date, months: int) -> None:
    assert dates.months_after(start, months) == start + relativedelta(months=months)


@given(days, st.integers(1, 24), st.integers(1, 30))
def test_repeating_days_are_a_rule_that_falls_back_to_the_last_day(
    start: dt.date, every: int, times: int
) -> None:
    """The last of the days 28 to d that each month has: how RFC 5545 says "the 31st, or the last day"."""
    allowed = tuple(range(28, start.day + 1)) if start.day > 28 else (start.day,)
    begin = dt.datetime.combine(start, dt.time())
    rule = rrule(MONTHLY, interval=every, dtstart=begin, count=times + 1, bymonthday=allowed, bysetpos=-1)
    assert dates.upkeep_dates(start, every, times).day == tuple(day.date() for day in rule)[1:]


def test_the_plain_rule_of_the_calendar_would_skip_short_months() -> None:
    """RFC 5545, 3.3.10: why upkeep days are listed one by one in the calendar file."""
    begin = dt.datetime.combine(dt.date(2026, 1, 31), dt.time())
    plain = [day.date().isoformat() for day in rrule(MONTHLY, dtstart=begin, count=5)]
    assert plain == ["2026-01-31", "2026-03-31", "2026-05-31", "2026-07-31", "2026-08-31"]
    assert dates.upkeep_dates(begin.date(), 1, 1).day == (dt.date(2026, 2, 28),)
