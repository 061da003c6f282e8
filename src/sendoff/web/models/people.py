"""People, their roles and sites; invitations, shifts, and guesses at passwords."""

from __future__ import annotations

from typing import Any, ClassVar, Final

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models

ROLES: Final = ("yard_hand", "representative", "engineer", "office")
LANGUAGES: Final = ("en", "es")


def one_of(*names: str) -> list[tuple[str, str]]:
    """Return choices whose words come from the phrases."""
    return [(name, name) for name in names]


class Site(models.Model):
    """A place of the yard: its name, time zone and telephone."""

    name = models.CharField(max_length=80, unique=True)
    zone = models.CharField(max_length=64)
    telephone = models.CharField(max_length=40)

    def __str__(self) -> str:
        return self.name


class PersonManager(BaseUserManager["Person"]):
    """Makes people; nobody is made without a role."""

    def make(self, login: str, name: str, role: str, password: str | None, **more: Any) -> Person:
        """Return a new person with a hashed password."""
        person = self.model(login=login.strip().lower(), name=name.strip(), role=role, **more)
        person.set_password(password)
        person.save(using=self._db)
        return person


class Person(AbstractBaseUser):
    """Somebody who works here."""

    login = models.CharField(max_length=80, unique=True)
    name = models.CharField(max_length=80)
    role = models.CharField(max_length=20, choices=one_of(*ROLES))
    sites = models.ManyToManyField(Site, related_name="people")
    language = models.CharField(max_length=2, choices=one_of(*LANGUAGES), default="en")
    units = models.CharField(max_length=6, choices=one_of("us", "metric"), default="us")
    dark = models.BooleanField(default=False)
    is_active = models.BooleanField(default=True)
    totp_secret = models.CharField(max_length=64, blank=True, default="")
    """Empty until the second factor is set up."""
    totp_last_step = models.BigIntegerField(default=0)
    """The last time step whose code was taken, so that no code is taken twice."""
    recovery = models.JSONField(default=list)
    """Hashes of the recovery codes not yet used."""

    objects: ClassVar[PersonManager] = PersonManager()
    USERNAME_FIELD = "login"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["name", "role"]

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=models.Q(role__in=ROLES), name="person_has_a_known_role"),
        ]

    def __str__(self) -> str:
        return self.name


class Invitation(models.Model):
    """A letter that lets one person in once; only a digest of its token is kept."""

    digest = models.CharField(max_length=64, unique=True)
    name = models.CharField(max_length=80)
    login = models.CharField(max_length=80)
    role = models.CharField(max_length=20, choices=one_of(*ROLES))
    language = models.CharField(max_length=2, choices=one_of(*LANGUAGES), default="en")
    site = models.ForeignKey(Site, on_delete=models.PROTECT)
    by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True)
    ends = models.DateTimeField()
    used = models.DateTimeField(null=True)


class Shift(models.Model):
    """From the second factor until the shift ends: the PIN that stands for it on this phone meanwhile."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE)
    session = models.CharField(max_length=64, unique=True)
    pin = models.CharField(max_length=128)
    """Hashed."""
    ends = models.DateTimeField()
    wrong = models.PositiveSmallIntegerField(default=0)


class Guess(models.Model):
    """Wrong tries at one door by one name or from one place."""

    key = models.CharField(max_length=120, unique=True)
    count = models.PositiveIntegerField(default=0)
    since = models.DateTimeField()
    locked_until = models.DateTimeField(null=True)
