"""Decks, strips and ways to set them up: what the lint refuses, each with the field and the cure."""

from __future__ import annotations

from typing import Any

import pytest

from sendoff.asbuilt.decks import frame_stiffness_Nm2
from sendoff.catalogue.decks import Rails
from sendoff.catalogue.lint import decks
from sendoff.catalogue.loading import read_record
from tests.catalogue.test_geometry import TILT, changed

HINGE = {"id": "hinge", "name": {"en": "Hinge", "es": "Bisagra"}, "x0": "90 in", "x1": "94 in"}
LIFT = {"id": "lift", "x0": "88 in", "x1": "280 in", "width": "102 in", "height": "90 in"}
UP = {"id": "up", "name": {"en": "Lift deck up", "es": "Plataforma arriba"}}

FAULTY: list[tuple[list[tuple[str, object]], str]] = [
    ([("frame.deck.1.id", "deck")], "two of one type have this deck id"),
    ([("frame.deck.1.slot", "infill")], "frame.deck[2].slot: the type has no such slot (found infill)"),
    ([("frame.deck.0.floor", "planks")], "frame.deck[1].floor: the type has no such slot"),
    ([("frame.deck.0.slot", "floor"), ("frame.deck.1.slot", "floor")], "without any deck"),
    ([("frame.deck.0.strip", [HINGE | {"x0": "80 in"}])], "the strip does not lie on its deck"),
    ([("frame.deck.0.strip", [HINGE]), ("frame.deck.1.strip", [HINGE])], "two of one type have this strip id"),
    ([("frame.deck.0.lane_inner", "102 in")], "the wheel ways have no width"),
    ([("frame.way", [UP, UP])], "two of one type have this way id"),
    ([("frame.way", [UP | {"headroom": {"main": "60 in"}}])], "there is no such deck (found main)"),
    ([("frame.way", [UP | {"after": {"deck": ["lift"]}}])], "there is no such deck (found lift)"),
    ([("frame.way", [UP | {"takes_away": ["deck", "tail"]}])], "no deck is left in this way"),
    ([("frame.way", [UP | {"deck": [LIFT | {"x1": "80 in"}]}])], "frame.way[1].deck[1].x1: the deck ends before"),
    ([("frame.rails", {"height": "12 in", "flange_width": "4 in", "flange": "6 in", "web": "0.2 in"})], "no I-beam"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "problem"), FAULTY, ids=[problem for _, problem in FAULTY])
def test_a_deck_that_cannot_be_is_refused(changes: list[tuple[str, Any]], problem: str) -> None:
    assert problem in "\n".join(map(str, decks.faults(changed(TILT, *changes))))


def test_a_lift_deck_with_its_way_and_a_strip_has_no_fault() -> None:
    way = UP | {"deck": [LIFT], "headroom": {"deck": "55 in"}, "after": {"lift": ["deck"]}, "effort": 1}
    assert decks.faults(changed(TILT, ("frame.way", [way]), ("frame.deck.0.strip", [HINGE]))) == []


def test_two_i_beams_bend_as_the_handbook_says() -> None:
    """W10x22 (AISC Manual, table 1-1, from memory: d 10.2 in, bf 5.75 in, tf 0.36 in, tw 0.24 in, Ix 118 in4).

    The handbook's figure has the fillets between web and flange in it, so it lies a few percent above the plates.
    """
    section = {"height": "10.2 in", "flange_width": "5.75 in", "flange": "0.36 in", "web": "0.24 in"}
    stiffness = frame_stiffness_Nm2(read_record(section, Rails, "a section"))
    assert stiffness == pytest.approx(2 * 200e9 * 118 * 0.0254**4, rel=0.03)
