"""Viscosity index against the table of the standard as the package chemicals holds it."""

from __future__ import annotations

from itertools import product

import pytest
from chemicals.viscosity import VI_Hs, VI_Ls, VI_nus, viscosity_index

from sendoff import tables
from sendoff.calc import viscosity

OILS = [
    (at_40, at_100)
    for at_40, at_100 in product(
        (10, 22, 32, 46, 68, 100, 150, 320, 680), (2.5, 3.6, 5.4, 6.8, 8.8, 11.2, 19.0, 38.0)
    )
    if 3.2 < at_40 / at_100 < 12
]


@pytest.mark.parametrize(("at_40", "at_100"), OILS)
def test_the_index_is_the_other_programs(at_40: float, at_100: float) -> None:
    ours = viscosity.viscosity_index(at_40 * 1e-6, at_100 * 1e-6)
    theirs = viscosity_index(at_40 * 1e-6, at_100 * 1e-6)
    assert theirs is not None
    # L and H stand as parabolas here and as a table there: within 0.12 %, which weighs more far from 100
    assert abs(ours - theirs) <= 0.3 + 0.004 * abs(theirs - 100), (ours, theirs)


def test_both_reference_oils_of_the_standard_have_index_0_and_100() -> None:
    for hot, low, high in zip(VI_nus, VI_Ls, VI_Hs, strict=True):
        assert abs(viscosity.viscosity_index(float(low) * 1e-6, float(hot) * 1e-6)) < 0.45
        assert abs(viscosity.viscosity_index(float(high) * 1e-6, float(hot) * 1e-6) - 100) < 0.45


def test_every_row_of_the_standards_table_lies_on_our_parabolas() -> None:
    segments = tables.load("viscosity_index_segments").rows
    for hot, low, high in zip(VI_nus, VI_Ls, VI_Hs, strict=True):
        row = next(
            one
            for one in segments
            if one["least_m2ps"] <= hot * 1e-6 * (1 + 1e-9) <= one["largest_m2ps"] * (1 + 1e-8)
        )
        for told, (square, linear, constant) in ((low, "abc"), (high, "def")):
            ours = (
                row[f"{square}_number"] * hot**2 + row[f"{linear}_number"] * hot + row[f"{constant}_number"]
            )
            assert abs(ours - told) / told < 0.0012, hot
