"""A yard's catalogue: the shape of part cards and trailer types, loading, and lint that lists all faults at once."""

from __future__ import annotations
