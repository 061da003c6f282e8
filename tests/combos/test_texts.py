"""The fixed slice of the proof of texts: every third variant in its slot."""

from __future__ import annotations

import pytest

from proofs.prove_texts import keys, step


@pytest.mark.parametrize("key", keys()[::3])
def test_the_texts_of_a_variant_fill_on_a_unit_that_has_it(key: str) -> None:
    assert int(step(key)["texts read"]) > 100
