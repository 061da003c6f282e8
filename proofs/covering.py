"""Covering arrays: few legal sets of options in which every choice of any three options that can be built occurs.

Of three options each may be taken or not: eight choices, less those that no legal set has. A fault that hangs on at
most three options shows in one of the rows (the idea: Kuhn, Kacker, Lei, NIST SP 800-142). Types with so many legal
sets that holding each one takes too long are proved by such an array; the others in full.
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from sendoff.asbuilt.fit import combinations
from sendoff.catalogue.load import load

STRENGTH: Final = 3
MANY: Final = 20_000
"""Legal sets from which on a type is proved by a covering array."""
_TRIED: Final = 64
"""Legal sets compared for each row: the one that covers most is taken."""

Choice = tuple[tuple[str, bool], ...]
"""Some options, each with whether it is taken."""


def all_choices(names: Sequence[str]) -> Iterator[Choice]:
    """Yield every choice of any three options, whether it can be built or not."""
    for some in itertools.combinations(names, min(STRENGTH, len(names))):
        for taken in itertools.product((False, True), repeat=len(some)):
            yield tuple(zip(some, taken, strict=True))


def covering(names: Sequence[str], legal: Sequence[frozenset[str]]) -> list[frozenset[str]]:
    """Return rows from `legal` that say of any three options all that any of `legal` says; always the same rows."""
    whole = (1 << len(legal)) - 1
    taking = {name: sum(1 << number for number, some in enumerate(legal) if name in some) for name in names}
    """For each option, a bit for each legal set that takes it."""
    having: dict[Choice, int] = {}
    for choice in all_choices(names):
        rows = whole
        for name, taken in choice:
            rows &= taking[name] if taken else whole ^ taking[name]
        if rows:
            having[choice] = rows
    missing = set(having)
    chosen: list[frozenset[str]] = []
    for wanted, numbers in having.items():
        if wanted in missing:
            tried = [legal[number] for number in _spread(numbers)]
            best = max(tried, key=lambda row: sum(choice in missing for choice in choices_of(row, names)))
            chosen.append(best)
            missing.difference_update(choices_of(best, names))
    return chosen


def choices_of(row: frozenset[str], names: Sequence[str]) -> Iterator[Choice]:
    """Yield what a row says of every three options."""
    return itertools.combinations([(name, name in row) for name in names], min(STRENGTH, len(names)))


def _spread(rows: int) -> list[int]:
    """Return the numbers of a few set bits, evenly spread over all that are set."""
    found = [number for number, bit in enumerate(reversed(f"{rows:b}")) if bit == "1"]
    return found[:: max(1, len(found) // _TRIED)][:_TRIED]


@functools.cache
def legal_sets(folder: Path, name: str) -> tuple[frozenset[str], ...]:
    """Return every legal set of options of a type, in the order in which the product finds them."""
    return tuple(combinations(load(folder).types[name]))


@functools.cache
def array_of(folder: Path, name: str) -> tuple[frozenset[str], ...]:
    """Return the covering array of a type."""
    return tuple(covering(sorted(load(folder).types[name].options), legal_sets(folder, name)))
