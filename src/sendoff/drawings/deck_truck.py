"""The truck before a trailer, as a plain outline: only its axles and its coupling stand where they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff.drawings.cargo_shapes import PICKUP, PICKUP_WINDOW, smoothed
from sendoff.drawings.marks import SMALL, Mark, area, disc
from sendoff.drawings.projection import Projection
from sendoff.drawings.svg import Canvas
from sendoff.drawings.views import Style, paint
from sendoff.findings.deck.case import DeckCase

AHEAD_m: Final = 0.95
BEHIND_m: Final = 1.25
"""How far bumpers stand from the axles (common practice, no source: the truck is drawn, not measured)."""
HEIGHT_m: Final = 1.95
TIRE_m: Final = 0.40


@dataclass(frozen=True, slots=True)
class Truck:
    """Where a truck stands before a trailer."""

    front_axle_m: float
    rear_axle_m: float
    rear_m: float

    @property
    def front_m(self) -> float:
        """Its front bumper."""
        return self.front_axle_m - AHEAD_m

    @property
    def top_m(self) -> float:
        """Its roof."""
        return HEIGHT_m


def truck_of(case: DeckCase) -> Truck | None:
    """Return the truck of a case; None where none is known. Its bumper ends short of a ball behind it."""
    truck = case.truck
    if truck is None:
        return None
    rear_axle = -truck.coupling_behind_rear_axle.si
    rear = rear_axle + BEHIND_m
    if rear_axle < -0.5:
        rear = min(rear, -0.15)
    return Truck(rear_axle - truck.wheelbase.si, rear_axle, rear)


def paint_truck(canvas: Canvas, truck: Truck, at: Projection, style: Style) -> None:
    """Paint the truck behind everything else, in thin lines."""
    long = truck.rear_m - truck.front_m

    def there(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
        return [(truck.front_m + x * long, z * HEIGHT_m) for x, z in points]

    marks: list[Mark] = [
        area(smoothed(there(PICKUP), 2), "thin", "white", SMALL),
        area(smoothed(there(PICKUP_WINDOW), 1), "thin", "white", SMALL),
    ]
    for axle in (truck.front_axle_m, truck.rear_axle_m):
        marks.append(disc((axle, TIRE_m), TIRE_m, "thin", "white", SMALL))
        marks.append(disc((axle, TIRE_m), TIRE_m * 0.55, "thin", "white", SMALL))
    paint(canvas, marks, at, style)
