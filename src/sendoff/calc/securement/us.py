"""The American and Canadian count: aggregate working load limit, number by length, accelerations."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import (
    each_positive,
    exceeds,
    feet,
    positive,
    pounds,
    require_same_count,
)
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table
from sendoff.units import STANDARD_GRAVITY_mps2

FAMILY: Final = "securement"

Path = Literal["to_item", "same_side", "over", "direct", "indirect"]
"""From anchor to the item (direct); round it and back to the same side; over it to the other side (indirect)."""

COUNTED: Final[dict[str, float]] = {
    "to_item": 0.5,
    "same_side": 0.5,
    "over": 1.0,
    "direct": 0.5,
    "indirect": 1.0,
}
"""Share of a tie-down's limit that counts, 393.106(d)(1)-(3)."""


@dataclass(frozen=True, slots=True)
class Aggregate:
    """Aggregate working load limit against half the weight."""

    aggregate_kg: float
    needed_kg: float
    margin_kg: float
    counted_kg: tuple[float, ...]
    holds: bool


@dataclass(frozen=True, slots=True)
class TieDownCount:
    """How many tie-downs length and strength ask for, and how strong each must be at the count by length."""

    needed: int
    by_length: int
    by_strength: int
    aggregate_needed_kg: float
    each_needed_kg: float


@dataclass(frozen=True, slots=True)
class SecurementForces:
    """Forces a securement must hold: up to breaking, and up to the working load limit; and the force downwards."""

    forward_breaking_N: float
    rearward_breaking_N: float
    sideways_breaking_N: float
    forward_working_N: float
    rearward_working_N: float
    sideways_working_N: float
    downward_N: float
    downward_kg: float
    """The same downward force as a weight, 20 % of the item's."""


@calculation(
    FAMILY,
    "Σ (½·WLL to the item or round to the same side, WLL over to the other side) ≥ ½·weight",
    symbols={"item_mass_kg": "weight", "tie_down_wll_kg": "WLL", "aggregate_kg": "Σ"},
)
def aggregate_wll(
    item_mass_kg: float, tie_down_wll_kg: tuple[float, ...], path: tuple[Path, ...]
) -> Aggregate:
    """Hold the aggregate working load limit of all tie-downs against half the item's weight.

    Half the limit of each tie-down from an anchor to the item, and of each that goes round it and back to the same
    side; the whole limit of each that goes over it to the other side. Their sum must be at least half the weight.

    Parameters
    ----------
    item_mass_kg : float
        Weight of the item or group [kg].
    tie_down_wll_kg : tuple of float
        Working load limit of each whole tie-down, anchors included [kg].
    path : tuple of str
        How each one runs, one word if all run alike: to_item or direct, from anchor to the item; same_side, round it
        and back; over or indirect, over it to the other side.

    Returns
    -------
    Aggregate
        Aggregate, what is needed, margin and what of each counts [kg], and whether it holds.

    Raises
    ------
    OutOfRange
        If a mass is not above zero or the lists differ in length.

    Notes
    -----
    Strength only; number, places and directions are rules of their own, and more is asked of some goods.

    Examples
    --------
    A 3,500 lb car on four unmarked 2 in wheel straps of 2,000 lb: 4,000 lb against 1,750.

    >>> found = aggregate_wll(3500.0, (2000.0,) * 4, ("to_item",))
    >>> found.aggregate_kg, found.needed_kg, found.holds
    (4000.0, 1750.0, True)

    References
    ----------
    .. [1] 49cfr393, 393.106(d)
    """
    positive(item_mass_kg=item_mass_kg)
    if len(path) == 1:
        path *= len(tie_down_wll_kg)
    require_same_count(tie_down_wll_kg=tie_down_wll_kg, path=path)
    each_positive(tie_down_wll_kg=tie_down_wll_kg)
    counted = tuple(COUNTED[way] * limit for way, limit in zip(path, tie_down_wll_kg, strict=True))
    total, needed = math.fsum(counted), item_mass_kg / 2
    return Aggregate(total, needed, total - needed, counted, holds=not exceeds(needed, total))


@calculation(
    FAMILY,
    "blocked: ⌈L/10 ft⌉;  unblocked: 1 to 5 ft and 1,100 lb, 2 to 10 ft, then 2 + ⌈(L − 10 ft)/10 ft⌉",
    gives="tie_down_count",
    symbols={"item_length_m": "L", "item_mass_kg": "weight"},
)
def tie_downs_by_length(item_length_m: float, item_mass_kg: float, *, blocked_forward: bool = False) -> int:
    """Least number of tie-downs by the item's length and weight.

    Not blocked forward: one up to 5 ft and 1,100 lb; two if heavier or up to 10 ft; one more for every further 10 ft or
    part of it. Blocked forward: one for every 10 ft or part of it.

    Parameters
    ----------
    item_length_m : float
        Length of the item [m].
    item_mass_kg : float
        Weight of the item [kg].
    blocked_forward : bool
        Whether a headboard, other cargo or a block keeps it from moving forward.

    Returns
    -------
    int
        Least number of tie-downs [-].

    Raises
    ------
    OutOfRange
        If a value is not above zero or the length is above 100 m.

    Notes
    -----
    In addition to the strength by `aggregate_wll`. Machines and structures that must be fastened by special methods
    are outside this count.

    Examples
    --------
    >>> [tie_downs_by_length(x * 0.3048, 1000.0) for x in (5, 10, 10.1, 20, 24, 30)]
    [2, 2, 3, 3, 4, 4]

    References
    ----------
    .. [1] 49cfr393, 393.110(b), (c)
    """
    positive(item_length_m=item_length_m, item_mass_kg=item_mass_kg)
    if item_length_m > 100:
        raise OutOfRange("item_length_m", item_length_m, "must not be above 100 m")
    tens = math.ceil(item_length_m / feet(10) - 1e-9)
    if blocked_forward:
        return tens
    if exceeds(item_length_m, feet(10)):
        return 2 + (tens - 1)
    short_and_light = not exceeds(item_length_m, feet(5)) and not exceeds(item_mass_kg, pounds(1100))
    return 1 if short_and_light else 2


@calculation(
    FAMILY,
    "n = max(by length, ⌈½·weight / (share·WLL)⌉)",
    symbols={"item_mass_kg": "weight", "each_wll_kg": "WLL", "needed": "n"},
)
def tie_downs_needed(
    item_mass_kg: float,
    item_length_m: float,
    each_wll_kg: float,
    path: Path = "over",
    *,
    blocked_forward: bool = False,
) -> TieDownCount:
    """How many tie-downs of one kind an item needs, by length and by strength.

    n = the greater of the number by length and half the weight over what each one counts.

    Parameters
    ----------
    item_mass_kg : float
        Weight of the item [kg].
    item_length_m : float
        Length of the item [m].
    each_wll_kg : float
        Working load limit of each whole tie-down [kg].
    path : str
        How they run, as in `aggregate_wll`.
    blocked_forward : bool
        Whether a headboard, other cargo or a block keeps it from moving forward.

    Returns
    -------
    TieDownCount
        Numbers [-], the aggregate needed and the limit each must have at the number by length [kg].

    Raises
    ------
    OutOfRange
        If a value is not above zero, or more than 1,000 would be needed.

    Notes
    -----
    General cargo. Cars, machines and other listed goods have rules of their own on top.

    Examples
    --------
    Canadian handbook: 3.65 m, 600 kg, not blocked: three of 100 kg each, or six of 50 kg.

    >>> found = tie_downs_needed(600.0, 3.65, 50.0)
    >>> found.by_length, found.each_needed_kg, found.needed
    (3, 100.0, 6)

    References
    ----------
    .. [1] 49cfr393, 393.106(d) and 393.110
    .. [2] nsc10, worked example
    """
    positive(each_wll_kg=each_wll_kg)
    by_length = tie_downs_by_length(item_length_m, item_mass_kg, blocked_forward=blocked_forward)
    needed = item_mass_kg / 2
    exact = needed / (COUNTED[path] * each_wll_kg)
    if exact > 1000:
        raise OutOfRange("each_wll_kg", each_wll_kg, "must be strong enough that 1,000 would do")
    by_strength = max(math.ceil(exact - 1e-9), 1)
    return TieDownCount(
        max(by_length, by_strength), by_length, by_strength, needed, needed / (COUNTED[path] * by_length)
    )


@calculation(
    FAMILY,
    "F = acceleration·m·g;  downward 20 % of the weight",
    symbols={"item_mass_kg": "m"},
    tables={"table": "securement_accelerations"},
)
def securement_forces(item_mass_kg: float, table: Table | None = None) -> SecurementForces:
    """Forces a securement must hold in each direction, applied one at a time.

    F = acceleration·m·g: to breaking 0.8 g forward, 0.5 g rearward and sideways; to the working load limit 0.435 g
    forward, 0.5 g rearward, 0.25 g sideways; and 20 % of the weight downwards where the vehicle does not contain it.

    Parameters
    ----------
    item_mass_kg : float
        Weight of the item [kg].
    table : Table, optional
        Accelerations.

    Returns
    -------
    SecurementForces
        Forces [N], and the downward one as a weight [kg].

    Raises
    ------
    OutOfRange
        If the mass is not above zero.

    Notes
    -----
    Cargo secured by the counting rules is deemed to meet these.

    Examples
    --------
    10,000 lb: at least 2,000 lb downwards.

    >>> securement_forces(10000.0).downward_kg
    2000.0

    References
    ----------
    .. [1] 49cfr393, 393.102(a), (b)
    """
    positive(item_mass_kg=item_mass_kg)
    table = table or tables.load("securement_accelerations")
    weight = item_mass_kg * STANDARD_GRAVITY_mps2

    def force(direction: str, column: str) -> float:
        return float(table.row(direction=direction)[column]) * weight

    breaking, working = "breaking_strength_ratio", "working_load_ratio"
    return SecurementForces(
        force("forward", breaking),
        force("rearward", breaking),
        force("sideways", breaking),
        force("forward", working),
        force("rearward", working),
        force("sideways", working),
        0.20 * weight,
        0.20 * item_mass_kg,
    )
