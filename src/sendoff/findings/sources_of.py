"""The sources of a calculation, as a finding names them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from sendoff.calc import docstrings
from sendoff.calc.contract import REGISTRY


def references_of(function: Callable[..., Any]) -> tuple[str, ...]:
    """Return the sources of a calculation, each "source, clause"."""
    doc = docstrings.read(REGISTRY[function.__name__])
    return tuple(
        f"{reference.source}, {reference.clause}" if reference.clause else reference.source
        for reference in doc.references
    )


def all_references_of(*functions: Callable[..., Any]) -> tuple[str, ...]:
    """Return the sources of several calculations, each once."""
    return tuple(dict.fromkeys(source for function in functions for source in references_of(function)))
