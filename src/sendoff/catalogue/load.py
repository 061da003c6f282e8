"""Loading a yard's catalogue folder: part cards, trailer types, sentences, and the yard beside it.

yard.toml
catalogue/
    sentences.toml
    cards/<system>/<card>.toml
    trailers/<type>.toml
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, TypeVar

from sendoff.catalogue.loading import read_record, read_toml
from sendoff.catalogue.schema import Card, Sentences, TrailerType, Yard
from sendoff.errors import Fault, FaultyInput, shown

R = TypeVar("R")
VARIABLE: Final = "SENDOFF_CATALOGUE"
MOST_FILES: Final = 2000


@dataclass(frozen=True)
class Catalogue:
    """Everything a yard knows: its types and its part cards, as read and as tables."""

    folder: Path
    yard: Yard
    cards: Mapping[str, Card]
    types: Mapping[str, TrailerType]
    sentences: Sentences
    raw: Mapping[str, Mapping[str, Any]] = field(repr=False)
    """Tables of every file by its name below the catalogue, for digest, diff and lint."""
    files: Mapping[str, str] = field(repr=False)
    """Name of the file that defines a card ("card:tire") or a type ("type:hauler")."""

    @property
    def digest(self) -> str:
        """SHA-256 of the canonical JSON of all its files."""
        from sendoff.canonical import digest_of_tables

        return digest_of_tables(self.raw)


def find_folder(option: Path | None, *beside: Path) -> Path:
    """Return the catalogue folder: the one given, the one set, or the one beside a file or in a folder above it."""
    for given, told in ((option, "--catalogue"), (_from_environment(), VARIABLE)):
        if given is not None:
            for folder in (given, given / "catalogue"):
                if (folder / "cards").is_dir() or (folder / "trailers").is_dir():
                    return folder
            raise FaultyInput(
                Fault(
                    told,
                    "",
                    shown(str(given), 300),
                    "there is no catalogue in that folder",
                    "Give the folder that holds cards/ and trailers/, or the one that holds catalogue/.",
                )
            )
    for parent in (parent for path in beside for parent in path.resolve().parents):
        if (parent / "catalogue" / "trailers").is_dir():
            return parent / "catalogue"
    cure = f"Give --catalogue DIR, set {VARIABLE}, or make one with: sendoff catalogue new DIR"
    raise FaultyInput(Fault("catalogue", "", "", "no catalogue was found", cure))


def _from_environment() -> Path | None:
    value = os.environ.get(VARIABLE)
    return Path(value) if value else None


def _names(folder: Path) -> Iterator[str]:
    """Yield the TOML files below the folder in a fixed order, links out of it left out."""
    found = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.toml") if path.is_file())
    if len(found) > MOST_FILES:
        raise FaultyInput(
            Fault(
                str(folder),
                "",
                f"{len(found)} files",
                "that is no catalogue",
                f"A catalogue has at most {MOST_FILES} files.",
            )
        )
    yield from found


class _Reading:
    """Collects records and faults while the files are read one by one."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self.raw: dict[str, Mapping[str, Any]] = {}
        self.files: dict[str, str] = {}

    def tables(self, folder: Path, name: str) -> Mapping[str, Any] | None:
        try:
            self.raw[name] = read_toml(folder / name, name)
        except FaultyInput as error:
            self.faults += error.faults
            return None
        return self.raw[name]

    def record(self, name: str, kind: type[R], tables: Mapping[str, Any]) -> R | None:
        try:
            return read_record(tables, kind, name)
        except FaultyInput as error:
            self.faults += error.faults
            return None

    def file(self, what: str, name: str, into: dict[str, Any], record: Any) -> None:
        if self.files.get(f"{what}:{record.id}"):
            other = self.files[f"{what}:{record.id}"]
            self.faults.append(
                Fault(name, "id", record.id, f"{other} has the same id", "Give one of them another id.")
            )
            return
        if Path(name).stem != record.id:
            self.faults.append(
                Fault(
                    name, "id", record.id, "the file is named otherwise", f"Name the file {record.id}.toml."
                )
            )
        self.files[f"{what}:{record.id}"] = name
        into[record.id] = record


def load(folder: Path) -> Catalogue:
    """Read a catalogue folder whole; refuse it with every fault of shape, value and reference in any of its files."""
    reading = _Reading()
    cards: dict[str, Card] = {}
    types: dict[str, TrailerType] = {}
    kinds: tuple[tuple[str, str, type[Any], dict[str, Any]], ...] = (
        ("cards/", "card", Card, cards),
        ("trailers/", "type", TrailerType, types),
    )
    sentences: Sentences | None = None
    for name in _names(folder):
        tables = reading.tables(folder, name)
        if tables is None:
            continue
        if name == "sentences.toml":
            sentences = reading.record(name, Sentences, tables)
            continue
        found = next((kind for kind in kinds if name.startswith(kind[0])), None)
        if found is None:
            reading.faults.append(
                Fault(
                    name,
                    "",
                    "",
                    "nothing of that name belongs in a catalogue",
                    "Put cards in cards/, types in trailers/.",
                )
            )
            continue
        _, what, shape, into = found
        record = reading.record(name, shape, tables)
        if record is not None:
            reading.file(what, name, into, record)
    if "sentences.toml" not in reading.raw:
        reading.faults.append(
            Fault(
                "sentences.toml",
                "",
                "",
                "the file is missing",
                "Copy it from the starter catalogue (sendoff catalogue new DIR).",
            )
        )
    yard = _yard(folder, reading)
    from sendoff.catalogue import references, values

    unread = {Path(fault.file).stem for fault in reading.faults}
    faults = [
        *reading.faults,
        *values.faults(cards, reading.files),
        *references.faults(cards, types, reading.files, frozenset(unread)),
    ]
    if faults or yard is None or sentences is None:
        raise FaultyInput(faults)
    return Catalogue(folder, yard, cards, types, sentences, reading.raw, reading.files)


def _yard(folder: Path, reading: _Reading) -> Yard | None:
    path = next(
        (
            place / "yard.toml"
            for place in (folder.resolve().parent, folder)
            if (place / "yard.toml").is_file()
        ),
        None,
    )
    if path is None:
        reading.faults.append(
            Fault("yard.toml", "", "", "the file is missing", "Put yard.toml beside the catalogue folder.")
        )
        return None
    tables = reading.tables(path.parent, "yard.toml")
    return None if tables is None else reading.record("yard.toml", Yard, tables)


def read_file(path: Path, kind: type[R], check: Callable[[R], list[Fault]] | None = None) -> R:
    """Read one truck, cargo or other file of a yard."""
    record = read_record(read_toml(path, str(path)), kind, str(path))
    faults = check(record) if check else []
    if faults:
        raise FaultyInput(faults)
    return record
