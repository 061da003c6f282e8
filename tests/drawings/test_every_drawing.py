"""What must hold for every drawing of every demo unit, in both languages and both systems of units."""

from __future__ import annotations

import functools
import os
import subprocess
import sys
from xml.etree import ElementTree as ET

import pytest

from sendoff.drawings import Drawing, UnitDrawings
from sendoff.drawings.lettering import width_mm
from sendoff.drawings.svg import FACE
from tests.drawings import reading
from tests.drawings.reading import SVG, UNITS, points_of, read, said, texts, unit

READERS = [("en", "us"), ("es", "us"), ("en", "metric"), ("es", "metric")]
NAMES = (
    "cover.svg", "sheet.svg", "walk.svg", "side-60mm.svg", "side-360px.svg", "silhouette.svg", "tie-downs.svg",
    "wheel-nuts.svg", "plug-face.svg", "one-line.svg",
)  # fmt: skip


@functools.cache
def files(name: str, language: str, system: str) -> dict[str, Drawing]:
    return UnitDrawings(unit(name), language, system).files()  # type: ignore[arg-type]


every = pytest.mark.parametrize(
    ("name", "language", "system"),
    [pytest.param(name, *reader, id="-".join((name, *reader))) for name in UNITS for reader in READERS],
)


@every
def test_all_drawings_are_there(name: str, language: str, system: str) -> None:
    found = files(name, language, system)
    stations = len(unit(name).stations)
    points = {"tie-downs.svg"} if unit(name).part("tie_downs") is None else set()
    assert set(NAMES) - points <= set(found)
    raised = {"raised.svg"} & set(found)  # only of a unit that raises a body or a deck
    assert len(found) == len(NAMES) - len(points) + len(raised) + 2 * stations


@every
def test_nothing_lies_outside_its_sheet(name: str, language: str, system: str) -> None:
    """Every corner, circle and line end with its pen; only what a window cuts may reach beyond the window."""
    for file, drawing in files(name, language, system).items():
        for seen in read(drawing):
            if seen.windowed:
                continue
            room = seen.radius + seen.pen if seen.tag == "circle" else min(seen.pen, 0.36)
            for x, y in seen.points:
                assert room - 0.02 <= x <= drawing.width_mm - room + 0.02, (file, seen.tag, x, y, said(seen))
                assert room - 0.02 <= y <= drawing.height_mm - room + 0.02, (file, seen.tag, x, y, said(seen))


@every
def test_all_words_lie_on_the_sheet(name: str, language: str, system: str) -> None:
    for file, drawing in files(name, language, system).items():
        for seen in texts(drawing):
            size = points_of(seen)
            wide = width_mm(said(seen), size, int(seen.element.get("font-weight", "400")))
            before = {"middle": 0.5, "end": 1.0}.get(seen.element.get("text-anchor", ""), 0.0) * wide
            x, y = seen.points[0]
            if "rotate" in seen.element.get("transform", ""):
                assert before - 0.1 <= drawing.height_mm - y + 0.1 + before, (file, said(seen))
                assert y + before <= drawing.height_mm + 0.1, (file, said(seen))
                assert y - wide + before >= -0.1, (file, said(seen))
            else:
                assert x - before >= -0.1, (file, said(seen))
                assert x - before + wide <= drawing.width_mm + 0.1, (file, said(seen))


@every
def test_no_words_are_under_seven_points(name: str, language: str, system: str) -> None:
    for file, drawing in files(name, language, system).items():
        for seen in texts(drawing):
            assert points_of(seen) >= 6.995, (file, said(seen))
            assert seen.element.get("font-family") == FACE


@every
def test_only_presentation_attributes_and_no_ids(name: str, language: str, system: str) -> None:
    for file, drawing in files(name, language, system).items():
        for element in ET.fromstring(drawing.svg).iter():
            assert "style" not in element.attrib, file
            assert "id" not in element.attrib, file
            assert element.tag.startswith(SVG)


@every
def test_every_drawing_says_in_words_what_it_shows(name: str, language: str, system: str) -> None:
    for file, drawing in files(name, language, system).items():
        assert len(drawing.description) > 15, file
        assert "{" not in drawing.description, file


def test_the_words_are_in_the_readers_language() -> None:
    english = {said(seen) for seen in texts(files("qb-0107", "en", "us")["sheet.svg"])}
    spanish = {said(seen) for seen in texts(files("qb-0107", "es", "us")["sheet.svg"])}
    assert {"Coupling and ball", "Scale", "Unit"} <= english
    assert {"Enganche y bola", "Escala", "Unidad"} <= spanish
    assert not {"Scale", "Unit"} & spanish


def test_metric_readers_get_no_feet_and_american_ones_no_meters() -> None:
    for name in UNITS:
        metric = [said(seen) for seen in texts(files(name, "en", "metric")["sheet.svg"])]
        american = [said(seen) for seen in texts(files(name, "en", "us")["sheet.svg"])]
        assert not [words for words in metric if " ft" in words]
        assert not [words for words in american if words.endswith(" m")]


def test_the_same_unit_gives_the_same_bytes() -> None:
    first = files("qb-0107", "en", "us")
    again = UnitDrawings(unit("qb-0107"), "en", "us").files()
    assert {name: drawing.svg for name, drawing in first.items()} == {
        name: drawing.svg for name, drawing in again.items()
    }


def test_the_bytes_do_not_hang_on_the_hash_seed() -> None:
    code = (
        "import hashlib; from tests.drawings.reading import unit; from sendoff.drawings import UnitDrawings; "
        "files = UnitDrawings(unit('qb-0203'), 'es', 'us').files(); "
        "print(hashlib.sha256(''.join(d.svg for d in files.values()).encode()).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=reading.ROOT,
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "77")
    }
    assert len(digests) == 1
