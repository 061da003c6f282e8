"""Reading one file of a yard into its record. A file with any fault gives no record, and all its faults are told."""

from __future__ import annotations

import stat
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final, TypeVar

import msgspec

from sendoff.catalogue.fields import Field
from sendoff.errors import Fault, FaultyInput, shown

T = TypeVar("T")
LARGEST_FILE_BYTES: Final = 1_000_000
DEEPEST: Final = 12


def read_toml(path: Path, name: str) -> dict[str, Any]:
    """Return the tables of a TOML file, or refuse it with one fault; `name` is how messages call the file."""
    import tomli

    text = _read_text(path, name)
    try:
        tables: dict[str, Any] = tomli.loads(text)
    except (tomli.TOMLDecodeError, RecursionError, ValueError) as error:
        problem = (
            "it is nested too deeply"
            if isinstance(error, RecursionError)
            else f"not TOML: {shown(str(error), 160)}"
        )
        raise FaultyInput(
            Fault(name, "", "", problem, "Mend that line; texts stand between quotation marks.")
        ) from None
    if not tables:
        raise FaultyInput(Fault(name, "", "", "nothing is written in it", "Give the right file."))
    if _depth(tables) > DEEPEST:
        raise FaultyInput(
            Fault(name, "", "", "it is nested too deeply", f"At most {DEEPEST} levels are ever needed.")
        )
    return tables


def _read_text(path: Path, name: str) -> str:
    """Return what a file says; pipes and devices, which may never end, are no files."""
    try:
        about = path.stat()
        if stat.S_ISDIR(about.st_mode):
            raise FaultyInput(Fault(name, "", "", "that is a folder", "Name a file in it."))
        if not stat.S_ISREG(about.st_mode):
            raise FaultyInput(Fault(name, "", "", "that is no file", "Save it as a file and name that."))
        if about.st_size > LARGEST_FILE_BYTES:
            raise FaultyInput(
                Fault(
                    name,
                    "",
                    f"{about.st_size:,} bytes",
                    "the file is too large",
                    "A file of a yard has a few kilobytes; give the right one.",
                )
            )
        return path.read_bytes().decode("utf-8-sig")
    except (OSError, ValueError) as error:
        if isinstance(error, UnicodeDecodeError):
            problem, cure = f"byte {error.start} is not UTF-8 text", "Save the file as UTF-8."
        else:
            problem = f"the file cannot be read: {getattr(error, 'strerror', None) or error}"
            cure = "Check that it is there and may be read."
        raise FaultyInput(Fault(name, "", "", problem, cure)) from None


def _depth(value: object) -> int:
    """Return how deeply tables and lists stand in one another, without recursion."""
    deepest, level = 0, [value]
    while level:
        deepest += 1
        below: list[object] = []
        for item in level:
            if isinstance(item, dict):
                below.extend(item.values())
            elif isinstance(item, list):
                below.extend(item)
        level = [item for item in below if isinstance(item, dict | list)] if deepest < DEEPEST else below
    return deepest


def _read_field(kind: type, value: object) -> object:
    """Read one of our own fields (msgspec's dec_hook)."""
    if issubclass(kind, Field):
        return kind.read(value)
    raise NotImplementedError(
        kind
    )  # a type this package forgot to make a Field: a mistake of ours, not of the file


def read_record(tables: Mapping[str, Any], record: type[T], name: str) -> T:
    """Turn the tables of a file into its record, or refuse with all faults of the file."""
    try:
        return msgspec.convert(tables, record, dec_hook=_read_field)
    except msgspec.ValidationError:
        from sendoff.catalogue.faults_of_shape import all_faults

        raise FaultyInput(all_faults(tables, record, name, _read_field)) from None
