"""How many packs two processes make for each one that one process makes, over 200 packs.

The packs are made in rounds, one process and two by turns, so that neither has the quieter machine; each round starts
its processes anew. Two ways to look at it: the clock on the wall, which others on the machine bend (its load is told),
and the processor: two processes may not spend more of it than one does for the same packs.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from pathlib import Path

from benchmarks import Measure

ROOT = Path(__file__).resolve().parents[1]
YARD = ROOT / "examples" / "quillback"
SHEET = YARD / "sheets" / "qb-0207.toml"
PACKS = int(os.environ.get("BATCH_PACKS", "200"))
ROUNDS = 4
AT_LEAST = 1.8
BUSY = 1.0
"""Load before the run beyond which the wall measures others as well, and is not held to its target."""


def sheets(folder: Path, count: int) -> list[Path]:
    """Write build sheets of so many units."""
    text = SHEET.read_text(encoding="utf-8")
    found = []
    for number in range(count):
        path = folder / f"u-{number:03}.toml"
        path.write_text(text.replace('unit = "QB-0207"', f'unit = "U-{number:03}"'), encoding="utf-8")
        found.append(path)
    return found


def seconds_of(found: list[Path], jobs: int, out: Path) -> tuple[float, float]:
    """Make the packs; return seconds on the wall and of the processor."""
    command = [sys.executable, "-m", "sendoff", "pack", *map(str, found), "--catalogue", str(YARD)]
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    begun = time.perf_counter()
    subprocess.run([*command, "-o", str(out), "-j", str(jobs)], check=True, stdout=subprocess.DEVNULL)
    wall = time.perf_counter() - begun
    now = resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, now.ru_utime + now.ru_stime - spent.ru_utime - spent.ru_stime


def measure() -> Iterable[Measure]:
    """Make the packs both ways, round by round."""
    load_before = os.getloadavg()[0]
    wall, processor = {1: 0.0, 2: 0.0}, {1: 0.0, 2: 0.0}
    with tempfile.TemporaryDirectory() as name:
        found = sheets(Path(name), PACKS)
        size = -(-len(found) // ROUNDS)
        for turn in range(ROUNDS):
            part = found[turn * size : (turn + 1) * size]
            for jobs in (1, 2) if turn % 2 == 0 else (2, 1):
                seconds, spent = seconds_of(part, jobs, Path(name) / f"out-{turn}-{jobs}")
                wall[jobs] += seconds
                processor[jobs] += spent
    load = f"load {load_before:.1f} before, {os.getloadavg()[0]:.1f} after, {os.cpu_count()} cores"
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
        "two against one, processor spent",
        processor[2] / processor[1],
        "times",
        at_most=2 / AT_LEAST,
        note=load,
    )
