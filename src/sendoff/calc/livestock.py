"""Livestock: room by the head, head by floor and payload, the loading ramp, and the scope of the 28-hour rule."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc.contract import calculation, require_between, require_not_negative, require_positive
from sendoff.errors import OutOfRange

AREA_m2_PER_kg: Final = 1.3 * 0.3048**2 / (100 * 0.45359237)
RESERVE: Final = 0.10
HOUR_s: Final = 3600.0
STEEPEST_rad: Final = math.radians(20)


@calculation(
    "livestock",
    "A = 1.3 sq ft per 100 lb",
    gives="area_m2",
    symbols={"animal_kg": "m", "area_m2": "A"},
)
def floor_area_per_head(animal_kg: float) -> float:
    """Floor one animal needs when hauled loose.

    1.3 square feet for each 100 lb.

    Parameters
    ----------
    animal_kg : float
        Mass of one animal [kg].

    Returns
    -------
    float
        Floor for one [m2].

    Raises
    ------
    OutOfRange
        If the mass is outside 20 to 1,500 kg.

    Notes
    -----
    A guide for cattle, not a law. More room for horns or heat; horses by the stall.

    Examples
    --------
    A 1,200 lb steer: 15.6 sq ft.

    >>> round(floor_area_per_head(1200 * 0.45359237) / 0.3048**2, 2)
    15.6

    References
    ----------
    .. [1] texas_livestock_guide, room for cattle
    """
    require_between(20.0, 1500.0, "kg", animal_kg=animal_kg)
    return AREA_m2_PER_kg * animal_kg


@dataclass(frozen=True, slots=True)
class HeadCount:
    """How many head a trailer takes."""

    by_floor: int
    by_payload: int | None
    """None without a payload."""
    head: int
    """The smaller."""
    load_kg: float
    limited_by: Literal["floor", "payload"]


@calculation(
    "livestock",
    "head = min(floor(area / A), floor(0.9 payload / m))",
    symbols={"floor_m2": "area", "animal_kg": "m", "payload_kg": "payload"},
)
def head_count(
    floor_m2: float, animal_kg: float, payload_kg: float | None = None, reserve_ratio: float = RESERVE
) -> HeadCount:
    """How many head of cattle a trailer takes by floor and by payload.

    Floor over the room of one, and payload less a tenth (animals move) over the mass of one; rounded down.

    Parameters
    ----------
    floor_m2 : float
        Floor of the trailer, inside [m2].
    animal_kg : float
        Mass of one animal [kg].
    payload_kg : float, optional
        Payload of the unit, from its own weighing [kg].
    reserve_ratio : float
        Share of the payload kept free because the load moves, 10 % if not given [-].

    Returns
    -------
    HeadCount
        By floor, by payload, the smaller, its weight, what limits.

    Raises
    ------
    OutOfRange
        If the floor or payload is not above zero, the mass outside 20 to 1,500 kg, or the reserve outside 0 to 50 %.

    Notes
    -----
    A guide, not a law. The reserve is this program's rule for live loads: margins of a fixed mass are false comfort.

    Examples
    --------
    24 by 7 ft, 1,200 lb steers: 10 head, not 12.

    >>> head_count(168 * 0.3048**2, 1200 * 0.45359237).head
    10

    References
    ----------
    .. [1] texas_livestock_guide, room for cattle
    .. [2] house_rule, reserve for live loads
    """
    require_positive(floor_m2=floor_m2)
    require_between(0.0, 0.5, reserve_ratio=reserve_ratio)
    by_floor = math.floor(floor_m2 / floor_area_per_head(animal_kg) + 1e-9)
    if payload_kg is None:
        return HeadCount(by_floor, None, by_floor, by_floor * animal_kg, "floor")
    require_positive(payload_kg=payload_kg)
    by_payload = math.floor(payload_kg * (1 - reserve_ratio) / animal_kg + 1e-9)
    head = min(by_floor, by_payload)
    return HeadCount(
        by_floor, by_payload, head, head * animal_kg, "payload" if by_payload < by_floor else "floor"
    )


@dataclass(frozen=True, slots=True)
class Crowding:
    """A given number of head on a floor."""

    each_m2: float
    needed_each_m2: float
    enough: bool


@calculation(
    "livestock",
    "area / head ≥ A",
    symbols={"floor_m2": "area", "animal_kg": "m"},
)
def crowding_check(floor_m2: float, animal_kg: float, head: int) -> Crowding:
    """Whether a number of head has enough floor.

    Floor over head against the room of one.

    Parameters
    ----------
    floor_m2 : float
        Floor of the trailer, inside [m2].
    animal_kg : float
        Mass of one animal [kg].
    head : int
        Animals aboard [-].

    Returns
    -------
    Crowding
        Room of each, room needed, enough or not.

    Raises
    ------
    OutOfRange
        If the floor is not above zero, the mass outside 20 to 1,500 kg, or the number outside 1 to 500.

    Notes
    -----
    A guide, not a law. Too much room lets them fall as well: use the gates.

    Examples
    --------
    Twelve head of 1,200 lb in 24 by 7 ft have 14.0 of 15.6 sq ft.

    >>> found = crowding_check(168 * 0.3048**2, 1200 * 0.45359237, 12)
    >>> round(found.each_m2 / 0.3048**2, 1), found.enough
    (14.0, False)

    References
    ----------
    .. [1] texas_livestock_guide, room for cattle
    """
    require_positive(floor_m2=floor_m2)
    if not 1 <= head <= 500:
        raise OutOfRange("head", head, "must lie from 1 to 500")
    needed = floor_area_per_head(animal_kg)
    return Crowding(floor_m2 / head, needed, floor_m2 / head >= needed * (1 - 1e-9))


@dataclass(frozen=True, slots=True)
class LivestockRamp:
    """A loading ramp for animals judged."""

    passes: bool
    steepest_rad: float
    step_rise_m: float
    """Best rise of concrete steps for the animal."""
    step_tread_m: float


@calculation(
    "livestock",
    "angle ≤ 20°; steps 10 by 30 cm (cattle), 8 by 25 cm (pigs)",
    symbols={"ramp_rad": "angle"},
)
def livestock_ramp_check(ramp_rad: float, animal: Literal["cattle", "pigs"] = "cattle") -> LivestockRamp:
    """Whether a loading ramp is flat enough for animals, and the steps it should have.

    20° at the steepest; concrete steps 10 cm high for cattle and 8 cm for pigs.

    Parameters
    ----------
    ramp_rad : float
        Angle of the ramp [rad].
    animal : {"cattle", "pigs"}
        Which animals.

    Returns
    -------
    LivestockRamp
        Verdict, steepest angle, rise and tread of steps.

    Raises
    ------
    OutOfRange
        If the angle is outside 0 to 90°.

    Notes
    -----
    Recommended practice. Footing, no dark step, no gap for a hoof. Treads of 30 to 60 cm: 30 is given.

    Examples
    --------
    >>> livestock_ramp_check(math.radians(20)).passes, livestock_ramp_check(math.radians(22)).passes
    (True, False)

    References
    ----------
    .. [1] grandin_2013, loading ramps
    """
    require_between(0.0, math.pi / 2, "rad", ramp_rad=ramp_rad)
    return LivestockRamp(
        ramp_rad <= STEEPEST_rad + 1e-9, STEEPEST_rad, 0.10 if animal == "cattle" else 0.08, 0.30
    )


@dataclass(frozen=True, slots=True)
class RestRule:
    """What the 28-hour law asks of a haul."""

    applies: bool
    longest_s: float | None
    """Longest time aboard without unloading; none where the law does not ask."""
    rest_s: float | None
    time_left_s: float | None
    why: str


@calculation(
    "livestock",
    "28 h; 36 h on written request; sheep 8 h more when it would end at night; then 5 h of rest",
    symbols={"aboard_s": "t"},
)
def rest_rule(
    aboard_s: float,
    haul: Literal["carrier", "own"] = "carrier",
    animal: Literal["sheep", "other"] = "other",
    *,
    interstate: bool = True,
    written_request: bool = False,
    ends_at_night: bool = False,
    food_water_and_room_aboard: bool = False,
) -> RestRule:
    """Whether the 28-hour law asks for a stop, and how long is left.

    28 hours aboard, 36 on the owner's written request, sheep 8 more when it would end at night; then 5 hours of rest.

    Parameters
    ----------
    aboard_s : float
        Time since loading began to be over [s].
    haul : {"carrier", "own"}
        For hire, or an owner's own animals: the law names carriers.
    animal : {"sheep", "other"}
        Which animals.
    interstate : bool
        Whether the haul crosses a State line.
    written_request : bool
        Whether the owner asked in writing for 36 hours.
    ends_at_night : bool
        Whether the time would end at night (sheep).
    food_water_and_room_aboard : bool
        Whether the animals have food, water, space and rest aboard.

    Returns
    -------
    RestRule
        Applies or not, longest time, rest, time left, why.

    Raises
    ------
    OutOfRange
        If the time is below zero.

    Notes
    -----
    Federal scope only. States and good sense ask for more: in heat, keep moving or unload. Unloading and resting times
    do not count.

    Examples
    --------
    >>> rest_rule(20 * 3600.0).time_left_s / 3600
    8.0
    >>> rest_rule(20 * 3600.0, "own").applies
    False

    References
    ----------
    .. [1] 49usc80502, (a) to (c)
    """
    require_not_negative(aboard_s=aboard_s)
    why = ""
    if haul == "own":
        why = "The law names carriers, not an owner's own haul. Plan stops all the same."
    elif not interstate:
        why = "Within one State the State's rule counts: ask there."
    elif food_water_and_room_aboard:
        why = "Void with food, water, space and rest aboard."
    if why:
        return RestRule(applies=False, longest_s=None, rest_s=None, time_left_s=None, why=why)
    longest_s = (36 if written_request else 28) * HOUR_s
    if animal == "sheep" and ends_at_night and not written_request:
        longest_s += 8 * HOUR_s
    return RestRule(
        applies=True,
        longest_s=longest_s,
        rest_s=5 * HOUR_s,
        time_left_s=longest_s - aboard_s,
        why="Unload, feed, water and rest them five hours.",
    )
