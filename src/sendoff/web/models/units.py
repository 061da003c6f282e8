"""Units, the versions of their build sheets, and stored files."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django.db import models

from sendoff.web.models.people import Person, Site, one_of


class Unit(models.Model):
    """One unit in the yard; what its pages show most is kept ready in it."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="units")
    public_id = models.CharField(max_length=10, unique=True)
    number = models.CharField(max_length=60, unique=True)
    """The yard's own number for it."""
    vin = models.CharField(max_length=17, unique=True)
    type = models.CharField(max_length=48)
    owner = models.CharField(max_length=600)
    as_built = models.TextField()
    """unit.json"""
    digest = models.CharField(max_length=64)
    """SHA-256 of unit.json."""
    silhouette = models.TextField()
    """Small side view as SVG, at the one scale of all lists."""
    silhouette_mm = models.FloatField()
    leaves_on = models.DateField(null=True)
    collects = models.CharField(max_length=16)
    left_at = models.DateTimeField(null=True)
    found_by = models.TextField()
    """Everything it is searched by, in small letters."""
    waits_for = models.CharField(max_length=32, default="inspection")
    """Phrase key below `web.waits`."""
    waits_told = models.JSONField(default=dict)
    """Values for that phrase."""
    turn = models.CharField(max_length=20, default="yard_hand")
    """Whose turn it is: a role, or "nobody"."""
    chain_number = models.PositiveIntegerField(default=0)
    chain_digest = models.CharField(max_length=64)

    class Meta:
        indexes: ClassVar = [
            models.Index(fields=["site", "left_at", "leaves_on", "number"], name="unit_yard_order"),
        ]

    def __str__(self) -> str:
        return self.number


class UnitPart(models.Model):
    """A part at a place of a unit as it is now: for the question which units carry it."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="parts")
    slot = models.CharField(max_length=48)
    place = models.CharField(max_length=100)
    card = models.CharField(max_length=48)
    variant = models.CharField(max_length=60)
    marks = models.CharField(max_length=200, blank=True)
    """Serial, lot and tire number as they are on it."""

    class Meta:
        indexes: ClassVar = [models.Index(fields=["card", "unit"], name="part_carried")]


class SheetVersion(models.Model):
    """A build sheet as it was written, and why it was changed."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="sheets")
    act = models.UUIDField(unique=True, default=uuid.uuid4)
    number = models.PositiveIntegerField()
    text = models.TextField()
    as_built = models.TextField()
    digest = models.CharField(max_length=64)
    reason = models.TextField(blank=True)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True)
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "number"], name="one_sheet_a_number"),
        ]


class StoredFile(models.Model):
    """A photo or frozen document in the media folder, under the digest of its content."""

    digest = models.CharField(max_length=64)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="files")
    kind = models.CharField(max_length=20, choices=one_of("photo", "frozen"))
    size = models.PositiveIntegerField()
    width = models.PositiveIntegerField(default=0)
    height = models.PositiveIntegerField(default=0)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True)
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "digest"], name="one_file_a_unit"),
        ]
