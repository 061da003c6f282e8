"""The driver's sheet: one page of pictures, both languages side by side, for whoever drives it away.

Eight rows, the same for every trailer; what stands in them is what this unit has. Where a part card gives a line for
the driver, it is said; where it gives none, its safety checks of that state are.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any, Final

from sendoff import tables
from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart
from sendoff.briefing.model import Briefing, UpkeepLine
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.load import Catalogue
from sendoff.display import Shown, figure, show
from sendoff.drawings import pictures
from sendoff.drawings.svg import Drawing
from sendoff.drawings.views import Views
from sendoff.findings.all_limits import cargo_of, truck_of
from sendoff.findings.model import Finding
from sendoff.findings.shape_limits import highest_m
from sendoff.findings.telling import tell
from sendoff.papers import typeset
from sendoff.papers.booklet import frame_of
from sendoff.papers.one_page import (
    coupling_size,
    distance,
    grave_cautions,
    height_shown,
    number,
    pressures_of,
)
from sendoff.papers.stations import caution_groups
from sendoff.phrases import say
from sendoff.units import from_si

CHAIN_SLOTS: Final = ("chains", "breakaway")
LIGHT_SLOTS: Final = ("plug", "lamps")
HELD_SYSTEMS: Final = ("hydraulics", "deck", "tie_down", "winch")
MOST_SAID: Final = 190
"""Signs a row has room for beside its number."""
TRUCK_FINDINGS: Final = ("truck.ball", "truck.plug", "truck.controller")
Cell = dict[str, Any]


@dataclass(frozen=True, slots=True)
class _Driver:
    """What every row is made from."""

    unit: AsBuiltUnit
    catalogue: Catalogue
    found: Sequence[Finding]
    truck: Truck | None
    cargo: Cargo | None


def drivers_sheet(
    unit: AsBuiltUnit,
    both: Mapping[str, Briefing],
    catalogue: Catalogue,
    found: Sequence[Finding],
    day: datetime.date,
) -> bytes:
    """Return drivers-sheet.pdf; `both` are the briefings in each language, the reader's own first."""
    return typeset.pdf("drivers_sheet.typ", data_of_drivers_sheet(unit, both, catalogue, found, day), day)


def data_of_drivers_sheet(
    unit: AsBuiltUnit,
    both: Mapping[str, Briefing],
    catalogue: Catalogue,
    found: Sequence[Finding],
    day: datetime.date,
) -> dict[str, Any]:
    """Return the page as data; its columns stand in the order of their codes, whoever reads it."""
    own = next(iter(both.values()))
    both = dict(sorted(both.items()))
    driver = _Driver(unit, catalogue, found, truck_of(unit, catalogue), cargo_of(unit, catalogue))
    columns = {code: list(_rows(driver, briefing)) for code, briefing in both.items()}
    views = Views(unit)
    rows = [
        {
            "picture": asdict(picture),
            "cells": {code: column[position] for code, column in columns.items()},
            "stops": _stops(own) if position == NUTS else [],
        }
        for position, picture in enumerate(_pictures(unit, views, own.language))
    ]
    return frame_of(unit, own, catalogue, day, say("driver.sheet", own.language)) | {
        "driver": {
            "titles": {code: say("driver.title", code) for code in both},
            "languages": {code: say("driver.language", code) for code in both},
            "sheet": " · ".join(say("driver.sheet", code) for code in both),
            "rows": rows,
            "cautions": [
                {"language": code, "groups": caution_groups(_dangers(unit, briefing))}
                for code, briefing in both.items()
            ],
            "authority": {code: say("answer.authority", code) for code in both},
            "torque_unit": _torque_unit(own),
            "signed": " · ".join(say("driver.signed", code) for code in both),
        },
    }


def _pictures(unit: AsBuiltUnit, views: Views, language: str) -> Iterator[Drawing]:
    yield pictures.coupling(unit, language)
    yield pictures.chains(unit, language)
    yield pictures.lamps(unit, language)
    yield pictures.pressure(language)
    yield pictures.height(views, language)
    yield pictures.nuts(unit, language)
    yield pictures.held(language)
    yield pictures.hot(unit, language)


NUTS: Final = 5
"""Position of the row of the nuts; between it and the row of pressure stands another."""


def _rows(driver: _Driver, briefing: Briefing) -> Iterator[Cell]:
    """Yield the eight cells of one language."""
    unit = driver.unit
    coupling = [part for part in unit.parts if part.system == "coupling" and part.slot not in CHAIN_SLOTS]
    chains = [part for part in unit.parts if part.slot in CHAIN_SLOTS]
    lights = [
        part
        for part in unit.parts
        if part.slot in LIGHT_SLOTS or (part.system == "brakes" and part.slot not in CHAIN_SLOTS)
    ]
    ball = [_big(one.label, one.shown) for one in coupling_size(briefing)]
    yield _cell(driver, briefing, _said(briefing, coupling, "coupled"), ball)
    yield _cell(driver, briefing, _said(briefing, chains, "coupled"))
    yield _lights(driver, briefing, lights)
    yield _pressure(driver, briefing)
    yield _weights(driver, briefing)
    yield _nuts(driver, briefing)
    yield _held(driver, briefing)
    call = _big("", Shown(str(driver.catalogue.yard.telephone), ""))
    yield _cell(driver, briefing, [say("driver.call", briefing.language)], [call])


def _cell(
    driver: _Driver, briefing: Briefing, texts: Sequence[str], bigs: Sequence[Cell] = (), blank: str = ""
) -> Cell:
    """Return a cell; one that has nothing to say tells where to ask."""
    if not texts and not bigs:
        telephone = str(driver.catalogue.yard.telephone)
        texts = [say("driver.not_known", briefing.language, telephone=telephone)]
    return {"text": " ".join(_ended(text) for text in texts), "bigs": list(bigs), "blank": blank}


def _ended(text: str) -> str:
    return text if text.endswith((".", "?", "!", ":")) else f"{text}."


def _big(label: str, shown: Shown) -> Cell:
    return {"label": label, "shown": asdict(shown)}


def _said(briefing: Briefing, parts: Sequence[FittedPart], *states: str) -> list[str]:
    """Return the driver's lines of some parts, then of the parts without any their safety checks of some states."""
    lines: list[str] = []
    checks: list[str] = []
    for part in parts:
        own = [line.text for line in briefing.lines_of("driver") if line.key.partition(":")[0] == part.slot]
        lines += own
        checks += [] if own else _road_checks(briefing, part, states)
    return _within(list(dict.fromkeys([*lines, *checks])))


def _road_checks(briefing: Briefing, part: FittedPart, states: Sequence[str]) -> list[str]:
    return [
        check.text
        for station in briefing.stations
        for check in station.checks
        if check.key.partition(":")[0] == part.slot
        and check.safety
        and check.state in states
        and check.how != "measured"
    ]


def _within(texts: Sequence[str]) -> list[str]:
    """Return as many texts as a row has room for, the first one always."""
    kept: list[str] = []
    for text in texts:
        if kept and len(" ".join([*kept, text])) > MOST_SAID:
            break
        kept.append(text)
    return kept


def _lights(driver: _Driver, briefing: Briefing, parts: Sequence[FittedPart]) -> Cell:
    """Return lamps and brakes, with the truck that was named or without one."""
    language = briefing.language
    texts = _said(briefing, parts, "plugged_in")
    brakes = driver.unit.part("brakes")
    if brakes is None:
        texts.append(say("driver.no_brakes", language))
    if driver.truck is None:
        texts.append(say("driver.truck_unnamed", language))
    else:
        texts.append(say("driver.truck", language, name=driver.truck.name))
        for finding in driver.found:
            if finding.id == "truck.plug" or (
                finding.id in TRUCK_FINDINGS and finding.verdict in {"over", "unknown"}
            ):
                told = tell(finding, language, briefing.units)
                texts.append(f"{told.name}: {told.margin}")
    gain = next((line.text for line in briefing.lines_of("visor")), "")
    return _cell(driver, briefing, texts, blank=gain)


def _pressure(driver: _Driver, briefing: Briefing) -> Cell:
    found = pressures_of(briefing)
    shown = {(str(one.shown), one.label): _big(one.label, one.shown) for one in found}
    texts = [say("driver.cold", briefing.language)] if found else []
    return _cell(driver, briefing, texts, list(shown.values())[:3])


def _weights(driver: _Driver, briefing: Briefing) -> Cell:
    """Return height and weights; with a load whose height is known, its own height."""
    language = briefing.language
    bigs = [_big(say("driver.height_empty", language), height_shown(driver.unit, briefing))]
    geometry = driver.unit.geometry
    decks = (*geometry.decks, *(deck for way in geometry.ways for deck in way.decks))
    highest = max(max(deck.height_m, deck.height_rear_m) for deck in decks)
    items = _items(driver.cargo)
    heights = [(item.height.si, str(item.name)) for item in items if item.height is not None]
    tallest, name = max(heights, default=(0.0, ""))
    if items and len(heights) == len(items) and highest + tallest > highest_m(driver.unit):
        shown = show("length", highest + tallest, briefing.units, "demand")
        bigs.append(_big(say("driver.height_loaded", language, name=name), shown))
    for key in ("plate.gvwr", "plate.empty"):
        one = number(briefing, key)
        if one is not None:
            bigs.append(_big(one.label, one.shown))
    return _cell(driver, briefing, [], bigs)


def _items(cargo: Cargo | None) -> tuple[Any, ...]:
    return cargo.items if cargo is not None else ()


def _nuts(driver: _Driver, briefing: Briefing) -> Cell:
    language = briefing.language
    torque, socket = number(briefing, "wheel_nuts.torque"), number(briefing, "wheel_nuts.socket")
    line = _first_miles(briefing)
    if torque is None:
        return _cell(driver, briefing, [])
    stops = ", ".join(str(distance(miles, briefing)) for miles in line.at_miles) if line is not None else ""
    text = say("driver.nuts", language, stops=stops) if stops else say("driver.nuts_no_stops", language)
    label = say("driver.socket", language, size=socket.shown) if socket is not None else ""
    return _cell(driver, briefing, [text], [_big(label, torque.shown)])


def _first_miles(briefing: Briefing) -> UpkeepLine | None:
    return next(
        (line for line in briefing.upkeep if line.at_miles and line.key.startswith("wheel_nuts:")), None
    )


def _stops(briefing: Briefing) -> list[str]:
    line = _first_miles(briefing)
    return [str(distance(miles, briefing)) for miles in line.at_miles] if line is not None else []


def _torque_unit(briefing: Briefing) -> str:
    torque = number(briefing, "wheel_nuts.torque")
    return torque.shown.unit if torque is not None else ""


def _held(driver: _Driver, briefing: Briefing) -> Cell:
    """Return what holds load and body on the road, and when it is looked at again (a published rule)."""
    language, system = briefing.language, briefing.units
    parts = [part for part in driver.unit.parts if part.system in HELD_SYSTEMS]
    row = tables.load("load_recheck").rows[0]
    again = say(
        "driver.recheck",
        language,
        first=show("length", row["first_within_m"], system, "capacity"),
        every=show("length", row["then_every_m"], system, "capacity"),
        hours=f"{figure(from_si(row['then_every_s'], 'h', 'duration'), 1, 'capacity')} h",
    )
    return _cell(driver, briefing, [*_said(briefing, parts, "coupled", "loaded"), again])


def _dangers(unit: AsBuiltUnit, briefing: Briefing) -> list[Any]:
    """Return the one caution of the page: a raised body that is checked for the road, else a wheel that comes off."""
    for_the_road = {
        check.key.partition(":")[0]
        for station in briefing.stations
        for check in station.checks
        if check.safety and check.state in {"coupled", "first_miles"}
    }
    raised = [part.slot for part in unit.parts if part.system == "hydraulics" and part.slot in for_the_road]
    return grave_cautions(briefing, [*raised, "wheel_nuts", "coupler", "chains"])
