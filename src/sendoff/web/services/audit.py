"""The audit: every chain link by link, every row against what its link says, every head against the checkpoints."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from django.db import transaction
from django.utils import timezone

from sendoff import books
from sendoff.canonical import canonical
from sendoff.web.models import (
    BriefingTick,
    Checkpoint,
    CheckStanding,
    GateFact,
    GatePass,
    Link,
    LooseCount,
    PersonalValue,
    PutRightItem,
    PutRightStep,
    Reading,
    SheetVersion,
    TruckCheck,
    Unit,
)
from sendoff.web.services import facts
from sendoff.web.services.readings import WORSE, facts_of, item_facts, step_facts
from sendoff.web.services.writing import stamp

Facts = Callable[[Any], dict[str, object]]


JOINED: Final[dict[Any, tuple[str, ...]]] = {
    PutRightStep: ("item", "photo"), Reading: ("photo",), PutRightItem: ("photo",), GateFact: ("photo",),
    GatePass: ("frozen",),
}  # fmt: skip


def sheet_facts(row: SheetVersion) -> dict[str, object]:
    """Return what the chain says of a version of a sheet, but for the checks it makes to be done again."""
    return {"number": row.number, "reason": row.reason}


ROWS: Final[dict[str, tuple[Any, Facts]]] = {
    "sheet": (SheetVersion, sheet_facts),
    "reading": (Reading, facts_of),
    "put_right.found": (PutRightItem, item_facts),
    "put_right.put_right": (PutRightStep, step_facts),
    "put_right.checked": (PutRightStep, step_facts),
    "put_right.not_yet": (PutRightStep, step_facts),
    "put_right.waived": (PutRightStep, step_facts),
    "loose": (LooseCount, facts.loose),
    "fact": (GateFact, facts.fact),
    "passed_over": (GateFact, facts.fact),
    "briefing": (BriefingTick, facts.tick),
    "truck_check": (TruckCheck, facts.truck_check),
    "pass.signed": (GatePass, facts.gate_pass),
}
"""For each kind of act the table that holds its row (its `act` is the act's id), and what the chain says of that row.

Whoever adds a kind of act adds its line here; a test sees that none is forgotten.
"""
WITHOUT_ROW: Final = frozenset({"pass.taken_back", "left", "debt"})
"""Acts that only change a row that another act wrote; `_derived` holds them against it."""


@dataclass(frozen=True, slots=True)
class Problem:
    """Something the audit found: which unit, which entry, and why (a phrase key below `books.broken`)."""

    unit: str
    number: int
    why: str
    told: str = ""


def audit() -> Iterator[Problem]:
    """Yield what does not hold: of each unit the first broken link, then rows that differ from their links."""
    sealed = [row.sealed() for row in Checkpoint.objects.order_by("number")]
    broken = books.first_broken_checkpoint(sealed)
    if broken is not None:
        yield Problem("yard", broken.number, broken.why)
        sealed = sealed[: broken.number - 1]
    for unit in Unit.objects.defer("silhouette", "found_by").order_by("number").iterator(chunk_size=200):
        yield from audit_unit(unit, sealed)
    missing = {chain for one in sealed for chain in one.heads}
    missing -= set(Unit.objects.filter(public_id__in=missing).values_list("public_id", flat=True))
    yield from (Problem(chain, 0, "gone") for chain in sorted(missing))


def audit_unit(unit: Unit, sealed: list[books.Checkpoint]) -> Iterator[Problem]:
    """Yield what does not hold of one unit."""
    links = list(unit.links.order_by("number"))
    entries = [link.entry() for link in links]
    head = books.Head(unit.public_id, unit.chain_number, unit.chain_digest)
    broken = books.first_broken(unit.public_id, entries, head)
    if broken is None:
        by_number = {entry.number: entry for entry in entries}
        found = (books.check_against(one, unit.public_id, by_number) for one in sealed)
        broken = next((one for one in found if one is not None), None)
    if broken is not None:
        yield Problem(unit.number, broken.number, broken.why)
        return
    yield from _rows(unit, links)
    yield from _derived(unit)


def _rows(unit: Unit, links: list[Link]) -> Iterator[Problem]:
    by_table: dict[Any, dict[Any, Any]] = {}
    owner: dict[Any, str] = {PutRightStep: "item__unit"}
    for model in {model for model, _ in ROWS.values()}:
        joined = {PutRightStep: ("item", "photo"), Reading: ("photo",), PutRightItem: ("photo",)}.get(
            model, ()
        )
        rows = model.objects.filter(**{owner.get(model, "unit"): unit})
        by_table[model] = {row.act: row for row in (rows.select_related(*joined) if joined else rows)}
    personal = {(value.act, value.field): value for value in unit.personal.all()}
    unlinked = {model: set(rows) for model, rows in by_table.items()}
    for link in links:
        told = json.loads(link.body)
        yield from _one_row(unit, link, told, by_table)
        for acts in unlinked.values():
            acts.discard(link.act)
        for field, digest in told.get("personal", {}).items():
            yield from _one_value(unit, link, digest, personal.get((link.act, field)))
    for model, left in unlinked.items():
        yield from (Problem(unit.number, 0, "unlinked", model.__name__) for _ in left)


def _one_row(
    unit: Unit, link: Link, told: dict[str, Any], by_table: dict[Any, dict[Any, Any]]
) -> Iterator[Problem]:
    same = (told["act"], told["kind"], told["person"]) == (str(link.act), link.kind, link.person_id)
    if not same or told["received_at"] != stamp(link.received_at):
        yield Problem(unit.number, link.number, "row", link.kind)
    if link.kind not in ROWS:
        return
    model, facts_of_row = ROWS[link.kind]
    row = by_table[model].get(link.act)
    if row is None:
        yield Problem(unit.number, link.number, "row_gone", link.kind)
        return
    said = dict(told["facts"])
    now = json.loads(canonical(facts_of_row(row)))
    if any(said.get(name) != value for name, value in now.items()):
        yield Problem(unit.number, link.number, "row", link.kind)


def _one_value(unit: Unit, link: Link, digest: str, value: PersonalValue | None) -> Iterator[Problem]:
    if (
        value is None
        or value.digest != digest
        or (value.erased_at is None and not books.opens(digest, value.salt, value.value))
    ):
        yield Problem(unit.number, link.number, "value")


_AFTER: Final = {
    "found": "found",
    "put_right": "put_right",
    "checked": "checked",
    "not_yet": "found",
    "waived": "waived",
}


def _derived(unit: Unit) -> Iterator[Problem]:
    """Yield what is kept ready in other rows and no longer follows from the acts."""
    newest = unit.sheets.order_by("-number").first()
    if newest is None or (newest.as_built, newest.digest) != (unit.as_built, unit.digest):
        yield Problem(unit.number, 0, "sheet")
    else:
        kept = unit.personal.filter(act=newest.act, field="as_built").first()
        if kept is not None and kept.erased_at is None and kept.value != newest.as_built:
            yield Problem(unit.number, 0, "sheet")
    acts = Counter(unit.links.filter(kind__in=WITHOUT_ROW).values_list("kind", flat=True))
    done = {
        "left": int(unit.left_at is not None),
        "pass.taken_back": unit.passes.exclude(taken_back=None).count(),
        "debt": unit.debts.exclude(done_at=None).count(),
    }
    yield from (
        Problem(unit.number, 0, "without", kind) for kind, count in done.items() if acts[kind] != count
    )
    for item in unit.put_right.prefetch_related("steps"):
        steps = sorted(item.steps.all(), key=lambda step: step.at)
        if steps and item.status != _AFTER[steps[-1].kind]:
            yield Problem(unit.number, 0, "status", str(item.number))
    standings = CheckStanding.objects.filter(unit=unit).select_related("reading", "against")
    for one in standings:
        both = [one.reading.outcome, *([one.against.outcome] if one.against is not None else [])]
        if one.outcome != max(both, key=WORSE.__getitem__) or one.taken_at != one.reading.taken_at:
            yield Problem(unit.number, 0, "standing", f"{one.check_key}@{one.place}")


def make_checkpoint() -> Checkpoint | None:
    """Seal all heads as they now stand; None where nothing was written since the last checkpoint."""
    with transaction.atomic():
        last = Checkpoint.objects.select_for_update().order_by("-number").first()
        heads = [
            books.Head(chain, number, digest)
            for chain, number, digest in Unit.objects.order_by("public_id").values_list(
                "public_id", "chain_number", "chain_digest"
            )
        ]
        before = last.sealed() if last is not None else None
        told = {head.chain: (head.number, head.digest) for head in heads}
        if before is not None and before.heads == told:
            return None
        made = books.seal(before, stamp(timezone.now()), heads)
        return Checkpoint.objects.create(
            number=made.number, at=made.at, previous=made.previous, heads=made.heads, digest=made.digest
        )
