"""What no road trailer has: values so far out that a sign, a unit or a digit must be wrong.

The bounds are wide (common practice, no source): they catch a slip of the pen, they judge no design. What a trailer
can bear is a finding.
"""

from __future__ import annotations

from typing import Final

from sendoff.display import Role, show

BOUNDS: Final[dict[str, tuple[float, float]]] = {
    "mass": (0.0, 200_000.0),
    "force": (0.0, 5e6),
    "length": (-1e6, 1e6),
    "area": (0.0, 1000.0),
    "volume": (0.0, 200.0),
    "flow": (0.0, 0.1),
    "pressure": (0.0, 100e6),
    "torque": (0.0, 50_000.0),
    "energy": (0.0, 1e9),
    "power": (0.0, 1e6),
    "duration": (0.0, 1e9),
    "speed": (0.0, 70.0),
    "rotation": (0.0, 1000.0),
    "voltage": (0.0, 1000.0),
    "current": (0.0, 5000.0),
    "resistance": (0.0, 1e8),
    "resistance_per_length": (0.0, 1e5),
    "charge": (0.0, 2e7),
    "density": (0.0, 25_000.0),
    "area_load": (0.0, 1e6),
    "viscosity": (0.0, 1.0),
    "temperature": (170.0, 1000.0),
    "temperature_change": (0.0, 1000.0),
    "angle": (-6.3, 6.3),
    "ratio": (0.0, 10_000.0),
    "count": (0.0, 1e6),
}
"""Least and most of each kind of quantity, in SI units."""

_MAY_BE_NOTHING: Final = frozenset({"length", "temperature", "angle", "ratio", "count"})
"""Kinds of which a limit or a set point can be zero: no play, freezing, level, none."""
CURE: Final = "Check the number, its sign and its unit."


def problem(kind: str, si: float, least: float, most: float, *, above_nothing: bool = False) -> str | None:
    """Return what is absurd about a value, or None."""
    name = kind.replace("_", " ")
    article = "an" if name[0] in "aeiou" else "a"
    if least == 0.0 and si < 0.0:
        return f"{article} {name} here is never below zero"
    if above_nothing and si == 0.0:
        return f"{article} {name} of nothing cannot stand here"
    if not least <= si <= most:
        bound, word = (least, "at least") if si < least else (most, "at most")
        told = str(round(bound)) if kind == "count" else str(show(kind, bound, "us"))
        return f"no trailer has such {article} {name}: {word} {told}"
    return None


def problem_of_value(kind: str, si: float, role: Role) -> str | None:
    """Return what is absurd about a value of a part card, or None."""
    least, most = BOUNDS[kind]
    if role == "fact":
        return problem(kind, si, least, most)
    least = max(least, 0.0) if kind == "length" else least
    return problem(kind, si, least, most, above_nothing=role != "demand" and kind not in _MAY_BE_NOTHING)
