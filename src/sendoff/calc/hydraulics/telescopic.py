"""Telescopic cylinders of dump bodies: push stage by stage, stroke and oil."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from sendoff.calc.contract import calculation, require_positive
from sendoff.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class TelescopicCylinder:
    """What a single-acting telescopic cylinder does, the thickest stage first."""

    push_N: tuple[float, ...]
    """Push while each stage comes out."""
    least_push_N: float
    """Push of the last and thinnest stage: it must still carry the body at its top."""
    stroke_m: float
    oil_m3: float


@calculation(
    "hydraulics",
    "Fi = p π Di² / 4, stroke = Σ Li, V = Σ π Di² / 4 · Li",
    symbols={
        "stage_diameter_m": "Di",
        "stage_stroke_m": "Li",
        "pressure_Pa": "p",
        "push_N": "Fi",
        "oil_m3": "V",
    },
)
def telescopic_cylinder(
    stage_diameter_m: tuple[float, ...], stage_stroke_m: tuple[float, ...], pressure_Pa: float
) -> TelescopicCylinder:
    """Push of a telescopic cylinder stage by stage, with its stroke and oil.

    Each moving stage pushes with the area of its own outside diameter; strokes and volumes add up.

    Parameters
    ----------
    stage_diameter_m : tuple of float
        Outside diameter of each moving stage, the thickest first [m].
    stage_stroke_m : tuple of float
        Stroke of each stage, in the same order [m].
    pressure_Pa : float
        Pressure at the cylinder [Pa].

    Returns
    -------
    TelescopicCylinder
        Push of each stage, the least of them, whole stroke, oil to fill it.

    Raises
    ------
    OutOfRange
        If there are none or more than 10 stages, the lists differ in length, a stage is not thinner than the one
        before, or a value is not above zero.

    Notes
    -----
    Single-acting, no friction. The pump sees the pressure rise at each change of stage while the load's arm falls.

    Examples
    --------
    Stages of 5 and 4 in at 1,000 psi: 19,635 and 12,566 lbf, as the published table of bores.

    >>> from sendoff.units import from_si, to_si
    >>> found = telescopic_cylinder((0.127, 0.1016), (0.9, 0.9), to_si(1000, "psi", "pressure"))
    >>> [round(from_si(push, "lbf", "force")) for push in found.push_N]
    [19635, 12566]

    References
    ----------
    .. [1] fluid_power_sheet, F = p A and V = A L
    """
    if not 1 <= len(stage_diameter_m) <= 10:
        raise OutOfRange("stage_diameter_m", len(stage_diameter_m), "must list 1 to 10 stages")
    if len(stage_stroke_m) != len(stage_diameter_m):
        raise OutOfRange("stage_stroke_m", len(stage_stroke_m), "must have one stroke for each stage")
    for diameter_m, stroke_m in zip(stage_diameter_m, stage_stroke_m, strict=True):
        require_positive(stage_diameter_m=diameter_m, stage_stroke_m=stroke_m)
    require_positive(pressure_Pa=pressure_Pa)
    for thicker, thinner in pairwise(stage_diameter_m):
        if thinner >= thicker:
            raise OutOfRange("stage_diameter_m", thinner, "must be thinner than the stage before it")
    areas = [math.pi / 4 * diameter_m**2 for diameter_m in stage_diameter_m]
    pushes = tuple(pressure_Pa * area for area in areas)
    oil_m3 = sum(area * stroke_m for area, stroke_m in zip(areas, stage_stroke_m, strict=True))
    return TelescopicCylinder(pushes, pushes[-1], sum(stage_stroke_m), oil_m3)
