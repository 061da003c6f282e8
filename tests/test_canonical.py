"""Canonical JSON against the vectors of RFC 8785 and its author's repository."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import struct

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.canonical import canonical, digest, plain

SAMPLE = (
    r'{"numbers":[1E30,4.50,6,2e-3,0.000000000000000000000000001],'
    r'"escaping":"\u20ac$\u000F\u000aA\u0027\u0042\u0022\u005c\\\"\/","other":[null,true,false]}'
)
"""RFC 8785, author's repository, sample input (read)."""


def test_the_sample_of_the_author_comes_out_byte_for_byte() -> None:
    made = canonical(json.loads(SAMPLE))
    assert (
        hashlib.sha256(made).hexdigest() == "b2794efb7f9d7b29923534cef9f5fdf9d518d5ab691f5c396d069c3a1cdfb47a"
    )
    assert made.decode() == (
        '{"escaping":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/",'
        '"numbers":[1e+30,4.5,6,0.002,1e-27],"other":[null,true,false]}'
    )


@pytest.mark.parametrize(
    ("bits", "text"),
    [
        ("4340000000000001", "9007199254740994"),
        ("4340000000000002", "9007199254740996"),
        ("444b1ae4d6e2ef50", "1e+21"),
        ("3eb0c6f7a0b5ed8d", "0.000001"),
        ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"),
        ("8000000000000000", "0"),
    ],
)
def test_numbers_are_written_as_the_rfc_tests_them(bits: str, text: str) -> None:
    """RFC 8785 test data (read): IEEE 754 bits and their text."""
    value: float = struct.unpack(">d", bytes.fromhex(bits))[0]
    assert canonical(value).decode() == text


def test_keys_are_sorted_by_utf_16_code_units() -> None:
    """RFC 8785, 3.2.3 (read): a sign beyond the first plane comes before one near its end."""
    made = canonical(
        {"€": 1, "\r": 2, "1": 3, "\N{GRINNING FACE}": 4, "\N{HEBREW LETTER DALET WITH DAGESH}": 5}
    )
    assert made.decode() == '{"\\r":2,"1":3,"€":1,"😀":4,"\N{HEBREW LETTER DALET WITH DAGESH}":5}'


def test_the_digest_is_a_public_vector() -> None:
    """A public repository's vector (read)."""
    assert digest({"b": 1, "a": "x", "c": [True, 2]}) == (
        "04ceb95b6eab660e1db5b4cf9e1d8ad320a4772a2a22775bb679d53daabd84f2"
    )


def test_one_and_one_point_nothing_are_the_same_number() -> None:
    assert digest({"a": 1.0}) == digest({"a": 1})


def test_dates_are_texts_and_tuples_are_lists() -> None:
    assert plain({"day": dt.date(2026, 5, 4), "at": dt.time(7, 30), "many": (1, 2)}) == {
        "day": "2026-05-04",
        "at": "07:30:00",
        "many": [1, 2],
    }


values = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | st.floats(-(2**52), 2**52) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)


@given(values)
def test_what_is_written_reads_back_as_it_was(value: object) -> None:
    made = canonical(value)
    assert canonical(json.loads(made)) == made


@given(st.dictionaries(st.text(), st.integers(-1000, 1000), max_size=6))
def test_the_order_of_keys_changes_nothing(value: dict[str, int]) -> None:
    assert digest(dict(reversed(list(value.items())))) == digest(value)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 2**53 + 1, {1.5j}])
def test_what_json_cannot_say_is_refused(value: object) -> None:
    with pytest.raises((ValueError, TypeError)):
        canonical(value)


def test_the_fast_digest_of_a_whole_yard_is_the_canonical_one() -> None:
    from pathlib import Path

    from sendoff.canonical import canonical, canonical_tables
    from sendoff.catalogue.load import load

    catalogue = load(Path(__file__).parents[1] / "examples" / "quillback" / "catalogue")
    assert canonical_tables(dict(catalogue.raw)) == canonical(catalogue.raw)
