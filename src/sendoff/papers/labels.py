"""Labels for the stations: number, name and a code that opens the station's public page, where the yard has one.

They are a guide to the walk: stock and size are said on the sheet, and that they never stand over, beside or in the
manner of the maker's certification label.
"""

from __future__ import annotations

import datetime
import re
from dataclasses import asdict
from typing import Any, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing
from sendoff.catalogue.load import Catalogue
from sendoff.drawings.svg import INK, WHITE, Canvas, Drawing
from sendoff.papers import typeset
from sendoff.papers.booklet import frame_of
from sendoff.phrases import say

WIDTH_MM: Final = 92.0
HEIGHT_MM: Final = 56.0
CODE_MM: Final = 34.0
QUIET_MODULES: Final = 4
"""White modules round a code (ISO/IEC 18004)."""


def labels(unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, day: datetime.date) -> bytes:
    """Return labels.pdf."""
    return typeset.pdf("labels.typ", data_of_labels(unit, briefing, catalogue, day), day)


def address_of(base_url: str | None, public_id: str, station: int) -> str | None:
    """Return what a station's code opens; None where the yard has no address.

    >>> address_of("https://yard.example/", "7KQ4MZ2XPA", 3)
    'https://yard.example/u/7KQ4MZ2XPA/3'
    """
    if base_url is None:
        return None
    return f"{base_url.rstrip('/')}/u/{public_id}/{station}"


def data_of_labels(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, day: datetime.date
) -> dict[str, Any]:
    """Return the sheets of labels as data."""
    language = briefing.language
    base_url = str(catalogue.yard.base_url) if catalogue.yard.base_url is not None else None
    rows = []
    for station in briefing.stations:
        address = address_of(base_url, unit.public_id, station.number)
        code = code_of(address, say("label.code", language, address=address)) if address else None
        rows.append(
            {
                "number": station.number,
                "name": station.name,
                "address": re.sub(r"^https?://", "", address) if address else "",
                "code": asdict(code) if code is not None else None,
            }
        )
    size = {"width": f"{WIDTH_MM:g} mm", "height": f"{HEIGHT_MM:g} mm"}
    title = say("label.title", language)
    return frame_of(unit, briefing, catalogue, day, title) | {
        "labels": {
            "title": title,
            "rows": rows,
            "width_mm": WIDTH_MM,
            "height_mm": HEIGHT_MM,
            "code_mm": CODE_MM,
            "stock": say("label.stock", language, **size),
            "where": say("label.where", language),
            "renew": say("label.renew", language),
            "says": say("label.open" if base_url else "label.no_code", language),
            "not_a_rating": say("label.not_a_rating", language),
            "authority": say("answer.authority", language),
        },
    }


def code_of(address: str, description: str) -> Drawing:
    """Return the code of an address as a drawing: error correction Q, so that a quarter of it may be lost to dirt."""
    import segno

    matrix = segno.make(address, error="q", micro=False).matrix
    count = len(matrix) + 2 * QUIET_MODULES
    size = CODE_MM / count
    canvas = Canvas(CODE_MM, CODE_MM)
    canvas.rect((0.0, 0.0), CODE_MM, CODE_MM, None, WHITE)
    for y, row in enumerate(matrix):
        x = 0
        while x < len(row):
            run = x
            while run < len(row) and row[run]:
                run += 1
            if run > x:
                corner = ((x + QUIET_MODULES) * size, (y + QUIET_MODULES) * size)
                canvas.rect(corner, (run - x) * size, size * 1.02, None, INK)
            x = max(run, x + 1)
    return canvas.done("", description)
