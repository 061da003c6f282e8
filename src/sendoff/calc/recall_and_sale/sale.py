"""Sale: excise tax, odometer statement, claims on a carrier, stock on the road, loads that may fall or blow off."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.calc._limits import exceeds
from sendoff.calc.contract import calculation, require_not_negative, require_positive
from sendoff.calc.upkeep.dates import months_after, require_day
from sendoff.errors import OutOfRange

FAMILY: Final = "recall_and_sale"
LB_kg: Final = 0.45359237
TAX_ratio: Final = 0.12
TAX_FREE_kg: Final = 26_000 * LB_kg
TAX_ENDS: Final = dt.date(2028, 10, 1)
PARTS_MONTHS: Final = 6
PARTS_FREE: Final = 1000.0
ODOMETER_kg: Final = 16_000 * LB_kg
STOCK_LENGTH_m: Final = 82 * 0.3048
CLAIM_MONTHS: Final = 9
SUIT_MONTHS: Final = 24


@dataclass(frozen=True, slots=True)
class ExciseTax:
    """Federal excise tax on a trailer's first retail sale."""

    taxed: bool
    rate_ratio: float
    tax_number: float
    """In the money of the price."""
    why: str


@calculation(
    FAMILY,
    "tax = 12 % of the price if the gross vehicle weight is over 26,000 lb",
    symbols={"price_number": "price", "gross_mass_kg": "gross vehicle weight", "tax_number": "tax"},
)
def trailer_excise_tax(
    price_number: float, gross_mass_kg: float, sold_on: dt.date | None = None
) -> ExciseTax:
    """Federal excise tax on the first retail sale of a trailer.

    12 percent of the price; free at a gross vehicle weight of 26,000 lb or less.

    Parameters
    ----------
    price_number : float
        Price of the first retail sale, in dollars [-].
    gross_mass_kg : float
        Gross vehicle weight of the trailer [kg].
    sold_on : date, optional
        Day of the sale; the text in force in April 2023 ends the tax on 1 October 2028.

    Returns
    -------
    ExciseTax
        Whether it is taxed, rate, tax, why.

    Raises
    ------
    OutOfRange
        If the price is below zero or the weight not above zero.

    Notes
    -----
    Trailers for use behind tractors and their like; what else is exempt is the tax adviser's word, not ours.

    Examples
    --------
    20,000 dollars at 26,001 lb: 2,400; at 26,000 lb nothing.

    >>> round(trailer_excise_tax(20_000.0, 26_001 * 0.45359237).tax_number, 2)
    2400.0
    >>> trailer_excise_tax(20_000.0, 26_000 * 0.45359237).tax_number
    0.0

    References
    ----------
    .. [1] 26usc4051, (a)(1), (a)(3), (c)
    """
    require_not_negative(price_number=price_number)
    require_positive(gross_mass_kg=gross_mass_kg)
    if sold_on is not None and sold_on >= TAX_ENDS:
        return ExciseTax(
            taxed=False,
            rate_ratio=0.0,
            tax_number=0.0,
            why="The text of April 2023 ends the tax on 1 October 2028: ask.",
        )
    if not exceeds(gross_mass_kg, TAX_FREE_kg):
        return ExciseTax(taxed=False, rate_ratio=0.0, tax_number=0.0, why="26,000 lb gross or less is free.")
    return ExciseTax(
        taxed=True,
        rate_ratio=TAX_ratio,
        tax_number=TAX_ratio * price_number,
        why="Over 26,000 lb gross: 12 percent.",
    )


@calculation(
    FAMILY,
    "taxed if fitted within 6 months of first use, no replacement, and all together over $1,000",
    gives="taxed",
    symbols={"cost_number": "cost"},
)
def added_parts_taxed(
    first_used_on: dt.date, fitted_on: dt.date, cost_number: float, *, replacement: bool = False
) -> bool:
    """Whether parts added to a taxed trailer soon after its first use are taxed too.

    Taxed when fitted within six months of first use, unless replacements or all of them together cost 1,000 dollars
    or less.

    Parameters
    ----------
    first_used_on : date
        Day the trailer was first put to use.
    fitted_on : date
        Day the parts were fitted.
    cost_number : float
        Price of all added parts and their fitting together, in dollars [-].
    replacement : bool
        Whether they only replace what was there.

    Returns
    -------
    bool
        True if taxed.

    Raises
    ------
    OutOfRange
        If the cost is below zero, or the parts were fitted before first use.

    Notes
    -----
    For trailers whose sale was taxed: over 26,000 lb gross.

    Examples
    --------
    >>> used = dt.date(2026, 1, 1)
    >>> added_parts_taxed(used, dt.date(2026, 6, 1), 1500.0), added_parts_taxed(used, dt.date(2026, 8, 1), 1500.0)
    (True, False)

    References
    ----------
    .. [1] 26usc4051, (b)
    """
    require_not_negative(cost_number=cost_number)
    require_day(first_used_on=first_used_on, fitted_on=fitted_on)
    if fitted_on < first_used_on:
        raise OutOfRange("fitted_on", fitted_on.isoformat(), "must not lie before first_used_on")
    soon = fitted_on <= months_after(first_used_on, PARTS_MONTHS)
    return soon and not replacement and cost_number > PARTS_FREE


@dataclass(frozen=True, slots=True)
class OdometerStatement:
    """Whether an odometer statement is owed at a transfer."""

    owed: bool
    why: str


@calculation(
    FAMILY, "owed unless not self-propelled, over 16,000 lb GVWR, or new before its first sale to a user"
)
def odometer_statement(
    gvwr_kg: float, *, self_propelled: bool, new_before_first_sale: bool = False
) -> OdometerStatement:
    """Whether an odometer statement is owed when a vehicle changes hands.

    Not for a vehicle that does not drive itself (a trailer), nor for one over 16,000 lb GVWR.

    Parameters
    ----------
    gvwr_kg : float
        Gross vehicle weight rating [kg].
    self_propelled : bool
        Whether it drives itself: no for a trailer.
    new_before_first_sale : bool
        Whether it is new and not yet sold to a user.

    Returns
    -------
    OdometerStatement
        Whether it is owed, and why.

    Raises
    ------
    OutOfRange
        If the rating is not above zero.

    Notes
    -----
    Federal rule of 2015; old vehicles are excused by age as well (not asked here). States may ask for more.

    Examples
    --------
    >>> odometer_statement(16_000 * 0.45359237, self_propelled=True).owed
    True
    >>> odometer_statement(3000.0, self_propelled=False).owed
    False

    References
    ----------
    .. [1] 49cfr580, 580.17(a)(1), (2), (b)
    """
    require_positive(gvwr_kg=gvwr_kg)
    if not self_propelled:
        return OdometerStatement(owed=False, why="A trailer does not drive itself.")
    if exceeds(gvwr_kg, ODOMETER_kg):
        return OdometerStatement(owed=False, why="Rated over 16,000 lb.")
    if new_before_first_sale:
        return OdometerStatement(owed=False, why="New, before its first sale to a user.")
    return OdometerStatement(owed=True, why="Drives itself and is rated 16,000 lb or less.")


@dataclass(frozen=True, slots=True)
class ClaimDeadlines:
    """Days a carrier may not cut short."""

    claim_until: dt.date
    """A contract may not end the time to claim before this day."""
    sue_until: dt.date | None
    """Nor the time to sue before this one; None before a written refusal."""


@calculation(FAMILY, "claim: 9 months; suit: 2 years from the written refusal")
def freight_claim_deadlines(delivered_on: dt.date, refused_on: dt.date | None = None) -> ClaimDeadlines:
    """Days until which a claim for damage in transit, and then a suit, stay open against an interstate carrier.

    A carrier may not set less than nine months to claim, nor less than two years to sue from its written refusal.

    Parameters
    ----------
    delivered_on : date
        Day of delivery, from which the carrier's paper counts.
    refused_on : date, optional
        Day of the written refusal of the claim.

    Returns
    -------
    ClaimDeadlines
        The two days.

    Raises
    ------
    OutOfRange
        If the refusal lies before delivery, or a day outside the calendar used here.

    Notes
    -----
    Least times by statute; the bill of lading may give more. Five days for hidden damage is carrier practice, not law:
    note damage on the receipt at once all the same.

    Examples
    --------
    >>> found = freight_claim_deadlines(dt.date(2026, 1, 31), dt.date(2026, 3, 1))
    >>> str(found.claim_until), str(found.sue_until)
    ('2026-10-31', '2028-03-01')

    References
    ----------
    .. [1] 49usc14706, (e)(1)
    """
    require_day(delivered_on=delivered_on)
    sue_until = None
    if refused_on is not None:
        require_day(refused_on=refused_on)
        if refused_on < delivered_on:
            raise OutOfRange("refused_on", refused_on.isoformat(), "must not lie before delivered_on")
        sue_until = months_after(refused_on, SUIT_MONTHS)
    return ClaimDeadlines(months_after(delivered_on, CLAIM_MONTHS), sue_until)


@dataclass(frozen=True, slots=True)
class StockTrailers:
    """A power unit that delivers two empty trailers of a maker's or dealer's stock."""

    covered: bool
    state_may_not_hold_under_m: float | None
    """Length a State may not hold it under; None where the clause does not cover it."""
    within: bool
    why: str


@calculation(
    FAMILY,
    "two empty stock trailers, together ≤ 26,000 lb: a State may not hold the set under 82 ft",
    symbols={"trailers_mass_kg": "mass", "overall_length_m": "length"},
)
def stock_trailers_length(
    trailer_count: int, trailers_mass_kg: float, overall_length_m: float, *, loaded: bool = False
) -> StockTrailers:
    """Whether two empty stock trailers behind one power unit are covered by the 82 ft clause.

    Up to 26,000 lb in all and 82 ft, empty, on the way from maker to dealer, between dealers or to a buyer.

    Parameters
    ----------
    trailer_count : int
        Trailers behind the power unit [-].
    trailers_mass_kg : float
        Mass of the trailers together [kg].
    overall_length_m : float
        Length of the whole set [m].
    loaded : bool
        Whether anything rides on them.

    Returns
    -------
    StockTrailers
        Whether the clause covers it, the length, whether the set keeps within, and why.

    Raises
    ------
    OutOfRange
        If the number of trailers lies outside 1 to 3, or mass or length is not above zero.

    Notes
    -----
    A floor on State limits for the national network and reasonable access, not a federal maximum; permits and the
    driver's license are questions of their own.

    Examples
    --------
    >>> stock_trailers_length(2, 6000.0, 24.0).covered
    True

    References
    ----------
    .. [1] usc49_31111, (a)(7), (b)(1)(H)
    """
    if not 1 <= trailer_count <= 3:
        raise OutOfRange("trailer_count", trailer_count, "must lie from 1 to 3")
    require_positive(trailers_mass_kg=trailers_mass_kg, overall_length_m=overall_length_m)
    faults = [
        text
        for fault, text in (
            (trailer_count != 2, "The clause is for two trailers."),
            (loaded, "They must be empty."),
            (exceeds(trailers_mass_kg, TAX_FREE_kg), "Together over 26,000 lb."),
        )
        if fault
    ]
    if faults:
        return StockTrailers(
            covered=False, state_may_not_hold_under_m=None, within=False, why=" ".join(faults)
        )
    within = not exceeds(overall_length_m, STOCK_LENGTH_m)
    why = (
        "Covered to 82 ft on the national network."
        if within
        else "Longer than 82 ft: ask the State for a permit."
    )
    return StockTrailers(covered=True, state_may_not_hold_under_m=STOCK_LENGTH_m, within=within, why=why)


@dataclass(frozen=True, slots=True)
class LoadCover:
    """Whether a load must be kept from leaking, spilling, blowing off or falling."""

    federal_duty: bool
    cover_it: bool
    why: str


@calculation(
    FAMILY, "in commerce nothing may leak, spill, blow off or fall, nor shift so far that control suffers"
)
def load_cover_rule(
    load: Literal["loose", "light_pieces", "liquid", "livestock", "one_piece"], *, commercial: bool = True
) -> LoadCover:
    """Whether a load must be tarped or closed in, by what it is and whether it is hauled in commerce.

    Federal rule for commercial vehicles: loads must be contained, immobilized or secured so that nothing leaks, spills,
    blows off or falls.

    Parameters
    ----------
    load : {"loose", "light_pieces", "liquid", "livestock", "one_piece"}
        Gravel, soil or mulch; straw, brush or boards; liquid; animals; one piece that is tied down.
    commercial : bool
        Whether the haul is in commerce.

    Returns
    -------
    LoadCover
        Whether the federal duty applies, whether to cover or close it in, and why.

    Raises
    ------
    OutOfRange
        If the load is none of those named.

    Notes
    -----
    The rule names the result, not the tarp. States ask for a tarp on loose loads of everybody: ask locally.

    Examples
    --------
    >>> load_cover_rule("loose").cover_it, load_cover_rule("one_piece").cover_it
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.100(b), (c)
    """
    allowed = ("loose", "light_pieces", "liquid", "livestock", "one_piece")
    if load not in allowed:
        raise OutOfRange("load", load, f"must be one of {', '.join(allowed)}")
    cover = load != "one_piece"
    if commercial:
        why = "Nothing may leak, spill, blow off or fall, nor shift so far that control suffers (393.100)."
    else:
        why = "The federal rule is for commerce; most States ask the same of everybody."
    return LoadCover(commercial, cover, why)
