"""Livestock: what must hold for any trailer and herd."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import livestock
from sendoff.errors import OutOfRange

floors = st.floats(5.0, 60.0)
animals = st.floats(30.0, 1000.0)


@given(floors, animals, st.floats(500.0, 15_000.0))
def test_the_head_counted_have_floor_and_payload_and_one_more_has_not(
    floor: float, animal: float, payload: float
) -> None:
    found = livestock.head_count(floor, animal, payload)
    assert found.load_kg <= payload * 0.9 * (1 + 1e-6)
    if found.head:
        assert livestock.crowding_check(floor, animal, found.head).enough
    if found.limited_by == "floor":
        assert not livestock.crowding_check(floor, animal, found.head + 1).enough
    else:
        assert (found.head + 1) * animal > payload * 0.9 * (1 - 1e-6)


@given(floors, animals)
def test_heavier_animals_are_never_more(floor: float, animal: float) -> None:
    assert livestock.head_count(floor, animal * 1.2).head <= livestock.head_count(floor, animal).head


@given(st.floats(0.0, 2e5), st.booleans(), st.booleans())
def test_time_left_and_time_aboard_make_the_longest_time(aboard_s: float, written: bool, night: bool) -> None:
    found = livestock.rest_rule(aboard_s, "carrier", "sheep", written_request=written, ends_at_night=night)
    assert found.longest_s is not None
    assert found.time_left_s is not None
    assert math.isclose(found.longest_s, found.time_left_s + aboard_s)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_animal_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        livestock.floor_area_per_head(bad)
    assert refusal.value.name == "animal_kg"
