"""Clearances: height with cargo, deck down and up, and distance from power lines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FOOT_m: Final = 0.3048
UNKNOWN_m: Final = 20 * FOOT_m


@dataclass(frozen=True, slots=True)
class OverallHeight:
    """Height of the loaded trailer."""

    height_m: float
    tallest_item: int
    """Number of the item that decides, counted from 1."""
    margin_m: float | None
    """Under the limit given; none without one: ask locally."""
    passes: bool | None


@calculation(
    "ramps",
    "H = max(deck + cargo) + allowance",
    symbols={"deck_height_m": "deck", "cargo_height_m": "cargo", "allowance_m": "allowance", "height_m": "H"},
)
def overall_height(
    deck_height_m: tuple[float, ...],
    cargo_height_m: tuple[float, ...],
    limit_m: float | None = None,
    allowance_m: float = 0.0,
) -> OverallHeight:
    """Overall height of a loaded trailer, each item on its deck, lower or raised.

    H is the largest of deck height plus cargo height, with an allowance for springs, racks and antennas.

    Parameters
    ----------
    deck_height_m : tuple of float
        Height of the deck under each item, deck as it travels [m].
    cargo_height_m : tuple of float
        Height of each item [m].
    limit_m : float, optional
        Height limit on the way; states differ, commonly 13 ft 6 in to 14 ft 6 in: ask locally [m].
    allowance_m : float
        For springs that rise, roof racks, antennas [m].

    Returns
    -------
    OverallHeight
        Height, the item that decides, margin, passes or not (both none without a limit).

    Raises
    ------
    OutOfRange
        If the lists are empty or differ in length, or a height is not above zero.

    Notes
    -----
    There is no federal height limit. Measure with a stick at the first load: bridges do not read sums.

    Examples
    --------
    A pick-up of 78 in on a raised deck of 84 in, a car of 60 in below on 32: 13 ft 6 in exactly, nothing left.

    >>> found = overall_height((84 * 0.0254, 32 * 0.0254), (78 * 0.0254, 60 * 0.0254), 13.5 * 0.3048)
    >>> found.tallest_item, round(found.margin_m, 4), found.passes
    (1, 0.0, True)

    References
    ----------
    .. [1] geometry, sums of heights
    """
    if not deck_height_m:
        raise OutOfRange("deck_height_m", "nothing", "must name at least one item's deck")
    if len(cargo_height_m) != len(deck_height_m):
        raise OutOfRange("cargo_height_m", len(cargo_height_m), "must name one height for each deck height")
    require_not_negative(allowance_m=allowance_m)
    tops = []
    for deck, cargo in zip(deck_height_m, cargo_height_m, strict=True):
        require_positive(deck_height_m=deck, cargo_height_m=cargo)
        tops.append(deck + cargo)
    tallest = max(range(len(tops)), key=tops.__getitem__)
    height_m = tops[tallest] + allowance_m
    if limit_m is None:
        return OverallHeight(height_m, tallest + 1, None, None)
    require_positive(limit_m=limit_m)
    return OverallHeight(height_m, tallest + 1, limit_m - height_m, height_m <= limit_m + 1e-9)


@dataclass(frozen=True, slots=True)
class LineDistance:
    """How far to keep from a live line."""

    least_m: float
    voltage_known: bool
    warning: str


_WARNING: Final = (
    "Every line is live until its owner proves otherwise. On contact stay in the cab and call; leave only for fire, "
    "jump with both feet together, shuffle away."
)


@calculation(
    "ramps",
    "read from table A: 10 ft to 50 kV, 15 ft to 200, 20 ft to 350 …; unknown 20 ft",
    symbols={"line_V": "U"},
    tables={"table": "power_line_clearance"},
)
def power_line_distance(line_V: float | None = None, table: Table | None = None) -> LineDistance:
    """How far a raised body, deck or tarp arm keeps from a power line.

    10 ft to 50 kV, 15 ft to 200, 20 ft to 350, 25 ft to 500, 35 ft to 750, 45 ft to 1,000 kV; unknown 20 ft.

    Parameters
    ----------
    line_V : float, optional
        Voltage of the line, as told by its owner; left out if unknown [V].
    table : Table
        Distance by voltage.

    Returns
    -------
    LineDistance
        Least distance of any part, known or not, what to do on contact.

    Raises
    ------
    OutOfRange
        If the voltage is not above zero or above 1,000 kV.

    Notes
    -----
    Written for lifting gear on building sites; a raised body is taken the same. 10 ft alone is right only to 50 kV.

    Examples
    --------
    >>> round(power_line_distance(12_000.0).least_m / 0.3048), round(power_line_distance().least_m / 0.3048)
    (10, 20)

    References
    ----------
    .. [1] 29cfr1926, 1926.1408 table A
    """
    if line_V is None:
        return LineDistance(UNKNOWN_m, voltage_known=False, warning=_WARNING)
    require_positive(line_V=line_V)
    held = table or tables.load("power_line_clearance")
    if line_V > max(held.column("up_to_V")):
        raise OutOfRange("line_V", line_V, "must not be above 1,000 kV")
    least = float(held.at_or_above("up_to_V", line_V)["least_m"])
    return LineDistance(least, voltage_known=True, warning=_WARNING)


@dataclass(frozen=True, slots=True)
class TransitDistance:
    """Distance while moving with the body down, by both rules."""

    general_m: float
    construction_m: float
    keep_m: float
    """The stricter."""


@calculation(
    "ramps",
    "general 4 ft + 4 in per 10 kV over 50; construction 4, 10, 16 ft; the larger is kept",
    symbols={"line_V": "U"},
    tables={"table": "power_line_transit"},
)
def power_line_transit(
    line_V: float,
    rule: Literal["stricter", "general", "construction"] = "stricter",
    table: Table | None = None,
) -> TransitDistance:
    """How far a trailer with its body down keeps from a power line it passes under.

    General industry: 4 ft to 50 kV and 4 in more for each 10 kV. Construction: 4, 10 and 16 ft. The larger is kept.

    Parameters
    ----------
    line_V : float
        Voltage of the line [V].
    rule : {"stricter", "general", "construction"}
        Which rule to keep.
    table : Table
        Construction distance by voltage.

    Returns
    -------
    TransitDistance
        Both distances and the one to keep.

    Raises
    ------
    OutOfRange
        If the voltage is not above zero or above 750 kV.

    Notes
    -----
    Body, deck and boom fully down. Raised it is `power_line_distance`.

    Examples
    --------
    >>> found = power_line_transit(115_000.0)
    >>> round(found.general_m / 0.0254), round(found.construction_m / 0.3048), round(found.keep_m / 0.3048)
    (74, 10, 10)

    References
    ----------
    .. [1] 29cfr1910, 1910.333(c)(3)(iii)(A)(1)
    .. [2] 29cfr1926, 1926.600(a)(6)(iii)
    """
    require_positive(line_V=line_V)
    held = table or tables.load("power_line_transit")
    if line_V > max(held.column("up_to_V")):
        raise OutOfRange("line_V", line_V, "must not be above 750 kV")
    general_m = 4 * FOOT_m + max(0.0, line_V - 50_000.0) / 10_000.0 * 4 * FOOT_m / 12
    construction_m = float(held.at_or_above("up_to_V", line_V)["least_m"])
    keep = {"stricter": max(general_m, construction_m), "general": general_m, "construction": construction_m}[
        rule
    ]
    return TransitDistance(general_m, construction_m, keep)
