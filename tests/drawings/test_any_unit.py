"""Drawings of units nobody ordered yet: any legal set of options, a yard's own small type, the other way round."""

from __future__ import annotations

import functools
import itertools
import math
from pathlib import Path
from typing import Any, get_args

import msgspec
import pytest

from sendoff.asbuilt.fit import combinations
from sendoff.asbuilt.resolve import as_built, read_sheet, resolve
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.load import load
from sendoff.catalogue.schema import Shape
from sendoff.drawings import UnitDrawings
from sendoff.drawings.svg import INK
from sendoff.drawings.views import PLAN, SIDE
from sendoff.drawings.walk import RING_MM, clash
from tests.drawings.reading import QUILLBACK, catalogue, circles, lines, unit
from tests.yards import SmallYard

SHEETS = {
    "boat_tandem": "qb-0301",
    "dump_bumper": "qb-0309",
    "enclosed_car": "qb-0311",
    "hauler_lift_deck": "qb-0707",
    "livestock_gooseneck": "qb-0408",
    "pintle_air": "qb-0806",
    "tilt_gooseneck": "qb-0111",
    "utility_single": "qb-0203",
}


def sample(type_id: str, count: int) -> list[tuple[str, ...]]:
    """Return sets of options spread evenly over all legal ones."""
    every = [tuple(sorted(options)) for options in combinations(catalogue().types[type_id])]
    step = max(len(every) // count, 1)
    return every[::step][:count]


@functools.cache
def built_with(type_id: str, options: tuple[str, ...]) -> AsBuiltUnit:
    name = SHEETS[type_id]
    sheet, raw = read_sheet(QUILLBACK / "sheets" / f"{name}.toml")
    tires = {"tires": sheet.parts["tires"]} if "tires" in sheet.parts else {}
    return resolve(
        msgspec.structs.replace(sheet, options=options, parts=tires), raw, catalogue(), f"{name}.toml"
    )


CASES = [
    *(("tilt_gooseneck", options) for options in sample("tilt_gooseneck", 24)),
    *(("utility_single", options) for options in sample("utility_single", 12)),
    *(("hauler_lift_deck", options) for options in sample("hauler_lift_deck", 8)),
    *(("pintle_air", options) for options in sample("pintle_air", 8)),
    *(("dump_bumper", options) for options in sample("dump_bumper", 7)),
    *(("livestock_gooseneck", options) for options in sample("livestock_gooseneck", 5)),
    *(("boat_tandem", options) for options in sample("boat_tandem", 6)),
    *(("enclosed_car", options) for options in sample("enclosed_car", 6)),
]


@pytest.mark.parametrize(("type_id", "options"), CASES)
def test_any_legal_unit_is_drawn_whole_and_without_a_crossing(type_id: str, options: tuple[str, ...]) -> None:
    made = built_with(type_id, options)
    drawings = UnitDrawings(made, "es", "us")
    assert len(drawings.files()) >= 8 + 2 * len(made.stations)
    sheet = drawings.sheet
    rings = circles(sheet, RING_MM, stroke_width="0.35", fill="#ffffff")
    assert len(rings) == len(made.stations)
    leaders = [
        (start, end)
        for start, end in lines(sheet, stroke=INK, stroke_width="0.18")
        if any(math.dist(start, ring) < 0.01 for ring in rings)
    ]
    for one, other in itertools.combinations(leaders, 2):
        assert not clash(one, other)


def test_every_shape_a_card_may_name_is_drawn() -> None:
    kinds = get_args(msgspec.structs.fields(Shape)[0].type)
    assert set(kinds) == set(SIDE) | set(PLAN)


def test_a_type_of_a_yards_own_is_drawn_too(tmp_path: Path) -> None:
    """The starter: one axle, four stations, no wheels, no hinge, no plug."""
    yard = SmallYard(tmp_path)
    drawings = UnitDrawings(as_built(yard.sheet, load(yard.catalogue)), "en", "us")
    files = drawings.files()
    assert "sheet.svg" in files
    assert not {"plug-face.svg", "wheel-nuts.svg", "tie-downs.svg", "one-line.svg"} & set(files)


def test_a_walk_the_other_way_round_goes_down_the_passenger_side_first() -> None:
    made = unit("qb-0203")
    order = {"front": 0, "right": 1, "rear": 2, "left": 3, "center": 1}
    turned: list[Any] = sorted(
        made.stations, key=lambda s: (order[s.side], s.x_m if s.side == "right" else -s.x_m)
    )
    other = msgspec.structs.replace(made, stations=tuple(turned))
    sheet = UnitDrawings(other, "en", "us").sheet
    assert "From the coupling, passenger side" in " ".join(
        element for element in sheet.svg.replace("<", ">").split(">") if "passenger" in element
    )
    rings = circles(sheet, RING_MM, stroke_width="0.35", fill="#ffffff")
    assert len(rings) == len(turned)
    first_side = [ring for ring, station in zip(rings, turned, strict=True) if station.side == "right"]
    last_side = [ring for ring, station in zip(rings, turned, strict=True) if station.side == "left"]
    assert max(y for _, y in first_side) < min(y for _, y in last_side)


def test_very_many_stations_still_find_room_on_a_sheet() -> None:
    made = unit("qb-0107")
    many = tuple(
        msgspec.structs.replace(station, id=f"{station.id}_{copy}")
        for station in made.stations
        for copy in range(2)
    )
    crowded = msgspec.structs.replace(made, stations=many)
    sheet = UnitDrawings(crowded, "es", "us").sheet
    assert len(circles(sheet, RING_MM, stroke_width="0.35", fill="#ffffff")) == 40
