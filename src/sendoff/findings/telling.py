"""Findings in words: the answer as a sentence, each limit with its margin, what was not checked; never approval."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from sendoff import display
from sendoff.display import Shown
from sendoff.findings.model import Finding, Verdict
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
    demand = _show(found.kind, found.demand, language, system, role) if found.demand is not None else None
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
    )


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
    return Told(found.id, name, demand, limit, found.verdict, word, told, None, window=False)


def _show(kind: str, si: float, language: str, system: System, role: display.Role) -> Shown:
    if kind == "duration":
        return Shown(
            display.figure(si / (365.25 * 86400), 1, "fact") if role == "capacity" else _years(si),
            say("answer.years", language),
        )
    return display.show(kind, si, system, role)


def _years(si: float) -> str:
    return display.figure(si / (365.25 * 86400), Fraction(1, 10), "demand")


def _limit(found: Finding, language: str, system: System) -> Shown:
    least, most = found.limit.least, found.limit.most
    if least is not None and most is not None:
        low, high = (
            _show(found.kind, least, language, system, "fact"),
            _show(found.kind, most, language, system, "fact"),
        )
        return Shown(f"{low.number} {say('number.to', language)} {high.number}", high.unit)
    only = most if most is not None else least
    role: display.Role = "set_point" if found.group == "set_point" else "capacity"
    return _show(found.kind, only, language, system, role) if only is not None else Shown("?", "")


def _margin(found: Finding, language: str, system: System) -> str:
    margin, share = found.margin, found.share_left
    if margin is None or share is None:
        return "; ".join(say(f"missing.{name}", language) for name in found.missing)
    if found.is_window:
        points = display.figure(abs(margin) * 100, Fraction(1, 10), "capacity" if margin >= 0 else "demand")
        return say("answer.points_left" if margin >= 0 else "answer.points_out", language, margin=points)
    if margin < 0:
        return say(
            "answer.too_much", language, margin=str(_show(found.kind, -margin, language, system, "demand"))
        )
    percent = display.figure(share * 100, 1, "capacity")
    return say("answer.left", language, margin=f"{percent} %")


def _share(found: Finding) -> float | None:
    if found.demand is None:
        return None
    least, most = found.limit.least, found.limit.most
    if least is not None and most is not None:
        return (found.demand - least) / (most - least)
    only = most if most is not None else least
    return found.demand / only if only else None
