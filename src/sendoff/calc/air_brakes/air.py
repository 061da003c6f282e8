"""Air: leaks, reservoirs, pressure after an application, warning, protection valve, retardation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.air_brakes.stroke import PSI_Pa
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

TRAILER_FACTOR: Final = 8
TRUCK_FACTOR: Final = 12
KEPT_SHARE: Final = 0.70


@dataclass(frozen=True, slots=True)
class LeakCheck:
    """A fall of pressure held against its limit."""

    limit_Pa: float
    """Greatest fall in one minute."""
    fall_Pa: float
    """Fall measured, brought to one minute."""
    passes: bool


@calculation(
    "air_brakes",
    "fall · 60 s / time ≤ limit of the table",
    symbols={"drop_Pa": "fall", "time_s": "time"},
    tables={"table": "air_leak"},
)
def air_leak_check(
    drop_Pa: float,
    unit_count: int,
    brakes: Literal["released", "applied"],
    time_s: float = 60.0,
    table: Table | None = None,
) -> LeakCheck:
    """Whether an air brake system is tight enough.

    The fall of pressure in a minute, engine off: 3 psi released and 4 psi applied for truck and trailer.

    Parameters
    ----------
    drop_Pa : float
        Fall of the gauge after it has settled [Pa].
    unit_count : int
        Vehicles in the combination; three stands for three or more [-].
    brakes : {"released", "applied"}
        Brakes released, or pedal held down.
    time_s : float
        Time watched, one minute if not given [s].
    table : Table
        Limits by number of vehicles.

    Returns
    -------
    LeakCheck
        Limit, fall in a minute, verdict.

    Raises
    ------
    OutOfRange
        If the fall is below zero, the time under 30 s, or the number outside 1 to 3.

    Notes
    -----
    System fully charged, engine off, wheels chocked, parking brakes released. The first drop on applying does not
    count.

    Examples
    --------
    >>> air_leak_check(3 * 6894.757, 2, "released").passes
    True
    >>> air_leak_check(5 * 6894.757, 2, "applied").passes
    False

    References
    ----------
    .. [1] cdl_manual, air leakage rate
    """
    require_not_negative(drop_Pa=drop_Pa)
    require_positive(time_s=time_s)
    if time_s < 30.0:
        raise OutOfRange("time_s", time_s, "must be at least 30 s, better a full minute")
    limit_Pa = float((table or tables.load("air_leak")).row(unit_count=unit_count, brakes=brakes)["drop_Pa"])
    fall_Pa = drop_Pa * 60.0 / time_s
    return LeakCheck(limit_Pa, fall_Pa, fall_Pa <= limit_Pa * (1 + 1e-6))


@calculation(
    "air_brakes",
    "V ≥ 8 Σ chambers (trailer), 12 Σ chambers (truck)",
    gives="reservoir_m3",
    symbols={"chambers_m3": "Σ chambers", "reservoir_m3": "V"},
)
def reservoir_volume(chambers_m3: float, vehicle: Literal["trailer", "truck"] = "trailer") -> float:
    """Least volume of the service reservoirs.

    Eight times the volume of the brake chambers they feed on a trailer, twelve times on a truck.

    Parameters
    ----------
    chambers_m3 : float
        Volume of all service chambers at full travel [m3].
    vehicle : {"trailer", "truck"}
        Which vehicle.

    Returns
    -------
    float
        Least reservoir volume [m3].

    Raises
    ------
    OutOfRange
        If the volume is not above zero.

    Notes
    -----
    Vehicles under the federal air brake standard.

    Examples
    --------
    400 cubic inches of chambers want 3,200 on a trailer.

    >>> round(reservoir_volume(400 * 0.0254**3) / 0.0254**3)
    3200

    References
    ----------
    .. [1] 49cfr571_121, S5.2.1.1, S5.1.2.1
    """
    require_positive(chambers_m3=chambers_m3)
    return (TRAILER_FACTOR if vehicle == "trailer" else TRUCK_FACTOR) * chambers_m3


@calculation(
    "air_brakes",
    "p after ≥ 0.70 p before",
    gives="least_after_Pa",
    symbols={"before_Pa": "p before", "least_after_Pa": "p after"},
)
def pressure_after_application(before_Pa: float) -> float:
    """Least reservoir pressure after one full application with the engine stopped.

    70 % of the pressure before.

    Parameters
    ----------
    before_Pa : float
        Reservoir pressure before [Pa].

    Returns
    -------
    float
        Least pressure after [Pa].

    Raises
    ------
    OutOfRange
        If the pressure is not above zero.

    Notes
    -----
    Commercial vehicles outside the federal air brake standard.

    Examples
    --------
    >>> round(pressure_after_application(110 * 6894.757) / 6894.757, 1)
    77.0

    References
    ----------
    .. [1] 49cfr393, 393.50(b)
    """
    require_positive(before_Pa=before_Pa)
    return KEPT_SHARE * before_Pa


@dataclass(frozen=True, slots=True)
class LowAirWarning:
    """Pressure at which the driver must be warned, by rule."""

    annual_list_Pa: float
    build_standard_Pa: float
    warn_at_Pa: float
    """The stricter: it warns earlier."""


@calculation(
    "air_brakes",
    "annual list min(55 psi, half cut-out), build standard 60 psi",
    symbols={"cut_out_Pa": "cut-out"},
)
def low_air_warning(cut_out_Pa: float) -> LowAirWarning:
    """Pressure below which the low-air warning must work.

    The annual list takes 55 psi or half the cut-out, whichever is less; the build standard 60 psi.

    Parameters
    ----------
    cut_out_Pa : float
        Governor cut-out pressure [Pa].

    Returns
    -------
    LowAirWarning
        Both figures and the stricter.

    Raises
    ------
    OutOfRange
        If the pressure is not above zero.

    Notes
    -----
    Trucks. The two rules differ; the higher pressure warns earlier.

    Examples
    --------
    >>> found = low_air_warning(100 * 6894.757293168361)
    >>> [round(p / 6894.757293168361) for p in (found.annual_list_Pa, found.build_standard_Pa)]
    [50, 60]

    References
    ----------
    .. [1] 49cfr396_appg, 1.f
    .. [2] 49cfr571_121, S5.1.5
    """
    require_positive(cut_out_Pa=cut_out_Pa)
    annual_Pa = min(55 * PSI_Pa, cut_out_Pa / 2)
    build_Pa = 60 * PSI_Pa
    return LowAirWarning(annual_Pa, build_Pa, max(annual_Pa, build_Pa))


@dataclass(frozen=True, slots=True)
class ValveCheck:
    """Closing pressure of the protection valve judged."""

    low_Pa: float
    high_Pa: float
    passes: bool
    meaning: str


@calculation("air_brakes", "20 psi ≤ closing pressure ≤ 45 psi", symbols={"closing_Pa": "p"})
def protection_valve_check(closing_Pa: float) -> ValveCheck:
    """Whether the tractor protection valve closes in its band.

    It must shut by itself between 20 and 45 psi.

    Parameters
    ----------
    closing_Pa : float
        Pressure at which the valve shut while air was let off [Pa].

    Returns
    -------
    ValveCheck
        Band, verdict, meaning.

    Raises
    ------
    OutOfRange
        If the pressure is below zero.

    Notes
    -----
    Trucks that tow air-braked trailers; 138 to 310 kPa in the text.

    Examples
    --------
    >>> protection_valve_check(30 * 6894.757).passes
    True

    References
    ----------
    .. [1] 49cfr393, 393.43(a), (b)
    """
    require_not_negative(closing_Pa=closing_Pa)
    low_Pa, high_Pa = 20 * PSI_Pa, 45 * PSI_Pa
    if closing_Pa < low_Pa * (1 - 1e-6):
        return ValveCheck(low_Pa, high_Pa, False, "Shuts too late: the truck loses air it needs to stop.")  # noqa: FBT003
    if closing_Pa > high_Pa * (1 + 1e-6):
        return ValveCheck(low_Pa, high_Pa, False, "Shuts too early: the trailer brakes may set on the road.")  # noqa: FBT003
    return ValveCheck(low_Pa, high_Pa, True, "Shuts where it should.")  # noqa: FBT003


@calculation(
    "air_brakes",
    "F / GAWR ≥ value of table III at the chamber pressure",
    gives="force_ratio",
    symbols={"chamber_Pa": "p"},
    tables={"table": "trailer_retardation"},
)
def trailer_retardation(chamber_Pa: float, table: Table | None = None) -> float:
    """Least brake force of a trailer axle over its rating, by chamber pressure.

    Read from table III, on the straight line between its rows.

    Parameters
    ----------
    chamber_Pa : float
        Pressure in the brake chambers [Pa].
    table : Table
        Force by pressure.

    Returns
    -------
    float
        Brake retardation force over axle rating [-].

    Raises
    ------
    OutOfRange
        If the pressure is outside 20 to 80 psi.

    Notes
    -----
    New trailers on the test bench. Between the rows the line is ours, not the standard's.

    Examples
    --------
    >>> round(trailer_retardation(60 * 6894.757293168361), 4)
    0.31

    References
    ----------
    .. [1] 49cfr571_121, table III
    """
    held = table or tables.load("trailer_retardation")
    if (
        not min(held.column("pressure_Pa")) * (1 - 1e-9)
        <= chamber_Pa
        <= max(held.column("pressure_Pa")) * (1 + 1e-9)
    ):
        raise OutOfRange("chamber_Pa", chamber_Pa, "must lie from 20 to 80 psi")
    return held.interpolate("pressure_Pa", chamber_Pa, "force_ratio")


@dataclass(frozen=True, slots=True)
class AirFigure:
    """A single figure of the air brake rules; what it does not have is none."""

    meaning: str
    pressure_Pa: float | None
    time_s: float | None
    length_m: float | None
    speed_mps: float | None
    end_speed_mps: float | None
    deceleration_mps2: float | None
    times_count: int | None


@calculation("air_brakes", "read from the table of figures", tables={"table": "air_brake_figures"})
def air_brake_figure(item: str, table: Table | None = None) -> AirFigure:
    """One figure of the air brake rules: reservoir proof, parking lock, timing, hoses, suspension.

    Read from the table; there is no formula.

    Parameters
    ----------
    item : str
        Name in the table: reservoir_proof, parking_lock, supply_line_hold, apply_trailer, release_trailer,
        fade_series, hot_stop, parking_burnish, cut_in_truck, coil_hose_pigtail, air_suspension_leak …
    table : Table
        Figures.

    Returns
    -------
    AirFigure
        Meaning and the figures it has.

    Raises
    ------
    OutOfRange
        If the table has no such item; the message lists them.

    Notes
    -----
    As printed in the federal rules, 2015 edition.

    Examples
    --------
    >>> air_brake_figure("parking_lock").time_s
    3.0

    References
    ----------
    .. [1] 49cfr571_121, sections 5 and 6
    .. [2] 49cfr393, 393.45, 393.207
    """
    row = (table or tables.load("air_brake_figures")).row(item=item)
    return AirFigure(
        row["meaning"],
        row["pressure_Pa"],
        row["time_s"],
        row["length_m"],
        row["speed_mps"],
        row["end_speed_mps"],
        row["deceleration_mps2"],
        row["times_count"],
    )
