"""Findings on a unit's own systems, held against sums done by hand and published tables."""

from __future__ import annotations

import math

import msgspec
import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.catalogue.load import load
from sendoff.findings import brake_limits, lift_limits, power_limits, shape_limits, system_limits, unit_limits
from sendoff.findings.all_limits import not_checked
from sendoff.findings.model import Finding
from sendoff.findings.telling import tell
from tests.findings.demo import AH, DAY, FOOT, INCH, LB, LBF, DemoYard, by_id, changed, without
from tests.yards import SmallYard

TILT = "qb-0107"
UTILITY = "qb-0203"
PSI = LBF / INCH**2


def system_of(unit: AsBuiltUnit) -> dict[str, Finding]:
    return by_id(system_limits.findings_of(unit))


def test_a_bare_trailer_is_asked_for_nothing_it_does_not_have(tmp_path: object, demo: DemoYard) -> None:
    found = system_of(demo.unit(UTILITY))
    assert not {
        one for one in found if one.startswith(("brakes", "breakaway", "battery", "pump", "winch", "tail"))
    }


def test_the_starter_yards_plain_trailer_gets_its_width_alone(tmp_path: object) -> None:
    yard = SmallYard(tmp_path)  # type: ignore[arg-type]
    assert set(system_of(as_built(yard.sheet, load(yard.catalogue)))) == {"road.width"}


# ── brakes ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_drop_to_the_last_axle_is_that_of_a_ladder_of_two_axles(demo: DemoYard) -> None:
    """Ohm and Kirchhoff by hand: 8 AWG stranded is 0.778 ohm/1000 ft (NEC chapter 9 table 8); two axles of 1.6 ohm."""
    per_foot = 2 * 0.778 / 1000
    run = (
        46 / 408
    )  # feet of harness for each inch from the plug, 8 in ahead of the coupling, to the rear at 400 in
    first, last = 20 + run * 236, 20 + run * 270
    feed, between, axle = first * per_foot, (last - first) * per_foot, 1.6
    behind = 1 / (1 / axle + 1 / (between + axle))
    at_first = behind / (feed + behind)
    at_last = at_first * axle / (between + axle)
    found = by_id(brake_limits.findings_of(demo.unit(TILT)))["brakes.feed"]
    assert found.demand == pytest.approx(1 - at_last, rel=2e-3)
    assert found.verdict == "within"
    assert found.steps


def test_a_thin_brake_wire_loses_more_than_a_tenth(demo: DemoYard) -> None:
    demo.change(
        "catalogue/cards/electrical/harness.toml", "8 AWG brake and ground", "12 AWG brake and ground"
    )
    assert by_id(brake_limits.findings_of(demo.unit(TILT)))["brakes.feed"].verdict == "over"


def test_a_gauge_nobody_wrote_down_is_asked_for(demo: DemoYard) -> None:
    demo.change("catalogue/cards/electrical/harness.toml", "8 AWG brake and ground", "thick brake and ground")
    demo.change("catalogue/cards/electrical/harness.toml", "12 AWG lamps", "thin lamps")
    found = by_id(brake_limits.findings_of(demo.unit(TILT)))["brakes.feed"]
    assert found.missing == ("brake_wire_gauge",)


def test_what_a_meter_should_read_is_told_from_the_magnet_makers_table(demo: DemoYard) -> None:
    """Four magnets in 12 in drums: 15.0 to 16.3 A (magnet test tables, maximum circuit current)."""
    found = by_id(brake_limits.findings_of(demo.unit(TILT)))["brakes.feed"]
    assert any("15.0 A to 16.3 A" in note for note in tell(found, "en", "us").notes)


def test_ampere_hours_alone_never_tell_how_long_the_breakaway_holds(demo: DemoYard) -> None:
    """The small battery's maker tells no short-time rating, and the demo yard leaves it so."""
    found = by_id(brake_limits.findings_of(demo.unit(TILT)))["breakaway.hold"]
    assert found.verdict == "unknown"
    assert found.missing == ("breakaway_rating",)


def test_a_breakaway_battery_with_its_short_time_ratings_is_judged(demo: DemoYard) -> None:
    """Four magnets of 3.2 ohm from 12.7 to 9.6 V are as hard as (12.7 - 9.6)/(0.8 ln(12.7/9.6)) = 13.85 A."""
    unit = demo.unit(TILT)
    mean = (12.7 - 9.6) / (0.8 * math.log(12.7 / 9.6))
    assert mean == pytest.approx(13.85, abs=0.005)
    good = changed(unit, "breakaway", rating_15min="14 A", rating_30min="9 A", rating_end_voltage="9.6 V")
    holds = by_id(brake_limits.findings_of(good))["breakaway.hold"]
    assert holds.verdict in {"within", "tight"}
    assert holds.demand is not None
    assert 900 <= holds.demand <= 1800
    weak = changed(unit, "breakaway", rating_15min="13 A", rating_10min="19 A", rating_end_voltage="9.6 V")
    fails = by_id(brake_limits.findings_of(weak))["breakaway.hold"]
    assert fails.verdict == "over"
    assert "too little" in tell(fails, "en", "us").margin


def test_the_larger_battery_has_its_makers_rating_and_is_judged(demo: DemoYard) -> None:
    """25.5 A for 15 min to 9.6 V against the 13.9 A four magnets ask for: it holds, at least those 15 minutes."""
    demo.change("catalogue/trailers/tilt_gooseneck.toml", '"breakaway_set/ah7"', '"breakaway_set/ah12"')
    found = by_id(brake_limits.findings_of(demo.unit(TILT)))["breakaway.hold"]
    assert found.verdict in {"within", "tight"}
    assert found.demand is not None
    assert found.demand >= 900


def test_ratings_that_end_at_a_lower_voltage_say_nothing_of_brakes(demo: DemoYard) -> None:
    """Short-rate sheets often end at 7.8 V, where magnets draw 65 %: trade notes G, B3."""
    unit = changed(demo.unit(TILT), "breakaway", rating_15min="25 A", rating_end_voltage="7.8 V")
    assert by_id(brake_limits.findings_of(unit))["breakaway.hold"].verdict == "unknown"


def test_a_rating_just_missed_is_passed_never_tight(demo: DemoYard) -> None:
    """Only a 15 minute rating below the current asked: the time is less than 15 minutes, by how much nobody knows."""
    unit = changed(demo.unit(TILT), "breakaway", rating_15min="13 A", rating_end_voltage="9.6 V")
    assert by_id(brake_limits.findings_of(unit))["breakaway.hold"].verdict == "over"


# ── 12 V ────────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_breaker_may_let_through_what_its_wire_carries_and_no_more(demo: DemoYard) -> None:
    """NEC table 310.16, 60 °C: 8 AWG carries 40 A."""
    unit = demo.unit(TILT)
    found = by_id(power_limits.findings_of(unit))["charge_lead.wire"]
    assert (found.demand, found.limit.most, found.verdict) == (40.0, 40.0, "within")
    assert (
        by_id(power_limits.findings_of(changed(unit, "charge_lead", fuse="50 A")))["charge_lead.wire"].verdict
        == "over"
    )


def test_a_lasting_load_wants_a_quarter_more_than_it_draws(demo: DemoYard) -> None:
    found = by_id(power_limits.findings_of(demo.unit(TILT)))["charge_lead.load"]
    assert found.demand == pytest.approx(15.0)  # 12 A and a quarter


def test_a_motor_that_draws_more_than_its_fuse_is_found(demo: DemoYard) -> None:
    found = by_id(power_limits.findings_of(changed(demo.unit(TILT), "pump", motor_current="260 A")))
    assert found["pump.fuse"].verdict == "over"
    assert found["winch.fuse"].verdict == "within"


def test_a_days_work_costs_the_battery_more_than_its_ampere_seconds(demo: DemoYard) -> None:
    """By hand with Peukert's 1.2: 104 Ah is 5.2 A over 20 h; each cost is I t (I/5.2)^0.2."""
    strokes = 4 * 115 * 25 / 3600 * (115 / 5.2) ** 0.2  # 9 loads a month are one a day: down, up, down, up
    pull = 380 * 60 / 3600 * (380 / 5.2) ** 0.2
    found = by_id(power_limits.findings_of(demo.unit(TILT)))["battery.day"]
    assert found.demand == pytest.approx((strokes + pull) * AH)
    assert found.limit.most == pytest.approx(52 * AH)


def test_without_the_winch_the_day_costs_less(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    both = by_id(power_limits.findings_of(unit))["battery.day"].demand
    tail = by_id(power_limits.findings_of(without(unit, "winch")))["battery.day"].demand
    assert both is not None
    assert tail is not None
    assert tail < both


def test_a_five_ampere_charger_does_not_fill_it_overnight(demo: DemoYard) -> None:
    """52 Ah out of 104, times 1.2, over 5 A is 12.5 h: more than a night of 12."""
    unit = demo.unit(TILT)
    found = by_id(power_limits.findings_of(changed(unit, "charger", current="5 A")))["charger.night"]
    assert found.demand == pytest.approx(52 * 1.2 / 5 * 3600)
    assert found.verdict == "over"
    assert by_id(power_limits.findings_of(unit))["charger.night"].demand == pytest.approx(
        52 * 1.2 / 20 * 3600
    )


def test_a_charger_whose_card_promises_too_much_is_answered(demo: DemoYard) -> None:
    unit = changed(demo.unit(TILT), "charger", current="10 A", from_half="6 h")  # 52 x 1.2 / 10 = 6.24 h
    notes = tell(by_id(power_limits.findings_of(unit))["charger.night"], "en", "us").notes
    assert any("Its card says 6 h" in note for note in notes)


# ── lift and winch ──────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_lift_of_the_tail_is_the_work_of_its_cylinders(demo: DemoYard) -> None:
    """Virtual work, another way than moments: F dl = m g dh, from the lengths and heights as the tail turns."""
    bore, relief = 3.5, 2650.0
    force = 2 * relief * math.pi / 4 * bore**2  # lbf
    eye, foot, middle = (14.0, -18.0), (-12.0, -15.0), (60.25, 1.0)  # inches from the hinge, tail level

    def turned(point: tuple[float, float], down: float) -> tuple[float, float]:
        x, z = point
        return x * math.cos(down) + z * math.sin(down), z * math.cos(down) - x * math.sin(down)

    def length(down: float) -> float:
        return math.dist(turned(eye, down), foot)

    def height(down: float) -> float:
        return turned(middle, down)[1]

    step = 1e-5
    downs = [math.radians(14) * part / 200 for part in range(201)]
    lifts = [
        force * (length(down - step) - length(down + step)) / (height(down - step) - height(down + step))
        for down in downs
    ]
    found = by_id(lift_limits.findings_of(demo.unit(TILT)))["tail.lift"]
    assert found.limit.most == pytest.approx(min(lifts) * LB, rel=1e-3)
    assert found.demand == pytest.approx((10_000 + 1_480) * LB), "the load and the tail itself"
    stroke = by_id(lift_limits.findings_of(demo.unit(TILT)))["tail.stroke"]
    assert stroke.demand == pytest.approx((length(0.0) - length(math.radians(14))) * INCH)
    assert stroke.limit.most == pytest.approx(6 * INCH)


def test_a_tail_whose_weight_is_not_told_says_so(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    tail = unit.part("tail")
    assert tail is not None
    bare = msgspec.structs.replace(tail, values={k: v for k, v in tail.values.items() if k != "mass"})
    unit = msgspec.structs.replace(unit, parts=tuple(bare if p is tail else p for p in unit.parts))
    found = by_id(lift_limits.findings_of(unit))["tail.lift"]
    assert found.demand == pytest.approx(10_000 * LB)
    assert any("not known here" in note for note in tell(found, "en", "us").notes)


def test_a_pump_without_its_relief_pressure_is_asked_for_it(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    pump = unit.part("pump")
    assert pump is not None
    bare = msgspec.structs.replace(
        pump, values={k: v for k, v in pump.values.items() if k != "relief_pressure"}
    )
    unit = msgspec.structs.replace(unit, parts=tuple(bare if p is pump else p for p in unit.parts))
    assert by_id(lift_limits.findings_of(unit))["tail.lift"].missing == ("relief_pressure",)


def test_the_weakest_of_rope_and_hook_holds_the_winch(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    assert by_id(lift_limits.findings_of(unit))["winch.rope"].verdict == "within"
    winch = unit.part("winch")
    assert winch is not None
    untold = {k: v for k, v in winch.values.items() if k not in {"rope_breaking_force", "hook_limit"}}
    bare = msgspec.structs.replace(
        unit, parts=tuple(msgspec.structs.replace(p, values=untold) if p is winch else p for p in unit.parts)
    )
    assert by_id(lift_limits.findings_of(bare))["winch.rope"].missing == ("rope_breaking", "hook_limit")
    strong = changed(unit, "winch", rope_breaking_force="19,500 lbf", hook_limit="10,000 lbf")
    found = by_id(lift_limits.findings_of(strong))["winch.rope"]
    assert found.limit.most == pytest.approx(19_500 / 2 * LBF)  # factor 2, pulling on the level
    assert found.verdict == "within"
    weak = changed(unit, "winch", rope_breaking_force="19,500 lbf", hook_limit="8,000 lbf")
    assert by_id(lift_limits.findings_of(weak))["winch.rope"].verdict == "over"


# ── safety chains ───────────────────────────────────────────────────────────────────────────────────────────────────


def test_light_trailers_chains_are_held_to_the_class_of_sae_j684(demo: DemoYard) -> None:
    """SAE J684 class 2: 3,500 lb each, more than the 2,990 lb this trailer may weigh."""
    unit = demo.unit(UTILITY)
    found = by_id(unit_limits.findings_of(unit, DAY))
    assert found["chains.breaking_force"].demand == pytest.approx(3_500 * LBF)
    assert found["chains.breaking_force"].verdict == "within"
    weak = by_id(unit_limits.findings_of(changed(unit, "chains", breaking_force="3,200 lbf"), DAY))
    assert weak["chains.breaking_force"].verdict == "over"
    assert "chains.number" not in found


def test_one_safety_chain_is_one_too_few(demo: DemoYard) -> None:
    unit = demo.unit(UTILITY)
    chains = unit.part("chains")
    assert chains is not None
    one = msgspec.structs.replace(chains, places=chains.places[:1])
    unit = msgspec.structs.replace(unit, parts=tuple(one if p is chains else p for p in unit.parts))
    assert by_id(unit_limits.findings_of(unit, DAY))["chains.number"].verdict == "over"


# ── shape ───────────────────────────────────────────────────────────────────────────────────────────────────────────


def shape_of(unit: AsBuiltUnit) -> dict[str, Finding]:
    return by_id(shape_limits.findings_of(unit))


def wider(unit: AsBuiltUnit, inches: float) -> AsBuiltUnit:
    geometry = msgspec.structs.replace(unit.geometry, overall_width_m=inches * INCH)
    return msgspec.structs.replace(unit, geometry=geometry)


def test_a_trailer_may_be_102_inches_wide_and_no_more(demo: DemoYard) -> None:
    """23 CFR 658.15: 102 in on the national network."""
    unit = demo.unit(TILT)
    assert shape_of(unit)["road.width"].verdict == "within"
    assert shape_of(wider(unit, 102.5))["road.width"].verdict == "over"


def test_the_highest_fixed_piece_is_told_and_no_height_is_promised(demo: DemoYard) -> None:
    """The box on the neck stands 70 in up and is 22 in high; the spare before it reaches 75 + 30.7 / 2 = 90.35 in."""
    unit = demo.unit(TILT)
    assert shape_limits.highest_m(unit) == pytest.approx(92 * INCH)
    assert shape_limits.highest_m(without(unit, "front_box")) == pytest.approx((75 + 30.7 / 2) * INCH)
    notes = tell(shape_of(unit)["road.width"], "en", "us").notes
    assert any("ask locally" in note for note in notes)


def test_a_heavy_trailer_with_a_long_tail_needs_a_rear_guard(demo: DemoYard) -> None:
    """49 CFR 393.86(a): 10,000 lb or more, last tires more than 12 in from the rear, rear underside above 22 in."""
    found = shape_of(without(demo.unit(TILT), "rear_guard"))["road.rear_guard"]
    assert found.missing == ("rear_guard",)
    assert "22 in" in tell(found, "en", "us").margin
    assert "road.rear_guard" not in shape_of(demo.unit(UTILITY)), "2,990 lb: the rule does not ask"


@pytest.mark.parametrize(("ground", "verdict"), [("21 in", "within"), ("22.5 in", "over")])
def test_a_rear_guard_that_is_fitted_is_measured(demo: DemoYard, ground: str, verdict: str) -> None:
    found = shape_of(changed(demo.unit(TILT), "rear_guard", ground=ground))
    assert found["road.rear_guard_ground"].verdict == verdict
    assert "road.rear_guard" not in found


@pytest.mark.parametrize(
    ("name", "at", "past"),
    [("side_gap", "4 in", "4.1 in"), ("set_in", "12 in", "12.1 in"), ("bar_height", "3.94 in", "3.9 in")],
)
def test_each_measure_of_a_rear_guard_has_its_own_limit(
    demo: DemoYard, name: str, at: str, past: str
) -> None:
    """49 CFR 393.86(a)(2)-(5): within 4 in of each side, 12 in of the rear, a bar of 3.94 in (100 mm)."""
    unit, about = demo.unit(TILT), f"road.rear_guard_{name}"
    assert shape_of(changed(unit, "rear_guard", **{name: at}))[about].verdict in {"within", "tight"}
    assert shape_of(changed(unit, "rear_guard", **{name: past}))[about].verdict == "over"


def test_the_demo_guard_hangs_where_its_card_says(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    guard = unit.part("rear_guard")
    assert guard is not None
    height, ground = guard.si("bar_height"), guard.si("ground")
    assert height is not None
    assert guard.places[0].z_m - height / 2 == pytest.approx(ground)


def test_a_frame_that_hangs_low_behind_takes_the_guards_place(demo: DemoYard) -> None:
    """49 CFR 571.224 S4: a low chassis, its rear surface no more than 22 in up."""
    unit = demo.unit(TILT)
    tail = next(member for member in unit.geometry.members if member.id == "tail")
    low = msgspec.structs.replace(
        tail, side=tuple((x, 0.5 if x > 9.9 and z < 0.8 else z) for x, z in tail.side)
    )
    members = tuple(low if member is tail else member for member in unit.geometry.members)
    unit = msgspec.structs.replace(unit, geometry=msgspec.structs.replace(unit.geometry, members=members))
    assert shape_of(unit)["road.rear_guard"].holds is True


def test_tape_is_asked_of_the_wide_and_heavy_only(demo: DemoYard) -> None:
    """49 CFR 393.13, 571.108 S8.2: 80 in or wider and over 10,000 lb; half of each side; C2 is 50 mm wide."""
    found = shape_of(demo.unit(TILT))
    assert found["road.tape"].demand == pytest.approx(0.5)
    assert found["road.tape"].verdict == "within"
    assert found["road.tape_width"].limit.least == pytest.approx(0.050)
    assert found["road.tape_width"].demand == pytest.approx(2 * INCH)
    bare = shape_of(without(demo.unit(TILT), "tape"))["road.tape"]
    assert bare.verdict == "over"
    assert "road.tape" not in shape_of(demo.unit(UTILITY))


def test_tape_that_hangs_too_low_is_found(demo: DemoYard) -> None:
    unit = demo.unit(TILT)
    tape = unit.part("tape")
    assert tape is not None
    places = tuple(msgspec.structs.replace(place, z_m=0.30) for place in tape.places)
    low = msgspec.structs.replace(tape, places=places)
    unit = msgspec.structs.replace(unit, parts=tuple(low if part is tape else part for part in unit.parts))
    assert shape_of(unit)["road.tape_height"].verdict == "over"


def test_jacks_behind_the_coupling_bear_more_than_the_coupling(demo: DemoYard) -> None:
    """Moments about the axles at 245 in, jacks at 79 in: 25 % of 24,900 lb on the coupling, and 1,720 lb empty."""
    found = shape_of(demo.unit(TILT))
    assert found["jacks.loaded"].demand == pytest.approx(24_900 * 0.25 * 245 / (245 - 79) / 2 * LB)
    assert found["jacks.empty"].demand == pytest.approx(1_720 * 245 / (245 - 79) / 2 * LB)
    assert found["jacks.empty"].demand_origin == "weighed"
    weak = changed(demo.unit(TILT), "jacks", capacity_each="4,000 lb")
    assert shape_of(weak)["jacks.loaded"].verdict == "over"


def test_a_torque_outside_the_published_band_is_told_and_the_plate_still_rules(demo: DemoYard) -> None:
    """14 to 16 in wheel, 1/2 in stud, cone nut: 90 to 120 lbf ft (wheel torque manuals)."""
    unit = changed(demo.unit(UTILITY), "wheel_nuts", torque="85 lbf·ft")
    found = shape_of(unit)["wheel_nuts.torque"]
    newton_meters = LBF * FOOT
    assert found.limit.least == pytest.approx(90 * newton_meters)
    assert found.limit.most == pytest.approx(120 * newton_meters)
    assert found.verdict == "over"
    told = tell(found, "en", "us")
    assert told.margin == "outside by 5.0 lbf·ft"
    assert any("yard's own torque rules" in note for note in told.notes)
    inside = changed(demo.unit(UTILITY), "wheel_nuts", torque="95 lbf·ft")
    assert shape_of(inside)["wheel_nuts.torque"].verdict == "within"


def test_a_flange_nut_on_a_17_5_in_wheel_has_its_own_band(demo: DemoYard) -> None:
    """17.5 in wheel, 5/8 in stud, flange nut: 275 to 325 lbf ft; the demo's plate says 300."""
    demo.change("sheets/qb-0107.toml", '"tire_f", "spare_f"', '"tire_h", "spare_h"')
    found = shape_of(demo.unit(TILT))["wheel_nuts.torque"]
    assert found.limit.least == pytest.approx(275 * LBF * FOOT)
    assert found.verdict == "within"


def test_a_stud_size_alone_never_chooses_a_band(demo: DemoYard) -> None:
    """5/8 in studs with clamp rings on a 16 in wheel: bands for 5/8 studs exist, for these three together none does."""
    found = system_of(demo.unit(TILT))
    assert "wheel_nuts.torque" not in found
    assert "nut_band" in not_checked(tuple(found.values()))


def test_a_stem_said_to_hold_more_than_any_of_its_kind_is_found(demo: DemoYard) -> None:
    """Valve table: 80 psi is the top snap-in in the 0.453 in hole, whatever a card says."""
    demo.change(
        "catalogue/cards/running_gear/valve_stem.toml",
        'pressure_rating = "80 psi"',
        'pressure_rating = "110 psi"',
    )
    unit = changed(demo.unit("qb-0111"), "tires", cold_pressure="95 psi")
    found = shape_of(unit)["pressure.stem_kind"]
    assert found.limit.most == pytest.approx(80 * PSI)
    assert found.verdict == "over"
    assert "pressure.stem_kind" not in shape_of(demo.unit(UTILITY))


def test_rings_and_gear_are_counted_by_half_for_half_of_a_full_load(demo: DemoYard) -> None:
    """49 CFR 393.106(d): half of each limit from point to load, at least half the weight: (24,900 - 8,940) / 2."""
    found = shape_of(demo.unit(TILT))
    assert found["tie_downs.points"].demand == pytest.approx((24_900 - 8_940) / 2 * LB)
    assert found["tie_downs.points"].limit.most == pytest.approx(10 * 5_700 / 2 * LB)
    assert found["tie_downs.gear"].limit.most == pytest.approx(4 * 5_700 / 2 * LB), (
        "the ring is weaker than the chain"
    )
