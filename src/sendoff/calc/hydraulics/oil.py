"""Oil: what is left in the tank with everything raised, expansion, trapped oil, and the right fluid."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.calc.hydraulics.cylinder import cylinder_volume
from sendoff.errors import OutOfRange
from sendoff.tables import Table

EXPANSION_PER_K: Final = 0.00064
TRAPPED_Pa_PER_K: Final = 90 * 6894.757293168361 * 9 / 5
System = Literal["surge_brakes", "electric_over_hydraulic", "lift_pump"]
Fluid = Literal["dot_3", "dot_4", "hydraulic_oil", "transmission_fluid", "motor_oil"]


@dataclass(frozen=True, slots=True)
class ReservoirCheck:
    """Oil in the tank with everything up and everything down."""

    drawn_m3: float
    """Oil missing from the tank with all cylinders out."""
    left_m3: float
    """Usable oil left then; below zero the pump sucks air."""
    enough: bool
    overflow_m3: float
    """What would run over if the tank were filled to the mark with the cylinders out."""
    note: str


@calculation(
    "hydraulics",
    "drawn = n V (single-acting: bore, double-acting: rod)",
    symbols={"bore_m": "D", "rod_m": "d", "stroke_m": "L", "count": "n", "usable_m3": "usable"},
)
def reservoir_check(
    usable_m3: float,
    bore_m: float,
    stroke_m: float,
    count: int = 1,
    rod_m: float = 0.0,
    *,
    double_acting: bool = False,
) -> ReservoirCheck:
    """Whether the tank holds enough oil for all cylinders, and what runs over if it is filled wrongly.

    Single-acting cylinders draw their whole volume, double-acting ones only that of the rod.

    Parameters
    ----------
    usable_m3 : float
        Oil between full mark and pump inlet [m3].
    bore_m : float
        Bore of the cylinders [m].
    stroke_m : float
        Stroke [m].
    count : int
        Equal cylinders [-].
    rod_m : float
        Rod diameter; needed for double-acting cylinders [m].
    double_acting : bool
        Whether pressure also brings them back.

    Returns
    -------
    ReservoirCheck
        Oil drawn, left, enough or not, and the overflow of a wrong fill.

    Raises
    ------
    OutOfRange
        If a measure is not above zero, the number outside 1 to 12, or a double-acting cylinder has no rod.

    Notes
    -----
    Filled to the mark with all cylinders in, the deck down and the tail down: filled otherwise it runs over.

    Examples
    --------
    One 3 in by 24 in single-acting cylinder on a 5 qt tank.

    >>> found = reservoir_check(5 * 0.000946352946, 0.0762, 0.6096)
    >>> found.enough, round(found.left_m3 / 0.000946352946, 2)
    (True, 2.06)

    References
    ----------
    .. [1] fluid_power_sheet, cylinder volume
    .. [2] common_practice, fill with all cylinders in
    """
    require_positive(usable_m3=usable_m3)
    if not 1 <= count <= 12:
        raise OutOfRange("count", count, "must lie from 1 to 12")
    if double_acting:
        require_positive(rod_m=rod_m)
    each = cylinder_volume(bore_m, stroke_m, rod_m)
    drawn_m3 = count * (each.rod_m3 if double_acting else each.push_m3)
    left_m3 = usable_m3 - drawn_m3
    note = "Fill to the mark only with every cylinder in."
    if left_m3 < 0:
        note = "The tank runs dry before the stroke ends: the pump would suck air. " + note
    return ReservoirCheck(drawn_m3, left_m3, left_m3 >= 0, drawn_m3, note)


@calculation(
    "hydraulics",
    "ΔV = β V ΔT",
    gives="added_m3",
    symbols={"volume_m3": "V", "rise_dK": "ΔT", "added_m3": "ΔV"},
)
def oil_expansion(volume_m3: float, rise_dK: float) -> float:
    """How much mineral oil grows when it warms.

    ΔV = β V ΔT with β = 0.00064 per K.

    Parameters
    ----------
    volume_m3 : float
        Volume of oil [m3].
    rise_dK : float
        Rise of temperature; below zero it shrinks [K].

    Returns
    -------
    float
        Volume added [m3].

    Raises
    ------
    OutOfRange
        If the volume is below zero or the rise outside ±150 K.

    Notes
    -----
    Mineral hydraulic oil free to grow. Trapped oil builds pressure instead: `trapped_oil_pressure`.

    Examples
    --------
    10 L by 40 K: 0.256 L.

    >>> round(oil_expansion(0.010, 40.0) * 1000, 3)
    0.256

    References
    ----------
    .. [1] oil_maintenance_text, volume expansion
    """
    require_not_negative(volume_m3=volume_m3)
    require_between(-150.0, 150.0, "K", rise_dK=rise_dK)
    return EXPANSION_PER_K * volume_m3 * rise_dK


@calculation(
    "hydraulics",
    "Δp = 90 psi per °F · ΔT",
    gives="rise_Pa",
    symbols={"rise_dK": "ΔT", "rise_Pa": "Δp"},
)
def trapped_oil_pressure(rise_dK: float) -> float:
    """Pressure trapped oil builds when the sun warms it.

    Δp = 90 psi for each °F (11 bar for each °C).

    Parameters
    ----------
    rise_dK : float
        Rise of temperature [K].

    Returns
    -------
    float
        Pressure added [Pa].

    Raises
    ------
    OutOfRange
        If the rise is below zero or above 100 K.

    Notes
    -----
    Oil locked between closed valves and stiff steel. Why a line left full and shut can burst or lock its coupling.

    Examples
    --------
    10 °F: 900 psi.

    >>> round(trapped_oil_pressure(10 * 5 / 9) / 6894.757)
    900

    References
    ----------
    .. [1] oil_maintenance_text, trapped oil
    """
    require_between(0.0, 100.0, "K", rise_dK=rise_dK)
    return TRAPPED_Pa_PER_K * rise_dK


@dataclass(frozen=True, slots=True)
class FluidCheck:
    """A fluid held against the system it would go into."""

    usual: bool
    ruins_seals: bool
    meaning: str


@calculation("hydraulics", "read from the table of fluids by system", tables={"table": "fluids_by_system"})
def fluid_check(system: System, fluid: Fluid, table: Table | None = None) -> FluidCheck:
    """Whether a fluid belongs in a brake or lift system, and whether it ruins the seals.

    Read from the table; brake fluid and oil never go into each other's system.

    Parameters
    ----------
    system : {"surge_brakes", "electric_over_hydraulic", "lift_pump"}
        System to be topped up.
    fluid : {"dot_3", "dot_4", "hydraulic_oil", "transmission_fluid", "motor_oil"}
        Fluid at hand.
    table : Table
        Fluids by system.

    Returns
    -------
    FluidCheck
        Usual or not, ruins the seals or not, what to do.

    Raises
    ------
    OutOfRange
        If the table has no such pair.

    Notes
    -----
    Habit. Some electric-over-hydraulic actuators take mineral oil and some lifts transmission fluid: the cap's label
    and the unit's own card decide.

    Examples
    --------
    >>> fluid_check("lift_pump", "dot_3").ruins_seals
    True

    References
    ----------
    .. [1] common_practice, brake fluid against hydraulic oil
    """
    row = (table or tables.load("fluids_by_system")).row(system=system, fluid=fluid)
    if row["ruins_seals"]:
        meaning = "Do not pour: one wrong pour swells every seal of the other kind."
    elif row["usual"]:
        meaning = "The usual fluid. Look at the cap's label all the same."
    else:
        meaning = "Only if the cap's label or the unit's card names it."
    return FluidCheck(row["usual"], row["ruins_seals"], meaning)
