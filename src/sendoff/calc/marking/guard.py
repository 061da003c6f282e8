"""Rear impact guard: needed or excused and why, and its measures."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.calc.marking.tape import Required

INCH_m: Final = 0.0254
HEAVY_kg: Final = 10_000 * 0.45359237
FROM: Final = dt.date(1998, 1, 26)
OLD_FROM: Final = dt.date(1952, 12, 31)

Body = Literal["other", "low_chassis", "special_purpose", "pole", "pulpwood"]


@calculation(
    "marking",
    "GVWR ≥ 10,000 lb, built from 26 January 1998, not pole, pulpwood, low chassis, special purpose or wheels back",
    symbols={"gvwr_kg": "GVWR", "last_tire_to_rear_m": "wheels back"},
)
def rear_guard_required(
    gvwr_kg: float,
    built: dt.date,
    last_tire_to_rear_m: float,
    body: Body = "other",
    *,
    driveaway_towaway: bool = False,
) -> Required:
    """Whether a trailer needs a rear impact guard, and why or why not.

    From a GVWR of 10,000 lb on, unless its body or its wheels at the very back excuse it.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    built : date
        Day it was built.
    last_tire_to_rear_m : float
        From the rear tread of the last fixed axle to the trailer's rear end [m].
    body : {"other", "low_chassis", "special_purpose", "pole", "pulpwood"}
        Low chassis: its own frame takes the place of the guard. Special purpose: `special_purpose_rear`.
    driveaway_towaway : bool
        Trailers in a driveaway-towaway operation are excused on that trip.

    Returns
    -------
    Required
        Required or not, and why.

    Raises
    ------
    OutOfRange
        If the rating is not above zero or the distance below zero.

    Notes
    -----
    10,000 lb or more, not over: one clause prints 4,356 kg where 4,536 is meant. Stand-up ramps make no special
    purpose.

    Examples
    --------
    A 14,000 lb flat with 40 in behind the tires needs one; with 11 in it does not.

    >>> today = dt.date(2026, 1, 1)
    >>> [rear_guard_required(6350.0, today, inches * 0.0254).required for inches in (40, 11)]
    [True, False]

    References
    ----------
    .. [1] 49cfr393, 393.86(a)(1)
    .. [2] 49cfr571_224, S3, S4
    """
    require_positive(gvwr_kg=gvwr_kg)
    require_not_negative(last_tire_to_rear_m=last_tire_to_rear_m)
    if built < FROM:
        return Required(
            required=False, why="Built before 26 January 1998: the older rule may ask (older_rear_check)."
        )
    if gvwr_kg < HEAVY_kg * (1 - 1e-9):
        return Required(required=False, why="Rated under 10,000 lb.")
    if body != "other":
        return Required(required=False, why=f"Excused as {body.replace('_', ' ')}.")
    if last_tire_to_rear_m <= 0.305 + 1e-9:
        return Required(required=False, why="Wheels back: the last tires stand within 12 in of the rear end.")
    if driveaway_towaway:
        return Required(
            required=False, why="Excused on this trip only: driveaway-towaway. In use it needs one."
        )
    return Required(required=True, why="Rated 10,000 lb or more, and nothing excuses it.")


@calculation(
    "marking",
    "gear in the box 660 mm up and 305 mm ahead of the rear, full width, in travel",
    gives="special",
)
def special_purpose_rear(
    gear_lowest_m: float, gear_ahead_of_rear_m: float, *, stowed_platform_deploys_backward: bool = False
) -> bool:
    """Whether work gear at the rear makes a trailer special purpose, so that no guard is asked.

    Gear that in travel fills or passes through the full-width box from the ground to 660 mm and 305 mm ahead of the
    rear end, or a platform stowed wholly under the rear that comes out backward.

    Parameters
    ----------
    gear_lowest_m : float
        Lowest point of the gear above the ground, in travel [m].
    gear_ahead_of_rear_m : float
        Nearest point of the gear ahead of the rear end, in travel [m].
    stowed_platform_deploys_backward : bool
        Whether a platform stowed wholly under the rear comes out backward.

    Returns
    -------
    bool
        True if it is special purpose.

    Raises
    ------
    OutOfRange
        If a measure is below zero.

    Notes
    -----
    Ramps that stand up in travel, above that box, do not count.

    Examples
    --------
    >>> special_purpose_rear(0.9, 0.0), special_purpose_rear(0.4, 0.1)
    (False, True)

    References
    ----------
    .. [1] 49cfr571_224, S4
    """
    require_not_negative(gear_lowest_m=gear_lowest_m, gear_ahead_of_rear_m=gear_ahead_of_rear_m)
    in_box = gear_lowest_m < 0.660 and gear_ahead_of_rear_m < 0.305
    return in_box or stowed_platform_deploys_backward


@dataclass(frozen=True, slots=True)
class GuardCheck:
    """A rear guard's measures judged."""

    passes: bool
    faults: str
    """Empty if it passes."""
    test_outer_N: float
    """Force of the old bench test at each outer point."""
    test_center_N: float
    test_inner_N: float
    test_bend_m: float
    test_energy_J: float


@calculation(
    "marking",
    "ground ≤ 22 in (560 mm), side ≤ 4 in (100 mm), set in ≤ 12 in (305 mm), bar ≥ 3.94 in (100 mm)",
    symbols={"ground_m": "ground", "side_gap_m": "side", "set_in_m": "set in", "bar_height_m": "bar"},
)
def rear_guard_check(ground_m: float, side_gap_m: float, set_in_m: float, bar_height_m: float) -> GuardCheck:
    """Whether a rear impact guard sits where it should.

    Underside at most 22 in up, at most 4 in in from each side and 12 in from the rear, bar at least 3.94 in high.

    Parameters
    ----------
    ground_m : float
        Underside of the bar above the ground, empty, level [m].
    side_gap_m : float
        From the trailer's side to the end of the bar, the worse side [m].
    set_in_m : float
        From the rear end forward to the bar [m].
    bar_height_m : float
        Height of the bar's section [m].

    Returns
    -------
    GuardCheck
        Verdict, faults, and the figures of its bench test.

    Raises
    ------
    OutOfRange
        If a measure is below zero.

    Notes
    -----
    Test figures of the 2015 edition (50, 100 and 50 kN, 125 mm, 5,650 J); a rule of July 2022 made them stronger
    (from memory): the guard's own label decides.

    Examples
    --------
    >>> rear_guard_check(0.559, 0.10, 0.30, 0.10).passes
    True

    References
    ----------
    .. [1] 49cfr393, 393.86(a)(2)-(5)
    .. [2] 49cfr571_223, S5.2
    """
    require_not_negative(
        ground_m=ground_m, side_gap_m=side_gap_m, set_in_m=set_in_m, bar_height_m=bar_height_m
    )
    faults = []
    if ground_m > 0.560 + 1e-9:
        faults.append("underside higher than 22 in")
    if side_gap_m > 4 * INCH_m + 1e-9:
        faults.append("ends more than 4 in from the side")
    if set_in_m > 0.305 + 1e-9:
        faults.append("set in more than 12 in")
    if bar_height_m < 0.100 - 1e-9:
        faults.append("bar lower than 3.94 in")
    return GuardCheck(not faults, "; ".join(faults), 50_000.0, 50_000.0, 100_000.0, 0.125, 5_650.0)


@dataclass(frozen=True, slots=True)
class OlderRear:
    """The older rear rule."""

    guard_required: bool
    most_ground_m: float
    most_set_in_m: float
    most_side_m: float
    why: str


@calculation(
    "marking",
    "guard if the rear underside is over 30 in up; then bar ≤ 30 in, side ≤ 18 in, set in ≤ 24 in",
    symbols={"underside_m": "underside"},
)
def older_rear_check(underside_m: float, built: dt.date) -> OlderRear:
    """What the older rule asks at the rear of a trailer built before 26 January 1998, or an excused one.

    A guard only if the rear underside is more than 30 in up.

    Parameters
    ----------
    underside_m : float
        Lowest rear part of body or chassis above the ground, empty [m].
    built : date
        Day it was built.

    Returns
    -------
    OlderRear
        Guard asked or not, its limits, why.

    Raises
    ------
    OutOfRange
        If the height is not above zero.

    Notes
    -----
    Built after 31 December 1952. Low chassis, wheels back and special purpose bodies comply if their own parts give
    like protection.

    Examples
    --------
    >>> older_rear_check(0.9, dt.date(1990, 5, 1)).guard_required
    True

    References
    ----------
    .. [1] 49cfr393, 393.86(b)
    """
    require_positive(underside_m=underside_m)
    over = underside_m > 30 * INCH_m + 1e-9
    required = over and built > OLD_FROM
    why = (
        "Rear underside more than 30 in up."
        if required
        else "Built before 1953."
        if over
        else "Rear underside 30 in up or less."
    )
    return OlderRear(required, 30 * INCH_m, 24 * INCH_m, 18 * INCH_m, why)
