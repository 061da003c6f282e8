"""Lamps: which a trailer needs by width and length, their heights, loads that stick out, warning devices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Row, Table

INCH_m: Final = 0.0254
FOOT_m: Final = 0.3048
WIDE_m: Final = 80 * INCH_m
LONG_m: Final = 30 * FOOT_m
SHORT_m: Final = 6 * FOOT_m


@dataclass(frozen=True, slots=True)
class LampsNeeded:
    """Lamps and reflectors of a trailer."""

    wide: bool
    """80 in or more: clearance and identification lamps."""
    long: bool
    """30 ft or more: lamps and reflectors at mid length."""
    items: tuple[str, ...]
    counts: tuple[int, ...]
    lamp_count: int
    """All together, reflectors counted."""
    boat_alternative: bool
    """Whether a boat trailer may show its front and rear clearance at the widest point instead."""


def _needed(row: Row, *, wide: bool, long: bool, short: bool) -> bool:
    if row["only_from_80_in"] and not wide:
        return False
    if row["only_over_30_ft"] and not long:
        return False
    return not (row["excused_under_6_ft"] and short)


@calculation(
    "marking",
    "items of table 1 by width (80 in) and length (6 and 30 ft)",
    symbols={"width_m": "width", "length_m": "length"},
    tables={"table": "trailer_lamps"},
)
def lamps_needed(
    width_m: float, length_m: float, *, boat_trailer: bool = False, table: Table | None = None
) -> LampsNeeded:
    """Lamps and reflectors a trailer needs by its width and length.

    From 80 in wide clearance and three identification lamps; from 30 ft long amber lamps and reflectors at mid length.

    Parameters
    ----------
    width_m : float
        Overall width [m].
    length_m : float
        Overall length, tongue included [m].
    boat_trailer : bool
        Boat trailers of 80 in or more have an alternative for clearance lamps.
    table : Table
        Lamps of table 1.

    Returns
    -------
    LampsNeeded
        Items, their numbers, total.

    Raises
    ------
    OutOfRange
        If width or length is not above zero.

    Notes
    -----
    Federal table. Under 6 ft the front side markers and reflectors are excused.

    Examples
    --------
    >>> found = lamps_needed(2.1, 8.0)
    >>> "identification" in found.items, found.lamp_count
    (True, 24)

    References
    ----------
    .. [1] 49cfr393, 393.11 table 1 and footnotes 15-17
    """
    require_positive(width_m=width_m, length_m=length_m)
    wide, long, short = width_m >= WIDE_m - 1e-9, length_m >= LONG_m - 1e-9, length_m < SHORT_m - 1e-9
    rows = [
        row
        for row in (table or tables.load("trailer_lamps")).rows
        if _needed(row, wide=wide, long=long, short=short)
    ]
    counts = tuple(int(row["lamp_count"]) for row in rows)
    return LampsNeeded(
        wide, long, tuple(str(row["item"]) for row in rows), counts, sum(counts), boat_trailer and wide
    )


@dataclass(frozen=True, slots=True)
class LampHeight:
    """A lamp's height held against its band."""

    lamp_count: int
    color: str
    place: str
    least_m: float | None
    most_m: float | None
    passes: bool


@calculation(
    "marking",
    "least ≤ height ≤ most of table 1, trailer empty",
    symbols={"height_m": "height"},
    tables={"table": "trailer_lamps"},
)
def lamp_height_check(item: str, height_m: float, table: Table | None = None) -> LampHeight:
    """Number, color and place of a lamp or reflector, and whether its height is right.

    The height of its center, trailer empty, against table 1.

    Parameters
    ----------
    item : str
        Name in the table: tail, stop, turn, rear_reflex, front_side_marker, rear_side_marker, identification …
    height_m : float
        Height of its center above the road, trailer empty [m].
    table : Table
        Lamps of table 1.

    Returns
    -------
    LampHeight
        Number, color, place, band, verdict.

    Raises
    ------
    OutOfRange
        If the height is not above zero or the table has no such item.

    Notes
    -----
    Where a body makes it impossible, as near as practicable.

    Examples
    --------
    >>> lamp_height_check("tail", 72 * 0.0254).passes, lamp_height_check("tail", 73 * 0.0254).passes
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.11 table 1
    """
    require_positive(height_m=height_m)
    row = (table or tables.load("trailer_lamps")).row(item=item)
    least, most = row["least_height_m"], row["most_height_m"]
    passes = (least is None or height_m >= least - 1e-9) and (most is None or height_m <= most + 1e-9)
    return LampHeight(row["lamp_count"], row["color"], row["place"], least, most, passes)


@dataclass(frozen=True, slots=True)
class Projection:
    """Whether a load that sticks out needs lamps of its own after dark."""

    side_lamps: bool
    rear_lamps: bool
    by_day: str


@calculation("marking", "side > 4 in, rear > 4 ft", symbols={"side_m": "side", "rear_m": "rear"})
def load_projection(side_m: float, rear_m: float) -> Projection:
    """Whether a load that sticks out needs extra lamps in the dark.

    More than 4 in beyond the side or more than 4 ft beyond the rear.

    Parameters
    ----------
    side_m : float
        How far it sticks out beyond the side, the worse one [m].
    rear_m : float
        How far it sticks out behind [m].

    Returns
    -------
    Projection
        Side, rear, and what is wanted by day.

    Raises
    ------
    OutOfRange
        If a measure is below zero.

    Notes
    -----
    Equal is not more. States set their own limits of length and width on top.

    Examples
    --------
    >>> load_projection(4 * 0.0254, 4.1 * 0.3048)
    Projection(side_lamps=False, rear_lamps=True, by_day='Red or orange flags 18 in square at its corners.')

    References
    ----------
    .. [1] 49cfr393, 393.11 table 1, footnotes 9 and 10; 393.87
    """
    require_not_negative(side_m=side_m, rear_m=rear_m)
    side, rear = side_m > 4 * INCH_m + 1e-9, rear_m > 4 * FOOT_m + 1e-9
    flags = "Red or orange flags 18 in square at its corners." if side or rear else ""
    return Projection(side, rear, flags)


@dataclass(frozen=True, slots=True)
class DriveawayLamps:
    """Lamps of a trailer delivered on its own wheels."""

    pairs: tuple[str, ...]
    side_marker_each_side_count: int
    identification_count: int


@calculation(
    "marking",
    "rear set on the last unit; three identification lamps from 80 in",
    symbols={"width_m": "width"},
)
def driveaway_lamps(width_m: float) -> DriveawayLamps:
    """Lamps a trailer needs when it is towed on its own wheels as the delivery itself.

    Tail, stop, turn, clearance lamps and reflectors in pairs, a side marker each side, identification from 80 in.

    Parameters
    ----------
    width_m : float
        Width of the widest unit [m].

    Returns
    -------
    DriveawayLamps
        Pairs, side markers, identification lamps.

    Raises
    ------
    OutOfRange
        If the width is not above zero.

    Notes
    -----
    Driveaway-towaway, last unit. A light bar does it.

    Examples
    --------
    >>> driveaway_lamps(79 * 0.0254).identification_count, driveaway_lamps(80 * 0.0254).identification_count
    (0, 3)

    References
    ----------
    .. [1] 49cfr393, 393.17(b)
    """
    require_positive(width_m=width_m)
    return DriveawayLamps(
        ("tail", "stop", "turn", "clearance", "reflector"), 1, 3 if width_m >= WIDE_m - 1e-9 else 0
    )


@dataclass(frozen=True, slots=True)
class WarningDevices:
    """Where three warning devices stand."""

    at_m: tuple[float, ...]
    """Distances from the vehicle."""
    where: tuple[str, ...]
    within_s: float


@calculation("marking", "two-way road 10, 100, 100 ft; divided or one-way 10, 100, 200 ft; within 10 min")
def warning_devices(
    road: Literal["two_way", "divided_or_one_way"], crest_or_bend_m: float | None = None
) -> WarningDevices:
    """Where the three warning devices stand when a rig is stopped on the road.

    Two-way road 10 ft, 100 ft behind, 100 ft ahead; divided or one-way 10, 100 and 200 ft behind; within 10 minutes.

    Parameters
    ----------
    road : {"two_way", "divided_or_one_way"}
        Kind of road.
    crest_or_bend_m : float, optional
        Distance of a crest or bend that hides it from behind, if within 500 ft [m].

    Returns
    -------
    WarningDevices
        Distances, places, and time.

    Raises
    ------
    OutOfRange
        If the distance of the crest is not above zero.

    Notes
    -----
    Commercial vehicles; sound practice for all. Toward a crest or bend the device moves out, 100 to 500 ft.

    Examples
    --------
    >>> [round(at / 0.3048) for at in warning_devices("divided_or_one_way").at_m]
    [10, 100, 200]

    References
    ----------
    .. [1] 49cfr392, 392.22(b)
    """
    if road not in {"two_way", "divided_or_one_way"}:
        raise OutOfRange("road", road, "must be two_way or divided_or_one_way")
    behind = 100.0
    if crest_or_bend_m is not None:
        require_positive(crest_or_bend_m=crest_or_bend_m)
        if crest_or_bend_m <= 500 * FOOT_m + 1e-9:
            behind = min(500.0, max(100.0, crest_or_bend_m / FOOT_m))
    if road == "two_way":
        feet: tuple[float, ...] = (10.0, behind, 100.0)
        where: tuple[str, ...] = ("traffic side, toward oncoming traffic", "behind", "ahead")
    else:
        feet = (10.0, behind, max(200.0, behind))
        where = ("behind", "behind", "behind")
    return WarningDevices(tuple(foot * FOOT_m for foot in feet), where, 600.0)
