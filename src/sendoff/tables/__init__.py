"""Published tables: one TOML file each under data/tables/, refused whole if any row lacks unit or source.

    id = "air_chamber_stroke"
    title = "Push-rod stroke at which a clamp-type brake chamber must be readjusted"
    source = "49cfr393"              # id in sources.toml; a row may name another one
    clause = "393.47(e)(1)"
    evidence = "read"                # optional; the source's own evidence otherwise
    [columns]                        # name with unit suffix = kind of quantity
    chamber_type = "count"
    stroke_limit_m = "length"
    [[row]]
    chamber_type = 30
    stroke_limit_m = "2 in"          # as printed, with its unit; only counts stand bare

Columns are of a kind of quantity (as the suffix of the name tells), "count", "text" or "yes_no". A column
listed in `optional = [...]` may be left out of a row and is then None.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

import tomli

from sendoff import sources, units
from sendoff.errors import Fault, FaultyInput, OutOfRange, shown

FOLDER: Final = Path(__file__).parent.parent / "data" / "tables"
ROW_KEYS: Final = ("source", "clause", "evidence", "note")
_TOP_KEYS: Final = frozenset(
    {"id", "title", "source", "clause", "evidence", "note", "columns", "optional", "row"}
)

Row = Mapping[str, Any]
"""One row: SI numbers, texts, yes or no, None where nothing is printed; with source, clause, evidence, note."""


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """A published table, its values in SI."""

    id: str
    title: str
    source: str
    clause: str
    evidence: str
    note: str
    columns: Mapping[str, str]
    rows: tuple[Row, ...]

    def column(self, name: str) -> tuple[Any, ...]:
        """Return one column's values, top to bottom."""
        self._known(name)
        return tuple(row[name] for row in self.rows)

    def where(self, **keys: Any) -> tuple[Row, ...]:
        """Return the rows that hold all these values."""
        for name in keys:
            self._known(name)
        return tuple(row for row in self.rows if all(_same(row[name], value) for name, value in keys.items()))

    def row(self, **keys: Any) -> Row:
        """Return the one row that holds these values.

        Raises
        ------
        OutOfRange
            If none does; the message lists what the table holds. Also if several do.
        """
        found = self.where(**keys)
        if len(found) == 1:
            return found[0]
        if found:
            raise OutOfRange(", ".join(keys), len(found), f"must name exactly one row of the table {self.id}")
        left = list(self.rows)
        for name, value in keys.items():
            kept = [row for row in left if _same(row[name], value)]
            if not kept:
                raise OutOfRange(name, value, f"must be one of {self._list(name, left)} (table {self.id})")
            left = kept
        raise AssertionError("one of the keys has emptied the rows")  # pragma: no cover

    def at_or_below(self, name: str, value: float, **keys: Any) -> Row:
        """Return the row with the largest `name` that is not above `value`."""
        rows = [row for row in self._numbered(name, keys) if row[name] <= value or _same(row[name], value)]
        if not rows:
            raise OutOfRange(
                name, value, f"must not be below {self._edge(name, keys, low=True)} (table {self.id})"
            )
        return max(rows, key=lambda row: float(row[name]))

    def at_or_above(self, name: str, value: float, **keys: Any) -> Row:
        """Return the row with the smallest `name` that is not below `value`."""
        rows = [row for row in self._numbered(name, keys) if row[name] >= value or _same(row[name], value)]
        if not rows:
            raise OutOfRange(
                name, value, f"must not be above {self._edge(name, keys, low=False)} (table {self.id})"
            )
        return min(rows, key=lambda row: float(row[name]))

    def interpolate(self, x_name: str, x: float, y_name: str, **keys: Any) -> float:
        """Return `y_name` at `x`, on the straight line between the rows beside it; never beyond.

        Raises
        ------
        OutOfRange
            If `x` lies outside the table.
        """
        self._known(y_name)
        rows = sorted(
            (row for row in self._numbered(x_name, keys) if row[y_name] is not None),
            key=lambda row: float(row[x_name]),
        )
        if not math.isfinite(x) or not rows or (x < rows[0][x_name] and not _same(x, rows[0][x_name])):
            raise OutOfRange(
                x_name, x, f"must lie within the table {self.id}, from {self._edge(x_name, keys, low=True)}"
            )
        for lower, upper in itertools.pairwise(rows):
            if x <= upper[x_name]:
                share = (x - lower[x_name]) / (upper[x_name] - lower[x_name])
                return float(lower[y_name] + max(share, 0.0) * (upper[y_name] - lower[y_name]))
        if _same(x, rows[-1][x_name]):
            return float(rows[-1][y_name])
        raise OutOfRange(
            x_name, x, f"must lie within the table {self.id}, up to {self._edge(x_name, keys, low=False)}"
        )

    def _known(self, name: str) -> None:
        if name not in self.columns and name not in ROW_KEYS:
            raise KeyError(f"table {self.id} has no column {name}; it has {', '.join(self.columns)}")

    def _numbered(self, name: str, keys: Mapping[str, Any]) -> list[Row]:
        self._known(name)
        if keys:
            self.row_exists(**keys)
        return [row for row in self.where(**keys) if row[name] is not None]

    def row_exists(self, **keys: Any) -> None:
        """Refuse keys no row holds, by the name of the first that does not fit."""
        if not self.where(**keys):
            self.row(**keys)

    def _edge(self, name: str, keys: Mapping[str, Any], *, low: bool) -> str:
        values = [row[name] for row in self.where(**keys) if row[name] is not None]
        return self._say(name, (min if low else max)(values)) if values else "nothing"

    def _list(self, name: str, rows: list[Row]) -> str:
        said = dict.fromkeys(self._say(name, row[name]) for row in rows if row[name] is not None)
        return ", ".join(said)

    def _say(self, name: str, value: Any) -> str:
        if isinstance(value, bool | str):
            return str(value)
        unit = units.SI_UNIT.get(self.columns[name], "")
        return f"{value:g} {unit}".rstrip()


def _same(held: Any, asked: Any) -> bool:
    if isinstance(held, str) and isinstance(asked, str):
        return held == asked or _plain(held) == _plain(asked)
    if isinstance(held, bool | str) or isinstance(asked, bool | str) or held is None or asked is None:
        return bool(held == asked) and type(held) is type(asked)
    return math.isclose(held, asked, rel_tol=1e-9, abs_tol=1e-15)


def _plain(word: str) -> str:
    """Return a word as it is compared: capitals, blanks, dashes and underscores aside."""
    return " ".join(word.casefold().replace("_", " ").replace("-", " ").split())


def read(path: Path) -> Table:
    """Read a table from a file; every fault in it is named at once.

    Raises
    ------
    FaultyInput
        If the file is no table, or a row lacks a unit, a value or a source.
    """
    try:
        raw: dict[str, Any] = tomli.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise FaultyInput(
            Fault(path.name, "", "", f"cannot be read: {error.strerror}", "Check its name and folder.")
        ) from None
    except (tomli.TOMLDecodeError, UnicodeDecodeError) as error:
        raise FaultyInput(
            Fault(path.name, "", "", f"is not readable TOML: {error}", "Mend the line named.")
        ) from None
    faults = _top_faults(path, raw)
    if faults:
        raise FaultyInput(faults)
    columns: dict[str, str] = raw["columns"]
    optional = frozenset(raw.get("optional", ()))
    rows = tuple(
        _read_row(path.name, number, entry, columns, optional, raw, faults)
        for number, entry in enumerate(raw["row"], 1)
    )
    if faults:
        raise FaultyInput(faults)
    evidence = raw.get("evidence") or (sources.get(raw["source"]).evidence if raw.get("source") else "")
    return Table(
        raw["id"],
        raw["title"],
        raw.get("source", ""),
        raw.get("clause", ""),
        evidence,
        raw.get("note", ""),
        MappingProxyType(columns),
        rows,
    )


def _top_faults(path: Path, raw: Mapping[str, Any]) -> list[Fault]:
    file = path.name
    faults = [
        Fault(file, key, shown(raw[key]), "is not known here", f"Use only {', '.join(sorted(_TOP_KEYS))}.")
        for key in raw
        if key not in _TOP_KEYS
    ]
    faults += [
        Fault(file, key, shown(raw.get(key, "")), "is missing or no text", "Write it in quotes.")
        for key in ("id", "title")
        if not isinstance(raw.get(key), str) or not raw[key].strip()
    ]
    if isinstance(raw.get("id"), str) and raw["id"] != path.stem:
        faults.append(
            Fault(file, "id", raw["id"], "differs from the file's name", f'Write id = "{path.stem}".')
        )
    columns = raw.get("columns")
    if not isinstance(columns, dict) or not columns:
        faults.append(
            Fault(
                file,
                "columns",
                shown(columns),
                "is missing",
                "Name each column with its kind under [columns].",
            )
        )
    else:
        faults += [fault for name, kind in columns.items() if (fault := _column_fault(file, name, kind))]
        faults += [
            Fault(file, "optional", shown(name), "is no column", "Name columns only.")
            for name in raw.get("optional", ())
            if name not in columns
        ]
    if (
        not isinstance(raw.get("row"), list)
        or not raw["row"]
        or not all(isinstance(row, dict) for row in raw["row"])
    ):
        faults.append(Fault(file, "row", "", "is missing", "Give at least one [[row]]."))
    return faults


def _column_fault(file: str, name: str, kind: object) -> Fault | None:
    told = units.kind_of_name(name)
    if name in ROW_KEYS:
        return Fault(
            file, f"columns.{name}", shown(kind), "is kept for where a row comes from", "Choose another name."
        )
    if kind in {"text", "yes_no", "count"}:
        return None
    if not isinstance(kind, str) or kind not in units.SI_UNIT:
        allowed = ", ".join(("text", "yes_no", *sorted(units.SI_UNIT)))
        return Fault(
            file, f"columns.{name}", shown(kind), "is no kind of quantity", f"Use one of: {allowed}."
        )
    if kind != told:
        said = f"says {told}" if told else "has no unit suffix"
        return Fault(
            file,
            f"columns.{name}",
            kind,
            f"is named for another kind (the name {said})",
            "Give the name the SI unit of its kind.",
        )
    return None


def _read_row(
    file: str,
    number: int,
    entry: Mapping[str, Any],
    columns: Mapping[str, str],
    optional: frozenset[str],
    top: Mapping[str, Any],
    faults: list[Fault],
) -> Row:
    where = f"row {number}"
    faults.extend(
        Fault(file, f"{where}.{key}", shown(value), "is no column", f"Use only {', '.join(columns)}.")
        for key, value in entry.items()
        if key not in columns and key not in ROW_KEYS
    )
    row: dict[str, Any] = {}
    for name, kind in columns.items():
        if name not in entry:
            if name not in optional:
                faults.append(
                    Fault(
                        file,
                        f"{where}.{name}",
                        "",
                        "is missing",
                        "Give the value, or list the column as optional.",
                    )
                )
            row[name] = None
            continue
        try:
            row[name] = _cell(entry[name], kind)
        except units.UnitError as error:
            faults.append(Fault(file, f"{where}.{name}", shown(entry[name]), error.problem, error.cure))
    _add_source(file, where, row, entry, top, faults)
    return MappingProxyType(row)


def _add_source(
    file: str,
    where: str,
    row: dict[str, Any],
    entry: Mapping[str, Any],
    top: Mapping[str, Any],
    faults: list[Fault],
) -> None:
    """Give a row its source, clause, note and evidence: its own, or those at the head of the file."""
    row["source"] = entry.get("source", top.get("source"))
    row["clause"] = entry.get("clause", top.get("clause", ""))
    row["note"] = entry.get("note", "")
    if not row["source"]:
        faults.append(
            Fault(
                file,
                f"{where}.source",
                "",
                "has no source",
                "Name one, in the row or at the head of the file.",
            )
        )
    elif row["source"] not in sources.load():
        faults.append(
            Fault(
                file,
                f"{where}.source",
                shown(row["source"]),
                "is not among the sources",
                "Add it to data/sources.toml.",
            )
        )
    else:
        row["evidence"] = entry.get("evidence") or top.get("evidence") or sources.get(row["source"]).evidence
        if row["evidence"] not in sources.EVIDENCE:
            cure = f"Use one of: {', '.join(sources.EVIDENCE)}."
            faults.append(
                Fault(file, f"{where}.evidence", shown(row["evidence"]), "is no kind of evidence", cure)
            )


def _cell(value: object, kind: str) -> object:
    if kind == "text":
        if not isinstance(value, str):
            raise units.UnitError("is not a text", "Write it in quotes.")
        return value
    if kind == "yes_no":
        if not isinstance(value, bool):
            raise units.UnitError("is neither true nor false", "Write true or false.")
        return value
    if kind == "count":
        if isinstance(value, bool) or not isinstance(value, int):
            raise units.UnitError("is not a whole number", "Write a whole number without quotes.")
        return value
    if not isinstance(value, str):
        raise units.UnitError(
            "is a number without a unit",
            f'Write it in quotes with its unit, such as "{value} {units.units_of(kind)[0]}".',
        )
    return units.parse(value, kind).si


@functools.cache
def load(table_id: str) -> Table:
    """Return a table shipped with the package.

    Raises
    ------
    FaultyInput
        If there is no such table, or it is faulty.
    """
    if table_id not in ids():
        raise FaultyInput(
            Fault("data/tables", table_id, "", "is not a published table", f"Use one of: {', '.join(ids())}.")
        )
    return read(FOLDER / f"{table_id}.toml")


def named(text: str) -> Table:
    """Return the table a person named: the id of a shipped one, or the path of a TOML file."""
    return read(Path(text)) if text.endswith(".toml") else load(text)


@functools.cache
def ids() -> tuple[str, ...]:
    """Return the ids of all tables shipped with the package."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.toml")))
