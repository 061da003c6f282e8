"""Whatever stands in a build sheet: it is a unit everything can be made of, or faults with cures; never a traceback."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import from_json, to_json
from sendoff.briefing.brief import brief
from sendoff.catalogue.load import load
from sendoff.errors import THE_SHEET, Fault, FaultyInput
from sendoff.findings.all_limits import all_findings
from sendoff.findings.telling import tell
from sendoff.papers.calendar import calendar
from tests.tomling import as_toml, spoiled
from tests.yards import SHEET, SmallYard

DAY = datetime.date(2026, 11, 25)
TICKETS = """
[[ticket]]
on = 2026-10-16
what = "whole"
coupled = false
mass = "560 lb"
error = "20 lb"
scale = "the yard's own"
[[ticket]]
on = 2026-10-16
what = "coupling"
coupled = false
mass = "70 lb"
"""
WHOLE: dict[str, Any] = tomli.loads(SHEET + TICKETS)


class Bench:
    """A yard and what its sheets are judged by."""

    def __init__(self, folder: Path) -> None:
        self.catalogue = load(SmallYard(folder).catalogue)
        self.path = folder / "any.toml"

    def __repr__(self) -> str:
        return "the bench"

    def faults_of(self, text: str) -> tuple[Fault, ...]:
        """Make of a sheet all that is made of units, or return what it is refused for."""
        self.path.write_text(text, encoding="utf-8", newline="")
        try:
            unit = as_built(self.path, self.catalogue)
            found = all_findings(unit, self.catalogue, DAY)
        except FaultyInput as refused:
            return refused.faults
        assert from_json(to_json(unit)) == unit
        assert all(tell(finding, "en", "us").word for finding in found)
        briefing = brief(unit, self.catalogue, "es", "metric")
        assert briefing.stations
        assert calendar(unit, briefing, DAY).startswith(b"BEGIN:VCALENDAR")
        return ()

    def judge(self, text: str) -> None:
        """See that a sheet is a unit or is refused in lines a person can act on."""
        for fault in self.faults_of(text):
            assert fault.file in {str(self.path), THE_SHEET}, fault
            assert fault.problem
            assert fault.cure.strip()
            assert str(fault).isprintable(), repr(str(fault))
            assert len(str(fault)) < 1500


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return Bench(tmp_path_factory.mktemp("yard"))


def test_the_unspoiled_sheet_is_a_unit(bench: Bench) -> None:
    assert bench.faults_of(as_toml(WHOLE)) == ()


@given(tables=spoiled(WHOLE))
def test_a_spoiled_sheet_is_a_unit_or_faults_with_cures(bench: Bench, tables: dict[str, Any]) -> None:
    bench.judge(as_toml(tables))


@given(cut=st.integers(0, len(SHEET)), put=st.text(max_size=6), drop=st.integers(0, 12))
def test_a_sheet_cut_anywhere_is_a_unit_or_faults_with_cures(
    bench: Bench, cut: int, put: str, drop: int
) -> None:
    bench.judge(SHEET[:cut] + put.encode("utf-8", "replace").decode() + SHEET[cut + drop :])


def test_everything_wrong_in_a_sheet_is_told_at_once(bench: Bench) -> None:
    text = SHEET
    for old, new in (
        ('unit = "T-1"\n', ""),
        ("1X9SF081XTYKB4019", "1X9SF081XTYKBO019"),
        ('"stronger_tires"', '"gold_rims", "wings"'),
        ("on = 2026-11-20", 'on = "soon"'),
        ('"A. Person"', '"…"'),
        ("CDEF12 2026", "CDEF12 5426"),
    ):
        assert old in text
        text = text.replace(old, new)
    assert sorted((fault.key, fault.value) for fault in bench.faults_of(text)) == [
        ("collects.on", "soon"),
        ("options", "gold_rims"),
        ("options", "wings"),
        ("owner.name", "…"),
        ("parts.tires.left_1.tin", "DOT 1AB CDEF12 5426"),
        ("parts.tires.right_1.tin", "DOT 1AB CDEF12 5426"),
        ("unit", ""),
        ("vin", "1X9SF081XTYKBO019"),
    ]
