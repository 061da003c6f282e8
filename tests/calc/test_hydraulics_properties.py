"""Hydraulics: what must hold for any cylinder, pump and tank."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import hydraulics
from sendoff.errors import OutOfRange

bores = st.floats(0.02, 0.3)
shares = st.floats(0.1, 0.95)
pressures = st.floats(1e5, 3e7)


@given(bores, shares, pressures, st.floats(0.05, 3.0), st.floats(1e-6, 1e-2))
def test_work_out_of_a_cylinder_is_work_into_it(
    bore_m: float, share: float, pressure_Pa: float, stroke_m: float, flow: float
) -> None:
    rod_m = bore_m * share
    volume = hydraulics.cylinder_volume(bore_m, stroke_m, rod_m)
    push, pull = (
        hydraulics.cylinder_push(bore_m, pressure_Pa),
        hydraulics.cylinder_pull(bore_m, rod_m, pressure_Pa),
    )
    assert pull < push
    assert math.isclose(push * stroke_m, pressure_Pa * volume.push_m3)
    assert math.isclose(pull * stroke_m, pressure_Pa * volume.pull_m3)
    time_s = hydraulics.cylinder_time(bore_m, stroke_m, flow)
    power_W = hydraulics.hydraulic_power(pressure_Pa, flow)
    assert math.isclose(power_W * time_s, push * stroke_m)
    assert hydraulics.rod_speed(flow, bore_m, rod_m) > hydraulics.rod_speed(flow, bore_m)


@given(pressures, st.floats(1e-6, 1e-3), shares.map(lambda x: x + 0.05), shares.map(lambda x: x + 0.05))
def test_losses_only_ever_add_current(pressure_Pa: float, flow: float, pump: float, motor: float) -> None:
    best = hydraulics.pump_motor_current(pressure_Pa, flow, 12.0, 1.0, 1.0)
    assert hydraulics.pump_motor_current(pressure_Pa, flow, 12.0, min(pump, 1.0), min(motor, 1.0)) >= best


@given(st.floats(1e-4, 0.1), bores, st.floats(0.05, 3.0), st.integers(1, 4), shares)
def test_oil_is_neither_made_nor_lost(
    usable: float, bore_m: float, stroke_m: float, count: int, share: float
) -> None:
    for double in (False, True):
        found = hydraulics.reservoir_check(
            usable, bore_m, stroke_m, count, bore_m * share, double_acting=double
        )
        assert math.isclose(found.drawn_m3 + found.left_m3, usable)
        assert found.enough == (found.left_m3 >= 0)


@given(st.floats(1.0, 1e5), bores, bores)
def test_two_pistons_give_back_what_they_took(force_N: float, first_m: float, second_m: float) -> None:
    there = hydraulics.hydraulic_press(force_N, first_m, second_m)
    back = hydraulics.hydraulic_press(there.second_N, second_m, first_m)
    assert math.isclose(back.second_N, force_N, rel_tol=1e-9)
    assert math.isclose(back.pressure_Pa, there.pressure_Pa, rel_tol=1e-9)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_no_bore_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        hydraulics.cylinder_push(bad, 1e6)
    assert refusal.value.name == "bore_m"
