"""Small views: each its own drawing from the one table, none the big one shrunk."""

from __future__ import annotations

import math

import pytest

from sendoff.drawings import UnitDrawings
from sendoff.drawings.svg import INK, WHITE
from tests.drawings.reading import UNITS, circles, read, unit

PIXEL_MM = 25.4 / 96


@pytest.mark.parametrize("name", UNITS)
def test_the_list_silhouette_is_90_by_24_px_of_solid_shapes(name: str) -> None:
    made = unit(name)
    drawing = UnitDrawings(made, "en", "us").silhouette()
    assert (drawing.width_mm, drawing.height_mm) == pytest.approx((90 * PIXEL_MM, 24 * PIXEL_MM))
    seen = read(drawing)
    assert {mark.element.get("fill") for mark in seen} == {INK, WHITE}
    assert not [mark for mark in seen if mark.tag == "text"]
    assert len(seen) < 60


@pytest.mark.parametrize("name", UNITS)
def test_tires_of_a_silhouette_are_discs_with_a_white_ring(name: str) -> None:
    made = unit(name)
    drawing = UnitDrawings(made, "en", "us").silhouette()
    white = [mark for mark in read(drawing) if mark.tag == "circle" and mark.element.get("fill") == WHITE]
    black = [mark for mark in read(drawing) if mark.tag == "circle" and mark.element.get("fill") == INK]
    assert len(white) == len(black) >= len(made.geometry.axles.x_m)
    for ring, disc in zip(white, black, strict=True):
        assert ring.points == disc.points
        assert ring.radius - disc.radius == pytest.approx(0.9 * PIXEL_MM, abs=0.002)


def test_all_units_of_a_list_stand_at_one_scale() -> None:
    longest = max(unit(name).geometry.overall_length_m for name in UNITS)
    radii = {}
    for name in ("qb-0111", "qb-0203"):
        drawing = UnitDrawings(unit(name), "en", "us").silhouette(longest)
        tires = unit(name).part("tires")
        assert tires is not None
        black = [mark for mark in read(drawing) if mark.tag == "circle" and mark.element.get("fill") == INK]
        radii[name] = max(mark.radius for mark in black) / (tires.si("outer_diameter") or 1.0)
    assert radii["qb-0111"] == pytest.approx(radii["qb-0203"], rel=0.02)


@pytest.mark.parametrize("name", UNITS)
def test_the_60_mm_view_uses_its_own_pens(name: str) -> None:
    drawing = UnitDrawings(unit(name), "en", "us").small_side()
    widths = {mark.element.get("stroke-width") for mark in read(drawing)} - {None}
    assert widths <= {"0.26", "0.15", "0.12", "0.3"}
    screen = UnitDrawings(unit(name), "en", "us").screen_side
    assert screen.width_mm == pytest.approx(360 * PIXEL_MM)
    assert {mark.element.get("stroke-width") for mark in read(screen)} - {None} <= {
        "0.42",
        "0.24",
        "0.18",
        "0.45",
    }


@pytest.mark.parametrize("name", UNITS)
def test_each_level_of_detail_draws_less_than_the_one_above(name: str) -> None:
    drawings = UnitDrawings(unit(name), "en", "us")
    cover, small, outline = drawings.cover, drawings.small_side(), drawings.silhouette()
    assert len(read(cover)) > len(read(small)) > len(read(outline)) / 2


@pytest.mark.parametrize("name", UNITS)
def test_a_locator_has_one_black_disc_that_covers_nothing_of_the_trailer(name: str) -> None:
    drawings = UnitDrawings(unit(name), "en", "us")
    for number, station in enumerate(unit(name).stations, start=1):
        drawing = drawings.locator(number)
        (disc,) = circles(drawing, 3.0, fill=INK)
        assert station.name["en"] in drawing.description
        corners = [
            point
            for mark in read(drawing)
            if mark.tag == "polygon" and mark.element.get("stroke-width") in {"0.26", "0.15"}
            for point in mark.points
        ]
        assert min(math.dist(disc, corner) for corner in corners) > 2.9, (name, station.id)


def test_what_is_met_on_the_passenger_side_is_seen_from_there() -> None:
    """Then the coupling lies on the right."""
    made = unit("qb-0107")
    drawings = UnitDrawings(made, "en", "us")
    ids = [station.id for station in made.stations]
    left = drawings.locator(ids.index("wheels_left") + 1)
    right = drawings.locator(ids.index("wheels_right") + 1)

    def tires_of(drawing: object) -> list[float]:
        marks = read(drawing)  # type: ignore[arg-type]
        outlines = [m for m in marks if m.tag == "circle" and m.element.get("stroke-width") == "0.26"]
        return [mark.points[0][0] for mark in outlines]

    assert min(tires_of(left)) > 28.0
    assert max(tires_of(right)) < 28.0
