"""Jacks: force at the jack, capacity, slope, lift to clear the ball, and what pushing by hand takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2 as G

MONTH_s: Final = 30.4375 * 86400.0


@calculation(
    "jacks",
    "F = m g a / L",
    gives="jack_N",
    symbols={"mass_kg": "m", "center_from_axles_m": "a", "jack_from_axles_m": "L", "jack_N": "F"},
)
def jack_force(mass_kg: float, center_from_axles_m: float, jack_from_axles_m: float) -> float:
    """Force on a tongue or gooseneck jack.

    F = m g a/L: moments about the axles' middle.

    Parameters
    ----------
    mass_kg : float
        Trailer with its cargo [kg].
    center_from_axles_m : float
        Center of mass ahead of the axles' middle [m].
    jack_from_axles_m : float
        Jack ahead of the axles' middle [m].

    Returns
    -------
    float
        Force on the jack, or all jacks on that line together [N].

    Raises
    ------
    OutOfRange
        If the mass or the jack's distance is not above zero, or the center behind the axles.

    Notes
    -----
    Level ground, equalized axles. A center behind the axles lifts the nose: chock, and put weight forward first.

    Examples
    --------
    9,000 lb, 30 in ahead, jack at 200 in: 1,350 lbf.

    >>> from sendoff.units import from_si
    >>> round(from_si(jack_force(9000 * 0.45359237, 30 * 0.0254, 200 * 0.0254), "lbf", "force"))
    1350

    References
    ----------
    .. [1] statics, moments about the axles
    """
    require_positive(mass_kg=mass_kg, jack_from_axles_m=jack_from_axles_m)
    require_not_negative(center_from_axles_m=center_from_axles_m)
    return mass_kg * G * center_from_axles_m / jack_from_axles_m


@dataclass(frozen=True, slots=True)
class JackCapacity:
    """Jacks held against their load."""

    demand_N: float
    """On each jack."""
    capacity_N: float
    margin_N: float
    enough: bool
    uneven_enough: bool
    """Whether one alone would do if the ground gives under the others."""


@calculation(
    "jacks",
    "F / n ≤ rating",
    symbols={"load_N": "F", "jack_count": "n", "rating_each_N": "rating"},
)
def jack_capacity(load_N: float, rating_each_N: float, jack_count: int = 1) -> JackCapacity:
    """Whether the jacks' rating is enough for the load on them.

    The load shared over the jacks against the rating marked on each.

    Parameters
    ----------
    load_N : float
        Load on all jacks of that line [N].
    rating_each_N : float
        Rating of one jack: lift rating when lifting, static rating when standing [N].
    jack_count : int
        Jacks that share it [-].

    Returns
    -------
    JackCapacity
        Load on each, rating, margin, enough, and whether one alone would do.

    Raises
    ------
    OutOfRange
        If the load is below zero, the rating not above zero, or the number outside 1 to 6.

    Notes
    -----
    Firm and level. Foot blocked on soft ground; load cribbed at once after lifting.

    Examples
    --------
    Twin 12,000 lb legs under 8,000 lb.

    >>> jack_capacity(35_586.0, 53_379.0, 2).uneven_enough
    True

    References
    ----------
    .. [1] 29cfr1910, 1910.244(a)
    """
    require_not_negative(load_N=load_N)
    require_positive(rating_each_N=rating_each_N)
    if not 1 <= jack_count <= 6:
        raise OutOfRange("jack_count", jack_count, "must lie from 1 to 6")
    each_N = load_N / jack_count
    return JackCapacity(
        each_N, rating_each_N, rating_each_N - each_N, each_N <= rating_each_N, load_N <= rating_each_N
    )


@calculation(
    "jacks",
    "F = m g (sin α + c cos α)",
    gives="push_N",
    symbols={"mass_kg": "m", "slope_rad": "α", "rolling_ratio": "c", "push_N": "F"},
)
def push_force(mass_kg: float, slope_rad: float = 0.0, rolling_ratio: float = 0.01) -> float:
    """What it takes to push a trailer by hand, or what its chocks must hold on a slope.

    F = m g (sin α + c cos α); the chocks must hold the first part.

    Parameters
    ----------
    mass_kg : float
        Mass of the trailer [kg].
    slope_rad : float
        Slope [rad].
    rolling_ratio : float
        Rolling resistance, 0.01 on pavement [-].

    Returns
    -------
    float
        Push [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero, the slope outside 0 to 45°, or the resistance outside 0 to 1.

    Notes
    -----
    At even speed. A jack with a wheel is no brake: on a slope the trailer goes by itself.

    Examples
    --------
    2,000 lb on 2°: 89.8 lbf.

    >>> import math
    >>> from sendoff.units import from_si
    >>> round(from_si(push_force(2000 * 0.45359237, math.radians(2)), "lbf", "force"), 1)
    89.8

    References
    ----------
    .. [1] statics, equilibrium along the slope
    """
    require_positive(mass_kg=mass_kg)
    require_between(0.0, math.pi / 4, "rad", slope_rad=slope_rad)
    require_between(0.0, 1.0, rolling_ratio=rolling_ratio)
    return mass_kg * G * (math.sin(slope_rad) + rolling_ratio * math.cos(slope_rad))


@dataclass(frozen=True, slots=True)
class BallClearance:
    """Lift needed to clear the ball."""

    lift_m: float
    """From where the coupler sits now; zero if it clears already."""
    travel_left_m: float
    enough: bool


@calculation(
    "jacks",
    "lift = ball top + clearance − coupler lip, against the travel of the jack",
    symbols={
        "ball_top_m": "ball top",
        "coupler_lip_m": "coupler lip",
        "clearance_m": "clearance",
        "travel_m": "travel",
    },
)
def lift_to_clear_ball(
    ball_top_m: float, coupler_lip_m: float, travel_m: float, clearance_m: float = 0.0508
) -> BallClearance:
    """How far a jack must lift the coupler to clear the ball, and whether its travel is enough.

    Ball top plus clearance, less the coupler's lower lip.

    Parameters
    ----------
    ball_top_m : float
        Top of the ball above the ground, truck unloaded of the trailer [m].
    coupler_lip_m : float
        Lower lip of the coupler above the ground [m].
    travel_m : float
        Travel the jack has left, foot on its block [m].
    clearance_m : float
        Clearance wanted, 2 in if not given [m].

    Returns
    -------
    BallClearance
        Lift, travel left over, enough or not.

    Raises
    ------
    OutOfRange
        If a height is not above zero or travel or clearance below zero.

    Notes
    -----
    The truck's rear rises as the weight leaves it: measure the ball with the weight off, or add that rise.

    Examples
    --------
    >>> found = lift_to_clear_ball(0.55, 0.50, 0.30)
    >>> round(found.lift_m, 3), found.enough
    (0.101, True)

    References
    ----------
    .. [1] geometry, heights
    """
    require_positive(ball_top_m=ball_top_m, coupler_lip_m=coupler_lip_m)
    require_not_negative(travel_m=travel_m, clearance_m=clearance_m)
    lift_m = max(0.0, ball_top_m + clearance_m - coupler_lip_m)
    return BallClearance(lift_m, travel_m - lift_m, lift_m <= travel_m + 1e-9)


@calculation(
    "jacks",
    "F = P (t / 2) / (t / 2 + x)",
    gives="side_N",
    symbols={"axle_N": "P", "track_m": "t", "jack_from_middle_m": "x", "side_N": "F"},
)
def side_lift_force(axle_N: float, track_m: float, jack_from_middle_m: float) -> float:
    """Force that lifts one end of an axle off the ground for a wheel change.

    Moments about the wheels that stay down: F = P (t/2)/(t/2 + x).

    Parameters
    ----------
    axle_N : float
        Load on the axle, both ends [N].
    track_m : float
        Distance between both wheels' middles [m].
    jack_from_middle_m : float
        Jack from the middle of the trailer toward the side being lifted [m].

    Returns
    -------
    float
        Force on the jack [N].

    Raises
    ------
    OutOfRange
        If load or track is not above zero or the jack farther out than the track is wide.

    Notes
    -----
    Load in the middle, one axle. Where axles are equalized the neighbor takes part. Never under the middle of a
    tube: at the spring seat or where the maker says.

    Examples
    --------
    Jack right under the wheel: half the axle.

    >>> side_lift_force(30_000.0, 2.0, 1.0)
    15000.0

    References
    ----------
    .. [1] statics, moments about the standing wheels
    """
    require_positive(axle_N=axle_N, track_m=track_m)
    require_between(0.0, track_m, "m", jack_from_middle_m=jack_from_middle_m)
    return axle_N * (track_m / 2) / (track_m / 2 + jack_from_middle_m)


@dataclass(frozen=True, slots=True)
class JackInspection:
    """When a jack must be looked over."""

    every_s: float
    due: bool
    also: str


@calculation("jacks", "at least each 6 months", symbols={"elapsed_s": "t"})
def jack_inspection(elapsed_s: float) -> JackInspection:
    """Whether a jack is due to be looked over.

    At least each 6 months, and when it is sent out and when it comes back.

    Parameters
    ----------
    elapsed_s : float
        Time since it was looked over [s].

    Returns
    -------
    JackInspection
        Interval, due or not, other occasions.

    Raises
    ------
    OutOfRange
        If the time is below zero.

    Notes
    -----
    Jacks at work places in general industry.

    Examples
    --------
    >>> jack_inspection(200 * 86400.0).due
    True

    References
    ----------
    .. [1] 29cfr1910, 1910.244(a)(2)
    """
    require_not_negative(elapsed_s=elapsed_s)
    every_s = 6 * MONTH_s
    return JackInspection(
        every_s, elapsed_s >= every_s, "Also when sent out, when back, and after a shock or overload."
    )


@dataclass(frozen=True, slots=True)
class JackOnSlope:
    """What stands on the jack and on the chocks of a trailer uncoupled on a slope."""

    jack_N: float
    """Square to the ground; below zero the nose would lift."""
    chocks_N: float
    """Along the slope, before any rolling resistance: chocks and brakes must hold all of it."""
    nose_lifts: bool


@calculation(
    "jacks",
    "F = m g (a cos α + h sin α) / L, chocks = m g |sin α|",
    symbols={
        "mass_kg": "m", "center_from_axles_m": "a", "center_height_m": "h", "jack_from_axles_m": "L",
        "nose_down_rad": "α", "jack_N": "F", "chocks_N": "chocks",
    },
)  # fmt: skip
def jack_force_on_slope(
    mass_kg: float,
    center_from_axles_m: float,
    center_height_m: float,
    jack_from_axles_m: float,
    nose_down_rad: float,
) -> JackOnSlope:
    """Force on a jack, and on the chocks, of a trailer uncoupled on a slope.

    F = m g (a cos α + h sin α)/L: moments about the chocked wheels where they touch the ground.

    Parameters
    ----------
    mass_kg : float
        Trailer with its cargo [kg].
    center_from_axles_m : float
        Center of mass ahead of the axles' middle; below zero behind it [m].
    center_height_m : float
        Center of mass above the ground [m].
    jack_from_axles_m : float
        Jack ahead of the axles' middle [m].
    nose_down_rad : float
        Slope with the nose downhill; below zero with the nose uphill [rad].

    Returns
    -------
    JackOnSlope
        Force on the jack, on the chocks, and whether the nose would lift.

    Raises
    ------
    OutOfRange
        If mass, height or the jack's distance is not above zero, or the slope outside 30° either way.

    Notes
    -----
    Wheels chocked, jack foot blocked so that it cannot slide, equalized axles. Nose uphill takes load off the jack:
    with a high center it can lift. Better: uncouple on the level.

    Examples
    --------
    9,000 lb, 30 in ahead and 40 in up, jack at 200 in: 1,350 lbf level, 1,502 lbf on 5° nose down.

    >>> from sendoff.units import from_si
    >>> inch = 0.0254
    >>> found = jack_force_on_slope(9000 * 0.45359237, 30 * inch, 40 * inch, 200 * inch, math.radians(5))
    >>> round(from_si(found.jack_N, "lbf", "force")), round(from_si(found.chocks_N, "lbf", "force"))
    (1502, 784)

    References
    ----------
    .. [1] statics, moments about the axles
    """
    require_positive(mass_kg=mass_kg, center_height_m=center_height_m, jack_from_axles_m=jack_from_axles_m)
    require_between(-1000.0, 1000.0, "m", center_from_axles_m=center_from_axles_m)
    require_between(-math.radians(30), math.radians(30), "rad", nose_down_rad=nose_down_rad)
    turning_m = center_from_axles_m * math.cos(nose_down_rad) + center_height_m * math.sin(nose_down_rad)
    jack_N = mass_kg * G * turning_m / jack_from_axles_m
    return JackOnSlope(jack_N, mass_kg * G * abs(math.sin(nose_down_rad)), jack_N < 0)
