"""The books: what was done to each unit, as chains of entries that nobody can change without its being seen.

This room knows no database and no web, so that anyone with the entries can verify them. A chain alone does not stop
its owner rewriting all of it: the head stands on the owner's copy of the gate pass and in the yard's checkpoints.
"""

from sendoff.books.chain import Broken, Entry, Head, append, begin, first_broken
from sendoff.books.checkpoint import Checkpoint, check_against, first_broken_checkpoint, seal
from sendoff.books.commitments import Commitment, commit, opens

__all__ = [
    "Broken",
    "Checkpoint",
    "Commitment",
    "Entry",
    "Head",
    "append",
    "begin",
    "check_against",
    "commit",
    "first_broken",
    "first_broken_checkpoint",
    "opens",
    "seal",
]
