"""Each sheet in the demo yard's `wrong` folder is refused, with its file, the key, and what to do about it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import Catalogue, load
from sendoff.errors import FaultyInput
from sendoff.findings.all_limits import all_findings
from tests.findings.demo import DAY

QUILLBACK = Path(__file__).parents[2] / "examples" / "quillback"
WRONG = QUILLBACK / "sheets" / "wrong"
KEYS = {
    "collected-before-it-was-built": "collects.on",
    "coupling-heavier-than-all": "ticket[2].mass",
    "no-unit": "ticket[1].mass",
    "not-toml": "",
    "part-not-on-this-type": "parts.pump",
    "place-that-is-not-there": "parts.tires.left_3",
    "spare-of-other-range": "options",
    "sway-bars-on-friction-brackets": "options",
    "tin-letter": "parts.tires.left_1.tin",
    "truck-nobody-has": "truck",
    "two-supports": "options",
    "unknown-option": "options",
    "vin-check-digit": "vin",
    "vin-letter": "vin",
    "week-54": "parts.tires.left_1.tin",
}
"""What the first fault of each names."""


def test_every_wrong_sheet_is_listed_here() -> None:
    assert {path.stem for path in WRONG.glob("*.toml")} == set(KEYS)


@pytest.fixture(scope="module")
def yard(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Catalogue]:
    """Give a copy of the yard with the wrong sheets where they would be read in earnest."""
    folder = tmp_path_factory.mktemp("wrong") / "quillback"
    shutil.copytree(QUILLBACK, folder)
    for path in WRONG.glob("*.toml"):
        shutil.copy(path, folder / "sheets" / path.name)
    return folder / "sheets", load(folder / "catalogue")


@pytest.mark.parametrize("name", sorted(KEYS))
def test_a_wrong_sheet_is_refused_with_key_and_cure(name: str, yard: tuple[Path, Catalogue]) -> None:
    sheets, catalogue = yard
    with pytest.raises(FaultyInput) as refused:
        all_findings(as_built(sheets / f"{name}.toml", catalogue), catalogue, DAY)
    first = refused.value.faults[0]
    assert name in str(first.file) or first.key == "truck"  # the truck is asked for by the findings
    assert first.key == KEYS[name]
    assert len(first.problem) > 10
    assert first.cure.endswith(".")


def test_the_right_sheets_are_not_refused() -> None:
    catalogue = load(QUILLBACK / "catalogue")
    units = [as_built(path, catalogue) for path in sorted((QUILLBACK / "sheets").glob("*.toml"))]
    assert len(units) >= 14
    assert {unit.type for unit in units} == set(catalogue.types)
    assert {unit.reader.language for unit in units} == {"en", "es"}
    assert {unit.reader.units for unit in units} == {"us", "metric"}
