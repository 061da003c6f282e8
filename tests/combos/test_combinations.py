"""The fixed slice of the combination proof, and the mutants that must turn it red."""

from __future__ import annotations

import functools
from collections.abc import Callable
from pathlib import Path

import pytest

from proofs.covering import MANY, array_of, legal_sets
from proofs.prove_combinations import CATALOGUE, prove_covered, prove_sets, prove_stretch
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
    legal = len(legal_sets(folder, name))
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
    options = max(legal_sets(folder, name), key=lambda some: (len(some), sorted(some)))
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
    legal = legal_sets(folder, name)
    for options in legal[:: max(1, len(legal) // 40)]:
        listed = sorted(options)
        for turned in (listed[::-1], listed[1:] + listed[:1]):
            assert fit(trailer, turned) == fit(trailer, listed)
            assert is_legal(trailer, turned)


MANY_SETS = [
    name for folder, name in EVERY_TYPE if folder == CATALOGUE and len(legal_sets(folder, name)) > MANY
]


def test_at_least_two_types_have_more_combinations_than_can_be_proved_one_by_one() -> None:
    assert len(MANY_SETS) >= 2


@pytest.mark.parametrize("name", MANY_SETS)
def test_the_rows_of_a_covering_array_are_what_an_independent_reading_says(name: str) -> None:
    rows = array_of(CATALOGUE, name)
    assert int(prove_sets(name, rows)["combinations"]) == len(rows)
    assert 100 * len(rows) < len(legal_sets(CATALOGUE, name))


def test_every_choice_of_three_options_that_can_be_built_is_in_some_row_and_no_fewer_rows_do(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Counted by trying every subset of the options, from the raw catalogue; longer types are counted in the proof."""
    counted = prove_covered("pintle_air")
    assert int(counted["rows"]) < 60
    assert int(counted["legal sets tried"]) == len(legal_sets(CATALOGUE, "pintle_air"))
    rows = array_of(CATALOGUE, "pintle_air")
    monkeypatch.setattr("proofs.prove_combinations.array_of", lambda _folder, _name: rows[:-1])
    with pytest.raises(AssertionError, match="in no row"):
        prove_covered("pintle_air")
