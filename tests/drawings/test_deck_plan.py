"""The deck plan's drawing: to scale, every item where the plan puts it, its numbers, nothing off the paper."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.display import show
from sendoff.drawings.cargo_shapes import Riding, marks_of, smoothed
from sendoff.drawings.deck_plan import deck_drawing, straps
from sendoff.drawings.deck_sheet import WIDTH_MM, Sheet, standing_of
from sendoff.drawings.deck_steps import loading_pictures
from sendoff.drawings.lettering import width_mm
from sendoff.findings.all_limits import truck_of
from sendoff.findings.deck.answer import DeckAnswer, place_all
from sendoff.findings.deck.case import cargo_file, case_of
from sendoff.units import System

YARD = Path(__file__).parents[2] / "examples" / "quillback"
LOADS = [
    ("qb-0107", None),
    ("qb-0203", "garden_soil_and_quad"),
    ("qb-0301", None),
    ("qb-0701", None),
    ("qb-0707", None),
]


def answered(name: str, cargo: str | None = None, way: str = "") -> DeckAnswer:
    catalogue = load(YARD / "catalogue")
    unit = as_built(YARD / "sheets" / f"{name}.toml", catalogue)
    found = cargo_file(unit, catalogue, YARD / "cargo" / f"{cargo}.toml" if cargo else None)
    assert found is not None
    case = case_of(unit, found[0], truck_of(unit, catalogue), file=found[1])
    return place_all(case.only(way) if way else case, "en")


@pytest.mark.parametrize(("name", "cargo"), LOADS)
@pytest.mark.parametrize(("language", "system"), [("en", "us"), ("es", "metric")])
def test_everything_stays_on_the_paper_and_is_told(
    name: str, cargo: str | None, language: str, system: System
) -> None:
    found = answered(name, cargo)
    drawing = deck_drawing(found, language, system)
    assert drawing.width_mm == WIDTH_MM
    assert drawing.height_mm < 235
    root = ET.fromstring(drawing.svg)
    numbers = 0
    for one in root.iter():
        for pair in re.findall(r"(-?[0-9.]+),(-?[0-9.]+)", one.get("points", "")):
            assert -0.6 <= float(pair[0]) <= WIDTH_MM + 0.6
            assert -0.6 <= float(pair[1]) <= drawing.height_mm + 0.6
            numbers += 1
        for key, most in (
            ("x", WIDTH_MM),
            ("y", drawing.height_mm),
            ("cx", WIDTH_MM),
            ("cy", drawing.height_mm),
        ):
            assert -0.6 <= float(one.get(key, "0")) <= most + 0.6
    assert numbers > 200
    for text in (one for one in root.iter() if one.tag.endswith("text")):
        wide = width_mm(
            (text.text or "").replace("\u200c", ""), float(text.get("font-size", "0")) * 72 / 25.4
        )
        begin = {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
        assert float(text.get("x", "0")) - begin >= -1, text.text
        assert float(text.get("x", "0")) - begin + wide <= WIDTH_MM + 1.5, text.text
    words = drawing.svg.replace("\u200c", "")
    for row in standing_of(found):
        assert found.case.item_name(row.item.name) in words
        assert str(show("mass", row.item.mass_kg, system, "demand")) in words
        assert found.case.item_name(row.item.name) in drawing.description
    assert "style=" not in drawing.svg


@pytest.mark.parametrize(("name", "cargo"), LOADS)
def test_items_are_as_long_as_they_are_and_stand_where_the_plan_says(name: str, cargo: str | None) -> None:
    found = answered(name, cargo)
    sheet = Sheet(found, "en", "us")
    for row in sheet.rows:
        placed = next(one for one in found.plan.placements if one.item == row.item.name)
        spreads = [mark.spread() for mark in row.marks]
        # sloping decks turn an item, which shortens it a little on the level
        assert min(spread[0] for spread in spreads) == pytest.approx(placed.front_m, abs=0.30)
        assert max(spread[1] for spread in spreads) == pytest.approx(
            placed.front_m + row.item.length_m, abs=0.30
        )
        assert sheet.x(placed.front_m + 1) - sheet.x(placed.front_m) == pytest.approx(1000 / sheet.scale)


def test_on_a_raised_deck_a_car_stands_on_its_slope() -> None:
    found = answered("qb-0701", way="deck_up")
    upper = next(row for row in standing_of(found) if row.step.deck == "lift_deck_up")
    way = found.case.way("deck_up")
    assert way is not None
    deck = way.decks[0]
    rise = (deck.height_rear_m - deck.height_m) / (deck.x1_m - deck.x0_m)
    for x, z in upper.wheels():
        assert z == pytest.approx(deck.height_m + rise * (x - deck.x0_m), abs=0.02)


def test_straps_run_from_wheels_to_tie_down_points_within_reach() -> None:
    found = answered("qb-0701")
    part = found.case.unit.part("tie_downs")
    assert part is not None
    points = {round(place.x_m, 3) for place in part.places}
    for row in standing_of(found):
        drawn = list(straps(found, row))
        assert drawn
        for _, (x, _) in drawn:
            assert round(x, 3) in points
            assert min(abs(x - at) for at, _ in row.wheels()) <= (row.item.strap_reach_m or 9) + 1e-6


def test_one_picture_for_each_step_of_loading() -> None:
    found = answered("qb-0107")
    pictures = loading_pictures(found, "es")
    assert len(pictures) == len(found.plan.loading)
    sizes = [len(picture.svg) for picture in pictures]
    assert sizes == sorted(sizes)  # each has one item more
    assert all("paso" in picture.description for picture in pictures)


@pytest.mark.parametrize("looks", ["car", "pickup", "machine", "quad", "boat", "cargo"])
def test_a_shape_is_as_long_and_high_as_its_item(looks: str) -> None:
    riding = Riding(looks, 4.2, 1.6, (0.8, 3.3))  # type: ignore[arg-type]
    spreads = [mark.spread() for mark in marks_of(riding)]
    assert min(spread[0] for spread in spreads) == pytest.approx(0.0, abs=0.15)
    assert max(spread[1] for spread in spreads) == pytest.approx(4.2, abs=0.15)
    assert min(spread[2] for spread in spreads) == pytest.approx(0.0, abs=0.01)
    assert max(spread[3] for spread in spreads) == pytest.approx(1.6, abs=0.06)


def test_smoothing_keeps_an_outline_inside_its_corners() -> None:
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    assert all(0 <= x <= 1 and 0 <= y <= 1 for x, y in smoothed(square))
