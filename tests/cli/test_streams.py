"""What the command line prints on: readers that leave, full disks, screens that lack signs, Ctrl-C and its like."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from sendoff.cli import streams
from tests.cli.running import SENDOFF, apart, files_in
from tests.yards import SmallYard

DAY = ("--date", "2026-11-25")


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


# ── readers that leave ──────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "words", [("calc",), ("findings", "SHEET", "--working"), ("new", "small_flat"), ("--help",)]
)
@pytest.mark.parametrize("lines", [0, 1])
def test_a_reader_that_leaves_is_no_error(yard: SmallYard, words: tuple[str, ...], lines: int) -> None:
    """As `sendoff calc | head -1` does."""
    command = [*SENDOFF, *(str(yard.sheet) if word == "SHEET" else word for word in words)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=yard.folder
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        for _ in range(lines):
            assert process.stdout.readline()
        process.stdout.close()
        assert process.stderr.read() == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")
@pytest.mark.parametrize(
    "words", [("calc",), ("findings", "SHEET"), ("new", "small_flat"), ("catalogue", "count")]
)
def test_a_full_disk_under_the_output_is_told_in_one_line(yard: SmallYard, words: tuple[str, ...]) -> None:
    command = [*SENDOFF, *(str(yard.sheet) if word == "SHEET" else word for word in words)]
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, check=False, cwd=yard.folder)
    assert done.returncode == 2
    assert done.stderr.decode().splitlines() == [
        "The output: No space left on device. Send it where there is room."
    ]


# ── disks ───────────────────────────────────────────────────────────────────────────────────────────────────────────


@contextlib.contextmanager
def small_disk(folder: Path, kilobytes: int) -> Iterator[None]:
    """Hang a real disk of so many kilobytes in a folder; only the superuser may, so elsewhere the test is not run."""
    folder.mkdir()
    options = f"size={kilobytes}k"
    command = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(folder)]
    if os.geteuid() != 0 or subprocess.run(command, capture_output=True, check=False).returncode != 0:
        pytest.skip(
            "only the superuser can hang in a small disk; RLIMIT_FSIZE stands in (tests/papers/test_packs.py)"
        )
    try:
        yield
    finally:
        subprocess.run(["umount", str(folder)], check=True)


@pytest.mark.parametrize("kilobytes", [16, 100, 250])
def test_a_disk_that_fills_up_leaves_no_half_pack(yard: SmallYard, tmp_path: Path, kilobytes: int) -> None:
    disk = tmp_path / "disk"
    with small_disk(disk, kilobytes):
        done = apart("pack", yard.sheet, "-o", disk / "out", *DAY)
        assert done.returncode == 2
        told = done.stderr.decode()
        assert len(told.splitlines()) == 1
        assert "No space left on device" in told
        assert "Free some room" in told
        assert [name for name in files_in(disk) if name != "out"] == []


def test_a_sheet_that_does_not_fit_the_disk_is_not_half_written(yard: SmallYard, tmp_path: Path) -> None:
    disk = tmp_path / "disk"
    with small_disk(disk, 8):
        (disk / "filler").write_bytes(b"x" * 4096)
        done = apart("new", "small_flat", "-o", disk / "s.toml", "--catalogue", yard.folder)
        if done.returncode != 0:  # how much a page holds is the system's affair
            assert b"cannot be written" in done.stderr
            assert files_in(disk) == ["filler"]


def test_a_folder_without_the_right_to_write_is_told(yard: SmallYard, tmp_path: Path) -> None:
    if os.geteuid() == 0:
        pytest.skip("the superuser may write anywhere; /proc stands in (tests/cli/test_bad_input.py)")
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o500)
    done = apart("pack", yard.sheet, "-o", locked / "out", *DAY)
    assert done.returncode == 2
    assert b"Permission denied" in done.stderr


# ── screens ─────────────────────────────────────────────────────────────────────────────────────────────────────────

SCREENS: dict[str, dict[str, str]] = {
    "C": {"LC_ALL": "C"},
    "plain C": {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"},
    "latin-1": {"PYTHONIOENCODING": "latin-1"},
    "Windows": {"PYTHONIOENCODING": "cp1252"},
    "ascii": {"PYTHONIOENCODING": "ascii"},
}


@pytest.mark.parametrize("screen", SCREENS)
def test_every_command_prints_on_a_screen_that_lacks_signs(yard: SmallYard, screen: str) -> None:
    bad = yard.folder / "señal→.toml"
    bad.write_text('unit = "…"\n', encoding="utf-8")
    pack = ("pack", yard.sheet, "-o", yard.folder / "ñandú", *DAY)
    for words, code in (
        (("findings", yard.sheet, "--working", *DAY), 3),
        (("findings", bad), 2),
        (("new", "small_flat", "--catalogue", yard.folder), 0),
        (("calc", "vin_check_digit", "vin=1X9SF081XTYKB4019"), 0),
        *([(pack, 0)] if screen == "plain C" else []),
    ):
        done = apart(*words, settings=SCREENS[screen])
        assert done.returncode == code, (words, done.stderr)
        assert b"Traceback" not in done.stderr, words
    assert (yard.folder / "ñandú" / "T-1").is_dir() == (screen == "plain C")


@pytest.mark.parametrize("screen", ["latin-1", "Windows", "ascii"])
def test_json_and_sheets_mean_the_same_whatever_the_screen(yard: SmallYard, screen: str) -> None:
    words = ("findings", yard.sheet, "--json", *DAY)
    there = apart(*words, settings=SCREENS[screen]).stdout
    here = apart(*words, settings={"PYTHONIOENCODING": "utf-8"}).stdout
    assert json.loads(there.decode("utf-8")) == json.loads(here.decode("utf-8"))
    sheet = apart("new", "small_flat", "--catalogue", yard.folder, settings=SCREENS[screen]).stdout
    assert 'unit = "…"' in sheet.decode("utf-8")


def test_a_minus_stays_a_minus_and_accents_fall_off() -> None:
    text = "−5 psi → señal · 10 Ω ≥ 3 漢"
    error = UnicodeEncodeError("ascii", text, 0, len(text), "not there")
    assert streams.plain(error) == ("-5 psi -> senal * 10 ohm >= 3 ?", len(text))


@pytest.mark.parametrize(("encoding", "has_all"), [("utf-8", True), ("UTF8", True), ("cp1252", False), ("what", False), (None, True)])  # fmt: skip  # noqa: E501
def test_which_encodings_have_every_sign(encoding: str | None, has_all: bool) -> None:
    assert streams.is_unicode(encoding) is has_all


# ── stopping ────────────────────────────────────────────────────────────────────────────────────────────────────────

STOPPED = "Stopped. Nothing half-made is left.\n"


@pytest.mark.parametrize(
    "module", ["typer", "sendoff.cli.streams", "sendoff.papers.packs", "sendoff.papers.contents"]
)
def test_ctrl_c_at_any_moment_has_one_plain_line(yard: SmallYard, module: str) -> None:
    """Made to come exactly while a module is being imported: a moment no clock could hit."""
    code = (
        "import sys\n"
        "class Finger:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        f"        if name == {module!r}: raise KeyboardInterrupt\n"
        "sys.meta_path.insert(0, Finger())\n"
        f"sys.argv = ['sendoff', 'pack', {str(yard.sheet)!r}, '-o', {str(yard.folder / 'out')!r}]\n"
        "from sendoff.__main__ import main\n"
        "main()\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (130, STOPPED)
    assert files_in(yard.folder / "out") == []


@pytest.mark.parametrize("after_s", [0.5, 0.9, 1.4])
def test_an_end_asked_for_from_outside_leaves_whole_packs_only(yard: SmallYard, after_s: float) -> None:
    """SIGTERM, as a shutdown or `timeout` sends it."""
    out = yard.folder / "out"
    process = subprocess.Popen(
        [*SENDOFF, "pack", str(yard.sheet), "-o", str(out), *DAY],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    time.sleep(after_s)
    process.terminate()
    _, told = process.communicate(timeout=60)
    assert b"Traceback" not in told
    assert process.returncode in {0, 143, -signal.SIGTERM}
    assert [name for name in files_in(out) if name.startswith(".")] == []
    if (out / "T-1").exists():
        assert (out / "T-1" / "unit.json").exists()
        assert (out / "T-1" / "upkeep.ics").exists()
