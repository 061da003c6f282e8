"""Where a load may stand, and how much it may weigh: every limit as a straight line in the load's mass and moment.

With the empty trailer's mass m0 and center x0, a load of mass m at x, the axles' middle at L:
M = m0 + m, S = m0·x0 + m·x, axles A = S/L, coupling T = M − A. A limit on T, A, T/M or x is then a line
m·x ≥ a + b·m (as far forward as it may stand) or m·x ≤ a + b·m (as far back), so the window of places for a mass, and
the greatest mass for which there is one, follow without search. Positions count rearwards from the coupling.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.freight import Truck
from sendoff.findings.load_row import Room
from sendoff.findings.unit_limits import AXLE_PARTS, rating_of, share_of_axle
from sendoff.findings.weighed import Empty, axle_group_x_m
from sendoff.units import STANDARD_GRAVITY_mps2

FLEXIBLE: Final = 1.08
"""How far the heaviest of several torsion axles may lie above their mean on a flexible frame: `torsion_axle_loads`."""
SAME_LEVEL_m: Final = 0.06
"""Decks of one height with less than this between them are one room for the load."""


@dataclass(frozen=True, slots=True)
class Line:
    """A limit as a line m·x = a + b·m in the load's moment and mass."""

    name: str
    a: float
    b: float

    def at(self, cargo_kg: float) -> float:
        """Return where the load's center stands on this line."""
        return self.a / cargo_kg + self.b


@dataclass(frozen=True, slots=True)
class Window:
    """The places a load's center may have; the limit that ends it at either side."""

    front_x_m: float
    front_by: str
    rear_x_m: float
    rear_by: str

    @property
    def exists(self) -> bool:
        """Whether there is any place at all."""
        return self.front_x_m <= self.rear_x_m

    @property
    def middle_x_m(self) -> float:
        """The place farthest from both ends."""
        return (self.front_x_m + self.rear_x_m) / 2


@dataclass(frozen=True, slots=True)
class Most:
    """The greatest load for which there is a place, where it stands, and what ends it."""

    cargo_kg: float
    by: tuple[str, ...]
    x_m: float | None
    """Its one place; None where nothing may be carried."""
    least_kg: float
    """The smallest load with a place: below it no spot on the deck brings the coupling into its window."""


@dataclass(frozen=True, slots=True)
class LoadLimits:
    """All limits of one trailer, with its truck where one is known, on what it carries."""

    empty: Empty
    empty_x_m: float
    axles_x_m: float
    share: tuple[float, float]
    """Least and most of the whole weight on the coupling."""
    room: Room
    """The deck a load's center must lie on."""
    gross: tuple[tuple[str, float], ...]
    coupling: tuple[tuple[str, float], ...]
    axles: tuple[tuple[str, float], ...]
    not_known: tuple[str, ...] = field(default=())
    """Limits of the truck that nobody can hold yet, because a number is missing."""

    def coupling_kg(self, cargo_kg: float, x_m: float) -> float:
        """Return the load on the coupling with a cargo at a place; a minus lifts it."""
        return self.empty.mass_kg + cargo_kg - self.axle_group_kg(cargo_kg, x_m)

    def axle_group_kg(self, cargo_kg: float, x_m: float) -> float:
        """Return the load on all axles."""
        return (self.empty.mass_kg * self.empty_x_m + cargo_kg * x_m) / self.axles_x_m

    def front_lines(self) -> Iterator[Line]:
        """Yield what ends the window in front."""
        long, bare = self.axles_x_m, self.empty.mass_kg
        moment = bare * self.empty_x_m
        yield Line("deck_front", 0.0, self.room.front_x_m)
        yield Line("share_most", long * (1 - self.share[1]) * bare - moment, long * (1 - self.share[1]))
        for name, most in self.coupling:
            yield Line(name, long * (bare - most) - moment, long)

    def rear_lines(self) -> Iterator[Line]:
        """Yield what ends the window behind."""
        long, bare = self.axles_x_m, self.empty.mass_kg
        moment = bare * self.empty_x_m
        yield Line("deck_rear", 0.0, self.room.rear_x_m)
        yield Line("share_least", long * (1 - self.share[0]) * bare - moment, long * (1 - self.share[0]))
        for name, most in self.axles:
            yield Line(name, long * most - moment, 0.0)

    def window(self, cargo_kg: float) -> Window:
        """Return where a load's center may stand; a window that ends before it begins holds no place."""
        front = max(self.front_lines(), key=lambda line: line.at(cargo_kg))
        rear = min(self.rear_lines(), key=lambda line: line.at(cargo_kg))
        return Window(front.at(cargo_kg), front.name, rear.at(cargo_kg), rear.name)

    def most_cargo(self) -> Most:
        """Return the greatest load that has a place, with the limits that end it."""
        worst = self.empty.mass_kg + self.empty.error_kg
        caps: list[tuple[float, tuple[str, ...]]] = [(most - worst, (name,)) for name, most in self.gross]
        least = 0.0
        for front in self.front_lines():
            for rear in self.rear_lines():
                slope, room = front.b - rear.b, rear.a - front.a
                if math.isclose(slope, 0.0, abs_tol=1e-12):
                    caps += [(0.0, (front.name, rear.name))] if room < 0 else []
                elif slope > 0:
                    caps.append((room / slope, (front.name, rear.name)))
                else:
                    least = max(least, room / slope)
        cargo, by = min(caps, key=lambda cap: cap[0])
        if cargo <= 0 or cargo < least:
            return Most(0.0, by, None, least)
        return Most(cargo, by, self.window(cargo).middle_x_m, least)


def limits_of(unit: AsBuiltUnit, empty: Empty, truck: Truck | None = None) -> LoadLimits | None:
    """Return the limits on a unit's load; None where plate or weighing do not tell enough."""
    long = axle_group_x_m(unit)
    x0, gvwr = empty.center_x_m(long), unit.plate.gvwr.si
    least, most = unit.plate.coupling_share_least.si, unit.plate.coupling_share_most.si
    if x0 is None or gvwr is None or least is None or most is None:
        return None
    gross, coupling = [("plate_gross", gvwr)], []
    coupler, chains = unit.part("coupler"), unit.part("chains")
    if coupler is not None:
        gross += _named("coupler_gross", coupler.si("gross_rating"))
        coupling += _named("coupler_vertical", coupler.si("vertical_rating"))
    if chains is not None and (force := chains.si("breaking_force")) is not None:
        gross += [("each_chain", force / STANDARD_GRAVITY_mps2)]
    not_known: list[str] = []
    if truck is not None:
        on_coupling, on_gross, not_known = _of_truck(truck)
        coupling, gross = coupling + on_coupling, gross + on_gross
    return LoadLimits(
        empty,
        x0,
        long,
        (least, most),
        room_of(unit),
        tuple(gross),
        tuple(coupling),
        tuple(_of_axles(unit)),
        tuple(not_known),
    )


def _named(name: str, value: float | None) -> list[tuple[str, float]]:
    return [(name, value)] if value is not None else []


def room_of(unit: AsBuiltUnit) -> Room:
    """Return the longest level room for a load, decks of one height that follow each other taken together."""
    rooms: list[tuple[Room, float]] = []
    for deck in sorted(unit.geometry.decks, key=lambda deck: (deck.height_m, deck.x0_m)):
        one = Room(deck.x0_m, deck.x1_m, deck.width_m)
        before, height = rooms[-1] if rooms else (one, -math.inf)
        if deck.x0_m - before.rear_x_m <= SAME_LEVEL_m and abs(deck.height_m - height) <= SAME_LEVEL_m:
            both = Room(
                before.front_x_m, max(before.rear_x_m, one.rear_x_m), min(before.width_m, one.width_m)
            )
            rooms[-1] = (both, deck.height_rear_m)
        else:
            rooms.append((one, deck.height_rear_m))
    return max((room for room, _ in rooms), key=lambda room: room.length_m)


def _of_axles(unit: AsBuiltUnit) -> Iterator[tuple[str, float]]:
    """Yield what each kind of part lets all axles carry together, shared evenly."""
    axles = unit.geometry.axles
    count = len(axles.x_m)
    uneven = FLEXIBLE if axles.suspension == "torsion" and count > 1 else 1.0
    labels = [value.si for value in unit.plate.gawr if value.si is not None]
    if labels:
        yield "plate_axles", min(labels) * count / uneven
    for slot, about, _ in AXLE_PARTS:
        rating = rating_of(unit, slot)
        if unit.part(slot) is not None and rating is not None:
            yield about, rating * share_of_axle(unit, slot) * count / uneven


def _of_truck(truck: Truck) -> tuple[list[tuple[str, float]], list[tuple[str, float]], list[str]]:
    """Return a truck's limits on the coupling's load and on the trailer's mass, and those nobody can hold yet."""
    coupling = _named("truck_coupling_vertical", _si(truck.coupling_vertical_rating))
    gross = _named("truck_coupling", _si(truck.coupling_rating))
    not_known = [
        name
        for name, value in (
            ("truck_coupling_vertical", truck.coupling_vertical_rating),
            ("truck_coupling", truck.coupling_rating),
            ("truck_combined", truck.gcwr),
        )
        if value is None
    ]
    front, rear = _si(truck.weighed_front), _si(truck.weighed_rear)
    if front is None or rear is None:
        missing = {"truck_front_axle", "truck_rear_axle", "truck_gross", "truck_combined"}
        return coupling, gross, sorted({*not_known, *missing})
    behind = truck.coupling_behind_rear_axle.si / truck.wheelbase.si
    coupling.append(("truck_gross", truck.gvwr.si - front - rear))
    if behind > -1:
        coupling.append(("truck_rear_axle", (truck.gawr_rear.si - rear) / (1 + behind)))
    if behind < 0:
        coupling.append(("truck_front_axle", (truck.gawr_front.si - front) / -behind))
    gross += _named("truck_combined", truck.gcwr.si - front - rear if truck.gcwr is not None else None)
    return coupling, gross, not_known


def _si(value: object) -> float | None:
    return getattr(value, "si", None)
