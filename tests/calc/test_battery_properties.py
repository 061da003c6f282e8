"""Battery: what must hold for any state, load and charger."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import battery
from sendoff.errors import OutOfRange

shares = st.floats(0.0, 1.0)
AH = 3600.0


@given(st.floats(11.0, 13.1), st.floats(250.0, 310.0), st.sampled_from(["flooded", "agm"]))
def test_a_higher_rest_voltage_is_never_less_charge(
    volt: float, temperature_K: float, kind: battery.state.Kind
) -> None:
    one = battery.charge_from_rest_voltage(volt, temperature_K, kind)
    more = battery.charge_from_rest_voltage(volt + 0.05, temperature_K, kind)
    assert 0 <= one <= more <= 1


@given(st.floats(1.10, 1.28), st.floats(250.0, 310.0))
def test_a_cold_hydrometer_never_adds_charge(gravity: float, temperature_K: float) -> None:
    colder = battery.charge_from_gravity(gravity, temperature_K - 5)
    assert 0 <= colder <= battery.charge_from_gravity(gravity, temperature_K) <= 1


@given(shares, shares)
def test_a_fuller_battery_freezes_later(one: float, other: float) -> None:
    low, high = sorted((one, other))
    for acid in ("1.265", "1.280"):
        assert battery.freezing_point_by_charge(high, acid) <= battery.freezing_point_by_charge(low, acid)


@given(st.sampled_from([1.0, 0.75, 0.5]))
def test_the_freezing_figures_used_are_never_colder_than_the_popular_ones(charge: float) -> None:
    popular_F = {1.0: -75.0, 0.75: -55.0, 0.5: -34.0}[charge]
    ours = battery.freezing_point_by_charge(charge)
    assert ours >= (popular_F + 459.67) * 5 / 9 - 1e-9


@given(st.floats(5.0, 300.0), st.floats(1.0, 300.0), st.floats(1.0, 1.5))
def test_more_current_runs_shorter_and_the_exponent_comes_back(
    capacity_Ah: float, current_A: float, exponent: float
) -> None:
    slow = battery.peukert_run_time(capacity_Ah * AH, current_A, exponent)
    fast = battery.peukert_run_time(capacity_Ah * AH, 2 * current_A, exponent)
    assert fast < slow
    assert math.isclose(
        battery.peukert_exponent(current_A, slow, 2 * current_A, fast), exponent, rel_tol=1e-9
    )


@given(st.floats(10.0, 300.0), shares, st.floats(0.5, 60.0), st.floats(0.0, 24.0))
def test_a_night_never_charges_past_full_and_says_what_is_missing(
    capacity_Ah: float, charge: float, charger_A: float, night_h: float
) -> None:
    found = battery.overnight_charge(capacity_Ah * AH, charge, charger_A, night_h * 3600)
    assert charge - 1e-9 <= found.charge_after_ratio <= 1 + 1e-9
    assert math.isclose((1 - found.charge_after_ratio) * capacity_Ah * AH, found.short_C, abs_tol=1e-3)
    assert found.enough == (found.needed_s <= night_h * 3600 * (1 + 1e-12))


@given(st.floats(20.0, 300.0), st.floats(10.0, 300.0), st.floats(5.0, 300.0), st.floats(256.0, 310.0))
def test_cold_and_age_never_add_cycles(
    capacity_Ah: float, current_A: float, run_s: float, temperature_K: float
) -> None:
    best = battery.cycles_per_charge(capacity_Ah * AH, current_A, run_s)
    worse = battery.cycles_per_charge(capacity_Ah * AH, current_A, run_s, 0.5, temperature_K, 0.7)
    assert worse.whole_count <= best.whole_count
    assert worse.whole_count * worse.per_cycle_C <= worse.usable_C * (1 + 1e-6)


@given(st.floats(9.0, 17.9), st.floats(12.0, 14.0), st.floats(1.0, 25.0))
def test_a_lead_never_draws_the_battery_down_in_our_sums(
    alternator_V: float, battery_V: float, length_m: float
) -> None:
    found = battery.tow_lead_charge(alternator_V, battery_V, length_m, 12)
    assert found.current_A >= 0
    assert found.charges == (alternator_V > battery_V)
    assert battery.alternator_state(alternator_V).meaning


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_nothing_without_a_number_gets_through(bad: float) -> None:
    for call in (
        lambda: battery.usable_charge(bad),
        lambda: battery.recharge_time(bad, 5.0),
        lambda: battery.cold_capacity(bad),
        lambda: battery.duty_budget(AH, (bad,), (1.0,), (1,)),
    ):
        with pytest.raises(OutOfRange):
            call()
