"""Winch: what must hold for any pull, drum and tackle."""

from __future__ import annotations

import math
import typing

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import winch
from sendoff.calc.winch.pull import Surface
from sendoff.errors import OutOfRange

masses = st.floats(100.0, 10_000.0)
grades = st.floats(0.0, 1.0)
surfaces = st.sampled_from(typing.get_args(Surface))
drums = st.floats(0.04, 0.2)
ropes = st.floats(0.004, 0.02)


@given(masses, grades, surfaces)
def test_steeper_and_heavier_never_pulls_easier(mass_kg: float, grade: float, surface: Surface) -> None:
    one = winch.winch_pull(mass_kg, grade, surface)
    assert winch.winch_pull(mass_kg * 1.1, grade, surface).total_N > one.total_N
    assert winch.grade_force(mass_kg, grade + 0.05) > one.grade_N
    assert math.isclose(one.grade_N + one.rolling_N, one.total_N)


@given(st.integers(1, 9), drums, ropes)
def test_each_layer_pulls_less(layer: int, drum_m: float, rope_m: float) -> None:
    assert (
        winch.layer_pull_ratio(layer + 1, drum_m, rope_m) < winch.layer_pull_ratio(layer, drum_m, rope_m) <= 1
    )


@given(st.floats(0.5, 40.0), drums, st.floats(0.1, 0.4), ropes)
def test_the_wraps_found_hold_just_that_rope(
    length_m: float, drum_m: float, width_m: float, rope_m: float
) -> None:
    try:
        found = winch.drum_layer(length_m, drum_m, width_m, rope_m)
    except OutOfRange as refusal:
        assert refusal.name == "rope_on_drum_m"  # noqa: PT017
        return
    per = found.wraps_per_layer
    held = sum(per * math.pi * (drum_m + (2 * n - 1) * rope_m) for n in range(1, found.layer))
    held += found.wraps_on_layer_count * math.pi * (drum_m + (2 * found.layer - 1) * rope_m)
    assert math.isclose(held, length_m, rel_tol=1e-9)


@given(st.floats(10.0, 1e5), st.integers(1, 7), st.floats(0.6, 1.0))
def test_more_parts_ease_the_line_but_never_below_an_even_share(
    load: float, parts: int, share: float
) -> None:
    one = winch.tackle_line_pull(load, parts, share)
    assert winch.tackle_line_pull(load, parts + 1, share) < one
    assert one >= load / parts * (1 - 1e-12)


@given(st.floats(10.0, 1e5), st.floats(0.0, math.pi))
def test_a_block_never_carries_more_than_twice_the_line(line_N: float, between: float) -> None:
    assert -1e-9 <= winch.block_load(line_N, between) <= 2 * line_N


@given(*(st.floats(1e3, 1e5) for _ in range(5)))
def test_the_limit_of_the_line_is_passed_by_no_part(
    pull: float, breaking: float, hook: float, block: float, anchor: float
) -> None:
    found = winch.weakest_in_line(pull, breaking, hook, 2.0, block, anchor)
    assert found.line_limit_N <= min(pull, hook, breaking / 2)
    assert winch.block_load(found.line_limit_N) <= min(block, anchor) * (1 + 1e-9)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_mass_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        winch.winch_pull(bad, 0.1, "sand")
    assert refusal.value.name == "mass_kg"
