"""The frame as a beam: what pin and axles bear when the frame bends, held against the rigid formula of the search.

Torsion axles are springs under a bending frame, so the load goes to those nearest to it more than a rigid frame would
let it. Hermite beam elements between all places where something acts; hinged at the coupling, one spring for each
axle; the trailer's own mass lies evenly around its center.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from sendoff.calc.deck_plan.gear import Trailer
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2

HALF_BAND = 4


@dataclass(frozen=True, slots=True)
class Reactions:
    """What the coupling and each axle bear."""

    pin_kg: float
    axle_kg: tuple[float, ...]


def flexible_reactions(
    trailer: Trailer, loads: Sequence[tuple[float, float]], front_m: float, rear_m: float
) -> Reactions:
    """Return what pin and torsion axles bear under point loads (kg, m) on a frame that bends.

    Parameters
    ----------
    trailer : Trailer
        With torsion axles, `frame_stiffness_Nm2` and `axle_stiffness_Npm`.
    loads : sequence of (kg, m)
        Loads and where they stand behind the coupling point.
    front_m, rear_m : float
        Where the frame begins and ends [m].

    Returns
    -------
    Reactions
        Pin and axle loads [kg].

    Raises
    ------
    OutOfRange
        If the trailer's stiffnesses are not known or its axles share their load.
    """
    if trailer.suspension != "torsion":
        raise OutOfRange(
            "trailer: suspension",
            trailer.suspension,
            "must be torsion; equalized axles share alike on any frame",
        )
    if trailer.frame_stiffness_Nm2 is None or trailer.axle_stiffness_Npm is None:
        raise OutOfRange("trailer: frame_stiffness_Nm2, axle_stiffness_Npm", None, "must both be known")
    spread = _own_mass(trailer, front_m, rear_m)
    places = sorted({0.0, front_m, rear_m, *trailer.axle_m, *spread[:2], *(at for _, at in loads)})
    places = [at for number, at in enumerate(places) if number == 0 or at - places[number - 1] > 1e-9]
    node = {at: number for number, at in enumerate(places)}
    size = 2 * len(places)
    band = [[0.0] * HALF_BAND for _ in range(size)]
    force = [0.0] * size
    for number, (begin, end) in enumerate(pairwise(places)):
        _add_element(
            band, force, 2 * number, end - begin, trailer.frame_stiffness_Nm2, _line_load(spread, begin, end)
        )
    for kg, at in loads:
        force[2 * _nearest(node, at)] += kg * STANDARD_GRAVITY_mps2
    for at in trailer.axle_m:
        axle = 2 * _nearest(node, at)
        band[axle][0] += trailer.axle_stiffness_Npm
        force[axle] -= trailer.axle_preload_kg * STANDARD_GRAVITY_mps2
    _hold(band, force, 2 * _nearest(node, 0.0))
    down_m = _solve(band, force)
    axles = tuple(
        trailer.axle_preload_kg
        + trailer.axle_stiffness_Npm * down_m[2 * _nearest(node, at)] / STANDARD_GRAVITY_mps2
        for at in trailer.axle_m
    )
    return Reactions(trailer.empty_mass_kg + sum(kg for kg, _ in loads) - sum(axles), axles)


def _own_mass(trailer: Trailer, front_m: float, rear_m: float) -> tuple[float, float, float]:
    """Return where the trailer's own mass begins and ends, and its force on each meter."""
    half = min(trailer.empty_center_m - front_m, rear_m - trailer.empty_center_m)
    if half <= 0:
        raise OutOfRange(
            "trailer: empty_center_m", trailer.empty_center_m, "must lie between the ends of the frame"
        )
    force_N = trailer.empty_mass_kg * STANDARD_GRAVITY_mps2
    return trailer.empty_center_m - half, trailer.empty_center_m + half, force_N / (2 * half)


def _line_load(spread: tuple[float, float, float], begin: float, end: float) -> float:
    middle = (begin + end) / 2
    return spread[2] if spread[0] <= middle <= spread[1] else 0.0


def _nearest(node: dict[float, int], at: float) -> int:
    return node[min(node, key=lambda place: abs(place - at))]


def _add_element(
    band: list[list[float]], force: list[float], first: int, length: float, stiffness: float, line: float
) -> None:
    """Add one Hermite element: deflection and slope at both ends, with an even line load."""
    one, two, three = (factor * stiffness / length**3 for factor in (12.0, 6.0 * length, 4.0 * length**2))
    half = three / 2
    rows = ((one, two, -one, two), (three, -two, half), (one, -two), (three,))
    for row, values in enumerate(rows):
        for across, value in enumerate(values):
            band[first + row][across] += value
    share, turn = line * length / 2, line * length**2 / 12
    for number, value in enumerate((share, turn, share, -turn)):
        force[first + number] += value


def _hold(band: list[list[float]], force: list[float], at: int) -> None:
    """Keep one deflection at zero: take its row and column out."""
    for across in range(1, HALF_BAND):
        band[at][across] = 0.0
        if at >= across:
            band[at - across][across] = 0.0
    band[at][0], force[at] = 1.0, 0.0


def _solve(band: list[list[float]], force: list[float]) -> list[float]:
    """Solve the symmetric banded system by Cholesky's method."""
    size = len(force)
    for row in range(size):
        pivot = math.sqrt(band[row][0])
        band[row] = [value / pivot for value in band[row]]
        for across in range(1, min(HALF_BAND, size - row)):
            for further in range(across, HALF_BAND):
                band[row + across][further - across] -= band[row][across] * band[row][further]
    found = list(force)
    for row in range(size):
        found[row] /= band[row][0]
        for across in range(1, min(HALF_BAND, size - row)):
            found[row + across] -= band[row][across] * found[row]
    for row in range(size - 1, -1, -1):
        for across in range(1, min(HALF_BAND, size - row)):
            found[row] -= band[row][across] * found[row + across]
        found[row] /= band[row][0]
    return found
