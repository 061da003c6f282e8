"""Canvas and lettering: markup escaped, words as wide as the face makes them, dimensions that add up."""

from __future__ import annotations

import importlib.util
import itertools
from pathlib import Path
from xml.etree import ElementTree as ET

import msgspec
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from sendoff.drawings import UnitDrawings
from sendoff.drawings.dimensions import said as dimension
from sendoff.drawings.lettering import _advances, fitting_points, lines_of, width_mm
from sendoff.drawings.svg import Canvas, number
from tests.drawings.reading import read, said, texts, unit

FOLDER = Path(importlib.util.find_spec("font_source_sans_pro").origin or "").parent / "files"  # type: ignore[union-attr]
FACES = {400: "Regular", 600: "Semibold", 700: "Bold"}


@pytest.mark.parametrize("weight", [400, 600, 700])
def test_advance_widths_are_those_of_the_face(weight: int) -> None:
    """Against the face's own tables, read by fontTools."""
    face = TTFont(FOLDER / f"SourceSansPro-{FACES[weight]}.ttf")
    names, advances = face.getBestCmap(), face["hmtx"]
    column = list(FACES).index(weight)
    assert face["head"].unitsPerEm == 1000
    assert len(_advances()) > 300
    for sign, widths in _advances().items():
        assert widths[column] == advances[names[ord(sign)]][0], sign


def test_figures_are_tabular() -> None:
    for weight in (400, 600, 700):
        assert len({width_mm(figure, 10, weight) for figure in "0123456789"}) == 1


@given(st.text(max_size=40))
def test_any_text_comes_back_as_it_was(words: str) -> None:
    """Markup in an owner's or a card's text stays text; signs that XML cannot hold never get past the loader."""
    words = "".join(sign for sign in words if sign.isprintable())
    canvas = Canvas(100, 20)
    canvas.text((1, 10), words, 8)
    drawing = canvas.done("", words)
    (seen,) = texts(drawing)
    assert said(seen) == words.replace("\N{ZERO WIDTH NON-JOINER}", "")


def test_markup_in_a_units_texts_stays_text() -> None:
    evil = '<script>alert("1")</script>&amp;'
    made = unit("qb-0203")
    stations = tuple(
        msgspec.structs.replace(station, name={"en": evil, "es": evil}) for station in made.stations
    )
    made = msgspec.structs.replace(made, stations=stations[:4], unit=evil[:20])
    drawings = UnitDrawings(made, "en", "us")
    for drawing in (drawings.sheet, drawings.station_figure(1, key=True)):
        assert "<script" not in drawing.svg
        assert ET.fromstring(drawing.svg) is not None
    assert any(evil in said(seen) for seen in texts(drawings.sheet))


def test_letters_too_small_for_print_are_refused() -> None:
    with pytest.raises(ValueError, match="too small"):
        Canvas(10, 10).text((0, 0), "x", 6.5)


@given(st.floats(-1e4, 1e4))
def test_numbers_have_three_decimals_at_most_and_no_negative_zero(value: float) -> None:
    text = number(value)
    assert float(text) == pytest.approx(value, abs=0.000501)
    assert text != "-0"
    assert len(text.partition(".")[2]) <= 3
    assert "e" not in text


@given(st.lists(st.floats(0, 20), min_size=2, max_size=8), st.sampled_from(["us", "metric"]))
def test_links_of_a_chain_always_add_up_to_the_whole(places: list[float], system: str) -> None:
    """Read back from the words themselves, in half inches or centimeters."""

    def back(words: str) -> float:
        if system == "metric":
            return round(float(words.removesuffix(" m")) * 100)
        feet, _, rest = words.partition(" ft ")
        inches = rest.removesuffix(" in")
        half = inches.endswith("½")
        whole = inches.removesuffix("½")
        return int(feet) * 24 + (int(whole) if whole else 0) * 2 + half

    places = sorted(places)
    links = [back(dimension(a, b, system)) for a, b in itertools.pairwise(places)]  # type: ignore[arg-type]
    assert sum(links) == back(dimension(places[0], places[-1], system))  # type: ignore[arg-type]


@given(st.text(alphabet="abc def ghi", max_size=60), st.floats(10, 60))
def test_lines_hold_all_words_in_order(words: str, room: float) -> None:
    lines = lines_of(words, room, 8)
    assert " ".join(lines).split() == words.split()
    assert all(width_mm(line, 8) <= room or " " not in line for line in lines)


def test_words_are_shrunk_to_their_room_but_never_below_seven_points() -> None:
    assert fitting_points("wide words", 100, 9) == 9
    assert fitting_points("wide words " * 9, 40, 9) == 7
    fitted = fitting_points("Hydraulic pump", 18, 9)
    assert width_mm("Hydraulic pump", fitted) == pytest.approx(18)


def test_feet_are_kept_from_fusing_their_letters() -> None:
    drawing = UnitDrawings(unit("qb-0107"), "en", "us").sheet
    for seen in read(drawing):
        assert "ft" not in (seen.element.text or "")
