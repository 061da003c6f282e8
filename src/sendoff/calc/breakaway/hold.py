"""How long a breakaway battery holds the brakes."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.battery import cold_capacity, peukert_run_time
from sendoff.calc.brakes.electric import MAGNET_OHM, require_magnets
from sendoff.calc.contract import (
    calculation,
    refused_as,
    require_between,
    require_not_negative,
    require_positive,
)
from sendoff.errors import OutOfRange

REQUIRED_s: Final = 15 * 60.0
END_V: Final = 9.6
OPEN_V: Final = 12.7
CELL_OHM: Final = 0.027
WARM_K: Final = 298.15

Holds = Literal["holds", "does not hold", "unknown"]


@dataclass(frozen=True, slots=True)
class FirstMoment:
    """Current and voltage the moment the switch is pulled."""

    current_A: float
    at_battery_V: float


@calculation(
    "breakaway",
    "I = U0 / (r + R/n), U = U0 − I r",
    symbols={
        "open_V": "U0",
        "battery_ohm": "r",
        "magnet_ohm": "R",
        "magnet_count": "n",
        "current_A": "I",
        "at_battery_V": "U",
    },
)
def breakaway_first_current(
    open_V: float, battery_ohm: float, magnet_count: int, magnet_ohm: float = MAGNET_OHM
) -> FirstMoment:
    """Current and battery voltage the moment the breakaway switch is pulled.

    I = U0/(r + R/n) and U = U0 − I r.

    Parameters
    ----------
    open_V : float
        Rest voltage of the breakaway battery [V].
    battery_ohm : float
        Its inner resistance [ohm].
    magnet_count : int
        Number of magnets [-].
    magnet_ohm : float
        Resistance of one magnet [ohm].

    Returns
    -------
    FirstMoment
        Current and voltage at the battery.

    Raises
    ------
    OutOfRange
        If voltage or magnet resistance is not above zero, inner resistance below zero, or the number outside 1 to 16.

    Notes
    -----
    First moment only; both fall from then on.

    Examples
    --------
    Four magnets on a 5 Ah cell of 0.027 ohm: 15.36 A at 12.29 V.

    >>> found = breakaway_first_current(12.7, 0.027, 4)
    >>> round(found.current_A, 2), round(found.at_battery_V, 2)
    (15.36, 12.29)

    References
    ----------
    .. [1] electricity, Ohm's law
    .. [2] sealed_cell_sheet, inner resistance
    """
    require_positive(open_V=open_V, magnet_ohm=magnet_ohm)
    require_not_negative(battery_ohm=battery_ohm)
    require_magnets(magnet_count=magnet_count)
    current_A = open_V / (battery_ohm + magnet_ohm / magnet_count)
    return FirstMoment(current_A, open_V - current_A * battery_ohm)


@calculation(
    "breakaway",
    "Im = (U0 − Ue) / (R/n · ln(U0 / Ue))",
    gives="mean_A",
    symbols={"open_V": "U0", "end_V": "Ue", "magnet_ohm": "R", "magnet_count": "n", "mean_A": "Im"},
)
def breakaway_mean_current(
    open_V: float, end_V: float, magnet_count: int, magnet_ohm: float = MAGNET_OHM
) -> float:
    """Constant current that empties a battery as fast as magnets do while its voltage sinks.

    Magnets are a resistance, so current sinks with voltage. If voltage sinks evenly with the charge drawn, the time
    is Q R ln(U0/Ue)/(U0 − Ue), the same as at the constant current Im.

    Parameters
    ----------
    open_V : float
        Voltage at the start [V].
    end_V : float
        Voltage at which the brakes no longer hold enough [V].
    magnet_count : int
        Number of magnets [-].
    magnet_ohm : float
        Resistance of one magnet [ohm].

    Returns
    -------
    float
        Equal constant current [A].

    Raises
    ------
    OutOfRange
        If a voltage or resistance is not above zero, the end not under the start, or the number outside 1 to 16.

    Notes
    -----
    Voltage sinking in proportion to charge drawn, start at rest voltage (a little too much current: stricter).

    Examples
    --------
    >>> round(breakaway_mean_current(12.7, 9.6, 4), 2)
    13.85

    References
    ----------
    .. [1] electricity, discharge through a resistance
    """
    require_positive(open_V=open_V, end_V=end_V, magnet_ohm=magnet_ohm)
    require_magnets(magnet_count=magnet_count)
    if end_V >= open_V:
        raise OutOfRange("end_V", end_V, "must be under the voltage at the start")
    return (open_V - end_V) / (magnet_ohm / magnet_count * math.log(open_V / end_V))


@dataclass(frozen=True, slots=True)
class HoldTime:
    """How long a breakaway battery holds the brakes, as far as its data sheet tells."""

    verdict: Holds
    at_least_s: float
    """Time that is certain from the ratings given; zero if nothing is."""
    at_most_s: float | None
    """Time that is not reached; none if the ratings set no end."""
    estimate_s: float | None
    """Between two ratings; none outside them."""
    required_s: float
    mean_A: float
    """Constant current equal to the sinking one."""
    rating_A: float | None
    """That current on a full, warm, new battery of the same rating: with cold, age and charge counted."""
    why: str


def _checked_ratings(rating_A: tuple[float, ...], rating_s: tuple[float, ...]) -> list[tuple[float, float]]:
    if len(rating_A) != len(rating_s):
        raise OutOfRange(
            "rating_s", len(rating_s), f"must name one time for each of the {len(rating_A)} currents"
        )
    for current_A, time_s in zip(rating_A, rating_s, strict=True):
        require_positive(rating_A=current_A, rating_s=time_s)
    points = sorted(zip(rating_A, rating_s, strict=True))
    for (slow_A, long_s), (fast_A, short_s) in itertools.pairwise(points):
        if not (fast_A > slow_A and short_s < long_s):
            raise OutOfRange("rating_s", short_s, "must be shorter for a larger current")
    return points


def _from_ratings(
    points: list[tuple[float, float]], current_A: float
) -> tuple[float, float | None, float | None]:
    """Certain time, time not reached, and the estimate between two ratings."""
    slowest_A, longest_s = points[0]
    fastest_A, shortest_s = points[-1]
    if current_A <= slowest_A * (1 + 1e-12):
        return longest_s, None, None
    if current_A > fastest_A * (1 + 1e-12):
        return 0.0, shortest_s, None
    for (slow_A, long_s), (fast_A, short_s) in itertools.pairwise(points):
        if current_A <= fast_A * (1 + 1e-12):
            share = math.log(current_A / slow_A) / math.log(fast_A / slow_A)
            return short_s, long_s, math.exp(math.log(long_s) + share * math.log(short_s / long_s))
    raise AssertionError("the current lies between two ratings")  # pragma: no cover


@calculation(
    "breakaway",
    "t from the short-time ratings at Im / (charge · cold · age), against 15 min",
    symbols={
        "open_V": "U0",
        "end_V": "Ue",
        "magnet_count": "n",
        "charge_ratio": "charge",
        "age_ratio": "age",
        "mean_A": "Im",
    },
)
def breakaway_hold_time(
    magnet_count: int,
    rating_A: tuple[float, ...] = (),
    rating_s: tuple[float, ...] = (),
    rating_end_V: float = 0.0,
    end_V: float = END_V,
    open_V: float = OPEN_V,
    magnet_ohm: float = MAGNET_OHM,
    charge_ratio: float = 1.0,
    temperature_K: float = WARM_K,
    age_ratio: float = 1.0,
    required_s: float = REQUIRED_s,
) -> HoldTime:
    """Whether the breakaway battery holds the brakes for 15 minutes; unknown without a short-time rating.

    The magnets' sinking current is turned into an equal constant one, divided by charge, cold and age, and looked up
    among the battery's own short-time ratings, on the line between two of them in logarithms; never beyond them.

    Parameters
    ----------
    magnet_count : int
        Number of magnets the battery must hold [-].
    rating_A : tuple of float
        Constant currents of the data sheet's short-time ratings (10, 15, 20, 30 min) [A].
    rating_s : tuple of float
        Their times [s].
    rating_end_V : float
        Voltage at which those ratings end; zero means the sheet does not say [V].
    end_V : float
        Voltage under which the brakes no longer hold enough, 9.6 V if not given [V].
    open_V : float
        Rest voltage of the full battery [V].
    magnet_ohm : float
        Resistance of one magnet [ohm].
    charge_ratio : float
        State of charge [-].
    temperature_K : float
        Temperature of the battery [K].
    age_ratio : float
        What it still holds of its rating [-].
    required_s : float
        Time the brakes must hold, 15 min if not given [s].

    Returns
    -------
    HoldTime
        Verdict, times that are certain, the currents compared, and the reason.

    Raises
    ------
    OutOfRange
        If an input is out of its range, or a larger current is rated for a longer time.

    Notes
    -----
    Peukert's law is not used here: small sealed cells at these currents are far outside any 20 h fit. Ratings whose
    end voltage is not stated, or lies under `end_V`, say nothing about brakes. Charge, cold and age shrink the
    battery, so that the same current is harder on it.

    Examples
    --------
    Four magnets on a battery rated 30 A for 10 min, 21 A for 15, 13 A for 30, all to 9.6 V.

    >>> sheet = ((30.0, 21.0, 13.0), (600.0, 900.0, 1800.0), 9.6)
    >>> breakaway_hold_time(4, *sheet).verdict, breakaway_hold_time(6, *sheet).verdict
    ('holds', 'holds')
    >>> breakaway_hold_time(6, *sheet, temperature_K=255.4).verdict
    'does not hold'
    >>> breakaway_hold_time(4).verdict
    'unknown'

    References
    ----------
    .. [1] 49cfr393, 393.43(d)
    .. [2] sealed_cell_sheet, end voltage by rate
    .. [3] electricity, discharge through a resistance
    """
    require_between(0.0, 1.0, charge_ratio=charge_ratio, age_ratio=age_ratio)
    require_positive(required_s=required_s, charge_ratio=charge_ratio, age_ratio=age_ratio)
    require_not_negative(rating_end_V=rating_end_V)
    mean_A = breakaway_mean_current(open_V, end_V, magnet_count, magnet_ohm)
    cold = cold_capacity(temperature_K)
    points = _checked_ratings(rating_A, rating_s)
    unknown = ""
    if not points:
        unknown = "No short-time rating is given. Ask the maker for 10, 15 and 20 minute currents to a stated voltage."
    elif rating_end_V == 0.0:
        unknown = "The ratings do not say at which voltage they end. Ask the maker."
    elif rating_end_V < end_V - 1e-9:
        unknown = (
            f"The ratings end at {rating_end_V:g} V, under the {end_V:g} V asked for: they say nothing here."
        )
    if unknown:
        return HoldTime("unknown", 0.0, None, None, required_s, mean_A, None, unknown)
    equal_A = mean_A / (charge_ratio * cold * age_ratio)
    at_least_s, at_most_s, estimate_s = _from_ratings(points, equal_A)
    said = f"{equal_A:.1f} A on the battery's own ratings, {required_s / 60:g} minutes asked for."
    if at_least_s >= required_s or (estimate_s is not None and estimate_s >= required_s):
        return HoldTime("holds", at_least_s, at_most_s, estimate_s, required_s, mean_A, equal_A, said)
    if (estimate_s is not None) or (at_most_s is not None and at_most_s <= required_s):
        return HoldTime("does not hold", at_least_s, at_most_s, estimate_s, required_s, mean_A, equal_A, said)
    said += " The ratings given do not reach that far: ask the maker for others."
    return HoldTime("unknown", at_least_s, at_most_s, estimate_s, required_s, mean_A, equal_A, said)


@dataclass(frozen=True, slots=True)
class PessimisticBound:
    """Peukert's figure, for a comparison only."""

    run_time_s: float
    note: str


@calculation(
    "breakaway",
    "t = R (C / (I R))^k with I = n U / R magnet, held constant",
    symbols={
        "capacity_C": "C",
        "magnet_count": "n",
        "supply_V": "U",
        "exponent_number": "k",
        "run_time_s": "t",
    },
)
def breakaway_pessimistic_bound(
    capacity_C: float,
    magnet_count: int,
    supply_V: float = 13.0,
    magnet_ohm: float = 3.19,
    exponent_number: float = 1.25,
    rated_time_s: float = 72_000.0,
) -> PessimisticBound:
    """Peukert's hold time for a breakaway battery: a pessimistic bound, never a verdict.

    t = R (C/(I R))^k with the magnets' upper current held constant to the end.

    Parameters
    ----------
    capacity_C : float
        Rated capacity [C].
    magnet_count : int
        Number of magnets [-].
    supply_V : float
        Voltage assumed to stay, 13 V if not given [V].
    magnet_ohm : float
        Resistance of one magnet; 3.19 ohm gives the upper test currents [ohm].
    exponent_number : float
        Peukert's exponent [-].
    rated_time_s : float
        Time the capacity is rated over, 20 h if not given [s].

    Returns
    -------
    PessimisticBound
        The time, and what it is worth.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    Far outside the currents Peukert's exponent was found at. Use only to see how little a small battery has.

    Examples
    --------
    A full 5 Ah battery: 15.3 min for two magnets, 6.5 for four.

    >>> [round(breakaway_pessimistic_bound(18000.0, n).run_time_s / 60, 1) for n in (2, 4)]
    [15.4, 6.5]

    References
    ----------
    .. [1] peukert, rated-hour form
    .. [2] magnet_test_tables, upper currents
    """
    require_positive(supply_V=supply_V, magnet_ohm=magnet_ohm)
    require_magnets(magnet_count=magnet_count)
    current_A = magnet_count * supply_V / magnet_ohm
    note = "Pessimistic bound by Peukert's law, not a verdict: the current falls as the voltage sags."
    with refused_as(current_A="magnet_ohm"):
        return PessimisticBound(peukert_run_time(capacity_C, current_A, exponent_number, rated_time_s), note)
