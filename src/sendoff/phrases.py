"""Every phrase Sendoff itself says, in every language, by key: command line, papers and web pages draw from one place.

Phrases live in data/phrases/*.toml, the languages beside each other. They are phrased as labels, so that no plural and
no gender is needed, and take named values in braces, the same ones in every language.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from sendoff.errors import Fault, FaultyInput

FOLDER: Final = Path(__file__).parent / "data" / "phrases"
LANGUAGES: Final = ("en", "es")
_PLACEHOLDER: Final = re.compile(r"\{(\w+)\}")


def read(folder: Path) -> Mapping[str, Mapping[str, str]]:
    """Read all phrase files of a folder; refuse a phrase that lacks a language or whose placeholders differ."""
    import tomli

    phrases: dict[str, Mapping[str, str]] = {}
    faults: list[Fault] = []
    for path in sorted(folder.glob("*.toml")):
        for key, texts in _flat(tomli.loads(path.read_text(encoding="utf-8")), ""):
            faults += _faults(path.name, key, texts, phrases)
            phrases[key] = MappingProxyType(dict(texts))
    if faults:
        raise FaultyInput(faults)
    return MappingProxyType(phrases)


def _flat(table: Mapping[str, Any], key: str) -> list[tuple[str, dict[str, str]]]:
    if set(table) & set(LANGUAGES) and all(isinstance(text, str) for text in table.values()):
        return [(key, dict(table))]
    return [found for name, item in table.items() for found in _flat(item, f"{key}.{name}".lstrip("."))]


def _faults(file: str, key: str, texts: Mapping[str, str], known: Mapping[str, object]) -> list[Fault]:
    faults = [
        Fault(file, key, "", f"the phrase in '{language}' is missing", f"Add {language} = …")
        for language in LANGUAGES
        if language not in texts
    ]
    if len({frozenset(_PLACEHOLDER.findall(text)) for text in texts.values()}) > 1:
        faults.append(
            Fault(
                file, key, "", "the languages do not use the same placeholders", "Use the same ones in each."
            )
        )
    if key in known:
        faults.append(Fault(file, key, "", "the key is used twice", "Give one of them another name."))
    return faults


@functools.cache
def load() -> Mapping[str, Mapping[str, str]]:
    """Return the phrases shipped with the package."""
    return read(FOLDER)


def say(key: str, language: str, /, **values: object) -> str:
    """Return a phrase in a language with its values put in.

    Raises
    ------
    KeyError
        If no phrase has that key: a mistake of ours, found by tests, never by a person.
    """
    return load()[key][language].format(**values)


def table(prefix: str, language: str) -> dict[str, str]:
    """Return all phrases below a key, by the rest of their key."""
    return {
        key.removeprefix(f"{prefix}."): texts[language]
        for key, texts in load().items()
        if key.startswith(f"{prefix}.")
    }
