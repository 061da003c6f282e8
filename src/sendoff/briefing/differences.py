"""What a unit would say otherwise if another catalogue were used: parts, values, texts, findings, the walk.

Everything a unit's papers are made of is laid out as lines by key, once for each catalogue; what differs between the
two is told, and nothing else.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit, Value
from sendoff.briefing.brief import brief
from sendoff.briefing.model import Briefing, Check, Station, Step, Visit
from sendoff.catalogue.fields import LANGUAGES
from sendoff.catalogue.load import Catalogue
from sendoff.errors import FaultyInput, SendoffError
from sendoff.findings.all_limits import all_findings, named
from sendoff.findings.telling import tell

Kind = Literal["refused", "part", "value", "walk", "text", "finding", "drawing"]
KINDS: Final[tuple[Kind, ...]] = ("refused", "part", "value", "walk", "text", "finding", "drawing")
Key = tuple[Kind, str]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that would read differently; None where it is not there at all."""

    kind: Kind
    key: str
    old: str | None
    new: str | None


def differences(
    sheet: Path, old: Catalogue, new: Catalogue, day: datetime.date
) -> tuple[str, tuple[Difference, ...]]:
    """Return a unit's number and what would read differently.

    Raises
    ------
    SendoffError
        If neither catalogue takes the build sheet: then nothing can be compared.
    """
    before, after = _read(sheet, old), _read(sheet, new)
    if isinstance(before, SendoffError) and isinstance(after, SendoffError):
        raise after
    if isinstance(before, SendoffError) or isinstance(after, SendoffError):
        told = [str(one) if isinstance(one, SendoffError) else None for one in (before, after)]
        unit = after if isinstance(before, SendoffError) else before
        return unit.unit, (Difference("refused", "build sheet", *told),)  # type: ignore[union-attr]
    freight = [
        _beside(after, (new, old), key, folder) for key, folder in (("truck", "trucks"), ("cargo", "cargo"))
    ]
    lines = [dict(_lines(unit, catalogue, day, freight)) for unit, catalogue in ((before, old), (after, new))]
    return after.unit, tuple(_compared(*lines))


def _read(sheet: Path, catalogue: Catalogue) -> AsBuiltUnit | SendoffError:
    try:
        return as_built(sheet, catalogue)
    except FaultyInput as refused:
        return refused


def _beside(unit: AsBuiltUnit, catalogues: Sequence[Catalogue], key: str, folder: str) -> Path | None:
    """Return the truck or cargo a sheet names, one for both: what is compared are the catalogues alone."""
    name = getattr(unit, key)
    for catalogue in catalogues:
        with suppress(FaultyInput):
            return named(name, catalogue, key, folder)
    return named(name, catalogues[0], key, folder)


def _compared(old: Mapping[Key, str], new: Mapping[Key, str]) -> Iterator[Difference]:
    rank = {kind: position for position, kind in enumerate(KINDS)}
    for kind, key in sorted(old.keys() | new.keys(), key=lambda found: (rank[found[0]], found[1])):
        one, other = old.get((kind, key)), new.get((kind, key))
        if one != other:
            yield Difference(kind, key, one, other)


# ── everything a unit says, as lines ────────────────────────────────────────────────────────────────────────────────


def _lines(
    unit: AsBuiltUnit, catalogue: Catalogue, day: datetime.date, freight: Sequence[Path | None]
) -> Iterator[tuple[Key, str]]:
    yield from _parts(unit)
    yield ("drawing", "geometry"), repr(unit.geometry)
    for language in LANGUAGES:
        briefing = brief(unit, catalogue, language)
        if language == LANGUAGES[0]:
            yield ("walk", "stations"), " · ".join(f"{one.number} {one.id}" for one in briefing.stations)
            yield ("walk", "laps"), _laps(briefing)
        for key, text in _texts(briefing):
            yield ("text", f"{language} {key}"), text
    for finding in all_findings(unit, catalogue, day, *freight):
        told = tell(finding, "en", unit.reader.units)
        demand = str(told.demand) if told.demand is not None else "?"
        yield ("finding", finding.id), f"{finding.verdict}: {demand} / {told.limit}, {told.margin}"


def _parts(unit: AsBuiltUnit) -> Iterator[tuple[Key, str]]:
    for part in unit.parts:
        yield ("part", part.slot), f"{part.card}/{part.variant} at {', '.join(p.id for p in part.places)}"
        for name, value in part.values.items():
            yield ("value", f"{part.slot}.{name}"), _said(value)
    plate = unit.plate
    yield ("value", "plate.gvwr"), _said(plate.gvwr)
    yield ("value", "plate.gawr"), ", ".join(_said(axle) for axle in plate.gawr)
    yield ("value", "plate.empty_mass"), _said(plate.empty_mass)
    share = (plate.coupling_share_least, plate.coupling_share_most)
    yield ("value", "plate.coupling_share"), " to ".join(_said(one) for one in share)


def _said(value: Value) -> str:
    return " | ".join(value.words.values()) if value.words else value.given


def _laps(briefing: Briefing) -> str:
    return " · ".join(
        f"{leg.state}:{visit.station}:{act.key}"
        for leg in briefing.legs
        for visit in leg.visits
        for act in _acts(visit)
    )


def _acts(visit: Visit) -> tuple[Step | Check, ...]:
    return (*visit.steps, *visit.checks)


def _texts(briefing: Briefing) -> Iterator[tuple[str, str]]:
    for station in briefing.stations:
        yield from _of_station(station)
    for position, sentence in enumerate(briefing.sentences, start=1):
        yield f"sentence {position}", sentence
    for question in briefing.questions:
        yield f"question {question.key}", " | ".join((question.text, *question.answers))
    for item in briefing.loose_items:
        yield f"handed over {item.key}", f"{item.count} × {item.text}"
    for line in briefing.lines:
        yield f"line {line.key}", line.text


def _of_station(station: Station) -> Iterator[tuple[str, str]]:
    yield f"station {station.id}", station.name
    for part in station.parts:
        yield f"part {part.slot}", " | ".join((part.name, part.variant, part.what, part.passive or ""))
    for step in station.steps:
        yield f"step {step.key}", step.text
    for check in station.checks:
        limits = "".join(f" {sign}{one}" for sign, one in (("−", check.minus), ("+", check.plus)) if one)
        yield f"check {check.key}", f"{check.text} {check.target or ''}{limits}".strip()
    for caution in station.cautions:
        words = (caution.word, caution.hazard, caution.consequence, caution.avoid)
        yield f"caution {caution.id}", " ".join(words)
    for line in station.upkeep:
        yield f"upkeep {line.key}", f"{line.every}: {line.text}"
    for trouble in station.troubles:
        yield f"fault {trouble.key}", f"{trouble.see} {trouble.look}"
    for number in station.numbers:
        yield f"number {number.key}", f"{number.label} {number.note or ''}".strip()
