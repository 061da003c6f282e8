"""The upkeep plan: which day each upkeep is expected to fall due, from the use the owner expects.

A forecast is no promise: the meter decides. Its spread is shown beside it.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sendoff import units
from sendoff.asbuilt.sheet import Use
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import UpkeepLine
from sendoff.calc.upkeep.dates import months_after
from sendoff.calc.upkeep.forecast import UpkeepForecast, upkeep_forecast

SPREAD: Final = 0.3
"""By how much the use may be more or less than expected: a house rule, no source."""
WEEKS_A_MONTH: Final = 365.2425 / 12 / 7
TOO_OFTEN_DAYS: Final = 10
"""What falls due more often than this is done by its own rule (each trip, each load), not by a date."""
MONTHS_AHEAD: Final = 12
MOST_A_LINE: Final = 36


@dataclass(frozen=True, slots=True)
class Due:
    """One upkeep expected on one day."""

    line: UpkeepLine
    number: int
    """The how many-eth time since delivery, from 1."""
    due_on: datetime.date
    by: str
    """The meter expected to get there first: loads, trips, distance, hours or months."""
    earliest: datetime.date | None
    latest: datetime.date | None


def plan(unit: AsBuiltUnit, lines: tuple[UpkeepLine, ...]) -> tuple[Due, ...]:
    """Return what is expected to fall due in the year after the unit is collected, day by day."""
    found = [due for line in lines for due in _of_line(line, unit.owner.use, unit.collects.on)]
    return tuple(sorted(found, key=lambda due: (due.due_on, due.line.station, due.line.key)))


def undated(unit: AsBuiltUnit, lines: tuple[UpkeepLine, ...]) -> tuple[UpkeepLine, ...]:
    """Return the lines that go by their own rule: at the first miles, each trip, or so often that no date helps."""
    dated = {due.line.key for due in plan(unit, lines)}
    return tuple(line for line in lines if line.key not in dated)


def _of_line(line: UpkeepLine, use: Use, start: datetime.date) -> Iterator[Due]:
    end = months_after(start, MONTHS_AHEAD)
    done_on, number = start, 0
    while number < MOST_A_LINE:
        forecast = _next(line, use, done_on)
        if forecast is None or forecast.due_on is None or forecast.due_on > end:
            return
        if (forecast.due_on - done_on).days < TOO_OFTEN_DAYS:
            return
        number += 1
        yield Due(line, number, forecast.due_on, forecast.by, forecast.earliest, forecast.latest)
        done_on = forecast.due_on


def _next(line: UpkeepLine, use: Use, done_on: datetime.date) -> UpkeepForecast | None:
    """Return when a line falls due after it was done; None when none of its meters is known to run."""
    mile = units.to_si(1, "mi", "length")
    if line.months is None and not any((line.loads, line.trips, line.miles, line.hours)):
        return None
    return upkeep_forecast(
        done_on,
        done_on,
        every_months=line.months,
        loads_left=line.loads,
        loads_per_week_count=(use.loads or 0) / WEEKS_A_MONTH,
        trips_left=line.trips,
        trips_per_week_count=(use.trips or use.loads or 0) / WEEKS_A_MONTH,
        distance_left_m=line.miles * mile if line.miles is not None else None,
        distance_per_week_m=(use.miles or 0) * mile / WEEKS_A_MONTH,
        running_left_s=line.hours * 3600.0 if line.hours is not None else None,
        running_per_week_s=(use.hours or 0) * 3600.0 / WEEKS_A_MONTH,
        use_spread_ratio=SPREAD,
    )
