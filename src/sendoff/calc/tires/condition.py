"""Whether tires are fit for use: age, tread, pairs, the sum on an axle, and the sidewall's own limit."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from sendoff import tables
from sendoff.calc._limits import not_negative, positive
from sendoff.calc.contract import calculation, require_one_of
from sendoff.calc.identity import tire_week
from sendoff.errors import OutOfRange
from sendoff.tables import Table

PASSENGER_DIVISOR = 1.10
"""571.110 S4.2.2.2 and 571.120 S5.1.2: a passenger car tire on a trailer."""

PERMIT_SPEED_mps = 50 * 0.44704
"""393.75(f)(2): 50 mph."""


@dataclass(frozen=True, slots=True)
class TireAge:
    """How old a tire is, counted from the first day of the week it was made in."""

    years: int
    months: int
    """Whole months beyond the years."""
    days: int
    """All days since."""
    made_from: dt.date
    made_until: dt.date
    advice: str


@dataclass(frozen=True, slots=True)
class TreadCheck:
    """Tread depth against the least allowed."""

    enough: bool
    least_depth_m: float
    margin_m: float


@dataclass(frozen=True, slots=True)
class DualMatch:
    """Whether two tires may run side by side."""

    matched: bool
    gap_m: float
    most_gap_m: float


@dataclass(frozen=True, slots=True)
class SidewallCheck:
    """The load on a tire against what its sidewall allows."""

    within: bool
    margin_kg: float
    margin_ratio: float
    """Left over, as a share of the sidewall's load; below zero when overloaded."""
    highest_speed_mps: float | None
    """For an overload: under a State's special permit, else zero; none where there is no overload."""


@calculation("tires", "age = today - first day of the week made", tables={"table": "tire_age_advice"})
def tire_age(date_code: str, today: dt.date, table: Table | None = None) -> TireAge:
    """Age of a tire by its date code, and what common practice says of that age.

    Whole years and months from the first day of the week of manufacture, so never younger than it may be.

    Parameters
    ----------
    date_code : str
        The four figures that end the identification number, such as 2626.
    today : date
        The day the age is asked for.
    table : Table, optional
        Advice by age.

    Returns
    -------
    TireAge
        Years, months, days, the week made, and the advice for that age [-].

    Raises
    ------
    OutOfRange
        If it is no week of the tire calendar, or one that has not begun by `today`.

    Notes
    -----
    Tires made since July 2000; three figures mean an older one, to be replaced. The advice is common practice: the
    tire maker's own comes first, and a tire can be unfit at any age.

    Examples
    --------
    A tire of week 01 of 2009, whose first day is 4 January 2009 by the rule, on its tenth birthday.

    >>> age = tire_age("0109", dt.date(2019, 1, 4))
    >>> age.years, age.months, age.days, age.advice
    (10, 0, 3652, 'replace it whatever its tread')

    References
    ----------
    .. [1] 49cfr574, 574.5(b)(3)
    .. [2] common_practice, ages of six and ten years
    """
    week = tire_week(date_code)
    if week.first_day > today:
        raise OutOfRange("date_code", date_code, f"must not lie after {today.isoformat()}")
    months = (today.year - week.first_day.year) * 12 + today.month - week.first_day.month
    months -= today.day < week.first_day.day
    advice = (table or tables.load("tire_age_advice")).at_or_below("from_years", months // 12)["advice"]
    return TireAge(
        months // 12, months % 12, (today - week.first_day).days, week.first_day, week.last_day, str(advice)
    )


@calculation(
    "tires",
    "enough if d >= d_min",
    symbols={"tread_depth_m": "d", "least_depth_m": "d_min"},
    tables={"table": "tire_tread_minimum"},
)
def tread_depth_check(
    tread_depth_m: float,
    position: Literal["trailer", "truck_rear", "truck_front"] = "trailer",
    table: Table | None = None,
) -> TreadCheck:
    """Whether the tread of a tire is deep enough to be driven on.

    2/32 in anywhere on a trailer and behind the front wheels, 4/32 in on the front wheels of a truck.

    Parameters
    ----------
    tread_depth_m : float
        Least depth found in a major groove, not on tie bars, humps or fillets [m].
    position : {"trailer", "truck_rear", "truck_front"}
        Where the tire runs.
    table : Table, optional
        Least depth by position.

    Returns
    -------
    TreadCheck
        Enough or not, the least allowed, and what is left.

    Raises
    ------
    OutOfRange
        If the depth is below zero.

    Notes
    -----
    The rule for commercial vehicles; equal to the least is still enough. Steer on the side of more in rain.

    Examples
    --------
    By the rule: 3/32 in will do on a trailer and not on the front wheels of a truck.

    >>> depth = 3 / 32 * 0.0254
    >>> tread_depth_check(depth).enough, tread_depth_check(depth, "truck_front").enough
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.75(b),(c)
    """
    not_negative(tread_depth_m=tread_depth_m)
    require_one_of(("trailer", "truck_rear", "truck_front"), position=position)
    least = float((table or tables.load("tire_tread_minimum")).row(position=position)["tread_depth_m"])
    return TreadCheck(tread_depth_m >= least * (1 - 1e-9), least, tread_depth_m - least)


@calculation(
    "tires",
    "matched if |d1 - d2| <= limit",
    symbols={"outer_diameter_m": "d1", "inner_diameter_m": "d2", "most_gap_m": "limit"},
    tables={"table": "tire_dual_match"},
)
def dual_tire_match(
    outer_diameter_m: float, inner_diameter_m: float, table: Table | None = None
) -> DualMatch:
    """Whether the two tires of a dual wheel are near enough in diameter to share their load.

    The larger one carries more and the smaller one scrubs; the difference is held to a quarter inch.

    Parameters
    ----------
    outer_diameter_m : float
        Diameter of the outer tire, unloaded, at its pressure [m].
    inner_diameter_m : float
        Diameter of the inner tire, measured alike [m].
    table : Table, optional
        Most the diameters may differ.

    Returns
    -------
    DualMatch
        Matched or not, the difference, and the most allowed.

    Raises
    ------
    OutOfRange
        If a diameter is not above zero.

    Notes
    -----
    Common practice, no source: the tire maker's own limit comes first. A flat inner tire cannot be seen and a thump
    does not tell it: use a gauge on both.

    Examples
    --------
    30.0 in beside 30.2 in is matched, beside 30.3 in not.

    >>> inch = 0.0254
    >>> dual_tire_match(30 * inch, 30.2 * inch).matched, dual_tire_match(30 * inch, 30.3 * inch).matched
    (True, False)

    References
    ----------
    .. [1] common_practice, diameter of a dual pair within 1/4 in
    """
    positive(outer_diameter_m=outer_diameter_m, inner_diameter_m=inner_diameter_m)
    most = float((table or tables.load("tire_dual_match")).rows[0]["diameter_gap_m"])
    gap = abs(outer_diameter_m - inner_diameter_m)
    return DualMatch(gap <= most * (1 + 1e-9), gap, most)


@calculation(
    "tires",
    "L_axle = n · L (/ 1.10 for passenger car tires)",
    gives="axle_capacity_kg",
    symbols={"tire_load_kg": "L", "tire_count": "n", "axle_capacity_kg": "L_axle"},
)
def axle_tire_capacity(tire_load_kg: float, tire_count: int, passenger_tire: bool = False) -> float:  # noqa: FBT001, FBT002
    """Load all tires of an axle carry together.

    Their loads added; a passenger car tire on a trailer first loses a tenth of what is left (divide by 1.10).

    Parameters
    ----------
    tire_load_kg : float
        Load of one tire as it is fitted: the dual figure where two stand side by side [kg].
    tire_count : int
        Tires on the axle, 2 or 4 [-].
    passenger_tire : bool
        Yes for a passenger car tire, a size that begins with P or with no letter.

    Returns
    -------
    float
        Load of the axle's tires [kg].

    Raises
    ------
    OutOfRange
        If the load is not above zero or the count not even, from 2 to 8.

    Notes
    -----
    The axle, hub, wheel and stud may carry less: the weakest of the chain decides.

    Examples
    --------
    By the rule, two passenger tires of 1,100 lb count 2,000 lb on a trailer.

    >>> round(axle_tire_capacity(1100.0, 2, passenger_tire=True), 9)
    2000.0

    References
    ----------
    .. [1] 49cfr571_110, S4.2.2.1, S4.2.2.2
    .. [2] 49cfr571_120, S5.1.2
    """
    positive(tire_load_kg=tire_load_kg)
    if tire_count % 2 or not 2 <= tire_count <= 8:
        raise OutOfRange("tire_count", tire_count, "must be an even number from 2 to 8")
    total = tire_count * tire_load_kg
    return total / PASSENGER_DIVISOR if passenger_tire else total


@calculation(
    "tires",
    "within if L <= L_sidewall; more only under a State's permit, at 50 mph or less",
    symbols={"load_kg": "L", "sidewall_load_kg": "L_sidewall", "highest_speed_mps": "v_max"},
)
def tire_sidewall_check(load_kg: float, sidewall_load_kg: float, state_permit: bool = False) -> SidewallCheck:  # noqa: FBT001, FBT002
    """Whether a tire carries no more than its sidewall says.

    No vehicle may be driven on a tire that carries more than is marked on it, unless a State's special permit allows
    it at a speed reduced for it and never above 50 mph.

    Parameters
    ----------
    load_kg : float
        Load on the tire [kg].
    sidewall_load_kg : float
        Load marked on the sidewall, for the way it is fitted [kg].
    state_permit : bool
        Yes if a State's special permit for the load is aboard.

    Returns
    -------
    SidewallCheck
        Within or not, what is left, and the highest speed the overload may be driven at.

    Raises
    ------
    OutOfRange
        If the sidewall's load is not above zero, or the load below zero.

    Notes
    -----
    The load limit holds at the cold pressure marked; the placard's pressure may carry less. Not for manufactured
    homes, which have a rule of their own. The speed is zero where the overload may not be driven at all.

    Examples
    --------
    By the rule: one kilogram over, without and with a permit.

    >>> tire_sidewall_check(1001.0, 1000.0).highest_speed_mps
    0.0
    >>> round(tire_sidewall_check(1001.0, 1000.0, state_permit=True).highest_speed_mps / 0.44704)
    50

    References
    ----------
    .. [1] 49cfr393, 393.75(f)
    """
    not_negative(load_kg=load_kg)
    positive(sidewall_load_kg=sidewall_load_kg)
    within = load_kg <= sidewall_load_kg * (1 + 1e-9)
    speed = None if within else PERMIT_SPEED_mps if state_permit else 0.0
    return SidewallCheck(within, sidewall_load_kg - load_kg, 1.0 - load_kg / sidewall_load_kg, speed)
