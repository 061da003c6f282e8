"""Published tables: refused whole if a row lacks unit or source; read in SI; never extended."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import sources, tables
from sendoff.errors import FaultyInput, OutOfRange
from sendoff.tables import Table

GOOD = """
id = "rope"
title = "Rope"
source = "common_practice"
clause = "rope"
optional = ["load_kg"]
[columns]
kind = "text"
layer_count = "count"
length_m = "length"
load_kg = "mass"
fit = "yes_no"
[[row]]
kind = "wire"
layer_count = 1
length_m = "10 ft"
load_kg = "1,000 lb"
fit = true
[[row]]
kind = "wire"
layer_count = 2
length_m = "20 ft"
load_kg = "900 lb"
fit = false
source = "house_rule"
clause = "another"
note = "less"
[[row]]
kind = "wire"
layer_count = 3
length_m = "40 ft"
fit = false
evidence = "memory"
"""


def write(folder: Path, text: str, name: str = "rope.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@pytest.fixture
def rope(tmp_path: Path) -> Table:
    return tables.read(write(tmp_path, GOOD))


def test_a_table_is_read_in_si_with_the_source_of_every_row(rope: Table) -> None:
    assert rope.column("length_m") == pytest.approx((3.048, 6.096, 12.192))
    assert [row["source"] for row in rope.rows] == ["common_practice", "house_rule", "common_practice"]
    assert [row["clause"] for row in rope.rows] == ["rope", "another", "rope"]
    assert [row["evidence"] for row in rope.rows] == ["common practice, no source", "derived", "memory"]
    assert rope.rows[2]["load_kg"] is None
    assert rope.rows[1]["note"] == "less"


def test_rows_cannot_be_written_to(rope: Table) -> None:
    with pytest.raises(TypeError):
        rope.rows[0]["length_m"] = 1.0  # type: ignore[index]


def test_one_row_is_found_by_its_keys(rope: Table) -> None:
    assert rope.row(layer_count=2)["load_kg"] == pytest.approx(408.233133)
    assert rope.row(length_m=3.048)["layer_count"] == 1
    assert rope.row(fit=True)["layer_count"] == 1


def test_a_key_no_row_holds_is_refused_with_what_there_is(rope: Table) -> None:
    with pytest.raises(OutOfRange, match=r"must be one of 1, 2, 3 \(table rope\)") as refused:
        rope.row(layer_count=4)
    assert refused.value.name == "layer_count"
    with pytest.raises(OutOfRange, match=r"must be one of 3\.048 m") as refused:
        rope.row(layer_count=1, length_m=9.0)
    assert refused.value.name == "length_m"


def test_keys_that_fit_several_rows_are_refused(rope: Table) -> None:
    with pytest.raises(OutOfRange, match="exactly one row"):
        rope.row(kind="wire")


def test_a_key_that_is_no_column_is_a_mistake_of_ours(rope: Table) -> None:
    for call in (
        lambda: rope.column("color"),
        lambda: rope.row(color="red"),
        lambda: rope.at_or_below("color", 1),
    ):
        with pytest.raises(KeyError, match="no column color"):
            call()


def test_steps_are_found_downwards_and_upwards(rope: Table) -> None:
    assert rope.at_or_below("length_m", 6.1)["layer_count"] == 2
    assert rope.at_or_below("length_m", 6.096 - 1e-12)["layer_count"] == 2, "a hair below is on the step"
    assert rope.at_or_above("length_m", 6.1)["layer_count"] == 3
    with pytest.raises(OutOfRange, match=r"must not be below 3\.048 m"):
        rope.at_or_below("length_m", 1.0)
    with pytest.raises(OutOfRange, match=r"must not be above 12\.192 m"):
        rope.at_or_above("length_m", 13.0)


def test_between_two_rows_lies_a_straight_line(rope: Table) -> None:
    assert rope.interpolate("length_m", 3.048, "load_kg") == pytest.approx(453.59237)
    assert rope.interpolate("length_m", 4.572, "load_kg") == pytest.approx(430.9127515)
    assert rope.interpolate("length_m", 6.096, "load_kg") == pytest.approx(408.233133)


@pytest.mark.parametrize("x", [3.0, 6.2, math.nan, math.inf, -math.inf])
def test_a_table_is_never_extended(rope: Table, x: float) -> None:
    with pytest.raises(OutOfRange, match="must lie within the table rope"):
        rope.interpolate("length_m", x, "load_kg")


@given(st.floats(3.048, 12.192), st.floats(3.048, 12.192))
def test_interpolation_keeps_the_order_of_the_rows(one: float, other: float) -> None:
    table = tables.load("tire_load_inflation")
    keys = {"tire_size": "LT235/85R16", "fitment": "single"}
    low, high = (value * 45_000 for value in sorted((one, other)))
    low, high = (min(max(value, 241_317.0), 551_580.0) for value in (low, high))
    assert table.interpolate("pressure_Pa", low, "load_kg", **keys) <= table.interpolate(
        "pressure_Pa", high, "load_kg", **keys
    )


@pytest.mark.parametrize(
    ("old", "new", "key", "problem"),
    [
        ('length_m = "10 ft"', "length_m = 3.048", "row 1.length_m", "number without a unit"),
        ('length_m = "10 ft"', 'length_m = "10 lb"', "row 1.length_m", "not a unit of length"),
        ('length_m = "10 ft"', 'length_m = "10"', "row 1.length_m", "unit is missing"),
        ('length_m = "10 ft"\n', "", "row 1.length_m", "is missing"),
        ("layer_count = 1", 'layer_count = "1"', "row 1.layer_count", "not a whole number"),
        ("layer_count = 1", "layer_count = true", "row 1.layer_count", "not a whole number"),
        ("fit = true", 'fit = "yes"', "row 1.fit", "neither true nor false"),
        ('kind = "wire"\nlayer_count = 1', "kind = 1\nlayer_count = 1", "row 1.kind", "not a text"),
        ("fit = true", 'fit = true\ncolor = "red"', "row 1.color", "no column"),
        ('source = "common_practice"', "", "row 1.source", "no source"),
        ('source = "house_rule"', 'source = "nowhere"', "row 2.source", "not among the sources"),
        ('evidence = "memory"', 'evidence = "hearsay"', "row 3.evidence", "no kind of evidence"),
        ('id = "rope"', 'id = "chain"', "id", "differs from the file's name"),
        ('title = "Rope"', "", "title", "missing or no text"),
        ('length_m = "length"', 'length_m = "mass"', "columns.length_m", "named for another kind"),
        ('length_m = "length"', 'length_m = "weight"', "columns.length_m", "no kind of quantity"),
        ('kind = "text"', 'source = "text"', "columns.source", "kept for where a row comes from"),
        ('optional = ["load_kg"]', 'optional = ["color"]', "optional", "no column"),
        ('title = "Rope"', 'title = "Rope"\nsize = 3', "size", "not known here"),
    ],
)
def test_a_faulty_table_is_refused_by_file_row_and_key(
    tmp_path: Path, old: str, new: str, key: str, problem: str
) -> None:
    assert old in GOOD
    with pytest.raises(FaultyInput) as refused:
        tables.read(write(tmp_path, GOOD.replace(old, new, 1)))
    found = {fault.key: fault for fault in refused.value.faults}
    assert key in found, found
    assert problem in found[key].problem
    assert found[key].file == "rope.toml"
    assert found[key].cure


def test_all_faults_are_named_at_once(tmp_path: Path) -> None:
    text = GOOD.replace('"10 ft"', "3.0").replace('"20 ft"', "6.0").replace('"900 lb"', '"900 psi"')
    with pytest.raises(FaultyInput) as refused:
        tables.read(write(tmp_path, text))
    assert [fault.key for fault in refused.value.faults] == [
        "row 1.length_m",
        "row 2.length_m",
        "row 2.load_kg",
    ]


@pytest.mark.parametrize("text", ["id = ", "", "id = 'rope'\nrow = 3", "\x00"])
def test_what_is_no_table_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(FaultyInput):
        tables.read(write(tmp_path, text))


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FaultyInput, match="cannot be read"):
        tables.read(tmp_path / "none.toml")


def test_a_table_nobody_ships_is_refused_with_what_there_is() -> None:
    with pytest.raises(FaultyInput, match="tire_load_index"):
        tables.load("tires_of_gold")


def test_a_table_is_read_once() -> None:
    assert tables.load("tire_load_index") is tables.load("tire_load_index")


@pytest.mark.parametrize("table_id", tables.ids())
def test_every_table_shipped_is_whole(table_id: str) -> None:
    table = tables.load(table_id)
    assert table.id == table_id
    for row in table.rows:
        assert row["source"] in sources.load()
        assert row["evidence"] in sources.EVIDENCE
        for name in table.columns:
            assert not isinstance(row[name], float) or math.isfinite(row[name])
