"""Safety chains: breaking force, never the working load limit of tie-downs; each rule with its scope."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import each_positive, exceeds, finite, inches, positive, pounds
from sendoff.calc.contract import calculation
from sendoff.calc.truck_check.hitch_strength import class_row
from sendoff.errors import OutOfRange
from sendoff.tables import Table
from sendoff.units import STANDARD_GRAVITY_mps2 as GRAVITY

FAMILY: Final = "truck_check"

ChainGrade = Literal["30", "43", "70", "80", "100"]
TowedKind = Literal["full_trailer", "semitrailer_or_tag"]


@dataclass(frozen=True, slots=True)
class ChainCheck:
    """Safety chains under each rule, and under the stricter one that counts here."""

    holds: bool
    """The stricter: each chain at least gross weight and class figure, and as many as are asked for."""
    weakest_chain_N: float
    each_needed_N: float
    margin_each_N: float
    combined_N: float
    combined_margin_N: float
    enough_chains: bool
    federal_applies: bool
    federal_combined_holds: bool
    j684_applies: bool
    j684_each_needed_N: float | None
    j684_each_holds: bool | None
    scope: str


@calculation(
    FAMILY,
    "breaking force = g × working load limit × design factor",
    gives="breaking_force_N",
    symbols={"working_load_limit_kg": "working load limit"},
    tables={"table": "chain_design_factors"},
)
def chain_breaking_strength(
    working_load_limit_kg: float, grade: ChainGrade, table: Table | None = None
) -> float:
    """Breaking force of chain from its working load limit and grade.

    breaking force = g × working load limit × design factor (grade 43: 3, the others: 4).

    Parameters
    ----------
    working_load_limit_kg : float
        Working load limit, as for a tie-down [kg].
    grade : str
        Grade stamped on the links.
    table : Table, optional
        Design factors.

    Returns
    -------
    float
        Breaking force [N].

    Raises
    ------
    OutOfRange
        If the limit is not above zero or the grade is not listed.

    Notes
    -----
    Of the chain alone, new. Hook, shackle, weld and the point on the truck are often weaker: take the lowest.

    Examples
    --------
    3/8 in grade 70 is 6,600 lb as a tie-down and breaks at about 26,400 lb.

    >>> round(chain_breaking_strength(6600 * 0.45359237, "70") / 4.4482216152605)
    26400

    References
    ----------
    .. [1] nacm, design factors
    """
    table = table or tables.load("chain_design_factors")
    positive(working_load_limit_kg=working_load_limit_kg)
    return GRAVITY * working_load_limit_kg * float(table.row(grade=grade)["design_factor_ratio"])


@calculation(
    FAMILY,
    "weakest of chain, hook, trailer attachment, truck attachment",
    gives="assembly_force_N",
)
def chain_assembly_strength(
    chain_N: float, hook_N: float, trailer_attachment_N: float, truck_attachment_N: float
) -> float:
    """Breaking force of one safety chain with its hook and both ends' attachments.

    The lowest of the four.

    Parameters
    ----------
    chain_N : float
        Breaking force of the chain [N].
    hook_N : float
        Breaking force of its hook or shackle [N].
    trailer_attachment_N : float
        Breaking force of weld or bolt on the trailer [N].
    truck_attachment_N : float
        Breaking force of the loop or hole on the truck [N].

    Returns
    -------
    float
        Breaking force of the whole [N].

    Raises
    ------
    OutOfRange
        If one of them is not above zero.

    Notes
    -----
    All four as breaking forces, none as working load limits.

    Examples
    --------
    >>> chain_assembly_strength(12000.0, 9000.0, 11000.0, 8000.0)
    8000.0

    References
    ----------
    .. [1] 49cfr393, 393.70(d)(3): the device and the means of attaching it
    """
    each_positive(chain_N=(chain_N,), hook_N=(hook_N,))
    positive(trailer_attachment_N=trailer_attachment_N, truck_attachment_N=truck_attachment_N)
    return min(chain_N, hook_N, trailer_attachment_N, truck_attachment_N)


@calculation(
    FAMILY,
    "each ≥ class figure; class 4: each ≥ gross weight",
    gives="each_chain_needed_N",
    tables={"table": "safety_chain_classes"},
)
def safety_chain_class_strength(gross_trailer_mass_kg: float, table: Table | None = None) -> float:
    """Breaking force SAE J684 asks of each safety chain.

    By trailer class; from 5,000 to 10,000 lb each chain at least the gross weight itself.

    Parameters
    ----------
    gross_trailer_mass_kg : float
        Gross weight of the trailer, rated or actual, the greater [kg].
    table : Table, optional
        Classes.

    Returns
    -------
    float
        Least breaking force of each chain [N].

    Raises
    ------
    OutOfRange
        If the mass is not above zero or above 10,000 lb, where the standard ends.

    Notes
    -----
    Up to 10,000 lb gross.

    Examples
    --------
    >>> round(safety_chain_class_strength(1300.0) / 4.4482216152605)
    3500

    References
    ----------
    .. [1] sae_j684, safety chains
    """
    table = table or tables.load("safety_chain_classes")
    row = class_row(table, gross_trailer_mass_kg, "gross_trailer_mass_kg")
    each = row["each_chain_N"]
    return GRAVITY * gross_trailer_mass_kg if each is None else float(each)


@calculation(
    FAMILY,
    "federal: Σ force ≥ gross;  J684 to 10,000 lb: each ≥ class figure;  here: each ≥ the greater of gross and class",
    symbols={"gross_trailer_mass_kg": "gross", "chain_breaking_force_N": "force"},
    tables={"table": "safety_chain_classes"},
)
def safety_chain_check(
    gross_trailer_mass_kg: float,
    chain_breaking_force_N: tuple[float, ...],
    towed_kind: TowedKind = "semitrailer_or_tag",
    table: Table | None = None,
) -> ChainCheck:
    """Hold safety chains against the trailer's gross weight under each rule, and say which rule reaches how far.

    Federal 393.70(d) asks full trailers for an ultimate strength of at least the gross weight; agency guidance lets
    two chains be added up. SAE J684 asks a figure by class of each chain, and ends at 10,000 lb. The stricter counts
    here for every trailer: two chains, each at least the gross weight and the figure of its class.

    Parameters
    ----------
    gross_trailer_mass_kg : float
        Gross weight of the trailer, rated or actual, the greater [kg].
    chain_breaking_force_N : tuple of float
        Breaking force of each chain with hook and attachments [N].
    towed_kind : str
        A full trailer (on axles front and rear, or with a dolly), or a semitrailer, gooseneck or tag trailer.
    table : Table, optional
        Classes of SAE J684.

    Returns
    -------
    ChainCheck
        Verdicts and margins [N] under each rule, and its scope in words.

    Raises
    ------
    OutOfRange
        If mass or a force is not above zero, or no chain is named.

    Notes
    -----
    Goosenecks and semitrailers are outside the federal clause: maker's and State's practice, often the same figure.
    Breaking strength, never the working load limit of a tie-down, about a quarter of it.

    Examples
    --------
    Agency guidance: 10,000 lb on two chains of 6,000 lb pass the federal rule together, but not J684 each.

    >>> check = safety_chain_check(4535.9237, (26_689.0, 26_689.0), "full_trailer")
    >>> check.federal_combined_holds, check.j684_each_holds, check.holds
    (True, False, False)

    References
    ----------
    .. [1] 49cfr393, 393.70(d)(3), (5)
    .. [2] fmcsa_393_70_q2
    .. [3] sae_j684, safety chains
    """
    positive(gross_trailer_mass_kg=gross_trailer_mass_kg)
    if not chain_breaking_force_N:
        raise OutOfRange("chain_breaking_force_N", (), "must name at least one chain")
    each_positive(chain_breaking_force_N=chain_breaking_force_N)
    weakest, combined = min(chain_breaking_force_N), math.fsum(chain_breaking_force_N)
    in_scope = not exceeds(gross_trailer_mass_kg, pounds(10_000))
    class_N = safety_chain_class_strength(gross_trailer_mass_kg, table) if in_scope else None
    gross_N = GRAVITY * gross_trailer_mass_kg
    needed_N = gross_N if class_N is None else max(gross_N, class_N)
    federal = towed_kind == "full_trailer"
    enough = len(chain_breaking_force_N) >= 2
    scope = (
        "Federal 393.70(d) speaks of full trailers and dollies."
        if federal
        else "Federal 393.70(d) does not speak of semitrailers and tag trailers: maker's and State's practice."
    )
    scope += (
        " SAE J684 applies up to 10,000 lb."
        if in_scope
        else " SAE J684 ends at 10,000 lb and is silent here."
    )
    return ChainCheck(
        holds=enough and not exceeds(needed_N, weakest),
        weakest_chain_N=weakest,
        each_needed_N=needed_N,
        margin_each_N=weakest - needed_N,
        combined_N=combined,
        combined_margin_N=combined - gross_N,
        enough_chains=enough,
        federal_applies=federal,
        federal_combined_holds=not exceeds(gross_N, combined),
        j684_applies=in_scope,
        j684_each_needed_N=class_N,
        j684_each_holds=None if class_N is None else not exceeds(class_N, weakest),
        scope=scope,
    )


@dataclass(frozen=True, slots=True)
class ChainPlace:
    """Whether chains are hooked where the rule wants them."""

    holds: bool
    why: str


@calculation(FAMILY, "two points: left = right;  one point: 0 ≤ offset to the right ≤ 6 in")
def chain_attachment_place(right_of_center_m: tuple[float, ...]) -> ChainPlace:
    """Whether safety chains are hooked to the truck where 393.70(d)(8) wants them.

    Two points equally far from the centerline on both sides; a single point on it or up to 6 in to its right.

    Parameters
    ----------
    right_of_center_m : tuple of float
        Where each point of attachment sits, right of the truck's centerline; a minus is left [m].

    Returns
    -------
    ChainPlace
        Whether it holds, and why.

    Raises
    ------
    OutOfRange
        If there are not one or two points.

    Notes
    -----
    For full trailers and dollies; good practice for all. Not to the ball or hook itself. A quarter inch is taken as
    equal.

    Examples
    --------
    >>> chain_attachment_place((0.15,)).holds, chain_attachment_place((-0.05,)).holds
    (True, False)

    References
    ----------
    .. [1] 49cfr393, 393.70(d)(8)
    """
    for place in right_of_center_m:
        finite(right_of_center_m=place)
    if len(right_of_center_m) == 1:
        holds = right_of_center_m[0] >= -1e-9 and not exceeds(right_of_center_m[0], inches(6))
        return ChainPlace(holds, "One point: on the centerline or up to 6 in to its right.")
    if len(right_of_center_m) != 2:
        raise OutOfRange("right_of_center_m", len(right_of_center_m), "must name one or two points")
    left, right = sorted(right_of_center_m)
    holds = left < 0 < right and not exceeds(abs(left + right), inches(0.25))
    return ChainPlace(holds, "Two points: equally far from the centerline, one on each side.")


@calculation(
    FAMILY,
    "margin = 3 in − deviation",
    gives="margin_m",
    symbols={"deviation_m": "deviation", "margin_m": "margin"},
)
def tracking_margin(deviation_m: float) -> float:
    """How far a trailer's path may still stray from the truck's on a straight, level road.

    margin = 3 in − deviation; a minus is too much.

    Parameters
    ----------
    deviation_m : float
        How far the trailer's path lies beside the truck's [m].

    Returns
    -------
    float
        What is left to 3 in [m].

    Raises
    ------
    OutOfRange
        If the deviation is beyond any measure.

    Notes
    -----
    Straight road, level, smooth and paved; to either side.

    Examples
    --------
    >>> round(tracking_margin(0.0762), 9)
    0.0

    References
    ----------
    .. [1] 49cfr393, 393.70(a)
    """
    finite(deviation_m=deviation_m)
    return inches(3) - abs(deviation_m)
