"""Jacks: what must hold for any trailer on them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import jacks
from sendoff.errors import OutOfRange

masses = st.floats(100.0, 20_000.0)


@given(masses, st.floats(0.0, 3.0), st.floats(1.0, 12.0))
def test_a_jack_farther_out_carries_less_and_the_moments_agree(
    mass_kg: float, center: float, jack: float
) -> None:
    force = jacks.jack_force(mass_kg, center, jack)
    assert jacks.jack_force(mass_kg, center, jack + 0.5) <= force
    assert math.isclose(force * jack, mass_kg * 9.80665 * center)


@given(st.floats(0.0, 2e5), st.floats(1e3, 1e5), st.integers(1, 5))
def test_one_more_jack_never_hurts(load_N: float, rating_N: float, count: int) -> None:
    one, more = jacks.jack_capacity(load_N, rating_N, count), jacks.jack_capacity(load_N, rating_N, count + 1)
    assert more.enough >= one.enough
    assert one.enough >= one.uneven_enough
    assert one.enough == (one.margin_N >= 0)


@given(masses, st.floats(0.0, 0.7), st.floats(0.0, 0.5))
def test_a_steeper_slope_pushes_harder(mass_kg: float, slope: float, rolling: float) -> None:
    assert (
        jacks.push_force(mass_kg, slope + 0.02, rolling) > jacks.push_force(mass_kg, slope, rolling) * 0.999
    )


@given(st.floats(1e3, 1e5), st.floats(1.0, 3.0), st.floats(0.0, 1.0))
def test_lifting_one_side_takes_half_the_axle_or_more(axle_N: float, track: float, share: float) -> None:
    force = jacks.side_lift_force(axle_N, track, share * track / 2)
    assert axle_N / 2 - 1e-6 <= force <= axle_N + 1e-6


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_mass_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        jacks.jack_force(bad, 0.5, 4.0)
    assert refusal.value.name == "mass_kg"
