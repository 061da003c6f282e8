"""The European forces after EN 12195-1:2010 beyond friction: direct lashing, blocking, tipping, the old k."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import exceeds, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.calc.securement._en import (
    Direction,
    EN_GRAVITY_mps2,
    MassHeld,
    coefficient,
    require_angle,
    require_friction,
    require_scope,
    whole,
)
from sendoff.calc.securement.en12195 import dynamic_friction
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "securement"


@dataclass(frozen=True, slots=True)
class Tipping:
    """Whether a load stands by itself, and the lashings over the top that keep it from tipping."""

    stands_alone: bool
    exact_number: float
    needed_count: int


@calculation(
    FAMILY,
    "m = n·LC·(0.75·μ·sin α + cos α·cos β) / (g·(c − 0.75·μ))",
    symbols={
        "lashing_count": "n",
        "lashing_capacity_N": "LC",
        "friction_ratio": "μ",
        "lashing_angle_rad": "α",
        "turned_from_direction_rad": "β",
        "gravity_mps2": "g",
        "held_kg": "m",
    },
    tables={"table": "en_accelerations"},
)
def direct_lashing_mass_held(
    lashing_count: int,
    lashing_capacity_N: float,
    friction_ratio: float,
    direction: Direction,
    lashing_angle_rad: float,
    turned_from_direction_rad: float,
    vehicle_total_mass_kg: float | None = None,
    gravity_mps2: float = EN_GRAVITY_mps2,
    table: Table | None = None,
) -> MassHeld:
    """Mass that direct lashings pulling against one direction keep from sliding, after EN 12195-1.

    m = n·LC·(0.75·μ·sin α + cos α·cos β) / (g·(c − 0.75·μ)).

    Parameters
    ----------
    lashing_count : int
        Lashings that pull against this direction [-].
    lashing_capacity_N : float
        Lashing capacity of the weakest, anchors included [N].
    friction_ratio : float
        Tabled friction factor [-].
    direction : str
        Direction the load must not slide in.
    lashing_angle_rad : float
        Angle of the lashings from the deck [rad].
    turned_from_direction_rad : float
        Angle, seen from above, between the lashing and the direction it pulls against [rad].
    vehicle_total_mass_kg : float, optional
        Greatest total mass of the vehicle; refused up to 3,500 kg, unchecked if left out [kg].
    gravity_mps2 : float
        Acceleration of free fall, 9.81 as the standard computes [m/s2].
    table : Table, optional
        Coefficients.

    Returns
    -------
    MassHeld
        Mass held [kg]; none where friction alone holds any mass.

    Raises
    ------
    OutOfRange
        If the vehicle is out of scope or an input is outside its range.

    Notes
    -----
    Only lashings on the side away from the movement count, never all of them at once.

    Examples
    --------
    Two of 20,000 N at 30 and 30 degrees, μ = 0.3: 6,116 kg forward.

    >>> import math
    >>> angle = math.radians(30)
    >>> round(direct_lashing_mass_held(2, 20000.0, 0.3, "forward", angle, angle).held_kg, 1)
    6116.2

    References
    ----------
    .. [1] en12195_1, 5.5 and table 2
    .. [2] ctu_code, annex 7, appendix 2
    """
    require_scope(vehicle_total_mass_kg)
    positive(lashing_capacity_N=lashing_capacity_N, gravity_mps2=gravity_mps2)
    if not 1 <= lashing_count <= 100:
        raise OutOfRange("lashing_count", lashing_count, "must lie from 1 to 100")
    if not 0 <= lashing_angle_rad <= math.radians(80):
        raise OutOfRange("lashing_angle_rad", lashing_angle_rad, "must lie from 0 to 80 degrees")
    if not 0 <= turned_from_direction_rad <= math.radians(80):
        raise OutOfRange(
            "turned_from_direction_rad", turned_from_direction_rad, "must lie from 0 to 80 degrees"
        )
    friction = dynamic_friction(friction_ratio)
    pull = coefficient(direction, "sliding_ratio", table) - friction
    if pull <= 1e-9:
        return MassHeld(None, friction_alone=True)
    steep, turned = lashing_angle_rad, turned_from_direction_rad
    holds = friction * math.sin(steep) + math.cos(steep) * math.cos(turned)
    return MassHeld(lashing_count * lashing_capacity_N * holds / (gravity_mps2 * pull), friction_alone=False)


@calculation(
    FAMILY,
    "F = (c − μ)·m·g",
    gives="blocking_force_N",
    symbols={
        "item_mass_kg": "m",
        "friction_ratio": "μ",
        "gravity_mps2": "g",
        "blocking_force_N": "F",
    },
    tables={"table": "en_accelerations"},
)
def blocking_force(
    item_mass_kg: float,
    friction_ratio: float,
    direction: Direction,
    gravity_mps2: float = EN_GRAVITY_mps2,
    table: Table | None = None,
) -> float:
    """Force a wall or block must stop when nothing else holds the load, after EN 12195-1.

    F = (c − μ)·m·g; zero where friction alone holds.

    Parameters
    ----------
    item_mass_kg : float
        Mass of the load [kg].
    friction_ratio : float
        Friction factor of load and deck [-].
    direction : str
        Direction the load pushes in.
    gravity_mps2 : float
        Acceleration of free fall, 9.81 as the standard computes [m/s2].
    table : Table, optional
        Coefficients.

    Returns
    -------
    float
        Force on the block [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or the factor not from 0.01 to 1.

    Notes
    -----
    Vehicles above 3,500 kg, on the road.

    Examples
    --------
    >>> round(blocking_force(1000.0, 0.3, "forward"), 6)
    4905.0

    References
    ----------
    .. [1] en12195_1, 5.3 and table 2
    """
    positive(item_mass_kg=item_mass_kg, gravity_mps2=gravity_mps2)
    require_friction(friction_ratio)
    pull = coefficient(direction, "sliding_ratio", table) - friction_ratio
    return max(pull, 0.0) * item_mass_kg * gravity_mps2


@calculation(
    FAMILY,
    "stands if c·h ≤ b;  n ≥ m·g·(c·h − b)·f_s / (w·sin α·F_T)",
    symbols={
        "item_mass_kg": "m",
        "center_height_m": "h",
        "center_to_edge_m": "b",
        "item_width_m": "w",
        "standard_tension_N": "STF",
        "lashing_capacity_N": "LC",
        "lashing_angle_rad": "α",
        "gravity_mps2": "g",
        "exact_number": "n",
    },
    tables={"table": "en_accelerations"},
)
def tipping_lashings(
    item_mass_kg: float,
    center_height_m: float,
    center_to_edge_m: float,
    item_width_m: float,
    direction: Direction,
    standard_tension_N: float,
    lashing_capacity_N: float | None = None,
    lashing_angle_rad: float = math.pi / 2,
    vehicle_total_mass_kg: float | None = None,
    gravity_mps2: float = EN_GRAVITY_mps2,
    table: Table | None = None,
) -> Tipping:
    """Whether a load stands by itself, and how many lashings over the top keep it from tipping, after EN 12195-1.

    It stands if c·h ≤ b. Otherwise n ≥ m·g·(c·h − b)·f_s / (w·sin α·F_T): the far leg pulls down at the width w from
    the edge it would tip over. Sideways once with c = 0.5 and the standard tension, once with 0.6 and half the lashing
    capacity; the greater number counts.

    Parameters
    ----------
    item_mass_kg : float
        Mass of the load [kg].
    center_height_m : float
        Height of its center of mass above the deck [m].
    center_to_edge_m : float
        From the center of mass sideways to the edge it would tip over [m].
    item_width_m : float
        Width of the load across that edge, where the lashing bends down on both sides [m].
    direction : str
        Direction it must not tip in.
    standard_tension_N : float
        Tension each strap keeps, its STF [N].
    lashing_capacity_N : float, optional
        Lashing capacity of each strap; sideways the second count needs it [N].
    lashing_angle_rad : float
        Angle of the legs from the deck [rad].
    vehicle_total_mass_kg : float, optional
        Greatest total mass of the vehicle; refused up to 3,500 kg, unchecked if left out [kg].
    gravity_mps2 : float
        Acceleration of free fall, 9.81 as the standard computes [m/s2].
    table : Table, optional
        Coefficients.

    Returns
    -------
    Tipping
        Whether it stands alone, exact and whole number of lashings [-].

    Raises
    ------
    OutOfRange
        If the vehicle is out of scope, an input is outside its range, or the center lies outside the width.

    Notes
    -----
    One row, even tension in both legs, moments by statics; the two sideways counts as shown on an industry slide.

    Examples
    --------
    >>> tipping_lashings(2000.0, 0.8, 0.5, 1.0, "sideways", 4000.0).stands_alone
    True

    References
    ----------
    .. [1] en12195_1, 5.4 and table 2
    .. [2] statics, moments about the tipping edge
    """
    require_scope(vehicle_total_mass_kg)
    positive(
        item_mass_kg=item_mass_kg,
        center_height_m=center_height_m,
        item_width_m=item_width_m,
        standard_tension_N=standard_tension_N,
        gravity_mps2=gravity_mps2,
    )
    not_negative(center_to_edge_m=center_to_edge_m)
    require_angle("lashing_angle_rad", lashing_angle_rad, 30)
    if center_to_edge_m > item_width_m:
        raise OutOfRange("center_to_edge_m", center_to_edge_m, "must not lie outside the width")
    sliding = coefficient(direction, "sliding_ratio", table)
    tipping = coefficient(direction, "tipping_ratio", table)
    safety = coefficient(direction, "safety_ratio", table)
    ways = [(sliding, standard_tension_N)]
    if lashing_capacity_N is not None:
        positive(lashing_capacity_N=lashing_capacity_N)
        ways.append((tipping, lashing_capacity_N / 2))
    arm = item_width_m * math.sin(lashing_angle_rad)
    exact = max(
        item_mass_kg * gravity_mps2 * (c * center_height_m - center_to_edge_m) * safety / (arm * tension)
        for c, tension in ways
    )
    stands = not exceeds(max(sliding, tipping) * center_height_m, center_to_edge_m)
    return Tipping(stands, exact, whole("item_mass_kg", item_mass_kg, exact))


@calculation(
    FAMILY,
    "k = 2 / f_s",
    gives="k_number",
    symbols={"safety_ratio": "f_s", "k_number": "k"},
)
def k_factor_equivalent(safety_ratio: float) -> float:
    """Old transmission factor k that a safety factor of the 2010 text amounts to.

    k = 2 / f_s: 1.1 amounts to 1.82; the older k = 1.5 asked for a third more lashings than 2.

    Parameters
    ----------
    safety_ratio : float
        Safety factor [-].

    Returns
    -------
    float
        Equivalent k [-].

    Raises
    ------
    OutOfRange
        If the factor is below 1 or above 2.

    Notes
    -----
    For reading old tables only.

    Examples
    --------
    >>> round(k_factor_equivalent(1.1), 2)
    1.82

    References
    ----------
    .. [1] insurers_handbook, on DIN EN 12195-1
    """
    if not 1 <= safety_ratio <= 2:
        raise OutOfRange("safety_ratio", safety_ratio, "must lie from 1 to 2")
    return 2 / safety_ratio
