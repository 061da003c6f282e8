"""Standing items along the deck: an order, who stands beside whom, and a shift, so that their common center is right.

The heaviest item stands in front where that serves, since machines are driven on from behind; two stand side by side
only where no single row brings the center into its window. Three abreast, or one on another, is not tried: that is
the deck planner's work, or the scale's.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

MOST_ITEMS: Final = 5
"""More items than this are tried only in two orders: heaviest in front, and heaviest behind."""
NEAR_m: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Item:
    """One item as standing it needs."""

    name: str
    mass_kg: float
    length_m: float
    center_m: float
    """From its own front end."""
    width_m: float | None = None


@dataclass(frozen=True, slots=True)
class Room:
    """The deck a load may stand on."""

    front_x_m: float
    rear_x_m: float
    width_m: float

    @property
    def length_m(self) -> float:
        """From its front to its rear."""
        return self.rear_x_m - self.front_x_m


@dataclass(frozen=True, slots=True)
class Placed:
    """An item in its place, counted rearwards from the coupling."""

    item: Item
    front_x_m: float
    beside: str = ""
    """Name of the item it stands beside."""

    @property
    def center_x_m(self) -> float:
        """Where its center of mass stands."""
        return self.front_x_m + self.item.center_m


@dataclass(frozen=True, slots=True)
class Stand:
    """All items on the deck, front to rear."""

    placed: tuple[Placed, ...]
    center_x_m: float
    """Of all of them together."""
    long_m: float
    """From the first item's front to the last one's rear."""


Rows = tuple[tuple[Item, ...], ...]


def stand_near(items: Sequence[Item], room: Room, window: tuple[float, float]) -> Stand | None:
    """Return how the items may stand with their common center in a window, or as near to its middle as can be.

    None where they do not fit on the deck, alone in a row or two abreast.
    """
    wanted, best = sum(window) / 2, None
    for pairs in range(len(items) // 2 + 1):
        best = _nearest(items, room, wanted, pairs, best)
        if best is not None and window[0] <= best.center_x_m <= window[1]:
            break
    return best


def _nearest(
    items: Sequence[Item], room: Room, wanted: float, pairs: int, best: Stand | None
) -> Stand | None:
    """Return the stand with so many pairs abreast that comes nearer than the best known, else the best known."""
    for rows in _arrangements(items, room, pairs):
        stand = _shifted(rows, room, wanted)
        if stand is None:
            continue
        if best is None or abs(stand.center_x_m - wanted) < abs(best.center_x_m - wanted) - NEAR_m:
            best = stand
        if abs(best.center_x_m - wanted) <= NEAR_m:
            break
    return best


def _arrangements(items: Sequence[Item], room: Room, pairs: int) -> Iterator[Rows]:
    """Yield every order of the items with so many neighbors put side by side, where the deck is wide enough."""
    heavy_first = tuple(sorted(items, key=lambda item: -item.mass_kg))
    orders: Iterator[tuple[Item, ...]] = (
        itertools.permutations(heavy_first)
        if len(items) <= MOST_ITEMS
        else iter((heavy_first, heavy_first[::-1]))
    )
    for order in orders:
        yield from _paired(order, room, pairs)


def _paired(order: tuple[Item, ...], room: Room, pairs: int) -> Iterator[Rows]:
    if len(order) < 2 * pairs:
        return
    if not order:
        yield ()
        return
    for rest in _paired(order[1:], room, pairs):
        yield (order[:1], *rest)
    if pairs and len(order) > 1 and _fit(order[0], order[1], room):
        for rest in _paired(order[2:], room, pairs - 1):
            yield (order[:2], *rest)


def _fit(one: Item, other: Item, room: Room) -> bool:
    return (
        one.width_m is not None and other.width_m is not None and one.width_m + other.width_m <= room.width_m
    )


def _shifted(rows: Rows, room: Room, wanted: float) -> Stand | None:
    """Return the rows one behind the other, moved back as a whole as far as serves; None where they are too long."""
    longs = [max(item.length_m for item in row) for row in rows]
    slack = room.length_m - math.fsum(longs)
    if slack < -NEAR_m:
        return None
    starts = list(itertools.accumulate(longs, initial=0.0))[:-1]
    mass = math.fsum(item.mass_kg for row in rows for item in row)
    center = math.fsum(
        item.mass_kg * (start + item.center_m) / mass
        for start, row in zip(starts, rows, strict=True)
        for item in row
    )
    shift = room.front_x_m + min(max(wanted - room.front_x_m - center, 0.0), max(slack, 0.0))
    placed = tuple(
        Placed(item, shift + start, next((other.name for other in row if other is not item), ""))
        for start, row in zip(starts, rows, strict=True)
        for item in row
    )
    return Stand(placed, shift + center, math.fsum(longs))
