"""What hooks onto what: kinds, ball sizes, ratings of the parts, the nut under the ball, adapters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from sendoff import tables
from sendoff.calc._limits import (
    Limit,
    each_positive,
    exceeds,
    inches,
    limit_of,
    not_negative,
    positive,
    require_same_count,
)
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange
from sendoff.tables import Table

FAMILY: Final = "truck_check"

TrailerCoupling = Literal["ball_coupler", "gooseneck_coupler", "kingpin", "lunette_ring"]
TruckCoupling = Literal[
    "receiver_ball", "bumper_ball", "bed_ball", "fifth_wheel", "pintle_hook", "combination_pintle_ball"
]
BallFit = Literal["fits", "ball_too_small_pops_off", "ball_too_large_does_not_latch"]


@dataclass(frozen=True, slots=True)
class CouplingMatch:
    """Whether a trailer's coupling goes on a truck's, and the adapter people reach for otherwise."""

    fits: bool
    adapter: str | None
    remark: str


@dataclass(frozen=True, slots=True)
class BallMatch:
    """Whether ball and coupler are of one size."""

    fits: bool
    fit: BallFit
    difference_m: float


@dataclass(frozen=True, slots=True)
class LowestRating:
    """The weakest part of a chain of parts, and what it leaves."""

    lowest_rating_kg: float
    lowest_part: str


@dataclass(frozen=True, slots=True)
class ShankFit:
    """Whether a ball's shank sits as it must in its mount; none where it was not measured."""

    fits: bool
    gap_m: float
    hole_fits: bool
    mount_thick_enough: bool | None
    threads_enough: bool | None


@calculation(FAMILY, "row of the table for the two couplings", tables={"table": "coupling_kinds"})
def coupling_kind_match(
    trailer_coupling: TrailerCoupling, truck_coupling: TruckCoupling, table: Table | None = None
) -> CouplingMatch:
    """Whether the trailer's kind of coupling goes on the truck's kind of coupling.

    A look-up; a pair that is not listed does not fit.

    Parameters
    ----------
    trailer_coupling : str
        What the trailer has.
    truck_coupling : str
        What the truck has.
    table : Table, optional
        Pairs of couplings.

    Returns
    -------
    CouplingMatch
        Whether they fit, the adapter otherwise in use and a remark.

    Raises
    ------
    OutOfRange
        If the table lists a pair twice.

    Notes
    -----
    Kind only: sizes, ratings and latches are checks of their own.

    Examples
    --------
    >>> coupling_kind_match("gooseneck_coupler", "fifth_wheel").fits
    False

    References
    ----------
    .. [1] common_practice, what fits what
    """
    table = table or tables.load("coupling_kinds")
    found = table.where(trailer_coupling=trailer_coupling, truck_coupling=truck_coupling)
    if not found:
        return CouplingMatch(fits=False, adapter=None, remark="These two are not made for each other.")
    row = table.row(trailer_coupling=trailer_coupling, truck_coupling=truck_coupling)
    return CouplingMatch(row["fits"], row["adapter"], row["remark"])


@calculation(
    FAMILY,
    "difference = ball − coupler",
    symbols={"coupler_size_m": "coupler", "ball_diameter_m": "ball", "difference_m": "difference"},
)
def ball_size_match(coupler_size_m: float, ball_diameter_m: float) -> BallMatch:
    """Whether ball and coupler are of one size.

    Sizes are named to a sixteenth of an inch; anything more than 0.25 mm apart is another size. A 1-7/8 in ball under
    a 2 in coupler seems to latch and pops off on the road.

    Parameters
    ----------
    coupler_size_m : float
        Ball size stamped on the coupler [m].
    ball_diameter_m : float
        Size stamped on the ball [m].

    Returns
    -------
    BallMatch
        Whether they fit, how they fail, and the difference [m].

    Raises
    ------
    OutOfRange
        If a size is not above zero.

    Notes
    -----
    Stamped sizes; a worn ball is a check of its own. A 50 mm ball is no 2 in ball.

    Examples
    --------
    >>> ball_size_match(0.0508, 0.047625).fit
    'ball_too_small_pops_off'

    References
    ----------
    .. [1] common_practice, ball and coupler of one size
    """
    positive(coupler_size_m=coupler_size_m, ball_diameter_m=ball_diameter_m)
    difference = ball_diameter_m - coupler_size_m
    if abs(difference) <= 0.00025:
        return BallMatch(fits=True, fit="fits", difference_m=difference)
    fit: BallFit = "ball_too_small_pops_off" if difference < 0 else "ball_too_large_does_not_latch"
    return BallMatch(fits=False, fit=fit, difference_m=difference)


@calculation(FAMILY, "row of the table", gives="typical_rating_kg", tables={"table": "ball_ratings"})
def ball_typical_rating(ball_diameter_m: float, shank_diameter_m: float, table: Table | None = None) -> float:
    """What a hitch ball of this ball and shank size is typically rated.

    A look-up; the marking on the ball governs.

    Parameters
    ----------
    ball_diameter_m : float
        Diameter of the ball [m].
    shank_diameter_m : float
        Diameter of its threaded shank [m].
    table : Table, optional
        Typical ratings.

    Returns
    -------
    float
        Typical gross trailer weight [kg].

    Raises
    ------
    OutOfRange
        If the table has no such ball.

    Notes
    -----
    Typical only: the same ball on a thinner shank carries less. Read the marking.

    Examples
    --------
    A 2 in ball on a 3/4 in shank: 3,500 lb.

    >>> round(ball_typical_rating(0.0508, 0.01905) / 0.45359237)
    3500

    References
    ----------
    .. [1] ball_web_table, ball and shank sizes
    """
    table = table or tables.load("ball_ratings")
    positive(ball_diameter_m=ball_diameter_m, shank_diameter_m=shank_diameter_m)
    row = table.row(ball_diameter_m=ball_diameter_m, shank_diameter_m=shank_diameter_m)
    return float(row["typical_rating_kg"])


@calculation(FAMILY, "row of the table", gives="low_rating_kg", tables={"table": "bed_ball_ratings"})
def bed_ball_typical_rating(ball_diameter_m: float, table: Table | None = None) -> float:
    """What a gooseneck ball in a truck bed is commonly marked, the lower figure.

    A look-up; the marking on the ball and on its hitch governs.

    Parameters
    ----------
    ball_diameter_m : float
        Diameter of the ball [m].
    table : Table, optional
        Common markings.

    Returns
    -------
    float
        Lower common marking, gross trailer weight [kg].

    Raises
    ------
    OutOfRange
        If the table has no such ball.

    Notes
    -----
    From memory. The hitch under the bed has a rating, and a vertical rating, of its own.

    Examples
    --------
    >>> round(bed_ball_typical_rating(0.0587375) / 0.45359237)
    25000

    References
    ----------
    .. [1] common_practice, trade convention
    """
    table = table or tables.load("bed_ball_ratings")
    positive(ball_diameter_m=ball_diameter_m)
    return float(table.row(ball_diameter_m=ball_diameter_m)["low_rating_kg"])


@calculation(FAMILY, "lowest of all ratings", symbols={"rating_kg": "ratings"})
def lowest_rating(part: tuple[str, ...], rating_kg: tuple[float, ...]) -> LowestRating:
    """The smallest rating of a chain of parts: the number that counts.

    The lowest of all ratings; the first named if several are equal.

    Parameters
    ----------
    part : tuple of str
        Names of the parts, such as ball, ball mount, receiver, coupler.
    rating_kg : tuple of float
        Rating of each [kg].

    Returns
    -------
    LowestRating
        The lowest rating [kg] and the part it belongs to.

    Raises
    ------
    OutOfRange
        If the lists differ in length or a rating is not above zero.

    Notes
    -----
    Only of the parts named. A part without a marking is unknown, never unlimited.

    Examples
    --------
    >>> lowest_rating(("ball", "mount", "receiver"), (2722.0, 3402.0, 2268.0)).lowest_part
    'receiver'

    References
    ----------
    .. [1] ball_web_table, never exceed the lowest marked part
    """
    require_same_count(part=part, rating_kg=rating_kg)
    each_positive(rating_kg=rating_kg)
    lowest = min(rating_kg)
    return LowestRating(lowest, part[rating_kg.index(lowest)])


@calculation(
    FAMILY,
    "margin = rating − load",
    symbols={"load_kg": "load", "rating_kg": "rating", "margin_kg": "margin"},
)
def rating_check(load_kg: float, rating_kg: float) -> Limit:
    """Hold a load against a rating: ball, ball mount, receiver, coupler, axle, gross weight.

    margin = rating − load; it holds up to and at the rating.

    Parameters
    ----------
    load_kg : float
        What it has to carry or pull [kg].
    rating_kg : float
        What it is rated for [kg].

    Returns
    -------
    Limit
        Demand, capacity, margin [kg], used share [-], and whether it holds.

    Raises
    ------
    OutOfRange
        If the load is below zero or the rating is not above zero.

    Notes
    -----
    Compare like with like: gross trailer weight with a gross rating, tongue weight with a tongue rating.

    Examples
    --------
    >>> rating_check(3500.0, 3500.0).holds, rating_check(3501.0, 3500.0).holds
    (True, False)

    References
    ----------
    .. [1] ball_web_table, never exceed the lowest marked part
    """
    not_negative(load_kg=load_kg)
    positive(rating_kg=rating_kg)
    return limit_of(load_kg, rating_kg)


@calculation(FAMILY, "gap = hole − shank ≤ 1/16 in;  thickness ≥ 3/8 in;  threads past the nut ≥ 2")
def ball_shank_fit(
    shank_diameter_m: float,
    hole_diameter_m: float,
    mount_thickness_m: float | None = None,
    threads_past_nut_count: int | None = None,
) -> ShankFit:
    """Whether a ball's shank sits as it must: hole, thickness of the mount, threads past the nut.

    The hole may be at most 1/16 in wider than the shank, the mount at least 3/8 in thick, and at least two threads
    must show past the nut.

    Parameters
    ----------
    shank_diameter_m : float
        Diameter of the shank [m].
    hole_diameter_m : float
        Diameter of the hole in the mount [m].
    mount_thickness_m : float, optional
        Thickness of the mount at the ball [m].
    threads_past_nut_count : int, optional
        Whole threads past the tightened nut [-].

    Returns
    -------
    ShankFit
        Whether it fits, the gap [m], and each check; none where it was not measured.

    Raises
    ------
    OutOfRange
        If a size is not above zero, the hole is smaller than the shank, or the threads are below zero.

    Notes
    -----
    What was not measured is not checked: `fits` speaks of the rest.

    Examples
    --------
    Two towing pages: 1 in shank in a 1-1/16 in hole is the widest allowed.

    >>> ball_shank_fit(0.0254, 0.0269875).fits, ball_shank_fit(0.0254, 0.028575).fits
    (True, False)

    References
    ----------
    .. [1] towing_pages, ball mount holes
    """
    positive(shank_diameter_m=shank_diameter_m, hole_diameter_m=hole_diameter_m)
    if hole_diameter_m < shank_diameter_m:
        raise OutOfRange("hole_diameter_m", hole_diameter_m, "must not be smaller than the shank")
    gap = hole_diameter_m - shank_diameter_m
    hole = not exceeds(gap, inches(1 / 16))
    thick = threads = None
    if mount_thickness_m is not None:
        positive(mount_thickness_m=mount_thickness_m)
        thick = not exceeds(inches(3 / 8), mount_thickness_m)
    if threads_past_nut_count is not None:
        if not 0 <= threads_past_nut_count <= 100:
            raise OutOfRange("threads_past_nut_count", threads_past_nut_count, "must lie from 0 to 100")
        threads = threads_past_nut_count >= 2
    return ShankFit(hole and thick is not False and threads is not False, gap, hole, thick, threads)


@calculation(FAMILY, "row of the table", gives="nut_torque_Nm", tables={"table": "ball_nut_torque"})
def ball_nut_torque(shank_diameter_m: float, table: Table | None = None) -> float:
    """Usual torque of the nut under a hitch ball, by its shank.

    A look-up; the ball maker's own figure comes first.

    Parameters
    ----------
    shank_diameter_m : float
        Diameter of the shank [m].
    table : Table, optional
        Torque by shank.

    Returns
    -------
    float
        Torque of the nut [N·m].

    Raises
    ------
    OutOfRange
        If the table has no such shank.

    Notes
    -----
    From memory: no neutral source was found. Lock washer in place, threads dry, mount held.

    Examples
    --------
    3/4 in shank: 160 lbf·ft.

    >>> round(ball_nut_torque(0.01905) / 1.3558179483314004)
    160

    References
    ----------
    .. [1] common_practice, makers' habit
    """
    table = table or tables.load("ball_nut_torque")
    positive(shank_diameter_m=shank_diameter_m)
    return float(table.row(shank_diameter_m=shank_diameter_m)["nut_torque_Nm"])
