"""What lifts a hinged body, drawn in any position: cylinders, the folding arms of a scissor hoist, the prop."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sendoff.asbuilt.unit import CylinderEyes, FittedPart, Hinge
from sendoff.drawings.marks import SHEET, SMALL, Mark, Pair, bar, between, disc, turned
from sendoff.drawings.shapes import cylinder_between

PROP_M = 0.075


def rises(hinge: Hinge, points: Iterator[Pair]) -> bool:
    """Tell whether a hinged piece lies ahead of its hinge for the most part, so that turning it raises it.

    What stands on its hinge, as a ramp that is folded up, is lowered whichever way it leans.
    """
    found = list(points)
    ahead = [hinge.x_m - x for x, _ in found]
    if not found or hinge.lowered_rad <= 0 or max(ahead) <= -min(ahead):
        return False
    heights = [z for _, z in found]
    return max(ahead) - min(ahead) > max(heights) - min(heights)


def knee(eyes: CylinderEyes, body: Pair) -> Pair:
    """Return where the arms of a scissor hoist meet, on the hinge's side of the line from eye to eye."""
    lower, upper, _ = eyes.arms_m or (1.0, 1.0, 1.0)
    (x0, z0), span = eyes.frame_m, math.dist(eyes.frame_m, body)
    along = (lower**2 - upper**2 + span**2) / (2 * span)
    off = math.sqrt(max(lower**2 - along**2, 0.0))
    dx, dz = (body[0] - x0) / span, (body[1] - z0) / span
    return x0 + along * dx + off * dz, z0 + along * dz - off * dx


def hoist(part: FittedPart, eyes: CylinderEyes, body: Pair) -> Iterator[Mark]:
    """Yield what pushes between frame and body, with the body's eye where it is in that position."""
    if eyes.arms_m is None:
        yield from cylinder_between(part, eyes.frame_m, body)
        return
    _, upper, rod = eyes.arms_m
    joint = knee(eyes, body)
    for start, end, wide in ((eyes.frame_m, joint, 0.09), (joint, body, 0.075)):
        yield bar(start, end, wide, "edge", SMALL)
    yield from cylinder_between(part, eyes.frame_m, between(joint, body, rod / upper))
    for eye in (eyes.frame_m, joint, body):
        yield disc(eye, 0.035, "edge", "white", SHEET)


def prop_up(hinge: Hinge) -> Iterator[Mark]:
    """Yield the prop, standing under the raised body."""
    if hinge.prop is not None:
        (top,) = turned([hinge.prop.body_m], (hinge.x_m, hinge.z_m), hinge.lowered_rad)
        yield bar(hinge.prop.frame_m, top, PROP_M, "outline", SMALL)
        for end in (hinge.prop.frame_m, top):
            yield disc(end, PROP_M * 0.8, "edge", "white", SMALL)
