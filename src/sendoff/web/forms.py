"""Reading what a page sent: each field by its name, each bounded; nothing that was not asked for is looked at."""

from __future__ import annotations

import datetime
import unicodedata
import uuid
from collections.abc import Collection
from typing import Any

from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest
from django.utils import timezone

from sendoff.errors import Fault, FaultyInput
from sendoff.web.models import Person
from sendoff.web.services.writing import Told

LONGEST = 600
_BIDI = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class Sent:
    """The fields of one form; whatever is wrong is collected and told together (keys below `web.refused`)."""

    def __init__(self, request: HttpRequest) -> None:
        self._fields = request.POST
        self._files = request.FILES
        self.faults: list[Fault] = []

    def refuse(self, field: str, why: str) -> None:
        """Remember that a field cannot be used."""
        self.faults.append(Fault("", field, "", why, ""))

    def text(self, field: str, longest: int = LONGEST, *, needed: bool = False, lines: bool = False) -> str:
        """Return a text without control and direction signs."""
        given = self._fields.get(field, "")
        kept = "".join(
            sign
            for sign in given
            if sign not in _BIDI and (unicodedata.category(sign)[0] != "C" or (lines and sign == "\n"))
        ).strip()
        if len(kept) > longest:
            self.refuse(field, "too_long")
            return ""
        if needed and not kept:
            self.refuse(field, "needed")
        return kept

    def choice(self, field: str, among: Collection[str], *, otherwise: str | None = None) -> str:
        """Return one of the choices."""
        given = self._fields.get(field, "")
        if given in among:
            return given
        if otherwise is not None and not given:
            return otherwise
        self.refuse(field, "no_choice")
        return ""

    def number(self, field: str, least: int, most: int) -> int:
        """Return a whole number."""
        given = self._fields.get(field, "").strip()
        if not (given.isascii() and given.isdecimal() and len(given) < 10 and least <= int(given) <= most):
            self.refuse(field, "no_number")
            return least
        return int(given)

    def yes(self, field: str) -> bool:
        """Return whether a box is ticked."""
        return self._fields.get(field, "") == "yes"

    def day(self, field: str) -> datetime.date | None:
        """Return a day, or None where none is given."""
        given = self._fields.get(field, "").strip()
        if not given:
            return None
        try:
            return datetime.date.fromisoformat(given)
        except ValueError:
            self.refuse(field, "no_day")
            return None

    def photo(self, field: str = "photo") -> UploadedFile[Any] | None:
        """Return the photo that was sent along, or None."""
        found = self._files.get(field)
        return found if isinstance(found, UploadedFile) and found.size else None

    def identity(self, field: str) -> uuid.UUID | None:
        """Return an id made elsewhere, or None."""
        try:
            return uuid.UUID(self._fields.get(field, ""))
        except ValueError:
            return None

    def told(self, person: Person) -> Told:
        """Return how the act reached us: its id as made on the page, and the clock of where it was done."""
        act = self.identity("act")
        if act is None:
            self.refuse("act", "no_act")
            act = uuid.uuid4()
        now = timezone.now()
        taken, offset = now, 0
        try:
            taken = datetime.datetime.fromtimestamp(int(self._fields["taken_at"]) / 1000, datetime.UTC)
            offset = max(-1440, min(1440, int(self._fields["offset_min"])))
        except (KeyError, ValueError, OverflowError, OSError):
            pass
        if taken > now + datetime.timedelta(minutes=5):
            taken = now  # a phone's clock may be wrong; nothing was read in the future
        return Told(act, person, taken, offset)

    def done(self) -> None:
        """Refuse the form if anything was wrong in it."""
        if self.faults:
            raise FaultyInput(self.faults)
