"""Breakaway: what must hold for any battery and any number of magnets."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc import breakaway
from sendoff.errors import OutOfRange

SHEET = ((30.0, 21.0, 13.0), (600.0, 900.0, 1800.0), 9.6)
ORDER = {"holds": 2, "unknown": 1, "does not hold": 0}


@given(st.integers(1, 8), st.floats(0.2, 1.0), st.floats(256.0, 300.0), st.floats(0.3, 1.0))
def test_less_charge_cold_or_age_never_hold_longer(
    magnets: int, charge: float, temperature_K: float, age: float
) -> None:
    best = breakaway.breakaway_hold_time(magnets, *SHEET)
    worse = breakaway.breakaway_hold_time(
        magnets, *SHEET, charge_ratio=charge, temperature_K=temperature_K, age_ratio=age
    )
    assert worse.at_least_s <= best.at_least_s
    assert ORDER[worse.verdict] <= ORDER[best.verdict]
    if worse.estimate_s is not None and worse.at_most_s is not None:
        assert worse.at_least_s <= worse.estimate_s <= worse.at_most_s


@given(st.integers(1, 8))
def test_without_a_rating_the_answer_is_unknown_for_every_trailer(magnets: int) -> None:
    assert breakaway.breakaway_hold_time(magnets).verdict == "unknown"


@given(st.integers(1, 8), st.floats(8.0, 11.5), st.floats(12.0, 13.0))
def test_the_mean_current_empties_a_battery_in_the_time_a_step_by_step_discharge_takes(
    magnets: int, end_V: float, open_V: float
) -> None:
    charge_C, load_ohm = 10_000.0, 3.2 / magnets
    steps = np.linspace(0.0, charge_C, 20_001)
    middle = (steps[1:] + steps[:-1]) / 2
    volts = open_V - (open_V - end_V) * middle / charge_C
    time_s = float(np.sum(np.diff(steps) * load_ohm / volts))
    assert math.isclose(
        charge_C / breakaway.breakaway_mean_current(open_V, end_V, magnets), time_s, rel_tol=1e-6
    )


@given(st.floats(1.0, 100.0), st.integers(1, 8), st.floats(0.0, 100.0), st.floats(0.0, 1.0))
def test_what_is_taken_and_what_is_left_make_what_was_there(
    capacity_Ah: float, magnets: int, hours: float, charge: float
) -> None:
    found = breakaway.breakaway_left_pulled(capacity_Ah * 3600, magnets, hours * 3600, charge)
    assert math.isclose(
        found.taken_C + found.left_ratio * capacity_Ah * 3600, charge * capacity_Ah * 3600, abs_tol=1e-6
    )
    assert 0 <= found.left_ratio <= charge


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0])
def test_no_voltage_that_is_none_gets_through(bad: float) -> None:
    with pytest.raises(OutOfRange):
        breakaway.breakaway_hold_time(4, *SHEET, open_V=bad)
