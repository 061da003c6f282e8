"""Pull: what it takes to move a vehicle up a grade and over a surface."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.tables import Table
from sendoff.units import STANDARD_GRAVITY_mps2 as G

Surface = Literal[
    "new_pavement",
    "worn_pavement",
    "hard_road",
    "rolled_gravel",
    "loose_gravel",
    "medium_soil",
    "sand",
    "hard_wet_sand",
    "bog",
    "steel_deck",
    "locked_wheels",
]
INCH_m: Final = 0.0254


@calculation(
    "winch",
    "F = m g sin α",
    gives="slope_N",
    symbols={"mass_kg": "m", "slope_rad": "α", "slope_N": "F"},
)
def slope_force(mass_kg: float, slope_rad: float) -> float:
    """Pull along a slope that holds a mass on it.

    F = m g sin α.

    Parameters
    ----------
    mass_kg : float
        Mass [kg].
    slope_rad : float
        Slope above level [rad].

    Returns
    -------
    float
        Pull along the slope, without rolling resistance [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or the slope outside 0 to 90°.

    Notes
    -----
    At rest or at even speed.

    Examples
    --------
    22,000 lb on 5°: 1,917.4 lbf.

    >>> import math
    >>> from sendoff.units import from_si
    >>> round(from_si(slope_force(22000 * 0.45359237, math.radians(5)), "lbf", "force"), 1)
    1917.4

    References
    ----------
    .. [1] slope_exercise, answers
    """
    require_positive(mass_kg=mass_kg)
    require_between(0.0, math.pi / 2, "rad", slope_rad=slope_rad)
    return mass_kg * G * math.sin(slope_rad)


@calculation(
    "winch",
    "F = m g sin(atan s)",
    gives="grade_N",
    symbols={"mass_kg": "m", "grade_ratio": "s", "grade_N": "F"},
)
def grade_force(mass_kg: float, grade_ratio: float) -> float:
    """Pull that a grade in percent asks for.

    F = m g sin(atan s); the grade is rise over run, so 100 % is 45°.

    Parameters
    ----------
    mass_kg : float
        Mass [kg].
    grade_ratio : float
        Grade, rise over run [-].

    Returns
    -------
    float
        Pull along the grade, without rolling resistance [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or the grade outside 0 to 200 %.

    Notes
    -----
    At rest or at even speed.

    Examples
    --------
    6,000 lb on 60 %: 3,087 lbf (a guide prints about 3,060 from a rounded share).

    >>> from sendoff.units import from_si
    >>> round(from_si(grade_force(6000 * 0.45359237, 0.60), "lbf", "force"))
    3087

    References
    ----------
    .. [1] winch_guide, grade table
    """
    require_between(0.0, 2.0, grade_ratio=grade_ratio)
    return slope_force(mass_kg, math.atan(grade_ratio))


@calculation(
    "winch",
    "F = c m g cos(atan s), c the upper figure of the surface",
    gives="rolling_N",
    symbols={"mass_kg": "m", "grade_ratio": "s", "rolling_N": "F"},
    tables={"table": "rolling_resistance"},
)
def rolling_force(
    mass_kg: float, surface: Surface, grade_ratio: float = 0.0, table: Table | None = None
) -> float:
    """Pull that rolls a vehicle over a surface.

    F = c m g cos(atan s), with the upper coefficient of the surface.

    Parameters
    ----------
    mass_kg : float
        Mass [kg].
    surface : {"new_pavement", "worn_pavement", "hard_road", "rolled_gravel", "loose_gravel", "medium_soil", "sand", "hard_wet_sand", "bog", "steel_deck", "locked_wheels"}
        What it rolls on; locked_wheels if they do not turn.
    grade_ratio : float
        Grade, rise over run [-].
    table : Table
        Coefficients by surface.

    Returns
    -------
    float
        Pull [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or the grade outside 0 to 200 %.

    Notes
    -----
    Inflated tires, free brakes, neutral. Breaking loose from where it sank takes more.

    Examples
    --------
    4,500 lb on hard wet sand: 750 lbf.

    >>> from sendoff.units import from_si
    >>> round(from_si(rolling_force(4500 * 0.45359237, "hard_wet_sand"), "lbf", "force"))
    750

    References
    ----------
    .. [1] carvill, tires
    .. [2] winch_theory, hard wet sand
    """  # noqa: E501
    require_positive(mass_kg=mass_kg)
    require_between(0.0, 2.0, grade_ratio=grade_ratio)
    coefficient = float((table or tables.load("rolling_resistance")).row(surface=surface)["high_ratio"])
    return coefficient * mass_kg * G * math.cos(math.atan(grade_ratio))


@dataclass(frozen=True, slots=True)
class WinchPull:
    """What moving a vehicle asks of the line."""

    grade_N: float
    rolling_N: float
    total_N: float
    share_of_weight_ratio: float


@calculation(
    "winch",
    "F = m g (sin α + c cos α), α = atan s",
    symbols={"mass_kg": "m", "grade_ratio": "s", "total_N": "F"},
)
def winch_pull(mass_kg: float, grade_ratio: float, surface: Surface) -> WinchPull:
    """Line pull that moves a vehicle up a grade over a surface.

    F = m g (sin α + c cos α), straight pull along the grade.

    Parameters
    ----------
    mass_kg : float
        Mass of the vehicle [kg].
    grade_ratio : float
        Grade of ramp or bank, rise over run [-].
    surface : {"new_pavement", "worn_pavement", "hard_road", "rolled_gravel", "loose_gravel", "medium_soil", "sand", "hard_wet_sand", "bog", "steel_deck", "locked_wheels"}
        What it rolls on.

    Returns
    -------
    WinchPull
        Share of grade and of rolling, total, and total over weight.

    Raises
    ------
    OutOfRange
        If the mass is not above zero or the grade outside 0 to 200 %.

    Notes
    -----
    At even speed, line along the grade. A knee or a curb on the way takes more.

    Examples
    --------
    A 2,000 kg car up a 25 % steel ramp.

    >>> found = winch_pull(2000.0, 0.25, "steel_deck")
    >>> round(found.total_N), round(found.share_of_weight_ratio, 3)
    (5137, 0.262)

    References
    ----------
    .. [1] statics, equilibrium along the slope
    .. [2] carvill, tires
    """  # noqa: E501
    grade_N = grade_force(mass_kg, grade_ratio)
    rolling_N = rolling_force(mass_kg, surface, grade_ratio)
    return WinchPull(grade_N, rolling_N, grade_N + rolling_N, (grade_N + rolling_N) / (mass_kg * G))


@calculation(
    "winch",
    "R = 2 % + 1.5 % per inch sunk + 1 % per percent of grade",
    gives="resistance_ratio",
    symbols={"sunk_m": "sunk", "grade_ratio": "s", "resistance_ratio": "R"},
)
def sinking_resistance(sunk_m: float, grade_ratio: float = 0.0) -> float:
    """Share of its weight a vehicle resists with when its tires sink in.

    R = 2 % + 1.5 % for each inch sunk + 1 % for each percent of grade.

    Parameters
    ----------
    sunk_m : float
        How deep the tires sink [m].
    grade_ratio : float
        Grade, rise over run [-].

    Returns
    -------
    float
        Resistance over weight [-].

    Raises
    ------
    OutOfRange
        If the depth is below zero or above 0.5 m, or the grade outside 0 to 50 %.

    Notes
    -----
    Earthmoving rule of thumb (40 lb a ton, 30 lb a ton and inch, 20 lb a ton and percent); vehicle rolling.

    Examples
    --------
    Two inches deep on a 10 % grade: 15 %.

    >>> round(sinking_resistance(2 * 0.0254, 0.10), 3)
    0.15

    References
    ----------
    .. [1] earthmoving, penetration
    """
    require_not_negative(sunk_m=sunk_m)
    require_between(0.0, 0.5, "m", sunk_m=sunk_m)
    require_between(0.0, 0.5, grade_ratio=grade_ratio)
    return 0.02 + 0.015 * sunk_m / INCH_m + grade_ratio
