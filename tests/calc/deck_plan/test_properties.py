"""What must hold whatever the numbers: mirrored, relabelled, scaled; one more item; one limit looser."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest

from sendoff.calc.deck_plan import (
    Contact,
    Deck,
    Item,
    Placement,
    Problem,
    Ramp,
    Strip,
    TightAt,
    Trailer,
    Truck,
    Zone,
    evaluate,
    limit_names,
    plan,
    without,
)
from sendoff.calc.deck_plan.problem import with_items
from sendoff.calc.deck_plan.solve import best
from tests.calc.deck_plan.instances import random_problem

SEEDS = range(200, 224)


def margin(problem: Problem) -> float:
    found, _ = best(problem, code="plain")
    assert found.proved
    return found.margin


@pytest.mark.parametrize("seed", SEEDS)
def test_other_names_and_another_order_change_nothing(seed: int) -> None:
    problem = random_problem(seed, 2 + seed % 4)
    items = list(problem.items)
    random.Random(seed).shuffle(items)
    renamed = {item.name: f"other_{number}" for number, item in enumerate(items)}
    other = with_items(problem, [replace(item, name=renamed[item.name]) for item in items])
    assert margin(other) == pytest.approx(margin(problem), abs=1e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_other_units_of_length_and_mass_change_nothing(seed: int) -> None:
    problem = random_problem(seed, 2 + seed % 4)
    assert margin(scaled(problem, 3.0, 2.5)) == pytest.approx(margin(problem), abs=1e-8)


def scaled(problem: Problem, long: float, heavy: float) -> Problem:
    """Every length times one factor, every mass times another."""

    def lengths(record, *names: str):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
        known = {name: getattr(record, name) for name in names}
        return {name: None if value is None else value * long for name, value in known.items()}

    def masses(record, *names: str):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
        return {name: getattr(record, name) * heavy for name in names}

    items = [
        replace(
            item,
            mass_kg=item.mass_kg * heavy,
            mass_error_kg=item.mass_error_kg * heavy,
            contacts=tuple(replace(c, offset_m=c.offset_m * long) for c in item.contacts),
            **lengths(
                item,
                "length_m",
                "width_m",
                "height_m",
                "track_inner_m",
                "track_outer_m",
                "clearance_m",
                "strap_reach_m",
            ),
        )
        for item in problem.items
    ]
    decks = [
        replace(
            deck,
            zones=tuple(
                replace(
                    zone,
                    **lengths(
                        zone,
                        "front_m",
                        "rear_m",
                        "width_limit_m",
                        "height_limit_m",
                        "lane_inner_m",
                        "lane_outer_m",
                    ),
                    **masses(zone, "total_limit_kg", "wheel_limit_kg"),
                )
                for zone in deck.zones
            ),
            strips=tuple(replace(strip, **lengths(strip, "front_m", "rear_m")) for strip in deck.strips),
            strap_points_m=tuple(point * long for point in deck.strap_points_m),
            ramp=None if deck.ramp is None else Ramp(deck.ramp.angle_rad, deck.ramp.wheel_limit_kg * heavy),
            **lengths(deck, "front_overhang_m", "rear_overhang_m"),
        )
        for deck in problem.decks
    ]
    trailer, truck = problem.trailer, problem.truck
    trailer = replace(
        trailer,
        axle_m=tuple(at * long for at in trailer.axle_m),
        axle_limit_kg=tuple(kg * heavy for kg in trailer.axle_limit_kg),
        tire_limit_kg=tuple(kg * heavy for kg in trailer.tire_limit_kg),
        empty_center_m=trailer.empty_center_m * long,
        **masses(trailer, "empty_mass_kg", "gross_limit_kg", "pin_limit_kg", "axle_preload_kg"),
    )
    if truck is not None:
        limits = (
            "front_limit_kg",
            "rear_limit_kg",
            "gross_limit_kg",
            "combined_limit_kg",
            "tow_limit_kg",
            "coupling_limit_kg",
        )
        truck = replace(
            truck,
            **lengths(truck, "front_axle_m", "rear_axle_m"),
            **masses(truck, "front_empty_kg", "rear_empty_kg", "front_least_kg", *limits),
        )
    return replace(
        problem,
        items=tuple(items),
        decks=tuple(decks),
        trailer=trailer,
        truck=truck,
        gap_m=problem.gap_m * long,
        edge_m=problem.edge_m * long,
        axle_groups=tuple(replace(group, limit_kg=group.limit_kg * heavy) for group in problem.axle_groups),
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_seen_in_a_mirror_pin_and_axle_change_places_and_nothing_else(seed: int) -> None:
    """One axle and no shares: what the coupling is to the load from the front, the axle is to it from the rear."""
    problem = random_problem(seed, 2 + seed % 3)
    axle = max(problem.trailer.axle_m)
    trailer = Trailer(
        problem.trailer.empty_mass_kg,
        problem.trailer.empty_center_m,
        (axle,),
        "equalized",
        (sum(problem.trailer.axle_limit_kg),),
        problem.trailer.gross_limit_kg,
        pin_limit_kg=problem.trailer.pin_limit_kg,
    )
    plain = replace(
        problem,
        trailer=trailer,
        truck=None,
        axle_groups=(),
        tight=TightAt(0.05, 0.05, 0.05),
        drop_rule="prefer",
        items=tuple(replace(item, drop_count=0) for item in problem.items),
    )
    mirrored = replace(
        plain,
        items=tuple(mirrored_item(item) for item in plain.items),
        decks=tuple(mirrored_deck(deck, axle) for deck in plain.decks),
        trailer=replace(
            trailer,
            empty_center_m=axle - trailer.empty_center_m,
            axle_limit_kg=(trailer.pin_limit_kg,),
            pin_limit_kg=trailer.axle_limit_kg[0],
        ),
    )
    assert margin(mirrored) == pytest.approx(margin(plain), abs=1e-8)


def mirrored_item(item: Item) -> Item:
    contacts = tuple(replace(c, offset_m=item.length_m - c.offset_m) for c in reversed(item.contacts))
    return replace(item, contacts=contacts)


def mirrored_deck(deck: Deck, axle: float) -> Deck:
    return Deck(
        deck.name,
        tuple(
            replace(zone, front_m=axle - zone.rear_m, rear_m=axle - zone.front_m)
            for zone in reversed(deck.zones)
        ),
        tuple(Strip(strip.name, axle - strip.rear_m, axle - strip.front_m) for strip in deck.strips),
        deck.rear_overhang_m,
        deck.front_overhang_m,
        tuple(axle - at for at in deck.strap_points_m),
        deck.ramp,
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_one_more_item_never_raises_the_best_margin_where_every_load_grows(seed: int) -> None:
    """Without least loads, and without the loads that an item behind the axles takes off (pin, truck)."""
    problem = random_problem(seed, 3 + seed % 3)
    problem = replace(
        problem,
        trailer=replace(
            problem.trailer,
            pin_share_least_ratio=0.0,
            pin_share_most_ratio=1.0,
            pin_limit_kg=math.inf,
            axle_preload_kg=0.0,
        ),
        truck=None,
        axle_groups=(),
        decks=tuple(shifted(deck, 2.0) for deck in problem.decks),
    )
    fewer = with_items(problem, problem.items[:-1])
    assert margin(problem) <= margin(fewer) + 1e-9


def shifted(deck: Deck, by: float) -> Deck:
    """All of it behind the coupling, so that nothing takes load off the axles."""
    return replace(
        deck,
        zones=tuple(replace(zone, front_m=zone.front_m + by, rear_m=zone.rear_m + by) for zone in deck.zones),
        strips=tuple(
            replace(strip, front_m=strip.front_m + by, rear_m=strip.rear_m + by) for strip in deck.strips
        ),
        strap_points_m=tuple(at + by for at in deck.strap_points_m),
    )


def test_one_more_item_can_raise_the_margin_where_the_pin_is_too_light() -> None:
    """A trailer too light on its pin: a second machine far in front brings it into the window."""
    trailer = Trailer(1000.0, 5.0, (5.0,), "equalized", (9000.0,), 9000.0, pin_share_least_ratio=0.15)
    deck = Deck("deck", (Zone("neck", 0.0, 1.0), Zone("main", 3.9, 6.0)))
    one = Item("one", 1000.0, 1.0, (Contact(0.5, 1.0),), height_m=2.0)
    two = Item("two", 900.0, 1.0, (Contact(0.5, 1.0),))
    low = replace(deck, zones=(replace(deck.zones[0], height_limit_m=1.5), deck.zones[1]))
    assert margin(Problem((one,), (low,), trailer)) < 0 < margin(Problem((one, two), (low,), trailer))


@pytest.mark.parametrize("seed", SEEDS)
def test_leaving_a_limit_out_never_lowers_the_best_margin(seed: int) -> None:
    problem = random_problem(seed, 2 + seed % 3)
    before = margin(problem)
    for name in limit_names(problem):
        assert margin(without(problem, [name])) >= before - 1e-9, name


@pytest.mark.parametrize("seed", SEEDS)
def test_a_looser_limit_never_lowers_the_best_margin(seed: int) -> None:
    problem = random_problem(seed, 2 + seed % 3)
    before, trailer, truck = margin(problem), problem.trailer, problem.truck
    looser = [
        replace(problem, trailer=replace(trailer, gross_limit_kg=trailer.gross_limit_kg * 1.1)),
        replace(problem, trailer=replace(trailer, pin_limit_kg=trailer.pin_limit_kg * 1.1)),
        replace(
            problem, trailer=replace(trailer, axle_limit_kg=tuple(kg * 1.1 for kg in trailer.axle_limit_kg))
        ),
        replace(problem, trailer=replace(trailer, pin_share_least_ratio=trailer.pin_share_least_ratio * 0.8)),
        replace(problem, gap_m=problem.gap_m * 0.5),
        replace(
            problem,
            decks=tuple(replace(deck, rear_overhang_m=deck.rear_overhang_m + 0.3) for deck in problem.decks),
        ),
        replace(
            problem,
            decks=tuple(
                replace(
                    deck,
                    zones=tuple(
                        replace(
                            z, total_limit_kg=z.total_limit_kg * 1.2, wheel_limit_kg=z.wheel_limit_kg * 1.1
                        )
                        for z in deck.zones
                    ),
                )
                for deck in problem.decks
            ),
        ),
    ]
    if truck is not None:
        looser.append(replace(problem, truck=replace(truck, rear_limit_kg=truck.rear_limit_kg * 1.1)))
    for number, other in enumerate(looser):
        assert margin(other) >= before - 1e-9, number


@pytest.mark.parametrize("seed", range(6))
def test_the_same_question_has_the_same_answer_every_time(seed: int) -> None:
    problem = random_problem(seed, 5)
    assert plan(problem, code="plain", reasons=False) == plan(problem, code="plain", reasons=False)


def test_both_ends_of_a_truck_can_bind() -> None:
    """A truck whose front axle needs its weight binds from the other side than its rear axle does."""
    truck = Truck(-4.0, -1.2, 1200.0, 1200.0, rear_limit_kg=2800.0, front_least_kg=1150.0)
    trailer = Trailer(1000.0, 4.4, (5.0,), "equalized", (5000.0,), 6000.0)
    crate = Item("crate", 1000.0, 1.0, (Contact(0.5, 1.0),), facings=("forward",))
    deck = Deck("deck", (Zone("main", 0.0, 9.0),))
    problem = Problem((crate,), (deck,), trailer, truck)
    ahead = evaluate(problem, [Placement("crate", "deck", "forward", 0.0)])
    assert {share.name for share in ahead.shares if share.margin < 0} == {"truck_front_least"}
