"""Up to three items on a grid, every arrangement tried: none may beat the search, and the search not by much."""

from __future__ import annotations

import math

import pytest

from sendoff.calc.deck_plan import Placement
from sendoff.calc.deck_plan.solve import Setup, best
from tests.calc.deck_plan.brute import best_on_grid
from tests.calc.deck_plan.checker import check
from tests.calc.deck_plan.instances import random_problem

STEPS = {1: 0.01, 2: 0.05, 3: 0.2}


@pytest.mark.parametrize("item_count", [1, 2, 3])
@pytest.mark.parametrize("seed", range(100, 108))
def test_no_arrangement_on_a_grid_beats_the_search(item_count: int, seed: int) -> None:
    problem = random_problem(seed, item_count)
    found, _ = best(problem, code="plain")
    on_grid = best_on_grid(problem, STEPS[item_count])
    assert on_grid <= found.margin + 1e-9
    if not found.placements:
        assert on_grid == -math.inf
        return
    # moved to the front by less than a step each, the best arrangement is on the grid, where all rules allow
    step = STEPS[item_count]
    moved = [
        Placement(row.item, row.deck, row.facing, math.floor(row.front_m / step + 1e-9) * step)
        for row in found.placements
    ]
    broken, margin = check(problem, moved)
    if not broken and margin > found.margin - 1:
        setup = Setup(problem, "plain")
        steepest = max((abs(slope) for slope in setup.slope), default=0.0) * setup.mass_kg * step
        assert on_grid >= margin - 1e-9 or on_grid >= found.margin - steepest - 1e-9
