"""The same questions asked of HiGHS and CP-SAT: a fixed slice of the proof."""

from __future__ import annotations

import pytest

from proofs.prove_deck_plan import same


@pytest.mark.parametrize(
    ("item_count", "seeds"), [(1, range(8)), (2, range(8)), (3, range(10)), (4, range(6)), (5, range(3))]
)
def test_the_best_margin_is_what_two_general_solvers_find(item_count: int, seeds: range) -> None:
    counted = same(item_count, seeds)
    assert counted["instances"] == len(seeds)
    assert counted["equal_highs"] + counted["unproved_highs"] == len(seeds)
    assert counted["equal_highs"] >= len(seeds) - 1
