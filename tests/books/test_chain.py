"""Chains: whatever is changed, dropped, swapped or put in is found, and the first broken link is named.

Held against the standards themselves: canonical JSON by RFC 8785 and SHA-256 by FIPS 180-4, done here by hand for one
entry; the rest are properties over any chain.
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from sendoff.books import Entry, Head, append, begin, first_broken

CHAIN = "7KQ4MZ2XPA"
SAID = st.dictionaries(
    st.text(max_size=6),
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | st.text(max_size=12),
)


def chain_of(bodies: list[dict[str, Any]]) -> tuple[list[Entry], Head]:
    head = begin(CHAIN)
    entries = []
    for body in bodies:
        entry, head = append(head, body)
        entries.append(entry)
    return entries, head


def by_hand(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def test_the_first_two_entries_are_what_the_standards_make_of_them() -> None:
    """RFC 8785: keys sorted, no spaces; FIPS 180-4: SHA-256. Written out here without our own code."""
    genesis = by_hand('sendoff chain genesis 1\n{"chain":"7KQ4MZ2XPA","format":1}')
    entries, _ = chain_of([{"b": 1, "a": "ñ"}, {}])
    assert entries[0].body == '{"a":"ñ","b":1}'
    body = json.dumps(entries[0].body, ensure_ascii=False)
    first = by_hand(
        f'sendoff chain entry 1\n{{"body":{body},"chain":"7KQ4MZ2XPA","number":1,"previous":"{genesis}"}}'
    )
    assert entries[0].previous == genesis
    assert entries[0].digest == first == entries[1].previous


@given(st.lists(SAID, max_size=6))
def test_a_chain_as_written_holds(bodies: list[dict[str, Any]]) -> None:
    entries, head = chain_of(bodies)
    assert first_broken(CHAIN, entries, head) is None
    assert [entry.told() for entry in entries] == bodies


@given(st.lists(SAID, min_size=1, max_size=5), st.data())
def test_any_changed_byte_of_any_entry_is_found_at_that_entry(
    bodies: list[dict[str, Any]], data: st.DataObject
) -> None:
    entries, head = chain_of(bodies)
    position = data.draw(st.integers(0, len(entries) - 1))
    field = data.draw(st.sampled_from(["body", "previous", "digest"]))
    text: str = getattr(entries[position], field)
    spot = data.draw(st.integers(0, len(text) - 1))
    other = data.draw(st.characters(codec="utf-8").filter(lambda sign: sign != text[spot]))
    changed = dataclasses.replace(entries[position], **{field: text[:spot] + other + text[spot + 1 :]})  # type: ignore[arg-type]
    spoiled = [*entries[:position], changed, *entries[position + 1 :]]
    broken = first_broken(CHAIN, spoiled, head)
    assert broken is not None
    assert broken.number == position + 1


@given(st.lists(SAID, min_size=1, max_size=5), st.data())
def test_a_dropped_entry_is_found_also_at_the_end(bodies: list[dict[str, Any]], data: st.DataObject) -> None:
    entries, head = chain_of(bodies)
    position = data.draw(st.integers(0, len(entries) - 1))
    broken = first_broken(CHAIN, entries[:position] + entries[position + 1 :], head)
    assert broken is not None
    assert broken.number == position + 1


@given(st.lists(SAID, min_size=2, max_size=6), st.data())
def test_swapped_entries_are_found_at_the_first_of_them(
    bodies: list[dict[str, Any]], data: st.DataObject
) -> None:
    entries, head = chain_of(bodies)
    one, other = sorted(
        data.draw(st.lists(st.integers(0, len(entries) - 1), min_size=2, max_size=2, unique=True))
    )
    swapped = list(entries)
    swapped[one], swapped[other] = swapped[other], swapped[one]
    broken = first_broken(CHAIN, swapped, head)
    assert broken is not None
    assert broken.number == one + 1


@given(st.lists(SAID, max_size=5), SAID, st.data())
def test_an_entry_put_in_is_found(
    bodies: list[dict[str, Any]], extra: dict[str, Any], data: st.DataObject
) -> None:
    entries, head = chain_of(bodies)
    position = data.draw(st.integers(0, len(entries)))
    before = Head(CHAIN, position, entries[position - 1].digest) if position else begin(CHAIN)
    put_in, _ = append(before, extra)
    broken = first_broken(CHAIN, [*entries[:position], put_in, *entries[position:]], head)
    # one that says the very same is the old entry: what then stands twice is the one after it
    assert broken is not None
    assert broken.number in {position + 1, position + 2}


def test_a_chain_of_another_unit_does_not_pass_for_this_one() -> None:
    entries, _ = chain_of([{"a": 1}])
    broken = first_broken("OTHERUNIT2", entries)
    assert broken is not None
    assert (broken.number, broken.why) == (1, "previous")


def test_a_chain_rewritten_as_a_whole_is_found_only_by_its_head_kept_elsewhere() -> None:
    """What a chain cannot do, said so that nobody believes it can."""
    _, head = chain_of([{"read": 98}])
    rewritten, _ = chain_of([{"read": 110}])
    assert first_broken(CHAIN, rewritten) is None
    broken = first_broken(CHAIN, rewritten, head)
    assert broken is not None
    assert (broken.number, broken.why) == (1, "head")
