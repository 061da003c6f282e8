"""What pressure a tire may and must stand at: the placard, temperature, a hot reading, the most it may hold."""

from __future__ import annotations

from dataclasses import dataclass

from sendoff import tables
from sendoff.calc._limits import not_negative, positive
from sendoff.calc.contract import (
    calculation,
    require_between,
    require_finite,
)
from sendoff.calc.tires.loads import LEAST_SHARE, TireKind, tire_load_by_curve, tire_pressure_for_load
from sendoff.errors import OutOfRange
from sendoff.tables import Table

STANDARD_ATMOSPHERE_Pa = 101_325.0


@dataclass(frozen=True, slots=True)
class PlacardCheck:
    """Whether the placard's pressure carries a load, and what to set."""

    enough: bool
    capacity_kg: float
    """What one tire carries at the placard's pressure."""
    margin_kg: float
    margin_ratio: float
    """Left over, as a share of the capacity; below zero when overloaded."""
    set_pressure_Pa: float
    """The placard's pressure, whatever the load."""
    needed_pressure_Pa: float | None
    """By the curve, where the placard's is not enough and the tire could carry it; a pressure below the placard's is
    never told."""


@calculation(
    "tires",
    "enough if L <= L_r · (p_placard / p_r)^n; set p_placard in any case",
    symbols={
        "load_kg": "L",
        "placard_pressure_Pa": "p_placard",
        "rated_load_kg": "L_r",
        "rated_pressure_Pa": "p_r",
        "set_pressure_Pa": "p_set",
    },
    tables={"table": "tire_load_exponents"},
)
def placard_pressure_check(
    load_kg: float,
    placard_pressure_Pa: float,
    rated_load_kg: float,
    rated_pressure_Pa: float,
    tire_kind: TireKind = "radial",
    table: Table | None = None,
) -> PlacardCheck:
    """Whether the cold pressure on the placard is enough for the load on one tire.

    The load the curve gives at the placard's pressure against the load asked. The pressure to set is the placard's,
    however small the load.

    Parameters
    ----------
    load_kg : float
        Load on one tire [kg].
    placard_pressure_Pa : float
        Cold pressure on the trailer's placard [Pa].
    rated_load_kg : float
        Load marked on the sidewall, for the way it is fitted, single or dual [kg].
    rated_pressure_Pa : float
        Cold pressure marked beside it [Pa].
    tire_kind : {"radial", "bias", "passenger"}
        Build of the tire.
    table : Table, optional
        Exponent of each kind.

    Returns
    -------
    PlacardCheck
        Enough or not, the capacity at the placard, what is left, and the pressure to set, which is the placard's.

    Raises
    ------
    OutOfRange
        If the placard asks for more than the sidewall allows, or lies below the printed range.

    Notes
    -----
    Not enough means less load or other tires, to be settled with the maker, not more air than the placard says.

    Examples
    --------
    A 4,805 lb tire at 125 psi under a placard of 110 psi: 4,805 · (110/125)^0.7 = 4,394 lb, enough for 4,000 lb.

    >>> done = placard_pressure_check(4000.0, 110.0, 4805.0, 125.0)
    >>> done.enough, round(done.capacity_kg), done.set_pressure_Pa
    (True, 4394, 110.0)

    References
    ----------
    .. [1] tra_tables, exponent 0.7
    .. [2] 49cfr571_110, S4.3.4
    .. [3] 49cfr393, 393.75(h)(1)
    """
    not_negative(load_kg=load_kg)
    positive(
        placard_pressure_Pa=placard_pressure_Pa,
        rated_load_kg=rated_load_kg,
        rated_pressure_Pa=rated_pressure_Pa,
    )
    if placard_pressure_Pa > rated_pressure_Pa:
        allowed = (
            "must not be above the pressure marked on the tire: these are not the tires the placard means"
        )
        raise OutOfRange("placard_pressure_Pa", placard_pressure_Pa, allowed)
    if placard_pressure_Pa < LEAST_SHARE * rated_pressure_Pa:
        allowed = f"must not be below {LEAST_SHARE:.0%} of the rated pressure, where no load is printed"
        raise OutOfRange("placard_pressure_Pa", placard_pressure_Pa, allowed)
    capacity = tire_load_by_curve(rated_load_kg, rated_pressure_Pa, placard_pressure_Pa, tire_kind, table)
    enough = load_kg <= capacity
    needed = None
    if not enough and load_kg <= rated_load_kg:
        needed = tire_pressure_for_load(
            load_kg, rated_load_kg, rated_pressure_Pa, placard_pressure_Pa, tire_kind, table
        )
    return PlacardCheck(
        enough, capacity, capacity - load_kg, 1.0 - load_kg / capacity, placard_pressure_Pa, needed
    )


@calculation(
    "tires",
    "p2 = (p1 + p_atm) · T2 / T1 - p_atm",
    gives="pressure_Pa",
    symbols={
        "cold_pressure_Pa": "p1",
        "set_temperature_K": "T1",
        "temperature_K": "T2",
        "atmosphere_Pa": "p_atm",
        "pressure_Pa": "p2",
    },
)
def tire_pressure_at_temperature(
    cold_pressure_Pa: float,
    set_temperature_K: float,
    temperature_K: float,
    atmosphere_Pa: float = STANDARD_ATMOSPHERE_Pa,
) -> float:
    """Pressure of a tire after its air has warmed or cooled, as a gauge reads it.

    Absolute pressure follows absolute temperature; the gauge leaves out the atmosphere, which must be added first.

    Parameters
    ----------
    cold_pressure_Pa : float
        Gauge pressure when it was set [Pa].
    set_temperature_K : float
        Temperature of the air in the tire then [K].
    temperature_K : float
        Temperature of the air in the tire now [K].
    atmosphere_Pa : float
        Pressure of the air around [Pa].

    Returns
    -------
    float
        Gauge pressure now [Pa].

    Raises
    ------
    OutOfRange
        For a temperature outside -60 to 150 °C, or a pressure below zero.

    Notes
    -----
    The volume is taken as unchanged. "1 psi per 10 °F" fits only about 35 psi: at 110 psi it is 2.4 psi. A tire set
    in a warm shed reads low outside; it is set again cold, where it is used.

    Examples
    --------
    A published example: 70 psi at 70 °F reads 74.8 psi at 100 °F. Ours agrees to its last figure.

    >>> psi = 6894.757293168
    >>> round(tire_pressure_at_temperature(70 * psi, 294.261, 310.928) / psi, 1)
    74.8

    References
    ----------
    .. [1] gas_law, constant volume
    """
    not_negative(cold_pressure_Pa=cold_pressure_Pa)
    require_between(213.15, 423.15, "K", set_temperature_K=set_temperature_K, temperature_K=temperature_K)
    require_between(50_000.0, 120_000.0, "Pa", atmosphere_Pa=atmosphere_Pa)
    return (cold_pressure_Pa + atmosphere_Pa) * temperature_K / set_temperature_K - atmosphere_Pa


@calculation(
    "tires",
    "p_cold = p_hot - build-up of table 1",
    gives="cold_pressure_Pa",
    symbols={"hot_pressure_Pa": "p_hot", "cold_pressure_Pa": "p_cold", "average_speed_mps": "v"},
    tables={"table": "tire_hot_buildup"},
)
def cold_pressure_from_hot(
    hot_pressure_Pa: float, rated_load_kg: float, average_speed_mps: float, table: Table | None = None
) -> float:
    """Cold pressure an inspector assumes behind a hot reading, to prove a tire under-inflated.

    The reading less 5 psi for tires rated up to 4,000 lb, less 15 psi for stronger ones.

    Parameters
    ----------
    hot_pressure_Pa : float
        Gauge reading after the run [Pa].
    rated_load_kg : float
        Load marked on the sidewall [kg].
    average_speed_mps : float
        Average speed in the hour before [m/s].
    table : Table, optional
        Build-up by rating and speed.

    Returns
    -------
    float
        Estimated cold pressure [Pa].

    Raises
    ------
    OutOfRange
        Outside 41 to 55 mph, the only speeds the table holds, or if the reading is below the build-up.

    Notes
    -----
    An inspector's rule for engineers' pages. It never tells an owner to let air out: set tires cold, to the placard.

    Examples
    --------
    By table 1: 70 psi on a 4,000 lb tire counts as 65 psi, 115 psi on a stronger one as 100 psi.

    >>> psi, mph = 6894.757293168, 0.44704
    >>> round(cold_pressure_from_hot(70 * psi, 4000 * 0.45359237, 50 * mph) / psi, 6)
    65.0

    References
    ----------
    .. [1] 49cfr393, 393.75(h)(2), table 1
    """
    positive(
        hot_pressure_Pa=hot_pressure_Pa, rated_load_kg=rated_load_kg, average_speed_mps=average_speed_mps
    )
    published = table or tables.load("tire_hot_buildup")
    limit = float(published.rows[0]["rating_limit_kg"])
    row = published.row(over_limit=rated_load_kg > limit * (1 + 1e-9))
    require_between(
        float(row["least_speed_mps"]),
        float(row["most_speed_mps"]),
        "m/s",
        average_speed_mps=average_speed_mps,
    )
    cold = hot_pressure_Pa - float(row["buildup_Pa"])
    if cold < 0:
        raise OutOfRange(
            "hot_pressure_Pa",
            hot_pressure_Pa,
            f"must not be below the build-up of {row['buildup_Pa']:.0f} Pa",
        )
    require_finite(cold_pressure_Pa=cold)
    return cold


@calculation(
    "tires",
    "p_max = min(p_r + 10 psi, wheel); the load stays L_r",
    gives="highest_pressure_Pa",
    symbols={"rated_pressure_Pa": "p_r", "wheel_pressure_Pa": "wheel", "highest_pressure_Pa": "p_max"},
    tables={"table": "tire_extra_pressure"},
)
def special_trailer_tire_highest_pressure(
    rated_pressure_Pa: float, wheel_pressure_Pa: float | None = None, table: Table | None = None
) -> float:
    """Highest cold pressure a special trailer (ST) tire may stand at; the extra carries no more load.

    At most 10 psi above the pressure of its top load, and never above what the wheel is rated for.

    Parameters
    ----------
    rated_pressure_Pa : float
        Cold pressure printed for the tire's top load [Pa].
    wheel_pressure_Pa : float, optional
        Highest cold pressure stamped on the wheel [Pa].
    table : Table, optional
        How much may be added.

    Returns
    -------
    float
        Highest cold pressure [Pa].

    Raises
    ------
    OutOfRange
        If a pressure is not above zero, or the wheel is rated below the tire.

    Notes
    -----
    A limit, not a recommendation: what is set is the placard's pressure. A sidewall that names a maximum is not passed.

    Examples
    --------
    By the page: 65 psi may stand at 75 psi, at 70 psi on a wheel rated for that.

    >>> psi = 6894.757293168
    >>> round(special_trailer_tire_highest_pressure(65 * psi) / psi, 6)
    75.0
    >>> round(special_trailer_tire_highest_pressure(65 * psi, 70 * psi) / psi, 6)
    70.0

    References
    ----------
    .. [1] st_page, at most 10 psi above, no more load
    """
    positive(rated_pressure_Pa=rated_pressure_Pa)
    extra = float((table or tables.load("tire_extra_pressure")).rows[0]["extra_pressure_Pa"])
    highest = rated_pressure_Pa + extra
    if wheel_pressure_Pa is None:
        return highest
    positive(wheel_pressure_Pa=wheel_pressure_Pa)
    if wheel_pressure_Pa < rated_pressure_Pa * (1 - 1e-9):
        allowed = "must not be below the tire's own pressure: this wheel does not go with this tire"
        raise OutOfRange("wheel_pressure_Pa", wheel_pressure_Pa, allowed)
    return min(highest, wheel_pressure_Pa)
