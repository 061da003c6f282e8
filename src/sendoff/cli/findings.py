"""The lines of `sendoff findings`."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import typer

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.load import find_folder, load
from sendoff.cli import streams
from sendoff.cli.calc import step_as_data
from sendoff.errors import SendoffError, of_sheet
from sendoff.findings.all_limits import all_findings, not_checked, truck_of
from sendoff.findings.load_card import LoadCard, ToldCard, load_card, tell_card
from sendoff.findings.model import Finding, exit_code
from sendoff.findings.telling import answer, tell
from sendoff.phrases import say

FAULTY = 2
WIDEST = 60
"""Signs of a name that the columns are set by; a longer name pushes its own line out."""


def tell_all(
    sheets: Sequence[Path],
    catalogue: Path | None,
    truck: Path | None,
    day: datetime.date,
    *,
    cargo: Path | None = None,
    as_json: bool,
    working: bool,
) -> int:
    """Print the findings of each sheet and return the exit code of all."""
    codes, answers = set(), []
    for sheet in dict.fromkeys(sheets):
        try:
            loaded = load(find_folder(catalogue, sheet))
            unit = as_built(sheet, loaded)
            found = all_findings(unit, loaded, day, truck, cargo)
            card = load_card(unit, truck_of(unit, loaded, truck))
        except SendoffError as refused:
            typer.echo(str(of_sheet(refused, str(sheet))), err=True)
            codes.add(FAULTY)
            continue
        codes.add(exit_code(found))
        if as_json:
            answers.append(_as_json(unit, found, card))
        else:
            typer.echo("\n".join(_lines(unit, found, card, working=working)))
    if as_json:
        typer.echo(streams.as_json(answers, indent=1))
    return next((code for code in (FAULTY, 1, 3) if code in codes), 0)


def _lines(unit: AsBuiltUnit, found: Sequence[Finding], card: LoadCard | None, *, working: bool) -> list[str]:
    language, system = unit.reader.language, unit.reader.units
    told = [tell(finding, language, system) for finding in found]
    width = min(max((len(line.name) for line in told), default=0), WIDEST)
    lines = [f"{unit.unit}  {unit.type_name[language]}", answer(found, language), ""]
    for finding, line in zip(found, told, strict=True):
        demand = str(line.demand) if line.demand is not None else "?"
        lines.append(
            f"  {line.name:<{width}}  {demand:>12}  / {line.limit!s:<12}  {line.word}, {line.margin}"
        )
        lines += [f"      {note}" for note in line.notes]
        if working:
            lines += [f"      {piece}" for step in finding.steps for piece in _step(step)]
            lines += [f"      [{source}]" for source in finding.sources]
    lines += ["", *(_card(tell_card(card, language, system)) if card is not None else ())]
    lines += [
        f"{say('answer.not_checked', language)}: "
        + "; ".join(say(f"not_checked.{name}", language) for name in not_checked(found))
        + ".",
    ]
    return [*lines, say("answer.authority", language), ""]


def _card(told: ToldCard) -> list[str]:
    lines = [f"{told.title} ({told.empty}; {told.measured_from})"]
    for allowed in told.allowed:
        lines.append(f"  {allowed.title}: {allowed.most} ({allowed.first})")
        lines += [f"      {mass:>10}  {front} … {rear}" for mass, front, rear in allowed.bands]
        lines += [f"      {remark}" for remark in allowed.remarks]
    return [*lines, *(f"  {remark}" for remark in told.remarks), ""]


def _step(step: Any) -> list[str]:
    put_in = ", ".join(f"{term.symbol} = {_plain(term.value)} {term.unit}".rstrip() for term in step.put_in)
    gave = ", ".join(
        f"{term.symbol} = {_plain(term.value)} {term.unit}".rstrip()
        for term in step.gave
        if term.value is not None
    )
    return [step.formula, f"  {put_in}", f"  → {gave}"]


def _plain(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return "; ".join(_plain(item) for item in value)
    return f"{value:.6g}" if isinstance(value, float) else str(value)


def _as_json(unit: AsBuiltUnit, found: Sequence[Finding], card: LoadCard | None) -> dict[str, Any]:
    language, system = unit.reader.language, unit.reader.units
    rows = []
    for finding in found:
        line = tell(finding, language, system)
        rows.append(
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
                "working": [step_as_data(step) for step in finding.steps],
                "sources": list(finding.sources),
            }
        )
    return {
        "unit": unit.unit,
        "answer": answer(found, language),
        "findings": rows,
        "load_card": asdict(card) if card is not None else None,
        "not_checked": list(not_checked(found)),
    }
