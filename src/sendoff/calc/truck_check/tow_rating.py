"""What a published tow rating already assumes, and what is left of it with this truck as it is loaded."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.calc.truck_check.ratings import PERSON_kg
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "truck_check"


@dataclass(frozen=True, slots=True)
class RatingAssumptions:
    """What a tow rating assumes to be on the coupling and aboard the truck."""

    coupling_share_ratio: float
    people_count: int
    person_mass_kg: float


@dataclass(frozen=True, slots=True)
class RatingTests:
    """What a combination must do to earn its rating."""

    from_0_to_30_mph_s: float
    from_0_to_60_mph_s: float
    from_40_to_60_mph_s: float
    least_hill_speed_mps: float
    launch_grade_ratio: float
    launch_distance_m: float


@calculation(FAMILY, "row of the table", tables={"table": "tow_rating_assumptions"})
def tow_rating_assumptions(
    coupling: Literal["ball", "gooseneck", "fifth_wheel"], table: Table | None = None
) -> RatingAssumptions:
    """What a tow rating after SAE J2807 assumes on the coupling and aboard the truck.

    A look-up: 10 % on a ball, 15 % on a fifth wheel or gooseneck, two people of 150 lb.

    Parameters
    ----------
    coupling : str
        What the trailer hooks on.
    table : Table, optional
        Assumptions.

    Returns
    -------
    RatingAssumptions
        Share on the coupling [-], people [-] and what each weighs [kg].

    Raises
    ------
    OutOfRange
        If the table lacks the coupling.

    Notes
    -----
    A trailer with more on its coupling, or a truck with more aboard, uses up payload and axles first.

    Examples
    --------
    >>> tow_rating_assumptions("gooseneck").coupling_share_ratio
    0.15

    References
    ----------
    .. [1] sae_j2807, test conditions
    """
    table = table or tables.load("tow_rating_assumptions")
    row = table.row(coupling=coupling)
    return RatingAssumptions(row["coupling_share_ratio"], row["people_count"], row["person_mass_kg"])


@calculation(FAMILY, "row of the table", tables={"table": "tow_rating_tests"})
def tow_rating_tests(rear_wheels: Literal["single", "dual"], table: Table | None = None) -> RatingTests:
    """What a combination must do to earn its tow rating after SAE J2807.

    A look-up: times to speed, least speed on the hill, launch on a 12 % grade.

    Parameters
    ----------
    rear_wheels : str
        Single or dual rear wheels of the truck.
    table : Table, optional
        Limits of the tests.

    Returns
    -------
    RatingTests
        Times [s], least speed on the hill [m/s], launch grade [-] and launch distance [m].

    Raises
    ------
    OutOfRange
        If the table lacks the wheels.

    Notes
    -----
    The launch grade is 12 per cent, not 12 degrees as one dealer's page prints.

    Examples
    --------
    >>> tow_rating_tests("dual").from_0_to_60_mph_s
    35.0

    References
    ----------
    .. [1] sae_j2807, acceleration, hill and launch tests
    """
    table = table or tables.load("tow_rating_tests")
    row = table.row(rear_wheels=rear_wheels)
    return RatingTests(
        row["from_0_to_30_mph_s"],
        row["from_0_to_60_mph_s"],
        row["from_40_to_60_mph_s"],
        row["least_hill_speed_mps"],
        row["launch_grade_ratio"],
        row["launch_distance_m"],
    )


@calculation(
    FAMILY,
    "left = rating − max(0, n·p + gear − 2·150 lb)",
    gives="tow_rating_left_kg",
    symbols={"tow_rating_kg": "rating", "people_count": "n", "person_mass_kg": "p", "gear_mass_kg": "gear"},
)
def tow_rating_as_loaded(
    tow_rating_kg: float,
    people_count: int,
    person_mass_kg: float = PERSON_kg,
    gear_mass_kg: float = 0.0,
) -> float:
    """What is left of a tow rating when more is aboard than the two people it assumes.

    left = rating − max(0, n·p + gear − 300 lb).

    Parameters
    ----------
    tow_rating_kg : float
        The truck maker's tow rating [kg].
    people_count : int
        People aboard, the driver among them [-].
    person_mass_kg : float
        What each weighs [kg].
    gear_mass_kg : float
        Cargo and gear in the truck beyond its standard equipment [kg].

    Returns
    -------
    float
        Tow rating left [kg].

    Raises
    ------
    OutOfRange
        If the rating is not above zero, a mass is below zero, the people are not 1 to 100, or nothing is left.

    Notes
    -----
    From memory: the combined rating stays as it is, so what is aboard beyond two people comes off the trailer.

    Examples
    --------
    >>> round(tow_rating_as_loaded(4500.0, 4, 90.0, 100.0))
    4176

    References
    ----------
    .. [1] sae_j2807, test conditions
    """
    positive(tow_rating_kg=tow_rating_kg, person_mass_kg=person_mass_kg)
    not_negative(gear_mass_kg=gear_mass_kg)
    if not 1 <= people_count <= 100:
        raise OutOfRange("people_count", people_count, "must lie from 1 to 100")
    beyond = max(people_count * person_mass_kg + gear_mass_kg - 2 * PERSON_kg, 0.0)
    if not exceeds(tow_rating_kg, beyond):
        raise OutOfRange("gear_mass_kg", gear_mass_kg, "must leave something of the tow rating")
    return tow_rating_kg - beyond
