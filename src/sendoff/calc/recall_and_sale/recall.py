"""Recall: who may sell what, who is told when, and by when a remedy is owed."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import calculation
from sendoff.calc.upkeep.dates import require_day
from sendoff.errors import OutOfRange

FAMILY: Final = "recall_and_sale"
TIRE_DAYS: Final = 180
REPAIR_DAYS: Final = 60
REPORT_WORKING_DAYS: Final = 5
OWNER_DAYS: Final = 60


@dataclass(frozen=True, slots=True)
class SaleBar:
    """Whether a sale is barred by a recall."""

    law_allows: bool
    yard_should_stop: bool
    """An open recall stops a careful yard even where this clause does not bite."""
    why: str


@calculation(
    FAMILY, "notified and not remedied: no sale or lease; offering is allowed; loose parts and tires: never"
)
def recall_sale_bar(
    *,
    dealer_notified: bool,
    remedied: bool,
    item: Literal["new_vehicle_or_part", "loose_part", "tire"] = "new_vehicle_or_part",
    act: Literal["sell", "lease", "offer"] = "sell",
) -> SaleBar:
    """Whether a dealer may sell what is under recall.

    Once the maker has told the dealer, a new vehicle or part he holds may be sold or leased only after its remedy.

    Parameters
    ----------
    dealer_notified : bool
        Whether the maker has told the dealer of the defect or non-compliance.
    remedied : bool
        Whether the remedy was done, or the order stayed by a court.
    item : {"new_vehicle_or_part", "loose_part", "tire"}
        What is sold: new on the dealer's lot, or recalled loose equipment or a tire for fitting.
    act : {"sell", "lease", "offer"}
        What is done with it; offering for sale or lease is allowed.

    Returns
    -------
    SaleBar
        Whether the statute allows it, whether the yard should stop all the same, and why.

    Raises
    ------
    OutOfRange
        If item or act is none of those named.

    Notes
    -----
    Federal law only. Loose equipment and tires under recall have a flat ban of their own. Before notice this clause
    does not bite, which blesses nothing.

    Examples
    --------
    >>> recall_sale_bar(dealer_notified=True, remedied=False).law_allows
    False
    >>> found = recall_sale_bar(dealer_notified=False, remedied=False)
    >>> found.law_allows, found.yard_should_stop
    (True, True)

    References
    ----------
    .. [1] 49usc30120, (i)(1) and (2); (j)
    """
    _one_of(("new_vehicle_or_part", "loose_part", "tire"), item=item)
    _one_of(("sell", "lease", "offer"), act=act)
    if remedied:
        return SaleBar(law_allows=True, yard_should_stop=False, why="Remedied. Keep the paper with the unit.")
    if item != "new_vehicle_or_part":
        return SaleBar(
            law_allows=act == "offer" and not dealer_notified,
            yard_should_stop=True,
            why="Recalled loose parts and tires are not sold for fitting until remedied.",
        )
    if act == "offer":
        return SaleBar(
            law_allows=True, yard_should_stop=True, why="Offering is allowed; delivery waits for the remedy."
        )
    if dealer_notified:
        return SaleBar(law_allows=False, yard_should_stop=True, why="Notified: remedy it before delivery.")
    return SaleBar(
        law_allows=True,
        yard_should_stop=True,
        why="This clause begins with the maker's notice; a careful yard stops for any open recall.",
    )


def _one_of(allowed: tuple[str, ...], **values: str) -> None:
    for name, value in values.items():
        if value not in allowed:
            raise OutOfRange(name, value, f"must be one of {', '.join(allowed)}")


@calculation(
    FAMILY, "last day = 180 days after notice or announcement of stock, whichever is later", gives="last_day"
)
def recalled_tire_deadline(notice_on: dt.date, stock_announced_on: dt.date | None = None) -> dt.date:
    """Last day on which a recalled tire must be brought in for its remedy without charge.

    180 days from the owner's notice, or from the announcement that replacements are in stock, whichever is later.

    Parameters
    ----------
    notice_on : date
        Day the owner got the notice.
    stock_announced_on : date, optional
        Day the stock of replacement tires was announced, if later.

    Returns
    -------
    date
        The last day.

    Raises
    ------
    OutOfRange
        If a day lies outside the calendar used here.

    Notes
    -----
    Federal law. Bring it in at once: this is the last day, not the right one.

    Examples
    --------
    >>> str(recalled_tire_deadline(dt.date(2026, 1, 1)))
    '2026-06-30'

    References
    ----------
    .. [1] 49usc30120, (b)
    """
    require_day(notice_on=notice_on)
    last = notice_on
    if stock_announced_on is not None:
        require_day(stock_announced_on=stock_announced_on)
        last = max(last, stock_announced_on)
    return last + dt.timedelta(days=TIRE_DAYS)


@dataclass(frozen=True, slots=True)
class RepairOverdue:
    """Whether a recall repair is presumed late."""

    presumed_late: bool
    last_day: dt.date
    days_left: int


@calculation(FAMILY, "presumed late if not done 60 days after the vehicle was presented")
def recall_repair_overdue(presented_on: dt.date, today: dt.date) -> RepairOverdue:
    """Whether a recall repair is presumed late, by the days since the unit was brought in.

    A repair not done properly within 60 days of presenting the vehicle is presumed not done in reasonable time.

    Parameters
    ----------
    presented_on : date
        Day the unit was brought in for the remedy.
    today : date
        Day asked about.

    Returns
    -------
    RepairOverdue
        Whether it is presumed late, the last day, days left.

    Raises
    ------
    OutOfRange
        If it was presented after today, or a day lies outside the calendar used here.

    Notes
    -----
    Federal law; then replacement or refund is owed. Without parts the maker may name a later day.

    Examples
    --------
    >>> recall_repair_overdue(dt.date(2026, 3, 1), dt.date(2026, 4, 30)).presumed_late
    False
    >>> recall_repair_overdue(dt.date(2026, 3, 1), dt.date(2026, 5, 1)).presumed_late
    True

    References
    ----------
    .. [1] 49usc30120, (c)(2)
    """
    require_day(presented_on=presented_on, today=today)
    if presented_on > today:
        raise OutOfRange("presented_on", presented_on.isoformat(), f"must not lie after {today.isoformat()}")
    last = presented_on + dt.timedelta(days=REPAIR_DAYS)
    return RepairOverdue(today > last, last, (last - today).days)


@calculation(FAMILY, "registered owner of the State; else the last buyer the maker knows", gives="goes_to")
def recall_letter_goes_to(*, registered: bool, first_buyer: bool, told_the_maker: bool = False) -> str:
    """Whom a recall letter reaches: the registered owner, or the last buyer the maker knows.

    Letters follow the State registration; where there is none, the last buyer known to the maker.

    Parameters
    ----------
    registered : bool
        Whether the present owner has registered the trailer with the State.
    first_buyer : bool
        Whether the present owner is the first buyer.
    told_the_maker : bool
        Whether the present owner gave the maker name and address.

    Returns
    -------
    str
        "present owner" or "an earlier owner".

    Raises
    ------
    OutOfRange
        Never: every answer is possible.

    Notes
    -----
    A second owner who never registers is not reached: write to the maker with name, address and VIN.

    Examples
    --------
    >>> recall_letter_goes_to(registered=False, first_buyer=False)
    'an earlier owner'

    References
    ----------
    .. [1] 49usc30119, (d)(1)
    .. [2] 49cfr577, 577.7(a)(2)(i)
    """
    return "present owner" if registered or first_buyer or told_the_maker else "an earlier owner"


@dataclass(frozen=True, slots=True)
class RecallClock:
    """Last days of a recall's steps."""

    report_by: dt.date
    owners_by: dt.date
    dealers_by: dt.date | None
    """Only where the threat is immediate."""


@calculation(
    FAMILY, "report: 5 working days; owners: 60 days after it; dealers: 3 or 5 business days if at once"
)
def recall_clock(
    determined_on: dt.date,
    reported_on: dt.date | None = None,
    *,
    immediate_threat: bool = False,
    electronic: bool = True,
) -> RecallClock:
    """Last days of a recall's report, of the letters to owners and of the warning to dealers.

    Report 5 working days after the defect was determined; letters 60 days after the report; dealers 3 business days
    after it by electronic means, 5 otherwise, where the threat is immediate.

    Parameters
    ----------
    determined_on : date
        Day the maker determined the defect or non-compliance.
    reported_on : date, optional
        Day it was reported to the agency; the last allowed day if not given.
    immediate_threat : bool
        Whether the threat is immediate and substantial.
    electronic : bool
        Whether dealers are warned by electronic means.

    Returns
    -------
    RecallClock
        The last day of each step.

    Raises
    ------
    OutOfRange
        If it was reported before it was determined, or a day lies outside the calendar used here.

    Notes
    -----
    Saturdays and Sundays are passed over; federal holidays are not known here and would add a day each.

    Examples
    --------
    Determined on Thursday 5 March 2026: report by Thursday 12 March, letters by 11 May.

    >>> found = recall_clock(dt.date(2026, 3, 5))
    >>> str(found.report_by), str(found.owners_by), found.dealers_by
    ('2026-03-12', '2026-05-11', None)

    References
    ----------
    .. [1] 49cfr573, 573.6(b)
    .. [2] 49cfr577, 577.7(a)(1), (c)(1)
    """
    require_day(determined_on=determined_on)
    report_by = _business_days_after(determined_on, REPORT_WORKING_DAYS)
    reported = report_by
    if reported_on is not None:
        require_day(reported_on=reported_on)
        if reported_on < determined_on:
            raise OutOfRange("reported_on", reported_on.isoformat(), "must not lie before determined_on")
        reported = reported_on
    dealers_by = _business_days_after(reported, 3 if electronic else 5) if immediate_threat else None
    return RecallClock(report_by, reported + dt.timedelta(days=OWNER_DAYS), dealers_by)


def _business_days_after(day: dt.date, days: int) -> dt.date:
    while days:
        day += dt.timedelta(days=1)
        days -= day.weekday() < 5
    return day
