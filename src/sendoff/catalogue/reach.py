"""Whether what turns a hinge reaches both ends of its way: cylinders by their stroke, scissor hoists by their arms."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from sendoff.catalogue.bodies import SLACK_M, Body
from sendoff.catalogue.moving import CylinderEyes
from sendoff.catalogue.schema import Hinge, TrailerType
from sendoff.display import show
from sendoff.errors import Fault

Pair = tuple[float, float]
MakeFault = Callable[[str, str, str, str], Fault]


def faults(trailer: TrailerType, bodies: Sequence[Body], fault: MakeFault) -> Iterator[Fault]:
    """Yield what cannot reach, and cylinders of which no hinge says where they push."""
    for number, hinge in enumerate(trailer.frame.hinges, start=1):
        key = f"frame.hinge[{number}]"
        ends = [(eyes.slot, f"{key}.cylinders.slot") for eyes in hinge.eyes]
        ends += [(hinge.prop.slot, f"{key}.prop.slot")] if hinge.prop is not None else []
        for slot, named in ends:
            if slot not in trailer.slots:
                yield fault(named, slot, "there is no such slot", "Name the slot of that part.")
        for eyes in hinge.eyes:
            yield from _reach(key, hinge, eyes, bodies, fault)
    eyed = {eyes.slot for hinge in trailer.frame.hinges for eyes in hinge.eyes}
    for slot in sorted({body.slot for body in bodies if body.kind == "cylinder"} - eyed):
        yield fault(
            f"slots.{slot}",
            slot,
            "no hinge says where these cylinders push",
            f'Give the hinge cylinders = {{ slot = "{slot}", frame_x = …, frame_z = …, body_x = …, body_z = … }}.',
        )


def _reach(
    key: str, hinge: Hinge, eyes: CylinderEyes, bodies: Sequence[Body], fault: MakeFault
) -> Iterator[Fault]:
    """Judge whether the cylinders can be as long as both positions ask: none can double its length."""
    spans = _spans(hinge, eyes)
    lengths = _cylinder_lengths(eyes, spans)
    if lengths is None:
        yield fault(
            f"{key}.cylinders.arms",
            f"{_said(spans[0])} to {_said(spans[1])}",
            "the arms cannot reach from eye to eye in both positions",
            "Together they must be longer than the longer way; one may be longer than the other by the shorter only.",
        )
        return
    parts = {
        (body.reference, body.get("stroke"), body.get("closed"), body.get("bore"))
        for body in bodies
        if body.slot == eyes.slot and eyes.card in {None, body.reference.partition("/")[0]}
    }
    for reference, stroke, closed, bore in sorted(parts):
        if lengths[1] - lengths[0] > stroke + SLACK_M:
            yield fault(
                f"{key}.cylinders",
                f"{_said(lengths[0])} to {_said(lengths[1])}",
                f"{reference} has a stroke of {_said(stroke)} only",
                "Move an eye, or fit a cylinder with more stroke.",
            )
        least = closed - SLACK_M if closed else stroke + bore
        if lengths[0] < least:
            why = (
                _said(closed) if closed else f"its barrel must hold {_said(stroke)} of stroke and its piston"
            )
            yield fault(
                f"{key}.cylinders",
                _said(lengths[0]),
                f"{reference}, drawn in, is longer: {why}",
                "Move an eye farther away, or fit a cylinder with less stroke.",
            )


def _said(meters: float) -> str:
    return str(show("length", meters, "us", unit="in"))


def _spans(hinge: Hinge, eyes: CylinderEyes) -> tuple[float, float]:
    """Return the shortest and the longest way between two eyes."""
    frame, body = (eyes.frame_x.si, eyes.frame_z.si), (eyes.body_x.si, eyes.body_z.si)
    ways = sorted((math.dist(frame, body), math.dist(frame, lowered([body], hinge)[0])))
    return ways[0], ways[1]


def _cylinder_lengths(eyes: CylinderEyes, spans: tuple[float, float]) -> tuple[float, float] | None:
    """Return how long the cylinder is at both; None where folding arms cannot reach."""
    if eyes.arms is None:
        return spans
    lower, upper, rod = eyes.arms.lower.si, eyes.arms.upper.si, eyes.arms.rod.si
    if not abs(lower - upper) <= spans[0] <= spans[1] <= lower + upper:
        return None
    shortest, longest = (
        math.sqrt(lower**2 + rod**2 - rod * (lower**2 + upper**2 - span**2) / upper) for span in spans
    )
    return shortest, longest


def lowered(points: Sequence[Pair], hinge: Hinge) -> list[Pair]:
    """Return side points of a hinged piece in its working position."""
    x0, z0 = hinge.x.si, hinge.z.si
    sine, cosine = math.sin(hinge.lowered.si), math.cos(hinge.lowered.si)
    return [
        (x0 + (x - x0) * cosine + (z - z0) * sine, z0 - (x - x0) * sine + (z - z0) * cosine)
        for x, z in points
    ]
