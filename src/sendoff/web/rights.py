"""Who may do what. Rights are asked for in the fetch helpers and services only; a test walks every page by role."""

from __future__ import annotations

from typing import Final, Literal

from sendoff.web.models import Person

Right = Literal[
    "look", "inspect", "put_right", "waive", "truck", "brief", "office", "sign", "pass_over", "sheet", "tools",
    "people", "export",
]  # fmt: skip

_ALL: Final = frozenset({"yard_hand", "representative", "engineer", "office"})
RIGHTS: Final[dict[Right, frozenset[str]]] = {
    "look": _ALL,
    "inspect": frozenset({"yard_hand", "representative", "engineer"}),
    "put_right": frozenset({"yard_hand", "representative", "engineer"}),
    "waive": frozenset({"representative", "engineer"}),
    "truck": frozenset({"representative", "engineer"}),
    "brief": frozenset({"representative", "engineer"}),
    "office": frozenset({"representative", "office"}),
    "sign": frozenset({"representative", "engineer"}),
    "pass_over": frozenset({"engineer"}),
    "sheet": frozenset({"representative", "engineer", "office"}),
    "tools": frozenset({"engineer"}),
    "people": frozenset({"office"}),
    "export": frozenset({"representative", "engineer", "office"}),
}
SIGNERS: Final = RIGHTS["sign"] | RIGHTS["pass_over"]
"""Roles that sign gate passes: they need a second factor, then a PIN for the shift."""


def may(person: Person, right: Right) -> bool:
    """Tell whether a person's role has a right."""
    return person.is_active and person.role in RIGHTS[right]
