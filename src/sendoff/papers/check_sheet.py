"""The check sheet: every check of a unit in the order of the walk, as data for data/typst/check_sheet.typ."""

from __future__ import annotations

import datetime
from dataclasses import asdict
from typing import Any

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Leg
from sendoff.catalogue.load import Catalogue
from sendoff.papers import typeset
from sendoff.papers.booklet import frame_of
from sendoff.papers.figures import Figures
from sendoff.papers.stations import check_data
from sendoff.phrases import say


def check_sheet(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, figures: Figures, day: datetime.date
) -> bytes:
    """Return check-sheet.pdf."""
    language = briefing.language
    data = frame_of(unit, briefing, catalogue, day, say("paper.check_sheet", language)) | {
        "vin": unit.vin,
        "drawings": {"small": asdict(figures.small)},
        "authority_line": say("answer.authority", language),
        "legs": [found for leg in briefing.legs if (found := _leg(leg, language))["visits"]],
    }
    return typeset.pdf("check_sheet.typ", data, day)


def _leg(leg: Leg, language: str) -> dict[str, Any]:
    visits = []
    for visit in leg.visits:
        if visit.checks:
            checks = [check_data(check, language) for check in visit.checks]
            visits.append(
                {
                    "station": visit.station,
                    "name": visit.name,
                    "checks": checks,
                    "hands": max(check.hands for check in visit.checks),
                }
            )
    return {"title": leg.title, "visits": visits}
