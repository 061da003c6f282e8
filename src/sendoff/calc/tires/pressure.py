"""What a tire carries at a pressure, and how its pressure moves with temperature."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from sendoff import tables
from sendoff.calc.contract import (
    calculation,
    require_between,
    require_finite,
    require_not_negative,
    require_one_of,
    require_positive,
)
from sendoff.errors import OutOfRange
from sendoff.tables import Table

TireKind = Literal["radial", "bias", "passenger"]
Fitment = Literal["single", "dual"]

LEAST_SHARE = 0.43
"""Share of the rated pressure below which no load is printed (35 of 80 psi in the light truck table)."""

STANDARD_ATMOSPHERE_Pa = 101_325.0


@dataclass(frozen=True, slots=True)
class TireLoad:
    """What the printed table gives for a pressure, and what the curve says beside it."""

    load_kg: float
    curve_load_kg: float
    """By the curve through the table's highest pressure, as a cross-check only."""
    misfit_ratio: float
    """Table over curve, less one."""
    highest_pressure_Pa: float
    """Where the table, or the load range, ends."""


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
    needed_pressure_Pa: float
    """By the curve, to judge the placard only; never to be set below it."""


def _exponent(tire_kind: str, table: Table | None) -> float:
    require_one_of(("radial", "bias", "passenger"), tire_kind=tire_kind)
    return float((table or tables.load("tire_load_exponents")).row(tire_kind=tire_kind)["exponent_ratio"])


@calculation(
    "tires",
    "L = L_r · (p / p_r)^n",
    gives="load_kg",
    symbols={"rated_load_kg": "L_r", "rated_pressure_Pa": "p_r", "pressure_Pa": "p", "load_kg": "L"},
    tables={"table": "tire_load_exponents"},
)
def tire_load_by_curve(
    rated_load_kg: float,
    rated_pressure_Pa: float,
    pressure_Pa: float,
    tire_kind: TireKind = "radial",
    table: Table | None = None,
) -> float:
    """Load of a tire at a cold pressure by the curve that follows the printed tables.

    The load at the rated pressure times the pressure ratio to a power: 0.7 for radials, 0.585 bias, 0.5 passenger.

    Parameters
    ----------
    rated_load_kg : float
        Load marked on the sidewall, for the way it is fitted, single or dual [kg].
    rated_pressure_Pa : float
        Cold pressure marked beside it [Pa].
    pressure_Pa : float
        Cold pressure asked about [Pa].
    tire_kind : {"radial", "bias", "passenger"}
        Build of the tire, which sets the exponent n.
    table : Table, optional
        Exponent of each kind.

    Returns
    -------
    float
        Load one tire carries [kg].

    Raises
    ------
    OutOfRange
        Above the rated pressure, or below 43 % of it, where no table is printed.

    Notes
    -----
    A cross-check of the printed table, which decides where there is one. More pressure than rated carries no more.

    Examples
    --------
    LT235/85R16 E is printed 3,042 lb at 80 psi and 2,205 lb at 50; the curve gives 2,189 lb, 0.7 % less.

    >>> round(tire_load_by_curve(3042 * 0.45359237, 80.0, 50.0) / 0.45359237, 1)
    2189.1

    References
    ----------
    .. [1] tra_tables, exponent 0.7 and fit to LT235/85R16
    """
    require_positive(
        rated_load_kg=rated_load_kg, rated_pressure_Pa=rated_pressure_Pa, pressure_Pa=pressure_Pa
    )
    require_between(LEAST_SHARE * rated_pressure_Pa, rated_pressure_Pa, "Pa", pressure_Pa=pressure_Pa)
    return rated_load_kg * math.pow(pressure_Pa / rated_pressure_Pa, _exponent(tire_kind, table))


@calculation(
    "tires",
    "p = p_r · (L / L_r)^(1/n)",
    gives="needed_pressure_Pa",
    symbols={"rated_load_kg": "L_r", "rated_pressure_Pa": "p_r", "load_kg": "L", "needed_pressure_Pa": "p"},
    tables={"table": "tire_load_exponents"},
)
def tire_pressure_for_load(
    load_kg: float,
    rated_load_kg: float,
    rated_pressure_Pa: float,
    tire_kind: TireKind = "radial",
    table: Table | None = None,
) -> float:
    """Cold pressure at which the curve just carries a load: to judge a placard, never to set a tire by.

    The curve of `tire_load_by_curve` solved for the pressure.

    Parameters
    ----------
    load_kg : float
        Load on one tire [kg].
    rated_load_kg : float
        Load marked on the sidewall, for the way it is fitted, single or dual [kg].
    rated_pressure_Pa : float
        Cold pressure marked beside it [Pa].
    tire_kind : {"radial", "bias", "passenger"}
        Build of the tire, which sets the exponent n.
    table : Table, optional
        Exponent of each kind.

    Returns
    -------
    float
        Cold pressure [Pa].

    Raises
    ------
    OutOfRange
        If the load is above the rated one, or so small that the pressure would leave the printed range.

    Notes
    -----
    The placard is the floor of what is set, and the maker's figure for the load is what 393.75(h) asks for.

    Examples
    --------
    At 60 % of the load 80 psi becomes 80 · 0.6^(1/0.7) = 38.6 psi.

    >>> round(tire_pressure_for_load(0.6, 1.0, 80.0), 1)
    38.6

    References
    ----------
    .. [1] tra_tables, exponent 0.7 solved for the pressure
    """
    require_positive(load_kg=load_kg, rated_load_kg=rated_load_kg, rated_pressure_Pa=rated_pressure_Pa)
    exponent = _exponent(tire_kind, table)
    least = rated_load_kg * math.pow(LEAST_SHARE, exponent)
    require_between(least, rated_load_kg, "kg", load_kg=load_kg)
    return rated_pressure_Pa * math.pow(load_kg / rated_load_kg, 1.0 / exponent)


@calculation(
    "tires",
    "n = ln(L2 / L1) / ln(p2 / p1)",
    gives="exponent_ratio",
    symbols={"low_load_kg": "L1", "low_pressure_Pa": "p1", "high_load_kg": "L2", "high_pressure_Pa": "p2"},
)
def tire_load_exponent(
    low_pressure_Pa: float, low_load_kg: float, high_pressure_Pa: float, high_load_kg: float
) -> float:
    """Exponent of the load curve through two printed pressures of one tire.

    The slope of load against pressure when both are drawn on logarithmic scales.

    Parameters
    ----------
    low_pressure_Pa : float
        The lower cold pressure [Pa].
    low_load_kg : float
        Load printed for it [kg].
    high_pressure_Pa : float
        The higher cold pressure [Pa].
    high_load_kg : float
        Load printed for it [kg].

    Returns
    -------
    float
        Exponent n [-].

    Raises
    ------
    OutOfRange
        If the higher pressure or its load is not above the lower.

    Notes
    -----
    Near 0.7 for radials; far from it, one of the four figures is misread.

    Examples
    --------
    The ends of the LT235/85R16 table, 1,700 lb at 35 psi and 3,042 lb at 80 psi, give 0.704.

    >>> round(tire_load_exponent(35.0, 1700.0, 80.0, 3042.0), 3)
    0.704

    References
    ----------
    .. [1] tra_tables, LT235/85R16 load range E, single
    """
    require_positive(
        low_pressure_Pa=low_pressure_Pa,
        low_load_kg=low_load_kg,
        high_pressure_Pa=high_pressure_Pa,
        high_load_kg=high_load_kg,
    )
    if high_pressure_Pa <= low_pressure_Pa * (1 + 1e-9):
        raise OutOfRange("high_pressure_Pa", high_pressure_Pa, "must be above low_pressure_Pa")
    if high_load_kg <= low_load_kg:
        raise OutOfRange("high_load_kg", high_load_kg, "must be above low_load_kg")
    return math.log(high_load_kg / low_load_kg) / math.log(high_pressure_Pa / low_pressure_Pa)


@calculation(
    "tires",
    "L = between the printed pressures beside p; beside it L_end · (p / p_end)^n",
    symbols={"pressure_Pa": "p", "load_kg": "L", "highest_pressure_Pa": "p_end"},
    tables={"table": "tire_load_inflation", "exponents": "tire_load_exponents"},
)
def tire_load_at_pressure(
    tire_size: str,
    pressure_Pa: float,
    fitment: Fitment = "single",
    load_range: str | None = None,
    table: Table | None = None,
    exponents: Table | None = None,
) -> TireLoad:
    """Load of a tire at a cold pressure from the printed table, with the curve as a cross-check.

    On the straight line between the printed pressures, which lies below the curve and so never flatters.

    Parameters
    ----------
    tire_size : str
        As the table writes it, such as ST205/75-15 or LT235/85R16.
    pressure_Pa : float
        Cold pressure [Pa].
    fitment : {"single", "dual"}
        Alone on its side, or one of a pair; the load is always that of one tire.
    load_range : str, optional
        Letter on the sidewall; the table then ends where that range does.
    table : Table, optional
        Loads by size, fitment and pressure.
    exponents : Table, optional
        Exponent of the curve.

    Returns
    -------
    TireLoad
        Load by the table and by the curve, how far they part, and where the table ends.

    Raises
    ------
    OutOfRange
        If size, fitment or load range is not in the table, or the pressure lies outside it: it is never extended.

    Notes
    -----
    Secondary reprints for a handful of sizes: the sidewall and the tire maker's book decide, the placard is the floor.

    Examples
    --------
    A printed pressure gives the printed load: LT235/85R16 dual, 5,556 lb the pair at 80 psi.

    >>> round(tire_load_at_pressure("LT235/85R16", 80 * 6894.757293168, "dual").load_kg * 2 / 0.45359237)
    5556

    References
    ----------
    .. [1] tra_tables, load and inflation charts publicly reproduced
    """
    require_positive(pressure_Pa=pressure_Pa)
    require_one_of(("single", "dual"), fitment=fitment)
    published = table or tables.load("tire_load_inflation")
    size = "".join(tire_size.upper().split())
    keys = {"tire_size": size, "fitment": fitment}
    published.row_exists(**keys)
    end = published.at_or_below("pressure_Pa", math.inf, **keys)
    if load_range is not None:
        letter = load_range.strip().upper()
        end = published.row(load_range=letter, **keys)
    highest = float(end["pressure_Pa"])
    if pressure_Pa > highest * (1 + 1e-9):
        raise OutOfRange("pressure_Pa", pressure_Pa, f"must not be above {highest:.0f} Pa, where {size} ends")
    load = published.interpolate("pressure_Pa", pressure_Pa, "load_kg", **keys)
    kind = "radial" if "R" in size.removeprefix("ST").removeprefix("LT") else "bias"
    curve = float(end["load_kg"]) * math.pow(pressure_Pa / highest, _exponent(kind, exponents))
    return TireLoad(load, curve, load / curve - 1.0, highest)


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
    require_not_negative(load_kg=load_kg)
    require_positive(
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
    exponent = _exponent(tire_kind, table)
    needed = rated_pressure_Pa * math.pow(load_kg / rated_load_kg, 1.0 / exponent)
    return PlacardCheck(
        load_kg <= capacity,
        capacity,
        capacity - load_kg,
        1.0 - load_kg / capacity,
        placard_pressure_Pa,
        needed,
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
    require_not_negative(cold_pressure_Pa=cold_pressure_Pa)
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
    require_positive(
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
