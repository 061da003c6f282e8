"""Which rules count where, what to keep back for loads that move, and when the load is looked at again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, limit_of, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.calc.securement._en import SCOPE_kg
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "securement"

LoadKind = Literal["fixed", "live_animals", "sloshing_liquid", "hanging_load"]


@dataclass(frozen=True, slots=True)
class RuleSet:
    """The one set of securement rules that counts."""

    rule_set: Literal["393", "en12195_1", "not known here"]
    said: str


@dataclass(frozen=True, slots=True)
class MovingLoad:
    """A limit with a reserve kept back for a load that moves."""

    reserve_ratio: float
    usable_kg: float
    margin_kg: float
    holds: bool


@dataclass(frozen=True, slots=True)
class RecheckStops:
    """Where and when to stop and look at the load, the yard's early stop among them."""

    stop_at_m: tuple[float, ...]
    stop_after_s: tuple[float, ...]
    also: str


@calculation(FAMILY, "row of the table", tables={"table": "securement_rule_sets"})
def securement_rule_set(
    jurisdiction: str, vehicle_total_mass_kg: float | None = None, table: Table | None = None
) -> RuleSet:
    """Which set of securement rules counts in a jurisdiction: one, never two side by side.

    A look-up: US and CA count by aggregate working load limit, EU by forces after EN 12195-1, which does not apply to
    vehicles up to 3,500 kg.

    Parameters
    ----------
    jurisdiction : str
        US, CA (Canada) or EU; of a State of the United States write US.
    vehicle_total_mass_kg : float, optional
        Greatest total mass of the vehicle that carries the load; needed for the EU [kg].
    table : Table, optional
        Rule sets.

    Returns
    -------
    RuleSet
        The rule set and a sentence; not known here where no row is.

    Raises
    ------
    OutOfRange
        If the mass is not above zero, or missing for the EU.

    Notes
    -----
    Where nothing is known here, ask locally before loading.

    Examples
    --------
    >>> securement_rule_set("EU", 3500.0).rule_set, securement_rule_set("EU", 3501.0).rule_set
    ('not known here', 'en12195_1')

    References
    ----------
    .. [1] 49cfr393, 393.100
    .. [2] nsc10
    .. [3] en12195_1, scope
    """
    if vehicle_total_mass_kg is not None:
        positive(vehicle_total_mass_kg=vehicle_total_mass_kg)
    table = table or tables.load("securement_rule_sets")
    rows = table.where(jurisdiction=jurisdiction.strip().upper())
    if not rows:
        return RuleSet("not known here", "Not known here, ask locally.")
    row = rows[0]
    if row["rule_set"] == "en12195_1":
        if vehicle_total_mass_kg is None:
            raise OutOfRange("vehicle_total_mass_kg", None, "is needed: EN 12195-1 starts above 3,500 kg")
        if not exceeds(vehicle_total_mass_kg, SCOPE_kg):
            return RuleSet(
                "not known here",
                "EN 12195-1 does not apply to vehicles up to 3,500 kg: ask for the national rule.",
            )
    return RuleSet(row["rule_set"], row["said"])


@calculation(
    FAMILY,
    "usable = capacity·(1 − reserve)",
    symbols={"capacity_kg": "capacity", "load_kg": "load", "reserve_ratio": "reserve", "usable_kg": "usable"},
    tables={"table": "moving_load_reserve"},
)
def moving_load_check(
    load_kg: float, capacity_kg: float, load_kind: LoadKind, table: Table | None = None
) -> MovingLoad:
    """Hold a load that can move against a limit, with a reserve kept back.

    usable = capacity·(1 − reserve); 10 % for live animals, half-full tanks and hanging loads.

    Parameters
    ----------
    load_kg : float
        What it comes to when standing still [kg].
    capacity_kg : float
        The limit [kg].
    load_kind : str
        Fixed, or how it moves.
    table : Table, optional
        Reserves.

    Returns
    -------
    MovingLoad
        Reserve [-], what may be used, what is left of it [kg], and whether it holds.

    Raises
    ------
    OutOfRange
        If the load is below zero or the capacity is not above zero.

    Notes
    -----
    Common practice, no source: a stated reserve instead of false comfort. Gates, baffles and full or empty tanks are
    better.

    Examples
    --------
    >>> moving_load_check(6500.0, 7000.0, "live_animals").holds
    False

    References
    ----------
    .. [1] common_practice, keep 10 % unused
    """
    not_negative(load_kg=load_kg)
    positive(capacity_kg=capacity_kg)
    table = table or tables.load("moving_load_reserve")
    reserve = float(table.row(load_kind=load_kind)["reserve_ratio"])
    usable = capacity_kg * (1 - reserve)
    held = limit_of(load_kg, usable)
    return MovingLoad(reserve, usable, held.margin_kg, held.holds)


@calculation(
    FAMILY,
    "first within 50 mi, then every 150 mi or 3 h, whichever comes first",
    symbols={"trip_m": "trip", "average_speed_mps": "speed"},
    tables={"table": "load_recheck"},
)
def load_recheck_stops(
    trip_m: float,
    average_speed_mps: float,
    yard_stop_m: float | None = None,
    table: Table | None = None,
) -> RecheckStops:
    """Where and when to stop on a trip and look at the load and its tie-downs.

    Within the first 50 miles, then every 150 miles or 3 hours of driving, whichever comes first, and at every change
    of duty.

    Parameters
    ----------
    trip_m : float
        Length of the trip [m].
    average_speed_mps : float
        Average speed [m/s].
    yard_stop_m : float, optional
        An earlier stop the yard asks for, such as 10 mi: new straps and cars settle [m].
    table : Table, optional
        Intervals.

    Returns
    -------
    RecheckStops
        Distance of each stop from the start [m] and driving time until it [s].

    Raises
    ------
    OutOfRange
        If the trip is above 10,000 km, the speed is not from 1 to 50 m/s, or the yard's stop is not within the first
        interval.

    Notes
    -----
    A trip that ends before a stop has none there; look at the load before leaving in any case.

    Examples
    --------
    400 mi at 60 mph: after 50 and 200 miles, and at 350.

    >>> [round(stop / 1609.344) for stop in load_recheck_stops(400 * 1609.344, 26.8224).stop_at_m]
    [50, 200, 350]

    References
    ----------
    .. [1] 49cfr392, 392.9(b)
    """
    positive(trip_m=trip_m, average_speed_mps=average_speed_mps)
    if trip_m > 1e7:
        raise OutOfRange("trip_m", trip_m, "must not be above 10,000 km")
    if not 1 <= average_speed_mps <= 50:
        raise OutOfRange("average_speed_mps", average_speed_mps, "must lie from 1 to 50 m/s")
    row = (table or tables.load("load_recheck")).rows[0]
    stops: list[float] = []
    if yard_stop_m is not None:
        positive(yard_stop_m=yard_stop_m)
        if exceeds(yard_stop_m, row["first_within_m"]):
            raise OutOfRange("yard_stop_m", yard_stop_m, "must lie within the first 50 miles")
        stops.append(yard_stop_m)
    step = min(row["then_every_m"], row["then_every_s"] * average_speed_mps)
    at = min(row["first_within_m"], step)
    while at < trip_m:
        if not stops or exceeds(at, stops[-1]):
            stops.append(at)
        at += step
    kept = tuple(stop for stop in stops if stop < trip_m)
    also = "Before leaving, and at every change of duty. Tighten, or add tie-downs, before driving on."
    return RecheckStops(kept, tuple(stop / average_speed_mps for stop in kept), also)
