"""Reading one file of a yard into its record, with every fault found and none hidden behind another.

msgspec stops at the first fault; here the faulty entry is set aside and the rest is read again, until nothing is
left to find. A file with any fault gives no record.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final, TypeVar

import msgspec

from sendoff.catalogue.fields import CURE_MARK, Field
from sendoff.errors import Fault, FaultyInput, shown

T = TypeVar("T")
LARGEST_FILE_BYTES: Final = 1_000_000
DEEPEST: Final = 12
MOST_FAULTS: Final = 200
ANY_KEY: Final = "…"
_MISSING: Final = re.compile(r"Object missing required field `(.*)`")
_EMPTIED: Final = re.compile(r"Expected `(?:object|array)` of length .*")
_UNKNOWN: Final = re.compile(r"Object contains unknown field `(.*)`")
_AT: Final = re.compile(r" - at `(?P<key>key` in `)?\$(?P<path>[^`]*)`$")
_PART: Final = re.compile(r"\.(?P<key>[^.\[\]]+)|\[(?P<index>\d+)\]|\[(?P<any>\.\.\.)\]")


def read_toml(path: Path, name: str) -> dict[str, Any]:
    """Return the tables of a TOML file, or refuse it with one fault; `name` is how messages call the file."""
    import tomli

    try:
        size = path.stat().st_size
        if size > LARGEST_FILE_BYTES:
            raise FaultyInput(
                Fault(
                    name,
                    "",
                    f"{size:,} bytes",
                    "the file is too large",
                    "A file of a yard has a few kilobytes; give the right one.",
                )
            )
        text = path.read_bytes().decode("utf-8")
    except OSError as error:
        raise FaultyInput(
            Fault(
                name,
                "",
                "",
                f"the file cannot be read: {error.strerror}",
                "Check that it is there and may be read.",
            )
        ) from None
    except UnicodeDecodeError as error:
        raise FaultyInput(
            Fault(name, "", "", f"byte {error.start} is not UTF-8 text", "Save the file as UTF-8.")
        ) from None
    try:
        tables: dict[str, Any] = tomli.loads(text)
    except (tomli.TOMLDecodeError, RecursionError, ValueError) as error:
        problem = (
            "it is nested too deeply"
            if isinstance(error, RecursionError)
            else f"not TOML: {shown(str(error), 160)}"
        )
        raise FaultyInput(
            Fault(name, "", "", problem, "Mend that line; strings stand between quotation marks.")
        ) from None
    if _depth(tables) > DEEPEST:
        raise FaultyInput(
            Fault(name, "", "", "it is nested too deeply", f"At most {DEEPEST} levels are ever needed.")
        )
    return tables


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
        raise FaultyInput(_all_faults(tables, record, name)) from None


def _all_faults(tables: Mapping[str, Any], record: type, name: str) -> list[Fault]:
    """Return every fault of a file that has at least one."""
    faults: list[Fault] = []
    left = copy.deepcopy(dict(tables))
    removed: set[tuple[str | int, ...]] = set()
    while len(faults) < MOST_FAULTS:
        message = _first_fault(left, record)
        if message is None:
            break
        at = _AT.search(message)
        plain = message[: at.start()] if at else message
        parts = _named(
            left, record, _parts(at["path"] if at else ""), message, key_itself=bool(at and at["key"])
        )
        missing, unknown = _MISSING.fullmatch(plain), _UNKNOWN.fullmatch(plain)
        if missing or unknown:
            parts = [*parts, (missing or unknown)[1]]  # type: ignore[index]
        emptied = _EMPTIED.fullmatch(plain) and any(gone[: len(parts)] == tuple(parts) for gone in removed)
        if not emptied and not (missing and tuple(parts) in removed):
            faults.append(_fault(name, parts, plain, left))
        if not _set_aside(left, parts[:-1] if missing else parts, removed):
            break
    return faults


def _first_fault(tables: object, record: type) -> str | None:
    try:
        msgspec.convert(tables, record, dec_hook=_read_field)
    except msgspec.ValidationError as error:
        return str(error)
    return None


def _parts(path: str) -> list[str | int]:
    return [
        part["key"] or (int(part["index"]) if part["index"] else ANY_KEY) for part in _PART.finditer(path)
    ]


def _named(
    left: dict[str, Any], record: type, parts: list[str | int], message: str, *, key_itself: bool
) -> list[str | int]:
    """Put the key in where msgspec says only that some key of a table is at fault: the one that alone repeats it."""
    named: list[str | int] = []
    for part in [*parts, *([ANY_KEY] if key_itself else [])]:
        table = _value_at(left, named)
        if part != ANY_KEY or not isinstance(table, dict):
            named.append(part)
            continue
        whole = dict(table)
        culprit: str | int = ANY_KEY
        for key, value in whole.items():
            table.clear()
            table[key] = value
            if _first_fault(left, record) == message:
                culprit = key
                break
        table.clear()
        table.update(whole)
        named.append(culprit)
    return named


def _value_at(left: object, parts: list[str | int]) -> object:
    for part in parts:
        if (isinstance(left, dict) and part in left) or (
            isinstance(left, list) and isinstance(part, int) and part < len(left)
        ):
            left = left[part]  # type: ignore[index]
        else:
            return None
    return left


def _key(parts: list[str | int]) -> str:
    """Return where in the file, as a person would write it: step[2].say."""
    return "".join(f"[{part + 1}]" if isinstance(part, int) else f".{part}" for part in parts).lstrip(".")


def _fault(name: str, parts: list[str | int], plain: str, left: object) -> Fault:
    if _MISSING.fullmatch(plain):
        return Fault(name, _key(parts), "", f"'{parts[-1]}' is missing", f"Add a line {parts[-1]} = …")
    if _UNKNOWN.fullmatch(plain):
        return Fault(
            name,
            _key(parts),
            "",
            f"'{parts[-1]}' is not a key used here",
            "Check its spelling, or delete the line.",
        )
    problem, _, cure = plain.partition(CURE_MARK)
    if not cure:
        problem, cure = _in_plain_words(problem)
    value = _value_at(left, parts)
    found = "" if isinstance(value, dict | list) or value is None else shown(value)
    return Fault(name, _key(parts), found, problem, cure)


def _in_plain_words(message: str) -> tuple[str, str]:
    """Return msgspec's message as a problem and a cure in our words."""
    if found := re.fullmatch(r"Expected `str` matching regex '(.*)'", message):
        return (
            "that is not a name or reference this file can use",
            f"It must match {found[1]} (small letters, digits and _).",
        )
    if found := re.fullmatch(r"Expected `(.*)`, got `(.*)`", message):
        words = {
            "str": "a text",
            "int": "a whole number",
            "object": "a table",
            "array": "a list",
            "float": "a number",
            "bool": "true or false",
            "null": "nothing",
        }
        wanted = " or ".join(
            words.get(part.strip(), part.strip()) for part in found[1].split("|") if part.strip() != "null"
        )
        return (
            f"{wanted} is expected here, not {words.get(found[2], found[2])}",
            "Write it that way; a measure stands between quotation marks with its unit.",
        )
    if found := re.fullmatch(r"Invalid enum value (.*)", message):
        return (
            f"{found[1]} is not one of the words allowed here",
            "The JSON Schema of this file lists them (sendoff catalogue schemas).",
        )
    return message[:1].lower() + message[1:], "Compare it with CONTRIBUTING and the JSON Schema of this file."


def _set_aside(left: dict[str, Any], parts: list[str | int], removed: set[tuple[str | int, ...]]) -> bool:
    """Take the faulty entry out of `left` so that the rest can be read; False when nothing more can be."""
    if not parts:
        return False
    holder = _value_at(left, parts[:-1])
    last = parts[-1]
    if isinstance(holder, dict) and last in holder:
        del holder[last]
        removed.add(tuple(parts))
        return True
    if isinstance(holder, list) and isinstance(last, int) and last < len(holder):
        del holder[last]
        return True
    return False
