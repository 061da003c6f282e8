"""The handover booklet: everything of one unit, as data for data/typst/booklet.typ."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Check, Number, Station, Step
from sendoff.briefing.numbers import SECTIONS
from sendoff.catalogue.load import Catalogue
from sendoff.display import Shown
from sendoff.findings.model import Finding
from sendoff.papers import appendix, typeset
from sendoff.papers.figures import Figures
from sendoff.phrases import say, table

LONG_VALUE = 12
"""A value longer than this stands on a line of its own."""


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
    return frame_of(unit, briefing, catalogue, day, say("paper.booklet", language)) | {
        "scale_line": say("paper.drawn_to_scale", language, scale=figures.cover.scale),
        "facts": _facts(unit, briefing),
        "authority": [say(f"authority.{n}", language) for n in ("plate", "law", "technician")],
        "general_cautions": [],
        "verdict_words": [
            {"word": say(f"verdict.{v}", language), "means": say(f"verdict_means.{v}", language)}
            for v in ("within", "tight", "over", "unknown")
        ],
        "origins": [
            {"letter": letter, "means": say(f"origin.{origin}", language)}
            for origin, letter in (
                ("plate", "P"),
                ("sheet", "B"),
                ("card", "C"),
                ("weighed", "W"),
                ("drawing", "D"),
            )
        ],
        "drawings": {
            "cover": asdict(figures.cover),
            "sheet": asdict(figures.sheet),
            "small": asdict(figures.small),
            "map": asdict(figures.map),
        },
        "numbers": numbers_data(briefing),
        "sentences": list(briefing.sentences),
        "legs": [_leg(leg) for leg in briefing.legs],
        "diagrams": figures.diagrams_data(briefing),
        "plan": appendix.plan_data(unit, briefing),
        "troubles": appendix.troubles_data(unit, briefing),
        "cautions": appendix.cautions_data(briefing),
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


def station_data(
    station: Station, briefing: Briefing, locators: Mapping[int, Any], figures: Mapping[int, Any]
) -> dict[str, Any]:
    """Return one station as data."""
    language = briefing.language
    people = say("paper.two_people" if station.hands > 1 else "paper.one_person", language)
    figure = figures.get(station.number)
    return {
        "number": station.number,
        "name": station.name,
        "subtitle": f"{say(f'state.{station.state}', language)} · {people}",
        "twin": station.twin,
        "twin_line": say("paper.twin_line", language, n=station.twin) if station.twin is not None else "",
        "parts": [
            {
                "letter": part.letter,
                "name": part.name,
                "variant": part.variant if part.variant != part.name else "",
                "what": part.what if station.twin is None else "",
                "why": part.why,
                "passive": part.passive,
            }
            for part in station.parts
        ],
        "cautions": [asdict(caution) for caution in station.cautions],
        "steps": [_step(step, language) for step in station.steps],
        "checks": [check_data(check, language, station.state) for check in station.checks],
        "troubles": [{"see": trouble.see, "look": trouble.look} for trouble in station.troubles],
        "numbers": [number_data(number) for number in station.numbers],
        "upkeep": [{"every": line.every, "text": line.text} for line in station.upkeep],
        "locator": asdict(locators[station.number]),
        "figure": asdict(figure) if figure is not None else None,
    }


def _step(step: Step, language: str) -> dict[str, str]:
    notes = [say(f"state.{step.state}", language)] if step.other_state else []
    notes += [say("paper.two_people", language)] if step.hands > 1 else []
    return {"text": step.text, "note": ", ".join(notes)}


def check_data(check: Check, language: str, station_state: str) -> dict[str, Any]:
    """Return a check as data for a row with its blanks."""
    notes = [say(f"state.{check.state}", language)] if check.state != station_state else []
    notes += [say("paper.two_people", language)] if check.hands > 1 else []
    return {
        "text": check.text,
        "part": check.part,
        "how": say(f"how.{check.how}", language),
        "measured": check.how == "measured",
        "target": asdict(check.target) if check.target is not None else None,
        "tolerance": tolerance(check.minus, check.plus),
        "places": list(check.places),
        "state_note": " · ".join(notes),
        "tool": check.tool or "",
        "safety": check.safety,
        "hands": check.hands,
    }


def tolerance(minus: Shown | None, plus: Shown | None) -> str:
    """Return how far a reading may differ: "± 5 psi", "−0, +5 psi", or nothing."""
    if minus is None and plus is None:
        return ""
    if minus is not None and plus is not None and minus == plus:
        return f"± {plus}"
    pieces = [f"−{minus.number}"] if minus is not None else []
    pieces += [f"+{plus.number}"] if plus is not None else []
    unit = (plus or minus).unit  # type: ignore[union-attr]
    return f"{', '.join(pieces)} {unit}".strip()


def number_data(number: Number) -> dict[str, Any]:
    """Return a value as data for the column of a station."""
    return {
        "label": number.label,
        "shown": asdict(number.shown),
        "origin": number.origin,
        "typed": number.typed,
        "wide": len(str(number.shown)) > LONG_VALUE or len(number.label) > 2 * LONG_VALUE + 4,
    }


def numbers_data(briefing: Briefing) -> list[dict[str, Any]]:
    """Return the numbers sheet block by block; the same value of a part that stands in several slots is said once."""
    blocks = []
    for section in SECTIONS:
        rows: list[dict[str, Any]] = []
        for number in briefing.numbers:
            if number.section != section:
                continue
            sub = ", ".join(
                dict.fromkeys(
                    text for text in (number.part, number.note or "") if text and text != number.label
                )
            )
            row = {
                "label": number.label,
                "sub": sub,
                "shown": asdict(number.shown),
                "second": str(number.second) if number.second is not None else "",
                "origin": number.origin,
            }
            if row not in rows:
                rows.append(row)
        if rows:
            blocks.append(
                {"section": section, "title": say(f"section.{section}", briefing.language), "rows": rows}
            )
    return blocks
