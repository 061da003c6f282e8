"""Where a view lies on paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sendoff.drawings.marks import Pair
from sendoff.drawings.svg import Point

Near = Literal["left", "right"]
"""The side of the trailer that is looked at."""


@dataclass(frozen=True, slots=True)
class Projection:
    """Where a view lies on paper: millimeters of paper a meter, and where the world's zero falls."""

    mm_a_meter: float
    zero: Point
    near: Near = "left"
    """The side that is looked at; from the right the coupling lies on the right."""

    def __call__(self, point: Pair) -> Point:
        """Return a point of the view on paper."""
        along = -point[0] if self.near == "right" else point[0]
        return self.zero[0] + along * self.mm_a_meter, self.zero[1] - point[1] * self.mm_a_meter
