"""What moves under power: the lift of a hinged tail at relief pressure, and the winch by its rope and hook."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Hinge
from sendoff.calc.contract import worked
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of

RISES_LEAST_rad = math.radians(0.5)
Pair = tuple[float, float]


def findings_of(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Yield what is found of each hinge that cylinders turn, and of the winch."""
    for hinge in unit.geometry.hinges:
        yield from _lift(unit, hinge)
    winch = unit.part("winch")
    if winch is not None and winch.si("line_pull") is not None:
        yield _rope(winch, winch.si("line_pull") or 0.0)


def _lift(unit: AsBuiltUnit, hinge: Hinge) -> Iterator[Finding]:
    """What the cylinders lift at the middle of the tail at relief pressure, against what may stand on it."""
    body, deck = unit.part(hinge.id), next((d for d in unit.geometry.decks if d.id == hinge.id), None)
    cylinders = unit.part(hinge.cylinders.slot) if hinge.cylinders is not None else None
    rating = body.si("load_rating") if body is not None else None
    bore = cylinders.si("bore") if cylinders is not None else None
    if hinge.cylinders is None or cylinders is None or deck is None or rating is None or bore is None:
        return
    if abs(hinge.lowered_rad) < RISES_LEAST_rad:
        return
    from sendoff.calc.hydraulics import cylinder_push
    from sendoff.calc.linkage import folding_hoist_curve, hinged_lift, hinged_lift_curve

    arms = hinge.cylinders.arms_m
    sources = all_references_of(
        hinged_lift_curve if arms is None else folding_hoist_curve, hinged_lift, cylinder_push
    )
    pump = unit.part("pump")
    relief = pump.si("relief_pressure") if pump is not None else None
    turn = abs(hinge.lowered_rad)
    about = "body_lift" if hinge.x_m > deck.x0_m else "tail_lift"
    about = "deck_lift" if hinge.lowered_rad < 0 else about
    if relief is None:
        yield unknown(f"{hinge.id}.lift", about, "mass", "relief_pressure", sources=sources)
        return
    push = worked(cylinder_push, bore, relief)
    places = (
        ((deck.x0_m + deck.x1_m) / 2, deck.height_m),
        hinge.cylinders.frame_m,
        hinge.cylinders.body_m,
    )
    load, foot, eye = _as_it_starts(hinge, places)
    force = push.result * len(cylinders.places)
    if arms is None:
        curve = worked(hinged_lift_curve, turn, force, *load, *foot, *eye)
    else:
        curve = worked(folding_hoist_curve, turn, force, *arms, *load, *foot, *eye)
    own = body.si("mass") if body is not None else None
    yield Finding(
        f"{hinge.id}.lift",
        about,
        "mass",
        Limit(most=curve.result.least_capacity_kg),
        rating + (own or 0.0),
        steps=(*push.steps, *curve.steps),
        sources=sources,
        notes=(_own_weight(about, own, rating),),
    )
    stroke = cylinders.si("stroke")
    if stroke is not None:
        yield Finding(
            f"{hinge.id}.stroke",
            about.replace("_lift", "_stroke"),
            "length",
            Limit(most=stroke),
            curve.result.stroke_m,
            demand_origin="drawing",
            steps=curve.steps,
            sources=sources,
        )


def _own_weight(about: str, own_kg: float | None, rating_kg: float) -> Note:
    """Say whether the moving piece's own weight is counted in."""
    if about == "deck_lift":
        return Note("deck_own_weight")
    tail = about == "tail_lift"
    if own_kg is None:
        return Note("tail_own_weight" if tail else "body_own_weight")
    own, load = Amount("mass", own_kg, "demand"), Amount("mass", rating_kg)
    return Note("tail_counted", {"own": own, "load": load}) if tail else Note("body_counted", {"own": own})


def _as_it_starts(hinge: Hinge, places: tuple[Pair, Pair, Pair]) -> list[Pair]:
    """Return load, foot and eye from the hinge, the side that rises positive, where the lift begins.

    A tail rises from the ground, where it was lowered; a dump body rises ahead of its hinge, from where it travels;
    a lift deck rises behind its hinge, from where it travels.
    """
    (load, foot, eye) = ((x - hinge.x_m, z - hinge.z_m) for x, z in places)
    if hinge.lowered_rad < 0:
        return [load, foot, eye]
    if load[0] < 0:
        return [(-x, z) for x, z in (load, foot, eye)]
    return [_lowered(load, hinge.lowered_rad), foot, _lowered(eye, hinge.lowered_rad)]


def _lowered(point: Pair, angle_rad: float) -> Pair:
    """Turn a point about the hinge from travel position down to the ground."""
    x, z = point
    return (
        x * math.cos(angle_rad) + z * math.sin(angle_rad),
        z * math.cos(angle_rad) - x * math.sin(angle_rad),
    )


def _rope(winch: FittedPart, pull: float) -> Finding:
    """The winch's full pull against rope and hook, the weakest of which decides."""
    from sendoff.calc.winch import weakest_in_line

    sources = all_references_of(weakest_in_line)
    rope, hook = winch.si("rope_breaking_force"), winch.si("hook_limit")
    missing = [name for name, value in (("rope_breaking", rope), ("hook_limit", hook)) if value is None]
    if rope is None or hook is None:
        return unknown("winch.rope", "winch_rope", "force", *missing, sources=sources)
    done = worked(weakest_in_line, pull, rope, hook)
    return Finding(
        "winch.rope",
        "winch_rope",
        "force",
        Limit(most=min(done.result.rope_limit_N, hook)),
        pull,
        "label",
        steps=done.steps,
        sources=sources,
    )
