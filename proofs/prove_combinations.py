"""Over every legal combination of options: nothing that is not fitted appears, everything fitted does, orders hold."""

from __future__ import annotations

import functools
import time
from itertools import islice
from pathlib import Path

from sendoff.asbuilt.fit import combinations, fit
from sendoff.catalogue.load import Catalogue, load
from tests.combos.comparing import broken, differences, differences_of_fit, structure_of
from tests.combos.evaluator import Evaluator

TITLE = "the structure of every legal unit is what an independent reading of the catalogue says it must be"
CATALOGUE = Path(__file__).parents[1] / "examples" / "quillback" / "catalogue"
CHUNK = 4000


@functools.cache
def opened(folder: Path = CATALOGUE) -> tuple[Catalogue, Evaluator]:
    """Return the catalogue as the product reads it and as the evaluator does."""
    return load(folder), Evaluator(folder)


def keys() -> list[str]:
    """Name a step for each few thousand combinations of each type."""
    catalogue, _ = opened()
    return [
        f"{name} from {start}"
        for name, trailer in sorted(catalogue.types.items())
        for start in range(0, sum(1 for _ in combinations(trailer)), CHUNK)
    ]


def step(key: str) -> dict[str, int | float | str]:
    """Hold each combination of one stretch against the evaluator."""
    name, _, start = key.partition(" from ")
    return prove_stretch(name, int(start), CHUNK)


def prove_stretch(
    name: str, start: int, count: int, every: int = 1, folder: Path = CATALOGUE
) -> dict[str, int | float | str]:
    """Hold `count` combinations of a type from `start` on, or one in `every`, against the evaluator.

    What fills which slot is compared for each combination. The walk and all entries follow from the kinds of part
    alone (neither side looks at variants or options for them), so they are compared once for each make-up of kinds.
    """
    catalogue, evaluator = opened(folder)
    trailer = catalogue.types[name]
    began, proved = time.process_time(), 0
    makeups: set[tuple[str, ...]] = set()
    for options in islice(combinations(trailer), start, start + count * every, every):
        fitted = {slot: part.reference for slot, part in fit(trailer, options).items()}
        expected = evaluator.fill(name, options)
        assert expected is not None, f"{name} with {sorted(options)} is not legal by the evaluator"
        assert evaluator.rules_hold(name, options), (
            f"{name} with {sorted(options)} is not legal by the evaluator"
        )
        wrong = differences_of_fit(fitted, expected)
        kinds = tuple(f"{slot}={reference.partition('/')[0]}" for slot, reference in expected.items())
        if kinds not in makeups:
            makeups.add(kinds)
            found = structure_of(catalogue, trailer, options)
            wrong += differences(found, evaluator.said(name, options)) + broken(found, trailer)
        assert not wrong, f"{name} with {sorted(options)}: " + "; ".join(wrong)
        proved += 1
    return {
        "combinations": proved,
        "make-ups": len(makeups),
        "seconds of processor": round(time.process_time() - began, 2),
    }


def conclude(figures: dict[str, dict[str, int | float | str]]) -> str:
    """Say how many combinations were proved, and how fast."""
    proved = sum(int(figure["combinations"]) for figure in figures.values())
    seconds = sum(float(figure["seconds of processor"]) for figure in figures.values())
    return (
        f"{proved:,} combinations, {proved / max(seconds, 0.01):,.0f} a second and core, evaluator included"
    )
