"""What one option changes is changed everywhere: on the demo unit, its options put on and taken off one by one."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.brief import brief
from sendoff.briefing.model import Briefing
from sendoff.catalogue.load import load
from sendoff.papers.packs import Order, make_pack
from tests.findings.demo import DemoYard

AS_ORDERED = (
    '"tire_f", "spare_f", "floor_oak", "coupler_adjustable", "shore", "winch", "wireless", "side_box"'
)
DAY = datetime.date(2026, 11, 25)


@dataclass
class Bench:
    """The demo yard, whose unit QB-0107 is ordered anew for each test."""

    demo: DemoYard

    def ordered(self, options: str) -> tuple[AsBuiltUnit, Briefing]:
        sheet = self.demo.sheet("qb-0107")
        text = sheet.read_text(encoding="utf-8")
        text = re.sub(r"options = \[.*\]", f"options = [{options}]", text)
        sheet.write_text(re.sub(r"(?ms)^\[parts\..*?(?=^\[\[|\Z)", "", text), encoding="utf-8")
        catalogue = load(self.demo.catalogue)
        unit = as_built(sheet, catalogue)
        return unit, brief(unit, catalogue, "en", "us")


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(DemoYard(tmp_path))


def fitted(unit: AsBuiltUnit) -> dict[str, str]:
    """Return what fills each slot, as card/variant."""
    return {part.slot: f"{part.card}/{part.variant}" for part in unit.parts}


def words_of(briefing: Briefing) -> list[str]:
    """Return every sentence, label and figure of a briefing."""
    found = [*briefing.sentences, *(line.text for line in briefing.upkeep)]
    for station in briefing.stations:
        found += [step.text for step in station.steps]
        found += [f"{check.text} {check.target or ''}" for check in station.checks]
        found += [f"{caution.hazard} {caution.consequence} {caution.avoid}" for caution in station.cautions]
        found += [f"{trouble.see} {trouble.look}" for trouble in station.troubles]
        found += [f"{number.label} {number.shown}" for number in station.numbers]
    found += [f"{number.label} {number.shown}" for number in briefing.numbers]
    found += [f"{question.text} {' / '.join(question.answers)}" for question in briefing.questions]
    return [text.replace("\N{NO-BREAK SPACE}", " ") for text in found]


def naming(briefing: Briefing, figure: str) -> list[str]:
    return [text for text in words_of(briefing) if re.search(rf"(?<![\d,.]){re.escape(figure)}", text)]


@pytest.mark.parametrize(
    ("options", "tires", "wheels", "nuts", "pressure", "torque"),
    [
        ("", "st235_80r16_e", "w16_std", "cone_5_8", "80 psi", "150 lbf·ft"),
        ('"tire_f"', "st235_80r16_f", "w16_hd", "clamp_ring_5_8", "95 psi", "200 lbf·ft"),
        ('"tire_h"', "st215_75r17_5_h", "w17_5", "flange_5_8", "120 psi", "300 lbf·ft"),
    ],
    ids=["standard", "range F", "range H"],
)
def test_heavier_tires_bring_wheels_nuts_torque_and_pressure_wherever_they_are_told(
    bench: Bench, options: str, tires: str, wheels: str, nuts: str, pressure: str, torque: str
) -> None:
    unit, briefing = bench.ordered(options)
    slots = fitted(unit)
    assert slots["tires"].endswith(f"/{tires}")
    assert slots["wheels"].endswith(f"/{wheels}")
    assert slots["wheel_nuts"].endswith(f"/{nuts}")
    assert {pressure, torque} <= {str(number.shown) for number in briefing.numbers}
    checks = [check for station in briefing.stations for check in station.checks]
    targets = {str(check.target) for check in checks if check.target}
    assert pressure in targets
    assert torque in targets
    asked = [
        question for question in briefing.questions if question.answers[question.right] in {pressure, torque}
    ]
    assert {question.answers[question.right] for question in asked} == {pressure, torque}
    assert any(pressure in sentence.replace("\N{NO-BREAK SPACE}", " ") for sentence in briefing.sentences)
    others = {"80 psi", "95 psi", "120 psi", "150 lbf·ft", "200 lbf·ft", "300 lbf·ft"} - {pressure, torque}
    mistakes = {answer for question in asked for answer in question.answers}
    for other in others:  # as a named mistake of a question, and nowhere else
        told = [
            text for text in naming(briefing, other) if not any(text.startswith(one.text) for one in asked)
        ]
        assert [text for text in told if "limit" not in text.lower() and "most" not in text.lower()] == [], (
            other
        )
    assert mistakes & others


def test_a_winch_brings_battery_charger_inlet_remote_and_their_checks(bench: Bench) -> None:
    without, plain = bench.ordered('"tire_f"')
    unit, briefing = bench.ordered('"tire_f", "shore", "winch"')
    slots, before = fitted(unit), fitted(without)
    assert set(slots) - set(before) == {"winch", "charger", "shore_inlet"}
    assert slots["battery"] != before["battery"]
    why = {part.slot: str(part.why) for part in unit.parts}
    for slot in ("winch", "battery", "charger"):
        assert "winch" in why[slot], why[slot]
    gained = {
        (part.slot, check.text)
        for station in briefing.stations
        for part in station.parts
        for check in station.checks
        if check.key.startswith(f"{part.slot}:")
    }
    for slot in ("winch", "battery", "charger", "shore_inlet"):
        assert any(owner == slot for owner, _ in gained), slot
    assert not any("inch" in text and "winch" in text.lower() for text in words_of(plain))
    assert any("remote" in text.lower() for text in words_of(briefing) if "winch" in text.lower())


def test_another_floor_changes_tie_down_points_and_the_load_a_wheel_may_bring(bench: Bench) -> None:
    wood, _ = bench.ordered('"floor_oak"')
    steel, briefing = bench.ordered('"floor_steel"')
    assert fitted(wood)["tie_downs"] != fitted(steel)["tie_downs"]

    def wheel_load(unit: AsBuiltUnit) -> float:
        load = next(part for part in unit.parts if part.slot == "floor").values["wheel_load"].si
        assert load is not None
        return load

    assert wheel_load(wood) != wheel_load(steel)
    text = next(part for part in steel.parts if part.slot == "floor").values["wheel_load"].given
    assert text is not None
    assert naming(briefing, f"{int(text.split()[0].replace(',', '')):,} lb")


def test_an_adjustable_coupler_brings_the_steps_of_setting_its_height(bench: Bench) -> None:
    _, fixed = bench.ordered("")
    _, adjustable = bench.ordered('"coupler_adjustable"')

    def steps(briefing: Briefing) -> str:
        return " ".join(step.text for station in briefing.stations for step in station.steps).lower()

    assert "height" in steps(adjustable)
    assert len(steps(adjustable)) > len(steps(fixed))
    lost = {step.text for step in adjustable.stations[0].steps} - {
        step.text for step in fixed.stations[0].steps
    }
    assert any("bolt" in text.lower() or "height" in text.lower() for text in lost)


def test_what_an_option_changes_is_changed_in_the_files_of_the_pack(bench: Bench, tmp_path: Path) -> None:
    bench.ordered('"tire_h"')
    made = make_pack(Order(bench.demo.sheet("qb-0107"), bench.demo.folder, tmp_path / "out", None, None, DAY))
    page = (made.folder / "briefing.html").read_text(encoding="utf-8")
    unit = (made.folder / "unit.json").read_text(encoding="utf-8")
    assert "120" in page
    assert '"120 psi"' in unit
    assert '"95 psi"' not in unit
