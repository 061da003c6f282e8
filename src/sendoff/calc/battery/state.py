"""State of a lead battery: charge from rest voltage or gravity, capacity in the cold, freezing point."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between
from sendoff.errors import OutOfRange
from sendoff.tables import Table

REFERENCE_K: Final = (80 + 459.67) * 5 / 9
"""80 °F, at which gravity and rest voltage are tabulated."""
TEN_F_dK: Final = 10 * 5 / 9
GRAVITY_PER_10F: Final = 0.004
VOLT_PER_10F: Final = 0.024
LARGEST_SPREAD: Final = 0.025

Kind = Literal["flooded", "agm"]
Acid = Literal["1.265", "1.280"]


@calculation(
    "battery",
    "SG80 = SG + 0.004 (t − 80 °F) / 10 °F",
    gives="gravity_ratio",
    symbols={"read_gravity_ratio": "SG", "temperature_K": "t", "gravity_ratio": "SG80"},
)
def gravity_at_80F(read_gravity_ratio: float, temperature_K: float) -> float:
    """Return a hydrometer reading corrected to 80 °F.

    SG80 = SG + 0.004 (t − 80 °F)/10 °F: cold acid reads too heavy, that is too full.

    Parameters
    ----------
    read_gravity_ratio : float
        Gravity as read [-].
    temperature_K : float
        Temperature of the acid [K].

    Returns
    -------
    float
        Gravity at 80 °F [-].

    Raises
    ------
    OutOfRange
        If the gravity is outside 1.0 to 1.35 or the temperature outside -40 to 150 °F.

    Notes
    -----
    Flooded lead batteries, acid above the plates.

    Examples
    --------
    1.250 read at 20 °F is 1.226.

    >>> round(gravity_at_80F(1.250, 266.483), 3)
    1.226

    References
    ----------
    .. [1] tm_5_3820, figure 7, example 1
    """
    require_between(1.0, 1.35, read_gravity_ratio=read_gravity_ratio)
    require_between(233.0, 339.0, "K", temperature_K=temperature_K)
    return read_gravity_ratio + GRAVITY_PER_10F * (temperature_K - REFERENCE_K) / TEN_F_dK


def _charge(table: Table, kind: str, column: str, value: float) -> float:
    rows = [row for row in table.where(kind=kind) if row[column] is not None]
    top, bottom = max(float(row[column]) for row in rows), min(float(row[column]) for row in rows)
    lowest = min(float(row["charge_ratio"]) for row in rows)
    if value >= top:
        return 1.0
    if value <= bottom and lowest == 0.0:
        return 0.0
    return table.interpolate(column, value, "charge_ratio", kind=kind)


@calculation(
    "battery",
    "straight line between rows of charge and gravity at 80 °F",
    gives="charge_ratio",
    symbols={"read_gravity_ratio": "SG", "temperature_K": "t"},
    tables={"table": "battery_charge"},
)
def charge_from_gravity(
    read_gravity_ratio: float,
    temperature_K: float = REFERENCE_K,
    acid: Acid = "1.265",
    table: Table | None = None,
) -> float:
    """Return the state of charge of a flooded battery from its gravity and temperature.

    The reading is brought to 80 °F and looked up on the straight line between the rows of the table.

    Parameters
    ----------
    read_gravity_ratio : float
        Gravity as read, the lowest cell [-].
    temperature_K : float
        Temperature of the acid, 80 °F if not given [K].
    acid : {"1.265", "1.280"}
        Gravity of the acid when full.
    table : Table
        Charge by gravity.

    Returns
    -------
    float
        State of charge [-].

    Raises
    ------
    OutOfRange
        If reading or temperature is out of range, or the table of 1.280 acid (down to 25 %) does not reach it.

    Notes
    -----
    Rested, acid mixed, water not just added. At or above the full row it is full; at or below the last row empty.

    Examples
    --------
    >>> charge_from_gravity(1.225)
    0.75

    References
    ----------
    .. [1] battery_support_page, table 1
    .. [2] tm_10_6140, table 1-1 for 1.280 acid
    """
    gravity = gravity_at_80F(read_gravity_ratio, temperature_K)
    kind = "flooded" if acid == "1.265" else "flooded_1280"
    held = table or tables.load("battery_charge")
    lowest = min(float(row["gravity_ratio"]) for row in held.where(kind=kind))
    if kind == "flooded_1280" and gravity < lowest:
        raise OutOfRange(
            "read_gravity_ratio", read_gravity_ratio, "is below 25 % of 1.280 acid: charge it first"
        )
    return _charge(held, kind, "gravity_ratio", gravity)


@calculation(
    "battery",
    "straight line between rows of charge and rest voltage, U + 0.024 V (t − 80 °F) / 10 °F",
    gives="charge_ratio",
    symbols={"rest_V": "U", "temperature_K": "t"},
    tables={"table": "battery_charge"},
)
def charge_from_rest_voltage(
    rest_V: float, temperature_K: float = REFERENCE_K, kind: Kind = "flooded", table: Table | None = None
) -> float:
    """Return the state of charge of a rested 12 V battery from its voltage and temperature.

    The voltage is brought to 80 °F, 0.024 V each 10 °F, and looked up between the rows of the table.

    Parameters
    ----------
    rest_V : float
        Voltage with nothing on or charging for at least 8 hours [V].
    temperature_K : float
        Temperature of the battery, 80 °F if not given [K].
    kind : {"flooded", "agm"}
        Flooded, or sealed glass-mat (rests about 0.2 V higher).
    table : Table
        Charge by rest voltage.

    Returns
    -------
    float
        State of charge [-].

    Raises
    ------
    OutOfRange
        If the voltage is outside 10 to 13.2 V (a battery on charge, or not at rest) or the temperature out of range.

    Notes
    -----
    12 V lead batteries at rest. A dead cell reads as an empty battery. The temperature step is the page's own.

    Examples
    --------
    >>> charge_from_rest_voltage(12.45)
    0.75

    References
    ----------
    .. [1] battery_support_page, tables 1 and 7
    """
    if rest_V > 13.2:
        raise OutOfRange(
            "rest_V", rest_V, "must not be above 13.2 V: the battery is on charge or has not rested"
        )
    require_between(10.0, 13.2, "V", rest_V=rest_V)
    require_between(233.0, 339.0, "K", temperature_K=temperature_K)
    at_80 = rest_V + VOLT_PER_10F * (temperature_K - REFERENCE_K) / TEN_F_dK
    return _charge(table or tables.load("battery_charge"), kind, "rest_V", at_80)


@calculation(
    "battery",
    "1.00 at 77 °F, 0.75 at 32 °F, 0.40 at 0 °F, straight lines between",
    gives="capacity_ratio",
    symbols={"temperature_K": "t"},
    tables={"table": "battery_cold_capacity"},
)
def cold_capacity(temperature_K: float, table: Table | None = None) -> float:
    """Return the share of its capacity a battery still gives in the cold.

    Straight line between 100 % at 77 °F, 75 % at 32 °F and 40 % at 0 °F; never more than 100 %.

    Parameters
    ----------
    temperature_K : float
        Temperature of the battery itself [K].
    table : Table
        Share by temperature.

    Returns
    -------
    float
        Share of the capacity at 77 °F [-].

    Raises
    ------
    OutOfRange
        If it is colder than 0 °F (no figure) or hotter than 150 °F.

    Notes
    -----
    Charged lead batteries at the long rate. At pump and winch currents the cold takes more.

    Examples
    --------
    >>> round(cold_capacity(273.15), 2)
    0.75

    References
    ----------
    .. [1] tm_10_6140, 1-8
    """
    require_between(0.0, 339.0, "K", temperature_K=temperature_K)
    held = table or tables.load("battery_cold_capacity")
    if temperature_K >= max(held.column("temperature_K")):
        return 1.0
    return held.interpolate("temperature_K", temperature_K, "capacity_ratio")


@calculation(
    "battery",
    "straight line between rows of gravity and freezing point",
    gives="freezing_K",
    symbols={"gravity_ratio": "SG"},
    tables={"table": "battery_freezing_by_gravity"},
)
def freezing_point_by_gravity(gravity_ratio: float, table: Table | None = None) -> float:
    """Return the temperature at which battery acid of a gravity freezes.

    Straight line between the rows of the military manuals.

    Parameters
    ----------
    gravity_ratio : float
        Gravity at 80 °F [-].
    table : Table
        Freezing point by gravity.

    Returns
    -------
    float
        Freezing point [K].

    Raises
    ------
    OutOfRange
        If the gravity is outside 1.000 to 1.280.

    Notes
    -----
    Sulfuric acid in water. Slush comes some degrees before ice: keep a margin.

    Examples
    --------
    >>> from sendoff.units import from_si
    >>> round(from_si(freezing_point_by_gravity(1.250), "degF", "temperature"))
    -62

    References
    ----------
    .. [1] od1002, TM 5-series table III
    """
    held = table or tables.load("battery_freezing_by_gravity")
    require_between(
        min(held.column("gravity_ratio")), max(held.column("gravity_ratio")), gravity_ratio=gravity_ratio
    )
    return held.interpolate("gravity_ratio", gravity_ratio, "freezing_K")


@calculation(
    "battery",
    "straight line between rows of charge and freezing point",
    gives="freezing_K",
    symbols={"charge_ratio": "q"},
    tables={"table": "battery_freezing_by_charge"},
)
def freezing_point_by_charge(charge_ratio: float, acid: Acid = "1.265", table: Table | None = None) -> float:
    """Return the temperature at which a lead battery freezes, by its state of charge.

    Straight line between the rows of the military manuals, which are warmer than a popular table.

    Parameters
    ----------
    charge_ratio : float
        State of charge [-].
    acid : {"1.265", "1.280"}
        Gravity of the acid when full; 1.265 freezes earlier and is taken if unknown.
    table : Table
        Freezing point by charge.

    Returns
    -------
    float
        Freezing point [K].

    Raises
    ------
    OutOfRange
        If the charge is outside 0 to 100 %.

    Notes
    -----
    Lead batteries. Below half charge the figures follow from gravity, rounded to the warm side.

    Examples
    --------
    A popular table promises -55 °F at three quarters; the manuals say -35.

    >>> from sendoff.units import from_si
    >>> round(from_si(freezing_point_by_charge(0.75), "degF", "temperature"))
    -35

    References
    ----------
    .. [1] tm_5_3820, table 2
    .. [2] tm_10_6140, table 1-1
    """
    require_between(0.0, 1.0, charge_ratio=charge_ratio)
    held = table or tables.load("battery_freezing_by_charge")
    return held.interpolate("charge_ratio", charge_ratio, "freezing_K", acid=acid)


@dataclass(frozen=True, slots=True)
class FreezingCheck:
    """A night's cold held against the battery's freezing point."""

    freezing_K: float
    margin_dK: float
    """How much colder it could still get; below zero it freezes."""
    freezes: bool
    tight: bool
    """Less than 10 °F left."""


@calculation(
    "battery",
    "margin = coldest − freezing point",
    symbols={"charge_ratio": "q", "coldest_K": "t"},
    tables={"table": "battery_freezing_by_charge"},
)
def freezing_check(
    charge_ratio: float, coldest_K: float, acid: Acid = "1.265", table: Table | None = None
) -> FreezingCheck:
    """Return whether a battery at this charge stands the coldest temperature expected.

    The margin is the coldest temperature less the freezing point.

    Parameters
    ----------
    charge_ratio : float
        State of charge [-].
    coldest_K : float
        Coldest temperature expected [K].
    acid : {"1.265", "1.280"}
        Gravity of the acid when full.
    table : Table
        Freezing point by charge.

    Returns
    -------
    FreezingCheck
        Freezing point, margin, freezes or not, tight or not.

    Raises
    ------
    OutOfRange
        If the charge is outside 0 to 100 % or the temperature outside -80 to 60 °C.

    Notes
    -----
    The battery takes the air's temperature overnight. A frozen battery is never charged.

    Examples
    --------
    At a quarter charge it freezes at 0 °F.

    >>> freezing_check(0.25, 255.372).freezes
    True

    References
    ----------
    .. [1] tm_5_3820, table 2
    """
    require_between(193.15, 333.15, "K", coldest_K=coldest_K)
    freezing_K = freezing_point_by_charge(charge_ratio, acid, table)
    margin_dK = coldest_K - freezing_K
    return FreezingCheck(freezing_K, margin_dK, margin_dK <= 0, margin_dK < TEN_F_dK)


@dataclass(frozen=True, slots=True)
class CellSpread:
    """Difference between the best and the worst cell."""

    spread_ratio: float
    serviceable: bool
    lowest_ratio: float


@calculation("battery", "spread = largest SG − smallest SG ≤ 0.025", symbols={"cell_gravity_ratio": "SG"})
def cell_spread(cell_gravity_ratio: tuple[float, ...]) -> CellSpread:
    """Return the spread of gravity between cells and whether it condemns a charged battery.

    More than 0.025 between any two cells of a charged battery makes it unserviceable.

    Parameters
    ----------
    cell_gravity_ratio : tuple of float
        Gravity of each cell, fully charged [-].

    Returns
    -------
    CellSpread
        Spread, verdict, lowest cell.

    Raises
    ------
    OutOfRange
        If fewer than two cells are given or a gravity is outside 1.0 to 1.35.

    Notes
    -----
    Fully charged flooded batteries.

    Examples
    --------
    >>> cell_spread((1.265, 1.260, 1.262, 1.230, 1.264, 1.265)).serviceable
    False

    References
    ----------
    .. [1] tm_9_6140, 4-7
    """
    if not 2 <= len(cell_gravity_ratio) <= 24:
        raise OutOfRange("cell_gravity_ratio", len(cell_gravity_ratio), "must name 2 to 24 cells")
    for gravity in cell_gravity_ratio:
        require_between(1.0, 1.35, cell_gravity_ratio=gravity)
    spread = max(cell_gravity_ratio) - min(cell_gravity_ratio)
    return CellSpread(spread, spread <= LARGEST_SPREAD + 1e-9, min(cell_gravity_ratio))
