"""What is due now: by which meter, and what is left on each."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from sendoff import tables
from sendoff.calc._limits import not_negative, positive, reaches
from sendoff.calc.contract import calculation
from sendoff.calc.upkeep.dates import months_after, require_day, require_months
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@dataclass(frozen=True, slots=True)
class UpkeepDue:
    """How far an upkeep has come on each of its meters; the furthest one decides."""

    due: bool
    by: str
    """The meter that is furthest along: loads, trips, distance, hours or months."""
    used_ratio: float
    """How far that meter has come; 1 is due."""
    loads_left: int | None
    trips_left: int | None
    distance_left_m: float | None
    running_left_s: float | None
    due_on: dt.date | None
    """The day the months run out."""
    days_left: int | None


@dataclass(frozen=True, slots=True)
class StopsOwed:
    """Which of the first stops after a wheel was off are still owed."""

    owed_count: int
    """Stops whose distance is already driven and that were not done."""
    next_stop_m: float | None
    """Distance, from the wheel being off, of the first stop not done; none when all are."""
    distance_to_next_m: float | None
    """How far to drive to it; zero when it is owed."""


@calculation(
    "upkeep",
    "used = max(since / every) over all meters; due if used >= 1",
    symbols={"used_ratio": "used"},
)
def upkeep_due(
    done_on: dt.date,
    today: dt.date,
    every_months: int | None = None,
    every_loads: int | None = None,
    loads_since: int = 0,
    every_trips: int | None = None,
    trips_since: int = 0,
    every_distance_m: float | None = None,
    distance_since_m: float = 0.0,
    every_running_s: float | None = None,
    running_since_s: float = 0.0,
) -> UpkeepDue:
    """Whether an upkeep is due by any of its meters, whichever comes first, and what is left on each.

    Each meter's use since it was last done against its interval; for months, the days since against the days from
    then to the day they run out. Due when the furthest has come to its end.

    Parameters
    ----------
    done_on : date
        The day it was last done.
    today : date
        The day asked about.
    every_months : int, optional
        Months between; none if months do not count [-].
    every_loads : int, optional
        Loads between [-].
    loads_since : int
        Loads carried since it was done [-].
    every_trips : int, optional
        Trips between [-].
    trips_since : int
        Trips made since [-].
    every_distance_m : float, optional
        Distance between [m].
    distance_since_m : float
        Distance driven since [m].
    every_running_s : float, optional
        Running time between [s].
    running_since_s : float
        Running time since [s].

    Returns
    -------
    UpkeepDue
        Due or not, the meter furthest along and how far, and what is left on each meter.

    Raises
    ------
    OutOfRange
        If no interval is given, one is not above zero, a use is below zero, or it was done after today.

    Notes
    -----
    Due on the day itself, and at the very load or mile. Meters not asked about are none.

    Examples
    --------
    Hubs packed every 12 months or 12,000 miles, as a service text has it: 9,000 miles after six months come first.

    >>> mile = 1609.344
    >>> done = upkeep_due(dt.date(2026, 1, 1), dt.date(2026, 7, 1), every_months=12,
    ...                   every_distance_m=12000 * mile, distance_since_m=9000 * mile)
    >>> done.due, done.by, done.used_ratio, str(done.due_on)
    (False, 'distance', 0.75, '2027-01-01')

    References
    ----------
    .. [1] hub_service_text, 12 months or 12,000 miles
    .. [2] house_rule, whichever comes first
    """
    require_day(done_on=done_on, today=today)
    if done_on > today:
        raise OutOfRange("done_on", done_on.isoformat(), f"must not lie after {today.isoformat()}")
    used: dict[str, float] = {}
    loads_left = _counted("loads", every_loads, loads_since, used)
    trips_left = _counted("trips", every_trips, trips_since, used)
    distance_left = _measured("distance", "m", every_distance_m, distance_since_m, used)
    running_left = _measured("running", "s", every_running_s, running_since_s, used)
    due_on = None
    if every_months is not None:
        require_months(every_months=every_months)
        due_on = months_after(done_on, every_months)
        used["months"] = (today - done_on).days / (due_on - done_on).days
    if not used:
        raise OutOfRange("every_months", "none", "must be given, or another interval: none is known")
    by = max(used, key=lambda meter: used[meter])
    days_left = None if due_on is None else (due_on - today).days
    return UpkeepDue(
        any(reaches(share, 1.0) for share in used.values()),
        by if by != "running" else "hours",
        used[by],
        loads_left,
        trips_left,
        distance_left,
        running_left,
        due_on,
        days_left,
    )


def _counted(meter: str, every: int | None, since: int, used: dict[str, float]) -> int | None:
    if since < 0 or since > 10**9:
        raise OutOfRange(f"{meter}_since", since, "must lie from 0 to a thousand million")
    if every is None:
        return None
    if not 1 <= every <= 10**9:
        raise OutOfRange(f"every_{meter}", every, "must lie from 1 to a thousand million")
    used[meter] = since / every
    return every - since


def _measured(
    meter: str, suffix: str, every: float | None, since: float, used: dict[str, float]
) -> float | None:
    not_negative(**{f"{meter}_since_{suffix}": since})
    if every is None:
        return None
    positive(**{f"every_{meter}_{suffix}": every})
    used[meter] = since / every
    return every - since


@calculation(
    "upkeep",
    "owed = stops with distance <= driven that were not done",
    symbols={"driven_m": "driven", "owed_count": "owed"},
    tables={"table": "wheel_stops"},
)
def wheel_stops_owed(driven_m: float, stops_done: int = 0, table: Table | None = None) -> StopsOwed:
    """Which checks of the wheel nuts are owed after a wheel was off, and how far the next one is.

    At 10, 25 and 50 miles, in this order. The count starts again whenever a wheel has been off, and what is owed
    passes to whoever drives on.

    Parameters
    ----------
    driven_m : float
        Distance since the wheel was put on [m].
    stops_done : int
        Checks made since, with a wrench and a reading [-].
    table : Table, optional
        Distances of the checks.

    Returns
    -------
    StopsOwed
        How many are owed, the next one's distance, and how far to it.

    Raises
    ------
    OutOfRange
        If the distance is below zero, or more checks are done than there are.

    Notes
    -----
    Trade habit for light trailers; a heavy truck maker's manual has 50 to 100 miles and then every 10,000. The wheel
    or axle maker governs; the earlier is taken.

    Examples
    --------
    After 30 miles with one check made, the one at 25 is owed.

    >>> owed = wheel_stops_owed(30 * 1609.344, 1)
    >>> owed.owed_count, round(owed.next_stop_m / 1609.344), owed.distance_to_next_m
    (1, 25, 0.0)

    References
    ----------
    .. [1] common_practice, 10, 25 and 50 miles
    .. [2] wheel_service_manual, 50 to 100 miles, then 10,000
    """
    not_negative(driven_m=driven_m)
    stops = sorted(float(stop) for stop in (table or tables.load("wheel_stops")).column("distance_m"))
    if not 0 <= stops_done <= len(stops):
        raise OutOfRange("stops_done", stops_done, f"must lie from 0 to {len(stops)}")
    left = stops[stops_done:]
    owed = sum(reaches(driven_m, stop) for stop in left)
    if not left:
        return StopsOwed(0, None, None)
    return StopsOwed(owed, left[0], max(0.0, math.fsum((left[0], -driven_m))))
