"""What a pack holds: every file of one unit, made in memory before anything is written."""

from __future__ import annotations

import datetime

from sendoff.asbuilt.unit import AsBuiltUnit, to_json
from sendoff.briefing.brief import brief
from sendoff.catalogue.load import Catalogue
from sendoff.findings.all_limits import all_findings
from sendoff.papers.booklet import booklet
from sendoff.papers.calendar import calendar
from sendoff.papers.check_sheet import check_sheet
from sendoff.papers.figures import figures_of
from sendoff.papers.load_card import load_card_paper
from sendoff.papers.page import page
from sendoff.units import System


def files_of_pack(
    unit: AsBuiltUnit, catalogue: Catalogue, language: str, units: System, day: datetime.date
) -> dict[str, bytes]:
    """Return the files of a unit's pack by name; the same unit, catalogue and day give the same bytes."""
    briefing = brief(unit, catalogue, language, units)
    found = all_findings(unit, catalogue, day)
    figures = figures_of(unit, briefing, found)
    card = load_card_paper(unit, briefing, catalogue, day)
    return {
        "booklet.pdf": booklet(unit, briefing, catalogue, figures, found, day),
        "check-sheet.pdf": check_sheet(unit, briefing, catalogue, figures, day),
        "briefing.html": page(unit, briefing, catalogue, figures, found, day),
        "upkeep.ics": calendar(unit, briefing, day),
        "unit.json": to_json(unit),
        **({"load-card.pdf": card} if card is not None else {}),
    } | {f"drawings/{name}.svg": drawing.svg.encode() for name, drawing in figures.named()}
