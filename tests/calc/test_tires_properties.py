"""What must hold of tires whatever their size."""

from __future__ import annotations

import contextlib
import datetime as dt
import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff import tables
from sendoff.calc.tires import condition, loads, markings, pressure
from sendoff.errors import OutOfRange

masses = st.floats(100, 5000)
pressures = st.floats(100_000, 1_000_000)
shares = st.floats(loads.LEAST_SHARE, 1.0)
kinds: st.SearchStrategy[loads.TireKind] = st.sampled_from(("radial", "bias", "passenger"))
temperatures = st.floats(220, 400)
anything = st.floats(allow_nan=True, allow_infinity=True)


@given(masses, pressures, shares, shares, kinds)
def test_more_air_up_to_the_rating_never_carries_less(
    load: float, rated: float, one: float, other: float, kind: loads.TireKind
) -> None:
    low, high = sorted((one, other))
    assert loads.tire_load_by_curve(load, rated, low * rated, kind) <= loads.tire_load_by_curve(
        load, rated, high * rated, kind
    )
    assert loads.tire_load_by_curve(load, rated, rated, kind) == pytest.approx(load)


@given(masses, pressures, shares, kinds)
def test_pressure_and_load_lead_back_to_each_other(
    load: float, rated: float, share: float, kind: loads.TireKind
) -> None:
    carried = loads.tire_load_by_curve(load, rated, share * rated, kind)
    if carried <= load * math.pow(loads.LEAST_SHARE, 0.5):
        return
    try:
        back = loads.tire_pressure_for_load(carried, load, rated, None, kind)
    except OutOfRange:
        assert share == pytest.approx(loads.LEAST_SHARE)
        return
    assert back == pytest.approx(share * rated)


@given(masses, pressures, shares, kinds, st.floats(0, 2))
def test_what_is_set_is_the_placard_whatever_the_load(
    rating: float, rated: float, share: float, kind: loads.TireKind, use: float
) -> None:
    done = pressure.placard_pressure_check(use * rating, share * rated, rating, rated, kind)
    assert done.set_pressure_Pa == share * rated
    assert done.enough == (done.margin_kg >= 0) == (done.margin_ratio >= 0)
    if done.enough:
        assert done.needed_pressure_Pa is None, "no pressure below the placard is ever told"
    elif done.needed_pressure_Pa is not None:
        assert done.needed_pressure_Pa >= done.set_pressure_Pa


@given(st.floats(0, 1_000_000), temperatures, temperatures)
def test_air_cooled_again_has_its_old_pressure(gauge: float, cold: float, hot: float) -> None:
    warm = pressure.tire_pressure_at_temperature(gauge, cold, hot)
    assert (warm >= gauge) == (hot >= cold) or math.isclose(warm, gauge, abs_tol=1e-9)
    if warm >= 0:
        assert pressure.tire_pressure_at_temperature(warm, hot, cold) == pytest.approx(gauge, abs=1e-3)


@given(anything, anything, anything)
def test_no_number_however_odd_gives_no_number(one: float, two: float, three: float) -> None:
    asked: tuple[tuple[Callable[..., float], tuple[float, ...]], ...] = (
        (loads.tire_load_by_curve, (one, two, three)),
        (loads.tire_pressure_for_load, (one, two, three)),
        (pressure.tire_pressure_at_temperature, (one, two, three)),
        (pressure.cold_pressure_from_hot, (one, two, three)),
        (condition.axle_tire_capacity, (one, 2)),
    )
    for function, values in asked:
        with contextlib.suppress(OutOfRange):
            assert math.isfinite(function(*values))


@given(st.integers(60, 169))
def test_a_higher_load_index_carries_more(index: int) -> None:
    assert markings.load_index_mass(index) < markings.load_index_mass(index + 1)
    assert markings.load_index_for(markings.load_index_mass(index)) == index


def test_every_printed_size_carries_more_with_more_air_and_less_in_a_pair() -> None:
    table = tables.load("tire_load_inflation")
    groups = {(row["tire_size"], row["fitment"]) for row in table.rows}
    for size, fitment in groups:
        rows = sorted(table.where(tire_size=size, fitment=fitment), key=lambda row: float(row["pressure_Pa"]))
        assert [row["load_kg"] for row in rows] == sorted(row["load_kg"] for row in rows)
        for row in rows:
            done = loads.tire_load_at_pressure(size, row["pressure_Pa"], fitment)
            assert done.load_kg == pytest.approx(row["load_kg"])
            assert abs(done.misfit_ratio) < 0.04, (
                f"{size} at {row['pressure_Pa']:.0f} Pa: the curve is far away"
            )
            if fitment == "dual":
                alone = loads.tire_load_at_pressure(size, row["pressure_Pa"], "single")
                assert done.load_kg < alone.load_kg


@given(st.dates(dt.date(2000, 8, 1), dt.date(2080, 1, 1)), st.integers(0, 9000))
def test_a_tire_grows_older_by_the_day(made: dt.date, days: int) -> None:
    from sendoff.calc.identity import tire_date_code

    code = tire_date_code(made)
    today = made + dt.timedelta(days=days)
    age = condition.tire_age(code, today)
    assert days <= age.days <= days + 6
    assert age.years * 365 + age.months * 28 <= age.days
    assert 0 <= age.months < 12
