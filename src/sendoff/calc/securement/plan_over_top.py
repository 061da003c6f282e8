"""A plan of straps over general cargo: which points, which straps, and what is left."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import each_finite, exceeds, inches, positive
from sendoff.calc.contract import calculation
from sendoff.calc.securement._plan import (
    ALSO,
    ALWAYS,
    PlannedTieDown,
    TieDownPlan,
    gear_of,
    not_used,
    points_of,
)
from sendoff.calc.securement._search import Gear, Point
from sendoff.calc.securement.us import aggregate_wll, tie_downs_by_length

FAMILY: Final = "securement"


@calculation(
    FAMILY,
    "n by length, Σ WLL ≥ ½·weight, each by its weakest part, spread along the item",
    symbols={"item_mass_kg": "weight", "needed_count": "n", "aggregate_kg": "Σ"},
)
def over_top_plan(
    item_mass_kg: float,
    item_front_x_m: float,
    item_length_m: float,
    item_width_m: float,
    item_height_m: float,
    deck_point_x_m: tuple[float, ...],
    deck_point_y_m: tuple[float, ...],
    deck_point_wll_kg: tuple[float, ...],
    gear_wll_kg: tuple[float, ...],
    gear_length_m: tuple[float, ...],
    *,
    blocked_forward: bool = False,
) -> TieDownPlan:
    """Where each strap goes over general cargo, from this deck's points and the gear on board.

    As many straps as length and weight ask for, from a point on the left over the item to one on the right about
    opposite, spread along its length; more are added until the sum of their limits is half the weight.

    Parameters
    ----------
    item_mass_kg : float
        Weight of the item [kg].
    item_front_x_m : float
        How far behind the coupling its front lies [m].
    item_length_m : float
        Its length [m].
    item_width_m : float
        Its width, in the middle of the deck [m].
    item_height_m : float
        Its height above the deck points [m].
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
    blocked_forward : bool
        Whether a headboard, other cargo or a block keeps it from moving forward.

    Returns
    -------
    TieDownPlan
        Whether there is a plan, each strap, sums and margin [kg], what is left, and what else to do.

    Raises
    ------
    OutOfRange
        If lists differ or a value is outside its range.

    Notes
    -----
    Counting rules of 49 CFR 393; not for the EU. Straps over the top hold by friction: a slippery deck wants blocking
    as well.

    Examples
    --------
    A 2,000 lb crate of 6 ft: two straps.

    >>> pound, foot = 0.45359237, 0.3048
    >>> plan = over_top_plan(2000 * pound, 3.0, 6 * foot, 1.2, 1.0, (3.2, 3.2, 4.5, 4.5), (-1.2, 1.2, -1.2, 1.2),
    ...     (3000 * pound,), (3333 * pound,) * 3, (9.0,))
    >>> plan.feasible, len(plan.tie_downs), plan.gear_left
    (True, 2, (3,))

    References
    ----------
    .. [1] 49cfr393, 393.106(d), 393.108(a), 393.110
    """
    positive(
        item_mass_kg=item_mass_kg,
        item_length_m=item_length_m,
        item_width_m=item_width_m,
        item_height_m=item_height_m,
    )
    each_finite(item_front_x_m=(item_front_x_m,))
    deck = points_of("deck_point", deck_point_x_m, deck_point_y_m, deck_point_wll_kg)
    gear = gear_of(gear_wll_kg, gear_length_m)
    needed = tie_downs_by_length(item_length_m, item_mass_kg, blocked_forward=blocked_forward)
    rows = _rows(deck, item_front_x_m, item_front_x_m + item_length_m, item_width_m, item_height_m)
    best: list[PlannedTieDown] = []
    feasible = False
    for count in range(needed, min(len(rows), len(gear)) + 1):
        tied = _spread(rows, count, item_front_x_m, item_length_m, gear, deck)
        if not tied:
            continue
        best = tied
        sum_kg = aggregate_wll(item_mass_kg, tuple(one.wll_kg for one in tied), ("over",))
        if sum_kg.holds:
            feasible = True
            break
    total = math.fsum(one.counted_kg for one in best)
    used = {one.gear for one in best}
    used_deck = {one.deck_point for one in best} | {one.other_deck_point or 0 for one in best}
    return TieDownPlan(
        feasible=feasible,
        needed_count=needed,
        needed_each_end=0,
        aggregate_needed_kg=item_mass_kg / 2,
        aggregate_kg=total,
        margin_kg=total - item_mass_kg / 2,
        tie_downs=tuple(best),
        gear_left=not_used(len(gear), used),
        deck_points_left=not_used(len(deck), used_deck),
        why_not=() if feasible else _why_not(needed, len(rows), len(gear), fits=bool(best)),
        also=(*ALSO["general"], *ALWAYS),
    )


def _why_not(needed: int, rows: int, pieces: int, *, fits: bool) -> tuple[str, ...]:
    why = []
    if rows < needed:
        why.append(
            f"{needed} pairs of points opposite each other are asked for along the item and {rows} are there."
        )
    if pieces < needed:
        why.append(f"{needed} straps are asked for and {pieces} are on board.")
    if fits:
        why.append("All that fits together counts less than half the weight: stronger gear or more points.")
    return tuple(why) or ("The straps on board are too short to go over.",)


@dataclass(frozen=True, slots=True)
class _Row:
    """Two points opposite each other, and the way from one over the item to the other."""

    left: int
    right: int
    x_m: float
    length_m: float


def _rows(deck: list[Point], front_m: float, rear_m: float, width_m: float, height_m: float) -> list[_Row]:
    """Pairs of points opposite each other (to half a foot) within the item's length, each point once."""
    lefts = [n for n, point in enumerate(deck) if point.y_m < 0]
    rights = [n for n, point in enumerate(deck) if point.y_m > 0]
    apart = sorted((abs(deck[a].x_m - deck[b].x_m), a, b) for a in lefts for b in rights)
    rows: list[_Row] = []
    used: set[int] = set()
    for gap, left, right in apart:
        middle = (deck[left].x_m + deck[right].x_m) / 2
        if (
            exceeds(gap, inches(6))
            or {left, right} & used
            or exceeds(front_m, middle)
            or exceeds(middle, rear_m)
        ):
            continue
        used |= {left, right}
        sides = (abs(deck[n].y_m) - width_m / 2 for n in (left, right))
        length = width_m + math.fsum(math.hypot(side, height_m) for side in sides) + gap
        rows.append(_Row(left, right, middle, length))
    return sorted(rows, key=lambda row: row.x_m)


def _spread(
    rows: list[_Row], count: int, front_m: float, length_m: float, gear: list[Gear], deck: list[Point]
) -> list[PlannedTieDown]:
    """Return straps on rows spread along the item, the strongest pieces that reach; empty where they do not."""
    wanted = [front_m + length_m * (n + 0.5) / count for n in range(count)]
    if count > 1:
        wanted[0], wanted[-1] = front_m + 0.1 * length_m, front_m + 0.9 * length_m
    free = list(rows)
    chosen = []
    for place in wanted:
        row = min(free, key=lambda row: (abs(row.x_m - place), row.x_m))
        free.remove(row)
        chosen.append(row)
    left = dict(enumerate(gear))
    planned = []
    for row in sorted(chosen, key=lambda row: -row.length_m):
        fits = [key for key, piece in left.items() if piece.length_m >= row.length_m]
        if not fits:
            return []
        cap = min(deck[row.left].wll_kg, deck[row.right].wll_kg)
        key = min(fits, key=lambda k: (-min(left[k].wll_kg, cap), left[k].wll_kg, left[k].length_m, k))
        limit = min(left.pop(key).wll_kg, cap)
        planned.append(
            PlannedTieDown(
                gear=key + 1,
                hold_point=0,
                deck_point=row.left + 1,
                other_deck_point=row.right + 1,
                hold_x_m=row.x_m,
                hold_y_m=0.0,
                deck_x_m=deck[row.left].x_m,
                deck_y_m=deck[row.left].y_m,
                length_m=row.length_m,
                pulls="down",
                side="across",
                wll_kg=limit,
                counted_kg=limit,
            )
        )
    return sorted(planned, key=lambda one: one.hold_x_m)
