"""Ratings: the chain of parts down to the weakest one, and what the rules ask of the labels.

The smallest number on any part is the number. A rating is never worked out upwards: what is not known stays unknown
and is named.
"""

from __future__ import annotations

from sendoff.calc.ratings import capacity, chain, labels, pressures

__all__ = ["capacity", "chain", "labels", "pressures"]
