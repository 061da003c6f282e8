"""Fill lines, head of stock and hoists by a unit's own weights, against sums done here by hand."""

from __future__ import annotations

import math

import pytest

from sendoff.catalogue.load import Catalogue, load
from sendoff.findings import all_limits
from sendoff.findings.fill_limits import most_at
from sendoff.findings.load_window import limits_of
from sendoff.findings.weighed import empty_of
from tests.findings.demo import DAY, FOOT, INCH, LB, LBF, DemoYard, by_id

YD3_FT3 = 27.0


def test_a_painted_line_is_held_against_this_units_own_payload(demo: DemoYard) -> None:
    """14,000 lb less 4,720 lb and 20 lb of scale; wet gravel 3,120 lb a cubic yard (bulk_page) on 14 by 6 2/3 ft."""
    unit = demo.unit("qb-0302")
    found = by_id(all_limits.all_findings(unit, _catalogue(demo), DAY))
    payload_lb, floor_ft2 = 14_000 - 4_720 - 20, 14 * 80 / 12
    gravel = found["body.line_gravel"]
    assert gravel.limit.most == pytest.approx(payload_lb / (3_120 / YD3_FT3 * floor_ft2) * FOOT)
    assert gravel.demand == pytest.approx(9.75 * INCH)
    assert found["body.line_mulch"].limit.most == pytest.approx(24 * INCH), "level full is not too much"


def test_a_heavier_unit_finds_its_painted_line_too_high(demo: DemoYard) -> None:
    demo.change("sheets/qb-0302.toml", 'mass = "4,720 lb"', 'mass = "5,400 lb"')
    found = by_id(all_limits.all_findings(demo.unit("qb-0302"), _catalogue(demo), DAY))
    assert found["body.line_gravel"].verdict == "over"
    assert found["body.line_mulch"].verdict == "within"


def test_the_load_at_a_place_ends_at_the_first_limit_of_all(demo: DemoYard) -> None:
    """Over the axles nothing goes on the coupling, so its least share or the axles end it before the plate does."""
    unit = demo.unit("qb-0302")
    empty = empty_of(unit)
    assert empty is not None
    limits = limits_of(unit, empty)
    assert limits is not None
    most, by = most_at(limits, limits.axles_x_m)
    assert by in {"share_least", "plate_axles"}
    window = limits.window(most)
    assert window.rear_x_m == pytest.approx(limits.axles_x_m)
    assert window.front_x_m < limits.axles_x_m
    assert limits.window(most * 1.001).rear_x_m < limits.axles_x_m


def test_head_are_counted_by_floor_and_by_weight(demo: DemoYard) -> None:
    """Texas guide: 1.3 sq ft a hundredweight; a tenth of the payload kept free (house rule)."""
    unit = demo.unit("qb-0401")
    found = by_id(all_limits.all_findings(unit, _catalogue(demo), DAY))
    payload_lb = 16_400 - 6_240 - 20
    by_floor = math.floor(285.5 * 79 / 144 / (1.3 * 12))
    by_weight = math.floor(payload_lb * 0.9 / 1_200)
    assert (by_floor, by_weight) == (10, 7)
    assert found["stock.head"].limit.most == min(by_floor, by_weight)
    assert found["stock.head"].demand == 7


def test_head_more_than_a_unit_bears_are_said_to_be_too_many(demo: DemoYard) -> None:
    from sendoff.findings.telling import tell

    demo.change("sheets/qb-0401.toml", 'mass = "6,240 lb"', 'mass = "7,400 lb"')
    found = by_id(all_limits.all_findings(demo.unit("qb-0401"), _catalogue(demo), DAY))["stock.head"]
    assert found.verdict == "over"
    assert tell(found, "en", "us").margin == "1 too many"
    assert tell(found, "es", "us").margin == "1 de más"


def test_gravel_in_a_body_asks_for_no_tie_downs(demo: DemoYard) -> None:
    """49 CFR 393.100(b), from memory: bulk without shape of its own in a body that is part of the vehicle."""
    found = by_id(all_limits.all_findings(demo.unit("qb-0302"), _catalogue(demo), DAY))
    assert not [name for name in found if name.startswith("cargo.tie_down")]
    demo.change("cargo/gravel_to_the_line.toml", "loose = true\n", "")
    found = by_id(all_limits.all_findings(demo.unit("qb-0302"), _catalogue(demo), DAY))
    assert "cargo.tie_down_points" in found


def test_a_scissor_lifts_what_its_work_says(demo: DemoYard) -> None:
    """Energy, by numbers: cylinder force times the growth of its length is weight times the rise of its center."""
    unit = demo.unit("qb-0309")
    found = by_id(all_limits.all_findings(unit, _catalogue(demo), DAY))["body.lift"]
    force_lbf = 2_800 * math.pi / 4 * 6**2

    def state(angle: float) -> tuple[float, float]:
        """Return the cylinder's length and the load's height in inches, the body turned about (230, 23)."""

        def turn(x: float, z: float) -> tuple[float, float]:
            dx, dz = x - 230, z - 23
            return 230 + dx * math.cos(angle) + dz * math.sin(angle), 23 - dx * math.sin(
                angle
            ) + dz * math.cos(angle)

        span = math.dist((134, 17), turn(172, 25.5))
        cosine = (57**2 + 20**2 - span**2) / (2 * 57 * 20)
        return math.sqrt(57**2 + 18**2 - 2 * 57 * 18 * cosine), turn((67 + 235) / 2, 28)[1]

    least = math.inf
    for step in range(400):
        angle = math.radians(45) * (step + 0.5) / 400
        (before, low), (after, high) = state(angle - 1e-5), state(angle + 1e-5)
        least = min(least, force_lbf * (after - before) / (high - low))
    assert found.limit.most == pytest.approx(least * LBF / 9.80665, rel=0.01)
    assert found.demand == pytest.approx((10_200 + 1_720) * LB)


def test_a_machine_on_a_dump_body_comes_on_at_its_rear_end(demo: DemoYard) -> None:
    """Nobody drives over the hinge of a body that is raised."""
    from sendoff.findings.way_on import entry_of

    entry = entry_of(demo.unit("qb-0302"))
    assert entry.hinge_id is None
    assert entry.x_m == pytest.approx(235 * INCH)


def _catalogue(demo: DemoYard) -> Catalogue:
    return load(demo.catalogue)
