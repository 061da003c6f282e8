"""The words an owner meets, explained in every language (data/words.toml); booklet and docs render the same list."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

FILE: Final = Path(__file__).parent / "data" / "words.toml"


@dataclass(frozen=True, slots=True)
class Word:
    """One word: how it is said and what it means, by language."""

    id: str
    said: Mapping[str, str]
    means: Mapping[str, str]
    if_fitted: str
    """Slot that must be filled for the word to be met; empty: always."""


@functools.cache
def load() -> tuple[Word, ...]:
    """Return all words, in the order of the file."""
    import tomli

    tables = tomli.loads(FILE.read_text(encoding="utf-8"))
    return tuple(
        Word(name, table["say"], table["means"], table.get("if_fitted", "")) for name, table in tables.items()
    )
