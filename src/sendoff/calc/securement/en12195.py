"""The European count after EN 12195-1:2010, over the top: friction, force, number of lashings, mass held."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import positive
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
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "securement"

LoadSurface = Literal[
    "sawn_timber",
    "planed_wood",
    "plastic_pallet",
    "steel_crate",
    "rough_unpainted_metal",
    "painted_smooth_metal",
    "rough_concrete",
    "rubber_mat",
]
DeckSurface = Literal[
    "laminate_or_plywood",
    "grooved_aluminum",
    "stainless_sheet",
    "rough_unpainted_metal",
    "painted_smooth_metal",
    "sawn_wood",
    "any_clean",
]


@dataclass(frozen=True, slots=True)
class OverTop:
    """Lashings over the top against sliding."""

    exact_number: float
    """The number before it is rounded up; zero or below where friction alone holds."""
    needed_count: int
    fit_at_least_count: int
    """Never zero: tipping, shaking loose and rebound remain."""
    friction_alone: bool
    said: str


@calculation(
    FAMILY,
    "row of the table; 75 % of it for direct lashing",
    gives="friction_ratio",
    tables={"table": "friction_factors"},
)
def friction_factor(
    load_surface: LoadSurface,
    deck_surface: DeckSurface,
    condition: Literal["dry", "wet", "not_swept", "snow_ice_or_grease"] = "dry",
    table: Table | None = None,
) -> float:
    """Friction factor between load and deck.

    A look-up, dry or wet, both swept clean; not swept clean at most 0.3, with snow, ice or grease at most 0.2.

    Parameters
    ----------
    load_surface : str
        Underside of the load.
    deck_surface : str
        The deck.
    condition : str
        State of both.
    table : Table, optional
        Factors.

    Returns
    -------
    float
        Friction factor [-].

    Raises
    ------
    OutOfRange
        If the pair is not listed, or has no factor in that state.

    Notes
    -----
    Use 75 % of it for direct lashings, see `dynamic_friction`.

    Examples
    --------
    >>> [friction_factor("sawn_timber", "laminate_or_plywood", state) for state in ("dry", "not_swept")]
    [0.45, 0.3]

    References
    ----------
    .. [1] ctu_code, annex 7, appendix 2
    .. [2] en12195_1, annex B
    """
    table = table or tables.load("friction_factors")
    row = table.row(load_surface=load_surface, deck_surface=deck_surface)
    dry, wet = float(row["dry_ratio"]), row["wet_ratio"]
    if condition == "dry":
        return dry
    if wet is None:
        if condition == "wet":
            raise OutOfRange("condition", condition, "must be one the table prints for this pair: dry only")
        wet = dry
    if condition == "wet":
        return float(wet)
    return min(dry, float(wet), 0.3 if condition == "not_swept" else 0.2)


@calculation(
    FAMILY,
    "μ_dynamic = 0.75·μ",
    gives="dynamic_friction_ratio",
    symbols={"friction_ratio": "μ", "dynamic_friction_ratio": "μ_dynamic"},
)
def dynamic_friction(friction_ratio: float) -> float:
    """Friction that direct lashings may count on, once the load has begun to move.

    μ_dynamic = 0.75·μ; older texts say 70 %.

    Parameters
    ----------
    friction_ratio : float
        Tabled friction factor [-].

    Returns
    -------
    float
        Dynamic friction factor [-].

    Raises
    ------
    OutOfRange
        If the factor is not from 0.01 to 1.

    Notes
    -----
    For direct lashings only; over-top lashings use the tabled factor.

    Examples
    --------
    >>> round(dynamic_friction(0.4), 9)
    0.3

    References
    ----------
    .. [1] ctu_code, annex 7, appendix 2
    """
    require_friction(friction_ratio)
    return 0.75 * friction_ratio


@calculation(
    FAMILY,
    "F = 2·μ·sin α·F_T",
    gives="held_force_N",
    symbols={
        "friction_ratio": "μ",
        "lashing_angle_rad": "α",
        "lashing_tension_N": "F_T",
        "held_force_N": "F",
    },
)
def over_top_force(
    friction_ratio: float, lashing_tension_N: float, lashing_angle_rad: float = math.pi / 2
) -> float:
    """Force against sliding that one lashing over the top adds by pressing the load down.

    F = 2·μ·sin α·F_T: both legs press, friction holds.

    Parameters
    ----------
    friction_ratio : float
        Friction factor of load and deck [-].
    lashing_tension_N : float
        Tension the strap keeps, its STF, not its lashing capacity [N].
    lashing_angle_rad : float
        Angle of the legs from the deck [rad].

    Returns
    -------
    float
        Force against sliding [N].

    Raises
    ------
    OutOfRange
        If the tension is not above zero, the factor not from 0.01 to 1, or the angle not from 30 to 90 degrees.

    Notes
    -----
    The same strap of 2,500 daN lashing capacity holds ten times as much when used directly.

    Examples
    --------
    Insurers' handbook: 400 daN at μ = 0.3 add 240 daN.

    >>> over_top_force(0.3, 4000.0)
    2400.0

    References
    ----------
    .. [1] insurers_handbook, chapter 2
    """
    require_friction(friction_ratio)
    positive(lashing_tension_N=lashing_tension_N)
    require_angle("lashing_angle_rad", lashing_angle_rad, 30)
    return 2 * friction_ratio * math.sin(lashing_angle_rad) * lashing_tension_N


@calculation(
    FAMILY,
    "n ≥ (c − μ)·m·g·f_s / (2·μ·sin α·F_T)",
    symbols={
        "item_mass_kg": "m",
        "friction_ratio": "μ",
        "lashing_tension_N": "F_T",
        "lashing_angle_rad": "α",
        "gravity_mps2": "g",
        "exact_number": "n",
    },
    tables={"table": "en_accelerations"},
)
def over_top_lashings(
    item_mass_kg: float,
    friction_ratio: float,
    lashing_tension_N: float,
    direction: Direction,
    lashing_angle_rad: float = math.pi / 2,
    vehicle_total_mass_kg: float | None = None,
    gravity_mps2: float = EN_GRAVITY_mps2,
    table: Table | None = None,
) -> OverTop:
    """Number of lashings over the top that keep a load from sliding, after EN 12195-1.

    n ≥ (c − μ)·m·g·f_s / (2·μ·sin α·F_T), with c and f_s by direction: 0.8 and 1.25 forward, 0.5 and 1.1 otherwise.

    Parameters
    ----------
    item_mass_kg : float
        Mass of the load [kg].
    friction_ratio : float
        Friction factor of load and deck [-].
    lashing_tension_N : float
        Tension each strap keeps, its STF [N].
    direction : str
        Direction it must not slide in.
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
    OverTop
        Exact and whole number, the least to fit, and whether friction alone holds [-].

    Raises
    ------
    OutOfRange
        If the vehicle is out of scope, a value is not above zero, the factor not from 0.01 to 1, or the angle not from
        30 to 90 degrees, or more than 1,000 lashings would be needed.

    Notes
    -----
    Road only, vehicles above 3,500 kg. Never zero lashings: tipping, shaking and rebound remain.

    Examples
    --------
    5,000 kg, μ = 0.4, upright, 400 daN: 7.664, so eight.

    >>> found = over_top_lashings(5000.0, 0.4, 4000.0, "forward")
    >>> round(found.exact_number, 3), found.needed_count
    (7.664, 8)

    References
    ----------
    .. [1] en12195_1, 5.4 and table 2
    .. [2] insurers_handbook, on DIN EN 12195-1
    """
    require_scope(vehicle_total_mass_kg)
    positive(item_mass_kg=item_mass_kg, gravity_mps2=gravity_mps2)
    per_lashing = over_top_force(friction_ratio, lashing_tension_N, lashing_angle_rad)
    pull = coefficient(direction, "sliding_ratio", table) - friction_ratio
    safety = coefficient(direction, "safety_ratio", table)
    exact = pull * item_mass_kg * gravity_mps2 * safety / per_lashing
    needed = whole("item_mass_kg", item_mass_kg, exact)
    alone = needed == 0
    said = (
        "Friction alone keeps it from sliding this way. Fit at least one all the same and check tipping."
        if alone
        else "Against sliding this way. Check the other directions and tipping as well."
    )
    return OverTop(exact, needed, max(needed, 1), alone, said)


@calculation(
    FAMILY,
    "m = 2·μ·sin α·F_T / ((c − μ)·g·f_s)",
    symbols={
        "friction_ratio": "μ",
        "lashing_tension_N": "F_T",
        "lashing_angle_rad": "α",
        "gravity_mps2": "g",
        "held_kg": "m",
    },
    tables={"table": "en_accelerations"},
)
def over_top_mass_held(
    friction_ratio: float,
    lashing_tension_N: float,
    direction: Direction,
    lashing_angle_rad: float = math.pi / 2,
    vehicle_total_mass_kg: float | None = None,
    gravity_mps2: float = EN_GRAVITY_mps2,
    table: Table | None = None,
) -> MassHeld:
    """Mass one lashing over the top keeps from sliding, after EN 12195-1.

    m = 2·μ·sin α·F_T / ((c − μ)·g·f_s).

    Parameters
    ----------
    friction_ratio : float
        Friction factor of load and deck [-].
    lashing_tension_N : float
        Tension the strap keeps, its STF [N].
    direction : str
        Direction the load must not slide in.
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
    MassHeld
        Mass held [kg]; none where friction alone holds any mass.

    Raises
    ------
    OutOfRange
        If the vehicle is out of scope or an input is outside its range.

    Notes
    -----
    As for `over_top_lashings`.

    Examples
    --------
    >>> import math
    >>> round(over_top_mass_held(0.45, 4000.0, "forward", math.radians(75)).held_kg)
    810

    References
    ----------
    .. [1] en12195_1, 5.4 and table 2
    """
    require_scope(vehicle_total_mass_kg)
    positive(gravity_mps2=gravity_mps2)
    force = over_top_force(friction_ratio, lashing_tension_N, lashing_angle_rad)
    pull = coefficient(direction, "sliding_ratio", table) - friction_ratio
    if pull <= 1e-9:
        return MassHeld(None, friction_alone=True)
    held = force / (pull * gravity_mps2 * coefficient(direction, "safety_ratio", table))
    return MassHeld(held, friction_alone=False)
