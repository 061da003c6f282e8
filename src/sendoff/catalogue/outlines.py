"""Outlines as a type's file writes them: a unit, then pairs: `"in: 0,30 96,30 96,34"`."""

from __future__ import annotations

from typing import Final

from sendoff import units

MOST_POINTS: Final = 200
_CURE: Final = 'Write a unit and pairs, such as "in: 0,30 96,30 96,34 0,34".'


def outline(text: str) -> tuple[tuple[float, float], ...]:
    """Return the points of an outline in meters.

    Raises
    ------
    sendoff.units.UnitError
        If it is not a length unit followed by pairs of numbers.

    Examples
    --------
    >>> outline("ft: 0,0 1,0 1,1")
    ((0.0, 0.0), (0.3048, 0.0), (0.3048, 0.3048))
    """
    unit, colon, rest = text.partition(":")
    pairs = rest.split()
    if not colon or len(pairs) < 2 or len(pairs) > MOST_POINTS:
        raise units.UnitError("that is not an outline", _CURE)
    points = []
    for pair in pairs:
        first, comma, second = pair.partition(",")
        if not comma:
            raise units.UnitError(f"'{pair}' is not a pair of numbers", _CURE)
        points.append(
            (
                units.parse(f"{first} {unit.strip()}", "length").si,
                units.parse(f"{second} {unit.strip()}", "length").si,
            )
        )
    return tuple(points)
