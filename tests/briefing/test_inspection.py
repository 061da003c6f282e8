"""The inspection against the briefing, which is made by another way from the same cards."""

from __future__ import annotations

from pathlib import Path

import pytest

from sendoff import units
from sendoff.asbuilt.resolve import as_built
from sendoff.briefing.brief import brief
from sendoff.briefing.inspection import as_asked, judge, planned
from sendoff.catalogue.load import Catalogue, load

ROOT = Path(__file__).resolve().parents[2]
YARD = ROOT / "examples" / "quillback"


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return load(YARD / "catalogue")


@pytest.mark.parametrize("sheet", ["qb-0107", "qb-0203"])
def test_every_check_of_the_briefing_is_planned_once_for_each_place_in_walking_order(
    catalogue: Catalogue, sheet: str
) -> None:
    unit = as_built(YARD / "sheets" / f"{sheet}.toml", catalogue)
    told = [
        (leg.state, visit.station, check.key)
        for leg in brief(unit, catalogue).legs
        for visit in leg.visits
        for check in visit.checks
        for _ in check.places or ("",)
    ]
    assert [(one.state, one.station, one.key) for one in planned(unit, catalogue)] == told
    assert len({one.id for one in planned(unit, catalogue)}) == len(told)


def test_bounds_are_the_target_of_the_fitted_variant_and_the_card_s_tolerance(catalogue: Catalogue) -> None:
    """By hand from the card: cold pressure 65 psi, up to 5 psi over, none under; nuts 100 lbf·ft, 5 either way."""
    unit = as_built(YARD / "sheets" / "qb-0203.toml", catalogue)
    by_key = {one.key: one for one in planned(unit, catalogue)}
    target = unit.parts[0]
    pressure, nuts = by_key["tires:pressure"], by_key["wheel_nuts:torque"]
    assert target is not None
    assert pressure.target_given is not None
    psi = units.to_si(1, "psi", "pressure")
    foot_pound = units.to_si(1, "lbf·ft", "torque")
    wanted = units.parse(pressure.target_given, "pressure").si / psi
    assert pressure.least_si == pytest.approx(wanted * psi)
    assert pressure.most_si == pytest.approx((wanted + 5) * psi)
    assert nuts.least_si is not None
    assert nuts.most_si is not None
    assert nuts.most_si - nuts.least_si == pytest.approx(10 * foot_pound)


def test_a_value_on_its_bound_is_within_whatever_unit_it_was_typed_in() -> None:
    """758.4233 kPa is 110 psi (NIST SP 811): typed in either unit it meets the same bound."""
    bound = units.parse("110 psi", "pressure").si
    assert judge(units.parse("758.42331 kPa", "pressure").si, bound, None) == "within"
    assert judge(units.parse("757 kPa", "pressure").si, bound, None) == "low"


def test_who_reads_what_the_page_asked_for_has_read_enough(catalogue: Catalogue) -> None:
    """65 psi is 448.16 kPa and is shown as 448 kPa: a reading of 448 kPa is in order, one of 447 kPa is not."""
    unit = as_built(YARD / "sheets" / "qb-0207.toml", catalogue)
    check = next(one for one in planned(unit, catalogue) if one.key == "tires:pressure")
    for typed, wanted in (
        ("448 kPa", "within"),
        ("447 kPa", "low"),
        ("64.9 psi", "low"),
        ("65 psi", "within"),
    ):
        entered = units.parse(typed, "pressure")
        assert judge(entered.si, *as_asked(check, entered.unit)) == wanted, typed
