"""Every worked example in tests/cases: from outside our own code, each with its source and its tolerance.

    [[case]]
    id = "stroke-01"
    function = "push_rod_stroke_limit"
    source = "49cfr393"
    clause = "393.47(e)(1)"
    evidence = "read"
    kind = "published value"
    inputs = { chamber_type = 30 }
    expected = "2 in"                  # or { field = "2 in", other_field = true } for a record
    tolerance = "0 in"                 # one for all, or { field = "0.01 in" }; "1 %" is of the expected value
    why = "a table value has none"

A negative case has `refused = "name of the argument"` instead of expected, tolerance and why.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

import pytest
import tomli

from sendoff import sources, units
from sendoff.calc import arguments, calculations
from sendoff.errors import OutOfRange

FOLDER: Final = Path(__file__).parent.parent / "cases"
KINDS: Final = (
    "published example",
    "published value",
    "hand calculation",
    "other program",
    "limit case",
    "conservation",
    "trap",
    "pin",
)
KEYS: Final = {
    "id",
    "function",
    "source",
    "clause",
    "evidence",
    "kind",
    "inputs",
    "expected",
    "tolerance",
    "why",
    "refused",
    "note",
}


def _cases() -> list[dict[str, Any]]:
    found = []
    for path in sorted(FOLDER.rglob("*.toml")):
        for case in tomli.loads(path.read_text(encoding="utf-8")).get("case", []):
            family = path.relative_to(FOLDER).parts[0].removesuffix(".toml")
            found.append({**case, "file": str(path.relative_to(FOLDER)), "family": family})
    return found


CASES: Final = _cases()
FAMILIES: Final = sorted({calculation.family for calculation in calculations().values()})


def _name(case: Mapping[str, Any]) -> str:
    return f"{case['family']}/{case.get('id', '?')}"


@pytest.mark.parametrize("case", CASES, ids=_name)
def test_the_case_comes_out_as_its_source_says(case: dict[str, Any]) -> None:
    where = f"{case['file']}: {case['id']}"
    unknown = set(case) - KEYS - {"file", "family"}
    assert not unknown, f"{where}: unknown keys {unknown}"
    for key in ("function", "source", "clause", "evidence", "kind", "inputs"):
        assert key in case, f"{where}: {key} is missing"
    assert case["source"] in sources.load(), f"{where}: unknown source {case['source']}"
    assert case["evidence"] in sources.EVIDENCE, f"{where}: evidence"
    assert case["kind"] in KINDS, f"{where}: kind"
    calculation = calculations().get(case["function"])
    assert calculation is not None, f"{where}: no calculation is named {case['function']}"
    assert calculation.family == case["family"], f"{where}: filed under {calculation.family}"
    inputs = arguments.read(calculation, case["inputs"], case["file"])
    if "refused" in case:
        assert not {"expected", "tolerance"} & set(case), f"{where}: refused and expected at once"
        with pytest.raises(OutOfRange) as refusal:
            calculation.function(**inputs)
        assert refusal.value.name == case["refused"], (
            f"{where}: refused for {refusal.value.name}: {refusal.value}"
        )
        return
    for key in ("expected", "tolerance", "why"):
        assert key in case, f"{where}: {key} is missing"
    result = calculation.function(**inputs)
    if isinstance(case["expected"], Mapping):
        assert dataclasses.is_dataclass(result), f"{where}: the result has no fields"
        for name, expected in case["expected"].items():
            tolerance = (
                case["tolerance"][name] if isinstance(case["tolerance"], Mapping) else case["tolerance"]
            )
            _compare(f"{where}: {name}", name, getattr(result, name), expected, tolerance)
    else:
        _compare(where, calculation.gives or calculation.name, result, case["expected"], case["tolerance"])


def _compare(where: str, name: str, found: Any, expected: Any, tolerance: str) -> None:
    if isinstance(expected, list):
        assert isinstance(found, tuple), f"{where}: is no list"
        assert len(found) == len(expected), f"{where}: {found}"
        for one, other in zip(found, expected, strict=True):
            _compare(where, name, one, other, tolerance)
        return
    if isinstance(expected, Mapping):
        for key, value in expected.items():
            _compare(f"{where}.{key}", key, getattr(found, key), value, tolerance)
        return
    if isinstance(expected, bool | dt.date) or isinstance(found, str | bool | dt.date):
        assert found == expected, f"{where}: {found!r}, not {expected!r}"
        return
    if expected == "none":
        assert found is None, f"{where}: {found!r}, not none"
        return
    kind = units.kind_of_name(name)
    wanted = units.parse(expected, kind).si if isinstance(expected, str) and kind else float(expected)
    assert isinstance(found, int | float), f"{where}: {found!r} is no number"
    allowed = _allowed(tolerance, wanted, kind)
    assert math.isfinite(found), f"{where}: {found}"
    assert abs(found - wanted) <= allowed + 1e-9 * abs(wanted), (
        f"{where}: {found!r}, not {wanted!r} within {allowed:g}"
    )


def _allowed(tolerance: str | float, wanted: float, kind: str | None) -> float:
    if isinstance(tolerance, int | float):
        assert tolerance == 0 or kind in {"count", "number", "ratio", None}, "a tolerance has a unit"
        return float(tolerance)
    if tolerance.endswith("%") and kind != "ratio":
        return units.parse(tolerance, "ratio").si * abs(wanted)
    if kind == "temperature":
        return units.parse(tolerance, "temperature_change").si
    return units.parse(tolerance, kind or "number").si


def test_no_two_cases_share_an_id() -> None:
    assert len({_name(case) for case in CASES}) == len(CASES), [
        name for name, times in Counter(_name(case) for case in CASES).items() if times > 1
    ]


@pytest.mark.parametrize("family", FAMILIES)
def test_the_family_is_held_against_the_outside(family: str) -> None:
    cases = [case for case in CASES if case["family"] == family]
    outside = [case for case in cases if case["kind"] != "pin"]
    assert len(outside) >= 5, f"{family}: {len(outside)} checks from outside"
    assert sum(case["evidence"] == "read" for case in outside) >= 2, (
        f"{family}: fewer than two were read in the source"
    )
    assert any("refused" in case for case in cases), f"{family}: no case is refused"


@pytest.mark.parametrize("family", FAMILIES)
def test_every_calculation_of_the_family_has_a_case(family: str) -> None:
    covered = {case["function"] for case in CASES}
    bare = [
        name
        for name, calculation in calculations().items()
        if calculation.family == family and name not in covered
    ]
    assert not bare, f"no case for {', '.join(sorted(bare))}"
