"""The books in the database: the links of each unit's chain, the yard's checkpoints, and values that can be erased."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django.db import models

from sendoff import books
from sendoff.web.models.people import Person
from sendoff.web.models.units import Unit


class Link(models.Model):
    """One act in the chain of a unit. The id was made where the act happened, so that nothing is written twice."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="links")
    number = models.PositiveIntegerField()
    kind = models.CharField(max_length=40)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, null=True)
    received_at = models.DateTimeField()
    body = models.TextField()
    """Canonical JSON of what the act says."""
    previous = models.CharField(max_length=64)
    digest = models.CharField(max_length=64)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "number"], name="one_link_a_number"),
            models.UniqueConstraint(fields=["unit", "previous"], name="no_link_forks_a_chain"),
        ]
        indexes: ClassVar = [models.Index(fields=["unit", "-number"], name="link_newest")]

    def entry(self) -> books.Entry:
        """Return the link as the books know it."""
        return books.Entry(self.number, self.previous, self.body, self.digest)


class Checkpoint(models.Model):
    """All heads of the yard at one moment."""

    number = models.PositiveIntegerField(unique=True)
    at = models.CharField(max_length=40)
    previous = models.CharField(max_length=64, blank=True)
    heads = models.JSONField()
    digest = models.CharField(max_length=64)

    def sealed(self) -> books.Checkpoint:
        """Return the checkpoint as the books know it."""
        heads = {chain: (int(number), str(digest)) for chain, (number, digest) in self.heads.items()}
        return books.Checkpoint(self.number, self.at, self.previous, heads, self.digest)


class PersonalValue(models.Model):
    """A value about a person that the chain only commits to. Erasing empties salt and value; the chain still holds."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="personal")
    act = models.UUIDField()
    field = models.CharField(max_length=40)
    digest = models.CharField(max_length=64)
    salt = models.CharField(max_length=64, blank=True)
    value = models.TextField(blank=True)
    erased_at = models.DateTimeField(null=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["act", "field"], name="one_personal_value_a_field"),
        ]
