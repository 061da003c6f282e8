"""The truck's own limits: payload with people aboard, gross weights, axles, and what trailer they leave room for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import Limit, limit_of, not_negative, positive, pounds
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "truck_check"

PERSON_kg: Final = pounds(150)
"""What tire placards and SAE J2807 count a person as; real people weigh what they weigh."""


@dataclass(frozen=True, slots=True)
class PayloadLeft:
    """What is left of the truck's payload, before and after the trailer's coupling load."""

    people_kg: float
    left_for_trailer_and_gear_kg: float
    left_kg: float
    holds: bool


@dataclass(frozen=True, slots=True)
class AxleRatings:
    """Front and rear axle of the truck against their ratings, and the weaker of them."""

    front: Limit
    rear: Limit
    least_margin_kg: float
    holds: bool


@dataclass(frozen=True, slots=True)
class TrailerAllowed:
    """The heaviest loaded trailer each limit of the truck leaves room for, and the least of them."""

    by_combination_rating_kg: float | None
    by_payload_kg: float | None
    by_receiver_kg: float | None
    by_receiver_tongue_kg: float | None
    by_tow_rating_kg: float | None
    least_kg: float
    limited_by: str


def _require_people(people_count: int) -> None:
    if not 0 <= people_count <= 100:
        raise OutOfRange("people_count", people_count, "must lie from 0 to 100")


@calculation(
    FAMILY,
    "payload = GVWR − truck on the scale",
    gives="payload_kg",
    symbols={"gvwr_kg": "GVWR", "truck_on_scale_kg": "truck on the scale", "payload_kg": "payload"},
)
def payload_from_scale(gvwr_kg: float, truck_on_scale_kg: float) -> float:
    """Payload a truck truly has: its gross rating less what it weighs as built.

    payload = GVWR − truck on the scale.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating from the certification label [kg].
    truck_on_scale_kg : float
        The truck on a certified scale, fueled, empty, as built [kg].

    Returns
    -------
    float
        Payload; a minus means the truck alone is over [kg].

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Notes
    -----
    Say who and what was aboard. Options add hundreds of pounds over the brochure; the door sticker belongs to the
    truck as it left the factory.

    Examples
    --------
    >>> payload_from_scale(11500.0, 7800.0)
    3700.0

    References
    ----------
    .. [1] common_practice, payload from a scale ticket
    """
    positive(gvwr_kg=gvwr_kg, truck_on_scale_kg=truck_on_scale_kg)
    return gvwr_kg - truck_on_scale_kg


@calculation(
    FAMILY,
    "left = payload − n·p − gear − T",
    symbols={
        "payload_rating_kg": "payload",
        "people_count": "n",
        "person_mass_kg": "p",
        "gear_mass_kg": "gear",
        "coupling_load_kg": "T",
        "left_kg": "left",
    },
)
def payload_left(
    payload_rating_kg: float,
    people_count: int,
    person_mass_kg: float = PERSON_kg,
    gear_mass_kg: float = 0.0,
    coupling_load_kg: float = 0.0,
) -> PayloadLeft:
    """What is left of the truck's payload with people, gear and the trailer's coupling load.

    left = payload − n·p − gear − T.

    Parameters
    ----------
    payload_rating_kg : float
        From the placard, or better from a scale ticket [kg].
    people_count : int
        People aboard, the driver among them [-].
    person_mass_kg : float
        What each weighs; 150 lb as the federal example counts [kg].
    gear_mass_kg : float
        Cargo and gear in the truck, hitch included [kg].
    coupling_load_kg : float
        Tongue weight, pin weight or kingpin load [kg].

    Returns
    -------
    PayloadLeft
        People, what is left before and after gear and trailer [kg], and whether it holds.

    Raises
    ------
    OutOfRange
        If the payload is not above zero, a mass is below zero, or the people are not 0 to 100.

    Notes
    -----
    Axle ratings are limits of their own. Air bags and helper springs level a truck; they add no rating.

    Examples
    --------
    Federal example: a placard of 1,400 lb and five people of 150 lb leave 650 lb, and the tongue comes out of that.

    >>> left = payload_left(1400.0, 5, 150.0, coupling_load_kg=600.0)
    >>> left.left_for_trailer_and_gear_kg, left.left_kg
    (650.0, 50.0)

    References
    ----------
    .. [1] 49cfr575, 575.6(a)(5)(i), step 4 and following
    """
    positive(payload_rating_kg=payload_rating_kg, person_mass_kg=person_mass_kg)
    not_negative(gear_mass_kg=gear_mass_kg, coupling_load_kg=coupling_load_kg)
    _require_people(people_count)
    people = people_count * person_mass_kg
    before = payload_rating_kg - people
    load = limit_of(people + gear_mass_kg + coupling_load_kg, payload_rating_kg)
    return PayloadLeft(people, before, load.margin_kg, load.holds)


@calculation(
    FAMILY,
    "margin = GCWR − (truck + trailer)",
    symbols={"gcwr_kg": "GCWR", "truck_mass_kg": "truck", "trailer_mass_kg": "trailer"},
)
def combination_weight_check(truck_mass_kg: float, trailer_mass_kg: float, gcwr_kg: float) -> Limit:
    """Hold truck and trailer together against the combined weight rating.

    margin = GCWR − (truck + trailer); all wheels on a scale show the sum.

    Parameters
    ----------
    truck_mass_kg : float
        Truck with people and gear, without coupling load [kg].
    trailer_mass_kg : float
        Trailer and cargo, coupling load included [kg].
    gcwr_kg : float
        Gross combined weight rating of the truck [kg].

    Returns
    -------
    Limit
        Demand, capacity, margin [kg], used share [-], and whether it holds.

    Raises
    ------
    OutOfRange
        If a mass is not above zero.

    Notes
    -----
    The truck maker's rating to keep the set drivable; the license rules use a combination rating of their own.

    Examples
    --------
    >>> combination_weight_check(8000.0, 15000.0, 24000.0).margin_kg
    1000.0

    References
    ----------
    .. [1] common_practice, combined weight rating
    """
    positive(truck_mass_kg=truck_mass_kg, trailer_mass_kg=trailer_mass_kg, gcwr_kg=gcwr_kg)
    return limit_of(truck_mass_kg + trailer_mass_kg, gcwr_kg)


@calculation(FAMILY, "margin = rating − load, front and rear")
def truck_axle_ratings_check(
    front_axle_load_kg: float,
    rear_axle_load_kg: float,
    front_axle_rating_kg: float,
    rear_axle_rating_kg: float,
) -> AxleRatings:
    """Hold the truck's axle loads against their ratings.

    margin = rating − load for each axle.

    Parameters
    ----------
    front_axle_load_kg : float
        Front axle, coupled and loaded [kg].
    rear_axle_load_kg : float
        Rear axle, coupled and loaded [kg].
    front_axle_rating_kg : float
        Front axle rating from the certification label [kg].
    rear_axle_rating_kg : float
        Rear axle rating [kg].

    Returns
    -------
    AxleRatings
        Each axle's demand, capacity and margin, the lesser margin [kg], and whether both hold.

    Raises
    ------
    OutOfRange
        If a load is below zero or a rating is not above zero.

    Notes
    -----
    Tires and wheels may be rated lower than the axle, above all after they were changed.

    Examples
    --------
    >>> truck_axle_ratings_check(4800.0, 9100.0, 5600.0, 9000.0).least_margin_kg
    -100.0

    References
    ----------
    .. [1] 49cfr567, 567.4(g)(4): gross axle weight rating
    """
    not_negative(front_axle_load_kg=front_axle_load_kg, rear_axle_load_kg=rear_axle_load_kg)
    positive(front_axle_rating_kg=front_axle_rating_kg, rear_axle_rating_kg=rear_axle_rating_kg)
    front = limit_of(front_axle_load_kg, front_axle_rating_kg)
    rear = limit_of(rear_axle_load_kg, rear_axle_rating_kg)
    return AxleRatings(front, rear, min(front.margin_kg, rear.margin_kg), front.holds and rear.holds)


@calculation(
    FAMILY,
    "least of GCWR − truck, payload left / share, receiver rating, tongue rating / share, tow rating",
    symbols={"coupling_share_ratio": "share", "gcwr_kg": "GCWR", "truck_mass_kg": "truck"},
)
def heaviest_trailer(
    coupling_share_ratio: float,
    truck_mass_kg: float | None = None,
    gcwr_kg: float | None = None,
    payload_left_kg: float | None = None,
    receiver_rating_kg: float | None = None,
    receiver_tongue_rating_kg: float | None = None,
    tow_rating_kg: float | None = None,
) -> TrailerAllowed:
    """Heaviest loaded trailer this truck's limits leave room for, and which of them says so.

    The least of GCWR − truck, payload left / share, receiver rating, tongue rating / share, and tow rating; each only
    where it is known.

    Parameters
    ----------
    coupling_share_ratio : float
        Share of the trailer's weight on its coupling [-].
    truck_mass_kg : float, optional
        Truck with people and gear; needed with the combined rating [kg].
    gcwr_kg : float, optional
        Gross combined weight rating [kg].
    payload_left_kg : float, optional
        Payload left after people and gear [kg].
    receiver_rating_kg : float, optional
        Trailer rating of the receiver or bed ball [kg].
    receiver_tongue_rating_kg : float, optional
        Its rating for tongue or pin weight [kg].
    tow_rating_kg : float, optional
        The truck maker's tow rating [kg].

    Returns
    -------
    TrailerAllowed
        Trailer mass allowed by each limit, the least [kg] and which it is.

    Raises
    ------
    OutOfRange
        If the share is not above 0 and up to 100 %, a value is not above zero, or no limit is given.

    Notes
    -----
    Only of the limits given: rear axle, tires, chains and brakes are checks of their own. None is unknown, not free.

    Examples
    --------
    >>> allowed = heaviest_trailer(0.20, 8000.0, 26000.0, payload_left_kg=3000.0)
    >>> allowed.least_kg, allowed.limited_by
    (15000.0, 'payload')

    References
    ----------
    .. [1] statics, the coupling carries its share of the trailer
    """
    positive(coupling_share_ratio=coupling_share_ratio)
    if coupling_share_ratio > 1:
        raise OutOfRange("coupling_share_ratio", coupling_share_ratio, "must not be above 100 %")
    given = {
        "truck_mass_kg": truck_mass_kg,
        "gcwr_kg": gcwr_kg,
        "receiver_rating_kg": receiver_rating_kg,
        "receiver_tongue_rating_kg": receiver_tongue_rating_kg,
        "tow_rating_kg": tow_rating_kg,
    }
    positive(**{name: value for name, value in given.items() if value is not None})
    if payload_left_kg is not None:
        not_negative(payload_left_kg=payload_left_kg)
    by_combination = None
    if gcwr_kg is not None:
        if truck_mass_kg is None:
            raise OutOfRange("truck_mass_kg", None, "is needed with gcwr_kg")
        by_combination = max(gcwr_kg - truck_mass_kg, 0.0)
    by_payload = None if payload_left_kg is None else payload_left_kg / coupling_share_ratio
    tongue = receiver_tongue_rating_kg
    by_tongue = None if tongue is None else tongue / coupling_share_ratio
    limits = {
        "combination_rating": by_combination,
        "payload": by_payload,
        "receiver": receiver_rating_kg,
        "receiver_tongue": by_tongue,
        "tow_rating": tow_rating_kg,
    }
    known = {name: value for name, value in limits.items() if value is not None}
    if not known:
        raise OutOfRange("gcwr_kg", None, "or another of the truck's limits must be given")
    limited_by = min(known, key=lambda name: known[name])
    return TrailerAllowed(
        by_combination,
        by_payload,
        receiver_rating_kg,
        by_tongue,
        tow_rating_kg,
        known[limited_by],
        limited_by,
    )
