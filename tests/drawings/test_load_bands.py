"""The bands under the side view stand where they say, at the scale of the trailer above them."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.drawings.load_bands import WIDTH_MM, BandGroup, BandRow, load_bands
from sendoff.drawings.svg import BAR
from sendoff.drawings.views import Views

YARD = Path(__file__).parents[2] / "examples" / "quillback"
NAMES = ("qb-0107", "qb-0203", "qb-0207")


def views_of(name: str) -> Views:
    return Views(as_built(YARD / "sheets" / f"{name}.toml", load(YARD / "catalogue")))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_each_bar_lies_at_its_place_to_scale(name: str, system: str) -> None:
    views = views_of(name)
    decks = views.geometry.decks
    deck = (decks[0].x0_m, decks[-1].x1_m)
    rows = tuple(
        BandRow(
            deck[0] + 0.4 * number, deck[0] + 0.4 * number + 0.9, f"{number} lb", "1 ft 4 in", "4 ft 3 in"
        )
        for number in range(1, 4)
    )
    drawing = load_bands(views, [BandGroup("Most", rows)], deck, "en", system)  # type: ignore[arg-type]
    mm = (WIDTH_MM - 3.0) / (views.rear_m - views.geometry.front_x_m)
    bars = [
        one
        for one in ET.fromstring(drawing.svg).iter()
        if one.tag.endswith("rect") and one.get("fill") == BAR
    ]
    assert len(bars) == len(rows)
    for bar, row in zip(bars, rows, strict=True):
        x = 1.5 + (row.front_x_m - views.geometry.front_x_m) * mm
        assert float(bar.get("x", "")) == pytest.approx(x, abs=2e-3)
        assert float(bar.get("width", "")) == pytest.approx(0.9 * mm, abs=2e-3)
    for row in rows:
        assert row.load in drawing.description


@pytest.mark.parametrize("name", NAMES)
def test_a_window_of_one_place_still_shows(name: str) -> None:
    views = views_of(name)
    row = BandRow(3.0, 3.0, "1,000 lb", "9 ft 10 in", "9 ft 10 in")
    drawing = load_bands(views, [BandGroup("Most", (row,))], (1.3, 4.8), "es", "us")
    (bar,) = [one for one in ET.fromstring(drawing.svg).iter() if one.get("fill") == BAR]
    assert float(bar.get("width", "")) >= 0.8
    assert "style=" not in drawing.svg
