"""A unit and its truck as the deck planner needs them: how they stand empty, every limit, and what each comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.calc import deck_plan
from sendoff.calc.deck_plan.gear import INFINITE
from sendoff.catalogue.freight import Truck
from sendoff.errors import THE_SHEET, Fault, FaultyInput
from sendoff.findings.load_window import FLEXIBLE, LoadLimits, limits_of
from sendoff.findings.unit_limits import AXLE_PARTS, rating_of, share_of_axle
from sendoff.findings.weighed import Empty, empty_of

Law = Literal["us", "none"]
SOURCE_OF_LAW: Final = "23cfr658"


@dataclass(frozen=True, slots=True)
class Gear:
    """Trailer, truck and law, ready for the planner."""

    trailer: deck_plan.Trailer
    truck: deck_plan.Truck | None
    groups: tuple[deck_plan.AxleGroup, ...]
    empty: Empty
    limits: LoadLimits
    by: dict[str, str]
    """What ends a limit of the planner first: phrase `ends_by.…` by name of the limit."""
    stiffened: bool
    """Whether torsion axles count as 8 % more than the rigid formula says, since the frame's stiffness is not known."""
    truck_unweighed: bool
    """Whether a truck is named of which nobody weighed both axles."""


def gear_of(unit: AsBuiltUnit, truck: Truck | None, law: Law = "us") -> Gear:
    """Return trailer, truck and law; refuse a unit of which nobody can say where it is heavy."""
    empty = empty_of(unit)
    limits = limits_of(unit, empty, truck) if empty is not None else None
    if empty is None or limits is None:
        cure = (
            "Weigh the coupling of the empty unit and enter it as a [[ticket]], or give empty_coupling_share."
        )
        raise FaultyInput(Fault(THE_SHEET, "ticket", "", "where the empty unit is heavy is not known", cure))
    by: dict[str, str] = {}
    weighed = _weighed(truck) if truck is not None else None
    trailer, stiffened = _trailer(unit, limits, by, truck_apart=weighed is not None)
    return Gear(
        trailer,
        weighed,
        tuple(axle_groups(trailer, weighed)) if law == "us" else (),
        empty,
        limits,
        by,
        stiffened,
        truck is not None and weighed is None,
    )


def _least(bounds: list[tuple[str, float]], name: str, by: dict[str, str]) -> float:
    """Return the lowest of some limits, and note what it comes from."""
    if not bounds:
        return INFINITE
    by[name], lowest = min(bounds, key=lambda bound: bound[1])
    return lowest


def _trailer(
    unit: AsBuiltUnit, limits: LoadLimits, by: dict[str, str], *, truck_apart: bool
) -> tuple[deck_plan.Trailer, bool]:
    axles, empty = unit.geometry.axles, limits.empty
    count = len(axles.x_m)
    torsion = axles.suspension == "torsion" and count > 1
    known = unit.geometry.frame_stiffness_Nm2 is not None and unit.geometry.axle_stiffness_Npm is not None
    uneven = FLEXIBLE if torsion and not known else 1.0
    tires, on_axle = rating_of(unit, "tires"), share_of_axle(unit, "tires")
    gross = [bound for bound in limits.gross if not (truck_apart and bound[0].startswith("truck_"))]
    pin = [bound for bound in limits.coupling if not (truck_apart and bound[0].startswith("truck_"))]
    trailer = deck_plan.Trailer(
        empty_mass_kg=empty.mass_kg,
        empty_center_m=limits.empty_x_m,
        axle_m=axles.x_m,
        suspension="torsion" if torsion else "equalized",
        axle_limit_kg=tuple(
            _least(list(_of_axle(unit, number)), f"axle_{number + 1}", by) / uneven for number in range(count)
        ),
        gross_limit_kg=_least([(name, most - empty.error_kg) for name, most in gross], "gross", by),
        pin_limit_kg=_least(pin, "pin_weight", by),
        pin_share_least_ratio=limits.share[0],
        pin_share_most_ratio=limits.share[1],
        tire_limit_kg=(tires / uneven,) * count if tires is not None else (),
        tire_count=on_axle,
        frame_stiffness_Nm2=unit.geometry.frame_stiffness_Nm2 if torsion else None,
        axle_stiffness_Npm=unit.geometry.axle_stiffness_Npm if torsion else None,
    )
    return trailer, uneven > 1.0


def _of_axle(unit: AsBuiltUnit, number: int) -> Iterator[tuple[str, float]]:
    """Yield what each part but the tires lets one axle carry."""
    labels = unit.plate.gawr
    label = labels[min(number, len(labels) - 1)].si
    if label is not None:
        yield "plate_axles", label
    for slot, about, _ in AXLE_PARTS:
        rating = rating_of(unit, slot)
        if slot != "tires" and unit.part(slot) is not None and rating is not None:
            yield about, rating * share_of_axle(unit, slot)


def _weighed(truck: Truck) -> deck_plan.Truck | None:
    """Return the truck; None where nobody weighed both of its axles."""
    front, rear = truck.weighed_front, truck.weighed_rear
    if front is None or rear is None:
        return None

    def most(weight: object) -> float:
        found = getattr(weight, "si", None)
        return float(found) if found is not None else INFINITE

    rear_axle_m = -truck.coupling_behind_rear_axle.si
    return deck_plan.Truck(
        front_axle_m=rear_axle_m - truck.wheelbase.si,
        rear_axle_m=rear_axle_m,
        front_empty_kg=front.si,
        rear_empty_kg=rear.si,
        front_limit_kg=truck.gawr_front.si,
        rear_limit_kg=truck.gawr_rear.si,
        gross_limit_kg=truck.gvwr.si,
        combined_limit_kg=most(truck.gcwr),
        tow_limit_kg=most(truck.coupling_rating),
        coupling_limit_kg=most(truck.coupling_vertical_rating),
    )


def axle_groups(trailer: deck_plan.Trailer, truck: deck_plan.Truck | None) -> Iterator[deck_plan.AxleGroup]:
    """Yield every group of axles that the federal law of the United States limits; none for a single axle alone."""
    from sendoff.calc.rules_of_the_road.bridge import axle_weights_check

    named = [(at, f"axle_{number}") for number, at in enumerate(trailer.axle_m, start=1)]
    if truck is not None:
        named += [(truck.front_axle_m, "truck_front"), (truck.rear_axle_m, "truck_rear")]
    named.sort()
    if len(named) < 2 or len({at for at, _ in named}) < len(named):
        return
    check = axle_weights_check(tuple(at for at, _ in named), (0.0,) * len(named))
    seen: dict[tuple[int, int], float] = {}
    for group in check.groups:
        key = (group.first_axle, group.last_axle)
        seen[key] = min(seen.get(key, INFINITE), group.limit_kg)
    for (first, last), limit_kg in sorted(seen.items()):
        axles = tuple(name for _, name in named[first - 1 : last])
        yield deck_plan.AxleGroup("+".join(axles), axles, limit_kg)
