"""Items from the measures people have: a vehicle on two axles, a machine on tracks, cargo on bearers."""

from __future__ import annotations

from sendoff.calc.deck_plan.gear import above_zero, finite
from sendoff.calc.deck_plan.problem import Contact, Item
from sendoff.errors import OutOfRange


def vehicle(
    name: str,
    mass_kg: float,
    *,
    length_m: float,
    front_overhang_m: float,
    wheelbase_m: float,
    front_share_ratio: float,
    **more: object,
) -> Item:
    """Return an item on two axles; `more` are further fields of `Item`."""
    who = f"item {name}: "
    above_zero(f"{who}wheelbase_m", wheelbase_m, "measure it from wheel center to wheel center")
    finite(f"{who}front_overhang_m", front_overhang_m)
    if not 0 <= front_share_ratio <= 1:
        raise OutOfRange(
            f"{who}front_share_ratio",
            front_share_ratio,
            "must be from 0 to 1: the center of mass lies outside the wheelbase; weigh each axle",
        )
    contacts = (
        Contact(front_overhang_m, front_share_ratio),
        Contact(front_overhang_m + wheelbase_m, 1 - front_share_ratio),
    )
    return Item(name, mass_kg, length_m, contacts, **more)  # type: ignore[arg-type]


def on_tracks(
    name: str,
    mass_kg: float,
    *,
    length_m: float,
    tracks_front_m: float,
    tracks_length_m: float,
    center_m: float,
    roller_count: int = 5,
    **more: object,
) -> Item:
    """Return a machine on tracks: its mass stands on rollers, spread in a straight line from first to last.

    The center of mass must lie in the middle third of the tracks, or the last rollers would lift off.
    """
    who = f"item {name}: "
    above_zero(f"{who}tracks_length_m", tracks_length_m, "measure what lies on the ground")
    if not 2 <= roller_count <= 8:
        raise OutOfRange(f"{who}roller_count", roller_count, "must be 2 to 8")
    places = [
        tracks_front_m + tracks_length_m * number / (roller_count - 1) for number in range(roller_count)
    ]
    middle = tracks_front_m + tracks_length_m / 2
    spread = sum((place - middle) ** 2 for place in places)
    shares = [1 / roller_count + (center_m - middle) * (place - middle) / spread for place in places]
    if min(shares) < 0:
        raise OutOfRange(
            f"{who}center_m",
            center_m,
            "must lie near the middle of the tracks; measure where the machine balances, with its tools as they ride",
        )
    contacts = tuple(Contact(place, share) for place, share in zip(places, shares, strict=True))
    return Item(name, mass_kg, length_m, contacts, **more)  # type: ignore[arg-type]


def on_bearers(
    name: str, mass_kg: float, *, length_m: float, bearer_m: tuple[float, ...], **more: object
) -> Item:
    """Return cargo without wheels: its mass stands in equal parts on bearers at the given places."""
    contacts = tuple(Contact(place, 1 / len(bearer_m)) for place in bearer_m)
    return Item(name, mass_kg, length_m, contacts, **{"moved_by": "lifted", **more})  # type: ignore[arg-type]
