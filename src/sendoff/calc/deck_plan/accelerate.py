"""The same code, compiled where numba is installed: one decorator, two ways to run.

A kernel is a plain function on plain sequences. As it stands it runs on lists, with nothing else installed. `compiled`
gives the same function made by numba from the same lines, for arrays; it is kept on disk by numba under a name that
changes with any line of any kernel, so that a changed kernel never meets a stale one.
"""

from __future__ import annotations

import functools
import hashlib
import importlib.util
import marshal
import types
from collections.abc import Callable
from typing import Any, Final, TypeVar, cast

Function = TypeVar("Function", bound=Callable[..., Any])
Record = TypeVar("Record", bound=tuple[Any, ...])
Reals = Any
"""A list of float, or the array that the compiled code wants."""
Wholes = Any
"""The same of int."""

ENTRIES: Final = frozenset({"cut", "fill_fits", "fill_sets", "fill_crowding", "run", "list_sets"})
"""Kernels called from outside; the others are woven into these, which halves the time to compile and to run."""
OPTIONS: Final[dict[str, Any]] = {"cache": True, "error_model": "numpy", "_nrt": False}
"""No kernel makes an array, so numba's counting of references is left out: it would take most of the time."""
_KERNELS: Final[dict[str, types.FunctionType]] = {}


def kernel(function: Function) -> Function:
    """File a function as one that may be compiled; it stays as it is."""
    plain = cast("types.FunctionType", function)
    _KERNELS[plain.__name__] = plain
    return function


@functools.cache
def available() -> bool:
    """Return whether numba is installed, without importing it."""
    return importlib.util.find_spec("numba") is not None


def ready() -> bool:
    """Return whether the compiled code was called for before in this process."""
    return compiled.cache_info().currsize > 0


@functools.cache
def compiled() -> dict[str, Any]:
    """Return every kernel as numba compiles it (at the first call of each; read from numba's cache afterwards)."""
    import numba  # type: ignore[import-not-found,unused-ignore]

    whole = hashlib.sha256(b"".join(marshal.dumps(_KERNELS[name].__code__) for name in sorted(_KERNELS)))
    stamp = whole.hexdigest()[:10]
    made: dict[str, Any] = {}
    for name, plain in _KERNELS.items():
        copy = types.FunctionType(plain.__code__, dict(plain.__globals__), name, plain.__defaults__)
        copy.__qualname__ = f"{name}_{stamp}"
        copy.__module__ = plain.__module__
        made[name] = numba.njit(**OPTIONS, inline="never" if name in ENTRIES else "always")(copy)
    for jitted in made.values():
        jitted.py_func.__globals__.update(made)
    return made


def plain() -> dict[str, Any]:
    """Return every kernel as it stands."""
    return dict(_KERNELS)


def kernels(code: str) -> dict[str, Any]:
    """Return every kernel as plain or as compiled code."""
    return compiled() if code == "compiled" else plain()


def lists(record: Record, size: int, others: dict[str, int]) -> Record:
    """Return the first `size` numbers of each field as lists, or as many as `others` says by name."""
    names = record._fields  # type: ignore[attr-defined]
    cut = (field[: others.get(name, size)] for name, field in zip(names, record, strict=True))
    return type(record)(*(field if isinstance(field, list) else field.tolist() for field in cut))


def arrays(record: Record) -> Record:
    """Return a record of lists as the same record of arrays; annotations say which numbers a field holds."""
    import numpy as np

    kinds = {"Wholes": np.int64, "Reals": np.float64}
    fields = zip(record, _annotations(type(record)).values(), strict=True)
    return type(record)(
        *(np.asarray(field, kinds[kind]) if kind in kinds else field for field, kind in fields)
    )


def reals(values: list[float]) -> Reals:
    """Return an array of the numbers."""
    import numpy as np

    return np.asarray(values, np.float64)


def room(record: type[Record], code: str, size: int, **others: int) -> Record:
    """Return a record of sequences to be filled in, all of one size but for the others named."""
    kinds = _annotations(record).items()
    if code == "plain":
        return record(*([0 if kind == "Wholes" else 0.0] * others.get(name, size) for name, kind in kinds))
    import numpy as np

    whole_or_real = {"Wholes": np.int64, "Reals": np.float64}
    return record(*(np.empty(others.get(name, size), whole_or_real[kind]) for name, kind in kinds))


@functools.cache
def _annotations(record: type[Any]) -> dict[str, str]:
    return {
        name: str(getattr(kind, "__forward_arg__", kind)) for name, kind in record.__annotations__.items()
    }
