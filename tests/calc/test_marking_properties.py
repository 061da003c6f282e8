"""Marking: what must hold for any trailer and any wear."""

from __future__ import annotations

import calendar
import datetime as dt
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import marking
from sendoff.errors import OutOfRange

TODAY = dt.date(2026, 1, 1)
widths = st.floats(1.0, 2.6)
lengths = st.floats(1.0, 17.0)
ratings = st.floats(500.0, 40_000.0)


@given(widths, lengths)
def test_a_wider_or_longer_trailer_never_needs_fewer_lamps(width: float, length: float) -> None:
    one = marking.lamps_needed(width, length)
    more = marking.lamps_needed(width + 0.5, length + 3.0)
    assert one.lamp_count == sum(one.counts) <= more.lamp_count
    assert set(one.items) <= set(more.items)


@given(widths, ratings)
def test_a_wider_and_heavier_trailer_never_loses_its_tape_or_guard(width: float, rating: float) -> None:
    if marking.conspicuity_required(width, rating, TODAY).required:
        assert marking.conspicuity_required(width + 0.1, rating * 1.1, TODAY).required
    if marking.rear_guard_required(rating, TODAY, 1.0).required:
        assert marking.rear_guard_required(rating * 1.1, TODAY, 1.5).required


@given(lengths, widths)
def test_the_tape_planned_passes_its_own_check(length: float, width: float) -> None:
    plan = marking.tape_plan(length, width)
    assert marking.side_tape_check(length, plan.each_side_m, 0.9).passes


@given(st.sampled_from([row["item"] for row in tables.load("trailer_lamps").rows]), st.floats(0.1, 4.0))
def test_a_lamp_between_its_limits_passes(item: str, height: float) -> None:
    found = marking.lamp_height_check(item, height)
    low = found.least_m or 0.0
    high = found.most_m if found.most_m is not None else math.inf
    if abs(height - low) > 1e-6 and abs(height - high) > 1e-6:
        assert found.passes == (low < height < high)


@given(st.floats(0.005, 0.1), st.floats(0.5, 1.0), st.floats(0.5, 1.0))
def test_more_wear_never_passes_where_less_fails(new: float, one: float, other: float) -> None:
    worn, better = sorted((one, other))
    assert (
        marking.section_loss_check(new, new * worn).passes
        <= marking.section_loss_check(new, new * better).passes
    )


@given(st.dates(dt.date(1981, 1, 1), dt.date(2199, 12, 31)))
def test_an_inspection_counts_to_the_last_day_of_its_month_a_year_on(passed: dt.date) -> None:
    until = marking.inspection_valid_until(passed)
    assert (until.year, until.month) == (passed.year + 1, passed.month)
    assert until.day == calendar.monthrange(until.year, until.month)[1]


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_width_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        marking.lamps_needed(bad, 6.0)
    assert refusal.value.name == "width_m"
