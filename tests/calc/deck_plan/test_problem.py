"""What cannot be is refused at once, with the item, the value and the cure."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from sendoff.calc.deck_plan import (
    Contact,
    Deck,
    Item,
    Problem,
    Strip,
    Trailer,
    Zone,
    evaluate,
    on_bearers,
    on_tracks,
    plan,
    unchecked,
    vehicle,
    with_mass,
)
from sendoff.calc.deck_plan.problem import Placement
from sendoff.errors import OutOfRange

TRAILER = Trailer(2000.0, 5.0, (5.5, 6.4), "equalized", (2700.0, 2700.0), 7000.0)
DECK = Deck("deck", (Zone("main", 0.0, 9.0),), rear_overhang_m=0.5)


def car(name: str = "car", mass_kg: float = 1500.0, **more: object) -> Item:
    fields = {"length_m": 4.5, "front_overhang_m": 0.9, "wheelbase_m": 2.7, "front_share_ratio": 0.6}
    return vehicle(name, mass_kg, **{**fields, **more})  # type: ignore[arg-type]


def problem(*items: Item, **more: object) -> Problem:
    return Problem(items or (car(),), (DECK,), TRAILER, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("make", "names", "cure"),
    [
        (lambda: car(mass_kg=0.0), ["item car", "mass_kg"], "weigh it"),
        (lambda: car(mass_kg=math.nan), ["item car", "mass_kg"], "finite"),
        (lambda: car(mass_kg=-3.0), ["item car", "mass_kg"], "above zero"),
        (lambda: car(length_m=math.inf), ["item car", "length_m"], "measure it"),
        (lambda: car(front_share_ratio=1.2), ["item car", "front_share_ratio"], "center of mass lies outside"),
        (lambda: car(front_share_ratio=-0.1), ["item car", "front_share_ratio"], "weigh each axle"),
        (lambda: car(wheelbase_m=0.0), ["item car", "wheelbase_m"], "measure it"),
        (lambda: car(front_overhang_m=2.5), ["item car", "offset_m"], "within the item's length"),
        (lambda: car(mass_error_kg=1500.0), ["item car", "mass_error_kg"], "weigh it"),
        (lambda: car(facings=("sideways",)), ["item car", "facings"], "forward, backward or both"),
        (lambda: car(drop_count=-1), ["item car", "drop_count"], "first off"),
        (lambda: car(height_m=0.0), ["item car", "height_m"], "leave it out where it is not known"),
        (lambda: car(approach_rad=2.0), ["item car", "approach_rad"], "leave it out"),
        (lambda: Item("", 1.0, 1.0, (Contact(0.5, 1.0),)), ["item name"], "own name"),
        (lambda: Item("crate", 1.0, 1.0, (Contact(0.2, 0.5), Contact(0.8, 0.4))), ["crate", "shares"], "add up to 1"),
        (lambda: Item("crate", 1.0, 1.0, (Contact(0.2, -0.5), Contact(0.8, 1.5))), ["crate", "share"], "weigh each"),
        (lambda: Item("crate", 1.0, 1.0, ()), ["crate", "contacts"], "1 to 8"),
        (lambda: Item("crate", 1.0, 1.0, (Contact(0.8, 0.5), Contact(0.2, 0.5))), ["crate"], "front to rear"),
        (lambda: on_tracks("digger", 900.0, length_m=3.0, tracks_front_m=0.5, tracks_length_m=2.0, center_m=2.4),
         ["item digger", "center_m"], "near the middle of the tracks"),
        (lambda: problem(car(), car()), ["items"], "given twice"),
        (lambda: problem(*(car(f"car_{number:02d}") for number in range(41))), ["items"], "1 to 40"),
        (lambda: problem(car(length_m=9.8)), ["item car", "length_m"], "9.500 m"),
        (lambda: Zone("tail", 3.0, 3.0), ["zone tail", "rear_m"], "behind front_m"),
        (lambda: Zone("tail", 3.0, 4.0, total_limit_kg=0.0), ["zone tail", "total_limit_kg"], "no limit"),
        (lambda: Zone("tail", 3.0, 4.0, total_limit_kg=math.nan), ["zone tail", "total_limit_kg"], "no limit"),
        (lambda: Strip("hinge", 2.0, 1.0), ["strip hinge"], "behind front_m"),
        (lambda: Deck("deck", ()), ["deck deck", "zones"], "at least one zone"),
        (lambda: Deck("deck", (Zone("a", 0.0, 5.0), Zone("b", 4.0, 6.0))), ["zone b", "front_m"], "not lie ahead"),
        (lambda: Problem((car(),), (DECK, DECK), TRAILER), ["decks"], "given twice"),
        (lambda: Problem((car(),), (), TRAILER), ["decks"], "at least one"),
        (lambda: replace(TRAILER, axle_limit_kg=(2700.0,)), ["trailer", "axle_limit_kg"], "each of 2 axles"),
        (lambda: replace(TRAILER, axle_m=(5.5, -1.0)), ["trailer", "axle_m"], "behind the coupling"),
        (lambda: replace(TRAILER, pin_share_least_ratio=0.3, pin_share_most_ratio=0.2), ["pin_share"], "less than"),
        (lambda: replace(problem(), gap_m=-0.1), ["gap_m"], "below zero"),
        (lambda: with_mass(problem(), "cat", 5.0), ["item"], "must be one of car"),
        (lambda: evaluate(problem(), [Placement("car", "deck", "forward", math.nan)]), ["front_m"], "finite"),
        (lambda: evaluate(problem(), [Placement("car", "roof", "forward", 0.0)]), ["deck"], "must be one of deck"),
        (lambda: evaluate(problem(), [Placement("car", "deck", "forward", 0.0)] * 2), ["item"], "twice"),
        (lambda: plan(problem(*(car(f"car_{n}", length_m=4.5) for n in range(13)))), ["items"], "ask which of them"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_by_name_with_its_cure(make, names: list[str], cure: str) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001
    with pytest.raises(OutOfRange) as refused:
        make()
    message = str(refused.value)
    for name in names:
        assert name in message, message
    assert cure in message, message


def test_a_car_of_the_length_of_the_deck_is_not_refused() -> None:
    fits = plan(problem(car(length_m=9.5, wheelbase_m=6.0)), code="plain")
    assert fits.placements[0].front_m == pytest.approx(0.0, abs=1e-9)


def test_the_center_of_mass_follows_from_the_axles() -> None:
    # 60 % on the front axle at 0.9 m, 40 % on the rear at 3.6 m: 0.6 * 0.9 + 0.4 * 3.6 = 1.98 m
    assert car().center_m == pytest.approx(1.98)
    assert car().offsets_m("backward") == pytest.approx((3.6, 0.9))


def test_rollers_of_tracks_bear_in_a_straight_line_and_balance() -> None:
    digger = on_tracks("digger", 5000.0, length_m=5.0, tracks_front_m=1.0, tracks_length_m=2.4, center_m=2.0)
    shares = [contact.share_ratio for contact in digger.contacts]
    assert sum(shares) == pytest.approx(1.0)
    assert digger.center_m == pytest.approx(2.0)
    steps = [b - a for a, b in pairwise(shares)]
    assert steps == pytest.approx([steps[0]] * len(steps))
    crate = on_bearers("crate", 400.0, length_m=2.0, bearer_m=(0.2, 1.0, 1.8))
    assert crate.center_m == pytest.approx(1.0)
    assert crate.moved_by == "lifted"


def test_what_is_not_known_is_named() -> None:
    low = Deck("deck", (Zone("main", 0.0, 9.0, height_limit_m=2.0),))
    named = unchecked(Problem((car(),), (low,), TRAILER))
    assert "car: height_m" in named
    assert "truck" in named
    assert not any("width" in name for name in named)
