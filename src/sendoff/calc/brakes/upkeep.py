"""Upkeep of brakes: linings, adjustment, seating, and what the annual list fails."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative
from sendoff.errors import OutOfRange
from sendoff.tables import Table

MILE_m: Final = 1609.344
MONTH_s: Final = 30.4375 * 86400.0

Brake = Literal["air_drum", "air_disc", "hydraulic_or_electric"]


@calculation("brakes", "any current from a lead to the magnet's case = fail", gives="passes")
def magnet_short_test(case_current_A: float) -> bool:
    """Whether a magnet passes the short test from either lead to its case.

    Any current at all fails it.

    Parameters
    ----------
    case_current_A : float
        Current from one lead to the magnet's case, the other lead open [A].

    Returns
    -------
    bool
        True if no current flows.

    Raises
    ------
    OutOfRange
        If the current is below zero.

    Notes
    -----
    Magnet taken off or its leads cut free.

    Examples
    --------
    >>> magnet_short_test(0.0), magnet_short_test(0.1)
    (True, False)

    References
    ----------
    .. [1] magnet_test_tables, short test
    """
    require_not_negative(case_current_A=case_current_A)
    return case_current_A == 0.0


@dataclass(frozen=True, slots=True)
class LiningCheck:
    """A lining held against both federal lists."""

    least_m: float
    operating_rule_passes: bool
    annual_list_passes: bool
    passes_both: bool
    left_m: float
    """Thickness above the limit; below zero if worn past it."""


@calculation(
    "brakes",
    "thickness against 393.47 and against the annual list; both must pass",
    tables={"table": "brake_lining"},
)
def lining_check(lining_m: float, brake: Brake, table: Table | None = None) -> LiningCheck:
    """Whether a brake lining passes the operating rule and the annual list.

    Thickness at the shoe center against each rule; where they differ at the very limit the stricter decides.

    Parameters
    ----------
    lining_m : float
        Thinnest lining measured at the shoe center [m].
    brake : {"air_drum", "air_disc", "hydraulic_or_electric"}
        Kind of brake, on an axle that does not steer.
    table : Table
        Least lining by brake and rule.

    Returns
    -------
    LiningCheck
        Limit, verdict of each rule, and what is left.

    Raises
    ------
    OutOfRange
        If the thickness is below zero.

    Notes
    -----
    Axles that do not steer. The axle maker may ask for more; a wear mark on the lining also decides.

    Examples
    --------
    At exactly 1/16 in the operating rule passes and the annual list fails.

    >>> found = lining_check(0.0254 / 16, "hydraulic_or_electric")
    >>> found.operating_rule_passes, found.annual_list_passes, found.passes_both
    (True, False, False)

    References
    ----------
    .. [1] 49cfr393, 393.47(d)(2)
    .. [2] 49cfr396_appg, 1.a(6)(c)
    """
    require_not_negative(lining_m=lining_m)
    held = table or tables.load("brake_lining")
    verdicts = []
    for rule in ("operating", "annual"):
        row = held.row(brake=brake, rule=rule)
        limit_m = float(row["least_m"])
        equal = abs(lining_m - limit_m) <= 1e-9
        verdicts.append(bool(row["equal_passes"]) if equal else lining_m > limit_m)
    limit_m = max(float(row["least_m"]) for row in held.where(brake=brake))
    return LiningCheck(limit_m, verdicts[0], verdicts[1], all(verdicts), lining_m - limit_m)


@dataclass(frozen=True, slots=True)
class Adjustment:
    """When brakes are next adjusted, and whether a hand does it."""

    by_hand: bool
    every_m: float
    every_s: float
    left_m: float
    """Distance until due; zero or below means due."""
    left_s: float
    due: bool
    note: str


@calculation(
    "brakes",
    "first at 200 mi, then each 3,000 mi or 3 months; looked at yearly or each 12,000 mi",
    symbols={"driven_m": "s", "elapsed_s": "t"},
)
def brake_adjustment(
    driven_m: float, elapsed_s: float, *, self_adjusting: bool, first: bool = False
) -> Adjustment:
    """When drum brakes are due for adjustment.

    Adjusted by hand at 200 miles new, then each 3,000 miles or 3 months; self-adjusting ones are only looked at.

    Parameters
    ----------
    driven_m : float
        Distance since the last adjustment, or since new [m].
    elapsed_s : float
        Time since then [s].
    self_adjusting : bool
        Whether the brakes adjust themselves: then no hand should.
    first : bool
        True for the first adjustment of new shoes.

    Returns
    -------
    Adjustment
        Interval, what is left of it, due or not, and a note.

    Raises
    ------
    OutOfRange
        If distance or time is below zero.

    Notes
    -----
    Electric drum brakes on light trailers. The axle maker's own plan comes first.

    Examples
    --------
    >>> brake_adjustment(250 * 1609.344, 0.0, self_adjusting=False, first=True).due
    True
    >>> brake_adjustment(4000 * 1609.344, 0.0, self_adjusting=True).by_hand
    False

    References
    ----------
    .. [1] brake_manuals, adjustment, and yearly inspection or each 12,000 miles
    """
    require_not_negative(driven_m=driven_m, elapsed_s=elapsed_s)
    if self_adjusting:
        every_m, every_s = 12_000 * MILE_m, 12 * MONTH_s
        note = "These brakes adjust themselves. Turning the star wheel does harm: only look at them."
    elif first:
        every_m, every_s = 200 * MILE_m, 3 * MONTH_s
        note = "First adjustment of new shoes."
    else:
        every_m, every_s = 3_000 * MILE_m, 3 * MONTH_s
        note = "Whichever comes first, miles or months. Looked over yearly or each 12,000 miles as well."
    left_m, left_s = every_m - driven_m, every_s - elapsed_s
    return Adjustment(not self_adjusting, every_m, every_s, left_m, left_s, left_m <= 0 or left_s <= 0, note)


@dataclass(frozen=True, slots=True)
class Seating:
    """One way to seat new linings."""

    least_count: int
    most_count: int
    from_mps: float
    to_mps: float
    note: str


@calculation("brakes", "read from the table of ways to seat", tables={"table": "brake_seating"})
def brake_seating(
    method: Literal["gentle_stops", "slowings"] = "gentle_stops", table: Table | None = None
) -> Seating:
    """How new brake linings are seated.

    Read from the table; the axle maker names the way, and the two are not mixed.

    Parameters
    ----------
    method : {"gentle_stops", "slowings"}
        Light stops from 25 mph, or slowing from 40 to 20 mph with gaps to cool.
    table : Table
        Ways to seat.

    Returns
    -------
    Seating
        Least and most number, and speeds.

    Raises
    ------
    OutOfRange
        If the table has no such way.

    Notes
    -----
    Electric drum brakes with new shoes or magnets.

    Examples
    --------
    >>> found = brake_seating()
    >>> found.least_count, found.most_count
    (20, 25)

    References
    ----------
    .. [1] brake_manuals, seating
    """
    row = (table or tables.load("brake_seating")).row(method=method)
    return Seating(row["least_count"], row["most_count"], row["from_mps"], row["to_mps"], row["note"])


@calculation(
    "brakes",
    "passes if every wheel brakes and the breakaway device works",
    gives="passes",
    symbols={"wheel_count": "n"},
)
def electric_brakes_pass(wheel_count: int, wheels_braking: int, *, breakaway_works: bool) -> bool:
    """Whether electric brakes pass the annual list.

    One wheel that does not brake, or a missing or dead breakaway device, fails the trailer.

    Parameters
    ----------
    wheel_count : int
        Wheels that should brake [-].
    wheels_braking : int
        Wheels that do [-].
    breakaway_works : bool
        Whether the breakaway device is there and works.

    Returns
    -------
    bool
        True if the list is passed.

    Raises
    ------
    OutOfRange
        If the counts do not fit each other.

    Notes
    -----
    Commercial vehicles under the annual inspection rule; sound practice for all.

    Examples
    --------
    >>> electric_brakes_pass(4, 3, breakaway_works=True)
    False

    References
    ----------
    .. [1] 49cfr396_appg, 1.i
    """
    if not 1 <= wheel_count <= 32:
        raise OutOfRange("wheel_count", wheel_count, "must lie from 1 to 32")
    if not 0 <= wheels_braking <= wheel_count:
        raise OutOfRange("wheels_braking", wheels_braking, f"must lie from 0 to {wheel_count}")
    return wheels_braking == wheel_count and breakaway_works
