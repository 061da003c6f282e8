"""The geometry of a type held against itself: what cannot be where it is said to be is refused.

Each planted fault is a mistake people make with a tape measure in hand; the demo types and the starter have none.
"""

from __future__ import annotations

import copy
import dataclasses
import functools
import math
from pathlib import Path
from typing import Any

import pytest

from sendoff.catalogue import geometry, reach
from sendoff.catalogue.bodies import bodies_in
from sendoff.catalogue.load import Catalogue, load
from sendoff.catalogue.loading import read_record
from sendoff.catalogue.outlines import outline
from sendoff.catalogue.schema import TrailerType
from sendoff.catalogue.starter import STARTER

QUILLBACK = Path(__file__).resolve().parents[2] / "examples" / "quillback" / "catalogue"
TILT, UTILITY, DUMP = "tilt_gooseneck", "utility_single", "dump_bumper"


@functools.cache
def quillback() -> Catalogue:
    return load(QUILLBACK)


def changed(type_id: str, *changes: tuple[str, object]) -> Catalogue:
    """Return the demo catalogue with single values of a type's file changed, named by their dotted path."""
    catalogue = quillback()
    tables: dict[str, Any] = copy.deepcopy(dict(catalogue.raw[f"trailers/{type_id}.toml"]))
    for path, value in changes:
        *way, last = [int(step) if step.isdigit() else step for step in path.split(".")]
        holder: Any = tables
        for step in way:
            holder = holder[step]
        holder[last] = value
    record = read_record(tables, TrailerType, f"{type_id}.toml")
    return dataclasses.replace(catalogue, types={type_id: record})


def told(catalogue: Catalogue) -> str:
    return "\n".join(map(str, geometry.faults(catalogue)))


@pytest.mark.parametrize("folder", [QUILLBACK, STARTER / "catalogue"], ids=["quillback", "starter"])
def test_a_catalogue_of_ours_has_nothing_where_it_cannot_be(folder: Path) -> None:
    assert told(load(folder)) == ""


def index_of(type_id: str, table: str, name: str) -> int:
    rows = quillback().raw[f"trailers/{type_id}.toml"]["frame"][table]
    return next(number for number, row in enumerate(rows) if row["id"] == name)


PLANTED = [
    # wheels
    (TILT, [("slots.tires.places.z", "20 in")], "does not stand on the ground"),
    (TILT, [("frame.deck.0.height", "29 in")], "would run into deck 'deck'"),
    (TILT, [("frame.axles.x", ["228 in", "255 in"])], "would touch each other"),
    (TILT, [("frame.axles.x", ["228 in", "500 in"])], "does not stand under the trailer"),
    (TILT, [("frame.axles.x", ["262 in", "228 in"])], "front to rear"),
    (TILT, [("frame.axles.dual_spacing", "9 in")], "would rub"),
    (TILT, [("frame.axles.track", "85 in")], "reaches out of the width over all"),
    (TILT, [("frame.axles.braked", [True])], "there are 2 axles"),
    (UTILITY, [("frame.axles.track", "84 in")], "would run into deck 'deck'"),
    # tie-down points, the trap of a strap point off the tail
    (TILT, [("slots.tie_downs.places.4.x", "404 in")], "the tie-down point lies on no deck"),
    (TILT, [("slots.tie_downs.places.0.z", "24 in")], "the tie-down point lies on no deck"),
    (UTILITY, [("slots.tie_downs.places.1.y", "-44 in")], "the tie-down point lies on no deck"),
    # boxes
    (TILT, [("slots.side_box.places.0.x", "225 in")], "where tire"),
    (TILT, [("slots.side_box.places.0.z", "22 in")], "stick through deck 'deck'"),
    (TILT, [("slots.side_box.places.0.y", "46 in")], "reaches out of the width over all"),
    (TILT, [("slots.winch.places.0.z", "30 in")], "stick through deck 'deck'"),
    (TILT, [("slots.spare.places.0.x", "-10 in")], "reaches out of the length over all"),
    # jack, coupler, label
    (TILT, [("slots.jacks.places.0.z", "70 in")], "above the ground drawn in"),
    (TILT, [("slots.jacks.places.0.z", "30 in")], "under the ground drawn in"),
    (UTILITY, [("slots.coupler.places.0.z", "21 in")], "the coupler is not at the coupling point"),
    (UTILITY, [("frame.coupling_height", "40 in")], "no truck carries a ball coupling at that height"),
    (TILT, [("slots.data_plate.places.0.x", "300 in")], "forward half of its left side"),
    # outlines
    (TILT, [(f"frame.member.{index_of(TILT, 'member', 'deck')}.plan", "in: 88,-51 280,51 280,-51 88,51")], "crosses itself"),  # noqa: E501
    (TILT, [(f"frame.member.{index_of(TILT, 'member', 'deck')}.plan", "in: 88,0 180,0 280,0")], "encloses nothing"),
    (TILT, [(f"frame.member.{index_of(TILT, 'member', 'tail')}.side", "in: 280,34 280,24 410,29 410,34")], "'tail' reaches out of the length"),  # noqa: E501
    (TILT, [(f"frame.member.{index_of(TILT, 'member', 'tail')}.plan", "in: 281,-53 400,-53 400,53 281,53")], "'tail' reaches out of the width"),  # noqa: E501
    (TILT, [("frame.overall_length", "430 in")], "nothing is drawn within"),
    (TILT, [("frame.deck.1.x1", "420 in")], "the deck reaches out of the length"),
    (TILT, [("frame.deck.0.width", "110 in")], "the deck is wider than the trailer"),
    # hinge and cylinders
    (TILT, [("frame.hinge.0.lowered", "17 deg")], "into the ground"),
    (TILT, [("frame.hinge.0.members", ["tale"])], "there is no such member"),
    (TILT, [("frame.hinge.0.cylinders.frame_x", "282 in")], "drawn in, is longer"),
    (DUMP, [("frame.hinge.0.cylinders.0.arms.lower", "40 in")], "the arms cannot reach from eye to eye"),
    (DUMP, [("frame.hinge.0.cylinders.0.arms.upper", "98 in")], "the arms cannot reach from eye to eye"),
    (DUMP, [("frame.hinge.0.cylinders.0.arms.rod", "20 in")], "has a stroke of 34.0 in only"),
    (DUMP, [("frame.hinge.0.cylinders.1.body_z", "48 in")], "drawn in, is longer: 34.0 in"),
    (DUMP, [("frame.hinge.0.lowered", "50 deg")], "has a stroke of"),
    (DUMP, [("frame.hinge.0.prop.slot", "stick")], "there is no such slot"),
    # rear impact guard
    (TILT, [("slots.rear_guard.places.0.z", "24 in")], "says 19.0 in above the ground"),
    (TILT, [("slots.rear_guard.places.0.x", "388 in")], "says 4.0 in from the rear end"),
    (TILT, [("frame.hinge.0.lowered", "30 deg"), ("frame.hinge.0.cylinders.frame_x", "340 in"), ("frame.hinge.0.cylinders.frame_z", "-40 in"), ("frame.hinge.0.cylinders.body_x", "340 in"), ("frame.hinge.0.cylinders.body_z", "26 in")], "has a stroke of"),  # noqa: E501
]  # fmt: skip


@pytest.mark.parametrize(("type_id", "changes", "words"), PLANTED)
def test_a_planted_mistake_is_refused(type_id: str, changes: list[tuple[str, object]], words: str) -> None:
    assert words in told(changed(type_id, *changes))


def test_a_cylinder_without_eyes_is_refused() -> None:
    catalogue = quillback()
    tables = copy.deepcopy(dict(catalogue.raw[f"trailers/{TILT}.toml"]))
    del tables["frame"]["hinge"][0]["cylinders"]
    record = read_record(tables, TrailerType, f"{TILT}.toml")
    found = told(dataclasses.replace(catalogue, types={TILT: record}))
    assert "no hinge says where these cylinders push" in found


def test_a_mistake_that_only_an_option_brings_is_found() -> None:
    """The 17.5 in tires of an option are the same height within an inch, but a heavier spare would not be."""
    found = told(changed(TILT, ("slots.spare.places.0.z", "3 in")))
    assert "spare_wheel/s16_e" in found
    assert "spare_wheel/s17_5_h" in found


def test_a_fault_names_file_key_value_and_cure() -> None:
    (fault, *_) = geometry.faults(changed(UTILITY, ("frame.coupling_height", "40 in")))
    assert (fault.file, fault.key, fault.value) == (
        "trailers/utility_single.toml",
        "frame.coupling_height",
        "40 in",
    )
    assert fault.cure


@pytest.mark.parametrize("type_id", [TILT, UTILITY])
def test_the_widths_of_a_type_add_up(type_id: str) -> None:
    """Track, spacing and tire width by hand: the outer wall lies inside half the width over all."""
    trailer = quillback().types[type_id]
    reference = trailer.slots["tires"].standard or ""
    spacing = trailer.frame.axles.dual_spacing
    bodies = list(bodies_in(trailer, "tires", reference, quillback()))
    width = bodies[0].get("section_width")
    by_hand = trailer.frame.axles.track.si / 2 + (spacing.si / 2 if spacing else 0.0) + width / 2
    outermost = max(max(-body.space[2], body.space[3]) for body in bodies)
    assert outermost == pytest.approx(by_hand)
    assert outermost < trailer.frame.overall_width.si / 2


def test_the_lowered_tail_meets_the_ground_at_its_angle() -> None:
    """By hand: 120 in behind the hinge and 4 in under it, turned by 14 degrees, ends 0.1 in over the ground."""
    lowest = 33 - 120 * math.sin(math.radians(14)) - 4 * math.cos(math.radians(14))
    assert 0 < lowest < 0.2
    trailer = quillback().types[TILT]
    (hinge,) = trailer.frame.hinges
    tail = next(member for member in trailer.frame.members if member.id == "tail")
    points = reach.lowered(outline(tail.side or ""), hinge)
    assert min(z for _, z in points) / 0.0254 == pytest.approx(lowest, abs=1e-9)


@pytest.mark.parametrize("type_id", [TILT, UTILITY])
def test_deck_lengths_and_tongue_add_up_to_the_length_over_all(type_id: str) -> None:
    frame = quillback().types[type_id].frame
    rear = frame.front_x.si + frame.overall_length.si
    last = max(deck.x1.si for deck in frame.decks)
    assert 0 <= rear - last <= 0.08
    assert min(deck.x0.si for deck in frame.decks) > 0
