"""The briefing of a unit: what is said, in whose words and units, and what never is."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.briefing.brief import brief
from sendoff.briefing.model import Briefing
from sendoff.briefing.numbers import SECTIONS
from sendoff.briefing.plan import plan, undated
from sendoff.catalogue.load import load
from tests.yards import SmallYard


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


def of(yard: SmallYard, language: str | None = None) -> Briefing:
    catalogue = load(yard.catalogue)
    return brief(as_built(yard.sheet, catalogue), catalogue, language)


def test_placeholders_are_filled_with_this_units_values(yard: SmallYard) -> None:
    fill = next(step for station in of(yard).stations for step in station.steps if step.key == "tires:fill")
    assert fill.text == "Fill to 67\N{NO-BREAK SPACE}psi and screw the cap on."


def test_the_reader_gets_their_own_units_and_language(yard: SmallYard) -> None:
    yard.change(
        "sheets/t-1.toml",
        'options = ["stronger_tires"]',
        'options = ["stronger_tires"]\nreader = { language = "es", units = "metric" }',
    )
    briefing = of(yard)
    fill = next(step for station in briefing.stations for step in station.steps if step.key == "tires:fill")
    assert fill.text == "Infle a 462\N{NO-BREAK SPACE}kPa y ponga el tapón."


def test_a_twin_station_repeats_checks_but_no_lesson(yard: SmallYard) -> None:
    left, right = (
        next(station for station in of(yard).stations if station.id == f"wheels_{side}")
        for side in ("left", "right")
    )
    assert (right.twin, left.twin) == (left.number, None)
    assert left.steps
    assert not right.steps
    assert [check.places for check in left.checks] == [("left 1",)]
    assert [check.places for check in right.checks] == [("right 1",)]


def test_stations_are_numbered_in_the_order_of_the_lap(yard: SmallYard) -> None:
    briefing = of(yard)
    assert [station.number for station in briefing.stations] == [1, 2, 3, 4]
    assert [station.id for station in briefing.stations] == [
        "coupling",
        "wheels_left",
        "deck",
        "wheels_right",
    ]
    yard.change("yard.toml", 'walk = "left_side_first"', 'walk = "right_side_first"')
    assert [station.id for station in of(yard).stations] == [
        "coupling",
        "wheels_right",
        "deck",
        "wheels_left",
    ]


def test_the_walk_goes_by_state_then_by_place(yard: SmallYard) -> None:
    legs = of(yard).legs
    assert [leg.state for leg in legs] == ["bare", "coupled", "loaded"]
    assert [visit.station for visit in legs[0].visits] == [2, 4]


def test_blocks_of_the_numbers_sheet_keep_pressure_and_torque_apart() -> None:
    places = {section: position for position, section in enumerate(SECTIONS)}
    assert abs(places["pressure"] - places["torque"]) > 1


def test_questions_have_one_right_answer_and_named_mistakes(yard: SmallYard) -> None:
    questions = of(yard).questions
    assert 1 <= len(questions) <= 12
    for question in questions:
        assert len(set(question.answers)) == len(question.answers) >= 2
        assert [not mistake for mistake in question.mistakes].count(True) == 1
        assert question.mistakes[question.right] == ""
    pressure = next(question for question in questions if question.key == "tires:which_pressure")
    assert pressure.answers[pressure.right] == "67 psi"
    assert "52 psi" in pressure.answers, "the other option's pressure is the mistake"


def test_what_can_hurt_most_is_asked_first(yard: SmallYard) -> None:
    rank = ["danger", "warning", "caution", "notice"]
    hurts = [rank.index(question.hurts) for question in of(yard).questions]
    assert hurts == sorted(hurts)


def test_there_are_ten_sentences_in_both_languages(yard: SmallYard) -> None:
    assert len(of(yard, "en").sentences) == len(of(yard, "es").sentences) == 10


def test_the_plan_expects_each_upkeep_by_its_first_meter(yard: SmallYard) -> None:
    yard.change(
        "catalogue/cards/deck/my_floor.toml",
        "every = { months = 12 }",
        "every = { months = 12, miles = 4000 }",
    )
    catalogue = load(yard.catalogue)
    unit = as_built(yard.sheet, catalogue)
    lines = brief(unit, catalogue).upkeep
    oil = [due for due in plan(unit, lines) if due.line.key == "floor:oil"]
    # 800 miles a month: 4,000 miles are five months of 30.44 days after 20 November 2026
    assert oil[0].due_on == datetime.date(2027, 4, 21)
    assert (oil[0].by, oil[1].due_on) == ("distance", datetime.date(2027, 9, 20))
    grease = [due.due_on for due in plan(unit, lines) if due.line.key == "coupler:grease"]
    assert grease[:2] == [datetime.date(2027, 2, 20), datetime.date(2027, 5, 20)]
    assert [line.key for line in undated(unit, lines)] == ["tires:look_over"]
