"""How fast the structure of every legal unit of the gooseneck type is proved, against the bare listing of its sets."""

from __future__ import annotations

import time
from collections.abc import Iterable

from benchmarks import Measure
from proofs.prove_combinations import opened, prove_stretch
from sendoff.asbuilt.fit import combinations

TYPE = "tilt_gooseneck"
A_SECOND = 2000


def measure() -> Iterable[Measure]:
    """Prove them all once, evaluator included, and list the same sets without proving anything."""
    catalogue, _ = opened()
    trailer = catalogue.types[TYPE]
    began = time.process_time()
    legal = sum(1 for _ in combinations(trailer))
    listing = time.process_time() - began
    proved = prove_stretch(TYPE, 0, legal)
    seconds = float(proved["seconds of processor"])
    yield Measure("sets listed", legal / max(listing, 1e-3), "a second", note="peer: listing alone")
    yield Measure(
        "combinations proved",
        legal / seconds,
        "a second",
        at_least=A_SECOND,
        note=f"{legal:,} sets, {proved['make-ups']} make-ups",
    )
