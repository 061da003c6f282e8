"""The demo yard: an example's units with people, tools, and inspections part-way. Everybody in it is invented."""

from __future__ import annotations

import datetime
import secrets
import shutil
import uuid
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from sendoff import display
from sendoff.errors import Fault, FaultyInput
from sendoff.web import yards

if TYPE_CHECKING:
    from sendoff.briefing.inspection import PlannedCheck
    from sendoff.web.models import Person, Site, Tool, Unit

Say = Callable[[str], object]
PASSWORD: Final = "quillback demo yard"  # noqa: S105 (the demo's own, printed for whoever tries it)
PEOPLE: Final = (
    ("rosa", "R. Quintero", "yard_hand", "es"),
    ("del", "D. Hartwig", "yard_hand", "en"),
    ("june", "J. Okafor", "representative", "en"),
    ("sam", "S. Lindqvist", "engineer", "en"),
    ("pat", "P. Moreno", "office", "es"),
)
COPIED: Final = ("catalogue", "trucks", "cargo", "sheets", "yard.toml")
VALUES: Final = {"length": "1/8 in", "voltage": "12.6 V", "temperature": "70 degF", "resistance": "0.1 ohm"}
"""What is read where the card gives no number."""


def _plain_reading(quantity: str) -> str:
    """Return a reading of any kind of quantity, with its unit."""
    unit = display.unit_for(quantity, 1.0, "us") if quantity != "count" else ""
    return VALUES.get(quantity, f"1 {unit}".strip())


def make(folder: Path, example: Path, say: Say) -> None:
    """Make the demo yard; one that is there already is left as it is."""
    if not (example / "catalogue").is_dir():
        raise FaultyInput(Fault(str(example), "", "", "there is no example yard", "Name examples/quillback."))
    folder.mkdir(parents=True, exist_ok=True)
    for name in COPIED:
        if (example / name).is_dir() and not (folder / name).exists():
            shutil.copytree(example / name, folder / name)
        elif (example / name).is_file() and not (folder / name).exists():
            shutil.copy(example / name, folder / name)
    yards.lay_out(folder)
    yards.prepare(folder)
    yards.migrate()
    from django.db import transaction

    from sendoff.web.models import Person

    codes: Sequence[str] = ()
    if not Person.objects.exists():
        with transaction.atomic():  # whole or not at all, and one flush to the disk instead of hundreds
            codes = _Demo(folder).fill(say)
    say(f"The demo yard stands in {folder}. Everybody signs in with the password: {PASSWORD}")
    for login, name, role, _ in PEOPLE:
        say(f"  {login:<6}{name}, {role.replace('_', ' ')}")
    if codes:
        say("june and sam sign gate passes, so they are asked for a code too. Each of these works once:")
        say("  " + "  ".join(codes))


@dataclass
class _Demo:
    folder: Path

    def fill(self, say: Say) -> Sequence[str]:
        """Write people, tools, units and what was done to them; return codes for the second step."""
        from sendoff.catalogue.load import load
        from sendoff.web.models import Site
        from sendoff.web.services import units

        yard = load(self.folder / "catalogue").yard
        site = Site.objects.create(
            name=str(yard.address[-1]), zone=str(yard.zone), telephone=str(yard.telephone)
        )
        people, codes = self._people(site)
        tools = self._tools(site)
        rows = [
            units.add(site, path.read_text(encoding="utf-8"), path.name, people["june"])
            for path in sorted((self.folder / "sheets").glob("*.toml"))
        ]
        shares = (0.45, 0.0, 1.0, 0.12)
        for number, unit in enumerate(rows):
            _Hand(unit, people, tools).inspect(shares[number % len(shares)], odd=number % 4 in {0, 3})
        say(f"{len(rows)} units taken in")
        return codes

    def _people(self, site: Site) -> tuple[dict[str, Person], list[str]]:
        import hashlib

        from sendoff.web.models import Person
        from sendoff.web.services.people import new_secret

        codes = [f"{secrets.token_hex(3)}-{secrets.token_hex(3)}" for _ in range(10)]
        people = {}
        for login, name, role, language in PEOPLE:
            person = Person.objects.make(login, name, role, PASSWORD, language=language)
            person.sites.add(site)
            if role in {"representative", "engineer"}:
                person.totp_secret = new_secret()
                person.recovery = [hashlib.sha256(code.encode()).hexdigest() for code in codes]
                person.save()
            people[login] = person
        return people, codes

    def _tools(self, site: Site) -> dict[str, Tool]:
        from sendoff.web.services import tools

        today = datetime.datetime.now(tz=datetime.UTC).date()
        letters = {"tire_gauge": "G", "torque_wrench": "W"}
        kept = {}
        for number, kind in enumerate(tools.KINDS, start=1):
            code = f"{letters.get(kind, 'T')}-{number:02d}"
            kept[kind] = tools.keep(site, code, kind, today + datetime.timedelta(days=200))
        tools.keep(site, "W-99", "torque_wrench", today - datetime.timedelta(days=12))
        return kept


@dataclass
class _Hand:
    """Does an inspection in the order of the walk."""

    unit: Unit
    people: dict[str, Person]
    tools: dict[str, Tool]

    def inspect(self, share: float, *, odd: bool) -> None:
        """Answer a share of all checks; with something odd, one is out of tolerance and one is read by two."""
        from sendoff.briefing.inspection import AFTER_LEAVING
        from sendoff.web import stock

        asked = [check for check in stock.checks(self.unit) if check.state not in AFTER_LEAVING]
        doing = asked[: round(len(asked) * share)]
        for check in doing:
            self._answer(check, self.people["rosa"])
        measured = [check for check in doing if check.least_si is not None and check.tool in self.tools]
        if odd and measured:
            self._answer(measured[-1], self.people["del"], low=True)
        if odd and len(measured) > 1:
            self._find_and_mend(measured[0])

    def _answer(self, check: PlannedCheck, by: Person, *, low: bool = False) -> None:
        from sendoff.web.services.readings import Answer, read
        from sendoff.web.services.writing import Told

        given = ""
        if check.how == "measured" and check.quantity is not None:
            given = check.target_given or _plain_reading(check.quantity)
            if low and check.least_si is not None:
                from sendoff import units

                unit = units.Quantity(check.quantity, given, 0.0).unit
                given = f"{units.from_si(check.least_si * 0.9, unit, check.quantity):.0f} {unit}"
        now = datetime.datetime.now(tz=datetime.UTC)
        answer = Answer(
            outcome="in_order", given=given, tool=self.tools.get(check.tool or ""),
            second=self.people["del"] if check.hands == 2 and by.login != "del" else None,
        )  # fmt: skip
        read(self.unit, check, answer, Told(uuid.uuid4(), by, now, -360), now.date())

    def _find_and_mend(self, check: PlannedCheck) -> None:
        from sendoff.web import stock
        from sendoff.web.services import put_right
        from sendoff.web.services.writing import told_now

        station = stock.built(self.unit).stations[check.station - 1].id
        found = put_right.Found(
            kind="scratch_primer",
            station=station,
            what="Scratch behind the jack",
            size="3 in",
            whose="haulaway",
        )
        put_right.find(self.unit, found, told_now(self.people["rosa"]))
        item = self.unit.put_right.order_by("-number").first()
        if item is not None:
            put_right.step(item, "put_right", "Primed and painted", told_now(self.people["del"]))
