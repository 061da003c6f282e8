"""What must hold of rating chains whatever the parts."""

from __future__ import annotations

import contextlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.calc.ratings import capacity, chain, labels, pressures
from sendoff.errors import OutOfRange

masses = st.floats(1, 50_000)
maybe = st.none() | masses
anything = st.floats(allow_nan=True, allow_infinity=True)


@given(st.lists(masses, min_size=1, max_size=8), st.data())
def test_the_weakest_is_the_least_whatever_the_order(ratings: list[float], data: st.DataObject) -> None:
    names = tuple(f"part {number}" for number in range(len(ratings)))
    order = data.draw(st.permutations(range(len(ratings))))
    straight = chain.weakest_part(names, tuple(ratings))
    shuffled = chain.weakest_part(tuple(names[i] for i in order), tuple(ratings[i] for i in order))
    assert straight.rating_kg == shuffled.rating_kg == min(ratings)
    assert straight.next_rating_kg == shuffled.next_rating_kg >= straight.rating_kg


@given(masses, maybe, maybe, maybe, maybe, maybe, st.sampled_from((2, 4)), st.booleans(), masses)
def test_a_part_more_never_raises_the_axle(
    tire: float,
    wheel: float | None,
    stud: float | None,
    hub: float | None,
    axle: float | None,
    spring: float | None,
    count: int,
    passenger: bool,
    label: float,
) -> None:
    alone = chain.axle_rating_chain(tire, tire_count=count, passenger_tire=passenger)
    whole = chain.axle_rating_chain(tire, wheel, stud, hub, axle, spring, count, passenger, label)
    assert whole.capacity_kg <= alone.capacity_kg
    known = [whole.tires_kg, whole.wheels_kg, whole.studs_kg, whole.hubs_kg, whole.axle_kg, whole.springs_kg]
    assert whole.capacity_kg == min(value for value in known if value is not None)
    assert len(whole.not_known) == sum(value is None for value in known)
    assert whole.label_margin_kg == pytest.approx(whole.capacity_kg - label)


@given(masses, st.lists(masses, min_size=3, max_size=3))
def test_the_pressure_chain_holds_up_to_its_weakest_and_no_further(
    set_to: float, ratings: list[float]
) -> None:
    done = pressures.pressure_rating_chain(set_to, *ratings)
    assert done.highest_pressure_Pa == min(ratings)
    assert done.holds == (set_to <= min(ratings)) or math.isclose(set_to, min(ratings))


@given(st.lists(masses, min_size=1, max_size=4), st.floats(0, 0.5), maybe, maybe, maybe)
def test_a_trailer_is_never_rated_above_any_part(
    axles: list[float], share: float, coupler: float | None, frame: float | None, label: float | None
) -> None:
    done = chain.trailer_rating_chain(tuple(axles), share, coupler, frame, None, label)
    for part in (coupler, frame, label, done.axles_kg):
        if part is not None:
            assert done.capacity_kg <= part * (1 + 1e-9)
    assert done.axles_kg * (1 - share) == pytest.approx(sum(axles))
    if done.label_holds:
        assert done.capacity_kg == label


@given(masses, masses, st.floats(0, 1000))
def test_empty_and_cargo_make_the_rating_again(rating: float, empty: float, uncertainty: float) -> None:
    try:
        done = capacity.cargo_capacity(rating, empty, uncertainty)
    except OutOfRange:
        assert empty + uncertainty > rating
        return
    assert done.least_kg <= done.capacity_kg
    assert labels.least_gvwr(empty, done.capacity_kg) == pytest.approx(rating)
    assert labels.gvwr_check(rating, empty, done.capacity_kg).holds


@given(masses, st.sampled_from((2, 4)), masses, st.booleans())
def test_the_rule_and_the_chain_agree_about_tires(
    tire: float, count: int, rating: float, passenger: bool
) -> None:
    rule = labels.tires_meet_axle_rating(tire, count, rating, 4000.0, passenger)
    of_chain = chain.axle_rating_chain(tire, tire_count=count, passenger_tire=passenger, gawr_kg=rating)
    assert rule.holds == of_chain.label_holds
    assert rule.tires_kg == of_chain.capacity_kg


@given(anything, anything, anything)
def test_no_number_however_odd_gives_no_number(one: float, two: float, three: float) -> None:
    with contextlib.suppress(OutOfRange):
        assert math.isfinite(chain.axle_rating_chain(one, two, three).capacity_kg)
    with contextlib.suppress(OutOfRange):
        assert math.isfinite(chain.trailer_rating_chain((one,), two, three).capacity_kg)
    with contextlib.suppress(OutOfRange):
        assert math.isfinite(capacity.cargo_capacity(one, two, three).least_kg)
    with contextlib.suppress(OutOfRange):
        assert math.isfinite(capacity.cargo_capacity_unweighed(one, two, three, (one,)).least_kg)
    with contextlib.suppress(OutOfRange):
        assert math.isfinite(labels.least_gvwr(one, two))
