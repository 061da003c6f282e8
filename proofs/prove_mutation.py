"""Faults planted in statics, truck check, rules of the road and securement are noticed by their tests."""

from __future__ import annotations

import ast
import importlib
from pathlib import Path
from typing import Any, Final

import tomli

from proofs.mutants import ROOT, Mutant, Suite, is_noticed, mutants

TITLE = "at least 85 in 100 faults planted in statics, truck check and securement are noticed; the rest have a reason"
LEAST: Final = 0.85
ALSO: Final = (ROOT / "tests" / "calc", ROOT / "tests" / "cases")
"""What a proved step depends on beside the code: change a test, and it is proved again."""
REASONS: Final = ROOT / "proofs" / "survivors.toml"
FAMILIES: Final = ("statics", "truck_check", "rules_of_the_road", "securement")
SUITES: Final = {
    family: Suite(family, (f"tests/calc/test_{family}_edges.py", f"tests/calc/test_{family}_properties.py"))
    for family in FAMILIES
}


def keys() -> list[str]:
    """Name a step for each module of each family."""
    return [
        f"{family}.{path.stem}"
        for family in SUITES
        for path in sorted((ROOT / "src" / "sendoff" / "calc" / family).glob("*.py"))
        if path.stem != "__init__"
    ]


def step(key: str) -> dict[str, int | float | str]:
    """Plant every fault of one module, one at a time."""
    family, _, stem = key.partition(".")
    return prove_module(family, stem)


def prove_module(family: str, stem: str, every: int = 1) -> dict[str, int | float | str]:
    """Plant the faults of a module, or one in `every`, and count those noticed."""
    module = importlib.import_module(f"sendoff.calc.{family}.{stem}")
    for name in ("tests.calc.test_refusals", "numpy"):
        importlib.import_module(name)  # once here, not in every fork
    source = Path(str(module.__file__)).read_text(encoding="utf-8")
    suite = SUITES[family]
    assert not is_noticed(ast.parse(source), module, suite), "the tests fail without any fault"
    planted, survivors = 0, []
    for number, (mutant, tree) in enumerate(mutants(source, f"{family}.{stem}")):
        if number % every:
            continue
        planted += 1
        if not is_noticed(tree, module, suite):
            survivors.append(mutant)
    why = reasons()
    listed = [mutant for mutant in survivors if mutant.name in why]
    return {
        "faults": planted,
        "noticed": planted - len(survivors),
        "not noticed, with a reason": len(listed),
        "not noticed, without": len(survivors) - len(listed),
        "unlisted": "\n".join(mutant.name for mutant in survivors if mutant not in listed),
    }


def reasons() -> dict[str, str]:
    """Return why known survivors change nothing, or nothing that matters."""
    if not REASONS.exists():
        return {}
    entries: list[dict[str, Any]] = tomli.loads(REASONS.read_text(encoding="utf-8")).get("survivor", [])
    return {name: entry["reason"] for entry in entries for name in entry["mutants"]}


def conclude(figures: dict[str, dict[str, int | float | str]]) -> str:
    """Say what share was noticed in each family; fall if one is below the least share."""
    said = []
    for family in SUITES:
        mine = [figure for key, figure in figures.items() if key.startswith(f"{family}.")]
        planted = sum(int(figure["faults"]) for figure in mine)
        noticed = sum(int(figure["noticed"]) for figure in mine)
        said.append(f"{family.replace('_', ' ')} {noticed} of {planted} ({noticed / planted:.1%})")
        assert noticed >= LEAST * planted, f"{family}: only {noticed} of {planted} faults are noticed"
    return "noticed: " + ", ".join(said)


__all__ = ["Mutant", "keys", "prove_module", "step"]
