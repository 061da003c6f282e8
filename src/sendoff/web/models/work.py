"""What is done to a unit in the yard: readings with tools, what is put right, loose items counted."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django.db import models

from sendoff.web.models.people import Person, Site, one_of
from sendoff.web.models.units import StoredFile, Unit


class Tool(models.Model):
    """A tool with the day until which its calibration is good; none for a tool that needs none."""

    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="tools")
    code = models.CharField(max_length=20)
    kind = models.CharField(max_length=48)
    """Phrase key below `tool`."""
    good_until = models.DateField(null=True)
    away = models.BooleanField(default=False)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["site", "code"], name="one_tool_a_code"),
        ]

    def __str__(self) -> str:
        return self.code


OUTCOMES = ("in_order", "not_in_order", "skipped")


class Reading(models.Model):
    """One answer to one check at one place: what was entered stays as it was entered."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="readings")
    check_key = models.CharField(max_length=100)
    place = models.CharField(max_length=100, blank=True)
    outcome = models.CharField(max_length=12, choices=one_of(*OUTCOMES))
    given = models.CharField(max_length=40, blank=True)
    """As entered, with its unit."""
    quantity = models.CharField(max_length=24, blank=True)
    si = models.FloatField(null=True)
    least_si = models.FloatField(null=True)
    most_si = models.FloatField(null=True)
    first_given = models.CharField(max_length=40, blank=True)
    """What was read before it was measured again."""
    reason = models.TextField(blank=True)
    tool = models.ForeignKey(Tool, on_delete=models.PROTECT, null=True)
    photo = models.ForeignKey(StoredFile, on_delete=models.PROTECT, null=True)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    second = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, related_name="+")
    """The other one of a check by two."""
    taken_at = models.DateTimeField()
    """As the phone says."""
    offset_min = models.SmallIntegerField(default=0)
    received_at = models.DateTimeField()
    saw = models.UUIDField(null=True)
    """The reading its taker knew of; another newer one makes a conflict."""

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=~models.Q(outcome="skipped") | ~models.Q(reason=""), name="a_skip_has_its_reason"
            ),
            models.CheckConstraint(
                condition=models.Q(si__isnull=True) | ~models.Q(given=""), name="an_si_value_was_entered"
            ),
        ]
        indexes: ClassVar = [
            models.Index(fields=["unit", "check_key", "place", "-received_at"], name="reading_of_check"),
            models.Index(fields=["unit", "-received_at"], name="reading_newest"),
        ]


class CheckStanding(models.Model):
    """How one check of a unit stands now: its newest reading, and the other one while two disagree."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="standings")
    check_key = models.CharField(max_length=100)
    place = models.CharField(max_length=100, blank=True)
    reading = models.ForeignKey(Reading, on_delete=models.PROTECT, related_name="+")
    against = models.ForeignKey(Reading, on_delete=models.PROTECT, null=True, related_name="+")
    outcome = models.CharField(max_length=12, choices=one_of(*OUTCOMES))
    """The worse of the two while they disagree."""
    taken_at = models.DateTimeField()
    again = models.BooleanField(default=False)
    """Must be done again because the sheet changed."""

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "check_key", "place"], name="one_standing_a_check"),
        ]


PUT_RIGHT = ("found", "put_right", "checked", "waived")


class PutRightItem(models.Model):
    """Something found wrong, until it is put right and checked again by another look."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="put_right")
    number = models.PositiveIntegerField()
    station = models.CharField(max_length=48)
    slot = models.CharField(max_length=48, blank=True)
    place = models.CharField(max_length=100, blank=True)
    check_key = models.CharField(max_length=100, blank=True)
    kind = models.CharField(max_length=32)
    """From the list in data/web/put_right.toml."""
    what = models.TextField(blank=True)
    size = models.CharField(max_length=40, blank=True)
    whose = models.CharField(max_length=20)
    safety = models.BooleanField()
    status = models.CharField(max_length=12, choices=one_of(*PUT_RIGHT), default="found")
    found_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    put_right_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()
    photo = models.ForeignKey(StoredFile, on_delete=models.PROTECT, null=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "number"], name="one_item_a_number"),
            models.CheckConstraint(
                condition=~models.Q(status="waived", safety=True), name="a_safety_item_is_never_waived"
            ),
        ]
        indexes: ClassVar = [
            models.Index(fields=["unit", "status"], name="item_open"),
        ]


class PutRightStep(models.Model):
    """Found, put right, looked at again, waived: each by whom and when."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    item = models.ForeignKey(PutRightItem, on_delete=models.PROTECT, related_name="steps")
    kind = models.CharField(
        max_length=12, choices=one_of("found", "put_right", "checked", "not_yet", "waived")
    )
    note = models.TextField(blank=True)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    photo = models.ForeignKey(StoredFile, on_delete=models.PROTECT, null=True)


class LooseCount(models.Model):
    """How many of a loose item were counted when it was packed."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="loose")
    key = models.CharField(max_length=100)
    counted = models.PositiveIntegerField()
    expected = models.PositiveIntegerField()
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        indexes: ClassVar = [models.Index(fields=["unit", "key", "-at"], name="loose_newest")]
