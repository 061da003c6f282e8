"""Whether a trailer must have brakes, whether surge brakes may be behind this truck, and what brakes must achieve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, not_negative, positive, pounds
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "rules_of_the_road"

PerformanceKind = Literal[
    "A1_car_up_to_10_seats",
    "A2_small_bus_or_light_passenger_truck",
    "A3_other_passenger",
    "B1_property_single_up_to_10000_lb",
    "B2_property_single_heavier_or_light_trailer_or_driveaway",
    "B3_other_property_and_combinations",
]


@dataclass(frozen=True, slots=True)
class BrakesRequired:
    """Whether federal rules ask for brakes on the trailer, and why."""

    brakes_required: bool
    axle_weight_ratio: float
    why: str


@dataclass(frozen=True, slots=True)
class StateBrakes:
    """What a State asks; unknown is not free."""

    known: bool
    brakes_required: bool | None
    above_kg: float | None
    said: str


@dataclass(frozen=True, slots=True)
class SurgeBrakes:
    """Whether surge brakes are allowed behind this truck."""

    allowed: bool
    ratio_number: float
    limit_number: float | None
    """None where the trailer is too heavy for surge brakes behind any truck."""
    least_truck_gvwr_kg: float | None
    counted_trailer_mass_kg: float
    why: str


@dataclass(frozen=True, slots=True)
class BrakePerformance:
    """What brakes must achieve from 20 mph."""

    vehicle_kind: str
    braking_force_ratio: float
    deceleration_mps2: float
    service_stop_m: float
    emergency_stop_m: float


@calculation(
    FAMILY,
    "excused if gross ≤ 3,000 lb and trailer axles ≤ 40 % of the truck's axles",
    symbols={
        "trailer_gross_mass_kg": "gross",
        "trailer_axle_load_kg": "trailer axles",
        "truck_axle_load_kg": "the truck's axles",
    },
)
def trailer_brakes_required(
    trailer_gross_mass_kg: float, trailer_axle_load_kg: float, truck_axle_load_kg: float
) -> BrakesRequired:
    """Whether federal rules for commercial vehicles ask for brakes on this trailer.

    Every commercial vehicle needs brakes on all wheels. A trailer of 3,000 lb gross or less is excused while its axle
    weight is at most 40 % of the truck's axle weights added up.

    Parameters
    ----------
    trailer_gross_mass_kg : float
        Gross weight of the trailer, laden or not, coupling load included [kg].
    trailer_axle_load_kg : float
        Weight on the trailer's axles, added up [kg].
    truck_axle_load_kg : float
        Weight on the truck's axles while coupled, added up [kg].

    Returns
    -------
    BrakesRequired
        Whether brakes are asked for, the ratio of axle weights [-], and why.

    Raises
    ------
    OutOfRange
        If a weight is not above zero, or the axles carry more than the gross weight.

    Notes
    -----
    Federal rule, commercial vehicles. States ask all trailers, many from 1,500 to 4,500 lb. Brakes that are fitted
    must work, excused or not.

    Examples
    --------
    Published scenario: 3,000 lb on the axles behind a 3,400 lb power unit is 88 %: brakes are required.

    >>> asked = trailer_brakes_required(3000 * 0.45359237, 3000 * 0.45359237, 3400 * 0.45359237)
    >>> asked.brakes_required, round(asked.axle_weight_ratio, 4)
    (True, 0.8824)

    References
    ----------
    .. [1] 49cfr393, 393.42(a), (b)(3), (b)(4)
    """
    positive(
        trailer_gross_mass_kg=trailer_gross_mass_kg,
        trailer_axle_load_kg=trailer_axle_load_kg,
        truck_axle_load_kg=truck_axle_load_kg,
    )
    if exceeds(trailer_axle_load_kg, trailer_gross_mass_kg):
        raise OutOfRange(
            "trailer_axle_load_kg", trailer_axle_load_kg, "must not be more than the trailer's gross weight"
        )
    ratio = trailer_axle_load_kg / truck_axle_load_kg
    if exceeds(trailer_gross_mass_kg, pounds(3000)):
        return BrakesRequired(
            brakes_required=True, axle_weight_ratio=ratio, why="Gross weight is above 3,000 lb."
        )
    if exceeds(ratio, 0.40):
        return BrakesRequired(
            brakes_required=True, axle_weight_ratio=ratio, why="Axle weight is above 40 % of the truck's."
        )
    return BrakesRequired(
        brakes_required=False,
        axle_weight_ratio=ratio,
        why="Excused by the federal rule at these weights. Ask for your State's own limit.",
    )


@calculation(
    FAMILY,
    "required if gross > the State's figure",
    symbols={"trailer_gross_mass_kg": "gross"},
    tables={"table": "state_brake_thresholds"},
)
def state_brakes_required(
    state: str,
    trailer_gross_mass_kg: float,
    greatest_speed_mps: float | None = None,
    table: Table | None = None,
) -> StateBrakes:
    """Whether a State known here asks for trailer brakes at this weight.

    Required if gross weight is above the State's figure; a few States ask less of trailers that are never towed fast.

    Parameters
    ----------
    state : str
        Postal letters of the State, such as TX.
    trailer_gross_mass_kg : float
        Gross weight of the trailer [kg].
    greatest_speed_mps : float, optional
        Greatest speed it is ever towed at [m/s].
    table : Table, optional
        Figures by State; add those you serve.

    Returns
    -------
    StateBrakes
        Whether the State is known, whether it asks for brakes, its figure [kg], and a sentence.

    Raises
    ------
    OutOfRange
        If the weight is not above zero, the speed is below zero, or the State is not two letters.

    Notes
    -----
    Summaries without a date: check the current code. Where nothing is known the answer is to ask locally.

    Examples
    --------
    >>> state_brakes_required("TX", 2000.0).brakes_required, state_brakes_required("TX", 2100.0).brakes_required
    (False, True)
    >>> state_brakes_required("WY", 2100.0).said
    'Not known here, ask locally.'

    References
    ----------
    .. [1] tx_dps_547
    .. [2] sd_32_18_17
    .. [3] dcmr_18_721, 18-721
    """
    positive(trailer_gross_mass_kg=trailer_gross_mass_kg)
    if greatest_speed_mps is not None:
        not_negative(greatest_speed_mps=greatest_speed_mps)
    letters = state.strip().upper()
    if len(letters) != 2 or not letters.isalpha():
        raise OutOfRange("state", state, "must be the two letters of a State")
    table = table or tables.load("state_brake_thresholds")
    found = table.where(state=letters)
    if not found:
        return StateBrakes(
            known=False, brakes_required=None, above_kg=None, said="Not known here, ask locally."
        )
    row = found[0]
    above = float(row["above_kg"])
    slow = greatest_speed_mps is not None and not exceeds(greatest_speed_mps, row["slow_speed_mps"])
    if slow:
        above = max(above, float(row["slow_above_kg"]))
    required = exceeds(trailer_gross_mass_kg, above)
    said = (
        "This State asks for brakes at this weight."
        if required
        else "Below this State's weight limit. Other rules, and the rules of States you pass through, still apply."
    )
    return StateBrakes(known=True, brakes_required=required, above_kg=above, said=said)


@calculation(
    FAMILY,
    "trailer ≤ 1.75 × truck GVWR to 12,000 lb;  ≤ 1.25 × truck GVWR to 20,000 lb",
    symbols={
        "trailer_gvwr_kg": "trailer",
        "truck_gvwr_kg": "truck GVWR",
        "trailer_gross_mass_kg": "actual",
        "ratio_number": "trailer / truck",
    },
)
def surge_brakes_allowed(
    truck_gvwr_kg: float, trailer_gvwr_kg: float | None = None, trailer_gross_mass_kg: float | None = None
) -> SurgeBrakes:
    """Whether surge brakes are allowed on this trailer behind this truck.

    Up to 12,000 lb the trailer may be 1.75 times the truck's GVWR, above that and under 20,001 lb 1.25 times. The
    trailer's actual weight counts instead of its GVWR when it is more, or when the label is missing.

    Parameters
    ----------
    truck_gvwr_kg : float
        Gross vehicle weight rating of the truck [kg].
    trailer_gvwr_kg : float, optional
        Gross vehicle weight rating of the trailer; none if its label is missing [kg].
    trailer_gross_mass_kg : float, optional
        What the trailer weighs now [kg].

    Returns
    -------
    SurgeBrakes
        Whether they are allowed, ratio and its limit [-], the least truck rating and the weight counted [kg], and why.

    Raises
    ------
    OutOfRange
        If a weight is not above zero, or neither rating nor weight of the trailer is given.

    Notes
    -----
    Federal rule for commercial vehicles. The weight that counts also decides the band, which is the stricter reading.
    States may differ. Reverse needs the fifth wire or a lever.

    Examples
    --------
    An 11,500 lb trailer needs a truck of at least 6,571.4 lb GVWR.

    >>> surge = surge_brakes_allowed(6600 * 0.45359237, 11500 * 0.45359237)
    >>> surge.allowed, round(surge.least_truck_gvwr_kg / 0.45359237, 1)
    (True, 6571.4)

    References
    ----------
    .. [1] 49cfr393, 393.48(d)
    """
    positive(truck_gvwr_kg=truck_gvwr_kg)
    if trailer_gvwr_kg is not None:
        positive(trailer_gvwr_kg=trailer_gvwr_kg)
    if trailer_gross_mass_kg is not None:
        positive(trailer_gross_mass_kg=trailer_gross_mass_kg)
    if trailer_gvwr_kg is None and trailer_gross_mass_kg is None:
        raise OutOfRange("trailer_gvwr_kg", None, "or the trailer's actual weight must be given")
    counted = max(value for value in (trailer_gvwr_kg, trailer_gross_mass_kg) if value is not None)
    ratio = counted / truck_gvwr_kg
    if not exceeds(counted, pounds(12_000)):
        limit = 1.75
    elif exceeds(pounds(20_001), counted):
        limit = 1.25
    else:
        return SurgeBrakes(
            allowed=False,
            ratio_number=ratio,
            limit_number=None,
            least_truck_gvwr_kg=None,
            counted_trailer_mass_kg=counted,
            why="Surge brakes are not allowed on a trailer of 20,001 lb or more, behind any truck.",
        )
    allowed = not exceeds(ratio, limit)
    word = "within" if allowed else "above"
    return SurgeBrakes(
        allowed=allowed,
        ratio_number=ratio,
        limit_number=limit,
        least_truck_gvwr_kg=counted / limit,
        counted_trailer_mass_kg=counted,
        why=f"Trailer over truck is {word} {limit:g} to 1.",
    )


@calculation(FAMILY, "row of the table", tables={"table": "brake_performance"})
def brake_performance(vehicle_kind: PerformanceKind, table: Table | None = None) -> BrakePerformance:
    """What brakes of a kind of vehicle must achieve from 20 mph.

    A look-up: braking force, deceleration, service and emergency stop.

    Parameters
    ----------
    vehicle_kind : str
        Row of the rule's table.
    table : Table, optional
        The rule's table.

    Returns
    -------
    BrakePerformance
        Braking force as a share of gross weight [-], deceleration [m/s2], stops [m].

    Raises
    ------
    OutOfRange
        If the table lacks the row.

    Notes
    -----
    The distances are not the decelerations' v²/2a: the rule's own notes forbid to compute them. From 20 mph, level,
    dry, smooth and hard.

    Examples
    --------
    A combination must stop in 40 ft.

    >>> round(brake_performance("B3_other_property_and_combinations").service_stop_m / 0.3048, 6)
    40.0

    References
    ----------
    .. [1] 49cfr393, 393.52(d)
    """
    table = table or tables.load("brake_performance")
    row = table.row(vehicle_kind=vehicle_kind)
    return BrakePerformance(
        vehicle_kind,
        row["braking_force_ratio"],
        row["deceleration_mps2"],
        row["service_stop_m"],
        row["emergency_stop_m"],
    )


@calculation(
    FAMILY,
    "row by use, combination and ratings",
    symbols={"truck_gvwr_kg": "truck GVWR", "trailer_gvwr_kg": "trailer GVWR"},
    tables={"table": "brake_performance"},
)
def brake_performance_of_combination(
    truck_gvwr_kg: float,
    trailer_gvwr_kg: float | None = None,
    truck_axle_count: int = 2,
    *,
    driveaway_towaway: bool = False,
    table: Table | None = None,
) -> BrakePerformance:
    """What the brakes of this truck, alone or with this trailer, must achieve from 20 mph.

    Alone: row B1 up to 10,000 lb GVWR, B2 above. With a trailer: B2 for a two-axle truck with a trailer of 3,000 lb
    GVWR or less, and for deliveries on their own wheels; B3 for all other sets.

    Parameters
    ----------
    truck_gvwr_kg : float
        Gross vehicle weight rating of the truck [kg].
    trailer_gvwr_kg : float, optional
        Gross vehicle weight rating of the trailer; none for the truck alone [kg].
    truck_axle_count : int
        Axles of the truck [-].
    driveaway_towaway : bool
        Whether the set itself is being delivered, two vehicles at most.
    table : Table, optional
        The rule's table.

    Returns
    -------
    BrakePerformance
        Row, braking force [-], deceleration [m/s2], service and emergency stop [m].

    Raises
    ------
    OutOfRange
        If a rating is not above zero or the axles are not 2 to 6.

    Notes
    -----
    Property-carrying vehicles only. Distances are the rule's own and never computed.

    Examples
    --------
    >>> brake_performance_of_combination(5000.0, 6000.0).vehicle_kind
    'B3_other_property_and_combinations'

    References
    ----------
    .. [1] 49cfr393, 393.52(d)
    """
    positive(truck_gvwr_kg=truck_gvwr_kg)
    if not 2 <= truck_axle_count <= 6:
        raise OutOfRange("truck_axle_count", truck_axle_count, "must lie from 2 to 6")
    light: PerformanceKind = "B1_property_single_up_to_10000_lb"
    middle: PerformanceKind = "B2_property_single_heavier_or_light_trailer_or_driveaway"
    other: PerformanceKind = "B3_other_property_and_combinations"
    if trailer_gvwr_kg is None:
        kind = middle if exceeds(truck_gvwr_kg, pounds(10_000)) else light
    else:
        positive(trailer_gvwr_kg=trailer_gvwr_kg)
        small = truck_axle_count == 2 and not exceeds(trailer_gvwr_kg, pounds(3000))
        kind = middle if small or driveaway_towaway else other
    return brake_performance(kind, table)
