"""Arguments of a calculation as a person writes them: texts with units in, the function's own SI values out.

The command line, the case files and the web page read inputs through here, so that all accept the same units
and refuse the same mistakes.
"""

from __future__ import annotations

import datetime as dt
import difflib
import functools
import inspect
import math
import types
import typing
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal, Union

from sendoff import tables, units
from sendoff.calc.contract import Calculation
from sendoff.errors import Fault, FaultyInput, shown
from sendoff.tables import Table

YES: Final = frozenset({"yes", "y", "true", "1", "on"})
NO: Final = frozenset({"no", "n", "false", "0", "off"})

Form = Literal["quantity", "count", "number", "words", "yes_no", "text", "date", "table"]


@dataclass(frozen=True, slots=True)
class Argument:
    """What one input of a calculation may be."""

    name: str
    form: Form
    kind: str
    """Kind of quantity, for quantities and plain ratios; empty otherwise."""
    words: tuple[str, ...]
    many: bool
    optional: bool
    """True if it may be left out (it has a default)."""
    default: Any
    may_be_none: bool

    @property
    def said(self) -> str:
        """What to write, in words."""
        one = _SAID.get(self.form, "")
        if self.form == "words":
            one = " | ".join(self.words)
        if self.form == "quantity":
            allowed = ", ".join(unit or "no unit" for unit in units.units_of(self.kind))
            one = f"{self.kind.replace('_', ' ')} ({allowed})"
        return f"list, comma-separated: {one}" if self.many else one


_SAID: Final = {
    "count": "whole number",
    "number": "number",
    "yes_no": "yes | no",
    "text": "text",
    "date": "date, such as 2026-05-31",
    "table": "id of a published table, or a TOML file of the same columns",
}


@functools.cache
def _hints(function: Any) -> Mapping[str, Any]:
    return typing.get_type_hints(inspect.unwrap(function))


def arguments(calculation: Calculation) -> dict[str, Argument]:
    """Return what a calculation asks for, in order."""
    hints = _hints(calculation.function)
    found = {}
    for name, parameter in inspect.signature(calculation.function).parameters.items():
        optional = parameter.default is not inspect.Parameter.empty
        found[name] = _argument(
            name, hints[name], optional=optional, default=parameter.default if optional else None
        )
    return found


def _argument(name: str, hint: Any, *, optional: bool, default: Any) -> Argument:
    may_be_none = False
    if typing.get_origin(hint) in {Union, types.UnionType}:
        inner = [part for part in typing.get_args(hint) if part is not type(None)]
        may_be_none = len(inner) < len(typing.get_args(hint))
        if set(inner) == {int, float}:
            inner = [float]
        if len(inner) != 1:
            raise TypeError(f"{name}: an argument has one type")
        hint = inner[0]
    many = typing.get_origin(hint) is tuple
    if many:
        hint = typing.get_args(hint)[0]
    form, kind, words = _form(name, hint)
    return Argument(name, form, kind, words, many, optional, default, may_be_none)


def _form(name: str, hint: Any) -> tuple[Form, str, tuple[str, ...]]:
    if typing.get_origin(hint) is Literal:
        return "words", "", tuple(str(word) for word in typing.get_args(hint))
    if hint is bool:
        return "yes_no", "", ()
    if hint is str:
        return "text", "", ()
    if hint is dt.date:
        return "date", "", ()
    if hint is Table:
        return "table", "", ()
    kind = units.kind_of_name(name)
    if hint is int:
        return "count", "", ()
    if hint is float and kind is not None:
        return "quantity", kind, ()
    if hint is float:
        return "number", "", ()
    raise TypeError(f"{name}: a calculation takes no {hint}")


def read(calculation: Calculation, given: Mapping[str, Any], file: str = "") -> dict[str, Any]:
    """Turn inputs as written into the arguments of a calculation; all that is wrong is named at once.

    Parameters
    ----------
    calculation : Calculation
        The one to be asked.
    given : mapping
        Texts by name ("110 psi", "yes", "9 ft 6 in, 3 m"). From TOML also whole numbers, true, dates, lists.
    file : str
        Named in messages.

    Returns
    -------
    dict
        SI values by name, ready to be passed.

    Raises
    ------
    FaultyInput
        If a name is unknown or missing, or a value is of another kind.
    """
    wanted = arguments(calculation)
    faults: list[Fault] = []
    found: dict[str, Any] = {}
    for as_given, value in given.items():
        name = _resolved(as_given, wanted, value)
        if name in found:
            faults.append(Fault(file, as_given, shown(value), "is given twice", f"Give {name} once."))
        if name not in wanted:
            near = difflib.get_close_matches(name, wanted, 3, 0.5)
            cure = (
                f"Did you mean {' or '.join(near)}?"
                if near
                else f"It asks for: {', '.join(wanted) or 'nothing'}."
            )
            faults.append(Fault(file, name, "", f"{calculation.name} has no such input", cure))
            continue
        try:
            found[name] = _read(wanted[name], value)
        except units.UnitError as error:
            faults.append(
                Fault(file, name, shown(value), error.problem.removeprefix(f"{shown(value)} "), error.cure)
            )
        except FaultyInput as error:
            faults += error.faults
    for name, argument in wanted.items():
        asked_for = name in found or any(_resolved(key, wanted, text) == name for key, text in given.items())
        if not asked_for and not argument.optional:
            faults.append(
                Fault(file, name, "", f"is missing for {calculation.name}", f"Give {name}: {argument.said}.")
            )
    if faults:
        raise FaultyInput(faults)
    return found


def _resolved(name: str, wanted: Mapping[str, Argument], value: Any) -> str:
    """Return the argument meant: its unit suffix may be left off, since the value carries its unit."""
    plain = name.strip().replace("-", "_")
    if plain in wanted:
        return plain
    meant = [other for other in wanted if units.kind_of_name(other) and other.rpartition("_")[0] == plain]
    if len(meant) > 1:  # battery_V and battery_ohm: the unit tells which
        meant = [other for other in meant if _fits(wanted[other], value)]
    return meant[0] if len(meant) == 1 else name


def _fits(argument: Argument, value: Any) -> bool:
    try:
        _read(argument, value)
    except units.UnitError:
        return False
    return True


def _read(argument: Argument, value: Any) -> Any:
    if argument.may_be_none and isinstance(value, str) and value.strip() in {"", "none", "unknown"}:
        return None
    if not argument.many:
        return _read_one(argument, value)
    items = value if isinstance(value, list | tuple) else _cut(value)
    return tuple(_read_one(argument, item) for item in items)


def _cut(value: Any) -> list[Any]:
    """Cut "1,200 lb, 3 kg" at commas, but not inside a thousands group."""
    if not isinstance(value, str):
        return [value]
    parts: list[str] = []
    for part in value.split(","):
        is_rest = len(part) >= 3 and part[:3].isdigit() and not part[3:4].isdigit() and "." not in part
        before = parts[-1].strip() if parts else ""
        if (
            is_rest
            and before.lstrip("-+").replace(",", "").isdigit()
            and len(before.lstrip("-+").split(",")[0]) <= 3
        ):
            parts[-1] += "," + part
        else:
            parts.append(part)
    return [part.strip() for part in parts if part.strip()]


def _read_one(argument: Argument, value: Any) -> Any:
    if argument.form == "table":
        return _table(str(value))
    if argument.form == "date":
        return _date(value)
    if argument.form == "yes_no":
        return _yes_no(value)
    if argument.form == "count":
        return _gauge(value) if argument.name == "awg" else _whole(value)
    if argument.form == "number":
        return _number(value)
    text = str(value)
    if argument.form == "words":
        for word in argument.words:
            if text.strip().casefold().replace("-", "_").replace(" ", "_") == word.casefold().replace(
                "-", "_"
            ).replace(" ", "_"):
                return word
        raise units.UnitError("is not a word it knows", f"Use one of: {', '.join(argument.words)}.")
    if argument.form == "text":
        return text
    if (
        argument.kind in {"ratio", "number", "count"}
        and isinstance(value, int | float)
        and not isinstance(value, bool)
    ):
        return units.parse(repr(value), argument.kind).si
    if not isinstance(value, str):
        raise units.UnitError(
            "is a number without a unit", f"Write it with one of: {', '.join(units.units_of(argument.kind))}."
        )
    return units.parse(value, argument.kind).si


def _plain(word: str) -> str:
    return word.strip().casefold().replace("-", "_").replace(" ", "_")


def _whole(value: Any) -> int:
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    text = str(value).strip().replace(",", "")
    if not text.removeprefix("-").isascii() or not text.removeprefix("-").isdigit() or len(text) > 15:
        raise units.UnitError("is not a whole number", "Write a whole number without a unit.")
    return int(text)


def _gauge(value: Any) -> int:
    """Read a wire gauge as it is written on the reel: 10, 10 AWG, #10; 1/0 to 4/0 are 0 to -3."""
    text = (
        str(value)
        .strip()
        .casefold()
        .removesuffix("awg")
        .strip()
        .removeprefix("#")
        .removeprefix("no.")
        .strip()
    )
    if len(text) == 3 and text[0] in "1234" and text[1:] == "/0":
        return 1 - int(text[0])
    try:
        return _whole(text)
    except units.UnitError:
        raise units.UnitError(
            "is not a wire gauge", "Write the gauge number: 10, 10 AWG, 1/0 to 4/0."
        ) from None


def _number(value: Any) -> float:
    try:
        number = float(str(value).replace(",", ""))
    except ValueError:
        raise units.UnitError("is not a plain number", "Write a number without a unit.") from None
    if not math.isfinite(number):
        raise units.UnitError("is beyond any measure", "Check the number.")
    return number


def _yes_no(value: Any) -> bool:
    text = str(value).strip().casefold()
    if text in YES:
        return True
    if text in NO:
        return False
    raise units.UnitError("is neither yes nor no", "Write yes or no.")


def _date(value: Any) -> dt.date:
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value
    try:
        return dt.date.fromisoformat(str(value).strip())
    except ValueError:
        raise units.UnitError(
            "is not a date of the calendar", "Write year-month-day, such as 2026-05-31."
        ) from None


def _table(text: str) -> Table:
    return tables.named(text)
