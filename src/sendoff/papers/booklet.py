"""The handover booklet: everything of one unit, as data for data/typst/booklet.typ."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import asdict
from typing import Any, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Caution, Number
from sendoff.briefing.numbers import SECTIONS
from sendoff.catalogue.fields import Section, SignalWord
from sendoff.catalogue.load import Catalogue
from sendoff.drawings.lettering import width_mm
from sendoff.findings.model import Finding
from sendoff.papers import appendix, typeset
from sendoff.papers.figures import Figures, diagrams_data
from sendoff.papers.stations import caution_groups, station_data
from sendoff.phrases import say, table

ORIGINS: Final = (("plate", "P"), ("sheet", "B"), ("card", "C"), ("weighed", "W"), ("drawing", "D"))
"""The small letter behind a number, for each place it may come from."""
GENERAL: Final[tuple[tuple[str, SignalWord], ...]] = (
    ("moves", "danger"), ("smallest", "warning"), ("changed", "notice"),
)  # fmt: skip
"""Cautions of every trailer (phrases `general.…`), gravest first."""
CROWDED: Final = 24
"""More numbers than this make a sheet of rows without names of parts."""
MOST_ROWS: Final[dict[Section, int]] = {
    "pressure": 5, "weight": 9, "torque": 5, "electric": 7, "size": 8, "fluid": 4,
}  # fmt: skip
"""Rows of a block that one side still holds in letters to be read at arm's length; all else is at its station."""


def booklet(
    unit: AsBuiltUnit,
    briefing: Briefing,
    catalogue: Catalogue,
    figures: Figures,
    found: Sequence[Finding],
    day: datetime.date,
) -> bytes:
    """Return booklet.pdf."""
    return typeset.pdf("booklet.typ", data_of_booklet(unit, briefing, catalogue, figures, found, day), day)


def frame_of(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, day: datetime.date, title: str
) -> dict[str, Any]:
    """Return what every paper needs: whose it is, the day, the phrases."""
    return {
        "title": f"{title} · {unit.unit}",
        "yard": str(catalogue.yard.name),
        "telephone": str(catalogue.yard.telephone),
        "unit": unit.unit,
        "type": unit.type_name[briefing.language],
        "language": briefing.language,
        "description": f"{title}, {unit.type_name[briefing.language]}, {unit.unit}",
        "keywords": [unit.unit, unit.vin, unit.public_id],
        "day": [day.year, day.month, day.day],
        "phrases": table("paper", briefing.language)
        | {f"origin.{key}": text for key, text in table("origin", briefing.language).items()},
    }


def data_of_booklet(
    unit: AsBuiltUnit,
    briefing: Briefing,
    catalogue: Catalogue,
    figures: Figures,
    found: Sequence[Finding],
    day: datetime.date,
) -> dict[str, Any]:
    """Return the whole booklet as data."""
    language = briefing.language
    numbers, cut = numbers_data(briefing, found)
    return frame_of(unit, briefing, catalogue, day, say("paper.booklet", language)) | {
        "scale_line": say("paper.drawn_to_scale", language, scale=figures.cover.scale),
        "facts": _facts(unit, briefing),
        "authority": [say(f"authority.{n}", language) for n in ("plate", "law", "technician")],
        "general_cautions": _general_cautions(language),
        "verdict_words": [
            {"word": say(f"verdict.{v}", language), "means": say(f"verdict_means.{v}", language)}
            for v in ("within", "tight", "over", "unknown")
        ],
        "origins": [
            {"letter": letter, "means": say(f"origin.{origin}", language)} for origin, letter in ORIGINS
        ],
        "drawings": {
            "cover": asdict(figures.cover),
            "sheet": asdict(figures.sheet),
            "small": asdict(figures.small),
            "map": asdict(figures.map),
        },
        "numbers": numbers,
        "numbers_cut": cut,
        "sentences": list(briefing.sentences),
        "legs": [_leg(leg) for leg in briefing.legs],
        "diagrams": diagrams_data(figures, unit, briefing),
        "plan": appendix.plan_data(unit, briefing),
        "troubles": appendix.troubles_data(unit, briefing),
        "cautions": appendix.cautions_data(briefing),
        "index": appendix.index_data(unit, briefing),
        "loose_items": [{"text": item.text, "count": item.count} for item in briefing.loose_items],
        "questions": appendix.questions_data(briefing),
        "findings": appendix.findings_data(found, figures.bars, briefing),
        "glossary": appendix.glossary_data(unit, briefing),
        "stations": [
            station_data(station, briefing, figures.locators, figures.stations)
            for station in briefing.stations
        ],
    }


def _facts(unit: AsBuiltUnit, briefing: Briefing) -> list[dict[str, Any]]:
    language = briefing.language
    numbers = {number.key: number for number in briefing.numbers}

    def fact(key: str, value: str, span: int = 1, *, typed: bool = False) -> dict[str, Any]:
        return {"label": say(f"fact.{key}", language), "value": value, "span": span, "typed": typed}

    def number(key: str) -> str:
        return str(numbers[key].shown) if key in numbers else "–"

    options = " · ".join(option.name[language] for option in unit.options) or say("fact.no_options", language)
    inside = say("fact.inside_told", language, stations=len(briefing.stations))
    return [
        fact("owner", str(unit.owner.name)),
        fact("vin", unit.vin[-6:], typed=True),
        fact("built", unit.built, typed=True),
        fact("collected", unit.collects.on.isoformat(), typed=True),
        fact("empty", number("plate.empty")),
        fact("gross", number("plate.gvwr")),
        fact("ball", number("coupler.ball")),
        fact("coupling_height", number("size.coupling_height")),
        fact("options", options, 2),
        fact("inside", inside, 2),
    ]


def _leg(leg: Any) -> dict[str, Any]:
    visits = [
        {
            "station": visit.station,
            "name": visit.name,
            "hands": max(act.hands for act in (*visit.steps, *visit.checks)),
        }
        for visit in leg.visits
    ]
    return {"title": leg.title, "visits": visits}


def _general_cautions(language: str) -> list[dict[str, Any]]:
    """Return what holds for every trailer, whatever is fitted."""
    found = [
        Caution(f"general:{name}", signal, say(f"signal.{signal}", language), **_told(name, language))
        for name, signal in GENERAL
    ]
    return caution_groups(found)


def _told(name: str, language: str) -> dict[str, str]:
    return {piece: say(f"general.{name}.{piece}", language) for piece in ("hazard", "consequence", "avoid")}


def numbers_data(briefing: Briefing, found: Sequence[Finding]) -> tuple[list[dict[str, Any]], bool]:
    """Return the numbers sheet block by block, and whether rows were left to their stations.

    The same value of a part that stands in several slots is said once. Where rows are many, ratings that a finding
    has already held against the plate stay at their station, and names of parts go.
    """
    checked = {finding.id for finding in found if finding.verdict in {"within", "tight"}}
    asked = [number for number in briefing.numbers if number.section is not None]
    crowded = len(asked) > CROWDED
    kept = [number for number in asked if not crowded or number.key not in checked]
    blocks, cut = [], len(kept) < len(asked)
    for section in SECTIONS:
        rows: list[dict[str, Any]] = []
        for number in kept:
            if number.section == section and (row := _row(number, crowded=crowded)) not in rows:
                rows.append(row)
        most = MOST_ROWS[section] if crowded else len(rows)
        cut = cut or len(rows) > most
        if rows:
            title = say(f"section.{section}", briefing.language)
            blocks.append({"section": section, "title": title, "rows": rows[:most]})
    return blocks, cut


def _row(number: Number, *, crowded: bool) -> dict[str, Any]:
    part, note = ("", "") if crowded else (number.part, "")
    if number.section == "pressure":
        note = number.note or ""
    told = (part, note)
    return {
        "label": number.label,
        "sub": ", ".join(text for text in told if text and text != number.label),
        "shown": asdict(number.shown),
        "second": str(number.second) if number.second is not None else "",
        "origin": number.origin,
        "wide": round(width_mm(number.shown.number, 1.0, 600), 3),
    }
