"""A pack is there whole or not at all: no room, no right, two at once, Ctrl-C, a worker that dies."""

from __future__ import annotations

import datetime
import hashlib
import os
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sendoff.errors import CannotWrite, FaultyInput, SendoffError
from sendoff.papers import packs
from sendoff.papers.packs import Order, make_pack, make_packs, refuse_same_folder, write_whole
from tests.papers.conftest import DAY, YARD
from tests.yards import SmallYard

COMMAND = [sys.executable, "-m", "sendoff", "pack"]
FILES = {"booklet.pdf": b"%PDF", "drawings/cover.svg": b"<svg/>", "unit.json": b"{}"}


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


def order(yard: SmallYard, out: Path) -> Order:
    return Order(yard.sheet, None, out, "en", "us", DAY)


def several(yard: SmallYard, count: int) -> list[Path]:
    """Sheets of several units."""
    text = yard.sheet.read_text(encoding="utf-8")
    sheets = []
    for number in range(count):
        path = yard.sheet.with_name(f"t-{number}.toml")
        path.write_text(text.replace('unit = "T-1"', f'unit = "T-{number}"'), encoding="utf-8")
        sheets.append(path)
    return sheets


def state(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def left_behind(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.name.startswith("."))


# ── writing ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_pack_takes_the_place_of_the_one_before_and_leaves_nothing_of_it(tmp_path: Path) -> None:
    folder = tmp_path / "out" / "T-1"
    write_whole(folder, {"old.pdf": b"1", "drawings/gone.svg": b"2"})
    write_whole(folder, FILES)
    assert set(state(folder)) == set(FILES)
    assert left_behind(folder.parent) == []


@pytest.mark.parametrize("failing", [0, 1, 2])
def test_a_disk_that_fills_up_leaves_the_pack_before_untouched(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    folder = tmp_path / "out" / "T-1"
    write_whole(folder, {"booklet.pdf": b"the one before"})
    before = state(tmp_path)
    synced = 0

    def full(_: int) -> None:
        nonlocal synced
        if synced == failing:
            raise OSError(28, "No space left on device")
        synced += 1

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite, match=r"No space left on device.*nothing was changed"):
        write_whole(folder, FILES)
    assert state(tmp_path) == before
    assert left_behind(folder.parent) == []


def test_a_disk_that_takes_no_large_file_leaves_no_half_pack(yard: SmallYard, tmp_path: Path) -> None:
    """A real refusal of the system, not a simulated one: no file over 40 kB may be written."""

    def small_files_only() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, 40_000))

    out = tmp_path / "out"
    done = subprocess.run(
        [*COMMAND, str(yard.sheet), "-o", str(out), "--date", "2026-11-25"],
        capture_output=True, text=True, check=False, preexec_fn=small_files_only,
    )  # fmt: skip
    assert done.returncode == 2
    assert "Traceback" not in done.stderr + done.stdout
    assert "cannot be written" in done.stderr
    assert not list(out.rglob("*.pdf"))
    assert left_behind(out) == []


def test_a_folder_that_may_not_be_written_is_named(yard: SmallYard, tmp_path: Path) -> None:
    out = Path("/proc/self/fd")  # where even the superuser makes no folder
    if os.geteuid() != 0:
        out = tmp_path / "locked"
        out.mkdir(mode=0o500)
    with pytest.raises(CannotWrite, match=rf"{out.name}.*name a folder you may write to"):
        make_pack(order(yard, out))


@pytest.mark.parametrize("blocking", ["out", "out/T-1"])
def test_a_file_where_a_folder_should_be_is_refused_with_the_cure(
    yard: SmallYard, tmp_path: Path, blocking: str
) -> None:
    path = tmp_path / blocking
    path.parent.mkdir(exist_ok=True)
    if blocking == "out":
        path.write_text("a file")
        with pytest.raises(CannotWrite, match="name a folder you may write to"):
            make_pack(order(yard, tmp_path / "out"))
        assert path.read_text() == "a file"
    else:
        path.write_text("a file")
        made = make_pack(order(yard, tmp_path / "out"))  # a stray file of that name gives way
        assert (made.folder / "booklet.pdf").exists()


# ── two at once ─────────────────────────────────────────────────────────────────────────────────────────────────────


def test_two_runs_into_one_folder_at_once_leave_one_whole_pack(yard: SmallYard, tmp_path: Path) -> None:
    out = tmp_path / "out"
    commands = [
        [*COMMAND, str(yard.sheet), "-o", str(out), "--date", "2026-11-25", "--language", language]
        for language in ("en", "es", "en", "es")
    ]
    running = [
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) for command in commands
    ]
    for run in running:
        told, errors = run.communicate(timeout=300)
        assert run.returncode == 0, told + errors
    wanted = []
    for language in ("en", "es"):
        alone = tmp_path / language
        make_pack(Order(yard.sheet, None, alone, language, "us", DAY))
        wanted.append(state(alone))
    assert state(out) in wanted
    assert left_behind(out) == []


def test_writers_that_swap_folders_again_and_again_never_lose_or_mix_a_pack(tmp_path: Path) -> None:
    folder = tmp_path / "out" / "T-1"
    script = (
        "import sys; from pathlib import Path; from sendoff.papers.packs import write_whole\n"
        "for _ in range(30): write_whole(Path(sys.argv[1]), {f'{n}.txt': sys.argv[2].encode() for n in range(5)})"
    )
    running = [
        subprocess.Popen([sys.executable, "-c", script, str(folder), text])
        for text in ("one", "two", "three")
    ]
    while any(run.poll() is None for run in running):
        try:
            opened = os.open(
                folder, os.O_RDONLY | os.O_DIRECTORY
            )  # one folder held, whatever takes its place
        except FileNotFoundError:
            continue  # in the blink between two packs
        try:
            texts = set()
            for number in range(5):
                with os.fdopen(os.open(f"{number}.txt", os.O_RDONLY, dir_fd=opened), "rb") as file:
                    texts.add(file.read())
            assert len(texts) == 1, "a folder holds the files of one pack, whole"
        except FileNotFoundError:
            continue  # the pack that was held has just been replaced and is being cleared away
        finally:
            os.close(opened)
    assert [run.returncode for run in running] == [0, 0, 0]
    assert len({path.read_bytes() for path in folder.iterdir()}) == 1
    assert left_behind(folder.parent) == []


def test_two_sheets_of_one_unit_are_refused_before_anything_is_made(yard: SmallYard, tmp_path: Path) -> None:
    other = yard.sheet.with_name("copy.toml")
    other.write_bytes(yard.sheet.read_bytes())
    with pytest.raises(FaultyInput, match=r"t-1\.toml would write into the same folder"):
        refuse_same_folder([yard.sheet, other])
    with pytest.raises(FaultyInput):
        make_packs([yard.sheet, other], None, tmp_path / "out", None, None, DAY, 1, say=print)
    assert not (tmp_path / "out").exists()


# ── stopped midway ──────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("jobs", ["1", "2"])
@pytest.mark.parametrize("after_s", [0.6, 1.2, 2.5])
def test_ctrl_c_midway_leaves_whole_packs_only_and_one_plain_line(
    tmp_path: Path, jobs: str, after_s: float
) -> None:
    out = tmp_path / "out"
    sheets = sorted(str(path) for path in (YARD / "sheets").glob("qb-*.toml"))
    run = subprocess.Popen(
        [*COMMAND, *sheets, "-o", str(out), "-j", jobs, "--date", "2026-11-25"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True,
    )  # fmt: skip
    time.sleep(after_s)
    os.killpg(run.pid, signal.SIGINT)  # as a terminal does: to the whole group
    told, errors = run.communicate(timeout=120)
    assert "Traceback" not in told + errors
    if run.returncode != 0:  # a machine fast enough may have ended before
        assert run.returncode in {130, -signal.SIGINT}, (told, errors)
    for folder in out.iterdir() if out.exists() else ():
        assert not folder.name.startswith("."), folder
        names = {path.name for path in folder.iterdir()}
        assert {
            "booklet.pdf",
            "check-sheet.pdf",
            "briefing.html",
            "upkeep.ics",
            "unit.json",
            "drawings",
        } <= names


# ── workers ─────────────────────────────────────────────────────────────────────────────────────────────────────────


KILLER = """
import os, pathlib, signal, sys
if "--multiprocessing-fork" in sys.orig_argv:
    from sendoff.papers import packs
    real, marks = packs.make_pack, pathlib.Path({marks!r})
    def make(order):
        killed = len(list(marks.glob("killed-*")))
        if order.sheet.stem == {whose!r} and killed < {times}:
            (marks / f"killed-{{killed}}").touch()
            os.kill(os.getpid(), signal.SIGKILL)
        return real(order)
    packs.make_pack = make
"""


def killing(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, whose: str, times: int) -> None:
    """Let the process that makes one unit's pack be ended as the system ends one, so many times."""
    folder = tmp_path / "killer"
    folder.mkdir()
    code = KILLER.format(marks=str(tmp_path), whose=whose, times=times)
    (folder / "sitecustomize.py").write_text(code, encoding="utf-8")
    monkeypatch.setenv(
        "PYTHONPATH", os.pathsep.join([str(folder), *filter(None, [os.environ.get("PYTHONPATH")])])
    )


def test_a_worker_killed_midway_is_recovered_and_its_pack_named(
    yard: SmallYard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheets = several(yard, 4)
    killing(monkeypatch, tmp_path, "t-1", 1)
    told: list[str] = []
    code = make_packs(sheets, None, tmp_path / "out", None, None, DAY, 2, say=told.append)
    assert list(tmp_path.glob("killed-*"))
    assert code == 0
    assert told[-1].startswith("4 of 4 packs made")
    again = [line for line in told if "made again" in line]
    assert len(again) == 1
    for number in range(4):
        assert (tmp_path / "out" / f"T-{number}" / "booklet.pdf").exists()
    assert left_behind(tmp_path / "out") == []


def test_a_pack_that_ends_its_worker_each_time_is_named_and_the_others_are_made(
    yard: SmallYard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheets = several(yard, 4)
    killing(monkeypatch, tmp_path, "t-2", 99)
    told: list[str] = []
    code = make_packs(sheets, None, tmp_path / "out", None, None, DAY, 2, say=told.append)
    assert code == 2
    assert told[-1].startswith("3 of 4 packs made")
    refused = next(line for line in told if line.startswith(str(sheets[2])))
    assert "ended from outside, twice" in refused
    assert not (tmp_path / "out" / "T-2").exists()


def test_a_worker_killed_from_outside_is_recovered_and_the_pack_it_was_making_is_named(
    yard: SmallYard, tmp_path: Path
) -> None:
    """The system's own SIGKILL, to a process found in /proc, while it writes: nobody in the process sees it come."""
    if not Path("/proc/self/task").is_dir():
        pytest.skip("no /proc to find the processes in")
    sheets, out = several(yard, 8), tmp_path / "out"
    run = subprocess.Popen(
        [*COMMAND, *map(str, sheets), "-o", str(out), "-j", "2", "--date", "2026-11-25"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    whose = None
    until = time.monotonic() + 90
    while whose is None and run.poll() is None and time.monotonic() < until:
        for making in out.glob(".making-*") if out.exists() else ():
            _, unit, number, process, _ = making.name.split("-")
            os.kill(int(process), signal.SIGKILL)
            whose = f"{unit}-{number}"
            break
    told, errors = run.communicate(timeout=180)
    assert whose is not None, "no process was seen writing"
    assert run.returncode == 0, told + errors
    assert "Traceback" not in told + errors
    again = [line.split()[0] for line in told.splitlines() if "made again" in line]
    assert again in ([whose], [])  # killed after its pack stood whole, nothing is left to be made again
    assert told.splitlines()[-1].startswith("8 of 8 packs made")
    assert left_behind(out) == []
    assert len({tuple(sorted(state(out / f"T-{n}"))) for n in range(8)}) == 1


def test_no_bar_is_drawn_into_a_pipe(yard: SmallYard, tmp_path: Path) -> None:
    done = subprocess.run(
        [*COMMAND, *map(str, several(yard, 2)), "-o", str(tmp_path / "out"), "--date", "2026-11-25"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stderr == ""
    assert "\r" not in done.stdout
    assert "[" not in done.stdout


def test_one_bad_sheet_never_stops_the_others(yard: SmallYard, tmp_path: Path) -> None:
    sheets = several(yard, 3)
    sheets[1].write_text(sheets[1].read_text().replace("small_flat", "no_such_type"))
    for jobs in (1, 2):
        told: list[str] = []
        out = tmp_path / f"out-{jobs}"
        assert make_packs(sheets, None, out, None, None, DAY, jobs, say=told.append) == 2
        assert [line.split(":")[0] for line in told[:-1]] == [
            "T-0  Small flat trailer",
            str(sheets[1]),
            "T-2  Small flat trailer",
        ]
        assert sorted(path.name for path in out.iterdir()) == ["T-0", "T-2"]


def test_packs_made_side_by_side_are_those_made_one_after_another(yard: SmallYard, tmp_path: Path) -> None:
    sheets = several(yard, 3)
    for jobs in (1, 2):
        assert make_packs(sheets, None, tmp_path / str(jobs), None, None, DAY, jobs, say=lambda _: None) == 0
    assert state(tmp_path / "1") == state(tmp_path / "2")


@pytest.mark.parametrize(
    ("unit", "folder"), [("QB 0107/a", "QB-0107-a"), ("..", "unit"), ("Ñandú 7", "and-7"), ("-rf", "rf")]
)
def test_a_units_number_never_leads_out_of_the_folder(unit: str, folder: str) -> None:
    assert packs.folder_name(unit) == folder


def test_a_page_that_cannot_be_set_is_refused_in_plain_words() -> None:
    from sendoff.papers import typeset

    with pytest.raises(SendoffError, match=r"booklet\.typ: a page could not be set"):
        typeset.pdf("booklet.typ", {"nothing": 1}, datetime.date(2026, 11, 25))
