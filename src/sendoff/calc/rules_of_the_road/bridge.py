"""Axle, tandem and gross weights on the Interstate system, and the bridge formula with its table's rounding."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sendoff import units
from sendoff.calc._limits import (
    each_not_negative,
    exceeds,
    feet,
    finite,
    inches,
    positive,
    pounds,
    require_same_count,
)
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "rules_of_the_road"

SINGLE_lb: Final = 20_000
TANDEM_lb: Final = 34_000
GROSS_lb: Final = 80_000
"""23 CFR 658.17(b)-(d)."""


Rule = Literal["single_axle", "tandem", "bridge_formula", "two_tandem_sets", "gross"]


@dataclass(frozen=True, slots=True)
class BridgeWeight:
    """Weight allowed on a group of axles: by the formula itself, and as its table prints it."""

    formula_mass_kg: float
    table_mass_kg: float


@dataclass(frozen=True, slots=True)
class GroupWeight:
    """One group of consecutive axles against its limit; axles are counted from 1, front to rear."""

    first_axle: int
    last_axle: int
    rule: Rule
    load_kg: float
    limit_kg: float
    margin_kg: float


@dataclass(frozen=True, slots=True)
class AxleWeights:
    """All groups of axles against the Interstate limits, the tightest first."""

    holds: bool
    least_margin_kg: float
    gross_mass_kg: float
    groups: tuple[GroupWeight, ...]


def _formula_lb(distance_ft: Fraction, count: int) -> Fraction:
    return 500 * (distance_ft * count / (count - 1) + 12 * count + 36)


def _feet(length_m: float) -> Fraction:
    """Length in feet, freed of the last digits a conversion leaves."""
    exact = units.from_si(length_m, "ft", "length")
    return Fraction(round(exact, 6)).limit_denominator(10**6)


def _table_lb(distance_ft: Fraction, count: int) -> int:
    """Weight as table B prints it for a group of axles."""
    if distance_ft <= 8:
        return TANDEM_lb
    # table B has a row of its own for more than 8 and less than 9 ft; others go to the nearest foot, halves up
    step = Fraction(8) if distance_ft < 9 else Fraction(math.floor(distance_ft + Fraction(1, 2)))
    fives = _formula_lb(step, count) / 500
    whole = math.ceil(fives - Fraction(1, 2)) * 500  # to the nearest 500 lb, exact halves down
    return min(whole, count * SINGLE_lb, GROSS_lb)


@calculation(
    FAMILY,
    "W = 500·(L·N/(N − 1) + 12·N + 36)",
    symbols={
        "axle_distance_m": "L (ft)",
        "axle_count": "N",
        "formula_mass_kg": "W",
        "table_mass_kg": "table B",
    },
)
def bridge_formula(axle_distance_m: float, axle_count: int) -> BridgeWeight:
    """Weight the bridge formula allows on a group of consecutive axles.

    W = 500·(L·N/(N − 1) + 12·N + 36) in pounds and feet; the table rounds to 500 lb, exact halves down, and ends at
    20,000 lb an axle and 80,000 lb in all. Up to 8 ft a group is a tandem of 34,000 lb.

    Parameters
    ----------
    axle_distance_m : float
        From the first to the last axle of the group [m].
    axle_count : int
        Axles in the group [-].

    Returns
    -------
    BridgeWeight
        Weight by the formula and as printed in table B [kg].

    Raises
    ------
    OutOfRange
        If the distance is not above zero, or the axles are not 2 to 9.

    Notes
    -----
    Interstate system. Distances go to the nearest foot, but more than 8 and less than 9 ft read their own row. States
    have older rights and permits of their own.

    Examples
    --------
    9 ft and three axles: 42,750 lb by the formula, 42,500 in the table.

    >>> weight = bridge_formula(9 * 0.3048, 3)
    >>> round(weight.formula_mass_kg / 0.45359237), round(weight.table_mass_kg / 0.45359237)
    (42750, 42500)

    References
    ----------
    .. [1] 23cfr658, 658.17(e) and 658.5
    .. [2] fhwa_bridge, table B
    """
    positive(axle_distance_m=axle_distance_m)
    if not 2 <= axle_count <= 9:
        raise OutOfRange("axle_count", axle_count, "must lie from 2 to 9")
    distance = _feet(axle_distance_m)
    formula = pounds(float(_formula_lb(distance, axle_count)))
    return BridgeWeight(formula, pounds(_table_lb(distance, axle_count)))


def _group_limit(spread_m: float, count: int, *, tandem_sets: bool) -> tuple[Rule, int]:
    """Rule and limit in pounds of a group of axles."""
    if not exceeds(spread_m, inches(40)):
        return "single_axle", SINGLE_lb
    if not exceeds(spread_m, inches(96)):
        return "tandem", TANDEM_lb
    table = _table_lb(_feet(spread_m), count)
    if tandem_sets and table < 2 * TANDEM_lb:
        return "two_tandem_sets", 2 * TANDEM_lb
    return "bridge_formula", table


def _is_two_tandems(places: tuple[float, ...]) -> bool:
    """Return whether four axles are two tandem sets at least 36 ft from first to last."""
    if len(places) != 4 or exceeds(feet(36), places[3] - places[0]):
        return False
    return all(
        exceeds(rear - front, inches(40)) and not exceeds(rear - front, inches(96))
        for front, rear in ((places[0], places[1]), (places[2], places[3]))
    )


@calculation(
    FAMILY,
    "every group of consecutive axles ≤ its limit",
    symbols={"axle_x_m": "places", "axle_load_kg": "loads"},
)
def axle_weights_check(axle_x_m: tuple[float, ...], axle_load_kg: tuple[float, ...]) -> AxleWeights:
    """Hold every group of consecutive axles against the Interstate limits.

    20,000 lb on a single axle (axles up to 40 in apart count as one), 34,000 lb on a tandem (more than 40, up to
    96 in), the bridge formula's table on every other group, 34,000 lb each on two tandem sets at least 36 ft from
    first to last axle, and 80,000 lb in all.

    Parameters
    ----------
    axle_x_m : tuple of float
        Place of each axle, front to rear, from any point [m].
    axle_load_kg : tuple of float
        Load of each axle [kg].

    Returns
    -------
    AxleWeights
        Whether all hold, the least margin and the gross weight [kg], and every group, the tightest first.

    Raises
    ------
    OutOfRange
        If the lists differ, the axles are not 2 to 9 from front to rear, or a load is below zero.

    Notes
    -----
    Federal limits of the Interstate system with all tolerances in them. Tire ratings, State axle limits and permits
    are not checked here.

    Examples
    --------
    A pickup with a two-axle trailer, in feet and pounds turned to SI.

    >>> places = tuple(x * 0.3048 for x in (0.0, 14.0, 38.0, 41.0))
    >>> check = axle_weights_check(places, tuple(w * 0.45359237 for w in (5000, 9000, 7000, 7000)))
    >>> check.holds, check.groups[0].rule
    (True, 'single_axle')

    References
    ----------
    .. [1] 23cfr658, 658.17(b)-(e) and 658.5
    """
    require_same_count(axle_x_m=axle_x_m, axle_load_kg=axle_load_kg)
    count = len(axle_x_m)
    if not 2 <= count <= 9:
        raise OutOfRange("axle_x_m", count, "must name 2 to 9 axles")
    for place in axle_x_m:
        finite(axle_x_m=place)
    if any(rear <= front for front, rear in itertools.pairwise(axle_x_m)):
        raise OutOfRange("axle_x_m", axle_x_m, "must go from front to rear")
    each_not_negative(axle_load_kg=axle_load_kg)
    groups = []
    for first in range(count):
        for last in range(first, count):
            places = axle_x_m[first : last + 1]
            rule, limit = _group_limit(
                places[-1] - places[0], len(places), tandem_sets=_is_two_tandems(places)
            )
            groups.append(_group(first, last, rule, axle_load_kg, pounds(limit)))
    groups.append(_group(0, count - 1, "gross", axle_load_kg, pounds(GROSS_lb)))
    groups.sort(key=lambda group: group.margin_kg)
    least = groups[0]
    return AxleWeights(
        holds=not any(exceeds(group.load_kg, group.limit_kg) for group in groups),
        least_margin_kg=least.margin_kg,
        gross_mass_kg=math.fsum(axle_load_kg),
        groups=tuple(groups),
    )


def _group(first: int, last: int, rule: Rule, loads: tuple[float, ...], limit_kg: float) -> GroupWeight:
    load = math.fsum(loads[first : last + 1])
    return GroupWeight(first + 1, last + 1, rule, load, limit_kg, limit_kg - load)
