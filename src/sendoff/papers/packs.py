"""Making packs: each unit's papers whole or not at all, many units at once, one bad sheet never stopping the others."""

from __future__ import annotations

import contextlib
import datetime
import functools
import os
import re
import secrets
import shutil
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import Catalogue, find_folder, load
from sendoff.catalogue.loading import read_toml
from sendoff.errors import CannotWrite, Fault, FaultyInput, SendoffError, of_sheet
from sendoff.papers import workers
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
    making = folder.parent / f".making-{folder.name}-{os.getpid()}-{secrets.token_hex(4)}"
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
        with workers.stopping_waits():
            with contextlib.suppress(FileNotFoundError):
                folder.rename(old)
            try:
                making.rename(folder)
            except OSError:
                with contextlib.suppress(
                    OSError
                ):  # put back what stood there, unless another's is there by now
                    if not folder.exists():
                        old.rename(folder)
                if not making.exists():
                    raise
                shutil.rmtree(old, ignore_errors=True)
                continue
        shutil.rmtree(old, ignore_errors=True)
        return
    raise CannotWrite(f"{folder}: others keep writing there. Make packs of one unit one after another.")


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
    progress: Callable[[int, int], object] | None = None,
) -> int:
    """Make the packs of many sheets; return exit code 0, or 2 when any sheet was refused."""
    orders = [Order(sheet, catalogue, out, language, units, day) for sheet in dict.fromkeys(sheets)]
    refuse_same_folder(sheets)
    refused = 0
    if progress is not None:
        progress(0, len(orders))
    for done, (_, outcome) in enumerate(_outcomes(orders, jobs), start=1):
        if isinstance(outcome, Made):
            total = sum(size for _, size in outcome.files)
            size = f"{len(outcome.files)} files, {total / 1000:,.0f} kB"
            again = " (made again: its first process was ended from outside)" if outcome.again else ""
            say(f"{outcome.unit}  {outcome.title}: {size} in {outcome.folder}{again}")
        else:
            refused += 1
            (refuse or say)(str(outcome))
        if progress is not None:
            progress(done, len(orders))
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
    for order, made, again in workers.outcomes(_outcome, orders, jobs, _clear):
        if isinstance(made, BrokenProcessPool):
            yield (
                order,
                SendoffError(
                    f"{order.sheet}: the process that made its pack was ended from outside, twice. "
                    "Look whether the machine runs out of memory; the other packs are not touched by it."
                ),
            )
        else:
            yield order, replace(made, again=True) if again and isinstance(made, Made) else made


def _clear(order: Order, processes: Sequence[int]) -> None:
    workers.clear_left_by(order.out, processes)


def _outcome(order: Order) -> Made | SendoffError:
    try:
        return make_pack(order)
    except SendoffError as refused:
        return of_sheet(refused, str(order.sheet))
