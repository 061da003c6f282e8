"""What a tire carries at a cold pressure: the printed tables, and the curve that follows them."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import positive
from sendoff.calc.contract import calculation, require_between, require_one_of
from sendoff.errors import OutOfRange
from sendoff.tables import Table

TireKind = Literal["radial", "bias", "passenger"]
Fitment = Literal["single", "dual"]

LEAST_SHARE = 0.43
"""Share of the rated pressure below which no load is printed (35 of 80 psi in the light truck table)."""


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


def load_exponent(tire_kind: str, table: Table | None) -> float:
    """Return the exponent of the curve for a kind of tire."""
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
    positive(rated_load_kg=rated_load_kg, rated_pressure_Pa=rated_pressure_Pa, pressure_Pa=pressure_Pa)
    require_between(LEAST_SHARE * rated_pressure_Pa, rated_pressure_Pa, "Pa", pressure_Pa=pressure_Pa)
    return rated_load_kg * math.pow(pressure_Pa / rated_pressure_Pa, load_exponent(tire_kind, table))


@calculation(
    "tires",
    "p = max(p_r · (L / L_r)^(1/n), p_placard)",
    gives="needed_pressure_Pa",
    symbols={
        "rated_load_kg": "L_r",
        "rated_pressure_Pa": "p_r",
        "load_kg": "L",
        "placard_pressure_Pa": "p_placard",
        "needed_pressure_Pa": "p",
    },
    tables={"table": "tire_load_exponents"},
)
def tire_pressure_for_load(
    load_kg: float,
    rated_load_kg: float,
    rated_pressure_Pa: float,
    placard_pressure_Pa: float | None = None,
    tire_kind: TireKind = "radial",
    table: Table | None = None,
) -> float:
    """Cold pressure at which the curve just carries a load: to judge a placard, never to set a tire by.

    The curve of `tire_load_by_curve` solved for the pressure; where the placard is given, never less than it.

    Parameters
    ----------
    load_kg : float
        Load on one tire [kg].
    rated_load_kg : float
        Load marked on the sidewall, for the way it is fitted, single or dual [kg].
    rated_pressure_Pa : float
        Cold pressure marked beside it [Pa].
    placard_pressure_Pa : float, optional
        Cold pressure on the trailer's placard, the floor of the answer [Pa].
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
        If the load is above the rated one, or so small that the pressure would leave the printed range, or the
        placard asks for more than the tire's own pressure.

    Notes
    -----
    The placard is the floor of what is set, and the maker's figure for the load is what 393.75(h) asks for.

    Examples
    --------
    At 60 % of the load 80 psi becomes 80 · 0.6^(1/0.7) = 38.6 psi.

    >>> round(tire_pressure_for_load(0.6, 1.0, 80.0), 1), tire_pressure_for_load(0.6, 1.0, 80.0, 65.0)
    (38.6, 65.0)

    References
    ----------
    .. [1] tra_tables, exponent 0.7 solved for the pressure
    """
    positive(load_kg=load_kg, rated_load_kg=rated_load_kg, rated_pressure_Pa=rated_pressure_Pa)
    exponent = load_exponent(tire_kind, table)
    least = rated_load_kg * math.pow(LEAST_SHARE, exponent)
    require_between(least, rated_load_kg, "kg", load_kg=load_kg)
    needed = rated_pressure_Pa * math.pow(load_kg / rated_load_kg, 1.0 / exponent)
    if placard_pressure_Pa is None:
        return needed
    positive(placard_pressure_Pa=placard_pressure_Pa)
    if placard_pressure_Pa > rated_pressure_Pa * (1 + 1e-9):
        allowed = (
            "must not be above the pressure marked on the tire: these are not the tires the placard means"
        )
        raise OutOfRange("placard_pressure_Pa", placard_pressure_Pa, allowed)
    return max(needed, placard_pressure_Pa)


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
    positive(
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


_BUILD: Final = re.compile(r"(?<=\d)[RDB](?=\d)")
"""The letter of a size that tells how the tire is built: radial, diagonal, belted."""


def _listed_size(table: Table, tire_size: str) -> str:
    """Return a size as the table writes it; the letter of its build is passed over where the table has none."""
    size = "".join(tire_size.upper().split())
    sizes = {str(row["tire_size"]) for row in table.rows}
    loose = _BUILD.sub("-", size)
    return loose if size not in sizes and loose in sizes else size


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
        Such as ST205/75-15, ST205/75R15 or LT235/85R16; a table that does not part radial from bias serves both.
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
    positive(pressure_Pa=pressure_Pa)
    require_one_of(("single", "dual"), fitment=fitment)
    published = table or tables.load("tire_load_inflation")
    size = _listed_size(published, tire_size)
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
    curve = float(end["load_kg"]) * math.pow(pressure_Pa / highest, load_exponent(kind, exponents))
    return TireLoad(load, curve, load / curve - 1.0, highest)
