"""Goods with rules of their own: cars, machines, boulders; and what they lean on: bulkheads and friction mats."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import exceeds, feet, not_negative, positive, pounds, reaches
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table
from sendoff.units import STANDARD_GRAVITY_mps2

FAMILY: Final = "securement"

VehicleRule = Literal["stricter", "rule_text", "drivers_handbook"]
_BOTH: Final = "The rule's text and the drivers' handbook disagree; the stricter is the default."


@dataclass(frozen=True, slots=True)
class VehicleTieDowns:
    """Least tie-downs of a car or machine, and what the two texts say."""

    least_count: int
    each_end_count: int
    each_wll_kg: float | None
    """Least working load limit of each, where a text asks for one."""
    rule_text_count: int
    drivers_handbook_count: int
    said: str


@dataclass(frozen=True, slots=True)
class Bulkhead:
    """What a bulkhead the load leans on must withstand and how high it must be."""

    forward_load_kg: float
    forward_force_N: float
    least_height_m: float
    holds_height: bool


@dataclass(frozen=True, slots=True)
class BoulderTieDowns:
    """Chains of a large boulder by its shape and base."""

    rule_applies: bool
    chain_count: int
    aggregate_needed_kg: float
    ring_chain_wll_kg: float | None
    stay_count: int
    stay_wll_kg: float | None
    said: str


def _vehicle(kind: str, rule: VehicleRule, table: Table | None, extra: str) -> VehicleTieDowns:
    table = table or tables.load("vehicle_tie_downs")
    text = table.row(item_kind=kind, rule="rule_text")
    book = table.row(item_kind=kind, rule="drivers_handbook")
    rows = {"rule_text": (text,), "drivers_handbook": (book,)}.get(rule, (text, book))
    limits = [row["each_wll_kg"] for row in rows if row["each_wll_kg"] is not None]
    said = (
        f"Rule text: {text['least_count']} in all, front and rear held. "
        f"Drivers' handbook: {book['each_end_count']} at each end. {_BOTH} {extra}"
    )
    return VehicleTieDowns(
        max(row["least_count"] for row in rows),
        max(row["each_end_count"] for row in rows),
        max(limits) if limits else None,
        text["least_count"],
        book["least_count"],
        said.strip(),
    )


@calculation(
    FAMILY,
    "rule text 2 in all, drivers' handbook 2 at each end: the stricter",
    tables={"table": "vehicle_tie_downs"},
)
def car_tie_downs(
    car_mass_kg: float, rule: VehicleRule = "stricter", table: Table | None = None
) -> VehicleTieDowns:
    """Least tie-downs of a car, light truck or van up to 10,000 lb.

    The rule's text asks for two in all, holding front and rear; the drivers' handbook for two at each end. The
    stricter is the default, and both are told.

    Parameters
    ----------
    car_mass_kg : float
        Weight of the car [kg].
    rule : str
        Which text; the stricter unless asked otherwise.
    table : Table, optional
        Both texts.

    Returns
    -------
    VehicleTieDowns
        Least count in all and at each end [-], each one's least limit where asked [kg], and both texts in words.

    Raises
    ------
    OutOfRange
        If the weight is not above zero, or above 10,000 lb: then it is a machine.

    Notes
    -----
    The aggregate must be half the weight on top. On the car's structure only at points made for it; wheel straps must
    hold sideways, lengthwise and down, and need no edge protection on tires. Nothing across an electric car's battery.

    Examples
    --------
    >>> car_tie_downs(1600.0).least_count, car_tie_downs(1600.0, "rule_text").least_count
    (4, 2)

    References
    ----------
    .. [1] 49cfr393, 393.128(a), (b)
    .. [2] nacss_handbook, automobiles
    """
    positive(car_mass_kg=car_mass_kg)
    if exceeds(car_mass_kg, pounds(10_000)):
        raise OutOfRange(
            "car_mass_kg", car_mass_kg, "must not be above 10,000 lb (4,536 kg): see machine_tie_downs"
        )
    both = ""
    if reaches(car_mass_kg, pounds(10_000)):
        both = "At exactly 10,000 lb the rule for machines bites as well: at least four."
    found = _vehicle("car", rule, table, both)
    if both:
        machine = machine_tie_downs(car_mass_kg, rule)
        return VehicleTieDowns(
            max(found.least_count, machine.least_count),
            max(found.each_end_count, machine.each_end_count),
            machine.each_wll_kg,
            found.rule_text_count,
            found.drivers_handbook_count,
            found.said,
        )
    return found


@calculation(
    FAMILY, "at least 4, near front and rear or at maker's points", tables={"table": "vehicle_tie_downs"}
)
def machine_tie_downs(
    machine_mass_kg: float, rule: VehicleRule = "stricter", table: Table | None = None
) -> VehicleTieDowns:
    """Least tie-downs of a wheeled or tracked machine or heavy vehicle.

    At least four, as near to front and rear as can be or at the maker's own points; the drivers' handbook asks each of
    them for 5,000 lb, which the rule's text does not.

    Parameters
    ----------
    machine_mass_kg : float
        Weight of the machine [kg].
    rule : str
        Which text; the stricter unless asked otherwise.
    table : Table, optional
        Both texts.

    Returns
    -------
    VehicleTieDowns
        Least count in all and at each end [-], each one's least limit where asked [kg], and both texts in words.

    Raises
    ------
    OutOfRange
        If the weight is not above zero.

    Notes
    -----
    Required from 10,000 lb; lighter machines may be held this way, as cars, or as general cargo, and the handbook's
    5,000 lb is then not asked. Attachments lowered and secured, articulation locked, parking brake on.

    Examples
    --------
    >>> found = machine_tie_downs(18000 * 0.45359237)
    >>> found.least_count, round(found.each_wll_kg / 0.45359237)
    (4, 5000)

    References
    ----------
    .. [1] 49cfr393, 393.130(a) to (c)
    .. [2] nacss_handbook, chapter 10
    """
    positive(machine_mass_kg=machine_mass_kg)
    extra = "Lower and secure attachments, lock articulation."
    found = _vehicle("machine", rule, table, extra)
    if reaches(machine_mass_kg, pounds(10_000)):
        return found
    return VehicleTieDowns(
        found.least_count,
        found.each_end_count,
        None,
        found.rule_text_count,
        found.drivers_handbook_count,
        f"Below 10,000 lb the rule for cars or the general rule may be used instead. {extra}",
    )


@calculation(
    FAMILY,
    "F = 0.5·weight below 6 ft of height, 0.4·weight from 6 ft;  height ≥ min(4 ft, blocking height)",
    symbols={"cargo_mass_kg": "weight", "bulkhead_height_m": "height"},
)
def bulkhead_strength(
    cargo_mass_kg: float, bulkhead_height_m: float, blocking_height_m: float | None = None
) -> Bulkhead:
    """What a bulkhead or headboard that the load leans on must withstand.

    Half the load's weight forward if it is under 6 ft tall, 0.4 of it at 6 ft and more; it must reach 4 ft or the
    height at which it blocks the load, whichever is lower.

    Parameters
    ----------
    cargo_mass_kg : float
        Weight of all cargo it must stop [kg].
    bulkhead_height_m : float
        Height of the bulkhead above the deck [m].
    blocking_height_m : float, optional
        Height at which it blocks every item, if lower than 4 ft [m].

    Returns
    -------
    Bulkhead
        Load [kg], force [N], least height [m] and whether it is high enough.

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Notes
    -----
    For cargo in contact with it; it must also resist being pierced and have no opening the cargo could pass.

    Examples
    --------
    12,000 lb: 6,000 lb for a 4 ft bulkhead, 4,800 lb for one of 6 ft.

    >>> [round(bulkhead_strength(12000.0, feet * 0.3048).forward_load_kg) for feet in (4, 6)]
    [6000, 4800]

    References
    ----------
    .. [1] 49cfr393, 393.114(b), (c)
    """
    positive(cargo_mass_kg=cargo_mass_kg, bulkhead_height_m=bulkhead_height_m)
    least = feet(4)
    if blocking_height_m is not None:
        positive(blocking_height_m=blocking_height_m)
        least = min(least, blocking_height_m)
    share = 0.4 if reaches(bulkhead_height_m, feet(6)) else 0.5
    load = share * cargo_mass_kg
    return Bulkhead(load, load * STANDARD_GRAVITY_mps2, least, reaches(bulkhead_height_m, least))


@calculation(
    FAMILY,
    "held = share·weight on the mat",
    gives="held_kg",
    symbols={"mass_on_mat_kg": "weight on the mat", "rated_ratio": "share", "held_kg": "held"},
)
def friction_mat_resistance(mass_on_mat_kg: float, rated_ratio: float | None = None) -> float:
    """Horizontal resistance of a friction mat.

    Half the weight on it, unless the maker has marked or rated it.

    Parameters
    ----------
    mass_on_mat_kg : float
        Weight on the mat [kg].
    rated_ratio : float, optional
        The maker's own share, such as 60 % [-].

    Returns
    -------
    float
        Resistance to sliding, as a weight [kg].

    Raises
    ------
    OutOfRange
        If the weight is below zero or the share is not from 0 to 100 %.

    Notes
    -----
    Clean and dry mat and deck. A mat is part of a securement, never all of it.

    Examples
    --------
    >>> friction_mat_resistance(3000.0)
    1500.0

    References
    ----------
    .. [1] 49cfr393, 393.108(g)
    """
    not_negative(mass_on_mat_kg=mass_on_mat_kg)
    share = 0.5
    if rated_ratio is not None:
        not_negative(rated_ratio=rated_ratio)
        if rated_ratio > 1:
            raise OutOfRange("rated_ratio", rated_ratio, "must not be above 100 %")
        share = rated_ratio
    return share * mass_on_mat_kg


@calculation(
    FAMILY,
    "Σ WLL ≥ ½·weight;  unstable: ring ≥ ½·weight and four stays ≥ ¼·weight each",
    symbols={"boulder_mass_kg": "weight"},
)
def boulder_tie_downs(
    boulder_mass_kg: float,
    base: Literal["cubic", "stable", "unstable"] = "stable",
    boulder_volume_m3: float | None = None,
) -> BoulderTieDowns:
    """Chains of a large natural boulder on an open bed.

    Only chain. Cubic: at least two across. Stable base: at least two crossed over the middle. Their limits together
    at least half the weight. Unstable base: one ring chain of at least half the weight at 1/2 to 2/3 of its height,
    and four stays of at least a quarter each.

    Parameters
    ----------
    boulder_mass_kg : float
        Weight of the boulder [kg].
    base : str
        Cubic, other with a stable base, or with an unstable base.
    boulder_volume_m3 : float, optional
        Its volume [m3].

    Returns
    -------
    BoulderTieDowns
        Whether the rule bites, counts [-], least limits [kg], and how to lay them.

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Notes
    -----
    Above 11,000 lb or 2 m³ on an open bed; lighter pieces from 220 lb may follow it or the general rule. Flattest side
    down, on hardwood of at least 4 by 4 in.

    Examples
    --------
    >>> found = boulder_tie_downs(16000.0, "unstable")
    >>> found.ring_chain_wll_kg, found.stay_wll_kg
    (8000.0, 4000.0)

    References
    ----------
    .. [1] 49cfr393, 393.136(a) to (f)
    """
    positive(boulder_mass_kg=boulder_mass_kg)
    applies = exceeds(boulder_mass_kg, pounds(11_000))
    if boulder_volume_m3 is not None:
        positive(boulder_volume_m3=boulder_volume_m3)
        applies = applies or exceeds(boulder_volume_m3, 2.0)
    half = boulder_mass_kg / 2
    if base == "unstable":
        said = "Ring chain at 1/2 to 2/3 of the height, four stays to it, 45 degrees or flatter."
        return BoulderTieDowns(applies, 5, half, half, 4, boulder_mass_kg / 4, said)
    said = (
        "At least two chains straight across, close to the wood blocking."
        if base == "cubic"
        else "At least two chains in an X over the middle, shackled together where they cross."
    )
    return BoulderTieDowns(applies, 2, half, None, 0, None, said)
