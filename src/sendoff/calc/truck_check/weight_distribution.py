"""Weight-distributing hitches: what the bars do to each axle, how much they may give back, what they are rated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff.calc._limits import Limit, exceeds, limit_of, not_negative, positive
from sendoff.calc.contract import calculation
from sendoff.errors import OutOfRange

FAMILY: Final = "truck_check"


@dataclass(frozen=True, slots=True)
class BarEffect:
    """What the bars change on each axle; the three add to zero."""

    trailer_axles_change_kg: float
    front_axle_change_kg: float
    rear_axle_change_kg: float


@dataclass(frozen=True, slots=True)
class FrontRestoration:
    """How much of what the front axle lost, or its fender rose, the bars gave back."""

    restored_ratio: float
    lost_by_coupling: bool
    within_limit: bool
    """False above 100 %, and above the truck maker's own figure where given."""


@dataclass(frozen=True, slots=True)
class BarRating:
    """The bars' two ratings against tongue and trailer."""

    tongue: Limit
    trailer: Limit
    holds: bool


@calculation(
    FAMILY,
    "trailer +P·b/L,  front +P·b·(L + o)/(L·wb),  rear −(trailer + front)",
    symbols={
        "bar_pull_kg": "P",
        "bar_length_m": "b",
        "wheelbase_m": "wb",
        "rear_axle_to_ball_m": "o",
        "ball_to_trailer_axles_m": "L",
    },
)
def weight_distribution_effect(
    bar_pull_kg: float,
    bar_length_m: float,
    wheelbase_m: float,
    rear_axle_to_ball_m: float,
    ball_to_trailer_axles_m: float,
) -> BarEffect:
    """What weight-distributing bars move from the truck's rear axle to its front and to the trailer.

    Bars that pull P down on the tongue at b behind the ball put P·b/L on the trailer's axles and P·b·(L + o)/(L·wb)
    on the front axle; the rear axle loses the sum.

    Parameters
    ----------
    bar_pull_kg : float
        Pull of both bars together at their chains or brackets [kg].
    bar_length_m : float
        From the ball back to where they pull on the tongue [m].
    wheelbase_m : float
        Of the truck [m].
    rear_axle_to_ball_m : float
        From the truck's rear axle back to the ball [m].
    ball_to_trailer_axles_m : float
        From the ball to the middle of the trailer's axles [m].

    Returns
    -------
    BarEffect
        Change on trailer axles, front and rear axle [kg].

    Raises
    ------
    OutOfRange
        If a distance is not above zero or the pull is below zero.

    Notes
    -----
    Some couplers and surge actuators forbid bars: their makers' papers decide. More bar is not better: federal tests
    found that levelling torque lowers understeer and the speed at which a set jackknifes, and damps the trailer a
    little.

    Examples
    --------
    Worked example of an engineer: 2,000 lb on bars of 30 in, 200 in to the trailer's axles, add 300 lb to them.

    >>> effect = weight_distribution_effect(2000.0, 30.0, 130.0, 65.0, 200.0)
    >>> [round(x, 1) for x in (effect.trailer_axles_change_kg, effect.front_axle_change_kg, effect.rear_axle_change_kg)]
    [300.0, 611.5, -911.5]

    References
    ----------
    .. [1] wd_worked_example, inputs and trailer axles; front and rear by statics
    .. [2] dot_hs_803_248, abstract
    """
    not_negative(bar_pull_kg=bar_pull_kg)
    positive(
        bar_length_m=bar_length_m,
        wheelbase_m=wheelbase_m,
        rear_axle_to_ball_m=rear_axle_to_ball_m,
        ball_to_trailer_axles_m=ball_to_trailer_axles_m,
    )
    trailer = bar_pull_kg * bar_length_m / ball_to_trailer_axles_m
    front = trailer * (ball_to_trailer_axles_m + rear_axle_to_ball_m) / wheelbase_m
    return BarEffect(trailer, front, -(trailer + front))


@calculation(
    FAMILY,
    "P = share·T·o·L / (b·(L + o))",
    gives="bar_pull_kg",
    symbols={
        "restored_ratio": "share",
        "coupling_load_kg": "T",
        "bar_length_m": "b",
        "rear_axle_to_ball_m": "o",
        "ball_to_trailer_axles_m": "L",
        "bar_pull_kg": "P",
    },
)
def bar_pull_for_restoration(
    restored_ratio: float,
    coupling_load_kg: float,
    bar_length_m: float,
    rear_axle_to_ball_m: float,
    ball_to_trailer_axles_m: float,
) -> float:
    """Pull of the bars that gives back a wished share of what the front axle lost.

    P = share·T·o·L / (b·(L + o)); the wheelbase drops out.

    Parameters
    ----------
    restored_ratio : float
        Share to give back, as the truck's book says; never above 100 % [-].
    coupling_load_kg : float
        Tongue load with slack bars [kg].
    bar_length_m : float
        From the ball back to where the bars pull on the tongue [m].
    rear_axle_to_ball_m : float
        From the truck's rear axle back to the ball [m].
    ball_to_trailer_axles_m : float
        From the ball to the middle of the trailer's axles [m].

    Returns
    -------
    float
        Pull of both bars together [kg].

    Raises
    ------
    OutOfRange
        If the share is not from 0 to 100 %, the load is below zero or a distance is not above zero.

    Notes
    -----
    100 % is a ceiling, less is better; the truck maker's figure comes first.

    Examples
    --------
    >>> pull = bar_pull_for_restoration(0.5, 800.0, 30.0, 65.0, 200.0)
    >>> round(weight_distribution_effect(pull, 30.0, 130.0, 65.0, 200.0).front_axle_change_kg, 6)
    200.0

    References
    ----------
    .. [1] statics, moments about the truck's rear axle
    .. [2] j2807_letter, restoration at most 100 %
    """
    if not 0 <= restored_ratio <= 1:
        raise OutOfRange("restored_ratio", restored_ratio, "must lie from 0 to 100 %")
    not_negative(coupling_load_kg=coupling_load_kg)
    positive(
        bar_length_m=bar_length_m,
        rear_axle_to_ball_m=rear_axle_to_ball_m,
        ball_to_trailer_axles_m=ball_to_trailer_axles_m,
    )
    lever = rear_axle_to_ball_m / (ball_to_trailer_axles_m + rear_axle_to_ball_m)
    return restored_ratio * coupling_load_kg * lever * ball_to_trailer_axles_m / bar_length_m


def _restoration(
    bare: float, coupled: float, with_bars: float, maker_limit_ratio: float | None, coupled_name: str
) -> FrontRestoration:
    """Share given back of what coupling up changed; signs so that loads and fender heights read alike."""
    limit = 1.0
    if maker_limit_ratio is not None:
        positive(maker_limit_ratio=maker_limit_ratio)
        limit = min(limit, maker_limit_ratio)
    lost = bare - coupled
    if abs(lost) < 1e-6 * bare:
        raise OutOfRange(
            coupled_name, coupled, "must differ from the bare truck: nothing was lost to give back"
        )
    share = (with_bars - coupled) / lost
    return FrontRestoration(share, lost_by_coupling=lost > 0, within_limit=not exceeds(share, limit))


@calculation(
    FAMILY,
    "share = (with bars − coupled) / (bare − coupled) ≤ 100 %",
    symbols={
        "front_bare_kg": "bare",
        "front_coupled_kg": "coupled",
        "front_with_bars_kg": "with bars",
        "restored_ratio": "share",
    },
)
def front_axle_restored(
    front_bare_kg: float,
    front_coupled_kg: float,
    front_with_bars_kg: float,
    maker_limit_ratio: float | None = None,
) -> FrontRestoration:
    """How much of the load the front axle lost by coupling the bars gave back.

    share = (with bars − coupled) / (bare − coupled); never above 100 %, and less is better.

    Parameters
    ----------
    front_bare_kg : float
        Front axle without the trailer [kg].
    front_coupled_kg : float
        Front axle coupled, bars slack [kg].
    front_with_bars_kg : float
        Front axle coupled, bars tight [kg].
    maker_limit_ratio : float, optional
        The truck maker's greatest share, such as 50 % [-].

    Returns
    -------
    FrontRestoration
        Share given back [-], whether the coupling took load off, and whether the share stays within the limit.

    Raises
    ------
    OutOfRange
        If a load is not above zero, or coupling changed nothing.

    Notes
    -----
    Three weighings with the same people and fuel. The truck's own book comes first.

    Examples
    --------
    A front axle that lost 400 lb and was given 611.5 lb is at 153 %: too much.

    >>> restored = front_axle_restored(4000.0, 3600.0, 4211.5)
    >>> round(restored.restored_ratio, 3), restored.within_limit
    (1.529, False)

    References
    ----------
    .. [1] j2807_letter, restoration at most 100 %
    """
    positive(
        front_bare_kg=front_bare_kg, front_coupled_kg=front_coupled_kg, front_with_bars_kg=front_with_bars_kg
    )
    return _restoration(
        front_bare_kg, front_coupled_kg, front_with_bars_kg, maker_limit_ratio, "front_coupled_kg"
    )


@calculation(
    FAMILY,
    "share = (coupled − with bars) / (coupled − bare) ≤ 100 %",
    symbols={
        "fender_bare_m": "bare",
        "fender_coupled_m": "coupled",
        "fender_with_bars_m": "with bars",
        "restored_ratio": "share",
    },
)
def front_fender_restored(
    fender_bare_m: float,
    fender_coupled_m: float,
    fender_with_bars_m: float,
    maker_limit_ratio: float | None = None,
) -> FrontRestoration:
    """How much of the rise of the front fender the bars took back, with a tape instead of a scale.

    share = (coupled − with bars) / (coupled − bare).

    Parameters
    ----------
    fender_bare_m : float
        Height of the front wheel opening without the trailer [m].
    fender_coupled_m : float
        Coupled, bars slack [m].
    fender_with_bars_m : float
        Coupled, bars tight [m].
    maker_limit_ratio : float, optional
        The truck maker's greatest share, such as 50 % [-].

    Returns
    -------
    FrontRestoration
        Share given back [-], whether the coupling took load off, and whether the share stays within the limit.

    Raises
    ------
    OutOfRange
        If a height is not above zero, or coupling changed nothing.

    Notes
    -----
    For springs that follow the load evenly; rock the truck before each reading. A scale is surer.

    Examples
    --------
    >>> round(front_fender_restored(0.900, 0.930, 0.915).restored_ratio, 6)
    0.5

    References
    ----------
    .. [1] common_practice, fender heights bare, coupled and with bars
    .. [2] j2807_letter, restoration at most 100 %
    """
    positive(
        fender_bare_m=fender_bare_m, fender_coupled_m=fender_coupled_m, fender_with_bars_m=fender_with_bars_m
    )
    found = _restoration(
        fender_bare_m, fender_coupled_m, fender_with_bars_m, maker_limit_ratio, "fender_coupled_m"
    )
    return FrontRestoration(found.restored_ratio, not found.lost_by_coupling, found.within_limit)


@calculation(FAMILY, "tongue ≤ tongue rating;  trailer ≤ trailer rating")
def bar_rating_check(
    coupling_load_kg: float,
    trailer_mass_kg: float,
    bar_tongue_rating_kg: float,
    bar_trailer_rating_kg: float,
    gear_behind_axle_kg: float = 0.0,
) -> BarRating:
    """Hold tongue load and trailer against the rating of weight-distributing bars.

    Tongue load, with what lies in the truck behind its rear axle, up to the tongue rating; trailer up to the trailer
    rating.

    Parameters
    ----------
    coupling_load_kg : float
        Tongue load with slack bars [kg].
    trailer_mass_kg : float
        Trailer and cargo [kg].
    bar_tongue_rating_kg : float
        Tongue rating stamped on the bars or head [kg].
    bar_trailer_rating_kg : float
        Trailer rating of the head [kg].
    gear_behind_axle_kg : float
        Cargo in the truck behind its rear axle, which the bars lift too [kg].

    Returns
    -------
    BarRating
        Both limits [kg], and whether both hold.

    Raises
    ------
    OutOfRange
        If a load is below zero or a rating is not above zero.

    Notes
    -----
    The receiver must be rated for weight distribution as well: its label has two rows of figures.

    Examples
    --------
    >>> bar_rating_check(500.0, 4000.0, 544.0, 5443.0).holds
    True

    References
    ----------
    .. [1] common_practice, bar ratings
    """
    not_negative(
        coupling_load_kg=coupling_load_kg,
        trailer_mass_kg=trailer_mass_kg,
        gear_behind_axle_kg=gear_behind_axle_kg,
    )
    positive(bar_tongue_rating_kg=bar_tongue_rating_kg, bar_trailer_rating_kg=bar_trailer_rating_kg)
    tongue = limit_of(coupling_load_kg + gear_behind_axle_kg, bar_tongue_rating_kg)
    trailer = limit_of(trailer_mass_kg, bar_trailer_rating_kg)
    return BarRating(tongue, trailer, tongue.holds and trailer.holds)
