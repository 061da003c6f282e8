"""Statics: where the load sits, what the coupling and each axle carry, and what a weighbridge tells of it.

Axes: x rearwards from the coupling point, y to the right looking forward. Loads are masses: a scale reads them.
"""

from __future__ import annotations

from sendoff.calc.statics import suspension, trailer, truck, weighbridge

__all__ = ["suspension", "trailer", "truck", "weighbridge"]
