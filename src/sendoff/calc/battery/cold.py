"""Cold: what a lead battery still gives, and when it freezes, by the military manuals."""

from __future__ import annotations

from dataclasses import dataclass

from sendoff import tables
from sendoff.calc.battery.state import Acid, TEN_F_dK
from sendoff.calc.contract import calculation, require_between
from sendoff.tables import Table


@calculation(
    "battery",
    "1.00 at 77 °F, 0.75 at 32 °F, 0.40 at 0 °F, straight lines between",
    gives="capacity_ratio",
    symbols={"temperature_K": "t"},
    tables={"table": "battery_cold_capacity"},
)
def cold_capacity(temperature_K: float, table: Table | None = None) -> float:
    """Share of its capacity a battery still gives in the cold.

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
    symbols={"gravity_number": "SG"},
    tables={"table": "battery_freezing_by_gravity"},
)
def freezing_point_by_gravity(gravity_number: float, table: Table | None = None) -> float:
    """Temperature at which battery acid of a gravity freezes.

    Straight line between the rows of the military manuals.

    Parameters
    ----------
    gravity_number : float
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
        min(held.column("gravity_number")), max(held.column("gravity_number")), gravity_number=gravity_number
    )
    return held.interpolate("gravity_number", gravity_number, "freezing_K")


@calculation(
    "battery",
    "straight line between rows of charge and freezing point",
    gives="freezing_K",
    symbols={"charge_ratio": "q"},
    tables={"table": "battery_freezing_by_charge"},
)
def freezing_point_by_charge(charge_ratio: float, acid: Acid = "1.265", table: Table | None = None) -> float:
    """Temperature at which a lead battery freezes, by its state of charge.

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
    """Whether a battery at this charge stands the coldest temperature expected.

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
