"""Cargo capacity, weighed and unweighed, and what a yard that adds mass or delivers must see to."""

from __future__ import annotations

from dataclasses import dataclass

from sendoff import tables
from sendoff.calc._limits import exceeds, not_negative, positive
from sendoff.calc.contract import calculation, require_between
from sendoff.errors import OutOfRange
from sendoff.tables import Table


@dataclass(frozen=True, slots=True)
class CargoCapacity:
    """What may be loaded, and how sure it is."""

    capacity_kg: float
    """Best figure."""
    least_kg: float
    """What is left when the empty mass is as far out as its uncertainty allows: plan with this one."""
    weighed: bool


@dataclass(frozen=True, slots=True)
class Relabel:
    """Whether mass added before the first sale asks for corrected labels."""

    needed: bool | None
    """None, not known here, where no federal threshold was found for the trailer: ask its maker."""
    threshold_kg: float | None


@dataclass(frozen=True, slots=True)
class DeliveryPapers:
    """What the maker's papers must hold when a new vehicle goes to its first owner."""

    defect_statement: bool
    tire_and_load_pack: bool
    topic_count: int
    """Topics of the pack: tire labels, pressure, glossary, care, load limits."""
    least_type_point: int
    """Least size of the print, in points."""
    standard: str


def _rule(name: str, table: Table | None) -> float:
    return float((table or tables.load("rating_label_rules")).row(rule=name)["mass_kg"])


@calculation("ratings", "m_cargo = GVWR - m_empty",
             symbols={"gvwr_kg": "GVWR", "empty_mass_kg": "m_empty", "uncertainty_kg": "u", "capacity_kg": "m_cargo",
                      "least_kg": "m_cargo - u"})  # fmt: skip
def cargo_capacity(gvwr_kg: float, empty_mass_kg: float, uncertainty_kg: float = 0.0) -> CargoCapacity:
    """Cargo a trailer may carry, from its own empty weight on a scale.

    The gross vehicle weight rating less the empty mass as weighed; the scale's uncertainty is taken off once more.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating, or the weakest part of the trailer if that is less [kg].
    empty_mass_kg : float
        This unit on a scale, empty, as built, with everything that stays aboard [kg].
    uncertainty_kg : float
        How far the weighing may be off [kg].

    Returns
    -------
    CargoCapacity
        The capacity, and what is left of it at the worst.

    Raises
    ------
    OutOfRange
        If a mass is not above zero, the uncertainty below it, or the trailer empty already heavier than its rating.

    Notes
    -----
    Axles, tires and coupling may be full before: where the cargo stands decides. Water aboard is cargo.

    Examples
    --------
    A public example: 14,000 lb less 4,360 lb leaves 9,640 lb.

    >>> cargo_capacity(14000.0, 4360.0).capacity_kg
    9640.0

    References
    ----------
    .. [1] 49cfr575, 575.6(a)(5) covers vehicles to 10,000 lb; above it the same subtraction is common practice
    .. [2] 49cfr571_110, S9.3.2
    """
    positive(gvwr_kg=gvwr_kg, empty_mass_kg=empty_mass_kg)
    not_negative(uncertainty_kg=uncertainty_kg)
    if exceeds(empty_mass_kg + uncertainty_kg, gvwr_kg):
        raise OutOfRange(
            "empty_mass_kg",
            empty_mass_kg,
            f"must not, with its uncertainty, be above the rating of {gvwr_kg:g} kg",
        )
    capacity = gvwr_kg - empty_mass_kg
    return CargoCapacity(capacity, capacity - uncertainty_kg, weighed=True)


@calculation("ratings", "m_cargo = GVWR - (m_type + Σm_option)",
             symbols={"gvwr_kg": "GVWR", "type_mass_kg": "m_type", "option_mass_kg": "m_option", "uncertainty_kg": "u",
                      "capacity_kg": "m_cargo", "least_kg": "m_cargo - u"})  # fmt: skip
def cargo_capacity_unweighed(
    gvwr_kg: float, type_mass_kg: float, uncertainty_kg: float, option_mass_kg: tuple[float, ...] = ()
) -> CargoCapacity:
    """Cargo a trailer may carry, estimated without a scale from its type's mass and its options.

    The rating less the type's own empty mass and every option's; the uncertainty must be stated and is taken off.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating, or the weakest part of the trailer if that is less [kg].
    type_mass_kg : float
        Empty mass of the type without options [kg].
    uncertainty_kg : float
        How far the sum may be off [kg].
    option_mass_kg : tuple of float
        What each option adds; less than zero where it replaces something heavier [kg].

    Returns
    -------
    CargoCapacity
        The estimate, and what is left of it at the worst; marked as not weighed.

    Raises
    ------
    OutOfRange
        If a mass is not above zero, the uncertainty is zero or less, or nothing is left to carry.

    Notes
    -----
    Options add 300 to 1,500 lb over a brochure (common practice, no source): weigh the unit before it leaves.

    Examples
    --------
    Written out: 14,000 - (4,000 + 360) = 9,640, at the worst 200 less.

    >>> done = cargo_capacity_unweighed(14000.0, 4000.0, 200.0, (300.0, 60.0))
    >>> done.capacity_kg, done.least_kg, done.weighed
    (9640.0, 9440.0, False)

    References
    ----------
    .. [1] 49cfr567, 567.4(g)(3), solved for the cargo
    .. [2] common_practice, what options add
    """
    positive(gvwr_kg=gvwr_kg, type_mass_kg=type_mass_kg, uncertainty_kg=uncertainty_kg)
    for mass in option_mass_kg:
        require_between(-1e5, 1e5, "kg", option_mass_kg=mass)
    capacity = gvwr_kg - type_mass_kg - sum(option_mass_kg)
    if exceeds(uncertainty_kg, capacity):
        raise OutOfRange("gvwr_kg", gvwr_kg, "leaves nothing to carry: weigh the unit")
    return CargoCapacity(capacity, capacity - uncertainty_kg, weighed=False)


@calculation("ratings", "needed if m > min(100 lb, 1.5 % · GVWR)",
             symbols={"added_mass_kg": "m", "gvwr_kg": "GVWR", "threshold_kg": "min"},
             tables={"table": "rating_label_rules"})  # fmt: skip
def relabel_needed(
    added_mass_kg: float,
    gvwr_kg: float,
    recreation_trailer: bool = False,  # noqa: FBT001, FBT002
    table: Table | None = None,
) -> Relabel:
    """Whether mass added between certification and first sale asks for corrected capacity labels.

    Up to 10,000 lb of rating: above the lesser of 100 lb and 1.5 % of the rating. Above it: 100 lb, and only for
    motor homes and recreation trailers.

    Parameters
    ----------
    added_mass_kg : float
        Mass the yard or dealer added after certification [kg].
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    recreation_trailer : bool
        Yes for a recreation trailer, with living quarters.
    table : Table, optional
        Figures of the rules.

    Returns
    -------
    Relabel
        Whether it is needed, and the threshold.

    Raises
    ------
    OutOfRange
        If the rating is not above zero, or the added mass below it.

    Notes
    -----
    The corrected value must be within one percent of the mass added. Mass taken off asks for nothing. No threshold
    is known here for other trailers above 10,000 lb: ask the maker.

    Examples
    --------
    By the rule: on a 5,000 lb trailer 1.5 % is 75 lb, less than 100.

    >>> round(relabel_needed(80.0 * 0.45359237, 5000.0 * 0.45359237).threshold_kg / 0.45359237, 6)
    75.0

    References
    ----------
    .. [1] 49cfr571_110, S10.1, S10.2
    .. [2] 49cfr571_120, S10.5.1
    """
    not_negative(added_mass_kg=added_mass_kg)
    positive(gvwr_kg=gvwr_kg)
    row = (table or tables.load("rating_label_rules")).row(rule="relabel")
    threshold: float | None = float(row["mass_kg"])
    if not exceeds(gvwr_kg, _rule("light_vehicle", table)):
        threshold = min(float(row["mass_kg"]), float(row["share_ratio"]) * gvwr_kg)
    elif not recreation_trailer:
        return Relabel(needed=None, threshold_kg=None)
    return Relabel(exceeds(added_mass_kg, threshold or 0.0), threshold)


@calculation("ratings", "defect statement always; tire and load pack up to 10,000 lb",
             symbols={"gvwr_kg": "GVWR"}, tables={"table": "rating_label_rules"})  # fmt: skip
def delivery_papers(gvwr_kg: float, table: Table | None = None) -> DeliveryPapers:
    """What the maker's papers must hold when a new trailer goes to its first owner.

    The statement on reporting defects with every vehicle; up to 10,000 lb also tire labels, pressure, glossary, tire
    care and load limits, with the prescribed steps for trailers.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    table : Table, optional
        Figures of the rules.

    Returns
    -------
    DeliveryPapers
        Which of both the papers must hold, and the rule.

    Raises
    ------
    OutOfRange
        If the rating is not above zero.

    Notes
    -----
    In English, in writing, at least 10 point. The maker writes them: the yard sees that they are there.

    Examples
    --------
    By the rule, at 9,990 and 14,000 lb.

    >>> pound = 0.45359237
    >>> delivery_papers(9990 * pound).tire_and_load_pack, delivery_papers(14000 * pound).tire_and_load_pack
    (True, False)

    References
    ----------
    .. [1] 49cfr575, 575.6(a)(2),(4),(5)
    """
    positive(gvwr_kg=gvwr_kg)
    light = not exceeds(gvwr_kg, _rule("light_vehicle", table))
    return DeliveryPapers(
        defect_statement=True,
        tire_and_load_pack=light,
        topic_count=5 if light else 0,
        least_type_point=10,
        standard="575.6",
    )
