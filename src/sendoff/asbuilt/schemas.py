"""JSON Schemas of all files of a yard and of `unit.json`, from the records, for editors and other programs."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

import msgspec

from sendoff.asbuilt.sheet import BuildSheet
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.fields import Field
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.schema import Card, Sentences, TrailerType, Yard
from sendoff.errors import CannotWrite

RECORDS: Final[dict[str, type]] = {
    "card": Card,
    "trailer": TrailerType,
    "sentences": Sentences,
    "yard": Yard,
    "sheet": BuildSheet,
    "truck": Truck,
    "cargo": Cargo,
    "unit": AsBuiltUnit,
}


def schema_of_field(kind: type) -> dict[str, Any]:
    """Return the JSON Schema of one of our own fields (msgspec's schema_hook)."""
    if issubclass(kind, Field):
        return kind.JSON_SCHEMA
    raise NotImplementedError(kind)


def json_schema(name: str) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a kind of file."""
    schema = msgspec.json.schema(RECORDS[name], schema_hook=schema_of_field)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def write_schemas(folder: Path) -> list[Path]:
    """Write one schema a kind of file into a folder."""
    written = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name in RECORDS:
            path = folder / f"{name}.schema.json"
            path.write_text(
                json.dumps(json_schema(name), indent=1, ensure_ascii=False) + "\n", encoding="utf-8"
            )
            written.append(path)
    except OSError as error:
        raise CannotWrite(
            f"{folder}: cannot be written ({error.strerror}). Name a folder you may write to."
        ) from None
    return written
