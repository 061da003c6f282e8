"""The cast of every test of the web application: two sites, one person of each role, two units of the demo yard."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from django.test import Client
from pytest_django import DjangoDbBlocker

from sendoff.web import stock
from sendoff.web.models import ROLES, Person, Site, Tool, Unit
from sendoff.web.services import units
from tests.web.config_for_tests import EXAMPLE

PASSWORD = "a long enough password"


@dataclass(frozen=True)
class Cast:
    """Who and what is there."""

    site: Site
    elsewhere: Site
    people: dict[str, Person]
    """By role; "second_hand" is another yard hand, "stranger" an engineer of the other site."""
    tilt: Unit
    utility: Unit
    tools: dict[str, Tool]

    def client(self, who: str) -> Client:
        """Return a browser in which somebody is signed in."""
        client = Client()
        client.force_login(self.people[who], backend="django.contrib.auth.backends.ModelBackend")
        session = client.session
        session["zone"] = "America/Chicago"
        session.save()
        return client


def sheet(name: str) -> str:
    """Return the text of a build sheet of the demo yard."""
    return (EXAMPLE / "sheets" / f"{name}.toml").read_text(encoding="utf-8")


def make_cast() -> None:
    """Write the cast into the books."""
    site = Site.objects.create(name="Tamarack Ferry", zone="America/Chicago", telephone="555-0142")
    elsewhere = Site.objects.create(name="Alder Flat", zone="America/Denver", telephone="555-0143")
    people = {role: Person.objects.make(role, f"A. {role.title()}", role, PASSWORD) for role in ROLES}
    people["second_hand"] = Person.objects.make("second", "B. Second", "yard_hand", PASSWORD)
    people["stranger"] = Person.objects.make("stranger", "S. Tranger", "engineer", PASSWORD)
    for who, person in people.items():
        person.sites.add(elsewhere if who == "stranger" else site)
    good = datetime.date(2099, 1, 1)
    for number, kind in enumerate(("tire_gauge", "torque_wrench", "tape_measure", "voltmeter"), start=1):
        Tool.objects.create(site=site, code=f"T-{number:02d}", kind=kind, good_until=good)
    units.add(site, sheet("qb-0107"), "qb-0107.toml", None)
    units.add(site, sheet("qb-0207"), "qb-0207.toml", None)


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> None:
    """Write the cast once; every test sees it and leaves no trace."""
    with django_db_blocker.unblock():
        stock.catalogue()
        make_cast()


@pytest.fixture
def cast(db: None) -> Cast:
    """Give the cast."""
    people = {person.login: person for person in Person.objects.all()}
    people["second_hand"] = people.pop("second")
    units_by_number = {unit.number: unit for unit in Unit.objects.select_related("site")}
    sites = {site.name: site for site in Site.objects.all()}
    return Cast(
        sites["Tamarack Ferry"], sites["Alder Flat"], people, units_by_number["QB-0107"], units_by_number["QB-0207"],
        {tool.kind: tool for tool in Tool.objects.all()},
    )  # fmt: skip


@pytest.fixture
def as_if(monkeypatch: pytest.MonkeyPatch) -> Callable[[datetime.datetime], None]:
    """Give a function that sets the clock of the web application."""

    def at(moment: datetime.datetime) -> None:
        monkeypatch.setattr("django.utils.timezone.now", lambda: moment)

    return at
