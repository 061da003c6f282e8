"""Tires sold with a trailer: whose duty it is to register them, and how long the record is kept."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import calculation
from sendoff.calc.upkeep.dates import months_after, require_day
from sendoff.errors import OutOfRange

FAMILY: Final = "recall_and_sale"
RECORD_MONTHS: Final = 60
REGISTER_DAYS: Final = 30
FEW_TIRES: Final = 40
LONGEST_MONTHS: Final = 6


@calculation(FAMILY, "keep until 5 years after the first sale to a user", gives="keep_until")
def tire_record_until(first_sale_on: dt.date) -> dt.date:
    """Day until which a trailer maker keeps which tires went on which unit, and its first buyer.

    At least five years from the sale to the first real buyer.

    Parameters
    ----------
    first_sale_on : date
        Day of the sale to the first buyer who uses it.

    Returns
    -------
    date
        The record is kept at least until this day.

    Raises
    ------
    OutOfRange
        If the day lies outside the calendar used here.

    Notes
    -----
    For new tires on new trailers, names and addresses with them. A yard may keep it longer.

    Examples
    --------
    >>> str(tire_record_until(dt.date(2026, 3, 5)))
    '2031-03-05'

    References
    ----------
    .. [1] 49cfr574, 574.10
    """
    require_day(first_sale_on=first_sale_on)
    return months_after(first_sale_on, RECORD_MONTHS)


@dataclass(frozen=True, slots=True)
class TireRegistration:
    """Whose duty the registration of new tires is."""

    yard_is_tire_dealer: bool
    register_within_days: int | None
    """Days to register them where the form is not handed over at the sale; None where it is not the yard's duty."""
    who: str


@calculation(FAMILY, "fitted by the yard and not as shipped: the yard is a tire dealer, 30 days")
def tire_registration(
    fitted_by: Literal["maker", "yard"], tie: Literal["independent", "tied_to_tire_maker"] = "independent"
) -> TireRegistration:
    """Whether a yard that sells a trailer must register its new tires, and within how many days.

    Tires the trailer was shipped with are the trailer maker's record. Who fits others becomes a tire dealer: an
    independent one hands the form over at the sale, or registers them within 30 days, free.

    Parameters
    ----------
    fitted_by : {"maker", "yard"}
        Who fitted the new tires: the trailer maker as shipped, or the yard.
    tie : {"independent", "tied_to_tire_maker"}
        Whether the yard is an independent tire seller or one owned or controlled by a tire maker.

    Returns
    -------
    TireRegistration
        Whether the yard is a tire dealer, the days, and who registers.

    Raises
    ------
    OutOfRange
        If a word is none of those named.

    Notes
    -----
    Federal rule for new tires. Used tires have no registration; their numbers still belong in the unit's record.

    Examples
    --------
    >>> tire_registration("maker").yard_is_tire_dealer, tire_registration("yard").register_within_days
    (False, 30)

    References
    ----------
    .. [1] 49cfr574, 574.9(b), 574.8(a)(1), (b)
    """
    for name, value, allowed in (
        ("fitted_by", fitted_by, ("maker", "yard")),
        ("tie", tie, ("independent", "tied_to_tire_maker")),
    ):
        if value not in allowed:
            raise OutOfRange(name, value, f"must be one of {', '.join(allowed)}")
    if fitted_by == "maker":
        return TireRegistration(
            yard_is_tire_dealer=False, register_within_days=None, who="The trailer maker keeps the record."
        )
    who = (
        "The yard: form to the buyer at the sale, or registered by the yard, free."
        if tie == "independent"
        else "The yard reports every sale to its tire maker: see tire_report_due."
    )
    return TireRegistration(yard_is_tire_dealer=True, register_within_days=REGISTER_DAYS, who=who)


@calculation(FAMILY, "30 days; under 40 tires: when 40 are sold, at the latest 6 months", gives="report_by")
def tire_report_due(last_report_on: dt.date, tires_sold: int) -> dt.date:
    """Last day for a tire seller tied to a tire maker to report its sales.

    At least every 30 days; with fewer than 40 tires sold it may wait for the fortieth, but never past six months.

    Parameters
    ----------
    last_report_on : date
        Day of the last report.
    tires_sold : int
        Tires sold since [-].

    Returns
    -------
    date
        The last day.

    Raises
    ------
    OutOfRange
        If the number is below zero or above a million, or the day lies outside the calendar used here.

    Notes
    -----
    Federal rule for sellers owned or controlled by a tire maker. Independent sellers: `tire_registration`.

    Examples
    --------
    >>> str(tire_report_due(dt.date(2026, 1, 1), 40)), str(tire_report_due(dt.date(2026, 1, 1), 39))
    ('2026-01-31', '2026-07-01')

    References
    ----------
    .. [1] 49cfr574, 574.8(b)
    """
    require_day(last_report_on=last_report_on)
    if not 0 <= tires_sold <= 1_000_000:
        raise OutOfRange("tires_sold", tires_sold, "must lie from 0 to 1,000,000")
    if tires_sold >= FEW_TIRES:
        return last_report_on + dt.timedelta(days=REGISTER_DAYS)
    return months_after(last_report_on, LONGEST_MONTHS)
