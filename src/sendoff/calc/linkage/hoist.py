"""Folding hoist: the scissor under a dump body, whose cylinder spreads two arms between frame and body."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc.contract import (
    calculation,
    refused_as,
    require_between,
    require_finite,
    require_not_negative,
    require_positive,
)
from sendoff.calc.linkage.lift import STEPS, LiftCurve, hinged_lift
from sendoff.errors import OutOfRange

_DRAWN: Final = 5
_LOW: Final = math.radians(0.5)


@dataclass(frozen=True, slots=True)
class FoldingHoist:
    """A folding hoist at one span of its arms."""

    thrust_N: float
    """Along the line between the two eyes."""
    cylinder_length_m: float
    knee_rad: float
    """Angle between the arms."""


@calculation(
    "linkage",
    "T = F q D / (b L), L² = a² + q² − 2 a q cos κ, D² = a² + b² − 2 a b cos κ",
    symbols={
        "cylinder_N": "F",
        "lower_arm_m": "a",
        "upper_arm_m": "b",
        "rod_m": "q",
        "span_m": "D",
        "thrust_N": "T",
        "cylinder_length_m": "L",
        "knee_rad": "κ",
    },
)
def folding_hoist_thrust(
    cylinder_N: float, lower_arm_m: float, upper_arm_m: float, rod_m: float, span_m: float
) -> FoldingHoist:
    """Thrust of a scissor hoist between its eyes, where a cylinder spreads its two arms.

    T = F q D/(b L): work of the cylinder equals work between the eyes; both lengths follow from the knee's angle.

    Parameters
    ----------
    cylinder_N : float
        Push of the cylinder [N].
    lower_arm_m : float
        From the eye on the frame, where the cylinder stands too, to the knee [m].
    upper_arm_m : float
        From the knee to the eye on the body [m].
    rod_m : float
        From the knee along the upper arm to where the rod holds it [m].
    span_m : float
        From eye to eye [m].

    Returns
    -------
    FoldingHoist
        Thrust, length of the cylinder, angle of the knee.

    Raises
    ------
    OutOfRange
        If the force is below zero, a length is not above zero, the rod lies beyond the upper arm, or the arms cannot
        reach the span.

    Notes
    -----
    Plane, no friction, arms without weight. Nearly flat arms give little: that is why a scissor starts slowly.

    Examples
    --------
    Arms of 4 and 3 m at a right angle, the rod at the upper eye: then the cylinder reaches from eye to eye itself.

    >>> import math
    >>> found = folding_hoist_thrust(1000.0, 4.0, 3.0, 3.0, 5.0)
    >>> round(found.thrust_N, 6), round(found.cylinder_length_m, 6), round(math.degrees(found.knee_rad), 6)
    (1000.0, 5.0, 90.0)

    References
    ----------
    .. [1] statics, virtual work
    """
    require_not_negative(cylinder_N=cylinder_N)
    require_positive(lower_arm_m=lower_arm_m, upper_arm_m=upper_arm_m, rod_m=rod_m, span_m=span_m)
    if rod_m > upper_arm_m:
        raise OutOfRange("rod_m", rod_m, "must not lie beyond the upper arm")
    if not abs(lower_arm_m - upper_arm_m) < span_m < lower_arm_m + upper_arm_m:
        raise OutOfRange("span_m", span_m, "must lie between the difference of the arms and their sum")
    cosine = (lower_arm_m**2 + upper_arm_m**2 - span_m**2) / (2 * lower_arm_m * upper_arm_m)
    cosine = min(max(cosine, -1.0), 1.0)
    length_m = math.sqrt(max(lower_arm_m**2 + rod_m**2 - 2 * lower_arm_m * rod_m * cosine, 0.0))
    if length_m <= 1e-6 * upper_arm_m:
        raise OutOfRange("span_m", span_m, "folds the arms so flat that the cylinder has no length left")
    thrust_N = cylinder_N * rod_m * span_m / (upper_arm_m * length_m)
    return FoldingHoist(thrust_N, length_m, math.acos(cosine))


@calculation(
    "linkage",
    "least of m(θ) = T a / (g b) over the travel, T by `folding_hoist_thrust`",
    symbols={"top_angle_rad": "θ top", "cylinder_N": "F", "least_capacity_kg": "m"},
)
def folding_hoist_curve(
    top_angle_rad: float,
    cylinder_N: float,
    lower_arm_m: float,
    upper_arm_m: float,
    rod_m: float,
    load_x_m: float,
    load_z_m: float,
    base_x_m: float,
    base_z_m: float,
    body_x_m: float,
    body_z_m: float,
) -> LiftCurve:
    """Lift capacity of a scissor hoist over a dump body's travel, and where it is least.

    At 61 angles: the span from eye to eye, the thrust along it, and the moments about the hinge as in `hinged_lift`.

    Parameters
    ----------
    top_angle_rad : float
        Highest angle [rad].
    cylinder_N : float
        Push of the cylinder [N].
    lower_arm_m : float
        From the eye on the frame to the knee [m].
    upper_arm_m : float
        From the knee to the eye on the body [m].
    rod_m : float
        From the knee along the upper arm to the rod [m].
    load_x_m : float
        Load's center from the hinge, level, body down; positive on the side that rises [m].
    load_z_m : float
        Load's center above the hinge, body down [m].
    base_x_m : float
        Eye on the frame, from the hinge on the same side [m].
    base_z_m : float
        Eye on the frame above the hinge (below it is negative) [m].
    body_x_m : float
        Eye on the body, from the hinge, body down [m].
    body_z_m : float
        Eye on the body above the hinge, body down [m].

    Returns
    -------
    LiftCurve
        Least capacity and its angle, stroke of the cylinder, and the curve.

    Raises
    ------
    OutOfRange
        If the top angle is outside 0.5 to 90°, the load is not on the rising side, or as the two calculations named.

    Notes
    -----
    The mass includes the body itself, at one center. No friction; dry pivots take a tenth and more.

    Examples
    --------
    With the rod at the upper eye it is a plain cylinder: the same as `hinged_lift_curve`.

    >>> import math
    >>> found = folding_hoist_curve(math.radians(40), 1e5, 1.6, 0.6, 0.6, 2.1, 0.6, 1.2, -0.35, 2.6, -0.05)
    >>> round(math.degrees(found.least_at_rad)), round(found.least_capacity_kg)
    (0, 2883)

    References
    ----------
    .. [1] statics, virtual work and moments about the hinge
    """
    require_between(_LOW, math.pi / 2, "rad", top_angle_rad=top_angle_rad)
    require_finite(base_x_m=base_x_m, base_z_m=base_z_m, body_x_m=body_x_m, body_z_m=body_z_m)
    angles, capacities, lengths = [], [], []
    for step in range(STEPS + 1):
        angle = top_angle_rad * step / STEPS
        eye_x = body_x_m * math.cos(angle) - body_z_m * math.sin(angle)
        eye_z = body_x_m * math.sin(angle) + body_z_m * math.cos(angle)
        span = math.dist((eye_x, eye_z), (base_x_m, base_z_m))
        with refused_as(span_m="base_x_m"):
            hoist = folding_hoist_thrust(cylinder_N, lower_arm_m, upper_arm_m, rod_m, span)
        lengths.append(hoist.cylinder_length_m)
        with refused_as(angle_rad="top_angle_rad", rod_x_m="body_x_m", rod_z_m="body_z_m"):
            point = hinged_lift(
                angle, hoist.thrust_N, load_x_m, load_z_m, base_x_m, base_z_m, body_x_m, body_z_m
            )
        if point.capacity_kg is None:
            continue
        angles.append(angle)
        capacities.append(point.capacity_kg)
    if not capacities:
        raise OutOfRange("load_x_m", load_x_m, "must put the load on the side that rises")
    least = min(range(len(capacities)), key=capacities.__getitem__)
    return LiftCurve(
        capacities[least],
        angles[least],
        lengths[-1] - lengths[0],
        tuple(angles[::_DRAWN]),
        tuple(capacities[::_DRAWN]),
    )
