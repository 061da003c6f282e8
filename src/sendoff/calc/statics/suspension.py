"""How axles of one group share its load, and what comes to each tire."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import each_positive, finite, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2

FAMILY: Final = "statics"


@dataclass(frozen=True, slots=True)
class AxleShares:
    """Load of each axle, front to rear, and the heaviest beside the mean."""

    axle_load_kg: tuple[float, ...]
    heaviest_axle_load_kg: float
    heaviest_over_mean_ratio: float


@dataclass(frozen=True, slots=True)
class TorsionShares:
    """Loads of coupling and axles on independent springs, front to rear, and the heaviest axle beside the mean."""

    coupling_load_kg: float
    axle_group_load_kg: float
    axle_load_kg: tuple[float, ...]
    heaviest_axle_load_kg: float
    heaviest_over_mean_ratio: float


@dataclass(frozen=True, slots=True)
class TireLoads:
    """Load of one tire on each side, and the heavier of the two."""

    left_tire_load_kg: float
    right_tire_load_kg: float
    heaviest_tire_load_kg: float


@calculation(
    FAMILY,
    "each = A / n",
    symbols={"axle_group_load_kg": "A", "axle_count": "n"},
)
def equalized_axle_loads(axle_group_load_kg: float, axle_count: int) -> AxleShares:
    """What each axle carries when equalizers share the load evenly.

    each = A / n.

    Parameters
    ----------
    axle_group_load_kg : float
        Load on the whole group [kg].
    axle_count : int
        Number of axles [-].

    Returns
    -------
    AxleShares
        Load of each axle and the heaviest [kg], and the heaviest over the mean [-].

    Raises
    ------
    OutOfRange
        If the load is not above zero or there is no axle, or more than twelve.

    Notes
    -----
    For leaf springs with free equalizers of equal arms. A seized equalizer, or torsion axles out of level, share
    unevenly: see `torsion_axle_loads`.

    Examples
    --------
    >>> equalized_axle_loads(6320.0, 2).axle_load_kg
    (3160.0, 3160.0)

    References
    ----------
    .. [1] statics, balance of an equalizer of equal arms
    """
    positive(axle_group_load_kg=axle_group_load_kg)
    if not 1 <= axle_count <= 12:
        raise OutOfRange("axle_count", axle_count, "must lie from 1 to 12")
    each = axle_group_load_kg / axle_count
    return AxleShares((each,) * axle_count, each, 1.0)


@calculation(
    FAMILY,
    "F₁ = A·r / (f + r),  F₂ = A·f / (f + r)",
    symbols={"axle_group_load_kg": "A", "front_arm_m": "f", "rear_arm_m": "r"},
)
def equalizer_shares(axle_group_load_kg: float, front_arm_m: float, rear_arm_m: float) -> AxleShares:
    """What two axles carry on an equalizer with a front and a rear arm.

    F₁ = A·r / (f + r): the longer arm carries less.

    Parameters
    ----------
    axle_group_load_kg : float
        Load on both axles [kg].
    front_arm_m : float
        From the equalizer's pivot to the front spring's end [m].
    rear_arm_m : float
        From the equalizer's pivot to the rear spring's end [m].

    Returns
    -------
    AxleShares
        Load of front and rear axle and the heaviest [kg], and the heaviest over the mean [-].

    Raises
    ------
    OutOfRange
        If the load or an arm is not above zero.

    Notes
    -----
    For springs whose axle sits in their middle, so that each end bears half of it.

    Examples
    --------
    >>> equalizer_shares(3000.0, 0.10, 0.20).axle_load_kg
    (2000.0, 1000.0)

    References
    ----------
    .. [1] statics, moments about the equalizer's pivot
    """
    positive(axle_group_load_kg=axle_group_load_kg, front_arm_m=front_arm_m, rear_arm_m=rear_arm_m)
    front = axle_group_load_kg * (rear_arm_m / (front_arm_m + rear_arm_m))
    rear = axle_group_load_kg - front
    heaviest = max(front, rear)
    return AxleShares((front, rear), heaviest, heaviest / (axle_group_load_kg / 2))


@calculation(
    FAMILY,
    "A = (M·x̄ − (k·θ/g)·Σ(xᵢ − x_m)²) / x_m,  Fᵢ = A/n + (k·θ/g)·(xᵢ − x_m)",
    symbols={
        "total_mass_kg": "M",
        "center_x_m": "x̄",
        "axle_x_m": "xᵢ",
        "axle_stiffness_Npm": "k",
        "nose_up_rad": "θ",
        "axle_group_load_kg": "A",
        "axle_load_kg": "Fᵢ",
        "coupling_load_kg": "T",
    },
)
def torsion_axle_loads(
    total_mass_kg: float,
    center_x_m: float,
    axle_x_m: tuple[float, ...],
    axle_stiffness_Npm: float,
    nose_up_rad: float = 0.0,
) -> TorsionShares:
    """What each torsion axle carries, level and out of level.

    Fᵢ = A/n + (k·θ/g)·(xᵢ − x_m): with the nose up the rear axle is pressed harder, with the nose down the front one;
    A = (M·x̄ − (k·θ/g)·Σ(xᵢ − x_m)²) / x_m, with x_m the middle of the axles.

    Parameters
    ----------
    total_mass_kg : float
        Mass of trailer and cargo [kg].
    center_x_m : float
        How far behind the coupling the center of mass lies [m].
    axle_x_m : tuple of float
        How far behind the coupling each axle lies, front to rear [m].
    axle_stiffness_Npm : float
        Spring rate of one axle, both wheels together [N/m].
    nose_up_rad : float
        Slope of the loaded frame on level ground; a minus is nose down [rad].

    Returns
    -------
    TorsionShares
        Loads of coupling, axle group and each axle [kg], and the heaviest over the mean [-].

    Raises
    ------
    OutOfRange
        If a value is not above zero, the axles are not in order, the slope is beyond 10 degrees, or an axle would
        leave the ground.

    Notes
    -----
    For equal axles on a stiff frame. On a flexible frame the shares of torsion axles deviate up to about 8 %: take
    that off the margin, or weigh each axle.

    Examples
    --------
    Level, three axles share evenly: 9,000 over 3.

    >>> level = torsion_axle_loads(10000.0, 7.2, (7.0, 8.0, 9.0), 400e3)
    >>> level.axle_load_kg, round(level.coupling_load_kg, 6)
    ((3000.0, 3000.0, 3000.0), 1000.0)

    References
    ----------
    .. [1] statics, stiff beam on equal springs, moments about the coupling
    """
    positive(total_mass_kg=total_mass_kg, axle_stiffness_Npm=axle_stiffness_Npm)
    finite(center_x_m=center_x_m, nose_up_rad=nose_up_rad)
    each_positive(axle_x_m=axle_x_m)
    count = len(axle_x_m)
    if not 1 <= count <= 12:
        raise OutOfRange("axle_x_m", count, "must name 1 to 12 axles")
    if any(later <= sooner for sooner, later in itertools.pairwise(axle_x_m)):
        raise OutOfRange("axle_x_m", axle_x_m, "must go from front to rear")
    if center_x_m < 0:
        raise OutOfRange("center_x_m", center_x_m, "must not lie ahead of the coupling")
    if abs(nose_up_rad) > math.radians(10):
        raise OutOfRange("nose_up_rad", nose_up_rad, "must lie within 10 degrees of level")
    middle = math.fsum(axle_x_m) / count
    tilt = axle_stiffness_Npm * nose_up_rad / STANDARD_GRAVITY_mps2
    spread = math.fsum((x - middle) ** 2 for x in axle_x_m)
    group = (total_mass_kg * center_x_m - tilt * spread) / middle
    loads = tuple(group / count + tilt * (x - middle) for x in axle_x_m)
    if min(loads) < 0 or group <= 0:
        raise OutOfRange("nose_up_rad", nose_up_rad, "must leave every axle on the ground")
    return TorsionShares(total_mass_kg - group, group, loads, max(loads), max(loads) / (group / count))


@calculation(
    FAMILY,
    "left = A/n·(1 − 2·y/w),  right = A/n·(1 + 2·y/w)",
    symbols={
        "axle_load_kg": "A",
        "tire_count": "n",
        "center_right_of_middle_m": "y",
        "track_width_m": "w",
        "left_tire_load_kg": "left",
        "right_tire_load_kg": "right",
    },
)
def tire_loads(
    axle_load_kg: float,
    tire_count: int = 2,
    center_right_of_middle_m: float = 0.0,
    track_width_m: float | None = None,
) -> TireLoads:
    """What each tire of an axle carries, with the load in the middle or to one side.

    left = A/n·(1 − 2·y/w) and right = A/n·(1 + 2·y/w).

    Parameters
    ----------
    axle_load_kg : float
        Load on the axle [kg].
    tire_count : int
        Tires on the axle, 2 for single and 4 for dual wheels [-].
    center_right_of_middle_m : float
        How far right of the middle the axle's load sits; a minus is left [m].
    track_width_m : float, optional
        Between the middles of the left and the right wheels; needed for a load off the middle [m].

    Returns
    -------
    TireLoads
        Load of one left and one right tire and the heavier of them [kg].

    Raises
    ------
    OutOfRange
        If the load is not above zero, the tires are not 2 or 4, or the load sits beyond the wheels.

    Notes
    -----
    Dual tires share evenly only when they are of one diameter and pressure.

    Examples
    --------
    >>> tire_loads(3000.0, 4).heaviest_tire_load_kg
    750.0

    References
    ----------
    .. [1] statics, moments about the wheels of one side
    """
    positive(axle_load_kg=axle_load_kg)
    finite(center_right_of_middle_m=center_right_of_middle_m)
    if tire_count not in {2, 4}:
        raise OutOfRange("tire_count", tire_count, "must be 2 or 4")
    lean = 0.0
    if center_right_of_middle_m:
        if track_width_m is None:
            raise OutOfRange("track_width_m", None, "is needed for a load off the middle")
        positive(track_width_m=track_width_m)
        lean = 2 * center_right_of_middle_m / track_width_m
        if abs(lean) > 1:
            raise OutOfRange(
                "center_right_of_middle_m", center_right_of_middle_m, "must lie between the wheels"
            )
    left, right = (axle_load_kg / tire_count * share for share in (1 - lean, 1 + lean))
    return TireLoads(left, right, max(left, right))
