"""What may ride, on what: items, decks with their zones and strips, the trailer, the truck, and named limits.

All positions are in meters rearwards from the coupling point, all masses in kilograms. The records refuse what cannot
be (no mass, center of mass outside the wheels, two items of one name) with the field, the value and the cure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from sendoff.errors import OutOfRange

Facing = Literal["forward", "backward"]
Moved = Literal["driven", "winched", "lifted"]
Suspension = Literal["equalized", "torsion"]
DropRule = Literal["must", "prefer"]

FACINGS: Final[tuple[Facing, Facing]] = ("forward", "backward")
MOST_ITEMS: Final = 40
MOST_PLACED: Final = 12
INFINITE: Final = math.inf
NEAR_m: Final = 1e-9
"""Positions closer than this are one and the same: far below what a tape shows, far above rounding."""


def finite(field_name: str, value: float) -> None:
    """Refuse a value that is no number."""
    if not math.isfinite(value):
        raise OutOfRange(
            field_name, value, "must be a finite number; measure it, or leave it out where it may be unknown"
        )


def above_zero(field_name: str, value: float, cure: str) -> None:
    """Refuse a value that is not a finite number above zero, and say how to come by a right one."""
    if not (math.isfinite(value) and value > 0):
        raise OutOfRange(field_name, value, f"must be a finite number above zero; {cure}")


def _limit(field_name: str, value: float) -> None:
    """A limit may be infinite (not limited) but is never negative, zero or not a number."""
    if math.isnan(value) or value <= 0:
        raise OutOfRange(field_name, value, "must be above zero; leave it out where there is no limit")


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
            _limit(who + name, getattr(self, name))
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
    """The way up to a deck: how steep it is against the ground and the deck, and what one wheel may weigh on it."""

    angle_rad: float
    wheel_limit_kg: float = INFINITE

    def __post_init__(self) -> None:
        if not 0 < self.angle_rad < math.pi / 2:
            raise OutOfRange("ramp: angle_rad", self.angle_rad, "must be between level and upright")
        _limit("ramp: wheel_limit_kg", self.wheel_limit_kg)


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
            value = getattr(self, name)
            finite(who + name, value)
            if value < 0:
                raise OutOfRange(who + name, value, "must not be below zero")
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
class Trailer:
    """The trailer as it stands empty, and what it may carry."""

    empty_mass_kg: float
    empty_center_m: float
    """Center of mass behind the coupling point."""
    axle_m: tuple[float, ...]
    suspension: Suspension
    axle_limit_kg: tuple[float, ...]
    """Of each axle."""
    gross_limit_kg: float
    pin_limit_kg: float = INFINITE
    """What the coupling may bear, the lowest of the trailer's own parts."""
    pin_share_least_ratio: float = 0.0
    """Pin or tongue weight as part of the trailer's gross, least."""
    pin_share_most_ratio: float = 1.0
    tire_limit_kg: tuple[float, ...] = ()
    """One tire of each axle, at its pressure; empty: not checked."""
    tire_count: int = 2
    """Tires on each axle."""
    axle_preload_kg: float = 0.0
    """Torsion axles only: what each bears when the frame lies at the angle of no load further."""
    frame_stiffness_Nm2: float | None = None
    """Bending stiffness E·I of both main rails together, for the check with a flexible frame."""
    axle_stiffness_Npm: float | None = None
    """Of one torsion axle, both sides together."""

    def __post_init__(self) -> None:
        above_zero("trailer: empty_mass_kg", self.empty_mass_kg, "weigh it empty")
        finite("trailer: empty_center_m", self.empty_center_m)
        if not self.axle_m:
            raise OutOfRange("trailer: axle_m", "none", "must have at least one axle")
        for place in self.axle_m:
            above_zero("trailer: axle_m", place, "axles stand behind the coupling point")
        for name in ("axle_limit_kg", "tire_limit_kg"):
            values = getattr(self, name)
            if len(values) != len(self.axle_m) and not (name == "tire_limit_kg" and not values):
                raise OutOfRange(
                    f"trailer: {name}",
                    len(values),
                    f"must have one value for each of {len(self.axle_m)} axles",
                )
            for value in values:
                _limit(f"trailer: {name}", value)
        _limit("trailer: gross_limit_kg", self.gross_limit_kg)
        _limit("trailer: pin_limit_kg", self.pin_limit_kg)
        if not 0 <= self.pin_share_least_ratio < self.pin_share_most_ratio <= 1:
            raise OutOfRange(
                "trailer: pin_share_least_ratio",
                self.pin_share_least_ratio,
                "must be from 0 to less than pin_share_most_ratio, at most 1",
            )
        if self.tire_count < 1:
            raise OutOfRange("trailer: tire_count", self.tire_count, "must be at least 1")


@dataclass(frozen=True, slots=True)
class Truck:
    """The truck as it will pull, with driver and fuel but without the trailer."""

    front_axle_m: float
    """Ahead of the coupling point: negative."""
    rear_axle_m: float
    """Ahead of the coupling point negative, behind it positive (a coupling over or ahead of the axle)."""
    front_empty_kg: float
    rear_empty_kg: float
    front_limit_kg: float = INFINITE
    rear_limit_kg: float = INFINITE
    gross_limit_kg: float = INFINITE
    combined_limit_kg: float = INFINITE
    """Truck and trailer together."""
    tow_limit_kg: float = INFINITE
    """Gross of the trailer behind it."""
    coupling_limit_kg: float = INFINITE
    """Pin or tongue weight, by the truck's hitch or ball."""
    front_least_kg: float = 0.0
    """What the front axle must keep to steer."""

    def __post_init__(self) -> None:
        for name in ("front_axle_m", "rear_axle_m"):
            finite(f"truck: {name}", getattr(self, name))
        if self.rear_axle_m <= self.front_axle_m:
            raise OutOfRange(
                "truck: rear_axle_m",
                self.rear_axle_m,
                "must lie behind front_axle_m; positions run rearwards",
            )
        for name in ("front_empty_kg", "rear_empty_kg"):
            above_zero(f"truck: {name}", getattr(self, name), "weigh each axle")
        for name in (
            "front_limit_kg",
            "rear_limit_kg",
            "gross_limit_kg",
            "combined_limit_kg",
            "tow_limit_kg",
            "coupling_limit_kg",
        ):
            _limit(f"truck: {name}", getattr(self, name))
        if not 0 <= self.front_least_kg < INFINITE:
            raise OutOfRange(
                "truck: front_least_kg", self.front_least_kg, "must be a finite number, not below zero"
            )


@dataclass(frozen=True, slots=True)
class AxleGroup:
    """A limit of the law on some axles together: a single axle, a tandem, a group under a bridge formula."""

    name: str
    axles: tuple[str, ...]
    """"axle_1", "axle_2" … of the trailer, "truck_front", "truck_rear"."""
    limit_kg: float

    def __post_init__(self) -> None:
        _limit(f"axle group {self.name}: limit_kg", self.limit_kg)
        if not self.axles:
            raise OutOfRange(f"axle group {self.name}: axles", "none", "must name at least one axle")


@dataclass(frozen=True, slots=True)
class TightAt:
    """How little left is called tight. The margin that plans are compared by counts in these.

    A margin of 1 stands on that line, 0 on the limit itself, below 0 past it: so 10 % left on an axle and 2 points
    left in the pin window weigh the same.
    """

    axle_ratio: float = 0.10
    """Axles and tires of the trailer, part of the limit."""
    pin_share_ratio: float = 0.02
    """Points from the edge of the pin or tongue window."""
    other_ratio: float = 0.05

    def __post_init__(self) -> None:
        for name in ("axle_ratio", "pin_share_ratio", "other_ratio"):
            above_zero(
                f"tight at: {name}", getattr(self, name), "give the part of a limit at which little is left"
            )


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
            finite(name, getattr(self, name))
            if getattr(self, name) < 0:
                raise OutOfRange(name, getattr(self, name), "must not be below zero")
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
                    f"must not be longer than the deck with its overhangs, {longest:.3f} m; leave it out or take a longer trailer",
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
