"""The contract every public calculation keeps, and the steps it leaves behind as data.

A calculation is a plain typed function: SI numbers in, a number or a small frozen record out. The decorator
`calculation` files it under its family, with its formula as printed in the source and the symbol of each argument.
Nothing about the function changes; but inside `worked`, each call leaves a `Step`, so that the booklet, the web page
and the command line show the very numbers that were put in, never a second telling of them.
"""

from __future__ import annotations

import contextlib
import dataclasses
import functools
import inspect
import math
from collections.abc import Callable, Iterator, Mapping
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Any, Final, Generic, ParamSpec, TypeVar, cast

from sendoff.errors import OutOfRange
from sendoff.units import SI_UNIT, kind_of_name

P = ParamSpec("P")
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Term:
    """One number or word that went into a step, or came out of it."""

    name: str
    symbol: str
    kind: str
    """Kind of quantity told by the name's unit suffix; "number" without one; "text" for all else."""
    value: Any

    @property
    def unit(self) -> str:
        """The SI unit of the value, empty for plain numbers and words."""
        return SI_UNIT.get(self.kind, "")


@dataclass(frozen=True, slots=True)
class Step:
    """One calculation as done: what was put into which formula, and what it gave."""

    calculation: str
    formula: str
    put_in: tuple[Term, ...]
    gave: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Calculation:
    """What is filed of one public function."""

    name: str
    family: str
    formula: str
    gives: str
    symbols: Mapping[str, str]
    tables: Mapping[str, str]
    """Published table (its id) that fills an argument when nobody gives another one."""
    function: Callable[..., Any]

    @property
    def meaning(self) -> str:
        """The first line of the docstring."""
        return (inspect.getdoc(self.function) or "").split("\n", 1)[0]


@dataclass(frozen=True, slots=True)
class Worked(Generic[R]):
    """A result with the steps that led to it, the outermost calculation last."""

    result: R
    steps: tuple[Step, ...]


REGISTRY: Final[dict[str, Calculation]] = {}
_steps: ContextVar[list[Step] | None] = ContextVar("sendoff_calc_steps", default=None)


def calculation(
    family: str,
    formula: str,
    *,
    gives: str = "",
    symbols: Mapping[str, str] | None = None,
    tables: Mapping[str, str] | None = None,
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """File a function under its family.

    Parameters
    ----------
    family : str
        The family it belongs to: the name of its module.
    formula : str
        The formula as printed in its source, in the symbols given.
    gives : str
        Name, with unit suffix, of a bare number returned ("pin_load_kg"); empty when a frozen record is returned.
    symbols : mapping, optional
        Symbol of each argument and of the result or the record's fields; names without one stand for themselves.
    tables : mapping, optional
        For each argument that is a published table, the id of the one shipped with the package.

    Returns
    -------
    decorator
        Keeps the function as it is but for leaving a `Step` inside `worked`.
    """

    def file(function: Callable[P, R]) -> Callable[P, R]:
        filed = Calculation(
            function.__name__, family, formula, gives, dict(symbols or {}), dict(tables or {}), function
        )
        if filed.name in REGISTRY and REGISTRY[filed.name].function.__module__ != function.__module__:
            raise ValueError(f"two calculations are named {filed.name}")
        signature = inspect.signature(function)

        @functools.wraps(function)
        def call(*args: P.args, **kwargs: P.kwargs) -> R:
            result = function(*args, **kwargs)
            steps = _steps.get()
            if steps is not None:
                bound = signature.bind(*args, **kwargs)
                bound.apply_defaults()
                put_in = tuple(
                    _term(filed, name, value) for name, value in bound.arguments.items() if value is not None
                )
                steps.append(Step(filed.name, formula, put_in, _results(filed, result)))
            return result

        REGISTRY[filed.name] = dataclasses.replace(filed, function=call)
        return call

    return file


def worked(function: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> Worked[R]:
    """Call a calculation and keep the steps it and the calculations inside it left."""
    token = _steps.set([])
    try:
        result = function(*args, **kwargs)
        return Worked(result, tuple(cast("list[Step]", _steps.get())))
    finally:
        _steps.reset(token)


def _kind(name: str, value: object) -> str:
    first = value[0] if isinstance(value, tuple) and value else value
    if isinstance(first, bool) or not isinstance(first, int | float):
        return "text"  # words, yes or no, dates, tables, records
    return kind_of_name(name) or "number"


def _term(filed: Calculation, name: str, value: object) -> Term:
    return Term(name, filed.symbols.get(name, name), _kind(name, value), value)


def _results(filed: Calculation, result: object) -> tuple[Term, ...]:
    if dataclasses.is_dataclass(result) and not isinstance(result, type):
        return tuple(
            _term(filed, field.name, getattr(result, field.name)) for field in dataclasses.fields(result)
        )
    return (_term(filed, filed.gives or filed.name, result),)


LARGEST: Final = 1e12
SMALLEST: Final = 1e-12
"""In SI units nothing about a trailer is larger or, if above zero, smaller; within them no formula runs off."""


@contextlib.contextmanager
def refused_as(**names: str) -> Iterator[None]:
    """Name the outer argument when an inner calculation refuses its own: `refused_as(wanted_at_K="temperature_K")`."""
    try:
        yield
    except OutOfRange as refused:
        raise OutOfRange(names.get(refused.name, refused.name), refused.value, refused.allowed) from None


def require_finite(**values: float) -> None:
    """Refuse a value that is no number or beyond any measure; the keyword names the field in the message."""
    for name, value in values.items():
        if not math.isfinite(value):
            raise OutOfRange(name, value, "must be a finite number")
        if abs(value) > LARGEST:
            raise OutOfRange(name, value, "is beyond any measure")


def require_positive(**values: float) -> None:
    """Refuse a value that is not above zero; the keyword names the field in the message."""
    require_finite(**values)
    for name, value in values.items():
        if value <= 0:
            raise OutOfRange(name, value, "must be above zero")
        if value < SMALLEST:
            raise OutOfRange(name, value, "is below any measure")


def require_not_negative(**values: float) -> None:
    """Refuse a value below zero; the keyword names the field in the message."""
    require_finite(**values)
    for name, value in values.items():
        if value < 0:
            raise OutOfRange(name, value, "must not be below zero")


def require_between(low: float, high: float, unit: str = "", **values: float) -> None:
    """Refuse a value outside `low` to `high`, both allowed; the keyword names the field in the message."""
    require_finite(**values)
    for name, value in values.items():
        if not low <= value <= high:
            raise OutOfRange(name, value, f"must lie from {low:g} to {high:g} {unit}".rstrip())


def require_one_of(allowed: tuple[str, ...], **values: str) -> None:
    """Refuse a word that is not among those allowed; the keyword names the field in the message."""
    for name, value in values.items():
        if value not in allowed:
            raise OutOfRange(name, value, f"must be one of {', '.join(allowed)}")
