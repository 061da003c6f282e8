"""Doing what people do in the yard, for tests: answering a check as its page would."""

from __future__ import annotations

import datetime
import uuid
from typing import Any

from sendoff import display
from sendoff.briefing.inspection import PlannedCheck
from sendoff.web import stock
from sendoff.web.models import Person, Unit
from sendoff.web.services.readings import Answer, read
from sendoff.web.services.writing import Told, told_now

TRUCK = {
    "name": "a pick-up", "gvwr": "10,000 lb", "gcwr": "25,300 lb", "gawr_front": "5,200 lb", "gawr_rear": "6,350 lb",
    "weighed_front": "4,190 lb", "weighed_rear": "2,760 lb", "wheelbase": "160 in",
    "coupling_behind_rear_axle": "50 in",
    "coupling_rating": "12,000 lb", "coupling_vertical_rating": "1,200 lb", "ball": "2 in", "plug": "flat_4",
    "brake_controller": "inertia", "changes": [],
}  # fmt: skip
"""An invented pick-up that tows the utility trailer with room to spare."""
TODAY = datetime.date(2026, 11, 25)


def check_of(unit: Unit, key: str, place: str = "") -> PlannedCheck:
    """Return a check of a unit."""
    return next(one for one in stock.checks(unit) if (one.key, one.place) == (key, place))


def answer(unit: Unit, check: PlannedCheck, by: Person, told: Told | None = None, **more: Any) -> uuid.UUID:
    """Answer a check; return the id of the act."""
    told = told or told_now(by)
    read(unit, check, Answer(**({"outcome": "in_order"} | more)), told, TODAY)
    return told.act


def some_value(check: PlannedCheck) -> str:
    """Return what a tool might show for a check: what is wanted, or one of its unit; nothing where nothing is read."""
    if check.how != "measured" or check.quantity is None:
        return ""
    return check.target_given or f"1 {display.unit_for(check.quantity, 0.1, 'us')}".strip()
