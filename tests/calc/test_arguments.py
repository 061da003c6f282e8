"""Arguments as a person writes them: any unit of the right dimension, nothing of another."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import arguments, calculations, contract
from sendoff.calc.contract import Calculation
from sendoff.errors import FaultyInput
from sendoff.tables import Table


def everything(
    name: str,
    day: dt.date,
    length_m: float,
    item_mass_kg: tuple[float, ...],
    wheel_count: int,
    kind: Literal["one_way", "Two Way"] = "one_way",
    powered: bool = False,
    share_ratio: float = 0.5,
    note: str | None = None,
    top_mass_kg: float | None = None,
    table: Table | None = None,
) -> str:
    """Text."""
    return name


@pytest.fixture
def asked() -> Calculation:
    contract.calculation("tests", "nothing", gives="name", tables={"table": "tire_load_index"})(everything)
    return contract.REGISTRY.pop("everything")


REQUIRED = {"name": "a", "day": "2026-05-31", "length_m": "10 ft", "item_mass_kg": "1 lb", "wheel_count": "2"}


def read(asked: Calculation, **more: Any) -> dict[str, Any]:
    return arguments.read(asked, {**REQUIRED, **more})


def test_each_argument_says_what_it_may_be(asked: Calculation) -> None:
    found = arguments.arguments(asked)
    assert {name: one.form for name, one in found.items()} == {
        "name": "text", "day": "date", "length_m": "quantity", "item_mass_kg": "quantity", "wheel_count": "count",
        "kind": "words", "powered": "yes_no", "share_ratio": "quantity", "note": "text", "top_mass_kg": "quantity",
        "table": "table",
    }  # fmt: skip
    assert found["item_mass_kg"].many
    assert found["kind"].words == ("one_way", "Two Way")
    assert [name for name, one in found.items() if not one.optional] == list(REQUIRED)
    assert "ft" in found["length_m"].said
    assert found["item_mass_kg"].said.startswith("list, comma-separated: mass (")


def test_values_are_read_in_any_unit_of_their_dimension(asked: Calculation) -> None:
    found = read(
        asked, length_m="3.048 m", share_ratio="25 %", powered="yes", kind="two-way", top_mass_kg="1 t"
    )
    assert found["length_m"] == read(asked)["length_m"] == 3.048
    assert found["share_ratio"] == 0.25
    assert found["powered"] is True
    assert found["kind"] == "Two Way"
    assert found["top_mass_kg"] == 1000.0
    assert found["day"] == dt.date(2026, 5, 31)


def test_the_unit_suffix_of_a_name_may_be_left_off(asked: Calculation) -> None:
    given_as = {**REQUIRED, "length": "10 ft"}
    del given_as["length_m"]
    assert arguments.read(asked, given_as)["length_m"] == 3.048
    assert arguments.read(asked, {**REQUIRED, "share-ratio": "0.1"})["share_ratio"] == 0.1


def test_the_same_input_given_twice_is_refused(asked: Calculation) -> None:
    with pytest.raises(FaultyInput, match="given twice"):
        arguments.read(asked, {**REQUIRED, "length": "10 ft"})


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("1 lb, 2 lb", 2),
        ("1,200 lb, 2 lb", 2),
        ("1,200 lb,2,400 lb", 2),
        ("1,200,000 lb", 1),
        ("1 lb,200 lb", 2),
        ("1 lb, 200 lb, ", 2),
    ],
)
def test_lists_are_cut_at_commas_but_not_inside_a_number(asked: Calculation, text: str, count: int) -> None:
    assert len(read(asked, item_mass_kg=text)["item_mass_kg"]) == count


@given(st.lists(st.integers(0, 10**9), min_size=1, max_size=5))
def test_a_list_of_written_numbers_comes_back_whole(numbers: list[int]) -> None:
    text = ", ".join(f"{number:,} kg" for number in numbers)
    assert arguments._cut(text) == [f"{number:,} kg" for number in numbers]


@pytest.mark.parametrize(
    ("key", "value", "problem"),
    [
        ("length_m", "10 lb", "not a unit of length"),
        ("length_m", "10", "unit is missing"),
        ("length_m", 10, "without a unit"),
        ("length_m", "nan m", "not a number"),
        ("length_m", "1e99 km", ""),
        ("item_mass_kg", "1 lb, 2 ft", "not a unit of mass"),
        ("wheel_count", "2.5", "not a whole number"),
        ("wheel_count", "2 ft", "not a whole number"),
        ("wheel_count", "9" * 20, "not a whole number"),
        ("kind", "three_way", "not a word it knows"),
        ("powered", "maybe", "neither yes nor no"),
        ("day", "2026-02-30", "not a date"),
        ("day", "31.5.2026", "not a date"),
        ("share_ratio", "5 lb", "not a unit of ratio"),
        ("table", "nowhere", "not a published table"),
        ("table", "nowhere.toml", "cannot be read"),
        ("lenght_m", "1 m", "no such input"),
    ],
)
def test_what_does_not_fit_is_refused_by_its_key(
    asked: Calculation, key: str, value: Any, problem: str
) -> None:
    if not problem:
        assert read(asked, **{key: value})[key] == 1e102
        return
    with pytest.raises(FaultyInput) as refused:
        read(asked, **{key: value})
    fault = refused.value.faults[0]
    assert problem in fault.problem
    assert fault.cure


def test_a_near_name_is_offered(asked: Calculation) -> None:
    with pytest.raises(FaultyInput, match="Did you mean length_m"):
        read(asked, lenght_m="1 m")


def test_everything_missing_is_named_at_once(asked: Calculation) -> None:
    with pytest.raises(FaultyInput) as refused:
        arguments.read(asked, {"powered": "maybe"})
    assert [fault.key for fault in refused.value.faults] == ["powered", *REQUIRED]


def test_what_may_be_unknown_can_be_said_to_be(asked: Calculation) -> None:
    assert read(asked, top_mass_kg="none")["top_mass_kg"] is None
    assert read(asked, top_mass_kg="unknown")["top_mass_kg"] is None


def test_values_of_toml_are_taken_as_they_are(asked: Calculation) -> None:
    found = read(asked, wheel_count=4, powered=True, day=dt.date(2026, 1, 2), item_mass_kg=["1 lb", "2 lb"])
    assert found["wheel_count"] == 4
    assert found["powered"] is True
    assert found["day"] == dt.date(2026, 1, 2)
    assert len(found["item_mass_kg"]) == 2


def test_a_yards_own_table_takes_the_place_of_the_published_one(asked: Calculation, tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text(
        'id = "own"\ntitle = "Own"\nsource = "house_rule"\n[columns]\nload_index = "count"\nload_kg = "mass"\n'
        '[[row]]\nload_index = 1\nload_kg = "5 kg"\n',
        encoding="utf-8",
    )
    assert read(asked, table=str(own))["table"].id == "own"
    assert read(asked, table="tire_load_index")["table"].id == "tire_load_index"


def _takes_bytes(data: bytes) -> bytes:
    return data


def _takes_two_types(data: int | str) -> int | str:
    return data


@pytest.mark.parametrize("function", [_takes_bytes, _takes_two_types])
def test_a_calculation_that_asks_for_anything_else_is_a_mistake_of_ours(function: Callable[..., Any]) -> None:
    filed = Calculation(function.__name__, "tests", "", "", {}, {}, function)
    with pytest.raises(TypeError, match="data"):
        arguments.arguments(filed)


@pytest.mark.parametrize(
    ("text", "gauge"),
    [("10", 10), ("10 AWG", 10), ("#10", 10), ("1/0", 0), ("2/0 awg", -1), ("4/0", -3), ("-3", -3)],
)
def test_a_wire_gauge_is_read_as_it_stands_on_the_reel(text: str, gauge: int) -> None:
    asked = calculations()["wire_diameter"]
    assert arguments.read(asked, {"awg": text}) == {"awg": gauge}


@pytest.mark.parametrize("text", ["5/0", "0/0", "10 mm2", "ten", "1/2", ""])
def test_what_is_no_wire_gauge_is_refused(text: str) -> None:
    with pytest.raises(FaultyInput, match="not a wire gauge"):
        arguments.read(calculations()["wire_diameter"], {"awg": text})


def test_where_two_inputs_differ_only_by_unit_the_unit_tells_which_is_meant() -> None:
    asked = calculations()["winch_current"]
    given_as = {"line": "5000 lbf", "rated": "9500 lbf", "rated_A": "400 A", "no_load": "70 A"}
    assert arguments.read(asked, given_as)["rated_N"] == pytest.approx(42_258.1, abs=0.1)
    with pytest.raises(FaultyInput, match="Did you mean"):
        arguments.read(asked, {**given_as, "rated": "12 V"})
