"""The walk: stations in order, a least gap apart, near what they are about; leaders that cross nothing."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.drawings import UnitDrawings
from sendoff.drawings.svg import INK, VIOLET
from sendoff.drawings.walk import GAP_MM, RING_MM, Lap, choose_targets, clash, spread
from tests.drawings.reading import UNITS, Point, circles, lines, read, said, texts, unit

LEADER = {"stroke": INK, "stroke_width": "0.18"}
RING = {"stroke_width": "0.35", "fill": "#ffffff"}


def walk_of(name: str, language: str = "en") -> tuple[list[Point], list[tuple[Point, Point]], list[Point]]:
    """Return rings in the order of their figures, their leaders, and the dots, read back from the sheet."""
    sheet = UnitDrawings(unit(name), language, "us").sheet
    rings = []
    for number in range(1, len(unit(name).stations) + 1):
        spots = [seen.points[0] for seen in texts(sheet) if said(seen) == str(number)]
        rings += [
            ring
            for ring in circles(sheet, RING_MM, **RING)
            if any(abs(ring[0] - x) < 0.5 and abs(ring[1] - y) < 2.0 for x, y in spots)
        ]
    dots = circles(sheet, 0.55, fill=INK)
    leaders = [
        (start, end)
        for start, end in lines(sheet, **LEADER)
        if any(math.dist(start, ring) < 0.01 for ring in rings)
    ]
    return rings, leaders, dots


@pytest.mark.parametrize("name", UNITS)
def test_every_station_has_its_ring_its_leader_and_its_dot(name: str) -> None:
    stations = len(unit(name).stations)
    sheet = UnitDrawings(unit(name), "en", "us").sheet
    assert len(circles(sheet, RING_MM, **RING)) == stations
    _, leaders, dots = walk_of(name)
    assert len(leaders) == stations
    assert all(any(math.dist(end, dot) < 0.01 for dot in dots) for _, end in leaders)


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("language", ["en", "es"])
def test_rings_never_overlap_and_keep_their_gap_along_the_walk(name: str, language: str) -> None:
    """15 mm along the path; round a corner of 8 mm radius the straight distance is at least 11."""
    sheet = UnitDrawings(unit(name), language, "us").sheet
    rings = circles(sheet, RING_MM, **RING)
    nearest = min(math.dist(one, other) for one, other in itertools.combinations(rings, 2))
    assert nearest > 11.0 > 2 * RING_MM


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("drawing", ["sheet", "walk_map"])
def test_leaders_cross_neither_each_other_nor_a_station(name: str, drawing: str) -> None:
    made = getattr(UnitDrawings(unit(name), "en", "us"), drawing)
    rings = circles(made, RING_MM, **RING)
    leaders = [
        (start, end)
        for start, end in lines(made, **LEADER)
        if any(math.dist(start, ring) < 0.01 for ring in rings)
    ]
    assert len(leaders) == len(unit(name).stations)
    for one, other in itertools.combinations(leaders, 2):
        assert not clash(one, other)


@pytest.mark.parametrize("name", UNITS)
def test_stations_stand_in_the_order_of_the_lap(name: str) -> None:
    """From the coupling down the driver's side (the bottom), up the rear, home along the top."""
    rings = walk_of(name)[0]
    assert len(rings) == len(unit(name).stations)
    left, right = min(x for x, _ in rings), max(x for x, _ in rings)
    top, bottom = min(y for _, y in rings), max(y for _, y in rings)
    middle = (top + bottom) / 2
    sides = [station.side for station in unit(name).stations]
    on_left = [ring for ring, side in zip(rings, sides, strict=True) if side == "left"]
    on_right = [ring for ring, side in zip(rings, sides, strict=True) if side == "right"]
    assert all(y > middle for _, y in on_left)
    assert all(y < middle for _, y in on_right)
    assert [x for x, _ in on_left] == sorted(x for x, _ in on_left)
    assert [x for x, _ in on_right] == sorted((x for x, _ in on_right), reverse=True)
    assert rings[0][0] == pytest.approx(left)
    assert right > left


@pytest.mark.parametrize("name", UNITS)
def test_the_path_is_violet_and_dashed_so_that_a_copier_loses_nothing(name: str) -> None:
    sheet = UnitDrawings(unit(name), "en", "us").sheet
    violet = [seen for seen in read(sheet) if seen.element.get("stroke") == VIOLET]
    assert len(violet) == 1
    assert violet[0].element.get("stroke-dasharray")
    arrows = [seen for seen in read(sheet) if seen.element.get("fill") == VIOLET]
    assert len(arrows) >= 3


def test_nothing_but_the_walk_has_a_color() -> None:
    gray = {"none", "#17181a", "#5b5d60", "#e9e8e4", "#c9c8c3", "#8b8d90", "#ffffff", None}
    for name in UNITS:
        for file, drawing in UnitDrawings(unit(name), "en", "us").files().items():
            colors = {seen.element.get(key) for seen in read(drawing) for key in ("stroke", "fill")}
            assert colors - gray <= ({VIOLET} if file in {"sheet.svg", "walk.svg"} else set()), file


LAPS = st.builds(
    lambda wide, tall, first: Lap(10.0, 10.0, 10.0 + wide, 10.0 + tall, first),
    st.floats(60, 300),
    st.floats(40, 120),
    st.sampled_from(["left", "right"]),
)


@given(LAPS, st.floats(0, 1), st.floats(0, 1))
def test_a_lap_is_walked_at_its_own_pace(lap: Lap, one: float, other: float) -> None:
    """Two spots are never farther apart than the way between them, and every spot lies on the rectangle."""
    a, b = one * lap.length, other * lap.length
    (p, _), (q, _) = lap.at(a), lap.at(b)
    assert math.dist(p, q) <= abs(a - b) + 1e-6
    for x, y in (p, q):
        assert lap.left - 1e-9 <= x <= lap.right + 1e-9
        assert lap.top - 1e-9 <= y <= lap.bottom + 1e-9
    toward = lap.at(a)[1]
    assert math.hypot(*toward) == pytest.approx(1.0)


@given(LAPS)
def test_a_lap_is_as_long_as_its_sides_and_corners(lap: Lap) -> None:
    by_hand = (
        2 * (lap.right - lap.left) + 2 * (lap.bottom - lap.top) - 8 * lap.corner + 2 * math.pi * lap.corner
    )
    assert lap.length == pytest.approx(by_hand)
    start, end = lap.at(0.0)[0], lap.at(lap.length - 1e-9)[0]
    assert math.dist(start, end) < 1e-6


WISHES = st.lists(st.floats(0, 600), min_size=1, max_size=20)


@given(WISHES)
def test_spread_keeps_order_gap_and_bounds(wishes: list[float]) -> None:
    wishes = sorted(wishes)
    places = spread(wishes, GAP_MM, 0.0, 600.0)
    assert all(b - a >= GAP_MM - 1e-6 for a, b in itertools.pairwise(places))
    assert min(places) >= -1e-9
    assert max(places) <= 600.0 + 1e-6


@given(st.lists(st.floats(0, 100), min_size=1, max_size=5), st.integers(0, 10_000))
def test_no_other_placing_is_nearer_to_the_wishes(wishes: list[float], seed: int) -> None:
    """Against a hundred other placings that keep the gap: the least sum of squares is never beaten."""
    wishes = sorted(wishes)
    places = spread(wishes, 8.0, 0.0, 140.0)
    best = sum((place - wish) ** 2 for place, wish in zip(places, wishes, strict=True))
    for turn in range(100):
        shifts = [math.sin(seed + 7 * turn + 3 * number) * 6 for number in range(len(wishes))]
        other = [place + shift for place, shift in zip(places, shifts, strict=True)]
        if all(b - a >= 8.0 for a, b in itertools.pairwise(other)) and other[0] >= 0 and other[-1] <= 140:
            cost = sum((place - wish) ** 2 for place, wish in zip(other, wishes, strict=True))
            assert cost >= best - 1e-6


def test_spots_too_many_for_the_gap_are_spread_evenly() -> None:
    assert spread([5.0, 5.0, 5.0], 100.0, 0.0, 10.0) == pytest.approx([0.0, 5.0, 10.0])


@given(st.lists(st.lists(st.tuples(st.floats(0, 200), st.floats(0, 60)), min_size=1, max_size=3), max_size=8))
def test_chosen_targets_never_clash_unless_they_are_stubs(spots: list[list[Point]]) -> None:
    rings = [(20.0 * number, 80.0) for number in range(len(spots))]
    stubs = [(x, y - 7.0) for x, y in rings]
    chosen = choose_targets(rings, spots, stubs)
    leaders = list(zip(rings, chosen, strict=True))
    for one, other in itertools.combinations(leaders, 2):
        assert not clash(one, other)
    for target, own, stub in zip(chosen, spots, stubs, strict=True):
        assert target in own or target == stub
