"""The briefing side by side with the owner: stations ticked by both, show-me questions answered, open ones owed."""

from __future__ import annotations

from sendoff.briefing.model import Briefing
from sendoff.errors import Fault, FaultyInput
from sendoff.web import stock
from sendoff.web.models import BriefingTick, Person, Unit
from sendoff.web.services import facts
from sendoff.web.services.writing import Told, open_books

WHOSE = ("yard", "owner", "driver")


def tick(unit: Unit, what: str, key: str, whose: str, told: Told, *, right: bool = True) -> None:
    """Write that a station was explained or a question answered, by whom it is ticked and whether it was right."""
    briefing = stock.briefing(unit, "en", "us")
    known = (
        {str(one.id) for one in briefing.stations}
        if what == "station"
        else {one.key for one in briefing.questions}
    )
    if key not in known or whose not in WHOSE or not isinstance(told.person, Person):
        raise FaultyInput(Fault("", "key", "", "no_choice", ""))
    with open_books(unit) as book:
        book.once(told, "briefing")
        row = BriefingTick(
            act=told.act,
            unit=book.unit,
            what=what,
            key=key,
            whose=whose,
            right=right,
            by=told.person,
            at=book.at,
        )
        row.save(force_insert=True)
        book.write("briefing", told, facts.tick(row))


def is_right(briefing: Briefing, key: str, chosen: int) -> bool:
    """Tell whether an answer to a question is the right one."""
    question = next((one for one in briefing.questions if one.key == key), None)
    if question is None or not 0 <= chosen < len(question.answers):
        raise FaultyInput(Fault("", "answer", "", "no_choice", ""))
    return question.right == chosen
