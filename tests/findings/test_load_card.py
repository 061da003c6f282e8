"""The load card: what it says, which way it rounds, and that it agrees with the window it comes from."""

from __future__ import annotations

import dataclasses

import pytest

from sendoff.findings.load_card import LoadCard, load_card, tell_card
from sendoff.findings.load_window import limits_of
from sendoff.findings.weighed import empty_of
from tests.findings.demo import INCH, LB, DemoYard

TILT = "qb-0107"


def card_of(demo: DemoYard, name: str = TILT, truck: str | None = None) -> LoadCard:
    card = load_card(demo.unit(name), demo.truck(truck) if truck else None)
    assert card is not None
    return card


def test_the_most_is_what_the_plate_leaves_less_the_scales_error(demo: DemoYard) -> None:
    """24,900 - 8,940 - 20 lb; the plate's gross rating is what ends it."""
    card = card_of(demo)
    assert card.alone is not None
    assert card.alone.most_kg == pytest.approx(15_940 * LB)
    assert card.alone.by == ("plate_gross",)


def test_each_band_is_the_window_of_its_load(demo: DemoYard) -> None:
    card = card_of(demo, truck="dual_wheel_one_ton")
    unit = demo.unit(TILT)
    empty = empty_of(unit)
    assert empty is not None
    limits = limits_of(unit, empty, demo.truck("dual_wheel_one_ton"))
    assert limits is not None
    assert card.with_truck is not None
    assert len(card.with_truck.bands) == 4
    for band in card.with_truck.bands:
        assert band.window == limits.window(band.cargo_kg)
        for x in (band.window.front_x_m, band.window.rear_x_m):
            assert limits.coupling_kg(band.cargo_kg, x) <= min(most for _, most in limits.coupling) + 1e-6


def test_a_weaker_truck_allows_less_and_says_which_limit(demo: DemoYard) -> None:
    strong, weak = card_of(demo, truck="dual_wheel_one_ton"), card_of(demo, truck="three_quarter_ton")
    assert strong.with_truck is not None
    assert weak.with_truck is not None
    assert weak.with_truck.most_kg < strong.with_truck.most_kg
    assert any(name.startswith("truck_") for name in weak.with_truck.by)
    assert weak.alone == strong.alone


def test_while_it_drives_on_the_hinge_sets_the_machine(demo: DemoYard) -> None:
    card = card_of(demo)
    assert card.lifts_at_kg == pytest.approx(1_720 * 245 / 35 * LB)
    assert card.lifts_on_tail_kg == pytest.approx(1_720 * 245 / 95.25 * LB)


def test_without_the_couplings_share_it_says_to_weigh(demo: DemoYard) -> None:
    demo.change("catalogue/trailers/utility_single.toml", 'empty_coupling_share = "12 %"\n', "")
    card = card_of(demo, "qb-0203")
    assert card.alone is None
    assert card.lifts_at_kg is None
    told = tell_card(card, "en", "us")
    assert any("weigh it empty" in remark for remark in told.remarks)


def test_shown_bands_lie_inside_and_shown_loads_below(demo: DemoYard) -> None:
    """The front of 7 ft 3.6 in goes up to 7 ft 4 in, the rear of 8 ft 10.9 in down to 8 ft 10½ in."""
    card = card_of(demo)
    assert card.alone is not None
    full = card.alone.bands[-1].window
    told = tell_card(card, "en", "us").allowed[0].bands[-1]
    assert told[0] == "15,940 lb"
    shown_front, shown_rear = (7 * 12 + 4) * INCH, (8 * 12 + 10.5) * INCH
    assert told[1:] == ("7 ft 4 in", "8 ft 10½ in")
    assert shown_front >= full.front_x_m - card.deck_front_x_m
    assert shown_rear <= full.rear_x_m - card.deck_front_x_m


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("system", ["us", "metric"])
def test_it_is_told_in_both_languages_and_lists_what_was_not_checked(
    demo: DemoYard, language: str, system: str
) -> None:
    told = tell_card(card_of(demo, truck="dual_wheel_one_ton"), language, system)  # type: ignore[arg-type]
    said = " ".join(str(dataclasses.astuple(told))).casefold()
    assert told.not_checked
    assert len(told.allowed) == 2
    assert "{" not in said
    assert " safe" not in said
    assert "segur" not in said
