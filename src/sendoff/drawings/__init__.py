"""Drawings to scale from a trailer type's geometry, as SVG: views, station map, wiring, nut sequence, plug face."""

from __future__ import annotations
