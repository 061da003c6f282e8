"""Loads: what axles and ramps carry while a vehicle climbs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2 as G


@dataclass(frozen=True, slots=True)
class SlopeLoads:
    """Axle loads of a vehicle on a slope, square to the ramp."""

    upper_N: float
    lower_N: float
    lower_share_ratio: float


@calculation(
    "ramps",
    "N lower = m g (a cos α + h sin α) / L, N upper = m g cos α − N lower",
    symbols={
        "mass_kg": "m",
        "center_from_upper_m": "a",
        "center_height_m": "h",
        "wheelbase_m": "L",
        "ramp_rad": "α",
        "lower_N": "N lower",
        "upper_N": "N upper",
    },
)
def axle_loads_on_slope(
    mass_kg: float, wheelbase_m: float, center_from_upper_m: float, center_height_m: float, ramp_rad: float
) -> SlopeLoads:
    """Axle loads of a vehicle standing on a ramp: the lower axle takes more.

    Moments about the upper axle's foot: N lower = m g (a cos α + h sin α)/L.

    Parameters
    ----------
    mass_kg : float
        Mass of the vehicle [kg].
    wheelbase_m : float
        Wheelbase [m].
    center_from_upper_m : float
        Center of mass from the uphill axle, along the vehicle [m].
    center_height_m : float
        Center of mass above the ramp [m].
    ramp_rad : float
        Angle of the ramp [rad].

    Returns
    -------
    SlopeLoads
        Loads square to the ramp, and the lower axle's share.

    Raises
    ------
    OutOfRange
        If mass or wheelbase is not above zero, the center not between the axles, its height below zero, the angle
        outside 0 to 45°, or the vehicle would tip over backward.

    Notes
    -----
    Both axles on the slope, held by its brakes.

    Examples
    --------
    Level, center in the middle: half each.

    >>> found = axle_loads_on_slope(1000.0, 2.0, 1.0, 0.6, 0.0)
    >>> round(found.lower_share_ratio, 3)
    0.5

    References
    ----------
    .. [1] statics, moments about the upper axle
    """
    require_positive(mass_kg=mass_kg, wheelbase_m=wheelbase_m)
    require_not_negative(center_height_m=center_height_m)
    require_between(0.0, wheelbase_m, "m", center_from_upper_m=center_from_upper_m)
    require_between(0.0, math.pi / 4, "rad", ramp_rad=ramp_rad)
    weight_N = mass_kg * G
    lower_N = (
        weight_N
        * (center_from_upper_m * math.cos(ramp_rad) + center_height_m * math.sin(ramp_rad))
        / wheelbase_m
    )
    upper_N = weight_N * math.cos(ramp_rad) - lower_N
    if upper_N < 0:
        raise OutOfRange("ramp_rad", ramp_rad, "tips this vehicle over backward")
    return SlopeLoads(upper_N, lower_N, lower_N / (upper_N + lower_N))


@dataclass(frozen=True, slots=True)
class RampRating:
    """A pair of ramps held against a vehicle."""

    demand_kg: float
    """On the pair."""
    capacity_kg: float
    margin_kg: float
    each_kg: float
    enough: bool
    both_axles: bool
    """Whether both axles stand on the ramps at once."""


@calculation(
    "ramps",
    "demand = heaviest axle on the slope, or the whole vehicle if its wheelbase fits on the ramp",
    symbols={"mass_kg": "m", "wheelbase_m": "L", "ramp_length_m": "l", "demand_kg": "demand"},
)
def ramp_rating_check(
    mass_kg: float,
    heavy_axle_ratio: float,
    wheelbase_m: float,
    center_height_m: float,
    ramp_length_m: float,
    ramp_rad: float,
    pair_rating_kg: float,
) -> RampRating:
    """Whether a pair of ramps is rated for a vehicle climbing it.

    The heavier axle, driven first down the hill as it comes, with the slope's shift; the whole vehicle if it fits.

    Parameters
    ----------
    mass_kg : float
        Mass of the vehicle [kg].
    heavy_axle_ratio : float
        Share of the mass on its heavier axle, level [-].
    wheelbase_m : float
        Wheelbase [m].
    center_height_m : float
        Center of mass above the ground [m].
    ramp_length_m : float
        Length of the ramps [m].
    ramp_rad : float
        Angle of the ramps [rad].
    pair_rating_kg : float
        Rating of the pair, as marked: pair, not each [kg].

    Returns
    -------
    RampRating
        Demand on the pair, rating, margin, on each ramp, enough or not.

    Raises
    ------
    OutOfRange
        If a mass or length is not above zero, the share outside 50 to 95 %, or as `axle_loads_on_slope`.

    Notes
    -----
    The heavier axle is taken as the lower one: the worst way round. Ramps are rated for a wheelbase longer than
    themselves unless they say otherwise; two wheels on one edge are worse.

    Examples
    --------
    A 2,000 kg car with 55 % in front on 2.4 m ramps of 15°, 1,500 kg a pair.

    >>> found = ramp_rating_check(2000.0, 0.55, 2.7, 0.6, 2.4, math.radians(15), 1500.0)
    >>> found.enough, round(found.demand_kg)
    (True, 1178)

    References
    ----------
    .. [1] statics, moments about the upper axle
    .. [2] common_practice, ramps are rated by the pair
    """
    require_positive(mass_kg=mass_kg, ramp_length_m=ramp_length_m, pair_rating_kg=pair_rating_kg)
    require_between(0.5, 0.95, heavy_axle_ratio=heavy_axle_ratio)
    require_positive(wheelbase_m=wheelbase_m)
    loads = axle_loads_on_slope(
        mass_kg, wheelbase_m, heavy_axle_ratio * wheelbase_m, center_height_m, ramp_rad
    )
    both = wheelbase_m <= ramp_length_m
    demand_kg = mass_kg if both else loads.lower_N / G
    return RampRating(
        demand_kg,
        pair_rating_kg,
        pair_rating_kg - demand_kg,
        demand_kg / 2,
        demand_kg <= pair_rating_kg,
        both,
    )
