"""The walk on the plan: one lap round the trailer, the stations standing on it near what they are about.

Where a station stands on the lap is computed, not placed: as near its target as a least gap between neighbors allows,
their order kept (least squares under that gap, by pooling neighbors that want the same spot). Each leader ends on a
part of its station, chosen so that no leader crosses another one or runs through another station.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from sendoff.catalogue.fields import Side
from sendoff.drawings.svg import PATH, VIOLET, Canvas, Point

First = Literal["left", "right"]
RING_MM: Final = 3.0
GAP_MM: Final = 15.0
CORNER_MM: Final = 8.0
_CLEAR_MM: Final = 0.7
"""Between a leader and a ring or dot that is not its own."""


@dataclass(frozen=True, slots=True)
class Lap:
    """A rectangle with round corners on paper, walked from the middle of its left side, the trailer's front."""

    left: float
    top: float
    right: float
    bottom: float
    first: First = "left"
    """The trailer's side walked first: left (bottom of the plan) or right (top)."""
    corner: float = CORNER_MM

    @property
    def _runs(self) -> tuple[float, ...]:
        """Lengths of half a front, corner, side, corner, rear, corner, side, corner, half a front."""
        tall = self.bottom - self.top - 2 * self.corner
        wide, turn = self.right - self.left - 2 * self.corner, math.pi / 2 * self.corner
        return tall / 2, turn, wide, turn, tall, turn, wide, turn, tall / 2

    @property
    def length(self) -> float:
        """Once round."""
        return sum(self._runs)

    def at(self, distance: float) -> tuple[Point, Point]:
        """Return the point at a distance from the start, and the direction walked there."""
        left = distance % self.length
        for number, run in enumerate(self._runs):
            if left <= run or number == 8:
                break
            left -= run
        point, toward = self._on(number, left)
        if self.first == "left":
            return point, toward
        return (point[0], self.top + self.bottom - point[1]), (toward[0], -toward[1])

    def _on(self, number: int, along: float) -> tuple[Point, Point]:
        r = self.corner
        straight: dict[int, tuple[Point, Point]] = {
            0: ((self.left, (self.top + self.bottom) / 2), (0, 1)),
            2: ((self.left + r, self.bottom), (1, 0)),
            4: ((self.right, self.bottom - r), (0, -1)),
            6: ((self.right - r, self.top), (-1, 0)),
            8: ((self.left, self.top + r), (0, 1)),
        }
        if number in straight:
            (x, y), (dx, dy) = straight[number]
            return (x + dx * along, y + dy * along), (dx, dy)
        center, start = {
            1: ((self.left + r, self.bottom - r), math.pi),
            3: ((self.right - r, self.bottom - r), math.pi / 2),
            5: ((self.right - r, self.top + r), 0.0),
            7: ((self.left + r, self.top + r), -math.pi / 2),
        }[number]
        angle = start - along / r
        point = (center[0] + r * math.cos(angle), center[1] + r * math.sin(angle))
        return point, (math.sin(angle), -math.cos(angle))

    def wish(self, side: Side, target: Point) -> float:
        """Return where on the lap a station of a side would stand if it were alone."""
        x, y = target
        if self.first == "right":
            y = self.top + self.bottom - y
            side = {"left": "right", "right": "left"}.get(side, side)  # type: ignore[assignment]
        runs, r = self._runs, self.corner
        along = min(max(x - self.left - r, 0.0), runs[2])
        if side in {"left", "center"}:
            return sum(runs[:2]) + along
        if side == "right":
            return sum(runs[:6]) + runs[6] - along
        if side == "rear":
            return sum(runs[:4]) + min(max(self.bottom - r - y, 0.0), runs[4])
        return min(max(y - (self.top + self.bottom) / 2, 0.0), runs[0])


def spread(wishes: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return places in the order of the wishes, at least a gap apart, with the least sum of squared moves.

    >>> spread([10, 10, 30], 6, 0, 100), spread([10, 11, 12], 10, 0, 100), spread([1, 2], 5, 4.0, 100)
    ([7.0, 13.0, 30], [1.0, 11.0, 21.0], [4.0, 9.0])
    """
    if not wishes:
        return []
    gap = min(gap, (high - low) / max(len(wishes) - 1, 1))
    pools: list[tuple[float, int]] = []  # mean of the wishes with the gaps taken out, number of members
    for number, wish in enumerate(wishes):
        mean, size = wish - number * gap, 1
        while pools and pools[-1][0] > mean:
            other, members = pools.pop()
            mean, size = (mean * size + other * members) / (size + members), size + members
        pools.append((mean, size))
    flat = [mean for mean, size in pools for _ in range(size)]
    most = high - (len(wishes) - 1) * gap
    return [min(max(place, low), most) + number * gap for number, place in enumerate(flat)]


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Tell whether two lines between points cross."""

    def turn(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def distance_to(point: Point, start: Point, end: Point) -> float:
    """Return how near a point lies to the line between two others."""
    (x, y), (x0, y0), (x1, y1) = point, start, end
    long = (x1 - x0) ** 2 + (y1 - y0) ** 2
    share = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / long if long else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.hypot(x - x0 - share * (x1 - x0), y - y0 - share * (y1 - y0))


def clash(one: tuple[Point, Point], other: tuple[Point, Point], ring: float = RING_MM) -> bool:
    """Tell whether two leaders (from ring to dot) cross, or one runs through the other's ring or dot."""
    return (
        _cross(*one, *other)
        or distance_to(one[0], *other) < ring + _CLEAR_MM
        or distance_to(other[0], *one) < ring + _CLEAR_MM
        or distance_to(one[1], *other) < _CLEAR_MM
        or distance_to(other[1], *one) < _CLEAR_MM
    )


def choose_targets(
    rings: Sequence[Point],
    candidates: Sequence[Sequence[Point]],
    stubs: Sequence[Point],
    ring: float = RING_MM,
) -> list[Point]:
    """Return for each ring the first of its candidates (best first) with which no leaders clash.

    A ring for which no candidate can be found, however the others choose, takes its stub: a short line straight
    towards the trailer that can clash with nothing.
    """
    stubbed: set[int] = set()
    while True:
        options = [
            [stub] if number in stubbed else list(found)
            for number, (found, stub) in enumerate(zip(candidates, stubs, strict=True))
        ]
        chosen, farthest = _without_clash(rings, options, ring)
        if chosen is not None:
            return chosen
        if farthest in stubbed:
            return list(stubs)
        stubbed.add(farthest)


def _without_clash(
    rings: Sequence[Point], options: Sequence[Sequence[Point]], ring: float, tries: int = 3000
) -> tuple[list[Point] | None, int]:
    """Return targets without a clash, and else the ring at which the search got stuck farthest along."""
    chosen: list[int] = []
    start = [0] * (len(rings) + 1)
    farthest = 0
    while len(chosen) < len(rings) and tries > 0:
        position = len(chosen)
        farthest = max(farthest, position)
        found = None
        for number in range(start[position], len(options[position])):
            tries -= 1
            leader = (rings[position], options[position][number])
            if _fits(leader, position, rings, [options[n][pick] for n, pick in enumerate(chosen)], ring):
                found = number
                break
        if found is not None:
            chosen.append(found)
            start[position + 1] = 0
        elif not chosen:
            break
        else:
            start[position - 1] = chosen.pop() + 1
    if len(chosen) == len(rings):
        return [options[number][pick] for number, pick in enumerate(chosen)], farthest
    return None, farthest


def _fits(
    leader: tuple[Point, Point], position: int, rings: Sequence[Point], taken: Sequence[Point], ring: float
) -> bool:
    through = any(
        distance_to(other, *leader) < ring + _CLEAR_MM for n, other in enumerate(rings) if n != position
    )
    return not through and not any(
        clash(leader, (rings[number], target), ring) for number, target in enumerate(taken)
    )


def draw_lap(canvas: Canvas, lap: Lap, standing: Sequence[float]) -> None:
    """Draw the dashed lap with an arrow in the middle of every wide gap between stations."""
    canvas.rounded((lap.left, lap.top), lap.right - lap.left, lap.bottom - lap.top, lap.corner, PATH)
    places = [*sorted(standing), min(standing) + lap.length] if standing else [0.0, lap.length]
    for start, end in itertools.pairwise(places):
        if end - start > 2 * RING_MM + 14:
            point, toward = lap.at((start + end) / 2 + 1.5)
            canvas.arrow(point, toward, 3.2, 1.15, VIOLET)
