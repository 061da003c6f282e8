"""A station as data for a page: its parts with their cautions before their steps, its checks, its numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from itertools import groupby
from typing import Any, Final

from sendoff.briefing.model import Briefing, Caution, Check, Number, PartSaid, Station, Step
from sendoff.briefing.numbers import place_name
from sendoff.display import Shown
from sendoff.drawings.lettering import width_mm
from sendoff.phrases import say

COLUMN_MM: Final = 56.0
LABEL_POINTS, VALUE_POINTS, UNIT_POINTS = 9.6, 14.5, 8.8
LEAST_LABEL_MM, MOST_LINES = 17.0, 2.2
"""Measures of the column of numbers (data/typst/stations.typ)."""
MARKS: Final = ("serial", "lot", "tin")


def station_data(
    station: Station, briefing: Briefing, locators: Mapping[int, Any], figures: Mapping[int, Any]
) -> dict[str, Any]:
    """Return one station as data."""
    language = briefing.language
    people = say("paper.two_people" if station.hands > 1 else "paper.one_person", language)
    locator, figure = locators.get(station.number), figures.get(station.number)
    return {
        "number": station.number,
        "name": station.name,
        "subtitle": f"{say(f'state.{station.state}', language)} · {people}",
        "twin": station.twin,
        "twin_line": say("paper.twin_line", language, n=station.twin) if station.twin is not None else "",
        "legend": [
            {"letter": part.letter, "name": part.name, "variant": _variant(part)} for part in station.parts
        ],
        "many": len(station.parts) > 1,
        "runs": list(_runs(station, language)) if station.twin is None else [],
        "checks": list(_checks(station, language)),
        "troubles": [
            {
                "see": trouble.see,
                "look": trouble.look,
                "wide": [_wide(trouble.see, 700), _wide(trouble.look)],
            }
            for trouble in station.troubles
        ],
        "numbers": list(_numbers(station, language)),
        "origins": sorted({number.origin for number in station.numbers}),
        "upkeep": [
            {"every": line.every, "text": line.text, "letter": _letter(station, line.key)}
            for line in station.upkeep
        ],
        "locator": asdict(locator) if locator is not None else None,
        "figure": asdict(figure) if figure is not None else None,
    }


def _slot(key: str) -> str:
    """Return the slot a key such as "tires:fill" or "tires.cold_pressure" begins with."""
    return key.partition(":")[0].partition(".")[0]


def _letter(station: Station, key: str) -> str:
    """Return the letter of the part a key belongs to; nothing where a station has one part only."""
    if len(station.parts) < 2:
        return ""
    return next((part.letter for part in station.parts if part.slot == _slot(key)), "")


def _variant(part: PartSaid) -> str:
    return part.variant if part.variant != part.name else ""


def _wide(text: str, weight: int = 400) -> float:
    """Return how wide a text is on one line, in millimeters a point of size; a little too much, never too little."""
    return round(width_mm(text, 1.0, weight) * 1.01, 3)


# ── parts, cautions, steps ──────────────────────────────────────────────────────────────────────────────────────────


def _runs(station: Station, language: str) -> Iterator[dict[str, Any]]:
    """Yield the parts in the order of their steps, which is the walk's and is never changed here.

    A part whose steps are parted by those of another comes again, by name only; a part without steps comes by its
    letter. Its cautions stand where it comes first: before the first of its steps.
    """
    waiting = {part.slot: part for part in station.parts}
    stepless = [part for part in station.parts if all(_slot(step.key) != part.slot for step in station.steps)]
    state, number = station.state, 0
    for slot, group in groupby(station.steps, key=lambda step: _slot(step.key)):
        steps = list(group)
        part = next(part for part in station.parts if part.slot == slot)
        while stepless and stepless[0].letter < part.letter:
            yield _run(waiting.pop(stepless.pop(0).slot), station, [], language, first=True)
        rows: list[dict[str, Any]] = []
        for step in steps:
            number += 1
            rows.append(_step(step, number, state, language))
            state = step.state
        yield _run(part, station, rows, language, first=waiting.pop(slot, None) is not None)
    for part in stepless:
        yield _run(part, station, [], language, first=True)


def _run(
    part: PartSaid, station: Station, steps: list[dict[str, Any]], language: str, *, first: bool
) -> dict[str, Any]:
    cautions = [caution for caution in station.cautions if _slot(caution.id) == part.slot] if first else []
    return {
        "letter": part.letter,
        "name": part.name,
        "again": not first,
        "variant": _variant(part),
        "why": part.why if part.why != say("why.standard", language) else "",
        "what": part.what if first else "",
        "note": next(
            (number.note for number in station.numbers if number.note and _slot(number.key) == part.slot), ""
        )
        if first
        else "",
        "passive": (part.passive or "") if first else "",
        "cautions": caution_groups(cautions),
        "steps": steps,
    }


def caution_groups(cautions: Sequence[Caution]) -> list[dict[str, Any]]:
    """Return safety messages under their signal word, those of one word together."""
    return [
        {
            "signal": signal,
            "word": word,
            "messages": [
                {"hazard": one.hazard, "consequence": one.consequence, "avoid": one.avoid} for one in group
            ],
        }
        for (signal, word), group in groupby(cautions, key=lambda caution: (caution.signal, caution.word))
    ]


def _step(step: Step, number: int, state: str, language: str) -> dict[str, Any]:
    return {
        "number": number,
        "text": step.text,
        "note": say("paper.two_people", language) if step.hands > 1 else "",
        "state": say(f"state.{step.state}", language) if step.state != state else "",
        "wide": _wide(f"{step.text} ({say('paper.two_people', language)})" if step.hands > 1 else step.text),
    }


# ── checks ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def _checks(station: Station, language: str) -> Iterator[dict[str, Any]]:
    """Yield the checks in the order of the walk; where the state changes, the row says so."""
    state = station.state
    for check in station.checks:
        told = say(f"state.{check.state}", language) if check.state != state else ""
        row = check_data(check, language) | {"letter": _letter(station, check.key), "state": told}
        yield row | {"wide": _wide(f"{row['letter']}    {row['text']} ({row['note']})")}
        state = check.state


def check_data(check: Check, language: str) -> dict[str, Any]:
    """Return a check as data for a row with its blanks."""
    return {
        "text": check.text,
        "part": check.part,
        "how": say(f"how.{check.how}", language),
        "measured": check.how == "measured",
        "target": asdict(check.target) if check.target is not None else None,
        "tolerance": tolerance(check.minus, check.plus),
        "places": list(check.places),
        "note": say("paper.two_people", language) if check.hands > 1 else "",
        "tool": check.tool or "",
        "safety": check.safety,
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


# ── numbers ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def number_data(number: Number) -> dict[str, Any]:
    """Return a value as data."""
    return {
        "label": number.label,
        "shown": asdict(number.shown),
        "origin": number.origin,
        "typed": number.typed,
        "line": _line(number),
    }


def _line(number: Number) -> str:
    """Return how a value stands in the narrow column: "one" line, "more" beside a longer label, "below" it, "long"."""
    shown = (
        width_mm(number.shown.number, VALUE_POINTS, 600)
        + width_mm(f" {number.shown.unit}", UNIT_POINTS)
        + 3.0
    )
    room = COLUMN_MM - shown - 2.0
    label = width_mm(number.label, LABEL_POINTS)
    if shown > COLUMN_MM:
        return "long"
    if room < LEAST_LABEL_MM or label > MOST_LINES * room:
        return "below"
    return "one" if label < room - 0.5 else "more"


def _numbers(station: Station, language: str) -> Iterator[dict[str, Any]]:
    """Yield the numbers part by part: its values, then what is stamped on it, place by place."""
    for part in station.parts:
        own = [number for number in station.numbers if _slot(number.key) == part.slot]
        values = [number_data(number) for number in own if not number.typed]
        marks = [_marks(kind, own, language) for kind in MARKS]
        found = [mark for mark in marks if mark["rows"]]
        if values or found:
            yield {"letter": part.letter, "name": part.name, "values": values, "marks": found}


def _marks(kind: str, numbers: Sequence[Number], language: str) -> dict[str, Any]:
    rows = []
    for number in numbers:
        if number.typed and number.key.endswith(f".{kind}"):
            place = number.key.split(".")[1]
            rows.append(
                {
                    "place": place_name(place, language)
                    if number.label.endswith(place_name(place, language))
                    else "",
                    "mark": number.shown.number,
                    "origin": number.origin,
                }
            )
    return {"title": say(f"paper.mark_{kind}", language), "rows": rows}
