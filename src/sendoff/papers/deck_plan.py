"""The deck plan of the cargo a sheet names, on paper: the answer, the drawing, the steps, the limits, the cautions."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import asdict
from typing import Any, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Caution
from sendoff.catalogue.freight import Cargo
from sendoff.catalogue.load import Catalogue
from sendoff.drawings.deck_plan import deck_drawing
from sendoff.drawings.deck_steps import loading_pictures
from sendoff.drawings.margins import margin_bar
from sendoff.errors import FaultyInput
from sendoff.findings.all_limits import truck_of
from sendoff.findings.deck.answer import DeckAnswer, place_all
from sendoff.findings.deck.case import cargo_file, case_of
from sendoff.findings.deck.telling import CAUTIONS, Teller
from sendoff.findings.model import Finding
from sendoff.papers import typeset
from sendoff.papers.booklet import frame_of
from sendoff.papers.stations import caution_groups
from sendoff.phrases import say

LOOKS: Final = 400
"""How often the search may ask whether to go on: a count, not a clock, so that the same pack has the same bytes."""
AMPLE: Final = 0.5
"""Limits of which more than this part is left are only named."""
WORDS: Final = ("repairs", "least_bad", "steps", "stops", "limits", "robust", "choices", "faults")


def counted(looks: int) -> Callable[[], bool]:
    """Return a question whether to go on that is answered with yes so many times."""
    left = [looks]

    def go_on() -> bool:
        left[0] -= 1
        return left[0] >= 0

    return go_on


def deck_plan_paper(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, day: datetime.date
) -> bytes | None:
    """Return deck-plan.pdf; None where the sheet names no cargo."""
    named = cargo_file(unit, catalogue)
    if named is None:
        return None
    page = page_of(unit, briefing, catalogue, *named)
    title = say("deck.title", briefing.language)
    return typeset.pdf("deck_plan.typ", frame_of(unit, briefing, catalogue, day, title) | {"plan": page}, day)


def page_of(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, cargo: Cargo, file: str
) -> dict[str, Any]:
    """Return the page as data; where measures are missing, which, instead of a plan."""
    language = briefing.language
    try:
        case = case_of(
            unit, cargo, truck_of(unit, catalogue), file=file.replace("\\", "/").rpartition("/")[2]
        )
    except FaultyInput as refused:
        return _not_planned(refused, language)
    found = place_all(case, language, go_on=counted(LOOKS), code="plain")
    return data_of_plan(found, briefing)


def _empty(language: str) -> dict[str, Any]:
    return {
        "title": say("deck.title", language),
        "words": {name: say(f"deck.{name}", language) for name in WORDS},
        "is_plan": False,
        "drawing": None,
        "begin": "",
        "end": "",
        "ample": "",
        "authority": say("answer.authority", language),
        "cautions": caution_groups(_cautions(language)),
        **{
            key: []
            for key in (
                "headline",
                "faults",
                "conflict",
                "repairs",
                "steps",
                "stops",
                "rows",
                "robust",
                "choices",
            )
        },
    }


def _cautions(language: str) -> list[Caution]:
    return [
        Caution(
            f"deck:{name}",
            signal,
            say(f"signal.{signal}", language),
            **{
                piece: say(f"deck.caution.{name}.{piece}", language)
                for piece in ("hazard", "consequence", "avoid")
            },
        )
        for name, signal in CAUTIONS
    ]


def _not_planned(refused: FaultyInput, language: str) -> dict[str, Any]:
    return _empty(language) | {
        "headline": [say("deck.not_planned", language)],
        "faults": [str(fault) for fault in refused.faults],
        "not_checked": f"{say('not_checked.load', language)}.",
    }


def data_of_plan(found: DeckAnswer, briefing: Briefing) -> dict[str, Any]:
    """Return the page of an answer as data."""
    language, system = briefing.language, briefing.units
    teller = Teller(found, language, system)
    told = teller.told()
    pictures = loading_pictures(found, language) if told.steps else []
    return _empty(language) | {
        "headline": list(told.headline),
        "is_plan": told.is_plan,
        "conflict": [line.removeprefix("- ") for line in told.conflict],
        "repairs": list(told.repairs),
        "drawing": asdict(deck_drawing(found, language, system)) if told.places else None,
        "begin": told.steps[0] if told.steps else "",
        "end": told.steps[-1] if told.steps else "",
        "steps": [
            {"text": text.partition(". ")[2], "picture": asdict(picture)}
            for text, picture in zip(told.steps[1:-1], pictures, strict=True)
        ],
        "stops": list(told.stops),
        "rows": _rows(found, teller, language),
        "ample": _ample(found, teller, language),
        "robust": list(told.robust),
        "choices": list(told.choices),
        "not_checked": " · ".join(told.not_checked) + ".",
    }


def _rows(found: DeckAnswer, teller: Teller, language: str) -> list[dict[str, Any]]:
    rows = []
    for finding, line in zip(found.findings, teller.told().findings, strict=True):
        if _has_ample(finding):
            continue
        bar = margin_bar(
            finding.verdict,
            language,
            demand=finding.demand,
            most=finding.limit.most,
            least=finding.limit.least,
        )
        rows.append(
            {
                "name": line.name,
                "demand": asdict(line.demand) if line.demand is not None else {"number": "?", "unit": ""},
                "bar": asdict(bar),
                "verdict": line.verdict,
                "word": line.word,
                "margin": line.margin,
                "notes": list(line.notes),
            }
        )
    return rows


def _has_ample(finding: Finding) -> bool:
    """Whether so much of a limit is left that its name is enough."""
    return finding.verdict == "within" and not finding.is_window and (finding.share_left or 0.0) > AMPLE


def _ample(found: DeckAnswer, teller: Teller, language: str) -> str:
    rows = zip(found.findings, teller.told().findings, strict=True)
    names = [line.name for finding, line in rows if _has_ample(finding)]
    return say("deck.ample", language, names=" · ".join(names)) if names else ""
