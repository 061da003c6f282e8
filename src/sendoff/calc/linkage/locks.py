"""Locks: what lock pins carry and how thick they must be, tipping, and whether a raised body may be worked at."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2 as G


@dataclass(frozen=True, slots=True)
class LockPinLoad:
    """What the lock pins of a raised deck carry."""

    total_N: float
    each_N: float
    one_missing_N: float | None
    """Each of the others if one is left out; none if there is only one."""


@calculation(
    "linkage",
    "F = (m deck b deck + m cargo b cargo) g s / (c n)",
    symbols={
        "deck_kg": "m deck",
        "cargo_kg": "m cargo",
        "deck_x_m": "b deck",
        "cargo_x_m": "b cargo",
        "lock_pin_x_m": "c",
        "lock_pin_count": "n",
        "shock_number": "s",
        "each_N": "F",
    },
)
def lock_pin_load(
    deck_kg: float,
    cargo_kg: float,
    deck_x_m: float,
    cargo_x_m: float,
    lock_pin_x_m: float,
    lock_pin_count: int = 2,
    shock_number: float = 1.0,
) -> LockPinLoad:
    """What the lock pins of a hinged, raised deck carry.

    Moments of deck and cargo about the hinge, over the distance of the lock pins and their number.

    Parameters
    ----------
    deck_kg : float
        Mass of the deck [kg].
    cargo_kg : float
        Mass of the cargo on it [kg].
    deck_x_m : float
        Deck's center from the hinge [m].
    cargo_x_m : float
        Cargo's center from the hinge [m].
    lock_pin_x_m : float
        Line of the lock pins from the hinge [m].
    lock_pin_count : int
        Lock pins on that line, one at each cylinder [-].
    shock_number : float
        Factor for the road's shocks, 1 at rest [-].

    Returns
    -------
    LockPinLoad
        All together, each if shared evenly, and each of the others if one is left out.

    Raises
    ------
    OutOfRange
        If a mass is below zero, a distance not above zero, the number outside 1 to 12, or the factor under 1.

    Notes
    -----
    Level deck resting on its lock pins, not on oil. For a deck that rises level give the distances of its two ends'
    shares.

    Examples
    --------
    A 600 kg deck with 2,000 kg in its middle, lock pins at its far end: half of it all on two.

    >>> round(lock_pin_load(600.0, 2000.0, 2.5, 2.5, 5.0).each_N)
    6374

    References
    ----------
    .. [1] statics, moments about the hinge
    """
    require_not_negative(deck_kg=deck_kg, cargo_kg=cargo_kg)
    require_positive(deck_x_m=deck_x_m, cargo_x_m=cargo_x_m, lock_pin_x_m=lock_pin_x_m)
    require_between(1.0, 10.0, shock_number=shock_number)
    if not 1 <= lock_pin_count <= 12:
        raise OutOfRange("lock_pin_count", lock_pin_count, "must lie from 1 to 12")
    total_N = (deck_kg * deck_x_m + cargo_kg * cargo_x_m) * G * shock_number / lock_pin_x_m
    return LockPinLoad(
        total_N, total_N / lock_pin_count, total_N / (lock_pin_count - 1) if lock_pin_count > 1 else None
    )


@dataclass(frozen=True, slots=True)
class LockPinSize:
    """Least size of a lock pin."""

    area_m2: float
    diameter_m: float
    whole_mm_m: float
    """Rounded up to the next whole millimeter."""


@calculation(
    "linkage",
    "A = F f / (planes τ), d = √(4 A / π), rounded up",
    symbols={
        "force_N": "F",
        "factor_number": "f",
        "shear_strength_Pa": "τ",
        "plane_count": "planes",
        "area_m2": "A",
    },
)
def lock_pin_diameter(
    force_N: float, shear_strength_Pa: float, factor_number: float, plane_count: int = 2
) -> LockPinSize:
    """Least diameter of a lock pin in shear, rounded up.

    A = F f/(planes τ) and d = √(4 A/π); never rounded down.

    Parameters
    ----------
    force_N : float
        Force on the lock pin [N].
    shear_strength_Pa : float
        Shear strength of its steel [Pa].
    factor_number : float
        Factor against that strength [-].
    plane_count : int
        Shear planes: two in a fork, one at a bracket [-].

    Returns
    -------
    LockPinSize
        Area, diameter, and the whole millimeter above.

    Raises
    ------
    OutOfRange
        If force or strength is not above zero, the factor under 1, or the planes are not 1 or 2.

    Notes
    -----
    Shear only; bending in a wide fork and wear of the hole are not in it.

    Examples
    --------
    1,700 N, 20 MPa, factor 5, two planes: 16.45 mm, so 17 (a public answer rounds down to 16).

    >>> found = lock_pin_diameter(1700.0, 20e6, 5.0)
    >>> round(found.diameter_m * 1000, 2), round(found.whole_mm_m * 1000)
    (16.45, 17)

    References
    ----------
    .. [1] lock_pin_exercise, double shear
    """
    require_positive(force_N=force_N, shear_strength_Pa=shear_strength_Pa)
    require_between(1.0, 100.0, factor_number=factor_number)
    if plane_count not in {1, 2}:
        raise OutOfRange("plane_count", plane_count, "must be 1 or 2")
    area_m2 = force_N * factor_number / (plane_count * shear_strength_Pa)
    diameter_m = math.sqrt(4 * area_m2 / math.pi)
    return LockPinSize(area_m2, diameter_m, math.ceil(diameter_m * 1000 - 1e-9) / 1000)


@dataclass(frozen=True, slots=True)
class SideTip:
    """A vehicle with a mass out to one side."""

    near_N: float
    """Wheels on the side of the mass."""
    far_N: float
    """Wheels on the other side; at zero it tips."""
    tips: bool
    tipping_kg: float | None
    """Mass out there at which it tips; none if the mass stands within the wheels."""


@calculation(
    "linkage",
    "N far = g (m1 L1 − m2 (x − L1)) / (2 L1), N near = g (m1 + m2) − N far",
    symbols={
        "vehicle_kg": "m1",
        "half_track_m": "L1",
        "side_kg": "m2",
        "side_x_m": "x",
        "near_N": "N near",
        "far_N": "N far",
    },
)
def side_tip(vehicle_kg: float, half_track_m: float, side_kg: float, side_x_m: float) -> SideTip:
    """Wheel forces left and right of a vehicle with a mass out to one side, and when it tips.

    Moments about each line of wheels; it tips when the far wheels carry nothing.

    Parameters
    ----------
    vehicle_kg : float
        Mass of the vehicle, in its middle [kg].
    half_track_m : float
        Wheels from the middle, each side [m].
    side_kg : float
        Mass out to the side [kg].
    side_x_m : float
        That mass from the middle, level [m].

    Returns
    -------
    SideTip
        Forces, tips or not, and the mass at which it would.

    Raises
    ------
    OutOfRange
        If the vehicle's mass or the track is not above zero, or the mass or its distance below zero.

    Notes
    -----
    Level, firm ground, stiff springs. Soft ground and springs tip it earlier.

    Examples
    --------
    2,000 kg, wheels 1.4 m out, 400 kg on an 8 m arm 30° up: 2,063 and 21,480 N; it tips with 506 kg.

    >>> found = side_tip(2000.0, 1.4, 400.0, 8 * 0.8660254)
    >>> round(found.far_N / 10) * 10, round(found.near_N / 10) * 10, round(found.tipping_kg)
    (2060, 21470, 506)

    References
    ----------
    .. [1] statics_course, case study 5.2
    """
    require_positive(vehicle_kg=vehicle_kg, half_track_m=half_track_m)
    require_not_negative(side_kg=side_kg, side_x_m=side_x_m)
    beyond_m = side_x_m - half_track_m
    far_N = G * (vehicle_kg * half_track_m - side_kg * beyond_m) / (2 * half_track_m)
    near_N = G * (vehicle_kg + side_kg) - far_N
    tipping_kg = vehicle_kg * half_track_m / beyond_m if beyond_m > 1e-9 else None
    return SideTip(near_N, far_N, far_N <= 0, tipping_kg)


@calculation(
    "linkage",
    "tan α = (track / 2) / h",
    gives="slope_rad",
    symbols={"track_m": "track", "center_height_m": "h", "slope_rad": "α"},
)
def side_slope_limit(track_m: float, center_height_m: float) -> float:
    """Side slope at which a standing trailer tips, its body raised or down.

    tan α = (track/2)/h.

    Parameters
    ----------
    track_m : float
        Distance between the outer lines of wheels [m].
    center_height_m : float
        Height of the center of mass, body as it stands [m].

    Returns
    -------
    float
        Slope at which it tips [rad].

    Raises
    ------
    OutOfRange
        If a measure is not above zero.

    Notes
    -----
    Stiff tires and springs, load that stays: an upper figure. A stuck load high in a raised body halves it; dump
    only level.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(side_slope_limit(2.0, 2.5)), 1)
    21.8

    References
    ----------
    .. [1] statics, line of gravity through the wheel line
    """
    require_positive(track_m=track_m, center_height_m=center_height_m)
    return math.atan(track_m / 2 / center_height_m)


@calculation("linkage", "down or blocked, never on oil", gives="may_go_under")
def raised_body_check(state: Literal["down", "blocked", "on_oil"]) -> bool:
    """Whether a dump body or deck stands so that somebody may work at it.

    Fully down, or blocked by its own fixed support; never held by oil.

    Parameters
    ----------
    state : {"down", "blocked", "on_oil"}
        Fully down, held by its prop or lock pins, or held by the cylinder only.

    Returns
    -------
    bool
        True if down or blocked.

    Raises
    ------
    OutOfRange
        If the word is another one.

    Notes
    -----
    Written for building sites; sound practice everywhere. The prop is for an empty body only.

    Examples
    --------
    >>> raised_body_check("on_oil")
    False

    References
    ----------
    .. [1] 29cfr1926, 1926.600(a)(3)(i), 1926.601(b)(10)
    """
    if state not in {"down", "blocked", "on_oil"}:
        raise OutOfRange("state", state, "must be down, blocked or on_oil")
    return state != "on_oil"
