"""What can be told of a build sheet before it is read as one: lines still to be filled in, marks that cannot be.

So a sheet whose shape is wrong in one line still hears at once what is wrong in all others.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from sendoff.asbuilt.fit import faults_of_options
from sendoff.asbuilt.marks import faults_of_tire_number, faults_of_vin
from sendoff.catalogue.load import Catalogue
from sendoff.errors import Fault, shown

BLANK: Final = "…"
"""What `sendoff new` writes where something has to be filled in."""


def blanks(raw: Mapping[str, Any], file: str) -> list[Fault]:
    """Return every line of a sheet that is still to be filled in."""
    return [
        Fault(file, key, shown(text), "it is still to be filled in", "Write what belongs there.")
        for key, text in _texts(raw, "")
        if BLANK in text or text.strip() == "..."
    ]


def _texts(value: object, key: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, str):
        yield key, value
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            yield from _texts(inner, f"{key}.{name}" if key else str(name))
    elif isinstance(value, list):
        for number, inner in enumerate(value, start=1):
            yield from _texts(inner, f"{key}[{number}]")


def faults_of_tables(raw: Mapping[str, Any], catalogue: Catalogue, file: str) -> Iterator[Fault]:
    """Yield what is wrong with the parts of a refused sheet that can be judged one by one."""
    vin, built, options = raw.get("vin"), raw.get("built"), raw.get("options", [])
    if isinstance(vin, str):
        yield from faults_of_vin(vin, file)
    trailer = catalogue.types.get(str(raw.get("type")))
    if trailer is None and isinstance(raw.get("type"), str):
        yield no_such_type(str(raw["type"]), catalogue, file)
    elif trailer is not None and isinstance(options, list) and all(isinstance(one, str) for one in options):
        yield from faults_of_options(trailer, options, file)
    for key, text in _texts(raw.get("parts", {}), "parts"):
        if key.endswith(".tin"):
            yield from faults_of_tire_number(text, built, file, key)


def no_such_type(name: str, catalogue: Catalogue, file: str) -> Fault:
    """Return the fault of a type the catalogue does not know."""
    known = ", ".join(sorted(catalogue.types)) or "none: the catalogue has no type yet"
    return Fault(file, "type", shown(name), "the catalogue has no such trailer type", f"Use one of: {known}.")
