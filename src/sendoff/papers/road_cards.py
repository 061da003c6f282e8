"""Cards for the road and for other hands: the first trip's readings, the sun-visor sheet, the card of a loan."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Check, UpkeepLine
from sendoff.catalogue.load import Catalogue
from sendoff.display import Shown, show
from sendoff.papers import typeset
from sendoff.papers.booklet import frame_of
from sendoff.papers.figures import Figures
from sendoff.papers.one_page import (
    Block,
    acts,
    blanks,
    caution,
    distance,
    facts,
    grave_cautions,
    height_shown,
    must_know,
    number,
    pressures_of,
    sheet_data,
    words,
)
from sendoff.papers.stations import caution_groups
from sendoff.phrases import say

MOST_STOPS: Final = 6
STOP_MM: Final = {1: 40, 2: 34, 3: 28, 4: 22, 5: 18, 6: 15}
"""Width of a stop's column, by how many there are."""

# ── first trip ──────────────────────────────────────────────────────────────────────────────────────────────────────


def first_trip(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> bytes:
    """Return first-trip.pdf."""
    return typeset.pdf("sheet.typ", data_of_first_trip(unit, briefing, catalogue, figures, day), day)


def data_of_first_trip(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> dict[str, Any]:
    """Return the card as data: what is done at the first miles against the distances at which it is done."""
    language = briefing.language
    matrix = readings(briefing)
    telephone = str(catalogue.yard.telephone)
    page: list[Block] = [matrix] if matrix["rows"] else [words(say("first_trip.none", language))]
    page += [
        words(say("first_trip.debt", language), strong=True),
        words(say("first_trip.stop_if", language, telephone=telephone)),
    ]
    cautions = grave_cautions(briefing, ["wheel_nuts", "hubs", "wheels"]) or [
        caution("general.smallest", "warning", language)
    ]
    return sheet_data(unit, briefing, catalogue, figures, day, "first_trip", [page], cautions)


def readings(briefing: Briefing) -> Block:
    """Return the rows of the first miles: upkeep due at a distance, then checks made at every stop."""
    language = briefing.language
    due = sorted((line for line in briefing.upkeep if line.at_miles), key=lambda line: line.at_miles)
    stops = sorted({miles for line in due for miles in line.at_miles})[:MOST_STOPS]
    checks = list(_first_checks(briefing))
    rows = [row for line in due for row in _due_rows(line, stops, checks)]
    waited = {line.key.partition(":")[0] for line in due}
    rows += [
        _row(check.text, check.part, None, say("first_trip.looked_at", language), ["tick"] * len(stops))
        for check in checks
        if check.how != "measured" and check.key.partition(":")[0] not in waited
    ]
    return {
        "kind": "matrix",
        "title": "",
        "heads": [say("first_trip.what", language), say("first_trip.target", language)],
        "stops": [str(distance(miles, briefing)) for miles in stops],
        "wide": STOP_MM[max(len(stops), 1)],
        "rows": rows if stops else [],
        "feet": [say("first_trip.odometer", language), say("first_trip.by", language)],
    }


def _first_checks(briefing: Briefing) -> Iterator[Check]:
    for leg in briefing.legs:
        if leg.state == "first_miles":
            for visit in leg.visits:
                yield from visit.checks


def _due_rows(line: UpkeepLine, stops: list[int], checks: list[Check]) -> Iterator[dict[str, Any]]:
    """Yield a row for what is due, or one a place where its part is read place by place at the first miles."""
    slot = line.key.partition(":")[0]
    own = [check for check in checks if check.key.partition(":")[0] == slot]
    read = next((check for check in own if check.how == "measured"), None)
    cells = [("write" if read is not None else "tick") if miles in line.at_miles else "" for miles in stops]
    target = asdict(read.target) if read is not None and read.target is not None else None
    # a limit stands in the text of the line; a target is set beside it only where the same text does not say it
    if target is not None and f"{target['number']}\N{NO-BREAK SPACE}{target['unit']}" in line.text:
        target = None
    places = list(dict.fromkeys(place for check in own for place in check.places))
    if not places:
        yield _row(line.text, line.part, target, "", cells)
    for position, place in enumerate(places):
        where = place if position else f"{line.part}, {place}"
        yield _row("" if position else line.text, where, target, "", cells)


def _row(text: str, place: str, target: dict[str, Any] | None, how: str, cells: list[str]) -> dict[str, Any]:
    return {"text": text, "place": place, "target": target, "how": how, "cells": cells}


# ── sun visor ───────────────────────────────────────────────────────────────────────────────────────────────────────


def sun_visor(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> bytes:
    """Return sun-visor.pdf."""
    return typeset.pdf("visor.typ", data_of_visor(unit, briefing, catalogue, figures, day), day)


def data_of_visor(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> dict[str, Any]:
    """Return what a driver must know at the wheel, big: height first, pressure and torque far apart."""
    language, system = briefing.language, briefing.units
    geometry = unit.geometry
    sizes = [
        (say("visor.length", language), show("length", geometry.overall_length_m, system, "demand")),
        (say("visor.width", language), show("length", geometry.overall_width_m, system, "demand")),
    ]
    weights = [
        (one.label, one.shown) for key in ("plate.gvwr", "plate.empty") if (one := number(briefing, key))
    ]
    pressures = [(one.label, one.shown) for one in pressures_of(briefing)]
    torque, socket = number(briefing, "wheel_nuts.torque"), number(briefing, "wheel_nuts.socket")
    nuts = [(one.label, one.shown) for one in (torque, socket) if one is not None]
    title = say("visor.title", language)
    return frame_of(unit, briefing, catalogue, day, title) | {
        "visor": {
            "title": title,
            "height": _fact((say("visor.height", language), height_shown(unit, briefing))),
            "fold": say("visor.fold", language),
            "with_load": say("visor.with_load", language),
            "bands": [[_fact(one) for one in band] for band in (pressures, [*sizes, *weights], nuts)],
            "blanks": [
                say("visor.train", language),
                *(line.text for line in briefing.lines_of("visor")),
            ],
            "sway": next((line.text for line in briefing.lines_of("sway")), say("visor.sway", language)),
            "cautions": caution_groups([caution("load_card.sway", "danger", language)]),
            "call": f"{say('visor.call', language)} {catalogue.yard.telephone}",
            "authority": say("answer.authority", language),
        },
        "drawings": {"small": asdict(figures.small)},
    }


def _fact(row: tuple[str, Shown]) -> dict[str, Any]:
    label, shown = row
    return {"label": label, "shown": asdict(shown)}


# ── lent out ────────────────────────────────────────────────────────────────────────────────────────────────────────


def lent_out(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> bytes:
    """Return lent-out.pdf."""
    return typeset.pdf("sheet.typ", data_of_lent_out(unit, briefing, catalogue, figures, day), day)


def data_of_lent_out(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> dict[str, Any]:
    """Return the card of a loan as data."""
    language = briefing.language
    who = [say(f"lent.{key}", language) for key in ("who", "telephone", "truck", "carries", "out", "back")]
    after = acts("lent", "lent", briefing, say("lent.before", language))
    general_after = say_all("lent.acts.after", language)
    page: list[Block] = [
        blanks("", who),
        facts(say("lent.numbers", language), must_know(unit, briefing)),
        after | {"rows": [*_rows(say_all("lent.acts.before", language)), *after["rows"]]},
        {"kind": "ticks", "title": say("lent.after", language), "rows": list(_rows(general_after))},
        blanks("", ["", ""], 1),
        words(say("lent.call", language, telephone=str(catalogue.yard.telephone)), strong=True),
        blanks("", [say("lent.lender", language), say("lent.borrower", language)]),
    ]
    cautions = [caution("lent.borrowed", "warning", language)]
    return sheet_data(unit, briefing, catalogue, figures, day, "lent", [page], cautions)


def say_all(prefix: str, language: str) -> list[str]:
    """Return all phrases below a key, in the order of their numbers."""
    from sendoff.phrases import table

    found = table(prefix, language)
    return [found[key] for key in sorted(found)]


def _rows(texts: list[str]) -> Iterator[dict[str, Any]]:
    for text in texts:
        yield {"text": text, "part": "", "station": 0}
