"""Writing any tables as TOML, and spoiling them as a mistaken, hurried or hostile hand may."""

from __future__ import annotations

import copy
import datetime
import json
import math
from collections.abc import Iterator
from typing import Any

from hypothesis import strategies as st

Path = tuple[str | int, ...]


def as_toml(tables: dict[str, Any]) -> str:
    """Write tables as TOML, each value on its line in short form."""
    return "".join(f"{json.dumps(str(key))} = {_value(value)}\n" for key, value in tables.items())


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, float) and not math.isfinite(value):
        return "nan" if math.isnan(value) else ("inf" if value > 0 else "-inf")
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, datetime.date | datetime.time):
        return value.isoformat()
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    assert isinstance(value, dict), value
    return (
        "{ " + ", ".join(f"{json.dumps(str(key))} = {_value(inner)}" for key, inner in value.items()) + " }"
    )


def paths(value: Any, at: Path = ()) -> Iterator[Path]:
    """Yield where every key and item stands."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in inner:
        yield (*at, key)
        yield from paths(item, (*at, key))


def _at(tables: Any, path: Path) -> Any:
    for part in path:
        tables = tables[part]
    return tables


WORDS = st.sampled_from(
    [
        "", " ", "x", "…", "0 lb", "-5 psi", "−5 psi", "1e99 lb", "400 mi", "12 furlongs", "110 psi", "9 ft 6 in",
        "nan lb", "../../etc/passwd", "<script>alert(1)</script>", "#panic() $x$ *b* [c] \\ `d` @e", "{ball}", "{",
        "}", "{nothing}", "\u202eabc", "\u200f", "漢字", "🛻", "a\x00b", "a\nb", "\x1b[31m", "e\u0301", "a" * 700,
        "my_tire/range_d", "no/such", "1X9SF081XTYKB4O19", "DOT 1AB CDEF12 5426", "2026-10-14", "left_1", "tires",
        "safe", "pin", "en", "coupled",
    ]
)  # fmt: skip
SCALARS = st.one_of(
    WORDS,
    st.text(st.characters(exclude_categories=["Cs"]), max_size=20),
    st.integers(-(10**19), 10**19),
    st.floats(),
    st.booleans(),
    st.dates(),
    st.datetimes(),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text("abcxyz_", max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


@st.composite
def spoiled(draw: st.DrawFn, tables: dict[str, Any], most: int = 3) -> dict[str, Any]:
    """Draw the tables with some entries dropped, replaced, doubled, swapped, or called something else."""
    left: dict[str, Any] = copy.deepcopy(tables)
    for _ in range(draw(st.integers(1, most))):
        where = list(paths(left))
        if not where:
            break
        path = draw(st.sampled_from(where))
        holder, last = _at(left, path[:-1]), path[-1]
        act = draw(st.sampled_from(["drop", "replace", "replace", "double", "rename", "swap", "add"]))
        if act == "drop":
            del holder[last]
        elif act == "replace":
            holder[last] = draw(VALUES)
        elif act == "double":
            again = copy.deepcopy(holder[last])
            if isinstance(holder, list):
                holder.append(again)
            else:
                holder[f"{last}_2"] = again
        elif act == "rename" and isinstance(holder, dict):
            holder[draw(st.text(max_size=8))] = holder.pop(last)
        elif act == "swap":
            holder[last] = copy.deepcopy(_at(left, draw(st.sampled_from(where))))
        elif isinstance(holder, dict):
            holder[draw(st.sampled_from(["x", "truck", "cargo", "note", "needs", "ticket"]))] = draw(VALUES)
    return left
