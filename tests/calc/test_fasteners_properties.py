"""Fasteners: what must hold for any bolt, wheel and order."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc import fasteners
from sendoff.errors import OutOfRange

threads = st.sampled_from(
    ["1/4-20", "3/8-16", "1/2-20", "5/8-18", "3/4-10", "1-8", "M8", "M12", "M14x1.5", "M20"]
)


@given(threads, st.floats(0.0, 5e5), st.floats(0.06, 0.4))
def test_torque_and_clamp_are_each_others_way_back(thread: str, clamp_N: float, factor: float) -> None:
    torque_Nm = fasteners.bolt_torque(thread, clamp_N, factor)
    assert math.isclose(fasteners.clamp_from_torque(thread, torque_Nm, factor), clamp_N, abs_tol=1e-9)
    with pytest.raises(OutOfRange) as refusal:
        fasteners.bolt_torque(thread, clamp_N, factor, "wheel")
    assert refusal.value.name == "joint"


@given(st.sampled_from(["1/4-20", "1/2-20", "5/8-18", "3/4-10"]), st.floats(0.1, 1.0))
def test_a_better_grade_clamps_more_and_never_past_its_proof(thread: str, share: float) -> None:
    loads = [fasteners.clamp_load(thread, grade, share) for grade in ("2", "5", "8")]
    assert loads == sorted(loads)
    assert loads[2] <= fasteners.proof_load(thread, "8") * (1 + 1e-12)


@pytest.mark.parametrize("studs", [4, 5, 6, 8, 10])
def test_every_order_visits_each_stud_once_and_goes_across(studs: int) -> None:
    order = fasteners.torque_sequence(studs)
    assert sorted(order) == list(range(1, studs + 1))
    if studs >= 5:
        for one, other in itertools.pairwise(order):
            apart = abs(one - other)
            assert min(apart, studs - apart) >= 2, f"{one} to {other}"


def test_four_and_six_studs_go_across_first_as_a_service_text_has_it() -> None:
    four, six = fasteners.torque_sequence(4), fasteners.torque_sequence(6)
    assert [abs(four[0] - four[1]), abs(four[2] - four[3])] == [
        2,
        2,
    ]  # F16: upper right, lower left, then the others
    assert [abs(six[at] - six[at + 1]) for at in (0, 2, 4)] == [3, 3, 3]


@pytest.mark.parametrize(
    "row", tables.load("wheel_nut_torque").rows, ids=lambda row: f"{row['wheel']} {row['stud']} {row['nut']}"
)
def test_stages_rise_to_the_final_band(row: tables.Row) -> None:
    found = fasteners.wheel_nut_torque(row["wheel"], row["stud"], row["nut"])
    assert 0 < found.low_Nm < found.high_Nm
    if found.first_low_Nm is not None and found.second_low_Nm is not None:
        assert found.first_low_Nm < found.second_low_Nm < found.low_Nm
    middle = (found.low_Nm + found.high_Nm) / 2
    assert fasteners.wheel_torque_check(middle, row["wheel"], row["stud"], row["nut"]).verdict == "in band"


@given(st.floats(0.0, 2e7), st.floats(0.0, 1.0))
def test_a_check_just_made_is_never_owed_at_once(driven_m: float, share: float) -> None:
    assert not fasteners.retorque_plan(driven_m, driven_m).due_now
    earlier = fasteners.retorque_plan(driven_m, driven_m * share)
    assert earlier.next_stop_m is None or earlier.next_stop_m > driven_m


@pytest.mark.parametrize(
    "bad", ["", "M", "5/0-18", "1/2", "-20", "M12x9", "9999-20", "1/2-0", "nan-20", "M1e9"]
)
def test_a_text_that_is_no_thread_is_refused_by_name(bad: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        fasteners.thread_stress_area(bad)
    assert refusal.value.name in {"thread", "diameter_m"}


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_no_torque_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        fasteners.clamp_from_torque("M12", bad)
    assert refusal.value.name == "torque_Nm"
