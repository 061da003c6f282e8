"""Securement: working load limits, the American and the European rules, and a plan of tie-downs.

The two rule sets are chosen by jurisdiction and never stand beside each other: their counts mean different things.
"""

from __future__ import annotations

from sendoff.calc.securement import (
    commodities,
    en12195,
    en12195_direct,
    plan,
    plan_en,
    plan_over_top,
    rules,
    us,
    wll,
)

__all__ = [
    "commodities",
    "en12195",
    "en12195_direct",
    "plan",
    "plan_en",
    "plan_over_top",
    "rules",
    "us",
    "wll",
]
