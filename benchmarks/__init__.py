"""Benchmarks: how fast Sendoff is, beside peers in the same run. `python -m benchmarks` runs every bench_*.py.

A benchmark is a module with::

    def measure() -> Iterable[Measure]: ...

Each `Measure` carries its target, so that a slower Sendoff is seen, and the peer it was held against.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measure:
    """One thing measured."""

    name: str
    value: float
    unit: str
    at_most: float | None = None
    at_least: float | None = None
    note: str = ""

    @property
    def met(self) -> bool | None:
        """Whether the target is met; None where there is none (a peer, a figure for information)."""
        if self.at_most is None and self.at_least is None:
            return None
        return (self.at_most is None or self.value <= self.at_most) and (
            self.at_least is None or self.value >= self.at_least
        )

    @property
    def target(self) -> str:
        """The target as a person reads it."""
        if self.at_most is not None:
            return f"at most {self.at_most:g} {self.unit}"
        return "" if self.at_least is None else f"at least {self.at_least:g} {self.unit}"
