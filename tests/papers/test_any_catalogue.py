"""Whatever stands in a card, a type, the sentences or the yard: faults with cures, or a catalogue that packs come from.

The lint is asked as a person asks it; what it lets pass must carry a unit through findings, briefing and drawings.
"""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from sendoff.asbuilt.resolve import as_built
from sendoff.briefing.brief import brief
from sendoff.briefing.lint import lint_everything
from sendoff.catalogue.load import load
from sendoff.errors import Fault, FaultyInput, SendoffError
from sendoff.findings.all_limits import all_findings
from sendoff.papers.figures import figures_of
from tests.tomling import as_toml, spoiled
from tests.yards import SmallYard

DAY = datetime.date(2026, 11, 25)
FILES = {
    name: "catalogue/" + where
    for name, where in {
        "coupler": "cards/coupling/my_coupler.toml",
        "floor": "cards/deck/my_floor.toml",
        "tire": "cards/running_gear/my_tire.toml",
        "type": "trailers/small_flat.toml",
        "sentences": "sentences.toml",
    }.items()
} | {"yard": "yard.toml"}


class Bench:
    """A yard in which one file at a time is spoiled."""

    def __init__(self, folder: Path) -> None:
        self.yard = SmallYard(folder)
        self.whole = {name: (self.yard.folder / file).read_text("utf-8") for name, file in FILES.items()}

    def __repr__(self) -> str:
        return "the bench"

    def faults_of(self, name: str, text: str) -> tuple[Fault, ...]:
        """Spoil a file, judge the catalogue, and make what is made of units, also where only the lint objects."""
        path = self.yard.folder / FILES[name]
        path.write_text(text, encoding="utf-8", newline="")
        try:
            catalogue = load(self.yard.catalogue)
            found = tuple(lint_everything(catalogue))
            unit = as_built(self.yard.sheet, catalogue)
        except FaultyInput as refused:
            return refused.faults
        finally:
            path.write_text(self.whole[name], encoding="utf-8")
        try:
            briefing = brief(unit, catalogue, "en", "us")
            limits = all_findings(unit, catalogue, DAY)
            drawings = figures_of(unit, briefing, limits).named()
            assert all(drawing.svg.startswith("<svg") for _, drawing in drawings)
        except SendoffError:  # never of a catalogue the lint lets pass
            if not found:
                raise
        return found


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return Bench(tmp_path_factory.mktemp("yard"))


TABLES: dict[str, dict[str, Any]] = {}


def tables_of(name: str) -> dict[str, Any]:
    """Return the tables of a file of the starter."""
    if not TABLES:
        from sendoff.catalogue.starter import STARTER

        TABLES.update(
            {each: tomli.loads((STARTER / file).read_text("utf-8")) for each, file in FILES.items()}
        )
    return TABLES[name]


@pytest.mark.parametrize("name", FILES)
def test_the_unspoiled_file_has_no_fault(bench: Bench, name: str) -> None:
    assert bench.faults_of(name, as_toml(tables_of(name))) == ()


@pytest.mark.parametrize("name", FILES)
@given(data=st.data())
def test_a_spoiled_file_gives_faults_with_cures_or_a_whole_unit(
    bench: Bench, name: str, data: st.DataObject
) -> None:
    for fault in bench.faults_of(name, as_toml(data.draw(spoiled(tables_of(name))))):
        assert fault.file
        assert fault.problem
        assert fault.cure.strip()
        assert str(fault).isprintable()
