"""What a unit's own shape and plate ask: width, rear impact guard, tape, jacks, wheel nuts, stems, tie-down points."""

from __future__ import annotations

import datetime
import itertools
from collections.abc import Iterator, Mapping
from typing import Any, Final, cast

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.calc.contract import worked
from sendoff.findings.card_words import text_of
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.findings.weighed import Empty, axle_group_x_m, empty_of
from sendoff.units import STANDARD_GRAVITY_mps2, from_si, to_si

GUARD_FROM_kg: Final = to_si(10_000, "lb", "mass")
NEAR_REAR_m: Final = 0.305
LOW_m: Final = 0.560
"""Farthest ahead of the rear, and highest, that a chassis takes the guard's place (49 CFR 571.224, S4 and S5.1)."""
STANDING: Final = frozenset({"box", "battery", "charger", "pump", "winch"})
"""Shapes whose place is their underside; of all others it is their middle."""
TAPE_SHARE: Final = 0.5
"""Of each side (49 CFR 393.13)."""
GUARD_VALUES: Final = ("ground", "side_gap", "set_in", "bar_height")
GUARD_LIMITS: Final = {
    "ground": Limit(most=LOW_m),
    "side_gap": Limit(most=to_si(4, "in", "length")),
    "set_in": Limit(most=NEAR_REAR_m),
    "bar_height": Limit(least=0.100),
}
"""Where a guard must sit (49 CFR 393.86(a)(2)-(5))."""
SEATS: Final = (
    ("clamp ring", "clamp ring cone"),
    ("two-piece flange", "two-piece flange"),
    ("flange", "flange"),
    ("cone", "cone"),
)
"""Words in a card's seat of a nut, and how the published table names that nut; the first that fits."""
STEMS: Final = (
    ("metal core, snapped", "high_pressure_snap_in"),
    ("snapped", "rubber_snap_in"),
    ("nut and washer", "metal_clamp_in"),
)


def findings_of(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Yield what a unit's geometry and running gear are held against."""
    yield _width(unit)
    yield from _guard(unit)
    yield from _tape(unit)
    yield from _jacks(unit, empty_of(unit))
    yield from _nuts(unit.part("wheels"), unit.part("wheel_nuts"))
    yield from _stem(unit.part("tires"), unit.part("valve_stems"))
    yield from _points(unit, empty_of(unit))


def _width(unit: AsBuiltUnit) -> Finding:
    from sendoff.calc.rules_of_the_road.sizes import width_check

    done = worked(width_check, unit.geometry.overall_width_m)
    height = Note("height_bare", {"height": Amount("length", highest_m(unit), "demand")})
    return Finding(
        "road.width",
        "road_width",
        "length",
        Limit(most=done.result.limit_m),
        done.result.counted_width_m,
        "label",
        demand_origin="drawing",
        steps=done.steps,
        sources=all_references_of(width_check),
        notes=(height,),
    )


def highest_m(unit: AsBuiltUnit) -> float:
    """Return how high the highest fixed piece of a unit stands, its body in travel position."""
    members = [z for member in unit.geometry.members if member.line != "ghost" for _, z in member.side]
    parts = [place.z_m + _stands(part) for part in unit.parts for place in part.places]
    return max([*members, *parts, 0.0])


def _stands(part: FittedPart) -> float:
    """Return how far a part rises above its place: what stands there by its height, all else by half of it."""
    if part.shape is None:
        return 0.0
    across = part.shape.measures.get("outer_diameter", 0.0)
    high = part.shape.measures.get("height", across)
    return high if part.shape.kind in STANDING else high / 2


def _rear_x(unit: AsBuiltUnit) -> float:
    return unit.geometry.front_x_m + unit.geometry.overall_length_m


def _lowest_at_rear(unit: AsBuiltUnit) -> float | None:
    """Return how low the frame reaches within a foot of the rear end; None where nothing is drawn there."""
    ahead = _rear_x(unit) - NEAR_REAR_m
    found = []
    for member in unit.geometry.members:
        corners = [*member.side, *member.side[:1]]
        found += [z for x, z in corners if x >= ahead]
        for (x0, z0), (x1, z1) in itertools.pairwise(corners):
            if (x0 - ahead) * (x1 - ahead) < 0:
                found.append(z0 + (z1 - z0) * (ahead - x0) / (x1 - x0))
    return min(found, default=None)


def _guard(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Whether a rear impact guard is needed, why it is excused, and whether the one fitted sits where it should."""
    gvwr = unit.plate.gvwr.si
    if gvwr is None or gvwr < GUARD_FROM_kg * (1 - 1e-9):
        return
    from sendoff.calc.marking import rear_guard_check, rear_guard_required

    tires, lowest = unit.part("tires"), _lowest_at_rear(unit)
    radius = (tires.si("outer_diameter") or 0.0) / 2 if tires is not None else 0.0
    behind = max(_rear_x(unit) - max(unit.geometry.axles.x_m) - radius, 0.0)
    low = lowest is not None and lowest <= LOW_m
    asked = worked(
        rear_guard_required,
        gvwr,
        datetime.date.fromisoformat(unit.built),
        behind,
        "low_chassis" if low else "other",
    )
    sources, guard = all_references_of(rear_guard_required, rear_guard_check), unit.part("rear_guard")
    told: Mapping[str, Any] = {
        "id": "road.rear_guard",
        "about": "rear_guard",
        "kind": "text",
        "limit": Limit(),
        "demand": None,
        "sources": sources,
    }
    if not asked.result.required:
        note = Note("guard_excused_low" if low else "guard_excused_wheels")
        yield Finding(**told, holds=True, steps=asked.steps, notes=(note,))
        return
    behind_note = Note("guard_needed", {"behind": Amount("length", behind)})
    measured = [guard.si(name) if guard is not None else None for name in GUARD_VALUES]
    ground, side_gap, set_in, bar_height = measured
    if ground is None or side_gap is None or set_in is None or bar_height is None:
        yield Finding(**told, missing=("rear_guard",), steps=asked.steps, notes=(behind_note,))
        return
    sits = worked(rear_guard_check, ground, side_gap, set_in, bar_height)
    for name, value in zip(GUARD_VALUES, (ground, side_gap, set_in, bar_height), strict=True):
        yield Finding(
            f"road.rear_guard_{name}",
            f"rear_guard_{name}",
            "length",
            GUARD_LIMITS[name],
            value,
            "label",
            steps=(*asked.steps, *sits.steps),
            sources=sources,
            notes=(behind_note,) if name == "ground" else (),
        )


def _tape(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Red and white tape, where width and rating ask for it: fitted, long enough, high enough, wide enough."""
    gvwr, tape = unit.plate.gvwr.si, unit.part("tape")
    if gvwr is None:
        return
    from sendoff.calc.marking import conspicuity_required

    built = datetime.date.fromisoformat(unit.built)
    asked = worked(conspicuity_required, unit.geometry.overall_width_m, gvwr, built)
    if not asked.result.required:
        return
    sources = all_references_of(conspicuity_required)
    heights = (
        [place.z_m for place in tape.places if place.side in {"left", "right"}] if tape is not None else []
    )
    if tape is None or not heights:
        yield Finding(
            "road.tape", "tape", "text", Limit(), None, holds=False, steps=asked.steps, sources=sources
        )
        return
    yield from _side_tape(unit, tape, heights)
    yield from _tape_width(tape)


def _side_tape(unit: AsBuiltUnit, tape: FittedPart, heights: list[float]) -> Iterator[Finding]:
    from sendoff.calc.marking import side_tape_check

    share, sources = tape.si("share"), all_references_of(side_tape_check)
    least = Limit(least=TAPE_SHARE)
    if share is None:
        yield unknown("road.tape", "tape_share", "ratio", "tape_length", limit=least, sources=sources)
        return
    body = _rear_x(unit) - min(deck.x0_m for deck in unit.geometry.decks)
    done = [worked(side_tape_check, body, min(share, 1.0) * body, z) for z in (min(heights), max(heights))]
    first = done[0]
    yield Finding(
        "road.tape",
        "tape_share",
        "ratio",
        least,
        first.result.share_ratio,
        "label",
        steps=first.steps,
        sources=sources,
    )
    bad = next((check for check in done if not check.result.height_in_band), None)
    if bad is not None:
        yield Finding(
            "road.tape_height",
            "tape_height",
            "text",
            Limit(),
            None,
            holds=False,
            steps=bad.steps,
            sources=sources,
        )


def _tape_width(tape: FittedPart) -> Iterator[Finding]:
    from sendoff.calc.marking import tape_width

    grade, width = (text_of(tape, "mark") or "").removeprefix("DOT-"), tape.si("width")
    if grade in {"C2", "C3", "C4"} and width is not None:
        least = worked(tape_width, cast("Any", grade))
        yield Finding(
            "road.tape_width",
            "tape_width",
            "length",
            Limit(least=least.result),
            width,
            "label",
            steps=least.steps,
            sources=all_references_of(tape_width),
        )


def _jacks(unit: AsBuiltUnit, empty: Empty | None) -> Iterator[Finding]:
    """What stands on each jack, empty and loaded as heavy on the coupling as the plate allows."""
    jacks = unit.part("jacks")
    each = jacks.si("capacity_each") if jacks is not None else None
    axles = axle_group_x_m(unit)
    if jacks is None or each is None:
        return
    places = [place.x_m for place in jacks.places if place.x_m < axles]
    if not places:
        return
    from sendoff.calc.jacks import jack_capacity, jack_force

    gvwr, most = unit.plate.gvwr.si, unit.plate.coupling_share_most.si
    states = []
    if empty is not None and empty.coupling_kg is not None:
        states.append(("empty", empty.mass_kg, empty.coupling_kg / empty.mass_kg))
    if gvwr is not None and most is not None:
        states.append(("loaded", gvwr, most))
    for state, mass, share in states:
        force = worked(jack_force, mass, max(share, 0.0) * axles, axles - max(places))
        held = worked(jack_capacity, force.result, each * STANDARD_GRAVITY_mps2, len(places))
        alone = "jack_alone_holds" if held.result.uneven_enough else "jack_alone_not"
        weighed = state == "empty" and empty is not None and empty.coupling_weighed
        yield Finding(
            f"jacks.{state}",
            f"jacks_{state}",
            "mass",
            Limit(most=each),
            held.result.demand_N / STANDARD_GRAVITY_mps2,
            demand_origin="weighed" if weighed else "plate",
            steps=(*force.steps, *held.steps),
            sources=all_references_of(jack_force, jack_capacity),
            notes=(Note(alone),) if len(places) > 1 else (),
        )


def wheel_kind(wheels: FittedPart, nut: str) -> str | None:
    """Return how the published torque table names a wheel: by its rim, and by the nut where that tells."""
    diameter = wheels.si("rim_diameter")
    if nut == "two-piece flange":
        return "hub piloted disc"
    if diameter is None:
        return None
    inches = round(from_si(diameter, "in", "length"), 2)
    if 12 <= inches <= 13:
        return "12-13 in"
    if 14 <= inches <= 16 and inches != 14.5:
        return "14-16 in"
    return "17.5 in" if inches == 17.5 else None


def _nuts(wheels: FittedPart | None, nuts: FittedPart | None) -> Iterator[Finding]:
    """The yard's torque beside the published band of this wheel, stud and nut together; never of the stud alone."""
    torque, seat = (nuts.si("torque") if nuts is not None else None), text_of(nuts, "seat") or ""
    stud = (text_of(wheels, "stud") or text_of(nuts, "thread") or "").partition("-")[0]
    nut = next((name for words, name in SEATS if words in seat), None)
    if wheels is None or torque is None or nut is None or not stud:
        return
    wheel = wheel_kind(wheels, nut)
    from sendoff import tables

    if wheel is None or not tables.load("wheel_nut_torque").where(wheel=wheel, stud=stud, nut=nut):
        return  # no published band for the three together: said under what was not checked
    from sendoff.calc.fasteners import wheel_torque_check

    done = worked(wheel_torque_check, torque, cast("Any", wheel), stud, cast("Any", nut))
    outside = done.result.verdict != "in band"
    yield Finding(
        "wheel_nuts.torque",
        "nut_torque",
        "torque",
        Limit(least=done.result.low_Nm, most=done.result.high_Nm),
        torque,
        "set_point",
        words={"stud": stud},
        steps=done.steps,
        sources=all_references_of(wheel_torque_check),
        notes=(Note("plate_rules_torque"),) if outside else (),
    )


def _stem(tires: FittedPart | None, stems: FittedPart | None) -> Iterator[Finding]:
    """The cold pressure beside the published figure of this kind of stem in this hole."""
    cold = tires.si("cold_pressure") if tires is not None else None
    said, hole = text_of(stems, "kind") or "", text_of(stems, "hole")
    stem = next((name for words, name in STEMS if words in said), None)
    if cold is None or stem is None or hole is None:
        return
    from sendoff import tables

    hole_m = to_si(float(hole.removesuffix(" in")), "in", "length") if hole.endswith(" in") else None
    if hole_m is None or not tables.load("valve_stems").where(hole_m=hole_m, stem=stem):
        return
    from sendoff.calc.ratings.pressures import valve_stem_limit

    done = worked(valve_stem_limit, cast("Any", stem), hole_m)
    rating = stems.si("pressure_rating") if stems is not None else None
    if rating is not None and rating <= done.result * (1 + 1e-9):
        return  # the card says no more than the table: its own rating is held elsewhere
    yield Finding(
        "pressure.stem_kind",
        "stem_kind",
        "pressure",
        Limit(most=done.result),
        cold,
        "set_point",
        steps=done.steps,
        sources=all_references_of(valve_stem_limit),
    )


def _points(unit: AsBuiltUnit, empty: Empty | None) -> Iterator[Finding]:
    """The tie-down points and the gear on board against half of all the plate lets it carry."""
    points, gear, gvwr = unit.part("tie_downs"), unit.part("tie_down_gear"), unit.plate.gvwr.si
    ring = points.si("working_load_limit") if points is not None else None
    if points is None or ring is None or empty is None or gvwr is None or gvwr <= empty.mass_kg:
        return
    from sendoff.calc.securement.us import aggregate_wll

    payload = gvwr - empty.mass_kg
    sets = [("points", ring, len(points.places))]
    stop = unit.part("bow_stop")
    chain = stop.si("chain_limit") if stop is not None else None
    more = (chain,) if chain is not None else ()
    if gear is not None and (wll := gear.si("chain_wll")) is not None:
        count = min(round(gear.si("count") or 0), len(points.places))
        sets.append(("gear", min(wll, ring), count))
    for name, wll, count in sets:
        if not count:
            continue
        done = worked(aggregate_wll, payload, (*(wll,) * count, *more), ("to_item",))
        yield Finding(
            f"tie_downs.{name}",
            f"tie_down_{name}",
            "mass",
            Limit(most=done.result.aggregate_kg),
            done.result.needed_kg,
            words={"n": str(count)},
            steps=done.steps,
            sources=all_references_of(aggregate_wll),
            notes=(Note("tie_down_counted", {"each": Amount("mass", wll, "capacity")}, {"n": str(count)}),),
        )
