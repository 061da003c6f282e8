"""Every public docstring in calc keeps the contract: parameters in order, units, range, example, source."""

from __future__ import annotations

import dataclasses
import datetime as dt
import inspect
import re
import types
import typing
from typing import Any, Final, Literal

import pytest
from numpydoc.docscrape import FunctionDoc  # type: ignore[import-untyped]

from sendoff import sources, tables, units
from sendoff.calc import arguments, calculations, docstrings, families
from sendoff.calc.contract import Calculation

NAMES: Final = sorted(calculations())
REFERENCE: Final = re.compile(r"^\.\. \[(\d+)\] ([a-z0-9_]+)(?:, (.+))?$")


@pytest.fixture(params=NAMES)
def calculation(request: pytest.FixtureRequest) -> Calculation:
    return calculations()[request.param]


@pytest.fixture
def doc(calculation: Calculation) -> FunctionDoc:
    return FunctionDoc(inspect.unwrap(calculation.function))


def _unit(text: str) -> str:
    """The last unit in brackets, written as SI_UNIT writes it."""
    found = re.findall(r"\[([^\]]*)\](?!_)", text)
    unit = found[-1] if found else ""
    for sign, plain in (("²", "2"), ("³", "3"), ("N m", "N·m"), ("Ω", "ohm"), (" ", "")):
        unit = unit.replace(sign, plain)
    return unit


def _wanted_unit(name: str) -> str:
    kind = units.kind_of_name(name)
    return (units.SI_UNIT[kind] if kind else "") or "-"


def test_the_meaning_is_one_plain_sentence(calculation: Calculation) -> None:
    meaning = calculation.meaning
    assert meaning.endswith("."), meaning
    assert meaning[0].isupper(), meaning
    assert len(meaning) <= 110, meaning
    assert not meaning.startswith(("Return", "Compute", "Calculate")), (
        "say what it is, not what the code does"
    )


def test_the_formula_is_told(calculation: Calculation, doc: FunctionDoc) -> None:
    assert calculation.formula.strip()
    assert "".join(doc["Extended Summary"]).strip(), "say the formula under the first line"


def test_every_parameter_stands_in_order_with_its_unit(calculation: Calculation, doc: FunctionDoc) -> None:
    told = [parameter.name for parameter in doc["Parameters"]]
    assert told == list(inspect.signature(calculation.function).parameters)
    asked = arguments.arguments(calculation)
    for parameter in doc["Parameters"]:
        text = " ".join(parameter.desc)
        assert text.strip(), f"{parameter.name} has no meaning"
        assert parameter.type, f"{parameter.name} has no type"
        if asked[parameter.name].form in {"quantity", "count", "number"}:
            assert _unit(text) == _wanted_unit(parameter.name), f"{parameter.name}: [{_unit(text)}]"


def test_the_result_is_told_with_its_unit(calculation: Calculation, doc: FunctionDoc) -> None:
    assert doc["Returns"], "say what is returned"
    returned = typing.get_type_hints(inspect.unwrap(calculation.function))["return"]
    text = " ".join(line for item in doc["Returns"] for line in item.desc)
    assert text.strip()
    if isinstance(returned, type) and dataclasses.is_dataclass(returned):
        assert not calculation.gives
        assert (returned.__doc__ or "").strip()
        assert not (returned.__doc__ or "").startswith(f"{returned.__name__}("), "the record has no docstring"
        _check_fields(returned)
    else:
        assert calculation.gives, "a bare number is named by gives="
        if returned in {float, int}:
            assert _unit(text) == _wanted_unit(calculation.gives), f"[{_unit(text)}]"


def _check_fields(record: Any) -> None:
    for name, hint in typing.get_type_hints(record).items():
        inner = [part for part in typing.get_args(hint) if part is not type(None)]
        if typing.get_origin(hint) in {typing.Union, types.UnionType}:
            assert len(inner) == 1, f"{record.__name__}.{name} is of several types"
            hint = inner[0]  # noqa: PLW2901
        if typing.get_origin(hint) is tuple:
            hint = typing.get_args(hint)[0]  # noqa: PLW2901
        if typing.get_origin(hint) is Literal or hint in {str, bool, int, dt.date}:
            continue
        if dataclasses.is_dataclass(hint):
            _check_fields(hint)
            continue
        assert hint is float, f"{record.__name__}.{name}: {hint}"
        assert units.kind_of_name(name), f"{record.__name__}.{name} has no unit suffix"


def test_refusals_range_example_and_sources_are_told(doc: FunctionDoc) -> None:
    assert any(item.type == "OutOfRange" or item.name == "OutOfRange" for item in doc["Raises"]), (
        "Raises OutOfRange"
    )
    assert "".join(doc["Notes"]).strip(), "Notes say the range of validity"
    assert ">>>" in "".join(doc["Examples"]), "Examples has a doctest"
    starts: list[str] = []
    for line in doc["References"]:
        if line.strip().startswith(".."):
            starts.append(line.strip())
        elif starts and line.strip():
            starts[-1] += f" {line.strip()}"
    assert starts, "References names no source"
    for number, line in enumerate(starts, 1):
        found = REFERENCE.match(line)
        assert found, f"{line}: write '.. [1] source_id, clause'"
        assert int(found[1]) == number, line
        assert found[2] in sources.load(), f"{found[2]} is not in sources.toml"


def test_our_own_reader_finds_what_numpydoc_finds(calculation: Calculation, doc: FunctionDoc) -> None:
    read = docstrings.read(calculation)
    assert list(read.parameters) == [parameter.name for parameter in doc["Parameters"]]
    for parameter in doc["Parameters"]:
        assert read.parameters[parameter.name].split() == " ".join(parameter.desc).split()
    assert read.returns.split() == " ".join(line for item in doc["Returns"] for line in item.desc).split()
    assert read.notes.split() == " ".join(doc["Notes"]).split()
    assert read.formula.split() == " ".join(doc["Extended Summary"]).split()
    assert len(read.references) == sum(line.strip().startswith("..") for line in doc["References"])


def test_names_that_are_filed_are_real(calculation: Calculation) -> None:
    returned = typing.get_type_hints(inspect.unwrap(calculation.function))["return"]
    parameters = inspect.signature(calculation.function).parameters
    known = {*parameters, calculation.gives}
    if dataclasses.is_dataclass(returned):
        known |= {field.name for field in dataclasses.fields(returned)}
    assert set(calculation.symbols) <= known, f"symbols for nothing: {set(calculation.symbols) - known}"
    for name, table_id in calculation.tables.items():
        assert name in parameters
        assert table_id in tables.ids(), table_id
    for name, argument in arguments.arguments(calculation).items():
        assert argument.form != "number", f"{name} is a number without a unit suffix"
        if argument.form == "table":
            assert name in calculation.tables, f"{name}: name the table in tables="
    assert calculation.family in families()
    assert calculation.family in (inspect.unwrap(calculation.function).__module__).split(".")


@pytest.mark.parametrize("table_id", tables.ids())
def test_every_published_table_can_be_read(table_id: str) -> None:
    assert tables.load(table_id).rows
