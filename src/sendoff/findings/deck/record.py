"""A deck plan as plain JSON, in a shape that is kept: numbers in SI, words in the reader's language."""

from __future__ import annotations

import math
from typing import Any, Final

from sendoff.calc.deck_plan import Conflict, Evaluation, Placement, by_hand
from sendoff.findings.deck.answer import DeckAnswer
from sendoff.findings.deck.robust import robustness
from sendoff.findings.deck.telling import Teller

VERSION: Final = 1


def _number(value: float) -> float | None:
    """Return a number JSON knows; what is not limited is null."""
    return value if math.isfinite(value) else None


def _flexible(looked_at: Evaluation | None) -> float | None:
    """Return the least margin on a frame that bends; null where its stiffness is not known or does not matter."""
    margin = looked_at.margin_flexible if looked_at is not None else None
    return _number(margin) if margin is not None else None


def record_of(found: DeckAnswer, teller: Teller) -> dict[str, Any]:
    """Return an answer as plain JSON; `by_hand` lets a phone judge any other arrangement alone."""
    plan, told = found.plan, teller.told()
    looked_at = plan.evaluation
    return {
        "version": VERSION,
        "unit": found.case.unit.unit,
        "asked": found.asked,
        "answer": plan.answer,
        "way": found.way,
        "proved": plan.proved,
        "margin": _number(plan.margin),
        "margin_bound": _number(plan.bound),
        "margin_flexible": _flexible(looked_at),
        "headline": list(told.headline),
        "placements": [_placement(row, teller) for row in plan.placements],
        "findings": [
            {
                "id": finding.id,
                "name": line.name,
                "kind": finding.kind,
                "demand_si": finding.demand,
                "least_si": finding.limit.least,
                "most_si": finding.limit.most,
                "margin_si": finding.margin,
                "verdict": finding.verdict,
                "in_words": f"{line.word}, {line.margin}",
                "missing": list(finding.missing),
                "notes": list(line.notes),
                "sources": list(finding.sources),
            }
            for finding, line in zip(found.findings, told.findings, strict=True)
        ],
        "effort": looked_at.effort_count if looked_at is not None else None,
        "choices": [
            {
                "effort": choice.effort_count,
                "margin": choice.margin,
                "proved": choice.proved,
                "placements": [_placement(row, teller) for row in choice.placements],
            }
            for choice in plan.choices
        ],
        "steps": list(told.steps),
        "stops": [
            {"number": stop.number, "off": list(stop.off), "moved": list(stop.moved)} for stop in plan.stops
        ],
        "mass_error": _mass_error(found),
        "conflict": _conflict(plan.conflict, teller) if plan.conflict is not None else None,
        "chosen": _chosen(found),
        "other_ways": [
            {"way": other.way, "answer": other.answer, "margin": _number(other.margin)}
            for other in found.others
        ],
        "cautions": [" ".join((f"{word}:", *rest)) for word, *rest in told.cautions],
        "not_checked": list(told.not_checked),
        "authority": told.authority,
        "by_hand": by_hand(found.problem),
    }


def _placement(row: Placement, teller: Teller) -> dict[str, Any]:
    return {
        "item": row.item,
        "deck": row.deck,
        "facing": row.facing,
        "front_m": row.front_m,
        "from_deck_front_m": teller.from_front(row),
    }


def _mass_error(found: DeckAnswer) -> dict[str, Any] | None:
    looked_at = found.looked_at
    if looked_at is None:
        return None
    far = robustness(found, looked_at)
    return {
        "all_at_once_ratio": _number(far.all_at_once_ratio),
        "holds_errors_given": far.holds_errors_given,
        "items": [
            {
                "item": row.item,
                "heavier_kg": _number(row.heavier_kg),
                "heavier_limit": row.heavier_limit,
                "lighter_kg": _number(row.lighter_kg),
                "lighter_limit": row.lighter_limit,
            }
            for row in far.leeway
        ],
    }


def _conflict(conflict: Conflict, teller: Teller) -> dict[str, Any]:
    return {
        "limits": list(conflict.names),
        "in_words": [teller.limit(name) for name in conflict.names],
        "further": [list(names) for names in conflict.further],
        "proved": conflict.proved,
        "repairs": [
            {
                "kind": repair.kind,
                "names": list(repair.names),
                "amount_kg": repair.amount_kg,
                "amount_m": repair.amount_m,
                "in_words": teller.repair(repair),
                "placements": [_placement(row, teller) for row in repair.placements],
            }
            for repair in conflict.repairs
        ],
    }


def _chosen(found: DeckAnswer) -> dict[str, Any] | None:
    chosen = found.chosen
    if chosen is None:
        return None
    return {
        "items": list(chosen.items),
        "worth": chosen.worth,
        "worth_bound": chosen.bound,
        "proved": chosen.proved,
    }
