"""The lines of `sendoff catalogue diff`: which units would read differently, and in what."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Final

import typer

from sendoff.briefing.differences import KINDS, Difference, differences
from sendoff.catalogue.load import find_folder, load
from sendoff.cli import streams
from sendoff.errors import Fault, FaultyInput, SendoffError, of_sheet

SAME, DIFFERENT, FAULTY = 0, 1, 2
LONGEST: Final = 300


def tell_differences(
    old: Path, new: Path, sheets: Sequence[Path], day: datetime.date, *, as_json: bool, only_counts: bool
) -> int:
    """Print what would read differently and return the exit code."""
    here = Path("file.toml")
    before, after = load(find_folder(old, here)), load(find_folder(new, here))
    found = list(dict.fromkeys(sheets)) or sorted((after.folder.parent / "sheets").glob("*.toml"))
    if not found:
        cure = "Name build sheets behind the two catalogues."
        raise FaultyInput(
            Fault(str(after.folder.parent / "sheets"), "", "", "no build sheets are there", cure)
        )
    refused, changed, answers = 0, 0, []
    for sheet in found:
        try:
            unit, told = differences(sheet, before, after, day)
        except SendoffError as error:
            typer.echo(str(of_sheet(error, str(sheet))), err=True)
            refused += 1
            continue
        changed += bool(told)
        if as_json:
            answers.append({"unit": unit, "sheet": str(sheet), "differences": [asdict(one) for one in told]})
        else:
            typer.echo("\n".join(_lines(unit, told, only_counts=only_counts)))
    if as_json:
        typer.echo(streams.as_json(answers, indent=1))
    else:
        typer.echo(f"{changed} of {len(found) - refused} units would read differently")
    return FAULTY if refused else DIFFERENT if changed else SAME


def _lines(unit: str, told: Sequence[Difference], *, only_counts: bool) -> list[str]:
    if not told:
        return [f"{unit}  the same"]
    count = Counter(one.kind for one in told)
    counted = ", ".join(
        f"{count[kind]} {kind}{'s' if count[kind] > 1 else ''}" for kind in KINDS if count[kind]
    )
    lines = [f"{unit}  {counted}"]
    if not only_counts:
        for one in told:
            lines.append(f"  {one.kind:<8}{one.key}")
            if one.kind != "drawing":
                lines += [f"    - {_short(one.old)}", f"    + {_short(one.new)}"]
    return lines


def _short(text: str | None) -> str:
    if text is None:
        return "(nothing)"
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"
