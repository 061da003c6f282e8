"""The shapes of trucks and of what they carry; what a unit bears of them is a finding."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, field

from sendoff.catalogue.fields import Angle, Id, Length, PlainText, Ratio, Record, Size, Volume, Weight

Version = Literal[1]


class Truck(Record, frozen=True, kw_only=True):
    """A tow vehicle as its own stickers and scale tickets describe it."""

    schema_version: Version = field(name="schema")
    id: Id
    name: PlainText
    sources: Annotated[tuple[str, ...], Meta(min_length=1)]
    gvwr: Weight
    gcwr: Weight | None = None
    gawr_front: Weight
    gawr_rear: Weight
    weighed_front: Weight | None = None
    weighed_rear: Weight | None = None
    wheelbase: Size
    coupling_behind_rear_axle: Length
    """Positive behind the rear axle (receiver), negative ahead of it (bed)."""
    coupling_rating: Weight | None = None
    coupling_vertical_rating: Weight | None = None
    ball: Size | None = None
    plug: Literal["flat_4", "flat_5", "round_6", "blade_7", "round_pin_7"] | None = None
    brake_controller: Literal["none", "time", "inertia", "factory"] | None = None


class Boat(Record, frozen=True, kw_only=True):
    """What a boat's weight is made of; the sum counts where it is more than the weight somebody wrote down."""

    dry: Weight
    """Hull and motor by their makers' folders, without fuel, water and gear."""
    fuel: Volume | None = None
    fuel_kind: Literal["gasoline", "diesel"] = "gasoline"
    water: Volume | None = None
    """In tanks, live wells and bilge."""
    gear: Weight | None = None
    """Batteries, anchors, coolers, everything carried in it."""


class CargoItem(Record, frozen=True, kw_only=True):
    """One thing to be carried. What is left out is not known, and the limits that need it are not checked."""

    id: Id
    name: PlainText
    mass: Weight
    mass_error: Weight | None = None
    """How far the mass may be wrong, up or down; none: taken as exact."""
    boat: Boat | None = None
    length: Size | None = None
    width: Size | None = None
    height: Size | None = None
    center_of_mass: Length | None = None
    """From its front end."""
    heaviest_wheel: Weight | None = None
    """What its heaviest wheel or foot weighs."""
    set_down: bool = False
    """Put there by a lift or by hand: it drives over nothing and stands on no wheels."""
    loose: bool = False
    """Without a shape of its own (gravel, soil, grain), carried in a body that holds it: no tie-down is asked."""
    moved: Literal["driven", "winched"] = "driven"
    """How it comes on, where it is not set down."""
    front_overhang: Size | None = None
    """From its front end to the middle of its front wheels."""
    wheelbase: Size | None = None
    """From the middle of its front wheels to the middle of its rear ones."""
    rear_overhang: Size | None = None
    front_share: Ratio | None = None
    """What its front wheels bear of its mass; or give center_of_mass."""
    tracks_front: Size | None = None
    """A machine on tracks: from its front end to where the tracks begin on the ground."""
    tracks_length: Size | None = None
    """How long the tracks lie on the ground."""
    track_inner: Size | None = None
    """Between the insides of its left and right tires or tracks."""
    track_outer: Size | None = None
    """Over the outsides of its left and right tires or tracks."""
    clearance: Size | None = None
    """Under its belly, midway between its wheels."""
    approach: Angle | None = None
    """The steepest slope its front comes up without touching."""
    departure: Angle | None = None
    faces: Literal["either", "forward", "backward"] = "either"
    """Which way round it may ride."""
    drop: Annotated[int, Meta(ge=0, le=40)] = 0
    """1 comes off first, 2 next; 0 stays on to the last stop."""
    strap_reach: Size | None = None
    """How far along the deck its straps reach from a wheel to a tie-down point."""
    worth: Annotated[float, Meta(gt=0, le=1_000_000)] | None = None
    """What it counts where the best of many are chosen; none: its mass in kilograms."""
    drawn_as: Literal["car", "pickup", "machine", "quad", "boat", "cargo"] | None = None
    """The plain shape it is drawn with; none: by how it stands."""


class Cargo(Record, frozen=True, kw_only=True):
    """What an owner wants to carry."""

    schema_version: Version = field(name="schema")
    id: Id
    sources: Annotated[tuple[str, ...], Meta(min_length=1)]
    items: Annotated[tuple[CargoItem, ...], Meta(min_length=1)] = field(name="item")
    gap: Length | None = None
    """Least room between two items; none: 4 in."""
    drops: Literal["must", "prefer"] = "must"
    """Whether what comes off first must stand hindmost, or may be got at by moving others on the road."""
