"""What may ride, on what: items, decks with their zones and strips, the trailer, the truck, and named limits.

All positions are in meters rearwards from the coupling point, all masses in kilograms. The records refuse what cannot
be (no mass, center of mass outside the wheels, two items of one name) with the field, the value and the cure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from sendoff.calc.deck_plan.gear import (
    INFINITE,
    AxleGroup,
    TightAt,
    Trailer,
    Truck,
    above_zero,
    at_least_zero,
    finite,
    limit,
)
from sendoff.errors import OutOfRange

Facing = Literal["forward", "backward"]
Moved = Literal["driven", "winched", "lifted"]
DropRule = Literal["must", "prefer"]

FACINGS: Final[tuple[Facing, Facing]] = ("forward", "backward")
MOST_ITEMS: Final = 40
MOST_PLACED: Final = 12
NEAR_m: Final = 1e-9
"""Positions closer than this are one and the same: far below what a tape shows, far above rounding."""


def _once(what: str, names: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in names:
        if not name:
            raise OutOfRange(what, name, "must have a name; give each its own")
        if name in seen:
            raise OutOfRange(what, name, "is given twice; give each its own name")
        seen.add(name)


@dataclass(frozen=True, slots=True)
class Contact:
    """A place where an item bears on the deck: an axle of a car, a roller of a track, a bearer under a crate."""

    offset_m: float
    """Behind the item's own front end."""
    share_ratio: float
    """Part of the item's mass that stands here."""
    wheel_count: int = 2
    """Wheels (or pads) that share it."""


@dataclass(frozen=True, slots=True)
class Item:
    """A vehicle, machine or piece of cargo as it would ride.

    The center of mass follows from the contacts: it lies where their shares balance. What is None is not known, and
    the limits that need it are not checked (see `unchecked`).
    """

    name: str
    mass_kg: float
    length_m: float
    contacts: tuple[Contact, ...]
    mass_error_kg: float = 0.0
    """How far the mass may be wrong, up or down."""
    width_m: float | None = None
    height_m: float | None = None
    track_inner_m: float | None = None
    """Between the insides of the left and right tires or tracks."""
    track_outer_m: float | None = None
    """Over the outsides of the left and right tires or tracks."""
    clearance_m: float | None = None
    """Under the belly, midway between the first and the last contact."""
    approach_rad: float | None = None
    """Steepest slope its front overhang comes up without touching."""
    departure_rad: float | None = None
    facings: tuple[Facing, ...] = FACINGS
    """Which way round it may ride; forward is with its front toward the truck."""
    drop_count: int = 0
    """1 comes off first, 2 next; 0 stays aboard to the last stop."""
    moved_by: Moved = "driven"
    strap_reach_m: float | None = None
    """How far from a contact a strap point may be, along the deck; None where straps reach anywhere."""
    worth_ratio: float | None = None
    """What it counts when choosing among many; None: its mass."""

    def __post_init__(self) -> None:
        who = f"item {self.name or '(no name)'}: "
        if not self.name:
            raise OutOfRange("item name", self.name, "must not be empty; give each item its own name")
        above_zero(f"{who}mass_kg", self.mass_kg, "weigh it or take the makers' curb mass")
        above_zero(f"{who}length_m", self.length_m, "measure it over everything that sticks out")
        finite(f"{who}mass_error_kg", self.mass_error_kg)
        if not 0 <= self.mass_error_kg < self.mass_kg:
            raise OutOfRange(
                f"{who}mass_error_kg", self.mass_error_kg, "must be from 0 to less than the mass; weigh it"
            )
        for name in (
            "width_m",
            "height_m",
            "track_inner_m",
            "track_outer_m",
            "clearance_m",
            "strap_reach_m",
            "worth_ratio",
        ):
            value = getattr(self, name)
            if value is not None:
                above_zero(who + name, value, "leave it out where it is not known")
        for name in ("approach_rad", "departure_rad"):
            value = getattr(self, name)
            if value is not None and not 0 < value < math.pi / 2:
                raise OutOfRange(
                    who + name, value, "must be between level and upright; leave it out where it is not known"
                )
        if (
            not self.facings
            or not set(self.facings) <= set(FACINGS)
            or len(set(self.facings)) < len(self.facings)
        ):
            raise OutOfRange(f"{who}facings", self.facings, "must be forward, backward or both")
        if self.drop_count < 0:
            raise OutOfRange(
                f"{who}drop_count",
                self.drop_count,
                "must be 1 for first off, 2 for the next, or 0 for the last stop",
            )
        self._check_contacts(who)

    def _check_contacts(self, who: str) -> None:
        if not 1 <= len(self.contacts) <= 8:
            raise OutOfRange(
                f"{who}contacts",
                len(self.contacts),
                "must be 1 to 8; merge rollers that stand close together",
            )
        for contact in self.contacts:
            finite(f"{who}contact offset_m", contact.offset_m)
            finite(f"{who}contact share_ratio", contact.share_ratio)
            if contact.share_ratio < 0:
                raise OutOfRange(
                    f"{who}contact share_ratio", contact.share_ratio,
                    "must not be below zero: the center of mass lies outside the wheels; weigh each axle",
                )  # fmt: skip
            if not -NEAR_m <= contact.offset_m <= self.length_m + NEAR_m:
                raise OutOfRange(
                    f"{who}contact offset_m",
                    contact.offset_m,
                    "must lie within the item's length; measure it",
                )
            if contact.wheel_count < 1:
                raise OutOfRange(f"{who}contact wheel_count", contact.wheel_count, "must be at least 1")
        total = sum(contact.share_ratio for contact in self.contacts)
        if abs(total - 1) > 1e-9:
            raise OutOfRange(f"{who}contact shares", total, "must add up to 1; weigh each axle and the whole")
        if [contact.offset_m for contact in self.contacts] != sorted(
            {contact.offset_m for contact in self.contacts}
        ):
            raise OutOfRange(
                f"{who}contacts", "their order", "must run from front to rear, no two at one place"
            )

    @property
    def center_m(self) -> float:
        """Center of mass behind the item's own front end."""
        return sum(contact.share_ratio * contact.offset_m for contact in self.contacts)

    @property
    def worth(self) -> float:
        """What it counts when choosing among many."""
        return self.mass_kg if self.worth_ratio is None else self.worth_ratio

    def offsets_m(self, facing: Facing) -> tuple[float, ...]:
        """Return where each contact stands behind the item's forward-most end when it faces so."""
        if facing == "forward":
            return tuple(contact.offset_m for contact in self.contacts)
        return tuple(self.length_m - contact.offset_m for contact in self.contacts)


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of a deck with limits of its own: main deck, gooseneck, tail, lift deck, an infill."""

    name: str
    front_m: float
    rear_m: float
    total_limit_kg: float = INFINITE
    """On all wheels in it together."""
    wheel_limit_kg: float = INFINITE
    """Under one wheel."""
    width_limit_m: float = INFINITE
    """Between what stands up beside it, for the bodies over it."""
    height_limit_m: float = INFINITE
    """Of a body over it: from the deck to what is above, or to the highest the law lets it be."""
    lane_inner_m: float = 0.0
    """Between the insides of the two wheel ways: tires must not stand further in."""
    lane_outer_m: float = INFINITE
    """Over the outsides of the two wheel ways."""

    def __post_init__(self) -> None:
        who = f"zone {self.name}: "
        finite(f"{who}front_m", self.front_m)
        finite(f"{who}rear_m", self.rear_m)
        if self.rear_m <= self.front_m:
            raise OutOfRange(
                f"{who}rear_m",
                self.rear_m,
                "must lie behind front_m; positions run rearwards from the coupling",
            )
        for name in ("total_limit_kg", "wheel_limit_kg", "width_limit_m", "height_limit_m", "lane_outer_m"):
            limit(who + name, getattr(self, name))
        if not 0 <= self.lane_inner_m < self.lane_outer_m:
            raise OutOfRange(
                f"{who}lane_inner_m", self.lane_inner_m, "must be from 0 to less than lane_outer_m"
            )


@dataclass(frozen=True, slots=True)
class Strip:
    """A stretch where nothing may bear on the deck: a hinge, a hatch, an opening."""

    name: str
    front_m: float
    rear_m: float

    def __post_init__(self) -> None:
        finite(f"strip {self.name}: front_m", self.front_m)
        finite(f"strip {self.name}: rear_m", self.rear_m)
        if self.rear_m <= self.front_m:
            raise OutOfRange(f"strip {self.name}: rear_m", self.rear_m, "must lie behind front_m")


@dataclass(frozen=True, slots=True)
class Ramp:
    """The way up to a deck: how steep it is against the ground and the deck, and what may come over it."""

    angle_rad: float
    wheel_limit_kg: float = INFINITE
    item_limit_kg: float = INFINITE
    """The whole of one item: what a gate or a hinge is rated for."""
    crest_rad: float | None = None
    """Between the way up and the end of the deck, where that slopes too; None: the deck is level there."""

    def __post_init__(self) -> None:
        if not 0 < self.angle_rad < math.pi / 2:
            raise OutOfRange("ramp: angle_rad", self.angle_rad, "must be between level and upright")
        if self.crest_rad is not None and not 0 <= self.crest_rad < math.pi / 2:
            raise OutOfRange("ramp: crest_rad", self.crest_rad, "must be from level to less than upright")
        limit("ramp: wheel_limit_kg", self.wheel_limit_kg)
        limit("ramp: item_limit_kg", self.item_limit_kg)

    @property
    def at_crest_rad(self) -> float:
        """How sharply the way bends where it meets the deck."""
        return self.angle_rad if self.crest_rad is None else self.crest_rad


@dataclass(frozen=True, slots=True)
class Deck:
    """One surface that items stand on, one behind the other. A lift deck that is up is a deck of its own."""

    name: str
    zones: tuple[Zone, ...]
    strips: tuple[Strip, ...] = ()
    front_overhang_m: float = 0.0
    """How far a body may reach ahead of the deck."""
    rear_overhang_m: float = 0.0
    strap_points_m: tuple[float, ...] = ()
    """Where straps can be hooked; empty: anywhere along it."""
    ramp: Ramp | None = None
    leaves_over: tuple[str, ...] = ()
    """Decks that must be empty before this one can be."""
    effort_count: int = 0
    """Further steps to bring an item up here, such as running the lift."""

    def __post_init__(self) -> None:
        who = f"deck {self.name}: "
        if not self.zones:
            raise OutOfRange(f"{who}zones", "none", "must have at least one zone")
        for ahead, behind in zip(self.zones, self.zones[1:], strict=False):
            if behind.front_m < ahead.rear_m - NEAR_m:
                raise OutOfRange(
                    f"{who}zone {behind.name}: front_m",
                    behind.front_m,
                    f"must not lie ahead of the end of {ahead.name}",
                )
        for name in ("front_overhang_m", "rear_overhang_m"):
            at_least_zero(who + name, getattr(self, name))
        for point in self.strap_points_m:
            finite(f"{who}strap_points_m", point)

    @property
    def first_m(self) -> float:
        """Where a body may begin."""
        return self.zones[0].front_m - self.front_overhang_m

    @property
    def last_m(self) -> float:
        """Where a body must end."""
        return self.zones[-1].rear_m + self.rear_overhang_m


@dataclass(frozen=True, slots=True)
class Problem:
    """Items to be placed on decks of a trailer behind a truck."""

    items: tuple[Item, ...]
    decks: tuple[Deck, ...]
    trailer: Trailer
    truck: Truck | None = None
    axle_groups: tuple[AxleGroup, ...] = ()
    gap_m: float = 0.10
    """Least room between two bodies."""
    edge_m: float = 0.0
    """How far contacts keep from the ends of zones and from strips: half the length of a tire's footprint."""
    drop_rule: DropRule = "must"
    """Whether first off must stand last, or a rearranging on the road is only counted as effort."""
    tight: TightAt = field(default_factory=TightAt)
    dropped: frozenset[str] = frozenset()
    """Names of limits left out, to ask what would be without them."""
    counted: str = ""
    """Name of the one limit whose margin counts, while all others must only hold; empty: all count."""
    extra_load_kg: tuple[tuple[str, float], ...] = ()
    """By name of limit, what a bending frame brings on or takes off beyond the rigid formula."""

    def __post_init__(self) -> None:
        if not 1 <= len(self.items) <= MOST_ITEMS:
            raise OutOfRange(
                "items", len(self.items), f"must be 1 to {MOST_ITEMS}; ask for a part of them at a time"
            )
        if not self.decks:
            raise OutOfRange("decks", "none", "must have at least one deck")
        _once("items", (item.name for item in self.items))
        _once("decks", (deck.name for deck in self.decks))
        _once("zones", (zone.name for deck in self.decks for zone in deck.zones))
        _once("strips", (strip.name for deck in self.decks for strip in deck.strips))
        _once("axle groups", (group.name for group in self.axle_groups))
        for name in ("gap_m", "edge_m"):
            at_least_zero(name, getattr(self, name))
        self._check_axle_groups()
        self._check_order_of_decks()
        if not any(name.startswith("room:") for name in self.dropped):
            self._check_lengths()

    def _check_axle_groups(self) -> None:
        known = {f"axle_{number}" for number in range(1, len(self.trailer.axle_m) + 1)}
        if self.truck is not None:
            known |= {"truck_front", "truck_rear"}
        for group in self.axle_groups:
            if not set(group.axles) <= known:
                raise OutOfRange(
                    f"axle group {group.name}: axles",
                    group.axles,
                    f"must be among {', '.join(sorted(known))}",
                )

    def _check_order_of_decks(self) -> None:
        before: set[str] = set()
        for deck in self.decks:
            if not set(deck.leaves_over) <= before:
                raise OutOfRange(
                    f"deck {deck.name}: leaves_over", deck.leaves_over, "must name decks given before it"
                )
            before.add(deck.name)

    def _check_lengths(self) -> None:
        longest = max(deck.last_m - deck.first_m for deck in self.decks)
        for item in self.items:
            if item.length_m > longest + NEAR_m:
                raise OutOfRange(
                    f"item {item.name}: length_m", item.length_m,
                    f"must be at most {longest:.3f} m, the deck with its overhangs; leave it out or take a longer one",
                )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Placement:
    """Where one item stands."""

    item: str
    deck: str
    facing: Facing
    front_m: float
    """Of its forward-most end, rearwards from the coupling point."""


def without(problem: Problem, names: Iterable[str]) -> Problem:
    """Return the problem as it would be without some named limits."""
    return replace(problem, dropped=problem.dropped | frozenset(names))


def counting_only(problem: Problem, name: str) -> Problem:
    """Return the problem in which only one limit's margin counts and all others must hold."""
    return replace(problem, counted=name)


def tight_ratio(problem: Problem, name: str, ratio: float) -> float:
    """Return the part of a limit that its margin is counted in; a millionth of it where it must only hold."""
    return ratio if not problem.counted or name == problem.counted else ratio * 1e-6


def with_items(problem: Problem, items: Iterable[Item]) -> Problem:
    """Return the problem with other items on the same decks."""
    return replace(problem, items=tuple(items))


def unchecked(problem: Problem) -> tuple[str, ...]:
    """Name what could not be checked because a measure is not known, item by item."""
    found = []
    for item in problem.items:
        zones = [zone for deck in problem.decks for zone in deck.zones]
        wanted = {
            "width_m": any(zone.width_limit_m < INFINITE for zone in zones),
            "height_m": any(zone.height_limit_m < INFINITE for zone in zones),
            "track_inner_m": any(zone.lane_inner_m > 0 for zone in zones),
            "track_outer_m": any(zone.lane_outer_m < INFINITE for zone in zones),
            "strap_reach_m": any(deck.strap_points_m for deck in problem.decks),
        }
        if item.moved_by != "lifted":
            wanted |= dict.fromkeys(
                ("clearance_m", "approach_rad", "departure_rad"), any(deck.ramp for deck in problem.decks)
            )
        found += [
            f"{item.name}: {name}"
            for name, needed in wanted.items()
            if needed and getattr(item, name) is None
        ]
    if not problem.trailer.tire_limit_kg:
        found.append("trailer: tire_limit_kg")
    if problem.truck is None:
        found.append("truck")
    return tuple(found)
