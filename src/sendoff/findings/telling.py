"""Findings in words: the answer as a sentence, each limit with its margin, what was not checked; never approval."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sendoff import display
from sendoff.display import Shown
from sendoff.findings.model import Amount, Finding, Note, Verdict
from sendoff.phrases import say
from sendoff.units import System


@dataclass(frozen=True, slots=True)
class Told:
    """One finding ready for a line or a page."""

    id: str
    name: str
    demand: Shown | None
    limit: Shown
    verdict: Verdict
    word: str
    margin: str
    """What is left or too much in words, or what to measure."""
    share: float | None
    """Demand as a share of the limit, for a margin bar; for a window where the demand stands (least 0, most 1)."""
    window: bool
    notes: tuple[str, ...] = ()
    """What is said beside it: what was counted in, what a meter should read, what to do first."""


CARRIED_BY_COUNT: Final = frozenset({"stock_head"})
"""Findings that count what is carried, where more than the limit is too many; all others count what is on hand."""
YEAR_s: Final = 365.25 * 86400
HOUR_s: Final = 3600.0


def answer(findings: Sequence[Finding], language: str) -> str:
    """Return the answer as a sentence: how many limits are passed, tight, not known."""
    count = Counter(found.verdict for found in findings)
    over = count["over"]
    pieces = [
        say("answer.none_over", language)
        if not over
        else say("answer.over_1" if over == 1 else "answer.over_n", language, n=over)
    ]
    pieces += [
        say(f"answer.{verdict}_n", language, n=count[verdict])
        for verdict in ("tight", "unknown")
        if count[verdict]
    ]
    return " ".join(pieces)


def tell(found: Finding, language: str, system: System) -> Told:
    """Return a finding in words and shown values."""
    if found.holds is not None:
        return _match(found, language, system)
    limit = _limit(found, language, system)
    role: display.Role = "set_point" if found.group == "set_point" else "demand"
    if _asks_at_least(found):
        role = "capacity"
    demand = _shown(found, found.demand, language, system, role) if found.demand is not None else None
    return Told(
        id=found.id,
        name=say(f"finding.{found.about}", language, **found.words),
        demand=demand,
        limit=limit,
        verdict=found.verdict,
        word=say(f"verdict.{found.verdict}", language),
        margin=_margin(found, language, system),
        share=_share(found),
        window=found.is_window,
        notes=_notes(found, language, system),
    )


def say_note(note: Note, language: str, system: System) -> str:
    """Return a note in words, its amounts in the reader's units."""
    amounts = {name: str(_amount(amount, language, system)) for name, amount in note.amounts.items()}
    phrases = {name: say(key, language) for name, key in note.phrases.items()}
    return say(f"note.{note.key}", language, **amounts, **note.words, **phrases)


def _amount(amount: Amount, language: str, system: System) -> Shown:
    if amount.given is not None:
        return display.show(amount.kind, amount.si, system, amount.role, given=amount.given)
    return _show(amount.kind, amount.si, language, system, amount.role, amount.si)


def _notes(found: Finding, language: str, system: System) -> tuple[str, ...]:
    return tuple(say_note(note, language, system) for note in found.notes)


def _asks_at_least(found: Finding) -> bool:
    return found.limit.least is not None and found.limit.most is None


def _match(found: Finding, language: str, system: System) -> Told:
    """Return what fits or does not: both values beside each other, no margin."""
    limit = Shown(found.words.get("limit", ""), "")
    if found.limit.most is not None:
        limit = display.show(found.kind, found.limit.most, system, given=found.limit_given)
    demand = Shown(found.words.get("demand", ""), "")
    if found.demand is not None:
        demand = display.show(found.kind, found.demand, system, given=found.demand_given)
    word = say("verdict.fits" if found.holds else "verdict.fits_not", language)
    told = say(f"match.{found.about}.{'yes' if found.holds else 'no'}", language, **found.words)
    name = say(f"finding.{found.about}", language, **found.words)
    notes = _notes(found, language, system)
    return Told(found.id, name, demand, limit, found.verdict, word, told, None, window=False, notes=notes)


def _shown(found: Finding, si: float, language: str, system: System, role: display.Role) -> Shown:
    """Return one of a finding's values; a time in the unit its limit is told in."""
    reference = found.limit.most if found.limit.most is not None else found.limit.least
    return _show(found.kind, si, language, system, role, reference if reference is not None else si)


def _show(kind: str, si: float, language: str, system: System, role: display.Role, reference: float) -> Shown:
    if kind == "duration" and abs(reference) >= YEAR_s:
        step = 1 if role == "capacity" else Fraction(1, 10)
        return Shown(display.figure(si / YEAR_s, step, role), say("answer.years", language))
    if kind == "duration" and abs(reference) >= 2 * HOUR_s:
        return Shown(display.figure(si / HOUR_s, Fraction(1, 10), role), "h")
    return display.show(kind, si, system, role)


def _limit(found: Finding, language: str, system: System) -> Shown:
    least, most = found.limit.least, found.limit.most
    if least is not None and most is not None:
        outward: tuple[display.Role, display.Role] = (
            ("demand", "capacity") if found.kind == "length" else ("fact", "fact")
        )
        low = _shown(found, least, language, system, outward[0])
        high = _shown(found, most, language, system, outward[1])
        number = low.number if low.unit == high.unit else str(low)
        return Shown(f"{number} {say('number.to', language)} {high.number}", high.unit)
    only = most if most is not None else least
    role: display.Role = "set_point" if found.group == "set_point" else "capacity"
    if _asks_at_least(found):
        role = "demand"
    return _shown(found, only, language, system, role) if only is not None else Shown("?", "")


def _margin(found: Finding, language: str, system: System) -> str:
    margin, share = found.margin, found.share_left
    if margin is None or share is None:
        return "; ".join(say(f"missing.{name}", language, **found.words) for name in found.missing)
    if found.is_window:
        return _window_margin(found, margin, language, system)
    if found.kind == "count":
        passed = "answer.count_over" if found.about in CARRIED_BY_COUNT else "answer.count_short"
        key = "answer.count_left" if margin >= 0 else passed
        return say(key, language, margin=display.figure(abs(margin), 1))
    if margin < 0:
        amount = _shown(found, -margin, language, system, "demand")
        return say(
            "answer.too_little" if _asks_at_least(found) else "answer.too_much", language, margin=amount
        )
    percent = display.figure(share * 100, 1, "capacity")
    return say("answer.left", language, margin=f"{percent} %")


def _window_margin(found: Finding, margin: float, language: str, system: System) -> str:
    """Return how far inside or outside a window something lies: points of a share, else in its own unit."""
    role: display.Role = "capacity" if margin >= 0 else "demand"
    if found.kind == "ratio":
        points = display.figure(abs(margin) * 100, Fraction(1, 10), role)
        return say("answer.points_left" if margin >= 0 else "answer.points_out", language, margin=points)
    amount = display.show(found.kind, abs(margin), system, role)
    return say("answer.inside" if margin >= 0 else "answer.outside", language, margin=amount)


def _share(found: Finding) -> float | None:
    if found.demand is None:
        return None
    least, most = found.limit.least, found.limit.most
    if least is not None and most is not None:
        return (found.demand - least) / (most - least)
    only = most if most is not None else least
    return found.demand / only if only else None
