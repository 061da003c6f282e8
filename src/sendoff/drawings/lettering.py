"""How wide words are on paper, from the face's own advance widths, so that they can be placed and given room.

A drawing is laid out before anything sets it; these widths (data/fonts/widths.txt, made by tools/fonts.py from the
face) make that exact but for kerning. A sign that is not in the list counts as a wide one.
"""

from __future__ import annotations

import functools
from pathlib import Path
from typing import Final

FILE: Final = Path(__file__).parents[1] / "data" / "fonts" / "widths.txt"
POINT_MM: Final = 25.4 / 72
CAP_HEIGHT: Final = 0.66
"""Height of a capital or figure, as a share of the size (OS/2 table of the face)."""
LEAST_POINTS: Final = 7.0
"""Nothing smaller is set in print."""
WEIGHTS: Final = (400, 600, 700)
_UNKNOWN: Final = (850, 880, 900)
_NO_JOINING: Final = "\N{ZERO WIDTH NON-JOINER}"


@functools.cache
def _advances() -> dict[str, tuple[int, ...]]:
    found = {}
    for line in FILE.read_text(encoding="ascii").splitlines():
        code, *widths = line.split()
        found[chr(int(code, 16))] = tuple(map(int, widths))
    return found


def width_mm(words: str, points: float, weight: int = 400) -> float:
    """Return how wide words are in print.

    >>> round(width_mm("34 ft 2 in", 7.5), 2), round(width_mm("34 ft 2 in", 7.5, 700), 2)
    (9.3, 9.94)
    """
    column, advances = WEIGHTS.index(weight), _advances()
    return sum(advances.get(sign, _UNKNOWN)[column] for sign in words) * points * POINT_MM / 1000


def unjoined(words: str) -> str:
    """Return words whose "ft" does not fuse into one sign: SVG renderers know no other way to switch that off."""
    return words.replace("ft", f"f{_NO_JOINING}t")


def lines_of(words: str, room_mm: float, points: float, weight: int = 400) -> list[str]:
    """Return words broken into lines no wider than the room; a single word wider than that stands alone.

    >>> lines_of("From the coupling, driver's side, round the back", 40, 10)
    ["From the coupling, driver's", 'side, round the back']
    """
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, points, weight) <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def fitting_points(
    words: str, room_mm: float, points: float, weight: int = 400, least: float = LEAST_POINTS
) -> float:
    """Return the size at which words fit a room, at most `points` and never less than what print allows."""
    wide = width_mm(words, points, weight)
    return points if wide <= room_mm else max(points * room_mm / wide, least)
