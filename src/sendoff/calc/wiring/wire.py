"""Wire: gauge, resistance with temperature, voltage drop."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import (
    calculation,
    refused_as,
    require_between,
    require_not_negative,
    require_positive,
)
from sendoff.errors import OutOfRange
from sendoff.tables import Table

Strands = Literal["stranded", "solid"]

GAUGE_36_m: Final = 0.005 * 0.0254
GAUGE_RATIO: Final = 92 ** (1 / 39)
CIRCULAR_MIL_m2: Final = math.pi / 4 * (0.0254 / 1000) ** 2
RESISTIVITY_20C: Final = 10.371 * CIRCULAR_MIL_m2 / 0.3048
"""Annealed copper at 20 °C, 10.371 ohm·cmil/ft (NBS Handbook 100), in ohm·m."""
ZERO_RESISTANCE_degC: Final = -234.5
"""Where copper's straight line of resistance meets nothing: 0.00393 per K at 20 °C, 0.00323 at 75 °C."""
FREEZING_K: Final = 273.15
ROOM_K: Final = 293.15
HAIR: Final = 1e-9
"""Three percent is three percent after a conversion of units."""
TABLE_K: Final = 348.15


def _require_gauge(awg: int) -> None:
    if not -3 <= awg <= 40:
        raise OutOfRange(
            "awg", awg, "must lie from -3 (4/0) to 40; 1/0, 2/0 and 3/0 are written 0, -1 and -2"
        )


@calculation(
    "wiring",
    "d = 0.005 in · 92^((36 − n) / 39)",
    gives="wire_diameter_m",
    symbols={"awg": "n", "wire_diameter_m": "d"},
)
def wire_diameter(awg: int) -> float:
    """Diameter of solid wire of an American gauge.

    d = 0.005 in · 92^((36 − n)/39): number 36 is 0.005 in, 4/0 is 0.46 in, and 39 even steps lie between.

    Parameters
    ----------
    awg : int
        Gauge number; 1/0 to 4/0 are written 0, -1, -2, -3 [-].

    Returns
    -------
    float
        Diameter of the bare solid wire [m].

    Raises
    ------
    OutOfRange
        If the number is outside -3 to 40.

    Notes
    -----
    Holds for solid wire from 4/0 to 40. Stranded wire of the same number is wider and has the same copper.

    Examples
    --------
    The step from one number to the next is 1.1229322, as printed in ASTM B258.

    >>> round(wire_diameter(11) / wire_diameter(12), 7)
    1.1229322

    References
    ----------
    .. [1] astm_b258, clause on the 39th root of 92
    """
    _require_gauge(awg)
    return GAUGE_36_m * GAUGE_RATIO ** (36 - awg)


@calculation("wiring", "A = π d² / 4", gives="wire_area_m2", symbols={"awg": "n", "wire_area_m2": "A"})
def wire_area(awg: int) -> float:
    """Copper area of an American gauge.

    A = π d²/4 with the diameter of the solid wire.

    Parameters
    ----------
    awg : int
        Gauge number; 1/0 to 4/0 are written 0, -1, -2, -3 [-].

    Returns
    -------
    float
        Area of the copper [m2].

    Raises
    ------
    OutOfRange
        If the number is outside -3 to 40.

    Notes
    -----
    Holds from 4/0 to 40. Automotive cable of the same number may hold less copper (see `least_gauge`).

    Examples
    --------
    Number 12 is printed as 6,530 circular mils, that is 3.31 mm².

    >>> round(wire_area(12) * 1e6, 2)
    3.31

    References
    ----------
    .. [1] astm_b258, table of sizes
    """
    diameter_m = wire_diameter(awg)
    return math.pi * diameter_m**2 / 4


@calculation(
    "wiring",
    "R2 = R1 (234.5 + t2) / (234.5 + t1)",
    gives="resistance_ohm",
    symbols={"known_ohm": "R1", "known_at_K": "t1", "wanted_at_K": "t2", "resistance_ohm": "R2"},
)
def resistance_at_temperature(known_ohm: float, known_at_K: float, wanted_at_K: float) -> float:
    """Resistance of a copper wire at another temperature.

    R2 = R1 (234.5 + t2)/(234.5 + t1) with t in °C, the same as R1 [1 + α (t2 − t1)] with α = 0.00393 at 20 °C
    or 0.00323 at 75 °C.

    Parameters
    ----------
    known_ohm : float
        Resistance known at the first temperature [ohm].
    known_at_K : float
        Temperature at which it is known [K].
    wanted_at_K : float
        Temperature at which it is wanted [K].

    Returns
    -------
    float
        Resistance at the second temperature [ohm].

    Raises
    ------
    OutOfRange
        If the resistance is not above zero or a temperature is outside -60 to 200 °C.

    Notes
    -----
    Copper from -60 to 200 °C, where its resistance is a straight line of temperature.

    Examples
    --------
    A meter in the yard at 20 °C reads 82 % of what the table gives at 75 °C.

    >>> round(resistance_at_temperature(1.0, 348.15, 293.15), 3)
    0.822

    References
    ----------
    .. [1] nec_ch9_t8, note 2
    .. [2] nbs_hb100, temperature coefficient
    """
    require_positive(known_ohm=known_ohm)
    require_between(213.15, 473.15, "K", known_at_K=known_at_K, wanted_at_K=wanted_at_K)
    return (
        known_ohm
        * (wanted_at_K - FREEZING_K - ZERO_RESISTANCE_degC)
        / (known_at_K - FREEZING_K - ZERO_RESISTANCE_degC)
    )


@calculation(
    "wiring",
    "r = ρ / A, ρ = 10.371 ohm·cmil/ft at 20 °C",
    gives="resistance_per_length_ohmpm",
    symbols={"awg": "n", "temperature_K": "t", "resistance_per_length_ohmpm": "r"},
)
def solid_wire_resistance(awg: int, temperature_K: float = ROOM_K) -> float:
    """Resistance per length of solid copper wire from its gauge alone.

    r = ρ/A with ρ = 10.371 ohm·cmil/ft at 20 °C, carried to the temperature asked for.

    Parameters
    ----------
    awg : int
        Gauge number; 1/0 to 4/0 are written 0, -1, -2, -3 [-].
    temperature_K : float
        Temperature of the wire, 20 °C if not given [K].

    Returns
    -------
    float
        Resistance of one conductor per length [ohm/m].

    Raises
    ------
    OutOfRange
        If the number is outside -3 to 40 or the temperature outside -60 to 200 °C.

    Notes
    -----
    Annealed solid copper. Stranded wire has a few percent more: `wire_resistance`.

    Examples
    --------
    Handbook 100 gives 1.588 ohm per 1,000 ft for number 12 at 20 °C.

    >>> round(solid_wire_resistance(12) * 304.8, 3)
    1.588

    References
    ----------
    .. [1] nbs_hb100, table of annealed copper
    """
    at_20 = RESISTIVITY_20C / wire_area(awg)
    with refused_as(wanted_at_K="temperature_K"):
        return resistance_at_temperature(at_20, ROOM_K, temperature_K)


@calculation(
    "wiring",
    "r = value of table 8 at 75 °C, times (234.5 + t) / 309.5",
    gives="resistance_per_length_ohmpm",
    symbols={"awg": "n", "temperature_K": "t", "resistance_per_length_ohmpm": "r"},
    tables={"table": "wire_resistance"},
)
def wire_resistance(
    awg: int, strands: Strands = "stranded", temperature_K: float = TABLE_K, table: Table | None = None
) -> float:
    """Resistance per length of copper wire as the code book prints it.

    r is read at 75 °C and multiplied by (234.5 + t)/309.5 for another temperature.

    Parameters
    ----------
    awg : int
        Gauge number in the table: 18, 16 … 4, 3, 2, 1, then 0, -1, -2, -3 for 1/0 to 4/0 [-].
    strands : {"stranded", "solid"}
        How the wire is made; trailer cable is stranded.
    temperature_K : float
        Temperature of the wire, 75 °C if not given [K].
    table : Table
        Resistance by gauge.

    Returns
    -------
    float
        Resistance of one conductor per length [ohm/m].

    Raises
    ------
    OutOfRange
        If the table has no such gauge, or no solid wire of it, or the temperature is outside -60 to 200 °C.

    Notes
    -----
    Uncoated copper, direct current.

    Examples
    --------
    Number 10 stranded is 1.24 ohm per 1,000 ft.

    >>> round(wire_resistance(10) * 304.8, 2)
    1.24

    References
    ----------
    .. [1] nec_ch9_t8, chapter 9, table 8
    """
    row = (table or tables.load("wire_resistance")).row(awg=awg)
    value = row["stranded_ohmpm" if strands == "stranded" else "solid_ohmpm"]
    if value is None:
        raise OutOfRange("strands", strands, f"must be stranded for gauge {awg}")
    with refused_as(wanted_at_K="temperature_K"):
        return resistance_at_temperature(float(value), TABLE_K, temperature_K)


@calculation(
    "wiring",
    "E = 2 I L r",
    gives="drop_V",
    symbols={"current_A": "I", "one_way_length_m": "L", "resistance_per_length_ohmpm": "r", "drop_V": "E"},
)
def voltage_drop(current_A: float, one_way_length_m: float, resistance_per_length_ohmpm: float) -> float:
    """Voltage lost along a feed and its return of the same wire.

    E = 2 I L r: out and back, whatever the ball or the frame may seem to carry.

    Parameters
    ----------
    current_A : float
        Current in the wire [A].
    one_way_length_m : float
        Length from source to load, one way [m].
    resistance_per_length_ohmpm : float
        Resistance of one conductor per length [ohm/m].

    Returns
    -------
    float
        Voltage lost [V].

    Raises
    ------
    OutOfRange
        If current or length is below zero or the resistance not above zero.

    Notes
    -----
    Steady direct current; feed and return of the same gauge. Plugs and joints come on top.

    Examples
    --------
    Four magnets, 16.3 A, over 25 ft of number 10: 1.011 V.

    >>> round(voltage_drop(16.3, 25 * 0.3048, wire_resistance(10)), 3)
    1.011

    References
    ----------
    .. [1] electricity, Ohm's law
    """
    require_not_negative(current_A=current_A, one_way_length_m=one_way_length_m)
    require_positive(resistance_per_length_ohmpm=resistance_per_length_ohmpm)
    return 2 * current_A * one_way_length_m * resistance_per_length_ohmpm


@dataclass(frozen=True, slots=True)
class WireDrop:
    """What a run of wire costs."""

    loop_ohm: float
    """Feed and return together."""
    drop_V: float
    at_load_V: float
    drop_ratio: float
    within_3_percent: bool
    """The limit for lamps, brakes, chargers and pumps."""
    within_10_percent: bool
    """The limit for what may run a little slow or dim."""


@calculation(
    "wiring",
    "E = 2 I L r, share = E / U",
    symbols={"supply_V": "U", "current_A": "I", "one_way_length_m": "L", "awg": "n", "drop_V": "E"},
    tables={"table": "wire_resistance"},
)
def wire_drop(
    supply_V: float,
    current_A: float,
    one_way_length_m: float,
    awg: int,
    temperature_K: float = TABLE_K,
    table: Table | None = None,
) -> WireDrop:
    """Voltage drop of a stranded wire and whether it keeps to 3 and to 10 percent.

    E = 2 I L r with the resistance of stranded copper, at 75 °C if not said otherwise; the share is E/U.

    Parameters
    ----------
    supply_V : float
        Voltage at the source [V].
    current_A : float
        Current in the wire [A].
    one_way_length_m : float
        Length from source to load, one way [m].
    awg : int
        Gauge number in the table; 1/0 to 4/0 are written 0, -1, -2, -3 [-].
    temperature_K : float
        Temperature of the wire, 75 °C if not given: warm, and on the careful side [K].
    table : Table
        Resistance by gauge.

    Returns
    -------
    WireDrop
        Resistance of the loop, voltage lost, voltage left, share lost.

    Raises
    ------
    OutOfRange
        If the supply is not above zero, current or length is below zero, the gauge is not in the table,
        or the wire would lose all of the supply at that current.

    Notes
    -----
    For a given current. Where the load is a resistance (brake magnets) current falls with the voltage: `brake_feed`.

    Examples
    --------
    Two magnets, 8.2 A, over 25 ft of number 12: 0.812 V, more than 3 % of 12 V.

    >>> found = wire_drop(12.0, 8.2, 25 * 0.3048, 12)
    >>> round(found.drop_V, 3), found.within_3_percent, found.within_10_percent
    (0.812, False, True)

    References
    ----------
    .. [1] nec_ch9_t8, chapter 9, table 8
    .. [2] abyc_e11, limits of 3 and 10 percent
    """
    require_positive(supply_V=supply_V)
    per_length = wire_resistance(awg, temperature_K=temperature_K, table=table)
    drop_V = voltage_drop(current_A, one_way_length_m, per_length)
    if drop_V >= supply_V:
        raise OutOfRange(
            "current_A", current_A, "cannot flow through this wire: it would lose the whole supply"
        )
    share = drop_V / supply_V
    return WireDrop(
        2 * one_way_length_m * per_length,
        drop_V,
        supply_V - drop_V,
        share,
        share <= 0.03 + HAIR,
        share <= 0.10 + HAIR,
    )
