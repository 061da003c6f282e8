"""The put-right list: another look than the hand that mended; safety items are never waived, not even in the table."""

from __future__ import annotations

import pytest
from django.db import IntegrityError, transaction

from sendoff.errors import FaultyInput
from sendoff.web import lists, stock
from sendoff.web.models import PutRightItem
from sendoff.web.services import photos, put_right
from sendoff.web.services.writing import told_now
from tests.web.conftest import Cast
from tests.web.doing import answer, check_of
from tests.web.test_rights import picture


def item(cast: Cast, kind: str = "dent", slot: str = "") -> PutRightItem:
    station = next(one for one in stock.built(cast.utility).stations if not slot or slot in one.slots)
    found = put_right.Found(kind=kind, station=station.id, slot=slot, what="something", whose="yard")
    put_right.find(cast.utility, found, told_now(cast.people["yard_hand"]))
    return cast.utility.put_right.latest("number")


def why(refused: pytest.ExceptionInfo[FaultyInput]) -> str:
    return refused.value.faults[0].problem


def test_found_then_put_right_then_checked_by_another(cast: Cast) -> None:
    row = item(cast)
    one, other = cast.people["yard_hand"], cast.people["second_hand"]
    with pytest.raises(FaultyInput) as refused:
        put_right.step(row, "checked", "", told_now(other))
    assert why(refused) == "not_put_right_yet"
    put_right.step(row, "put_right", "painted", told_now(one))
    with pytest.raises(FaultyInput) as refused:
        put_right.step(row, "checked", "", told_now(one))
    assert why(refused) == "same_hand"
    put_right.step(row, "not_yet", "still rough", told_now(other))
    put_right.step(row, "put_right", "painted again", told_now(one))
    put_right.step(row, "checked", "", told_now(other))
    row.refresh_from_db()
    assert row.status == "checked"
    kinds = list(row.steps.order_by("at").values_list("kind", flat=True))
    assert kinds == ["found", "put_right", "not_yet", "put_right", "checked"]


def test_a_safety_item_is_never_waived_not_even_by_hand(cast: Cast) -> None:
    row = item(cast, "missing", "lamps")
    assert row.safety
    photo = photos.keep(cast.utility, picture(), cast.people["engineer"])
    with pytest.raises(FaultyInput) as refused:
        put_right.step(row, "waived", "the owner agrees", told_now(cast.people["engineer"]), photo)
    assert why(refused) == "never_waived"
    with pytest.raises(IntegrityError), transaction.atomic():
        PutRightItem.objects.filter(pk=row.pk).update(status="waived")


def test_a_cosmetic_item_is_waived_only_with_the_owner_s_consent_on_a_photo(cast: Cast) -> None:
    row = item(cast, "scratch_primer")
    assert not row.safety
    engineer = cast.people["engineer"]
    with pytest.raises(FaultyInput) as refused:
        put_right.step(row, "waived", "the owner agrees", told_now(engineer))
    assert why(refused) == "no_consent"
    put_right.step(
        row, "waived", "the owner agrees", told_now(engineer), photos.keep(cast.utility, picture(), engineer)
    )
    row.refresh_from_db()
    assert row.status == "waived"


def test_what_a_check_found_is_closed_by_another_hand_s_reading(cast: Cast) -> None:
    check = check_of(cast.utility, "tires:pressure", "left_1")
    one, other, gauge = cast.people["yard_hand"], cast.people["second_hand"], cast.tools["tire_gauge"]
    low = answer(cast.utility, check, one, given="50 psi", tool=gauge)
    row = cast.utility.put_right.get()
    assert (row.safety, row.check_key) == (True, "tires:pressure")
    put_right.step(row, "put_right", "pumped up", told_now(one))
    with pytest.raises(FaultyInput) as refused:
        put_right.step(row, "checked", "", told_now(other))
    assert why(refused) == "read_again"
    own = answer(cast.utility, check, one, given="65 psi", tool=gauge, saw=low)
    row.refresh_from_db()
    assert row.status == "put_right", "whoever put it right is no second look"
    answer(cast.utility, check, other, given="65 psi", tool=gauge, saw=own)
    row.refresh_from_db()
    assert row.status == "checked"


def test_one_thing_out_of_order_opens_one_item(cast: Cast) -> None:
    check = check_of(cast.utility, "tires:pressure", "left_1")
    saw = None
    for given in ("50 psi", "51 psi"):
        saw = answer(
            cast.utility, check, cast.people["yard_hand"], given=given, tool=cast.tools["tire_gauge"], saw=saw
        )
    assert cast.utility.put_right.count() == 1


@pytest.mark.parametrize("kind", lists.kinds())
def test_a_kind_is_never_both_safety_and_cosmetic(kind: str) -> None:
    rule = lists.read("put_right")["kind"][kind]
    assert not (rule["safety"] != "never" and rule.get("cosmetic", False))
