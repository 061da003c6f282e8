"""The truck as a beam on two axles, and what a coupling does to them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import each_finite, each_not_negative, finite, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "statics"


@dataclass(frozen=True, slots=True)
class AxleShift:
    """What a coupling load changes on the truck's axles; a minus is taken off."""

    front_axle_change_kg: float
    rear_axle_change_kg: float


@dataclass(frozen=True, slots=True)
class TruckLoads:
    """What the truck weighs on each axle."""

    front_axle_load_kg: float
    rear_axle_load_kg: float
    truck_mass_kg: float


@dataclass(frozen=True, slots=True)
class CenterFromAxles:
    """Where a vehicle's center of mass lies between its axles."""

    vehicle_mass_kg: float
    center_behind_front_axle_m: float
    center_ahead_of_rear_axle_m: float


@calculation(
    FAMILY,
    "ΔF = −T·o / wb,  ΔR = T·(wb + o) / wb",
    symbols={
        "coupling_load_kg": "T",
        "wheelbase_m": "wb",
        "coupling_behind_rear_axle_m": "o",
        "front_axle_change_kg": "ΔF",
        "rear_axle_change_kg": "ΔR",
    },
)
def truck_axle_shift(
    coupling_load_kg: float, wheelbase_m: float, coupling_behind_rear_axle_m: float
) -> AxleShift:
    """What the coupling load does to the truck's front and rear axle.

    ΔF = −T·o / wb and ΔR = T·(wb + o) / wb. An overhung ball (o above zero) lifts the front axle; a ball in the bed
    ahead of the rear axle (o below zero) loads both.

    Parameters
    ----------
    coupling_load_kg : float
        Load on ball, pintle or fifth wheel [kg].
    wheelbase_m : float
        Between the truck's axles [m].
    coupling_behind_rear_axle_m : float
        How far behind the rear axle the coupling sits; a minus is ahead of it [m].

    Returns
    -------
    AxleShift
        Change of the front and of the rear axle load [kg].

    Raises
    ------
    OutOfRange
        If the wheelbase is not above zero or the coupling lies ahead of the front axle.

    Notes
    -----
    For weight-distribution bars that are slack; tight bars give back some of the front axle's loss.

    Examples
    --------
    Textbook: 820 lb on a ball 52 in behind the rear axle of a 145 in wheelbase: the rear axle gains 1,114.1 lb and
    the front axle loses 294.1 lb.

    >>> shift = truck_axle_shift(820.0, 145.0, 52.0)
    >>> round(shift.rear_axle_change_kg, 1), round(shift.front_axle_change_kg, 1)
    (1114.1, -294.1)

    References
    ----------
    .. [1] statics, moments about either axle
    """
    positive(wheelbase_m=wheelbase_m)
    finite(coupling_load_kg=coupling_load_kg, coupling_behind_rear_axle_m=coupling_behind_rear_axle_m)
    if coupling_behind_rear_axle_m < -wheelbase_m:
        raise OutOfRange(
            "coupling_behind_rear_axle_m", coupling_behind_rear_axle_m, "must not lie ahead of the front axle"
        )
    off_front = coupling_load_kg * (coupling_behind_rear_axle_m / wheelbase_m)
    return AxleShift(-off_front if off_front else 0.0, coupling_load_kg + off_front)


@calculation(
    FAMILY,
    "F = F₀ + Σw·(1 − x/wb) − T·o/wb,  R = R₀ + Σw·x/wb + T·(wb + o)/wb",
    symbols={
        "front_axle_empty_kg": "F₀",
        "rear_axle_empty_kg": "R₀",
        "wheelbase_m": "wb",
        "coupling_load_kg": "T",
        "coupling_behind_rear_axle_m": "o",
        "added_mass_kg": "w",
        "added_behind_front_axle_m": "x",
        "front_axle_load_kg": "F",
        "rear_axle_load_kg": "R",
    },
)
def truck_axle_loads(
    front_axle_empty_kg: float,
    rear_axle_empty_kg: float,
    wheelbase_m: float,
    coupling_load_kg: float = 0.0,
    coupling_behind_rear_axle_m: float = 0.0,
    added_mass_kg: tuple[float, ...] = (),
    added_behind_front_axle_m: tuple[float, ...] = (),
) -> TruckLoads:
    """What the truck's axles carry with people, gear and the coupling load.

    Each added mass is shared by its place between the axles; the coupling load as in `truck_axle_shift`.

    Parameters
    ----------
    front_axle_empty_kg : float
        Front axle on the scale, as the truck stood there [kg].
    rear_axle_empty_kg : float
        Rear axle on the scale [kg].
    wheelbase_m : float
        Between the axles [m].
    coupling_load_kg : float
        Load on the coupling [kg].
    coupling_behind_rear_axle_m : float
        How far behind the rear axle the coupling sits; a minus is ahead of it [m].
    added_mass_kg : tuple of float
        People and gear that were not on the scale [kg].
    added_behind_front_axle_m : tuple of float
        How far behind the front axle each of them sits [m].

    Returns
    -------
    TruckLoads
        Front and rear axle load and the truck's mass [kg].

    Raises
    ------
    OutOfRange
        If a mass is below zero, the wheelbase is not above zero, the lists differ, or an axle would leave the
        ground.

    Notes
    -----
    Weigh the truck as built, with what is always aboard: options add hundreds of pounds over the brochure.

    Examples
    --------
    >>> loads = truck_axle_loads(1800.0, 1300.0, 3.7, 372.0, 1.3)
    >>> round(loads.front_axle_load_kg), round(loads.rear_axle_load_kg), loads.truck_mass_kg
    (1669, 1803, 3472.0)

    References
    ----------
    .. [1] statics, moments about either axle
    """
    not_negative(
        front_axle_empty_kg=front_axle_empty_kg,
        rear_axle_empty_kg=rear_axle_empty_kg,
        coupling_load_kg=coupling_load_kg,
    )
    each_not_negative(added_mass_kg=added_mass_kg)
    each_finite(added_behind_front_axle_m=added_behind_front_axle_m)
    if len(added_mass_kg) != len(added_behind_front_axle_m):
        raise OutOfRange(
            "added_behind_front_axle_m",
            len(added_behind_front_axle_m),
            f"must have as many items as added_mass_kg, {len(added_mass_kg)}",
        )
    shift = truck_axle_shift(coupling_load_kg, wheelbase_m, coupling_behind_rear_axle_m)
    added = math.fsum(added_mass_kg)
    places = zip(added_mass_kg, added_behind_front_axle_m, strict=True)
    on_rear = math.fsum(mass * (place / wheelbase_m) for mass, place in places)
    front = front_axle_empty_kg + (added - on_rear) + shift.front_axle_change_kg
    if front < 0:
        raise OutOfRange("coupling_load_kg", coupling_load_kg, "must leave the front axle on the ground")
    total = front_axle_empty_kg + rear_axle_empty_kg + added + coupling_load_kg
    if total - front < 0:
        raise OutOfRange(
            "added_behind_front_axle_m", added_behind_front_axle_m, "must leave the rear axle on the ground"
        )
    return TruckLoads(front, total - front, total)


@calculation(
    FAMILY,
    "a = R·wb / (F + R)",
    symbols={
        "front_axle_load_kg": "F",
        "rear_axle_load_kg": "R",
        "wheelbase_m": "wb",
        "center_behind_front_axle_m": "a",
    },
)
def center_from_axle_loads(
    front_axle_load_kg: float, rear_axle_load_kg: float, wheelbase_m: float
) -> CenterFromAxles:
    """Where the center of mass of a truck or car lies, from its two axle weights.

    a = R·wb / (F + R).

    Parameters
    ----------
    front_axle_load_kg : float
        Front axle on the scale [kg].
    rear_axle_load_kg : float
        Rear axle on the scale [kg].
    wheelbase_m : float
        Between the axles [m].

    Returns
    -------
    CenterFromAxles
        Mass [kg], and the center's distance from each axle [m].

    Raises
    ------
    OutOfRange
        If a weight is below zero, both are zero, or the wheelbase is not above zero.

    Notes
    -----
    Both axles on the same level, wheels straight, brakes off.

    Examples
    --------
    >>> round(center_from_axle_loads(900.0, 600.0, 2.5).center_behind_front_axle_m, 3)
    1.0

    References
    ----------
    .. [1] statics, moments about the front axle
    """
    not_negative(front_axle_load_kg=front_axle_load_kg, rear_axle_load_kg=rear_axle_load_kg)
    positive(wheelbase_m=wheelbase_m)
    total = front_axle_load_kg + rear_axle_load_kg
    if total <= 0:
        raise OutOfRange("front_axle_load_kg", front_axle_load_kg, "must not be zero on both axles")
    behind = wheelbase_m * (rear_axle_load_kg / total)
    return CenterFromAxles(total, behind, wheelbase_m - behind)
