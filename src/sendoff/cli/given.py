"""What commands are given in the same way: a day, a place."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Final

from sendoff.errors import Fault, FaultyInput

HERE: Final = Path("file.toml")
"""Any file in the current folder: its catalogue is the one beside it."""
EARLIEST_YEAR: Final = 2000
LATEST_YEAR: Final = 2099


def read_day(text: str | None) -> datetime.date:
    """Return the day given, or today."""
    if text is None:
        return datetime.datetime.now(tz=datetime.UTC).date()
    try:
        day = datetime.date.fromisoformat(text)
    except ValueError:
        raise FaultyInput(
            Fault("--date", "", text, "that is no day of the calendar", "Write it as 2026-11-25.")
        ) from None
    if not EARLIEST_YEAR <= day.year <= LATEST_YEAR:
        cure = f"Write a day from {EARLIEST_YEAR} to {LATEST_YEAR}."
        raise FaultyInput(Fault("--date", "", text, "that day is too far off", cure))
    return day
