"""Many packs at once: fresh processes, Ctrl-C to the first alone, and a process that is killed is found out and named.

Each process lays a mark on a desk while it makes a pack. One that ends by itself, or is ended by us, takes its mark
away; a mark that is still there when the others have gone says which pack was being made by the one that was killed.
That pack is made once more in a process of its own, so that what killed the first touches no other.
"""

from __future__ import annotations

import multiprocessing
import os
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from pathlib import Path
from types import FrameType
from typing import Any, Final, TypeVar

from sendoff.errors import SendoffError

T = TypeVar("T")
Work = Callable[[T], Any]
MOST_RESTARTS: Final = 3
"""How often all processes may die between packs, with nothing to blame, before it is given up."""
ENDED: Final = 143


def outcomes(
    work: Work[T], orders: Sequence[T], jobs: int, killed: Callable[[T, list[int]], object]
) -> Iterator[tuple[T, Any, bool]]:
    """Yield each order in the order asked with what was made of it, and whether its first process was killed.

    What is made of an order whose process is killed twice is the `BrokenProcessPool` of the second time; `killed`
    is told each order whose process was killed, and the processes that were, to clear away what they left.
    """
    ready: dict[int, tuple[Any, bool]] = {}
    answered, restarts = 0, 0
    while answered < len(orders):
        rest = [number for number in range(answered, len(orders)) if number not in ready]
        before = len(rest)
        marks: dict[int, int] = {}
        for number, made in _together(work, orders, rest, jobs, marks):
            ready[number] = (made, False)
            while answered in ready:
                yield orders[answered], *ready.pop(answered)
                answered += 1
        lost = [number for number in sorted(marks) if number >= answered and number not in ready]
        for number in lost:
            killed(orders[number], [marks[number]])
            ready[number] = (_alone(work, orders[number], killed), True)
        while answered in ready:
            yield orders[answered], *ready.pop(answered)
            answered += 1
        left = [number for number in range(answered, len(orders)) if number not in ready]
        restarts = restarts + 1 if len(left) == before else 0
        if restarts == MOST_RESTARTS:
            raise SendoffError(
                "The processes that make packs are ended from outside before they make any. "
                "Look whether the machine runs out of memory, or make them one after another: -j 1."
            )


def _together(
    work: Work[T], orders: Sequence[T], numbers: Sequence[int], jobs: int, marks: dict[int, int]
) -> Iterator[tuple[int, Any]]:
    """Yield numbers of orders with what was made, in their order, until all are there or a process is killed.

    After that `marks` holds, by number, the process that was making it when it was killed.
    """
    if not numbers:
        return
    with tempfile.TemporaryDirectory(prefix="sendoff-") as desk:
        with _processes(min(jobs, len(numbers))) as pool:
            futures: dict[int, Future[Any]] = {}
            told: set[int] = set()
            try:
                with (
                    stopping_waits()
                ):  # what a process is held back from at its start, it stays held back from
                    for number in numbers:
                        futures[number] = pool.submit(_marked, work, orders[number], number, desk)
                for number, future in futures.items():
                    yield number, future.result()
                    told.add(number)
            except BrokenProcessPool:
                for number, future in futures.items():
                    if number not in told and future.done() and future.exception() is None:
                        yield number, future.result()
            except BaseException:
                pool.shutdown(wait=True, cancel_futures=True)
                raise
        for mark in Path(desk).iterdir():  # the others have gone by now, and have taken theirs away
            with suppress(ValueError):
                marks[int(mark.name)] = int(mark.read_text() or "0")


def _alone(work: Work[T], order: T, killed: Callable[[T, list[int]], object]) -> Any:
    """Do the work again in a process of its own; return the failure when that one is killed as well."""
    marks: dict[int, int] = {}
    for _, made in _together(work, [order], [0], 1, marks):
        return made
    killed(order, list(marks.values()))
    return BrokenProcessPool()


def _processes(count: int) -> ProcessPoolExecutor:
    """Return fresh processes: a copy of one that has set a page would wait for threads that were not copied."""
    fresh = multiprocessing.get_context("spawn")
    return ProcessPoolExecutor(count, mp_context=fresh, initializer=_begin)


def _begin() -> None:
    """Let Ctrl-C reach the first process only, which stops the others when what they write is whole."""
    os.environ.setdefault(
        "RAYON_NUM_THREADS", "1"
    )  # the compiler's threads: each process has a core of its own
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, _leave)
    if hasattr(signal, "pthread_sigmask"):  # SIGTERM was held back while this process was started
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT, signal.SIGTERM})


def _leave(_: int, __: FrameType | None) -> None:
    sys.exit(ENDED)


def _marked(work: Work[T], order: T, number: int, desk: str) -> Any:
    mark = Path(desk) / str(number)
    try:
        mark.write_text(str(os.getpid()))
        return work(order)
    except SystemExit:  # asked to end: what it was writing has been cleared away on the way here
        mark.unlink(missing_ok=True)
        os._exit(ENDED)
    finally:
        with suppress(OSError):
            mark.unlink(missing_ok=True)


class stopping_waits:  # noqa: N801 used as a statement
    """Hold Ctrl-C and a polite end back for the moment in which something must be done whole."""

    def __enter__(self) -> None:
        """Hold them back."""
        self.held = None
        if hasattr(signal, "pthread_sigmask"):
            self.held = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM})

    def __exit__(self, *_: object) -> None:
        """Let them through again."""
        if self.held is not None:
            signal.pthread_sigmask(signal.SIG_SETMASK, self.held)


def clear_left_by(folder: Path, processes: Sequence[int]) -> None:
    """Remove what killed processes were writing into a folder."""
    for process in processes:
        for path in folder.glob(f".making-*-{process}-*"):
            shutil.rmtree(path, ignore_errors=True)
