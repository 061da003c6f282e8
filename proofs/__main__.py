"""Run the proofs: `python -m proofs [NAME…] [-j N] [--again]`."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from proofs import runner

ROOT = Path(__file__).resolve().parents[1]


def main() -> int:
    """Run what was asked for and say how it ended: 0 all hold, 1 something does not."""
    parser = argparse.ArgumentParser(prog="make prove", description="Run every proofs/prove_*.py; resumable.")
    parser.add_argument("names", nargs="*", metavar="NAME", help="only these proofs (prove_NAME.py)")
    parser.add_argument("-j", type=int, default=2, metavar="N", help="steps at a time (default 2)")
    parser.add_argument("--again", action="store_true", help="forget what is done and start over")
    asked = parser.parse_args()
    found = runner.find(ROOT / "proofs")
    unknown = sorted(set(asked.names) - set(found))
    if unknown:
        print(f"no such proof: {', '.join(unknown)} (there are: {', '.join(found)})")
        return 2
    chosen = {name: path for name, path in found.items() if not asked.names or name in asked.names}
    shared = [ROOT / part for part in ("src", "examples", "proofs", "tests/combos")]
    outcomes = [
        runner.prove(
            name,
            path,
            ROOT / "build" / "proofs",
            runner.digest([*shared, *getattr(runner.load(path), "ALSO", ())]),
            jobs=asked.j,
            again=asked.again,
        )
        for name, path in chosen.items()
    ]
    runner.write_summary(outcomes, ROOT / "build" / "proofs" / "summary.md")
    failed = sum(bool(outcome.failures) for outcome in outcomes)
    print(f"{len(outcomes) - failed} passed, {failed} failed")
    return 1 if failed or not outcomes else 0


if __name__ == "__main__":
    sys.exit(main())
