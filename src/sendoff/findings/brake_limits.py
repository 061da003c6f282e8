"""The brakes of a unit: what reaches the magnets of the last axle, and how long the breakaway battery holds them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.calc.contract import worked
from sendoff.findings.card_words import awg_of, text_of
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.units import to_si

TRUCK_WIRE_m: Final = to_si(20, "ft", "length")
"""Wire in the truck, from its controller to its socket: common practice, no source. Said with the finding."""
SUPPLY_V: Final = 12.5
MOST_DROP: Final = 0.10
RATINGS: Final = {
    "rating_10min": 600.0,
    "rating_15min": 900.0,
    "rating_20min": 1200.0,
    "rating_30min": 1800.0,
}
"""Values of a breakaway battery's card that hold its short-time ratings, and their times [s]; with
`rating_end_voltage`, the voltage at which they end."""


def findings_of(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Yield what is found of electric brakes and their breakaway set; nothing where there are none."""
    brakes = unit.part("brakes")
    magnets = _magnets(unit, brakes)
    if brakes is None or not magnets:
        return
    yield _feed(unit, brakes, magnets)
    breakaway = unit.part("breakaway")
    if breakaway is not None and breakaway.si("capacity") is not None:
        yield _hold(breakaway, magnets, brakes.si("magnet_resistance"))


def _magnets(unit: AsBuiltUnit, brakes: FittedPart | None) -> int:
    """Return how many brake magnets there are; none on brakes that have none."""
    if brakes is None or brakes.si("magnet_resistance") is None:
        return 0
    return round(brakes.si("magnets_per_axle") or 2) * sum(unit.geometry.axles.braked)


def _feed(unit: AsBuiltUnit, brakes: FittedPart, magnets: int) -> Finding:
    from sendoff.calc.brakes import brake_feed, brake_feed_by_axle

    harness = unit.part("harness")
    awg = awg_of(text_of(harness, "brake_gauge") or text_of(harness, "feed_gauge"), "brake")
    run = harness.si("length") if harness is not None else None
    limit, sources = Limit(most=MOST_DROP), all_references_of(brake_feed_by_axle, brake_feed)
    missing = [
        name for name, value in (("brake_wire_gauge", awg), ("brake_wire_length", run)) if value is None
    ]
    if awg is None or run is None:
        return unknown("brakes.feed", "brake_feed", "ratio", *missing, limit=limit, sources=sources)
    first, last = _wire_to_axles(unit, run)
    ohm = brakes.si("magnet_resistance") or 0.0
    axles = sum(unit.geometry.axles.braked)
    if magnets == 2 * axles:
        between = (last - first) / (axles - 1) if axles > 1 else 0.0
        by_axle = worked(brake_feed_by_axle, SUPPLY_V, TRUCK_WIRE_m + first, between, axles, awg, ohm)
        drop, steps = by_axle.result.last_axle_drop_ratio, by_axle.steps
    else:
        at_once = worked(brake_feed, SUPPLY_V, TRUCK_WIRE_m + last, awg, magnets, ohm)
        drop, steps = at_once.result.drop_ratio, at_once.steps
    counted = Note(
        "brake_feed_counted",
        {"truck": Amount("length", TRUCK_WIRE_m, given="20 ft"), "trailer": Amount("length", last, "demand")},
        {"gauge": f"{awg if awg > 0 else f'{1 - awg}/0'} AWG"},
    )
    return Finding(
        "brakes.feed",
        "brake_feed",
        "ratio",
        limit,
        drop,
        steps=steps,
        sources=sources,
        notes=(counted, *_meter(brakes, magnets)),
    )


def _wire_to_axles(unit: AsBuiltUnit, run_m: float) -> tuple[float, float]:
    """Return the wire from plug to first and to last braked axle: their share of the harness's whole run."""
    geometry, plug = unit.geometry, unit.part("plug")
    start = plug.places[0].x_m if plug is not None and plug.places else geometry.front_x_m
    whole = geometry.front_x_m + geometry.overall_length_m - start
    braked = [x for x, has in zip(geometry.axles.x_m, geometry.axles.braked, strict=True) if has]
    first, last = (run_m * min(max((x - start) / whole, 0.0), 1.0) for x in (min(braked), max(braked)))
    return first, last


def _meter(brakes: FittedPart, magnets: int) -> Iterator[Note]:
    """Yield what a meter in the brake wire should read, where the drum is one of the table's."""
    from sendoff import tables
    from sendoff.calc.brakes import brake_current

    drum = brakes.si("drum")
    known = tables.load("brake_magnets").rows
    if drum is None or not any(row["least_drum_m"] <= drum <= row["largest_drum_m"] for row in known):
        return
    band = brake_current(drum, magnets)
    yield Note(
        "brake_meter",
        {"low": Amount("current", band.low_A), "high": Amount("current", band.high_A)},
        {"magnets": str(magnets)},
    )


def _hold(breakaway: FittedPart, magnets: int, ohm: float | None) -> Finding:
    from sendoff.calc.breakaway import breakaway_hold_time, breakaway_mean_current
    from sendoff.calc.breakaway.hold import END_V, OPEN_V, REQUIRED_s

    rated = [(value, time) for name, time in RATINGS.items() if (value := breakaway.si(name)) is not None]
    done = worked(
        breakaway_hold_time,
        magnets,
        tuple(current for current, _ in rated),
        tuple(time for _, time in rated),
        breakaway.si("rating_end_voltage") or 0.0,
        open_V=breakaway.si("rest_voltage") or OPEN_V,
        magnet_ohm=ohm or 3.2,
    )
    found, limit = done.result, Limit(least=REQUIRED_s)
    sources = all_references_of(breakaway_hold_time, breakaway_mean_current)
    if found.verdict == "unknown":
        asked = Note(
            "breakaway_asked",
            {
                "current": Amount("current", found.mean_A, "demand"),
                "time": Amount("duration", REQUIRED_s, given="15 min"),
                "end": Amount("voltage", END_V, given="9.6 V"),
            },
            {"magnets": str(magnets)},
        )
        return unknown(
            "breakaway.hold", "breakaway_hold", "duration", "breakaway_rating",
            limit=limit, steps=done.steps, sources=sources, notes=(asked,),
        )  # fmt: skip
    certain = found.at_least_s if found.verdict == "holds" else found.at_most_s
    holds = found.estimate_s if found.estimate_s is not None else certain
    if found.verdict != "holds" and holds is not None:
        holds = min(holds, math.nextafter(REQUIRED_s, 0.0))  # a time not reached is less than what is asked
    return Finding(
        "breakaway.hold",
        "breakaway_hold",
        "duration",
        limit,
        holds,
        steps=done.steps,
        sources=sources,
        notes=(Note("breakaway_new"),),
    )
