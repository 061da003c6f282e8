"""Placing: where an item must stand for a wished tongue or pin weight, and what lifts the coupling behind the axles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff.calc.contract import (
    calculation,
    require_between,
    require_finite,
    require_not_negative,
    require_positive,
)
from sendoff.errors import OutOfRange

FAMILY: Final = "statics"


@dataclass(frozen=True, slots=True)
class ItemPlace:
    """Where an item stands so that the coupling carries a wished share."""

    ahead_of_axles_m: float
    """Below zero: behind the axles."""
    behind_coupling_m: float
    coupling_load_kg: float
    axle_group_load_kg: float


@calculation(
    FAMILY,
    "x = L (s (M + w) − T0) / w",
    symbols={
        "empty_mass_kg": "M",
        "empty_coupling_load_kg": "T0",
        "item_mass_kg": "w",
        "coupling_to_axles_m": "L",
        "wanted_share_ratio": "s",
        "ahead_of_axles_m": "x",
    },
)
def place_for_tongue_share(
    empty_mass_kg: float,
    empty_coupling_load_kg: float,
    item_mass_kg: float,
    coupling_to_axles_m: float,
    wanted_share_ratio: float,
) -> ItemPlace:
    """Where one item must stand so that the coupling carries a wished share of the loaded trailer.

    The coupling must carry T = s (M + w); what the item adds is w x/L, so x = L (s (M + w) − T0)/w.

    Parameters
    ----------
    empty_mass_kg : float
        Trailer as weighed without the item [kg].
    empty_coupling_load_kg : float
        Its tongue or pin weight then [kg].
    item_mass_kg : float
        The item: a car, a machine [kg].
    coupling_to_axles_m : float
        From the coupling point to the middle of the axle group [m].
    wanted_share_ratio : float
        Share of the loaded trailer's weight wished on the coupling: 10 to 15 % on a ball, 20 to 25 % on a kingpin or
        gooseneck, the maker's own first [-].

    Returns
    -------
    ItemPlace
        Place of the item's center from the axles and from the coupling, and both loads then.

    Raises
    ------
    OutOfRange
        If a mass or length is not above zero, the empty coupling load lies outside the trailer's weight, the share
        outside 0 to 60 %, or the item would have to stand ahead of the coupling.

    Notes
    -----
    Level, one equalized axle group. Whether the deck is there, and whether axles and tires bear it, is asked beside.

    Examples
    --------
    Worked through: 2,500 lb with 250 on the coupler, a car of 3,500 lb, 180 in, 12 %: 24.2 in ahead of the axles.

    >>> found = place_for_tongue_share(2500.0, 250.0, 3500.0, 180.0, 0.12)
    >>> round(found.ahead_of_axles_m, 1), round(found.coupling_load_kg)
    (24.2, 720)

    References
    ----------
    .. [1] statics, moments about the axle group
    """
    require_positive(
        empty_mass_kg=empty_mass_kg, item_mass_kg=item_mass_kg, coupling_to_axles_m=coupling_to_axles_m
    )
    require_finite(empty_coupling_load_kg=empty_coupling_load_kg)
    if abs(empty_coupling_load_kg) > empty_mass_kg:
        raise OutOfRange(
            "empty_coupling_load_kg", empty_coupling_load_kg, "must not be more than the trailer"
        )
    require_between(0.0, 0.6, wanted_share_ratio=wanted_share_ratio)
    coupling_kg = wanted_share_ratio * (empty_mass_kg + item_mass_kg)
    ahead_m = coupling_to_axles_m * (coupling_kg - empty_coupling_load_kg) / item_mass_kg
    if ahead_m > coupling_to_axles_m:
        raise OutOfRange(
            "wanted_share_ratio",
            wanted_share_ratio,
            "would put the item ahead of the coupling: too light for it",
        )
    return ItemPlace(
        ahead_m, coupling_to_axles_m - ahead_m, coupling_kg, empty_mass_kg + item_mass_kg - coupling_kg
    )


@dataclass(frozen=True, slots=True)
class LiftOff:
    """What a load behind the axles does to the coupling while loading."""

    lifts_at_kg: float
    """Mass that, standing there, just takes all load off the coupling."""
    coupling_left_kg: float | None
    """With the mass asked about; below zero the coupling pulls up on the truck."""
    lifts: bool | None


@calculation(
    FAMILY,
    "m = T L / b, left = T − w b / L",
    symbols={
        "coupling_load_kg": "T",
        "coupling_to_axles_m": "L",
        "behind_axles_m": "b",
        "load_kg": "w",
        "lifts_at_kg": "m",
    },
)
def coupling_lift_off(
    coupling_load_kg: float, coupling_to_axles_m: float, behind_axles_m: float, load_kg: float | None = None
) -> LiftOff:
    """Load on a tail or tail gate that takes all weight off the coupling while loading.

    Moments about the axles: m = T L/b lifts the coupling; a load w leaves T − w b/L on it.

    Parameters
    ----------
    coupling_load_kg : float
        Tongue or pin weight before anything comes on [kg].
    coupling_to_axles_m : float
        From the coupling point to the middle of the axle group [m].
    behind_axles_m : float
        Where the load stands behind the axles: the tail's hinge while its tip rests on the ground [m].
    load_kg : float, optional
        Load asked about [kg].

    Returns
    -------
    LiftOff
        Mass that lifts the coupling, what is left with the load asked about, and whether it lifts.

    Raises
    ------
    OutOfRange
        If the coupling load or the load is below zero, or a length is not above zero.

    Notes
    -----
    At rest, wheels chocked. Stay coupled to the truck while loading: uncoupled, the nose goes up. A tail whose tip
    rests on the ground passes only part of its load on to the trailer.

    Examples
    --------
    Worked through: 300 lb on the coupler 5 m ahead; 1 m behind the axles 1,500 lb lift it, 1,000 leave 100.

    >>> coupling_lift_off(300.0, 5.0, 1.0, 1000.0)
    LiftOff(lifts_at_kg=1500.0, coupling_left_kg=100.0, lifts=False)

    References
    ----------
    .. [1] statics, moments about the axle group
    """
    require_not_negative(coupling_load_kg=coupling_load_kg)
    require_positive(coupling_to_axles_m=coupling_to_axles_m, behind_axles_m=behind_axles_m)
    lifts_at = coupling_load_kg * coupling_to_axles_m / behind_axles_m
    if load_kg is None:
        return LiftOff(lifts_at, None, None)
    require_not_negative(load_kg=load_kg)
    left = coupling_load_kg - load_kg * behind_axles_m / coupling_to_axles_m
    return LiftOff(lifts_at, left, left < 0)
