"""What a cargo asks of a unit and its truck: total, place, coupling, axles, tires, floor, and the way on.

Where items stand is proposed: in a row, two abreast where that must be, at the place that leaves most to both ends
of the window of places (`load_window`). Every limit is then held with the load standing there. What moves of itself
(animals, liquids) is not a load of one place; that is said under what was not checked.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.calc.contract import Step, worked
from sendoff.calc.ratings.capacity import cargo_capacity, cargo_capacity_unweighed
from sendoff.calc.statics.trailer import center_of_mass, move_item, trailer_loads
from sendoff.calc.statics.truck import truck_axle_shift
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.findings import boat_limits, floor_limits, tie_limits, way_on
from sendoff.findings.load_row import Item, NEAR_m, Placed, Stand, stand_near
from sendoff.findings.load_window import LoadLimits, Window, limits_of
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.findings.weighed import Empty, empty_of
from sendoff.units import to_si

MOVED_m: Final = to_si(1, "ft", "length")
GROUPS: Final = {"each_tire": "tire", "plate_axles": "axle", "axle_beam": "axle"}
TRUCK_AXLES: Final = frozenset({"truck_front_axle", "truck_rear_axle"})


@dataclass(frozen=True, slots=True)
class Standing:
    """A cargo standing somewhere, and what that puts on coupling and axles."""

    cargo_kg: float
    center_x_m: float
    coupling_kg: float
    axles_kg: float
    steps: tuple[Step, ...]

    @property
    def gross_kg(self) -> float:
        """Trailer and cargo."""
        return self.coupling_kg + self.axles_kg


def findings_of(unit: AsBuiltUnit, cargo: Cargo, truck: Truck | None) -> Iterator[Finding]:
    """Yield everything found of a cargo on a unit, with its truck where one is known."""
    yield from boat_limits.findings_of(cargo)
    cargo = boat_limits.counted(cargo)
    total = sum(item.mass.si for item in cargo.items)
    empty = empty_of(unit)
    limits = limits_of(unit, empty, truck) if empty is not None else None
    yield from _payload(unit, total)
    yield from floor_limits.findings_of(unit, cargo)
    yield from tie_limits.findings_of(unit, cargo)
    yield from way_on.findings_of(unit, cargo, empty)
    if limits is None:
        yield unknown("cargo.place", "cargo_place", "length", "weigh_coupling_empty")
        return
    window, stand, items = limits.window(total), None, _row_items(cargo)
    if items is None:
        yield unknown("cargo.row", "cargo_row", "length", "item_centers")
    else:
        stand = stand_near(items, limits.room, _wanted(unit, empty, window, total))
        yield _row_length(items, stand, limits)
    yield _place(window, stand, limits, total)
    if stand is not None:
        yield from _standing_there(unit, limits, _standing(limits, total, stand.center_x_m), truck)


def _wanted(unit: AsBuiltUnit, empty: Empty | None, window: Window, total: float) -> tuple[float, float]:
    """Return where to bring the load's center: its window, or where a truck leaves none, the trailer's own."""
    if not window.exists:
        alone = limits_of(unit, empty) if empty is not None else None
        window = alone.window(total) if alone is not None else window
    return window.front_x_m, window.rear_x_m


def _payload(unit: AsBuiltUnit, total: float) -> Iterator[Finding]:
    """All items together against what is left of the gross rating."""
    empty, gvwr = empty_of(unit), unit.plate.gvwr.si
    if empty is None or gvwr is None or gvwr <= empty.mass_kg + empty.error_kg:
        return
    if empty.weighed:
        done = worked(cargo_capacity, gvwr, empty.mass_kg, empty.error_kg)
        sources = all_references_of(cargo_capacity)
    else:
        done = worked(cargo_capacity_unweighed, gvwr, empty.mass_kg, empty.error_kg)
        sources = all_references_of(cargo_capacity_unweighed)
    yield Finding(
        "cargo.payload",
        "cargo_payload",
        "mass",
        Limit(most=done.result.capacity_kg),
        total,
        uncertainty=empty.error_kg,
        demand_origin="sheet",
        limit_origin="weighed" if empty.weighed else "plate",
        steps=done.steps,
        sources=sources,
        notes=() if empty.weighed else (Note("not_weighed", {"error": Amount("mass", empty.error_kg)}),),
    )


def _row_items(cargo: Cargo) -> list[Item] | None:
    """Return the items as a row needs them; None where a length or a center of mass is missing."""
    found = [
        Item(
            str(item.name),
            item.mass.si,
            item.length.si,
            item.center_of_mass.si,
            item.width.si if item.width is not None else None,
        )
        for item in cargo.items
        if item.length is not None and item.center_of_mass is not None
    ]
    return found if len(found) == len(cargo.items) else None


def _row_length(items: list[Item], stand: Stand | None, limits: LoadLimits) -> Finding:
    """All items as they are stood against the deck; where that does not go, only a longer one is surely too long."""
    room = limits.room.length_m
    longest = max(items, key=lambda item: item.length_m)
    if stand is not None:
        long = min(stand.long_m, room)
        return Finding(
            "cargo.row", "cargo_row", "length", Limit(most=room), long, "label", demand_origin="sheet"
        )
    if longest.length_m > room:
        words = {"item": longest.name}
        return Finding(
            "cargo.row",
            "cargo_longest",
            "length",
            Limit(most=room),
            longest.length_m,
            "label",
            demand_origin="sheet",
            words=words,
        )
    return unknown("cargo.row", "cargo_row", "length", "side_by_side", limit=Limit(most=room))


def _place(window: Window, stand: Stand | None, limits: LoadLimits, total: float) -> Finding:
    """Where the load's common center stands, in the window of places, from the front of the deck."""
    zero = limits.room.front_x_m
    ends = Note(
        "window_ends",
        phrases={"front": f"ends_by.{window.front_by}", "rear": f"ends_by.{window.rear_by}"},
    )
    if not window.exists:
        return Finding("cargo.place", "cargo_place", "length", Limit(), None, holds=False, notes=(ends,))
    limit = Limit(least=window.front_x_m - zero, most=window.rear_x_m - zero)
    moved = worked(move_item, total, MOVED_m, limits.axles_x_m)
    shift = Note(
        "moved_back",
        {
            "way": Amount("length", MOVED_m, given="1 ft"),
            "off": Amount("mass", -moved.result.coupling_change_kg),
            "front": Amount("length", window.front_x_m, "demand"),
            "rear": Amount("length", window.rear_x_m, "capacity"),
        },
    )
    if stand is None:
        return unknown("cargo.place", "cargo_place", "length", "place_each", limit=limit, notes=(ends, shift))
    return Finding(
        "cargo.place",
        "cargo_place",
        "length",
        limit,
        stand.center_x_m - zero,
        steps=moved.steps,
        sources=all_references_of(move_item, trailer_loads),
        notes=(*(_spot(placed, zero) for placed in stand.placed), ends, shift),
    )


def _spot(placed: Placed, zero: float) -> Note:
    """Say where one item stands, from the front of the deck."""
    amounts = {"center": Amount("length", placed.center_x_m - zero)}
    words = {"item": placed.item.name, "other": placed.beside}
    if placed.front_x_m - zero < NEAR_m:
        return Note("item_first_beside" if placed.beside else "item_first", amounts, words)
    amounts["front"] = Amount("length", placed.front_x_m - zero)
    return Note("item_beside" if placed.beside else "item_spot", amounts, words)


def _standing(limits: LoadLimits, cargo_kg: float, x_m: float) -> Standing:
    """Return what coupling and axles carry with the cargo's common center at a place."""
    both = worked(center_of_mass, (limits.empty.mass_kg, cargo_kg), (limits.empty_x_m, x_m))
    loads = worked(trailer_loads, both.result.total_mass_kg, both.result.center_x_m, limits.axles_x_m)
    return Standing(
        cargo_kg,
        x_m,
        loads.result.coupling_load_kg,
        loads.result.axle_group_load_kg,
        (*both.steps, *loads.steps),
    )


def _standing_there(
    unit: AsBuiltUnit, limits: LoadLimits, load: Standing, truck: Truck | None
) -> Iterator[Finding]:
    """Every limit with the load standing there; of the axles' parts only the one that ends first, and the tires."""
    sources = all_references_of(center_of_mass, trailer_loads)
    error = limits.empty.error_kg / load.gross_kg
    yield Finding(
        "cargo.coupling_share",
        "cargo_share",
        "ratio",
        Limit(most=limits.share[1], least=limits.share[0]),
        load.coupling_kg / load.gross_kg,
        uncertainty=error * load.coupling_kg / load.gross_kg,
        limit_origin="plate",
        steps=load.steps,
        sources=sources,
    )
    truck_names = {name for name, _ in limits.coupling if name.startswith("truck_")}
    for name, most in limits.coupling:
        if name not in truck_names or name == "truck_coupling_vertical":
            yield _held(name, load.coupling_kg, most, "ball", load, sources)
    for name, most in limits.gross:
        if name.startswith("truck_") and name != "truck_combined":
            yield _held(name, load.gross_kg, most, "ball", load, sources)
    count = len(unit.geometry.axles.x_m)
    first = min(limits.axles, key=lambda bound: bound[1], default=None)
    tires = next((bound for bound in limits.axles if bound[0] == "each_tire"), None)
    for bound in dict.fromkeys(one for one in (first, tires) if one is not None):
        parts = count * (_tires_an_axle(unit) if bound[0] == "each_tire" else 1)
        group = GROUPS.get(bound[0], "axle")
        yield _held(bound[0], load.axles_kg / parts, bound[1] / parts, group, load, sources)
    if truck is not None:
        yield from _truck(truck, load)


def _tires_an_axle(unit: AsBuiltUnit) -> int:
    tires = unit.part("tires")
    return len(tires.places) // len(unit.geometry.axles.x_m) if tires is not None else 2


def _held(
    name: str, demand: float, most: float, group: str, load: Standing, sources: tuple[str, ...]
) -> Finding:
    return Finding(
        f"cargo.{name}",
        f"cargo_{name}",
        "mass",
        Limit(most=most),
        demand,
        group,
        demand_origin="sheet",
        steps=load.steps,
        sources=sources,
    )


def _truck(truck: Truck, load: Standing) -> Iterator[Finding]:
    """The truck as weighed, with this load's coupling on it."""
    limits = {
        "truck_front_axle": truck.gawr_front.si,
        "truck_rear_axle": truck.gawr_rear.si,
        "truck_gross": truck.gvwr.si,
    }
    if truck.gcwr is not None:
        limits["truck_combined"] = truck.gcwr.si
    if truck.weighed_front is None or truck.weighed_rear is None:
        for name, most in limits.items():
            yield unknown(f"cargo.{name}", f"cargo_{name}", "mass", "truck_weighed", limit=Limit(most=most))
        return
    shift = worked(truck_axle_shift, load.coupling_kg, truck.wheelbase.si, truck.coupling_behind_rear_axle.si)
    front, rear = truck.weighed_front.si, truck.weighed_rear.si
    demands = {
        "truck_front_axle": front + shift.result.front_axle_change_kg,
        "truck_rear_axle": rear + shift.result.rear_axle_change_kg,
        "truck_gross": front + rear + load.coupling_kg,
        "truck_combined": front + rear + load.gross_kg,
    }
    for name, most in limits.items():
        yield Finding(
            f"cargo.{name}",
            f"cargo_{name}",
            "mass",
            Limit(most=most),
            demands[name],
            "truck_axle" if name in TRUCK_AXLES else "",
            demand_origin="sheet",
            steps=(*load.steps, *shift.steps),
            sources=all_references_of(trailer_loads, truck_axle_shift),
        )
