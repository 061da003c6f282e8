"""briefing.html: one file, whole in itself, harmless whatever the texts hold, good to read on a phone and at a desk."""

from __future__ import annotations

import importlib.util
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from sendoff import glyphs
from sendoff.asbuilt.resolve import as_built
from sendoff.catalogue.load import load
from sendoff.catalogue.walk_texts import texts_of
from sendoff.papers import page
from sendoff.papers.contents import files_of_pack
from sendoff.phrases import load as phrases
from tests.conftest import STRICT, find_tool
from tests.papers.conftest import DAY, MakePack, Pack
from tests.yards import SmallYard

SIZES = {"phone": (360, 740), "desk": (1280, 900)}
NASTY = '<script>alert(1)</script> & \\"quoted\\" <img src=x onerror=alert(2)>'


class Reader(HTMLParser):
    """Collects what a test asks about."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        for name, value in attrs:
            self.attributes.append((name, value or ""))
            if name == "id":
                self.ids.append(value or "")
            if name == "href":
                self.links.append(value or "")


# ── the file ────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_no_id_stands_twice_and_every_link_leads_somewhere_in_the_file(pack: Pack) -> None:
    read = Reader(pack.html)
    assert len(read.ids) == len(set(read.ids))
    assert read.links
    for link in read.links:
        assert link.startswith("#")
        assert link[1:] in read.ids


def test_the_file_asks_nothing_of_any_network(pack: Pack) -> None:
    read = Reader(pack.html)
    assert not {"link", "iframe", "object", "img"} & set(read.tags)
    assert not [value for name, value in read.attributes if name in {"src", "srcset", "action", "poster"}]
    without_svg_names = pack.html.replace("http://www.w3.org/2000/svg", "")
    assert not re.search(r"https?://|//[a-z]+\.", without_svg_names)
    policy = next(value for name, value in read.attributes if value.startswith("default-src"))
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy


def test_nothing_in_the_file_is_styled_or_driven_by_attributes(pack: Pack) -> None:
    names = {name for name, _ in Reader(pack.html).attributes}
    assert "style" not in names
    assert not [name for name in names if name.startswith("on")]


@pytest.mark.parametrize("weight", page.WEIGHTS)
def test_each_weight_of_the_face_in_the_file_is_under_30_kb(weight: int) -> None:
    assert (page.DATA / "fonts" / f"sendoff-sans-{weight}.woff2").stat().st_size < 30_000


def test_markup_in_the_owners_name_and_in_card_texts_stays_text(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    yard.change("sheets/t-1.toml", 'name = "A. Person"', f'name = "{NASTY}"')
    yard.change("yard.toml", 'name = "My Trailer Yard"', f'name = "{NASTY}"')
    yard.change("catalogue/cards/deck/my_floor.toml", '{ en = "Plank floor"', f'{{ en = "{NASTY}"')
    yard.change(
        "catalogue/cards/running_gear/my_tire.toml", "Fill to {cold_pressure}", f"{NASTY} {{cold_pressure}}"
    )
    catalogue = load(yard.catalogue)
    files = files_of_pack(as_built(yard.sheet, catalogue), catalogue, "en", "us", DAY)
    html = files["briefing.html"].decode()
    assert html.count("<script>") == 1  # its own
    assert "<img" not in html
    assert "alert(1)" in html  # said, as text
    assert "&lt;script&gt;alert(1)&lt;/script&gt; &amp;" in html
    for name, data in files.items():
        if name.endswith(".svg"):
            assert b"<script" not in data
            assert b"<img" not in data


def test_every_sign_of_phrases_and_demo_texts_is_in_the_face_of_the_screen(made: MakePack) -> None:
    from fontTools.ttLib import TTFont

    catalogue = made("qb-0107", "en").catalogue
    texts = [text for said in phrases().values() for text in said.values()]
    for card in catalogue.cards.values():
        texts += [text for _, said in texts_of(card) for text in said.values()]
    wanted = set("".join(texts)) - {"\n"}
    for weight in page.WEIGHTS:
        face = TTFont(page.DATA / "fonts" / f"sendoff-sans-{weight}.woff2")
        missing = {sign for sign in wanted if ord(sign) not in face.getBestCmap()}
        assert not missing, (weight, missing)


def test_the_list_of_signs_is_that_of_the_face_itself() -> None:
    from fontTools.ttLib import TTFont

    from sendoff.papers.typeset import fonts

    faces = [TTFont(fonts() / f"SourceSansPro-{name}.ttf") for name in ("Regular", "Semibold", "Bold")]
    common = set.intersection(*(set(face.getBestCmap()) for face in faces))
    assert glyphs.covered() == {chr(code) for code in common}


def test_every_formula_symbol_and_source_can_be_set_in_the_face() -> None:
    from sendoff import sources
    from sendoff.calc.contract import REGISTRY
    from sendoff.papers.appendix import settable

    texts = [source.title for source in sources.load().values()]
    for calculation in REGISTRY.values():
        texts += [settable(text) for text in (calculation.formula, *calculation.symbols.values())]
    assert len(texts) > 500
    assert [text for text in texts if glyphs.missing_sign(text) is not None] == []


def test_all_pages_are_there_without_the_script(pack: Pack) -> None:
    read = Reader(pack.html)
    wanted = {f"station-{station.number}" for station in pack.briefing.stations}
    wanted |= {"map", "numbers", "sentences", "show-me", "upkeep", "limits", "authority"}
    assert wanted <= set(read.ids)
    assert ("hidden", "") in read.attributes  # the shelf, which only the script fills


# ── in a browser ────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    program = find_tool("chromium")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-gpu"])
        yield opened
        opened.close()


@pytest.fixture(params=SIZES)
def opened(
    request: pytest.FixtureRequest, browser: Browser, made: MakePack
) -> Iterator[tuple[Page, list[str]]]:
    """The fullest unit's page at one size, with what the console said."""
    width, height = SIZES[request.param]
    context = browser.new_context(viewport={"width": width, "height": height}, reduced_motion="reduce")
    window = context.new_page()
    said: list[str] = []
    window.on("console", lambda message: said.append(message.text))
    window.on("pageerror", lambda error: said.append(str(error)))
    window.on("requestfailed", lambda failed: said.append(failed.url))
    window.goto(made("qb-0107", "es").path("briefing.html").as_uri())
    yield window, said
    context.close()


def pages_in(window: Page) -> list[str]:
    return list(window.evaluate("[...document.querySelectorAll('.page')].map(page => page.id)"))


def test_every_page_opens_without_a_word_on_the_console(opened: tuple[Page, list[str]]) -> None:
    window, said = opened
    for name in pages_in(window):
        window.goto(window.url.partition("#")[0] + f"#{name}")
        assert window.locator(f"#{name}").is_visible()
        assert window.locator(".page:visible").count() == 1
    assert said == []


def test_no_page_is_wider_than_the_screen(opened: tuple[Page, list[str]]) -> None:
    window, _ = opened
    for name in pages_in(window):
        window.goto(window.url.partition("#")[0] + f"#{name}")
        wide, screen = window.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide <= screen, name


def test_every_target_is_at_least_48_px_each_way(opened: tuple[Page, list[str]]) -> None:
    window, _ = opened
    for name in pages_in(window):
        window.goto(window.url.partition("#")[0] + f"#{name}")
        window.evaluate("document.querySelectorAll('.shown details').forEach(one => one.open = true)")
        small = window.evaluate(
            """() => [...document.querySelectorAll('a, button, summary')]
                .filter(one => one.checkVisibility() && !one.matches('.skip'))
                .map(one => [one.textContent.trim(), one.getBoundingClientRect()])
                .filter(([, box]) => box.width < 48 || box.height < 48)
                .map(([text, box]) => `${text} ${box.width} x ${box.height}`)"""
        )
        # a whole sentence that is a link (the twin's) is as high as its lines
        assert [one for one in small if "Igual que la estación" not in one] == [], name


def test_the_walk_can_be_walked_by_keys_alone(opened: tuple[Page, list[str]]) -> None:
    window, _ = opened
    window.evaluate("location.hash = ''")
    for key, number in (("ArrowRight", 1), ("ArrowRight", 2), ("ArrowLeft", 1)):
        window.keyboard.press(key)
        window.wait_for_url(re.compile(f"#station-{number}$"))
        # looked for, not asked by a script of the test's own: the page's policy refuses to run one
        window.locator(f"#title-{number}:focus").wait_for()
    reached = set()
    for _ in range(60):
        window.keyboard.press("Tab")
        reached.add(window.evaluate("document.activeElement.id || document.activeElement.className"))
    assert {"next", "before", "theme"} <= reached


def test_dark_is_the_readers_choice_and_keeps_the_signal_colors(opened: tuple[Page, list[str]]) -> None:
    window, _ = opened
    window.goto(window.url.partition("#")[0] + "#station-10")
    look = "one => getComputedStyle(one).backgroundColor"
    paper, danger = (
        window.locator("body").evaluate(look),
        window.locator("#station-10 .danger .word").first.evaluate(look),
    )
    window.locator("#theme").click()
    assert window.locator("body").evaluate(look) != paper
    assert window.locator("#station-10 .danger .word").first.evaluate(look) == danger
    window.locator("#theme").click()
    assert window.locator("body").evaluate(look) == paper


def test_without_javascript_all_pages_stand_below_one_another(browser: Browser, made: MakePack) -> None:
    pack = made("qb-0207", "en")
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    window = context.new_page()
    window.goto(pack.path("briefing.html").as_uri())
    assert window.locator(".page:visible").count() == len(pack.briefing.stations) + 8
    assert not window.locator("#shelf").is_visible()
    context.close()


def test_on_paper_every_page_and_every_fault_is_told(
    browser: Browser, made: MakePack, tmp_path: Path
) -> None:
    import pypdf

    pack = made("qb-0207", "en")
    context = browser.new_context()
    window = context.new_page()
    window.goto(pack.path("briefing.html").as_uri())
    path = tmp_path / "printed.pdf"
    window.pdf(path=str(path), format="Letter")
    context.close()
    printed = " ".join(" ".join(sheet.extract_text() for sheet in pypdf.PdfReader(path).pages).split())
    for station in pack.briefing.stations:
        for trouble in station.troubles:
            assert re.sub(r"\s+", " ", trouble.look) in printed


def test_right_and_wrong_answers_tell_why(opened: tuple[Page, list[str]], made: MakePack) -> None:
    window, _ = opened
    question = made("qb-0107", "es").briefing.questions[0]
    window.goto(window.url.partition("#")[0] + "#show-me")
    answers = window.locator(".question").first.locator("details")
    assert answers.count() == len(question.answers)
    for position in range(answers.count()):
        answers.nth(position).locator("summary").click()
        told = answers.nth(position).locator("p")
        assert told.is_visible()
        assert ("right" in (told.get_attribute("class") or "")) == (position == question.right)
        if position != question.right:
            assert question.mistakes[position] in told.inner_text()


def axe() -> str:
    """The source of axe-core, from the package axe-playwright-python (dev lock), or end the test as not run."""
    found = importlib.util.find_spec("axe_playwright_python")
    if found is None or found.origin is None:
        if STRICT:
            pytest.fail("axe-playwright-python is absent, and absence is a failure here.", pytrace=False)
        pytest.skip("not run: 'axe-core' is absent")
    return (Path(found.origin).parent / "axe.min.js").read_text(encoding="utf-8")


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_axe_finds_nothing_wrong(browser: Browser, made: MakePack, size: str, *, dark: bool) -> None:
    source = axe()
    width, height = SIZES[size]
    context = browser.new_context(viewport={"width": width, "height": height}, bypass_csp=True)
    window = context.new_page()
    window.goto(made("qb-0107", "en").path("briefing.html").as_uri())
    window.evaluate(source)
    if dark:
        window.locator("#theme").click()
    found: list[Any] = []
    for name in (
        "map",
        "station-1",
        "station-10",
        "station-17",
        "numbers",
        "sentences",
        "show-me",
        "diagrams",
        "upkeep",
        "limits",
        "authority",
    ):
        window.evaluate(f"location.hash = '{name}'")
        window.wait_for_selector(f"#{name}.shown")
        result = window.evaluate("axe.run(document, {resultTypes: ['violations']})")
        found += [
            (name, one["id"], one["nodes"][0]["html"][:120], one["nodes"][0].get("failureSummary", "")[:200])
            for one in result["violations"]
        ]
    context.close()
    assert found == []
