"""Which signs the one face has: a text with any other cannot be set, and is refused where it is read."""

from __future__ import annotations

import functools
from pathlib import Path
from typing import Final

FILE: Final = Path(__file__).parent / "data" / "fonts" / "coverage.txt"


@functools.cache
def covered() -> frozenset[str]:
    """Return every sign the face has in all weights used."""
    signs: set[str] = set()
    for line in FILE.read_text(encoding="ascii").split():
        first, _, last = line.partition("-")
        signs.update(map(chr, range(int(first, 16), int(last or first, 16) + 1)))
    return frozenset(signs)


def missing_sign(text: str) -> str | None:
    """Return the first sign of a text that the face lacks, or None.

    >>> missing_sign("Llanta fría, 80 psi"), missing_sign("tire \\N{WHEEL OF DHARMA}")
    (None, '☸')
    """
    if text.isascii():
        return None
    return next((sign for sign in text if sign not in covered() and sign != "\n"), None)
