"""When the books do not answer: a plain page, nothing half-done, and it goes on when they are back."""

from __future__ import annotations

import uuid

import pytest
from django.db import OperationalError, connection
from django.test import Client

from sendoff.web.models import Link, PutRightItem
from sendoff.web.services import put_right
from tests.web.conftest import Cast


def new_item(cast: Cast, client: Client | None = None) -> tuple[int, str]:
    from sendoff.web import stock

    client = client or cast.client("yard_hand")
    station = stock.built(cast.utility).stations[0].id
    answer = client.post(
        f"/unit/{cast.utility.public_id}/put-right/new/",
        {"act": str(uuid.uuid4()), "where": station, "kind": "dent", "what": "x" * 300, "whose": "yard"},
    )
    return answer.status_code, answer.content.decode()


@pytest.mark.parametrize(
    ("error", "told"),
    [
        (OperationalError("database or disk is full"), "disk is full"),
        (OperationalError("attempt to write a readonly database"), "cannot be written to"),
        (OperationalError("database is locked"), "Somebody else was writing"),
        (OperationalError("connection to server at 127.0.0.1 failed"), "The database is away"),
        (OSError(28, "No space left on device"), "disk is full"),
    ],
)
def test_what_is_wrong_with_the_books_is_said_and_nothing_is_kept(
    cast: Cast, monkeypatch: pytest.MonkeyPatch, error: Exception, told: str
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr(put_right, "find", fails)
    status, text = new_item(cast)
    assert (status, told in text) == (503, True)
    assert "Nothing of your last act was kept" in text


def test_an_act_that_fails_half_way_leaves_nothing(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    """The row is written, then its link in the chain cannot be: neither is there afterwards."""

    def fails(*_: object, **__: object) -> None:
        raise OperationalError("database or disk is full")

    before = Link.objects.count()
    monkeypatch.setattr("sendoff.web.models.PutRightStep.objects.create", fails)
    assert new_item(cast)[0] == 503
    assert (Link.objects.count(), PutRightItem.objects.count()) == (before, 0)
    monkeypatch.undo()
    assert new_item(cast)[0] == 302


@pytest.mark.skipif(connection.vendor != "sqlite", reason="a PRAGMA of SQLite stands for the disk")
def test_a_disk_that_cannot_be_written_to_is_told_apart(cast: Cast) -> None:
    client = cast.client("yard_hand")
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA query_only = ON")
        try:
            status, text = new_item(cast, client)
        finally:
            cursor.execute("PRAGMA query_only = OFF")
    assert (status, "cannot be written to" in text) == (503, True)
