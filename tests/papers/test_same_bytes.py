"""The same inputs and day give the same bytes, whatever the hash seed, the time zone, the language and the folder."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.papers.contents import files_of_pack
from tests.papers.conftest import DAY, SHEETS
from tests.yards import SmallYard

SURROUNDINGS = (
    {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8"},
    {"PYTHONHASHSEED": "4242", "TZ": "America/Los_Angeles", "LC_ALL": "es_MX.UTF-8"},
)


def digests(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def run(yard: SmallYard, out: Path, cwd: Path, surroundings: dict[str, str]) -> dict[str, str]:
    cwd.mkdir(exist_ok=True)
    command = [
        sys.executable,
        "-m",
        "sendoff",
        "pack",
        str(yard.sheet),
        "-o",
        str(out),
        "--date",
        "2026-11-25",
    ]
    done = subprocess.run(
        command, cwd=cwd, env=os.environ | surroundings, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr + done.stdout
    return digests(out)


def test_packs_made_in_different_surroundings_are_the_same(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    found = [
        run(yard, tmp_path / f"out {number}", tmp_path / f"cwd {number}", surroundings)
        for number, surroundings in enumerate(SURROUNDINGS)
    ]
    assert len(found[0]) > 10
    assert found[0] == found[1] == found[2]


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_pack_made_twice_in_one_process_is_the_same(tmp_path: Path, language: str) -> None:
    yard = SmallYard(tmp_path)
    catalogue = load(yard.catalogue)
    unit = as_built(yard.sheet, catalogue)
    one = files_of_pack(unit, catalogue, language, "us", DAY)
    other = files_of_pack(unit, catalogue, language, "us", DAY)
    assert one == other


def test_another_day_another_owner_or_another_language_gives_another_pack(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    catalogue = load(yard.catalogue)
    unit = as_built(yard.sheet, catalogue)
    one = files_of_pack(unit, catalogue, "en", "us", DAY)
    spanish = files_of_pack(unit, catalogue, "es", "us", DAY)
    metric = files_of_pack(unit, catalogue, "en", "metric", DAY)
    for other in (spanish, metric):
        assert one["booklet.pdf"] != other["booklet.pdf"]
        assert one["briefing.html"] != other["briefing.html"]
    assert one["unit.json"] == spanish["unit.json"] == metric["unit.json"]


def test_a_pack_holds_what_it_says(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    catalogue = load(yard.catalogue)
    files = files_of_pack(as_built(yard.sheet, catalogue), catalogue, "en", "us", DAY)
    whole = {"booklet.pdf", "check-sheet.pdf", "load-card.pdf", "briefing.html", "upkeep.ics", "unit.json"}
    drawings = {name for name in files if name.startswith("drawings/")}
    assert set(files) == whole | set(SHEETS) | drawings
    assert {f"drawings/{name}.svg" for name in ("cover", "sheet", "map", "outline", "station-01")} <= drawings
    assert all(files[name].startswith(b"<svg ") for name in drawings)
