"""Findings of a unit by itself and with a truck, held against sums done by hand."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.freight import Truck
from sendoff.catalogue.load import load, read_file
from sendoff.errors import FaultyInput
from sendoff.findings.all_limits import all_findings, not_checked
from sendoff.findings.model import Finding
from sendoff.findings.truck_limits import findings_with_truck
from sendoff.findings.unit_limits import findings_of
from tests.yards import SmallYard

LB = 0.45359237
DAY = datetime.date(2026, 11, 25)
TRUCK = """\
schema = 1
id = "truck"
name = "A pick-up"
sources = ["invented:test"]
gvwr = "9,900 lb"
gcwr = "20,000 lb"
gawr_front = "5,000 lb"
gawr_rear = "6,200 lb"
weighed_front = "3,900 lb"
weighed_rear = "2,800 lb"
wheelbase = "150 in"
coupling_behind_rear_axle = "50 in"
coupling_rating = "7,500 lb"
coupling_vertical_rating = "750 lb"
ball = "2 in"
plug = "flat_4"
"""


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


def by_id(found: tuple[Finding, ...]) -> dict[str, Finding]:
    return {finding.id: finding for finding in found}


def found_of(yard: SmallYard) -> dict[str, Finding]:
    return by_id(findings_of(as_built(yard.sheet, load(yard.catalogue)), DAY))


def test_each_tire_bears_its_share_of_the_axle_rating(yard: SmallYard) -> None:
    tire = found_of(yard)["axle_1.tires"]
    assert tire.demand == pytest.approx(1200 * LB)  # 2,400 lb on two tires
    assert tire.limit.most == pytest.approx(1610 * LB)
    assert tire.verdict == "within"


def test_the_weaker_tire_is_tight_on_the_same_axle(yard: SmallYard) -> None:
    yard.change("sheets/t-1.toml", 'options = ["stronger_tires"]', "options = []")
    tire = found_of(yard)["axle_1.tires"]
    assert tire.limit.most == pytest.approx(1350 * LB)
    assert tire.share_left == pytest.approx(1 - 1200 / 1350)
    assert tire.verdict == "within"
    yard.change("catalogue/cards/running_gear/my_tire.toml", '"1350 lb"', '"1190 lb"')
    assert found_of(yard)["axle_1.tires"].verdict == "over"


def test_the_gross_rating_is_held_against_axles_and_least_coupling_share(yard: SmallYard) -> None:
    gross = found_of(yard)["trailer.axles"]
    assert gross.limit.most == pytest.approx(2400 * LB / 0.9)
    assert [step.calculation for step in gross.steps][-1] == "trailer_rating_chain"
    assert gross.sources


def test_an_unweighed_unit_says_to_weigh_it(yard: SmallYard) -> None:
    assert found_of(yard)["weighed.empty"].missing == ("weigh_empty",)
    text = yard.sheet.read_text(encoding="utf-8")
    yard.sheet.write_text(
        text
        + '\n[[ticket]]\non = 2026-10-20\nwhat = "whole"\ncoupled = false\nmass = "575 lb"\nerror = "5 lb"\n',
        encoding="utf-8",
    )
    weighed = found_of(yard)["weighed.empty"]
    assert weighed.demand == pytest.approx(575 * LB)
    assert weighed.uncertainty == pytest.approx(5 * LB)


def test_a_loaded_weighing_is_held_against_the_window_of_the_plate(yard: SmallYard) -> None:
    ticket = '\n[[ticket]]\non = 2026-10-20\nwhat = "{}"\nstate = "loaded"\ncoupled = false\nmass = "{}"\n'
    text = yard.sheet.read_text(encoding="utf-8")
    yard.sheet.write_text(
        text + ticket.format("whole", "2,000 lb") + ticket.format("coupling", "150 lb"), encoding="utf-8"
    )
    share = found_of(yard)["weighed.coupling_share"]
    assert share.demand == pytest.approx(0.075)
    assert share.verdict == "over", "7.5 % lies below the plate's 10 %"


def test_tire_numbers_that_were_not_read_leave_the_age_unknown(yard: SmallYard) -> None:
    assert found_of(yard)["tires.age"].verdict == "within"
    text = yard.sheet.read_text(encoding="utf-8")
    yard.sheet.write_text(text.partition("[parts.tires]")[0], encoding="utf-8")
    assert found_of(yard)["tires.age"].missing == ("tire_numbers",)


def test_the_truck_carries_the_coupling_load_by_its_lever(yard: SmallYard) -> None:
    path = yard.folder / "truck.toml"
    path.write_text(TRUCK, encoding="utf-8")
    unit = as_built(yard.sheet, load(yard.catalogue))
    found = by_id(findings_with_truck(unit, read_file(path, Truck)))
    tongue = 2400 * 0.15  # most of the plate's window
    assert found["truck.truck_rear_axle"].demand == pytest.approx((2800 + tongue * (150 + 50) / 150) * LB)
    assert found["truck.truck_gross"].demand == pytest.approx((3900 + 2800 + tongue) * LB)
    assert found["truck.combined"].demand == pytest.approx((6700 + 2400) * LB)
    assert found["truck.truck_coupling_vertical"].demand == pytest.approx(360 * LB)
    assert found["truck.ball"].verdict == "within"


def test_another_ball_does_not_fit_and_a_missing_one_is_asked_for(yard: SmallYard) -> None:
    path = yard.folder / "truck.toml"
    unit = as_built(yard.sheet, load(yard.catalogue))
    path.write_text(TRUCK.replace('ball = "2 in"', 'ball = "1-7/8 in"'), encoding="utf-8")
    assert by_id(findings_with_truck(unit, read_file(path, Truck)))["truck.ball"].verdict == "over"
    path.write_text(TRUCK.replace('ball = "2 in"\n', ""), encoding="utf-8")
    assert by_id(findings_with_truck(unit, read_file(path, Truck)))["truck.ball"].missing == ("truck_ball",)


def test_a_truck_that_is_not_there_is_refused_by_name(yard: SmallYard) -> None:
    yard.change("sheets/t-1.toml", 'type = "small_flat"', 'type = "small_flat"\ntruck = "gone"')
    catalogue = load(yard.catalogue)
    unit = as_built(yard.sheet, catalogue)
    with pytest.raises(FaultyInput, match="gone"):
        all_findings(unit, catalogue, DAY)


def test_what_was_not_checked_is_always_listed(yard: SmallYard) -> None:
    catalogue = load(yard.catalogue)
    unit = as_built(yard.sheet, catalogue)
    assert "truck" in not_checked(all_findings(unit, catalogue, DAY))
    path = yard.folder / "truck.toml"
    path.write_text(TRUCK, encoding="utf-8")
    with_truck = not_checked(all_findings(unit, catalogue, DAY, path))
    assert "truck" not in with_truck
    assert "hitch_wear" in with_truck
