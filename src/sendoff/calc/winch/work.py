"""Work: whether the winch does the pull, the current it draws and what a pull costs the battery."""

from __future__ import annotations

from dataclasses import dataclass

from sendoff.calc.battery import cycle_charge
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.calc.winch.pull import Surface, winch_pull
from sendoff.calc.winch.rope import layer_pull
from sendoff.calc.winch.tackle import tackle_line_pull
from sendoff.errors import OutOfRange


@calculation(
    "winch",
    "I = I0 + (I1 − I0) P / P1",
    gives="current_A",
    symbols={
        "line_N": "P",
        "rated_N": "P1",
        "no_load_A": "I0",
        "rated_A": "I1",
        "current_A": "I",
    },
)
def winch_current(line_N: float, rated_N: float, rated_A: float, no_load_A: float) -> float:
    """Current of a winch motor at a line pull, from two points of its card.

    Straight line from no load to rated pull: I = I0 + (I1 − I0) P/P1.

    Parameters
    ----------
    line_N : float
        Line pull on the layer being wound, brought to the first layer [N].
    rated_N : float
        Rated first-layer pull [N].
    rated_A : float
        Current at the rated pull [A].
    no_load_A : float
        Current with no load [A].

    Returns
    -------
    float
        Current [A].

    Raises
    ------
    OutOfRange
        If pull or no-load current is below zero, ratings not above zero, the pull above the rating, or the currents
        the wrong way round.

    Notes
    -----
    Series motors bend a little under this line in the middle. The card's own table comes first.

    Examples
    --------
    >>> winch_current(20_000.0, 40_000.0, 380.0, 80.0)
    230.0

    References
    ----------
    .. [1] electricity, straight line between two points of the card
    """
    require_not_negative(line_N=line_N, no_load_A=no_load_A)
    require_positive(rated_N=rated_N, rated_A=rated_A)
    if line_N > rated_N * (1 + 1e-9):
        raise OutOfRange("line_N", line_N, "must not be above the rated pull")
    if no_load_A > rated_A:
        raise OutOfRange("no_load_A", no_load_A, "must not be above the current at the rated pull")
    return no_load_A + (rated_A - no_load_A) * line_N / rated_N


@dataclass(frozen=True, slots=True)
class PullCharge:
    """What one pull costs."""

    time_s: float
    charge_C: float
    energy_J: float


@calculation(
    "winch",
    "t = L / v, Q = I t, W = U Q",
    symbols={
        "current_A": "I",
        "rope_m": "L",
        "line_speed_mps": "v",
        "supply_V": "U",
        "time_s": "t",
        "charge_C": "Q",
        "energy_J": "W",
    },
)
def winch_pull_charge(
    current_A: float, rope_m: float, line_speed_mps: float, supply_V: float = 12.0
) -> PullCharge:
    """Time, charge and energy of one winch pull.

    t = L/v, Q = I t, W = U Q.

    Parameters
    ----------
    current_A : float
        Current at this pull [A].
    rope_m : float
        Rope wound in [m].
    line_speed_mps : float
        Line speed at this pull [m/s].
    supply_V : float
        Voltage, 12 V if not given [V].

    Returns
    -------
    PullCharge
        Time, charge, energy.

    Raises
    ------
    OutOfRange
        If the current is below zero or another input not above zero.

    Notes
    -----
    At high current the battery loses more than this (`cycles_per_charge`). Winch and lift pump never run together.

    Examples
    --------
    200 A for 30 ft at 10 ft a minute: 3 min, 10 Ah.

    >>> found = winch_pull_charge(200.0, 30 * 0.3048, 10 * 0.3048 / 60)
    >>> round(found.time_s), round(found.charge_C / 3600, 3)
    (180, 10.0)

    References
    ----------
    .. [1] electricity, charge is current times time
    """
    require_not_negative(current_A=current_A)
    require_positive(rope_m=rope_m, line_speed_mps=line_speed_mps, supply_V=supply_V)
    time_s = rope_m / line_speed_mps
    charge_C = cycle_charge(current_A, time_s)
    return PullCharge(time_s, charge_C, supply_V * charge_C)


@dataclass(frozen=True, slots=True)
class WinchCheck:
    """A winch held against a pull."""

    load_N: float
    line_N: float
    """Needed at the winch."""
    capacity_N: float
    """On that layer."""
    margin_N: float
    used_ratio: float
    enough: bool


@calculation(
    "winch",
    "F / parts ≤ P1 · share of the layer",
    symbols={"mass_kg": "m", "grade_ratio": "s", "rated_N": "P1", "layer": "n", "load_N": "F"},
)
def winch_check(
    mass_kg: float,
    grade_ratio: float,
    surface: Surface,
    rated_N: float,
    drum_diameter_m: float,
    rope_diameter_m: float,
    layer: int = 1,
    line_parts: int = 1,
    sheave_efficiency_ratio: float = 0.90,
) -> WinchCheck:
    """Whether a winch moves a vehicle up a grade, on its layer and through its tackle.

    The pull of grade and surface, divided over the parts of line, against the rated pull on the layer.

    Parameters
    ----------
    mass_kg : float
        Mass of the vehicle [kg].
    grade_ratio : float
        Grade of ramp or bank, rise over run [-].
    surface : {"new_pavement", "worn_pavement", "hard_road", "rolled_gravel", "loose_gravel", "medium_soil", "sand", "hard_wet_sand", "bog", "steel_deck", "locked_wheels"}
        What it rolls on.
    rated_N : float
        Rated first-layer pull of the winch [N].
    drum_diameter_m : float
        Bare drum [m].
    rope_diameter_m : float
        Rope [m].
    layer : int
        Layer being wound [-].
    line_parts : int
        Parts of line on the load [-].
    sheave_efficiency_ratio : float
        What a sheave passes on [-].

    Returns
    -------
    WinchCheck
        Pull of the load, at the winch, capacity, margin, share used, enough or not.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    At even speed with a full battery. The weakest part of the line is a question of its own: `weakest_in_line`.

    Examples
    --------
    A 5,000 lb car up 25 % on a 5,000 lb winch, third layer.

    >>> found = winch_check(2268.0, 0.25, "steel_deck", 22241.0, 0.0635, 0.009525, 3)
    >>> found.enough, round(found.used_ratio, 2)
    (True, 0.4)

    References
    ----------
    .. [1] statics, equilibrium along the slope
    .. [2] sae_j706, rating on the first layer
    """  # noqa: E501
    load_N = winch_pull(mass_kg, grade_ratio, surface).total_N
    line_N = tackle_line_pull(load_N, line_parts, sheave_efficiency_ratio)
    capacity_N = layer_pull(rated_N, layer, drum_diameter_m, rope_diameter_m)
    return WinchCheck(
        load_N, line_N, capacity_N, capacity_N - line_N, line_N / capacity_N, line_N <= capacity_N
    )
