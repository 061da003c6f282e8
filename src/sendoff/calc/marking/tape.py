"""Tape: which trailers need conspicuity sheeting, how much, how wide and how high."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FROM: Final = dt.date(1993, 12, 1)
INCH_m: Final = 0.0254
WIDE_m: Final = 80 * INCH_m
HEAVY_kg: Final = 10_000 * 0.45359237
LOW_m: Final = 0.375
HIGH_m: Final = 1.525
CORNER_m: Final = 0.300


@dataclass(frozen=True, slots=True)
class Required:
    """Whether a rule asks for something, and why."""

    required: bool
    why: str


@calculation(
    "marking",
    "width ≥ 80 in and GVWR > 10,000 lb and built from 1 December 1993",
    symbols={"width_m": "width", "gvwr_kg": "GVWR"},
)
def conspicuity_required(
    width_m: float,
    gvwr_kg: float,
    built: dt.date,
    body: Literal["other", "living_or_office", "pole"] = "other",
) -> Required:
    """Whether a trailer needs red and white conspicuity tape.

    Overall width of 80 in or more, GVWR over 10,000 lb, built on or after 1 December 1993.

    Parameters
    ----------
    width_m : float
        Overall width [m].
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    built : date
        Day it was built.
    body : {"other", "living_or_office", "pole"}
        Trailers made only for living or office use, and pole trailers, are excepted.

    Returns
    -------
    Required
        Required or not, and why.

    Raises
    ------
    OutOfRange
        If width or rating is not above zero.

    Notes
    -----
    Federal rule. Older trailers in commerce had to be fitted later; a yard that tapes every trailer does no harm.

    Examples
    --------
    >>> conspicuity_required(83 * 0.0254, 14_000 * 0.45359237, dt.date(2026, 1, 1)).required
    True

    References
    ----------
    .. [1] 49cfr393, 393.11(b), 393.13
    .. [2] 49cfr571_108, S8.2
    """
    require_positive(width_m=width_m, gvwr_kg=gvwr_kg)
    if body != "other":
        return Required(required=False, why="Living or office and pole trailers are excepted.")
    if width_m < WIDE_m - 1e-9:
        return Required(required=False, why="Narrower than 80 in.")
    if gvwr_kg <= HEAVY_kg * (1 + 1e-12):
        return Required(required=False, why="Rated 10,000 lb or less.")
    if built < FROM:
        return Required(
            required=False, why="Built before 1 December 1993; commerce asks for marking since 2001."
        )
    return Required(required=True, why="80 in or wider, rated over 10,000 lb, built since 1 December 1993.")


@dataclass(frozen=True, slots=True)
class SideTape:
    """Tape on one side of a trailer judged."""

    least_m: float
    share_ratio: float
    long_enough: bool
    height_in_band: bool
    passes: bool


@calculation(
    "marking",
    "Σ tape ≥ L / 2, 375 mm ≤ centerline ≤ 1,525 mm",
    symbols={"trailer_length_m": "L", "tape_m": "Σ tape", "center_height_m": "centerline"},
)
def side_tape_check(trailer_length_m: float, tape_m: float, center_height_m: float) -> SideTape:
    """Whether the tape on one side of a trailer is long enough and at the right height.

    All pieces together at least half the trailer's length, spread evenly; centerline 375 to 1,525 mm up, empty.

    Parameters
    ----------
    trailer_length_m : float
        Length of the trailer, without its tongue or coupling [m].
    tape_m : float
        Length of all pieces on that side together [m].
    center_height_m : float
        Height of the tape's centerline, trailer empty [m].

    Returns
    -------
    SideTape
        Least length, share, both verdicts.

    Raises
    ------
    OutOfRange
        If the length or height is not above zero, or the tape below zero or longer than the trailer.

    Notes
    -----
    Heights as near to the band as practicable. Pieces begin and end as near front and rear as they can.

    Examples
    --------
    >>> side_tape_check(12.0, 6.0, 0.9).passes, side_tape_check(12.0, 5.9, 0.9).passes
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.13
    .. [2] 64fr15588, quoted text
    """
    require_positive(trailer_length_m=trailer_length_m, center_height_m=center_height_m)
    require_not_negative(tape_m=tape_m)
    if tape_m > trailer_length_m * (1 + 1e-9):
        raise OutOfRange("tape_m", tape_m, "must not be longer than the trailer")
    least_m = trailer_length_m / 2
    long_enough = tape_m >= least_m - 1e-9
    in_band = LOW_m - 1e-9 <= center_height_m <= HIGH_m + 1e-9
    return SideTape(least_m, tape_m / trailer_length_m, long_enough, in_band, long_enough and in_band)


@dataclass(frozen=True, slots=True)
class TapeBlocks:
    """Red and white blocks judged."""

    passes: bool
    larger_share_ratio: float
    faults: str


@calculation(
    "marking",
    "150 mm ≤ block ≤ 450 mm, no color over 2/3",
    symbols={"red_m": "red", "white_m": "white"},
)
def tape_block_check(red_m: float, white_m: float) -> TapeBlocks:
    """Whether red and white blocks of conspicuity tape have lawful lengths.

    Each block 300 mm, give or take 150, and neither color more than two thirds.

    Parameters
    ----------
    red_m : float
        Length of a red block [m].
    white_m : float
        Length of a white block [m].

    Returns
    -------
    TapeBlocks
        Verdict, share of the longer color, what is wrong.

    Raises
    ------
    OutOfRange
        If a length is not above zero.

    Notes
    -----
    New trailers. The share of two thirds was read on a marking seller's page.

    Examples
    --------
    >>> tape_block_check(0.30, 0.15).passes, tape_block_check(0.45, 0.15).passes
    (True, False)

    References
    ----------
    .. [1] nhtsa_0473, S5.7.1.3(b), now S8.2
    """
    require_positive(red_m=red_m, white_m=white_m)
    faults = [
        f"{name} must be 150 to 450 mm"
        for name, value in (("red", red_m), ("white", white_m))
        if not 0.150 - 1e-9 <= value <= 0.450 + 1e-9
    ]
    share = max(red_m, white_m) / (red_m + white_m)
    if share > 2 / 3 + 1e-9:
        faults.append("one color is more than two thirds")
    return TapeBlocks(not faults, share, "; ".join(faults))


@calculation(
    "marking", "C2 50 mm, C3 75 mm, C4 100 mm", gives="least_width_m", tables={"table": "tape_widths"}
)
def tape_width(grade: Literal["C2", "C3", "C4"], table: Table | None = None) -> float:
    """Least width of conspicuity tape by the grade marked on it.

    DOT-C2 50 mm, C3 75 mm, C4 100 mm.

    Parameters
    ----------
    grade : {"C2", "C3", "C4"}
        Grade marked on the tape after DOT-.
    table : Table
        Width by grade.

    Returns
    -------
    float
        Least width [m].

    Raises
    ------
    OutOfRange
        If the table has no such grade.

    Notes
    -----
    Two strips of half the width may stand round rivets.

    Examples
    --------
    >>> tape_width("C2")
    0.05

    References
    ----------
    .. [1] nhtsa_0473, widths
    """
    return float((table or tables.load("tape_widths")).row(grade=grade)["least_width_m"])


@dataclass(frozen=True, slots=True)
class TapePlan:
    """Tape a trailer takes."""

    each_side_m: float
    """At least half the length, each side."""
    rear_lower_m: float
    """Red and white, full width."""
    guard_m: float
    """Red and white along the rear guard's bar, where there is one."""
    upper_corner_count: int
    """White pieces at the top corners: two level, two upright."""
    upper_corner_each_m: float
    red_white_total_m: float
    white_total_m: float


@calculation(
    "marking",
    "sides L / 2 each, rear and guard full width, four white pieces of 300 mm at the top corners",
    symbols={"trailer_length_m": "L", "width_m": "width"},
)
def tape_plan(
    trailer_length_m: float, width_m: float, *, rear_guard: bool = True, has_upper_corners: bool = True
) -> TapePlan:
    """How much conspicuity tape a trailer takes, and where.

    Half the length on each side, the full width behind and along the guard, white corners above.

    Parameters
    ----------
    trailer_length_m : float
        Length of the trailer, without its tongue or coupling [m].
    width_m : float
        Overall width [m].
    rear_guard : bool
        Whether it has a rear impact guard.
    has_upper_corners : bool
        Whether there is a body to put the upper corners on; a platform has none.

    Returns
    -------
    TapePlan
        Lengths by place, and totals to order.

    Raises
    ------
    OutOfRange
        If length or width is not above zero.

    Notes
    -----
    Least lengths; lamps and reflectors keep 3 in clear of tape of another color.

    Examples
    --------
    >>> found = tape_plan(12.0, 2.59, has_upper_corners=False)
    >>> round(found.red_white_total_m, 2), found.white_total_m
    (17.18, 0.0)

    References
    ----------
    .. [1] 49cfr393, 393.11(b), 393.13
    .. [2] 49cfr571_108, S8.2
    """
    require_positive(trailer_length_m=trailer_length_m, width_m=width_m)
    side_m = trailer_length_m / 2
    guard_m = width_m if rear_guard else 0.0
    corners = 4 if has_upper_corners else 0
    return TapePlan(
        side_m, width_m, guard_m, corners, CORNER_m, 2 * side_m + width_m + guard_m, corners * CORNER_m
    )


@calculation("marking", "center to center ≤ 100 mm", gives="passes", symbols={"spacing_m": "spacing"})
def reflector_spacing_check(spacing_m: float) -> bool:
    """Whether reflectors used instead of tape stand close enough.

    At most 100 mm from center to center.

    Parameters
    ----------
    spacing_m : float
        Distance between reflector centers [m].

    Returns
    -------
    bool
        True if close enough.

    Raises
    ------
    OutOfRange
        If the spacing is not above zero.

    Notes
    -----
    Reflector arrays in the same places and lengths as tape.

    Examples
    --------
    >>> reflector_spacing_check(0.100), reflector_spacing_check(0.110)
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.13(d)
    """
    require_positive(spacing_m=spacing_m)
    return spacing_m <= 0.100 + 1e-9


OLDER_FROM: Final = dt.date(2001, 6, 1)
CONTAINER_CHASSIS_FROM: Final = dt.date(2001, 12, 1)
ONLY_RED_AND_WHITE_FROM: Final = dt.date(2009, 6, 1)


@dataclass(frozen=True, slots=True)
class OlderTrailerTape:
    """What a trailer built before the conspicuity rule must carry in commerce."""

    required: bool
    only_red_and_white: bool
    """False while other colors were still allowed."""
    why: str


@calculation(
    "marking",
    "built before 1 December 1993, width ≥ 80 in, GVWR > 10,000 lb, in commerce since 1 June 2001",
    symbols={"width_m": "width", "gvwr_kg": "GVWR"},
)
def older_trailer_tape_required(
    width_m: float,
    gvwr_kg: float,
    built: dt.date,
    today: dt.date,
    body: Literal["other", "living_or_office", "pole", "container_chassis"] = "other",
    *,
    driveaway_towaway: bool = False,
) -> OlderTrailerTape:
    """Whether a trailer built before December 1993 needs retroreflective marking in commerce.

    Overall width of 80 in or more and GVWR over 10,000 lb: sheeting or reflectors on sides and rear since 1 June 2001.

    Parameters
    ----------
    width_m : float
        Overall width [m].
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    built : date
        Day it was built.
    today : date
        Day asked about.
    body : {"other", "living_or_office", "pole", "container_chassis"}
        Living or office and pole trailers are excepted; container chassis had until December 2001.
    driveaway_towaway : bool
        Trailers moved as the delivery itself are excepted.

    Returns
    -------
    OlderTrailerTape
        Required or not, whether only red and white will do, and why.

    Raises
    ------
    OutOfRange
        If width or rating is not above zero, or it was built since December 1993: ask `conspicuity_required`.

    Notes
    -----
    Federal rule for commerce. Its days, and that other colors were allowed until June 2009, are from memory.

    Examples
    --------
    >>> older_trailer_tape_required(2.44, 6000.0, dt.date(1988, 5, 1), dt.date(2026, 1, 1)).required
    True

    References
    ----------
    .. [1] 49cfr393, 393.13(a) to (c)
    """
    require_positive(width_m=width_m, gvwr_kg=gvwr_kg)
    if built >= FROM:
        raise OutOfRange("built", built, "must be before 1 December 1993; later ones: conspicuity_required")
    strict = today >= ONLY_RED_AND_WHITE_FROM
    since = CONTAINER_CHASSIS_FROM if body == "container_chassis" else OLDER_FROM
    if body in {"living_or_office", "pole"} or driveaway_towaway:
        return OlderTrailerTape(
            required=False,
            only_red_and_white=strict,
            why="Living or office, pole and driveaway-towaway trailers are excepted.",
        )
    if width_m < WIDE_m - 1e-9:
        return OlderTrailerTape(required=False, only_red_and_white=strict, why="Narrower than 80 in.")
    if gvwr_kg <= HEAVY_kg * (1 + 1e-12):
        return OlderTrailerTape(required=False, only_red_and_white=strict, why="Rated 10,000 lb or less.")
    if today < since:
        return OlderTrailerTape(
            required=False, only_red_and_white=strict, why=f"Asked of carriers from {since.isoformat()}."
        )
    return OlderTrailerTape(
        required=True,
        only_red_and_white=strict,
        why="80 in or wider, rated over 10,000 lb, in commerce: sides and rear.",
    )
