"""Canonical JSON (RFC 8785) and digests of it: the same content gives the same bytes on every machine."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Mapping
from typing import Any


def plain(value: Any) -> Any:
    """Return tables as JSON knows them: dates and times as text, tuples as lists."""
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return value.isoformat() if isinstance(value, datetime.date | datetime.time) else value


def canonical(value: Any) -> bytes:
    """Return the canonical JSON of a value."""
    import rfc8785

    return rfc8785.dumps(plain(value))


def canonical_tables(tables: Any) -> bytes:
    """Return the canonical JSON of tables that hold no decimals, as files of a yard never do.

    Without decimals the fast encoder writes the same bytes as RFC 8785 asks for; a test holds the two together.
    """
    import msgspec

    return msgspec.json.encode(tables, order="sorted")


def digest(value: Any) -> str:
    """Return the SHA-256 of the canonical JSON of a value, in hexadecimal.

    >>> digest({"b": 1, "a": "x"}) == digest({"a": "x", "b": 1})
    True
    """
    return hashlib.sha256(canonical(value)).hexdigest()


def digest_of_tables(tables: Any) -> str:
    """Return the same digest for tables that hold no decimals, faster.

    >>> digest_of_tables({"b": [1, True], "a": "é"}) == digest({"a": "é", "b": [1, True]})
    True
    """
    return hashlib.sha256(canonical_tables(tables)).hexdigest()
