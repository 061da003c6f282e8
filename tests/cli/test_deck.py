"""`sendoff deck`: what it prints, its exit codes, its questions, its JSON, and bad input as a person meets it."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from sendoff.calc.deck_plan import judge
from sendoff.cli.deck import clock, read_budget
from sendoff.errors import FaultyInput
from tests.cli.running import run

QUILLBACK = Path(__file__).parents[2] / "examples" / "quillback"
SHEET = QUILLBACK / "sheets" / "qb-0107.toml"
UTILITY = QUILLBACK / "sheets" / "qb-0203.toml"
SOIL = QUILLBACK / "cargo" / "garden_soil_and_quad.toml"
SMALL = QUILLBACK / "trucks" / "small_crossover.toml"
HEAD = 'schema = 1\nid = "load"\nsources = ["invented:test"]\n'
BLOCK = """[[item]]
id = "{id}"
name = "{id}"
mass = "{mass}"
length = "5 ft"
width = "5 ft"
height = "4 ft"
center_of_mass = "30 in"
set_down = true
"""


def cargo(folder: Path, *blocks: str) -> Path:
    path = folder / "load.toml"
    path.write_text(HEAD + "".join(blocks), encoding="utf-8")
    return path


def block(name: str = "block", mass: str = "2,000 lb") -> str:
    return BLOCK.format(id=name, mass=mass)


def data(*words: str | Path) -> tuple[int, dict[str, Any]]:
    done = run("deck", *words, "--json")
    assert done.err == ""
    found: dict[str, Any] = json.loads(done.out)
    return done.code, found


def test_the_demo_is_told_with_places_margins_steps_cautions_and_what_was_not_checked() -> None:
    done = run("deck", SHEET)
    for words in (
        "Deck plan: QB-0107", "Proved: no arrangement leaves more", "Where each stands",
        "right at the front of Main deck",
        "Share of the weight on the coupling", "points left", "Loading, step by step", "  1. Skid loader",
        "If the masses are wrong", "DANGER: ", "WARNING: ", "Not checked: ", "Data plate and makers' papers come first",
    ):  # fmt: skip
        assert words in done.out, words
    assert "safe" not in done.out.lower()
    assert done.code == 1  # the chains on board are too few for all three: told, and counted as passed
    assert "Tie-downs this load needs, by the gear on board: OVER, 2 short." in done.out


def test_spanish_and_metric_say_the_same_places() -> None:
    english = run("deck", SHEET, "--units", "metric").out
    spanish = run("deck", SHEET, "--language", "es", "--units", "metric").out
    assert "Plan de carga: QB-0107" in spanish
    assert "PELIGRO" in spanish
    assert "No revisado" in spanish
    assert "seguro" not in spanish.lower()
    rows = [re.findall(r"[0-9][0-9.,]*[0-9]|[0-9]", text.partition("\n\n")[2]) for text in (english, spanish)]
    assert rows[0][:40] == rows[1][:40]


def test_a_load_that_fits_ends_with_zero(tmp_path: Path) -> None:
    done = run("deck", SHEET, "--cargo", cargo(tmp_path, block()))
    assert done.code == 0, done.out
    assert "All of it stands, within the limits of weight and place." in done.out


def test_where_nothing_fits_the_clash_and_the_cheapest_repair_are_told() -> None:
    code, found = data(UTILITY, "--cargo", SOIL, "--truck", SMALL)
    assert (code, found["answer"], found["proved"]) == (1, "does_not_fit", True)
    assert "pin_share_least" in found["conflict"]["limits"]
    assert found["conflict"]["repairs"][0]["kind"] == "leave"
    assert found["steps"] == []  # nobody is told how to load what must not be driven
    done = run("deck", UTILITY, "--cargo", SOIL, "--truck", SMALL, "--language", "en")
    assert "NO arrangement of all this keeps every limit." in done.out
    assert "Do not drive it" in done.out


def test_a_missing_measure_ends_with_three(tmp_path: Path) -> None:
    text = block().replace('width = "5 ft"\n', "")
    code, found = data(SHEET, "--cargo", cargo(tmp_path, text))
    assert code == 3
    assert [row["in_words"] for row in found["findings"] if row["verdict"] == "unknown"] == [
        "UNKNOWN, measure its width"
    ]


def test_out_of_time_is_said_with_its_bound_and_never_called_proved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sendoff.cli.deck.clock", lambda _seconds: lambda: False)
    many = cargo(tmp_path, *(block(f"block_{n}", f"{1600 + 170 * n:,} lb") for n in range(12)))
    code, found = data(SHEET, "--cargo", many, "--choose")
    assert (code, found["answer"]) == (3, "not_decided")
    done = run("deck", SHEET, "--cargo", many, "--trips")
    assert done.code == 3
    assert "Not placed in the time given: block_0" in done.out
    assert "even alone" not in done.out


def test_the_best_found_in_time_is_told_with_its_bound(tmp_path: Path) -> None:
    many = cargo(tmp_path, *(block(f"block_{n}", f"{1000 + 97 * n:,} lb") for n in range(36)))
    done = run("deck", SHEET, "--cargo", many, "--choose", "--budget", "0.3s")
    assert "Proved: no other choice" not in done.out
    assert "Best found in the time given, not proved: it counts" in done.out or done.code == 3


def test_a_clock_runs_from_the_first_question() -> None:
    assert clock(3600)()
    assert not clock(-1)()
    assert read_budget("500 ms") == 0.5
    with pytest.raises(FaultyInput, match="--budget"):
        read_budget("soon")


# ── questions ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_what_if_an_item_is_heavier() -> None:
    done = run("deck", SHEET, "--heavier", "skid_loader=400 lb")
    assert "What if: Skid loader with bucket, tank full heavier by 400 lb" in done.out
    assert "8,350 lb" in done.out


def test_the_order_of_coming_off_is_kept() -> None:
    _, found = data(SHEET, "--drops", "skid_loader,posts")
    assert [row["off"] for row in found["stops"]] == [["skid_loader"], ["posts"], ["auger"]]
    front = {row["item"]: row["front_m"] for row in found["placements"]}
    assert front["skid_loader"] == max(front.values())


def test_which_of_many_and_several_trips(tmp_path: Path) -> None:
    many = cargo(tmp_path, *(block(f"block_{n}", f"{3000 + 700 * n:,} lb") for n in range(7)))
    code, found = data(SHEET, "--cargo", many, "--choose")
    assert code in {0, 1}
    assert found["chosen"]["proved"]
    assert 1 <= len(found["chosen"]["items"]) < 7
    done = run("deck", SHEET, "--cargo", many, "--trips")
    assert "In 3 trips" in done.out
    assert "Trip 2:" in done.out
    _, trips = data(SHEET, "--cargo", many, "--trips")
    assert sorted(name for trip in trips["trips"] for name in trip["chosen"]["items"]) == [
        f"block_{n}" for n in range(7)
    ]


def test_nothing_that_fits_even_alone_ends_with_one(tmp_path: Path) -> None:
    done = run("deck", SHEET, "--cargo", cargo(tmp_path, block(mass="30,000 lb")), "--choose")
    assert done.code == 1
    assert "None of them keeps every limit, even alone." in done.out


def test_an_arrangement_as_given_is_judged_and_a_phone_can_do_it_alone() -> None:
    words = (
        "--place",
        "skid_loader=1 ft,backward",
        "--place",
        "posts=13 ft",
        "--place",
        "auger=21.5 ft,tail",
    )
    code, found = data(SHEET, *words)
    assert found["asked"] == "given"
    assert code == 1
    assert [row["from_deck_front_m"] for row in found["placements"]] == pytest.approx(
        [n * 0.3048 for n in (1, 13, 21.5)]
    )
    alone = judge(found["by_hand"], found["placements"])
    assert alone["margin"] == pytest.approx(found["margin"], abs=1e-9)
    assert [row for row in alone["broken"] if row["name"] == "overlap"] == []
    close = data(SHEET, "--place", "skid_loader=1 ft", "--place", "posts=5 ft")[1]
    assert any(
        row["id"].startswith("deck.rule.overlap") and row["verdict"] == "over" for row in close["findings"]
    )


KEYS = {
    "version", "unit", "asked", "answer", "way", "proved", "margin", "margin_bound", "margin_flexible", "headline",
    "placements",
    "findings", "effort", "choices", "steps", "stops", "mass_error", "conflict", "chosen", "other_ways", "cautions",
    "not_checked", "authority", "by_hand",
}  # fmt: skip
PLACEMENT = {"item", "deck", "facing", "front_m", "from_deck_front_m"}
FINDING = {
    "id", "name", "kind", "demand_si", "least_si", "most_si", "margin_si", "verdict", "in_words", "missing", "notes",
    "sources",
}  # fmt: skip
BY_HAND = {"version", "gap_m", "edge_m", "drop_rule", "tight_ratio", "lines", "decks", "zones", "items"}


def test_the_json_keeps_its_shape_and_holds_only_numbers_json_knows() -> None:
    for words in ((SHEET,), (SHEET, "--place", "auger=1 ft"), (UTILITY, "--cargo", SOIL, "--truck", SMALL)):
        done = run("deck", *words, "--json")
        found = json.loads(done.out, parse_constant=pytest.fail)
        assert set(found) == KEYS
        assert found["version"] == 1
        assert all(set(row) == PLACEMENT for row in found["placements"])
        assert all(set(row) == FINDING for row in found["findings"])
        assert set(found["by_hand"]) == BY_HAND
        assert found["cautions"]
        assert found["not_checked"]
        assert found["authority"]


# ── bad input ───────────────────────────────────────────────────────────────────────────────────────────────────────

BAD = [
    ([block().replace("5 ft", "40 ft", 1)], "item[1] block: length: it is longer than the longest deck"),
    ([block(mass="0 lb")], "item[1].mass: a mass of nothing cannot stand here"),
    ([block(mass="nan lb")], "item[1].mass"),
    ([block(), block()], "item block: two items have this id (found 2 times). Give each its own id."),
    ([block(f"block_{n}") for n in range(41)], "more than 12 items (found 41). Ask for at most 40 at a time."),
    ([block().replace('"30 in"', '"90 in"')], "center_of_mass: the center of mass lies outside the item"),
    ([block().replace("set_down = true\n", "")], "item[1] block: wheelbase: the deck plan needs it."),
    ([block() + 'faces = "sideways"\n'], "item[1].faces"),
]  # fmt: skip


@pytest.mark.parametrize(("blocks", "problem"), BAD, ids=[problem for _, problem in BAD])
def test_a_cargo_that_cannot_be_is_refused_naming_item_and_cure(
    tmp_path: Path, blocks: list[str], problem: str
) -> None:
    done = run("deck", SHEET, "--cargo", cargo(tmp_path, *blocks))
    assert done.code == 2
    assert done.out == ""
    assert problem in done.err, done.err
    assert "Traceback" not in done.err
    assert "nan" not in done.err.replace("nan lb", "")
    assert done.err.strip().endswith(".")


OPTIONS = [
    (("--heavier", "skid_loader"), "--heavier: an item and a mass are expected (found skid_loader)"),
    (("--heavier", "skid_loader=lots"), "--heavier"),
    (("--heavier", "tractor=1 lb"), "there is no such item in the cargo file (found tractor)"),
    (("--heavier", "auger=-600 lb"), "mass_kg"),
    (("--drops", "tractor"), "--drops: there is no such item"),
    (("--place", "tractor=1 ft"), "--place: an item and its place are expected"),
    (("--place", "auger=1 ft,roof"), "that is no deck and no way round (found roof)"),
    (("--place", "auger=far"), "--place"),
    (("--way", "lift_up"), "--way: there is no such way to set up the decks (found lift_up)"),
    (("--budget", "2 lb"), "--budget"),
    (("--height", "20 in"), "itself stands as high as that"),
    (("--truck", "nowhere.toml"), "nowhere.toml"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "problem"), OPTIONS, ids=[problem for _, problem in OPTIONS])
def test_an_option_that_cannot_be_is_refused(words: tuple[str, ...], problem: str) -> None:
    done = run("deck", SHEET, *words)
    assert done.code == 2, done.out
    assert problem in done.err
    assert "Traceback" not in done.err


def test_a_sheet_without_cargo_asks_for_one() -> None:
    done = run("deck", UTILITY)
    assert done.code == 2
    assert "Name one with --cargo FILE." in done.err
