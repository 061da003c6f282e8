"""Boats, surge brakes and spring bars: what their findings say, held against sums by hand and the rule's own text."""

from __future__ import annotations

import msgspec
import pytest

from sendoff.catalogue.fields import Weight
from sendoff.catalogue.freight import Cargo, Truck
from sendoff.catalogue.load import read_file
from sendoff.findings import load_limits
from sendoff.findings.boat_limits import counted
from sendoff.findings.model import Finding
from sendoff.findings.shape_limits import highest_m
from sendoff.findings.truck_limits import findings_with_truck
from sendoff.findings.unit_limits import findings_of
from tests.findings.demo import DAY, INCH, LB, DemoYard, by_id, changed, without

BOAT, ROLLERS, CAR, BARN = "qb-0301", "qb-0305", "qb-0311", "qb-0314"


def behind(demo: DemoYard, unit: str, truck: str, **changes: Weight) -> dict[str, Finding]:
    towing = msgspec.structs.replace(demo.truck(truck), **changes)
    return by_id(findings_with_truck(demo.unit(unit), towing))


def boat(demo: DemoYard, name: str) -> Cargo:
    return read_file(demo.folder / "cargo" / f"{name}.toml", Cargo)


@pytest.mark.parametrize(("truck_lb", "verdict"), [(4172.0, "within"), (4171.0, "over")])
def test_surge_brakes_end_at_one_and_three_quarters_of_the_trucks_rating(
    demo: DemoYard, truck_lb: float, verdict: str
) -> None:
    """49 CFR 393.48(d)(1): to 12,000 lb at most 1.75 times the towing vehicle's GVWR; 7,300 lb here."""
    found = behind(demo, BOAT, "half_ton_crew", gvwr=Weight(f"{truck_lb} lb", truck_lb * LB))
    finding = found["truck.surge_ratio"]
    assert finding.verdict == verdict
    assert finding.limit.most == 1.75
    assert finding.demand == pytest.approx(7300 / truck_lb)


def test_electric_brakes_are_not_asked_of_a_surge_trailer_but_reverse_is(demo: DemoYard) -> None:
    five = behind(demo, BOAT, "half_ton_crew")
    assert "truck.controller" not in five
    assert five["truck.plug"].verdict == "within"
    four = behind(demo, BOAT, "midsize_pickup")["truck.plug"]
    assert four.verdict == "over"
    assert "reverse" in four.words["lacking"]


def test_a_trailer_without_an_actuator_has_no_surge_ratio(demo: DemoYard) -> None:
    assert "truck.surge_ratio" not in behind(demo, CAR, "three_quarter_ton_receiver")


def test_the_actuator_is_held_against_the_gross_rating(demo: DemoYard) -> None:
    unit = changed(demo.unit(BOAT), "actuator", gross_rating="7,200 lb")
    assert by_id(findings_of(unit, DAY))["actuator.gross_rating"].verdict == "over"
    assert by_id(findings_of(demo.unit(BOAT), DAY))["actuator.gross_rating"].verdict == "tight"


def test_a_boat_counts_with_its_fuel_water_and_gear(demo: DemoYard) -> None:
    """4,650 lb dry, 76 gal at 6.3 lb, 22 gal at 8.34 lb, 310 lb of gear: 5,622.3 lb by hand."""
    cargo = boat(demo, "cabin_boat")
    total = (4650 + 76 * 6.3 + 22 * 8.34 + 310) * LB
    assert counted(cargo).items[0].mass.si == pytest.approx(total)
    found = by_id(load_limits.findings_of(demo.unit(ROLLERS), cargo, None))
    true = found["cargo.boat.true_weight"]
    assert true.verdict == "over"
    assert true.demand == pytest.approx(total)
    assert true.limit.most == pytest.approx(4650 * LB)
    assert found["cargo.payload"].demand == pytest.approx(total)


def test_a_boat_that_was_weighed_full_stays_at_its_weight(demo: DemoYard) -> None:
    cargo = boat(demo, "center_console_boat")
    assert counted(cargo) == cargo
    found = by_id(load_limits.findings_of(demo.unit(BOAT), cargo, None))
    assert found["cargo.boat.true_weight"].verdict == "within"
    assert found["cargo.payload"].demand == pytest.approx(4920 * LB)


def test_a_hull_is_held_against_the_roads_width_and_not_the_bunks(demo: DemoYard) -> None:
    """Wider than the bunks by far; 49 CFR 658.15 ends at 102 in."""
    found = by_id(load_limits.findings_of(demo.unit(BOAT), boat(demo, "center_console_boat"), None))
    width = found["cargo.width"]
    assert width.demand == pytest.approx(89 * INCH)
    assert width.limit.most == pytest.approx(102 * INCH, abs=0.011)
    assert width.about == "cargo_width_over"


def test_the_bow_stop_blocks_the_boat_and_its_chain_is_one_more_tie_down(demo: DemoYard) -> None:
    """49 CFR 393.110: blocked in front, one for each 10 ft: two for 20 ft; two straps and a chain are there."""
    cargo = boat(demo, "center_console_boat")
    unit = demo.unit(BOAT)
    held = by_id(load_limits.findings_of(unit, cargo, None))["cargo.tie_down_points"]
    assert (held.demand, held.limit.most) == (2, 3)
    bare = by_id(load_limits.findings_of(without(unit, "bow_stop"), cargo, None))["cargo.tie_down_points"]
    assert (bare.demand, bare.limit.most) == (3, 2)


def test_a_ghost_is_not_the_highest_piece(demo: DemoYard) -> None:
    """The hull drawn as a ghost is not the yard's: posts and winch are the highest."""
    assert highest_m(demo.unit(BOAT)) == pytest.approx(58 * INCH, abs=0.02)


def test_spring_bars_are_held_with_the_bars_off(demo: DemoYard) -> None:
    found = by_id(findings_of(demo.unit(CAR), DAY))
    assert found["bars.bar_tongue_rating"].demand == pytest.approx(0.15 * 9990 * LB)
    assert found["bars.bar_trailer_rating"].demand == pytest.approx(9990 * LB)
    hitch = behind(demo, CAR, "three_quarter_ton_receiver")["truck.truck_coupling_vertical"]
    assert [note.key for note in hitch.notes] == ["bars_raise_nothing"]


def test_what_the_bars_must_pull_is_statics(demo: DemoYard) -> None:
    """Moments about the truck's rear axle by hand: T o / wb is lost; P = share T o L / (b (L + o)) gives it back."""
    truck: Truck = demo.truck("three_quarter_ton_receiver")
    rear = behind(demo, CAR, "three_quarter_ton_receiver")["truck.truck_rear_axle"]
    (note,) = rear.notes
    tongue, o, wheelbase, bar, long = 0.15 * 9990, 54.0, 160.0, 29.0, 229.0
    assert note.amounts["lost"].si == pytest.approx(tongue * o / wheelbase * LB)
    pull = 0.5 * tongue * o * long / (bar * (long + o))
    assert note.amounts["half"].si == pytest.approx(pull * LB)
    assert note.amounts["whole"].si == pytest.approx(2 * pull * LB)
    given_back = 0.5 * tongue * o / wheelbase
    on_trailer = pull * bar / long
    carried = 3020 + tongue * (1 + o / wheelbase) - given_back - on_trailer
    assert note.amounts["rear"].si == pytest.approx(carried * LB)
    assert truck.weighed_rear is not None


def test_without_bars_nothing_is_said_of_them(demo: DemoYard) -> None:
    unit = without(demo.unit(CAR), "bars")
    found = by_id(findings_with_truck(unit, demo.truck("three_quarter_ton_receiver")))
    assert not found["truck.truck_rear_axle"].notes
    assert not found["truck.truck_coupling_vertical"].notes


def test_a_trailer_without_a_floor_lifts_no_coupling_by_what_drives_on(demo: DemoYard) -> None:
    from sendoff.findings.load_card import load_card

    card = load_card(demo.unit(BOAT), demo.truck("half_ton_crew"))
    assert card is not None
    assert card.lifts_at_kg is None
