"""When an upkeep will fall due: from expected use, with its spread."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import not_negative
from sendoff.calc.contract import calculation, refused_as, require_between, require_finite
from sendoff.calc.upkeep.dates import months_after, require_day, require_months
from sendoff.errors import OutOfRange

HORIZON_DAYS: Final = 36_525
"""A hundred years: a meter that would take longer never comes."""

_HAIR: Final = 1e-9


@dataclass(frozen=True, slots=True)
class UpkeepForecast:
    """When an upkeep is expected, at the earliest and at the latest."""

    due_on: dt.date | None
    """None if no meter ever gets there at this use."""
    by: str
    earliest: dt.date | None
    latest: dt.date | None


@dataclass(frozen=True, slots=True)
class MeterForecast:
    """When one meter gets to its end."""

    due_on: dt.date | None
    earliest: dt.date | None
    latest: dt.date | None


def _day(today: dt.date, left: float, per_day: float) -> dt.date | None:
    """The one rounding of days: the day in which the meter gets there; today if it has; none if it never does."""
    if left <= 0:
        return today
    if per_day <= 0 or left / per_day > HORIZON_DAYS:
        return None
    days = left / per_day
    return today + dt.timedelta(days=math.floor(days + _HAIR * max(1.0, days)))


@calculation(
    "upkeep",
    "due = today + floor(left / u) days; earliest with u (1 + s), latest with u (1 - s)",
    symbols={"left_count": "left", "use_per_week_count": "7 u", "use_spread_ratio": "s"},
)
def meter_forecast(
    today: dt.date, left_count: float, use_per_week_count: float, use_spread_ratio: float = 0.0
) -> MeterForecast:
    """Day a meter will get to its end at an expected use.

    What is left divided by the use a day, parts of a day dropped; the earliest and latest day come from more and
    less use.

    Parameters
    ----------
    today : date
        The day asked.
    left_count : float
        What is left on the meter, in its own unit: loads, trips, miles or hours [-].
    use_per_week_count : float
        Expected use a week, in the same unit [-].
    use_spread_ratio : float
        By how much the use may be more or less, as a share of it [-].

    Returns
    -------
    MeterForecast
        The day expected, the earliest and the latest; none where it never comes.

    Raises
    ------
    OutOfRange
        If the use is below zero or the spread not from 0 to 1.

    Notes
    -----
    Never later than the meter itself: a part of a day is not waited for. Days more than a hundred years off are none.

    Examples
    --------
    Written out: 100 miles left at 70 a week is 10 days; with a fifth more or less use 8 or 12.

    >>> done = meter_forecast(dt.date(2026, 5, 1), 100.0, 70.0, 0.2)
    >>> print(done.due_on, done.earliest, done.latest)
    2026-05-11 2026-05-09 2026-05-13

    References
    ----------
    .. [1] house_rule, day rounding
    """
    require_day(today=today)
    require_finite(left_count=left_count)
    not_negative(use_per_week_count=use_per_week_count)
    require_between(0.0, 1.0, use_spread_ratio=use_spread_ratio)
    per_day = use_per_week_count / 7.0
    return MeterForecast(
        _day(today, left_count, per_day),
        _day(today, left_count, per_day * (1.0 + use_spread_ratio)),
        _day(today, left_count, per_day * (1.0 - use_spread_ratio)),
    )


@calculation(
    "upkeep",
    "due = first over all meters of today + floor(left / u) days, and of the day the months run out",
    symbols={"use_spread_ratio": "s"},
)
def upkeep_forecast(
    done_on: dt.date,
    today: dt.date,
    every_months: int | None = None,
    loads_left: int | None = None,
    loads_per_week_count: float = 0.0,
    trips_left: int | None = None,
    trips_per_week_count: float = 0.0,
    distance_left_m: float | None = None,
    distance_per_week_m: float = 0.0,
    running_left_s: float | None = None,
    running_per_week_s: float = 0.0,
    use_spread_ratio: float = 0.0,
) -> UpkeepForecast:
    """Day an upkeep will fall due by the first of its meters, from expected use, with the earliest and latest.

    Every meter's own day, and the day the months run out, which no use moves; the first of them. The spread of the
    use gives the earliest and the latest.

    Parameters
    ----------
    done_on : date
        The day it was last done.
    today : date
        The day asked.
    every_months : int, optional
        Months between; none if months do not count [-].
    loads_left : int, optional
        Loads still to go [-].
    loads_per_week_count : float
        Loads expected a week [-].
    trips_left : int, optional
        Trips still to go [-].
    trips_per_week_count : float
        Trips expected a week [-].
    distance_left_m : float, optional
        Distance still to go [m].
    distance_per_week_m : float
        Distance expected a week [m].
    running_left_s : float, optional
        Running time still to go [s].
    running_per_week_s : float
        Running time expected a week [s].
    use_spread_ratio : float
        By how much the use may be more or less, as a share of it [-].

    Returns
    -------
    UpkeepForecast
        The day expected and the meter that sets it, the earliest and the latest; none where it never comes.

    Raises
    ------
    OutOfRange
        If no meter is given, a use is below zero, the spread not from 0 to 1, or it was done after today.

    Notes
    -----
    What has already run out is due today. A forecast is no promise: the meter decides.

    Examples
    --------
    12 months or 12,000 miles from 1 January, 3,000 miles left on 1 July at 500 a week: 42 days.

    >>> mile = 1609.344
    >>> done = upkeep_forecast(dt.date(2026, 1, 1), dt.date(2026, 7, 1), every_months=12,
    ...                        distance_left_m=3000 * mile, distance_per_week_m=500 * mile, use_spread_ratio=0.5)
    >>> print(done.due_on, done.by, done.earliest, done.latest)
    2026-08-12 distance 2026-07-29 2026-09-23

    References
    ----------
    .. [1] house_rule, day rounding and whichever comes first
    .. [2] hub_service_text, 12 months or 12,000 miles
    """
    require_day(done_on=done_on, today=today)
    if done_on > today:
        raise OutOfRange("done_on", done_on.isoformat(), f"must not lie after {today.isoformat()}")
    not_negative(
        loads_per_week_count=loads_per_week_count,
        trips_per_week_count=trips_per_week_count,
        distance_per_week_m=distance_per_week_m,
        running_per_week_s=running_per_week_s,
    )
    require_between(0.0, 1.0, use_spread_ratio=use_spread_ratio)
    meters = {
        "loads": (loads_left, loads_per_week_count),
        "trips": (trips_left, trips_per_week_count),
        "distance": (distance_left_m, distance_per_week_m),
        "hours": (running_left_s, running_per_week_s),
    }
    found: dict[str, MeterForecast] = {}
    for meter, (left, use) in meters.items():
        if left is not None:
            with refused_as(left_count=_LEFT[meter], use_per_week_count=_USE[meter]):
                found[meter] = meter_forecast(today, float(left), use, use_spread_ratio)
    if every_months is not None:
        require_months(every_months=every_months)
        day = max(months_after(done_on, every_months), today)
        found["months"] = MeterForecast(day, day, day)
    if not found:
        raise OutOfRange(
            "every_months", "none", "must be given, or what is left on another meter: none is known"
        )
    expected = {meter: one.due_on for meter, one in found.items() if one.due_on is not None}
    by = min(expected, key=lambda meter: expected[meter]) if expected else "never"
    return UpkeepForecast(
        expected.get(by),
        by,
        _first(one.earliest for one in found.values()),
        _first(one.latest for one in found.values()),
    )


_LEFT: Final = {
    "loads": "loads_left",
    "trips": "trips_left",
    "distance": "distance_left_m",
    "hours": "running_left_s",
}
_USE: Final = {
    "loads": "loads_per_week_count",
    "trips": "trips_per_week_count",
    "distance": "distance_per_week_m",
    "hours": "running_per_week_s",
}


def _first(days: Iterable[dt.date | None]) -> dt.date | None:
    known = [day for day in days if day is not None]
    return min(known) if known else None


@calculation(
    "upkeep",
    "u = 7 · (last reading - first reading) / days between",
    gives="use_per_week_count",
    symbols={"first_count": "first reading", "last_count": "last reading", "use_per_week_count": "u"},
)
def use_per_week(first_day: dt.date, first_count: float, last_day: dt.date, last_count: float) -> float:
    """Use a week that two readings of a meter tell.

    The difference of the readings over the days between them, times seven.

    Parameters
    ----------
    first_day : date
        Day of the first reading.
    first_count : float
        First reading, in the meter's own unit [-].
    last_day : date
        Day of the last reading.
    last_count : float
        Last reading, in the same unit [-].

    Returns
    -------
    float
        Use a week, in the meter's unit [-].

    Raises
    ------
    OutOfRange
        If the days are less than a week apart, or the meter ran backwards.

    Notes
    -----
    From a week to ten years apart. A season of rest is part of the use if it lies between the readings.

    Examples
    --------
    Written out: 1,200 miles in 28 days are 300 a week.

    >>> use_per_week(dt.date(2026, 5, 1), 4000.0, dt.date(2026, 5, 29), 5200.0)
    300.0

    References
    ----------
    .. [1] house_rule, use from readings
    """
    require_finite(first_count=first_count, last_count=last_count)
    days = (last_day - first_day).days
    if not 7 <= days <= 3653:
        raise OutOfRange("last_day", last_day.isoformat(), "must lie a week to ten years after first_day")
    if last_count < first_count:
        raise OutOfRange(
            "last_count", last_count, "must not be below first_count: the meter ran backwards or was changed"
        )
    difference = last_count - first_count
    not_negative(last_count=difference)
    return 7.0 * difference / days
