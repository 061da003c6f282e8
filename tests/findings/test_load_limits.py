"""Where a load may stand, how much it may weigh, what it asks: held against sums by hand and against each other."""

from __future__ import annotations

import itertools
import math

import msgspec
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sendoff.asbuilt.resolve import as_built
from sendoff.calc.statics.trailer import trailer_loads
from sendoff.calc.statics.truck import truck_axle_shift
from sendoff.catalogue.freight import Cargo
from sendoff.catalogue.load import load, read_file
from sendoff.errors import FaultyInput
from sendoff.findings import load_limits
from sendoff.findings.all_limits import all_findings, not_checked
from sendoff.findings.load_row import Item, Room, stand_near
from sendoff.findings.load_window import LoadLimits, limits_of
from sendoff.findings.model import Finding, exit_code
from sendoff.findings.telling import tell
from sendoff.findings.weighed import Empty, empty_of
from tests.findings.demo import DAY, FOOT, INCH, LB, DemoYard, by_id, changed, without

TILT = "qb-0107"
UTILITY = "qb-0203"
MACHINE = """
[[item]]
id = "machine"
name = "Machine"
mass = "{mass}"
length = "{length}"
width = "70 in"
height = "80 in"
center_of_mass = "{center}"
"""


def machine(mass: str, length: str = "11 ft", center: str = "66 in") -> str:
    return MACHINE.format(mass=mass, length=length, center=center)


def limits(demo: DemoYard, name: str = TILT, truck: str | None = None) -> LoadLimits:
    unit = demo.unit(name)
    empty = empty_of(unit)
    assert empty is not None
    found = limits_of(unit, empty, demo.truck(truck) if truck else None)
    assert found is not None
    return found


def loaded(demo: DemoYard, text: str, name: str = TILT, truck: str | None = None) -> dict[str, Finding]:
    towed = demo.truck(truck) if truck else None
    return by_id(load_limits.findings_of(demo.unit(name), demo.cargo(text), towed))


# ── what it weighs empty ────────────────────────────────────────────────────────────────────────────────────────────


def test_the_empty_center_follows_from_two_tickets(demo: DemoYard) -> None:
    """8,940 lb, 1,720 of it on the coupling, axles at 245 in: 245 (1 - 1,720/8,940) = 197.86 in."""
    empty = empty_of(demo.unit(TILT))
    assert empty is not None
    assert empty.weighed
    assert empty.coupling_weighed
    assert empty.center_x_m(245 * INCH) == pytest.approx(197.86 * INCH, abs=1e-4)


def test_axles_on_the_scale_tell_the_coupling_too(demo: DemoYard) -> None:
    demo.change("sheets/qb-0107.toml", 'what = "coupling"', 'what = "axle_group"')
    demo.change("sheets/qb-0107.toml", 'mass = "1,720 lb"', 'mass = "7,220 lb"')
    empty = empty_of(demo.unit(TILT))
    assert empty is not None
    assert empty.coupling_kg == pytest.approx((8_940 - 7_220) * LB)


def test_an_unweighed_unit_goes_by_its_plate_and_is_less_sure(demo: DemoYard) -> None:
    empty = empty_of(demo.unit("qb-0111"))
    assert empty is not None
    assert not empty.weighed
    assert empty.mass_kg == pytest.approx(8_150 * LB)
    assert empty.coupling_kg == pytest.approx(8_150 * 0.19 * LB)
    assert empty.error_kg == pytest.approx(8_150 * 0.05 * LB)


def test_without_the_empty_share_it_says_to_weigh_the_coupling(demo: DemoYard) -> None:
    demo.change("catalogue/trailers/utility_single.toml", 'empty_coupling_share = "12 %"\n', "")
    found = loaded(demo, machine("500 lb", "6 ft", "3 ft"), UTILITY)
    assert found["cargo.place"].missing == ("weigh_coupling_empty",)
    assert found["cargo.way_on"].missing == ("weigh_coupling_empty",)
    assert found["cargo.payload"].verdict == "within"


# ── the window of places ────────────────────────────────────────────────────────────────────────────────────────────


def test_the_windows_ends_are_where_the_coupling_reaches_its_window(demo: DemoYard) -> None:
    """By hand for 10,000 lb: T = 1,720 + 10,000 (1 - x/245) is 25 % and 20 % of 18,940 lb."""
    window = limits(demo).window(10_000 * LB)
    assert (window.front_by, window.rear_by) == ("share_most", "share_least")
    assert window.front_x_m == pytest.approx((1 - (0.25 * 18_940 - 1_720) / 10_000) * 245 * INCH)
    assert window.rear_x_m == pytest.approx((1 - (0.20 * 18_940 - 1_720) / 10_000) * 245 * INCH)


def test_a_textbook_trailer_has_its_textbook_tongue_load() -> None:
    """Textbook: 7,000 lb, center 20 in ahead of the axles, coupler 180 in ahead of them: 777.8 lb on the coupler."""
    empty = Empty(3_000.0, 0.0, weighed=True, coupling_kg=300.0, coupling_weighed=True)
    bare = LoadLimits(empty, 162.0, 180.0, (0.1, 0.15), Room(20.0, 300.0, 80.0), (), (), ())
    x = (7_000 * 160 - 3_000 * 162) / 4_000  # where 4,000 lb bring the common center to 160 in
    assert bare.coupling_kg(4_000, x) == pytest.approx(777.8, abs=0.05)


def test_a_ton_further_back_comes_off_the_coupling_as_the_trade_says(demo: DemoYard) -> None:
    """Trade arithmetic: a 10,000 lb machine 12 in further back on 280 in takes about 430 lb off the pin weight."""
    empty = Empty(8_000.0, 0.0, weighed=True, coupling_kg=1_600.0, coupling_weighed=True)
    bare = LoadLimits(empty, 224.0, 280.0, (0.15, 0.25), Room(0.0, 400.0, 100.0), (), (), ())
    assert bare.coupling_kg(10_000, 200.0) - bare.coupling_kg(10_000, 212.0) == pytest.approx(430, abs=2)


def test_what_the_truck_bears_moves_the_windows_front(demo: DemoYard) -> None:
    """The truck has 14,000 - 4,840 - 3,380 = 5,780 lb left; 25 % of 24,900 would be more."""
    alone, towed = limits(demo), limits(demo, truck="dual_wheel_one_ton")
    full = 15_900 * LB
    assert towed.window(full).front_by == "truck_gross"
    assert towed.coupling_kg(full, towed.window(full).front_x_m) == pytest.approx(5_780 * LB)
    assert towed.window(full).front_x_m > alone.window(full).front_x_m


def test_the_most_a_truck_allows_by_hand(demo: DemoYard) -> None:
    """A crossover hitch of 2,000 lb less a trailer of 1,034 lb (5 lb unsure) leaves 961 lb."""
    most = limits(demo, UTILITY, "small_crossover").most_cargo()
    assert most.cargo_kg == pytest.approx((2_000 - 1_034 - 5) * LB)
    assert most.by == ("truck_coupling",)


def test_a_truck_nobody_weighed_leaves_its_limits_unknown(demo: DemoYard) -> None:
    demo.change("trucks/dual_wheel_one_ton.toml", 'weighed_rear = "3,380 lb"\n', "")
    found = limits(demo, truck="dual_wheel_one_ton")
    assert set(found.not_known) == {"truck_combined", "truck_front_axle", "truck_gross", "truck_rear_axle"}
    items = loaded(demo, machine("8,000 lb"), truck="dual_wheel_one_ton")
    assert items["cargo.truck_rear_axle"].missing == ("truck_weighed",)


masses = st.floats(200.0, 9_000.0)
shares = st.floats(0.02, 0.4)


@st.composite
def any_limits(draw: st.DrawFn) -> LoadLimits:
    bare, axles = draw(masses), draw(st.floats(2.0, 9.0))
    share = draw(shares)
    low = draw(st.floats(0.05, 0.2))
    empty = Empty(bare, 0.0, weighed=True, coupling_kg=share * bare, coupling_weighed=True)
    front = draw(st.floats(0.3, axles - 0.5))
    return LoadLimits(
        empty,
        empty.center_x_m(axles) or 0.0,
        axles,
        (low, low + draw(st.floats(0.02, 0.2))),
        Room(front, axles + draw(st.floats(0.1, 4.0)), 2.5),
        (("plate_gross", bare * draw(st.floats(1.1, 4.0))),),
        (("coupler_vertical", bare * draw(st.floats(0.2, 1.0))),),
        (("plate_axles", bare * draw(st.floats(0.8, 3.0))),),
    )


def holds(found: LoadLimits, cargo: float, x: float, slack: float = 1e-6) -> bool:
    """Every limit, by the statics of the calculations and not by the lines."""
    bare = found.empty.mass_kg
    total = bare + cargo
    loads = trailer_loads(total, (bare * found.empty_x_m + cargo * x) / total, found.axles_x_m)
    most = min(value for _, value in found.coupling)
    axles = min(value for _, value in found.axles)
    tiny = slack * total
    return (
        found.share[0] * total - tiny <= loads.coupling_load_kg <= found.share[1] * total + tiny
        and loads.coupling_load_kg <= most + tiny
        and loads.axle_group_load_kg <= axles + tiny
        and total <= min(value for _, value in found.gross) + tiny
        and found.room.front_x_m - slack <= x <= found.room.rear_x_m + slack
    )


@given(any_limits(), st.floats(0.05, 1.0))
def test_the_window_is_just_where_all_limits_hold(found: LoadLimits, part: float) -> None:
    most = found.most_cargo()
    assume(most.cargo_kg > 1.0)
    cargo = most.least_kg + part * (most.cargo_kg - most.least_kg)
    window = found.window(cargo)
    assert window.front_x_m <= window.rear_x_m + 1e-6
    for share in (0.0, 0.5, 1.0):
        assert holds(found, cargo, window.front_x_m + share * (window.rear_x_m - window.front_x_m))
    for outside in (window.front_x_m - 0.02, window.rear_x_m + 0.02):
        assert not holds(found, cargo, outside, slack=1e-9)


@given(any_limits())
def test_no_more_than_the_most_has_a_place(found: LoadLimits) -> None:
    most = found.most_cargo()
    cargo = max(most.cargo_kg, 0.0) * 1.001 + 0.5
    assume(cargo > most.least_kg * 1.01)
    places = [found.room.front_x_m + share * found.room.length_m / 400 for share in range(401)]
    assert not any(holds(found, cargo, x, slack=1e-9) for x in places)


@given(any_limits(), st.floats(10.0, 5_000.0), st.floats(0.0, 8.0), st.floats(0.0, 3.0))
def test_moving_the_load_back_never_raises_the_coupling_load(
    found: LoadLimits, cargo: float, x: float, back: float
) -> None:
    assert found.coupling_kg(cargo, x + back) <= found.coupling_kg(cargo, x) + 1e-9
    assert found.axle_group_kg(cargo, x + back) >= found.axle_group_kg(cargo, x) - 1e-9


@given(any_limits(), st.floats(10.0, 5_000.0), st.floats(0.0, 5_000.0))
def test_more_load_never_gives_more_margin(found: LoadLimits, cargo: float, more: float) -> None:
    """At one place ahead of the axles each load on coupling, axles and whole only grows."""
    x = found.room.front_x_m
    assert found.coupling_kg(cargo + more, x) >= found.coupling_kg(cargo, x) - 1e-9
    assert found.axle_group_kg(cargo + more, x) >= found.axle_group_kg(cargo, x) - 1e-9


@given(any_limits(), st.floats(50.0, 3_000.0))
def test_one_more_limit_never_widens_the_window(found: LoadLimits, most: float) -> None:
    tighter = LoadLimits(
        found.empty,
        found.empty_x_m,
        found.axles_x_m,
        found.share,
        found.room,
        found.gross,
        (*found.coupling, ("truck_gross", most)),
        found.axles,
    )
    assert tighter.most_cargo().cargo_kg <= found.most_cargo().cargo_kg + 1e-6
    before, after = found.window(500.0), tighter.window(500.0)
    assert after.front_x_m >= before.front_x_m
    assert after.rear_x_m == before.rear_x_m


# ── standing items ──────────────────────────────────────────────────────────────────────────────────────────────────


@st.composite
def any_items(draw: st.DrawFn) -> list[Item]:
    count = draw(st.integers(1, 4))
    found = []
    for number in range(count):
        long = draw(st.floats(0.3, 3.0))
        center = long * draw(st.floats(0.1, 0.9))
        found.append(
            Item(str(number), draw(st.floats(20.0, 4_000.0)), long, center, draw(st.floats(0.3, 2.4)))
        )
    return found


@given(any_items(), st.floats(3.0, 9.0), st.floats(0.0, 1.0))
def test_items_stand_on_the_deck_and_not_on_each_other(items: list[Item], long: float, wanted: float) -> None:
    room = Room(1.0, 1.0 + long, 2.5)
    middle = 1.0 + wanted * long
    stand = stand_near(items, room, (middle - 0.05, middle + 0.05))
    if stand is None:
        assert math.fsum(item.length_m for item in items) > long - 1e-6
        return
    assert sorted(placed.item.name for placed in stand.placed) == sorted(item.name for item in items)
    mass = math.fsum(item.mass_kg for item in items)
    center = math.fsum(placed.item.mass_kg * placed.center_x_m for placed in stand.placed) / mass
    assert stand.center_x_m == pytest.approx(center)
    for placed in stand.placed:
        assert placed.front_x_m >= room.front_x_m - 1e-6
        assert placed.front_x_m + placed.item.length_m <= room.rear_x_m + 1e-5
    for one, other in itertools.combinations(stand.placed, 2):
        apart = (
            one.front_x_m + one.item.length_m <= other.front_x_m + 1e-6
            or other.front_x_m + other.item.length_m <= one.front_x_m + 1e-6
        )
        beside = (one.item.width_m or 9) + (other.item.width_m or 9) <= room.width_m
        assert apart or (beside and one.beside == other.item.name and other.beside == one.item.name)


def test_one_machine_stands_with_its_middle_in_the_middle_of_its_window(demo: DemoYard) -> None:
    found = loaded(demo, machine("9,000 lb"))["cargo.place"]
    assert found.demand is not None
    assert found.demand == pytest.approx(((found.limit.least or 0) + (found.limit.most or 0)) / 2)
    assert found.verdict == "within"


def test_the_heaviest_stands_in_front_where_that_serves(demo: DemoYard) -> None:
    text = machine("1,000 lb", "5 ft", "30 in").replace('"machine"', '"light"').replace("Machine", "Light")
    found = loaded(demo, text + machine("6,000 lb", "10 ft", "60 in"))["cargo.place"]
    spots = [note for note in tell(found, "en", "us").notes if "its front at" in note or "right at" in note]
    assert spots[0].startswith("Machine")


def test_two_stand_abreast_only_where_one_row_does_not_do(demo: DemoYard) -> None:
    cargo = read_file(demo.folder / "cargo" / "fence_job.toml", Cargo)
    unit = demo.unit(TILT)
    found = by_id(load_limits.findings_of(unit, cargo, None))
    assert found["cargo.place"].verdict == "within"
    told = " ".join(tell(found["cargo.place"], "en", "us").notes)
    assert "beside Auger drive" in told
    narrow = msgspec.structs.replace(
        unit.geometry, decks=tuple(msgspec.structs.replace(d, width_m=80 * INCH) for d in unit.geometry.decks)
    )
    alone = by_id(load_limits.findings_of(msgspec.structs.replace(unit, geometry=narrow), cargo, None))
    assert alone["cargo.place"].verdict == "over", "one row brings the center too far back"


def test_what_no_deck_is_long_enough_for_is_passed(demo: DemoYard) -> None:
    found = loaded(demo, machine("2,000 lb", "27 ft", "13 ft"))
    assert found["cargo.row"].verdict == "over"
    assert "27 ft" in str(tell(found["cargo.row"], "en", "us").demand)


def test_items_without_measures_say_what_to_measure(demo: DemoYard) -> None:
    text = '[[item]]\nid = "a"\nname = "A"\nmass = "3,000 lb"\n'
    found = loaded(demo, text)
    assert found["cargo.row"].missing == ("item_centers",)
    assert found["cargo.place"].missing == ("place_each",)
    assert found["cargo.tie_downs"].missing == ("item_lengths",)
    assert found["cargo.wheel_load"].missing == ("heaviest_wheel",)
    assert "cargo.coupling_share" not in found


# ── what it asks, standing there ────────────────────────────────────────────────────────────────────────────────────


def test_all_loads_with_the_machine_standing_there_add_up(demo: DemoYard) -> None:
    """Conservation: coupling and axles bear trailer and machine; the truck's axles bear truck and coupling."""
    found = loaded(demo, machine("9,000 lb"), truck="dual_wheel_one_ton")
    total = (8_940 + 9_000) * LB
    coupling = (found["cargo.coupling_share"].demand or 0) * total
    assert found["cargo.coupler_vertical"].demand == pytest.approx(coupling)
    assert 2 * (found["cargo.plate_axles"].demand or 0) == pytest.approx(total - coupling)
    assert 8 * (found["cargo.each_tire"].demand or 0) == pytest.approx(total - coupling)
    axles = (found["cargo.truck_front_axle"].demand or 0) + (found["cargo.truck_rear_axle"].demand or 0)
    assert axles == pytest.approx((4_840 + 3_380) * LB + coupling)
    assert found["cargo.truck_gross"].demand == pytest.approx(axles)
    assert found["cargo.truck_combined"].demand == pytest.approx((4_840 + 3_380) * LB + total)
    shift = truck_axle_shift(coupling, 176 * INCH, -4 * INCH)
    assert found["cargo.truck_front_axle"].demand == pytest.approx(4_840 * LB + shift.front_axle_change_kg)


def test_more_than_the_payload_is_passed_with_the_scales_error_told(demo: DemoYard) -> None:
    """24,900 less 8,940 leaves 15,960 lb."""
    assert loaded(demo, machine("15,970 lb"))["cargo.payload"].verdict == "over"
    found = loaded(demo, machine("15,000 lb"))["cargo.payload"]
    assert found.limit.most == pytest.approx(15_960 * LB)
    assert found.uncertainty == pytest.approx(20 * LB)


def test_where_the_truck_leaves_no_place_the_trailers_own_is_kept(demo: DemoYard) -> None:
    found = loaded(demo, machine("1,500 lb", "7 ft", "40 in"), UTILITY, "small_crossover")
    assert found["cargo.place"].verdict == "over"
    assert found["cargo.coupling_share"].verdict in {"within", "tight"}
    assert found["cargo.truck_coupling_vertical"].verdict == "over"


# ── the way on ──────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_machine_at_the_hinge_lifts_the_coupling_by_its_lever(demo: DemoYard) -> None:
    """1,720 lb at 245 in against the hinge 35 in behind the axles: 12,040 lb; 7,950 lb leave 584 lb on the coupling."""
    light = loaded(demo, machine("7,950 lb"))["cargo.way_on"]
    assert light.limit.most == pytest.approx(1_720 * 245 / 35 * LB)
    assert any("584 lb are left" in note for note in tell(light, "en", "us").notes)
    heavy = loaded(demo, machine("12,100 lb"))["cargo.way_on"]
    assert heavy.verdict == "over"
    assert any("lifts the coupling" in note for note in tell(heavy, "en", "us").notes)


def test_on_the_tail_with_its_tip_in_the_air_far_less_is_borne(demo: DemoYard) -> None:
    """The tail's middle lies 340.25 in behind the coupling, 95.25 in behind the axles: 1,720 x 245 / 95.25 = 4,424."""
    notes = tell(loaded(demo, machine("7,950 lb"))["cargo.way_on"], "en", "us").notes
    assert any("4,420 lb" in note for note in notes)


def test_what_is_set_down_drives_over_nothing_and_stands_on_no_wheels(demo: DemoYard) -> None:
    found = loaded(demo, machine("7,950 lb") + "set_down = true\n")
    assert not {"cargo.way_on", "cargo.crossing", "cargo.wheel_load"} & set(found)
    assert found["cargo.area_load"].demand == pytest.approx(7_950 * LB / (11 * FOOT * 70 * INCH))


def test_more_than_may_cross_the_tail_is_passed(demo: DemoYard) -> None:
    assert loaded(demo, machine("10,100 lb"))["cargo.crossing"].verdict == "over"


def test_the_heaviest_wheel_is_taken_as_given(demo: DemoYard) -> None:
    """The oak floor bears 2,700 lb under one wheel."""
    heavy = loaded(demo, machine("7,950 lb") + 'heaviest_wheel = "2,800 lb"\n')["cargo.wheel_load"]
    assert heavy.verdict == "over"
    light = loaded(demo, machine("2,500 lb"))["cargo.wheel_load"]
    assert light.verdict == "within", "all of it on one wheel would still be borne"


# ── tie-downs ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_tie_downs_are_counted_by_length_and_by_strength(demo: DemoYard) -> None:
    """49 CFR 393.110 and 393.106(d): 11 ft 4 in asks three, a 540 lb pallet of 4 ft one, 8 ft of posts two."""
    cargo = read_file(demo.folder / "cargo" / "fence_job.toml", Cargo)
    found = by_id(load_limits.findings_of(demo.unit(TILT), cargo, None))
    assert found["cargo.tie_down_gear"].demand == 6
    assert found["cargo.tie_down_gear"].limit.most == 4
    assert found["cargo.tie_down_gear"].verdict == "over"
    assert tell(found["cargo.tie_down_gear"], "en", "us").margin == "2 short"
    assert found["cargo.tie_down_strength"].limit.most == pytest.approx(4 * 5_700 / 2 * LB)


def test_the_canadian_handbooks_example_comes_out(demo: DemoYard) -> None:
    """NSC 10: 3.65 m and 600 kg ask three by length; of 50 kg each six. Counted by half, 100 kg do as 50 kg over it."""
    unit = changed(demo.unit(TILT), "tie_down_gear", chain_wll="100 kg")
    cargo = demo.cargo(machine("600 kg", "3.65 m", "1.8 m"))
    assert by_id(load_limits.findings_of(unit, cargo, None))["cargo.tie_down_gear"].demand == 6
    strong = by_id(load_limits.findings_of(demo.unit(TILT), cargo, None))
    assert strong["cargo.tie_down_gear"].demand == 3


def test_a_machine_of_ten_thousand_pounds_wants_four_of_five_thousand(demo: DemoYard) -> None:
    """49 CFR 393.130(c), and the drivers' handbook's 5,000 lb each: the stricter of both."""
    found = loaded(demo, machine("10,000 lb", "9 ft", "54 in"))
    assert found["cargo.tie_down_gear"].demand == 4
    assert found["cargo.tie_down_machine"].limit.least == pytest.approx(5_000 * LB)
    assert found["cargo.tie_down_machine"].verdict == "within"
    weak = changed(demo.unit(TILT), "tie_down_gear", chain_wll="4,700 lb")
    cargo = demo.cargo(machine("10,000 lb", "9 ft", "54 in"))
    assert by_id(load_limits.findings_of(weak, cargo, None))["cargo.tie_down_machine"].verdict == "over"


def test_without_gear_on_board_it_says_to_count_what_is_brought(demo: DemoYard) -> None:
    unit = without(demo.unit(TILT), "tie_down_gear")
    found = by_id(load_limits.findings_of(unit, demo.cargo(machine("8,000 lb")), None))
    assert found["cargo.tie_down_gear"].missing == ("gear_on_board",)
    assert found["cargo.tie_down_points"].verdict == "within"


# ── all together ────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_cargo_a_sheet_names_is_found_beside_the_catalogue(demo: DemoYard) -> None:
    catalogue = load(demo.catalogue)
    unit = as_built(demo.sheet(TILT), catalogue)
    found = all_findings(unit, catalogue, DAY)
    by_id(found)
    assert any(finding.id == "cargo.payload" for finding in found)
    assert {"load_moves", "tie_down_way"} <= set(not_checked(found))
    assert "load" not in not_checked(found)
    assert exit_code(found) == 1


def test_a_cargo_that_is_not_there_is_refused_by_name(demo: DemoYard) -> None:
    demo.change("sheets/qb-0107.toml", 'cargo = "fence_job"', 'cargo = "gone"')
    catalogue = load(demo.catalogue)
    unit = as_built(demo.sheet(TILT), catalogue)
    with pytest.raises(FaultyInput, match="gone"):
        all_findings(unit, catalogue, DAY)


@pytest.mark.parametrize("name", ["qb-0111", UTILITY])
def test_a_unit_without_cargo_is_asked_nothing_of_a_load(demo: DemoYard, name: str) -> None:
    catalogue = load(demo.catalogue)
    unit = as_built(demo.sheet(name), catalogue)
    found = all_findings(unit, catalogue, DAY)
    assert not [finding for finding in found if finding.id.startswith("cargo.")]
    assert "load" in not_checked(found)


@pytest.mark.parametrize(("heavier", "lighter"), [("9,000 lb", "7,000 lb"), ("15,000 lb", "12,000 lb")])
def test_a_heavier_machine_never_has_more_left(demo: DemoYard, heavier: str, lighter: str) -> None:
    less, more = loaded(demo, machine(lighter)), loaded(demo, machine(heavier))
    for name in (
        "cargo.payload",
        "cargo.way_on",
        "cargo.crossing",
        "cargo.tie_down_strength",
        "cargo.area_load",
    ):
        left, light = more[name].margin, less[name].margin
        assert left is not None
        assert light is not None
        assert left < light, name
