"""Checkpoints over all heads, and people's data as commitments that can be erased."""

from __future__ import annotations

import dataclasses
import hashlib
import hmac

from hypothesis import given
from hypothesis import strategies as st

from sendoff.books import (
    Checkpoint,
    Head,
    append,
    begin,
    check_against,
    commit,
    first_broken_checkpoint,
    opens,
    seal,
)


def checkpoints(count: int) -> list[Checkpoint]:
    made: list[Checkpoint] = []
    for number in range(count):
        heads = [Head(f"UNIT{unit}", number + 1, f"{number}{unit}" * 8) for unit in range(3)]
        made.append(seal(made[-1] if made else None, f"2026-11-25T09:0{number}:00Z", heads))
    return made


def test_checkpoints_as_made_hold() -> None:
    assert first_broken_checkpoint(checkpoints(4)) is None


@given(st.integers(0, 3), st.sampled_from(["at", "previous", "digest", "heads", "number"]))
def test_a_changed_checkpoint_is_named(position: int, field: str) -> None:
    made = checkpoints(4)
    changed = {
        "at": "2026-11-25T10:00:00Z",
        "previous": "0" * 64,
        "digest": "0" * 64,
        "number": 9,
        "heads": {**made[position].heads, "UNIT1": (7, "ff")},
    }
    made[position] = dataclasses.replace(made[position], **{field: changed[field]})  # type: ignore[arg-type]
    broken = first_broken_checkpoint(made)
    assert broken is not None
    assert broken.number == position + 1


def test_a_chain_rewritten_after_a_checkpoint_is_named() -> None:
    _, head = append(begin("UNIT1"), {"read": 98})
    rewritten, _ = append(begin("UNIT1"), {"read": 110})
    sealed = seal(None, "2026-11-25T09:00:00Z", [head])
    broken = check_against(sealed, "UNIT1", {1: rewritten})
    assert broken is not None
    assert (broken.chain, broken.number, broken.why) == ("UNIT1", 1, "checkpoint")


@given(st.text(max_size=40), st.text(max_size=40))
def test_a_commitment_opens_with_its_own_value_only(value: str, other: str) -> None:
    one = commit(value)
    assert opens(one.digest, one.salt, value)
    assert opens(one.digest, one.salt, other) == (value == other)


def test_equal_values_do_not_look_equal_and_the_digest_is_hmac_of_rfc_2104() -> None:
    one, two = commit("A. Ruiz"), commit("A. Ruiz")
    assert one.digest != two.digest
    by_hand = hmac.new(bytes.fromhex(one.salt), b"sendoff commitment 1\nA. Ruiz", hashlib.sha256)
    assert one.digest == by_hand.hexdigest()
