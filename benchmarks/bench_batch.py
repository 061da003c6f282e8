"""How many packs two processes make for each one that one process makes, over 200 packs.

The packs are made in rounds, one process and two by turns, so that neither has the quieter machine; each round starts
its processes anew, and the compiler has one thread in each. Three ways to look at it: the clock on the wall, which
others on the machine bend (its load is told; a busy machine is not held to it); the wall less the time in which our
processes were ready to run and others had the processors, as the scheduler counts it; and the processor: two
processes may not spend more of it than one does for the same packs.
"""

from __future__ import annotations

import contextlib
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from benchmarks import Measure

ROOT = Path(__file__).resolve().parents[1]
YARD = ROOT / "examples" / "quillback"
SHEET = YARD / "sheets" / "qb-0207.toml"
PACKS = int(os.environ.get("BATCH_PACKS", "200"))
ROUNDS = 4
AT_LEAST = 1.8
BUSY = 1.0
"""Load beyond which the wall measures others as well."""


def sheets(folder: Path, count: int) -> list[Path]:
    """Write build sheets of so many units."""
    text = SHEET.read_text(encoding="utf-8")
    found = []
    for number in range(count):
        path = folder / f"u-{number:03}.toml"
        path.write_text(text.replace('unit = "QB-0207"', f'unit = "U-{number:03}"'), encoding="utf-8")
        found.append(path)
    return found


@dataclass(frozen=True)
class Spent:
    """What making packs took: seconds on the wall, of the processor, and on the wall had nobody else been there."""

    wall: float
    processor: float
    undisturbed: float


def make(found: list[Path], jobs: int, out: Path) -> Spent:
    """Make the packs, looking at the processes meanwhile."""
    command = [sys.executable, "-m", "sendoff", "pack", *map(str, found), "--catalogue", str(YARD)]
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    begun = time.perf_counter()
    run = subprocess.Popen(
        [*command, "-o", str(out), "-j", str(jobs)],
        stdout=subprocess.DEVNULL,
        env=os.environ | {"RAYON_NUM_THREADS": "1"},
    )
    waited: dict[int, float] = {}
    while run.poll() is None:
        for process in (run.pid, *children_of(run.pid)):
            with contextlib.suppress(OSError, ValueError):
                waited[process] = max(waited.get(process, 0.0), waiting_s(process))
        time.sleep(0.25)
    wall = time.perf_counter() - begun
    if run.returncode:
        raise RuntimeError(f"packs were not made: exit code {run.returncode}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    working = {process: seconds for process, seconds in waited.items() if jobs == 1 or process != run.pid}
    # the process that was held up least is the one whose work bounds the whole; a helper that only sleeps is not it
    held_up = [seconds for seconds in working.values() if seconds > max(working.values()) / 4] or [0.0]
    return Spent(
        wall,
        after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime,
        wall - min(held_up),
    )


def children_of(process: int) -> list[int]:
    """Return the processes a process has started."""
    try:
        return [int(one) for one in Path(f"/proc/{process}/task/{process}/children").read_text().split()]
    except OSError:
        return []


def waiting_s(process: int) -> float:
    """Return how long the threads of a process have been ready to run while others had the processors."""
    lines = [path.read_text() for path in Path(f"/proc/{process}/task").glob("*/schedstat")]
    return sum(int(line.split()[1]) for line in lines) / 1e9


def measure() -> Iterable[Measure]:
    """Make the packs both ways, round by round."""
    load_before = os.getloadavg()[0]
    spent: dict[int, list[Spent]] = {1: [], 2: []}
    with tempfile.TemporaryDirectory() as name:
        found = sheets(Path(name), PACKS)
        size = -(-len(found) // ROUNDS)
        for turn in range(ROUNDS):
            part = found[turn * size : (turn + 1) * size]
            for jobs in (1, 2) if turn % 2 == 0 else (2, 1):
                spent[jobs].append(make(part, jobs, Path(name) / f"out-{turn}-{jobs}"))
    load = f"load {load_before:.1f} before, {os.getloadavg()[0]:.1f} after, {os.cpu_count()} cores"
    wall = {jobs: sum(one.wall for one in rounds) for jobs, rounds in spent.items()}
    processor = {jobs: sum(one.processor for one in rounds) for jobs, rounds in spent.items()}
    undisturbed = {jobs: sum(one.undisturbed for one in rounds) for jobs, rounds in spent.items()}
    yield Measure("one process", PACKS / wall[1], "packs/s", note=f"{PACKS} packs")
    yield Measure("two processes", PACKS / wall[2], "packs/s", note=f"{PACKS} packs")
    busy = load_before > BUSY
    yield Measure(
        "two against one, on the wall",
        wall[1] / wall[2],
        "times",
        at_least=None if busy else AT_LEAST,
        note=load + (": too busy to be held to it" if busy else ""),
    )
    yield Measure(
        "two against one, time others had the processors taken off",
        undisturbed[1] / undisturbed[2],
        "times",
        at_least=AT_LEAST,
        note="from the scheduler's own count of waiting",
    )
    yield Measure(
        "two against one, processor spent",
        processor[2] / processor[1],
        "times",
        at_most=2 / AT_LEAST,
        note=load,
    )
