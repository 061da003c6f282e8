"""What a breakaway switch left pulled costs, how long recovery takes, and who asks for a breakaway brake."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sendoff import tables
from sendoff.calc.battery import recharge_time
from sendoff.calc.brakes.electric import MAGNET_OHM, require_magnets
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@dataclass(frozen=True, slots=True)
class LeftPulled:
    """What a switch left pulled does to its battery."""

    current_A: float
    wanted_C: float
    """What the magnets would draw over that time."""
    taken_C: float
    """What the battery could give of it."""
    left_ratio: float
    flat_after_s: float
    """Longest it could last, all of its rated charge at that current."""


@calculation(
    "breakaway",
    "Q = n U / R · t, at most C · q",
    symbols={
        "capacity_C": "C",
        "charge_ratio": "q",
        "magnet_count": "n",
        "supply_V": "U",
        "magnet_ohm": "R",
        "pulled_s": "t",
        "wanted_C": "Q",
    },
)
def breakaway_left_pulled(
    capacity_C: float,
    magnet_count: int,
    pulled_s: float,
    charge_ratio: float = 1.0,
    supply_V: float = 12.0,
    magnet_ohm: float = MAGNET_OHM,
) -> LeftPulled:
    """What a breakaway switch left pulled takes from its battery.

    Q = n U/R · t, as long as the battery can give it: two magnets want 98 Ah in a night.

    Parameters
    ----------
    capacity_C : float
        Rated capacity of the battery on the switch [C].
    magnet_count : int
        Number of magnets [-].
    pulled_s : float
        How long the breakaway pin was out [s].
    charge_ratio : float
        State of charge before [-].
    supply_V : float
        Mean voltage [V].
    magnet_ohm : float
        Resistance of one magnet [ohm].

    Returns
    -------
    LeftPulled
        Current, charge wanted and taken, what is left, and when it is flat at the latest.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    An upper figure for the time: at these currents a small battery gives less than its rating. A flat lead battery
    left flat is spoiled. The switch is no parking brake and no theft guard.

    Examples
    --------
    A 5 Ah battery and two magnets overnight: flat in 40 minutes at the latest.

    >>> found = breakaway_left_pulled(18000.0, 2, 12 * 3600.0)
    >>> round(found.wanted_C / 3600), found.left_ratio, round(found.flat_after_s / 60)
    (90, 0.0, 40)

    References
    ----------
    .. [1] electricity, charge is current times time
    .. [2] common_practice, left out overnight
    """
    require_positive(capacity_C=capacity_C, supply_V=supply_V, magnet_ohm=magnet_ohm)
    require_not_negative(pulled_s=pulled_s)
    require_between(0.0, 1.0, charge_ratio=charge_ratio)
    require_magnets(magnet_count=magnet_count)
    current_A = magnet_count * supply_V / magnet_ohm
    held_C = capacity_C * charge_ratio
    wanted_C = current_A * pulled_s
    taken_C = min(wanted_C, held_C)
    return LeftPulled(current_A, wanted_C, taken_C, (held_C - taken_C) / capacity_C, held_C / current_A)


@calculation(
    "breakaway",
    "t = 1.2 Q / I for each source",
    gives="recovery_s",
    symbols={"charge_out_C": "Q", "source_A": "I", "recovery_s": "t"},
)
def breakaway_recovery(charge_out_C: float, source_A: tuple[float, ...]) -> tuple[float, ...]:
    """How long each charging source on board takes to bring the breakaway battery back to about 90 %.

    t = 1.2 Q/I for each source by itself.

    Parameters
    ----------
    charge_out_C : float
        Charge that was taken [C].
    source_A : tuple of float
        Current of each source: charger, tow lead, solar panel [A].

    Returns
    -------
    tuple of float
        Time for each source, in the order given [s].

    Raises
    ------
    OutOfRange
        If no source is given, a current is not above zero, or the charge below zero.

    Notes
    -----
    To about 90 %; full is three hours later. A battery that lay flat may never come back.

    Examples
    --------
    5 Ah back at 0.7 A and at 2 A.

    >>> [round(time_s / 3600, 1) for time_s in breakaway_recovery(18000.0, (0.7, 2.0))]
    [8.6, 3.0]

    References
    ----------
    .. [1] charging_notes, factor 1.2
    """
    if not source_A:
        raise OutOfRange("source_A", "nothing", "must name at least one source")
    for current_A in source_A:
        require_positive(source_A=current_A)
    return tuple(recharge_time(charge_out_C, current_A).bulk_s for current_A in source_A)


@dataclass(frozen=True, slots=True)
class BreakawayRule:
    """What a jurisdiction asks."""

    required: bool
    over_kg: float
    hold_s: float
    remark: str


@calculation(
    "breakaway",
    "required if gross mass > threshold of the jurisdiction",
    symbols={"gross_mass_kg": "m"},
    tables={"table": "breakaway_rules"},
)
def breakaway_rule(
    gross_mass_kg: float,
    jurisdiction: Literal["federal", "south_dakota", "district_of_columbia", "texas"] = "federal",
    table: Table | None = None,
) -> BreakawayRule:
    """Whether a trailer of this weight must brake itself when it breaks away, and how long.

    Required above the jurisdiction's gross weight; it must hold 15 minutes.

    Parameters
    ----------
    gross_mass_kg : float
        Gross weight of the trailer [kg].
    jurisdiction : {"federal", "south_dakota", "district_of_columbia", "texas"}
        Whose rule.
    table : Table
        Thresholds by jurisdiction.

    Returns
    -------
    BreakawayRule
        Required or not by weight alone, threshold, time, remark.

    Raises
    ------
    OutOfRange
        If the weight is not above zero or the table has no such jurisdiction.

    Notes
    -----
    Weight alone. Below it brakes may be asked for other reasons; other states differ: ask locally.

    Examples
    --------
    >>> breakaway_rule(1360.0).required, breakaway_rule(1361.0).required
    (False, True)

    References
    ----------
    .. [1] 49cfr393, 393.43(d)
    .. [2] sd_32_18_17, 32-18-17
    .. [3] tx_547, summary
    """
    require_positive(gross_mass_kg=gross_mass_kg)
    row = (table or tables.load("breakaway_rules")).row(jurisdiction=jurisdiction)
    over = gross_mass_kg > float(row["over_kg"]) * (1 + 1e-12)
    return BreakawayRule(over, row["over_kg"], row["hold_s"], row["remark"])
