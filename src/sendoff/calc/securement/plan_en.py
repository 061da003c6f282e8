"""A plan of direct lashings by forces after EN 12195-1, for where that standard counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.calc.securement._en import (
    Direction,
    EN_GRAVITY_mps2,
    coefficient,
    require_scope,
)
from sendoff.calc.securement._plan import ALSO, gear_of, not_used, planned_of, points_of, search
from sendoff.calc.securement._search import Tied, pairs_between
from sendoff.calc.securement.en12195 import dynamic_friction

FAMILY: Final = "securement"

_ALWAYS: Final = (
    "No knots, no damaged parts; tails tied.",
    "Tipping is a check of its own. Look at the lashings again after a short way and at every stop.",
)
_WAYS: Final[tuple[tuple[Direction, float, float], ...]] = (
    ("forward", 1.0, 0.0),
    ("rearward", -1.0, 0.0),
    ("sideways", 0.0, 1.0),
    ("sideways", 0.0, -1.0),
)
"""A direction of sliding, and the pull (rearwards, right) of lashings that stop it."""


@dataclass(frozen=True, slots=True)
class PlannedLashing:
    """One direct lashing: gear, hold and deck points are numbered from 1 as they were given."""

    gear: int
    hold_point: int
    deck_point: int
    length_m: float
    pulls: str
    side: str
    capacity_N: float


@dataclass(frozen=True, slots=True)
class LashingPlan:
    """A plan that holds in all four directions, or the nearest found; margins are forces left, a minus is lacking."""

    feasible: bool
    lashings: tuple[PlannedLashing, ...]
    forward_margin_N: float
    rearward_margin_N: float
    left_margin_N: float
    right_margin_N: float
    gear_left: tuple[int, ...]
    deck_points_left: tuple[int, ...]
    also: tuple[str, ...]


def _margins(tied: tuple[Tied, ...], height_m: float, mass_kg: float, friction: float) -> tuple[float, ...]:
    """Return what is left against sliding forward, rearward, left and right."""
    left = []
    for direction, rearwards, rightwards in _WAYS:
        held = 0.0
        for one in tied:
            toward = (one.pair.along_m * rearwards + one.pair.across_m * rightwards) / one.pair.way_m
            if toward > 1e-9:
                held += one.wll_kg * (friction * height_m / one.pair.way_m + toward)
        pull = max(coefficient(direction, "sliding_ratio", None) - friction, 0.0)
        left.append(held - mass_kg * EN_GRAVITY_mps2 * pull)
    return tuple(left)


@calculation(
    FAMILY,
    "Σ LC·(0.75·μ·sin α + cos α·cos β) ≥ m·g·(c − 0.75·μ) in each of four directions",
    symbols={"item_mass_kg": "m", "friction_ratio": "μ", "gear_capacity_N": "LC"},
)
def en_lashing_plan(
    vehicle_total_mass_kg: float,
    item_mass_kg: float,
    friction_ratio: float,
    hold_x_m: tuple[float, ...],
    hold_y_m: tuple[float, ...],
    deck_point_x_m: tuple[float, ...],
    deck_point_y_m: tuple[float, ...],
    deck_point_capacity_N: tuple[float, ...],
    gear_capacity_N: tuple[float, ...],
    gear_length_m: tuple[float, ...],
    hold_height_m: float = 0.3,
    extra_length_m: float = 0.3,
) -> LashingPlan:
    """Where each direct lashing goes so that the load holds in all four directions after EN 12195-1.

    Two at each end, pulling apart or all inwards; in each direction the lashings that pull against it must hold
    Σ LC·(0.75·μ·sin α + cos α·cos β) ≥ m·g·(c − 0.75·μ); more are added as needed.

    Parameters
    ----------
    vehicle_total_mass_kg : float
        Greatest total mass of the vehicle, above 3,500 kg [kg].
    item_mass_kg : float
        Mass of the load [kg].
    friction_ratio : float
        Tabled friction factor of load and deck [-].
    hold_x_m : tuple of float
        Holds on the load, how far behind the coupling each lies [m].
    hold_y_m : tuple of float
        How far right of the middle [m].
    deck_point_x_m : tuple of float
        Anchor points of the deck, how far behind the coupling [m].
    deck_point_y_m : tuple of float
        How far right of the middle [m].
    deck_point_capacity_N : tuple of float
        Capacity of each anchor point, or one for all [N].
    gear_capacity_N : tuple of float
        Lashing capacity of each strap or chain on board [N].
    gear_length_m : tuple of float
        Greatest length of each, or one for all [m].
    hold_height_m : float
        Height of the holds above the deck points [m].
    extra_length_m : float
        What each lashing needs beyond the straight way [m].

    Returns
    -------
    LashingPlan
        Whether it holds, each lashing, what is left in each direction [N], and what else to do.

    Raises
    ------
    OutOfRange
        If the vehicle is out of scope, lists differ, or a value is outside its range.

    Notes
    -----
    Sliding on the road only; tipping and rebound are checks of their own. That no plan was found is no proof that
    there is none.

    Examples
    --------
    >>> plan = en_lashing_plan(7500.0, 1500.0, 0.3, (3.0, 3.0, 5.0, 5.0), (-0.8, 0.8, -0.8, 0.8),
    ...     (2.0, 2.0, 6.0, 6.0), (-1.1, 1.1, -1.1, 1.1), (20000.0,), (20000.0,) * 4, (3.0,))
    >>> plan.feasible, len(plan.lashings)
    (True, 4)

    References
    ----------
    .. [1] en12195_1, 5.5 and table 2
    .. [2] ctu_code, annex 7, appendix 2
    """
    require_scope(vehicle_total_mass_kg)
    positive(item_mass_kg=item_mass_kg)
    not_negative(hold_height_m=hold_height_m, extra_length_m=extra_length_m)
    holds = points_of("hold", hold_x_m, hold_y_m, None)
    deck = points_of("deck_point", deck_point_x_m, deck_point_y_m, deck_point_capacity_N, "capacity_N")
    gear = gear_of(gear_capacity_N, gear_length_m, "gear_capacity_N")
    friction = dynamic_friction(friction_ratio)

    def satisfies(tied: tuple[Tied, ...]) -> bool:
        return min(_margins(tied, hold_height_m, item_mass_kg, friction)) >= 0

    pairs = pairs_between(holds, deck, hold_height_m, extra_length_m)
    feasible, tied = search(pairs, holds, deck, gear, 2, satisfies)
    planned = [planned_of(one, holds, deck, list(range(len(gear)))) for one in tied]
    left = _margins(tied, hold_height_m, item_mass_kg, friction)
    return LashingPlan(
        feasible=feasible,
        lashings=tuple(
            PlannedLashing(
                one.gear, one.hold_point, one.deck_point, one.length_m, one.pulls, one.side, one.wll_kg
            )
            for one in planned
        ),
        forward_margin_N=left[0],
        rearward_margin_N=left[1],
        left_margin_N=left[2],
        right_margin_N=left[3],
        gear_left=not_used(len(gear), {one.gear for one in planned}),
        deck_points_left=not_used(len(deck), {one.deck_point for one in planned}),
        also=(*ALSO["general"], *_ALWAYS),
    )
