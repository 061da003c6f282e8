"""How the person before the screen reads: language, units, dark or light, and the time zone of the site."""

from __future__ import annotations

import zoneinfo
from dataclasses import dataclass
from typing import Final

from django.http import HttpRequest

from sendoff.phrases import LANGUAGES
from sendoff.units import System
from sendoff.web.models import Person
from sendoff.web.stock import Language


@dataclass(frozen=True, slots=True)
class Reader:
    """How the person before the screen reads: language, units, dark or light, and the time zone of the site."""

    language: Language
    units: System
    dark: bool
    zone: zoneinfo.ZoneInfo


_ZONES: Final[dict[str, zoneinfo.ZoneInfo]] = {}


def zone_named(name: str) -> zoneinfo.ZoneInfo:
    """Return a time zone; UTC where its name is not known."""
    if name not in _ZONES:
        try:
            _ZONES[name] = zoneinfo.ZoneInfo(name)
        except (zoneinfo.ZoneInfoNotFoundError, ValueError):
            _ZONES[name] = zoneinfo.ZoneInfo("UTC")
    return _ZONES[name]


LANGUAGE_COOKIE: Final = "sendoff-language"


def _language_asked(request: HttpRequest) -> Language:
    asked = request.COOKIES.get(LANGUAGE_COOKIE, "")
    if asked not in LANGUAGES:
        wanted = [
            piece.strip()[:2].lower() for piece in request.headers.get("Accept-Language", "").split(",")
        ]
        asked = next((code for code in wanted if code in LANGUAGES), "en")
    return "es" if asked == "es" else "en"


def reader_of(request: HttpRequest) -> Reader:
    """Return how the person before the screen reads."""
    found: Reader | None = getattr(request, "reader", None)
    if found is None:
        user = getattr(request, "user", None)
        if isinstance(user, Person):
            language: Language = "es" if user.language == "es" else "en"
            units: System = "metric" if user.units == "metric" else "us"
            zone = request.session.get("zone", "UTC")
            found = Reader(language, units, user.dark, zone_named(zone))
        else:
            found = Reader(_language_asked(request), "us", dark=False, zone=zone_named("UTC"))
        request.reader = found  # type: ignore[attr-defined]
    return found
