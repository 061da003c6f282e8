"""The working of a limit that needs no calculation: what is asked beside what is allowed, and what is left."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from sendoff.calc.contract import Step, Term
from sendoff.findings.model import Finding
from sendoff.units import SUFFIX_KIND

RULE: Final = "house_rule, no part is asked for more than its own rating, card or plate says"
LEFT: Final = {
    (False, True): "left = most − asked",
    (True, False): "left = asked − least",
    (True, True): "left = the lesser of most − asked and asked − least",
}
"""By whether a least and a most are asked."""


SUFFIXES: Final = {kind: suffix for suffix, kind in SUFFIX_KIND.items()}


def _term(name: str, kind: str, value: float) -> Term:
    suffix = SUFFIXES.get(kind)
    return Term(f"{name}_{suffix}" if suffix else name, name, kind, value)


def with_working(found: Finding) -> Finding:
    """Return a finding with its plain working and source, where it has a demand and a limit and no other working."""
    least, most = found.limit.least, found.limit.most
    formula = LEFT.get((least is not None, most is not None))
    if found.steps or found.demand is None or found.margin is None or formula is None:
        return found
    told = (("asked", found.demand), ("least", least), ("most", most))
    step = Step(
        "limit",
        formula,
        tuple(_term(name, found.kind, value) for name, value in told if value is not None),
        (_term("left", found.kind, found.margin),),
    )
    return replace(found, steps=(step,), sources=found.sources or (RULE,))
