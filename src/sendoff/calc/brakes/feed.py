"""The feed of electric brakes: what is left of the voltage at the magnets, down to the last axle."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Final

from sendoff import tables
from sendoff.calc.brakes.electric import MAGNET_OHM, require_magnets
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.calc.wiring import wire_resistance
from sendoff.errors import OutOfRange

GAUGES: Final = (12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3)
"""Gauges tried for a brake feed, thinnest first; 12 is the usual least."""


@dataclass(frozen=True, slots=True)
class BrakeFeed:
    """What arrives at the magnets."""

    loop_ohm: float
    magnets_ohm: float
    current_A: float
    drop_V: float
    at_magnets_V: float
    drop_ratio: float
    within_3_percent: bool
    within_10_percent: bool


@calculation(
    "brakes",
    "I = U / (2 L r + R/n), U at magnets = I R/n",
    symbols={
        "supply_V": "U",
        "one_way_length_m": "L",
        "awg": "gauge",
        "magnet_count": "n",
        "magnet_ohm": "R",
        "current_A": "I",
    },
)
def brake_feed(
    supply_V: float,
    one_way_length_m: float,
    awg: int,
    magnet_count: int,
    magnet_ohm: float = MAGNET_OHM,
    joint_ohm: float = 0.0,
) -> BrakeFeed:
    """Voltage left at the brake magnets after truck and trailer wire.

    I = U/(2 L r + joints + R/n): the magnets are a resistance, so a long thin feed starves them and current falls.

    Parameters
    ----------
    supply_V : float
        Voltage the controller gives, full on [V].
    one_way_length_m : float
        Wire from the controller to the magnets, truck and trailer together, one way [m].
    awg : int
        Gauge of feed and return; 1/0 to 4/0 are written 0, -1, -2, -3 [-].
    magnet_count : int
        Number of magnets [-].
    magnet_ohm : float
        Resistance of one magnet [ohm].
    joint_ohm : float
        Resistance of plug and joints together, if measured [ohm].

    Returns
    -------
    BrakeFeed
        Resistances, current, voltage lost and left, and whether 3 and 10 percent are kept.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    All magnets at the far end: the true first axle gets a little more (`brake_feed_by_axle`). Copper at 75 °C.

    Examples
    --------
    Six magnets over 60 ft of number 10: 9.8 V of 12.5 arrive, as worked by hand.

    >>> found = brake_feed(12.5, 60 * 0.3048, 10, 6)
    >>> round(found.at_magnets_V, 1), round(found.current_A, 1), found.within_10_percent
    (9.8, 18.3, False)

    References
    ----------
    .. [1] electricity, Ohm's law
    .. [2] nec_ch9_t8, chapter 9, table 8
    """
    require_positive(supply_V=supply_V, one_way_length_m=one_way_length_m, magnet_ohm=magnet_ohm)
    require_not_negative(joint_ohm=joint_ohm)
    require_magnets(magnet_count=magnet_count)
    loop_ohm = 2 * one_way_length_m * wire_resistance(awg) + joint_ohm
    magnets_ohm = magnet_ohm / magnet_count
    current_A = supply_V / (loop_ohm + magnets_ohm)
    left_V = current_A * magnets_ohm
    drop_V = supply_V - left_V
    share = drop_V / supply_V
    return BrakeFeed(loop_ohm, magnets_ohm, current_A, drop_V, left_V, share, share <= 0.03, share <= 0.10)


@dataclass(frozen=True, slots=True)
class AxleFeed:
    """Voltage at each braked axle, first to last."""

    at_axle_V: tuple[float, ...]
    last_axle_V: float
    current_A: float
    last_axle_drop_ratio: float


@calculation(
    "brakes",
    "ladder: each run of wire carries the current of all axles behind it",
    symbols={"supply_V": "U", "magnet_ohm": "R", "current_A": "I"},
)
def brake_feed_by_axle(
    supply_V: float,
    to_first_axle_m: float,
    between_axles_m: float,
    axle_count: int,
    awg: int,
    magnet_ohm: float = MAGNET_OHM,
) -> AxleFeed:
    """Voltage at each braked axle along one feed, two magnets an axle.

    A ladder: from the last axle forward, wire in series and the axle's two magnets beside it; then back again.

    Parameters
    ----------
    supply_V : float
        Voltage the controller gives, full on [V].
    to_first_axle_m : float
        Wire from the controller to the first axle, one way [m].
    between_axles_m : float
        Wire from axle to axle, one way [m].
    axle_count : int
        Braked axles [-].
    awg : int
        Gauge of feed and return [-].
    magnet_ohm : float
        Resistance of one magnet [ohm].

    Returns
    -------
    AxleFeed
        Voltage at each axle, at the last one, total current, share lost to the last.

    Raises
    ------
    OutOfRange
        If an input is out of its range.

    Notes
    -----
    Feed and return run together. Where the frame is the return, its joints add unknown resistance.

    Examples
    --------
    >>> found = brake_feed_by_axle(12.5, 50 * 0.3048, 0.9, 3, 8)
    >>> [round(volt, 2) for volt in found.at_axle_V]
    [10.92, 10.85, 10.82]

    References
    ----------
    .. [1] electricity, Kirchhoff's laws
    """
    require_positive(supply_V=supply_V, to_first_axle_m=to_first_axle_m, magnet_ohm=magnet_ohm)
    require_not_negative(between_axles_m=between_axles_m)
    if not 1 <= axle_count <= 8:
        raise OutOfRange("axle_count", axle_count, "must lie from 1 to 8")
    per_m = 2 * wire_resistance(awg)
    runs = [to_first_axle_m * per_m, *itertools.repeat(between_axles_m * per_m, axle_count - 1)]
    axle_ohm = magnet_ohm / 2
    behind = [axle_ohm]
    for run in reversed(runs[1:]):
        behind.append(1 / (1 / axle_ohm + 1 / (run + behind[-1])))
    behind.reverse()
    volts: list[float] = []
    voltage = supply_V
    for run, rest in zip(runs, behind, strict=True):
        voltage *= rest / (run + rest)
        volts.append(voltage)
    return AxleFeed(tuple(volts), volts[-1], sum(volts) / axle_ohm, 1 - volts[-1] / supply_V)


@calculation(
    "brakes",
    "thinnest gauge with 2 L r ≤ R/n · s / (1 − s)",
    gives="awg",
    symbols={"supply_V": "U", "one_way_length_m": "L", "magnet_count": "n"},
)
def least_brake_gauge(
    supply_V: float,
    one_way_length_m: float,
    magnet_count: int,
    allowed_drop_ratio: float = 0.10,
    magnet_ohm: float = MAGNET_OHM,
) -> int:
    """Thinnest wire that keeps the drop to the brake magnets.

    The loop may have R/n · s/(1 − s) ohm for a share s; the thinnest gauge under that is taken.

    Parameters
    ----------
    supply_V : float
        Voltage the controller gives, full on [V].
    one_way_length_m : float
        Wire from the controller to the magnets, one way [m].
    magnet_count : int
        Number of magnets [-].
    allowed_drop_ratio : float
        Share that may be lost, 10 % if not given [-].
    magnet_ohm : float
        Resistance of one magnet [ohm].

    Returns
    -------
    int
        Gauge of feed and return; 1/0 to 4/0 are written 0, -1, -2, -3 [-].

    Raises
    ------
    OutOfRange
        If an input is out of its range or not even 4/0 would do.

    Notes
    -----
    Copper at 75 °C, joints not counted. Never thinner than 12, the usual least for brakes.

    Examples
    --------
    Six magnets 60 ft away want number 6 to lose no more than a tenth.

    >>> least_brake_gauge(12.5, 60 * 0.3048, 6)
    6

    References
    ----------
    .. [1] electricity, Ohm's law
    .. [2] plug_wiring_references, brakes not under 12
    """
    if not 0 < allowed_drop_ratio <= 0.5:
        raise OutOfRange("allowed_drop_ratio", allowed_drop_ratio, "must lie above 0 and up to 50 %")
    require_positive(one_way_length_m=one_way_length_m, magnet_ohm=magnet_ohm)
    require_magnets(magnet_count=magnet_count)
    most_ohm = magnet_ohm / magnet_count * allowed_drop_ratio / (1 - allowed_drop_ratio)
    held = tables.load("wire_resistance")
    for awg in GAUGES:
        if 2 * one_way_length_m * held.row(awg=awg)["stranded_ohmpm"] <= most_ohm * (1 + 1e-12):
            brake_feed(supply_V, one_way_length_m, awg, magnet_count, magnet_ohm)  # left among the steps
            return awg
    raise OutOfRange("one_way_length_m", one_way_length_m, "needs more copper than any gauge has")
