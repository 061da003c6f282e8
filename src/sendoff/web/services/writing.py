"""One act, one transaction: the row it writes, its link in the unit's chain, and what the unit now waits for.

The id of an act is made where the act happens. The same act sent twice, because an answer was lost on its way, is
written once: the second time its first link is found. Two writers of one unit come one after the other.
"""

from __future__ import annotations

import datetime
import uuid
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from django.db import transaction
from django.utils import timezone

from sendoff import books
from sendoff.errors import SendoffError
from sendoff.web.models import Link, Person, PersonalValue, Unit


class AlreadyWritten(Exception):
    """The act stands in the books already; leaves the transaction without a trace."""


class NotYours(SendoffError):
    """An act's id was used for something else before."""


@dataclass(frozen=True, slots=True)
class Told:
    """How an act reached us: its id, who did it, and the clock of where it was done."""

    act: uuid.UUID
    person: Person | None
    taken_at: datetime.datetime
    offset_min: int = 0


def told_now(person: Person | None, act: uuid.UUID | None = None) -> Told:
    """Return an act done here and now."""
    return Told(act or uuid.uuid4(), person, timezone.now())


@dataclass
class Book:
    """The open books of one unit, within a transaction."""

    unit: Unit
    head: books.Head
    at: datetime.datetime
    written: list[Link] = field(default_factory=list)

    def write(
        self, kind: str, told: Told, facts: Mapping[str, Any], personal: Mapping[str, str] | None = None
    ) -> Link:
        """Write one act; values about people are committed to, and kept where they can be erased."""
        said: dict[str, Any] = {
            "act": str(told.act),
            "kind": kind,
            "person": told.person.pk if told.person is not None else None,
            "taken_at": stamp(told.taken_at),
            "offset_min": told.offset_min,
            "received_at": stamp(self.at),
            "facts": dict(facts),
        }
        values = []
        for name, value in sorted((personal or {}).items()):
            made = books.commit(value)
            said.setdefault("personal", {})[name] = made.digest
            values.append(
                PersonalValue(
                    unit=self.unit,
                    act=told.act,
                    field=name,
                    digest=made.digest,
                    salt=made.salt,
                    value=made.value,
                )
            )
        entry, self.head = books.append(self.head, said)
        link = Link(
            act=told.act,
            unit=self.unit,
            number=entry.number,
            kind=kind,
            person=told.person,
            received_at=self.at,
            body=entry.body,
            previous=entry.previous,
            digest=entry.digest,
        )
        link.save(force_insert=True)
        if values:
            PersonalValue.objects.bulk_create(values)
        self.written.append(link)
        return link

    def once(self, told: Told, kind: str) -> None:
        """Leave when this act stands in the books already; refuse an id that stands there for something else."""
        found = Link.objects.filter(pk=told.act).first()
        if found is None:
            return
        person = told.person.pk if told.person is not None else None
        if (found.unit_id, found.kind, found.person_id) == (self.unit.pk, kind, person):
            raise AlreadyWritten
        raise NotYours("That act's id stands in the books for something else. Open the page again.")


def stamp(moment: datetime.datetime) -> str:
    """Return a moment as the books write it: UTC, to the microsecond."""
    return moment.astimezone(datetime.UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")


@contextmanager
def open_books(unit: Unit) -> Iterator[Book]:
    """Open the books of a unit for writing; whatever is written inside is kept whole or not at all."""
    from sendoff.web.services.waiting import refresh

    try:
        with transaction.atomic():
            locked = Unit.objects.select_for_update(of=("self",)).select_related("site").get(pk=unit.pk)
            head = books.Head(locked.public_id, locked.chain_number, locked.chain_digest)
            book = Book(locked, head, timezone.now())
            yield book
            if book.written:
                locked.chain_number, locked.chain_digest = book.head.number, book.head.digest
                refresh(locked)
                locked.save()
    except AlreadyWritten:
        return
