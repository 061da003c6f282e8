"""Over every legal combination of options: nothing that is not fitted appears, everything fitted does, orders hold.

Types of up to 20,000 legal combinations are proved in full. A larger one is proved on the rows of a covering array of
strength 3 (`covering.py`). An independent count, which tries every subset of the options, finds how many are legal, and
sees that every choice of any three options that can be built is in some row.
"""

from __future__ import annotations

import functools
import time
from collections.abc import Iterable
from itertools import combinations as choose
from itertools import islice
from pathlib import Path

from proofs.covering import MANY, array_of, legal_sets
from sendoff.asbuilt.fit import fit
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
    found = []
    for name in sorted(catalogue.types):
        legal = len(legal_sets(CATALOGUE, name))
        if legal > MANY:
            found += [f"{name} by covering array", f"{name} choices of three counted"]
        else:
            found += [f"{name} from {start}" for start in range(0, legal, CHUNK)]
    return found


def step(key: str) -> dict[str, int | float | str]:
    """Hold each combination of one stretch, or each row of a covering array, against the evaluator; or count it."""
    if key.endswith(" by covering array"):
        name = key.removesuffix(" by covering array")
        return prove_sets(name, array_of(CATALOGUE, name))
    if key.endswith(" choices of three counted"):
        return prove_covered(key.removesuffix(" choices of three counted"))
    name, _, start = key.partition(" from ")
    return prove_stretch(name, int(start), CHUNK)


def prove_stretch(
    name: str, start: int, count: int, every: int = 1, folder: Path = CATALOGUE
) -> dict[str, int | float | str]:
    """Hold `count` combinations of a type from `start` on, or one in `every`, against the evaluator."""
    legal = legal_sets(folder, name)
    return prove_sets(name, islice(legal, start, start + count * every, every), folder)


def prove_sets(
    name: str, sets: Iterable[frozenset[str]], folder: Path = CATALOGUE
) -> dict[str, int | float | str]:
    """Hold legal sets of options of a type against the evaluator.

    What fills which slot is compared for each combination. The walk and all entries follow from the kinds of part
    alone (neither side looks at variants or options for them), so they are compared once for each make-up of kinds.
    """
    catalogue, evaluator = opened(folder)
    trailer = catalogue.types[name]
    began, proved = time.process_time(), 0
    makeups: set[tuple[str, ...]] = set()
    for options in sets:
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


def prove_covered(name: str, folder: Path = CATALOGUE) -> dict[str, int | float | str]:
    """Count, from the raw catalogue alone, the choices of three options that can be built, and find each in the array.

    The evaluator tries every subset of the options; what the product's own list of legal sets says is not asked.
    """
    began = time.process_time()
    _, evaluator = opened(folder)
    known = sorted(evaluator.types[name].get("options", {}))
    wanted: set[tuple[tuple[str, bool], ...]] = set()
    legal = 0
    for options in evaluator.every_legal(name):
        legal += 1
        wanted.update(choose([(option, option in options) for option in known], 3))
    rows = array_of(folder, name)
    assert all(evaluator.legal(name, row) for row in rows), f"{name}: a row of the array is not legal"
    had = {three for row in rows for three in choose([(option, option in row) for option in known], 3)}
    assert had == wanted, (
        f"{name}: {len(wanted - had)} choices of three in no row, {len(had - wanted)} too many"
    )
    assert legal == len(legal_sets(folder, name)), f"{name}: {legal} legal sets by the evaluator"
    return {
        "combinations": 0,
        "legal sets tried": legal,
        "choices of three": len(wanted),
        "rows": len(rows),
        "seconds of processor": round(time.process_time() - began, 2),
    }


def conclude(figures: dict[str, dict[str, int | float | str]]) -> str:
    """Say how many combinations were proved, and how fast."""
    proved = sum(int(figure["combinations"]) for figure in figures.values())
    seconds = sum(float(figure["seconds of processor"]) for figure in figures.values())
    return (
        f"{proved:,} combinations, {proved / max(seconds, 0.01):,.0f} a second and core, evaluator included"
    )
