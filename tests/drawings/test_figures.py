"""The figure of a station: its own parts, each with its letter, none on another."""

from __future__ import annotations

import itertools
import math

import pytest

from sendoff.drawings import UnitDrawings
from sendoff.drawings.figures import LETTER_MM
from sendoff.drawings.walk import clash
from tests.drawings.reading import UNITS, circles, lines, said, texts, unit


def figures_of(name: str) -> list[tuple[int, object]]:
    drawings = UnitDrawings(unit(name), "en", "us")
    return [(n, drawings.station_figure(n)) for n in range(1, len(unit(name).stations) + 1)]


@pytest.mark.parametrize("name", UNITS)
def test_every_part_of_a_station_has_its_letter(name: str) -> None:
    for number, drawing in figures_of(name):
        slots = unit(name).stations[number - 1].slots
        letters = [said(seen) for seen in texts(drawing)]  # type: ignore[arg-type]
        assert sorted(letters) == [chr(ord("a") + place) for place in range(len(slots))]


@pytest.mark.parametrize("name", UNITS)
def test_letters_lie_apart_and_their_leaders_do_not_cross(name: str) -> None:
    for number, drawing in figures_of(name):
        rings = circles(drawing, LETTER_MM, stroke_width="0.25")  # type: ignore[arg-type]
        for one, other in itertools.combinations(rings, 2):
            assert math.dist(one, other) >= 2 * LETTER_MM, (name, number)
        leaders = [
            (start, end)
            for start, end in lines(drawing, stroke_width="0.18")  # type: ignore[arg-type]
            if any(math.dist(start, ring) < 0.01 for ring in rings)
        ]
        assert len(leaders) == len(rings)
        for leader, another in itertools.combinations(leaders, 2):
            assert not clash(leader, another, LETTER_MM), (name, number)


@pytest.mark.parametrize("name", UNITS)
def test_figures_fit_the_column_of_a_station_page(name: str) -> None:
    for _, drawing in figures_of(name):
        assert drawing.width_mm == 56.0  # type: ignore[attr-defined]
        assert 5.0 < drawing.height_mm <= 50.0  # type: ignore[attr-defined]


def test_letters_can_be_given_and_the_key_names_the_parts() -> None:
    made = unit("qb-0107")
    number = next(n for n, station in enumerate(made.stations, start=1) if station.id == "wheels_left")
    slots = made.stations[number - 1].slots
    letters = dict(zip(slots, "wxyz", strict=True))
    drawing = UnitDrawings(made, "es", "us").station_figure(number, letters, key=True)
    words = [said(seen) for seen in texts(drawing)]
    assert set("wxyz") <= set(words)
    for slot in slots:
        part = made.part(slot)
        assert part is not None
        assert part.name["es"] in words
        assert part.name["es"] in drawing.description
