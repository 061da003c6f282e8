"""What must hold in a catalogue beyond the shape of its files.

Values and references are judged at every load, so that nothing later can stumble; the rest when a person asks.
Faults that show only for some legal combination of options are found one room up, in `asbuilt/lint.py`.
"""

from __future__ import annotations

from sendoff.catalogue import geometry
from sendoff.catalogue.lint import decks, orders, texts
from sendoff.catalogue.load import Catalogue
from sendoff.errors import Fault


def lint(catalogue: Catalogue) -> list[Fault]:
    """Return every fault of a catalogue that can be told without building a combination of options."""
    return [
        *texts.faults(catalogue),
        *orders.faults(catalogue),
        *geometry.faults(catalogue),
        *decks.faults(catalogue),
    ]
