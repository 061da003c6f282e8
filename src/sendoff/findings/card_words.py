"""What a card says in words and a limit needs: gauges of wire, kinds of nuts and seats, by their English text."""

from __future__ import annotations

import re
from typing import Final

from sendoff.asbuilt.unit import FittedPart

_GAUGE: Final = re.compile(r"(?P<number>[1-4]/0|[0-9]{1,2}) AWG\b")
"""A gauge as cards write it: 8 AWG, 1/0 AWG."""


def text_of(part: FittedPart | None, name: str) -> str | None:
    """Return a text value in English, the language cards are matched by; None where the part has none."""
    value = part.values.get(name) if part is not None else None
    if value is None:
        return None
    return value.words["en"] if value.words is not None else value.given


def awg_of(text: str | None, wire: str = "") -> int | None:
    """Return the gauge a text names, for one of its wires where it names several; None where it does not tell.

    1/0 to 4/0 are 0 to -3, as in the tables.

    >>> awg_of("8 AWG"), awg_of("8 AWG brake and ground, 12 AWG lamps", "brake"), awg_of("2/0 AWG")
    (8, 8, -1)
    >>> awg_of("8 AWG brake and ground, 12 AWG lamps"), awg_of("heavy")
    (None, None)
    """
    pieces = [piece for piece in (text or "").split(",") if _GAUGE.search(piece)]
    if len(pieces) > 1:
        pieces = [piece for piece in pieces if wire and wire in piece]
    if len(pieces) != 1:
        return None
    found = _GAUGE.findall(pieces[0])
    if len(found) != 1:
        return None
    number = found[0]
    return 1 - int(number[0]) if "/" in number else int(number)
