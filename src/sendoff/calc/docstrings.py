"""What a calculation's docstring says, as data: for the command line's help, the generated pages and the web.

Reads the numpydoc sections our own docstrings use and nothing more; a test holds it against numpydoc itself.
"""

from __future__ import annotations

import functools
import inspect
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from sendoff.calc.contract import Calculation

_UNDERLINE: Final = re.compile(r"^-{3,}$")
_REFERENCE: Final = re.compile(r"^\.\. \[\d+\] ([A-Za-z0-9_]+)(?:, *(.+))?$")


@dataclass(frozen=True, slots=True)
class Reference:
    """A place in a source."""

    source: str
    clause: str


@dataclass(frozen=True, slots=True)
class Doc:
    """The parts of one docstring."""

    meaning: str
    formula: str
    parameters: Mapping[str, str]
    """Meaning of each parameter, its unit in brackets."""
    returns: str
    notes: str
    example: str
    references: tuple[Reference, ...]


def read(calculation: Calculation) -> Doc:
    """Return what a calculation's docstring says."""
    return _read(inspect.getdoc(calculation.function) or "")


@functools.cache
def _read(text: str) -> Doc:
    lines = text.splitlines()
    sections = _sections(lines)
    head = sections.pop("", [])
    return Doc(
        head[0] if head else "",
        _joined(head[1:]),
        {name: _joined(text) for name, text in _items(sections.get("Parameters", []))},
        " ".join(_joined(text) for _, text in _items(sections.get("Returns", []))),
        _joined(sections.get("Notes", [])),
        "\n".join(sections.get("Examples", [])).strip(),
        tuple(_references(sections.get("References", []))),
    )


def _sections(lines: list[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {"": []}
    name = ""
    for line, after in zip(lines, [*lines[1:], ""], strict=True):
        if line and not line.startswith(" ") and _UNDERLINE.match(after):
            name = line.strip()
            found[name] = []
        elif not (_UNDERLINE.match(line) and not found[name]):
            found[name].append(line)
    return found


def _items(lines: list[str]) -> list[tuple[str, list[str]]]:
    found: list[tuple[str, list[str]]] = []
    for line in lines:
        if line and not line.startswith(" "):
            found.append((line.split(" : ")[0].strip(), []))
        elif found:
            found[-1][1].append(line)
    return found


def _joined(lines: list[str]) -> str:
    """Join lines to paragraphs; a blank line parts them, and so does an indented formula."""
    paragraphs = "\n".join(lines).strip("\n").split("\n\n")
    return "\n\n".join(" ".join(part.split()) for part in paragraphs if part.strip())


def _references(lines: list[str]) -> list[Reference]:
    joined: list[str] = []
    for line in lines:
        if line.startswith(".. ["):
            joined.append(line)
        elif joined and line.strip():
            joined[-1] += " " + line.strip()
    found = (_REFERENCE.match(line) for line in joined)
    return [Reference(match[1], match[2] or "") for match in found if match]
