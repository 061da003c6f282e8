"""Nut order, plug face, one-line diagram, tie-down points, margin bars: each against its source or its unit."""

from __future__ import annotations

import itertools
import math
import re

import msgspec
import pytest

from sendoff import tables
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.drawings import UnitDrawings, margin_bar
from sendoff.drawings.one_line import one_line
from sendoff.drawings.plug_face import plug_face, terminals
from sendoff.drawings.svg import BAR, INK, MID
from sendoff.drawings.wheel_nuts import order_of, wheel_nuts
from tests.drawings.reading import UNITS, circles, read, said, texts, unit


def with_value(made: AsBuiltUnit, slot: str, name: str, number: float) -> AsBuiltUnit:
    """Return a unit with one number of one part changed."""
    parts = tuple(
        msgspec.structs.replace(
            part,
            values=part.values
            | {name: msgspec.structs.replace(part.values[name], si=number, given=f"{number:g}")},
        )
        if part.slot == slot
        else part
        for part in made.parts
    )
    return msgspec.structs.replace(made, parts=parts)


def without(made: AsBuiltUnit, *slots: str) -> AsBuiltUnit:
    return msgspec.structs.replace(made, parts=tuple(part for part in made.parts if part.slot not in slots))


# ── wheel nuts ──────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("count", [4, 5, 6, 8, 10])
def test_nuts_are_numbered_round_the_wheel_and_each_step_goes_across(count: int) -> None:
    """A permutation whose steps are at least two studs apart; true of any cross or star order (common practice)."""
    made = with_value(unit("qb-0107"), "wheels", "stud_count", count)
    order = order_of(made)
    assert order is not None
    assert sorted(order) == list(range(1, count + 1))
    drawing = wheel_nuts(made, "en")
    assert drawing is not None
    nuts = {int(said(seen)): seen.points[0] for seen in texts(drawing)}
    assert sorted(nuts) == list(range(1, count + 1))
    middle = (40.0, 40.0)

    def stud(spot: tuple[float, float]) -> int:
        angle = math.atan2(spot[0] - middle[0], middle[1] - (spot[1] - 1.75)) % (2 * math.pi)
        return round(angle / (2 * math.pi / count)) % count

    walked = [stud(nuts[number]) for number in range(1, count + 1)]
    for one, other in itertools.pairwise(walked):
        apart = min((one - other) % count, (other - one) % count)
        assert apart >= (2 if count >= 5 else 1)
    assert walked[0] == 0


def test_the_eight_nuts_read_clockwise_as_printed_in_the_description() -> None:
    drawing = wheel_nuts(unit("qb-0107"), "en")
    assert drawing is not None
    assert "1, 5, 3, 7, 2, 6, 4, 8" in drawing.description


def test_a_wheel_whose_order_no_table_gives_has_no_drawing() -> None:
    assert wheel_nuts(with_value(unit("qb-0107"), "wheels", "stud_count", 7), "en") is None


# ── plug ────────────────────────────────────────────────────────────────────────────────────────────────────────────

CLOCK = {"tail": 1, "left": 3, "ground": 5, "brake": 7, "right": 9, "charge": 11}
"""Trailer plug, looking into it, key up: rverscorner.com, "Dummy's guide to RV wiring" (ground 5, brakes 7, left 3,
right 9, running 2, power 10 o'clock; read). A second reference has the mirror image on the truck's socket, with 11 and
1 where the first has 10 and 2 there."""


def test_blades_lie_where_two_references_say() -> None:
    made = unit("qb-0107")
    drawing = plug_face(made, "en")
    assert drawing is not None
    numbers = {int(said(seen)): seen.points[0] for seen in texts(drawing) if said(seen).isdigit()}
    for terminal in terminals(made, "en"):
        x, y = numbers[terminal.number]
        if terminal.function == "auxiliary":
            assert abs(x - 40.0) < 0.1
            continue
        hour = math.degrees(math.atan2(x - 40.0, 40.0 - (y - 1.75))) % 360 / 30
        assert round(hour) == CLOCK[terminal.function]


def test_gauges_come_from_the_table_of_terminals() -> None:
    """10 AWG ground and charge, 12 brakes, 14 the rest (two agreeing wiring references, read)."""
    gauges = {terminal.function: terminal.awg for terminal in terminals(unit("qb-0107"), "en")}
    assert gauges == {
        "ground": 10, "brake": 12, "tail": 14, "charge": 10, "left": 14, "right": 14, "auxiliary": 14,
    }  # fmt: skip


def test_the_flat_plug_covers_its_ground_alone() -> None:
    made = unit("qb-0203")
    assert [terminal.function for terminal in terminals(made, "en")] == ["ground", "tail", "left", "right"]
    drawing = plug_face(made, "en")
    assert drawing is not None
    bare = circles(drawing, 3.3, fill=INK)
    covered = circles(drawing, 3.3, fill="#ffffff")
    assert (len(bare), len(covered)) == (3, 1)
    assert covered[0][0] < min(x for x, _ in bare)


def test_every_face_has_all_terminals_of_its_standard() -> None:
    for plug, standard in (("blade_7", "blade_7_trailer_harness"), ("flat_4", "flat_4")):
        faces = {row["function"] for row in tables.load("plug_faces").where(plug=plug)}
        wires = {row["function"] for row in tables.load("plug_terminals").where(standard=standard)}
        assert faces == wires


# ── one line ────────────────────────────────────────────────────────────────────────────────────────────────────────


def words_of(made: AsBuiltUnit, language: str = "en") -> str:
    drawing = one_line(made, language, "us")
    assert drawing is not None
    return " | ".join(said(seen) for seen in texts(drawing))


def test_everything_electric_that_is_fitted_is_in_the_diagram() -> None:
    words = words_of(unit("qb-0107"))
    for name in (
        "Deck winch",
        "Hydraulic pump",
        "Battery charger",
        "Deep-cycle battery",
        "Breakaway battery",
    ):
        assert name in words
    assert "380 A at full pull" in words
    assert "400 A" in words
    assert "Brake magnets: 4" in words


@pytest.mark.parametrize(
    ("gone", "word"),
    [
        (("winch",), "winch"),
        (("charger", "shore_inlet"), "charger"),
        (("pump",), "pump"),
        (("brakes", "breakaway"), "magnets"),
        (("breakaway",), "Breakaway"),
        (("lamps",), "lamps"),
        (("charge_lead",), "charge"),
    ],
)
def test_what_is_not_fitted_is_not_in_it(gone: tuple[str, ...], word: str) -> None:
    made = unit("qb-0107")
    assert word.lower() in words_of(made).lower()
    left = (
        words_of(without(made, *gone))
        .lower()
        .replace("battery charger", "" if word == "charge" else "battery charger")
    )
    left = left.replace("keeps it charged", "")
    assert word.lower() not in left


def test_lines_are_thick_exactly_where_more_than_100_A_flow() -> None:
    def thick(made: AsBuiltUnit) -> int:
        drawing = one_line(made, "en", "us")
        assert drawing is not None
        return sum(
            seen.tag == "polyline" and seen.element.get("stroke-width") == "1.1" for seen in read(drawing)
        )

    made = unit("qb-0111")
    assert thick(made) > 0
    assert thick(with_value(made, "pump", "motor_current", 100.0)) == 0
    assert thick(with_value(made, "pump", "motor_current", 100.5)) > 0
    assert thick(unit("qb-0203")) == 0


def test_a_magnet_for_every_braked_wheel() -> None:
    drawing = one_line(unit("qb-0107"), "en", "us")
    assert drawing is not None
    assert len(circles(drawing, 2.5)) == 4


def test_a_unit_without_anything_electric_has_no_diagram() -> None:
    assert one_line(without(unit("qb-0203"), "plug", "lamps"), "en", "us") is None


# ── tie-down points ─────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", UNITS)
def test_one_dot_for_every_tie_down_point_and_its_limit_beside(name: str) -> None:
    made = unit(name)
    part = made.part("tie_downs")
    drawing = UnitDrawings(made, "en", "us").tie_downs
    if part is None:  # nothing is tied down in it
        assert drawing is None
        return
    assert drawing is not None
    dots = circles(drawing, 1.3, fill=INK)
    assert len(dots) == len(part.places) + 1  # and the one of the legend
    limit = part.values["working_load_limit"].given
    assert any(f"{len(part.places)} × {limit}" in said(seen) for seen in texts(drawing))


def test_chain_dimensions_add_up() -> None:
    """The links from the deck's front to the last ring sum to the distance itself: 274 - 88 = 186 in = 15 ft 6 in."""
    drawing = UnitDrawings(unit("qb-0107"), "en", "us").tie_downs
    assert drawing is not None
    links = [
        int(found[1]) * 12 + int(found[2]) + (0.5 if found[3] else 0.0)
        for seen in texts(drawing)
        if "rotate" not in seen.element.get("transform", "")
        and (found := re.fullmatch(r"(\d+) ft (\d+)(½?) in", said(seen)))
    ]
    assert len(links) == 5
    assert sum(links) == 186


# ── margin bars ─────────────────────────────────────────────────────────────────────────────────────────────────────


def filled(drawing: object, color: str) -> float:
    rects = [s for s in read(drawing) if s.tag == "rect" and s.element.get("fill") == color]  # type: ignore[arg-type]
    return max((float(seen.element.get("width", "0")) for seen in rects), default=0.0)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.85, 0.999])
def test_a_bar_is_as_long_as_its_share(share: float) -> None:
    drawing = margin_bar("within", "en", demand=share * 4000, most=4000)
    assert filled(drawing, BAR) == pytest.approx(50 * share, abs=0.002)


@pytest.mark.parametrize("share", [1.0001, 1.01, 1.05, 3.0])
def test_what_is_over_always_stands_clearly_past_the_tick(share: float) -> None:
    drawing = margin_bar("over", "en", demand=share, most=1.0)
    assert 53.2 - 0.002 <= filled(drawing, INK) <= 63.3
    assert "OVER" in drawing.description


def test_tight_is_hatched_and_no_other_bar_is() -> None:
    def hatches(drawing: object) -> int:
        return sum(seen.tag == "path" for seen in read(drawing))  # type: ignore[arg-type]

    assert hatches(margin_bar("tight", "en", demand=0.97, most=1.0)) == 1
    assert hatches(margin_bar("within", "en", demand=0.8, most=1.0)) == 0
    assert hatches(margin_bar("over", "en", demand=1.2, most=1.0)) == 0
    assert hatches(margin_bar("unknown", "en", most=1.0)) == 0


def test_unknown_is_dashed_with_a_question_mark() -> None:
    drawing = margin_bar("unknown", "es", most=1.0)
    assert [said(seen) for seen in texts(drawing)] == ["?"]
    assert any(seen.element.get("stroke-dasharray") for seen in read(drawing))
    assert "NO SE SABE" in drawing.description


def test_what_fits_or_does_not_has_no_question_mark_and_no_made_up_length() -> None:
    fits, fails = margin_bar("within", "en"), margin_bar("over", "en")
    assert not texts(fits)
    assert filled(fits, BAR) == 0.0
    assert filled(fails, INK) >= 53.2 - 0.002


@pytest.mark.parametrize(
    ("demand", "where"), [(0.20, 21.0), (0.225, 31.5), (0.25, 42.0), (0.9, 62.2), (0.0, 1.8)]
)
def test_the_pointer_of_a_window_stands_to_scale_and_stays_on_the_line(demand: float, where: float) -> None:
    drawing = margin_bar("within", "en", demand=demand, least=0.20, most=0.25)
    pointer = next(seen for seen in read(drawing) if seen.tag == "polygon")
    assert sum(x for x, _ in pointer.points) / 3 == pytest.approx(where, abs=0.01)
    assert filled(drawing, MID) == pytest.approx(21.0)


def test_a_bar_of_at_least_reaches_past_its_tick_when_there_is_enough() -> None:
    enough = margin_bar("within", "en", demand=26400, least=24900)
    short = margin_bar("over", "en", demand=20000, least=24900)
    assert filled(enough, BAR) == pytest.approx(50.0)
    assert filled(short, INK) == pytest.approx(50 * 20000 / 24900, abs=0.002)
