"""What a pack holds: every file of one unit, made in memory before anything is written."""

from __future__ import annotations

import datetime

from sendoff.asbuilt.unit import AsBuiltUnit, to_json
from sendoff.briefing.brief import brief
from sendoff.catalogue.load import Catalogue
from sendoff.findings.all_limits import all_findings
from sendoff.papers.booklet import booklet
from sendoff.papers.calendar import calendar
from sendoff.papers.care_sheets import emergency, storage_and_winter
from sendoff.papers.check_sheet import check_sheet
from sendoff.papers.deck_plan import deck_plan_paper
from sendoff.papers.drivers_sheet import drivers_sheet
from sendoff.papers.figures import figures_of
from sendoff.papers.labels import labels
from sendoff.papers.load_card import load_card_paper
from sendoff.papers.page import page
from sendoff.papers.road_cards import first_trip, lent_out, sun_visor
from sendoff.phrases import LANGUAGES
from sendoff.units import System


def files_of_pack(
    unit: AsBuiltUnit, catalogue: Catalogue, language: str, units: System, day: datetime.date
) -> dict[str, bytes]:
    """Return the files of a unit's pack by name; the same unit, catalogue and day give the same bytes."""
    both = {code: brief(unit, catalogue, code, units) for code in dict.fromkeys((language, *LANGUAGES))}
    briefing = both[language]
    found = all_findings(unit, catalogue, day)
    figures = figures_of(unit, briefing, found)
    card = load_card_paper(unit, briefing, catalogue, day)
    plan = deck_plan_paper(unit, briefing, catalogue, day)
    return {
        "booklet.pdf": booklet(unit, briefing, catalogue, figures, found, day),
        "check-sheet.pdf": check_sheet(unit, briefing, catalogue, figures, day),
        "briefing.html": page(unit, briefing, catalogue, figures, found, day),
        "upkeep.ics": calendar(unit, briefing, day),
        "unit.json": to_json(unit),
        "labels.pdf": labels(unit, briefing, catalogue, day),
        "drivers-sheet.pdf": drivers_sheet(unit, both, catalogue, found, day),
        "first-trip.pdf": first_trip(unit, briefing, catalogue, figures, day),
        "sun-visor.pdf": sun_visor(unit, briefing, catalogue, figures, day),
        "storage-and-winter.pdf": storage_and_winter(unit, briefing, catalogue, figures, day),
        "lent-out.pdf": lent_out(unit, briefing, catalogue, figures, day),
        "emergency.pdf": emergency(unit, briefing, catalogue, figures, day),
        **({"load-card.pdf": card} if card is not None else {}),
        **({"deck-plan.pdf": plan} if plan is not None else {}),
    } | {f"drawings/{name}.svg": drawing.svg.encode() for name, drawing in figures.named()}
