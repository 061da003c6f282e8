"""Which drawings a unit's papers need: each made once, shared by booklet, check sheet, page and pack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Number
from sendoff.display import show
from sendoff.drawings.figures import station_figure
from sendoff.drawings.margins import margin_bar
from sendoff.drawings.one_line import one_line
from sendoff.drawings.plug_face import plug_face, terminals
from sendoff.drawings.raised import raised_side
from sendoff.drawings.sheets import cover, sheet, walk_map
from sendoff.drawings.small import locator, screen_side, silhouette, small_side
from sendoff.drawings.svg import Drawing
from sendoff.drawings.tie_downs import tie_downs
from sendoff.drawings.views import Views
from sendoff.drawings.wheel_nuts import wheel_nuts
from sendoff.findings.model import Finding
from sendoff.phrases import say
from sendoff.units import to_si

WIRES_M = (to_si(10, "ft", "length"), to_si(20, "ft", "length"))
"""How far a raised body keeps from a wire: of up to 50 kV, and where the voltage is not known (29 CFR 1926.1408)."""
SMALL_MM = 40.0
"""Width of the side view beside the titles of numbers sheet and check sheet."""


@dataclass(frozen=True, slots=True)
class Figures:
    """All drawings of one unit in one language and one system of units."""

    cover: Drawing
    sheet: Drawing
    small: Drawing
    screen: Drawing
    outline: Drawing
    map: Drawing
    locators: Mapping[int, Drawing]
    """By number of the station."""
    stations: Mapping[int, Drawing]
    bars: Mapping[str, Drawing]
    """By id of the finding."""
    nuts: Drawing | None
    plug: Drawing | None
    power: Drawing | None
    tie_downs: Drawing | None
    raised: Drawing | None

    def named(self) -> Iterator[tuple[str, Drawing]]:
        """Yield the drawings that stand in a pack as files of their own."""
        yield from (("cover", self.cover), ("sheet", self.sheet), ("map", self.map))
        yield from (("side-small", self.small), ("side-screen", self.screen), ("outline", self.outline))
        for number, drawing in self.locators.items():
            yield f"station-{number:02}-where", drawing
        for number, drawing in self.stations.items():
            yield f"station-{number:02}", drawing
        named = (
            ("wheel-nuts", self.nuts),
            ("plug-face", self.plug),
            ("power", self.power),
            ("tie-downs", self.tie_downs),
            ("raised", self.raised),
        )
        for name, found in named:
            if found is not None:
                yield name, found


def figures_of(unit: AsBuiltUnit, briefing: Briefing, found: Sequence[Finding]) -> Figures:
    """Draw everything a unit's papers show."""
    language, system = briefing.language, briefing.units
    views = Views(unit)
    spoken = [
        (station, said, {part.slot: part.letter for part in said.parts})
        for station, said in zip(unit.stations, briefing.stations, strict=True)
    ]
    return Figures(
        cover=cover(views, language, system),
        sheet=sheet(views, language, system),
        small=small_side(views, language, SMALL_MM),
        screen=screen_side(views, language),
        outline=silhouette(views, language),
        map=walk_map(views, language),
        locators={said.number: locator(views, station, said.number, language) for station, said, _ in spoken},
        stations={
            said.number: station_figure(views, station, said.number, language, letters)
            for station, said, letters in spoken
            if said.twin is None
        },
        bars={
            finding.id: margin_bar(
                finding.verdict,
                language,
                demand=finding.demand,
                most=finding.limit.most,
                least=finding.limit.least,
            )
            for finding in found
        },
        nuts=wheel_nuts(unit, language),
        plug=plug_face(unit, language),
        power=one_line(unit, language, system),
        tie_downs=tie_downs(views, language, system),
        raised=raised_side(views, language, system),
    )


def diagrams_data(figures: Figures, unit: AsBuiltUnit, briefing: Briefing) -> list[dict[str, Any]]:
    """Return the page "Wheels, plug, power, tie-downs": each drawing with what a person needs beside it."""
    language = briefing.language
    found = []
    if figures.nuts is not None:
        found.append(_diagram("wheel_nuts", figures.nuts, language) | _about_nuts(unit, briefing))
    if figures.plug is not None:
        rows = [
            [
                str(one.number),
                one.does,
                say("plug.awg", language, gauge=one.awg) if one.awg is not None else "",
            ]
            for one in terminals(unit, language)
        ]
        lines = [say("plug.looking_in", language)]
        found.append(_diagram("plug", figures.plug, language) | {"rows": rows, "lines": lines})
    if figures.power is not None:
        found.append(_diagram("one_line", figures.power, language) | {"full": True})
    if figures.tie_downs is not None:
        found.append(_diagram("tie_downs", figures.tie_downs, language) | {"full": True})
    if figures.raised is not None:
        near, far = (show("length", meters, briefing.units, "demand") for meters in WIRES_M)
        lines = [
            say("paper.raised_bridges", language)
            if unit.part("lift_deck")
            else say("paper.raised_wires", language, near=near, far=far)
        ]
        found.append(_diagram("raised", figures.raised, language) | {"full": True, "lines": lines})
    return found


def _diagram(name: str, drawing: Drawing, language: str) -> dict[str, Any]:
    return {
        "full": False,
        "title": say(f"paper.{name}", language),
        "drawing": asdict(drawing),
        "big": None,
        "lines": [],
        "rows": [],
    }


def _about_nuts(unit: AsBuiltUnit, briefing: Briefing) -> dict[str, Any]:
    """Return what stands under the wheel: its torque, the stages, and when it is done again."""
    language = briefing.language
    numbers = {number.key: number for station in briefing.stations for number in station.numbers}
    torque = numbers.get("wheel_nuts.torque")
    stages = [
        str(numbers[key].shown)
        for key in ("wheel_nuts.torque_stage_1", "wheel_nuts.torque_stage_2")
        if key in numbers
    ]
    wheels = unit.part("wheels")
    count = wheels.si("stud_count") if wheels is not None else None
    lines = []
    if stages and torque is not None:
        lines.append(
            say(
                "paper.nuts_stages",
                language,
                count=f"{count:.0f}" if count else "",
                stages=", ".join([*stages, str(torque.shown)]),
            )
        )
    lines += [
        f"{line.every}: {line.text}"
        for line in briefing.upkeep
        if line.at_miles and line.key.startswith("wheel_nuts:")
    ]
    return {"big": _big(torque), "lines": lines}


def _big(number: Number | None) -> dict[str, str] | None:
    if number is None:
        return None
    second = str(number.second) if number.second is not None else ""
    return asdict(number.shown) | {"second": second, "origin": number.origin}
