"""Charging: how long a charger takes, and what tow lead, alternator and solar panel really bring."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.calc.wiring import wire_resistance

CHARGE_EFFICIENCY: Final = 1 / 1.2
FLOAT_TIME_s: Final = 3 * 3600.0
NIGHT_s: Final = 12 * 3600.0
BATTERY_OHM: Final = 0.01


@dataclass(frozen=True, slots=True)
class RechargeTime:
    """How long a charger takes."""

    bulk_s: float
    """To about 90 %, at the charger's full current."""
    full_s: float
    """To 100 %, with 3 h of float behind it."""


@calculation(
    "battery",
    "t = Q / (η I); full 3 h later",
    symbols={"charge_out_C": "Q", "charger_A": "I", "efficiency_ratio": "η", "bulk_s": "t"},
)
def recharge_time(
    charge_out_C: float, charger_A: float, efficiency_ratio: float = CHARGE_EFFICIENCY
) -> RechargeTime:
    """How long a charger takes to put back what was drawn.

    t = Q/(η I), that is 1.2 Ah for each Ah drawn if no efficiency is given; the last tenth takes 3 h of float more.

    Parameters
    ----------
    charge_out_C : float
        Charge that was drawn [C].
    charger_A : float
        Charger's current [A].
    efficiency_ratio : float
        Share of the charge put in that stays, 1/1.2 if not given [-].

    Returns
    -------
    RechargeTime
        Time to about 90 % and to full.

    Raises
    ------
    OutOfRange
        If charge is below zero, current not above zero, or efficiency outside 50 to 100 %.

    Notes
    -----
    Lead batteries; the charger holds its current to about 90 %. Nothing else drawing meanwhile.

    Examples
    --------
    7 Ah at 0.7 A takes 12 h; 100 Ah at 10 A and 80 % takes 12.5 h.

    >>> round(recharge_time(7 * 3600.0, 0.7).bulk_s / 3600, 2)
    12.0
    >>> round(recharge_time(100 * 3600.0, 10.0, 0.8).bulk_s / 3600, 2)
    12.5

    References
    ----------
    .. [1] charging_notes, both examples
    """
    require_not_negative(charge_out_C=charge_out_C)
    require_positive(charger_A=charger_A)
    require_between(0.5, 1.0, efficiency_ratio=efficiency_ratio)
    bulk_s = charge_out_C / (efficiency_ratio * charger_A)
    return RechargeTime(bulk_s, bulk_s + (FLOAT_TIME_s if charge_out_C > 0 else 0.0))


@dataclass(frozen=True, slots=True)
class Overnight:
    """Whether a night on the charger is enough."""

    needed_s: float
    enough: bool
    charge_after_ratio: float
    """State of charge when the night is over, at most the 90 % a charger reaches at full current, or full."""
    short_C: float
    """Charge still missing."""


@calculation(
    "battery",
    "needed t = 1.2 C (1 − q) / I against the night",
    symbols={"capacity_C": "C", "charge_ratio": "q", "charger_A": "I", "needed_s": "t"},
)
def overnight_charge(
    capacity_C: float, charge_ratio: float, charger_A: float = 5.0, night_s: float = NIGHT_s
) -> Overnight:
    """Whether an on-board charger refills the battery overnight.

    t = 1.2 C (1 − q)/I: 5 A refills a half-empty 100 Ah battery in 12 h, one four fifths down in 19 h.

    Parameters
    ----------
    capacity_C : float
        Rated capacity [C].
    charge_ratio : float
        State of charge when plugged in [-].
    charger_A : float
        Charger's current, 5 A if not given [A].
    night_s : float
        Time on the charger, 12 h if not given [s].

    Returns
    -------
    Overnight
        Time needed, enough or not, state after the night, charge still missing.

    Raises
    ------
    OutOfRange
        If capacity or current is not above zero, the charge outside 0 to 100 %, or the night below zero.

    Notes
    -----
    Nothing else drawing. The honest answer for a small charger: overnight only if no more than half is out.

    Examples
    --------
    >>> overnight_charge(100 * 3600.0, 0.5).enough, overnight_charge(100 * 3600.0, 0.2).enough
    (True, False)

    References
    ----------
    .. [1] charging_notes, factor 1.2
    """
    require_positive(capacity_C=capacity_C, charger_A=charger_A)
    require_between(0.0, 1.0, charge_ratio=charge_ratio)
    require_not_negative(night_s=night_s)
    out_C = capacity_C * (1 - charge_ratio)
    needed_s = recharge_time(out_C, charger_A).bulk_s
    put_in_C = min(out_C, charger_A * night_s * CHARGE_EFFICIENCY)
    enough = needed_s <= night_s * (1 + 1e-12)
    return Overnight(
        needed_s, enough, charge_ratio + put_in_C / capacity_C, 0.0 if enough else out_C - put_in_C
    )


@dataclass(frozen=True, slots=True)
class TowLead:
    """What the charge lead of a truck brings to the trailer's battery."""

    current_A: float
    lead_ohm: float
    charges: bool
    meaning: str


@calculation(
    "battery",
    "I = (Ua − Ub) / (2 L r + joints + Rb), not below zero",
    symbols={
        "alternator_V": "Ua",
        "battery_V": "Ub",
        "one_way_length_m": "L",
        "battery_ohm": "Rb",
        "current_A": "I",
    },
)
def tow_lead_charge(
    alternator_V: float,
    battery_V: float,
    one_way_length_m: float,
    awg: int,
    joint_ohm: float = 0.0,
    battery_ohm: float = BATTERY_OHM,
) -> TowLead:
    """Current a truck's charge lead brings to a trailer battery.

    I = (Ua − Ub)/(2 L r + joints + Rb); nothing flows if the alternator is not above the battery.

    Parameters
    ----------
    alternator_V : float
        Voltage at the truck's battery, engine running [V].
    battery_V : float
        Voltage of the trailer's battery while it takes charge, about 13 V half full [V].
    one_way_length_m : float
        Lead from truck battery to trailer battery, one way [m].
    awg : int
        Gauge of the lead [-].
    joint_ohm : float
        Resistance of plug, fuse and relay together, if measured [ohm].
    battery_ohm : float
        Inner resistance of the trailer battery, 0.01 ohm if not given [ohm].

    Returns
    -------
    TowLead
        Current, resistance, whether it charges at all, and what to do.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    Current at that moment; it falls as the battery fills. Many trucks ship with the fuse or relay missing: measure.

    Examples
    --------
    A smart alternator at 12.6 V brings nothing; 14.2 V over 40 ft of 12 AWG brings 7 A.

    >>> tow_lead_charge(12.6, 13.0, 40 * 0.3048, 12).charges
    False
    >>> round(tow_lead_charge(14.2, 13.0, 40 * 0.3048, 12).current_A, 1)
    7.1

    References
    ----------
    .. [1] electricity, Ohm's law
    .. [2] alternator_pages, lowered voltage
    """
    require_positive(
        alternator_V=alternator_V,
        battery_V=battery_V,
        one_way_length_m=one_way_length_m,
        battery_ohm=battery_ohm,
    )
    require_not_negative(joint_ohm=joint_ohm)
    lead_ohm = 2 * one_way_length_m * wire_resistance(awg) + joint_ohm
    current_A = max(0.0, (alternator_V - battery_V) / (lead_ohm + battery_ohm))
    meaning = (
        "Charges while the engine runs, less as the battery fills."
        if current_A > 0
        else "Charges nothing. A charger on board (DC to DC) or a thicker lead is needed."
    )
    return TowLead(current_A, lead_ohm, current_A > 0, meaning)


@dataclass(frozen=True, slots=True)
class AlternatorState:
    """What a reading at the running truck means for the trailer's battery."""

    state: Literal["lowered", "between", "ordinary", "burst"]
    split_relay: Literal["open", "may close", "closed"]
    meaning: str


@calculation(
    "battery", "ordinary 13.8 to 14.4 V, lowered 12.5 V and below, bursts to 17 V", symbols={"running_V": "U"}
)
def alternator_state(running_V: float) -> AlternatorState:
    """What the truck's voltage with the engine running means for charging the trailer.

    13.8 to 14.4 V is ordinary; an engine-managed alternator drops to 12.5 V and below, and bursts toward 17 V.

    Parameters
    ----------
    running_V : float
        Voltage at the truck's battery, engine running [V].

    Returns
    -------
    AlternatorState
        State, what a split-charge relay does, and what to do.

    Raises
    ------
    OutOfRange
        If the voltage is outside 9 to 18 V.

    Notes
    -----
    12 V trucks. Read it again after some minutes of driving: a managed alternator changes its mind.

    Examples
    --------
    >>> alternator_state(12.4).state, alternator_state(14.2).state
    ('lowered', 'ordinary')

    References
    ----------
    .. [1] alternator_pages, bands and relay voltages
    """
    require_between(9.0, 18.0, "V", running_V=running_V)
    relay: Literal["open", "may close", "closed"] = (
        "open" if running_V < 13.0 else "may close" if running_V < 13.8 else "closed"
    )
    if running_V <= 12.5:
        return AlternatorState("lowered", relay, "The trailer battery gets nothing. Fit a DC to DC charger.")
    if running_V < 13.8:
        return AlternatorState(
            "between", relay, "Little or nothing gets through a long lead. Measure at the battery."
        )
    if running_V <= 14.4:
        return AlternatorState("ordinary", relay, "Charges as far as the lead lets it.")
    return AlternatorState("burst", relay, "Braking charge of a managed alternator: it will not last.")


@calculation(
    "battery",
    "Q = P t η / U",
    gives="charge_C",
    symbols={"panel_W": "P", "full_sun_s": "t", "efficiency_ratio": "η", "battery_V": "U", "charge_C": "Q"},
)
def solar_charge(
    panel_W: float, full_sun_s: float, efficiency_ratio: float = 0.7, battery_V: float = 13.0
) -> float:
    """Charge a solar panel puts back in a day.

    Q = P t η/U, with t the day's hours of full sun.

    Parameters
    ----------
    panel_W : float
        Rated power of the panel [W].
    full_sun_s : float
        Hours of full sun that day, 2 to 6 by place and season [s].
    efficiency_ratio : float
        What arrives of the rated power: heat, dirt, flat mounting, controller [-].
    battery_V : float
        Voltage of the battery while it charges [V].

    Returns
    -------
    float
        Charge put in that day [C].

    Raises
    ------
    OutOfRange
        If an input is not above zero, the sun longer than a day, or the efficiency above 100 %.

    Notes
    -----
    A flat panel on a parked trailer in the open. The efficiency is common practice, no source.

    Examples
    --------
    A 20 W panel, 4 h: 4.3 Ah.

    >>> round(solar_charge(20.0, 4 * 3600.0) / 3600, 1)
    4.3

    References
    ----------
    .. [1] electricity, power and charge
    .. [2] common_practice, 70 percent
    """
    require_positive(
        panel_W=panel_W, full_sun_s=full_sun_s, efficiency_ratio=efficiency_ratio, battery_V=battery_V
    )
    require_between(0.0, 86_400.0, "s", full_sun_s=full_sun_s)
    require_between(0.0, 1.0, efficiency_ratio=efficiency_ratio)
    return panel_W * full_sun_s * efficiency_ratio / battery_V
