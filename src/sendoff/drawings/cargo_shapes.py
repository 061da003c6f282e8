"""Plain shapes of what rides: a car, a pick-up, a machine, cargo, each from its own measures, seen from its left side.

Points count from the item's own front end and from the ground it stands on. Nothing here is a make or model: a car is
an outline that everybody reads as a car, as long and high and on the same wheels as the one that is meant.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from sendoff.drawings.marks import SMALL, Mark, Pair, area, block, disc, stroke

Looks = Literal["car", "pickup", "machine", "quad", "boat", "cargo"]
HEIGHT_M: Final[dict[Looks, float]] = {
    "car": 1.5, "pickup": 1.9, "machine": 2.2, "quad": 1.2, "boat": 2.0, "cargo": 1.0,
}  # fmt: skip
"""How high an item is drawn whose height nobody told."""
TIRE_M: Final[dict[Looks, float]] = {
    "car": 0.33, "pickup": 0.39, "machine": 0.40, "quad": 0.30, "boat": 0.0, "cargo": 0.0,
}  # fmt: skip

CAR: Final = (
    (0.00, 0.34), (0.01, 0.50), (0.10, 0.58), (0.26, 0.64), (0.38, 0.96), (0.56, 1.00), (0.70, 0.96), (0.86, 0.68),
    (0.98, 0.62), (1.00, 0.42), (0.98, 0.24), (0.02, 0.22),
)  # fmt: skip
CAR_WINDOW: Final = ((0.31, 0.65), (0.40, 0.91), (0.56, 0.94), (0.68, 0.90), (0.79, 0.68))
PICKUP: Final = (
    (0.00, 0.32), (0.00, 0.54), (0.04, 0.58), (0.24, 0.62), (0.32, 0.97), (0.36, 1.00), (0.53, 1.00), (0.57, 0.96),
    (0.60, 0.64), (0.99, 0.64), (1.00, 0.60), (1.00, 0.34), (0.98, 0.28), (0.02, 0.28),
)  # fmt: skip
PICKUP_WINDOW: Final = ((0.29, 0.65), (0.35, 0.93), (0.53, 0.93), (0.56, 0.65))
MACHINE: Final = (
    (0.30, 0.22), (0.30, 0.50), (0.40, 0.52), (0.42, 1.00), (0.72, 1.00), (0.76, 0.62), (0.99, 0.58), (1.00, 0.24),
)  # fmt: skip
MACHINE_WINDOW: Final = ((0.45, 0.56), (0.46, 0.93), (0.69, 0.93), (0.72, 0.58))
QUAD: Final = (
    (0.02, 0.46), (0.06, 0.60), (0.26, 0.66), (0.38, 0.76), (0.46, 0.66), (0.58, 0.62), (0.76, 0.68), (0.96, 0.62),
    (0.98, 0.50), (0.74, 0.36), (0.68, 0.24), (0.34, 0.24), (0.26, 0.36),
)  # fmt: skip
HULL: Final = (
    (0.00, 0.56), (0.05, 0.36), (0.14, 0.14), (0.26, 0.02), (0.34, 0.00), (1.00, 0.00), (1.00, 0.46), (0.60, 0.46),
)  # fmt: skip
HOUSE: Final = ((0.34, 0.50), (0.44, 0.94), (0.48, 1.00), (0.66, 1.00), (0.68, 0.46))
HOUSE_WINDOW: Final = ((0.42, 0.66), (0.47, 0.90), (0.62, 0.90), (0.63, 0.66))
HULL_ABOVE: Final = ((0.00, 0.0), (0.06, 0.42), (0.16, 0.76), (0.32, 1.0), (1.0, 1.0))
"""Half of it, from the bow; widths as parts of half its width."""
HANDLEBAR: Final = ((0.34, 0.70), (0.36, 0.68), (0.47, 0.97), (0.55, 0.96), (0.55, 1.00), (0.44, 1.00))
ARM: Final = ((0.80, 0.60), (0.86, 0.66), (0.28, 0.52), (0.17, 0.20), (0.12, 0.24), (0.24, 0.58))
BUCKET: Final = ((0.18, 0.10), (0.17, 0.30), (0.08, 0.28), (0.00, 0.07), (0.14, 0.06))


@dataclass(frozen=True, slots=True)
class Riding:
    """An item as it is drawn."""

    looks: Looks
    length_m: float
    height_m: float
    wheels_m: tuple[float, ...]
    """Where it bears on the deck, behind its own front end."""
    on_tracks: bool = False

    @property
    def tire_m(self) -> float:
        """Radius of its tires, such that they do not touch each other or stick out."""
        if len(self.wheels_m) < 2:
            return TIRE_M[self.looks]
        between = min(b - a for a, b in zip(self.wheels_m, self.wheels_m[1:], strict=False))
        return max(min(TIRE_M[self.looks], between / 2 - 0.04, self.height_m * 0.3), 0.08)


def smoothed(points: Sequence[Pair], times: int = 2) -> tuple[Pair, ...]:
    """Return a closed outline with its corners cut, quarter by quarter, until it looks round."""
    for _ in range(times):
        cut: list[Pair] = []
        for (x0, z0), (x1, z1) in zip(points, (*points[1:], points[0]), strict=True):
            cut += [(x0 * 0.8 + x1 * 0.2, z0 * 0.8 + z1 * 0.2), (x0 * 0.2 + x1 * 0.8, z0 * 0.2 + z1 * 0.8)]
        points = cut
    return tuple(points)


def marks_of(riding: Riding) -> list[Mark]:
    """Return what an item looks like from its left side, its front at the left."""
    if riding.looks == "cargo":
        return _cargo(riding)
    if riding.looks == "boat":
        return _boat(riding)
    if riding.looks == "quad":
        return _quad(riding)
    long, high = riding.length_m, riding.height_m
    outline = {"car": CAR, "pickup": PICKUP, "machine": MACHINE}[riding.looks]
    window = {"car": CAR_WINDOW, "pickup": PICKUP_WINDOW, "machine": MACHINE_WINDOW}[riding.looks]

    def sized(points: Sequence[Pair]) -> list[Pair]:
        return [(x * long, z * high) for x, z in points]

    marks: list[Mark] = []
    rounds = 1 if riding.looks == "machine" else 2
    if riding.looks == "machine":
        marks += [area(sized(BUCKET), "edge", "mid", SMALL)]
    marks.append(area(smoothed(sized(outline), rounds), "edge", "pale", SMALL))
    marks.append(area(smoothed(sized(window), 1), "thin", "white", SMALL))
    if riding.looks == "machine":
        marks.append(area(sized(ARM), "edge", "mid", SMALL))
    marks += _tracks(riding) if riding.on_tracks else _wheels(riding)
    return marks


def _boat(riding: Riding) -> list[Mark]:
    def sized(points: Sequence[Pair]) -> list[Pair]:
        return [(x * riding.length_m, z * riding.height_m) for x, z in points]

    return [
        area(sized(HOUSE), "edge", "pale", SMALL),
        area(sized(HOUSE_WINDOW), "thin", "white", SMALL),
        area(sized(HULL), "edge", "pale", SMALL),
    ]


def outline_above(riding: Riding, width_m: float) -> list[Pair]:
    """Return what an item covers of the deck, its front end at zero."""
    half = width_m / 2
    if riding.looks == "boat":
        side = [(x * riding.length_m, y * half) for x, y in HULL_ABOVE]
        return [*side, *((x, -y) for x, y in reversed(side))]
    return [(0.0, -half), (0.0, half), (riding.length_m, half), (riding.length_m, -half)]


def _quad(riding: Riding) -> list[Mark]:
    long, high = riding.length_m, riding.height_m
    body = [(x * long, z * high) for x, z in QUAD]
    bar = [(x * long, z * high) for x, z in HANDLEBAR]
    return [area(bar, "edge", "mid", SMALL), area(smoothed(body, 1), "edge", "pale", SMALL), *_wheels(riding)]


def _wheels(riding: Riding) -> list[Mark]:
    tire, found = riding.tire_m, []
    for at in riding.wheels_m:
        found.append(disc((at, tire), tire, "edge", "white", SMALL))
        found.append(disc((at, tire), tire * 0.55, "thin", "white", SMALL))
    return found


def _tracks(riding: Riding) -> list[Mark]:
    first, last = riding.wheels_m[0], riding.wheels_m[-1]
    radius = min(0.36, riding.height_m * 0.16)
    around = [
        (last + radius * math.sin(turn * math.pi / 8), radius - radius * math.cos(turn * math.pi / 8))
        for turn in range(9)
    ]
    around += [
        (first - radius * math.sin(turn * math.pi / 8), radius + radius * math.cos(turn * math.pi / 8))
        for turn in range(9)
    ]
    found = [area(around, "edge", "white", SMALL)]
    found += [disc((at, radius), radius * 0.45, "thin", "white", SMALL) for at in riding.wheels_m]
    return found


def _cargo(riding: Riding) -> list[Mark]:
    """A load that lies on the deck: a box with the lines that say it was stacked."""
    long, high = riding.length_m, riding.height_m
    found = [block(long / 2, 0.0, long, high, "edge", "pale", SMALL)]
    lines = [high * share for share in (1 / 3, 2 / 3)]
    return found + [stroke([(0.0, z), (long, z)], "thin", SMALL) for z in lines]


def stood(mark: Mark, front: Pair, slope_rad: float, length_m: float, *, backward: bool) -> Mark:
    """Return a mark of an item where the item stands: its forward-most end at a point of the deck, the deck's slope.

    Facing backward it is seen from its right side, mirrored: what was its front is then at the rear.
    """
    sine, cosine = math.sin(slope_rad), math.cos(slope_rad)

    def there(point: Pair) -> Pair:
        along = length_m - point[0] if backward else point[0]
        return front[0] + along * cosine + point[1] * sine, front[1] - along * sine + point[1] * cosine

    return replace(mark, points=tuple(there(point) for point in mark.points))
