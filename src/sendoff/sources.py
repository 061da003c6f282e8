"""Where facts come from: one record a source, kept in data/sources.toml.

Every published table, every calculation and every check of a calculation names a source by its id and a
clause. `evidence` says how we know: the text was read, it was recalled from memory, it follows by derivation,
or it is common practice and has no source at all.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final, Literal, cast, get_args

import tomli

from sendoff.errors import Fault, FaultyInput, shown

Evidence = Literal["read", "memory", "derived", "common practice, no source"]
"""read: the text or figure was seen; memory: recalled; derived: follows by arithmetic or statics."""

EVIDENCE: Final[tuple[str, ...]] = get_args(Evidence)
FILE: Final = Path(__file__).parent / "data" / "sources.toml"
_KEYS: Final = ("title", "publisher", "edition", "evidence", "note")


@dataclass(frozen=True, slots=True)
class Source:
    """One publication, and how we know what it says."""

    id: str
    title: str
    publisher: str
    edition: str
    evidence: Evidence
    note: str = ""

    def __str__(self) -> str:
        parts = (self.title, self.publisher, self.edition)
        return ", ".join(part for part in parts if part) + (
            "" if self.evidence == "read" else f" ({self.said_evidence})"
        )

    @property
    def said_evidence(self) -> str:
        """The evidence in words for a page."""
        return {"read": "read at source", "memory": "from memory"}.get(self.evidence, self.evidence)


def read(path: Path) -> Mapping[str, Source]:
    """Read a file of sources; every fault in it is named at once."""
    try:
        raw: dict[str, Any] = tomli.loads(path.read_text(encoding="utf-8"))
    except (tomli.TOMLDecodeError, UnicodeDecodeError) as error:
        raise FaultyInput(
            Fault(path.name, "", "", f"is not readable TOML: {error}", "Mend the line named.")
        ) from None
    faults: list[Fault] = []
    for key, entry in raw.items():
        faults += _faults(path.name, key, entry)
    if faults:
        raise FaultyInput(faults)
    return MappingProxyType(
        {
            key: Source(
                key,
                e["title"],
                e["publisher"],
                e["edition"],
                cast("Evidence", e["evidence"]),
                e.get("note", ""),
            )
            for key, e in raw.items()
        }
    )


def _faults(file: str, key: str, entry: object) -> list[Fault]:
    if not isinstance(entry, dict):
        return [
            Fault(
                file,
                key,
                shown(entry),
                "is not a table",
                f"Write [{key}] with title, publisher, edition, evidence.",
            )
        ]
    faults = [
        Fault(file, f"{key}.{name}", shown(value), "is not known here", f"Use only {', '.join(_KEYS)}.")
        for name, value in entry.items()
        if name not in _KEYS
    ]
    for name in _KEYS:
        value = entry.get(name, "" if name == "note" else None)
        if value is None:
            faults.append(
                Fault(
                    file,
                    f"{key}.{name}",
                    "",
                    "is missing",
                    'Say it, or "" where there is none (never the title).',
                )
            )
        elif not isinstance(value, str) or (name == "title" and not value.strip()):
            faults.append(Fault(file, f"{key}.{name}", shown(value), "is not a text", "Write it in quotes."))
    evidence = entry.get("evidence")
    if isinstance(evidence, str) and evidence not in EVIDENCE:
        faults.append(
            Fault(
                file,
                f"{key}.evidence",
                shown(evidence),
                "is no kind of evidence",
                f"Use one of: {', '.join(EVIDENCE)}.",
            )
        )
    return faults


@functools.cache
def load() -> Mapping[str, Source]:
    """Return all sources shipped with the package, by id."""
    return read(FILE)


def get(source_id: str) -> Source:
    """Return one source.

    Raises
    ------
    FaultyInput
        If no source has that id.
    """
    found = load().get(source_id)
    if found is None:
        raise FaultyInput(
            Fault(
                FILE.name,
                source_id,
                "",
                "is not among the sources",
                "Add it to data/sources.toml, or mend the id.",
            )
        )
    return found
