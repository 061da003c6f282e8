"""The pages of the booklet behind its stations: plan, faults, cautions, items, questions, findings, words."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from sendoff import sources, words
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, UpkeepLine
from sendoff.briefing.plan import plan, undated
from sendoff.calc.contract import Step, Term
from sendoff.catalogue.fields import SIGNAL_WORDS
from sendoff.display import Shown, show
from sendoff.findings.model import Finding
from sendoff.findings.telling import answer, tell
from sendoff.findings.all_limits import not_checked
from sendoff.phrases import say

SHORT_ANSWER = 24
"""Answers up to this long stand side by side."""


def plan_data(unit: AsBuiltUnit, briefing: Briefing) -> dict[str, Any]:
    """Return the upkeep plan: what goes by its own rule, and what is expected on which day."""
    language = briefing.language
    use = [
        say(f"paper.use_{meter}", language, n=f"{count:,}")
        for meter in ("miles", "loads", "trips", "hours")
        if (count := getattr(unit.owner.use, meter)) is not None
    ]
    told = ", ".join(use) or say("paper.plan_no_use", language)
    return {
        "lead": say("paper.plan_lead", language, day=unit.collects.on.isoformat(), use=told),
        "rules": [_line(line) for line in undated(unit, briefing.upkeep)],
        "dates": [
            _line(due.line) | {"on": due.due_on.isoformat(), "spread": _spread(due.earliest, due.latest)}
            for due in plan(unit, briefing.upkeep)
        ],
    }


def _line(line: UpkeepLine) -> dict[str, Any]:
    return {"every": line.every, "text": line.text, "part": line.part, "station": line.station}


def _spread(earliest: datetime.date | None, latest: datetime.date | None) -> str:
    if earliest is None or latest is None or earliest == latest:
        return ""
    return f"{earliest:%m-%d} … {latest:%m-%d}"


def troubles_data(unit: AsBuiltUnit, briefing: Briefing) -> list[dict[str, Any]]:
    """Return what goes wrong, by system."""
    system = {part.slot: part.system for part in unit.parts}
    groups: dict[str, list[dict[str, Any]]] = {}
    for station in briefing.stations:
        for trouble in station.troubles:
            row = {"see": trouble.see, "look": trouble.look, "station": station.number}
            groups.setdefault(system[trouble.key.partition(":")[0]], []).append(row)
    return [
        {"system": say(f"system.{name}", briefing.language), "rows": rows} for name, rows in groups.items()
    ]


def cautions_data(briefing: Briefing) -> list[dict[str, Any]]:
    """Return every caution once, what can hurt most first."""
    found = [
        asdict(caution) | {"station": station.number}
        for station in briefing.stations
        for caution in station.cautions
    ]
    return sorted(found, key=lambda caution: (SIGNAL_WORDS.index(caution["signal"]), caution["station"]))


def questions_data(briefing: Briefing) -> list[dict[str, Any]]:
    """Return the show-me questions."""
    return [
        {
            "text": question.text,
            "station": question.station,
            "answers": list(question.answers),
            "right": question.right,
            "short": all(len(text) <= SHORT_ANSWER for text in question.answers),
        }
        for question in briefing.questions
    ]


def findings_data(found: Sequence[Finding], bars: Mapping[str, Any], briefing: Briefing) -> dict[str, Any]:
    """Return the findings with their bars, what was not checked, and each working once."""
    language = briefing.language
    rows = []
    for finding in found:
        told = tell(finding, language, briefing.units)
        rows.append(
            {
                "name": told.name,
                "demand": asdict(told.demand) if told.demand is not None else None,
                "limit": asdict(told.limit),
                "verdict": told.verdict,
                "word": told.word,
                "margin": told.margin,
                "bar": asdict(bars[finding.id]),
            }
        )
    return {
        "answer": answer(found, language),
        "rows": rows,
        "not_checked": " · ".join(say(f"not_checked.{name}", language) for name in not_checked(found)) + ".",
        "cautions": [],
        "working": list(_workings(found, briefing)),
    }


def _workings(found: Sequence[Finding], briefing: Briefing) -> Iterator[dict[str, Any]]:
    """Yield each working once, under the names of all limits it serves."""
    by_steps: dict[tuple[Step, ...], list[Finding]] = {}
    for finding in found:
        if finding.steps:
            by_steps.setdefault(finding.steps, []).append(finding)
    for steps, served in by_steps.items():
        last = steps[-1]
        names = [tell(finding, briefing.language, briefing.units).name for finding in served]
        yield {
            "name": " · ".join(dict.fromkeys(names)),
            "formula": last.formula,
            "lines": [line for line in (_terms(last.put_in, briefing), _terms(last.gave, briefing)) if line],
            "sources": "; ".join(
                dict.fromkeys(_source(reference) for finding in served for reference in finding.sources)
            ),
        }


def _terms(terms: Sequence[Term], briefing: Briefing) -> str:
    return ", ".join(
        f"{term.symbol} = {_term(term, briefing)}"
        for term in terms
        if term.value is not None and term.value != ()
    )


def _term(term: Term, briefing: Briefing) -> str:
    value = term.value
    if isinstance(value, bool):
        return say("answer.yes" if value else "answer.no", briefing.language)
    if isinstance(value, tuple):
        return " + ".join(_term(Term(term.name, term.symbol, term.kind, item), briefing) for item in value)
    if isinstance(value, float) and term.kind not in {"text", "number"}:
        return str(show(term.kind, value, briefing.units))
    return str(Shown(f"{value:.6g}" if isinstance(value, float) else str(value).replace("_", " "), ""))


def _source(reference: str) -> str:
    name, comma, clause = reference.partition(", ")
    source = sources.get(name)
    return f"{source.title}{comma}{clause}"


def glossary_data(unit: AsBuiltUnit, briefing: Briefing) -> list[dict[str, str]]:
    """Return the words this unit's owner meets, in the order of the alphabet."""
    language = briefing.language
    met = [word for word in words.load() if not word.if_fitted or unit.part(word.if_fitted) is not None]
    return sorted(
        ({"word": word.said[language], "means": word.means[language]} for word in met),
        key=lambda word: word["word"].casefold(),
    )
