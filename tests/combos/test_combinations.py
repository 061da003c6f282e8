"""The fixed slice of the combination proof, and the mutants that must turn it red."""

from __future__ import annotations

import functools
from collections.abc import Callable
from pathlib import Path

import pytest

from proofs.prove_combinations import CATALOGUE, prove_stretch
from sendoff.asbuilt.fit import combinations, fit, is_legal
from sendoff.catalogue.load import Catalogue, load
from sendoff.catalogue.starter import STARTER
from tests.combos.comparing import MUTANTS, Structure, broken, differences, structure_of
from tests.combos.evaluator import Evaluator

STARTER_CATALOGUE = STARTER / "catalogue"
SLICE = 300


@functools.cache
def opened(folder: Path) -> tuple[Catalogue, Evaluator]:
    return load(folder), Evaluator(folder)


def types_of(folder: Path) -> list[str]:
    return sorted(path.stem for path in folder.glob("trailers/*.toml"))


EVERY_TYPE = [(folder, name) for folder in (STARTER_CATALOGUE, CATALOGUE) for name in types_of(folder)]


@pytest.mark.parametrize(("folder", "name"), EVERY_TYPE)
def test_a_spread_of_combinations_is_what_an_independent_reading_says(folder: Path, name: str) -> None:
    catalogue, _ = opened(folder)
    legal = sum(1 for _ in combinations(catalogue.types[name]))
    proved = prove_stretch(name, 0, SLICE, every=max(1, legal // SLICE), folder=folder)
    assert int(proved["combinations"]) >= min(legal, SLICE)


@pytest.mark.parametrize(("folder", "name"), EVERY_TYPE)
def test_small_types_have_exactly_the_legal_sets_that_trying_every_subset_finds(
    folder: Path, name: str
) -> None:
    catalogue, evaluator = opened(folder)
    trailer = catalogue.types[name]
    if len(trailer.options) > 12:
        pytest.skip("too many subsets to try every one; the proof asks the evaluator about each set instead")
    assert set(combinations(trailer)) == set(evaluator.every_legal(name))


@pytest.mark.parametrize(("folder", "name"), EVERY_TYPE)
@pytest.mark.parametrize("mutant", MUTANTS, ids=lambda mutant: mutant.__name__)
def test_a_mutant_turns_the_proof_red(
    folder: Path, name: str, mutant: Callable[[Structure], Structure]
) -> None:
    catalogue, evaluator = opened(folder)
    options = max(combinations(catalogue.types[name]), key=lambda some: (len(some), sorted(some)))
    found = structure_of(catalogue, catalogue.types[name], options)
    expected = evaluator.said(name, options)
    assert differences(found, expected) == []
    assert differences(mutant(found), expected) != []


@pytest.mark.parametrize(("folder", "name"), EVERY_TYPE)
def test_every_step_taught_backwards_breaks_an_order(folder: Path, name: str) -> None:
    from dataclasses import replace

    from sendoff.briefing.outline import Leg, Visit

    catalogue, _ = opened(folder)
    found = structure_of(catalogue, catalogue.types[name], frozenset())
    backwards = tuple(
        Leg(leg.state, tuple(Visit(visit.station, visit.acts[::-1]) for visit in leg.visits[::-1]))
        for leg in found.walk.legs[::-1]
    )
    assert broken(found, catalogue.types[name]) == []
    assert broken(Structure(found.fitted, replace(found.walk, legs=backwards)), catalogue.types[name]) != []


@pytest.mark.parametrize(("folder", "name"), EVERY_TYPE)
def test_resolving_does_not_depend_on_the_order_of_options(folder: Path, name: str) -> None:
    catalogue, _ = opened(folder)
    trailer = catalogue.types[name]
    for options in list(combinations(trailer))[:: max(1, sum(1 for _ in combinations(trailer)) // 40)]:
        listed = sorted(options)
        for turned in (listed[::-1], listed[1:] + listed[:1]):
            assert fit(trailer, turned) == fit(trailer, listed)
            assert is_legal(trailer, turned)
