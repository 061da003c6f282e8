"""How many tie-downs a cargo needs by the American and Canadian count, against the gear on board and the deck's points.

Each is counted as running from a point on the deck to the item, so by half of its weakest part: the least that any
way counts. What has no shape of its own and lies in a body that holds it asks for none (49 CFR 393.100(b), from
memory). A machine of 10,000 lb or more asks for four of 5,000 lb, the stricter of two texts. A boat comes up
against its bow stop, so nothing lets it move forward, and its bow chain counts as one more.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.calc.contract import Step, worked
from sendoff.catalogue.freight import Cargo, CargoItem
from sendoff.findings.model import Amount, Finding, Limit, Note, unknown
from sendoff.findings.sources_of import all_references_of
from sendoff.units import to_si

MACHINE_kg: Final = to_si(10_000, "lb", "mass")


def findings_of(unit: AsBuiltUnit, cargo: Cargo) -> Iterator[Finding]:
    """Yield number and strength of the tie-downs all items need, against gear and points; nothing without points."""
    points, gear = unit.part("tie_downs"), unit.part("tie_down_gear")
    ring = points.si("working_load_limit") if points is not None else None
    if points is None or ring is None:
        return
    items = [item for item in cargo.items if not item.loose]
    if not items:
        return
    if any(item.length is None for item in items):
        yield unknown("cargo.tie_downs", "tie_downs_points", "count", "item_lengths")
        return
    piece = gear.si("chain_wll") if gear is not None else None
    each = min(ring, piece) if piece is not None else ring
    stop = unit.part("bow_stop")
    from sendoff.calc.securement.us import tie_downs_needed

    counts = [_needed(item, each, blocked=stop is not None) for item in items]
    needed, steps = sum(count for count, _ in counts), tuple(step for _, found in counts for step in found)
    sources, notes = all_references_of(tie_downs_needed), tuple(_notes(items, [c for c, _ in counts], each))
    on_board = round(gear.si("count") or 0) if gear is not None else 0
    bow = 0 if stop is None or stop.si("chain_limit") is None else 1
    yield _held("points", needed, len(points.places) + bow, steps, sources, ())
    if "webbing" in points.values:
        return  # its points carry straps of their own
    if not on_board:
        yield unknown(
            "cargo.tie_down_gear", "tie_downs_gear", "count", "gear_on_board", sources=sources, notes=notes
        )
        return
    yield _held("gear", needed, on_board, steps, sources, notes)
    heavy = [item for item in items if item.mass.si >= MACHINE_kg * (1 - 1e-9)]
    if heavy:
        yield from _heavy_machine(each)
    yield from _strength(items, each, min(on_board, len(points.places)))


def _needed(item: CargoItem, each_kg: float, *, blocked: bool) -> tuple[int, tuple[Step, ...]]:
    """Return how many tie-downs an item needs, and the working."""
    from sendoff.calc.securement.commodities import machine_tie_downs
    from sendoff.calc.securement.us import tie_downs_needed

    length = item.length.si if item.length is not None else 0.0
    done = worked(tie_downs_needed, item.mass.si, length, each_kg, "to_item", blocked_forward=blocked)
    if item.mass.si < MACHINE_kg * (1 - 1e-9):
        return done.result.needed, done.steps
    machine = worked(machine_tie_downs, item.mass.si)
    return max(done.result.needed, machine.result.least_count), (*done.steps, *machine.steps)


def _held(
    name: str,
    needed: int,
    have: int,
    steps: tuple[Step, ...],
    sources: tuple[str, ...],
    notes: tuple[Note, ...],
) -> Finding:
    return Finding(
        f"cargo.tie_down_{name}",
        f"tie_downs_{name}",
        "count",
        Limit(most=have),
        needed,
        "label",
        demand_origin="sheet",
        steps=steps,
        sources=sources,
        notes=notes,
    )


def _notes(items: Sequence[CargoItem], counts: list[int], each_kg: float) -> Iterator[Note]:
    for item, count in zip(items, counts, strict=True):
        yield Note("tie_downs_item", words={"item": str(item.name), "n": str(count)})
    yield Note("tie_downs_each", {"each": Amount("mass", each_kg, "capacity")})


def _heavy_machine(each_kg: float) -> Iterator[Finding]:
    from sendoff.calc.securement.commodities import machine_tie_downs

    done = worked(machine_tie_downs, MACHINE_kg)
    least = done.result.each_wll_kg
    if least is not None:
        yield Finding(
            "cargo.tie_down_machine",
            "tie_down_machine",
            "mass",
            Limit(least=least),
            each_kg,
            "label",
            steps=done.steps,
            sources=all_references_of(machine_tie_downs),
        )


def _strength(items: Sequence[CargoItem], each_kg: float, count: int) -> Iterator[Finding]:
    """Half of all items' weight against what all gear on board counts together."""
    if not count:
        return
    from sendoff.calc.securement.us import aggregate_wll

    total = sum(item.mass.si for item in items)
    done = worked(aggregate_wll, total, (each_kg,) * count, ("to_item",))
    yield Finding(
        "cargo.tie_down_strength",
        "tie_down_strength",
        "mass",
        Limit(most=done.result.aggregate_kg),
        done.result.needed_kg,
        demand_origin="sheet",
        words={"n": str(count)},
        steps=done.steps,
        sources=all_references_of(aggregate_wll),
    )
