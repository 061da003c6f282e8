"""`sendoff calc`: lists, explains, computes with any unit, refuses with exit code 2."""

from __future__ import annotations

import datetime as dt
import json
import subprocess
import sys
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from sendoff.calc import arguments, calculations
from sendoff.cli import app, calc


def run(*words: str) -> Result:
    return CliRunner().invoke(app, ["calc", *words])


def answer(*words: str) -> dict[str, Any]:
    done = run(*words, "--json")
    assert done.exit_code == 0, done.output
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_the_list_names_every_calculation_with_its_meaning() -> None:
    lines = run().stdout.splitlines()
    listed = {}
    for line in lines:
        name, gap, meaning = line.partition("  ")
        if gap:
            listed[name] = meaning.strip()
    assert listed == {name: one.meaning for name, one in calculations().items()}
    assert "Identity:" in lines


def test_one_family_can_be_listed_alone() -> None:
    lines = run("tires").stdout.splitlines()
    assert lines[0] == "Tires:"
    assert all("  " in line for line in lines[1:])
    assert len(lines) == 1 + sum(one.family == "tires" for one in calculations().values())


def test_help_without_a_name_says_how_to_ask() -> None:
    done = run("--help")
    assert done.exit_code == 0
    assert "key=value" in done.stdout


@pytest.mark.parametrize("name", sorted(calculations()))
def test_every_calculation_says_what_it_asks_for(name: str) -> None:
    done = run(name, "--help")
    assert done.exit_code == 0, done.output
    for argument in arguments.arguments(calculations()[name]).values():
        assert f"{argument.name}={argument.said}" in done.stdout
    for heading in ("Inputs", "Result", "Range", "Example", "Source"):
        assert f"\n{heading}\n" in done.stdout


def test_the_answer_is_data_with_its_working_and_sources() -> None:
    words = ("cold_pressure_Pa=70 psi", "set_temperature_K=70 degF", "temperature_K=100 °F")
    found = answer("tire_pressure_at_temperature", *words)
    assert set(found) == {"calculation", "result", "working", "sources"}
    assert found["calculation"] == "tire_pressure_at_temperature"
    result = found["result"]["pressure_Pa"]
    assert set(result) == {"value", "unit", "shown_us", "shown_metric"}
    assert result["unit"] == "Pa"
    assert result["value"] / 6894.757293168 == pytest.approx(74.8, abs=0.05)
    assert result["shown_us"] == "74.797 psi"
    assert result["shown_metric"] == "515.71 kPa"
    step = found["working"][0]
    assert step["formula"] == "p2 = (p1 + p_atm) · T2 / T1 - p_atm"
    assert [term["symbol"] for term in step["put_in"]] == ["p1", "T1", "T2", "p_atm"]
    assert found["sources"][0]["id"] == "gas_law"


@pytest.mark.parametrize("pressure", ["110 psi", "758.4233022485197 kPa", "7.584233022485197 bar", "110PSI"])
def test_any_unit_of_the_dimension_gives_the_same(pressure: str) -> None:
    found = answer("pressure_rating_chain", f"cold_pressure={pressure}", "tire_pressure=125 psi")
    assert found["result"]["margin_Pa"]["value"] == pytest.approx(15 * 6894.757293168)


def test_words_yes_and_no_lists_and_dates_are_read_and_told() -> None:
    found = answer("axle_rating_chain", "tire_load=1653 lb", "passenger_tire=yes", "gawr=3,500 lb")["result"]
    assert found["weakest"] == {"value": "tires"}
    assert found["label_holds"] == {"value": False}
    assert found["not_known"] == {"value": ["wheels", "studs", "hubs", "axle", "springs"]}
    assert found["wheels_kg"] == {"value": None}
    listed = answer("weakest_part", "part_name=ball, shank", "part_rating=7,500 lb,6000 lb")["result"]
    assert listed["part"] == {"value": "shank"}
    week = answer("tire_week", "date_code=0109")["result"]
    assert week["first_day"] == {"value": "2009-01-04"}


def test_today_is_this_day_unless_it_is_given(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sendoff.cli.calc.this_day", lambda: "2019-01-04")
    assert answer("tire_age", "date_code=0109")["result"]["years"] == {"value": 10}
    assert answer("tire_age", "date_code=0109", "today=2010-01-04")["result"]["years"] == {"value": 1}
    assert "today=date, such as 2026-05-31 (default: this day)" in run("tire_age", "--help").stdout


def test_this_day_is_a_day() -> None:
    assert dt.date.fromisoformat(calc.this_day()).year >= 2025


def test_a_person_reads_result_working_source_and_who_comes_first() -> None:
    done = run("cargo_capacity", "gvwr_kg=14000 lb", "empty-mass-kg=4360 lb")
    assert done.exit_code == 0
    lines = done.stdout.splitlines()
    assert lines[0].startswith("capacity_kg")
    assert "9,640 lb (4,372.6 kg)" in lines[0]
    assert "Working" in lines
    assert any("m_cargo = GVWR - m_empty" in line for line in lines)
    assert "Source" in lines
    assert any("49 CFR" in line and "read at source" in line for line in lines)
    assert lines[-1].startswith("The data plate and the makers' papers come first")


def test_a_table_stands_among_the_sources() -> None:
    found = answer("load_index_mass", "load_index=126")
    assert any(source.get("table") == "tire_load_index" for source in found["sources"])
    assert found["working"][0]["put_in"] == [{"name": "load_index", "symbol": "LI", "value": 126}]


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (["cargo_capasity"], "Near it: cargo_capacity"),
        (["zzz"], "sendoff calc lists all"),
        (["load_index_mass"], "load_index: is missing"),
        (["load_index_mass", "load_index=126", "load_index=127"], "load_index: is given twice"),
        (["load_index_mass", "126"], "is not key=value"),
        (["load_index_mass", "load_index=126", "weight=3"], "weight: load_index_mass has no such input"),
        (["load_index_mass", "load_index=9"], "load_index: must be one of"),
        (["load_index_mass", "load_index=12 lb"], "not a whole number"),
        (["load_index_for", "load=12 psi"], "'psi' is not a unit of mass"),
        (["load_index_for", "load=12"], "unit is missing"),
        (["load_index_for", "load=-12 lb"], "load_kg: must be above zero (found -12 lb)"),
        (["chain_wll", "chain_size=0.4 in"], "0.25 in, 0.3125 in"),
        (
            ["coupling_load_check", "coupling_load=1 lb", "trailer_mass=5 lb", "low=10", "high=15"],
            "100 % (found 10)",
        ),
        (["load_index_for", "load=nan lb"], "is not a number"),
        (["tread_depth_check", "tread_depth=3/32 in", "position=roof"], "not a word it knows"),
        (["tire_week", "date_code=5423"], "date_code: must name a week"),
        (["vin_check", "vin=1T9CA2O22S1000001"], "I, O and Q are never used"),
        (["cargo_capacity", "gvwr=14000 lb", "empty_mass=4360 lb", "uncertainty=none"], "uncertainty_kg: "),
    ],
)
def test_what_is_wrong_is_one_clear_message_and_exit_code_2(words: list[str], part: str) -> None:
    done = run(*words)
    assert done.exit_code == 2, done.output
    assert part in done.stderr
    assert not done.stdout
    assert "Traceback" not in done.output
    assert len(done.stderr.strip().splitlines()) == 1


def test_all_that_is_wrong_is_said_at_once() -> None:
    done = run("cargo_capacity", "gvwr=5 psi", "weight=3")
    assert done.exit_code == 2
    assert len(done.stderr.strip().splitlines()) == 3


def test_the_command_itself_ends_with_2_and_without_a_traceback() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "sendoff", "calc", "vin_check", "vin=123"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert "17 characters" in done.stderr


def test_json_holds_for_an_example_of_every_calculation() -> None:
    """One worked example and one refusal of each through the command line, with all that --help promises, no NaN."""
    from tests.calc.test_cases import CASES

    answered: set[str] = set()
    refused: set[str] = set()
    for case in CASES:
        if case["function"] in (refused if "refused" in case else answered):
            continue
        words = [f"{key}={_word(value)}" for key, value in case["inputs"].items()]
        result = run(case["function"], *words, "--json")
        if "refused" in case:
            assert result.exit_code == 2, f"{case['id']}: {result.output}"
            assert case["refused"] in result.stderr, f"{case['id']}: {result.stderr}"
            assert not result.stdout
            refused.add(case["function"])
            continue
        assert result.exit_code == 0, f"{case['id']}: {result.output}"
        assert "NaN" not in result.stdout, case["id"]
        assert "Infinity" not in result.stdout, case["id"]
        found = json.loads(result.stdout)
        promised = [line.split(" [")[0] for line in calc.result_of(calculations()[case["function"]])]
        assert list(found["result"]) == promised, case["id"]
        assert found["working"][-1]["calculation"] == case["function"]
        assert found["sources"], case["id"]
        answered.add(case["function"])
    assert answered == set(calculations())
    assert len(refused) > 250


@pytest.mark.parametrize("name", sorted(calculations()))
def test_a_value_of_another_dimension_is_refused_by_its_name(name: str) -> None:
    """Each input that is a quantity, given as one of another kind, ends with exit code 2 and names the field."""
    for argument in arguments.arguments(calculations()[name]).values():
        if argument.form != "quantity":
            continue
        wrong = "3 A" if argument.kind != "current" else "3 psi"
        done = run(name, f"{argument.name}={wrong}")
        assert done.exit_code == 2, argument.name
        assert any(
            line.startswith(f"{argument.name}: ") and "not a unit of" in line
            for line in done.stderr.splitlines()
        )


def _word(value: object) -> str:
    if isinstance(value, list):
        return ", ".join(_word(one) for one in value)
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)
