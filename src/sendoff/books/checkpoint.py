"""A yard's checkpoint: one digest over the heads of all its chains, each checkpoint naming the one before."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from sendoff.books.chain import Broken, Entry, Head
from sendoff.canonical import canonical

_CHECKPOINT: Final = b"sendoff checkpoint 1\n"
YARD: Final = "yard"


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """All heads at one moment."""

    number: int
    at: str
    """UTC, ISO 8601."""
    previous: str
    heads: Mapping[str, tuple[int, str]]
    """Number and digest of the last entry of each chain."""
    digest: str


def seal(previous: Checkpoint | None, at: str, heads: Iterable[Head]) -> Checkpoint:
    """Return the checkpoint over heads that comes after another."""
    number = previous.number + 1 if previous is not None else 1
    before = previous.digest if previous is not None else ""
    told = {head.chain: (head.number, head.digest) for head in heads}
    return Checkpoint(number, at, before, told, _digest(number, at, before, told))


def _digest(number: int, at: str, previous: str, heads: Mapping[str, tuple[int, str]]) -> str:
    whole = canonical({"at": at, "heads": heads, "number": number, "previous": previous})
    return hashlib.sha256(_CHECKPOINT + whole).hexdigest()


def first_broken_checkpoint(checkpoints: Iterable[Checkpoint]) -> Broken | None:
    """Return the first checkpoint that does not hold, or None."""
    previous = ""
    for number, one in enumerate(checkpoints, start=1):
        if one.number != number:
            return Broken(YARD, number, "number")
        if one.previous != previous:
            return Broken(YARD, number, "previous")
        if _digest(one.number, one.at, one.previous, one.heads) != one.digest:
            return Broken(YARD, number, "digest")
        previous = one.digest
    return None


def check_against(checkpoint: Checkpoint, chain: str, entries: Mapping[int, Entry]) -> Broken | None:
    """Tell whether the entry a checkpoint names for a chain is still the one in the chain."""
    if chain not in checkpoint.heads:
        return None
    number, digest = checkpoint.heads[chain]
    if number == 0 or (number in entries and entries[number].digest == digest):
        return None
    return Broken(chain, number, "checkpoint")
