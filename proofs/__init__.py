"""Proofs: what is too long for the test command. `python -m proofs` runs every proofs/prove_*.py.

A proof is a module with::

    TITLE = "one sentence: what is proved"

    def keys() -> list[str]:
        '''Name the steps; each can be done alone and in any order.'''

    def step(key: str) -> dict[str, int | float | str]:
        '''Do one step: raise AssertionError where the claim does not hold, return what was counted.'''

and, where figures of all steps add up to something worth saying::

    def conclude(figures: dict[str, dict[str, int | float | str]]) -> str: ...

A step that is done is never done again while package, examples and proofs stay as they are, so a stopped run goes on
where it was. Each proof has a small fixed slice among the tests, which call the same `step`.
"""

from __future__ import annotations
