"""The 12 V side of a unit: fuses against what they feed and protect, battery against a day's work, charger honestly."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Value
from sendoff.calc.contract import Step, worked
from sendoff.findings.card_words import awg_of, text_of
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of

WORKING_DAYS: Final = 20
"""Days a month on which a load is carried: a house rule, said with the finding."""
STROKES_A_LOAD: Final = 4
"""A tail goes down and up to load, and down and up to unload; down is counted as long as up."""
FREEZING_K: Final = 273.15
HALF: Final = 0.5
NEARLY_EMPTY: Final = 0.2
MOTORS: Final = (("pump", "motor_current", "pump_fuse"), ("winch", "full_pull_current", "winch_fuse"))
"""Slot, greatest current of its motor, name of the limit."""


def findings_of(unit: AsBuiltUnit) -> Iterator[Finding]:
    """Yield what is found of charge lead, motors, battery and charger, each only where it is fitted."""
    lead, battery, charger = unit.part("charge_lead"), unit.part("battery"), unit.part("charger")
    if lead is not None:
        yield from _charge_lead(lead)
    for slot, current, about in MOTORS:
        yield from _motor(unit.part(slot), current, about)
    if battery is not None and battery.si("capacity"):
        second = unit.part("second_battery")
        capacity = (battery.si("capacity") or 0.0) + ((second.si("capacity") or 0.0) if second else 0.0)
        yield from _day(unit, capacity)
        if charger is not None and charger.si("current"):
            yield _night(capacity, charger, charger.si("current") or 0.0)


def _charge_lead(lead: FittedPart) -> Iterator[Finding]:
    """The lead's fuse against its own wire, and against what the lead carries for hours."""
    from sendoff import tables
    from sendoff.calc.wiring import fuse_size, wire_ampacity

    fuse, awg, load = lead.si("fuse"), awg_of(text_of(lead, "gauge")), lead.si("gives")
    if fuse is None:
        return
    listed = {row["awg"] for row in tables.load("wire_ampacity").rows}
    sources = all_references_of(wire_ampacity)
    if awg not in listed or awg is None:
        yield unknown("charge_lead.wire", "charge_fuse_wire", "current", "charge_wire_gauge", sources=sources)
        return
    carried = worked(wire_ampacity, awg)
    yield Finding(
        "charge_lead.wire",
        "charge_fuse_wire",
        "current",
        Limit(most=carried.result),
        fuse,
        "label",
        steps=carried.steps,
        sources=sources,
    )
    if load and 1.25 * load <= max(tables.load("fuse_sizes").column("fuse_A")):
        chosen = worked(fuse_size, load, awg)
        yield Finding(
            "charge_lead.load",
            "charge_fuse_load",
            "current",
            Limit(most=fuse),
            chosen.result.least_A,
            "label",
            steps=chosen.steps,
            sources=all_references_of(fuse_size),
        )


def _motor(part: FittedPart | None, value: str, about: str) -> Iterator[Finding]:
    """A motor's greatest current against its fuse; the cable between is its maker's (see what was not checked)."""
    fuse = part.si("fuse") if part is not None else None
    current = part.si(value) if part is not None else None
    if part is not None and fuse is not None and current is not None:
        yield Finding(f"{part.slot}.fuse", about, "current", Limit(most=fuse), current)


def _uses(unit: AsBuiltUnit) -> list[tuple[str, Value, Value, int]]:
    """Return what draws on the battery on a day of work: name, current, running time, how often."""
    loads = math.ceil((unit.owner.use.loads or WORKING_DAYS) / WORKING_DAYS)
    asked = (
        ("tail", "pump", "lift_current", "tail", "time_up", STROKES_A_LOAD * loads),
        ("body", "pump", "motor_current", "body", "time_up", loads),
        ("lift_deck", "pump", "motor_current", "lift_deck", "time_up", 2 * loads),
        ("ramps", "pump", "lift_current", "ramps", "time_up", STROKES_A_LOAD * loads),
        ("winch", "winch", "full_pull_current", "winch", "pull_most", 1),
    )
    found = []
    for name, motor, current_name, mover, time_name, often in asked:
        drawn, moved = unit.part(motor), unit.part(mover)
        current = drawn.values.get(current_name) if drawn is not None else None
        time = moved.values.get(time_name) if moved is not None else None
        if current is not None and time is not None and current.si and time.si:
            found.append((name, current, time, often))
    return found


def _day(unit: AsBuiltUnit, capacity: float) -> Iterator[Finding]:
    """What a day's loads cost the battery or both, nothing put back, against the half of it that may be used."""
    from sendoff.calc.battery import cycles_per_charge

    usable, cost, notes = 0.0, 0.0, []
    steps: tuple[Step, ...] = ()
    for name, current, time, often in _uses(unit):
        drawn, run = current.si or 0.0, time.si or 0.0
        done = worked(cycles_per_charge, capacity, drawn, run)
        usable, cost = done.result.usable_C, cost + often * done.result.per_cycle_C
        steps = (*steps, *done.steps)
        notes.append(
            Note(
                f"battery_{name}",
                {
                    "current": Amount("current", drawn, given=current.given),
                    "time": Amount("duration", run, given=time.given),
                    "charge": Amount("charge", done.result.per_cycle_C, "demand"),
                },
                {"often": str(often)},
            )
        )
        if name == "tail":
            cold = cycles_per_charge(capacity, drawn, run, temperature_K=FREEZING_K)
            words = {"warm": str(done.result.whole_count // 2), "cold": str(cold.whole_count // 2)}
            notes.append(Note("battery_cycles", words=words))
    if len(_uses(unit)) > 1:
        notes.append(Note("battery_together"))
    if cost:
        yield Finding(
            "battery.day",
            "battery_day",
            "charge",
            Limit(most=usable),
            cost,
            steps=steps,
            sources=all_references_of(cycles_per_charge),
            notes=tuple(notes),
        )


def _night(capacity: float, charger: FittedPart, current: float) -> Finding:
    """How long the charger takes from half, against a night; and what its card says, where that is less."""
    from sendoff.calc.battery import overnight_charge
    from sendoff.calc.battery.charging import FLOAT_TIME_s, NIGHT_s

    half = worked(overnight_charge, capacity, HALF, current)
    low = overnight_charge(capacity, NEARLY_EMPTY, current)
    notes = [
        Note(
            "charger_times",
            {
                "half": Amount("duration", half.result.needed_s, "demand"),
                "low": Amount("duration", low.needed_s, "demand"),
                "more": Amount("duration", FLOAT_TIME_s, given="3 h"),
            },
        )
    ]
    said = charger.values.get("from_half")
    if said is not None and said.si is not None and said.si < half.result.needed_s:
        notes.append(Note("charger_card", {"said": Amount("duration", said.si, given=said.given)}))
    return Finding(
        "charger.night",
        "charger_night",
        "duration",
        Limit(most=NIGHT_s),
        half.result.needed_s,
        steps=half.steps,
        sources=all_references_of(overnight_charge),
        notes=tuple(notes),
    )
