"""The trailer and the truck: how they stand empty and what they may carry; limits of the law; what is called tight.

All positions are in meters rearwards from the coupling point, all masses in kilograms. A limit that there is not is
infinite. The records refuse what cannot be with the field, the value and the cure.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.errors import OutOfRange

Suspension = Literal["equalized", "torsion"]
INFINITE: Final = math.inf


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


def limit(field_name: str, value: float) -> None:
    """A limit may be infinite (not limited) but is never negative, zero or not a number."""
    if math.isnan(value) or value <= 0:
        raise OutOfRange(field_name, value, "must be above zero; leave it out where there is no limit")


def at_least_zero(field_name: str, value: float) -> None:
    """Refuse a value that is not a finite number from zero on."""
    finite(field_name, value)
    if value < 0:
        raise OutOfRange(field_name, value, "must not be below zero")


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
                limit(f"trailer: {name}", value)
        limit("trailer: gross_limit_kg", self.gross_limit_kg)
        limit("trailer: pin_limit_kg", self.pin_limit_kg)
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
            limit(f"truck: {name}", getattr(self, name))
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
        limit(f"axle group {self.name}: limit_kg", self.limit_kg)
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
