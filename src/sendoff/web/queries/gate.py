"""The gate pass line by line: what holds a unit, why, what lets go of it, and whose turn it is."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from typing import Any, Final

from sendoff.web import lists, stock
from sendoff.web.models import GateFact, GatePass, PersonalValue, TruckCheck, Unit
from sendoff.web.queries.standing import CheckNow, UnitNow, unit_now

SHOWN_CHECKS: Final = 4


@dataclass(frozen=True, slots=True)
class GateLine:
    """One line: whether it holds the unit, and in which words (a phrase key below `web.gate.why`)."""

    id: str
    holds: bool
    why: str
    values: dict[str, Any] = field(default_factory=dict)
    turn: str = "representative"
    fact: GateFact | None = None
    passed_over: GateFact | None = None
    checks: tuple[CheckNow, ...] = ()
    """Checks that hold it."""
    items: tuple[Any, ...] = ()
    """Put-right items that hold it."""


@dataclass(frozen=True)
class GateNow:
    """All lines of a unit's gate pass as they stand now."""

    unit: Unit
    rules: str
    lines: tuple[GateLine, ...]
    told: dict[Any, dict[str, str]]
    """What facts say, by act, with the values about people that are not erased."""
    truck: TruckCheck | None
    signed: GatePass | None
    now: UnitNow

    @property
    def holding(self) -> tuple[GateLine, ...]:
        """The lines that hold it."""
        return tuple(line for line in self.lines if line.holds and line.passed_over is None)


def rule(line: str) -> dict[str, Any]:
    """Return what the list says of a line."""
    found: dict[str, Any] = lists.read("gate_pass")["line"][line]
    return found


def lines_of(collects: str) -> tuple[str, ...]:
    """Return the lines that hold for whoever collects, in their order."""
    of = lists.read("gate_pass")
    rules = of["sets"][collects]
    return tuple(name for name, one in of["line"].items() if rules in one.get("sets", (rules,)))


def gate_now(unit: Unit, now: UnitNow | None = None) -> GateNow:
    """Return the gate pass of a unit line by line (seven queries)."""
    now = now or unit_now(unit)
    facts: dict[str, GateFact] = {}
    over: dict[str, GateFact] = {}
    for fact in unit.facts.select_related("by", "photo").order_by("at"):
        (over if fact.answer == "over" else facts)[fact.line] = fact
    acts = [fact.act for fact in (*facts.values(), *over.values())]
    told: dict[Any, dict[str, str]] = {
        fact.act: dict(fact.told) for fact in (*facts.values(), *over.values())
    }
    for value in PersonalValue.objects.filter(unit=unit, act__in=acts):
        told[value.act][value.field] = value.value or "…"
    truck = unit.truck_checks.filter(at_gate=True).select_related("by").order_by("-number").first()
    signed = unit.passes.filter(taken_back=None).select_related("by").order_by("-number").first()
    found = []
    for name in lines_of(unit.collects):
        line = _line(name, unit, now, facts, truck)
        passed = over.get(name)
        if passed is not None and line.holds and rule(name).get("may_pass_over", True):
            line = GateLine(
                line.id, True, line.why, line.values, line.turn, line.fact, passed, line.checks, line.items
            )
        found.append(line)
    rules = lists.read("gate_pass")["sets"][unit.collects]
    return GateNow(unit, rules, tuple(found), told, truck, signed, now)


def _line(
    name: str, unit: Unit, now: UnitNow, facts: dict[str, GateFact], truck: TruckCheck | None
) -> GateLine:
    if name == "safety_checks":
        return _safety(now, facts.get("load"))
    if name == "put_right":
        return _put_right(now)
    if name == "loose_items":
        return _loose(unit)
    if name == "truck_check":
        return _truck(now.now, truck)
    return _fact(name, facts.get(name), now.now)


def _safety(now: UnitNow, load: GateFact | None) -> GateLine:
    empty = load is not None and load.told.get("loaded") == "empty"
    asked = [one for one in now.checks if one.check.safety and not (empty and one.check.state == "loaded")]
    holding = tuple(one for one in asked if one.standing != "in_order")
    values = {"done": len(asked) - len(holding), "all": len(asked)}
    why = "safety_checks" if holding else "safety_checks_done"
    return GateLine("safety_checks", bool(holding), why, values, "yard_hand", checks=holding)


def _put_right(now: UnitNow) -> GateLine:
    holding = tuple(item for item in now.open_items if item.safety)
    why = "put_right" if holding else "put_right_done"
    return GateLine("put_right", bool(holding), why, {"n": len(holding)}, "yard_hand", items=holding)


def _loose(unit: Unit) -> GateLine:
    wanted = {item.key: item.count for item in stock.briefing(unit, "en", "us").loose_items}
    counted: dict[str, int] = {}
    for row in unit.loose.order_by("at"):
        counted[row.key] = row.counted
    whole = sum(counted.get(key, -1) >= count for key, count in wanted.items())
    values = {"done": whole, "all": len(wanted)}
    holds = whole < len(wanted)
    return GateLine("loose_items", holds, "loose_items" if holds else "loose_items_done", values, "yard_hand")


def _truck(now: datetime.datetime, truck: TruckCheck | None) -> GateLine:
    if truck is None:
        return GateLine("truck_check", True, "no_truck")
    hours = lists.read("gate_pass")["truck_h"]
    if now - truck.at > datetime.timedelta(hours=hours):
        return GateLine("truck_check", True, "old_truck", {"hours": hours})
    if truck.verdict == "over":
        return GateLine("truck_check", True, "truck_over", {"plate": truck.plate})
    return GateLine("truck_check", False, f"truck_{truck.verdict}", {"plate": truck.plate})


def _fact(name: str, fact: GateFact | None, now: datetime.datetime) -> GateLine:
    turn = rule(name)["turn"]
    if fact is None:
        return GateLine(name, True, "not_given", {}, turn)
    if fact.answer == "no":
        return GateLine(name, True, "said_no", {}, turn, fact)
    hours = rule(name).get("stale_h")
    if hours is not None and now - fact.at > datetime.timedelta(hours=hours):
        return GateLine(name, True, "gone_stale", {"hours": hours}, turn, fact)
    runs_out = fact.told.get("runs_out")
    if runs_out and datetime.date.fromisoformat(runs_out) < now.date():
        return GateLine(name, True, "ran_out", {"day": runs_out}, turn, fact)
    return GateLine(name, False, "given", {}, turn, fact)
