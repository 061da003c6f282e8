"""How long a person waits for the first line of the command line."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

from benchmarks import Measure, clock

ROOT = Path(__file__).resolve().parents[1]
SENDOFF = [sys.executable, "-m", "sendoff"]


def measure() -> Iterable[Measure]:
    """Time help and findings as whole processes, beside an empty Python."""
    empty = clock.process([sys.executable, "-c", "pass"])
    yield Measure("an empty Python", empty.cpu_s, "s", note=f"peer; {empty.wall_s:.3f} s on the clock")
    help_ = clock.process([*SENDOFF, "--help"])
    yield Measure("sendoff --help", help_.cpu_s, "s", at_most=0.15, note=f"{help_.wall_s:.3f} s on the clock")
    yard = ROOT / "examples" / "quillback"
    sheet = str(min((yard / "sheets").glob("*.toml")))
    found = clock.process([*SENDOFF, "findings", sheet, "--catalogue", str(yard)], codes=(0, 1, 3))
    yield Measure(
        "sendoff findings", found.cpu_s, "s", at_most=0.4, note=f"{found.wall_s:.3f} s on the clock"
    )
