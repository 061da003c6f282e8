"""Shapes of what lies on a deck or slides out of it: ramps, infills, open runways, a shield against stones."""
# ruff: noqa: ARG001  every shape takes the same three arguments, so that one table can hold them all

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import FittedPart, Geometry, Place
from sendoff.drawings.marks import SHEET, SMALL, TOP, Mark, Pair, area, block, strokes
from sendoff.drawings.shapes import Make, deck_at, measure

RAMP_M: Final = 0.075
"""How deep a ramp's rails are."""
LYING_M: Final = 0.03


def ramp_lies(geometry: Geometry, part: FittedPart) -> tuple[Pair, Pair]:
    """Return where a ramp lies when it is out: where it hooks on the rear edge, and its foot on the ground."""
    deck = max(geometry.decks, key=lambda deck: deck.x1_m)
    top = (deck.x1_m, deck.height_rear_m)
    fall = min(top[1], measure(part, "length", 2.4) * 0.98)
    return top, (top[0] + math.sqrt(measure(part, "length", 2.4) ** 2 - fall**2), 0.0)


def _side_ramp(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a ramp in its pocket (hidden), and once where it lies when it is out."""
    length = measure(part, "length", 2.4)
    if place.side == "left" or all(other.side != "left" for other in part.places):
        pocket = block(place.x_m, place.z_m - RAMP_M / 2, length, RAMP_M, "hidden", "none", SHEET)
        yield Mark(pocket.points, "hidden", "none", least=SHEET, layer=TOP)
        top, foot = ramp_lies(geometry, part)
        slope = math.atan2(top[1], foot[0] - top[0])
        under = (RAMP_M * math.sin(slope), RAMP_M * math.cos(slope))
        corners = (
            top,
            foot,
            (foot[0] - RAMP_M / math.sin(slope), 0.0),
            (top[0] - under[0], top[1] - under[1]),
        )
        yield Mark(corners, "ghost", "none", least=SHEET, layer=TOP)


def _plan_ramp(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    length, width = measure(part, "length", 2.4), measure(part, "width", 0.36)
    yield block(place.x_m, place.y_m - width / 2, length, width, "edge", "white", SMALL)


def _plan_infill(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return a plate closed over the gap, with its hinge on the driver's side."""
    length, width = measure(part, "length", 0.9), measure(part, "width", 0.45)
    x, low = place.x_m, place.y_m - width / 2
    yield block(x, low, length - 0.02, width, "edge", "white", SMALL)
    ends = [(x + share * length, low + 0.02) for share in (-0.36, -0.2, 0.2, 0.36)]
    yield strokes([(ends[0], ends[1]), (ends[2], ends[3])], "edge", SHEET)


def _plan_runner(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    """Return open mesh: short strokes along the two runways, each row set off by half (a slant means "tight")."""
    deck = deck_at(geometry, place.x_m)
    if deck is None:
        return
    half = deck.width_m / 2 - 0.0635
    inner = max(half - measure(part, "runway", 0.7), 0.0)
    ends, step = [], 0.15
    for sign in (-1, 1):
        for row in range(int((half - inner) / 0.08)):
            y = sign * (inner + 0.04 + row * 0.08)
            start = deck.x0_m + 0.08 + (row % 2) * step / 2
            starts = [start + number * step for number in range(int((deck.x1_m - 0.04 - start) / step))]
            ends += [((x, y), (x + step * 0.55, y)) for x in starts]
    yield strokes(ends, "detail", SHEET)
    for sign in (-1, 1):
        yield Mark(((deck.x0_m, sign * inner), (deck.x1_m, sign * inner)), "edge", "none", closed=False)


def _side_shield(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    yield block(place.x_m, place.z_m, LYING_M * 2, measure(part, "height", 0.8), "edge", "white", SMALL)


def _plan_shield(geometry: Geometry, part: FittedPart, place: Place) -> Iterator[Mark]:
    width = measure(part, "width", 2.0)
    yield block(place.x_m, place.y_m - width / 2, LYING_M * 2, width, "edge", "white", SMALL)
    posts = (place.y_m - width / 2, place.y_m + width / 2 - 0.05)
    for low in posts:
        corners = ((place.x_m - 0.03, low), (place.x_m + 0.12, low), (place.x_m + 0.12, low + 0.05))
        yield area((*corners, (place.x_m - 0.03, low + 0.05)), "thin", "white", SHEET)


SIDE: Final[dict[str, Make]] = {"ramp": _side_ramp, "shield": _side_shield}
PLAN: Final[dict[str, Make]] = {
    "ramp": _plan_ramp,
    "infill": _plan_infill,
    "runner": _plan_runner,
    "shield": _plan_shield,
}
LYING: Final = frozenset({"planks", "tread", "runner"})
"""Kinds that are the floor itself."""
ON_TOP: Final = frozenset({"infill", "shield"})
"""Kinds that the plan shows whatever lies under them."""
