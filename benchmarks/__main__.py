"""Run the benchmarks: `python -m benchmarks [NAME…]`; writes build/bench/summary.md and results.json."""

from __future__ import annotations

import argparse
import importlib
import json
import os
import platform
import sys
from dataclasses import asdict
from pathlib import Path

from benchmarks import Measure

ROOT = Path(__file__).resolve().parents[1]


def table(measures: dict[str, list[Measure]]) -> str:
    """Write all measures as one table."""
    lines = ["| measured | value | target | met | note |", "|---|---|---|---|---|"]
    for name, rows in measures.items():
        for row in rows:
            met = {None: "", True: "yes", False: "**no**"}[row.met]
            lines.append(
                f"| {name}: {row.name} | {row.value:,.4g} {row.unit} | {row.target} | {met} | {row.note} |"
            )
    return "\n".join(lines)


def main() -> int:
    """Measure what was asked for; 1 if a target is missed."""
    found = [path.stem.removeprefix("bench_") for path in sorted((ROOT / "benchmarks").glob("bench_*.py"))]
    parser = argparse.ArgumentParser(
        prog="make bench", description="Measure speed beside peers in the same run."
    )
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"only these: {', '.join(found)}")
    asked = parser.parse_args().names
    unknown = sorted(set(asked) - set(found))
    if unknown:
        print(f"no such benchmark: {', '.join(unknown)} (there are: {', '.join(found)})")
        return 2
    measures: dict[str, list[Measure]] = {}
    for name in asked or found:
        print(f"{name} …", flush=True)
        measures[name] = list(importlib.import_module(f"benchmarks.bench_{name}").measure())
    machine = f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.machine()}"
    into = ROOT / "build" / "bench"
    into.mkdir(parents=True, exist_ok=True)
    text = table(measures)
    (into / "summary.md").write_text(f"# Benchmarks\n\n{machine}\n\n{text}\n", encoding="utf-8")
    rows = {name: [asdict(row) for row in found_rows] for name, found_rows in measures.items()}
    (into / "results.json").write_text(
        json.dumps({"machine": machine, "measures": rows}, indent=1), encoding="utf-8"
    )
    print(text)
    missed = [row for found_rows in measures.values() for row in found_rows if row.met is False]
    print(f"{sum(len(rows) for rows in measures.values())} measures, {len(missed)} targets missed")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
