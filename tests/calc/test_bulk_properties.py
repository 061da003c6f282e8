"""Bulk: what must hold for any body and material."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import bulk
from sendoff.errors import OutOfRange

rows = st.sampled_from([(row["material"], row["state"]) for row in tables.load("bulk_materials").rows])
sides = st.floats(0.5, 6.0)


@given(rows, sides, sides, st.floats(0.2, 1.5), st.floats(100.0, 12_000.0))
def test_a_body_filled_to_its_line_weighs_no_more_than_the_payload(
    row: tuple[bulk.Material, bulk.State], length: float, width: float, depth: float, payload: float
) -> None:
    material, state = row
    line = bulk.fill_line(payload, material, length, width, depth, state)
    filled = bulk.bulk_load(material, length, width, line.depth_m, state)
    assert filled.mass_kg <= payload * (1 + 1e-9)
    assert line.depth_m <= depth * (1 + 1e-12)
    assert line.body_may_be_full == math.isclose(line.depth_m, depth, rel_tol=1e-12)


@given(st.sampled_from(["gravel", "sand", "earth", "mulch", "crushed_stone"]))
def test_wet_is_never_lighter_than_dry(material: bulk.Material) -> None:
    assert bulk.bulk_density(material) > bulk.bulk_density(material, "dry")


@given(sides, sides)
def test_a_round_bale_weighs_less_than_the_square_one_around_it(width: float, diameter: float) -> None:
    assert math.isclose(
        bulk.round_bale(width, diameter), bulk.square_bale(width, diameter, diameter) * math.pi / 4
    )


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_payload_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        bulk.fill_line(bad, "gravel", 4.0, 2.0, 0.6)
    assert refusal.value.name == "payload_kg"
