"""Sheets for when it stands and for when it goes wrong: storage and winter, emergency."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing
from sendoff.briefing.numbers import place_name
from sendoff.catalogue.fields import PaperName
from sendoff.catalogue.load import Catalogue
from sendoff.display import Shown, show
from sendoff.papers import typeset
from sendoff.papers.figures import Figures
from sendoff.papers.one_page import Block, acts, blanks, caution, facts, sheet_data, words
from sendoff.phrases import say

STORAGE: tuple[PaperName, ...] = ("put_away", "standing", "wake", "winter")
MONTHS = 6


def storage_and_winter(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> bytes:
    """Return storage-and-winter.pdf."""
    return typeset.pdf("sheet.typ", data_of_storage(unit, briefing, catalogue, figures, day), day)


def data_of_storage(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> dict[str, Any]:
    """Return the sheet as data: put away, stand, wake on one page, winter on the next."""
    language = briefing.language
    chapters = {name: acts("storage", name, briefing, say(f"storage.{name}", language)) for name in STORAGE}
    away = blanks("", [say("storage.away_on", language), say("storage.month", language)])
    pages = [
        [chapters["put_away"], away, chapters["standing"]],
        [chapters["wake"], chapters["winter"]],
    ]
    cautions = [caution("general.moves", "danger", language)]
    return sheet_data(unit, briefing, catalogue, figures, day, "storage", pages, cautions)


# ── emergency ───────────────────────────────────────────────────────────────────────────────────────────────────────


def emergency(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> bytes:
    """Return emergency.pdf."""
    return typeset.pdf("sheet.typ", data_of_emergency(unit, briefing, catalogue, figures, day), day)


def data_of_emergency(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> dict[str, Any]:
    """Return the sheet as data: flat, fire and lost wheel on its face, stolen with all numbers on its back."""
    language = briefing.language
    numbers = [
        (say("emergency.services", language), Shown(say("emergency.services_number", language), "")),
        (say("emergency.yard", language), Shown(str(catalogue.yard.telephone), "")),
    ]
    chapters = {
        name: acts("emergency", name, briefing, say(f"emergency.{name}", language), numbered=True)
        for name in ("flat", "fire", "lost_wheel", "stolen")
    }
    face = [
        facts("", numbers),
        chapters["flat"],
        *_jack(unit, briefing),
        chapters["fire"],
        chapters["lost_wheel"],
    ]
    back = [
        chapters["stolen"],
        blanks("", [say(f"emergency.{key}", language) for key in ("plate", "report", "tracker")], 2),
        {
            "kind": "marks",
            "title": say("emergency.numbers_to_give", language),
            "rows": [[label, mark] for label, mark in marks_of(unit, briefing)],
        },
    ]
    if not any(True for _ in _serials(unit, language)):
        back.append(words(say("emergency.no_marks", language)))
    cautions = [caution("emergency.roadside", "danger", language)]
    return sheet_data(unit, briefing, catalogue, figures, day, "emergency", [face, back], cautions)


def _jack(unit: AsBuiltUnit, briefing: Briefing) -> Iterator[Block]:
    """Yield what the jack must be rated for, from the plate; where no card says where it stands, that it is unknown."""
    language = briefing.language
    if not any(line.key.partition(":")[0] in {"axles", "suspension"} for line in briefing.lines_of("flat")):
        yield words(say("emergency.jack_unknown", language), strong=True)
        return
    ratings = [axle.si for axle in unit.plate.gawr if axle.si is not None]
    if ratings:
        shown = show("mass", side_mass_kg(ratings), briefing.units, "demand")
        yield {
            "kind": "big",
            "title": "",
            "label": say("emergency.jack", language),
            "shown": asdict(shown),
            "text": say("emergency.jack_note", language),
        }


def side_mass_kg(axle_ratings_kg: list[float]) -> float:
    """Return the most one side can put on a jack by the plate: half of all axles, or one whole axle if that is more.

    Sprung axles share through their equalizers, so the jack under one wheel may lift its whole side; a jack set
    further in lifts more than half of its axle, at the middle all of it (statics, moments about the other wheel).

    >>> side_mass_kg([1000.0]), side_mass_kg([1000.0, 1000.0]), side_mass_kg([1000.0, 1000.0, 1000.0])
    (1000.0, 1000.0, 1500.0)
    """
    return max(*axle_ratings_kg, sum(axle_ratings_kg) / 2)


def marks_of(unit: AsBuiltUnit, briefing: Briefing) -> Iterator[tuple[str, str]]:
    """Yield what names this trailer and its parts: VIN, unit, type, size, and every mark noted on a part."""
    language, system = briefing.language, briefing.units
    size = " × ".join(
        str(show("length", meters, system))
        for meters in (unit.geometry.overall_length_m, unit.geometry.overall_width_m)
    )
    yield say("emergency.vin", language), unit.vin
    yield say("paper.unit", language).capitalize(), unit.unit
    yield say("emergency.built", language), unit.built
    yield say("emergency.size", language), size
    yield from _serials(unit, language)


def _serials(unit: AsBuiltUnit, language: str) -> Iterator[tuple[str, str]]:
    for part in unit.parts:
        for place in part.places:
            for kind in ("serial", "tin"):
                mark = getattr(place.marks, kind)
                if mark is not None:
                    where = f", {place_name(place.id, language)}" if len(part.places) > 1 else ""
                    yield f"{part.name[language]}{where}", mark
