"""Lists in data that the yard's rules go by: kinds of things to put right, lines of the gate pass."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, Final

import tomli

FOLDER: Final = Path(__file__).parents[1] / "data" / "yard"


@cache
def read(name: str) -> dict[str, Any]:
    """Return a list by its file's name."""
    return tomli.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def kinds() -> tuple[str, ...]:
    """Return the kinds of things to put right that a person chooses from."""
    return tuple(name for name, kind in read("put_right")["kind"].items() if kind.get("listed", True))


def whose() -> tuple[str, ...]:
    """Return whose doing a thing may be."""
    return tuple(read("put_right")["whose"])


def is_safety(kind: str, system: str | None, *, by_check: bool = False) -> bool:
    """Tell whether a thing found is a safety item.

    >>> is_safety("scuffed", "lighting"), is_safety("missing", "lighting"), is_safety("missing", "storage")
    (False, True, False)
    >>> is_safety("cracked", None), is_safety("reading", "storage", by_check=True)
    (True, True)
    """
    rule = read("put_right")["kind"][kind]["safety"]
    if rule in {"always", "never"}:
        return bool(rule == "always")
    return by_check or system is None or system in read("put_right")["safety_systems"]


def is_cosmetic(kind: str) -> bool:
    """Tell whether a thing found is cosmetic, so that the owner may take the unit with it."""
    return bool(read("put_right")["kind"][kind].get("cosmetic", False))
