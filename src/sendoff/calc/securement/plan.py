"""A tie-down plan: this item, the points on this deck, the gear on board; where each strap goes and what is left."""

from __future__ import annotations

import math
from typing import Final, Literal

from sendoff.calc._limits import exceeds, not_negative, positive, pounds
from sendoff.calc.contract import calculation, refused_as
from sendoff.calc.securement._plan import (
    ALSO,
    ALWAYS,
    PlannedTieDown,
    TieDownPlan,
    gear_of,
    not_used,
    planned_of,
    points_of,
    search,
)
from sendoff.calc.securement._search import Pair, Tied, pairs_between
from sendoff.calc.securement.commodities import VehicleRule, car_tie_downs, machine_tie_downs

FAMILY: Final = "securement"


@calculation(
    FAMILY,
    "at least n tie-downs, both ends held, Σ counted ≥ ½·weight, each by its weakest part",
    symbols={"item_mass_kg": "weight", "needed_count": "n", "aggregate_kg": "Σ"},
)
def tie_down_plan(
    item_kind: Literal["car", "machine"],
    item_mass_kg: float,
    hold_x_m: tuple[float, ...],
    hold_y_m: tuple[float, ...],
    deck_point_x_m: tuple[float, ...],
    deck_point_y_m: tuple[float, ...],
    deck_point_wll_kg: tuple[float, ...],
    gear_wll_kg: tuple[float, ...],
    gear_length_m: tuple[float, ...],
    hold_wll_kg: tuple[float, ...] = (),
    hold_height_m: float = 0.3,
    extra_length_m: float = 0.3,
    rule: VehicleRule = "stricter",
) -> TieDownPlan:
    """Where each strap or chain of a car or machine goes, from its holds, this deck's points and the gear on board.

    As many tie-downs as the rule asks for, front and rear held on both sides, pulling apart (or all crossed inwards
    where the deck allows no other way), each counted by half of its weakest part; more are added until their sum is
    half the weight.

    Parameters
    ----------
    item_kind : str
        Car up to 10,000 lb, or machine.
    item_mass_kg : float
        Weight of the item [kg].
    hold_x_m : tuple of float
        Holds on the item (wheels, eyes), how far behind the coupling each lies once loaded [m].
    hold_y_m : tuple of float
        How far right of the middle each hold lies [m].
    deck_point_x_m : tuple of float
        Anchor points of the deck, how far behind the coupling [m].
    deck_point_y_m : tuple of float
        How far right of the middle [m].
    deck_point_wll_kg : tuple of float
        Working load limit of each, or one for all [kg].
    gear_wll_kg : tuple of float
        Working load limit of each strap or chain on board with its hooks and binder [kg].
    gear_length_m : tuple of float
        Greatest length of each, or one for all [m].
    hold_wll_kg : tuple of float
        Working load limit of each hold, or one for all; none known if left out [kg].
    hold_height_m : float
        Height of the holds above the deck points [m].
    extra_length_m : float
        What each tie-down needs beyond the straight way, round a tire or for its binder [m].
    rule : str
        Rule text, drivers' handbook or the stricter.

    Returns
    -------
    TieDownPlan
        Whether there is a plan, each tie-down, sums and margin [kg], what is left, and what else to do.

    Raises
    ------
    OutOfRange
        If lists differ, a value is outside its range, a car is above 10,000 lb, or there are more than 40 points.

    Notes
    -----
    Counting rules of 49 CFR 393 (US and Canada); not for the EU. One anchor point bears one tie-down. That no plan
    was found is no proof that there is none. A plan is a proposal: whoever loads looks at every anchor, angle and edge.

    Examples
    --------
    A 3,500 lb car between four corner points, four straps of 3,333 lb.

    >>> pound = 0.45359237
    >>> plan = tie_down_plan("car", 3500 * pound, (3.0, 3.0, 5.7, 5.7), (-0.75, 0.75, -0.75, 0.75),
    ...     (2.0, 2.0, 6.7, 6.7), (-1.0, 1.0, -1.0, 1.0), (5000 * pound,), (3333 * pound,) * 4, (2.5,))
    >>> plan.feasible, len(plan.tie_downs), round(plan.aggregate_kg / pound), plan.gear_left
    (True, 4, 6666, ())

    References
    ----------
    .. [1] 49cfr393, 393.106(d), 393.108(a), 393.128, 393.130
    .. [2] nacss_handbook, automobiles; chapter 10
    """
    positive(item_mass_kg=item_mass_kg)
    not_negative(hold_height_m=hold_height_m, extra_length_m=extra_length_m)
    with refused_as(car_mass_kg="item_mass_kg", machine_mass_kg="item_mass_kg"):
        need = (car_tie_downs if item_kind == "car" else machine_tie_downs)(item_mass_kg, rule)
    least = need.each_wll_kg or 0.0
    holds = points_of("hold", hold_x_m, hold_y_m, hold_wll_kg or None)
    deck = points_of("deck_point", deck_point_x_m, deck_point_y_m, deck_point_wll_kg)
    gear = gear_of(gear_wll_kg, gear_length_m)
    numbers = [number for number, piece in enumerate(gear) if not exceeds(least, piece.wll_kg)]
    usable = [gear[number] for number in numbers]
    pairs = [
        pair
        for pair in pairs_between(holds, deck, hold_height_m, extra_length_m)
        if not exceeds(least, min(holds[pair.hold].wll_kg, deck[pair.deck].wll_kg))
    ]

    def satisfies(tied: tuple[Tied, ...]) -> bool:
        total = math.fsum(one.wll_kg for one in tied) / 2
        return len(tied) >= need.least_count and not exceeds(item_mass_kg / 2, total)

    feasible, tied = search(pairs, holds, deck, usable, need.each_end_count, satisfies)
    planned = tuple(planned_of(one, holds, deck, numbers) for one in tied)
    total = math.fsum(one.counted_kg for one in planned)
    why = () if feasible else _why_not(need.least_count, least, len(usable), pairs, planned)
    return TieDownPlan(
        feasible=feasible,
        needed_count=need.least_count,
        needed_each_end=need.each_end_count,
        aggregate_needed_kg=item_mass_kg / 2,
        aggregate_kg=total,
        margin_kg=total - item_mass_kg / 2,
        tie_downs=planned,
        gear_left=not_used(len(gear), {one.gear for one in planned}),
        deck_points_left=not_used(len(deck), {one.deck_point for one in planned}),
        why_not=why,
        also=(*ALSO[item_kind], *ALWAYS),
    )


def _why_not(
    count: int, least_kg: float, pieces: int, pairs: list[Pair], planned: tuple[PlannedTieDown, ...]
) -> tuple[str, ...]:
    reasons = []
    if pieces < count:
        strong = f" of at least {least_kg / pounds(1):,.0f} lb each" if least_kg else ""
        reasons.append(f"{count} tie-downs{strong} are asked for and {pieces} are on board.")
    if not pairs:
        reasons.append("No deck point that is strong enough lies where a hold could be tied to it.")
    elif not reasons and not planned:
        reasons.append("Front and rear cannot both be held on both sides with these points and lengths.")
    elif not reasons:
        reasons.append(
            "All that fits together counts less than half the weight: stronger gear or more points."
        )
    return tuple(reasons)
