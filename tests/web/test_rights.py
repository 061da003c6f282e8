"""Every address × every role against a table written by hand (rights.toml): not yours is not there (404)."""

from __future__ import annotations

import io
import tomllib
import uuid
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import URLPattern, get_resolver, reverse
from PIL import Image

from sendoff.web.models import ROLES, Debt
from sendoff.web.services import photos, put_right, truck
from sendoff.web.services.writing import told_now
from tests.web.conftest import Cast
from tests.web.doing import TRUCK

TABLE: dict[str, Any] = tomllib.loads((Path(__file__).parent / "rights.toml").read_text(encoding="utf-8"))[
    "page"
]
NAMES = [pattern.name for pattern in get_resolver().url_patterns if isinstance(pattern, URLPattern)]


def picture() -> SimpleUploadedFile:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "white").save(out, "JPEG")
    return SimpleUploadedFile("p.jpg", out.getvalue(), "image/jpeg")


@pytest.fixture
def photo(cast: Cast) -> str:
    hand = cast.people["yard_hand"]
    found = put_right.Found(kind="dent", station=cast_station(cast), what="dent in the frame")
    put_right.find(cast.utility, found, told_now(hand))
    truck.keep(cast.utility, TRUCK, "ABC 123", told_now(cast.people["engineer"]), at_gate=False)
    Debt.objects.create(unit=cast.utility, kind="call", key="call", who="office", at_miles=50)
    return photos.keep(cast.utility, picture(), hand).digest


def cast_station(cast: Cast) -> str:
    from sendoff.web import stock

    return stock.built(cast.utility).stations[0].id


def address(cast: Cast, name: str, photo: str) -> str:
    row = TABLE[name]
    args: list[object] = [cast.utility.public_id] if row.get("of_unit") else []
    debt = Debt.objects.filter(unit=cast.utility).first()
    special = {"PHOTO": photo, "DEBT": debt.pk if debt is not None else 0}
    args += [special.get(arg, arg) for arg in row.get("args", [])]
    if name == "invitation":
        args = ["no-such-token"]
    return reverse(name, args=args)


def test_every_address_stands_in_the_table_and_no_other() -> None:
    assert sorted(TABLE) == sorted(str(name) for name in NAMES)


OF_ROLES = sorted(name for name, row in TABLE.items() if not row.get("anyone"))


@pytest.mark.parametrize("name", OF_ROLES)
def test_who_may_see_a_page(cast: Cast, photo: str, name: str) -> None:
    path = address(cast, name, photo)
    found = {role: cast.client(role).get(path).status_code for role in ROLES}
    wanted = {role: 200 if role in TABLE[name]["get"] else 404 for role in ROLES}
    if name == "shift":  # whoever has no second step yet is led to it
        wanted = {role: 302 if status == 200 else status for role, status in wanted.items()}
    assert found == wanted


@pytest.mark.parametrize("name", OF_ROLES)
def test_who_may_act_on_a_page(cast: Cast, photo: str, name: str) -> None:
    """An empty act: who may not act gets 404 (405 where nobody acts); who may gets past the right, and is refused
    for what is missing."""
    path, row = address(cast, name, photo), TABLE[name]
    for role in ROLES:
        status = cast.client(role).post(path, {"act": str(uuid.uuid4()), "do": "yes"}).status_code
        if "post" not in row:
            assert status == 405, role
        elif role not in row["post"]:
            assert status == 404, role
        else:
            assert status in {302, 403, 422}, (role, status)


@pytest.mark.parametrize("name", sorted(name for name, row in TABLE.items() if row.get("of_unit")))
def test_a_unit_of_another_site_is_not_there(cast: Cast, photo: str, name: str) -> None:
    stranger = cast.client("stranger")
    assert stranger.get(address(cast, name, photo)).status_code == 404
    if "post" in TABLE[name]:
        assert stranger.post(address(cast, name, photo)).status_code == 404


@pytest.mark.parametrize("name", sorted(TABLE))
def test_whoever_is_not_signed_in_is_asked_to(cast: Cast, photo: str, name: str) -> None:
    answer = Client().get(address(cast, name, photo))
    if TABLE[name].get("anyone"):
        assert answer.status_code in {200, 302, 404, 405}
    else:
        assert answer.status_code == 302
        assert answer.headers["Location"].startswith("/sign-in/?next=")


def test_a_guessed_unit_item_or_photo_is_not_there(cast: Cast, photo: str) -> None:
    client = cast.client("yard_hand")
    for path in (
        "/unit/AAAAAAAAAA/",
        f"/unit/{cast.tilt.public_id}/photo/{photo}/",
        f"/unit/{cast.tilt.public_id}/put-right/1/",
        f"/unit/{cast.utility.public_id}/put-right/99/",
        f"/unit/{cast.utility.public_id}/station/99/",
        f"/unit/{cast.utility.public_id}/check/tires/pressure/left_9/",
    ):
        assert client.get(path).status_code == 404, path
