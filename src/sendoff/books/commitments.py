"""People's data in the books: the chain holds a salted digest, the value lives where it can be erased.

Once salt and value are erased, what is left in the chain says nothing about anybody, and the chain still holds.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from typing import Final

_COMMITMENT: Final = b"sendoff commitment 1\n"
SALT_BYTES: Final = 32


@dataclass(frozen=True, slots=True)
class Commitment:
    """What the chain keeps (`digest`) and what is kept beside it, to be erased on request (`salt`, `value`)."""

    digest: str
    salt: str
    value: str


def commit(value: str, salt: str | None = None) -> Commitment:
    """Return the commitment to a value, under a salt of its own so that equal values do not look equal."""
    salt = salt or secrets.token_hex(SALT_BYTES)
    return Commitment(_digest(value, salt), salt, value)


def opens(digest: str, salt: str, value: str) -> bool:
    """Tell whether a value and its salt are what was committed to.

    >>> one = commit("M. Ibarra")
    >>> opens(one.digest, one.salt, one.value), opens(one.digest, one.salt, "N. Ibarra")
    (True, False)
    """
    return hmac.compare_digest(_digest(value, salt), digest)


def _digest(value: str, salt: str) -> str:
    return hmac.new(bytes.fromhex(salt), _COMMITMENT + value.encode(), hashlib.sha256).hexdigest()
