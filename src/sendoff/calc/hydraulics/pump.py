"""Pump and motor: power, current from the battery, torque, and the relief valve."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive


@calculation(
    "hydraulics",
    "P = p Q / η",
    gives="power_W",
    symbols={"pressure_Pa": "p", "flow_m3ps": "Q", "pump_efficiency_ratio": "η", "power_W": "P"},
)
def hydraulic_power(pressure_Pa: float, flow_m3ps: float, pump_efficiency_ratio: float = 1.0) -> float:
    """Power a pump takes at a pressure and flow.

    P = p Q/η, the gpm times psi over 1,714 of the trade.

    Parameters
    ----------
    pressure_Pa : float
        Pressure [Pa].
    flow_m3ps : float
        Flow [m3/s].
    pump_efficiency_ratio : float
        Efficiency of the pump, 1 for the power in the oil itself [-].

    Returns
    -------
    float
        Power at the pump's shaft [W].

    Raises
    ------
    OutOfRange
        If pressure or flow is below zero or the efficiency outside 10 to 100 %.

    Notes
    -----
    Steady running.

    Examples
    --------
    1,714 psi at 1 gpm is 1 hp.

    >>> from sendoff.units import from_si, to_si
    >>> power = hydraulic_power(to_si(1714, "psi", "pressure"), to_si(1, "gpm", "flow"))
    >>> round(from_si(power, "hp", "power"), 3)
    1.0

    References
    ----------
    .. [1] fluid_power_sheet, hp = gpm psi / 1714
    """
    require_not_negative(pressure_Pa=pressure_Pa, flow_m3ps=flow_m3ps)
    require_between(0.1, 1.0, pump_efficiency_ratio=pump_efficiency_ratio)
    return pressure_Pa * flow_m3ps / pump_efficiency_ratio


@calculation(
    "hydraulics",
    "I = p Q / (ηp ηm U)",
    gives="current_A",
    symbols={
        "pressure_Pa": "p",
        "flow_m3ps": "Q",
        "pump_efficiency_ratio": "ηp",
        "motor_efficiency_ratio": "ηm",
        "supply_V": "U",
        "current_A": "I",
    },
)
def pump_motor_current(
    pressure_Pa: float,
    flow_m3ps: float,
    supply_V: float = 12.0,
    pump_efficiency_ratio: float = 0.8,
    motor_efficiency_ratio: float = 0.75,
) -> float:
    """Current a battery-driven pump motor draws.

    I = p Q/(ηp ηm U).

    Parameters
    ----------
    pressure_Pa : float
        Working pressure [Pa].
    flow_m3ps : float
        Flow [m3/s].
    supply_V : float
        Voltage at the motor, 12 V if not given [V].
    pump_efficiency_ratio : float
        Efficiency of the pump [-].
    motor_efficiency_ratio : float
        Efficiency of the motor [-].

    Returns
    -------
    float
        Current [A].

    Raises
    ------
    OutOfRange
        If pressure or flow is below zero, the voltage not above zero, or an efficiency outside 10 to 100 %.

    Notes
    -----
    Steady running; starting takes several times as much for a moment.

    Examples
    --------
    2,500 psi at 1.3 gpm, 80 % and 75 %, 12 V: 196.5 A.

    >>> from sendoff.units import to_si
    >>> round(pump_motor_current(to_si(2500, "psi", "pressure"), to_si(1.3, "gpm", "flow")))
    196

    References
    ----------
    .. [1] fluid_power_sheet, hp 746 / (V eff)
    """
    require_positive(supply_V=supply_V)
    require_between(0.1, 1.0, motor_efficiency_ratio=motor_efficiency_ratio)
    shaft_W = hydraulic_power(pressure_Pa, flow_m3ps, pump_efficiency_ratio)
    return shaft_W / (motor_efficiency_ratio * supply_V)


@calculation(
    "hydraulics",
    "T = p V / (2 π)",
    gives="torque_Nm",
    symbols={"pressure_Pa": "p", "displacement_m3": "V", "torque_Nm": "T"},
)
def hydraulic_motor_torque(pressure_Pa: float, displacement_m3: float) -> float:
    """Torque of a hydraulic motor, or the torque a pump needs, without losses.

    T = p V/(2 π), V the displacement a turn.

    Parameters
    ----------
    pressure_Pa : float
        Pressure across it [Pa].
    displacement_m3 : float
        Displacement of one turn [m3].

    Returns
    -------
    float
        Torque [N m].

    Raises
    ------
    OutOfRange
        If pressure or displacement is below zero.

    Notes
    -----
    No losses. The trade's 36.77 gpm psi/rpm in lbf in is the same.

    Examples
    --------
    1 psi and 231 in³ a turn: 36.76 lbf in.

    >>> from sendoff.units import from_si, to_si
    >>> torque = hydraulic_motor_torque(to_si(1, "psi", "pressure"), to_si(231, "in3", "volume"))
    >>> round(from_si(torque, "lbf·in", "torque"), 2)
    36.76

    References
    ----------
    .. [1] fluid_power_sheet, 36.77 gpm psi / rpm
    """
    require_not_negative(pressure_Pa=pressure_Pa, displacement_m3=displacement_m3)
    return pressure_Pa * displacement_m3 / (2 * math.pi)


@dataclass(frozen=True, slots=True)
class ReliefCheck:
    """Working pressure held against the relief valve."""

    used_ratio: float
    margin_Pa: float
    verdict: Literal["lifts", "close to relief", "will not lift"]
    meaning: str


@calculation(
    "hydraulics",
    "share = p work / p relief",
    symbols={"working_Pa": "p work", "relief_Pa": "p relief", "used_ratio": "share"},
)
def relief_check(working_Pa: float, relief_Pa: float) -> ReliefCheck:
    """Whether a load can be lifted under the relief setting.

    The pressure the load asks for is held against the relief valve; above 90 % it is close.

    Parameters
    ----------
    working_Pa : float
        Pressure the load asks for [Pa].
    relief_Pa : float
        Setting of the relief valve, from the unit's card [Pa].

    Returns
    -------
    ReliefCheck
        Share, margin, verdict, meaning.

    Raises
    ------
    OutOfRange
        If the working pressure is below zero or the relief not above zero.

    Notes
    -----
    The valve is sealed by its maker and not turned: a load that will not lift is too heavy or sits wrong.

    Examples
    --------
    >>> relief_check(16e6, 17e6).verdict
    'close to relief'

    References
    ----------
    .. [1] house_rule, close above nine tenths
    """
    require_not_negative(working_Pa=working_Pa)
    require_positive(relief_Pa=relief_Pa)
    share = working_Pa / relief_Pa
    margin_Pa = relief_Pa - working_Pa
    if share > 1:
        return ReliefCheck(
            share, margin_Pa, "will not lift", "Too heavy or too far out. Never turn the relief valve."
        )
    if share > 0.9:
        return ReliefCheck(
            share, margin_Pa, "close to relief", "Lifts, with little to spare when oil is cold or hot."
        )
    return ReliefCheck(share, margin_Pa, "lifts", "Lifts.")


@calculation(
    "hydraulics",
    "Q = V n ηv",
    gives="flow_m3ps",
    symbols={
        "displacement_m3": "V",
        "pump_rps": "n",
        "volumetric_efficiency_ratio": "ηv",
        "flow_m3ps": "Q",
    },
)
def pump_flow(displacement_m3: float, pump_rps: float, volumetric_efficiency_ratio: float = 1.0) -> float:
    """Flow of a pump from its displacement and speed.

    Q = V n ηv, the cubic inches times rpm over 231 of the trade.

    Parameters
    ----------
    displacement_m3 : float
        Oil moved by one turn [m3].
    pump_rps : float
        Speed of the shaft [rev/s].
    volumetric_efficiency_ratio : float
        Share that does not leak back inside the pump, 1 for a new pump without leakage [-].

    Returns
    -------
    float
        Flow [m3/s].

    Raises
    ------
    OutOfRange
        If the displacement is not above zero, the speed below zero or the efficiency outside 10 to 100 %.

    Notes
    -----
    Steady running. Thin hot oil leaks back more, and a low battery turns the motor slower.

    Examples
    --------
    231 in³ a turn at 1 rpm is 1 gpm.

    >>> from sendoff.units import from_si, to_si
    >>> round(from_si(pump_flow(to_si(231, "in3", "volume"), to_si(1, "rpm", "rotation")), "gpm", "flow"), 6)
    1.0

    References
    ----------
    .. [1] fluid_power_sheet, gpm = in³ rpm / 231
    """
    require_positive(displacement_m3=displacement_m3)
    require_not_negative(pump_rps=pump_rps)
    require_between(0.1, 1.0, volumetric_efficiency_ratio=volumetric_efficiency_ratio)
    return displacement_m3 * pump_rps * volumetric_efficiency_ratio


@calculation(
    "hydraulics",
    "T = P / (2 π n)",
    gives="torque_Nm",
    symbols={"power_W": "P", "shaft_rps": "n", "torque_Nm": "T"},
)
def shaft_torque(power_W: float, shaft_rps: float) -> float:
    """Torque in a shaft from its power and speed.

    T = P/(2 π n), the 63,025 hp/rpm of the trade in lbf in.

    Parameters
    ----------
    power_W : float
        Power the shaft passes on [W].
    shaft_rps : float
        Speed of the shaft [rev/s].

    Returns
    -------
    float
        Torque [N m].

    Raises
    ------
    OutOfRange
        If the power is below zero or the speed not above zero.

    Notes
    -----
    Steady running; starting takes more for a moment.

    Examples
    --------
    1 hp at 1 rpm: 63,025 lbf in.

    >>> from sendoff.units import from_si, to_si
    >>> round(from_si(shaft_torque(to_si(1, "hp", "power"), to_si(1, "rpm", "rotation")), "lbf·in", "torque"))
    63025

    References
    ----------
    .. [1] fluid_power_sheet, torque = 63,025 hp / rpm
    """
    require_not_negative(power_W=power_W)
    require_positive(shaft_rps=shaft_rps)
    return power_W / (2 * math.pi * shaft_rps)
