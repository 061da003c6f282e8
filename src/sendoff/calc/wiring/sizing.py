"""Sizing: the least copper and the thinnest gauge that keep a voltage drop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, refused_as, require_between, require_positive
from sendoff.calc.wiring.wire import RESISTIVITY_20C, ROOM_K, CIRCULAR_MIL_m2, resistance_at_temperature
from sendoff.errors import OutOfRange
from sendoff.tables import Table

Cable = Literal["awg", "sae"]
ABYC_K: Final = 10.75 * CIRCULAR_MIL_m2 / 0.3048
"""Working constant of ABYC E-11, 10.75 ohm·cmil/ft, in ohm·m."""


@calculation(
    "wiring",
    "A = K I L / E, K = 10.75 ohm·cmil/ft, L out and back",
    gives="least_area_m2",
    symbols={"current_A": "I", "round_trip_length_m": "L", "allowed_drop_V": "E", "least_area_m2": "A"},
)
def least_copper_area(current_A: float, round_trip_length_m: float, allowed_drop_V: float) -> float:
    """Copper area that keeps a voltage drop.

    A = K I L/E with K = 10.75 ohm·cmil/ft and L the length out and back.

    Parameters
    ----------
    current_A : float
        Current in the wire [A].
    round_trip_length_m : float
        Length from the source to the load and back [m].
    allowed_drop_V : float
        Voltage that may be lost [V].

    Returns
    -------
    float
        Least copper area [m2].

    Raises
    ------
    OutOfRange
        If any input is not above zero.

    Notes
    -----
    Copper at about 30 °C, as the boat builders' rule takes it. Heat in the bundle is not in it: `wire_ampacity`.

    Examples
    --------
    10 A over 21 ft out and back with 0.36 V: 6,270.8 circular mils in the worked example.

    >>> from sendoff.units import from_si
    >>> round(from_si(least_copper_area(10.0, 21 * 0.3048, 0.36), "cmil", "area"), 1)
    6270.8

    References
    ----------
    .. [1] abyc_e11, worked example
    """
    require_positive(
        current_A=current_A, round_trip_length_m=round_trip_length_m, allowed_drop_V=allowed_drop_V
    )
    return ABYC_K * current_A * round_trip_length_m / allowed_drop_V


@calculation(
    "wiring",
    "R = ρ L / A · (234.5 + t) / 254.5, ρ = 10.371 ohm·cmil/ft at 20 °C",
    gives="resistance_ohm",
    symbols={"length_m": "L", "area_m2": "A", "temperature_K": "t", "resistance_ohm": "R"},
)
def copper_resistance(length_m: float, area_m2: float, temperature_K: float = ROOM_K) -> float:
    """Resistance of one copper conductor from its length and area, for wire sold by square millimeters.

    R = ρ L/A with ρ = 10.371 ohm·cmil/ft at 20 °C, carried to the temperature by (234.5 + t)/254.5.

    Parameters
    ----------
    length_m : float
        Length of the conductor; out and back is twice the run [m].
    area_m2 : float
        Copper area [m2].
    temperature_K : float
        Temperature of the wire, 20 °C if not given [K].

    Returns
    -------
    float
        Resistance [ohm].

    Raises
    ------
    OutOfRange
        If length or area is not above zero, or the temperature lies outside -60 to 200 °C.

    Notes
    -----
    Annealed copper, as measured solid; stranding adds a few percent. Plugs and joints come on top.

    Examples
    --------
    A thousand feet of 6,530 circular mils (number 12) at 20 °C: 1.588 ohm in Handbook 100.

    >>> from sendoff.units import to_si
    >>> round(copper_resistance(304.8, to_si(6530, "cmil", "area")), 3)
    1.588

    References
    ----------
    .. [1] nbs_hb100, resistivity of annealed copper and table
    """
    require_positive(length_m=length_m, area_m2=area_m2)
    with refused_as(wanted_at_K="temperature_K", known_ohm="area_m2"):
        return resistance_at_temperature(RESISTIVITY_20C * length_m / area_m2, ROOM_K, temperature_K)


@dataclass(frozen=True, slots=True)
class LeastGauge:
    """The thinnest wire that keeps the drop."""

    awg: int
    least_area_m2: float
    area_m2: float
    allowed_drop_V: float


@calculation(
    "wiring",
    "smallest gauge whose area ≥ K I L / E",
    symbols={"supply_V": "U", "current_A": "I", "one_way_length_m": "L/2", "least_area_m2": "A"},
    tables={"table": "wire_area"},
)
def least_gauge(
    supply_V: float,
    current_A: float,
    one_way_length_m: float,
    allowed_drop_ratio: float = 0.03,
    cable: Cable = "sae",
    table: Table | None = None,
) -> LeastGauge:
    """Thinnest gauge that keeps a voltage drop, for wire-gauge or the thinner automotive cable.

    The area K I L/E (L out and back) is looked up; the next larger wire in the table is taken.

    Parameters
    ----------
    supply_V : float
        Voltage of the system [V].
    current_A : float
        Current in the wire [A].
    one_way_length_m : float
        Length from source to load, one way [m].
    allowed_drop_ratio : float
        Share of the supply that may be lost: 3 % for brakes, lamps, charge and pump leads, 10 % for the rest [-].
    cable : {"awg", "sae"}
        By which the cable is sold; automotive (SAE) cable has less copper under the same number.
    table : Table
        Copper area by gauge.

    Returns
    -------
    LeastGauge
        Gauge, area needed, area it has.

    Raises
    ------
    OutOfRange
        If an input is not above zero, the share is above 50 %, or not even 4/0 would do.

    Notes
    -----
    Voltage drop only. The fuse must also fit the wire: `fuse_size`.

    Examples
    --------
    The worked example: 12 in boat cable, but SAE 12 has only 5,833 circular mils, so 10.

    >>> least_gauge(12.0, 10.0, 10.5 * 0.3048, 0.03, "awg").awg
    12
    >>> least_gauge(12.0, 10.0, 10.5 * 0.3048, 0.03, "sae").awg
    10

    References
    ----------
    .. [1] abyc_e11, worked example
    .. [2] sae_j1128, least areas
    """
    require_positive(supply_V=supply_V, allowed_drop_ratio=allowed_drop_ratio)
    require_between(0.0, 0.5, allowed_drop_ratio=allowed_drop_ratio)
    allowed_V = supply_V * allowed_drop_ratio
    with refused_as(round_trip_length_m="one_way_length_m", allowed_drop_V="allowed_drop_ratio"):
        need_m2 = least_copper_area(current_A, 2 * one_way_length_m, allowed_V)
    column = "awg_area_m2" if cable == "awg" else "sae_area_m2"
    rows = [row for row in (table or tables.load("wire_area")).rows if row[column] >= need_m2]
    if not rows:
        raise OutOfRange(
            "current_A", current_A, "needs more copper at this length than the largest cable has"
        )
    row = min(rows, key=lambda one: float(one[column]))
    return LeastGauge(int(row["awg"]), need_m2, float(row[column]), allowed_V)
