"""What the chain says of each row before the gate; the audit compares the rows with it."""

from __future__ import annotations

from sendoff.web.models import BriefingTick, GateFact, GatePass, LooseCount, TruckCheck
from sendoff.web.services.writing import stamp


def loose(row: LooseCount) -> dict[str, object]:
    """Return what the chain says of a count."""
    return {"key": row.key, "counted": row.counted, "expected": row.expected, "by": row.by_id}


def fact(row: GateFact) -> dict[str, object]:
    """Return what the chain says of a fact; values about people are committed to beside it."""
    return {
        "line": row.line,
        "answer": row.answer,
        "told": row.told,
        "by": row.by_id,
        "photo": row.photo.digest if row.photo is not None else None,
    }


def gate_pass(row: GatePass) -> dict[str, object]:
    """Return what the chain says of a gate pass."""
    return {
        "number": row.number,
        "rules": row.rules,
        "lines": row.lines,
        "passed_over": row.passed_over,
        "frozen": row.frozen.digest,
        "by": row.by_id,
        "good_until": stamp(row.good_until),
    }


def truck_check(row: TruckCheck) -> dict[str, object]:
    """Return what the chain says of a truck check; its license plate is committed to beside it."""
    return {
        "number": row.number,
        "truck": row.truck,
        "at_gate": row.at_gate,
        "verdict": row.verdict,
        "found": row.found,
        "not_checked": row.not_checked,
        "by": row.by_id,
    }


def tick(row: BriefingTick) -> dict[str, object]:
    """Return what the chain says of a tick of the briefing."""
    return {"what": row.what, "key": row.key, "whose": row.whose, "right": row.right, "by": row.by_id}
