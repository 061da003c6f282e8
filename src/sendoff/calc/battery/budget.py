"""Budget: what a battery may give, and how many lifts, dumps or pulls that is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc.battery.cold import cold_capacity
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange

FLOOR: Final = 0.5
WARM_K: Final = 298.15
EXPONENT: Final = 1.2
DAY_s: Final = 86_400.0


@calculation(
    "battery",
    "Q = C · age · cold · (q − floor), not below zero",
    gives="usable_C",
    symbols={
        "capacity_C": "C",
        "charge_ratio": "q",
        "floor_ratio": "floor",
        "temperature_K": "t",
        "age_ratio": "age",
        "usable_C": "Q",
    },
)
def usable_charge(
    capacity_C: float,
    charge_ratio: float = 1.0,
    floor_ratio: float = FLOOR,
    temperature_K: float = WARM_K,
    age_ratio: float = 1.0,
) -> float:
    """Charge a battery may give before it should be charged again.

    Q = C · age · cold · (q − floor): half of a full, warm, new battery.

    Parameters
    ----------
    capacity_C : float
        Rated capacity, 20 h [C].
    charge_ratio : float
        State of charge now [-].
    floor_ratio : float
        State of charge not to go under, 50 % if not given [-].
    temperature_K : float
        Temperature of the battery, 25 °C if not given [K].
    age_ratio : float
        What an old battery still holds of its rating [-].

    Returns
    -------
    float
        Usable charge [C].

    Raises
    ------
    OutOfRange
        If an input is out of its range; no figure below 0 °F.

    Notes
    -----
    Lead batteries at the long rate. The floor of one half is habit (30 % at the very least), recalled, not read.

    Examples
    --------
    A full 100 Ah battery gives 50 Ah, at freezing 37.5 Ah.

    >>> usable_charge(100 * 3600.0) / 3600
    50.0
    >>> round(usable_charge(100 * 3600.0, temperature_K=273.15) / 3600, 1)
    37.5

    References
    ----------
    .. [1] tm_10_6140, 1-8
    .. [2] common_practice, floor of one half
    """
    require_positive(capacity_C=capacity_C)
    require_between(0.0, 1.0, charge_ratio=charge_ratio, floor_ratio=floor_ratio, age_ratio=age_ratio)
    return capacity_C * age_ratio * cold_capacity(temperature_K) * max(0.0, charge_ratio - floor_ratio)


@calculation(
    "battery",
    "Q = I t",
    gives="charge_C",
    symbols={"current_A": "I", "run_s": "t", "charge_C": "Q"},
)
def cycle_charge(current_A: float, run_s: float) -> float:
    """Charge one lift, dump or pull takes.

    Q = I t.

    Parameters
    ----------
    current_A : float
        Mean current while the motor runs [A].
    run_s : float
        Time it runs [s].

    Returns
    -------
    float
        Charge taken [C].

    Raises
    ------
    OutOfRange
        If current or time is below zero.

    Notes
    -----
    At high current the battery loses more than this: `cycles_per_charge` counts it.

    Examples
    --------
    200 A for 3 minutes: 10 Ah.

    >>> cycle_charge(200.0, 180.0) / 3600
    10.0

    References
    ----------
    .. [1] electricity, charge is current times time
    """
    require_not_negative(current_A=current_A, run_s=run_s)
    return current_A * run_s


@dataclass(frozen=True, slots=True)
class Cycles:
    """How often a motor may run on one charge."""

    whole_count: int
    per_cycle_C: float
    """Charge one cycle costs the battery, with the loss at high current."""
    usable_C: float


@calculation(
    "battery",
    "n = floor(Q / (I t (I / I20)^(k − 1)))",
    symbols={
        "capacity_C": "C",
        "current_A": "I",
        "run_s": "t",
        "exponent_number": "k",
        "whole_count": "n",
        "usable_C": "Q",
    },
)
def cycles_per_charge(
    capacity_C: float,
    current_A: float,
    run_s: float,
    floor_ratio: float = FLOOR,
    temperature_K: float = WARM_K,
    age_ratio: float = 1.0,
    exponent_number: float = EXPONENT,
) -> Cycles:
    """How many lifts, dumps or pulls a full battery gives.

    n = floor(Q/(I t (I/I20)^(k − 1))): a motor current far above the 20 h current costs more than it draws.

    Parameters
    ----------
    capacity_C : float
        Rated capacity, 20 h [C].
    current_A : float
        Mean current while the motor runs [A].
    run_s : float
        Running time of one cycle [s].
    floor_ratio : float
        State of charge not to go under, 50 % if not given [-].
    temperature_K : float
        Temperature of the battery [K].
    age_ratio : float
        What an old battery still holds of its rating [-].
    exponent_number : float
        Peukert's exponent, 1.2 if not known; 1.0 counts no loss [-].

    Returns
    -------
    Cycles
        Whole cycles, cost of one, usable charge.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    Short runs with rests get some of the loss back, so this is on the low side. Charging between cycles not counted.

    Examples
    --------
    100 Ah, a 200 A pump for 40 s a dump: 22 without the loss, 10 with it.

    >>> cycles_per_charge(100 * 3600.0, 200.0, 40.0, exponent_number=1.0).whole_count
    22
    >>> cycles_per_charge(100 * 3600.0, 200.0, 40.0).whole_count
    10

    References
    ----------
    .. [1] peukert, rated-hour form
    .. [2] electricity, charge is current times time
    """
    require_positive(current_A=current_A, run_s=run_s)
    require_between(1.0, 1.6, exponent_number=exponent_number)
    usable_C = usable_charge(capacity_C, 1.0, floor_ratio, temperature_K, age_ratio)
    rated_A = capacity_C / 72_000.0
    cost_C = cycle_charge(current_A, run_s) * max(1.0, current_A / rated_A) ** (exponent_number - 1)
    if cost_C <= 0 or usable_C / cost_C > 1e9:
        raise OutOfRange("run_s", run_s, "is too short to count cycles by")
    return Cycles(math.floor(usable_C / cost_C + 1e-9), cost_C, usable_C)


@dataclass(frozen=True, slots=True)
class DutyBudget:
    """A day's use held against what the battery may give."""

    used_per_day_C: float
    put_back_per_day_C: float
    net_per_day_C: float
    """Above zero the battery runs down day by day."""
    usable_C: float
    lasts_s: float | None
    """How long until the floor; none if the day is put back in full."""
    keeps_up: bool


@calculation(
    "battery",
    "Σ Ii ti ni − put back, against the usable charge",
    symbols={"item_A": "Ii", "item_s": "ti", "item_per_day_count": "ni", "usable_C": "Q"},
)
def duty_budget(
    usable_C: float,
    item_A: tuple[float, ...],
    item_s: tuple[float, ...],
    item_per_day_count: tuple[int, ...],
    put_back_per_day_C: float = 0.0,
) -> DutyBudget:
    """Whether a battery keeps up with a day's lifts, pulls and lamps.

    The sum of current times time times number over all uses, less what chargers put back, against the usable charge.

    Parameters
    ----------
    usable_C : float
        Charge the battery may give (`usable_charge`) [C].
    item_A : tuple of float
        Current of each use [A].
    item_s : tuple of float
        Running time of each use [s].
    item_per_day_count : tuple of int
        How often a day [-].
    put_back_per_day_C : float
        Charge put back a day by charger, tow lead and panel together, after losses [C].

    Returns
    -------
    DutyBudget
        Used, put back, net, and how long it lasts.

    Raises
    ------
    OutOfRange
        If the lists differ in length, are empty, or a value is out of range.

    Notes
    -----
    Plain charge without the loss at high current; the figures are the owner's own and may be edited.

    Examples
    --------
    Six lifts of 180 A and 30 s and one winch pull of 200 A and 180 s take 19 Ah of 50 a day.

    >>> found = duty_budget(50 * 3600.0, (180.0, 200.0), (30.0, 180.0), (6, 1))
    >>> round(found.used_per_day_C / 3600), round(found.lasts_s / 86400, 1)
    (19, 2.6)

    References
    ----------
    .. [1] electricity, charge is current times time
    """
    require_positive(usable_C=usable_C)
    require_not_negative(put_back_per_day_C=put_back_per_day_C)
    if not item_A:
        raise OutOfRange("item_A", "nothing", "must name at least one use")
    for name, length in (("item_s", len(item_s)), ("item_per_day_count", len(item_per_day_count))):
        if length != len(item_A):
            raise OutOfRange(name, length, f"must name one value for each of the {len(item_A)} uses")
    used_C = 0.0
    for current_A, run_s, often in zip(item_A, item_s, item_per_day_count, strict=True):
        require_not_negative(item_A=current_A, item_s=run_s, item_per_day_count=often)
        used_C += cycle_charge(current_A, run_s) * often
    net_C = used_C - put_back_per_day_C
    lasts_s = usable_C / net_C * DAY_s if net_C > usable_C * 1e-6 else None
    return DutyBudget(used_C, put_back_per_day_C, net_C, usable_C, lasts_s, lasts_s is None)
