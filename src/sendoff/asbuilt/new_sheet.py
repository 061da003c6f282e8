"""A commented build sheet to fill in: every slot with its places, every option with its rules."""

from __future__ import annotations

import datetime
import os
import secrets
from collections.abc import Callable, Iterator
from pathlib import Path

from sendoff.asbuilt.fit import fit
from sendoff.asbuilt.lap import places_of
from sendoff.asbuilt.sheet import PUBLIC_ID_SIGNS
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.schema import TrailerType
from sendoff.errors import CannotWrite, Fault, FaultyInput


def new_public_id(choose: Callable[[str], str] = secrets.choice) -> str:
    """Return a random public id of ten signs, none of which is read for another."""
    return "".join(choose(PUBLIC_ID_SIGNS) for _ in range(10))


def commented_sheet(
    type_id: str, catalogue: Catalogue, public_id: str | None = None, today: datetime.date | None = None
) -> str:
    """Return a build sheet for a type with a comment on every line that has to be filled in."""
    trailer = catalogue.types.get(type_id)
    if trailer is None:
        known = ", ".join(sorted(catalogue.types))
        raise FaultyInput(
            Fault("TYPE", "", type_id, "the catalogue has no such trailer type", f"Use one of: {known}.")
        )
    day = (today or datetime.datetime.now(tz=datetime.UTC).date()).isoformat()
    lines = [
        f"# Build sheet of one unit: {trailer.name['en']}.",
        "# Lines that begin with # are notes. Dates stand without quotation marks.",
        "schema = 1",
        'unit = "…"                       # the yard\'s own number for it',
        f'public_id = "{public_id or new_public_id()}"           # on its labels; made once, never changed',
        f'type = "{trailer.id}"',
        "options = []                     # some of these, between quotation marks:",
        *_options(trailer),
        'vin = "…"                        # from the frame stamp, letter by letter: 17 signs, no I, O or Q',
        f"built = {day}",
        f'reader = {{ language = "{catalogue.yard.language}", units = "{catalogue.yard.units}" }}  # en es, us metric',
        "",
        "[owner]",
        'name = "…"',
        "use = { miles = 800, loads = 8 }  # expected each month (miles, loads, trips, hours): dates come from it",
        "",
        "[collects]",
        'who = "owner"                    # owner, hired_driver, carrier or yard_delivers',
        f"on = {day}",
        "",
        "# Serials, lots and tire numbers, one row a place. Leave out a slot whose parts carry no marks.",
        *_parts(trailer),
        "",
        "# One [[ticket]] for each weighing: what = whole, coupling or axle_group",
        "# [[ticket]]",
        f"# on = {day}",
        '# what = "whole"',
        "# coupled = false",
        '# mass = "… lb"',
        '# error = "20 lb"',
    ]
    return "\n".join(lines) + "\n"


def _options(trailer: TrailerType) -> Iterator[str]:
    for name, option in trailer.options.items():
        rules = []
        if option.group:
            rules.append(f"one of group {option.group}")
        if option.requires:
            rules.append(f"needs {', '.join(option.requires)}")
        if option.excludes:
            rules.append(f"not with {', '.join(option.excludes)}")
        yield f'#   "{name}"  {option.name["en"]}' + (f" ({'; '.join(rules)})" if rules else "")


def _parts(trailer: TrailerType) -> Iterator[str]:
    for slot in fit(trailer, ()):
        yield f"# [parts.{slot}]"
        mark = 'tin = "DOT …"' if slot == "tires" else 'serial = "…"'
        yield from (f"# {place[0]} = {{ {mark} }}" for place in places_of(trailer, slot))


def write_new(path: Path, text: str) -> None:
    """Write a file that must not exist yet, whole or not at all; folders on the way are made."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with os.fdopen(
            os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o644), "w", encoding="utf-8"
        ) as file:
            file.write(text)
    except FileExistsError:
        raise CannotWrite(f"{path}: it exists already. Name another file; nothing was changed.") from None
    except OSError as error:
        raise CannotWrite(
            f"{path}: cannot be written ({error.strerror}). Name a folder you may write to."
        ) from None
