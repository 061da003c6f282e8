"""Linkage: the arithmetic of moments against the work done, for any geometry."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sendoff.calc import linkage
from sendoff.errors import OutOfRange

G = 9.80665
angles = st.floats(0.02, 1.0)
points = st.tuples(
    st.floats(0.5, 3.0), st.floats(-0.2, 0.8), st.floats(0.3, 2.0), st.floats(-1.0, -0.2), st.floats(0.8, 3.0)
)


@given(angles, points, st.floats(1e3, 3e5))
def test_work_of_the_cylinder_is_work_on_the_load(
    angle: float, at: tuple[float, float, float, float, float], force_N: float
) -> None:
    load_x, load_z = at[0], at[1]
    step = 1e-5

    def length(turned: float) -> float:
        return linkage.hinged_lift(turned, force_N, *at, 0.0).cylinder_length_m

    def height(turned: float) -> float:
        return load_x * math.sin(turned) + load_z * math.cos(turned)

    found = linkage.hinged_lift(angle, force_N, *at, 0.0)
    rise = (height(angle + step) - height(angle - step)) / (2 * step)
    run = (length(angle + step) - length(angle - step)) / (2 * step)
    assert math.isclose(run, found.cylinder_arm_m, rel_tol=1e-5, abs_tol=1e-6)
    assert math.isclose(rise, found.load_arm_m, rel_tol=1e-5, abs_tol=1e-6)
    if found.capacity_kg and found.capacity_kg > 1:
        assume(rise > 0.01)
        assert math.isclose(force_N * run, found.capacity_kg * G * rise, rel_tol=1e-4)


@given(angles, points, st.floats(1e3, 3e5))
def test_the_curve_never_promises_more_than_any_of_its_points(
    top: float, at: tuple[float, float, float, float, float], force_N: float
) -> None:
    found = linkage.hinged_lift_curve(top, force_N, *at, 0.0)
    assert found.least_capacity_kg <= min(found.capacity_kg)
    middle = linkage.hinged_lift(0.0, force_N, *at, 0.0)
    assert middle.capacity_kg is None or found.least_capacity_kg <= middle.capacity_kg + 1e-9


@given(st.floats(0.0, 1e5), st.floats(0.0, 1e4), st.floats(0.02, 1.5), st.sampled_from(["foot", "center"]))
def test_a_scissor_lifts_what_its_force_was_found_for(
    load_N: float, arms_N: float, angle: float, place: linkage.lift.Place
) -> None:
    force_N = linkage.scissor_force(load_N, arms_N, angle, place)
    assert math.isclose(
        linkage.scissor_capacity(force_N, arms_N, angle, place), load_N, abs_tol=1e-6, rel_tol=1e-9
    )
    assert linkage.scissor_force(load_N, arms_N, angle + 0.01, place) <= force_N


@given(st.floats(10.0, 1e6), st.floats(1e6, 1e9), st.floats(1.0, 10.0), st.sampled_from([1, 2]))
def test_a_lock_pin_is_never_rounded_down(
    force_N: float, strength_Pa: float, factor: float, planes: int
) -> None:
    found = linkage.lock_pin_diameter(force_N, strength_Pa, factor, planes)
    assert found.whole_mm_m >= found.diameter_m - 1e-9
    held = planes * strength_Pa * math.pi / 4 * found.whole_mm_m**2
    assert held >= factor * force_N * (1 - 1e-6)


@given(st.floats(100.0, 5000.0), st.floats(0.5, 2.0), st.floats(0.0, 3000.0), st.floats(0.0, 9.0))
def test_wheel_forces_sum_to_the_weight(
    vehicle_kg: float, half_m: float, side_kg: float, out_m: float
) -> None:
    found = linkage.side_tip(vehicle_kg, half_m, side_kg, out_m)
    assert math.isclose(found.near_N + found.far_N, G * (vehicle_kg + side_kg), rel_tol=1e-9)
    if found.tipping_kg is not None and abs(found.tipping_kg - side_kg) > 1e-6:
        assert found.tips == (side_kg > found.tipping_kg)


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_no_measure_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        linkage.hinged_lift(0.1, 1000.0, bad, 0.0, 1.0, -0.5, 2.0, 0.0)
    assert refusal.value.name == "load_x_m"
