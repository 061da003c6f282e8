"""`sendoff findings`: what it prints, its exit codes, a truck and a cargo given by hand."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from sendoff.cli import app

QUILLBACK = Path(__file__).parents[2] / "examples" / "quillback"
DAY = ("--date", "2026-11-25")


def run(*arguments: str) -> tuple[int, str]:
    done = CliRunner().invoke(app, ["findings", *arguments, *DAY])
    return done.exit_code, done.output


def sheet(name: str) -> str:
    return str(QUILLBACK / "sheets" / f"{name}.toml")


@pytest.mark.parametrize(("name", "code"), [("qb-0107", 1), ("qb-0111", 3)])
def test_the_exit_code_is_that_of_the_worst_finding(name: str, code: int) -> None:
    assert run(sheet(name))[0] == code


def test_a_cargo_given_by_hand_takes_the_place_of_the_sheets(tmp_path: Path) -> None:
    cargo = tmp_path / "bricks.toml"
    cargo.write_text(
        'schema = 1\nid = "bricks"\nsources = ["invented:test"]\n[[item]]\nid = "bricks"\nname = "Pallets of bricks"\n'
        'mass = "16,500 lb"\nlength = "16 ft"\nwidth = "7 ft"\ncenter_of_mass = "8 ft"\nset_down = true\n',
        encoding="utf-8",
    )
    code, said = run(sheet("qb-0107"), "--cargo", str(cargo))
    assert code == 1
    assert "Pallets of bricks" in said
    assert "Skid loader" not in said
    assert "This load, all items" in said
    named = run(sheet("qb-0107"))[1]
    assert "Skid loader" in named


def test_json_holds_the_findings_their_notes_and_the_load_card() -> None:
    code, said = run(sheet("qb-0107"), "--json")
    assert code == 1
    answers: list[dict[str, Any]] = json.loads(said)
    rows = {row["id"]: row for row in answers[0]["findings"]}
    assert rows["cargo.way_on"]["notes"]
    assert rows["breakaway.hold"]["missing"] == ["breakaway_rating"]
    card = answers[0]["load_card"]
    assert card["alone"]["most_kg"] == pytest.approx(15_940 * 0.45359237)
    assert card["with_truck"]["bands"]


def test_the_load_card_closes_the_answer_in_the_readers_language() -> None:
    said = run(sheet("qb-0203"))[1]
    assert "Tarjeta de carga" in said
    assert "kg" in said
    assert said.index("Tarjeta de carga") < said.index("No revisado")


def test_a_cargo_file_with_a_mistake_is_refused(tmp_path: Path) -> None:
    cargo = tmp_path / "bad.toml"
    cargo.write_text(
        'schema = 1\nid = "bad"\nsources = ["x:y"]\n[[item]]\nid = "a"\nname = "A"\nmass = "7 psi"\n',
        encoding="utf-8",
    )
    done = CliRunner().invoke(app, ["findings", sheet("qb-0107"), "--cargo", str(cargo)])
    assert done.exit_code == 2
    assert "mass" in done.output
    assert "Traceback" not in done.output
