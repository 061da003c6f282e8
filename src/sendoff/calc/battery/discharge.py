"""Discharge of a lead battery: Peukert's law, its exponent from a data sheet, reserve capacity."""

from __future__ import annotations

import math
from typing import Final

from sendoff.calc.contract import calculation, require_between, require_positive
from sendoff.errors import OutOfRange

RESERVE_CURRENT_A: Final = 25.0


@calculation(
    "battery",
    "t = R (C / (I R))^k",
    gives="run_time_s",
    symbols={
        "capacity_C": "C",
        "rated_time_s": "R",
        "current_A": "I",
        "exponent_number": "k",
        "run_time_s": "t",
    },
)
def peukert_run_time(
    capacity_C: float, current_A: float, exponent_number: float, rated_time_s: float = 72_000.0
) -> float:
    """How long a full battery gives a constant current, by Peukert's law.

    t = R (C/(I R))^k, with capacity C rated over the time R.

    Parameters
    ----------
    capacity_C : float
        Rated capacity [C].
    current_A : float
        Constant current drawn [A].
    exponent_number : float
        Peukert's exponent, 1.0 to 1.6 [-].
    rated_time_s : float
        Time the capacity is rated over, 20 h if not given [s].

    Returns
    -------
    float
        Run time [s].

    Raises
    ------
    OutOfRange
        If an input is not above zero or the exponent is outside 1.0 to 1.6.

    Notes
    -----
    Between the currents of the battery's own data sheet. Beyond its shortest rating it is a pessimistic bound for
    a load that is a resistance, never a promise.

    Examples
    --------
    120 Ah at 20 h, 120 A, k = 1.4: 0.3 h.

    >>> round(peukert_run_time(120 * 3600.0, 120.0, 1.4) / 3600, 2)
    0.3

    References
    ----------
    .. [1] peukert, worked example
    """
    require_positive(capacity_C=capacity_C, current_A=current_A, rated_time_s=rated_time_s)
    require_between(1.0, 1.6, exponent_number=exponent_number)
    return float(rated_time_s * (capacity_C / (current_A * rated_time_s)) ** exponent_number)


@calculation(
    "battery",
    "k = ln(t1 / t2) / ln(I2 / I1)",
    gives="exponent_number",
    symbols={
        "slow_A": "I1",
        "slow_time_s": "t1",
        "fast_A": "I2",
        "fast_time_s": "t2",
        "exponent_number": "k",
    },
)
def peukert_exponent(slow_A: float, slow_time_s: float, fast_A: float, fast_time_s: float) -> float:
    """Peukert's exponent from two ratings of one battery.

    k = ln(t1/t2)/ln(I2/I1).

    Parameters
    ----------
    slow_A : float
        Smaller current [A].
    slow_time_s : float
        Time at the smaller current [s].
    fast_A : float
        Larger current [A].
    fast_time_s : float
        Time at the larger current [s].

    Returns
    -------
    float
        Exponent between these two points [-].

    Raises
    ------
    OutOfRange
        If an input is not above zero, the larger current is not larger, or its time is not shorter.

    Notes
    -----
    Holds between the two points; stretched beyond them it is a guess.

    Examples
    --------
    A 5 Ah sealed cell: 0.25 A for 20 h, 3 A for 1 h.

    >>> round(peukert_exponent(0.25, 72000.0, 3.0, 3600.0), 4)
    1.2056

    References
    ----------
    .. [1] sealed_cell_sheet, 20 h and 1 h points
    """
    require_positive(slow_A=slow_A, slow_time_s=slow_time_s, fast_A=fast_A, fast_time_s=fast_time_s)
    if fast_A <= slow_A:
        raise OutOfRange("fast_A", fast_A, "must be above the smaller current")
    if fast_time_s >= slow_time_s:
        raise OutOfRange("fast_time_s", fast_time_s, "must be shorter than the time at the smaller current")
    return math.log(slow_time_s / fast_time_s) / math.log(fast_A / slow_A)


@calculation(
    "battery",
    "Q = 25 A · t",
    gives="charge_C",
    symbols={"reserve_time_s": "t", "charge_C": "Q"},
)
def reserve_capacity_charge(reserve_time_s: float) -> float:
    """Charge behind a reserve-capacity rating.

    Q = 25 A · t, down to 10.5 V at 80 °F.

    Parameters
    ----------
    reserve_time_s : float
        Reserve capacity printed on the battery, usually in minutes [s].

    Returns
    -------
    float
        Charge given at 25 A [C].

    Raises
    ------
    OutOfRange
        If the time is not above zero.

    Notes
    -----
    At 25 A. The 20 h capacity is larger; pump and winch currents give less.

    Examples
    --------
    120 minutes is 50 Ah.

    >>> reserve_capacity_charge(7200.0) / 3600
    50.0

    References
    ----------
    .. [1] battery_ratings, definition of reserve capacity
    """
    require_positive(reserve_time_s=reserve_time_s)
    return RESERVE_CURRENT_A * reserve_time_s
