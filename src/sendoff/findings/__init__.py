"""Findings: asks one as-built unit for every limit that applies; demand, capacity, margin, verdict, working."""

from __future__ import annotations
