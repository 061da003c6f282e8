"""Angles: of a ramp, of a vehicle's ends and belly, and whether the vehicle passes foot and crest of the ramp."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange

QUARTER: Final = math.pi / 2


@calculation(
    "ramps",
    "sin α = h / l",
    gives="ramp_rad",
    symbols={"rise_m": "h", "ramp_length_m": "l", "ramp_rad": "α"},
)
def ramp_angle(rise_m: float, ramp_length_m: float) -> float:
    """Angle of a loading ramp.

    sin α = h/l, with the length along the ramp.

    Parameters
    ----------
    rise_m : float
        Height of the deck's edge above the ground the ramp stands on [m].
    ramp_length_m : float
        Length of the ramp, along it [m].

    Returns
    -------
    float
        Angle above level [rad].

    Raises
    ------
    OutOfRange
        If the length is not above zero, the rise below zero, or the rise more than the length.

    Notes
    -----
    Level ground. A trailer nose-up or on a slope adds its own angle.

    Examples
    --------
    24 in up with a 72 in ramp: 19.47°.

    >>> round(math.degrees(ramp_angle(24 * 0.0254, 72 * 0.0254)), 2)
    19.47

    References
    ----------
    .. [1] geometry, sine
    """
    require_positive(ramp_length_m=ramp_length_m)
    require_not_negative(rise_m=rise_m)
    if rise_m > ramp_length_m:
        raise OutOfRange("rise_m", rise_m, "must not be more than the length of the ramp")
    return math.asin(rise_m / ramp_length_m)


@calculation(
    "ramps",
    "l = h / sin α",
    gives="ramp_length_m",
    symbols={"rise_m": "h", "ramp_rad": "α", "ramp_length_m": "l"},
)
def least_ramp_length(rise_m: float, ramp_rad: float) -> float:
    """How long a ramp must be to keep an angle.

    l = h/sin α.

    Parameters
    ----------
    rise_m : float
        Height of the deck's edge [m].
    ramp_rad : float
        Steepest angle wanted [rad].

    Returns
    -------
    float
        Length along the ramp [m].

    Raises
    ------
    OutOfRange
        If the rise is below zero or the angle outside 1 to 90°.

    Notes
    -----
    Level ground.

    Examples
    --------
    >>> round(least_ramp_length(0.6096, math.radians(14.48)) / 0.0254)
    96

    References
    ----------
    .. [1] geometry, sine
    """
    require_not_negative(rise_m=rise_m)
    require_between(math.radians(1), QUARTER, "rad", ramp_rad=ramp_rad)
    return rise_m / math.sin(ramp_rad)


@calculation(
    "ramps",
    "tan α = h / o",
    gives="approach_rad",
    symbols={"bumper_height_m": "h", "overhang_m": "o", "approach_rad": "α"},
)
def approach_angle(bumper_height_m: float, overhang_m: float) -> float:
    """Approach angle of a vehicle from its bumper.

    tan α = h/o: height of the lowest point of the nose over its distance ahead of the tire's foot.

    Parameters
    ----------
    bumper_height_m : float
        Lowest point of the nose above the ground [m].
    overhang_m : float
        That point ahead of where the front tires touch [m].

    Returns
    -------
    float
        Approach angle [rad].

    Raises
    ------
    OutOfRange
        If height or overhang is not above zero.

    Notes
    -----
    Bumper point; an air dam or hook lower down decides. The tire's round adds a little.

    Examples
    --------
    9 in up, 34 in ahead: 14.83°.

    >>> round(math.degrees(approach_angle(9 * 0.0254, 34 * 0.0254)), 2)
    14.83

    References
    ----------
    .. [1] 49cfr523, 523.2
    """
    require_positive(bumper_height_m=bumper_height_m, overhang_m=overhang_m)
    return math.atan2(bumper_height_m, overhang_m)


@calculation(
    "ramps",
    "tan α = h / o",
    gives="departure_rad",
    symbols={"bumper_height_m": "h", "overhang_m": "o", "departure_rad": "α"},
)
def departure_angle(bumper_height_m: float, overhang_m: float) -> float:
    """Departure angle of a vehicle, or of a trailer's tail.

    tan α = h/o at the rear end.

    Parameters
    ----------
    bumper_height_m : float
        Lowest point of the tail above the ground [m].
    overhang_m : float
        That point behind where the last tires touch [m].

    Returns
    -------
    float
        Departure angle [rad].

    Raises
    ------
    OutOfRange
        If height or overhang is not above zero.

    Notes
    -----
    As `approach_angle`. A trailer's jack, spare or guard may be lower.

    Examples
    --------
    >>> round(math.degrees(departure_angle(0.4, 1.2)), 1)
    18.4

    References
    ----------
    .. [1] 49cfr523, 523.2
    """
    require_positive(bumper_height_m=bumper_height_m, overhang_m=overhang_m)
    return math.atan2(bumper_height_m, overhang_m)


@calculation(
    "ramps",
    "tan(β / 2) = 2 h / L",
    gives="breakover_rad",
    symbols={"wheelbase_m": "L", "belly_height_m": "h", "breakover_rad": "β"},
)
def breakover_angle(wheelbase_m: float, belly_height_m: float) -> float:
    """Breakover angle of a vehicle: the sharpest knee it can straddle.

    β = 2 atan(2 h/L), belly in the middle between the axles.

    Parameters
    ----------
    wheelbase_m : float
        Wheelbase [m].
    belly_height_m : float
        Lowest point between the axles above the ground [m].

    Returns
    -------
    float
        Breakover angle [rad].

    Raises
    ------
    OutOfRange
        If wheelbase or height is not above zero.

    Notes
    -----
    Lowest point in the middle; elsewhere it passes more. Springs sag on the crest.

    Examples
    --------
    A 110 in wheelbase with 6 in under it: 12.45°.

    >>> round(math.degrees(breakover_angle(110 * 0.0254, 6 * 0.0254)), 2)
    12.45

    References
    ----------
    .. [1] 49cfr523, 523.2
    .. [2] geometry, chord over a knee
    """
    require_positive(wheelbase_m=wheelbase_m, belly_height_m=belly_height_m)
    return 2 * math.atan(2 * belly_height_m / wheelbase_m)


@dataclass(frozen=True, slots=True)
class CrestCheck:
    """A belly over the knee of ramp and deck."""

    knee_rad: float
    crest_m: float
    """How far the knee stands up into the belly, wheels each side of it."""
    clearance_m: float
    """Left over; below zero it touches."""
    passes: bool


@calculation(
    "ramps",
    "crest = L / 2 · tan(κ / 2), clearance = h − crest, κ = ramp angle − deck angle",
    symbols={
        "wheelbase_m": "L",
        "belly_height_m": "h",
        "ramp_rad": "ramp angle",
        "deck_rad": "deck angle",
        "knee_rad": "κ",
        "crest_m": "crest",
        "clearance_m": "clearance",
    },
)
def crest_check(
    wheelbase_m: float, belly_height_m: float, ramp_rad: float, deck_rad: float = 0.0, spring_m: float = 0.0
) -> CrestCheck:
    """Whether a vehicle's belly clears the knee between ramp and deck.

    The knee stands L/2 · tan(κ/2) above the line of the wheels; the rest of the belly height is the clearance.

    Parameters
    ----------
    wheelbase_m : float
        Wheelbase [m].
    belly_height_m : float
        Lowest point between the axles above the ground [m].
    ramp_rad : float
        Angle of the ramp above level [rad].
    deck_rad : float
        Angle of the deck it leads onto, rising the same way, zero when level; below zero if it falls away [rad].
    spring_m : float
        Sag of the springs to allow for [m].

    Returns
    -------
    CrestCheck
        Knee, height of the crest, clearance, passes or not.

    Raises
    ------
    OutOfRange
        If a measure is not above zero, an angle outside ±60°, or the knee bends the other way.

    Notes
    -----
    Wheels equally far from the knee, belly lowest in the middle: the worst case. Long ramps or boards soften it.

    Examples
    --------
    A low car, 110 in and 5 in, on a 14.48° ramp: it grounds by 2 in.

    >>> found = crest_check(110 * 0.0254, 5 * 0.0254, math.radians(14.48))
    >>> found.passes, round(found.clearance_m / 0.0254, 2)
    (False, -1.99)

    References
    ----------
    .. [1] geometry, chord over a knee
    """
    require_positive(wheelbase_m=wheelbase_m, belly_height_m=belly_height_m)
    require_not_negative(spring_m=spring_m)
    require_between(-math.pi / 3, math.pi / 3, "rad", ramp_rad=ramp_rad, deck_rad=deck_rad)
    knee_rad = ramp_rad - deck_rad
    if knee_rad < 0:
        raise OutOfRange(
            "deck_rad", deck_rad, "must not rise more steeply than the ramp: that is a dip, not a crest"
        )
    crest_m = wheelbase_m / 2 * math.tan(knee_rad / 2)
    clearance_m = belly_height_m - spring_m - crest_m
    return CrestCheck(knee_rad, crest_m, clearance_m, clearance_m > 0)


@dataclass(frozen=True, slots=True)
class LoadingCheck:
    """A vehicle over a ramp, from its foot to the deck."""

    ramp_rad: float
    nose_margin_rad: float
    """Approach angle less ramp angle; below zero the nose scrapes at the foot."""
    belly_clearance_m: float
    tail_margin_rad: float
    """Departure angle less ramp angle, as the tail leaves the ground."""
    passes: bool
    first_to_touch: str
    """nose, belly, tail, or empty."""
    least_ramp_m: float
    """Length of ramp that would pass all three on a level deck."""


@calculation(
    "ramps",
    "ramp angle ≤ approach, ≤ departure, ≤ breakover",
    symbols={"rise_m": "h", "ramp_length_m": "l", "wheelbase_m": "L", "belly_height_m": "b", "ramp_rad": "α"},
)
def loading_check(
    rise_m: float,
    ramp_length_m: float,
    wheelbase_m: float,
    belly_height_m: float,
    approach_rad: float,
    departure_rad: float,
) -> LoadingCheck:
    """Whether a vehicle drives onto a level deck without touching, and how long a ramp would do.

    The ramp's angle against approach angle at its foot, breakover at its crest, departure angle behind.

    Parameters
    ----------
    rise_m : float
        Height of the deck's edge [m].
    ramp_length_m : float
        Length of the ramp [m].
    wheelbase_m : float
        Wheelbase [m].
    belly_height_m : float
        Lowest point between the axles [m].
    approach_rad : float
        Approach angle of the vehicle [rad].
    departure_rad : float
        Departure angle of the vehicle [rad].

    Returns
    -------
    LoadingCheck
        Ramp angle, margins, what touches first, and the length that would pass.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    Level ground and deck, driven forward. Backing on swaps approach and departure.

    Examples
    --------
    >>> found = loading_check(0.61, 2.44, 2.8, 0.13, math.radians(13), math.radians(18))
    >>> found.first_to_touch, round(found.least_ramp_m, 1)
    ('belly', 3.3)

    References
    ----------
    .. [1] geometry, angles
    .. [2] 49cfr523, 523.2
    """
    require_between(math.radians(1), QUARTER, "rad", approach_rad=approach_rad, departure_rad=departure_rad)
    angle = ramp_angle(rise_m, ramp_length_m)
    if angle > math.pi / 3:
        raise OutOfRange("ramp_length_m", ramp_length_m, "must make a ramp of no more than 60°")
    crest = crest_check(wheelbase_m, belly_height_m, angle)
    breakover = breakover_angle(wheelbase_m, belly_height_m)
    margins = {"nose": approach_rad - angle, "belly": breakover - angle, "tail": departure_rad - angle}
    worst = min(margins, key=lambda part: margins[part])
    passes = margins[worst] > 0
    steepest = min(approach_rad, breakover, departure_rad, QUARTER)
    needed_m = least_ramp_length(rise_m, max(steepest, math.radians(1)))
    return LoadingCheck(
        angle, margins["nose"], crest.clearance_m, margins["tail"], passes, "" if passes else worst, needed_m
    )


@dataclass(frozen=True, slots=True)
class OffHighway:
    """A vehicle against the five off-highway figures."""

    met_count: int
    four_of_five: bool
    met: tuple[str, ...]


@calculation(
    "ramps",
    "approach ≥ 28°, breakover ≥ 14°, departure ≥ 20°, running clearance ≥ 20 cm, axle clearance ≥ 18 cm; four of five",
)
def off_highway_check(
    approach_rad: float, breakover_rad: float, departure_rad: float, running_m: float, axle_m: float
) -> OffHighway:
    """How many of the five federal off-highway figures a vehicle meets, as a yardstick for rough yards.

    Approach 28°, breakover 14°, departure 20°, running clearance 20 cm, axle clearance 18 cm: four of them count.

    Parameters
    ----------
    approach_rad : float
        Approach angle [rad].
    breakover_rad : float
        Breakover angle [rad].
    departure_rad : float
        Departure angle [rad].
    running_m : float
        Running clearance [m].
    axle_m : float
        Clearance under the axles [m].

    Returns
    -------
    OffHighway
        Number met, four or more, and which.

    Raises
    ------
    OutOfRange
        If a value is below zero.

    Notes
    -----
    Written to class vehicles for fuel economy; here only a yardstick.

    Examples
    --------
    >>> off_highway_check(math.radians(30), math.radians(15), math.radians(22), 0.21, 0.17).four_of_five
    True

    References
    ----------
    .. [1] 49cfr523, 523.5(b)(2)
    """
    given = {
        "approach_rad": (approach_rad, math.radians(28)),
        "breakover_rad": (breakover_rad, math.radians(14)),
        "departure_rad": (departure_rad, math.radians(20)),
        "running_m": (running_m, 0.20),
        "axle_m": (axle_m, 0.18),
    }
    met = []
    for name, (value, least) in given.items():
        require_not_negative(**{name: value})
        if value >= least - 1e-9:
            met.append(name.rpartition("_")[0])
    return OffHighway(len(met), len(met) >= 4, tuple(met))
