"""The one-page papers: what must stand on each, for every demo unit and for a trailer that has almost nothing."""

from __future__ import annotations

import ast
import io
import re
import subprocess
from pathlib import Path

import pypdf
import pytest
import tomli

from sendoff.asbuilt.resolve import as_built
from sendoff.briefing.brief import brief
from sendoff.catalogue.load import load
from sendoff.display import show
from sendoff.errors import FaultyInput
from sendoff.findings.all_limits import all_findings
from sendoff.findings.shape_limits import highest_m
from sendoff.papers import care_sheets, drivers_sheet, labels, road_cards
from sendoff.papers.contents import files_of_pack
from sendoff.papers.figures import figures_of
from sendoff.papers.one_page import number, pressures_of
from sendoff.phrases import say
from sendoff.units import to_si
from tests.conftest import find_tool
from tests.papers.conftest import DAY, SHEETS, MakePack, Pack, pages_of, words_of
from tests.yards import SmallYard

ROOT = Path(__file__).resolve().parents[2]
PAPERS = ROOT / "src" / "sendoff" / "papers"
MODULES = ("one_page", "drivers_sheet", "labels", "road_cards", "care_sheets")
PRESSURE, TORQUE = re.compile(r"\d\s*(psi|kPa)\b"), re.compile(r"\d\s*(lbf·ft|N·m)")
FORBIDDEN = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b|\bsegur[oa]s? para\b|\bes segur[oa]\b", re.IGNORECASE)
PAGES = {"labels.pdf": None, "emergency.pdf": 2, "storage-and-winter.pdf": 2}


def letters(text: str) -> str:
    return re.sub(r"[\W_]+", "", text).casefold()


def missing(texts: list[str], path: Path) -> list[str]:
    """What of some texts is not read back from a paper; a text broken over lines is whole."""
    said = letters(words_of(path))
    return [text for text in texts if letters(text) not in said]


def files_of(yard: SmallYard, language: str = "en") -> dict[str, bytes]:
    catalogue = load(yard.catalogue)
    return files_of_pack(as_built(yard.sheet, catalogue), catalogue, language, "us", DAY)


def written(files: dict[str, bytes], folder: Path, name: str) -> Path:
    path = folder / name
    path.write_bytes(files[name])
    return path


# ── every one of them ───────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", SHEETS)
def test_a_paper_keeps_to_its_pages(pack: Pack, name: str) -> None:
    wanted = PAGES.get(name, 1) or -(-len(pack.unit.stations) // 8)
    assert len(pypdf.PdfReader(pack.path(name)).pages) == wanted


@pytest.mark.needs_tool("pdftotext")
@pytest.mark.parametrize("name", SHEETS)
def test_a_paper_says_who_stands_above_it_and_never_the_forbidden_word(pack: Pack, name: str) -> None:
    path = pack.path(name)
    assert missing([say("answer.authority", pack.briefing.language)], path) == []
    assert FORBIDDEN.search(words_of(path)) is None


@pytest.mark.needs_tool("pdftotext")
@pytest.mark.parametrize("name", [name for name in SHEETS if name != "labels.pdf"])
def test_a_paper_carries_a_caution(pack: Pack, name: str) -> None:
    signals = [say(f"signal.{word}", pack.briefing.language) for word in ("danger", "warning")]
    assert any(signal in words_of(pack.path(name)) for signal in signals)


@pytest.mark.needs_tool("pdftotext")
@pytest.mark.parametrize("name", SHEETS)
def test_pressure_and_torque_never_share_a_line_of_a_paper(pack: Pack, name: str) -> None:
    for page in pages_of(pack.path(name)):
        for line in page.lines():
            assert not (PRESSURE.search(line) and TORQUE.search(line)), line


def test_no_number_is_typed_into_the_code_or_the_phrases_of_these_papers() -> None:
    for module in MODULES:
        tree = ast.parse((PAPERS / f"{module}.py").read_text("utf-8"))
        told = {
            node.value
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and re.search(r"\d", node.value)
        }
        documented = (ast.Module, ast.FunctionDef, ast.ClassDef)
        docs = {
            ast.get_docstring(node, clean=False) for node in ast.walk(tree) if isinstance(node, documented)
        }
        told -= docs | _explained(tree)
        assert {text for text in told if " " in text.strip()} == set(), module
    phrases = tomli.loads((ROOT / "src/sendoff/data/phrases/sheets.toml").read_text("utf-8"))
    found = set(re.findall(r"(?<![{\w])\d[\d.,]*", str(list(_texts(phrases)))))
    assert found == {"911", "911.", "100"}  # the emergency call of both countries; labels print at 100 %


def _explained(tree: ast.Module) -> set[str]:
    """What stands under a constant to explain it."""
    return {
        node.value.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    }


def _texts(table: object) -> list[str]:
    if isinstance(table, dict):
        return [text for item in table.values() for text in _texts(item)]
    return [str(table)]


@pytest.mark.needs_tool("pdftotext")
@pytest.mark.parametrize("language", ["en", "es"])
def test_a_trailer_with_almost_nothing_still_has_every_paper(tmp_path: Path, language: str) -> None:
    files = files_of(SmallYard(tmp_path), language)
    for name in SHEETS:
        assert len(pypdf.PdfReader(written(files, tmp_path, name)).pages) == PAGES.get(name, 1) or 1
    said = words_of(tmp_path / "drivers-sheet.pdf")
    assert letters(say("driver.no_brakes", language)) in letters(said)
    assert letters(say("emergency.jack_unknown", language)) in letters(words_of(tmp_path / "emergency.pdf"))
    assert letters(say("first_trip.none", language)) in letters(words_of(tmp_path / "first-trip.pdf"))


@pytest.mark.needs_tool("pdftotext")
def test_nothing_is_cut_off_with_long_names(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    long = (
        "Wide-shouldered utility trailer for hedges, ladders, barrows and whatever else a gardener may carry"
    )
    yard.change("catalogue/trailers/small_flat.toml", '"Small flat trailer"', f'"{long}"')
    yard.sheet.write_text(yard.sheet.read_text().replace('"T-1"', '"WWWW-2222-WWWW-2222-WW"'))
    files = files_of(yard)
    for name in SHEETS:
        path = written(files, tmp_path, name)
        for page in pages_of(path):
            assert all(word.left > 5 and word.right < page.width - 5 for word in page.words), name
            assert all(word.bottom < page.height - 5 for word in page.words), name
        if name != "labels.pdf":
            assert "WWWW-2222-WWWW-2222-WW" in words_of(path)
        assert PAGES.get(name, 1) in {None, len(pages_of(path))}, name


@pytest.mark.needs_tool("pdftotext")
def test_a_number_changed_on_a_card_changes_on_the_papers(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    card = yard.catalogue / "cards/running_gear/my_tire.toml"
    text = card.read_text("utf-8")
    old = re.findall(r'cold_pressure = "(\d+ psi)"', text)
    assert old
    card.write_text(re.sub(r'cold_pressure = "\d+ psi"', 'cold_pressure = "37 psi"', text), encoding="utf-8")
    files = files_of(yard)
    for name in ("drivers-sheet.pdf", "sun-visor.pdf", "lent-out.pdf"):
        said = words_of(written(files, tmp_path, name))
        assert "37 psi" in said, name
        assert not any(value in said for value in old), name


# ── labels ──────────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.needs_tool("pdftoppm")
def test_every_code_is_read_back_from_the_rendered_page(pack: Pack, tmp_path: Path) -> None:
    zxingcpp = pytest.importorskip("zxingcpp")
    from PIL import Image

    subprocess.run(
        [find_tool("pdftoppm"), "-r", "110", "-gray", "-png", str(pack.path("labels.pdf")), str(tmp_path / "p")],
        check=True,
    )  # fmt: skip
    found = []
    for page in sorted(tmp_path.glob("p*.png")):
        with Image.open(page) as picture:
            found += [code.text for code in zxingcpp.read_barcodes(picture)]
    base = str(pack.catalogue.yard.base_url)
    wanted = [f"{base}/u/{pack.unit.public_id}/{station.number}" for station in pack.briefing.stations]
    assert sorted(found) == sorted(wanted)


@pytest.mark.needs_tool("pdftotext")
def test_a_label_stands_for_every_station_and_the_sheet_says_stock_size_and_place(pack: Pack) -> None:
    path, language = pack.path("labels.pdf"), pack.briefing.language
    size = {"width": f"{labels.WIDTH_MM:g} mm", "height": f"{labels.HEIGHT_MM:g} mm"}
    told = [say("label.stock", language, **size), say("label.where", language)]
    assert missing([*told, *(station.name for station in pack.briefing.stations)], path) == []


@pytest.mark.needs_tool("pdftotext")
def test_labels_name_nobody(pack: Pack) -> None:
    said = words_of(pack.path("labels.pdf"))
    assert pack.unit.owner.name not in said
    assert pack.unit.vin not in said
    assert pack.unit.collects.name is None or pack.unit.collects.name not in said


@pytest.mark.needs_tool("pdftotext")
def test_without_an_address_a_label_carries_its_number_and_no_code(tmp_path: Path) -> None:
    catalogue = load(SmallYard(tmp_path).catalogue)
    unit = as_built(tmp_path / "yard/sheets/t-1.toml", catalogue)
    data = labels.data_of_labels(unit, brief(unit, catalogue, "en", "us"), catalogue, DAY)["labels"]
    assert [row["number"] for row in data["rows"]] == list(range(1, len(unit.stations) + 1))
    assert all(row["code"] is None and not row["address"] for row in data["rows"])
    assert data["says"] == say("label.no_code", "en")


@pytest.mark.parametrize(
    "address", ["yard.example", "https://yard example", "https://y.example/?u=1", "javascript:x"]
)
def test_an_address_no_phone_opens_is_refused_with_its_cure(tmp_path: Path, address: str) -> None:
    yard = SmallYard(tmp_path)
    path = yard.folder / "yard.toml"
    path.write_text(f'{path.read_text("utf-8")}\nbase_url = "{address}"\n', encoding="utf-8")
    with pytest.raises(FaultyInput, match=r"base_url.*that is no address.*Write it as"):
        load(yard.catalogue)


# ── the driver's sheet ──────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.needs_tool("pdftotext")
def test_the_drivers_sheet_says_all_it_must_in_both_languages(pack: Pack) -> None:
    path = pack.path("drivers-sheet.pdf")
    telephone = str(pack.catalogue.yard.telephone)
    for language in ("en", "es"):
        own = brief(pack.unit, pack.catalogue, language, pack.briefing.units)
        found = all_findings(pack.unit, pack.catalogue, DAY)
        data = drivers_sheet.data_of_drivers_sheet(pack.unit, {language: own}, pack.catalogue, found, DAY)
        cells = [row["cells"][language] for row in data["driver"]["rows"]]
        assert len(cells) == 8
        assert missing([cell["text"] for cell in cells if cell["text"]], path) == []
        assert (
            missing([line.text for line in own.lines_of("driver") if _slot(line.key) in _HELD_OR_TOWED], path)
            == []
        )
        torque = number(own, "wheel_nuts.torque")
        assert torque is not None
        assert str(torque.shown) in words_of(path)
        nuts = next(line for line in own.upkeep if line.key.startswith("wheel_nuts:") and line.at_miles)
        for miles in nuts.at_miles:
            stop = show("length", to_si(miles, "mi", "length"), own.units, "capacity", given=f"{miles} mi")
            assert str(stop) in words_of(path)
        assert f"{say('driver.call', language)}" in words_of(path)
    assert words_of(path).count(telephone) >= 2


_HELD_OR_TOWED = ("coupler", "chains", "breakaway", "tail_locks")


def _slot(key: str) -> str:
    return key.partition(":")[0]


@pytest.mark.needs_tool("pdftotext")
def test_the_drivers_sheet_gives_height_and_weights_of_this_unit(pack: Pack) -> None:
    said = words_of(pack.path("drivers-sheet.pdf"))
    tall = show("length", highest_m(pack.unit), pack.briefing.units, "demand")
    gross = number(pack.briefing, "plate.gvwr")
    assert gross is not None
    assert str(tall) in said
    assert str(gross.shown) in said


@pytest.mark.needs_tool("pdftotext")
def test_a_truck_whose_plug_lacks_a_wire_is_named_in_both_languages(tmp_path: Path, pack: Pack) -> None:
    if pack.unit.truck is None:
        pytest.skip("no truck named on this sheet")
    found = all_findings(
        pack.unit, pack.catalogue, DAY, pack.catalogue.folder.parent / "trucks/small_crossover.toml"
    )
    both = {code: brief(pack.unit, pack.catalogue, code, "us") for code in ("en", "es")}
    data = drivers_sheet.data_of_drivers_sheet(pack.unit, both, pack.catalogue, found, DAY)["driver"]
    if pack.unit.part("brakes") is not None:
        assert say("plug_function.brake", "en") in data["rows"][2]["cells"]["en"]["text"]
        assert say("plug_function.brake", "es") in data["rows"][2]["cells"]["es"]["text"]


# ── first trip, loans, storage, emergency ───────────────────────────────────────────────────────────────────────────


def test_the_first_trip_has_a_blank_at_each_distance_its_cards_name(pack: Pack) -> None:
    matrix = road_cards.readings(pack.briefing)
    due = [line for line in pack.briefing.upkeep if line.at_miles]
    assert len(matrix["stops"]) == len({miles for line in due for miles in line.at_miles})
    for line in due:
        row = next(row for row in matrix["rows"] if row["text"] == line.text)
        assert sum(cell != "" for cell in row["cells"]) == len(line.at_miles)


@pytest.mark.needs_tool("pdftotext")
@pytest.mark.parametrize(
    ("name", "papers"),
    [
        ("storage-and-winter.pdf", ("put_away", "standing", "wake", "winter")),
        ("lent-out.pdf", ("lent",)),
        ("emergency.pdf", ("flat", "fire", "lost_wheel", "stolen")),
        ("sun-visor.pdf", ("visor",)),
    ],
)
def test_every_line_the_cards_give_a_paper_is_read_back_from_it(
    pack: Pack, name: str, papers: tuple[str, ...]
) -> None:
    lines = [line for line in pack.briefing.lines if line.paper in papers]
    assert missing([line.text for line in lines], pack.path(name)) == []


@pytest.mark.needs_tool("pdftotext")
def test_the_emergency_sheet_gives_every_mark_a_thief_took(pack: Pack) -> None:
    said = words_of(pack.path("emergency.pdf"))
    assert pack.unit.vin in said
    for part in pack.unit.parts:
        for place in part.places:
            for mark in (place.marks.serial, place.marks.tin):
                assert mark is None or " ".join(mark.split()) in said


@pytest.mark.needs_tool("pdftotext")
def test_the_jack_is_rated_for_one_side_by_the_plate(pack: Pack) -> None:
    ratings = [axle.si for axle in pack.unit.plate.gawr if axle.si is not None]
    # by hand: all wheels of one side carry half of all axles; one axle lifted at its middle weighs whole
    by_hand = max(*ratings, sum(ratings) / 2)
    assert care_sheets.side_mass_kg(ratings) == pytest.approx(by_hand)
    assert str(show("mass", by_hand, pack.briefing.units, "demand")) in words_of(pack.path("emergency.pdf"))


def test_a_wheel_is_loosened_before_it_is_lifted_and_blocked_before_a_hand_goes_in(pack: Pack) -> None:
    keys = [line.key for line in pack.briefing.lines_of("flat")]
    order = ["wheel_nuts:line_flat", "axles:line_flat", "axles:line_flat_2", "wheel_nuts:line_flat_2"]
    assert [key for key in keys if key in order] == order


# ── the booklet's index ─────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.needs_tool("pdftotext")
def test_the_booklet_finds_every_part_by_system_with_station_and_page(pack: Pack) -> None:
    from sendoff.papers.appendix import index_data

    language = pack.briefing.language
    index = index_data(pack.unit, pack.briefing)
    assert {group["system"] for group in index} == {
        say(f"system.{part.system}", language) for part in pack.unit.parts
    }
    listed = {
        (row["part"], station) for group in index for row in group["rows"] for station in row["stations"]
    }
    assert listed == {
        (part.name, station.number) for station in pack.briefing.stations for part in station.parts
    }
    title = say("paper.index", language)
    pages = [page for page in pages_of(pack.path("booklet.pdf"))[4:] if title in " ".join(page.lines())]
    said = " ".join(word.text for page in pages for word in page.words)
    numbers = {int(found) for found in re.findall(r"p\. (\d+)", said)}
    assert numbers
    assert max(numbers) <= len(pack.booklet.pages)


@pytest.mark.parametrize("name", ["qb-0701", "qb-0401"])
def test_the_height_with_a_load_is_the_worst_of_every_way_to_set_the_decks(name: str) -> None:
    """By hand: the highest deck edge of any way, and the tallest item on it; told only where it tops the trailer."""
    yard = ROOT / "examples" / "quillback"
    catalogue = load(yard / "catalogue")
    unit = as_built(yard / "sheets" / f"{name}.toml", catalogue)
    both = {"en": brief(unit, catalogue, "en", "us")}
    found = all_findings(unit, catalogue, DAY)
    row = drivers_sheet.data_of_drivers_sheet(unit, both, catalogue, found, DAY)["driver"]["rows"][4]
    shown = [f"{big['shown']['number']} {big['shown']['unit']}" for big in row["cells"]["en"]["bigs"]]
    cargo = tomli.loads((yard / "cargo" / f"{unit.cargo}.toml").read_text("utf-8"))
    tallest = max(to_si(float(item["height"].removesuffix(" in")), "in", "length") for item in cargo["item"])
    edges = [(deck.height_m, deck.height_rear_m) for deck in unit.geometry.decks]
    edges += [(deck.height_m, deck.height_rear_m) for way in unit.geometry.ways for deck in way.decks]
    worst = max(max(pair) for pair in edges) + tallest
    told = str(show("length", worst, "us", "demand"))
    assert (told in shown) == (worst > highest_m(unit))
    assert len(shown) == (4 if worst > highest_m(unit) else 3)


@pytest.mark.parametrize(
    ("name", "hand"),
    [("qb-0107", "by hand"), ("qb-0203", None), ("qb-0301", None), ("qb-0801", "hand valve")],
)
def test_only_a_trailer_whose_brakes_answer_to_a_hand_is_told_to_use_it_when_it_sways(
    name: str, hand: str | None
) -> None:
    """Electric brakes have a lever, air brakes a valve; surge brakes and a trailer without brakes have neither."""
    yard = ROOT / "examples" / "quillback"
    catalogue = load(yard / "catalogue")
    unit = as_built(yard / "sheets" / f"{name}.toml", catalogue)
    briefing = brief(unit, catalogue, "en", "us")
    told = road_cards.data_of_visor(unit, briefing, catalogue, figures_of(unit, briefing, ()), DAY)["visor"][
        "sway"
    ]
    assert told.startswith("If it sways")
    assert (hand in told) if hand is not None else ("hand" not in told)


def test_pressures_of_an_air_system_are_not_taken_for_those_of_tires() -> None:
    yard = ROOT / "examples" / "quillback"
    catalogue = load(yard / "catalogue")
    unit = as_built(yard / "sheets" / "qb-0801.toml", catalogue)
    briefing = brief(unit, catalogue, "en", "us")
    slots = {one.key.partition(".")[0] for one in pressures_of(briefing)}
    assert slots <= {"tires", "spare"}
    assert any(one.section == "pressure" and one not in pressures_of(briefing) for one in briefing.numbers)


@pytest.mark.needs_tool("pdftotext")
def test_the_ball_is_named_as_it_is_stamped_whatever_units_the_reader_has(made: MakePack) -> None:
    pack = made("qb-0203", "es", "metric")
    stamp = number(pack.briefing, "coupler.ball_stamp")
    assert stamp is not None
    assert str(stamp.shown) == "2 in"
    for name in ("drivers-sheet.pdf", "lent-out.pdf"):
        assert "2 in" in words_of(pack.path(name))
        assert "51 mm" not in words_of(pack.path(name))


def one_of_each_type() -> dict[str, str]:
    """The last of the demo sheets of each trailer type."""
    found = {}
    for path in sorted((ROOT / "examples/quillback/sheets").glob("qb-*.toml")):
        found[tomli.loads(path.read_text("utf-8"))["type"]] = path.stem
    return found


@pytest.mark.parametrize("name", one_of_each_type().values(), ids=one_of_each_type())
def test_every_kind_of_trailer_keeps_to_its_pages_in_the_longer_language(name: str) -> None:
    """With or without brakes, truck, cargo, serials: whatever the demo yard builds, in Spanish and metric units."""
    catalogue = load(ROOT / "examples" / "quillback" / "catalogue")
    unit = as_built(ROOT / "examples" / "quillback" / "sheets" / f"{name}.toml", catalogue)
    both = {code: brief(unit, catalogue, code, "metric") for code in ("es", "en")}
    found = all_findings(unit, catalogue, DAY)
    figures = figures_of(unit, both["es"], ())
    made = {
        "drivers-sheet.pdf": drivers_sheet.drivers_sheet(unit, both, catalogue, found, DAY),
        "first-trip.pdf": road_cards.first_trip(unit, both["es"], catalogue, figures, DAY),
        "sun-visor.pdf": road_cards.sun_visor(unit, both["es"], catalogue, figures, DAY),
        "emergency.pdf": care_sheets.emergency(unit, both["es"], catalogue, figures, DAY),
        "storage-and-winter.pdf": care_sheets.storage_and_winter(unit, both["es"], catalogue, figures, DAY),
    }
    pages = {paper: len(pypdf.PdfReader(io.BytesIO(data)).pages) for paper, data in made.items()}
    assert pages == {paper: PAGES.get(paper, 1) for paper in made}
