"""`sendoff catalogue diff`: which units would read differently, in what, and with which exit code."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.cli.running import Done, run
from tests.yards import SmallYard


def diff(*arguments: object) -> Done:
    return run("catalogue", "diff", *map(str, arguments), "--date", "2026-11-25")


@pytest.fixture
def yards(tmp_path: Path) -> tuple[SmallYard, SmallYard]:
    """The yard as it was and as it is, alike."""
    return SmallYard(tmp_path / "old"), SmallYard(tmp_path / "new")


TIRE = "catalogue/cards/running_gear/my_tire.toml"


def test_two_catalogues_alike_change_nothing(yards: tuple[SmallYard, SmallYard]) -> None:
    old, new = yards
    done = diff(old.folder, new.folder)
    assert (done.code, done.err) == (0, "")
    assert done.out == "T-1  the same\n0 of 1 units would read differently\n"


def test_a_changed_value_is_told_with_the_texts_and_findings_it_is_in(
    yards: tuple[SmallYard, SmallYard],
) -> None:
    old, new = yards
    text = (new.folder / TIRE).read_text("utf-8")
    (new.folder / TIRE).write_text(text.replace('cold_pressure = "', 'cold_pressure = "1'), encoding="utf-8")
    done = diff(old.folder, new.folder, "--json")
    assert done.code == 1
    (answer,) = json.loads(done.out)
    assert answer["unit"] == "T-1"
    found = {(one["kind"], one["key"]): (one["old"], one["new"]) for one in answer["differences"]}
    before, after = found["value", "tires.cold_pressure"]
    assert after == f"1{before}"
    for language in ("en", "es"):
        was, now = found["text", f"{language} step tires:fill"]
        assert before in was.replace("\N{NO-BREAK SPACE}", " ")
        assert after in now.replace("\N{NO-BREAK SPACE}", " ")
    assert {kind for kind, _ in found} <= {"value", "text", "finding"}


def test_one_word_changed_is_one_text_in_one_language(yards: tuple[SmallYard, SmallYard]) -> None:
    old, new = yards
    new.change(TIRE, "Never let air out of a hot tire.", "Let no air out of a hot tire.")
    done = diff(old.folder, new.folder, new.sheet)
    assert done.code == 1
    lines = done.out.splitlines()
    assert lines[0] == "T-1  1 text"
    assert lines[1].split() == ["text", "en", "caution", "tires:no_bleed"]
    assert "Never let air out" in lines[2]
    assert "Let no air out" in lines[3]


def test_counts_alone_make_a_line_a_unit(yards: tuple[SmallYard, SmallYard]) -> None:
    old, new = yards
    new.change(TIRE, "Never let air out of a hot tire.", "Let no air out of a hot tire.")
    done = diff(old.folder, new.folder, "--counts")
    assert done.out == "T-1  1 text\n1 of 1 units would read differently\n"


def test_another_part_in_a_slot_is_told_as_a_part(yards: tuple[SmallYard, SmallYard]) -> None:
    old, new = yards
    sheet = new.sheet.read_text("utf-8").replace('options = ["stronger_tires"]', "options = []")
    for yard in yards:
        yard.sheet.write_text(sheet, encoding="utf-8")
    trailer = (new.folder / "catalogue/trailers/small_flat.toml").read_text("utf-8")
    standard = next(line for line in trailer.splitlines() if "standard = " in line and "my_tire/" in line)
    fits = next(line for line in trailer.splitlines() if "fits = " in line and "my_tire/" in line)
    stronger = fits.split("my_tire/")[1].split('"')[0]
    weaker = standard.split("my_tire/")[1].split('"')[0]
    assert stronger != weaker
    changed = trailer.replace(standard, standard.replace(f"my_tire/{weaker}", f"my_tire/{stronger}"))
    (new.folder / "catalogue/trailers/small_flat.toml").write_text(changed, encoding="utf-8")
    done = diff(old.folder, new.folder, new.sheet)
    assert done.code == 1
    assert f"- my_tire/{weaker} at left_1, right_1" in done.out
    assert f"+ my_tire/{stronger} at left_1, right_1" in done.out


def test_a_sheet_the_new_catalogue_refuses_is_a_difference(yards: tuple[SmallYard, SmallYard]) -> None:
    old, new = yards
    path = new.folder / "catalogue/trailers/small_flat.toml"
    path.write_text(path.read_text("utf-8").replace("stronger_tires", "other_tires"), encoding="utf-8")
    done = diff(old.folder, new.folder, old.sheet)
    assert done.code == 1
    assert done.out.startswith("T-1  1 refused\n")
    assert "stronger_tires" in done.out


def test_a_sheet_both_refuse_is_faulty_input_and_the_others_are_told(
    yards: tuple[SmallYard, SmallYard],
) -> None:
    old, new = yards
    bad = new.sheet.with_name("bad.toml")
    bad.write_text(new.sheet.read_text("utf-8").replace("small_flat", "no_such"), encoding="utf-8")
    done = diff(old.folder, new.folder, bad, new.sheet)
    assert done.code == 2
    assert "no_such" in done.err
    assert "Traceback" not in done.err
    assert "T-1  the same" in done.out


def test_a_folder_without_sheets_or_without_a_catalogue_is_refused_with_the_cure(
    yards: tuple[SmallYard, SmallYard], tmp_path: Path
) -> None:
    old, new = yards
    shutil.rmtree(new.sheet.parent)
    done = diff(old.folder, new.folder)
    assert done.code == 2
    assert "Name build sheets" in done.err
    done = diff(old.folder, tmp_path, old.sheet)
    assert done.code == 2
    assert "no catalogue in that folder" in done.err
