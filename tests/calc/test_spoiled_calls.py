"""A good call spoiled: each calculation, asked as its source asks it but for one or two inputs, keeps its word.

`test_any_input` draws every input at once and is mostly refused at the first; here the other inputs are good ones (the
worked example that names most inputs), so that the drawn value reaches the formula itself.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import math
from collections.abc import Iterator
from typing import Any, Final

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import arguments, calculations
from sendoff.calc.arguments import Argument
from sendoff.calc.contract import LARGEST, SMALLEST
from sendoff.errors import OutOfRange
from tests.calc.test_any_input import USUAL
from tests.calc.test_cases import CASES

EXTREME: Final = (
    0.0, -0.0, SMALLEST, SMALLEST / 2, -SMALLEST, 1e-9, 1e-6, 1e6, 1e9, LARGEST, -LARGEST, 2 * LARGEST, 5e-324, 1.7e308,
    math.nan, math.inf, -math.inf,
)  # fmt: skip
BEYOND: Final = (math.nan, math.inf, -math.inf, 2 * LARGEST, -2 * LARGEST)


@functools.cache
def _answered() -> dict[str, list[dict[str, Any]]]:
    """Inputs of every worked example that is answered, by calculation."""
    found: dict[str, list[dict[str, Any]]] = {}
    for case in CASES:
        if "refused" not in case:
            inputs = arguments.read(calculations()[case["function"]], case["inputs"])
            found.setdefault(case["function"], []).append(inputs)
    return found


def _refused_for(name: str, inputs: dict[str, Any]) -> str:
    try:
        calculations()[name].function(**inputs)
    except OutOfRange as refused:
        return refused.name
    return ""


@functools.cache
def _base(name: str) -> dict[str, Any]:
    """A good call that names as many inputs as the worked examples do together."""
    calls = _answered()[name]
    base = max(calls, key=len)
    for call in calls:
        for key, value in call.items():
            if key not in base and not _refused_for(name, {**base, key: value}):
                base = {**base, key: value}
    return base


def _numbers(value: Any) -> Iterator[float]:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        for field in dataclasses.fields(value):
            yield from _numbers(getattr(value, field.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from _numbers(item)
    elif isinstance(value, float):
        yield value


def _one(argument: Argument, good: Any) -> st.SearchStrategy[Any]:
    if argument.form == "quantity":
        low, high = USUAL[argument.kind]
        drawn = st.floats(low, high) | st.sampled_from(EXTREME) | st.floats()
        if isinstance(good, float) and good and math.isfinite(good):
            drawn |= st.floats(-3.0, 3.0).map(lambda power: good * 10**power)
        return drawn
    if argument.form == "count":
        return st.integers(-3, 15) | st.integers(-(10**15), 10**15)
    if argument.form == "words":
        return st.sampled_from(argument.words)
    if argument.form == "yes_no":
        return st.booleans()
    if argument.form == "date":
        return st.dates(dt.date(1970, 1, 1), dt.date(2060, 1, 1)) | st.dates()
    if argument.form == "table":
        return st.none()
    return st.text(max_size=12) | st.sampled_from(
        ("1/2-20", "M12", "1-1/8", "11111111111111111", "0109", "left")
    )


def _strategy(argument: Argument, good: Any) -> st.SearchStrategy[Any]:
    if argument.many:
        first = good[0] if isinstance(good, tuple) and good else None
        one = _one(argument, first)
        whole = st.lists(one, max_size=4).map(tuple)
        if isinstance(good, tuple) and good:
            whole |= st.tuples(st.integers(0, len(good) - 1), one).map(
                lambda drawn: (*good[: drawn[0]], drawn[1], *good[drawn[0] + 1 :])
            )
        return whole
    one = _one(argument, good)
    return one | st.none() if argument.may_be_none and argument.form != "table" else one


@pytest.mark.parametrize("name", sorted(calculations()))
def test_a_good_call_spoiled_is_finite_or_refused_by_name(name: str) -> None:
    calculation = calculations()[name]
    asked = arguments.arguments(calculation)
    columns = {column for table in calculation.tables.values() for column in tables.load(table).columns}
    base = _base(name)
    each = {key: _strategy(argument, base.get(key)) for key, argument in asked.items()}
    spoiled = st.lists(st.sampled_from(sorted(each)), min_size=1, max_size=2, unique=True).flatmap(
        lambda keys: st.fixed_dictionaries({key: each[key] for key in keys})
    )

    @settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
    @given(spoiled)
    def hold(drawn: dict[str, Any]) -> None:
        result = None
        named: set[str] = set()
        try:
            result = calculation.function(**{**base, **drawn})
        except OutOfRange as refused:
            named = {part.strip() for part in refused.name.split(",")}
        assert named <= {*asked, *columns}, f"{named} is no argument: see refused_as"
        for number in _numbers(result):
            assert math.isfinite(number), (drawn, result)

    hold()


def _quantities() -> Iterator[tuple[str, str]]:
    for name in sorted(calculations()):
        for key, value in _base(name).items():
            one = value[0] if isinstance(value, tuple) and value else value
            if isinstance(one, float):
                yield name, key


@pytest.mark.parametrize(("name", "key"), list(_quantities()))
def test_what_is_no_number_or_beyond_any_measure_is_refused_by_its_own_name(name: str, key: str) -> None:
    base = _base(name)
    for value in BEYOND:
        good = base[key]
        spoiled = (*good[:-1], value) if isinstance(good, tuple) else value
        assert _refused_for(name, {**base, key: spoiled}) == key, f"{key} = {value}"


def _counts() -> Iterator[tuple[str, str]]:
    for name in sorted(calculations()):
        for key, value in _base(name).items():
            one = value[0] if isinstance(value, tuple) and value else value
            if isinstance(one, int) and not isinstance(one, bool):
                yield name, key


@pytest.mark.parametrize(("name", "key"), list(_counts()))
def test_a_count_beyond_any_measure_is_refused_by_its_own_name(name: str, key: str) -> None:
    base = _base(name)
    for value in (10**15, -(10**15)):
        good = base[key]
        spoiled = (*good[:-1], value) if isinstance(good, tuple) else value
        assert _refused_for(name, {**base, key: spoiled}) == key, f"{key} = {value}"
