"""What comes before the gate: truck checks, load plans, briefing, facts of the office, the pass, what is owed."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django.db import models

from sendoff.web.models.people import Person, one_of
from sendoff.web.models.units import StoredFile, Unit


class TruckCheck(models.Model):
    """One truck held against one unit and its load."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="truck_checks")
    number = models.PositiveIntegerField()
    truck = models.JSONField()
    """As entered."""
    plate = models.CharField(max_length=20, blank=True)
    at_gate = models.BooleanField(default=False)
    verdict = models.CharField(max_length=8, choices=one_of("within", "tight", "over", "unknown"))
    found = models.JSONField(default=list)
    """Each limit as it was found then: id, demand, limit, verdict."""
    not_checked = models.JSONField(default=list)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "number"], name="one_truck_check_a_number"),
        ]


class LoadPlan(models.Model):
    """What stands where on the deck."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="load_plans")
    items = models.JSONField()
    answer = models.JSONField(default=dict)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()


class BriefingTick(models.Model):
    """A station explained, or a question answered, ticked by yard or reader."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="ticks")
    what = models.CharField(max_length=10, choices=one_of("station", "question", "sheet"))
    key = models.CharField(max_length=100)
    whose = models.CharField(max_length=8, choices=one_of("yard", "owner", "driver"))
    right = models.BooleanField(default=True)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        indexes: ClassVar = [models.Index(fields=["unit", "what", "key"], name="tick_of")]


class GateFact(models.Model):
    """A fact somebody gives for a line of the gate pass: paid, recall asked, tag fitted; the newest counts."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="facts")
    line = models.CharField(max_length=40)
    answer = models.CharField(max_length=8, choices=one_of("yes", "no", "over"))
    """over: an engineer passed over the line."""
    told = models.JSONField(default=dict)
    photo = models.ForeignKey(StoredFile, on_delete=models.PROTECT, null=True)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        indexes: ClassVar = [models.Index(fields=["unit", "line", "-at"], name="fact_newest")]


class GatePass(models.Model):
    """The yard's word that a unit may leave: with whom, for what, every line as it stood."""

    act = models.UUIDField(primary_key=True, default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="passes")
    number = models.PositiveIntegerField()
    rules = models.CharField(max_length=20)
    lines = models.JSONField()
    passed_over = models.JSONField(default=list)
    """Lines an engineer passed over, each with the reason; marked for good."""
    frozen = models.ForeignKey(StoredFile, on_delete=models.PROTECT)
    """Unit, briefing and texts as they were, under their digest."""
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    good_until = models.DateTimeField()
    taken_back = models.DateTimeField(null=True)
    left_at = models.DateTimeField(null=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "number"], name="one_pass_a_number"),
        ]


class Debt(models.Model):
    """Something owed after the unit has left: a re-torque, a call, a question; by whom, and when."""

    act = models.UUIDField(default=uuid.uuid4)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="debts")
    kind = models.CharField(max_length=20, choices=one_of("retorque", "call", "question"))
    key = models.CharField(max_length=100)
    who = models.CharField(max_length=20, choices=one_of("driver", "owner", "office"))
    at_miles = models.PositiveIntegerField(null=True)
    due_on = models.DateField(null=True)
    done_act = models.UUIDField(null=True)
    done_at = models.DateTimeField(null=True)
    told = models.TextField(blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["unit", "kind", "key", "at_miles"], name="one_debt_a_kind"),
        ]
        indexes: ClassVar = [models.Index(fields=["done_at", "due_on"], name="debt_open")]
