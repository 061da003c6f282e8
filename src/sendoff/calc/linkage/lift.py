"""Lift: what a hinged deck, tail or dump body lifts over its stroke, and the force of a scissor hoist."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import (
    calculation,
    require_between,
    require_finite,
    require_not_negative,
)
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2 as G

Place = Literal["foot", "center"]
STEPS: Final = 60
DRAWN: Final = 5
"""Every fifth point is given out for drawing."""
_LOW, _HIGH = math.radians(0.5), math.radians(89.0)


@dataclass(frozen=True, slots=True)
class LiftPoint:
    """A hinged body at one angle."""

    capacity_kg: float | None
    """Mass it lifts there; none where the load has passed over the hinge and needs holding back."""
    cylinder_length_m: float
    cylinder_arm_m: float
    """Distance from hinge to the cylinder's line; zero or below it cannot lift."""
    load_arm_m: float
    """Distance from hinge to the load, level."""


def _lift_point(
    angle_rad: float,
    cylinder_N: float,
    load_x_m: float,
    load_z_m: float,
    base_x_m: float,
    base_z_m: float,
    rod_x_m: float,
    rod_z_m: float,
) -> LiftPoint:
    cosine, sine = math.cos(angle_rad), math.sin(angle_rad)
    load_arm_m = load_x_m * cosine - load_z_m * sine
    eye_x, eye_z = rod_x_m * cosine - rod_z_m * sine, rod_x_m * sine + rod_z_m * cosine
    length_m = math.hypot(eye_x - base_x_m, eye_z - base_z_m)
    if length_m < 1e-6:
        raise OutOfRange("rod_x_m", rod_x_m, "must not put the rod eye on the cylinder's foot")
    arm_m = (eye_x * (eye_z - base_z_m) - eye_z * (eye_x - base_x_m)) / length_m
    if load_arm_m <= 1e-9:
        return LiftPoint(None, length_m, arm_m, load_arm_m)
    return LiftPoint(max(0.0, cylinder_N * arm_m / (G * load_arm_m)), length_m, arm_m, load_arm_m)


@calculation(
    "linkage",
    "m = F a / (g b), a = arm of the cylinder, b = level arm of the load, both about the hinge",
    symbols={
        "angle_rad": "θ",
        "cylinder_N": "F",
        "capacity_kg": "m",
        "cylinder_arm_m": "a",
        "load_arm_m": "b",
    },
)
def hinged_lift(
    angle_rad: float,
    cylinder_N: float,
    load_x_m: float,
    load_z_m: float,
    base_x_m: float,
    base_z_m: float,
    rod_x_m: float,
    rod_z_m: float,
) -> LiftPoint:
    """What a hinged deck, tail or dump body lifts at one angle.

    m = F a/(g b): moments of cylinder and load about the hinge, with load and rod eye turned by the angle.

    Parameters
    ----------
    angle_rad : float
        How far the body is raised [rad].
    cylinder_N : float
        Push of the cylinder or cylinders together [N].
    load_x_m : float
        Load's center from the hinge, level, body down; positive on the side that rises [m].
    load_z_m : float
        Load's center above the hinge, body down [m].
    base_x_m : float
        Cylinder's foot on the frame, from the hinge on the same side [m].
    base_z_m : float
        Cylinder's foot above the hinge (below it is negative) [m].
    rod_x_m : float
        Rod eye on the body, from the hinge, body down [m].
    rod_z_m : float
        Rod eye above the hinge, body down [m].

    Returns
    -------
    LiftPoint
        Mass it lifts with body and cargo counted together, cylinder length, both arms.

    Raises
    ------
    OutOfRange
        If the angle is outside -20 to 90°, the force below zero, a measure is not finite, or foot and eye coincide.

    Notes
    -----
    Plane, no friction in the joints, standing level. The mass includes the body itself, at one center. A deck on
    parallel arms: give the tip of an arm as the place of the load, wherever it stands on the deck.

    Examples
    --------
    A vertical cylinder under the load lifts just its force.

    >>> found = hinged_lift(0.0, 9806.65, 2.0, 0.3, 2.0, -0.5, 2.0, 0.0)
    >>> round(found.capacity_kg, 6), found.load_arm_m
    (1000.0, 2.0)

    References
    ----------
    .. [1] statics, moments about the hinge
    """
    require_between(math.radians(-20), math.pi / 2, "rad", angle_rad=angle_rad)
    require_not_negative(cylinder_N=cylinder_N)
    require_finite(
        load_x_m=load_x_m,
        load_z_m=load_z_m,
        base_x_m=base_x_m,
        base_z_m=base_z_m,
        rod_x_m=rod_x_m,
        rod_z_m=rod_z_m,
    )
    return _lift_point(angle_rad, cylinder_N, load_x_m, load_z_m, base_x_m, base_z_m, rod_x_m, rod_z_m)


@dataclass(frozen=True, slots=True)
class LiftCurve:
    """A hinged body over its whole travel."""

    least_capacity_kg: float
    least_at_rad: float
    stroke_m: float
    """Cylinder length at the top less that at the bottom."""
    angle_rad: tuple[float, ...]
    capacity_kg: tuple[float, ...]
    """For drawing; where the load has passed the hinge the curve ends."""


@calculation(
    "linkage",
    "least of m(θ) = F a / (g b) over the travel",
    symbols={"top_angle_rad": "θ top", "cylinder_N": "F", "least_capacity_kg": "m"},
)
def hinged_lift_curve(
    top_angle_rad: float,
    cylinder_N: float,
    load_x_m: float,
    load_z_m: float,
    base_x_m: float,
    base_z_m: float,
    rod_x_m: float,
    rod_z_m: float,
) -> LiftCurve:
    """Lift capacity of a hinged body over its travel, and where it is least.

    `hinged_lift` at 61 angles from down to the top; the least decides, most often at the start.

    Parameters
    ----------
    top_angle_rad : float
        Highest angle [rad].
    cylinder_N : float
        Push of the cylinder or cylinders together [N].
    load_x_m : float
        Load's center from the hinge, level, body down [m].
    load_z_m : float
        Load's center above the hinge, body down [m].
    base_x_m : float
        Cylinder's foot on the frame, from the hinge on the same side [m].
    base_z_m : float
        Cylinder's foot above the hinge [m].
    rod_x_m : float
        Rod eye on the body, from the hinge, body down [m].
    rod_z_m : float
        Rod eye above the hinge, body down [m].

    Returns
    -------
    LiftCurve
        Least capacity and its angle, stroke, and the curve.

    Raises
    ------
    OutOfRange
        If the top angle is outside 0.5 to 90°, or as `hinged_lift`.

    Notes
    -----
    As `hinged_lift`; one force over the whole stroke (a telescopic cylinder loses push at each stage).

    Examples
    --------
    >>> import math
    >>> found = hinged_lift_curve(math.radians(45), 100_000.0, 2.1, 0.6, 1.2, -0.35, 2.6, -0.05)
    >>> round(math.degrees(found.least_at_rad)), round(found.least_capacity_kg)
    (0, 2883)

    References
    ----------
    .. [1] statics, moments about the hinge
    """
    require_between(_LOW, math.pi / 2, "rad", top_angle_rad=top_angle_rad)
    hinged_lift(0.0, cylinder_N, load_x_m, load_z_m, base_x_m, base_z_m, rod_x_m, rod_z_m)
    angles, capacities, lengths = [], [], []
    for step in range(STEPS + 1):
        angle = top_angle_rad * step / STEPS
        point = _lift_point(angle, cylinder_N, load_x_m, load_z_m, base_x_m, base_z_m, rod_x_m, rod_z_m)
        lengths.append(point.cylinder_length_m)
        if point.capacity_kg is None:
            continue
        angles.append(angle)
        capacities.append(point.capacity_kg)
    if not capacities:
        raise OutOfRange("load_x_m", load_x_m, "must put the load on the side that rises")
    least = min(range(len(capacities)), key=capacities.__getitem__)
    if least:
        hinged_lift(angles[least], cylinder_N, load_x_m, load_z_m, base_x_m, base_z_m, rod_x_m, rod_z_m)
    return LiftCurve(
        capacities[least],
        angles[least],
        lengths[-1] - lengths[0],
        tuple(angles[::DRAWN]),
        tuple(capacities[::DRAWN]),
    )


@calculation(
    "linkage",
    "F = (W + Wa / 2) / tan φ at the foot, twice that at the middle joint",
    gives="force_N",
    symbols={"load_N": "W", "arms_N": "Wa", "angle_rad": "φ", "force_N": "F"},
)
def scissor_force(load_N: float, arms_N: float, angle_rad: float, place: Place = "foot") -> float:
    """Force a level cylinder needs to hold a scissor hoist.

    F = (W + Wa/2)/tan φ at the sliding foot, and twice that at the middle joint.

    Parameters
    ----------
    load_N : float
        Weight on the hoist [N].
    arms_N : float
        Weight of the arms [N].
    angle_rad : float
        Angle of the arms above level [rad].
    place : {"foot", "center"}
        Where the level cylinder pushes.

    Returns
    -------
    float
        Force of the cylinder [N].

    Raises
    ------
    OutOfRange
        If a weight is below zero or the angle outside 0.5 to 89°.

    Notes
    -----
    One pair of arms, level cylinder, no friction. A flat scissor needs eleven times the force at 5° it needs at 45°.

    Examples
    --------
    3,000 lb on 400 lb of arms at 10°: 18,148 lb at the foot.

    >>> import math
    >>> round(scissor_force(3000.0, 400.0, math.radians(10)))
    18148

    References
    ----------
    .. [1] scissor_derivation, energy check
    """
    require_not_negative(load_N=load_N, arms_N=arms_N)
    require_between(_LOW, _HIGH, "rad", angle_rad=angle_rad)
    force_N = (load_N + arms_N / 2) / math.tan(angle_rad)
    return force_N if place == "foot" else 2 * force_N


@calculation(
    "linkage",
    "W = F tan φ − Wa / 2",
    gives="load_N",
    symbols={"cylinder_N": "F", "arms_N": "Wa", "angle_rad": "φ", "load_N": "W"},
)
def scissor_capacity(cylinder_N: float, arms_N: float, angle_rad: float, place: Place = "foot") -> float:
    """Weight a scissor hoist lifts with a level cylinder at an angle.

    W = F tan φ − Wa/2, with half the cylinder's force when it pushes at the middle joint.

    Parameters
    ----------
    cylinder_N : float
        Push of the cylinder [N].
    arms_N : float
        Weight of the arms [N].
    angle_rad : float
        Angle of the arms above level [rad].
    place : {"foot", "center"}
        Where the level cylinder pushes.

    Returns
    -------
    float
        Weight it lifts, zero if not even its arms [N].

    Raises
    ------
    OutOfRange
        If a force is below zero or the angle outside 0.5 to 89°.

    Notes
    -----
    As `scissor_force`. The least angle, body down, decides.

    Examples
    --------
    >>> import math
    >>> round(scissor_capacity(18148.0, 400.0, math.radians(10)))
    3000

    References
    ----------
    .. [1] scissor_derivation, solved for the load
    """
    require_not_negative(cylinder_N=cylinder_N, arms_N=arms_N)
    require_between(_LOW, _HIGH, "rad", angle_rad=angle_rad)
    useful_N = cylinder_N if place == "foot" else cylinder_N / 2
    return max(0.0, useful_N * math.tan(angle_rad) - arms_N / 2)
