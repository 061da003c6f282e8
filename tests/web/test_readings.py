"""Answers to checks: kept as entered, judged by the card's bounds; skipped with a reason; conflicts are kept."""

from __future__ import annotations

import datetime
import uuid
from collections.abc import Callable
from typing import Any

import pytest
from django.utils import timezone

from sendoff import units
from sendoff.errors import FaultyInput
from sendoff.web.models import CheckStanding, Link, PutRightItem, Reading, Tool
from sendoff.web.queries.standing import unit_now
from sendoff.web.services.writing import NotYours, Told, told_now
from tests.web.conftest import Cast
from tests.web.doing import answer, check_of


@pytest.fixture
def pressure(cast: Cast) -> Any:
    return check_of(cast.utility, "tires:pressure", "left_1")


def gauge(cast: Cast) -> Tool:
    return cast.tools["tire_gauge"]


def test_a_reading_is_kept_as_entered_beside_its_si_value(cast: Cast, pressure: Any) -> None:
    """65 psi is 448 159 Pa (NIST SP 811, 1 psi = 6 894.757 Pa)."""
    act = answer(
        cast.utility, pressure, cast.people["yard_hand"], given=pressure.target_given, tool=gauge(cast)
    )
    row = Reading.objects.get(pk=act)
    assert row.given == pressure.target_given
    assert row.si == pytest.approx(float(pressure.target_given.split()[0]) * 6894.757, rel=1e-6)
    assert row.outcome == "in_order"


@pytest.mark.parametrize(("less", "outcome"), [(0.0, "in_order"), (1.0, "not_in_order")])
def test_the_bound_decides_not_the_button(cast: Cast, pressure: Any, less: float, outcome: str) -> None:
    wanted = units.from_si(pressure.least_si, "psi", "pressure")
    act = answer(
        cast.utility, pressure, cast.people["yard_hand"], given=f"{wanted - less:.0f} psi", tool=gauge(cast)
    )
    assert Reading.objects.get(pk=act).outcome == outcome
    assert PutRightItem.objects.filter(unit=cast.utility).count() == (outcome == "not_in_order")


def test_the_same_act_sent_twice_is_written_once(cast: Cast, pressure: Any) -> None:
    told = told_now(cast.people["yard_hand"])
    for _ in range(3):
        answer(cast.utility, pressure, told.person, told, given="65 psi", tool=gauge(cast))  # type: ignore[arg-type]
    assert Reading.objects.filter(unit=cast.utility).count() == 1
    assert Link.objects.filter(unit=cast.utility, kind="reading").count() == 1


def test_an_act_s_id_cannot_be_used_by_somebody_else(cast: Cast, pressure: Any) -> None:
    told = told_now(cast.people["yard_hand"])
    answer(cast.utility, pressure, cast.people["yard_hand"], told, given="65 psi", tool=gauge(cast))
    stolen = Told(told.act, cast.people["engineer"], told.taken_at)
    with pytest.raises(NotYours):
        answer(cast.utility, pressure, cast.people["engineer"], stolen, given="60 psi", tool=gauge(cast))


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"given": ""}, "no_value"),
        ({"given": "65 psi"}, "no_tool"),
        ({"outcome": "skipped"}, "no_reason"),
        ({"given": "65 lb"}, "not a unit of pressure"),
    ],
)
def test_what_is_missing_is_refused_and_nothing_is_written(
    cast: Cast, pressure: Any, more: dict[str, Any], why: str
) -> None:
    if more.get("given") == "65 lb":
        more = {**more, "tool": gauge(cast)}
    before = Link.objects.count()
    with pytest.raises(FaultyInput) as refused:
        answer(cast.utility, pressure, cast.people["yard_hand"], **more)
    assert why in refused.value.faults[0].problem
    assert Link.objects.count() == before


def test_a_lapsed_tool_and_a_tool_of_another_kind_give_no_reading(cast: Cast, pressure: Any) -> None:
    lapsed = Tool.objects.create(
        site=cast.site, code="G-9", kind="tire_gauge", good_until=datetime.date(2026, 11, 24)
    )
    for tool, why in ((lapsed, "lapsed_tool"), (cast.tools["torque_wrench"], "other_tool")):
        with pytest.raises(FaultyInput) as refused:
            answer(cast.utility, pressure, cast.people["yard_hand"], given="65 psi", tool=tool)
        assert refused.value.faults[0].problem == why
    lapsed.good_until = datetime.date(2026, 11, 25)
    lapsed.save()
    answer(cast.utility, pressure, cast.people["yard_hand"], given="65 psi", tool=lapsed)


def test_a_check_for_two_needs_the_other_one(cast: Cast) -> None:
    check = check_of(cast.utility, "lamps:running_lit")
    hand = cast.people["yard_hand"]
    for second in (None, hand):
        with pytest.raises(FaultyInput) as refused:
            answer(cast.utility, check, hand, second=second)
        assert refused.value.faults[0].problem == "no_second"
    answer(cast.utility, check, hand, second=cast.people["second_hand"])


def test_a_reading_goes_stale_by_its_card_s_time(
    cast: Cast, pressure: Any, as_if: Callable[[datetime.datetime], None]
) -> None:
    """The demo card: cold pressure goes stale after 48 hours."""
    answer(cast.utility, pressure, cast.people["yard_hand"], given="65 psi", tool=gauge(cast))
    start = timezone.now()
    assert pressure.stale_after_s == 48 * 3600

    def standing(hours: float) -> str:
        as_if(start + datetime.timedelta(hours=hours))
        return next(one.standing for one in unit_now(cast.utility).checks if one.check == pressure)

    assert [standing(hours) for hours in (1, 47.9, 48.1)] == ["in_order", "in_order", "stale"]


def test_two_who_did_not_know_of_each_other_are_both_kept_and_the_worse_counts(
    cast: Cast, pressure: Any
) -> None:
    one, other = cast.people["yard_hand"], cast.people["second_hand"]
    low = answer(cast.utility, pressure, one, given="50 psi", tool=gauge(cast))
    high = answer(cast.utility, pressure, other, given="65 psi", tool=gauge(cast))
    standing = CheckStanding.objects.get(unit=cast.utility, check_key="tires:pressure", place="left_1")
    assert {standing.reading_id, standing.against_id} == {low, high}
    assert standing.outcome == "not_in_order"
    answer(cast.utility, pressure, one, given="65 psi", tool=gauge(cast), saw=high)
    standing.refresh_from_db()
    assert (standing.against_id, standing.outcome) == (None, "in_order")


def test_whoever_has_seen_the_last_reading_makes_no_conflict(cast: Cast, pressure: Any) -> None:
    first = answer(cast.utility, pressure, cast.people["yard_hand"], given="66 psi", tool=gauge(cast))
    answer(cast.utility, pressure, cast.people["second_hand"], given="65 psi", tool=gauge(cast), saw=first)
    assert CheckStanding.objects.get(check_key="tires:pressure", place="left_1").against_id is None


def test_ids_of_two_acts_are_never_the_same() -> None:
    assert told_now(None).act != told_now(None).act
    assert told_now(None).act.version == uuid.uuid4().version
