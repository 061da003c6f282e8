"""The demo yard in a temporary folder, to be changed by a test, and parts put on or taken off a unit."""

from __future__ import annotations

import datetime
import shutil
from collections.abc import Iterable
from pathlib import Path

import msgspec

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Value, Why
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.load import load, read_file
from sendoff.findings.model import Finding
from sendoff.units import parse

QUILLBACK = Path(__file__).parents[2] / "examples" / "quillback"
DAY = datetime.date(2026, 11, 25)
LB = 0.45359237
LBF = LB * 9.80665
INCH = 0.0254
FOOT = 0.3048
AH = 3600.0


class DemoYard:
    """A copy of the demo yard."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "quillback"
        shutil.copytree(QUILLBACK, self.folder)
        self.catalogue = self.folder / "catalogue"

    def change(self, name: str, old: str, new: str) -> None:
        """Replace the first place where `old` stands in a file."""
        path = self.folder / name
        text = path.read_text(encoding="utf-8")
        assert old in text, f"{old!r} does not stand in {name}"
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    def sheet(self, unit: str) -> Path:
        """Return a build sheet's file."""
        return self.folder / "sheets" / f"{unit}.toml"

    def unit(self, unit: str) -> AsBuiltUnit:
        """Return a unit as it is built in this yard."""
        return as_built(self.sheet(unit), load(self.catalogue))

    def truck(self, name: str) -> Truck:
        """Return a truck of this yard."""
        return read_file(self.folder / "trucks" / f"{name}.toml", Truck)

    def cargo(self, text: str) -> Cargo:
        """Return a cargo of the items a test writes."""
        path = self.folder / "cargo" / "test_load.toml"
        path.write_text(
            f'schema = 1\nid = "test_load"\nsources = ["invented:test"]\n{text}', encoding="utf-8"
        )
        return read_file(path, Cargo)


def by_id(found: Iterable[Finding]) -> dict[str, Finding]:
    """Return findings by their ids, none of which may stand twice."""
    listed = list(found)
    named = {finding.id: finding for finding in listed}
    assert len(named) == len(listed), sorted(finding.id for finding in listed)
    return named


def value(given: str, quantity: str) -> Value:
    """Return a value as a card's."""
    return Value(given=given, quantity=quantity, si=parse(given, quantity).si)


def changed(unit: AsBuiltUnit, slot: str, **values: str) -> AsBuiltUnit:
    """Return a unit with other values on one of its parts: name="9,500 lbf"; the kind is told by the unit written."""
    kinds = {"lbf": "force", "lb": "mass", "kg": "mass", "A": "current", "V": "voltage", "in": "length",
             "psi": "pressure", "Ah": "charge", "h": "duration", "s": "duration", "ft": "length",
             "lbf·ft": "torque"}  # fmt: skip
    parts = []
    for part in unit.parts:
        if part.slot == slot:
            new = {name: value(text, kinds[text.split()[-1]]) for name, text in values.items()}
            part = msgspec.structs.replace(part, values={**part.values, **new})  # noqa: PLW2901
        parts.append(part)
    return msgspec.structs.replace(unit, parts=tuple(parts))


def without(unit: AsBuiltUnit, *slots: str) -> AsBuiltUnit:
    """Return a unit with these slots empty."""
    kept = tuple(part for part in unit.parts if part.slot not in slots)
    return msgspec.structs.replace(unit, parts=kept)


def also(unit: AsBuiltUnit, slot: str, **values: Value) -> AsBuiltUnit:
    """Return a unit with one more part."""
    name = {"en": slot, "es": slot}
    part = FittedPart(
        slot=slot, card=slot, variant="x", system="deck", name=name, variant_name=name,
        why=Why(by="standard"), places=(), values=values,
    )  # fmt: skip
    return msgspec.structs.replace(unit, parts=(*unit.parts, part))
