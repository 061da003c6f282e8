"""The briefing of one unit: stations in walking order by state, numbers, checks, show-me questions, upkeep plan."""

from __future__ import annotations
