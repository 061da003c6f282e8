"""Time budgets, and the two ways the same code runs."""

from __future__ import annotations

import pytest

from sendoff.calc.deck_plan import choose, plan
from sendoff.calc.deck_plan.accelerate import available
from sendoff.calc.deck_plan.solve import Setup, best
from tests.calc.deck_plan.instances import random_choice, random_problem

HARD = (167, 7)
"""A problem that takes many nodes."""


def test_out_of_time_the_best_found_comes_with_its_bound_and_is_not_called_the_best() -> None:
    problem = random_problem(*HARD)
    whole, _ = best(problem, code="plain")
    assert whole.proved
    assert whole.bound == whole.margin
    for steps in (1, 2, 4):
        asked = iter(range(10**9))
        short, _ = best(problem, code="plain", go_on=lambda asked=asked, steps=steps: next(asked) < steps)  # type: ignore[misc]
        assert not short.proved
        assert short.margin <= whole.margin <= short.bound + 1e-9


def test_more_time_never_gives_a_worse_answer_or_a_weaker_bound() -> None:
    problem = random_problem(*HARD)
    setup = Setup(problem, "plain")
    found = [setup.find(setup.goal(), node_limit=nodes) for nodes in (20, 100, 400, 1600)]
    margins, bounds = [row.margin for row in found], [row.bound for row in found]
    assert margins == sorted(margins)
    assert bounds == sorted(bounds, reverse=True)


def test_a_plan_out_of_time_says_so() -> None:
    problem = random_problem(*HARD)
    found = plan(problem, code="plain", go_on=lambda: False)
    assert not found.proved
    assert found.answer != "fits" or found.margin >= -1e-9
    assert found.bound >= found.margin


@pytest.mark.skipif(not available(), reason="not run: 'numba' is absent")
def test_compiled_code_gives_what_plain_code_gives() -> None:
    """In one test, so that it is compiled once."""
    for count in range(1, 8):
        for seed in range(300, 312):
            problem = random_problem(seed, count)
            plain, compiled = (best(problem, code=code)[0] for code in ("plain", "compiled"))
            assert plain == compiled, (seed, count)
    for seed in range(5):
        problem = random_choice(seed, 12, 4)
        one, other = (choose(problem, code=code) for code in ("plain", "compiled"))
        assert one == other, seed
