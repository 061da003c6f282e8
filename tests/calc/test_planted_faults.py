"""A fixed slice of the proof by planted faults: planted, noticed, and nothing noticed without one."""

from __future__ import annotations

import ast
import importlib
from pathlib import Path
from types import ModuleType

import pytest

from proofs.mutants import Suite, is_noticed, mutants
from proofs.prove_mutation import keys, reasons

EXAMPLES_ONLY = {
    family: Suite(family, ()) for family in ("rules_of_the_road", "securement", "truck_check", "statics")
}


def _module(name: str) -> tuple[ModuleType, str]:
    module = importlib.import_module(f"sendoff.calc.{name}")
    return module, Path(str(module.__file__)).read_text(encoding="utf-8")


def test_nothing_is_noticed_without_a_fault() -> None:
    module, source = _module("securement.us")
    assert not is_noticed(ast.parse(source), module, EXAMPLES_ONLY["securement"])


@pytest.mark.parametrize(
    ("name", "right", "wrong"),
    [
        ("securement.us", '"to_item": 0.5', '"to_item": 1.0'),
        ("securement.us", "needed = item_mass_kg / 2", "needed = item_mass_kg / 3"),
        ("rules_of_the_road.bridge", "- Fraction(1, 2)) * 500", "+ Fraction(0, 2)) * 500"),
        ("rules_of_the_road.license_groups", "heavy_tow and reaches", "heavy_tow or reaches"),
        ("truck_check.coupling_load", "low_ratio * trailer_mass_kg", "high_ratio * trailer_mass_kg"),
        ("statics.truck", "-off_front if off_front", "off_front if off_front"),
    ],
)
def test_a_fault_planted_by_hand_is_noticed_by_the_worked_examples(name: str, right: str, wrong: str) -> None:
    module, source = _module(name)
    assert source.count(right) == 1, f"{name} no longer says {right}"
    tree = ast.parse(source.replace(right, wrong))
    assert is_noticed(tree, module, EXAMPLES_ONLY[name.partition(".")[0]])


def test_every_kind_of_fault_is_planted_once_and_by_a_name_of_its_own() -> None:
    source = '''
"""Doc."""
LIMIT = 5
def f(a, b=2):
    """Doc 7."""
    if a < b and not a == 3:
        raise ValueError(f"{a + 1}")
    check(a)
    return min(a, b) + -1.5 * LIMIT if a else 1e-9
'''
    found = [mutant for mutant, _ in mutants(source, "m")]
    assert len({mutant.name for mutant in found}) == len(found)
    changes = {(mutant.before, mutant.after) for mutant in found}
    for before, after in (
        ("5", "6"),
        ("2", "3"),
        ("a < b", "a <= b"),
        ("a < b", "a >= b"),
        ("a == 3", "a != 3"),
        ("not a == 3", "a == 3"),
        ("a < b and (not a == 3)", "a < b or not a == 3"),
        ("check(a)", "pass"),
        ("min(a, b)", "max(a, b)"),
        ("min(a, b) + -1.5 * LIMIT", "min(a, b) - -1.5 * LIMIT"),
        ("-1.5", "1.5"),
        ("1.5", "1.875"),
        ("1e-09", "0.001"),
    ):
        assert (before, after) in changes, f"{before} -> {after}"
    assert not {"7", "'Doc 7.'", "a + 1"} & {mutant.before for mutant in found}, "texts are left alone"


def test_every_listed_survivor_is_a_fault_there_is_and_has_a_reason() -> None:
    listed = reasons()
    modules = {name.rpartition(".")[0].split(":")[0] for name in keys()}
    assert modules
    by_module: dict[str, set[str]] = {}
    for name, why in listed.items():
        assert len(why) > 15, f"{name}: say why"
        module = ".".join(name.split(":")[0].split(".")[:2])
        if module not in by_module:
            by_module[module] = {mutant.name for mutant, _ in mutants(_module(module)[1], module)}
        assert name in by_module[module], f"{name}: there is no such fault any more"
