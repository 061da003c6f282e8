"""Sendoff: from one build sheet, everything a trailer yard hands over.

The one road through the house: build sheet, as-built unit, findings, briefing, then drawings and papers.
Each room is a package of this one and may import only the rooms below it (see ``pyproject.toml``).
"""

from __future__ import annotations

__version__ = "0.1.0"

__all__ = ["__version__"]
