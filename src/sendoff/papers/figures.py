"""All drawings one unit's papers need, made once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Stub:
    svg: str
    width_mm: float
    height_mm: float
    scale: str
    description: str


@dataclass(frozen=True)
class Figures:
    cover: Stub
    sheet: Stub
    small: Stub
    map: Stub
    locators: Mapping[int, Stub]
    stations: Mapping[int, Stub]
    bars: Mapping[str, Stub]

    def diagrams_data(self, briefing: object) -> list[dict[str, object]]:
        return []


def stub(w: float, h: float) -> Stub:
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {w} {h}" width="{w}mm" height="{h}mm"><rect x="1" y="1" width="{w - 2}" height="{h - 2}" fill="none" stroke="#17181a" stroke-width="0.3"/></svg>'
    return Stub(svg, w, h, "1:64", "a drawing")


def figures_of(unit: object, briefing: object, found: object) -> Figures:
    stations = briefing.stations  # type: ignore[attr-defined]
    return Figures(
        stub(170, 50),
        stub(260, 180),
        stub(36, 9),
        stub(120, 60),
        {s.number: stub(56, 14) for s in stations},
        {},
        {f.id: stub(64, 7) for f in found},
    )  # type: ignore[attr-defined]
