"""What the one-page papers share: their blocks as data for data/typst/sheet.typ, their cautions, their numbers.

Every text comes from the part cards (lines of a paper, cautions, checks) or from the phrases in both languages; every
number from the unit, its plate or a published table.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import Any

from sendoff import units
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Caution, Number
from sendoff.catalogue.fields import PaperName, SignalWord
from sendoff.catalogue.load import Catalogue
from sendoff.display import Shown, show
from sendoff.findings.shape_limits import highest_m
from sendoff.papers.booklet import frame_of
from sendoff.papers.figures import Figures
from sendoff.papers.stations import caution_groups
from sendoff.phrases import say, table

Block = dict[str, Any]


def sheet_data(
    unit: AsBuiltUnit,
    briefing: Briefing,
    catalogue: Catalogue,
    figures: Figures,
    day: datetime.date,
    name: str,
    pages: Sequence[Sequence[Block]],
    cautions: Sequence[Caution],
) -> dict[str, Any]:
    """Return a one-page paper (or one of a page or two) as data: its pages of blocks under one title."""
    language = briefing.language
    title = say(f"{name}.title", language)
    return frame_of(unit, briefing, catalogue, day, title) | {
        "sheet": {
            "title": title,
            "lead": say(f"{name}.lead", language),
            "pages": [list(page) for page in pages],
            "cautions": caution_groups(cautions),
            "authority": say("answer.authority", language),
        },
        "drawings": {"small": asdict(figures.small)},
    }


# ── blocks ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def acts(name: str, paper: PaperName, briefing: Briefing, title: str, *, numbered: bool = False) -> Block:
    """Return what is done: what holds for every trailer first, then the lines of the parts, by station."""
    general = table(f"{name}.acts.{paper}", briefing.language)
    rows = [{"text": general[key], "part": "", "station": 0} for key in sorted(general)]
    rows += [
        {"text": line.text, "part": line.part, "station": line.station} for line in briefing.lines_of(paper)
    ]
    return {"kind": "steps" if numbered else "ticks", "title": title, "rows": rows}


def blanks(title: str, labels: Iterable[str], columns: int = 2) -> Block:
    """Return lines to write on."""
    return {"kind": "blanks", "title": title, "labels": list(labels), "columns": columns}


def facts(title: str, rows: Sequence[tuple[str, Shown]]) -> Block:
    """Return numbers to be read at a glance."""
    told = [{"label": label, "shown": asdict(shown)} for label, shown in rows]
    return {"kind": "facts", "title": title, "rows": told}


def words(text: str, *, strong: bool = False) -> Block:
    """Return a paragraph."""
    return {"kind": "words", "title": "", "text": text, "strong": strong}


# ── what is said of this unit ───────────────────────────────────────────────────────────────────────────────────────


def numbers_of(briefing: Briefing, slot: str, section: str) -> tuple[Number, ...]:
    """Return the numbers of a slot that stand in one block of the numbers sheet."""
    return tuple(
        number
        for number in briefing.numbers
        if number.section == section and number.key.partition(".")[0] == slot
    )


def number(briefing: Briefing, key: str) -> Number | None:
    """Return a number of the numbers sheet or of a station by its key."""
    every = (*briefing.numbers, *(one for station in briefing.stations for one in station.numbers))
    return next((one for one in every if one.key == key), None)


def pressures_of(briefing: Briefing) -> tuple[Number, ...]:
    """Return the pressures a gauge is held to: tires and spare; those of an air system stand at its stations."""
    return (*numbers_of(briefing, "tires", "pressure"), *numbers_of(briefing, "spare", "pressure"))


def coupling_size(briefing: Briefing) -> tuple[Number, ...]:
    """Return what the truck must have: what is stamped on its ball, which no unit of a reader changes, else a size."""
    stamp = number(briefing, "coupler.ball_stamp")
    return (stamp,) if stamp is not None else numbers_of(briefing, "coupler", "size")[:1]


def must_know(unit: AsBuiltUnit, briefing: Briefing) -> list[tuple[str, Shown]]:
    """Return what anyone who tows it must know: the coupling's size, cold air, weights, height."""
    found = [*coupling_size(briefing), *numbers_of(briefing, "tires", "pressure")]
    found += [one for key in ("plate.gvwr", "plate.empty") if (one := number(briefing, key)) is not None]
    rows = [(one.label, one.shown) for one in found]
    return [*rows, (say("driver.height_empty", briefing.language), height_shown(unit, briefing))]


def height_shown(unit: AsBuiltUnit, briefing: Briefing) -> Shown:
    """Return how high the unit stands with nothing on it, rounded up."""
    return show("length", highest_m(unit), briefing.units, "demand")


def distance(miles: int, briefing: Briefing) -> Shown:
    """Return a distance of the first miles in the reader's unit, rounded down so that no stop comes late."""
    return show("length", units.to_si(miles, "mi", "length"), briefing.units, "capacity", given=f"{miles} mi")


def grave_cautions(briefing: Briefing, slots: Sequence[str], most: int = 1) -> list[Caution]:
    """Return the gravest cautions of some slots, in the order of the slots: dangers and warnings alone."""
    found = [
        caution
        for slot in slots
        for station in briefing.stations
        for caution in station.cautions
        if caution.id.partition(":")[0] == slot and caution.signal in {"danger", "warning"}
    ]
    dangers = [caution for caution in found if caution.signal == "danger"]
    return (dangers or found)[:most]


def caution(key: str, signal: SignalWord, language: str) -> Caution:
    """Return a caution of the phrases."""
    told = {piece: say(f"{key}.{piece}", language) for piece in ("hazard", "consequence", "avoid")}
    return Caution(key.replace(".", ":"), signal, say(f"signal.{signal}", language), **told)
