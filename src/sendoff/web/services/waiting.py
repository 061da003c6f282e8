"""What a unit waits for and whose turn it is, kept with the unit so that the yard's list is one query."""

from __future__ import annotations

from sendoff.web.models import GatePass, Unit
from sendoff.web.queries.gate import gate_now
from sendoff.web.queries.standing import UnitNow, unit_now


def refresh(unit: Unit) -> None:
    """Set what a unit waits for; the caller saves it."""
    unit.waits_for, unit.waits_told, unit.turn = waits_for(unit)


def waits_for(unit: Unit) -> tuple[str, dict[str, object], str]:
    """Return phrase key, its values and whose turn it is."""
    if unit.left_at is not None:
        return "gone", {}, "nobody"
    signed = GatePass.objects.filter(unit=unit, taken_back=None).order_by("-number").first()
    now = unit_now(unit, bare=True)
    if signed is not None and signed.good_until > now.now:
        return "nothing", {"number": signed.number, "until": signed.good_until.isoformat()}, "nobody"
    return _work(now)


def _work(now: UnitNow) -> tuple[str, dict[str, object], str]:
    found = [item for item in now.open_items if item.status == "found"]
    again = [item for item in now.open_items if item.status == "put_right"]
    if found:
        return "put_right", {"n": len(found)}, "yard_hand"
    if again:
        return "second_look", {"n": len(again)}, "yard_hand"
    upcoming = now.next
    if upcoming is not None and now.done < len(now.checks):
        told: dict[str, object] = {"done": now.done, "all": len(now.checks), "state": upcoming.check.state}
        return "inspection", told, "yard_hand"
    holding = gate_now(now.unit, now).holding
    if holding:
        return "gate_pass", {"n": len(holding)}, holding[0].turn
    return "sign", {}, "representative"
