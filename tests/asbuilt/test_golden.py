"""unit.json keeps its shape: three golden files, and schemas that are what the records say.

Golden files are pins of our own making: they show a change, they do not prove a value.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.schemas import RECORDS, json_schema
from sendoff.asbuilt.unit import from_json, to_json
from sendoff.catalogue.load import load

ROOT = Path(__file__).parents[2]
GOLDEN = sorted(Path(__file__).with_name("golden").glob("*.unit.json"))
SCHEMAS = ROOT / "src" / "sendoff" / "data" / "schemas"


def without_digests(data: bytes) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(data)
    digests = found.pop("digests")
    assert all(len(digest) == 64 for digest in digests.values())
    return found


def test_there_are_three_golden_files() -> None:
    assert len(GOLDEN) == 3


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.name)
def test_a_demo_sheet_resolves_to_its_golden_unit(path: Path) -> None:
    yard = ROOT / "examples" / "quillback"
    unit = as_built(yard / "sheets" / path.name.replace(".unit.json", ".toml"), load(yard / "catalogue"))
    assert without_digests(to_json(unit)) == without_digests(path.read_bytes()), (
        "read the change, then: python tools/golden.py"
    )


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: path.name)
def test_a_golden_file_reads_back_and_is_of_its_schema(path: Path) -> None:
    data = path.read_bytes()
    assert to_json(from_json(data)) == data
    jsonschema.Draft202012Validator(json_schema("unit")).validate(json.loads(data))


@pytest.mark.parametrize("name", RECORDS)
def test_a_schema_in_the_package_is_what_the_records_say(name: str) -> None:
    written = json.loads((SCHEMAS / f"{name}.schema.json").read_text(encoding="utf-8"))
    assert written == json.loads(json.dumps(json_schema(name))), "run: python tools/golden.py"
