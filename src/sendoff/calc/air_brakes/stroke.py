"""Push-rod stroke by chamber, wedge brakes, and chambers that must match across an axle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

Chamber = Literal["clamp", "clamp_long", "clamp_long_3in", "bolt", "rotochamber", "three_port_safety"]
PSI_Pa: Final = 6894.757293168361
LEAST_Pa: Final = 80 * PSI_Pa
MOST_Pa: Final = 90 * PSI_Pa
WEDGE_m: Final = 0.0254 / 16


@calculation(
    "air_brakes",
    "read from the table of chambers",
    gives="stroke_limit_m",
    tables={"table": "air_chamber_stroke"},
)
def push_rod_stroke_limit(chamber_type: str, chamber: Chamber = "clamp", table: Table | None = None) -> float:
    """Push-rod stroke above which an air brake chamber must be readjusted.

    Read from the table by kind and type number.

    Parameters
    ----------
    chamber_type : str
        Type number of the chamber (30), or its letter for bolt type.
    chamber : {"clamp", "clamp_long", "clamp_long_3in", "bolt", "rotochamber", "three_port_safety"}
        Kind of chamber; long stroke only if marked so, 3 in only if marked with that rated stroke.
    table : Table
        Stroke by chamber.

    Returns
    -------
    float
        Greatest stroke allowed [m].

    Raises
    ------
    OutOfRange
        If the table has no such chamber.

    Notes
    -----
    Taken with the engine off at 80 to 90 psi in the reservoir, brakes fully applied. Bolt type, rotochamber and
    three-port chambers are recalled.

    Examples
    --------
    Type 30: 2 in, long stroke 2-1/2 in.

    >>> round(push_rod_stroke_limit("30") / 0.0254, 3)
    2.0
    >>> round(push_rod_stroke_limit("30", "clamp_long") / 0.0254, 3)
    2.5

    References
    ----------
    .. [1] 49cfr393, 393.47(e)(1)
    """
    held = table or tables.load("air_chamber_stroke")
    return float(held.row(chamber=chamber, chamber_type=chamber_type.strip())["stroke_limit_m"])


@dataclass(frozen=True, slots=True)
class StrokeCheck:
    """A measured stroke held against its limit."""

    limit_m: float
    left_m: float
    passes: bool
    note: str


@calculation(
    "air_brakes",
    "stroke ≤ limit of the table, at 80 to 90 psi",
    symbols={"stroke_m": "s"},
    tables={"table": "air_chamber_stroke"},
)
def push_rod_stroke_check(
    stroke_m: float,
    chamber_type: str,
    chamber: Chamber = "clamp",
    reservoir_Pa: float = 85 * PSI_Pa,
    table: Table | None = None,
) -> StrokeCheck:
    """Whether a measured push-rod stroke passes.

    Above the limit is a defect, equal is not; the reading counts only at 80 to 90 psi.

    Parameters
    ----------
    stroke_m : float
        Stroke measured, engine off, brakes fully applied [m].
    chamber_type : str
        Type number of the chamber.
    chamber : {"clamp", "clamp_long", "clamp_long_3in", "bolt", "rotochamber", "three_port_safety"}
        Kind of chamber.
    reservoir_Pa : float
        Reservoir pressure at the reading [Pa].
    table : Table
        Stroke by chamber.

    Returns
    -------
    StrokeCheck
        Limit, what is left, verdict, what a fault would mean.

    Raises
    ------
    OutOfRange
        If the stroke is below zero, the pressure outside 80 to 90 psi, or the chamber not in the table.

    Notes
    -----
    At 90 to 100 psi strokes read longer and sound brakes would be rejected.

    Examples
    --------
    >>> push_rod_stroke_check(2 * 0.0254, "30").passes, push_rod_stroke_check(2.1 * 0.0254, "30").passes
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.47(e)(1)
    .. [2] 49cfr396_appg, 1.a(5)(a)
    """
    require_not_negative(stroke_m=stroke_m, reservoir_Pa=reservoir_Pa)
    if not LEAST_Pa * (1 - 1e-6) <= reservoir_Pa <= MOST_Pa * (1 + 1e-6):
        raise OutOfRange("reservoir_Pa", reservoir_Pa, "must lie from 80 to 90 psi when the stroke is taken")
    limit_m = push_rod_stroke_limit(chamber_type, chamber, table)
    passes = stroke_m <= limit_m + 1e-9
    note = "" if passes else "An automatic adjuster past its limit is faulty: find why, do not just turn it."
    return StrokeCheck(limit_m, limit_m - stroke_m, passes, note)


@calculation(
    "air_brakes",
    "limit = min(0.80 · rated stroke, limit marked by the maker)",
    gives="stroke_limit_m",
    symbols={"rated_stroke_m": "rated stroke", "marked_limit_m": "limit marked"},
)
def unlisted_chamber_limit(rated_stroke_m: float, marked_limit_m: float | None = None) -> float:
    """Stroke limit of an air brake chamber that is not in the tables.

    80 % of the rated stroke marked on it, or the maker's marked readjustment limit, whichever is less.

    Parameters
    ----------
    rated_stroke_m : float
        Rated stroke marked on the chamber [m].
    marked_limit_m : float, optional
        Readjustment limit marked by its maker, if any [m].

    Returns
    -------
    float
        Greatest stroke allowed [m].

    Raises
    ------
    OutOfRange
        If a stroke is not above zero.

    Notes
    -----
    Chambers outside the tables of 393.47(e)(1).

    Examples
    --------
    >>> round(unlisted_chamber_limit(3.0 * 0.0254, 2.25 * 0.0254) / 0.0254, 3)
    2.25

    References
    ----------
    .. [1] 49cfr393, 393.47(e)(2)
    """
    require_positive(rated_stroke_m=rated_stroke_m)
    by_stroke = 0.80 * rated_stroke_m
    if marked_limit_m is None:
        return by_stroke
    require_positive(marked_limit_m=marked_limit_m)
    return min(by_stroke, marked_limit_m)


@calculation("air_brakes", "movement ≤ 1/16 in", gives="passes")
def wedge_brake_check(movement_m: float) -> bool:
    """Whether a wedge brake passes by the movement of the scribe mark on its lining.

    The mark may move 1/16 in at most.

    Parameters
    ----------
    movement_m : float
        Movement of the scribe mark [m].

    Returns
    -------
    bool
        True if it passes.

    Raises
    ------
    OutOfRange
        If the movement is below zero.

    Notes
    -----
    Wedge brakes.

    Examples
    --------
    >>> wedge_brake_check(0.0254 / 16), wedge_brake_check(0.0254 / 8)
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.47(f)
    """
    require_not_negative(movement_m=movement_m)
    return movement_m <= WEDGE_m + 1e-9


@calculation(
    "air_brakes", "same chamber size and same adjuster length at both ends of an axle", gives="match"
)
def chambers_match(left_type: str, right_type: str, left_adjuster_m: float, right_adjuster_m: float) -> bool:
    """Whether brake chambers and slack adjusters match across an axle.

    Size of chamber and effective length of the slack adjuster must be the same at both ends.

    Parameters
    ----------
    left_type : str
        Type of the left chamber.
    right_type : str
        Type of the right chamber.
    left_adjuster_m : float
        Effective length of the left slack adjuster [m].
    right_adjuster_m : float
        Effective length of the right slack adjuster [m].

    Returns
    -------
    bool
        True if both match.

    Raises
    ------
    OutOfRange
        If a length is not above zero.

    Notes
    -----
    Any axle by the operating rule; the annual list names it only for a steer axle.

    Examples
    --------
    >>> chambers_match("30", "24", 0.1397, 0.1397)
    False

    References
    ----------
    .. [1] 49cfr393, 393.47(b), (c)
    .. [2] 49cfr396_appg, 1.a(8)
    """
    require_positive(left_adjuster_m=left_adjuster_m, right_adjuster_m=right_adjuster_m)
    same_type = left_type.strip().casefold() == right_type.strip().casefold()
    return same_type and abs(left_adjuster_m - right_adjuster_m) <= 0.0005
