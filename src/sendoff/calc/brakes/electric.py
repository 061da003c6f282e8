"""Electric brakes: what the magnets draw, what a meter should read, what the controller must give."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Row, Table

MAGNET_OHM: Final = 3.2
"""Magnet of 10 to 12 in drums, the lower end of its band (more current)."""
MOST_MAGNETS: Final = 16

Verdict = Literal["within band", "above band", "below band"]


def require_magnets(**counts: int) -> None:
    """Refuse a number of magnets no trailer has."""
    for name, count in counts.items():
        if not 1 <= count <= MOST_MAGNETS:
            raise OutOfRange(name, count, f"must lie from 1 to {MOST_MAGNETS}")


def _rows(drum_diameter_m: float, table: Table) -> list[Row]:
    require_positive(drum_diameter_m=drum_diameter_m)
    found = [
        row
        for row in table.rows
        if row["least_drum_m"] - 1e-6 <= drum_diameter_m <= row["largest_drum_m"] + 1e-6
    ]
    if not found:
        raise OutOfRange(
            "drum_diameter_m", drum_diameter_m, "must be a drum of the table: 7 in, or 10 to 12-1/4 in"
        )
    return found


@calculation(
    "brakes",
    "I = U / R",
    gives="magnet_A",
    symbols={"supply_V": "U", "magnet_ohm": "R", "magnet_A": "I"},
)
def magnet_current(supply_V: float, magnet_ohm: float = MAGNET_OHM) -> float:
    """Current of one brake magnet.

    I = U/R.

    Parameters
    ----------
    supply_V : float
        Voltage at the magnet [V].
    magnet_ohm : float
        Resistance of the magnet, 3.2 ohm for 10 to 12 in drums if not given [ohm].

    Returns
    -------
    float
        Current of one magnet [A].

    Raises
    ------
    OutOfRange
        If voltage or resistance is not above zero.

    Notes
    -----
    Cold magnet. A 10 to 12 in magnet draws 3.75 A at 12 V, not the 3 A often said.

    Examples
    --------
    >>> magnet_current(12.0)
    3.75

    References
    ----------
    .. [1] magnet_test_tables, resistance of a magnet
    """
    require_positive(supply_V=supply_V, magnet_ohm=magnet_ohm)
    return supply_V / magnet_ohm


@dataclass(frozen=True, slots=True)
class CurrentBand:
    """What an ammeter in the brake wire should read with the controller full on."""

    low_A: float
    high_A: float
    each_low_A: float
    """One magnet's share."""
    each_high_A: float


@calculation(
    "brakes",
    "band of the table for 2, 4, 6 magnets; others in proportion",
    symbols={"magnet_count": "n"},
    tables={"table": "brake_magnets"},
)
def brake_current(drum_diameter_m: float, magnet_count: int, table: Table | None = None) -> CurrentBand:
    """Current electric brakes should draw, by drum size and number of magnets.

    Read from the table for 2, 4 and 6 magnets; another number takes its share of the six-magnet figures.

    Parameters
    ----------
    drum_diameter_m : float
        Diameter of the brake drum, 7 in or 10 to 12-1/4 in [m].
    magnet_count : int
        Number of braked wheels, one magnet each [-].
    table : Table
        Current by drum and number.

    Returns
    -------
    CurrentBand
        Band of the whole circuit at 12 to 13 V, and one magnet's share.

    Raises
    ------
    OutOfRange
        If the drum is not in the table or the number is outside 1 to 16.

    Notes
    -----
    12 to 13 V at the magnets, cold, in good order. The axle maker's figures come first.

    Examples
    --------
    >>> found = brake_current(12 * 0.0254, 6)
    >>> found.low_A, found.high_A
    (22.6, 24.5)

    References
    ----------
    .. [1] magnet_test_tables, maximum circuit current
    """
    require_magnets(magnet_count=magnet_count)
    rows = _rows(drum_diameter_m, table or tables.load("brake_magnets"))
    row = next(
        (one for one in rows if one["magnet_count"] == magnet_count),
        max(rows, key=lambda one: int(one["magnet_count"])),
    )
    each_low_A = float(row["low_A"]) / row["magnet_count"]
    each_high_A = float(row["high_A"]) / row["magnet_count"]
    if row["magnet_count"] == magnet_count:
        return CurrentBand(float(row["low_A"]), float(row["high_A"]), each_low_A, each_high_A)
    return CurrentBand(magnet_count * each_low_A, magnet_count * each_high_A, each_low_A, each_high_A)


@dataclass(frozen=True, slots=True)
class MeterReading:
    """A reading held against its band."""

    verdict: Verdict
    low_A: float
    high_A: float
    missing_magnets_number: float
    """How many magnets' worth of current is missing, from the middle of the band; zero if none."""
    meaning: str


@calculation(
    "brakes",
    "above the band: a short; below: a lead or magnet open",
    symbols={"measured_A": "I", "magnet_count": "n"},
    tables={"table": "brake_magnets"},
)
def brake_current_reading(
    measured_A: float, drum_diameter_m: float, magnet_count: int, table: Table | None = None
) -> MeterReading:
    """What an ammeter reading in the brake wire means.

    Above the band something is shorted; below it a lead or a magnet is open, or a joint is bad.

    Parameters
    ----------
    measured_A : float
        Current read in the blue wire, controller full on, engine off [A].
    drum_diameter_m : float
        Diameter of the brake drum [m].
    magnet_count : int
        Number of magnets on the wire [-].
    table : Table
        Current by drum and number.

    Returns
    -------
    MeterReading
        Verdict, band, how many magnets' worth is missing, and what to look for.

    Raises
    ------
    OutOfRange
        If the reading is below zero, or drum or number is outside the table.

    Notes
    -----
    12 to 13 V at the magnets. A thin or long feed also reads low: `brake_feed`.

    Examples
    --------
    One open magnet of four at 12 V reads 11.25 A.

    >>> found = brake_current_reading(11.25, 12 * 0.0254, 4)
    >>> found.verdict, round(found.missing_magnets_number)
    ('below band', 1)

    References
    ----------
    .. [1] magnet_test_tables, reading rule
    """
    require_not_negative(measured_A=measured_A)
    band = brake_current(drum_diameter_m, magnet_count, table)
    if measured_A > band.high_A:
        meaning = (
            "A magnet or the wire is shorted, or too many magnets hang on it. Find and replace before towing."
        )
        return MeterReading("above band", band.low_A, band.high_A, 0.0, meaning)
    if measured_A < band.low_A:
        middle_A = (band.each_low_A + band.each_high_A) / 2
        meaning = (
            "A lead or magnet is open, a joint or ground is bad, or the feed is too thin. Test each magnet."
        )
        missing = max(0.0, magnet_count - measured_A / middle_A)
        return MeterReading("below band", band.low_A, band.high_A, missing, meaning)
    return MeterReading("within band", band.low_A, band.high_A, 0.0, "The reading is as it should be.")


@calculation(
    "brakes",
    "I = (n − k) U / R",
    gives="current_A",
    symbols={"magnet_count": "n", "open_count": "k", "supply_V": "U", "magnet_ohm": "R", "current_A": "I"},
)
def brake_current_with_open_magnets(
    magnet_count: int, open_count: int, supply_V: float, magnet_ohm: float = MAGNET_OHM
) -> float:
    """Current left when some magnets are open.

    I = (n − k) U/R: magnets stand side by side on the wire.

    Parameters
    ----------
    magnet_count : int
        Number of magnets fitted [-].
    open_count : int
        How many are open [-].
    supply_V : float
        Voltage at the magnets [V].
    magnet_ohm : float
        Resistance of one magnet [ohm].

    Returns
    -------
    float
        Current of the circuit [A].

    Raises
    ------
    OutOfRange
        If the counts do not fit each other or voltage or resistance is not above zero.

    Notes
    -----
    Without loss in the feed.

    Examples
    --------
    >>> brake_current_with_open_magnets(4, 1, 12.0)
    11.25

    References
    ----------
    .. [1] electricity, Ohm's law
    """
    require_magnets(magnet_count=magnet_count)
    if not 0 <= open_count <= magnet_count:
        raise OutOfRange("open_count", open_count, f"must lie from 0 to {magnet_count}")
    return (magnet_count - open_count) * magnet_current(supply_V, magnet_ohm)


@dataclass(frozen=True, slots=True)
class OhmReading:
    """An ohm-meter reading held against its band."""

    verdict: Verdict
    low_ohm: float
    high_ohm: float
    meaning: str


@calculation(
    "brakes",
    "resistance of one magnet, 3.2 to 3.5 ohm (10 to 12 in), 3.8 to 4.0 ohm (7 in)",
    symbols={"measured_ohm": "R"},
    tables={"table": "brake_magnets"},
)
def magnet_resistance_reading(
    measured_ohm: float, drum_diameter_m: float, table: Table | None = None
) -> OhmReading:
    """What an ohm-meter across one brake magnet means.

    The reading is held against the band of the table.

    Parameters
    ----------
    measured_ohm : float
        Resistance across the magnet's two leads, unplugged and cold [ohm].
    drum_diameter_m : float
        Diameter of the brake drum [m].
    table : Table
        Resistance by drum.

    Returns
    -------
    OhmReading
        Verdict, band, what to do.

    Raises
    ------
    OutOfRange
        If the reading is below zero or the drum is not in the table.

    Notes
    -----
    Cold magnet, leads off. Subtract what the meter reads with its tips joined.

    Examples
    --------
    >>> magnet_resistance_reading(3.3, 12 * 0.0254).verdict
    'within band'

    References
    ----------
    .. [1] magnet_test_tables, resistance of a magnet
    """
    require_not_negative(measured_ohm=measured_ohm)
    row = _rows(drum_diameter_m, table or tables.load("brake_magnets"))[0]
    low, high = float(row["low_ohm"]), float(row["high_ohm"])
    if measured_ohm < low * (1 - 1e-9):
        return OhmReading("below band", low, high, "The magnet is shorted inside: replace it.")
    if measured_ohm > high * (1 + 1e-9):
        return OhmReading("above band", low, high, "The magnet or its lead is open or corroded: replace it.")
    return OhmReading("within band", low, high, "The reading is as it should be.")


@dataclass(frozen=True, slots=True)
class ControllerCapacity:
    """A brake controller held against the magnets it must feed."""

    demand_A: float
    capacity_A: float
    margin_A: float
    enough: bool


@calculation(
    "brakes",
    "rating ≥ upper current of the magnets",
    symbols={"magnet_count": "n"},
    tables={"table": "brake_magnets"},
)
def controller_capacity(
    controller_rating_A: float, drum_diameter_m: float, magnet_count: int, table: Table | None = None
) -> ControllerCapacity:
    """Whether a brake controller can feed all magnets.

    Its lasting rating must be at least the upper end of the magnets' band.

    Parameters
    ----------
    controller_rating_A : float
        Lasting output printed on the controller [A].
    drum_diameter_m : float
        Diameter of the brake drum [m].
    magnet_count : int
        Number of magnets [-].
    table : Table
        Current by drum and number.

    Returns
    -------
    ControllerCapacity
        Demand, capacity, margin, enough or not.

    Raises
    ------
    OutOfRange
        If the rating is not above zero, or drum or number is outside the table.

    Notes
    -----
    Electric brakes. An electric-over-hydraulic actuator needs a controller that names it: menu, not current, decides.

    Examples
    --------
    >>> controller_capacity(24.0, 12 * 0.0254, 6).enough
    False

    References
    ----------
    .. [1] magnet_test_tables, maximum circuit current
    """
    require_positive(controller_rating_A=controller_rating_A)
    demand_A = brake_current(drum_diameter_m, magnet_count, table).high_A
    return ControllerCapacity(
        demand_A, controller_rating_A, controller_rating_A - demand_A, controller_rating_A >= demand_A
    )


@dataclass(frozen=True, slots=True)
class ControllerOutput:
    """A controller's first and full voltage judged."""

    starts_gently: bool
    reaches_full: bool
    meaning: str


@calculation("brakes", "starts at about 2 V, rises to 12 V", symbols={"first_V": "U1", "full_V": "U2"})
def controller_output(first_V: float, full_V: float) -> ControllerOutput:
    """Whether a controller starts gently and reaches full voltage.

    It should start at about 2 V and rise to 12 V; a start above 2 V makes the brakes harsh.

    Parameters
    ----------
    first_V : float
        Lowest voltage it gives when it begins to brake [V].
    full_V : float
        Voltage full on, magnets connected [V].

    Returns
    -------
    ControllerOutput
        Both answers and what they mean.

    Raises
    ------
    OutOfRange
        If a voltage is below zero or the first is above the full one.

    Notes
    -----
    Measured at the controller with the trailer plugged in. The controller's manual comes first.

    Examples
    --------
    >>> controller_output(2.0, 12.1)
    ControllerOutput(starts_gently=True, reaches_full=True, meaning='As it should be.')

    References
    ----------
    .. [1] brake_manuals, threshold and full voltage
    """
    require_not_negative(first_V=first_V, full_V=full_V)
    if first_V > full_V:
        raise OutOfRange("first_V", first_V, "must not be above the full voltage")
    gentle, full = first_V <= 2.0, full_V >= 12.0
    said = [] if gentle else ["Starts above 2 V: the brakes grab."]
    said += [] if full else ["Stays below 12 V: look at supply, fuse and ground of the controller."]
    return ControllerOutput(gentle, full, " ".join(said) or "As it should be.")
