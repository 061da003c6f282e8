"""The gate pass: refused with every reason, signed when none is left, frozen, taken back, left, owed."""

from __future__ import annotations

import datetime
import json
from typing import Any

import pytest
from django.utils import timezone

from sendoff.briefing.inspection import AFTER_LEAVING
from sendoff.errors import FaultyInput
from sendoff.web import lists, stock
from sendoff.web.models import GatePass, PersonalValue, Tool, Unit
from sendoff.web.queries import gate
from sendoff.web.services import audit, people, photos, truck
from sendoff.web.services import gate as service
from sendoff.web.services.writing import told_now
from tests.web.conftest import Cast
from tests.web.doing import TODAY, TRUCK, answer, some_value
from tests.web.test_rights import picture

DAY = "2026-11-24"


def values_of(unit: Unit, line: str) -> dict[str, str]:
    """What somebody honest writes for a line."""
    by_kind = {
        "text": "something", "past_day": DAY, "day": "2099-01-01", "vin": unit.vin, "last_six": unit.vin[-6:],
        "yes": "yes", "choice": "empty",
    }  # fmt: skip
    fields = gate.rule(line)["fields"]
    return {one["id"]: by_kind[one["kind"]] for one in fields if one["kind"] in by_kind}


def say(cast: Cast, line: str, **more: Any) -> None:
    unit, engineer = cast.utility, cast.people["representative"]
    photo = photos.keep(unit, picture(), engineer)
    said: dict[str, Any] = {
        "line": line,
        "answer": "yes",
        "values": values_of(unit, line),
        "photo": photo,
    } | more
    given = service.Given(**said, today=TODAY)
    service.give(unit, given, told_now(engineer))


def inspect(cast: Cast) -> None:
    hand, second = cast.people["yard_hand"], cast.people["second_hand"]
    tools = {tool.kind: tool for tool in Tool.objects.all()}
    for check in stock.checks(cast.utility):
        if not check.safety or check.state in AFTER_LEAVING or check.state == "loaded":
            continue
        if check.tool is not None and check.tool not in tools:
            tools[check.tool] = Tool.objects.create(
                site=cast.site, code=f"X-{check.tool}"[:20], kind=check.tool
            )
        given = some_value(check)
        answer(
            cast.utility, check, hand, given=given, tool=tools.get(check.tool or ""),
            second=second if check.hands == 2 else None,
        )  # fmt: skip


def make_ready(cast: Cast, *, but: str = "") -> None:
    """Put every line of the utility trailer's pass in order, but one."""
    unit = cast.utility
    if but != "safety_checks":
        inspect(cast)
    for item in stock.briefing(unit, "en", "us").loose_items:
        if but != "loose_items":
            service.count_loose(unit, item.key, item.count, told_now(cast.people["yard_hand"]))
    for line in gate.lines_of(unit.collects):
        if gate.rule(line)["kind"] == "fact" and line != but:
            say(cast, line)
    if but != "truck_check":
        truck.keep(unit, TRUCK, "ABC 123", told_now(cast.people["engineer"]), at_gate=True)


def holding(cast: Cast) -> list[str]:
    return [line.id for line in gate.gate_now(Unit.objects.get(pk=cast.utility.pk)).holding]


def test_a_fresh_unit_is_held_by_every_line_but_the_empty_list(cast: Cast) -> None:
    lines = list(gate.lines_of(cast.utility.collects))
    assert holding(cast) == [line for line in lines if line != "put_right"]


def test_a_refused_pass_names_every_line_that_holds(cast: Cast) -> None:
    with pytest.raises(FaultyInput) as refused:
        service.sign(cast.utility, told_now(cast.people["engineer"]))
    assert [fault.key for fault in refused.value.faults] == holding(cast)
    assert not GatePass.objects.exists()


@pytest.mark.parametrize(
    "line", ["safety_checks", "loose_items", "truck_check", "paid", "right_trailer", "recall"]
)
def test_one_missing_line_is_enough_to_hold_it(cast: Cast, line: str) -> None:
    make_ready(cast, but=line)
    assert holding(cast) == [line]
    with pytest.raises(FaultyInput):
        service.sign(cast.utility, told_now(cast.people["engineer"]))


def test_signed_frozen_left_and_owed(cast: Cast) -> None:
    make_ready(cast)
    assert holding(cast) == []
    made = service.sign(cast.utility, told_now(cast.people["engineer"]))
    frozen = json.loads(photos.path_of(made.frozen.digest).read_bytes())
    assert frozen["unit"]["vin"] == cast.utility.vin
    assert set(frozen["briefing"]) == {"en", "es"}
    unit = Unit.objects.get(pk=cast.utility.pk)
    assert (unit.waits_for, unit.turn) == ("nothing", "nobody")
    service.leave(unit, told_now(cast.people["engineer"]))
    unit.refresh_from_db()
    assert unit.waits_for == "gone"
    retorque = unit.debts.filter(kind="retorque").order_by("at_miles").values_list("at_miles", "who")
    assert list(retorque) == [(10, "driver"), (25, "driver"), (50, "driver"), (500, "owner")]
    assert unit.debts.filter(kind="question").count() == len(stock.briefing(unit, "en", "us").questions)
    debt = unit.debts.filter(kind="call").order_by("at_miles")[0]
    service.pay(debt, "all well, nuts read at 10 and 25", told_now(cast.people["office"]))
    assert list(audit.audit()) == []
    with pytest.raises(FaultyInput) as refused:
        service.count_loose(unit, "chains:chains_on", 1, told_now(cast.people["yard_hand"]))
    assert refused.value.faults[0].problem in {"it_has_left", "no_choice"}


def test_a_pass_runs_out_and_can_be_taken_back(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    make_ready(cast)
    engineer = cast.people["engineer"]
    made = service.sign(cast.utility, told_now(engineer))
    with pytest.raises(FaultyInput) as refused:
        service.sign(cast.utility, told_now(engineer))
    assert refused.value.faults[0].problem == "pass_is_signed"
    service.take_back(cast.utility, "another driver came", told_now(engineer))
    made.refresh_from_db()
    assert made.taken_back is not None
    with pytest.raises(FaultyInput) as refused:
        service.leave(cast.utility, told_now(engineer))
    assert refused.value.faults[0].problem == "no_pass"
    again = service.sign(cast.utility, told_now(engineer))
    late = timezone.now() + datetime.timedelta(hours=lists.read("gate_pass")["good_for_h"], minutes=1)
    monkeypatch.setattr("django.utils.timezone.now", lambda: late)
    with pytest.raises(FaultyInput):
        service.leave(cast.utility, told_now(engineer))
    assert again.number == 2


@pytest.mark.parametrize(
    ("line", "field", "value", "why"),
    [
        ("origin", "vin_plate", "1X9SF081XTYKB4019", "other_vin"),
        ("right_trailer", "last_six", "000000", "other_trailer"),
        ("tag", "runs_out", "2026-11-24", "day_is_past"),
        ("recall", "asked_on", "2026-11-26", "day_to_come"),
        ("recall", "nothing_open", "", "not_ticked"),
        ("paid", "cleared_on", "", "needed"),
        ("load", "loaded", "half", "no_choice"),
    ],
)
def test_a_value_that_cannot_be_is_refused(cast: Cast, line: str, field: str, value: str, why: str) -> None:
    with pytest.raises(FaultyInput) as refused:
        say(cast, line, values=values_of(cast.utility, line) | {field: value})
    assert [(fault.key, fault.problem) for fault in refused.value.faults] == [(field, why)]


def test_a_no_holds_and_needs_its_reason(cast: Cast) -> None:
    with pytest.raises(FaultyInput):
        say(cast, "paid", answer="no", values={})
    say(cast, "paid")
    assert "paid" not in holding(cast)
    say(cast, "paid", answer="no", values={"reason": "the bank called it back"})
    assert "paid" in holding(cast)


def test_an_engineer_passes_over_a_line_for_good_but_never_a_safety_item(cast: Cast) -> None:
    make_ready(cast, but="tag")
    engineer = cast.people["engineer"]
    for line, why in (("put_right", "never_passed_over"), ("right_trailer", "never_passed_over")):
        with pytest.raises(FaultyInput) as refused:
            service.pass_over(cast.utility, line, "a reason that is long enough", told_now(engineer))
        assert refused.value.faults[0].problem == why
    with pytest.raises(FaultyInput):
        service.pass_over(cast.utility, "tag", "short", told_now(engineer))
    service.pass_over(cast.utility, "tag", "dealer plate 12 goes along", told_now(engineer))
    made = service.sign(cast.utility, told_now(engineer))
    assert made.passed_over == [{"line": "tag", "reason": "dealer plate 12 goes along", "by": engineer.pk}]


def test_a_truck_that_passes_a_limit_holds_it(cast: Cast) -> None:
    make_ready(cast)
    weak = {**TRUCK, "coupling_rating": "1,000 lb"}
    truck.keep(cast.utility, weak, "XYZ 9", told_now(cast.people["engineer"]), at_gate=True)
    assert holding(cast) == ["truck_check"]


def test_a_changed_truck_that_was_not_weighed_is_not_known(cast: Cast) -> None:
    unweighed = {**TRUCK, "weighed_front": "", "weighed_rear": "", "changes": ["lift_kit"]}
    truck.keep(cast.utility, unweighed, "XYZ 9", told_now(cast.people["engineer"]), at_gate=True)
    assert cast.utility.truck_checks.get().verdict == "unknown"


def test_what_the_owner_owes_holds_nothing(cast: Cast) -> None:
    make_ready(cast)
    assert not cast.utility.ticks.exists()
    assert service.sign(cast.utility, told_now(cast.people["engineer"])).number == 1


def test_against_thieves_by_paper_the_code_must_be_the_one_that_was_sent(cast: Cast) -> None:
    Unit.objects.filter(pk=cast.utility.pk).update(collects="carrier")
    cast.utility.refresh_from_db()
    lines = gate.lines_of("carrier")
    assert {"code_sent", "call_back", "pick_up_code", "license", "tractor", "cargo_cover"} <= set(lines)
    with pytest.raises(FaultyInput) as refused:
        say(cast, "pick_up_code", values={"code": "000000"})
    assert refused.value.faults[0].problem == "other_code"
    say(cast, "code_sent")
    code = PersonalValue.objects.get(field="code").value
    wrong = f"{(int(code) + 1) % 1_000_000:06d}"
    with pytest.raises(FaultyInput):
        say(cast, "pick_up_code", values={"code": wrong})
    say(cast, "pick_up_code", values={"code": f"{code[:3]} {code[3:]}"})
    assert "pick_up_code" not in holding(cast)


def test_names_are_committed_to_and_stand_in_no_entry(cast: Cast) -> None:
    say(cast, "driver_sheet", values=values_of(cast.utility, "driver_sheet") | {"driver": "Q. Unmistakable"})
    bodies = " ".join(cast.utility.links.values_list("body", flat=True))
    assert "Unmistakable" not in bodies
    assert PersonalValue.objects.get(field="driver").value == "Q. Unmistakable"


def test_the_page_signs_only_with_the_shift_code(cast: Cast) -> None:
    make_ready(cast)
    client = cast.client("engineer")
    client.get("/")
    path = f"/unit/{cast.utility.public_id}/gate-pass/"
    act = {"act": str(told_now(None).act), "do": "sign"}
    assert client.post(path, act | {"shift_code": "2580"}).status_code == 422
    people.begin_shift(cast.people["engineer"], client.session.session_key or "", "2580", 8)
    assert client.post(path, act | {"shift_code": "9999"}).status_code == 422
    assert client.post(path, act | {"shift_code": "2580"}).status_code == 302
    assert GatePass.objects.count() == 1
    assert "may leave" in client.get(path).content.decode()
