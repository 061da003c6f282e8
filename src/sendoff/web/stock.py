"""What the yard's catalogue says of a unit, kept ready: as-built units, briefings, checks, drawings, findings."""

from __future__ import annotations

import datetime
import threading
import time
from functools import lru_cache
from typing import Final, Literal, cast

from django.conf import settings as django_settings

from sendoff.asbuilt.unit import AsBuiltUnit, from_json
from sendoff.briefing.brief import brief
from sendoff.briefing.inspection import PlannedCheck, planned
from sendoff.briefing.model import Briefing
from sendoff.catalogue.load import Catalogue, load
from sendoff.drawings.margins import margin_bar
from sendoff.drawings.of_unit import UnitDrawings
from sendoff.drawings.screen import ScreenMap
from sendoff.drawings.svg import Drawing
from sendoff.drawings.views import Views
from sendoff.findings.all_limits import all_findings
from sendoff.findings.model import Finding
from sendoff.findings.telling import Told, tell
from sendoff.settings import Settings
from sendoff.units import System
from sendoff.web.models import Unit

Language = Literal["en", "es"]
LOOKS_AGAIN_S: Final = 5.0


def yard_settings() -> Settings:
    """Return the settings of this yard's server."""
    return django_settings.YARD


class _Shelf:
    """Holds the catalogue, and loads it anew when one of its files has changed."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._loaded: Catalogue | None = None
        self._state: tuple[int, float] = (0, 0.0)
        self._looked = 0.0
        self.edition = 0

    def get(self) -> Catalogue:
        with self._lock:
            if self._loaded is None or time.monotonic() - self._looked > LOOKS_AGAIN_S:
                self._look()
            return cast("Catalogue", self._loaded)

    def _look(self) -> None:
        folder = yard_settings().catalogue
        times = [path.stat().st_mtime for path in folder.rglob("*.toml")]
        state = (len(times), max(times, default=0.0))
        if self._loaded is None or state != self._state:
            self._loaded, self._state = load(folder), state
            self.edition += 1
        self._looked = time.monotonic()

    def forget(self) -> None:
        """Load the catalogue anew when it is next asked for."""
        with self._lock:
            self._loaded = None


SHELF: Final = _Shelf()


def catalogue() -> Catalogue:
    """Return the yard's catalogue as its files now stand (looked at every few seconds)."""
    return SHELF.get()


@lru_cache(maxsize=512)
def _built(digest: str, text: str) -> AsBuiltUnit:
    return from_json(text.encode())


def built(unit: Unit) -> AsBuiltUnit:
    """Return the as-built unit of a row."""
    return _built(unit.digest, unit.as_built)


@lru_cache(maxsize=256)
def _briefing(digest: str, text: str, edition: int, language: Language, system: System) -> Briefing:
    return brief(_built(digest, text), catalogue(), language, system)


def briefing(unit: Unit, language: Language, system: System) -> Briefing:
    """Return the briefing of a unit in a person's language and units."""
    catalogue()
    return _briefing(unit.digest, unit.as_built, SHELF.edition, language, system)


@lru_cache(maxsize=512)
def _planned(digest: str, text: str, edition: int) -> tuple[PlannedCheck, ...]:
    return planned(_built(digest, text), catalogue())


def checks(unit: Unit) -> tuple[PlannedCheck, ...]:
    """Return every check of a unit, those of the first miles too."""
    catalogue()
    return _planned(unit.digest, unit.as_built, SHELF.edition)


@lru_cache(maxsize=128)
def _drawings(digest: str, text: str, language: Language, system: System) -> UnitDrawings:
    return UnitDrawings(_built(digest, text), language, system)


def drawings(unit: Unit, language: Language, system: System) -> UnitDrawings:
    """Return the drawings of a unit."""
    return _drawings(unit.digest, unit.as_built, language, system)


@lru_cache(maxsize=128)
def _screen_map(digest: str, text: str, width_mm: float) -> ScreenMap:
    return ScreenMap(Views(_built(digest, text)), width_mm)


def screen_map(unit: Unit, width_mm: float) -> ScreenMap:
    """Return the plan of a unit for a screen, with where its stations stand worked out."""
    return _screen_map(unit.digest, unit.as_built, width_mm)


@lru_cache(maxsize=256)
def _told_findings(
    digest: str, text: str, edition: int, day: datetime.date, language: Language, system: System
) -> tuple[tuple[Told, Drawing], ...]:
    return tuple(
        (
            tell(one, language, system),
            margin_bar(one.verdict, language, demand=one.demand, most=one.limit.most, least=one.limit.least),
        )
        for one in _findings(digest, text, edition, day)
    )


def told_findings(
    unit: Unit, day: datetime.date, language: Language, system: System
) -> tuple[tuple[Told, Drawing], ...]:
    """Return the findings of a unit in words, each with its bar."""
    catalogue()
    return _told_findings(unit.digest, unit.as_built, SHELF.edition, day, language, system)


@lru_cache(maxsize=256)
def _findings(digest: str, text: str, edition: int, day: datetime.date) -> tuple[Finding, ...]:
    return all_findings(_built(digest, text), catalogue(), day)


def findings(unit: Unit, day: datetime.date) -> tuple[Finding, ...]:
    """Return the findings of a unit, with the truck and cargo its sheet names."""
    catalogue()
    return _findings(unit.digest, unit.as_built, SHELF.edition, day)
