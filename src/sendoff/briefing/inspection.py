"""The inspection: every check of a unit in walking order, place by place, with its bounds in SI, free of any language.

The first miles belong to whoever drives them: their checks are owed after the unit has left, never asked in the yard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from sendoff import display, units
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.brief import standing
from sendoff.briefing.outline import Act, outline
from sendoff.catalogue.fields import State
from sendoff.catalogue.load import Catalogue
from sendoff.catalogue.schema import Check

AFTER_LEAVING: Final[frozenset[State]] = frozenset({"first_miles"})
AT_THE_GATE: Final[frozenset[State]] = frozenset({"coupled", "plugged_in", "loaded"})
"""States that only hold with the very truck that takes it away."""

Judged = Literal["within", "low", "high", "open"]
"""open: a value whose bounds the card says in words; whoever reads it judges."""


@dataclass(frozen=True, slots=True)
class PlannedCheck:
    """One check at one place."""

    key: str
    """slot:check"""
    place: str
    """Id of the place; empty for a check of the whole unit."""
    station: int
    state: State
    how: Literal["seen", "felt", "measured"]
    hands: int
    quantity: str | None
    target_si: float | None
    target_given: str | None
    least_si: float | None
    most_si: float | None
    tool: str | None
    safety: bool
    stale_after_s: float | None

    @property
    def id(self) -> str:
        """Key and place, which name a check within a unit."""
        return f"{self.key}@{self.place}"

    @property
    def slot(self) -> str:
        """The slot whose part is checked."""
        return self.key.partition(":")[0]


def planned(unit: AsBuiltUnit, catalogue: Catalogue) -> tuple[PlannedCheck, ...]:
    """Return every check of a unit in walking order: by state, then station."""
    parts = standing(unit, catalogue.cards)
    walk = outline([(station.id, station.state) for station in unit.stations], parts)
    number_of = {station.id: number for number, station in enumerate(unit.stations, start=1)}
    return tuple(
        one
        for act in walk.acts()
        if act.what == "check"
        for one in _at_places(act, number_of[act.station], unit, catalogue)
    )


def _at_places(act: Act, station: int, unit: AsBuiltUnit, catalogue: Catalogue) -> list[PlannedCheck]:
    check = next(check for check in catalogue.cards[act.card].checks if check.id == act.id)
    target, given = _target(check, act.slot, unit)
    least, most = _bounds(check, target)
    return [
        PlannedCheck(
            key=f"{act.slot}:{act.id}",
            place=place,
            station=station,
            state=act.state,
            how=check.how,
            hands=act.hands,
            quantity=check.quantity,
            target_si=target,
            target_given=given,
            least_si=least,
            most_si=most,
            tool=check.tool,
            safety=check.safety,
            stale_after_s=check.stale_after.si if check.stale_after is not None else None,
        )
        for place in act.places or ("",)
    ]


def _target(check: Check, own_slot: str, unit: AsBuiltUnit) -> tuple[float | None, str | None]:
    if check.target is None:
        return None, None
    slot, dot, name = check.target.rpartition(".")
    part = unit.part(slot if dot else own_slot)
    value = part.values.get(name) if part is not None else None
    return (value.si, value.given) if value is not None else (None, None)


def _bounds(check: Check, target: float | None) -> tuple[float | None, float | None]:
    if target is None or check.quantity is None:
        return None, None
    kind = "temperature_change" if check.quantity == "temperature" else check.quantity

    def off(given: str | None) -> float | None:
        return units.parse(given, kind).si if given is not None else None

    minus, plus = off(check.minus), off(check.plus)
    return (
        target - minus if minus is not None else None,
        target + plus if plus is not None else None,
    )


def as_asked(check: PlannedCheck, unit: str) -> tuple[float | None, float | None]:
    """Return the bounds as somebody meets them who reads in `unit`: not stricter than the rounded values shown.

    110 psi is shown as 758 kPa; whoever reads 758 kPa has what was asked for.
    """
    if check.quantity is None:
        return check.least_si, check.most_si
    kind = check.quantity

    def shown(bound: float) -> float:
        number = display.show(kind, bound, "us", "set_point", unit=unit).number
        return units.to_si(float(number.replace(",", "").replace("\N{MINUS SIGN}", "-")), unit, kind)

    own = (
        units.Quantity(kind, check.target_given, check.target_si or 0.0).unit if check.target_given else unit
    )
    if unit in {own, "ft"}:
        return check.least_si, check.most_si
    least = min(check.least_si, shown(check.least_si)) if check.least_si is not None else None
    most = max(check.most_si, shown(check.most_si)) if check.most_si is not None else None
    return least, most


def judge(si: float, least_si: float | None, most_si: float | None) -> Judged:
    """Return where a reading lies; a value exactly on a bound is within, but for the last bits of a float.

    >>> judge(110.0, 110.0, 115.0), judge(98.0, 110.0, 115.0), judge(116.0, None, 115.0), judge(5.0, None, None)
    ('within', 'low', 'high', 'open')
    """
    if least_si is None and most_si is None:
        return "open"
    if least_si is not None and si < least_si and not math.isclose(si, least_si, rel_tol=1e-9):
        return "low"
    if most_si is not None and si > most_si and not math.isclose(si, most_si, rel_tol=1e-9):
        return "high"
    return "within"
