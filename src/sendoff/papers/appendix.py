"""The pages of the booklet behind its stations: plan, faults, cautions, items, questions, findings, words."""

from __future__ import annotations

import datetime
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from typing import Any, Final

from sendoff import glyphs, sources, words
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Caution, UpkeepLine
from sendoff.briefing.plan import Due, plan, undated
from sendoff.calc.contract import Step, Term
from sendoff.catalogue.fields import SIGNAL_WORDS
from sendoff.display import Shown, show
from sendoff.findings.all_limits import not_checked
from sendoff.findings.model import Finding
from sendoff.findings.telling import answer, tell
from sendoff.papers.stations import caution_groups
from sendoff.phrases import say

SHORT_ANSWER: Final = 24
"""Answers up to this long stand side by side, four abreast."""
WRITTEN_OUT: Final = {"⌈": "ceil(", "⌉": ")", "⌊": "floor(", "⌋": ")", "ᵢ": "_i", "ⱼ": "_j"}
"""Signs of formulas that the face lacks, as they are typed."""
STEP_LETTERS: Final = "qrstuvwxyz"
"""Letters of the steps of an order; those of parts and of answers begin at a."""
OVER_KINDS: Final = frozenset({"mass", "force", "pressure", "duration", "ratio"})
"""Kinds of quantity whose passed limit has a consequence of its own (phrases `over.…`)."""


def plan_data(unit: AsBuiltUnit, briefing: Briefing) -> dict[str, Any]:
    """Return the upkeep plan: what goes by its own rule, and what is expected on which day."""
    language = briefing.language
    use = [
        say(f"paper.use_{meter}", language, n=f"{count:,}")
        for meter in ("miles", "loads", "trips", "hours")
        if (count := getattr(unit.owner.use, meter)) is not None
    ]
    told = ", ".join(use) or say("paper.plan_no_use", language)
    dues = plan(unit, briefing.upkeep)
    months = _months(unit.collects.on, max((due.due_on for due in dues), default=unit.collects.on))
    return {
        "lead": say("paper.plan_lead", language, day=unit.collects.on.isoformat(), use=told),
        "rules": [
            _line(line) | {"every": _short(line.every, language)} for line in undated(unit, briefing.upkeep)
        ],
        "months": [say("paper.months", language).split()[month - 1] for _, month in months],
        "dates": list(_year(dues, months, language)),
    }


def _line(line: UpkeepLine) -> dict[str, Any]:
    return {"every": line.every, "text": line.text, "part": line.part, "station": line.station}


def _short(every: str, language: str) -> str:
    """Return when an upkeep falls due without "whichever comes first", which the table says once."""
    return every.removesuffix(say("every.or", language, many=""))


def _year(dues: Sequence[Due], months: Sequence[tuple[int, int]], language: str) -> Iterator[dict[str, Any]]:
    """Yield each upkeep once, in the order of the walk, with the days it is expected on, month by month."""
    lines: dict[str, list[Due]] = {}
    for due in dues:
        lines.setdefault(due.line.key, []).append(due)
    for found in sorted(lines.values(), key=lambda found: found[0].line.station):
        first = found[0]
        days: dict[tuple[int, int], list[int]] = {month: [] for month in months}
        for due in found:
            days[due.due_on.year, due.due_on.month].append(due.due_on.day)
        yield _line(first.line) | {
            "every": _short(first.line.every, language),
            "spread": _spread(first.earliest, first.latest),
            "days": list(days.values()),
        }


def _months(first: datetime.date, last: datetime.date) -> list[tuple[int, int]]:
    count = (last.year - first.year) * 12 + last.month - first.month + 1
    return [(first.year + (first.month - 1 + n) // 12, (first.month - 1 + n) % 12 + 1) for n in range(count)]


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


def index_data(unit: AsBuiltUnit, briefing: Briefing) -> list[dict[str, Any]]:
    """Return the index by system: every part under its system, with the stations where it stands."""
    language = briefing.language
    by_system: dict[str, dict[str, list[int]]] = {}
    system_of = {part.slot: part.system for part in unit.parts}
    for station in briefing.stations:
        for part in station.parts:
            stations = by_system.setdefault(system_of[part.slot], {}).setdefault(part.name, [])
            if station.number not in stations:
                stations.append(station.number)
    return [
        {
            "system": say(f"system.{name}", language),
            "rows": [
                {"part": part, "stations": stations}
                for part, stations in sorted(parts.items(), key=lambda row: row[0].casefold())
            ],
        }
        for name, parts in sorted(
            by_system.items(), key=lambda row: say(f"system.{row[0]}", language).casefold()
        )
    ]


def cautions_data(briefing: Briefing) -> list[dict[str, Any]]:
    """Return every caution once under its signal word, what can hurt most first."""
    groups = []
    for signal in SIGNAL_WORDS:
        found = [
            asdict(caution) | {"station": station.number}
            for station in briefing.stations
            for caution in station.cautions
            if caution.signal == signal
        ]
        if found:
            groups.append({"signal": signal, "word": found[0]["word"], "messages": found})
    return groups


def questions_data(briefing: Briefing) -> list[dict[str, Any]]:
    """Return the show-me questions; where an order is asked, the steps once, lettered, and each answer as letters."""
    found = []
    for question in briefing.questions:
        steps, answers = _orders(question.answers)
        found.append(
            {
                "text": question.text,
                "station": question.station,
                "steps": steps,
                "answers": answers,
                "right": question.right,
                "short": all(len(text) <= SHORT_ANSWER for text in answers),
                "mistakes": list(question.mistakes),
            }
        )
    return found


def _orders(answers: Sequence[str]) -> tuple[list[dict[str, str]], list[str]]:
    """Return the steps of an order by letter and each answer as letters; no steps where none is asked.

    The letters go by the alphabet of the texts, so that they give no order away.

    >>> _orders(("1. Pull\\n2. Hook", "1. Hook\\n2. Pull"))
    ([{'letter': 'y', 'text': 'Hook'}, {'letter': 'z', 'text': 'Pull'}], ['z · y', 'y · z'])
    >>> _orders(("95 psi", "80 psi"))
    ([], ['95 psi', '80 psi'])
    """
    orders = [[line.partition(". ")[2] for line in answer.split("\n")] for answer in answers]
    steps = sorted(orders[0], key=str.casefold)
    if (
        len(steps) < 2
        or len(steps) > len(STEP_LETTERS)
        or any(sorted(order, key=str.casefold) != steps for order in orders)
    ):
        return [], list(answers)
    letters = dict(zip(steps, STEP_LETTERS[-len(steps) :], strict=True))
    told = [{"letter": letter, "text": text} for text, letter in letters.items()]
    return told, [" · ".join(letters[text] for text in order) for order in orders]


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
                "notes": list(told.notes),
                "bar": asdict(bars[finding.id]),
            }
        )
    return {
        "answer": answer(found, language),
        "rows": rows,
        "not_checked": " · ".join(say(f"not_checked.{name}", language) for name in not_checked(found)) + ".",
        "cautions": caution_groups(
            [_over(finding, briefing) for finding in found if finding.verdict == "over"]
        ),
        "working": list(_workings(found, briefing)),
    }


def _over(finding: Finding, briefing: Briefing) -> Caution:
    """Return the warning of a limit that is passed: by how much, what it does; the remedy is never guessed."""
    language = briefing.language
    told = tell(finding, language, briefing.units)
    kind = finding.kind if finding.kind in OVER_KINDS else "other"
    return Caution(
        id=f"over:{finding.id}",
        signal="warning",
        word=say("signal.warning", language),
        hazard=say(
            "over.hazard", language, name=told.name, demand=told.demand, limit=told.limit, margin=told.margin
        ),
        consequence=say(f"over.{kind}", language),
        avoid=say("over.avoid", language),
    )


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
            "formula": settable(last.formula),
            "lines": [
                [say(f"paper.{label}", briefing.language), line]
                for label, terms in (("put_in", last.put_in), ("gave", last.gave))
                if (line := _terms(terms, briefing))
            ],
            "sources": "; ".join(
                dict.fromkeys(_source(reference) for finding in served for reference in finding.sources)
            ),
        }


def settable(formula: str) -> str:
    """Return a formula with the few signs the face lacks written out, so that no page fails on a formula.

    >>> settable("n = ⌈L/10 ft⌉, Fᵢ = A/n")
    'n = ceil(L/10 ft), F_i = A/n'
    """
    written = "".join(WRITTEN_OUT.get(sign, sign) for sign in formula)
    return "".join(
        sign if glyphs.missing_sign(sign) is None else f"[{unicodedata.name(sign, 'sign').lower()}]"
        for sign in written
    )


def _terms(terms: Sequence[Term], briefing: Briefing) -> str:
    return ", ".join(
        f"{settable(term.symbol)} = {_term(term, briefing)}"
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
