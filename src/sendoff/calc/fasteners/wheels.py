"""Wheel nuts: torque by wheel, stud and nut together, the order, and when they are checked again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative
from sendoff.errors import OutOfRange
from sendoff.tables import Table

Wheel = Literal[
    "12-13 in",
    "14-16 in",
    "16.5x9.75 in",
    "17.5 in",
    "14.5 in demountable",
    "hub piloted disc",
    "stud piloted disc",
    "12 in",
    "13 in",
    "14 in",
    "15 in",
    "16 in",
]
_BAND: Final = {
    "12 in": "12-13 in",
    "13 in": "12-13 in",
    "14 in": "14-16 in",
    "15 in": "14-16 in",
    "16 in": "14-16 in",
}
"""Row of the table that a rim size stands in; its very own row for all other words."""
Nut = Literal["cone", "clamp ring cone", "flange", "demountable", "two-piece flange", "double"]
MILE_m: Final = 1609.344
MONTH_s: Final = 30.4375 * 86400.0
STOPS_mi: Final = (10.0, 25.0, 50.0)


@dataclass(frozen=True, slots=True)
class WheelTorque:
    """Torque of one kind of wheel, stud and nut."""

    first_low_Nm: float | None
    """First stage; none where the source prints one stage only."""
    first_high_Nm: float | None
    second_low_Nm: float | None
    second_high_Nm: float | None
    low_Nm: float
    high_Nm: float
    threads: str
    """Dry or oiled."""
    note: str


@calculation(
    "fasteners",
    "read from the table by wheel, stud and nut together; never by stud alone, never T = K D F",
    tables={"table": "wheel_nut_torque"},
)
def wheel_nut_torque(wheel: Wheel, stud: str, nut: Nut, table: Table | None = None) -> WheelTorque:
    """Torque of wheel nuts in three stages, by wheel, stud and nut together.

    Read from the table; there is no formula for wheels.

    Parameters
    ----------
    wheel : {"12-13 in", "14-16 in", "16.5x9.75 in", "17.5 in", "14.5 in demountable", "hub piloted disc", "stud piloted disc", "12 in", "13 in", "14 in", "15 in", "16 in"}
        Kind of wheel.
    stud : str
        Stud, such as 1/2, 9/16, 5/8, M22x1.5; a pitch behind it is passed over.
    nut : {"cone", "clamp ring cone", "flange", "demountable", "two-piece flange", "double"}
        Nut and seat.
    table : Table
        Torque by wheel, stud and nut.

    Returns
    -------
    WheelTorque
        Stages, final band, dry or oiled, note.

    Raises
    ------
    OutOfRange
        If no published row has this wheel with this stud and this nut; the message lists what there is.

    Notes
    -----
    Steel wheels on light and medium trailers and disc wheels of heavy ones. Plate, axle and wheel maker come first.
    By hand, in stages, in star order, wheel off the ground for the first two. No impact gun for the last.

    Examples
    --------
    The same 5/8 stud on a 17.5 in wheel: a clamp ring takes 190 to 220 lbf ft, a flange nut 275 to 325.

    >>> from sendoff.units import from_si
    >>> ring = wheel_nut_torque("17.5 in", "5/8", "clamp ring cone")
    >>> flange = wheel_nut_torque("17.5 in", "5/8", "flange")
    >>> [round(from_si(torque, "lbf·ft", "torque")) for torque in (ring.low_Nm, ring.high_Nm, flange.low_Nm, flange.high_Nm)]
    [190, 220, 275, 325]

    References
    ----------
    .. [1] wheel_torque_manuals, table of wheel torque
    .. [2] trailer_manual_13, page 13
    .. [3] heavy_truck_manual, wheels
    """  # noqa: E501
    held = table or tables.load("wheel_nut_torque")
    row = held.row(wheel=_BAND.get(wheel, wheel), stud=_plain_stud(stud, held), nut=nut)
    return WheelTorque(
        row["first_low_Nm"],
        row["first_high_Nm"],
        row["second_low_Nm"],
        row["second_high_Nm"],
        row["low_Nm"],
        row["high_Nm"],
        row["threads"],
        row["note"],
    )


def _plain_stud(stud: str, held: Table) -> str:
    """Return a stud as the table writes it: without its pitch ("9/16-18") or inch mark, one of a pair as the pair."""
    plain = stud.strip().replace('"', "").removesuffix("in").strip()
    known = {str(name) for name in held.column("stud")}
    if plain in known:
        return plain
    size = plain.partition("-")[0] if "/" in plain.partition("-")[0] else plain
    pitched = [name for name in known if name.casefold().startswith(f"{plain.casefold()}x")]
    paired = [name for name in known if plain in name.split(" and ")]
    return next(iter([*paired, *pitched, *([size] if size in known else [])]), plain)


@dataclass(frozen=True, slots=True)
class TorqueCheck:
    """A torque held against the band of its wheel, stud and nut."""

    verdict: Literal["in band", "too low", "too high"]
    low_Nm: float
    high_Nm: float


@calculation(
    "fasteners",
    "low ≤ T ≤ high of the wheel's own band",
    symbols={"torque_Nm": "T", "low_Nm": "low", "high_Nm": "high"},
    tables={"table": "wheel_nut_torque"},
)
def wheel_torque_check(
    torque_Nm: float, wheel: Wheel, stud: str, nut: Nut, table: Table | None = None
) -> TorqueCheck:
    """Whether a wheel nut torque lies in the published band of its wheel, stud and nut.

    The torque is held against `wheel_nut_torque`.

    Parameters
    ----------
    torque_Nm : float
        Torque set or read [N m].
    wheel : {"12-13 in", "14-16 in", "16.5x9.75 in", "17.5 in", "14.5 in demountable", "hub piloted disc", "stud piloted disc", "12 in", "13 in", "14 in", "15 in", "16 in"}
        Kind of wheel.
    stud : str
        Stud, such as 1/2, 9/16, 5/8, M22x1.5; a pitch behind it is passed over.
    nut : {"cone", "clamp ring cone", "flange", "demountable", "two-piece flange", "double"}
        Nut and seat.
    table : Table
        Torque by wheel, stud and nut.

    Returns
    -------
    TorqueCheck
        Verdict and band.

    Raises
    ------
    OutOfRange
        If the torque is below zero or no row has this wheel with this stud and this nut.

    Notes
    -----
    As `wheel_nut_torque`.

    Examples
    --------
    110 lbf ft suits a 9/16 cone nut and is far too little for a 17.5 in flange nut.

    >>> torque_Nm = 110 * 1.3558179483314004
    >>> wheel_torque_check(torque_Nm, "14-16 in", "9/16", "cone").verdict
    'in band'
    >>> wheel_torque_check(torque_Nm, "17.5 in", "5/8", "flange").verdict
    'too low'

    References
    ----------
    .. [1] wheel_torque_manuals, table of wheel torque
    """  # noqa: E501
    require_not_negative(torque_Nm=torque_Nm)
    band = wheel_nut_torque(wheel, stud, nut, table)
    verdict: Literal["in band", "too low", "too high"] = "in band"
    if torque_Nm < band.low_Nm * (1 - 1e-9):
        verdict = "too low"
    if torque_Nm > band.high_Nm * (1 + 1e-9):
        verdict = "too high"
    return TorqueCheck(verdict, band.low_Nm, band.high_Nm)


@dataclass(frozen=True, slots=True)
class StudBands:
    """All published bands for one stud size."""

    low_Nm: tuple[float, ...]
    high_Nm: tuple[float, ...]
    may_choose: bool
    """Never true: stud size alone does not choose."""
    ask: str


@calculation("fasteners", "all rows of the stud; none is chosen", tables={"table": "wheel_nut_bands"})
def wheel_nut_bands(stud: str, table: Table | None = None) -> StudBands:
    """Every published wheel nut band for a stud size, to show why stud size alone never chooses one.

    All rows of the table with that stud.

    Parameters
    ----------
    stud : str
        Stud, such as 1/2, 9/16, 5/8, M22x1.5; a pitch behind it is passed over.
    table : Table
        Bands by stud.

    Returns
    -------
    StudBands
        The bands, and what must be known to choose.

    Raises
    ------
    OutOfRange
        If the table has no such stud.

    Notes
    -----
    To be shown, never to be used as a setting.

    Examples
    --------
    5/8 studs: from 140 to 325 lbf ft.

    >>> found = wheel_nut_bands("5/8")
    >>> len(found.low_Nm), found.may_choose
    (5, False)

    References
    ----------
    .. [1] stud_torque_tables, conflicting tables
    """
    held = table or tables.load("wheel_nut_bands")
    name = _plain_stud(stud, held)
    held.row_exists(stud=name)
    rows = held.where(stud=name)
    return StudBands(
        tuple(float(row["low_Nm"]) for row in rows),
        tuple(float(row["high_Nm"]) for row in rows),
        may_choose=False,
        ask="Name the wheel, the seat and the nut; the wheel maker's paper decides.",
    )


@calculation(
    "fasteners",
    "read from the table: across, then on",
    gives="order",
    symbols={"stud_count": "n"},
    tables={"table": "torque_sequences"},
)
def torque_sequence(stud_count: int, table: Table | None = None) -> tuple[int, ...]:
    """Star order in which wheel nuts are tightened, studs numbered clockwise.

    Read from the table; each step goes across the wheel.

    Parameters
    ----------
    stud_count : int
        Studs of the wheel: 4, 5, 6, 8 or 10 [-].
    table : Table
        Orders by number of studs.

    Returns
    -------
    tuple of int
        Numbers of the studs in order [-].

    Raises
    ------
    OutOfRange
        If the table has no such number.

    Notes
    -----
    The same order in every stage. Start at any stud and number on from it.

    Examples
    --------
    >>> torque_sequence(8)
    (1, 5, 3, 7, 2, 6, 4, 8)

    References
    ----------
    .. [1] torque_video, four and six studs
    .. [2] common_practice, star order
    """
    order = str((table or tables.load("torque_sequences")).row(stud_count=stud_count)["order"])
    return tuple(int(number) for number in order.split("-"))


@dataclass(frozen=True, slots=True)
class RetorquePlan:
    """When wheel nuts are checked again after a wheel was on or off."""

    stops_m: tuple[float, ...]
    next_stop_m: float | None
    """Next of them after the distance driven; none when all are behind."""
    then_every_m: float
    then_every_s: float | None
    due_now: bool
    note: str


@calculation(
    "fasteners",
    "at 10, 25 and 50 mi, then each 3,000 mi or 3 months (light) or 10,000 mi (heavy disc wheels)",
    symbols={"driven_m": "s"},
)
def retorque_plan(
    driven_m: float = 0.0, checked_at_m: float = 0.0, kind: Literal["light", "heavy"] = "light"
) -> RetorquePlan:
    """When wheel nuts must be checked with the wrench again after a wheel was fitted.

    At 10, 25 and 50 miles; then each 3,000 miles or 3 months, on heavy disc wheels each 10,000 miles.

    Parameters
    ----------
    driven_m : float
        Distance since the wheel was fitted [m].
    checked_at_m : float
        Distance at the last check with the wrench, zero if none [m].
    kind : {"light", "heavy"}
        Light trailer wheels, or heavy disc wheels.

    Returns
    -------
    RetorquePlan
        Stops, the next one, the interval afterwards, due now or not.

    Raises
    ------
    OutOfRange
        If a distance is below zero or the last check lies beyond the distance driven.

    Notes
    -----
    Heavy-truck papers say 50 to 100 miles first; the earlier light-trailer stops are kept for both. Whoever drives
    those miles does the checks: the duty passes over with the trailer. Aluminum and painted faces: more often.

    Examples
    --------
    >>> found = retorque_plan(12 * 1609.344)
    >>> found.due_now, round(found.next_stop_m / 1609.344)
    (True, 25)

    References
    ----------
    .. [1] wheel_torque_manuals, checks after first miles
    .. [2] heavy_truck_manual, checks
    """
    require_not_negative(driven_m=driven_m, checked_at_m=checked_at_m)
    if checked_at_m > driven_m * (1 + 1e-12):
        raise OutOfRange("checked_at_m", checked_at_m, "must not lie beyond the distance driven")
    stops = tuple(mile * MILE_m for mile in STOPS_mi)
    every_m = (3_000 if kind == "light" else 10_000) * MILE_m
    passed = [stop for stop in stops if stop <= driven_m * (1 + 1e-12)]
    ahead = [stop for stop in stops if stop > driven_m * (1 + 1e-12)]
    owed = any(stop > checked_at_m * (1 + 1e-12) for stop in passed)
    owed = owed or (not ahead and driven_m - checked_at_m >= every_m)
    return RetorquePlan(
        stops,
        ahead[0] if ahead else None,
        every_m,
        3 * MONTH_s if kind == "light" else None,
        owed,
        "Carry socket, wrench and the torque in the cab. No wrench, no leaving.",
    )
