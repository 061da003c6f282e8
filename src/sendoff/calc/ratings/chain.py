"""The chain of loads: tire, wheel, stud, hub, axle, spring; the trailer; the combination."""

from __future__ import annotations

from dataclasses import dataclass

from sendoff.calc._limits import exceeds, positive, require_same_count
from sendoff.calc.contract import calculation, require_between
from sendoff.calc.tires.condition import axle_tire_capacity
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2


@dataclass(frozen=True, slots=True)
class Weakest:
    """The part that limits, and the one that would be next."""

    part: str
    rating_kg: float
    next_part: str
    next_rating_kg: float


@dataclass(frozen=True, slots=True)
class AxleChain:
    """What one axle may carry, part by part, each counted for the whole axle."""

    capacity_kg: float
    weakest: str
    tires_kg: float | None
    wheels_kg: float | None
    studs_kg: float | None
    hubs_kg: float | None
    axle_kg: float | None
    springs_kg: float | None
    not_known: tuple[str, ...]
    label_holds: bool | None
    """Whether the axle rating on the label is no more than the weakest part; none without a label."""
    label_margin_kg: float | None


@dataclass(frozen=True, slots=True)
class TrailerChain:
    """What the whole trailer may weigh, and which part says so."""

    capacity_kg: float
    weakest: str
    axles_kg: float
    """Gross mass at which the axles are full, the coupling taking its share."""
    chain_kg: float | None
    not_known: tuple[str, ...]
    label_holds: bool | None
    label_margin_kg: float | None


@calculation(
    "ratings",
    "weakest = least of the ratings",
    symbols={"rating_kg": "R", "next_rating_kg": "R_next"},
)
def weakest_part(part_name: tuple[str, ...], part_rating_kg: tuple[float, ...]) -> Weakest:
    """Weakest part among several, each with its rating for the same load.

    The least of the ratings; of equals, the one named first.

    Parameters
    ----------
    part_name : tuple of str
        What the parts are called.
    part_rating_kg : tuple of float
        Rating of each, in the same order, all for the same load [kg].

    Returns
    -------
    Weakest
        The part that limits and its rating, and the one that would limit next.

    Raises
    ------
    OutOfRange
        If there is no part, not a rating for each, or a rating that is not above zero.

    Notes
    -----
    Ratings must be for the same thing: count a wheel's rating as often as the axle has wheels before comparing.

    Examples
    --------
    Written out: the least of 6,000, 7,500 and 10,000 is 6,000.

    >>> done = weakest_part(("ball", "shank", "receiver"), (7500.0, 6000.0, 10000.0))
    >>> done.part, done.rating_kg, done.next_part
    ('shank', 6000.0, 'ball')

    References
    ----------
    .. [1] house_rule, the smallest number on any part is the number
    """
    require_same_count(part_name=part_name, part_rating_kg=part_rating_kg)
    for rating in part_rating_kg:
        positive(part_rating_kg=rating)
    order = sorted(range(len(part_name)), key=lambda index: part_rating_kg[index])
    first, second = order[0], order[min(1, len(order) - 1)]
    return Weakest(part_name[first], part_rating_kg[first], part_name[second], part_rating_kg[second])


@calculation(
    "ratings",
    "R = min(n · tire (/ 1.10), n · wheel, 2 · studs, 2 · hub, axle, 2 · spring)",
    symbols={"capacity_kg": "R", "tire_load_kg": "tire", "wheel_load_kg": "wheel", "stud_load_kg": "studs",
             "hub_load_kg": "hub", "axle_load_kg": "axle", "spring_load_kg": "spring", "tire_count": "n",
             "gawr_kg": "GAWR"},
)  # fmt: skip
def axle_rating_chain(
    tire_load_kg: float | None = None,
    wheel_load_kg: float | None = None,
    stud_load_kg: float | None = None,
    hub_load_kg: float | None = None,
    axle_load_kg: float | None = None,
    spring_load_kg: float | None = None,
    tire_count: int = 2,
    passenger_tire: bool = False,  # noqa: FBT001, FBT002
    gawr_kg: float | None = None,
) -> AxleChain:
    """Load one axle may carry by the weakest of its parts, and whether its label says no more.

    Every part is counted for the whole axle: tires and wheels as many as there are, studs and hubs at two ends, two
    springs. The least is the capacity; a part whose rating is not given is named and left out.

    Parameters
    ----------
    tire_load_kg : float, optional
        What one tire carries as fitted, at the placard's pressure [kg].
    wheel_load_kg : float, optional
        Rating stamped on one wheel [kg].
    stud_load_kg : float, optional
        Load the studs and nuts of one hub are rated for [kg].
    hub_load_kg : float, optional
        Rating of one hub with its bearings [kg].
    axle_load_kg : float, optional
        Rating of the axle beam [kg].
    spring_load_kg : float, optional
        Rating of one spring or torsion half; the axle stands on two [kg].
    tire_count : int
        Tires on the axle, 2 or 4 [-].
    passenger_tire : bool
        Yes for passenger car tires, which count for less on a trailer.
    gawr_kg : float, optional
        Gross axle weight rating on the label [kg].

    Returns
    -------
    AxleChain
        The capacity and what limits it, every part for the whole axle, what is not known, and the label's margin.

    Raises
    ------
    OutOfRange
        If no part is given at all, or a rating is not above zero.

    Notes
    -----
    With parts unknown the true capacity may be less. A rating is never raised because the others are stronger.

    Examples
    --------
    By the rule of 571.110, two passenger tires of 1,650 lb count 3,000 lb and limit a 3,500 lb axle.

    >>> done = axle_rating_chain(1650.0, axle_load_kg=3500.0, passenger_tire=True, gawr_kg=3500.0)
    >>> round(done.capacity_kg), done.weakest, done.label_holds
    (3000, 'tires', False)

    References
    ----------
    .. [1] house_rule, the smallest number on any part is the number
    .. [2] 49cfr571_110, S4.2.2.1, S4.2.2.2
    .. [3] 49cfr571_120, S5.1.2
    """
    given = {
        "tire_load_kg": tire_load_kg,
        "wheel_load_kg": wheel_load_kg,
        "stud_load_kg": stud_load_kg,
        "hub_load_kg": hub_load_kg,
        "axle_load_kg": axle_load_kg,
        "spring_load_kg": spring_load_kg,
        "gawr_kg": gawr_kg,
    }
    for name, value in given.items():
        if value is not None:
            positive(**{name: value})
    if tire_count not in {2, 4, 6, 8}:
        raise OutOfRange("tire_count", tire_count, "must be an even number from 2 to 8")
    tires = None if tire_load_kg is None else axle_tire_capacity(tire_load_kg, tire_count, passenger_tire)
    parts = {
        "tires": tires,
        "wheels": _times(tire_count, wheel_load_kg),
        "studs": _times(2, stud_load_kg),
        "hubs": _times(2, hub_load_kg),
        "axle": axle_load_kg,
        "springs": _times(2, spring_load_kg),
    }
    known = {name: rating for name, rating in parts.items() if rating is not None}
    if not known:
        raise OutOfRange("axle_load_kg", "none", "must be given, or another part's rating: none is known")
    least = weakest_part(tuple(known), tuple(known.values()))
    return AxleChain(
        least.rating_kg,
        least.part,
        parts["tires"],
        parts["wheels"],
        parts["studs"],
        parts["hubs"],
        parts["axle"],
        parts["springs"],
        tuple(name for name, rating in parts.items() if rating is None),
        None if gawr_kg is None else not exceeds(gawr_kg, least.rating_kg),
        None if gawr_kg is None else least.rating_kg - gawr_kg,
    )


def _times(count: int, rating: float | None) -> float | None:
    return None if rating is None else count * rating


@calculation(
    "ratings",
    "W = min(Σ axles / (1 - s), label, coupler, frame, chain F / g)",
    symbols={"axle_capacity_kg": "axles", "coupling_share_ratio": "s", "gvwr_kg": "label", "coupler_load_kg": "coupler",
             "frame_load_kg": "frame", "chain_breaking_force_N": "F", "capacity_kg": "W"},
)  # fmt: skip
def trailer_rating_chain(
    axle_capacity_kg: tuple[float, ...],
    coupling_share_ratio: float = 0.0,
    coupler_load_kg: float | None = None,
    frame_load_kg: float | None = None,
    chain_breaking_force_N: float | None = None,
    gvwr_kg: float | None = None,
) -> TrailerChain:
    """Gross mass the whole trailer may have by the weakest of its parts.

    The axles are full when the gross mass less the share on the coupling reaches their sum. Coupler, frame and each
    chain by itself must bear the whole trailer; the label is a limit like the others.

    Parameters
    ----------
    axle_capacity_kg : tuple of float
        Capacity of each axle by its own weakest part [kg].
    coupling_share_ratio : float
        Least share of the gross mass that stands on the tongue or pin; 0 if not known, the strictest [-].
    coupler_load_kg : float, optional
        Gross trailer weight the coupler is rated for [kg].
    frame_load_kg : float, optional
        Gross mass the maker built the frame for [kg].
    chain_breaking_force_N : float, optional
        Least breaking force of one chain with its hook and attachment: not its working load limit [N].
    gvwr_kg : float, optional
        Gross vehicle weight rating on the label [kg].

    Returns
    -------
    TrailerChain
        The gross mass allowed and the part that says so, what is not known, and the label's margin over the parts.

    Raises
    ------
    OutOfRange
        If there is no axle, a rating is not above zero, or the share lies outside 0 to 0.5.

    Notes
    -----
    One chain alone against the whole trailer is SAE J684's reading, whose scope ends at 10,000 lb; above it, it is
    the stricter choice here. Ball, receiver and truck limit it further: ask `combination_weakest`.

    Examples
    --------
    By hand: two axles of 7,000 lb with 10 % on the tongue are full at 14,000 / 0.9 = 15,556 lb; a label of 14,000 lb
    comes first.

    >>> done = trailer_rating_chain((7000.0, 7000.0), 0.10, coupler_load_kg=14500.0, gvwr_kg=14000.0)
    >>> round(done.axles_kg), done.capacity_kg, done.weakest, done.label_margin_kg
    (15556, 14000.0, 'label', 500.0)

    References
    ----------
    .. [1] statics, share of the gross mass on axles and coupling
    .. [2] 49cfr571_120, S10.2, the least coupling load counts
    .. [3] sae_j684, each chain, to 10,000 lb
    """
    if not axle_capacity_kg:
        raise OutOfRange("axle_capacity_kg", (), "must name at least one axle")
    for capacity in axle_capacity_kg:
        positive(axle_capacity_kg=capacity)
    require_between(0.0, 0.5, coupling_share_ratio=coupling_share_ratio)
    for name, value in (
        ("coupler_load_kg", coupler_load_kg),
        ("frame_load_kg", frame_load_kg),
        ("chain_breaking_force_N", chain_breaking_force_N),
        ("gvwr_kg", gvwr_kg),
    ):
        if value is not None:
            positive(**{name: value})
    axles = sum(axle_capacity_kg) / (1.0 - coupling_share_ratio)
    chain = None if chain_breaking_force_N is None else chain_breaking_force_N / STANDARD_GRAVITY_mps2
    parts = {"axles": axles, "coupler": coupler_load_kg, "frame": frame_load_kg, "chain": chain}
    built = {name: rating for name, rating in parts.items() if rating is not None}
    of_parts = weakest_part(tuple(built), tuple(built.values()))
    if gvwr_kg is None or exceeds(gvwr_kg, of_parts.rating_kg):
        capacity, weakest = of_parts.rating_kg, of_parts.part
    else:
        capacity, weakest = gvwr_kg, "label"
    return TrailerChain(
        capacity,
        weakest,
        axles,
        chain,
        tuple(name for name, rating in parts.items() if rating is None),
        None if gvwr_kg is None else not exceeds(gvwr_kg, of_parts.rating_kg),
        None if gvwr_kg is None else of_parts.rating_kg - gvwr_kg,
    )


@calculation(
    "ratings",
    "W = min(trailer, coupler, ball, ball mount, receiver, truck)",
    symbols={"trailer_kg": "trailer", "coupler_kg": "coupler", "ball_kg": "ball", "ball_mount_kg": "ball mount",
             "receiver_kg": "receiver", "truck_tow_kg": "truck", "rating_kg": "W"},
)  # fmt: skip
def combination_weakest(
    trailer_kg: float,
    coupler_kg: float | None = None,
    ball_kg: float | None = None,
    ball_mount_kg: float | None = None,
    receiver_kg: float | None = None,
    truck_tow_kg: float | None = None,
) -> Weakest:
    """Weakest part of truck and trailer together, each rated for the gross trailer mass.

    The least of what trailer, coupler, ball, mount, receiver and truck may tow.

    Parameters
    ----------
    trailer_kg : float
        Gross mass the trailer itself may have [kg].
    coupler_kg : float, optional
        Rating marked on the coupler [kg].
    ball_kg : float, optional
        Rating marked on the ball [kg].
    ball_mount_kg : float, optional
        Rating of the ball mount, reducer and extension, the least of them [kg].
    receiver_kg : float, optional
        Rating on the receiver's label, for the way it is used, or of the bed-mounted ball's frame [kg].
    truck_tow_kg : float, optional
        Tow rating of this truck as it is [kg].

    Returns
    -------
    Weakest
        The part that limits and its rating, and the one that would limit next.

    Raises
    ------
    OutOfRange
        If a rating is not above zero.

    Notes
    -----
    Coupling load, axle and combined ratings of the truck are limits of their own: this compares tow ratings only.

    Examples
    --------
    Written out: a 3,500 lb ball limits a 7,000 lb trailer on a 6,000 lb receiver.

    >>> combination_weakest(7000.0, ball_kg=3500.0, receiver_kg=6000.0).part
    'ball'

    References
    ----------
    .. [1] house_rule, the smallest number on any part is the number
    """
    parts = {
        "trailer": trailer_kg,
        "coupler": coupler_kg,
        "ball": ball_kg,
        "ball_mount": ball_mount_kg,
        "receiver": receiver_kg,
        "truck": truck_tow_kg,
    }
    names = {"truck": "truck_tow_kg"}
    for name, rating in parts.items():
        if rating is not None:
            positive(**{names.get(name, f"{name}_kg"): rating})
    known = {name: rating for name, rating in parts.items() if rating is not None}
    return weakest_part(tuple(known), tuple(known.values()))
