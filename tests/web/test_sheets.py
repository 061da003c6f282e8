"""Build sheets in the yard: taken in or refused with the reason; changed with a reason; which checks are done again."""

from __future__ import annotations

import pytest

from sendoff.errors import FaultyInput
from sendoff.web.models import CheckStanding, Unit
from sendoff.web.queries import yard
from sendoff.web.queries.standing import unit_now
from sendoff.web.services import units
from sendoff.web.services.writing import told_now
from tests.web.conftest import Cast, sheet
from tests.web.doing import TODAY, answer, check_of


def test_a_faulty_sheet_is_refused_under_its_own_name_with_its_cure(cast: Cast) -> None:
    with pytest.raises(FaultyInput) as refused:
        units.add(cast.site, sheet("qb-0203").replace('vin = "', 'vin = "Q'), "monday.toml", None)
    assert all(fault.file == "monday.toml" for fault in refused.value.faults)
    assert any("vin" in fault.key for fault in refused.value.faults)


def test_a_unit_is_taken_in_once(cast: Cast) -> None:
    before = Unit.objects.count()
    for text in (sheet("qb-0107"), sheet("qb-0107").replace("7KQ4MZ2XPA", "7KQ4MZ2XPB")):
        with pytest.raises(FaultyInput):
            units.add(cast.site, text, "again.toml", None)
    assert Unit.objects.count() == before


def test_a_changed_tire_makes_the_checks_of_that_tire_due_again_and_no_other(cast: Cast) -> None:
    hand, gauge = cast.people["yard_hand"], cast.tools["tire_gauge"]
    tires = '\n[parts.tires]\nleft_1 = {{ tin = "DOT 1AB KLN4F7 {}" }}\nright_1 = {{ tin = "DOT 1AB KLN4F7 1426" }}\n'
    text = sheet("qb-0207")
    units.change_sheet(cast.utility, text + tires.format("1426"), "numbers were read", told_now(hand))
    cast.utility.refresh_from_db()
    for place in ("left_1", "right_1"):
        answer(
            cast.utility, check_of(cast.utility, "tires:pressure", place), hand, given="65 psi", tool=gauge
        )
    changed = text + tires.format("1526")
    again = units.change_sheet(cast.utility, changed, "one tire was replaced", told_now(hand))
    assert ("tires:pressure", "left_1") in again
    assert ("tires:pressure", "right_1") not in again
    standing = {
        one.check.place: one.standing
        for one in unit_now(Unit.objects.get(pk=cast.utility.pk)).checks
        if one.check.key == "tires:pressure"
    }
    assert standing == {"left_1": "again", "right_1": "in_order"}
    assert cast.utility.sheets.count() == 3
    assert CheckStanding.objects.filter(unit=cast.utility, again=True).count() == 1


@pytest.mark.parametrize("typed", ["0207", "overmeer", "4wuf7kz9tc", "B4207"])
def test_a_unit_is_found_by_number_owner_public_id_vin_and_tire_number(cast: Cast, typed: str) -> None:
    page = yard.list_units(cast.people["yard_hand"], typed, 1, TODAY)
    assert [unit.number for unit in page.units] == ["QB-0207"]


def test_nothing_of_another_site_is_found(cast: Cast) -> None:
    assert yard.list_units(cast.people["stranger"], "0207", 1, TODAY).units == []


def test_a_page_of_the_yard_takes_few_queries(cast: Cast, django_assert_max_num_queries: object) -> None:
    """At most twelve a page (the issue's own bound)."""
    client = cast.client("engineer")
    base = f"/unit/{cast.utility.public_id}/"
    of_unit = (
        "inspection station/1 gate-pass history put-right truck loose check/tires/pressure/left_1".split()
    )
    for path in ("/", "/?find=tall", base, *(f"{base}{name}/" for name in of_unit)):
        with django_assert_max_num_queries(12):  # type: ignore[operator]
            assert client.get(path).status_code == 200, path
