"""What several families share: a limit held against a demand, and comparisons that a rounding of units cannot flip."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sendoff import units
from sendoff.calc.contract import require_finite, require_not_negative, require_positive
from sendoff.errors import OutOfRange

_HAIR: Final = 1e-9
"""Share by which 26,001 lb may miss 26,001 lb after two conversions; no weighing resolves it."""


@dataclass(frozen=True, slots=True)
class Limit:
    """A load held against what may be carried: demand, capacity, what is left, and whether it holds."""

    demand_kg: float
    capacity_kg: float
    margin_kg: float
    used_ratio: float
    holds: bool


def limit_of(demand_kg: float, capacity_kg: float) -> Limit:
    """Hold a demand against a capacity above zero."""
    return Limit(
        demand_kg,
        capacity_kg,
        capacity_kg - demand_kg,
        demand_kg / capacity_kg,
        not exceeds(demand_kg, capacity_kg),
    )


def exceeds(value: float, limit: float) -> bool:
    """Return whether a value is truly above a limit, not only by a rounding of units."""
    return value > limit + _HAIR * abs(limit)


def reaches(value: float, threshold: float) -> bool:
    """Return whether a value is at or above a threshold, a rounding of units apart."""
    return value >= threshold - _HAIR * abs(threshold)


def pounds(value: float) -> float:
    """Return pounds, as a rule prints them, as kilograms."""
    return units.to_si(value, "lb", "mass")


def feet(value: float) -> float:
    """Return feet, as a rule prints them, as meters."""
    return units.to_si(value, "ft", "length")


def inches(value: float) -> float:
    """Return inches, as a rule prints them, as meters."""
    return units.to_si(value, "in", "length")


def require_same_count(**lists: tuple[object, ...]) -> None:
    """Refuse lists of different lengths, or empty ones; the keyword names the field in the message."""
    names = list(lists)
    first = len(lists[names[0]])
    if first == 0:
        raise OutOfRange(names[0], (), "must name at least one item")
    for name in names[1:]:
        if len(lists[name]) != first:
            raise OutOfRange(name, len(lists[name]), f"must have as many items as {names[0]}, {first}")


LARGEST: Final = 1e12
SMALLEST: Final = 1e-12
"""No length, mass or force of a trailer lies beyond; within them no product or quotient here leaves the numbers."""


def finite(**values: float) -> None:
    """Refuse what is no number, or beyond any measure; the keyword names the field in the message."""
    require_finite(**values)
    for name, value in values.items():
        if abs(value) > LARGEST:
            raise OutOfRange(name, value, "is beyond any measure")


def positive(**values: float) -> None:
    """Refuse what is not above zero, or beyond any measure; the keyword names the field in the message."""
    require_positive(**values)
    for name, value in values.items():
        if not SMALLEST <= value <= LARGEST:
            raise OutOfRange(name, value, "is beyond any measure")


def not_negative(**values: float) -> None:
    """Refuse what is below zero, or beyond any measure; the keyword names the field in the message."""
    require_not_negative(**values)
    finite(**values)


def each_finite(**lists: tuple[float, ...]) -> None:
    """Refuse a list that holds what is no number, or beyond any measure."""
    for name, values in lists.items():
        for value in values:
            finite(**{name: value})


def each_positive(**lists: tuple[float, ...]) -> None:
    """Refuse a list that holds what is not above zero, or beyond any measure."""
    for name, values in lists.items():
        for value in values:
            positive(**{name: value})


def each_not_negative(**lists: tuple[float, ...]) -> None:
    """Refuse a list that holds what is below zero, or beyond any measure."""
    for name, values in lists.items():
        for value in values:
            not_negative(**{name: value})
