"""Days: months added, repeating dates, inspections that run out."""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import Final

from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

LONGEST_MONTHS: Final = 1200
"""A hundred years: no upkeep is planned further."""
LAST_YEAR: Final = 9000


@dataclass(frozen=True, slots=True)
class Dates:
    """Days on which something falls due, in order."""

    day: tuple[dt.date, ...]


@dataclass(frozen=True, slots=True)
class InspectionDue:
    """Until when a periodic inspection counts."""

    last_day: dt.date
    """The last day on which it lies within the twelve months before."""
    last_day_if_state: dt.date
    """For an inspection a State made: twelve months from the end of its month."""
    valid: bool
    """By the stricter of both."""
    days_left: int
    """To the stricter last day; below zero when past."""


def require_day(**days: dt.date) -> None:
    """Refuse a day so far off that months added to it leave the calendar."""
    for name, day in days.items():
        if day.year > LAST_YEAR:
            raise OutOfRange(name, day.isoformat(), f"must lie before the year {LAST_YEAR}")


def require_months(**months: int) -> None:
    """Refuse a number of months that is not from 1 to a hundred years."""
    for name, count in months.items():
        if not 1 <= count <= LONGEST_MONTHS:
            raise OutOfRange(name, count, f"must lie from 1 to {LONGEST_MONTHS}")


@calculation("upkeep", "same day of the month, n months on; the last day where the month is shorter", gives="day",
             symbols={"months": "n"})  # fmt: skip
def months_after(start: dt.date, months: int) -> dt.date:
    """Day a number of months after another.

    The same day of the month; where that month is shorter, its last day. Nothing is ever skipped.

    Parameters
    ----------
    start : date
        The day counted from.
    months : int
        How many months on [-].

    Returns
    -------
    date
        The day [-].

    Raises
    ------
    OutOfRange
        If the months are not from 1 to 1,200.

    Notes
    -----
    A calendar program asked for "monthly on the 31st" skips short months (RFC 5545); an upkeep must not.

    Examples
    --------
    As a public example of a date library has it: 31 January 2005 and one month is 28 February.

    >>> print(months_after(dt.date(2005, 1, 31), 1))
    2005-02-28

    References
    ----------
    .. [1] dateutil_docs, relative dates held within the month
    .. [2] rfc5545, 3.3.10, what is not done here
    """
    require_day(start=start)
    require_months(months=months)
    total = start.year * 12 + start.month - 1 + months
    year, month = divmod(total, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(start.day, last))


@calculation(
    "upkeep", "day k = start + k · n months, each counted from the start", symbols={"every_months": "n"}
)
def upkeep_dates(start: dt.date, every_months: int, times: int) -> Dates:
    """Days on which something due every so many months falls due.

    Each day is counted from the start, so that a short month does not move those after it.

    Parameters
    ----------
    start : date
        The day it was last done.
    every_months : int
        Months between [-].
    times : int
        How many days to list [-].

    Returns
    -------
    Dates
        The days, the first one interval after the start.

    Raises
    ------
    OutOfRange
        If months or times are not from 1 to 1,200 together.

    Notes
    -----
    Up to a hundred years.

    Examples
    --------
    From the last of January every month: the 31st comes back after February.

    >>> [day.isoformat() for day in upkeep_dates(dt.date(2026, 1, 31), 1, 3).day]
    ['2026-02-28', '2026-03-31', '2026-04-30']

    References
    ----------
    .. [1] dateutil_docs, relative dates held within the month
    """
    require_months(every_months=every_months, times=times)
    if every_months * times > LONGEST_MONTHS:
        raise OutOfRange("times", times, f"must not reach beyond {LONGEST_MONTHS} months")
    return Dates(tuple(months_after(start, every_months * number) for number in range(1, times + 1)))


@calculation("upkeep", "within the preceding 12 months; a State's own: 12 months from the end of its month")
def periodic_inspection_due(inspected_on: dt.date, today: dt.date) -> InspectionDue:
    """How long the periodic inspection of a commercial vehicle or trailer still counts.

    It must have been passed within the preceding twelve months; one made by a State counts twelve months from the
    last day of its month. The stricter of both is the verdict here.

    Parameters
    ----------
    inspected_on : date
        The day it was passed.
    today : date
        The day asked about.

    Returns
    -------
    InspectionDue
        The last day it counts, the day for a State's own inspection, whether it counts today, days left [-].

    Raises
    ------
    OutOfRange
        If the inspection lies after today.

    Notes
    -----
    Each vehicle of a commercial combination needs its own, the trailer too, with proof aboard. For private use ask
    locally.

    Examples
    --------
    By the rule, for an inspection passed on 5 March 2025.

    >>> due = periodic_inspection_due(dt.date(2025, 3, 5), dt.date(2026, 3, 6))
    >>> print(due.last_day, due.last_day_if_state, due.valid)
    2026-03-05 2026-03-31 False

    References
    ----------
    .. [1] 49cfr396, 396.17(a),(c),(f)
    """
    require_day(inspected_on=inspected_on, today=today)
    if inspected_on > today:
        raise OutOfRange("inspected_on", inspected_on.isoformat(), f"must not lie after {today.isoformat()}")
    last = months_after(inspected_on, 12)
    end_of_month = inspected_on.replace(day=calendar.monthrange(inspected_on.year, inspected_on.month)[1])
    by_state = months_after(end_of_month, 12)
    by_state = by_state.replace(day=calendar.monthrange(by_state.year, by_state.month)[1])
    return InspectionDue(last, by_state, today <= last, (last - today).days)
