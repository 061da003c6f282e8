"""Timing whole processes and calls: medians, because a shared machine has bad moments."""

from __future__ import annotations

import os
import statistics
import subprocess
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Timing:
    """Medians over several runs."""

    wall_s: float
    cpu_s: float
    """User and system time of the process, which other work on the machine hardly changes."""


def process(command: Sequence[str], *, runs: int = 9, codes: Sequence[int] = (0,)) -> Timing:
    """Time a command in processes of its own; one run first, to fill the disk cache.

    Bytecode is kept between runs, as on any machine where nobody forbids it.
    """
    walls, cpus = [], []
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    for turn in range(runs + 1):
        before, begun = os.times(), time.perf_counter()
        done = subprocess.run(command, capture_output=True, text=True, check=False, env=environment)
        wall, after = time.perf_counter() - begun, os.times()
        if done.returncode not in codes:
            message = f"{' '.join(command)} ended with {done.returncode}: {done.stderr[-500:]}"
            raise RuntimeError(message)
        if turn:
            walls.append(wall)
            user = after.children_user - before.children_user
            cpus.append(user + after.children_system - before.children_system)
    return Timing(statistics.median(walls), statistics.median(cpus))


def call(function: Callable[[], object], *, runs: int = 9) -> float:
    """Time a call within this process; one run first, to warm up."""
    function()
    seconds = []
    for _ in range(runs):
        begun = time.perf_counter()
        function()
        seconds.append(time.perf_counter() - begun)
    return statistics.median(seconds)
