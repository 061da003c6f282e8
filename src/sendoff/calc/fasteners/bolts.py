"""Bolts: stress area, proof load, clamp, and torque both ways. Never for wheels."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

Grade = Literal["2", "5", "8", "4.6", "4.8", "5.8", "8.8", "9.8", "10.9", "12.9"]
Joint = Literal["frame", "wheel"]
INCH_m: Final = 0.0254
_METRIC: Final = re.compile(r"^[Mm](?P<diameter>\d+(?:\.\d+)?)(?:\s*[x×]\s*(?P<pitch>\d+(?:\.\d+)?))?$")
_INCH: Final = re.compile(
    r"^(?:(?P<whole>\d+)(?:[-\s](?=\d+/))?)?(?:(?P<top>\d+)/(?P<bottom>\d+))?\s*-\s*(?P<per_inch>\d+)$"
)


def _thread(thread: str) -> tuple[float, float, bool]:
    """Diameter and pitch in meters, and whether the thread is metric."""
    text = thread.strip()
    metric = _METRIC.match(text)
    if metric:
        diameter_mm = float(metric["diameter"])
        if metric["pitch"]:
            pitch_mm = float(metric["pitch"])
        else:
            held = tables.load("metric_pitch")
            pitch_mm = 1000 * float(held.row(diameter_m=diameter_mm / 1000)["pitch_m"])
        if not (3 <= diameter_mm <= 100 and 0.3 <= pitch_mm <= diameter_mm / 3):
            raise OutOfRange("thread", thread, "must be a real metric thread, such as M12x1.75")
        return diameter_mm / 1000, pitch_mm / 1000, True
    inch = _INCH.match(text)
    if inch and (inch["whole"] or inch["top"]) and int(inch["bottom"] or 1) != 0:
        size = Fraction(int(inch["whole"] or 0)) + Fraction(int(inch["top"] or 0), int(inch["bottom"] or 1))
        per_inch = int(inch["per_inch"])
        if Fraction(1, 8) <= size <= 4 and 4 <= per_inch <= 80 and 1 / per_inch <= float(size) / 3:
            return float(size) * INCH_m, INCH_m / per_inch, False
    raise OutOfRange("thread", thread, 'must be written like "1/2-20", "1-1/8-12", "M14x1.5" or "M12"')


@calculation(
    "fasteners",
    "A = π/4 (d − 0.9743 / n)² (inch), π/4 (d − 0.9382 P)² (metric)",
    gives="stress_area_m2",
    symbols={"thread": "d, n or P", "stress_area_m2": "A"},
)
def thread_stress_area(thread: str) -> float:
    """Tensile stress area of a bolt from its thread.

    A = π/4 (d − 0.9743/n)² for inch threads of n per inch, π/4 (d − 0.9382 P)² for metric ones of pitch P.

    Parameters
    ----------
    thread : str
        Thread, such as 1/2-20, 1-1/8-12, M14x1.5; M12 alone is the coarse one.

    Returns
    -------
    float
        Tensile stress area [m2].

    Raises
    ------
    OutOfRange
        If the text is no thread, or a metric one without pitch is not in the table of coarse pitches.

    Notes
    -----
    Unified inch threads and ISO metric threads.

    Examples
    --------
    >>> round(thread_stress_area("1/2-20") / 0.0254**2, 3), round(thread_stress_area("M16") * 1e6)
    (0.16, 157)

    References
    ----------
    .. [1] asme_b1_1, tensile stress area
    .. [2] iso898_1, nominal stress area
    """
    diameter_m, pitch_m, metric = _thread(thread)
    return math.pi / 4 * (diameter_m - (0.9382 if metric else 0.9743) * pitch_m) ** 2


@calculation(
    "fasteners",
    "read from the table of grades",
    gives="proof_Pa",
    symbols={"proof_Pa": "Sp"},
    tables={"table": "proof_strength"},
)
def proof_strength(grade: Grade, thread: str, table: Table | None = None) -> float:
    """Proof strength of a bolt's grade at its size.

    Read from SAE J429 (grades 2, 5, 8) or ISO 898-1 (property classes).

    Parameters
    ----------
    grade : {"2", "5", "8", "4.6", "4.8", "5.8", "8.8", "9.8", "10.9", "12.9"}
        Grade or class marked on the head.
    thread : str
        Thread, such as 1/2-20 or M14x1.5.
    table : Table
        Proof strength by grade and size.

    Returns
    -------
    float
        Proof strength [Pa].

    Raises
    ------
    OutOfRange
        If the text is no thread, or the grade is not made in that size.

    Notes
    -----
    Steel bolts at room temperature. A head without marks is taken as grade 2 at best.

    Examples
    --------
    >>> round(proof_strength("8.8", "M16") / 1e6), round(proof_strength("8.8", "M18") / 1e6)
    (580, 600)

    References
    ----------
    .. [1] sae_j429, table of mechanical properties
    .. [2] iso898_1, proof strength
    """
    diameter_m, _, _ = _thread(thread)
    for row in (table or tables.load("proof_strength")).where(grade=grade):
        if row["over_m"] + 1e-6 < diameter_m <= row["up_to_m"] + 1e-6:
            return float(row["proof_Pa"])
    raise OutOfRange("thread", thread, f"is not made in grade {grade}")


@calculation(
    "fasteners",
    "Fp = Sp A",
    gives="proof_load_N",
    symbols={"proof_load_N": "Fp"},
)
def proof_load(thread: str, grade: Grade) -> float:
    """Proof load of a bolt.

    Fp = Sp A.

    Parameters
    ----------
    thread : str
        Thread, such as 1/2-20 or M14x1.5.
    grade : {"2", "5", "8", "4.6", "4.8", "5.8", "8.8", "9.8", "10.9", "12.9"}
        Grade or class marked on the head.

    Returns
    -------
    float
        Proof load [N].

    Raises
    ------
    OutOfRange
        If the text is no thread, or the grade is not made in that size.

    Notes
    -----
    Steel bolts at room temperature.

    Examples
    --------
    M16 of class 8.8: 91 kN.

    >>> round(proof_load("M16", "8.8") / 1000)
    91

    References
    ----------
    .. [1] iso898_1, proof loads
    """
    return proof_strength(grade, thread) * thread_stress_area(thread)


@calculation(
    "fasteners",
    "F = 0.75 Fp",
    gives="clamp_N",
    symbols={"proof_share_ratio": "share", "clamp_N": "F"},
)
def clamp_load(thread: str, grade: Grade, proof_share_ratio: float = 0.75) -> float:
    """Clamp load a bolt is tightened to.

    F = 0.75 of the proof load for bolts that may be taken out again.

    Parameters
    ----------
    thread : str
        Thread, such as 1/2-20 or M14x1.5.
    grade : {"2", "5", "8", "4.6", "4.8", "5.8", "8.8", "9.8", "10.9", "12.9"}
        Grade or class marked on the head.
    proof_share_ratio : float
        Share of the proof load, 0.75 if not given [-].

    Returns
    -------
    float
        Clamp load [N].

    Raises
    ------
    OutOfRange
        If the text is no thread, the grade is not made in that size, or the share is outside 10 to 100 %.

    Notes
    -----
    Steel bolts in steel joints.

    Examples
    --------
    1/2-20 of grade 5: 10,197 lbf in the table.

    >>> from sendoff.units import from_si
    >>> round(from_si(clamp_load("1/2-20", "5"), "lbf", "force"), -1)
    10200.0

    References
    ----------
    .. [1] sae_j429, clamp at 75 % of proof
    """
    require_between(0.1, 1.0, proof_share_ratio=proof_share_ratio)
    return proof_share_ratio * proof_load(thread, grade)


def _refuse_wheels(joint: str) -> None:
    if joint == "wheel":
        raise OutOfRange(
            "joint", joint, "must not be a wheel: wheel nuts follow their wheel's own band (wheel_nut_torque)"
        )


@calculation(
    "fasteners",
    "T = K D F",
    gives="torque_Nm",
    symbols={"nut_factor_number": "K", "clamp_N": "F", "torque_Nm": "T"},
)
def bolt_torque(
    thread: str, clamp_N: float, nut_factor_number: float = 0.20, joint: Joint = "frame"
) -> float:
    """Torque that gives a clamp load on a frame bolt; refused for wheels.

    T = K D F, with K about 0.20 dry and 0.15 oiled.

    Parameters
    ----------
    thread : str
        Thread, such as 1/2-20 or M14x1.5.
    clamp_N : float
        Clamp load wanted [N].
    nut_factor_number : float
        Nut factor K [-].
    joint : {"frame", "wheel"}
        What is bolted; a wheel is refused.

    Returns
    -------
    float
        Torque [N m].

    Raises
    ------
    OutOfRange
        If the joint is a wheel, the text is no thread, the clamp below zero, or K outside 0.05 to 0.5.

    Notes
    -----
    Within about a quarter either way: K is rust, oil and paint. A maker's torque comes first.

    Examples
    --------
    1/2-20, 10,197 lbf, dry: 85 lbf ft.

    >>> from sendoff.units import from_si, to_si
    >>> round(from_si(bolt_torque("1/2-20", to_si(10197, "lbf", "force")), "lbf·ft", "torque"))
    85

    References
    ----------
    .. [1] bolt_torque_rule, nut factors
    """
    _refuse_wheels(joint)
    require_not_negative(clamp_N=clamp_N)
    require_between(0.05, 0.5, nut_factor_number=nut_factor_number)
    return nut_factor_number * _thread(thread)[0] * clamp_N


@calculation(
    "fasteners",
    "F = T / (K D)",
    gives="clamp_N",
    symbols={"nut_factor_number": "K", "torque_Nm": "T", "clamp_N": "F"},
)
def clamp_from_torque(
    thread: str, torque_Nm: float, nut_factor_number: float = 0.20, joint: Joint = "frame"
) -> float:
    """Clamp load a torque gives on a frame bolt; refused for wheels.

    F = T/(K D).

    Parameters
    ----------
    thread : str
        Thread, such as 1/2-20 or M14x1.5.
    torque_Nm : float
        Torque applied [N m].
    nut_factor_number : float
        Nut factor K, about 0.20 dry and 0.15 oiled [-].
    joint : {"frame", "wheel"}
        What is bolted; a wheel is refused.

    Returns
    -------
    float
        Clamp load [N].

    Raises
    ------
    OutOfRange
        If the joint is a wheel, the text is no thread, the torque below zero, or K outside 0.05 to 0.5.

    Notes
    -----
    Within about a quarter either way.

    Examples
    --------
    >>> round(clamp_from_torque("M12", 84.3 * 0.2 * 0.012 * 1000))
    84300

    References
    ----------
    .. [1] bolt_torque_rule, nut factors
    """
    _refuse_wheels(joint)
    require_not_negative(torque_Nm=torque_Nm)
    require_between(0.05, 0.5, nut_factor_number=nut_factor_number)
    return torque_Nm / (nut_factor_number * _thread(thread)[0])


@calculation("fasteners", "engaged thread ≥ one stud diameter", gives="passes", symbols={"engaged_m": "e"})
def thread_engagement_check(engaged_m: float, stud_diameter_m: float) -> bool:
    """Whether enough thread is engaged between a stud and its nut.

    At least one stud diameter.

    Parameters
    ----------
    engaged_m : float
        Length of thread engaged [m].
    stud_diameter_m : float
        Diameter of the stud [m].

    Returns
    -------
    bool
        True if enough.

    Raises
    ------
    OutOfRange
        If the length is below zero or the diameter not above zero.

    Notes
    -----
    Steel studs and nuts. Count full turns of the nut and multiply by the pitch.

    Examples
    --------
    >>> thread_engagement_check(0.0127, 0.0127), thread_engagement_check(0.010, 0.0127)
    (True, False)

    References
    ----------
    .. [1] wheel_torque_manuals, thread engagement
    """
    require_not_negative(engaged_m=engaged_m)
    require_positive(stud_diameter_m=stud_diameter_m)
    return engaged_m >= stud_diameter_m - 1e-9
