"""Every name, note and missing number has its phrase, none is idle, and none approves."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from sendoff import findings
from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.findings.all_limits import all_findings, not_checked
from sendoff.findings.load_window import limits_of
from sendoff.findings.model import Amount, Finding, Limit, Note
from sendoff.findings.telling import say_note, tell
from sendoff.findings.weighed import empty_of
from sendoff.phrases import load as phrases
from sendoff.phrases import say
from tests.findings.demo import DAY, LB, DemoYard

SOURCE = "\n".join(
    path.read_text(encoding="utf-8") for path in sorted(Path(findings.__file__).parent.rglob("*.py"))
)
FORBIDDEN = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b|\bsegur[oa]s?\b", re.IGNORECASE)
UNITS = ("qb-0107", "qb-0111", "qb-0203", "qb-0207", "qb-0302", "qb-0309", "qb-0401", "qb-0408")


def keys(prefix: str) -> set[str]:
    return {key.split(".")[1] for key in phrases() if key.startswith(f"{prefix}.")}


def test_every_note_has_its_phrase_and_every_phrase_its_note() -> None:
    made = set(re.findall(r'"(\w+)"', SOURCE)) | {
        "battery_tail",
        "battery_body",
        "battery_lift_deck",
        "battery_ramps",
        "card_fill_line_gravel",
        "card_fill_line_soil",
        "card_fill_line_mulch",
        "battery_winch",
        "card_lifts_hinge",
        "card_lifts_deck_end",
    }
    asked = set(re.findall(r'Note\(\s*"(\w+)"', SOURCE))
    assert asked <= keys("note"), asked - keys("note")
    assert keys("note") <= made, keys("note") - made


@pytest.mark.parametrize("prefix", ["missing", "not_checked", "ends_by"])
def test_no_phrase_is_idle(prefix: str) -> None:
    made = set(re.findall(r'"(\w+)"', SOURCE))
    assert keys(prefix) <= made, keys(prefix) - made


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("truck", ["small_crossover", "three_quarter_ton"])
def test_every_limit_of_a_load_has_its_name(demo: DemoYard, name: str, truck: str) -> None:
    """What the window of places is ended by, and what a load standing there is held against."""
    unit = demo.unit(name)
    empty = empty_of(unit)
    assert empty is not None
    limits = limits_of(unit, empty, demo.truck(truck))
    assert limits is not None
    lines = {line.name for line in (*limits.front_lines(), *limits.rear_lines())}
    assert lines | {one for one, _ in limits.gross} | {one for one, _ in limits.coupling} <= keys("ends_by")
    assert {f"cargo_{one}" for one, _ in limits.axles} <= keys("finding")


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("system", ["us", "metric"])
def test_everything_found_is_told_in_both_languages(
    demo: DemoYard, name: str, language: str, system: str
) -> None:
    catalogue = load(demo.catalogue)
    unit = as_built(demo.sheet(name), catalogue)
    truck = demo.folder / "trucks" / ("small_crossover.toml" if "02" in name else "three_quarter_ton.toml")
    cargo = demo.folder / "cargo" / ("garden_soil_and_quad.toml" if "02" in name else "fence_job.toml")
    found = all_findings(unit, catalogue, DAY, truck, cargo)
    ids = [finding.id for finding in found]
    assert len(ids) == len(set(ids)), "the drawings of margins go by the ids"
    for finding in found:
        told = tell(finding, language, system)  # type: ignore[arg-type]
        said = " ".join((told.name, str(told.demand), str(told.limit), told.word, told.margin, *told.notes))
        assert "{" not in said
        assert not FORBIDDEN.search(said), said
        assert told.margin, finding.id
    assert all(say(f"not_checked.{one}", language) for one in not_checked(found))


def finding(
    kind: str, demand: float, *, most: float | None = None, least: float | None = None, **more: object
) -> Finding:
    return Finding("x", "battery_day", kind, Limit(most=most, least=least), demand, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("found", "demand", "limit", "margin"),
    [
        (finding("duration", 4.4 * 365.25 * 86400, most=6 * 365.25 * 86400), "4.4 years", "6 years", "26 % left"),
        (finding("duration", 3.12 * 3600, most=12 * 3600.0), "3.2 h", "12.0 h", "74 % left"),
        (finding("duration", 14 * 60.0, least=15 * 60.0), "14 min", "15 min", "1.0 min too little"),
        (finding("count", 6, most=4, group="label"), "6", "4", "2 short"),
        (finding("count", 4, most=4, group="label"), "4", "4", "0 left"),
        (finding("ratio", 0.49, least=0.5), "49.0 %", "50.0 %", "1.0 % too little"),
        (finding("torque", 115.2, least=122.0, most=163.0), "85 lbf·ft", "90 to 120 lbf·ft", "outside by 5.1 lbf·ft"),
    ],
)  # fmt: skip
def test_each_kind_of_limit_is_told_in_its_own_words(
    found: Finding, demand: str, limit: str, margin: str
) -> None:
    told = tell(found, "en", "us")
    assert (str(told.demand), str(told.limit), told.margin) == (demand, limit, margin)


def test_what_must_be_reached_rounds_against_itself() -> None:
    """Of a least, what is there rounds down and what is asked rounds up."""
    told = tell(finding("mass", 5_008 * LB, least=5_003 * LB), "en", "us")
    assert (str(told.demand), str(told.limit)) == ("5,000 lb", "5,010 lb")
    assert told.verdict == "tight", "the verdict uses the unrounded values"


def test_an_amount_is_told_as_entered_to_readers_of_its_units() -> None:
    note = Note("moved_back", {"way": Amount("length", 0.3048, given="1 ft"), "off": Amount("mass", 100.0),
                               "front": Amount("length", 3.0), "rear": Amount("length", 4.0)})  # fmt: skip
    assert "Each 1 ft further back" in say_note(note, "en", "us")
    assert "Cada 305 mm más atrás" in say_note(note, "es", "metric")
