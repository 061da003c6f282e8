"""Drawings to scale from a trailer type's geometry, as SVG: views, station map, wiring, nut sequence, plug face.

A unit's drawings are made from its as-built unit alone:

    drawings = UnitDrawings(unit, language="es", system="us")
    drawings.sheet.svg, drawings.sheet.description

`marks` says what is painted, `shapes` how each kind of part looks, `views` puts both together in side and plan, and
the rest lay them out: `sheets`, `small`, `figures`, `tie_downs`, and beside them the diagrams `wheel_nuts`,
`plug_face`, `one_line`, `margins`.
"""

from __future__ import annotations

from sendoff.drawings.margins import margin_bar
from sendoff.drawings.of_unit import UnitDrawings
from sendoff.drawings.svg import Drawing

__all__ = ["Drawing", "UnitDrawings", "margin_bar"]
