"""The trailer as a beam on two supports: its coupling and its axle group."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import (
    SMALLEST,
    each_finite,
    each_not_negative,
    finite,
    not_negative,
    positive,
    require_same_count,
)
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2

FAMILY: Final = "statics"


@dataclass(frozen=True, slots=True)
class CenterOfMass:
    """Total mass and where it acts; sideways and height are none where they were not given."""

    total_mass_kg: float
    center_x_m: float
    center_y_m: float | None
    center_z_m: float | None


@dataclass(frozen=True, slots=True)
class TrailerLoads:
    """What coupling and axle group carry; a negative coupling load lifts the truck's coupling."""

    coupling_load_kg: float
    axle_group_load_kg: float
    coupling_share_ratio: float


@dataclass(frozen=True, slots=True)
class LoadChange:
    """What changes on coupling and axle group; a minus is taken off."""

    coupling_change_kg: float
    axle_group_change_kg: float


@dataclass(frozen=True, slots=True)
class TwoSupports:
    """What two supports of a beam carry, as mass and as force."""

    first_load_kg: float
    second_load_kg: float
    first_force_N: float
    second_force_N: float


@dataclass(frozen=True, slots=True)
class CargoPlacement:
    """Share of the cargo that lies ahead of the axles, beside the guide of vehicle makers (60 to 65 %)."""

    ahead_of_axles_ratio: float
    guide_low_ratio: float
    guide_high_ratio: float


@calculation(
    FAMILY,
    "x̄ = Σ(m·x) / Σm",
    symbols={"item_mass_kg": "m", "item_x_m": "x", "total_mass_kg": "M", "center_x_m": "x̄"},
)
def center_of_mass(
    item_mass_kg: tuple[float, ...],
    item_x_m: tuple[float, ...],
    item_y_m: tuple[float, ...] = (),
    item_z_m: tuple[float, ...] = (),
) -> CenterOfMass:
    """Mass and center of mass of a trailer with everything on it.

    x̄ = Σ(m·x) / Σm, and the same sideways (y) and in height (z).

    Parameters
    ----------
    item_mass_kg : tuple of float
        Mass of each item, the empty trailer among them [kg].
    item_x_m : tuple of float
        How far behind the coupling the center of each item lies [m].
    item_y_m : tuple of float
        How far right of the middle each center lies; may be left out [m].
    item_z_m : tuple of float
        Height of each center above the ground; may be left out [m].

    Returns
    -------
    CenterOfMass
        Total mass [kg] and center [m].

    Raises
    ------
    OutOfRange
        If the lists differ in length, a mass is below zero or all are zero.

    Notes
    -----
    Holds for items that do not move. Live animals and sloshing liquids move: keep a reserve.

    Examples
    --------
    Masses of 1, 2 and 3 at 1, 2 and 3 balance at 14/6: (1·1 + 2·2 + 3·3) / 6.

    >>> center_of_mass((1.0, 2.0, 3.0), (1.0, 2.0, 3.0)).center_x_m
    2.3333333333333335

    References
    ----------
    .. [1] statics, center of mass of point masses
    """
    require_same_count(item_mass_kg=item_mass_kg, item_x_m=item_x_m)
    if item_y_m:
        require_same_count(item_mass_kg=item_mass_kg, item_y_m=item_y_m)
    if item_z_m:
        require_same_count(item_mass_kg=item_mass_kg, item_z_m=item_z_m)
    each_not_negative(item_mass_kg=item_mass_kg, item_z_m=item_z_m)
    each_finite(item_x_m=item_x_m, item_y_m=item_y_m)
    total = math.fsum(item_mass_kg)
    if total <= 0:
        raise OutOfRange("item_mass_kg", item_mass_kg, "must hold at least one mass above zero")

    def middle(places: tuple[float, ...]) -> float:
        center = math.fsum(mass * place / total for mass, place in zip(item_mass_kg, places, strict=True))
        return min(max(center, min(places)), max(places))  # a mean never lies outside; rounding might

    return CenterOfMass(
        total,
        middle(item_x_m),
        middle(item_y_m) if item_y_m else None,
        middle(item_z_m) if item_z_m else None,
    )


@calculation(
    FAMILY,
    "A = M·x̄ / L,  T = M − A",
    symbols={
        "total_mass_kg": "M",
        "center_x_m": "x̄",
        "axle_group_x_m": "L",
        "coupling_load_kg": "T",
        "axle_group_load_kg": "A",
        "coupling_share_ratio": "T/M",
    },
)
def trailer_loads(total_mass_kg: float, center_x_m: float, axle_group_x_m: float) -> TrailerLoads:
    """Pin weight or tongue weight and axle-group load of a trailer from its center of mass.

    A = M·x̄ / L and T = M − A: moments about the coupling.

    Parameters
    ----------
    total_mass_kg : float
        Mass of trailer and cargo [kg].
    center_x_m : float
        How far behind the coupling the center of mass lies [m].
    axle_group_x_m : float
        How far behind the coupling the middle of the axle group lies [m].

    Returns
    -------
    TrailerLoads
        Coupling load, axle-group load [kg] and the coupling's share [-].

    Raises
    ------
    OutOfRange
        If mass or axle place is not above zero, or the center lies ahead of the coupling.

    Notes
    -----
    For a trailer with one equalized axle group, standing level. A center behind the axle group gives a negative
    coupling load: the trailer lifts the truck and will sway.

    Examples
    --------
    Textbook: 7,000 lb, center 20 in ahead of the axles, coupler 180 in ahead of them: 777.8 lb on the coupler.

    >>> loads = trailer_loads(7000.0, 160.0, 180.0)
    >>> round(loads.coupling_load_kg, 1), round(loads.axle_group_load_kg, 1)
    (777.8, 6222.2)

    References
    ----------
    .. [1] statics, moments about the coupling
    """
    positive(total_mass_kg=total_mass_kg, axle_group_x_m=axle_group_x_m)
    finite(center_x_m=center_x_m)
    if center_x_m < 0:
        raise OutOfRange("center_x_m", center_x_m, "must not lie ahead of the coupling")
    share = 1.0 - center_x_m / axle_group_x_m
    return TrailerLoads(total_mass_kg * share, total_mass_kg - total_mass_kg * share, share)


@calculation(
    FAMILY,
    "T = M·e / L,  A = M − T",
    symbols={
        "total_mass_kg": "M",
        "center_ahead_of_axles_m": "e",
        "coupling_to_axles_m": "L",
        "coupling_load_kg": "T",
        "axle_group_load_kg": "A",
        "coupling_share_ratio": "T/M",
    },
)
def tongue_load(
    total_mass_kg: float, center_ahead_of_axles_m: float, coupling_to_axles_m: float
) -> TrailerLoads:
    """Tongue weight or pin weight from how far the center of mass lies ahead of the axles.

    T = M·e / L.

    Parameters
    ----------
    total_mass_kg : float
        Mass of trailer and cargo [kg].
    center_ahead_of_axles_m : float
        How far ahead of the middle of the axle group the center of mass lies; a minus lies behind [m].
    coupling_to_axles_m : float
        From the coupling point to the middle of the axle group [m].

    Returns
    -------
    TrailerLoads
        Coupling load, axle-group load [kg] and the coupling's share [-].

    Raises
    ------
    OutOfRange
        If mass or distance is not above zero, or the center lies ahead of the coupling.

    Notes
    -----
    For a trailer with one equalized axle group, standing level.

    Examples
    --------
    >>> round(tongue_load(7000.0, 20.0, 180.0).coupling_share_ratio, 4)
    0.1111

    References
    ----------
    .. [1] statics, moments about the axle group
    """
    positive(total_mass_kg=total_mass_kg, coupling_to_axles_m=coupling_to_axles_m)
    finite(center_ahead_of_axles_m=center_ahead_of_axles_m)
    if center_ahead_of_axles_m > coupling_to_axles_m:
        raise OutOfRange(
            "center_ahead_of_axles_m", center_ahead_of_axles_m, "must not lie ahead of the coupling"
        )
    return trailer_loads(total_mass_kg, coupling_to_axles_m - center_ahead_of_axles_m, coupling_to_axles_m)


@calculation(
    FAMILY,
    "ΔT = w·x / L,  ΔA = w − ΔT",
    symbols={
        "item_mass_kg": "w",
        "item_ahead_of_axles_m": "x",
        "coupling_to_axles_m": "L",
        "coupling_change_kg": "ΔT",
        "axle_group_change_kg": "ΔA",
    },
)
def add_item(item_mass_kg: float, item_ahead_of_axles_m: float, coupling_to_axles_m: float) -> LoadChange:
    """What one more item adds to coupling and axles.

    ΔT = w·x / L; behind the axles x is negative and the coupling gets lighter.

    Parameters
    ----------
    item_mass_kg : float
        Mass of the item [kg].
    item_ahead_of_axles_m : float
        How far ahead of the middle of the axle group its center lies; a minus lies behind [m].
    coupling_to_axles_m : float
        From the coupling point to the middle of the axle group [m].

    Returns
    -------
    LoadChange
        Change of the coupling load and of the axle-group load [kg].

    Raises
    ------
    OutOfRange
        If the mass is below zero or the distance is not above zero.

    Notes
    -----
    For a trailer with one equalized axle group.

    Examples
    --------
    Textbook: 1,200 lb placed 36 in ahead of the axles of a trailer with 180 in to its coupler puts 240 lb on it.

    >>> round(add_item(1200.0, 36.0, 180.0).coupling_change_kg, 6)
    240.0

    References
    ----------
    .. [1] statics, moments about the axle group
    """
    not_negative(item_mass_kg=item_mass_kg)
    positive(coupling_to_axles_m=coupling_to_axles_m)
    finite(item_ahead_of_axles_m=item_ahead_of_axles_m)
    change = item_mass_kg * (item_ahead_of_axles_m / coupling_to_axles_m)
    return LoadChange(change, item_mass_kg - change)


@calculation(
    FAMILY,
    "ΔT = −w·d / L,  ΔA = −ΔT",
    symbols={
        "item_mass_kg": "w",
        "moved_rearwards_m": "d",
        "coupling_to_axles_m": "L",
        "coupling_change_kg": "ΔT",
        "axle_group_change_kg": "ΔA",
    },
)
def move_item(item_mass_kg: float, moved_rearwards_m: float, coupling_to_axles_m: float) -> LoadChange:
    """What moving one item along the deck takes off the coupling or puts on it.

    ΔT = −w·d / L; what the coupling loses the axles gain.

    Parameters
    ----------
    item_mass_kg : float
        Mass of the item [kg].
    moved_rearwards_m : float
        How far it is moved to the rear; a minus is forward [m].
    coupling_to_axles_m : float
        From the coupling point to the middle of the axle group [m].

    Returns
    -------
    LoadChange
        Change of the coupling load and of the axle-group load [kg].

    Raises
    ------
    OutOfRange
        If the mass is below zero or the distance to the axles is not above zero.

    Notes
    -----
    For a trailer with one equalized axle group.

    Examples
    --------
    Trade arithmetic: a 10,000 lb machine 12 in further back on 280 in takes about 430 lb off the pin weight.

    >>> round(move_item(10000.0, 12.0, 280.0).coupling_change_kg)
    -429

    References
    ----------
    .. [1] statics, moments about the axle group
    """
    not_negative(item_mass_kg=item_mass_kg)
    positive(coupling_to_axles_m=coupling_to_axles_m)
    finite(moved_rearwards_m=moved_rearwards_m)
    change = item_mass_kg * (moved_rearwards_m / coupling_to_axles_m)
    return LoadChange(-change if change else 0.0, change)


@calculation(
    FAMILY,
    "R₁ = M·b / (a + b),  R₂ = M·a / (a + b)",
    symbols={
        "total_mass_kg": "M",
        "first_to_center_m": "a",
        "center_to_second_m": "b",
        "gravity_mps2": "g",
        "first_load_kg": "R₁",
        "second_load_kg": "R₂",
        "first_force_N": "R₁·g",
        "second_force_N": "R₂·g",
    },
)
def two_support_loads(
    total_mass_kg: float,
    first_to_center_m: float,
    center_to_second_m: float,
    gravity_mps2: float = STANDARD_GRAVITY_mps2,
) -> TwoSupports:
    """What two supports, or two axles, carry of a mass between or beyond them.

    R₁ = M·b / (a + b) and R₂ = M·a / (a + b).

    Parameters
    ----------
    total_mass_kg : float
        Mass carried [kg].
    first_to_center_m : float
        From the first support back to the center of mass; a minus puts the center ahead of it [m].
    center_to_second_m : float
        From the center of mass back to the second support; a minus puts the center behind it [m].
    gravity_mps2 : float
        Acceleration of free fall [m/s2].

    Returns
    -------
    TwoSupports
        Load on each support [kg], and as force [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or the supports are not one behind the other.

    Notes
    -----
    For a stiff beam on two supports. A negative load means that support has to be held down.

    Examples
    --------
    Published exercise: a 9,155 kg truck with its center 2.3 m behind the front and 0.63 m ahead of the rear
    wheels, with g = 9.8: 19,291 N in front and 70,428 N behind.

    >>> loads = two_support_loads(9155.0, 2.3, 0.63, 9.8)
    >>> round(loads.first_force_N), round(loads.second_force_N)
    (19291, 70428)

    References
    ----------
    .. [1] statics_exercises, truck on a bridge (9,155 kg)
    .. [2] statics, moments about either support
    """
    positive(total_mass_kg=total_mass_kg, gravity_mps2=gravity_mps2)
    finite(first_to_center_m=first_to_center_m, center_to_second_m=center_to_second_m)
    span = first_to_center_m + center_to_second_m
    if span <= SMALLEST:
        raise OutOfRange(
            "center_to_second_m", center_to_second_m, "must put the second support behind the first"
        )
    first = total_mass_kg * (center_to_second_m / span)
    second = total_mass_kg - first
    return TwoSupports(first, second, first * gravity_mps2, second * gravity_mps2)


@calculation(
    FAMILY,
    "share = Σ(m ahead of the axles) / Σm",
    symbols={"item_mass_kg": "m", "item_x_m": "x", "axle_group_x_m": "L"},
)
def cargo_ahead_of_axles(
    item_mass_kg: tuple[float, ...], item_x_m: tuple[float, ...], axle_group_x_m: float
) -> CargoPlacement:
    """Share of the cargo that lies ahead of the axles, beside the vehicle makers' guide of 60 to 65 %.

    Sum of the items whose centers lie ahead of the middle of the axle group over the sum of all; an item right over
    it counts half.

    Parameters
    ----------
    item_mass_kg : tuple of float
        Mass of each item of cargo, without the empty trailer [kg].
    item_x_m : tuple of float
        How far behind the coupling the center of each lies [m].
    axle_group_x_m : float
        How far behind the coupling the middle of the axle group lies [m].

    Returns
    -------
    CargoPlacement
        The share ahead of the axles, and the guide's band [-].

    Raises
    ------
    OutOfRange
        If the lists differ, a mass is below zero or all are zero, or the axle place is not above zero.

    Notes
    -----
    A guide for conventional trailers, no limit: the coupling load itself decides.

    Examples
    --------
    >>> cargo_ahead_of_axles((600.0, 400.0), (2.0, 6.0), 5.0).ahead_of_axles_ratio
    0.6

    References
    ----------
    .. [1] vehicle_maker_towing, load placement
    """
    require_same_count(item_mass_kg=item_mass_kg, item_x_m=item_x_m)
    each_not_negative(item_mass_kg=item_mass_kg)
    each_finite(item_x_m=item_x_m)
    positive(axle_group_x_m=axle_group_x_m)
    total = math.fsum(item_mass_kg)
    if total <= 0:
        raise OutOfRange("item_mass_kg", item_mass_kg, "must hold at least one mass above zero")
    parts = zip(item_mass_kg, item_x_m, strict=True)
    ahead = math.fsum(
        mass if x < axle_group_x_m else mass / 2 if x == axle_group_x_m else 0.0 for mass, x in parts
    )
    return CargoPlacement(min(ahead / total, 1.0), 0.60, 0.65)


@calculation(
    FAMILY,
    "F = m·Δv / t",
    gives="coupling_pull_N",
    symbols={"trailer_mass_kg": "m", "speed_change_mps": "Δv", "duration_s": "t", "coupling_pull_N": "F"},
)
def coupling_pull(trailer_mass_kg: float, speed_change_mps: float, duration_s: float) -> float:
    """Pull in the coupling that speeds a trailer up evenly on a level road.

    F = m·Δv / t.

    Parameters
    ----------
    trailer_mass_kg : float
        Mass of trailer and cargo [kg].
    speed_change_mps : float
        Change of speed; a minus slows down and pushes [m/s].
    duration_s : float
        Time it takes [s].

    Returns
    -------
    float
        Pull in the coupling [N].

    Raises
    ------
    OutOfRange
        If mass or time is not above zero.

    Notes
    -----
    Level road, even acceleration, without rolling and air resistance.

    Examples
    --------
    Published exercise: 410 kg from rest to 11 m/s in 28 s; the book prints 160 N.

    >>> round(coupling_pull(410.0, 11.0, 28.0), 1)
    161.1

    References
    ----------
    .. [1] statics_exercises, tension in a trailer hitch (410 kg)
    """
    positive(trailer_mass_kg=trailer_mass_kg, duration_s=duration_s)
    finite(speed_change_mps=speed_change_mps)
    return trailer_mass_kg * speed_change_mps / duration_s
