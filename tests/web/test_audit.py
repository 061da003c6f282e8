"""The audit names what was changed by hand in the database: in the chain, in a row, in what follows from the rows."""

from __future__ import annotations

import datetime
import json

import pytest
from django.db import connection

from sendoff.web.models import Checkpoint, CheckStanding, Link, PersonalValue, PutRightItem, Reading, Unit
from sendoff.web.services import audit, put_right, units
from sendoff.web.services.writing import told_now
from tests.web.conftest import Cast, sheet
from tests.web.doing import answer, check_of


@pytest.fixture
def worked(cast: Cast) -> Cast:
    check = check_of(cast.utility, "tires:pressure", "left_1")
    hand, gauge = cast.people["yard_hand"], cast.tools["tire_gauge"]
    answer(cast.utility, check, hand, given="50 psi", tool=gauge)
    put_right.step(cast.utility.put_right.get(), "put_right", "pumped up", told_now(hand))
    answer(cast.utility, check, cast.people["second_hand"], given="65 psi", tool=gauge)
    units.change_sheet(
        cast.tilt, sheet("qb-0107").replace("loads = 9", "loads = 8"), "she hauls less", told_now(hand)
    )
    assert list(audit.audit()) == []
    return cast


def by_hand(statement: str, *values: str | float) -> None:
    with connection.cursor() as cursor:
        cursor.execute(statement, values)
        assert cursor.rowcount == 1


def problems() -> list[tuple[str, int, str]]:
    return [(one.unit, one.number, one.why) for one in audit.audit()]


def test_a_changed_entry_is_named(worked: Cast) -> None:
    link = Link.objects.get(unit=worked.utility, kind="reading", number=2)
    by_hand(
        "UPDATE yard_link SET body = %s WHERE act = %s", link.body.replace("50 psi", "65 psi"), db_id(link)
    )
    assert problems() == [("QB-0207", 2, "digest")]


def db_id(row: Link | Reading | PutRightItem) -> str:
    return str(row.act) if connection.vendor == "postgresql" else row.act.hex


def test_an_entry_changed_with_its_digest_breaks_at_the_next_one(worked: Cast) -> None:
    from sendoff.books.chain import digest_of

    link = Link.objects.get(unit=worked.utility, number=2)
    body = link.body.replace("50 psi", "65 psi")
    digest = digest_of(worked.utility.public_id, 2, link.previous, body)
    by_hand("UPDATE yard_link SET body = %s, digest = %s WHERE act = %s", body, digest, db_id(link))
    assert problems() == [("QB-0207", 3, "previous")]


def test_a_deleted_last_entry_is_named(worked: Cast) -> None:
    last = Link.objects.filter(unit=worked.utility).latest("number")
    by_hand("DELETE FROM yard_link WHERE act = %s", db_id(last))
    assert problems() == [("QB-0207", last.number, "head")]


def test_a_reading_changed_in_its_table_is_named_by_its_entry(worked: Cast) -> None:
    row = Reading.objects.get(given="50 psi")
    by_hand("UPDATE yard_reading SET given = %s, si = %s WHERE act = %s", "65 psi", 448159.2, db_id(row))
    assert ("QB-0207", 2, "row") in problems()


def test_a_reading_moved_in_or_taken_out_is_named(worked: Cast) -> None:
    row = Reading.objects.get(given="50 psi")
    by_hand("UPDATE yard_reading SET unit_id = %s WHERE act = %s", worked.tilt.pk, db_id(row))
    assert {("QB-0207", 2, "row_gone"), ("QB-0107", 0, "unlinked")} <= set(problems())


def test_a_put_right_item_closed_by_hand_is_named(worked: Cast) -> None:
    PutRightItem.objects.update(status="put_right")
    assert problems() == [("QB-0207", 0, "status")]


def test_a_standing_bettered_by_hand_is_named(worked: Cast) -> None:
    row = CheckStanding.objects.get(unit=worked.utility)
    assert (row.outcome, row.reading.outcome) == ("not_in_order", "in_order"), "the worse of two counts"
    CheckStanding.objects.update(outcome="in_order")
    assert problems() == [("QB-0207", 0, "standing")]


def test_a_unit_that_is_not_its_newest_sheet_is_named(worked: Cast) -> None:
    unit = Unit.objects.get(pk=worked.tilt.pk)
    other = json.loads(unit.as_built)
    other["plate"]["gvwr"]["si"] += 1
    Unit.objects.filter(pk=unit.pk).update(as_built=json.dumps(other))
    assert problems() == [("QB-0107", 0, "sheet")]


def test_a_value_about_a_person_may_be_erased_but_not_changed(worked: Cast) -> None:
    value = PersonalValue.objects.filter(unit=worked.utility, field="sheet").get()
    PersonalValue.objects.filter(pk=value.pk).update(value="another sheet")
    assert problems() == [("QB-0207", 1, "value")]
    PersonalValue.objects.filter(pk=value.pk).update(
        value="", salt="", erased_at=datetime.datetime(2026, 11, 25, tzinfo=datetime.UTC)
    )
    assert problems() == []


def test_a_chain_rewritten_as_a_whole_is_named_by_the_checkpoint(worked: Cast) -> None:
    from sendoff import books

    made = audit.make_checkpoint()
    assert made is not None
    assert audit.make_checkpoint() is None, "nothing new, nothing to seal"
    head = books.begin(worked.utility.public_id)
    for link in Link.objects.filter(unit=worked.utility).order_by("number"):
        said = {**link.entry().told(), "offset_min": 5}
        entry, head = books.append(head, said)
        Link.objects.filter(pk=link.pk).update(body=entry.body, previous=entry.previous, digest=entry.digest)
    Unit.objects.filter(pk=worked.utility.pk).update(chain_digest=head.digest)
    found = problems()
    assert len(found) == 1
    assert found[0][0] == "QB-0207"
    assert found[0][2] == "checkpoint"


def test_a_changed_checkpoint_is_named(worked: Cast) -> None:
    audit.make_checkpoint()
    Checkpoint.objects.update(at="2026-01-01T00:00:00.000000Z")
    assert problems()[0] == ("yard", 1, "digest")


def test_every_kind_of_act_in_the_books_is_held_against_its_row(worked: Cast) -> None:
    kinds = set(Link.objects.values_list("kind", flat=True))
    assert kinds - set(audit.ROWS) == set()
