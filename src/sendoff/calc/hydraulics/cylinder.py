"""Cylinders: push, pull, volume, speed, time, the share of an angled force, and two pistons on one line."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sendoff.calc.contract import (
    calculation,
    refused_as,
    require_between,
    require_not_negative,
    require_positive,
)
from sendoff.errors import OutOfRange


def _area(diameter_m: float) -> float:
    return math.pi * diameter_m**2 / 4


def _require_rod(rod_m: float, bore_m: float) -> None:
    require_positive(bore_m=bore_m)
    require_not_negative(rod_m=rod_m)
    if rod_m >= bore_m:
        raise OutOfRange("rod_m", rod_m, "must be smaller than the bore")


@calculation(
    "hydraulics",
    "F = p π D² / 4",
    gives="push_N",
    symbols={"bore_m": "D", "pressure_Pa": "p", "push_N": "F"},
)
def cylinder_push(bore_m: float, pressure_Pa: float) -> float:
    """Push of a hydraulic cylinder.

    F = p π D²/4: the pressure on the whole piston.

    Parameters
    ----------
    bore_m : float
        Bore [m].
    pressure_Pa : float
        Pressure at the cylinder [Pa].

    Returns
    -------
    float
        Push, before friction [N].

    Raises
    ------
    OutOfRange
        If the bore is not above zero or the pressure below zero.

    Notes
    -----
    No friction, no pressure on the other side. A plunger (displacement) cylinder pushes on its rod's area: give its
    rod as the bore.

    Examples
    --------
    A 2 in bore at 1,000 psi: 3,142 lbf (a table prints 3,140).

    >>> from sendoff.units import from_si, to_si
    >>> round(from_si(cylinder_push(0.0508, to_si(1000, "psi", "pressure")), "lbf", "force"))
    3142

    References
    ----------
    .. [1] fluid_power_sheet, cylinder force
    """
    require_positive(bore_m=bore_m)
    require_not_negative(pressure_Pa=pressure_Pa)
    return pressure_Pa * _area(bore_m)


@calculation(
    "hydraulics",
    "F = p π (D² − d²) / 4",
    gives="pull_N",
    symbols={"bore_m": "D", "rod_m": "d", "pressure_Pa": "p", "pull_N": "F"},
)
def cylinder_pull(bore_m: float, rod_m: float, pressure_Pa: float) -> float:
    """Pull of a hydraulic cylinder.

    F = p π (D² − d²)/4: the pressure on the ring around the rod.

    Parameters
    ----------
    bore_m : float
        Bore [m].
    rod_m : float
        Rod diameter [m].
    pressure_Pa : float
        Pressure at the cylinder [Pa].

    Returns
    -------
    float
        Pull, before friction [N].

    Raises
    ------
    OutOfRange
        If the bore is not above zero, the rod not smaller than the bore, or the pressure below zero.

    Notes
    -----
    Double-acting cylinders, no friction.

    Examples
    --------
    A 3 in bore with 1.5 in rod at 1,000 psi: 5,301 lbf, as tabulated.

    >>> from sendoff.units import from_si, to_si
    >>> round(from_si(cylinder_pull(0.0762, 0.0381, to_si(1000, "psi", "pressure")), "lbf", "force"))
    5301

    References
    ----------
    .. [1] fluid_power_sheet, cylinder force
    """
    _require_rod(rod_m, bore_m)
    require_not_negative(pressure_Pa=pressure_Pa)
    return pressure_Pa * (_area(bore_m) - _area(rod_m))


@dataclass(frozen=True, slots=True)
class CylinderVolume:
    """Oil a cylinder takes."""

    push_m3: float
    """To extend it."""
    pull_m3: float
    """To bring it back (double-acting)."""
    rod_m3: float
    """Net oil missing from the tank when a double-acting cylinder is out."""


@calculation(
    "hydraulics",
    "V = π D² / 4 · L, back π (D² − d²) / 4 · L",
    symbols={"bore_m": "D", "rod_m": "d", "stroke_m": "L", "push_m3": "V"},
)
def cylinder_volume(bore_m: float, stroke_m: float, rod_m: float = 0.0) -> CylinderVolume:
    """Oil a hydraulic cylinder takes over its stroke.

    V = A L; back it takes the ring's area times the stroke.

    Parameters
    ----------
    bore_m : float
        Bore [m].
    stroke_m : float
        Stroke [m].
    rod_m : float
        Rod diameter, zero if not asked [m].

    Returns
    -------
    CylinderVolume
        Oil to extend, to retract, and the difference.

    Raises
    ------
    OutOfRange
        If bore or stroke is not above zero or the rod not smaller than the bore.

    Notes
    -----
    Oil taken as incompressible.

    Examples
    --------
    3 in by 24 in: 0.7344 gal.

    >>> from sendoff.units import from_si
    >>> round(from_si(cylinder_volume(0.0762, 0.6096).push_m3, "gal", "volume"), 4)
    0.7344

    References
    ----------
    .. [1] fluid_power_sheet, A L / 231
    """
    _require_rod(rod_m, bore_m)
    require_positive(stroke_m=stroke_m)
    push_m3, rod_m3 = _area(bore_m) * stroke_m, _area(rod_m) * stroke_m
    return CylinderVolume(push_m3, push_m3 - rod_m3, rod_m3)


@calculation(
    "hydraulics",
    "v = Q / A",
    gives="speed_mps",
    symbols={"flow_m3ps": "Q", "bore_m": "D", "rod_m": "d", "speed_mps": "v"},
)
def rod_speed(flow_m3ps: float, bore_m: float, rod_m: float = 0.0) -> float:
    """Speed of a cylinder's rod at a flow.

    v = Q/A with the whole piston, or the ring around the rod when a rod is given (retracting).

    Parameters
    ----------
    flow_m3ps : float
        Flow into the cylinder [m3/s].
    bore_m : float
        Bore [m].
    rod_m : float
        Rod diameter for the way back, zero for the way out [m].

    Returns
    -------
    float
        Speed of the rod [m/s].

    Raises
    ------
    OutOfRange
        If the flow is below zero, the bore not above zero or the rod not smaller than the bore.

    Notes
    -----
    No leakage past the piston.

    Examples
    --------
    2 gpm into a 3 in bore: 1.0893 in/s.

    >>> round(rod_speed(2 * 231 * 0.0254**3 / 60, 0.0762) / 0.0254, 4)
    1.0893

    References
    ----------
    .. [1] fluid_power_sheet, 0.3208 Q / A
    """
    require_not_negative(flow_m3ps=flow_m3ps)
    _require_rod(rod_m, bore_m)
    return flow_m3ps / (_area(bore_m) - _area(rod_m))


@calculation(
    "hydraulics",
    "t = A L / Q",
    gives="time_s",
    symbols={"bore_m": "D", "rod_m": "d", "stroke_m": "L", "flow_m3ps": "Q", "time_s": "t"},
)
def cylinder_time(
    bore_m: float, stroke_m: float, flow_m3ps: float, rod_m: float = 0.0, count: int = 1
) -> float:
    """How long cylinders take over their stroke.

    t = A L/Q, for so many equal cylinders on one pump.

    Parameters
    ----------
    bore_m : float
        Bore [m].
    stroke_m : float
        Stroke [m].
    flow_m3ps : float
        Flow of the pump [m3/s].
    rod_m : float
        Rod diameter for the way back, zero for the way out [m].
    count : int
        Equal cylinders moved at once [-].

    Returns
    -------
    float
        Time for the stroke [s].

    Raises
    ------
    OutOfRange
        If bore, stroke or flow is not above zero, the rod not smaller than the bore, or the number outside 1 to 12.

    Notes
    -----
    Pump flow at its working pressure; a cold or weak battery slows the motor.

    Examples
    --------
    3 in by 24 in at 2 gpm: 22 s.

    >>> round(cylinder_time(0.0762, 0.6096, 2 * 231 * 0.0254**3 / 60))
    22

    References
    ----------
    .. [1] fluid_power_sheet, speed and volume
    """
    require_positive(stroke_m=stroke_m, flow_m3ps=flow_m3ps)
    if not 1 <= count <= 12:
        raise OutOfRange("count", count, "must lie from 1 to 12")
    return count * stroke_m / rod_speed(flow_m3ps, bore_m, rod_m)


@calculation(
    "hydraulics",
    "F eff = F sin α",
    gives="effective_N",
    symbols={"force_N": "F", "angle_rad": "α", "effective_N": "F eff"},
)
def angled_force(force_N: float, angle_rad: float) -> float:
    """Share of a cylinder's force square to what it turns.

    F eff = F sin α, with α between cylinder and lever.

    Parameters
    ----------
    force_N : float
        Force of the cylinder [N].
    angle_rad : float
        Angle between the cylinder and the part it lifts [rad].

    Returns
    -------
    float
        Force that turns the part [N].

    Raises
    ------
    OutOfRange
        If the force is below zero or the angle outside 0 to 180°.

    Notes
    -----
    Flat cylinders lift little: at 10° less than a fifth.

    Examples
    --------
    21,206 lbf at 30°: 10,603.

    >>> import math
    >>> round(angled_force(21206.0, math.radians(30)))
    10603

    References
    ----------
    .. [1] fluid_power_sheet, F sin A
    """
    require_not_negative(force_N=force_N)
    require_between(0.0, math.pi, "rad", angle_rad=angle_rad)
    return force_N * math.sin(angle_rad)


@calculation(
    "hydraulics",
    "p = F / A",
    gives="pressure_Pa",
    symbols={"force_N": "F", "area_m2": "A", "pressure_Pa": "p"},
)
def piston_pressure(force_N: float, area_m2: float) -> float:
    """Pressure a force makes under a piston.

    p = F/A.

    Parameters
    ----------
    force_N : float
        Force on the piston [N].
    area_m2 : float
        Area of the piston [m2].

    Returns
    -------
    float
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        If the force is below zero or the area not above zero.

    Notes
    -----
    Piston at rest, no friction.

    Examples
    --------
    500 N on 5 cm²: 1 MPa.

    >>> round(piston_pressure(500.0, 5e-4))
    1000000

    References
    ----------
    .. [1] college_physics, Pascal's principle
    """
    require_not_negative(force_N=force_N)
    require_positive(area_m2=area_m2)
    return force_N / area_m2


@dataclass(frozen=True, slots=True)
class Press:
    """Two pistons on one line."""

    pressure_Pa: float
    second_N: float


@calculation(
    "hydraulics",
    "p = F1 / A1, F2 = F1 (D2 / D1)²",
    symbols={"first_N": "F1", "first_diameter_m": "D1", "second_diameter_m": "D2", "second_N": "F2"},
)
def hydraulic_press(first_N: float, first_diameter_m: float, second_diameter_m: float) -> Press:
    """Line pressure and force at a second piston on the same line.

    p = F1/A1 and F2 = F1 (D2/D1)²: brake master and slave, jack and ram; forward or back.

    Parameters
    ----------
    first_N : float
        Force on the first piston [N].
    first_diameter_m : float
        Diameter of the first piston [m].
    second_diameter_m : float
        Diameter of the second piston [m].

    Returns
    -------
    Press
        Pressure and force at the second piston.

    Raises
    ------
    OutOfRange
        If the force is below zero or a diameter not above zero.

    Notes
    -----
    At rest, same height, no friction.

    Examples
    --------
    500 N on a 0.500 cm master: 2.5e7 Pa, 12,500 N at a 2.50 cm slave.

    >>> found = hydraulic_press(500.0, 0.005, 0.025)
    >>> f"{found.pressure_Pa:.1e}", round(found.second_N)
    ('2.5e+07', 12500)

    References
    ----------
    .. [1] college_physics, chapter 11, example and exercise 24
    """
    require_not_negative(first_N=first_N)
    require_positive(first_diameter_m=first_diameter_m, second_diameter_m=second_diameter_m)
    with refused_as(force_N="first_N", area_m2="first_diameter_m"):
        pressure_Pa = piston_pressure(first_N, _area(first_diameter_m))
    return Press(pressure_Pa, pressure_Pa * _area(second_diameter_m))
