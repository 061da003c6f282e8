"""License groups and the commercial threshold, told so that nobody hears that nothing is needed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc._limits import exceeds, positive, pounds, reaches
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "rules_of_the_road"

OTHER_DUTIES: Final = (
    "Not reached by these weights is not the same as free of duties: from 10,001 lb in business use other federal "
    "rules begin (carrier number, medical card, inspection, hours), an air-brake restriction may apply, and States "
    "have license classes and exemptions of their own. Ask the licensing office."
)


@dataclass(frozen=True, slots=True)
class LicenseGroup:
    """The federal license group these weights reach, and what stays to be asked."""

    group: Literal["A", "B", "C", "not reached by these weights"]
    combination_mass_kg: float
    """Combined rating as the license rules count it."""
    combination_margin_kg: float
    """What is left to 26,001 lb; a minus is above."""
    towed_mass_kg: float
    said: str


@dataclass(frozen=True, slots=True)
class CommercialVehicle:
    """Whether the federal motor carrier rules begin for business use between States."""

    reached: bool
    counted_mass_kg: float
    margin_kg: float
    said: str


@calculation(
    FAMILY,
    "GCWR = max(label, Σ max(rating, weight))",
    gives="combination_mass_kg",
    symbols={"gcwr_label_kg": "label", "vehicle_gvwr_kg": "rating", "vehicle_mass_kg": "weight"},
)
def license_combination_weight(
    vehicle_gvwr_kg: tuple[float, ...],
    vehicle_mass_kg: tuple[float, ...] = (),
    gcwr_label_kg: float | None = None,
) -> float:
    """Combined weight rating as the license rules count it.

    GCWR = the greater of the truck maker's labelled figure and the sum, vehicle by vehicle, of rating or actual
    weight, whichever is more.

    Parameters
    ----------
    vehicle_gvwr_kg : tuple of float
        Rating of the truck and of each towed vehicle [kg].
    vehicle_mass_kg : tuple of float
        Actual weight of each, in the same order; may be left out [kg].
    gcwr_label_kg : float, optional
        Combined rating on the truck's certification label, if there is one [kg].

    Returns
    -------
    float
        Combined weight that counts [kg].

    Raises
    ------
    OutOfRange
        If a weight is not above zero or the lists differ.

    Notes
    -----
    A label below the sum does not lower it.

    Examples
    --------
    A label of 25,900 lb over 14,000 and 12,500 lb counts as 26,500 lb.

    >>> license_combination_weight((14000.0, 12500.0), gcwr_label_kg=25900.0)
    26500.0

    References
    ----------
    .. [1] 49cfr383, 383.5 (gross combination weight rating)
    """
    if not vehicle_gvwr_kg:
        raise OutOfRange("vehicle_gvwr_kg", (), "must name at least the truck")
    for rating in vehicle_gvwr_kg:
        positive(vehicle_gvwr_kg=rating)
    if vehicle_mass_kg and len(vehicle_mass_kg) != len(vehicle_gvwr_kg):
        raise OutOfRange(
            "vehicle_mass_kg",
            len(vehicle_mass_kg),
            f"must have as many items as vehicle_gvwr_kg, {len(vehicle_gvwr_kg)}",
        )
    for mass in vehicle_mass_kg:
        positive(vehicle_mass_kg=mass)
    masses = vehicle_mass_kg or vehicle_gvwr_kg
    total = math.fsum(max(pair) for pair in zip(vehicle_gvwr_kg, masses, strict=True))
    if gcwr_label_kg is None:
        return total
    positive(gcwr_label_kg=gcwr_label_kg)
    return max(total, gcwr_label_kg)


@calculation(
    FAMILY,
    "A: GCWR ≥ 26,001 lb and towed > 10,000 lb;  B: truck ≥ 26,001 lb;  C: 16 seats or placarded goods",
    symbols={
        "truck_gvwr_kg": "truck",
        "trailer_gvwr_kg": "towed",
        "gcwr_label_kg": "label",
        "combination_mass_kg": "GCWR",
    },
)
def license_group(
    truck_gvwr_kg: float,
    trailer_gvwr_kg: float | None = None,
    truck_mass_kg: float | None = None,
    trailer_mass_kg: float | None = None,
    gcwr_label_kg: float | None = None,
    seats_count: int = 0,
    *,
    placarded_goods: bool = False,
) -> LicenseGroup:
    """Federal commercial license group these weights reach.

    Group A: combined 26,001 lb or more with a towed unit over 10,000 lb. Group B: a truck of 26,001 lb or more,
    towing at most 10,000 lb. Group C: neither, but 16 seats or placarded goods. Ratings or actual weights, the greater.

    Parameters
    ----------
    truck_gvwr_kg : float
        Rating of the truck [kg].
    trailer_gvwr_kg : float, optional
        Rating of the trailer; none for the truck alone [kg].
    truck_mass_kg : float, optional
        Actual weight of the truck, if weighed [kg].
    trailer_mass_kg : float, optional
        Actual weight of the trailer, if weighed [kg].
    gcwr_label_kg : float, optional
        Combined rating on the truck's certification label, if there is one [kg].
    seats_count : int
        Persons the vehicle is made for, the driver among them [-].
    placarded_goods : bool
        Whether it carries goods that need placards.

    Returns
    -------
    LicenseGroup
        Group, combined and towed weight that count and what is left to 26,001 lb [kg], and a sentence to be read out.

    Raises
    ------
    OutOfRange
        If a weight is not above zero, seats are below zero, or a trailer's weight comes without its rating.

    Notes
    -----
    Federal groups only. Farm, recreational and other exemptions, air brakes and non-commercial classes are the
    State's.

    Examples
    --------
    14,000 lb behind 11,500 lb is 25,500 lb: not reached; behind 14,000 lb it is group A.

    >>> pound = 0.45359237
    >>> license_group(11500 * pound, 14000 * pound).group, license_group(14000 * pound, 14000 * pound).group
    ('not reached by these weights', 'A')

    References
    ----------
    .. [1] 49cfr383, 383.5 and 383.91(a)
    """
    if not 0 <= seats_count <= 300:
        raise OutOfRange("seats_count", seats_count, "must lie from 0 to 300")
    if trailer_mass_kg is not None and trailer_gvwr_kg is None:
        raise OutOfRange("trailer_gvwr_kg", None, "is needed beside trailer_mass_kg")
    for name, mass in (
        ("truck_gvwr_kg", truck_gvwr_kg),
        ("trailer_gvwr_kg", trailer_gvwr_kg),
        ("truck_mass_kg", truck_mass_kg),
        ("trailer_mass_kg", trailer_mass_kg),
    ):
        if mass is not None:
            positive(**{name: mass})
    ratings = (truck_gvwr_kg,) if trailer_gvwr_kg is None else (truck_gvwr_kg, trailer_gvwr_kg)
    weighed = tuple(
        rating if mass is None else mass
        for rating, mass in zip(ratings, (truck_mass_kg, trailer_mass_kg), strict=False)
    )
    label = gcwr_label_kg if trailer_gvwr_kg is not None else None  # counts only while towing
    combined = license_combination_weight(ratings, weighed, label)
    truck = max(ratings[0], weighed[0])
    towed = max(ratings[1], weighed[1]) if len(ratings) > 1 else 0.0
    line = pounds(26_001)
    heavy_tow = exceeds(towed, pounds(10_000))
    group: Literal["A", "B", "C", "not reached by these weights"] = "not reached by these weights"
    if heavy_tow and reaches(combined, line):
        group = "A"
    elif reaches(truck, line):
        group = "B"
    elif seats_count >= 16 or placarded_goods:
        group = "C"
    if group == "not reached by these weights":
        said = f"No federal license group is reached by these weights. {OTHER_DUTIES}"
    else:
        said = f"Group {group} of the federal commercial license. Endorsements and State rules come on top."
    return LicenseGroup(group, combined, line - combined, towed, said)


@calculation(
    FAMILY,
    "begins at 10,001 lb, the greatest of ratings and actual weights, alone or combined",
    symbols={"truck_gvwr_kg": "truck", "trailer_gvwr_kg": "trailer"},
)
def commercial_threshold(
    truck_gvwr_kg: float,
    trailer_gvwr_kg: float | None = None,
    truck_mass_kg: float | None = None,
    trailer_mass_kg: float | None = None,
    gcwr_label_kg: float | None = None,
) -> CommercialVehicle:
    """Whether the federal motor carrier rules begin at these weights, for business use between States.

    They begin at 10,001 lb of rating or actual weight, of the truck alone or of the combination, whichever is more.

    Parameters
    ----------
    truck_gvwr_kg : float
        Rating of the truck [kg].
    trailer_gvwr_kg : float, optional
        Rating of the trailer; none for the truck alone [kg].
    truck_mass_kg : float, optional
        Actual weight of the truck, if weighed [kg].
    trailer_mass_kg : float, optional
        Actual weight of the trailer, if weighed [kg].
    gcwr_label_kg : float, optional
        Combined rating on the truck's certification label, if there is one [kg].

    Returns
    -------
    CommercialVehicle
        Whether the weight is reached, the weight that counts and what is left [kg], and a sentence to be read out.

    Raises
    ------
    OutOfRange
        If a weight is not above zero, or a trailer's weight comes without its rating.

    Notes
    -----
    Weight is one of several ways in: passengers for pay and placarded goods count at any weight, and States set lower
    figures for hauls inside them.

    Examples
    --------
    >>> pound = 0.45359237
    >>> commercial_threshold(10001 * pound).reached, commercial_threshold(10000 * pound).reached
    (True, False)

    References
    ----------
    .. [1] 49cfr390, 390.5 (commercial motor vehicle, 1)
    """
    group = license_group(truck_gvwr_kg, trailer_gvwr_kg, truck_mass_kg, trailer_mass_kg, gcwr_label_kg)
    line = pounds(10_001)
    reached = reaches(group.combination_mass_kg, line)
    said = (
        "At these weights, used in business between States, this is a commercial motor vehicle: carrier number, "
        "inspection, hours and medical rules apply."
        if reached
        else "Below 10,001 lb. Other ways in are passengers for pay and placarded goods; States set figures of their "
        "own. Ask locally."
    )
    return CommercialVehicle(reached, group.combination_mass_kg, line - group.combination_mass_kg, said)
