"""State of a lead battery: charge from rest voltage or gravity, and the spread of its cells."""

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
CELL_V: Final = 0.845

Kind = Literal["flooded", "agm"]
Acid = Literal["1.265", "1.280"]


@calculation(
    "battery",
    "SG80 = SG + 0.004 (t − 80 °F) / 10 °F",
    gives="gravity_number",
    symbols={"read_gravity_number": "SG", "temperature_K": "t", "gravity_number": "SG80"},
)
def gravity_at_80F(read_gravity_number: float, temperature_K: float) -> float:
    """Hydrometer reading corrected to 80 °F.

    SG80 = SG + 0.004 (t − 80 °F)/10 °F: cold acid reads too heavy, that is too full.

    Parameters
    ----------
    read_gravity_number : float
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
    require_between(1.0, 1.35, read_gravity_number=read_gravity_number)
    require_between(233.0, 339.0, "K", temperature_K=temperature_K)
    return read_gravity_number + GRAVITY_PER_10F * (temperature_K - REFERENCE_K) / TEN_F_dK


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
    symbols={"read_gravity_number": "SG", "temperature_K": "t"},
    tables={"table": "battery_charge"},
)
def charge_from_gravity(
    read_gravity_number: float,
    temperature_K: float = REFERENCE_K,
    acid: Acid = "1.265",
    table: Table | None = None,
) -> float:
    """State of charge of a flooded battery from its gravity and temperature.

    The reading is brought to 80 °F and looked up on the straight line between the rows of the table.

    Parameters
    ----------
    read_gravity_number : float
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
    gravity = gravity_at_80F(read_gravity_number, temperature_K)
    kind = "flooded" if acid == "1.265" else "flooded_1280"
    held = table or tables.load("battery_charge")
    lowest = min(float(row["gravity_number"]) for row in held.where(kind=kind))
    if kind == "flooded_1280" and gravity < lowest:
        raise OutOfRange(
            "read_gravity_number", read_gravity_number, "is below 25 % of 1.280 acid: charge it first"
        )
    return _charge(held, kind, "gravity_number", gravity)


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
    """State of charge of a rested 12 V battery from its voltage and temperature.

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
    "U = cells · (SG + 0.845 V)",
    gives="rest_V",
    symbols={"gravity_number": "SG", "cells": "cells", "rest_V": "U"},
)
def rest_voltage_from_gravity(gravity_number: float, cells: int = 6) -> float:
    """Rest voltage that goes with a gravity, to hold meter and hydrometer against each other.

    U = cells · (SG + 0.845 V).

    Parameters
    ----------
    gravity_number : float
        Gravity at 80 °F, mean of the cells [-].
    cells : int
        Cells in series, 6 in a 12 V battery [-].

    Returns
    -------
    float
        Rest voltage [V].

    Raises
    ------
    OutOfRange
        If the gravity is outside 1.0 to 1.35 or the cells outside 1 to 24.

    Notes
    -----
    Rested lead cells. A meter that reads 2 V less than this has a dead cell before it.

    Examples
    --------
    Full acid of 1.265: 12.66 V, the table's 12.65.

    >>> round(rest_voltage_from_gravity(1.265), 2)
    12.66

    References
    ----------
    .. [1] battery_support_page, table 1
    """
    require_between(1.0, 1.35, gravity_number=gravity_number)
    if not 1 <= cells <= 24:
        raise OutOfRange("cells", cells, "must lie from 1 to 24")
    return cells * (gravity_number + CELL_V)


@dataclass(frozen=True, slots=True)
class CellSpread:
    """Difference between the best and the worst cell."""

    spread_number: float
    serviceable: bool
    lowest_number: float


@calculation("battery", "spread = largest SG − smallest SG ≤ 0.025", symbols={"cell_gravity_number": "SG"})
def cell_spread(cell_gravity_number: tuple[float, ...]) -> CellSpread:
    """Spread of gravity between cells and whether it condemns a charged battery.

    More than 0.025 between any two cells of a charged battery makes it unserviceable.

    Parameters
    ----------
    cell_gravity_number : tuple of float
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
    if not 2 <= len(cell_gravity_number) <= 24:
        raise OutOfRange("cell_gravity_number", len(cell_gravity_number), "must name 2 to 24 cells")
    for gravity in cell_gravity_number:
        require_between(1.0, 1.35, cell_gravity_number=gravity)
    spread = max(cell_gravity_number) - min(cell_gravity_number)
    return CellSpread(spread, spread <= LARGEST_SPREAD + 1e-9, min(cell_gravity_number))
