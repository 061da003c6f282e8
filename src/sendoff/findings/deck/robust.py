"""How far masses may be wrong before a limit is passed, by the planner's limits and by each item's heaviest wheel."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sendoff.calc.deck_plan import Evaluation, Leeway
from sendoff.findings.deck.answer import DeckAnswer


@dataclass(frozen=True, slots=True)
class Robustness:
    """How far masses may be wrong."""

    all_at_once_ratio: float
    """All masses by this part, each the worse way."""
    holds_errors_given: bool
    """Whether every limit holds with the errors the cargo file tells, all at once."""
    leeway: tuple[Leeway, ...]


def robustness(found: DeckAnswer, looked_at: Evaluation) -> Robustness:
    """Return how far masses may be wrong; a heaviest wheel that was weighed grows with its item."""
    rooms = _wheel_rooms(found)
    items = {item.name: item for item in found.problem.items}
    leeway = []
    for row in looked_at.leeway:
        ratio, limit = rooms.get(row.item, (float("inf"), ""))
        most = ratio * items[row.item].mass_kg
        leeway.append(replace(row, heavier_kg=most, heavier_limit=limit) if most < row.heavier_kg else row)
    holds = looked_at.holds_mass_errors and all(
        items[name].mass_error_kg <= ratio * items[name].mass_kg + 1e-9 for name, (ratio, _) in rooms.items()
    )
    least = min((ratio for ratio, _ in rooms.values()), default=float("inf"))
    return Robustness(min(looked_at.mass_error_ratio, least), holds, tuple(leeway))


def _wheel_rooms(found: DeckAnswer) -> dict[str, tuple[float, str]]:
    """Return by which part each item's heaviest wheel may grow where it stands, and the limit that ends it."""
    decks = {deck.name: deck for deck in found.problem.decks}
    items = {item.name: item for item in found.problem.items}
    told = {
        item.id: item.heaviest_wheel.si for item in found.case.cargo.items if item.heaviest_wheel is not None
    }
    rooms = {}
    for row in found.plan.placements:
        if row.item not in told:
            continue
        wheels = [row.front_m + offset for offset in items[row.item].offsets_m(row.facing)]
        zones = [
            zone for zone in decks[row.deck].zones if any(zone.front_m <= at <= zone.rear_m for at in wheels)
        ]
        if zones:
            weakest = min(zones, key=lambda zone: zone.wheel_limit_kg)
            ratio = max(0.0, weakest.wheel_limit_kg / told[row.item] - 1)
            rooms[row.item] = (ratio, f"zone_wheel:{weakest.name}")
    return rooms
