"""Everything that is wrong with the shape of one file, told at once and in plain words.

msgspec stops at the first fault. Here the file is read by records that ask for nothing: the faulty entry is set
aside and the rest is read again, until nothing is left to find; what is missing is found by itself. Only a file that
was refused ever comes here.
"""

from __future__ import annotations

import copy
import datetime
import functools
import operator
import re
import types
import typing
from collections.abc import Callable, Iterator, Mapping
from typing import Annotated, Any, Final, Literal, Union

import msgspec

from sendoff.catalogue.fields import CURE_MARK
from sendoff.errors import Fault, shown

MOST_FAULTS: Final = 200
ANY_KEY: Final = "…"
_EMPTIED: Final = re.compile(r"Expected `(?:object|array)` of length .*")
_UNKNOWN: Final = re.compile(r"Object contains unknown field `(.*)`")
_AT: Final = re.compile(r" - at `(?P<key>key` in `)?\$(?P<path>[^`]*)`$")
_PART: Final = re.compile(r"\.(?P<key>[^.\[\]]+)|\[(?P<index>\d+)\]|\[(?P<any>\.\.\.)\]")

Part = str | int
ReadField = Callable[[type, object], object]


def all_faults(tables: Mapping[str, Any], record: type, name: str, read_field: ReadField) -> list[Fault]:
    """Return every fault of shape of a file that has at least one."""
    return [*_missing(tables, record, (), name), *_Sifting(tables, record, name, read_field).faults()]


# ── what is missing ─────────────────────────────────────────────────────────────────────────────────────────────────


def _missing(value: object, kind: Any, at: tuple[Part, ...], name: str) -> Iterator[Fault]:
    """Yield a fault for each line a record needs and does not have, at any depth."""
    kind = _bare(kind)
    if isinstance(value, dict):
        if fields := _fields(kind):
            for key, (inner, required) in fields.items():
                if key in value:
                    yield from _missing(value[key], inner, (*at, key), name)
                elif required:
                    yield Fault(
                        name, _key((*at, key)), "", f"'{key}' is missing", _how_to_add(key, inner, at)
                    )
        elif typing.get_origin(kind) is dict:
            for key, item in value.items():
                yield from _missing(item, typing.get_args(kind)[1], (*at, key), name)
    elif isinstance(value, list) and typing.get_origin(kind) is tuple:
        for number, (item, inner) in enumerate(zip(value, _items(kind, len(value)), strict=False)):
            yield from _missing(item, inner, (*at, number), name)
    if _is_union(kind):
        for inner in typing.get_args(kind):
            yield from _missing(value, inner, at, name)


def _how_to_add(key: str, kind: Any, at: tuple[Part, ...]) -> str:
    """Return the cure for a missing line: tables and lists of tables have headings of their own."""
    kind = _bare(kind)
    heading = ".".join(str(part) for part in (*at, key) if isinstance(part, str))
    if _fields(kind):
        return f"Add a heading [{heading}] and its lines."
    if typing.get_origin(kind) is tuple and _fields(_bare(typing.get_args(kind)[0])):
        return f"Add a heading [[{heading}]] and its lines."
    return f"Add a line {key} = …"


def _items(kind: Any, count: int) -> list[Any]:
    inner = typing.get_args(kind)
    return [inner[0]] * count if len(inner) == 2 and inner[1] is Ellipsis else list(inner)


def _bare(kind: Any) -> Any:
    return typing.get_args(kind)[0] if typing.get_origin(kind) is Annotated else kind


def _is_union(kind: Any) -> bool:
    return typing.get_origin(kind) in {Union, types.UnionType}


@functools.cache
def _fields(kind: Any) -> dict[str, tuple[Any, bool]]:
    """Return the keys of a record with their kinds and whether they must be there; nothing for any other kind."""
    if not (isinstance(kind, type) and issubclass(kind, msgspec.Struct)):
        return {}
    hints = typing.get_type_hints(kind, include_extras=True)
    return {field.encode_name: (hints[field.name], field.required) for field in msgspec.structs.fields(kind)}


@functools.cache
def _lenient(kind: Any) -> Any:
    """Return the kind with every key of every record in it left to choice."""
    if _fields(kind):
        hints = typing.get_type_hints(kind, include_extras=True)
        names = {field.name: field.encode_name for field in msgspec.structs.fields(kind)}
        return msgspec.defstruct(
            kind.__name__,
            [(name, _lenient(hints[name]), msgspec.UNSET) for name in names],
            rename={name: key for name, key in names.items() if name != key},
            kw_only=True,
            frozen=True,
            forbid_unknown_fields=True,
        )
    origin, inner = typing.get_origin(kind), typing.get_args(kind)
    if origin is None or origin is Literal:
        return kind
    if origin is Annotated:
        return Annotated[(_lenient(inner[0]), *inner[1:])]
    if _is_union(kind):
        return functools.reduce(operator.or_, map(_lenient, inner))
    return origin[tuple(one if one is Ellipsis else _lenient(one) for one in inner)]


# ── what is there and wrong ─────────────────────────────────────────────────────────────────────────────────────────


class _Sifting:
    """The tables of a file from which one faulty entry after another is set aside."""

    def __init__(self, tables: Mapping[str, Any], record: type, name: str, read_field: ReadField) -> None:
        self.left: dict[str, Any] = copy.deepcopy(dict(tables))
        self.record, self.name, self.read_field = record, name, read_field
        self.kind = _lenient(record)
        self.gone: dict[tuple[Part, ...], list[int]] = {}
        """Which items of a list, named as in the file, are set aside."""
        self.touched: set[tuple[Part, ...]] = set()

    def faults(self) -> list[Fault]:
        """Return all faults but missing lines."""
        found: list[Fault] = []
        while len(found) < MOST_FAULTS and (message := self._first()) is not None:
            at = _AT.search(message)
            plain = message[: at.start()] if at else message
            parts = self._named(_parts(at["path"] if at else ""), message, key_itself=bool(at and at["key"]))
            if unknown := _UNKNOWN.fullmatch(plain):
                parts = [*parts, unknown[1]]
            written = self._as_written(parts)
            emptied = _EMPTIED.fullmatch(plain) and any(
                gone[: len(written)] == written for gone in self.touched
            )
            if not emptied:
                found.append(self._fault(written, parts, plain))
            if not self._set_aside(parts):
                break
        return found

    def _first(self) -> str | None:
        try:
            msgspec.convert(self.left, self.kind, dec_hook=self.read_field)
        except msgspec.ValidationError as error:
            return str(error)
        return None

    def _named(self, parts: list[Part], message: str, *, key_itself: bool) -> list[Part]:
        """Put the key in where msgspec says only that some key is at fault: the one that alone repeats it."""
        named: list[Part] = []
        for part in [*parts, *([ANY_KEY] if key_itself else [])]:
            table = _value_at(self.left, named)
            if part != ANY_KEY or not isinstance(table, dict):
                named.append(part)
                continue
            whole = dict(table)
            culprit: Part = ANY_KEY
            for key, value in whole.items():
                table.clear()
                table[key] = value
                if self._first() == message:
                    culprit = key
                    break
            table.clear()
            table.update(whole)
            named.append(culprit)
        return named

    def _as_written(self, parts: list[Part]) -> tuple[Part, ...]:
        """Return where in the file as it was written: items set aside count as well."""
        written: tuple[Part, ...] = ()
        for part in parts:
            number = part
            if isinstance(number, int):
                for gone in sorted(self.gone.get(written, ())):
                    number += gone <= number
            written = (*written, number)
        return written

    def _set_aside(self, parts: list[Part]) -> bool:
        """Take the faulty entry out so that the rest can be read; False when nothing more can be."""
        if not parts:
            return False
        holder, last = _value_at(self.left, parts[:-1]), parts[-1]
        written = self._as_written(parts)
        if isinstance(holder, dict) and last in holder:
            del holder[last]
        elif isinstance(holder, list) and isinstance(last, int) and last < len(holder):
            del holder[last]
            self.gone.setdefault(written[:-1], []).append(typing.cast("int", written[-1]))
        else:
            return False
        self.touched.add(written)
        return True

    def _fault(self, written: tuple[Part, ...], parts: list[Part], plain: str) -> Fault:
        if _UNKNOWN.fullmatch(plain):
            problem = f"'{shown(parts[-1])}' is not a key used here"
            return Fault(self.name, _key(written), "", problem, "Check its spelling, or delete the line.")
        value = _value_at(self.left, parts)
        problem, _, cure = plain.partition(CURE_MARK)
        if not cure:
            problem, cure = _in_plain_words(problem, list(_words_allowed(self.record, written)))
        if isinstance(value, dict | list) or value is None:
            found = ""
        else:
            found = shown(str(value) if isinstance(value, datetime.date | datetime.time) else value)
        return Fault(self.name, _key(written), found, problem, cure)


def _parts(path: str) -> list[Part]:
    return [
        part["key"] or (int(part["index"]) if part["index"] else ANY_KEY) for part in _PART.finditer(path)
    ]


def _value_at(left: object, parts: list[Part]) -> object:
    for part in parts:
        if (isinstance(left, dict) and part in left) or (
            isinstance(left, list) and isinstance(part, int) and part < len(left)
        ):
            left = left[part]  # type: ignore[index]
        else:
            return None
    return left


def _key(parts: tuple[Part, ...]) -> str:
    """Return where in the file, as a person would write it: step[2].say."""
    told = "".join(f"[{part + 1}]" if isinstance(part, int) else f".{shown(part)}" for part in parts)
    return told.lstrip(".")


def _words_allowed(kind: Any, parts: tuple[Part, ...]) -> Iterator[str]:
    """Yield the words a record allows at one place, where it allows only some."""
    kind = _bare(kind)
    if _is_union(kind):
        for inner in typing.get_args(kind):
            yield from _words_allowed(inner, parts)
    elif not parts:
        if typing.get_origin(kind) is Literal:
            yield from (str(word) for word in typing.get_args(kind))
    elif fields := _fields(kind):
        if parts[0] in fields:
            yield from _words_allowed(fields[parts[0]][0], parts[1:])
    elif typing.get_origin(kind) is tuple and isinstance(parts[0], int):
        yield from _words_allowed(_items(kind, parts[0] + 1)[parts[0]], parts[1:])
    elif typing.get_origin(kind) is dict:
        key, value = typing.get_args(kind)
        yield from _words_allowed(value, parts[1:])
        if len(parts) == 1:
            yield from _words_allowed(key, ())


# ── msgspec's messages in our words ─────────────────────────────────────────────────────────────────────────────────

_KINDS: Final = {
    "str": "a text",
    "int": "a whole number",
    "object": "a table",
    "array": "a list",
    "float": "a number",
    "bool": "true or false",
    "null": "nothing",
    "date": "a day such as 2026-11-25",
    "datetime": "a day with a time",
    "time": "a time",
}
_NAMES: Final = {
    "^[a-z][a-z0-9_]{0,47}$": 'Use small letters, digits and _, a letter first, such as "winch_12v".',
    "^[a-z][a-z0-9_]*/[a-z0-9][a-z0-9_]*$": 'Name a card and its variant, such as "my_tire/range_c".',
    "^[a-z][a-z0-9_]*(=[a-z][a-z0-9_]*)?$": 'Name a slot, "winch", or a slot and a card, "tires=my_tire".',
    r"^([a-z][a-z0-9_]*:)?[a-z][a-z0-9_]*\??$": 'Name a step or check of this card, or "slot:step" of another part.',
    "^[23456789ABCDEFGHJKLMNPQRSTUVWXYZ]{10}$": "It has ten signs, 2-9 and A-Z without I and O: sendoff new makes one.",
    r"^([a-z][a-z0-9_]*\.)?[a-z][a-z0-9_]*$": 'Name a value of this card, or "slot.value" of another part.',
}
_BOUNDS: Final = {">=": "at least", "<=": "at most", ">": "more than", "<": "less than"}


def _in_plain_words(message: str, allowed: list[str]) -> tuple[str, str]:
    """Return msgspec's message as a problem and a cure in our words."""
    if found := re.fullmatch(r"Expected `str` matching regex '(.*)'", message):
        pattern = found[1].replace("\\\\", "\\")
        return "that cannot stand here", _NAMES.get(pattern, f"It must match {pattern}.")
    if found := re.fullmatch(r"Expected `(int|float)` (>=|<=|>|<) (.*)", message):
        return f"the number must be {_BOUNDS[found[2]]} {float(found[3]):,.0f}", "Correct it."
    if found := re.fullmatch(r"Expected `(array|object)` of length (>=|<=) (\d+)", message):
        what = f"{_BOUNDS[found[2]]} {found[3]} {'entry' if found[3] == '1' else 'entries'}"
        return f"{what} must stand here", "Add or delete some."
    if found := re.fullmatch(r"Expected `array` of length (\d+)(?:, got (\d+))?", message):
        return f"a list of {found[1]} is expected here", f"Write {found[1]} values between square brackets."
    if found := re.fullmatch(r"Expected `(.*)`, got `(.*)`", message):
        return _another_kind({part.strip() for part in found[1].split("|")} - {"null"}, found[2], found[1])
    if found := re.fullmatch(r"Invalid enum value (.*)", message):
        return f"{found[1]} is not one of the words allowed here", f"Use one of: {', '.join(allowed)}."
    if message.startswith("Invalid RFC3339"):
        return "that is no day of the calendar", "Write it as 2026-11-25, without quotation marks."
    return message[:1].lower() + message[1:], "Compare it with CONTRIBUTING and the JSON Schema of this file."


def _another_kind(wanted: set[str], got: str, in_order: str) -> tuple[str, str]:
    if got == "float" and "str" in wanted:
        return "a number with a decimal point needs its unit", 'Write it as text, such as "12.5 psi".'
    told = " or ".join(
        _KINDS.get(part.strip(), part.strip()) for part in in_order.split("|") if part.strip() in wanted
    )
    if wanted == {"date"}:
        cure = "Write it as 2026-11-25, without quotation marks."
    elif "str" in wanted:
        cure = 'Write it between quotation marks: "…".'
    elif wanted == {"object"}:
        cure = "Write its lines under a heading in [brackets], or between { }."
    elif wanted == {"array"}:
        cure = "Write it between square brackets: […]."
    elif wanted == {"int"} and got == "float":
        cure = "Write it without a decimal point."
    else:
        cure = "Write it without quotation marks or brackets."
    return f"{told} is expected here, not {_KINDS.get(got, got)}", cure
