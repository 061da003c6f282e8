"""Signing in: Argon2, guesses locked out, the second step, the shift, invitations, sessions left alone."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable

import pyotp
import pytest
from django.contrib.auth.hashers import PBKDF2PasswordHasher, make_password
from django.test import Client, override_settings
from django.utils import timezone

from sendoff.web.models import Person, Shift
from sendoff.web.services import people
from tests.web.conftest import PASSWORD, Cast


def sign_in(login: str, password: str, client: Client | None = None, **more: str) -> tuple[Client, int, str]:
    client = client or Client()
    answer = client.post("/sign-in/", {"login": login, "password": password, **more})
    return client, answer.status_code, answer.headers.get("Location", "")


def test_a_true_password_is_hashed_with_argon2id() -> None:
    """RFC 9106 asks for Argon2id; the encoded form names its variant."""
    from sendoff.web import config

    assert config.PASSWORD_HASHERS == ["django.contrib.auth.hashers.Argon2PasswordHasher"]
    with override_settings(PASSWORD_HASHERS=config.PASSWORD_HASHERS):
        assert make_password("x" * 12).startswith("argon2$argon2id$")
    assert PBKDF2PasswordHasher.algorithm not in config.PASSWORD_HASHERS


def test_a_right_password_opens_the_yard_and_the_session_gets_a_new_key(cast: Cast) -> None:
    client = Client()
    client.get("/sign-in/")
    before = client.session.session_key
    _, status, where = sign_in("yard_hand", PASSWORD, client)
    assert (status, where) == (302, "/")
    assert client.session.session_key != before


def test_nobody_is_told_whether_the_name_or_the_password_was_wrong(cast: Cast) -> None:
    def told(login: str) -> str:
        text = Client().post("/sign-in/", {"login": login, "password": "wrong"}).content.decode()
        return re.sub(r'value="[^"]*"', "", text)

    assert told("yard_hand") == told("nobody-here")


def test_five_wrong_passwords_lock_the_door_for_a_quarter_of_an_hour(
    cast: Cast, as_if: Callable[[datetime.datetime], None]
) -> None:
    for _ in range(5):
        assert sign_in("yard_hand", "wrong")[1] == 403
    assert sign_in("yard_hand", PASSWORD)[1] == 403
    assert sign_in("office", PASSWORD)[1] == 302, "another door is open"
    as_if(timezone.now() + datetime.timedelta(minutes=16))
    assert sign_in("yard_hand", PASSWORD)[1] == 302


@pytest.mark.parametrize(
    "address", ["https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)", "\\\\x"]
)
def test_signing_in_leads_nowhere_else(cast: Cast, address: str) -> None:
    assert sign_in("yard_hand", PASSWORD, next=address)[2] == "/"


def test_whoever_signs_passes_sets_up_a_second_step_then_needs_it(cast: Cast) -> None:
    client, _, where = sign_in("representative", PASSWORD)
    assert where == "/second-factor/"
    client.get("/second-factor/")
    secret = client.session["second_factor_secret"]
    assert client.post("/second-factor/", {"code": "000000"}).status_code == 403
    page = client.post("/second-factor/", {"code": pyotp.TOTP(secret).now()}).content.decode()
    codes = re.findall(r"\b[0-9a-f]{6}-[0-9a-f]{6}\b", page)
    assert len(codes) == people.CODES
    fresh, _, where = sign_in("representative", PASSWORD)
    assert where == "/sign-in/code/"
    assert fresh.get("/").status_code == 302, "half signed in is not signed in"
    assert fresh.post("/sign-in/code/", {"code": "123456"}).status_code == 403
    assert fresh.post("/sign-in/code/", {"code": codes[0]}).headers["Location"] == "/shift/"
    again, _, _ = sign_in("representative", PASSWORD)
    assert again.post("/sign-in/code/", {"code": codes[0]}).status_code == 403, "a recovery code works once"


def test_codes_are_those_of_rfc_6238_and_each_works_once(
    cast: Cast, as_if: Callable[[datetime.datetime], None]
) -> None:
    """RFC 6238, appendix B: at 59 s, secret "12345678901234567890", SHA-1: 94287082, of which six digits are 287082."""
    person = cast.people["engineer"]
    person.totp_secret = "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"
    person.save()
    as_if(datetime.datetime.fromtimestamp(59, datetime.UTC))
    assert people.second_factor(person, "287082", "here")
    assert not people.second_factor(person, "287082", "here")


def test_the_shift_code_takes_four_to_eight_figures_and_ends_after_five_wrong_ones(cast: Cast) -> None:
    person = cast.people["engineer"]
    for weak in ("123", "1111", "abcd", "123456789", ""):
        assert not people.begin_shift(person, "key", weak, 8)
    assert people.begin_shift(person, "key", "2580", 8)
    assert people.by_pin(person, "key", "2580")
    assert not people.by_pin(person, "another session", "2580")
    for _ in range(5):
        assert not people.by_pin(person, "key", "9999")
    assert not people.by_pin(person, "key", "2580")
    assert not Shift.objects.exists()


def test_a_shift_ends(cast: Cast, as_if: Callable[[datetime.datetime], None]) -> None:
    person = cast.people["engineer"]
    people.begin_shift(person, "key", "2580", 8)
    as_if(timezone.now() + datetime.timedelta(hours=8, minutes=1))
    assert not people.by_pin(person, "key", "2580")


def test_an_invitation_lets_one_person_in_once(cast: Cast) -> None:
    client = cast.client("office")
    page = client.post(
        "/people/",
        {"name": "N. Ew", "login": "new", "role": "yard_hand", "language": "es", "site": cast.site.pk},
    ).content.decode()
    path = re.search(r"http://testserver(/invitation/[\w-]+/)", page)
    assert path is not None
    new = Client()
    assert new.post(path[1], {"password": "short", "again": "short"}).status_code == 422
    assert new.post(path[1], {"password": "quite long enough", "again": "something else"}).status_code == 422
    assert (
        new.post(path[1], {"password": "quite long enough", "again": "quite long enough"}).status_code == 302
    )
    person = Person.objects.get(login="new")
    assert (person.role, person.language, list(person.sites.all())) == ("yard_hand", "es", [cast.site])
    assert Client().get(path[1]).status_code == 404


def test_what_was_not_asked_for_is_not_taken(cast: Cast) -> None:
    """Mass assignment: fields of the table that the form does not have."""
    client = cast.client("yard_hand")
    client.post(
        "/reading/",
        {
            "language": "es",
            "units": "metric",
            "role": "engineer",
            "is_active": "no",
            "password": "x",
            "name": "X",
        },
    )
    person = Person.objects.get(pk=cast.people["yard_hand"].pk)
    assert (person.language, person.units) == ("es", "metric")
    assert (person.role, person.name, person.is_active) == ("yard_hand", "A. Yard_Hand", True)


def test_a_session_left_alone_ends_and_so_does_that_of_somebody_who_left(
    cast: Cast, as_if: Callable[[datetime.datetime], None]
) -> None:
    client = cast.client("yard_hand")
    assert client.get("/").status_code == 200
    Person.objects.filter(pk=cast.people["yard_hand"].pk).update(is_active=False)
    assert client.get("/").status_code == 302
    client = sign_in("office", PASSWORD)[0]
    assert client.get("/").status_code == 200
    as_if(timezone.now() + datetime.timedelta(minutes=121))
    assert client.get("/").status_code == 302
