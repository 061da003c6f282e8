"""How the pages are filled: nothing cut, no head alone at a foot, no page left nearly empty, numbers on one side."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from sendoff.briefing.numbers import SECTIONS
from sendoff.drawings.lettering import width_mm
from sendoff.papers import typeset
from sendoff.papers.booklet import MOST_ROWS, data_of_booklet, numbers_data
from sendoff.papers.figures import figures_of
from sendoff.phrases import say, table
from tests.papers.conftest import DAY, POINTS_A_MM, SHEETS, MakePack, Pack, Page, Word, pages_of

pytestmark = pytest.mark.needs_tool("pdftotext")

FOOT_MM = 17.0
LEAST_FILLED = 0.25
HEADS = (
    "use",
    "check",
    "goes_wrong",
    "this_unit",
    "upkeep",
    "not_checked",
    "how_worked_out",
    "by_date",
    "answers",
)


def body_of(page: Page) -> list[Word]:
    """The words above the footer."""
    foot = page.height - FOOT_MM * POINTS_A_MM
    return [word for word in page.words if word.bottom < foot]


def test_every_word_stands_inside_the_page(pack: Pack) -> None:
    for name in ("booklet.pdf", "check-sheet.pdf", *SHEETS):
        for number, page in enumerate(pages_of(pack.path(name)), start=1):
            for word in page.words:
                assert word.left >= 7 * POINTS_A_MM, (name, number, word)
                assert word.right <= page.width - 7 * POINTS_A_MM, (name, number, word)
                assert word.bottom <= page.height - 4 * POINTS_A_MM, (name, number, word)


def test_no_text_runs_into_the_footer(pack: Pack) -> None:
    for name in ("booklet.pdf", "check-sheet.pdf", *(name for name in SHEETS if name != "sun-visor.pdf")):
        for number, page in enumerate(pages_of(pack.path(name))[1:], start=2):
            if page.width > page.height:
                continue
            top_of_footer = page.height - 15.5 * POINTS_A_MM
            footer = [word for word in page.words if word.bottom > top_of_footer]
            said = " ".join(word.text for word in sorted(footer, key=lambda word: word.left))
            assert said.startswith(pack.catalogue.yard.name), (name, number)
            assert len({round(word.top) for word in footer}) <= 2, (name, number, footer)


def test_no_page_is_left_nearly_empty(pack: Pack) -> None:
    pages = pages_of(pack.path("booklet.pdf"))
    for number, page in enumerate(pages[:-1], start=1):
        if page.width > page.height:
            continue  # the drawing sheet
        lowest = max((word.bottom for word in body_of(page)), default=0.0)
        assert lowest > LEAST_FILLED * page.height, number


def test_no_head_stands_alone_at_the_foot_of_a_page(pack: Pack) -> None:
    heads = {say(f"paper.{name}", pack.briefing.language) for name in HEADS}
    heads |= set(table("state", pack.briefing.language).values())
    for number, page in enumerate(pages_of(pack.path("booklet.pdf")), start=1):
        body = body_of(page)
        for left, right in ((0.0, 145.0), (145.0, 216.0)):  # the columns of a station
            column = [word for word in body if left * POINTS_A_MM <= word.left < right * POINTS_A_MM]
            if column:
                lowest = max(word.bottom for word in column)
                last = " ".join(word.text for word in column if word.bottom > lowest - 2)
                assert last.rstrip(":") not in heads, (number, last)


def test_words_of_neighbors_never_overlap(pack: Pack) -> None:
    for name in ("booklet.pdf", "check-sheet.pdf", *SHEETS):
        for number, page in enumerate(pages_of(pack.path(name)), start=1):
            words = sorted(page.words, key=lambda word: (word.top, word.left))
            for position, one in enumerate(words):
                for other in words[position + 1 : position + 60]:
                    wide = min(one.right, other.right) - max(one.left, other.left)
                    high = min(one.bottom, other.bottom) - max(one.top, other.top)
                    tall = min(one.bottom - one.top, other.bottom - other.top)
                    # boxes reach from the highest accent to the lowest tail of the face, letters do not
                    assert not (wide > 2 and high > 0.62 * tall), (name, number, one, other)


def test_a_station_of_four_parts_in_spanish_keeps_its_cautions_before_its_steps(made: MakePack) -> None:
    pack = made("qb-0107", "es")
    data = _data(pack)
    for station in data["stations"]:
        seen: set[str] = set()
        for run in station["runs"]:
            assert not (run["again"] and run["cautions"])
            seen.add(run["letter"])
        with_cautions = {run["letter"] for run in station["runs"] if run["cautions"]}
        assert with_cautions <= seen


def test_steps_stand_in_the_order_the_walk_was_proved_in(pack: Pack) -> None:
    for station, told in zip(pack.briefing.stations, _data(pack)["stations"], strict=True):
        if station.twin is None:
            steps = [step for run in told["runs"] for step in run["steps"]]
            assert [step["text"] for step in steps] == [step.text for step in station.steps]
            assert [step["number"] for step in steps] == list(range(1, len(steps) + 1))


def test_every_caution_of_a_part_stands_with_its_first_steps(pack: Pack) -> None:
    for station, told in zip(pack.briefing.stations, _data(pack)["stations"], strict=True):
        said = [
            message["hazard"]
            for run in told["runs"]
            for group in run["cautions"]
            for message in group["messages"]
        ]
        assert sorted(said) == sorted(caution.hazard for caution in station.cautions)


def test_a_change_of_state_is_said_where_it_happens(pack: Pack) -> None:
    language = pack.briefing.language
    for station, told in zip(pack.briefing.stations, _data(pack)["stations"], strict=True):
        state = station.state
        for check, row in zip(station.checks, told["checks"], strict=True):
            assert row["state"] == ("" if check.state == state else say(f"state.{check.state}", language))
            state = check.state


# ── the numbers sheet, however many rows ────────────────────────────────────────────────────────────────────────────


def _data(pack: Pack) -> dict[str, Any]:
    return data_of_booklet(
        pack.unit, pack.briefing, pack.catalogue, figures_of(pack.unit, pack.briefing, ()), (), DAY
    )


@pytest.mark.parametrize("share", [0.2, 0.5, 1.0])
def test_the_numbers_sheet_has_one_side_whatever_the_rows(
    made: MakePack, tmp_path: Path, share: float
) -> None:
    data = _data(made("qb-0107", "en"))
    data |= {"stations": [], "diagrams": []}
    row: dict[str, Any] = {
        "label": "Coupler set bolts, both of them",
        "shown": {"number": "24,900", "unit": "lbf·ft"},
    }
    row |= {"second": "129 N·m", "origin": "card", "sub": "", "wide": width_mm("24,900", 1.0, 600)}
    counts = {section: max(1, round(most * share)) for section, most in MOST_ROWS.items()}
    data["numbers"] = [
        {"section": section, "title": section.title(), "rows": [row] * counts[section]}
        for section in SECTIONS
    ]
    path = tmp_path / "rows.pdf"
    path.write_bytes(typeset.pdf("booklet.typ", data, DAY))
    pages = [page for page in pages_of(path) if "Numbers sheet, one side" in " ".join(page.lines())]
    assert len(pages) == 1
    assert sum(word.text == "24,900" for word in pages[0].words) == sum(counts.values())


def test_tire_pressure_stays_big_on_the_fullest_sheet(made: MakePack) -> None:
    pages = pages_of(made("qb-0107", "en").path("booklet.pdf"))
    sheet = next(page for page in pages if "Numbers sheet, one side" in " ".join(page.lines()))
    pressure = next(word for word in sheet.words if word.text == "95")
    torque = next(word for word in sheet.words if word.text == "220")
    assert pressure.bottom - pressure.top > torque.bottom - torque.top
    assert pressure.bottom - pressure.top >= 28


def test_rows_beyond_one_side_are_left_to_their_stations_and_the_sheet_says_so(made: MakePack) -> None:
    pack = made("qb-0107", "en")
    blocks, cut = numbers_data(pack.briefing, ())
    shown = sum(len(block["rows"]) for block in blocks)
    assert cut
    assert shown < len(pack.briefing.numbers)
    sheet = next(
        page
        for page in pages_of(pack.path("booklet.pdf"))
        if "Numbers sheet, one side" in " ".join(page.lines())
    )
    assert "All others stand at their stations" in re.sub(
        r"\s+", " ", " ".join(word.text for word in sheet.words)
    )


def test_a_short_sheet_says_all(made: MakePack) -> None:
    pack = made("qb-0207", "en")
    blocks, cut = numbers_data(pack.briefing, ())
    assert not cut
    assert sum(len(block["rows"]) for block in blocks) == len(pack.briefing.numbers)
