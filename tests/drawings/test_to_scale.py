"""A drawing is to scale: known lengths of the type measure right in the SVG."""

from __future__ import annotations

import itertools

import pytest

from sendoff.drawings import UnitDrawings
from sendoff.drawings.views import Views
from tests.drawings.reading import INCH_M, UNITS, circles, read, said, scale_of, texts, unit


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_tires_on_sheet_and_cover_have_their_true_diameter_and_spacing(name: str, system: str) -> None:
    made = unit(name)
    drawings = UnitDrawings(made, "en", system)  # type: ignore[arg-type]
    tires = made.part("tires")
    assert tires is not None
    across = tires.si("outer_diameter") or 0.0
    for drawing in (drawings.sheet, drawings.cover):
        mm = scale_of(drawing)
        found = circles(drawing, across / 2 * mm, stroke_width="0.5", fill="#ffffff")
        on_ground = max(y for _, y in found)
        axles = sorted(x for x, y in found if abs(y - on_ground) < 0.01)
        assert len(axles) == len(made.geometry.axles.x_m)
        for (one, other), (first, second) in zip(
            itertools.pairwise(axles), itertools.pairwise(made.geometry.axles.x_m), strict=True
        ):
            assert other - one == pytest.approx((second - first) * mm, abs=0.002)


def test_the_gooseneck_measures_410_inches_on_its_sheet() -> None:
    """By hand: 410 in over all at 1:48 are 410 * 25.4 / 48 = 216.96 mm; 102 in wide are 53.98 mm."""
    drawing = UnitDrawings(unit("qb-0107"), "en", "us").sheet
    assert drawing.scale == "1:48"
    deck = next(
        seen
        for seen in read(drawing)
        if seen.tag == "polygon"
        and len(seen.points) == 4
        and abs(max(y for _, y in seen.points) - min(y for _, y in seen.points) - 53.975) < 0.01
    )
    assert max(x for x, _ in deck.points) - min(x for x, _ in deck.points) == pytest.approx(
        192 * 25.4 / 48, abs=0.01
    )
    words = [said(seen) for seen in texts(drawing)]
    assert "34 ft 2 in" in words  # 410 in
    assert "8 ft 6 in" in words  # 102 in


@pytest.mark.parametrize("name", UNITS)
def test_plan_and_side_stand_at_the_same_x(name: str) -> None:
    """The coupling and the rear lie under each other: the witness lines of both views share their x."""
    made = unit(name)
    drawing = UnitDrawings(made, "en", "us").sheet
    mm = scale_of(drawing)
    views = Views(made)
    polygons = [seen for seen in read(drawing) if seen.tag == "polygon" and len(seen.points) > 2]
    rears = [max(x for x, _ in seen.points) for seen in polygons if seen.element.get("stroke-width") == "0.5"]
    fronts = [
        min(x for x, _ in seen.points) for seen in polygons if seen.element.get("stroke-width") == "0.5"
    ]
    long = (views.rear_m - made.geometry.front_x_m) * mm
    assert max(rears) - min(fronts) == pytest.approx(long, abs=1.0)
    assert sum(abs(rear - max(rears)) < 0.3 for rear in rears) >= 2


@pytest.mark.parametrize("name", UNITS)
def test_no_tire_floats_and_none_sinks(name: str) -> None:
    made = unit(name)
    drawing = UnitDrawings(made, "en", "us").cover
    mm = scale_of(drawing)
    tires = made.part("tires")
    assert tires is not None
    radius = (tires.si("outer_diameter") or 0) / 2 * mm
    ground = next(seen for seen in read(drawing) if seen.element.get("stroke-width") == "0.7")
    level = ground.points[0][1] - 0.35
    lowest = max(y for _, y in circles(drawing, radius, stroke_width="0.5"))
    assert lowest + radius == pytest.approx(level, abs=0.01)


def test_a_lowered_tail_is_drawn_down_to_the_ground() -> None:
    made = unit("qb-0107")
    ghosts = [mark for mark in Views(made).side if mark.line == "ghost"]
    assert min(mark.spread()[2] for mark in ghosts) == pytest.approx(0.1 * INCH_M, abs=0.1 * INCH_M)


def test_what_an_option_leaves_out_is_not_drawn() -> None:
    """Without its ramp gate the trailer is not drawn with one, upright or lowered."""
    with_gate, without = unit("qb-0203"), unit("qb-0207")
    assert with_gate.part("gate") is not None
    assert without.part("gate") is None
    assert max(mark.spread()[3] for mark in Views(with_gate).side) > 60 * INCH_M
    assert max(mark.spread()[3] for mark in Views(without).side) < 50 * INCH_M
    assert not [mark for mark in Views(without).side if mark.line == "ghost"]


def test_the_winch_is_drawn_only_where_it_is_fitted() -> None:
    with_winch, without = Views(unit("qb-0107")), Views(unit("qb-0111"))
    assert any(mark.slot == "winch" for mark in with_winch.plan)
    assert not any(mark.slot == "winch" for mark in without.plan)
