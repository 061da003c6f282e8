"""How fast the deck planner is, beside HiGHS and CP-SAT on the same questions in the same run.

Two ways to compare, both told: the whole question (from the problem's records to the places of all items; for the
solvers to write the program, hand it over and solve it), and the search alone (numbers ready on both sides). The
faster of the two solvers counts, each with one thread and again with all cores. With one thread all is processor
time, with more the planner's too is by the clock. A solver is stopped after a while; the ratio is then a lower bound.
The answers of all three must agree, else the run ends.

The median is asked of the search; the whole question has a floor of about a fifth of a millisecond, in which Python
reads the problem's records, and is told beside it.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, Literal

from benchmarks import Measure
from sendoff.calc.deck_plan import choose, explain
from sendoff.calc.deck_plan.solve import HOLDS, Setup, best
from tests.calc.deck_plan import instances, oracle_cpsat, oracle_highs
from tests.calc.deck_plan.oracle_highs import Answer

ROOT: Final = Path(__file__).resolve().parents[1]
FIRST: Final = 1000
"""Seeds from here on: other problems than the proofs'."""
SMALL: Final = {1: 30, 2: 30, 3: 30, 4: 30, 5: 30, 6: 30}
LARGE: Final = {7: 20, 8: 20}
STOPPED_s: Final = 20.0


@dataclass
class Times:
    """Seconds, problem by problem: the planner's, and of each solver the shortest way to the same answer."""

    whole: list[float] = field(default_factory=list)
    search: list[float] = field(default_factory=list)
    peer_whole: list[float] = field(default_factory=list)
    peer_search: list[float] = field(default_factory=list)
    stopped: int = 0
    """Problems on which neither solver came to an end."""


def shortest(
    do: Callable[[], object], runs: int = 3, clock: Callable[[], float] = time.process_time
) -> float:
    """Return the shortest of some runs: the work is the same each time, what lengthens it is the machine's."""
    spent = []
    for _ in range(runs):
        began = clock()
        do()
        spent.append(clock() - began)
    return min(spent)


def time_of_faster(answers: list[Answer], margin: float, *, building: bool) -> float:
    """Return the time of the faster solver that proved its answer; that of its stopping, where none did."""
    proved = [answer for answer in answers if answer.proved]
    for answer, grid in zip(answers, (1e-6, 2e-3), strict=True):
        if answer.proved and (margin < HOLDS) != (answer.margin is None or answer.margin < HOLDS):
            away = abs(margin) if answer.margin is None else abs(answer.margin - margin)
            if away > grid:
                message = f"the answers differ: {margin} and {answer.margin}"
                raise RuntimeError(message)
    return min((answer.seconds + building * answer.building for answer in proved), default=STOPPED_s)


def race(item_count: int, count: int, threads: int, code: Literal["plain", "compiled"] = "compiled") -> Times:
    """Let the planner and both solvers answer the same questions."""
    times = Times()
    for seed in range(FIRST, FIRST + count):
        problem = instances.random_problem(seed, item_count)
        clock = oracle_highs.clock_for(threads)
        times.whole.append(shortest(lambda: best(problem, code=code), clock=clock))  # noqa: B023
        setup = Setup(problem, code)
        times.search.append(shortest(lambda: setup.find(setup.goal()), clock=clock))  # noqa: B023
        answers = [
            oracle_highs.solve(problem, threads=threads, seconds=STOPPED_s, tolerance=1e-7),
            oracle_cpsat.solve(problem, threads=threads, seconds=STOPPED_s),
        ]
        times.stopped += not any(answer.proved for answer in answers)
        margin = best(problem, code=code)[0].margin
        times.peer_search.append(time_of_faster(answers, margin, building=False))
        times.peer_whole.append(time_of_faster(answers, margin, building=True))
    return times


def ratios(
    name: str, rows: list[Times], median_at_least: float | None, total_at_least: float
) -> Iterable[Measure]:
    """Tell how many times faster, at the median and in all, both ways of comparing."""
    for how in ("search", "whole"):
        mine = [spent for row in rows for spent in getattr(row, how)]
        peer = [spent for row in rows for spent in getattr(row, f"peer_{how}")]
        each = [b / a for a, b in zip(mine, peer, strict=True)]
        note = f"{len(each)} problems, {sum(row.stopped for row in rows)} on which both solvers were stopped"
        said = {"search": "search against search", "whole": "whole question against whole question"}[how]
        yield Measure(
            f"{name}, {said}, median",
            statistics.median(each),
            "times",
            at_least=median_at_least if how == "search" else None,
            note=note,
        )
        yield Measure(
            f"{name}, {said}, in all", sum(peer) / sum(mine), "times", at_least=total_at_least, note=note
        )


def part(values: list[float], share: float) -> float:
    """Return the value that so large a share of all does not exceed."""
    rows = sorted(values)
    return rows[min(len(rows) - 1, round(share * (len(rows) - 1)))]


def growth(rows: dict[int, Times]) -> Iterable[Measure]:
    """Tell the planner's and the solvers' times by number of items."""
    for count, row in rows.items():
        note = f"p95 {1e3 * part(row.whole, 0.95):.2f} ms, worst {1e3 * max(row.whole):.2f} ms"
        yield Measure(
            f"{count} items, whole question, median", 1e3 * statistics.median(row.whole), "ms", note=note
        )
        peer = f"p95 {1e3 * part(row.peer_whole, 0.95):.0f} ms, worst {1e3 * max(row.peer_whole):.0f} ms"
        yield Measure(
            f"{count} items, faster solver, median",
            1e3 * statistics.median(row.peer_whole),
            "ms",
            note=f"peer; {peer}",
        )


def without_numba() -> Iterable[Measure]:
    """Time the plain code."""
    for count, at_most in ((3, None), (4, None), (5, 100.0), (6, None), (8, None)):
        spent = [
            shortest(lambda: best(instances.random_problem(seed, count), code="plain"), 1)  # noqa: B023
            for seed in range(FIRST, FIRST + 60)
        ]
        note = f"median {1e3 * statistics.median(spent):.1f} ms, worst {1e3 * max(spent):.0f} ms"
        yield Measure(
            f"{count} items, plain code, p95", 1e3 * part(spent, 0.95), "ms", at_most=at_most, note=note
        )


def reasons() -> Iterable[Measure]:
    """Time the explaining of conflicts."""
    for repairs, at_most in ((False, 30.0), (True, None)):
        spent = []
        for count in (2, 3, 4, 5, 6):
            for seed in range(FIRST, FIRST + 40):
                problem = instances.random_problem(seed, count)
                if best(problem, code="compiled")[0].margin < HOLDS:
                    spent.append(shortest(lambda: explain(problem, code="compiled", repairs=repairs), 2))  # noqa: B023
        what = "limits that clash, with repairs" if repairs else "limits that clash"
        middle, most = (f"{1e3 * part(spent, share):.1f} ms" for share in (0.5, 0.95))
        note = f"{len(spent)} conflicts, median {middle}, p95 {most}"
        yield Measure(f"up to 6 items, {what}, worst", 1e3 * max(spent), "ms", at_most=at_most, note=note)


def choices() -> Iterable[Measure]:
    """Time the choosing among many, and count what was proved."""
    for many, fitting, at_most, share in (
        (12, 4, None, 1.0),
        (20, 4, 200.0, 1.0),
        (20, 6, 200.0, 1.0),
        (40, 5, 2000.0, 0.95),
    ):
        spent, proved, off = [], 0, 0.0
        for seed in range(FIRST, FIRST + 40):
            problem = instances.random_choice(seed, many, fitting)
            until = time.process_time() + 10.0
            began = time.process_time()
            found = choose(problem, code="compiled", go_on=lambda: time.process_time() < until)  # noqa: B023
            spent.append(time.process_time() - began)
            proved += found.proved
            off = max(off, 1 - found.worth / found.bound) if found.bound else off
        middle, most = (f"{1e3 * part(spent, share):.1f} ms" for share in (0.5, 1.0))
        note = f"median {middle}, worst {most}, furthest from its bound {100 * off:.2f} %"
        yield Measure(
            f"which of {many}, about {fitting} fit, p95",
            1e3 * part(spent, 0.95),
            "ms",
            at_most=at_most,
            note=note,
        )
        yield Measure(
            f"which of {many}, about {fitting} fit, proved", proved / len(spent), "", at_least=share
        )


FIRST_USE: Final = """
import time
began = time.perf_counter()
from sendoff.calc.deck_plan.solve import best
from tests.calc.deck_plan.instances import random_problem
loaded = time.perf_counter()
best(random_problem(3, 4), code=CODE)
print(loaded - began, time.perf_counter() - loaded)
"""


def first_use() -> Iterable[Measure]:
    """Time the first answer in a fresh process: plain, and compiled with numba's cache filled."""
    for code in ("plain", "compiled"):
        text = FIRST_USE.replace("CODE", repr(code))
        done = subprocess.run(
            [sys.executable, "-c", text], cwd=ROOT, capture_output=True, text=True, check=True
        )
        loading, answering = (float(word) for word in done.stdout.split())
        note = f"after {loading:.2f} s of imports" + (
            "; numba's cache was filled" if code == "compiled" else ""
        )
        yield Measure(f"first answer in a fresh process, {code} code", answering, "s", note=note)


def measure() -> Iterable[Measure]:
    """Measure everything; the peers take most of the time."""
    best(instances.random_problem(3, 6), code="compiled")
    cores = os.cpu_count() or 1
    alone = {count: race(count, many, 1) for count, many in (SMALL | LARGE).items()}
    small, large = [alone[count] for count in SMALL], [alone[count] for count in LARGE]
    yield from ratios("1 to 6 items, one thread", small, 50.0, 20.0)
    together = [race(count, many // 2, cores) for count, many in SMALL.items()]
    yield from ratios(f"1 to 6 items, {cores} cores for the solvers", together, 50.0, 20.0)
    slowest = 1e3 * max(spent for row in small for spent in row.whole)
    yield Measure("1 to 6 items, whole question, worst", slowest, "ms", at_most=20.0)
    yield from ratios("7 and 8 items, one thread", large, None, 10.0)
    whole = [spent for row in large for spent in row.whole]
    yield Measure("7 and 8 items, whole question, p95", 1e3 * part(whole, 0.95), "ms", at_most=200.0)
    yield Measure("7 and 8 items, whole question, worst", 1e3 * max(whole), "ms", at_most=1000.0)
    yield from growth(alone)
    yield from without_numba()
    yield from reasons()
    yield from choices()
    yield from first_use()
