"""What holds for every trailer and truck: reactions sum to weight, heavier is never lighter, numbers stay numbers."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from typing import Any, get_args

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sendoff.calc.statics import suspension, trailer, truck, weighbridge
from sendoff.errors import OutOfRange
from tests.calc.numbers_of import numbers

masses = st.floats(1.0, 50_000.0)
lengths = st.floats(0.1, 20.0)
anything = st.floats(allow_nan=True, allow_infinity=True)


@given(masses, lengths, lengths)
def test_coupling_and_axles_carry_the_whole_trailer(mass: float, center: float, axles: float) -> None:
    loads = trailer.trailer_loads(mass, center, axles)
    assert loads.coupling_load_kg + loads.axle_group_load_kg == pytest.approx(mass)
    assert loads.axle_group_load_kg * axles == pytest.approx(mass * center)


@given(masses, st.floats(0.1, 10.0), st.floats(0.1, 10.0), st.floats(10.0, 20.0))
def test_a_center_further_back_takes_load_off_the_coupling(
    mass: float, one: float, other: float, axles: float
) -> None:
    near, far = sorted((one, other))
    assert (
        trailer.trailer_loads(mass, near, axles).coupling_load_kg
        >= trailer.trailer_loads(mass, far, axles).coupling_load_kg
    )


@given(st.lists(st.tuples(masses, lengths), min_size=1, max_size=8), lengths)
def test_adding_items_one_by_one_is_the_same_as_all_at_once(
    items: list[tuple[float, float]], axles: float
) -> None:
    whole = trailer.center_of_mass(tuple(m for m, _ in items), tuple(x for _, x in items))
    at_once = trailer.trailer_loads(whole.total_mass_kg, whole.center_x_m, axles)
    changes = [trailer.add_item(mass, axles - x, axles) for mass, x in items]
    assert math.fsum(c.coupling_change_kg for c in changes) == pytest.approx(
        at_once.coupling_load_kg, abs=1e-6 * whole.total_mass_kg
    )
    assert math.fsum(c.axle_group_change_kg for c in changes) == pytest.approx(at_once.axle_group_load_kg)


@given(masses, st.floats(-10.0, 10.0), lengths)
def test_moving_an_item_is_taking_it_off_and_adding_it_again(mass: float, by: float, axles: float) -> None:
    moved = trailer.move_item(mass, by, axles)
    before, after = trailer.add_item(mass, 1.0, axles), trailer.add_item(mass, 1.0 - by, axles)
    assert moved.coupling_change_kg == pytest.approx(
        after.coupling_change_kg - before.coupling_change_kg, abs=1e-6 * mass
    )
    assert moved.coupling_change_kg + moved.axle_group_change_kg == 0


@given(st.lists(st.tuples(masses, st.floats(-5.0, 20.0)), min_size=1, max_size=8))
def test_the_center_lies_between_the_items(items: list[tuple[float, float]]) -> None:
    center = trailer.center_of_mass(tuple(m for m, _ in items), tuple(x for _, x in items)).center_x_m
    assert min(x for _, x in items) <= center <= max(x for _, x in items)


@given(masses, lengths, lengths)
def test_two_supports_carry_the_whole(mass: float, first: float, second: float) -> None:
    loads = trailer.two_support_loads(mass, first, second)
    assert loads.first_load_kg + loads.second_load_kg == pytest.approx(mass)
    assert loads.first_load_kg * first == pytest.approx(loads.second_load_kg * second)


@given(masses, st.integers(1, 12))
def test_equalized_axles_carry_the_group(load: float, count: int) -> None:
    assert math.fsum(suspension.equalized_axle_loads(load, count).axle_load_kg) == pytest.approx(load)


@given(masses, lengths, lengths)
def test_an_equalizer_balances(load: float, front: float, rear: float) -> None:
    shares = suspension.equalizer_shares(load, front, rear)
    ahead, behind = shares.axle_load_kg
    assert ahead + behind == pytest.approx(load)
    assert ahead * front == pytest.approx(behind * rear)
    assert shares.heaviest_over_mean_ratio >= 1 - 1e-12


@given(
    st.floats(1000.0, 20_000.0),
    st.floats(3.0, 6.0),
    st.integers(1, 4),
    st.floats(1e4, 1e6),
    st.floats(-0.05, 0.05),
)
def test_torsion_axles_and_coupling_are_in_equilibrium(
    mass: float, center: float, count: int, stiffness: float, slope: float
) -> None:
    places = tuple(6.0 + 0.9 * n for n in range(count))
    try:
        shares = suspension.torsion_axle_loads(mass, center, places, stiffness, slope)
    except OutOfRange as refusal:
        assert refusal.name == "nose_up_rad"  # noqa: PT017
        return
    assert shares.coupling_load_kg + math.fsum(shares.axle_load_kg) == pytest.approx(mass)
    moment = math.fsum(load * x for load, x in zip(shares.axle_load_kg, places, strict=True))
    assert moment == pytest.approx(mass * center)
    falling = [later - sooner for sooner, later in itertools.pairwise(shares.axle_load_kg)]
    assert all(step * slope >= -1e-6 for step in falling), "nose up presses the rear axle"


@given(masses, st.sampled_from([2, 4]), st.floats(-1.0, 1.0))
def test_tires_carry_the_axle(load: float, tires: int, right: float) -> None:
    found = suspension.tire_loads(load, tires, right, 2.0)
    assert (found.left_tire_load_kg + found.right_tire_load_kg) * tires / 2 == pytest.approx(load)
    assert found.heaviest_tire_load_kg >= load / tires - 1e-9
    assert (found.right_tire_load_kg - found.left_tire_load_kg) * right >= 0


@given(st.floats(0.0, 5000.0), lengths, st.floats(-0.1, 5.0))
def test_the_truck_carries_the_coupling_load(load: float, wheelbase: float, behind: float) -> None:
    shift = truck.truck_axle_shift(load, wheelbase, behind)
    assert shift.front_axle_change_kg + shift.rear_axle_change_kg == pytest.approx(
        load, abs=1e-9 * (1 + load)
    )
    assert shift.front_axle_change_kg * behind <= 0, "an overhung coupling lifts the front axle"


@given(
    masses,
    masses,
    st.floats(2.5, 5.0),
    st.floats(0.0, 3000.0),
    st.floats(-0.5, 1.5),
    masses,
    st.floats(0.0, 5.0),
)
def test_truck_axles_sum_to_all_that_is_on_them(
    front: float, rear: float, wheelbase: float, coupling: float, behind: float, added: float, place: float
) -> None:
    try:
        loads = truck.truck_axle_loads(front, rear, wheelbase, coupling, behind, (added,), (place,))
    except OutOfRange:
        return
    assert loads.front_axle_load_kg + loads.rear_axle_load_kg == pytest.approx(
        front + rear + coupling + added
    )
    assert loads.truck_mass_kg == pytest.approx(front + rear + coupling + added)
    moment = rear * wheelbase + coupling * (wheelbase + behind) + added * place
    assert loads.rear_axle_load_kg * wheelbase == pytest.approx(moment, rel=1e-9, abs=1e-3)


@given(masses, masses, lengths)
def test_a_vehicle_balances_on_its_center(front: float, rear: float, wheelbase: float) -> None:
    center = truck.center_from_axle_loads(front, rear, wheelbase)
    assert front * center.center_behind_front_axle_m == pytest.approx(
        rear * center.center_ahead_of_rear_axle_m
    )


LEVER = 0.3
PADS = list(get_args(weighbridge.Pads))


def reading(pad: str, loads: tuple[float, float, float, float]) -> float:
    """What the pads would show, by adding wheels up."""
    front, rear, coupling, axles = loads
    return {
        "truck_alone": front + rear,
        "truck_front_alone": front,
        "truck_rear_alone": rear,
        "truck_wheels_coupled": front + rear + coupling,
        "truck_front_coupled": front - LEVER * coupling,
        "truck_rear_coupled": rear + (1 + LEVER) * coupling,
        "trailer_wheels_coupled": axles,
        "all_wheels_coupled": front + rear + coupling + axles,
        "trailer_alone": coupling + axles,
        "trailer_wheels_alone": axles,
        "tongue_on_scale": coupling,
    }[pad]


@given(
    st.tuples(st.floats(1500, 3000), st.floats(900, 3000), st.floats(100, 1800), st.floats(500, 9000)),
    st.lists(st.sampled_from(PADS), min_size=1, max_size=8, unique=True),
    st.floats(5.0, 40.0),
)
def test_whatever_the_tickets_determine_is_what_was_on_the_wheels(
    loads: tuple[float, float, float, float], pads: list[Any], spread: float
) -> None:
    front, rear, coupling, axles = loads
    told = weighbridge.solve_weighings(
        tuple(pads), tuple(reading(pad, loads) for pad in pads), (spread,), 4.0, 4.0 * LEVER
    )
    true = {
        "truck_front_axle": front,
        "truck_rear_axle": rear,
        "truck_mass": front + rear,
        "coupling_load": coupling,
        "trailer_axle_load": axles,
        "trailer_mass": coupling + axles,
        "combination_mass": front + rear + coupling + axles,
    }
    for name, value in true.items():
        found, give = getattr(told, f"{name}_kg"), getattr(told, f"{name}_uncertainty_kg")
        assert (found is None) == (name in told.undetermined)
        assert (give is None) == (found is None)
        if found is not None:
            assert found == pytest.approx(value, abs=1e-4)
            assert 0 < give < 20 * spread
    assert told.readings_agree
    assert told.worst_disagreement_kg < 1e-4


@given(
    st.tuples(st.floats(1500, 3000), st.floats(900, 3000), st.floats(100, 1800), st.floats(500, 9000)),
    st.lists(st.sampled_from(PADS), min_size=1, max_size=6, unique=True),
    st.sampled_from(PADS),
)
def test_a_further_ticket_never_makes_anything_less_sure(
    loads: tuple[float, float, float, float], pads: list[Any], more: Any
) -> None:
    def solve(these: list[Any]) -> weighbridge.WeighingSolution:
        return weighbridge.solve_weighings(
            tuple(these), tuple(reading(pad, loads) for pad in these), (20.0,), 4.0, 4.0 * LEVER
        )

    before, after = solve(pads), solve([*pads, more])
    assert set(after.undetermined) <= set(before.undetermined)
    for name in ("coupling_load", "truck_mass", "trailer_mass", "combination_mass"):
        was, now = getattr(before, f"{name}_uncertainty_kg"), getattr(after, f"{name}_uncertainty_kg")
        assert was is None or now <= was + 1e-6
    if before.settled_by and more == before.settled_by[0]:
        assert len(after.undetermined) < len(before.undetermined)


CALLS: list[Callable[..., Any]] = [
    trailer.trailer_loads,
    trailer.tongue_load,
    trailer.add_item,
    trailer.move_item,
    trailer.two_support_loads,
    trailer.coupling_pull,
    suspension.equalizer_shares,
    truck.truck_axle_shift,
    truck.center_from_axle_loads,
    weighbridge.three_weighings,
    weighbridge.tongue_on_beam,
]


@pytest.mark.parametrize("call", CALLS, ids=lambda call: call.__name__)
@given(anything, anything, anything)
def test_no_input_whatever_gives_a_number_that_is_none(
    call: Callable[..., Any], one: float, two: float, three: float
) -> None:
    try:
        result = call(one, two, three)
    except OutOfRange:
        return
    assert all(math.isfinite(number) for number in numbers(result))


@given(st.lists(anything, min_size=1, max_size=4), anything, anything, anything)
def test_no_list_whatever_gives_a_number_that_is_none(
    values: list[float], mass: float, stiffness: float, slope: float
) -> None:
    given_values = tuple(values)
    attempts: list[Callable[[], Any]] = [
        lambda: trailer.center_of_mass(given_values, given_values, given_values, given_values),
        lambda: trailer.cargo_ahead_of_axles(given_values, given_values, mass),
        lambda: suspension.torsion_axle_loads(mass, slope, given_values, stiffness, slope),
        lambda: suspension.tire_loads(mass, 4, slope, stiffness),
        lambda: suspension.equalized_axle_loads(mass, len(values)),
        lambda: truck.truck_axle_loads(mass, stiffness, slope, mass, slope, given_values, given_values),
        lambda: weighbridge.center_height_by_tilting(mass, stiffness, mass, stiffness, slope, mass),
        lambda: weighbridge.solve_weighings(
            tuple(PADS[: len(values)]), given_values, (abs(mass),), abs(stiffness), slope
        ),
    ]
    for attempt in attempts:
        try:
            result = attempt()
        except OutOfRange:
            continue
        assert all(math.isfinite(number) for number in numbers(result))


@given(masses, st.floats(0.1, 10.0), st.floats(0.0, 0.3))
def test_a_heavier_load_is_never_lighter_on_any_support(mass: float, center: float, more: float) -> None:
    assume(center < 8.0)
    lighter, heavier = (
        trailer.trailer_loads(mass, center, 8.0),
        trailer.trailer_loads(mass * (1 + more), center, 8.0),
    )
    assert heavier.coupling_load_kg >= lighter.coupling_load_kg
    assert heavier.axle_group_load_kg >= lighter.axle_group_load_kg
