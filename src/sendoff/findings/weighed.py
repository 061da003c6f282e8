"""What a unit weighs empty, and how much of that stands on its coupling: from scale tickets, else from its plate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from sendoff.asbuilt.unit import AsBuiltUnit, Weighing

UNWEIGHED_RATIO: Final = 0.05
"""How far a plate's empty weight may be off where nobody weighed the unit: a house rule, no source (options add
300 to 1,500 lb over a brochure, common practice)."""


@dataclass(frozen=True, slots=True)
class Empty:
    """A unit without cargo."""

    mass_kg: float
    error_kg: float
    weighed: bool
    coupling_kg: float | None
    """None where neither a ticket nor the plate tells it."""
    coupling_weighed: bool

    def center_x_m(self, axle_group_x_m: float) -> float | None:
        """Return how far behind the coupling its center of mass lies; None where the coupling's share is not known."""
        if self.coupling_kg is None:
            return None
        return axle_group_x_m * (1 - self.coupling_kg / self.mass_kg)


def last(weighings: Sequence[Weighing], what: str, state: str) -> Weighing | None:
    """Return the last ticket of its kind, taken uncoupled."""
    found = [
        ticket for ticket in weighings if ticket.what == what and ticket.state == state and not ticket.coupled
    ]
    return found[-1] if found else None


def error_of(ticket: Weighing) -> float:
    """Return how far a ticket's scale may be off [kg]."""
    return (ticket.error.si or 0.0) if ticket.error is not None else 0.0


def empty_of(unit: AsBuiltUnit) -> Empty | None:
    """Return what a unit weighs empty; None where the plate's own figure is no number."""
    whole = last(unit.weighings, "whole", "empty")
    told = whole.mass.si if whole is not None else unit.plate.empty_mass.si
    if not told:
        return None
    error = error_of(whole) if whole is not None else UNWEIGHED_RATIO * told
    coupling = _coupling_weighed(unit, whole)
    if coupling is not None:
        return Empty(told, error, whole is not None, coupling, coupling_weighed=True)
    share = unit.plate.empty_coupling_share
    by_plate = share.si * told if share is not None and share.si is not None else None
    return Empty(told, error, whole is not None, by_plate, coupling_weighed=False)


def _coupling_weighed(unit: AsBuiltUnit, whole: Weighing | None) -> float | None:
    """Return the coupling's ticket, or the whole less the axles where both were weighed."""
    coupling = last(unit.weighings, "coupling", "empty")
    if coupling is not None:
        return coupling.mass.si
    axles = last(unit.weighings, "axle_group", "empty")
    if whole is None or axles is None or whole.mass.si is None or axles.mass.si is None:
        return None
    return whole.mass.si - axles.mass.si


def axle_group_x_m(unit: AsBuiltUnit) -> float:
    """Return how far behind the coupling the middle of the axles lies."""
    places = unit.geometry.axles.x_m
    return sum(places) / len(places)
