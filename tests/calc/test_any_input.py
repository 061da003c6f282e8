"""Any input at all: every calculation gives finite numbers or refuses by the name of an argument, nothing else."""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
from collections.abc import Iterator
from typing import Any, Final

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import arguments, calculations
from sendoff.calc.arguments import Argument
from sendoff.calc.contract import Calculation
from sendoff.errors import OutOfRange

ODD: Final = (0.0, -0.0, 1.0, -1.0, 5e-324, 1e-300, 1e300, 1.7e308, math.nan, math.inf, -math.inf, 0.1 + 0.2)
USUAL: Final[dict[str, tuple[float, float]]] = {
    "mass": (1, 20_000), "force": (1, 200_000), "length": (0.001, 20), "area": (1e-7, 10), "volume": (1e-6, 5),
    "flow": (1e-6, 0.01), "pressure": (1e4, 3e7), "torque": (1, 1000), "energy": (1, 1e7), "power": (1, 1e4),
    "duration": (1, 1e6), "speed": (0.1, 40), "rotation": (0.1, 100), "acceleration": (0.1, 20),
    "voltage": (1, 30), "current": (0.1, 400),
    "resistance": (1e-4, 100), "resistance_per_length": (1e-5, 1), "charge": (100, 1e6), "density": (1, 8000),
    "viscosity": (1e-6, 1e-2), "stiffness": (100, 1e7), "line_load": (0.1, 1e4), "area_load": (0.1, 1e4),
    "temperature": (220, 400), "temperature_change": (-100, 100), "angle": (-1.6, 1.6), "ratio": (0, 1.2),
    "number": (0, 5),
    "count": (0, 50),
}  # fmt: skip


def _one(argument: Argument) -> st.SearchStrategy[Any]:
    if argument.form == "quantity":
        low, high = USUAL[argument.kind]
        usual = st.floats(low, high)
        return usual | usual | usual | st.sampled_from(ODD) | st.floats()
    if argument.form == "count":
        return st.integers(0, 12) | st.integers(-(10**12), 10**12)
    if argument.form == "words":
        return st.sampled_from(argument.words)
    if argument.form == "yes_no":
        return st.booleans()
    if argument.form == "date":
        return st.dates(dt.date(2000, 1, 1), dt.date(2060, 1, 1)) | st.dates()
    if argument.form == "table":
        return st.none()
    return st.text(max_size=20)


def _strategy(argument: Argument) -> st.SearchStrategy[Any]:
    one = _one(argument)
    found = st.lists(one, max_size=4).map(tuple) if argument.many else one
    return found | st.none() if argument.may_be_none and argument.form != "table" else found


def _numbers(value: Any) -> Iterator[float]:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        for field in dataclasses.fields(value):
            yield from _numbers(getattr(value, field.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from _numbers(item)
    elif isinstance(value, float):
        yield value


def _parts(name: str) -> set[str]:
    return {part.strip() for part in name.split(",")}


@pytest.mark.parametrize("name", sorted(calculations()))
def test_the_result_is_finite_or_an_argument_is_refused(name: str) -> None:
    calculation: Calculation = calculations()[name]
    asked = arguments.arguments(calculation)
    columns = {column for table in calculation.tables.values() for column in tables.load(table).columns}

    @settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
    @given(st.fixed_dictionaries({key: _strategy(argument) for key, argument in asked.items()}))
    def hold(given_values: dict[str, Any]) -> None:
        refused: OutOfRange | None = None
        result = None
        try:
            result = calculation.function(**given_values)
        except OutOfRange as error:
            refused = error
        if refused is not None:
            assert refused.allowed
            assert _parts(refused.name) <= {*asked, *columns}, (
                f"{refused.name} is no argument: see refused_as"
            )
            return
        for number in _numbers(result):
            assert math.isfinite(number), (given_values, result)

    hold()
