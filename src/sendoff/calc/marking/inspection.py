"""Periodic inspection: wear limits as a table, and the few that are sums."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@dataclass(frozen=True, slots=True)
class InspectionLimit:
    """One limit of the lists; what it does not have is none."""

    fails_when: str
    limit_m: float | None
    limit_ratio: float | None
    limit_s: float | None
    limit_count: int | None


@calculation("marking", "read from the table of inspection limits", tables={"table": "inspection_limits"})
def inspection_limit(item: str, table: Table | None = None) -> InspectionLimit:
    """Wear limit or figure of the periodic inspection by its name.

    Read from the table; there is no formula.

    Parameters
    ----------
    item : str
        Name in the table: coupling_section_loss, drawbar_slider_play, fifth_wheel_pivot_play, kingpin_wear,
        master_cylinder_level, tread_annual, tread_roadside, roadside_brakes, frame, report_kept …
    table : Table
        Limits.

    Returns
    -------
    InspectionLimit
        When it fails, and the figure it has.

    Raises
    ------
    OutOfRange
        If the table has no such item; the message lists them.

    Notes
    -----
    Annual list unless the item says roadside or State. The two lists differ on purpose.

    Examples
    --------
    >>> round(inspection_limit("fifth_wheel_halves_play").limit_m / 0.0254, 3)
    0.5

    References
    ----------
    .. [1] 49cfr396_appg, list
    .. [2] comar_11_22_04, wear
    """
    row = (table or tables.load("inspection_limits")).row(item=item)
    return InspectionLimit(
        row["fails_when"], row["limit_m"], row["limit_ratio"], row["limit_s"], row["limit_count"]
    )


@dataclass(frozen=True, slots=True)
class InspectionVerdict:
    """A measured wear, play or share held against its limit."""

    passes: bool
    limit_m: float | None
    limit_ratio: float | None
    margin_m: float | None
    """What is left; below zero it is past the limit."""
    margin_ratio: float | None
    fails_when: str


@calculation(
    "marking",
    "measured against the limit: over, at or over, under, at or under, as its row says",
    tables={"table": "inspection_limits"},
)
def inspection_check(
    item: str,
    measured_m: float | None = None,
    measured_ratio: float | None = None,
    table: Table | None = None,
) -> InspectionVerdict:
    """Whether a measured wear, play, thickness or share passes its limit of the periodic inspection.

    Each row says whether it fails over, at or over, under, or at or under its figure.

    Parameters
    ----------
    item : str
        Name in the table: kingpin_wear, jaw_wear, drawbar_slider_play, fifth_wheel_halves_play, tread_annual,
        lining_air_drum, lining_hydraulic_or_electric, tow_path_stray, coupling_section_loss, roadside_brakes …
    measured_m : float, optional
        What was measured, where the limit is a length [m].
    measured_ratio : float, optional
        What was found, where the limit is a share [-].
    table : Table
        Limits.

    Returns
    -------
    InspectionVerdict
        Whether it passes, the limit, what is left, and when it fails.

    Raises
    ------
    OutOfRange
        If the table has no such item, the item has no figure to measure, or the measure is missing or below zero.

    Notes
    -----
    Annual list unless the item says roadside or State. What fails outright (cracks, welds, loose mountings) has no
    figure.

    Examples
    --------
    A kingpin worn exactly 1/8 in fails (this much or more); play of 3/8 in in the pivot passes (more than this).

    >>> inspection_check("kingpin_wear", 0.0254 / 8).passes, inspection_check("fifth_wheel_pivot_play", 0.009525).passes
    (False, True)

    References
    ----------
    .. [1] 49cfr396_appg, list
    .. [2] comar_11_22_04, wear
    """
    row = (table or tables.load("inspection_limits")).row(item=item)
    fails = row["fails"]
    if measured_m is not None:
        require_not_negative(measured_m=measured_m)
    if measured_ratio is not None:
        require_not_negative(measured_ratio=measured_ratio)
    if fails is None or (row["limit_m"] is None and row["limit_ratio"] is None):
        raise OutOfRange("item", item, f"has no figure to measure: {row['fails_when']}")
    if row["limit_m"] is not None:
        if measured_m is None:
            raise OutOfRange("measured_m", "none", "must be given: this limit is a length")
        margin = _margin(measured_m, row["limit_m"], fails)
        return InspectionVerdict(
            _passes(margin, fails), row["limit_m"], None, margin, None, row["fails_when"]
        )
    if measured_ratio is None:
        raise OutOfRange("measured_ratio", "none", "must be given: this limit is a share")
    margin = _margin(measured_ratio, row["limit_ratio"], fails)
    return InspectionVerdict(
        _passes(margin, fails), None, row["limit_ratio"], None, margin, row["fails_when"]
    )


def _margin(measured: float, limit: float, fails: str) -> float:
    left = limit - measured if fails.endswith("over") else measured - limit
    return 0.0 if abs(left) <= 1e-9 * max(limit, 1e-3) else left


def _passes(margin: float, fails: str) -> bool:
    return margin > 0 or (margin == 0 and not fails.startswith("at_or"))


@dataclass(frozen=True, slots=True)
class SectionLoss:
    """Wear of a coupling part."""

    loss_ratio: float
    limit_ratio: float
    passes: bool


@calculation(
    "marking",
    "loss = 1 − now / new ≤ 20 %",
    symbols={"new_m": "new", "now_m": "now", "loss_ratio": "loss"},
    tables={"table": "inspection_limits"},
)
def section_loss_check(new_m: float, now_m: float, table: Table | None = None) -> SectionLoss:
    """Whether a pintle hook, ring or drawbar eye is worn past the inspection limit.

    More than 20 % of its thickness lost fails.

    Parameters
    ----------
    new_m : float
        Thickness when new, from the part's paper or an unworn place [m].
    now_m : float
        Least thickness now [m].
    table : Table
        Limits.

    Returns
    -------
    SectionLoss
        Loss, limit, verdict.

    Raises
    ------
    OutOfRange
        If a thickness is not above zero or it is thicker than new.

    Notes
    -----
    The rule says section; thickness is the simple measure used here. Any crack, a welded hook or a loose mounting
    fails outright.

    Examples
    --------
    >>> [section_loss_check(1.625, now).passes for now in (1.35, 1.3, 1.25)]
    [True, True, False]

    References
    ----------
    .. [1] 49cfr396_appg, 2.b(2), 2.c(2)
    """
    require_positive(new_m=new_m, now_m=now_m)
    if now_m > new_m * (1 + 1e-9):
        raise OutOfRange("now_m", now_m, "must not be thicker than new")
    limit = inspection_limit("coupling_section_loss", table).limit_ratio or 0.0
    loss = 1 - now_m / new_m
    return SectionLoss(loss, limit, loss <= limit + 1e-9)


@dataclass(frozen=True, slots=True)
class SpringCheck:
    """A leaf spring by both lists."""

    annual_passes: bool
    roadside_stop: bool


@calculation(
    "marking",
    "annual: no leaf broken; roadside: stop over a quarter",
    symbols={"leaf_count": "n", "broken_count": "b"},
)
def spring_check(leaf_count: int, broken_count: int) -> SpringCheck:
    """Whether a leaf spring with broken leaves passes the annual list and the roadside list.

    Any broken or missing leaf fails the annual list; the roadside list stops above a quarter.

    Parameters
    ----------
    leaf_count : int
        Leaves of the spring [-].
    broken_count : int
        Broken or missing ones [-].

    Returns
    -------
    SpringCheck
        Both verdicts.

    Raises
    ------
    OutOfRange
        If the counts do not fit each other.

    Notes
    -----
    The main leaf broken is another matter: it may let the axle go.

    Examples
    --------
    >>> spring_check(8, 2), spring_check(8, 3)
    (SpringCheck(annual_passes=False, roadside_stop=False), SpringCheck(annual_passes=False, roadside_stop=True))

    References
    ----------
    .. [1] 49cfr396_appg, 8.b and comparison table
    """
    if not 1 <= leaf_count <= 30:
        raise OutOfRange("leaf_count", leaf_count, "must lie from 1 to 30")
    if not 0 <= broken_count <= leaf_count:
        raise OutOfRange("broken_count", broken_count, f"must lie from 0 to {leaf_count}")
    return SpringCheck(broken_count == 0, 4 * broken_count > leaf_count)


@calculation("marking", "no fastener loose, missing, cracked or stripped", gives="passes")
def wheel_fastener_check(fastener_count: int, faulty_count: int) -> bool:
    """Whether a wheel's fasteners pass.

    One loose, missing, cracked or stripped fastener fails.

    Parameters
    ----------
    fastener_count : int
        Studs of the wheel [-].
    faulty_count : int
        Loose, missing, cracked or stripped ones [-].

    Returns
    -------
    bool
        True if it passes.

    Raises
    ------
    OutOfRange
        If the counts do not fit each other.

    Notes
    -----
    Cracked wheels and stretched holes fail as well.

    Examples
    --------
    >>> wheel_fastener_check(8, 0), wheel_fastener_check(8, 1)
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.205
    .. [2] 49cfr396_appg, 11
    """
    if not 3 <= fastener_count <= 20:
        raise OutOfRange("fastener_count", fastener_count, "must lie from 3 to 20")
    if not 0 <= faulty_count <= fastener_count:
        raise OutOfRange("faulty_count", faulty_count, f"must lie from 0 to {fastener_count}")
    return faulty_count == 0


@dataclass(frozen=True, slots=True)
class DefectiveBrakes:
    """Share of defective brakes."""

    share_ratio: float
    stopped: bool
    nearest_repair_m: float


@calculation(
    "marking",
    "stopped if defective / all ≥ 20 %",
    symbols={"brake_count": "all", "defective_count": "defective"},
)
def defective_brakes_check(brake_count: int, defective_count: int) -> DefectiveBrakes:
    """Whether the share of defective brakes stops a combination at the roadside.

    20 % or more of the brakes on axles that do not steer; then repair within 25 miles or on the spot.

    Parameters
    ----------
    brake_count : int
        Brakes of truck and trailer together [-].
    defective_count : int
        Defective ones [-].

    Returns
    -------
    DefectiveBrakes
        Share, stopped or not, farthest repair.

    Raises
    ------
    OutOfRange
        If the counts do not fit each other.

    Notes
    -----
    The annual list fails any one.

    Examples
    --------
    >>> defective_brakes_check(10, 2).stopped
    True

    References
    ----------
    .. [1] 49cfr396_appg, comparison part
    """
    if not 1 <= brake_count <= 60:
        raise OutOfRange("brake_count", brake_count, "must lie from 1 to 60")
    if not 0 <= defective_count <= brake_count:
        raise OutOfRange("defective_count", defective_count, f"must lie from 0 to {brake_count}")
    share = inspection_limit("roadside_brakes").limit_ratio or 0.0
    repair_m = inspection_limit("roadside_repair").limit_m or 0.0
    return DefectiveBrakes(
        defective_count / brake_count,
        defective_count / brake_count >= share - 1e-9 and defective_count > 0,
        repair_m,
    )


@dataclass(frozen=True, slots=True)
class ChainWear:
    """A chain link's thickness judged."""

    least_m: float
    left_ratio: float
    passes: bool


@calculation(
    "marking",
    "thickness ≥ table N-184-1",
    symbols={"thickness_m": "thickness"},
    tables={"table": "chain_wear"},
)
def chain_wear_check(size: str, thickness_m: float, table: Table | None = None) -> ChainWear:
    """Whether a chain link is worn past the least thickness of lifting chain.

    Least thickness left anywhere: about 79 % of new.

    Parameters
    ----------
    size : str
        Chain size in inches: 1/4, 3/8, 1/2, 5/8, 3/4.
    thickness_m : float
        Least thickness found at any point [m].
    table : Table
        Least thickness by size.

    Returns
    -------
    ChainWear
        Limit, share left, verdict.

    Raises
    ------
    OutOfRange
        If the table has no such size, or the thickness is not above zero or well over the new one.

    Notes
    -----
    Written for lifting slings; for tie-down and towing chain a yardstick. A stretched, bent or nicked link fails.

    Examples
    --------
    >>> chain_wear_check("3/8", 0.30 * 0.0254).passes
    True

    References
    ----------
    .. [1] 29cfr1910, 1910.184 table N-184-1
    """
    require_positive(thickness_m=thickness_m)
    row = (table or tables.load("chain_wear")).row(size=size.strip().removesuffix(" in"))
    if thickness_m > row["new_m"] * 1.15:
        raise OutOfRange("thickness_m", thickness_m, "must not be thicker than the chain's size")
    return ChainWear(row["least_m"], thickness_m / row["new_m"], thickness_m >= row["least_m"] - 1e-9)


@calculation(
    "marking",
    "12 months from the last day of the month it passed in",
    gives="valid_until",
    symbols={"passed": "passed"},
)
def inspection_valid_until(passed: dt.date) -> dt.date:
    """Last day a passed periodic inspection counts.

    Twelve months from the last day of the month in which it passed.

    Parameters
    ----------
    passed : date
        Day it passed.

    Returns
    -------
    date
        Last day it counts.

    Raises
    ------
    OutOfRange
        If the year is before 1980 or after 2200.

    Notes
    -----
    A passed State or roadside inspection counts as the annual one the same way. Report kept 14 months.

    Examples
    --------
    >>> inspection_valid_until(dt.date(2026, 3, 4))
    datetime.date(2027, 3, 31)

    References
    ----------
    .. [1] 49cfr396, 396.17(f)
    """
    if not 1980 <= passed.year <= 2200:
        raise OutOfRange("passed", passed.isoformat(), "must lie from 1980 to 2200")
    year, month = (passed.year + 1, passed.month + 1) if passed.month < 12 else (passed.year + 2, 1)
    return dt.date(year, month, 1) - dt.timedelta(days=1)
