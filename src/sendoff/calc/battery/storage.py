"""Storage: what a battery loses while it stands, and when it must be charged again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff import tables
from sendoff.calc.battery.state import REFERENCE_K
from sendoff.calc.contract import calculation, require_between, require_not_negative
from sendoff.errors import OutOfRange
from sendoff.tables import Table

DAY_s: Final = 86_400.0
RECHARGE_GRAVITY: Final = 1.225
LONGEST_s: Final = 30 * DAY_s
SEALED_LOSS_PER_MONTH: Final = 0.03
MONTH_s: Final = 30 * DAY_s


def _rate(temperature_K: float, table: Table) -> float:
    temperatures = table.column("temperature_K")
    if temperature_K <= min(temperatures):
        return float(table.at_or_above("temperature_K", temperature_K)["gravity_per_day_number"])
    if temperature_K > max(temperatures):
        raise OutOfRange("temperature_K", temperature_K, "must not be above 100 °F: no figure")
    return table.interpolate("temperature_K", temperature_K, "gravity_per_day_number")


@calculation(
    "battery",
    "SG = SG0 − rate · days",
    gives="gravity_number",
    symbols={"gravity_now_number": "SG0", "stood_s": "days", "temperature_K": "t", "gravity_number": "SG"},
    tables={"table": "battery_self_discharge"},
)
def stand_gravity(
    gravity_now_number: float, stood_s: float, temperature_K: float = REFERENCE_K, table: Table | None = None
) -> float:
    """Gravity of a wet battery after standing.

    It loses 0.001 a day at 80 °F, 0.0025 at 100 °F, 0.0003 at 50 °F.

    Parameters
    ----------
    gravity_now_number : float
        Gravity at the start, at 80 °F [-].
    stood_s : float
        Time it stands [s].
    temperature_K : float
        Temperature of the store, 80 °F if not given [K].
    table : Table
        Loss per day by temperature.

    Returns
    -------
    float
        Gravity afterwards [-].

    Raises
    ------
    OutOfRange
        If the gravity is outside 1.0 to 1.35, the time below zero or over 60 days, or it is hotter than 100 °F.

    Notes
    -----
    Wet batteries in good order with nothing connected, for the first weeks. Below 50 °F the figure of 50 °F is kept.

    Examples
    --------
    >>> round(stand_gravity(1.265, 30 * 86400.0), 3)
    1.235

    References
    ----------
    .. [1] tm_9_6140, 4-8(c)
    .. [2] tm_5_3820, storage
    """
    require_between(1.0, 1.35, gravity_now_number=gravity_now_number)
    require_not_negative(stood_s=stood_s)
    require_between(0.0, 60 * DAY_s, "s", stood_s=stood_s)
    require_between(200.0, 339.0, "K", temperature_K=temperature_K)
    return (
        gravity_now_number
        - _rate(temperature_K, table or tables.load("battery_self_discharge")) * stood_s / DAY_s
    )


@dataclass(frozen=True, slots=True)
class StorageDue:
    """When a stored battery must be charged."""

    due_in_s: float
    loss_per_day_number: float
    """Gravity lost in a day."""


@calculation(
    "battery",
    "due = min(30 days, (SG − 1.225) / rate)",
    symbols={"gravity_now_number": "SG", "temperature_K": "t"},
    tables={"table": "battery_self_discharge"},
)
def storage_recharge_due(
    gravity_now_number: float, temperature_K: float = REFERENCE_K, table: Table | None = None
) -> StorageDue:
    """When a stored wet battery must be charged again.

    At 1.225, and looked at every 30 days, whichever comes first.

    Parameters
    ----------
    gravity_now_number : float
        Gravity now, at 80 °F [-].
    temperature_K : float
        Temperature of the store, 80 °F if not given [K].
    table : Table
        Loss per day by temperature.

    Returns
    -------
    StorageDue
        Time until due (zero if due now) and loss per day.

    Raises
    ------
    OutOfRange
        If the gravity is outside 1.0 to 1.35 or it is hotter than 100 °F.

    Notes
    -----
    Wet batteries with nothing connected. A tracker or alarm draws more than the battery loses by itself.

    Examples
    --------
    >>> storage_recharge_due(1.265).due_in_s / 86400
    30.0
    >>> round(storage_recharge_due(1.235).due_in_s / 86400)
    10

    References
    ----------
    .. [1] tm_5_3820, storage instructions
    """
    require_between(1.0, 1.35, gravity_now_number=gravity_now_number)
    require_between(200.0, 339.0, "K", temperature_K=temperature_K)
    rate = _rate(temperature_K, table or tables.load("battery_self_discharge"))
    days = max(0.0, (gravity_now_number - RECHARGE_GRAVITY) / rate)
    return StorageDue(min(LONGEST_s, days * DAY_s), rate)


@calculation(
    "battery",
    "q = q0 − 3 % · months",
    gives="charge_left_ratio",
    symbols={"charge_ratio": "q0", "stood_s": "months", "charge_left_ratio": "q"},
)
def sealed_stand_charge(
    charge_ratio: float, stood_s: float, loss_per_month_ratio: float = SEALED_LOSS_PER_MONTH
) -> float:
    """Charge of a sealed battery after standing at 20 °C.

    It loses 3 % of its capacity in a month of 30 days.

    Parameters
    ----------
    charge_ratio : float
        State of charge at the start [-].
    stood_s : float
        Time it stands [s].
    loss_per_month_ratio : float
        Loss in 30 days, from its data sheet [-].

    Returns
    -------
    float
        State of charge afterwards, not below zero [-].

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 100 % or the time below zero.

    Notes
    -----
    Sealed cells at 20 °C with nothing connected; warmer is faster.

    Examples
    --------
    >>> round(sealed_stand_charge(1.0, 90 * 86400.0), 2)
    0.91

    References
    ----------
    .. [1] sealed_cell_sheet, stand loss
    """
    require_between(0.0, 1.0, charge_ratio=charge_ratio, loss_per_month_ratio=loss_per_month_ratio)
    require_not_negative(stood_s=stood_s)
    return max(0.0, charge_ratio - loss_per_month_ratio * stood_s / MONTH_s)
