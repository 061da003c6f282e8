"""Bearings: grease charge and strokes, end play, intervals by hub, heat, and hubs that go into water."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange
from sendoff.tables import Table

GREASE_kgpm2: Final = 5.0
"""0.005 g for each square millimeter of D times B."""
LOOSE_m: Final = 0.001 * 0.0254
MANUAL_m: Final = 0.010 * 0.0254
TIGHT_m: Final = 0.005 * 0.0254
OVER_MATES_dK: Final = 30 * 5 / 9
HOT_K: Final = (170 + 459.67) * 5 / 9
COOL_s: Final = 20 * 60.0

Hub = Literal["packed", "access_cap", "oil_bath", "water_dipped"]


@calculation(
    "bearings",
    "G = 0.005 D B (mm, g)",
    gives="grease_kg",
    symbols={"outside_m": "D", "width_m": "B", "grease_kg": "G"},
)
def bearing_grease_charge(outside_m: float, width_m: float) -> float:
    """Grease one bearing takes when it is greased again.

    G = 0.005 D B, millimeters in, grams out (0.114 D B in inches and ounces).

    Parameters
    ----------
    outside_m : float
        Outside diameter of the bearing [m].
    width_m : float
        Width of the bearing [m].

    Returns
    -------
    float
        Grease [kg].

    Raises
    ------
    OutOfRange
        If a measure is not above zero or above 1 m.

    Notes
    -----
    Topping up. Packing a clean bearing and filling a third to a half of the hub takes more.

    Examples
    --------
    50 by 15 mm: 3.75 g.

    >>> round(bearing_grease_charge(0.050, 0.015) * 1000, 2)
    3.75

    References
    ----------
    .. [1] bearing_handbook, grease charge
    """
    require_positive(outside_m=outside_m, width_m=width_m)
    require_between(0.0, 1.0, "m", outside_m=outside_m, width_m=width_m)
    return GREASE_kgpm2 * outside_m * width_m


@calculation(
    "bearings",
    "n = ceil(G / g per stroke)",
    gives="stroke_count",
    symbols={"grease_kg": "G", "stroke_count": "n"},
    tables={"table": "grease_guns"},
)
def grease_strokes(
    grease_kg: float,
    gun: Literal["lever", "pistol"] = "lever",
    own_stroke_kg: float | None = None,
    table: Table | None = None,
) -> int:
    """How many strokes of a grease gun give a charge.

    The charge over the grease of one stroke, rounded up.

    Parameters
    ----------
    grease_kg : float
        Grease wanted [kg].
    gun : {"lever", "pistol"}
        Kind of gun.
    own_stroke_kg : float, optional
        Weighed stroke of your own gun, instead of the table's [kg].
    table : Table
        Grease of a stroke by gun.

    Returns
    -------
    int
        Strokes [-].

    Raises
    ------
    OutOfRange
        If the charge is not above zero, your own stroke outside 0.1 to 10 g, or the charge above 5 kg.

    Notes
    -----
    Guns give from 1 to 3 g a stroke: weigh twenty strokes of your own.

    Examples
    --------
    >>> grease_strokes(0.00375), grease_strokes(0.00375, "pistol")
    (3, 5)

    References
    ----------
    .. [1] lubrication_articles, grease of a stroke
    """
    require_positive(grease_kg=grease_kg)
    require_between(0.0, 5.0, "kg", grease_kg=grease_kg)
    if own_stroke_kg is None:
        stroke_kg = float((table or tables.load("grease_guns")).row(gun=gun)["stroke_kg"])
    else:
        require_between(1e-4, 1e-2, "kg", own_stroke_kg=own_stroke_kg)
        stroke_kg = own_stroke_kg
    return math.ceil(grease_kg / stroke_kg - 1e-9)


@dataclass(frozen=True, slots=True)
class EndPlay:
    """End play of a hub judged."""

    verdict: Literal["too tight", "as both texts say", "only by the wider text", "too loose"]
    low_m: float
    wide_high_m: float
    tight_high_m: float
    meaning: str


@calculation(
    "bearings", "0.001 in ≤ play ≤ 0.005 in (general), 0.010 in (manual)", symbols={"play_m": "play"}
)
def end_play_check(play_m: float) -> EndPlay:
    """Whether the end play of an adjustable hub is right.

    0.001 to 0.010 in by a service manual, 0.001 to 0.005 in by general texts; the stricter is the aim.

    Parameters
    ----------
    play_m : float
        End play by dial gauge, hub pushed and pulled [m].

    Returns
    -------
    EndPlay
        Verdict, bands, what to do.

    Raises
    ------
    OutOfRange
        If the play is below zero or above 10 mm.

    Notes
    -----
    Adjustable tapered bearings. The axle maker's value wins. Preset and unit hubs are not adjusted.

    Examples
    --------
    >>> end_play_check(0.003 * 0.0254).verdict, end_play_check(0.008 * 0.0254).verdict
    ('as both texts say', 'only by the wider text')

    References
    ----------
    .. [1] bearing_texts, both bands
    """
    require_between(0.0, 0.010, "m", play_m=play_m)
    verdict: Literal["too tight", "as both texts say", "only by the wider text", "too loose"]
    if play_m < LOOSE_m * (1 - 1e-9):
        verdict, meaning = "too tight", "Back the nut off: a tight bearing burns."
    elif play_m <= TIGHT_m * (1 + 1e-9):
        verdict, meaning = "as both texts say", "Right."
    elif play_m <= MANUAL_m * (1 + 1e-9):
        verdict, meaning = "only by the wider text", "Ask the axle's paper; set it closer if it is silent."
    else:
        verdict, meaning = "too loose", "Take up the nut, or look at the bearings."
    return EndPlay(verdict, LOOSE_m, MANUAL_m, TIGHT_m, meaning)


@dataclass(frozen=True, slots=True)
class HubService:
    """When a hub is due and how it is done."""

    every_m: float | None
    """None where time alone counts."""
    every_s: float
    due: bool
    how: str


@calculation(
    "bearings",
    "due at every_m or every_s, whichever comes first",
    symbols={"driven_m": "s", "elapsed_s": "t"},
    tables={"table": "hub_service"},
)
def hub_service(
    hub: Hub, driven_m: float = 0.0, elapsed_s: float = 0.0, table: Table | None = None
) -> HubService:
    """When hub bearings are due, and how, by kind of hub.

    Packed hubs each 12,000 miles or 12 months; through-the-cap grease each 2,000 miles; oil only looked at.

    Parameters
    ----------
    hub : {"packed", "access_cap", "oil_bath", "water_dipped"}
        Kind of hub.
    driven_m : float
        Distance since it was last done [m].
    elapsed_s : float
        Time since it was last done [s].
    table : Table
        Intervals by hub.

    Returns
    -------
    HubService
        Interval, due or not, and how.

    Raises
    ------
    OutOfRange
        If distance or time is below zero.

    Notes
    -----
    Habit but for the packed hub. The axle maker's plan comes first; a trailer that stood ten months has a dry seal.

    Examples
    --------
    >>> hub_service("packed", 12_500 * 1609.344).due
    True

    References
    ----------
    .. [1] bearing_texts, 12 months or 12,000 miles
    .. [2] common_practice, other hubs
    """
    require_not_negative(driven_m=driven_m, elapsed_s=elapsed_s)
    row = (table or tables.load("hub_service")).row(hub=hub)
    by_distance = row["every_m"] is not None and driven_m >= row["every_m"] * (1 - 1e-12)
    return HubService(row["every_m"], row["every_s"], by_distance or elapsed_s >= row["every_s"], row["how"])


@dataclass(frozen=True, slots=True)
class GreaseCheck:
    """Whether a grease gun may be set to a hub as it stands."""

    may: bool
    why: str


@calculation(
    "bearings", "by hub: never oil; through the cap only turning, off the ground, by hand", tables={}
)
def grease_check(
    hub: Hub, *, wheel_off_ground_and_turning: bool = False, hand_gun: bool = True
) -> GreaseCheck:
    """Whether a hub may be greased through its cap as it stands.

    Oil hubs never; access caps only with the wheel turning off the ground and a hand gun, slowly.

    Parameters
    ----------
    hub : {"packed", "access_cap", "oil_bath", "water_dipped"}
        Kind of hub.
    wheel_off_ground_and_turning : bool
        Whether the wheel is off the ground and turning.
    hand_gun : bool
        Hand gun; an air gun blows the seal.

    Returns
    -------
    GreaseCheck
        May or not, and why.

    Raises
    ------
    OutOfRange
        Never for these words.

    Notes
    -----
    Pumped cold and still, grease blows the inner seal and ends on the brake shoes.

    Examples
    --------
    >>> grease_check("oil_bath").may, grease_check("access_cap", wheel_off_ground_and_turning=True).may
    (False, True)

    References
    ----------
    .. [1] common_practice, grease through the cap
    """
    if hub == "oil_bath":
        return GreaseCheck(may=False, why="Oil hub: never grease. Fill oil to the mark.")
    if hub == "packed":
        return GreaseCheck(may=False, why="No way in for grease: the hub is pulled and packed.")
    if not hand_gun:
        return GreaseCheck(may=False, why="An air gun blows the inner seal and greases the brakes.")
    if hub == "access_cap" and not wheel_off_ground_and_turning:
        return GreaseCheck(may=False, why="Only with the wheel off the ground and turning, slowly.")
    if hub == "water_dipped":
        return GreaseCheck(may=True, why="Until the button of the cap moves 1/8 in, no more.")
    return GreaseCheck(may=True, why="Slowly, until clean grease shows.")


@dataclass(frozen=True, slots=True)
class HubHeat:
    """A hub's temperature held against its mates."""

    over_mates_dK: float
    """Above the middle of its mates."""
    stop: bool
    meaning: str


@calculation(
    "bearings",
    "stop if T − median of mates > 30 °F, or T > 170 °F",
    symbols={"hub_K": "T", "mate_K": "mates"},
)
def hub_temperature_check(hub_K: float, mate_K: tuple[float, ...]) -> HubHeat:
    """Whether a hub is hot against its mates.

    More than 30 °F over the middle of its mates, or more than 170 °F: stop.

    Parameters
    ----------
    hub_K : float
        Hub center by thermometer gun [K].
    mate_K : tuple of float
        The other hubs, same way, same minute [K].

    Returns
    -------
    HubHeat
        Difference, stop or not, what it means.

    Raises
    ------
    OutOfRange
        If no mate is given or a temperature is outside -40 to 600 °F.

    Notes
    -----
    Both limits are yard figures without a source. After a grade drums are hot anyhow: compare like with like. Near a
    hub only the back of the hand, never on it.

    Examples
    --------
    >>> hub_temperature_check(340.0, (318.0, 320.0, 319.0)).stop
    True

    References
    ----------
    .. [1] common_practice, thermometer gun at the first stop
    """
    require_between(233.0, 589.0, "K", hub_K=hub_K)
    if not mate_K:
        raise OutOfRange("mate_K", "nothing", "must name at least one other hub")
    for temperature in mate_K:
        require_between(233.0, 589.0, "K", mate_K=temperature)
    mates = sorted(mate_K)
    middle = len(mates) // 2
    median = mates[middle] if len(mates) % 2 else (mates[middle - 1] + mates[middle]) / 2
    over = hub_K - median
    if over > OVER_MATES_dK:
        return HubHeat(
            over, stop=True, meaning="Far over its mates: brake dragging, or a bearing. Do not go on."
        )
    if hub_K > HOT_K:
        return HubHeat(over, stop=True, meaning="Too hot: let it cool, find out why.")
    return HubHeat(over, stop=False, meaning="Like its mates.")


@dataclass(frozen=True, slots=True)
class WaterWait:
    """Whether hubs may go into water yet."""

    wait_s: float
    may_dip: bool


@calculation("bearings", "wait 20 min before the hubs go into water", symbols={"stood_s": "t"})
def water_wait(stood_s: float) -> WaterWait:
    """Whether hot hubs have stood long enough to go into water.

    At least 15 to 20 minutes; 20 is taken.

    Parameters
    ----------
    stood_s : float
        Time since the trailer stopped [s].

    Returns
    -------
    WaterWait
        Time still to wait, may or not.

    Raises
    ------
    OutOfRange
        If the time is below zero.

    Notes
    -----
    A hot hub dipped in cold water draws water past its seal. Unplug the lamps before, look at them after.

    Examples
    --------
    >>> water_wait(600.0).wait_s / 60
    10.0

    References
    ----------
    .. [1] common_practice, boat ramps
    """
    require_not_negative(stood_s=stood_s)
    return WaterWait(max(0.0, COOL_s - stood_s), stood_s >= COOL_s)
