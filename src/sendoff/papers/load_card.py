"""The load card on one page: how much, where its middle must stand, what comes first, what was not checked."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing, Caution
from sendoff.catalogue.fields import SignalWord
from sendoff.catalogue.load import Catalogue
from sendoff.display import show
from sendoff.drawings.load_bands import BandGroup, BandRow, load_bands
from sendoff.drawings.views import Views
from sendoff.findings.all_limits import truck_of
from sendoff.findings.load_card import Allowed, LoadCard, ToldAllowed, load_card, tell_card
from sendoff.papers import typeset
from sendoff.papers.booklet import frame_of
from sendoff.papers.stations import caution_groups
from sendoff.phrases import say
from sendoff.units import System

CAUTIONS: Final[tuple[tuple[str, SignalWord], ...]] = (("sway", "danger"), ("smallest", "warning"))
"""Cautions of every load card (phrases `load_card.…`), gravest first."""


def load_card_paper(
    unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, day: datetime.date
) -> bytes | None:
    """Return load-card.pdf; None where the plate tells no weights."""
    card = load_card(unit, truck_of(unit, catalogue))
    if card is None:
        return None
    return typeset.pdf("load_card.typ", data_of_card(card, unit, briefing, catalogue, day), day)


def data_of_card(
    card: LoadCard, unit: AsBuiltUnit, briefing: Briefing, catalogue: Catalogue, day: datetime.date
) -> dict[str, Any]:
    """Return the page as data."""
    language, system = briefing.language, briefing.units
    told = tell_card(card, language, system)
    groups = tuple(_groups(card, told.allowed))
    drawing = None
    if groups:
        deck = (card.deck_front_x_m, card.deck_rear_x_m)
        drawing = asdict(load_bands(Views(unit), groups, deck, language, system))
    most = [one.most_kg for one in (card.alone, card.with_truck) if one is not None]
    page = {
        "title": told.title,
        "lead": say("load_card.lead", language),
        "allowed": [
            _allowed(found, kg, language, system) for found, kg in zip(told.allowed, most, strict=True)
        ],
        "facts": _facts(card, told.empty, language, system),
        "bands_title": say("load_card.bands", language),
        "bands_lead": say("load_card.bands_lead", language),
        "drawing": drawing,
        "before": say("load_card.before", language),
        "remarks": list(told.remarks),
        "cautions": caution_groups([_caution(name, signal, language) for name, signal in CAUTIONS]),
        "not_checked": " · ".join(told.not_checked) + ".",
        "authority": told.authority,
    }
    return frame_of(unit, briefing, catalogue, day, told.title) | {"card": page}


def _allowed(found: ToldAllowed, kg: float, language: str, system: System) -> dict[str, Any]:
    most = show("mass", kg, system, "capacity")
    return {
        "title": found.title,
        "most": asdict(most) if kg > 0 else {"number": say("load_card.nothing", language), "unit": ""},
        "first": say("load_card.first", language, names=found.first),
        "remarks": list(found.remarks),
    }


def _facts(card: LoadCard, empty: str, language: str, system: System) -> list[str]:
    least, most = (show("ratio", share, system) for share in card.share)
    gross = show("mass", card.gross_kg, system, "capacity")
    return [
        empty,
        say("load_card.gross", language, mass=gross),
        say("load_card.share", language, least=least, most=most),
    ]


def _groups(card: LoadCard, told: tuple[ToldAllowed, ...]) -> Iterator[BandGroup]:
    """Yield the bands with their figures; the trailer's own are left out where the truck's are the same."""
    found = [one for one in (card.alone, card.with_truck) if one is not None]
    same = len(found) == 2 and found[0].bands == found[1].bands
    for allowed, words in list(zip(found, told, strict=True))[1 if same else 0 :]:
        rows = tuple(_rows(allowed, words))
        if rows:
            yield BandGroup(words.title, rows)


def _rows(allowed: Allowed, words: ToldAllowed) -> Iterator[BandRow]:
    for band, (load, front, rear) in zip(allowed.bands, words.bands, strict=True):
        yield BandRow(band.window.front_x_m, band.window.rear_x_m, load, front, rear)


def _caution(name: str, signal: SignalWord, language: str) -> Caution:
    told = {piece: say(f"load_card.{name}.{piece}", language) for piece in ("hazard", "consequence", "avoid")}
    return Caution(f"load_card:{name}", signal, say(f"signal.{signal}", language), **told)
