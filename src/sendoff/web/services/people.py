"""People: signing in, guesses counted, the second factor and its recovery codes, the PIN of a shift, invitations."""

from __future__ import annotations

import datetime
import hashlib
import secrets
from typing import Final

import pyotp
from django.contrib.auth import authenticate
from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction
from django.utils import timezone

from sendoff.web.models import Guess, Invitation, Person, Shift, Site

MOST_GUESSES: Final = {"login": 5, "from": 60, "pin": 5}
WATCHED: Final = datetime.timedelta(minutes=15)
LOCKED: Final = datetime.timedelta(minutes=15)
INVITED_FOR: Final = datetime.timedelta(days=7)
CODES: Final = 8
STEP_S: Final = 30
PIN_SIGNS: Final = range(4, 9)


# ── guesses ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def locked(*keys: str) -> bool:
    """Tell whether any of these doors is locked now."""
    return Guess.objects.filter(key__in=keys, locked_until__gt=timezone.now()).exists()


def guessed(*keys: str) -> None:
    """Count a wrong try at each of these doors; too many within a quarter of an hour lock it for as long."""
    now = timezone.now()
    for key in keys:
        with transaction.atomic():
            row, _ = Guess.objects.select_for_update().get_or_create(key=key, defaults={"since": now})
            if now - row.since > WATCHED:
                row.count, row.since = 0, now
            row.count += 1
            if row.count >= MOST_GUESSES[key.partition(":")[0]]:
                row.locked_until, row.count, row.since = now + LOCKED, 0, now
            row.save()


def forgive(key: str) -> None:
    """Forget the wrong tries at a door."""
    Guess.objects.filter(key=key).delete()


def by_password(login: str, password: str, place: str) -> Person | None:
    """Return who signs in; None for a wrong name or password, or a locked door: nobody is told which."""
    login = login.strip().lower()[:80]
    doors = f"login:{login}", f"from:{place}"
    if locked(*doors):
        make_password(password)  # as slow as a true try
        return None
    found = authenticate(username=login, password=password)
    if not isinstance(found, Person):
        guessed(*doors)
        return None
    forgive(doors[0])
    return found


# ── second factor ───────────────────────────────────────────────────────────────────────────────────────────────────


def new_secret() -> str:
    """Return a fresh secret for an authenticator."""
    return pyotp.random_base32()


def address_of(person: Person, secret: str) -> str:
    """Return the otpauth:// address an authenticator reads from the QR code."""
    return pyotp.TOTP(secret).provisioning_uri(name=person.login, issuer_name="Sendoff")


def code_step(secret: str, code: str, after: int = 0) -> int | None:
    """Return the time step a code belongs to (this one or a neighbor, RFC 6238), None if it belongs to none."""
    code = "".join(code.split())
    now = int(timezone.now().timestamp()) // STEP_S
    generator = pyotp.TOTP(secret)
    for step in (now, now - 1, now + 1):
        if step > after and secrets.compare_digest(generator.at(step * STEP_S), code):
            return step
    return None


def set_up_second_factor(person: Person, secret: str, code: str) -> list[str] | None:
    """Keep the secret once a code proves that the authenticator has it; return the recovery codes."""
    step = code_step(secret, code)
    if step is None:
        return None
    codes = [f"{secrets.token_hex(3)}-{secrets.token_hex(3)}" for _ in range(CODES)]
    person.totp_secret, person.totp_last_step = secret, step
    person.recovery = [_digest(one) for one in codes]
    person.save(update_fields=["totp_secret", "totp_last_step", "recovery"])
    return codes


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def second_factor(person: Person, code: str, place: str) -> bool:
    """Take a code of the authenticator, or a recovery code, each once; wrong ones are counted as guesses."""
    doors = f"login:{person.login}", f"from:{place}"
    if locked(*doors):
        return False
    with transaction.atomic():
        row = Person.objects.select_for_update().get(pk=person.pk)
        step = code_step(row.totp_secret, code, row.totp_last_step) if row.totp_secret else None
        if step is not None:
            row.totp_last_step = step
            row.save(update_fields=["totp_last_step"])
            return True
        digest = _digest(code.strip().lower())
        if digest in row.recovery:
            row.recovery = [kept for kept in row.recovery if kept != digest]
            row.save(update_fields=["recovery"])
            return True
    guessed(*doors)
    return False


# ── the shift ───────────────────────────────────────────────────────────────────────────────────────────────────────


def begin_shift(person: Person, session: str, pin: str, hours: int) -> bool:
    """Keep a PIN for this shift on this phone."""
    if not (pin.isdecimal() and len(pin) in PIN_SIGNS and len(set(pin)) > 1):
        return False
    ends = timezone.now() + datetime.timedelta(hours=hours)
    Shift.objects.update_or_create(
        session=_digest(session),
        defaults={"person": person, "pin": make_password(pin), "ends": ends, "wrong": 0},
    )
    return True


def on_shift(person: Person, session: str) -> bool:
    """Tell whether a shift runs on this phone."""
    return Shift.objects.filter(session=_digest(session), person=person, ends__gt=timezone.now()).exists()


def by_pin(person: Person, session: str, pin: str) -> bool:
    """Take the PIN of the shift; after a few wrong ones the shift has ended."""
    with transaction.atomic():
        shift = (
            Shift.objects.select_for_update()
            .filter(session=_digest(session), person=person, ends__gt=timezone.now())
            .first()
        )
        if shift is None:
            return False
        if check_password(pin, shift.pin):
            shift.wrong = 0
            shift.save()
            return True
        shift.wrong += 1
        if shift.wrong >= MOST_GUESSES["pin"]:
            shift.delete()
        else:
            shift.save()
    return False


# ── invitations ─────────────────────────────────────────────────────────────────────────────────────────────────────


def invite(name: str, login: str, role: str, language: str, site: Site, by: Person | None) -> str:
    """Return the token of a new invitation; only its digest is kept."""
    token = secrets.token_urlsafe(24)
    Invitation.objects.create(
        digest=_digest(token), name=name.strip(), login=login.strip().lower(), role=role, language=language, site=site,
        by=by, ends=timezone.now() + INVITED_FOR,
    )  # fmt: skip
    return token


def invitation(token: str) -> Invitation | None:
    """Return an invitation that still holds."""
    return Invitation.objects.filter(digest=_digest(token), used=None, ends__gt=timezone.now()).first()


def accept(token: str, password: str) -> Person | None:
    """Let somebody in by their invitation, once."""
    with transaction.atomic():
        found = (
            Invitation.objects.select_for_update()
            .filter(digest=_digest(token), used=None, ends__gt=timezone.now())
            .first()
        )
        if found is None or Person.objects.filter(login=found.login).exists():
            return None
        person = Person.objects.make(found.login, found.name, found.role, password, language=found.language)
        person.sites.add(found.site)
        found.used = timezone.now()
        found.save()
    return person
