"""Charging away from a socket: time on the truck's lead, a charge converter on board, a panel in the sun."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from sendoff.calc.battery.charging import BATTERY_OHM, CHARGE_EFFICIENCY, solar_charge, tow_lead_charge
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.calc.wiring import wire_resistance

CONVERTER_EFFICIENCY: Final = 0.88
DAY_s: Final = 86_400.0


@dataclass(frozen=True, slots=True)
class TowLeadTime:
    """How long the truck must run for a charge, at best."""

    current_A: float
    charges: bool
    at_best_s: float | None
    """None if nothing flows."""
    meaning: str


@calculation(
    "battery",
    "t ≥ Q / (η I), I = (Ua − Ub) / (2 L r + joints + Rb)",
    symbols={
        "charge_out_C": "Q",
        "alternator_V": "Ua",
        "battery_V": "Ub",
        "current_A": "I",
        "at_best_s": "t",
    },
)
def tow_lead_charge_time(
    charge_out_C: float,
    alternator_V: float,
    battery_V: float,
    one_way_length_m: float,
    awg: int,
    joint_ohm: float = 0.0,
    battery_ohm: float = BATTERY_OHM,
) -> TowLeadTime:
    """How long the truck must run to put back a charge through its lead, at best.

    The current of `tow_lead_charge` held all the time, with 1.2 Ah put in for each Ah drawn.

    Parameters
    ----------
    charge_out_C : float
        Charge that was drawn from the trailer's battery [C].
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
    TowLeadTime
        Current, whether it charges at all, least time, what to do.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    A lower bound: the battery's voltage rises as it fills and the current falls. A managed alternator brings nothing
    while it is lowered.

    Examples
    --------
    20 Ah through 40 ft of number 12 at 14.2 V: over three hours of driving. At 12.5 V: never.

    >>> round(tow_lead_charge_time(20 * 3600.0, 14.2, 13.0, 40 * 0.3048, 12).at_best_s / 3600, 1)
    3.4
    >>> tow_lead_charge_time(20 * 3600.0, 12.5, 13.0, 40 * 0.3048, 12).charges
    False

    References
    ----------
    .. [1] electricity, Ohm's law
    .. [2] charging_notes, factor 1.2
    .. [3] alternator_pages, lowered voltage
    """
    require_positive(charge_out_C=charge_out_C)
    lead = tow_lead_charge(alternator_V, battery_V, one_way_length_m, awg, joint_ohm, battery_ohm)
    if not lead.charges:
        return TowLeadTime(0.0, charges=False, at_best_s=None, meaning=lead.meaning)
    at_best_s = charge_out_C / (CHARGE_EFFICIENCY * lead.current_A)
    return TowLeadTime(
        lead.current_A,
        charges=True,
        at_best_s=at_best_s,
        meaning="At best: the current falls as the battery fills.",
    )


@dataclass(frozen=True, slots=True)
class ChargeConverter:
    """What a charge converter takes from the truck's lead for what it gives the battery."""

    input_A: float | None
    """None if the lead cannot carry the power."""
    input_V: float | None
    lead_drop_V: float | None
    most_output_A: float
    """Greatest charge current the lead could feed at all."""
    works: bool
    meaning: str


@calculation(
    "battery",
    "U1 I1 = U2 I2 / η, U1 = Ua − R I1, so I1 = (Ua − √(Ua² − 4 R P)) / (2 R)",
    symbols={
        "alternator_V": "Ua", "output_A": "I2", "output_V": "U2", "efficiency_ratio": "η", "input_A": "I1",
        "input_V": "U1",
    },
)  # fmt: skip
def charge_converter(
    alternator_V: float,
    output_A: float,
    one_way_length_m: float,
    awg: int,
    output_V: float = 14.4,
    efficiency_ratio: float = CONVERTER_EFFICIENCY,
    least_input_V: float = 10.5,
    joint_ohm: float = 0.0,
) -> ChargeConverter:
    """What a charge converter (DC to DC) draws through the truck's lead to charge the trailer's battery.

    It asks for P = U2 I2/η whatever its input voltage; the lead's resistance R lowers that voltage, so
    I1 = (Ua − √(Ua² − 4 R P))/(2 R).

    Parameters
    ----------
    alternator_V : float
        Voltage at the truck's battery, engine running; take the lowered one of a managed alternator [V].
    output_A : float
        Charge current the converter gives [A].
    one_way_length_m : float
        Lead from the truck's battery to the converter, one way [m].
    awg : int
        Gauge of the lead [-].
    output_V : float
        Charging voltage, 14.4 V if not given [V].
    efficiency_ratio : float
        Efficiency of the converter, 0.88 if not given [-].
    least_input_V : float
        Input at which it switches off, from its paper, 10.5 V if not given [V].
    joint_ohm : float
        Resistance of plug, fuse and relay together, if measured [ohm].

    Returns
    -------
    ChargeConverter
        Input current and voltage, drop in the lead, the most the lead could feed, whether it works.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    Fuse and plug must bear the input current, which is larger than the output's. Efficiency and cut-off are common
    practice without a source: the converter's paper decides.

    Examples
    --------
    20 A at 14.4 V from a lowered 12.5 V over 40 ft of number 10: the lead is too thin. 10 A works and draws 14.8 A.

    >>> charge_converter(12.5, 20.0, 40 * 0.3048, 10).works
    False
    >>> found = charge_converter(12.5, 10.0, 40 * 0.3048, 10)
    >>> found.works, round(found.input_A, 1)
    (True, 14.8)

    References
    ----------
    .. [1] electricity, power is kept but for the efficiency; Ohm's law
    .. [2] alternator_pages, lowered voltage
    .. [3] common_practice, efficiency and cut-off
    """
    require_positive(
        alternator_V=alternator_V, output_A=output_A, one_way_length_m=one_way_length_m, output_V=output_V,
        least_input_V=least_input_V,
    )  # fmt: skip
    require_between(0.1, 1.0, efficiency_ratio=efficiency_ratio)
    require_not_negative(joint_ohm=joint_ohm)
    require_between(least_input_V, 1000.0, "V", alternator_V=alternator_V)
    lead_ohm = 2 * one_way_length_m * wire_resistance(awg) + joint_ohm
    # the input may sink to half the alternator's voltage at the very most, and never under the cut-off
    lowest_V = max(least_input_V, alternator_V / 2)
    most_output_A = lowest_V * (alternator_V - lowest_V) / lead_ohm * efficiency_ratio / output_V
    power_W = output_V * output_A / efficiency_ratio
    room = alternator_V**2 - 4 * lead_ohm * power_W
    if room < 0:
        return ChargeConverter(
            input_A=None,
            input_V=None,
            lead_drop_V=None,
            most_output_A=most_output_A,
            works=False,
            meaning="The lead cannot carry that power: thicker, or a smaller one.",
        )
    input_A = 2 * power_W / (alternator_V + math.sqrt(room))
    input_V = alternator_V - lead_ohm * input_A
    works = input_V >= least_input_V
    meaning = (
        "Works. Fuse the lead for the input current."
        if works
        else "Switches off: its input sinks below its cut-off. Thicker lead, or a smaller one."
    )
    return ChargeConverter(input_A, input_V, lead_ohm * input_A, most_output_A, works, meaning)


@dataclass(frozen=True, slots=True)
class SolarRecharge:
    """How long a panel takes to put back a charge."""

    per_day_C: float
    """What stays in the battery of a day's sun, after what is drawn."""
    recharge_s: float | None
    """None if the panel never gets ahead."""
    keeps_up: bool


@calculation(
    "battery",
    "t = Q / (P t η / (1.2 U) − drawn) in days",
    symbols={"charge_out_C": "Q", "panel_W": "P", "recharge_s": "t"},
)
def solar_recharge_time(
    charge_out_C: float,
    panel_W: float,
    full_sun_s: float,
    drawn_per_day_C: float = 0.0,
    efficiency_ratio: float = 0.7,
    battery_V: float = 13.0,
) -> SolarRecharge:
    """How many days of sun a panel takes to put back what was drawn.

    Each day brings the charge of `solar_charge` over 1.2, less what is drawn that day.

    Parameters
    ----------
    charge_out_C : float
        Charge to put back [C].
    panel_W : float
        Rated power of the panel [W].
    full_sun_s : float
        Hours of full sun a day, 2 to 6 by place and season [s].
    drawn_per_day_C : float
        What a tracker, an alarm or lifts draw each day meanwhile [C].
    efficiency_ratio : float
        What arrives of the rated power: heat, dirt, flat mounting, controller [-].
    battery_V : float
        Voltage of the battery while it charges [V].

    Returns
    -------
    SolarRecharge
        Gain a day, time, whether it gets ahead at all.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    A flat panel on a parked trailer in the open. Under a roof or snow it brings nothing.

    Examples
    --------
    30 Ah by a 50 W panel with 4 h of full sun: 3.3 days.

    >>> round(solar_recharge_time(30 * 3600.0, 50.0, 4 * 3600.0).recharge_s / 86400, 1)
    3.3

    References
    ----------
    .. [1] electricity, power and charge
    .. [2] charging_notes, factor 1.2
    .. [3] common_practice, 70 percent
    """
    require_positive(charge_out_C=charge_out_C)
    require_not_negative(drawn_per_day_C=drawn_per_day_C)
    per_day_C = (
        solar_charge(panel_W, full_sun_s, efficiency_ratio, battery_V) * CHARGE_EFFICIENCY - drawn_per_day_C
    )
    if per_day_C <= charge_out_C * 1e-6:
        return SolarRecharge(per_day_C, None, keeps_up=False)
    return SolarRecharge(per_day_C, charge_out_C / per_day_C * DAY_s, keeps_up=True)
