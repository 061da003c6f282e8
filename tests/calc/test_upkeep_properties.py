"""What must hold of upkeep whatever the use."""

from __future__ import annotations

import contextlib
import datetime as dt
import math

from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc.upkeep import dates, due, forecast
from sendoff.errors import OutOfRange

days = st.dates(dt.date(1990, 1, 1), dt.date(2150, 1, 1))
counts = st.integers(1, 100_000)
uses = st.floats(0, 10_000)
spreads = st.floats(0, 1)
anything = st.floats(allow_nan=True, allow_infinity=True)


@given(days, st.integers(1, 600), st.integers(1, 600))
def test_more_months_never_come_sooner(start: dt.date, one: int, other: int) -> None:
    low, high = sorted((one, other))
    assert dates.months_after(start, low) <= dates.months_after(start, high)
    assert 28 * low <= (dates.months_after(start, low) - start).days <= 31 * low


@given(days, st.integers(1, 24), st.integers(1, 40))
def test_repeating_days_keep_their_day_of_the_month(start: dt.date, every: int, times: int) -> None:
    found = dates.upkeep_dates(start, every, times).day
    assert len(found) == times
    assert list(found) == sorted(set(found))
    for day in found:
        assert day.day == start.day or (day + dt.timedelta(days=1)).day == 1
        assert day.day <= start.day


@given(days, st.integers(0, 5000), counts, counts, st.integers(1, 120))
def test_more_use_never_makes_an_upkeep_less_due(
    day: dt.date, ago: int, every: int, used: int, months: int
) -> None:
    done_on = day - dt.timedelta(days=ago)
    less = due.upkeep_due(done_on, day, every_months=months, every_loads=every, loads_since=used - 1)
    more = due.upkeep_due(done_on, day, every_months=months, every_loads=every, loads_since=used)
    later = due.upkeep_due(done_on, day + dt.timedelta(days=30), months, every, used)
    assert more.used_ratio >= less.used_ratio
    assert later.used_ratio >= more.used_ratio
    assert more.due or not less.due
    assert later.due or not more.due
    assert more.due == (more.used_ratio >= 1)
    assert more.loads_left == every - used


@given(days, st.floats(0.001, 1e6), uses, spreads)
def test_the_forecast_lies_between_its_earliest_and_latest(
    day: dt.date, left: float, use: float, spread: float
) -> None:
    done = forecast.meter_forecast(day, left, use, spread)
    far = dt.date.max
    assert (done.earliest or far) <= (done.due_on or far) <= (done.latest or far)
    if done.due_on is not None:
        driven = (done.due_on - day).days * use / 7
        assert driven <= left * (1 + 1e-6), "never later than the meter"
        assert driven + use / 7 >= left * (1 - 1e-6), "and not a day too early"


@given(days, st.integers(0, 1000), st.integers(1, 60), counts, uses, spreads)
def test_a_meter_more_never_puts_an_upkeep_off(
    day: dt.date, ago: int, months: int, loads: int, use: float, spread: float
) -> None:
    done_on = day - dt.timedelta(days=ago)
    alone = forecast.upkeep_forecast(done_on, day, every_months=months)
    both = forecast.upkeep_forecast(
        done_on, day, every_months=months, loads_left=loads, loads_per_week_count=use, use_spread_ratio=spread
    )
    assert alone.due_on is not None
    assert both.due_on is not None
    assert both.due_on <= alone.due_on
    assert both.due_on >= day


@given(days, anything, anything, anything)
def test_no_number_however_odd_gives_no_number(day: dt.date, one: float, two: float, three: float) -> None:
    with contextlib.suppress(OutOfRange):
        forecast.meter_forecast(day, one, two, three)
    with contextlib.suppress(OutOfRange):
        assert math.isfinite(forecast.use_per_week(day, one, day + dt.timedelta(days=10), two))
    with contextlib.suppress(OutOfRange):
        found = due.upkeep_due(day, day, every_distance_m=one, distance_since_m=two)
        assert math.isfinite(found.used_ratio)
    with contextlib.suppress(OutOfRange):
        due.wheel_stops_owed(three)
