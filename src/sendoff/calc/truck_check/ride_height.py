"""Room over the bed, room behind the cab, and whether the trailer rides level."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, inches, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.tables import Table

FAMILY: Final = "truck_check"


@dataclass(frozen=True, slots=True)
class Clearance:
    """A gap, the least it should be, and what is left."""

    clearance_m: float
    least_m: float
    margin_m: float
    holds: bool


@dataclass(frozen=True, slots=True)
class RideLevel:
    """Slope of the loaded trailer's frame; nose down is above zero."""

    nose_down_m: float
    slope_ratio: float
    slope_rad: float
    attitude: Literal["level", "nose_down", "nose_up"]
    within_goal: bool
    """True from level to an inch nose down in ten feet, or the maker's own figure."""


@calculation(
    FAMILY,
    "clearance = underside of the neck − top of the bed rail ≥ least",
    symbols={"trailer_underside_height_m": "underside", "bed_rail_height_m": "rail"},
    tables={"table": "ride_height_limits"},
)
def bed_rail_clearance(
    trailer_underside_height_m: float,
    bed_rail_height_m: float,
    maker_least_m: float | None = None,
    table: Table | None = None,
) -> Clearance:
    """Room between the truck's bed rails and the trailer's neck above them.

    clearance = underside − rail; at least 6 in, or the maker's own figure.

    Parameters
    ----------
    trailer_underside_height_m : float
        Lowest point of the neck over the bed, coupled and loaded on level ground [m].
    bed_rail_height_m : float
        Top of the bed rail or of the tailgate below it [m].
    maker_least_m : float, optional
        What the trailer or truck maker asks for [m].
    table : Table, optional
        Least clearance.

    Returns
    -------
    Clearance
        Gap, least gap and margin [m], and whether it holds.

    Raises
    ------
    OutOfRange
        If a height is not above zero.

    Notes
    -----
    A loaded truck sinks and rolls; on a dip or a ramp the gap closes on one side. Trade talk says 5 to 6 in, a vehicle
    maker 6: the stricter.

    Examples
    --------
    >>> bed_rail_clearance(1.70, 1.52).holds, bed_rail_clearance(1.65, 1.52).holds
    (True, False)

    References
    ----------
    .. [1] vehicle_maker_towing, six inches over the pickup box
    """
    positive(trailer_underside_height_m=trailer_underside_height_m, bed_rail_height_m=bed_rail_height_m)
    table = table or tables.load("ride_height_limits")
    least = float(table.row(measure="bed_rail_clearance")["limit_m"])
    if maker_least_m is not None:
        positive(maker_least_m=maker_least_m)
        least = maker_least_m
    gap = trailer_underside_height_m - bed_rail_height_m
    return Clearance(gap, least, gap - least, holds=not exceeds(least, gap + 1e-9))


@calculation(
    FAMILY,
    "clearance = c − √(f² + (w/2)²)",
    symbols={"ball_to_cab_m": "c", "nose_ahead_of_ball_m": "f", "nose_width_m": "w"},
)
def cab_clearance_in_turn(
    ball_to_cab_m: float, nose_ahead_of_ball_m: float, nose_width_m: float, least_m: float = 0.0
) -> Clearance:
    """Room between the cab and the trailer's front corner when the set is jackknifed.

    The corner swings on √(f² + (w/2)²) round the ball: clearance = c − that.

    Parameters
    ----------
    ball_to_cab_m : float
        From the ball or kingpin forward to the back of the cab or box behind it [m].
    nose_ahead_of_ball_m : float
        How far the trailer's front reaches ahead of the ball [m].
    nose_width_m : float
        Width of the trailer's front [m].
    least_m : float
        Gap to keep [m].

    Returns
    -------
    Clearance
        Gap, least gap and margin [m], and whether it holds.

    Raises
    ------
    OutOfRange
        If the distance to the cab or the width is not above zero, or another value is below zero.

    Notes
    -----
    Level ground, square corners. Short beds touch first; a toolbox behind the cab counts as cab.

    Examples
    --------
    A triangle of 3, 4 and 5: 1.2 m ahead and 0.9 m to the side swing on 1.5 m.

    >>> round(cab_clearance_in_turn(1.6, 1.2, 1.8).clearance_m, 9)
    0.1

    References
    ----------
    .. [1] geometry, swing circle of a corner
    """
    positive(ball_to_cab_m=ball_to_cab_m, nose_width_m=nose_width_m)
    not_negative(nose_ahead_of_ball_m=nose_ahead_of_ball_m, least_m=least_m)
    gap = ball_to_cab_m - math.hypot(nose_ahead_of_ball_m, nose_width_m / 2)
    return Clearance(gap, least_m, gap - least_m, holds=gap >= least_m)


@calculation(
    FAMILY,
    "nose down = h_rear − h_front;  slope = nose down / d",
    symbols={
        "front_height_m": "h_front",
        "rear_height_m": "h_rear",
        "between_m": "d",
        "nose_down_m": "nose down",
        "slope_ratio": "slope",
    },
    tables={"table": "ride_height_limits"},
)
def ride_level(
    front_height_m: float,
    rear_height_m: float,
    between_m: float,
    maker_nose_down_ratio: float | None = None,
    table: Table | None = None,
) -> RideLevel:
    """Whether the loaded trailer rides level, or a little nose down.

    slope = (h_rear − h_front) / d; the goal is level to 1 in nose down in 10 ft.

    Parameters
    ----------
    front_height_m : float
        Frame height near the coupling, loaded, on level ground [m].
    rear_height_m : float
        Height of the same frame line near the rear [m].
    between_m : float
        Distance between the two points [m].
    maker_nose_down_ratio : float, optional
        Greatest slope nose down the trailer maker allows [-].
    table : Table, optional
        The goal.

    Returns
    -------
    RideLevel
        Nose down [m], slope [-] and [rad], attitude, and whether the goal is met.

    Raises
    ------
    OutOfRange
        If a height or the distance is not above zero.

    Notes
    -----
    A tenth of a degree counts as level. Nose up lets a trailer sway, scrapes its rear and loads the rear torsion axle;
    nose down loads the front one.

    Examples
    --------
    >>> ride_level(0.80, 0.82, 3.0).attitude, ride_level(0.80, 0.82, 3.0).within_goal
    ('nose_down', True)

    References
    ----------
    .. [1] common_practice, an inch in ten feet
    """
    positive(front_height_m=front_height_m, rear_height_m=rear_height_m, between_m=between_m)
    table = table or tables.load("ride_height_limits")
    row = table.row(measure="nose_down")
    goal = float(row["limit_m"]) / float(row["over_length_m"])
    if maker_nose_down_ratio is not None:
        not_negative(maker_nose_down_ratio=maker_nose_down_ratio)
        goal = maker_nose_down_ratio
    down = rear_height_m - front_height_m
    slope = down / between_m
    angle = math.atan(slope)
    attitude: Literal["level", "nose_down", "nose_up"] = "level"
    if abs(angle) > math.radians(0.1):
        attitude = "nose_down" if down > 0 else "nose_up"
    return RideLevel(down, slope, angle, attitude, attitude != "nose_up" and not exceeds(slope, goal))


@dataclass(frozen=True, slots=True)
class BallHeight:
    """How the ball's loaded height meets the coupler's level height; above zero the ball is too high."""

    difference_m: float
    change: Literal["none", "more_drop", "more_rise"]
    holds: bool


@calculation(
    FAMILY,
    "difference = ball height loaded − coupler height level",
    symbols={
        "ball_height_loaded_m": "ball",
        "coupler_height_level_m": "coupler",
        "difference_m": "difference",
    },
)
def ball_height_match(
    ball_height_loaded_m: float, coupler_height_level_m: float, tolerance_m: float = inches(1)
) -> BallHeight:
    """Whether the ball, under its load, stands where the level trailer's coupler is.

    difference = ball height loaded − coupler height level.

    Parameters
    ----------
    ball_height_loaded_m : float
        Top of the ball with the tongue load on it [m].
    coupler_height_level_m : float
        Inside top of the coupler with the trailer level [m].
    tolerance_m : float
        Difference to let pass [m].

    Returns
    -------
    BallHeight
        Difference [m], what mount is needed, and whether it holds.

    Raises
    ------
    OutOfRange
        If a height is not above zero or the tolerance is below zero.

    Notes
    -----
    Measure both on level ground. Trucks sink several inches under the load: measure loaded.

    Examples
    --------
    >>> ball_height_match(0.55, 0.45).change
    'more_drop'

    References
    ----------
    .. [1] common_practice, ball height with the trailer level
    """
    positive(ball_height_loaded_m=ball_height_loaded_m, coupler_height_level_m=coupler_height_level_m)
    not_negative(tolerance_m=tolerance_m)
    difference = ball_height_loaded_m - coupler_height_level_m
    holds = not exceeds(abs(difference), tolerance_m + 1e-9)
    change: Literal["none", "more_drop", "more_rise"] = "none"
    if not holds:
        change = "more_drop" if difference > 0 else "more_rise"
    return BallHeight(difference, change, holds)
