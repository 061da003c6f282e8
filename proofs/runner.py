"""The machinery behind `make prove`: finds proofs, runs their steps side by side, remembers what is done."""

from __future__ import annotations

import hashlib
import importlib.util
import json
import sys
import time
import traceback
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass, field
from pathlib import Path
from types import ModuleType
from typing import Any

Figures = dict[str, Any]


@dataclass
class Outcome:
    """How one proof went."""

    name: str
    title: str
    steps: int = 0
    remembered: int = 0
    seconds: float = 0.0
    """Time the steps themselves took, also those remembered from an earlier run."""
    figures: dict[str, Figures] = field(default_factory=dict)
    failures: dict[str, str] = field(default_factory=dict)
    conclusion: str = ""

    @property
    def totals(self) -> Figures:
        """Add up every counted figure over all steps."""
        sums: Figures = {}
        for figures in self.figures.values():
            for name, value in figures.items():
                if isinstance(value, int) and not isinstance(value, bool):
                    sums[name] = sums.get(name, 0) + value
        return sums


def find(folder: Path) -> dict[str, Path]:
    """Name every proof in a folder."""
    return {path.stem.removeprefix("prove_"): path for path in sorted(folder.glob("prove_*.py"))}


def load(path: Path) -> ModuleType:
    """Import one proof from its file."""
    name = f"proofs.{path.stem}"
    if name in sys.modules:
        return sys.modules[name]
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None, path
    assert spec.loader is not None, path
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


def digest(folders: Iterable[Path]) -> str:
    """Digest every file of some folders, so that a proof is not taken for one of another state of the code."""
    state = hashlib.sha256()
    for folder in folders:
        for path in sorted(folder.rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                state.update(f"{path.relative_to(folder.parent).as_posix()}\0".encode())
                state.update(hashlib.sha256(path.read_bytes()).digest())
    return state.hexdigest()


def do_step(path: Path, key: str) -> tuple[str, float, Figures, str]:
    """Do one step in whatever process this is; never raise, so that other steps go on."""
    begun = time.perf_counter()
    try:
        figures, failure = dict(load(path).step(key)), ""
    except Exception:  # noqa: BLE001  any failure of a step is the finding
        figures, failure = {}, traceback.format_exc(limit=-3)
    return key, time.perf_counter() - begun, figures, failure


def recall(book: Path, state: str) -> dict[str, tuple[float, Figures]]:
    """Read which steps are done for this state of the code; a line cut short by a crash does not count."""
    done: dict[str, tuple[float, Figures]] = {}
    if not book.exists():
        return done
    for line in book.read_text(encoding="utf-8").splitlines():
        try:
            entry = json.loads(line)
        except json.JSONDecodeError:
            continue
        if entry["state"] == state:
            done[entry["key"]] = (entry["seconds"], entry["figures"])
    return done


def prove(name: str, path: Path, into: Path, state: str, *, jobs: int = 1, again: bool = False) -> Outcome:
    """Run one proof, going on where an earlier run of the same code was stopped."""
    module = load(path)
    keys = list(module.keys())
    assert keys, f"{name}: a proof without steps proves nothing"
    assert len(set(keys)) == len(keys), f"{name}: two steps have one name"
    into.mkdir(parents=True, exist_ok=True)
    book = into / f"{name}.jsonl"
    done = {} if again else recall(book, state)
    outcome = Outcome(name, module.TITLE, steps=len(keys))
    for key in keys:
        if key in done:
            outcome.seconds += done[key][0]
            outcome.figures[key] = done[key][1]
            outcome.remembered += 1
    left = [key for key in keys if key not in done]
    print(f"{name}: {len(keys)} steps, {outcome.remembered} done before", flush=True)
    if left:
        with book.open("w" if again else "a", encoding="utf-8") as lines, ProcessPoolExecutor(jobs) as pool:
            for ready in as_completed([pool.submit(do_step, path, key) for key in left]):
                key, seconds, figures, failure = ready.result()
                outcome.seconds += seconds
                if failure:
                    outcome.failures[key] = failure
                    print(f"{name}: {key} does not hold\n{failure}", flush=True)
                    continue
                outcome.figures[key] = figures
                entry = {"state": state, "key": key, "seconds": round(seconds, 3), "figures": figures}
                lines.write(json.dumps(entry) + "\n")
                lines.flush()
    if not outcome.failures and hasattr(module, "conclude"):
        outcome.conclusion = module.conclude(outcome.figures)
    verdict = f"{len(outcome.failures)} steps do not hold" if outcome.failures else "holds"
    print(f"{name}: {verdict}, {outcome.seconds:.1f} s of work. {outcome.conclusion}", flush=True)
    return outcome


def write_summary(outcomes: list[Outcome], path: Path) -> None:
    """Write what was proved, how much was counted, and what does not hold."""
    lines = ["# Proofs", ""]
    for outcome in outcomes:
        verdict = "does not hold" if outcome.failures else "holds"
        lines += [f"## {outcome.name}: {verdict}", "", outcome.title, ""]
        lines.append(f"- steps: {outcome.steps} ({outcome.remembered} from an earlier run of the same code)")
        lines.append(f"- work: {outcome.seconds:.1f} s")
        lines += [f"- {name.replace('_', ' ')}: {value:,}" for name, value in sorted(outcome.totals.items())]
        if outcome.conclusion:
            lines.append(f"- {outcome.conclusion}")
        for key, failure in outcome.failures.items():
            lines += ["", f"`{key}`", "", "```text", failure.rstrip(), "```"]
        lines.append("")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n".join(lines), encoding="utf-8")
