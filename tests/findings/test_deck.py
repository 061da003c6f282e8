"""The deck planner on real units: its numbers held against the findings' own, against sums by hand, and the checker."""

from __future__ import annotations

import math

import pytest

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.calc.deck_plan import Placement
from sendoff.calc.rules_of_the_road.bridge import axle_weights_check
from sendoff.catalogue.freight import Cargo
from sendoff.errors import FaultyInput
from sendoff.findings import load_limits
from sendoff.findings.all_limits import read_cargo
from sendoff.findings.deck.answer import as_given, choose_some, place_all, take_trips
from sendoff.findings.deck.case import DeckCase, case_of, heavier, order_of_drops
from sendoff.findings.deck.items import items_of
from sendoff.findings.deck.robust import robustness
from sendoff.findings.deck.surfaces import surfaces, way_up
from sendoff.findings.deck.telling import Teller
from sendoff.findings.load_row import stand_near
from sendoff.findings.load_window import limits_of
from sendoff.findings.weighed import empty_of
from tests.calc.deck_plan.checker import check
from tests.findings.demo import INCH, LB, DemoYard, by_id

TILT, UTILITY, TRUCK = "qb-0107", "qb-0203", "dual_wheel_one_ton"
CAR = """
[[item]]
id = "car"
name = "Car"
mass = "3,600 lb"
length = "190 in"
width = "72 in"
height = "58 in"
front_overhang = "36 in"
wheelbase = "110 in"
front_share = "60 %"
track_inner = "54 in"
track_outer = "70 in"
clearance = "7.5 in"
approach = "18 deg"
departure = "20 deg"
strap_reach = "5 ft"
"""
CRATE = """
[[item]]
id = "crate"
name = "Crate"
mass = "2,000 lb"
length = "6 ft"
width = "5 ft"
height = "5 ft"
center_of_mass = "3 ft"
set_down = true
"""


def fence_job(demo: DemoYard) -> Cargo:
    return read_cargo(demo.folder / "cargo" / "fence_job.toml")


def fence_case(demo: DemoYard) -> DeckCase:
    return case_of(demo.unit(TILT), fence_job(demo), demo.truck(TRUCK))


# ── the numbers ─────────────────────────────────────────────────────────────────────────────────────────────────────


def test_pin_axles_tires_and_truck_are_those_of_a_sum_by_hand(demo: DemoYard) -> None:
    """Moments about the coupling on paper: inches and pounds, as a yard would do them."""
    placed = [
        Placement("skid_loader", "deck+tail", "forward", 100 * INCH),
        Placement("auger", "deck+tail", "forward", 250 * INCH),
        Placement("posts", "deck+tail", "forward", 300 * INCH),
    ]
    found = as_given(fence_case(demo), "", placed, "en")
    looked_at = found.looked_at
    assert looked_at is not None
    load = {share.name: share.load_kg / LB for share in looked_at.shares}
    ticket = {
        row.what: row.mass.si / LB
        for row in demo.unit(TILT).weighings
        if row.state == "empty" and row.mass.si
    }
    empty, pin_empty = ticket["whole"], ticket["coupling"]
    middle = (228 + 262) / 2
    # centers: loader 100 + 76, auger 250 + 24, posts 300 + 48
    moment = 7950 * 176 + 540 * 274 + 2560 * 348 + (empty - pin_empty) * middle
    axles = moment / middle
    gross = empty + 7950 + 540 + 2560
    pin = gross - axles
    assert load["gross"] == pytest.approx(gross, abs=1e-6)
    assert load["axle_1"] == load["axle_2"] == pytest.approx(axles / 2, abs=1e-6)
    assert load["tires_1"] == pytest.approx(axles / 8, abs=1e-6)
    assert load["pin_weight"] == load["coupling"] == pytest.approx(pin, abs=1e-6)
    # the truck: ball 4 in ahead of the rear axle of a 176 in wheelbase
    assert load["truck_front"] == pytest.approx(4840 + pin * 4 / 176, abs=1e-6)
    assert load["truck_rear"] == pytest.approx(3380 + pin * 172 / 176, abs=1e-6)
    assert load["truck_gross"] == pytest.approx(4840 + 3380 + pin, abs=1e-6)
    assert load["combined"] == pytest.approx(4840 + 3380 + gross, abs=1e-6)
    # its front wheels bear (104 - 76) of 46 in, two of them; the worst wheel on the tail is of the posts, on 8 pads
    assert load["zone_wheel:deck"] == pytest.approx(7950 * 28 / 46 / 2, abs=1e-6)
    assert load["zone_wheel:tail"] == pytest.approx(2560 / 8, abs=1e-6)


def test_the_same_load_has_the_same_numbers_as_in_the_findings(demo: DemoYard) -> None:
    """Findings stand the cargo their own way; put there by hand the planner must say the same of every limit."""
    unit, cargo, truck = demo.unit(TILT), fence_job(demo), demo.truck(TRUCK)
    own = by_id(load_limits.findings_of(unit, cargo, truck))
    items = load_limits._row_items(cargo)
    empty = empty_of(unit)
    assert items is not None
    assert empty is not None
    limits = limits_of(unit, empty, truck)
    assert limits is not None
    total = sum(item.mass.si for item in cargo.items)
    stand = stand_near(items, limits.room, load_limits._wanted(unit, empty, limits.window(total), total))
    assert stand is not None
    names = {str(item.name): item.id for item in cargo.items}
    placed = [Placement(names[row.item.name], "deck+tail", "forward", row.front_x_m) for row in stand.placed]
    found = by_id(as_given(case_of(unit, cargo, truck), "", placed, "en").findings)
    pairs = {
        "cargo.coupling_share": "deck.pin_share",
        "cargo.plate_axles": "deck.axle_1",
        "cargo.each_tire": "deck.tires_1",
        "cargo.coupler_vertical": "deck.pin_weight",
        "cargo.truck_coupling_vertical": "deck.coupling",
        "cargo.truck_coupling": "deck.tow",
        "cargo.truck_front_axle": "deck.truck_front",
        "cargo.truck_rear_axle": "deck.truck_rear",
        "cargo.truck_gross": "deck.truck_gross",
        "cargo.truck_combined": "deck.combined",
    }
    for mine, other in pairs.items():
        assert found[other].demand == pytest.approx(own[mine].demand, rel=1e-9), mine
        assert found[other].limit.most == pytest.approx(own[mine].limit.most, rel=1e-9), mine
        assert found[other].limit.least == own[mine].limit.least
        assert found[other].verdict == own[mine].verdict, mine
    payload = own["cargo.payload"]
    gross = found["deck.gross"]
    assert payload.limit.most is not None
    assert payload.demand is not None
    # the planner keeps back what the scale may be off by
    assert gross.margin == pytest.approx(payload.limit.most - payload.demand - empty.error_kg, abs=1e-6)


@pytest.mark.parametrize("unit", [TILT, UTILITY, "qb-0111", "qb-0207"])
@pytest.mark.parametrize("text", [CRATE, CRATE.replace("2,000", "300"), CAR, CAR + CRATE])
def test_every_plan_of_the_demo_is_clean_by_the_checker(demo: DemoYard, unit: str, text: str) -> None:
    long = max(deck.x1_m for deck in demo.unit(unit).geometry.decks)
    if unit in {UTILITY, "qb-0207"} and "car" in text:
        with pytest.raises(FaultyInput, match="longer than the longest deck"):
            case_of(demo.unit(unit), demo.cargo(text))
        assert long < 190 * INCH + 48 * INCH
        return
    case = case_of(demo.unit(unit), demo.cargo(text))
    found = place_all(case, "en")
    if found.plan.answer != "fits":
        assert found.plan.conflict is not None
        assert found.plan.conflict.names
        return
    broken, margin = check(found.problem, found.plan.placements)
    assert broken == []
    assert margin == pytest.approx(found.plan.margin, abs=1e-9)


def test_the_fence_job_is_planned_proved_and_clean(demo: DemoYard) -> None:
    found = place_all(fence_case(demo), "en")
    assert (found.plan.answer, found.plan.proved) == ("fits", True)
    broken, margin = check(found.problem, found.plan.placements)
    assert broken == []
    assert margin == pytest.approx(found.plan.margin, abs=1e-9)
    share = by_id(found.findings)["deck.pin_share"]
    assert share.demand is not None
    assert 0.20 < share.demand < 0.25


# ── decks ───────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_decks_of_one_height_are_one_surface_with_the_way_up_over_the_tail(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    (surface,) = surfaces(unit)
    assert [zone.name for zone in surface.zones] == ["deck", "tail"]
    assert surface.first_m == pytest.approx(88 * INCH)
    assert surface.last_m == pytest.approx(400 * INCH)
    assert surface.strap_points_m == pytest.approx([x * INCH for x in (106, 138, 170, 202, 274)])
    floor = unit.part("floor")
    assert floor is not None
    assert surface.zones[0].wheel_limit_kg == floor.si("wheel_load")
    ramp = way_up(unit)
    assert ramp is not None
    assert math.degrees(ramp.angle_rad) == pytest.approx(14)


def test_a_gate_that_stands_upright_lies_at_its_angle_when_down(demo: DemoYard) -> None:
    """Upright, turned by 113 degrees: 23 degrees below level; 19 in up and 48 in long it meets the ground."""
    ramp = way_up(demo.unit(UTILITY))
    assert ramp is not None
    assert math.degrees(ramp.angle_rad) == pytest.approx(23, abs=0.5)
    assert math.sin(ramp.angle_rad) * 48 == pytest.approx(19, abs=1.0)
    assert ramp.item_limit_kg == pytest.approx(1400 * LB)


LIFT = """
[[frame.way]]
id = "lift_down"
name = { en = "Lift deck down", es = "Plataforma abajo" }
[[frame.way]]
id = "lift_up"
name = { en = "Lift deck up", es = "Plataforma arriba" }
headroom = { deck = "60 in", tail = "80 in" }
after = { deck = ["lift"] }
effort = 1
[[frame.way.deck]]
id = "lift"
x0 = "88 in"
x1 = "280 in"
width = "102 in"
height = "96 in"
total = "4,500 lb"
[stations.coupling]
"""


def lifted(demo: DemoYard) -> AsBuiltUnit:
    demo.change("catalogue/trailers/tilt_gooseneck.toml", "[stations.coupling]\n", LIFT)
    return demo.unit(TILT)


def test_a_lift_deck_makes_two_ways_and_the_better_one_is_taken(demo: DemoYard) -> None:
    unit = lifted(demo)
    assert [way.id for way in unit.geometry.ways] == ["lift_down", "lift_up"]
    two = CAR + CAR.replace('id = "car"', 'id = "car_2"').replace("3,600", "4,000")
    case = case_of(unit, demo.cargo(two))
    lift = next(deck for deck in case.problems["lift_up"].decks if deck.name == "lift")
    assert lift.leaves_over == ("deck+tail",)
    assert lift.effort_count == 1
    assert lift.zones[0].total_limit_kg == pytest.approx(4500 * LB)
    heights = {
        zone.name: zone.height_limit_m for deck in case.problems["lift_up"].decks for zone in deck.zones
    }
    assert heights == pytest.approx({"deck": 60 * INCH, "tail": 80 * INCH, "lift": math.inf})
    down, up = (place_all(case.only(way), "en") for way in ("lift_down", "lift_up"))
    assert down.plan.answer == "does_not_fit"  # 380 in of cars on 312 in of deck
    assert up.plan.answer == "fits"
    assert check(up.problem, up.plan.placements)[0] == []
    assert up.plan.loading[0].deck == "lift"  # the upper one goes on first
    both = place_all(case, "en")
    assert both.way == "lift_up"
    assert [(other.way, other.answer) for other in both.others] == [("lift_down", "does_not_fit")]
    with pytest.raises(FaultyInput, match="no such way to set up the decks"):
        case.only("sideways")


def test_a_strip_where_no_wheel_may_stand_keeps_wheels_off(demo: DemoYard) -> None:
    def wheels() -> list[float]:
        found = place_all(case_of(demo.unit(TILT), demo.cargo(CAR)), "en")
        assert found.plan.answer == "fits"
        (row,) = found.plan.placements
        return [(row.front_m + offset) / INCH for offset in found.problem.items[0].offsets_m(row.facing)]

    before = min(wheels())
    ends = f'x0 = "{before - 1:.2f} in", x1 = "{before + 1:.2f} in"'
    strip = f'strip = [{{ id = "hatch", name = {{ en = "Hatch", es = "Tapa" }}, {ends} }}]\n'
    demo.change("catalogue/trailers/tilt_gooseneck.toml", 'x0 = "88 in"\n', 'x0 = "88 in"\n' + strip)
    assert all(abs(at - before) >= 1 + 0.10 / INCH - 1e-6 for at in wheels())


def test_the_federal_groups_are_those_of_the_axle_weights_check(demo: DemoYard) -> None:
    case = fence_case(demo)
    truck = case.gear.truck
    assert truck is not None
    places = (truck.front_axle_m, truck.rear_axle_m, *case.gear.trailer.axle_m)
    check_ = axle_weights_check(places, (0.0,) * 4)
    limits = {
        (group.first_axle, group.last_axle): group.limit_kg
        for group in check_.groups
        if group.rule != "gross"
    }
    names = ["truck_front", "truck_rear", "axle_1", "axle_2"]
    mine = {
        (names.index(group.axles[0]) + 1, names.index(group.axles[-1]) + 1): group.limit_kg
        for group in case.gear.groups
    }
    assert mine == pytest.approx(limits)
    assert case_of(demo.unit(TILT), fence_job(demo), law="none").gear.groups == ()


def test_a_truck_nobody_weighed_still_limits_by_its_hitch_and_asks_to_be_weighed(demo: DemoYard) -> None:
    demo.change(f"trucks/{TRUCK}.toml", 'weighed_front = "4,840 lb"\n', "")
    demo.change(
        f"trucks/{TRUCK}.toml",
        'coupling_vertical_rating = "7,500 lb"',
        'coupling_vertical_rating = "5,000 lb"',
    )
    case = case_of(demo.unit(TILT), fence_job(demo), demo.truck(TRUCK))
    assert case.gear.truck is None
    assert case.gear.trailer.pin_limit_kg == pytest.approx(5000 * LB)
    found = place_all(case, "en")
    assert found.exit_code == 1  # tie-downs on board are too few for this load
    assert by_id(found.findings)["deck.truck"].verdict == "unknown"


def test_torsion_axles_are_checked_on_a_frame_that_bends_or_keep_eight_percent_back(demo: DemoYard) -> None:
    demo.change("catalogue/trailers/tilt_gooseneck.toml", 'suspension = "sprung"', 'suspension = "torsion"')
    plain = fence_case(demo)
    assert plain.gear.stiffened
    assert plain.gear.trailer.axle_limit_kg[0] == pytest.approx(10000 * LB / 1.08)
    rails = 'rails = { height = "12 in", flange_width = "4 in", flange = "0.225 in", web = "0.2 in" }\n'
    demo.change(
        "catalogue/trailers/tilt_gooseneck.toml", 'front_x = "-10 in"\n', 'front_x = "-10 in"\n' + rails
    )
    demo.change(
        "catalogue/trailers/tilt_gooseneck.toml",
        'suspension = "torsion"',
        'stiffness = "3,000 lbf/in", suspension = "torsion"',
    )
    bent = fence_case(demo)
    assert not bent.gear.stiffened
    found = place_all(bent, "en")
    assert found.looked_at is not None
    assert found.looked_at.shares_flexible
    axles = {row.name: row for row in found.looked_at.shares_flexible}
    row = by_id(found.findings)
    shown = row["deck.axle_2"].demand
    rigid = next(share for share in found.looked_at.shares if share.name == "axle_2")
    assert shown == pytest.approx(max(axles["axle_2"].load_kg, rigid.load_kg))
    assert any(note.key == "deck_bends" for note in row["deck.axle_2"].notes)


# ── questions ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_heavier_item_changes_only_its_mass_and_never_betters_the_plan(demo: DemoYard) -> None:
    case = fence_case(demo)
    more = heavier(case, "skid_loader", 300 * LB)
    masses = [
        item.mass_kg - old.mass_kg
        for item, old in zip(more.problems[""].items, case.problems[""].items, strict=True)
    ]
    assert masses == pytest.approx([300 * LB, 0, 0])
    with pytest.raises(FaultyInput, match="no such item"):
        heavier(case, "bulldozer", 1.0)


def test_what_comes_off_first_stands_hindmost(demo: DemoYard) -> None:
    cargo = order_of_drops(fence_job(demo), ("skid_loader", "posts"))
    assert [item.drop for item in cargo.items] == [1, 0, 2]
    found = place_all(case_of(demo.unit(TILT), cargo), "en")
    front = {row.item: row.front_m for row in found.plan.placements}
    assert front["skid_loader"] == max(front.values())
    assert [stop.off for stop in found.plan.stops] == [("skid_loader",), ("posts",), ("auger",)]


def test_the_worthiest_that_fit_are_chosen_and_the_rest_goes_on_further_trips(demo: DemoYard) -> None:
    many = "".join(
        CRATE.replace('"crate"', f'"crate_{n}"').replace("2,000", f"{4000 + 500 * n:,}") for n in range(6)
    )
    case = case_of(demo.unit(TILT), demo.cargo(many), choosing=True)
    found = choose_some(case, "en")
    assert found is not None
    assert found.chosen is not None
    assert found.chosen.proved
    assert found.plan.answer == "fits"
    assert check(found.problem, found.plan.placements)[0] == []
    trips, answers = take_trips(case, "en")
    assert sorted(name for trip in trips.trips for name in trip.items) == [f"crate_{n}" for n in range(6)]
    assert len(answers) == len(trips.trips) >= 2


def test_a_weighed_heaviest_wheel_grows_with_its_item(demo: DemoYard) -> None:
    found = place_all(fence_case(demo), "en")
    assert found.looked_at is not None
    far = robustness(found, found.looked_at)
    loader = next(row for row in far.leeway if row.item == "skid_loader")
    assert loader.heavier_kg == pytest.approx((2700 / 2550 - 1) * 7950 * LB)
    assert far.all_at_once_ratio == pytest.approx(2700 / 2550 - 1)
    assert far.holds_errors_given


def test_a_machine_that_would_lift_the_coupling_on_its_way_on_is_told(demo: DemoYard) -> None:
    """At the hinge, 280 in, a load m takes m·(280 − 245)/245 off the coupling, by moments about the axles."""
    found = place_all(fence_case(demo), "en")
    row = by_id(found.findings)["deck.way_on.skid_loader"]
    empty = empty_of(demo.unit(TILT))
    assert empty is not None
    assert empty.coupling_kg is not None
    hinge = max(hinge.x_m for hinge in demo.unit(TILT).geometry.hinges) / INCH
    assert row.limit.most == pytest.approx(empty.coupling_kg * 245 / (hinge - 245))


TRADE = """
[[item]]
id = "pickup"
name = "Old pick-up"
mass = "4,192 lb"
length = "178 in"
width = "78 in"
height = "74 in"
front_overhang = "34 in"
wheelbase = "104 in"
front_share = "45 %"
track_inner = "54 in"
track_outer = "76 in"
clearance = "9 in"
approach = "22 deg"
departure = "20 deg"
strap_reach = "5 ft"
mass_error = "150 lb"
drawn_as = "pickup"
[[item]]
id = "digger"
name = "Small digger on tracks"
mass = "5,513 lb"
length = "7 ft 6 in"
width = "60 in"
height = "90 in"
tracks_front = "12 in"
tracks_length = "62 in"
center_of_mass = "45 in"
track_inner = "36 in"
track_outer = "58 in"
clearance = "10 in"
approach = "30 deg"
departure = "30 deg"
strap_reach = "5 ft"
"""


def test_less_work_is_offered_with_what_it_costs_in_margin(demo: DemoYard) -> None:
    found = place_all(case_of(demo.unit(TILT), demo.cargo(TRADE), demo.truck(TRUCK)), "en")
    first, second = found.plan.choices
    assert (first.effort_count, second.effort_count) == (1, 0)
    assert first.margin > second.margin > 0
    assert all(choice.proved for choice in found.plan.choices)
    for choice in found.plan.choices:
        assert check(found.problem, choice.placements)[0] == []
    told = Teller(found, "en", "us").told().choices
    assert told[0].startswith("effort 1: least share")
    assert told[0].endswith("(the plan)")
    assert "Old pick-up: nose to the truck" in told[1]
    assert told[-1].startswith("Effort: 1 for each")


def test_of_two_ways_as_good_the_one_with_less_work_is_taken(demo: DemoYard) -> None:
    cargo = read_cargo(demo.folder / "cargo" / "three_small_cars.toml")
    found = place_all(case_of(demo.unit("qb-0701"), cargo, demo.truck(TRUCK)), "en")
    assert found.way == "deck_down"
    assert [other.way for other in found.others] == ["deck_up"]
    assert found.looked_at is not None
    assert found.looked_at.margin_flexible is not None
    assert any("Bending as calculated" in line for line in Teller(found, "en", "us").told().headline)


# ── what cannot be ──────────────────────────────────────────────────────────────────────────────────────────────────


def items_refused(demo: DemoYard, text: str) -> str:
    with pytest.raises(FaultyInput) as refused:
        items_of(demo.cargo(text), "load.toml")
    return str(refused.value)


WRONG = [
    (CAR.replace('wheelbase = "110 in"\n', ""), "item[1] car: wheelbase: the deck plan needs it. Measure"),
    (CAR.replace("110 in", "160 in"), "item[1] car: wheelbase: its rear wheels would stand behind its own end"),
    (CAR.replace('front_share = "60 %"', 'center_of_mass = "20 in"'), "the center of mass lies outside the wheelbase"),
    (CAR.replace('front_share = "60 %"', 'center_of_mass = "200 in"'), "the center of mass lies outside the item"),
    (CAR + 'center_of_mass = "90 in"\n', "item[1] car: front_share: it contradicts center_of_mass"),
    (CAR + 'rear_overhang = "60 in"\n', "item[1] car: rear_overhang: the lengths differ by 406 mm"),
    (CAR.replace('front_share = "60 %"\n', ""), "item[1] car: front_share: the deck plan needs it. Weigh both axles"),
    (CRATE.replace('center_of_mass = "3 ft"\n', ""), "item[1] crate: center_of_mass: the deck plan needs it"),
    (CRATE.replace('length = "6 ft"\n', ""), "item[1] crate: length: the deck plan needs it"),
    (CRATE + CRATE, "item crate: two items have this id (found 2 times). Give each its own id."),
    (CRATE + 'mass_error = "2,000 lb"\n', "item[1] crate: mass_error: the mass may be wrong by as much"),
    (CRATE + 'heaviest_wheel = "3,000 lb"\n', "item[1] crate: heaviest_wheel: one wheel weighs more"),
    (CAR + 'tracks_front = "10 in"\n', "item[1] car: tracks_length: the deck plan needs it"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "problem"), WRONG, ids=[problem for _, problem in WRONG])
def test_an_item_that_cannot_be_is_refused_by_name_with_the_cure(
    demo: DemoYard, text: str, problem: str
) -> None:
    assert problem in items_refused(demo, text)


def test_a_machine_whose_center_is_off_its_tracks_is_refused(demo: DemoYard) -> None:
    text = CAR.replace('front_overhang = "36 in"\nwheelbase = "110 in"\nfront_share = "60 %"', "%s")
    good = text % 'tracks_front = "30 in"\ntracks_length = "100 in"\ncenter_of_mass = "85 in"'
    (item,) = items_of(demo.cargo(good), "load.toml")
    assert item.center_m == pytest.approx(85 * INCH)
    assert len(item.contacts) == 5
    assert "must lie near the middle of the tracks" in items_refused(
        demo, good.replace('"85 in"', '"125 in"')
    )


def test_an_item_longer_than_the_deck_is_refused_and_so_are_too_many(demo: DemoYard) -> None:
    with pytest.raises(
        FaultyInput, match=r"item\[1\] car: length: it is longer than the longest deck, 26 ft"
    ):
        case_of(demo.unit(TILT), demo.cargo(CAR.replace("190 in", "27 ft")))
    crates = "".join(CRATE.replace('"crate"', f'"crate_{n}"') for n in range(41))
    assert "more than 12 items (found 41)" in items_refused(demo, crates)
    with pytest.raises(FaultyInput, match="more than 40 items"):
        case_of(demo.unit(TILT), demo.cargo(crates), choosing=True)


def test_a_unit_of_which_nobody_knows_where_it_is_heavy_asks_for_the_scale(demo: DemoYard) -> None:
    demo.change("catalogue/trailers/utility_single.toml", 'empty_coupling_share = "12 %"\n', "")
    with pytest.raises(FaultyInput, match="Weigh the coupling of the empty unit"):
        case_of(demo.unit(UTILITY), demo.cargo(CRATE))


@pytest.mark.parametrize("center", [0.3, 1.0, 1.4, 2.4, 2.95])
def test_what_lies_on_the_deck_presses_around_its_own_center(center: float) -> None:
    from sendoff.findings.deck.items import spread

    contacts = spread(3.0, center)
    assert sum(contact.share_ratio for contact in contacts) == pytest.approx(1)
    assert sum(contact.share_ratio * contact.offset_m for contact in contacts) == pytest.approx(
        center, abs=0.02
    )
    assert all(0 <= contact.offset_m <= 3.0 and contact.share_ratio >= 0 for contact in contacts)
