"""Every finding that has a demand and a limit shows how it was worked out, and names a source."""

from __future__ import annotations

from pathlib import Path

import pytest

from sendoff import sources
from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.findings.all_limits import all_findings
from sendoff.findings.model import Finding, Limit
from sendoff.findings.plain_working import with_working
from tests.findings.demo import DAY

YARD = Path(__file__).parents[2] / "examples" / "quillback"
SHEETS = sorted((YARD / "sheets").glob("qb-*.toml"))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.stem)
def test_each_finding_of_the_demo_yard_has_working_and_source(sheet: Path) -> None:
    catalogue = load(YARD / "catalogue")
    for found in all_findings(as_built(sheet, catalogue), catalogue, DAY):
        if found.margin is None:
            assert found.holds is not None or found.missing, found.id
            continue
        assert found.steps, found.id
        assert found.sources, found.id
        for source in found.sources:
            assert sources.get(source.partition(", ")[0]).title, source


@pytest.mark.parametrize(
    ("limit", "left"),
    [
        (Limit(most=7.0), 2.0),
        (Limit(least=4.0), 1.0),
        (Limit(least=4.0, most=7.0), 1.0),
        (Limit(least=1.0, most=5.5), 0.5),
        (Limit(most=4.0), -1.0),
    ],
)
def test_what_is_left_is_worked_out_by_hand(limit: Limit, left: float) -> None:
    found = with_working(Finding("a", "a", "mass", limit, 5.0))
    (step,) = found.steps
    assert [term.value for term in step.gave] == [pytest.approx(left)]
    assert step.gave[0].name == "left_kg"
    assert {term.symbol for term in step.put_in} >= {"asked"}
    assert found.sources


def test_a_finding_with_a_working_keeps_it_and_one_without_a_demand_gets_none() -> None:
    worked = with_working(Finding("a", "a", "mass", Limit(most=7.0), 5.0))
    assert with_working(worked) is worked
    unknown = Finding("a", "a", "mass", Limit(most=7.0), None, missing=("x",))
    assert with_working(unknown) is unknown
    match = Finding("a", "a", "text", Limit(), None, holds=True)
    assert with_working(match) is match
