"""What is found of a lift deck, two batteries, a heavy truck's plug, air brakes and rear legs, worked by hand."""

from __future__ import annotations

import math

import pytest

from sendoff.catalogue.load import load
from sendoff.findings.all_limits import all_findings
from sendoff.findings.lift_limits import findings_of as lifts
from sendoff.findings.model import Finding
from sendoff.findings.power_limits import findings_of as power
from sendoff.findings.truck_limits import findings_with_truck
from tests.findings.demo import AH, DAY, INCH, LB, DemoYard, by_id

HAULER, PINTLE = "qb-0701", "qb-0801"


def found(demo: DemoYard, unit: str) -> dict[str, Finding]:
    return by_id(all_findings(demo.unit(unit), load(demo.catalogue), DAY))


def test_the_lift_decks_cylinders_lift_by_their_moment_about_its_hinge(demo: DemoYard) -> None:
    """Moments by hand over the whole rise: two cylinders, from the foot to the eye, against a load at the middle."""
    lift = by_id(lifts(demo.unit(HAULER)))["lift_deck.lift"]
    push_lbf = 2 * math.pi / 4 * 2.5**2 * 2650
    (hx, hz), (fx, fz), (ex, ez) = (98.0, 29.0), (297.0, 13.0), (300.0, 54.0)
    lx, lz = (98 + 318) / 2 - hx, 30.0 - hz
    least = math.inf
    for step in range(101):
        turn = math.radians(10) * step / 100
        sine, cosine = math.sin(turn), math.cos(turn)
        x, z = (ex - hx) * cosine - (ez - hz) * sine, (ex - hx) * sine + (ez - hz) * cosine
        dx, dz = x - (fx - hx), z - (fz - hz)
        moment = push_lbf * (x * dz - z * dx) / math.hypot(dx, dz)
        least = min(least, moment / (lx * cosine - lz * sine))
    assert lift.limit.most == pytest.approx(least * LB, rel=2e-3)
    assert lift.demand == pytest.approx(6400 * LB)


def test_the_lift_decks_cylinders_have_the_stroke_its_rise_asks_for(demo: DemoYard) -> None:
    """Foot to eye: 41.1 in flat; 75.9 in when the eye stands 10 degrees up."""
    stroke = by_id(lifts(demo.unit(HAULER)))["lift_deck.stroke"]
    flat = math.dist((297, 13), (300, 54))
    turn = math.radians(10)
    up = (98 + 202 * math.cos(turn) - 25 * math.sin(turn), 29 + 202 * math.sin(turn) + 25 * math.cos(turn))
    assert stroke.demand == pytest.approx((math.dist((297, 13), up) - flat) * INCH, rel=1e-3)
    assert stroke.limit.most == pytest.approx(38 * INCH)


def test_the_height_with_the_deck_up_is_its_raised_end_and_the_highest_car_it_may_bear(
    demo: DemoYard,
) -> None:
    turn = math.radians(10)
    end = 29 + 220 * math.sin(turn) + 1 * math.cos(turn)
    height = found(demo, HAULER)["cargo.height_deck_up"]
    assert height.demand == pytest.approx((end + 67) * INCH, rel=1e-6)
    assert height.limit.most == pytest.approx(160 * INCH)
    # a car too heavy for the lift deck does not stand on it, however high it is
    demo.change("cargo/three_small_cars.toml", 'mass = "3,610 lb"', 'mass = "6,610 lb"')
    assert found(demo, HAULER)["cargo.height_deck_up"].demand == pytest.approx((end + 59) * INCH, rel=1e-6)


def test_a_second_battery_counts_as_much_as_the_first(demo: DemoYard) -> None:
    both = by_id(power(demo.unit(HAULER)))["battery.day"]
    assert both.limit.most == pytest.approx(0.5 * 2 * 104 * AH)
    demo.change("sheets/qb-0701.toml", '"second_battery", ', "")
    text = demo.sheet(HAULER).read_text(encoding="utf-8")
    rows = '[parts.second_battery]\nsecond_battery = { serial = "B31-01103", lot = "26-42" }\n'
    assert rows in text
    demo.sheet(HAULER).write_text(text.replace(rows, ""), encoding="utf-8")
    one = by_id(power(demo.unit(HAULER)))["battery.day"]
    assert one.limit.most == pytest.approx(0.5 * 104 * AH)
    assert one.demand is not None
    assert both.demand is not None
    assert one.demand > both.demand  # each battery gives half the current, and gives more for it (Peukert)


def test_a_pick_ups_plug_cannot_feed_the_antilock_unit_and_a_heavy_trucks_can(demo: DemoYard) -> None:
    """SAE J560: terminal 7 feeds the antilock brakes; a blade plug's center does not."""
    unit = demo.unit(PINTLE)
    heavy = by_id(findings_with_truck(unit, demo.truck("tandem_flatbed_air")))["truck.plug"]
    blade = by_id(findings_with_truck(unit, demo.truck("dual_wheel_one_ton")))["truck.plug"]
    assert heavy.holds is True
    assert blade.holds is False
    assert "antilock" in blade.words["lacking"]


def test_air_brakes_ask_for_no_electric_controller_and_hydraulic_ones_for_the_right_menu(
    demo: DemoYard,
) -> None:
    air = by_id(findings_with_truck(demo.unit(PINTLE), demo.truck("tandem_flatbed_air")))
    assert "truck.controller" not in air
    hydraulic = demo.unit("qb-0707")
    asked = by_id(findings_with_truck(hydraulic, demo.truck("class_5_hauler_bed")))["truck.controller"]
    assert asked.missing == ("truck_controller_menu",)
    timed = by_id(findings_with_truck(hydraulic, demo.truck("three_quarter_ton")))["truck.controller"]
    assert timed.holds is False


def test_rear_legs_bear_a_machine_on_its_way_up_the_ramps(demo: DemoYard) -> None:
    way = found(demo, PINTLE)
    assert way["cargo.way_on"].limit.most == pytest.approx(30_000 * LB)
    assert way["cargo.way_on"].demand == pytest.approx(17_850 * LB)
    assert way["cargo.crossing"].limit.most == pytest.approx(26_000 * LB)


def test_slide_in_ramps_are_held_against_the_heaviest_vehicle(demo: DemoYard) -> None:
    crossing = found(demo, HAULER)["cargo.crossing"]
    assert crossing.limit.most == pytest.approx(7_800 * LB)
    assert crossing.demand == pytest.approx(3_610 * LB)
