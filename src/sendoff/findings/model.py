"""A finding: one limit checked, with its demand, its capacity, what is left, and how it was worked out.

A finding never says that a unit may be used: it says that of the limits checked none is passed, or which one is, and
what was not checked. Verdicts use unrounded values.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from sendoff.asbuilt.unit import Origin
from sendoff.calc.contract import Step
from sendoff.display import Role

Verdict = Literal["within", "tight", "over", "unknown"]
VERDICTS: Final[tuple[Verdict, ...]] = ("over", "unknown", "tight", "within")
"""What limits first stands first."""

TIGHT_SHARE: Final[dict[str, float]] = {
    "tire": 0.10,
    "axle": 0.10,
    "chain": 0.10,
    "ball": 0.10,
    "truck_axle": 0.05,
    "label": 0.0,
    "set_point": 0.0,
}
TIGHT_ELSEWHERE: Final = 0.05
TIGHT_WINDOW: Final = 0.02
"""Shares of the limit (and points of a window) below which what is left is called tight; a house rule, no source.

A plate that asks all of a part's rating, and a pressure set at a part's own highest, leave nothing and are not tight.
"""


@dataclass(frozen=True, slots=True)
class Limit:
    """What a finding is measured against: at most `most`, at least `least`, or between both."""

    most: float | None = None
    least: float | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """A number in a note: its kind, its SI value, and how it is rounded when shown."""

    kind: str
    si: float
    role: Role = "fact"
    given: str | None = None
    """As somebody entered it: shown so to readers of its own units."""


@dataclass(frozen=True, slots=True)
class Note:
    """Something said beside a finding: what a meter should read, what was counted in, what to do first."""

    key: str
    """Phrase key (`note.<key>`)."""
    amounts: dict[str, Amount] = field(default_factory=dict)
    words: dict[str, str] = field(default_factory=dict)
    """Words that stand as they are, such as the name somebody gave an item."""
    phrases: dict[str, str] = field(default_factory=dict)
    """Words said by a phrase of their own, by its key."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One limit checked."""

    id: str
    about: str
    """Phrase key of the limit's name (`finding.<about>`)."""
    kind: str
    """Kind of quantity of demand and limit."""
    limit: Limit
    demand: float | None
    """None where a needed input is missing."""
    group: str = ""
    """Which tight share applies: tire, axle, chain, ball, label, set_point; empty for all else."""
    uncertainty: float = 0.0
    """How far the demand may be off (scale, fuel, people), in the same unit."""
    demand_given: str | None = None
    limit_given: str | None = None
    """The values as somebody entered them, where they were entered and not computed."""
    demand_origin: Origin = "card"
    limit_origin: Origin = "card"
    holds: bool | None = None
    """For what fits or does not, such as ball and coupler: it has no margin, only an answer."""
    missing: tuple[str, ...] = ()
    """Phrase keys of what to measure when the verdict is unknown."""
    words: dict[str, str] = field(default_factory=dict)
    """Values for the phrases: names of parts, numbers of axles."""
    steps: tuple[Step, ...] = ()
    sources: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a finding that contradicts itself."""
        numbers = [value for value in (self.limit.most, self.limit.least, self.demand) if value is not None]
        if not all(math.isfinite(value) for value in numbers):
            raise ValueError(f"{self.id}: a finding needs finite numbers")
        if (
            self.demand is not None
            and self.limit.most is None
            and self.limit.least is None
            and self.holds is None
        ):
            raise ValueError(f"{self.id}: a finding needs a limit")
        if (self.demand is None and self.holds is None) != bool(self.missing):
            raise ValueError(f"{self.id}: unknown, and only unknown, says what to measure")

    @property
    def is_window(self) -> bool:
        """Whether both a least and a most are asked."""
        return self.limit.most is not None and self.limit.least is not None

    @property
    def margin(self) -> float | None:
        """What is left to the nearest limit, negative when it is passed; None when unknown."""
        if self.demand is None or self.holds is not None:
            return None
        left = []
        if self.limit.most is not None:
            left.append(self.limit.most - self.demand)
        if self.limit.least is not None:
            left.append(self.demand - self.limit.least)
        return min(left)

    @property
    def share_left(self) -> float | None:
        """What is left as a share of the limit; for a window in the window's own unit."""
        margin = self.margin
        if margin is None:
            return None
        if self.is_window:
            return margin
        reference = self.limit.most if self.limit.most is not None else self.limit.least
        return margin / reference if reference else math.copysign(1.0, margin)

    @property
    def verdict(self) -> Verdict:
        """Within, tight, over or unknown."""
        if self.holds is not None:
            return "within" if self.holds else "over"
        margin, share = self.margin, self.share_left
        if margin is None or share is None:
            return "unknown"
        if margin < 0:
            return "over"
        enough = TIGHT_WINDOW if self.is_window else TIGHT_SHARE.get(self.group, TIGHT_ELSEWHERE)
        reference = 1.0 if self.is_window else (self.limit.most or self.limit.least or 1.0)
        return "tight" if share < enough + self.uncertainty / reference else "within"


def unknown(
    id_: str, about: str, kind: str, *missing: str, limit: Limit | None = None, **more: Any
) -> Finding:
    """Return a finding that cannot be told yet, with what to measure."""
    return Finding(id_, about, kind, limit or Limit(), None, missing=missing, **more)


def sorted_by_limit(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with what limits first in front: passed, unknown, tight, then by what is left."""
    return tuple(
        sorted(
            findings,
            key=lambda found: (
                VERDICTS.index(found.verdict),
                found.share_left if found.share_left is not None else 0.0,
                found.id,
            ),
        )
    )


def exit_code(findings: Iterable[Finding]) -> int:
    """Return 1 when something is over, 3 when nothing is over but something unknown, else 0."""
    verdicts = {found.verdict for found in findings}
    return 1 if "over" in verdicts else 3 if "unknown" in verdicts else 0
