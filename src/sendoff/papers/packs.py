"""Making packs: each unit's papers whole or not at all, many units at once, one bad sheet never stopping the others."""

from __future__ import annotations

import contextlib
import datetime
import functools
import multiprocessing
import os
import re
import secrets
import shutil
import signal
from collections.abc import Callable, Generator, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import Catalogue, find_folder, load
from sendoff.catalogue.loading import read_toml
from sendoff.errors import CannotWrite, Fault, FaultyInput, SendoffError, of_sheet
from sendoff.units import System

_NOT_IN_NAMES: Final = re.compile(r"[^A-Za-z0-9._-]+")
TRIES: Final = 20


@dataclass(frozen=True, slots=True)
class Order:
    """What to make a pack from, and for whom."""

    sheet: Path
    catalogue: Path | None
    out: Path
    language: str | None
    units: System | None
    day: datetime.date


@dataclass(frozen=True, slots=True)
class Made:
    """A pack that was made."""

    folder: Path
    unit: str
    title: str
    files: tuple[tuple[str, int], ...]
    """Name and size of each file."""
    again: bool = False
    """Whether its first process was ended from outside, so that it was made once more."""


@functools.lru_cache(maxsize=4)
def _loaded(folder: Path) -> Catalogue:
    return load(folder)


def make_pack(order: Order) -> Made:
    """Make the pack of one unit; it appears whole in its folder, or nothing changes there."""
    from sendoff.papers.contents import files_of_pack

    catalogue = _loaded(find_folder(order.catalogue, order.sheet))
    unit = as_built(order.sheet, catalogue)
    files = files_of_pack(
        unit, catalogue, order.language or unit.reader.language, order.units or unit.reader.units, order.day
    )
    folder = order.out / folder_name(unit.unit)
    write_whole(folder, files)
    return Made(
        folder,
        unit.unit,
        unit.type_name["en"],
        tuple((name, len(data)) for name, data in sorted(files.items())),
    )


def folder_name(unit: str) -> str:
    """Return the folder name of a unit: its number, with whatever a file system may refuse replaced.

    >>> folder_name("QB 0107/a"), folder_name("..")
    ('QB-0107-a', 'unit')
    """
    return _NOT_IN_NAMES.sub("-", unit).strip("-.") or "unit"


def write_whole(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder so that it appears whole, replacing what stood there, or not at all."""
    making = folder.parent / f".making-{folder.name}-{secrets.token_hex(4)}"
    try:
        for name, data in files.items():
            path = making / name
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
        _put_in_place(making, folder)
    except OSError as error:
        cure = "Free some room, or name a folder you may write to; nothing was changed."
        raise CannotWrite(f"{folder}: cannot be written ({error.strerror or error}). {cure}") from None
    finally:
        shutil.rmtree(making, ignore_errors=True)


def _put_in_place(making: Path, folder: Path) -> None:
    """Swap the finished folder in; when another swaps theirs in at the same moment, the later one stays, whole."""
    for _ in range(TRIES):
        old = folder.parent / f".old-{folder.name}-{secrets.token_hex(4)}"
        with _stopping_waits():
            with contextlib.suppress(FileNotFoundError):
                folder.rename(old)
            try:
                making.rename(folder)
            except OSError:
                if not folder.exists() and old.exists():
                    old.rename(folder)
                if not making.exists():
                    raise
                continue
        shutil.rmtree(old, ignore_errors=True)
        return
    raise CannotWrite(f"{folder}: others keep writing there. Make packs of one unit one after another.")


@contextlib.contextmanager
def _stopping_waits() -> Iterator[None]:
    """Hold Ctrl-C back for a moment: while one folder takes another's place, while workers are started."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    held = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, held)


def make_packs(
    sheets: Sequence[Path],
    catalogue: Path | None,
    out: Path,
    language: str | None,
    units: System | None,
    day: datetime.date,
    jobs: int,
    say: Callable[[str], object],
    refuse: Callable[[str], object] | None = None,
) -> int:
    """Make the packs of many sheets; return exit code 0, or 2 when any sheet was refused."""
    orders = [Order(sheet, catalogue, out, language, units, day) for sheet in dict.fromkeys(sheets)]
    refuse_same_folder(sheets)
    refused = 0
    for _, outcome in _outcomes(orders, jobs):
        if isinstance(outcome, Made):
            total = sum(size for _, size in outcome.files)
            size = f"{len(outcome.files)} files, {total / 1000:,.0f} kB"
            again = " (made again: its first process was ended from outside)" if outcome.again else ""
            say(f"{outcome.unit}  {outcome.title}: {size} in {outcome.folder}{again}")
        else:
            refused += 1
            (refuse or say)(str(outcome))
    say(f"{len(orders) - refused} of {len(orders)} packs made in {out}")
    return 2 if refused else 0


def refuse_same_folder(sheets: Sequence[Path]) -> None:
    """Refuse sheets whose packs would fall into one folder, before any is made."""
    seen: dict[str, Path] = {}
    faults = []
    for sheet in dict.fromkeys(sheets):
        try:
            unit = read_toml(sheet, str(sheet)).get("unit")
        except SendoffError:
            continue  # told when its own pack is made
        if isinstance(unit, str):
            other = seen.setdefault(folder_name(unit), sheet)
            if other is not sheet:
                faults.append(
                    Fault(
                        str(sheet),
                        "unit",
                        unit,
                        f"{other} would write into the same folder",
                        "Give each unit its own number.",
                    )
                )
    if faults:
        raise FaultyInput(faults)


def _outcomes(orders: Sequence[Order], jobs: int) -> Iterator[tuple[Order, Made | SendoffError]]:
    if jobs == 1 or len(orders) == 1:
        for order in orders:
            yield order, _outcome(order)
        return
    waiting = list(orders)
    while waiting:
        answered = yield from _together(waiting, jobs)
        del waiting[:answered]
        if (
            waiting
        ):  # a worker died: the first unanswered may be what killed it, so it is made once more, alone
            lost = waiting.pop(0)
            yield lost, _alone(lost)


def _together(orders: Sequence[Order], jobs: int) -> Generator[tuple[Order, Made | SendoffError], None, int]:
    """Yield outcomes in the order asked until all are there or a worker dies; return how many there were."""
    answered = 0
    with _workers(min(jobs, len(orders))) as pool:
        try:
            with _stopping_waits():  # what a worker is held back from at its start, it stays held back from
                futures = [(order, pool.submit(_outcome, order)) for order in orders]
            for order, future in futures:
                yield order, future.result()
                answered += 1
        except BrokenProcessPool:
            return answered
        except BaseException:
            pool.shutdown(wait=True, cancel_futures=True)
            raise
    return answered


def _workers(count: int) -> ProcessPoolExecutor:
    """Return fresh processes: a copy of one that has set a page would wait for threads that were not copied."""
    fresh = multiprocessing.get_context("spawn")
    return ProcessPoolExecutor(count, mp_context=fresh, initializer=_leave_stopping_to_the_first)


def _alone(order: Order) -> Made | SendoffError:
    """Make a pack again in a process of its own; say which it was when that process dies as well."""
    with _workers(1) as pool:
        try:
            with _stopping_waits():
                future = pool.submit(_outcome, order)
            made = future.result()
        except BrokenProcessPool:
            return SendoffError(
                f"{order.sheet}: the process that made its pack was ended from outside, twice. "
                "Look whether the machine runs out of memory; the other packs are not touched by it."
            )
    return replace(made, again=True) if isinstance(made, Made) else made


def _leave_stopping_to_the_first() -> None:
    """Let Ctrl-C reach the first process only, which stops the others when what they write is whole."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(signal, "pthread_sigmask"):  # SIGTERM was held back while this process was started
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT, signal.SIGTERM})


def _outcome(order: Order) -> Made | SendoffError:
    try:
        return make_pack(order)
    except SendoffError as refused:
        return of_sheet(refused, str(order.sheet))
