"""One chain: entries numbered from 1, each naming the digest of the one before; the first names the chain itself."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from sendoff.canonical import canonical

FORMAT: Final = 1
_ENTRY: Final = b"sendoff chain entry 1\n"
_GENESIS: Final = b"sendoff chain genesis 1\n"
"""What goes into a digest first, so that no digest of one kind of thing can pass for another."""


@dataclass(frozen=True, slots=True)
class Head:
    """Where a chain ends: the number of its last entry and that entry's digest; 0 before the first."""

    chain: str
    number: int
    digest: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One act in a chain: its number, the digest before it, what it says as canonical JSON, and its own digest."""

    number: int
    previous: str
    body: str
    digest: str

    def told(self) -> dict[str, Any]:
        """Return what the entry says."""
        said: dict[str, Any] = json.loads(self.body)
        return said


@dataclass(frozen=True, slots=True)
class Broken:
    """The first place where a chain does not hold, and why (a phrase key below `books.broken`)."""

    chain: str
    number: int
    why: str


def begin(chain: str) -> Head:
    """Return the head of a chain without entries.

    >>> begin("7KQ4MZ2XPA").number, begin("7KQ4MZ2XPA").digest == begin("7KQ4MZ2XPB").digest
    (0, False)
    """
    genesis = canonical({"chain": chain, "format": FORMAT})
    return Head(chain, 0, hashlib.sha256(_GENESIS + genesis).hexdigest())


def digest_of(chain: str, number: int, previous: str, body: str) -> str:
    """Return the digest of an entry: over its chain, its number, the digest before it and its body."""
    whole = canonical({"body": body, "chain": chain, "number": number, "previous": previous})
    return hashlib.sha256(_ENTRY + whole).hexdigest()


def append(head: Head, said: Mapping[str, Any]) -> tuple[Entry, Head]:
    """Return the entry that comes after a head, and the new head."""
    body = canonical(said).decode()
    number = head.number + 1
    digest = digest_of(head.chain, number, head.digest, body)
    return Entry(number, head.digest, body, digest), Head(head.chain, number, digest)


def first_broken(chain: str, entries: Iterable[Entry], head: Head | None = None) -> Broken | None:
    """Return the first place where a chain does not hold, or None.

    With the head that was kept elsewhere, entries missing at the end are found too.
    """
    last = begin(chain)
    for entry in entries:
        why = _why(last, entry)
        if why is not None:
            return Broken(chain, last.number + 1, why)
        last = Head(chain, entry.number, entry.digest)
    if head is not None and head != last:
        return Broken(chain, min(head.number, last.number) + (head.number != last.number), "head")
    return None


def _why(last: Head, entry: Entry) -> str | None:
    if entry.number != last.number + 1:
        return "number"
    if entry.previous != last.digest:
        return "previous"
    if digest_of(last.chain, entry.number, entry.previous, entry.body) != entry.digest:
        return "digest"
    return None
