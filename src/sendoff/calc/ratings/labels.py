"""What the rules ask of rating labels (49 CFR 567.4, 571.110, 571.120)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, not_negative, positive, reaches
from sendoff.calc.contract import calculation, require_between, require_one_of
from sendoff.calc.tires.condition import axle_tire_capacity
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@dataclass(frozen=True, slots=True)
class TireSelection:
    """The tires of an axle against the axle rating on the label."""

    holds: bool
    tires_kg: float
    margin_kg: float
    standard: Literal["571.110", "571.120"]
    """Which rule asks it: 571.110 up to 10,000 lb of gross vehicle weight rating, 571.120 above."""


@dataclass(frozen=True, slots=True)
class GvwrCheck:
    """A gross vehicle weight rating against the least it may be."""

    holds: bool
    least_kg: float
    margin_kg: float


@dataclass(frozen=True, slots=True)
class LabelCheck:
    """A certification label against the rule: what is missing, what stands out of order."""

    holds: bool
    missing: tuple[str, ...]
    out_of_order: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlaceCheck:
    """Where and how a label is fixed, against the rule."""

    holds: bool
    problems: tuple[str, ...]


def _rule(name: str, table: Table | None) -> float:
    return float((table or tables.load("rating_label_rules")).row(rule=name)["mass_kg"])


@calculation(
    "ratings",
    "GVWR_least = m_empty + m_cargo + 150 lb · seats",
    gives="least_gvwr_kg",
    symbols={
        "empty_mass_kg": "m_empty",
        "rated_cargo_kg": "m_cargo",
        "seat_count": "seats",
        "least_gvwr_kg": "GVWR_least",
    },
    tables={"table": "rating_label_rules"},
)
def least_gvwr(
    empty_mass_kg: float, rated_cargo_kg: float, seat_count: int = 0, table: Table | None = None
) -> float:
    """Least gross vehicle weight rating the certification label may state.

    Unloaded mass, rated cargo and 150 lb for each seating position; a trailer has none.

    Parameters
    ----------
    empty_mass_kg : float
        Unloaded vehicle, full propane included [kg].
    rated_cargo_kg : float
        Rated cargo load [kg].
    seat_count : int
        Designated seating positions [-].
    table : Table, optional
        Figures of the rules.

    Returns
    -------
    float
        Least rating [kg].

    Raises
    ------
    OutOfRange
        If the mass is not above zero, or cargo or seats are below zero.

    Notes
    -----
    The label states pounds. Drinking water aboard counts as cargo.

    Examples
    --------
    By the rule: 2,600 lb empty and 4,400 lb of cargo ask for 7,000 lb.

    >>> least_gvwr(2600.0, 4400.0)
    7000.0

    References
    ----------
    .. [1] 49cfr567, 567.4(g)(3)
    .. [2] 49cfr571_110, S4.3.5, S9.3.2 (propane and water)
    """
    positive(empty_mass_kg=empty_mass_kg)
    not_negative(rated_cargo_kg=rated_cargo_kg)
    if not 0 <= seat_count <= 100:
        raise OutOfRange("seat_count", seat_count, "must lie from 0 to 100")
    return empty_mass_kg + rated_cargo_kg + seat_count * _rule("seat", table)


@calculation("ratings", "holds if GVWR >= m_empty + m_cargo + 150 lb · seats",
             symbols={"gvwr_kg": "GVWR", "empty_mass_kg": "m_empty", "rated_cargo_kg": "m_cargo", "seat_count": "seats",
                      "least_kg": "GVWR_least"})  # fmt: skip
def gvwr_check(gvwr_kg: float, empty_mass_kg: float, rated_cargo_kg: float, seat_count: int = 0) -> GvwrCheck:
    """Whether the gross vehicle weight rating on a label is no less than the rule asks.

    The rating against the sum of unloaded mass, rated cargo and 150 lb a seat.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating on the label [kg].
    empty_mass_kg : float
        Unloaded vehicle as delivered [kg].
    rated_cargo_kg : float
        Rated cargo load [kg].
    seat_count : int
        Designated seating positions [-].

    Returns
    -------
    GvwrCheck
        Whether it holds, the least rating, and what is left.

    Raises
    ------
    OutOfRange
        If a mass is not above zero, or cargo or seats are below zero.

    Notes
    -----
    Options add to the empty mass: weigh the unit as built.

    Examples
    --------
    By the rule: 300 lb of options on a 7,000 lb trailer of 2,600 lb and 4,400 lb of rated cargo break it.

    >>> gvwr_check(7000.0, 2600.0, 4400.0).holds, gvwr_check(7000.0, 2900.0, 4400.0).margin_kg
    (True, -300.0)

    References
    ----------
    .. [1] 49cfr567, 567.4(g)(3)
    """
    positive(gvwr_kg=gvwr_kg)
    least = least_gvwr(empty_mass_kg, rated_cargo_kg, seat_count)
    return GvwrCheck(not exceeds(least, gvwr_kg), least, gvwr_kg - least)


@calculation("ratings", "holds if n · L (/ 1.10 for passenger car tires) >= GAWR",
             symbols={"tire_load_kg": "L", "tire_count": "n", "gawr_kg": "GAWR", "tires_kg": "ΣL"},
             tables={"table": "rating_label_rules"})  # fmt: skip
def tires_meet_axle_rating(
    tire_load_kg: float,
    tire_count: int,
    gawr_kg: float,
    gvwr_kg: float,
    passenger_tire: bool = False,  # noqa: FBT001, FBT002
    table: Table | None = None,
) -> TireSelection:
    """Whether the tires of an axle together reach the axle rating on the label.

    The sum of their maximum load ratings against the gross axle weight rating; each passenger car tire is first
    divided by 1.10.

    Parameters
    ----------
    tire_load_kg : float
        Maximum load rating of one tire as fitted, single or dual [kg].
    tire_count : int
        Tires on the axle [-].
    gawr_kg : float
        Gross axle weight rating on the label, for tires of this size [kg].
    gvwr_kg : float
        Gross vehicle weight rating, which says which rule applies [kg].
    passenger_tire : bool
        Yes for a passenger car tire.
    table : Table, optional
        Figures of the rules.

    Returns
    -------
    TireSelection
        Whether it holds, the sum, what is left, and the rule.

    Raises
    ------
    OutOfRange
        If a mass is not above zero, or the count not even, from 2 to 8.

    Notes
    -----
    Ratings at the placard's pressure, where it is below the sidewall's. Not for vehicles that cannot reach 50 mph.

    Examples
    --------
    By the rule: two tires of 2,540 lb do not reach an axle rating of 5,200 lb, two of 2,830 lb do.

    >>> [tires_meet_axle_rating(load, 2, 5200.0, 4000.0).holds for load in (2540.0, 2830.0)]
    [False, True]

    References
    ----------
    .. [1] 49cfr571_110, S4.2.2.1, S4.2.2.2
    .. [2] 49cfr571_120, S5.1.2
    """
    positive(gawr_kg=gawr_kg, gvwr_kg=gvwr_kg)
    total = axle_tire_capacity(tire_load_kg, tire_count, passenger_tire)
    heavy = exceeds(gvwr_kg, _rule("light_vehicle", table))
    return TireSelection(
        not exceeds(gawr_kg, total), total, total - gawr_kg, "571.120" if heavy else "571.110"
    )


@calculation(
    "ratings",
    "holds if ΣGAWR + least tongue weight >= GVWR",
    symbols={"gawr_kg": "GAWR", "tongue_mass_kg": "tongue", "gvwr_kg": "GVWR", "least_kg": "GVWR"},
)
def axle_ratings_meet_gvwr(gawr_kg: tuple[float, ...], tongue_mass_kg: float, gvwr_kg: float) -> GvwrCheck:
    """Whether the axle ratings with the least tongue weight reach the gross vehicle weight rating.

    The sum of all axle ratings plus the maker's recommended tongue weight, the least of its range.

    Parameters
    ----------
    gawr_kg : tuple of float
        Gross axle weight rating of each axle [kg].
    tongue_mass_kg : float
        Least recommended load on tongue or pin at full mass [kg].
    gvwr_kg : float
        Gross vehicle weight rating on the label [kg].

    Returns
    -------
    GvwrCheck
        Whether it holds, the rating as the least the sum must reach, and what is left.

    Raises
    ------
    OutOfRange
        If there is no axle, or a mass is not above zero (tongue: below zero).

    Notes
    -----
    Written into the rule for recreation trailers; here it is asked of every trailer, since the load has to stand
    somewhere.

    Examples
    --------
    By the rule: two axles of 5,200 lb and a least tongue weight of 900 lb reach 11,300 lb, not 11,500.

    >>> axle_ratings_meet_gvwr((5200.0, 5200.0), 900.0, 11300.0).holds
    True
    >>> axle_ratings_meet_gvwr((5200.0, 5200.0), 900.0, 11500.0).margin_kg
    -200.0

    References
    ----------
    .. [1] 49cfr571_110, S9.2
    .. [2] 49cfr571_120, S10.2
    """
    if not gawr_kg:
        raise OutOfRange("gawr_kg", (), "must name at least one axle")
    for rating in gawr_kg:
        positive(gawr_kg=rating)
    not_negative(tongue_mass_kg=tongue_mass_kg)
    positive(gvwr_kg=gvwr_kg)
    total = sum(gawr_kg) + tongue_mass_kg
    return GvwrCheck(not exceeds(gvwr_kg, total), gvwr_kg, total - gvwr_kg)


@calculation("ratings", "maker, month and year, GVWR, GAWR, conformity, VIN, type, in this order",
             tables={"table": "certification_label"})  # fmt: skip
def certification_label_check(item: tuple[str, ...], table: Table | None = None) -> LabelCheck:
    """Whether a trailer's certification label says all it must, in the order it must.

    The items found on the label, top to bottom, against the seven of the rule.

    Parameters
    ----------
    item : tuple of str
        Items as found: maker, month_and_year, gvwr, gawr, conformity, vin, type.
    table : Table, optional
        The items in their order.

    Returns
    -------
    LabelCheck
        Whether it holds, what is missing, what stands out of order.

    Raises
    ------
    OutOfRange
        If an item is none of the seven, or named twice.

    Notes
    -----
    Tire and rim information may follow each axle rating or stand on a label of its own. A label is never corrected
    by hand.

    Examples
    --------
    By the rule, the identification number comes after the statement of conformity.

    >>> found = ("maker", "month_and_year", "gvwr", "gawr", "vin", "conformity", "type")
    >>> certification_label_check(found).out_of_order
    ('conformity',)

    References
    ----------
    .. [1] 49cfr567, 567.4(g)(1)-(7)
    """
    wanted = [str(row["item"]) for row in (table or tables.load("certification_label")).rows]
    found = [one.strip().casefold().replace(" ", "_") for one in item]
    for one in found:
        if one not in wanted:
            raise OutOfRange("item", one, f"must be one of {', '.join(wanted)}")
        if found.count(one) > 1:
            raise OutOfRange("item", one, "must stand once")
    missing = tuple(one for one in wanted if one not in found)
    highest, late = -1, []
    for one in found:
        place = wanted.index(one)
        if place < highest:
            late.append(one)
        highest = max(highest, place)
    return LabelCheck(not missing and not late, missing, tuple(late))


@calculation("ratings", "left side, x <= L / 2 from the front, letters >= 3/32 in",
             symbols={"from_front_m": "x", "trailer_length_m": "L", "letter_height_m": "h"},
             tables={"table": "rating_label_rules"})  # fmt: skip
def certification_label_place(
    side: Literal["left", "right", "front", "rear"],
    from_front_m: float,
    trailer_length_m: float,
    letter_height_m: float,
    table: Table | None = None,
) -> PlaceCheck:
    """Whether a trailer's certification label sits where it must and is large enough to read.

    On the forward half of the left side, readable from outside without moving anything, letters at least 3/32 in.

    Parameters
    ----------
    side : {"left", "right", "front", "rear"}
        Side it is on, looking forward.
    from_front_m : float
        Distance of the label from the trailer's front [m].
    trailer_length_m : float
        Length of the trailer [m].
    letter_height_m : float
        Height of the letters and figures [m].
    table : Table, optional
        Figures of the rules.

    Returns
    -------
    PlaceCheck
        Whether it holds, and every problem in words.

    Raises
    ------
    OutOfRange
        If a length is not above zero (the distance: below zero, or beyond the trailer).

    Notes
    -----
    Whether anything must be moved to read it is for the eye.

    Examples
    --------
    By the rule: left, 10 ft back on a 24 ft trailer, 3/32 in letters.

    >>> foot = 0.3048
    >>> certification_label_place("left", 10 * foot, 24 * foot, 3 / 32 * 0.0254).holds
    True

    References
    ----------
    .. [1] 49cfr567, 567.4(d),(g)
    """
    require_one_of(("left", "right", "front", "rear"), side=side)
    positive(trailer_length_m=trailer_length_m, letter_height_m=letter_height_m)
    require_between(0.0, trailer_length_m, "m", from_front_m=from_front_m)
    row = (table or tables.load("rating_label_rules")).row(rule="label_place")
    problems = []
    if side != "left":
        problems.append(f"it is on the {side} and must be on the left side")
    if exceeds(from_front_m, float(row["share_ratio"]) * trailer_length_m):
        problems.append("it is on the rear half and must be on the forward half")
    if not reaches(letter_height_m, float(row["letter_height_m"])):
        problems.append("the letters are lower than 3/32 in")
    return PlaceCheck(not problems, tuple(problems))
