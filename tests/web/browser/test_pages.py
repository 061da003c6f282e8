"""Every page in a real browser: two sizes, two languages; axe finds nothing, nothing runs over the side."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tests.web.browser.conftest import SIZES, Window, Yard

pytestmark = pytest.mark.needs_tool("chromium")

PAGES = {
    "yard": "/",
    "yard-found": "/?find=tall",
    "put-right-all": "/put-right/",
    "tools": "/tools/",
    "reading": "/reading/",
    "unit": "/unit/{unit}/",
    "pages": "/unit/{unit}/pages/",
    "inspection": "/unit/{unit}/inspection/",
    "station": "/unit/{unit}/station/10/",
    "check-measured": "/unit/{unit}/check/tires/pressure/left_1_out/",
    "check-seen": "/unit/{unit}/check/lamps/running_lit/-/",
    "put-right": "/unit/{unit}/put-right/",
    "put-right-item": "/unit/{unit}/put-right/1/",
    "put-right-new": "/unit/{unit}/put-right/new/?station=3",
    "truck": "/unit/{unit}/truck/",
    "loose": "/unit/{unit}/loose/",
    "gate-pass": "/unit/{unit}/gate-pass/",
    "gate-line": "/unit/{unit}/gate-pass/paid/",
    "owes": "/owes/",
    "briefing": "/unit/{unit}/briefing/",
    "parts": "/parts/",
    "part": "/parts/tire_st_radial/",
    "history": "/unit/{unit}/history/",
    "nothing-there": "/no-such-page/",
}
"""Pages a yard hand sees; whoever adds a page adds its line."""
UNIT = "7KQ4MZ2XPA"


def faults_of(page: Any, *, axe: bool = True) -> list[str]:
    """Return what axe finds, and whether anything runs over the side."""
    from axe_playwright_python.sync_playwright import Axe

    violations = Axe().run(page).response["violations"] if axe else []
    found = [f"{one['id']}: {[node['html'][:120] for node in one['nodes'][:2]]}" for one in violations]
    wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    return [*found, *([f"{wide} px too wide"] if wide > 0 else [])]


OF_OTHERS = {
    "june": (
        "/unit/{unit}/truck/",
        "/unit/{unit}/gate-pass/",
        "/unit/{unit}/gate-pass/right_trailer/",
        "/shift/",
    ),
    "sam": (
        "/tools/",
        "/unit/{unit}/sheet/",
        "/unit/{unit}/briefing/",
        "/take-in/",
        "/unit/{unit}/gate-pass/tag/",
    ),
    "pat": ("/people/", "/unit/{unit}/gate-pass/origin/", "/reading/"),
}
"""Pages that have more on them for other roles."""


@pytest.mark.parametrize("login", sorted(OF_OTHERS))
def test_pages_of_other_roles_are_sound(window: Callable[..., Window], shots: Path, login: str) -> None:
    opened = window(login, "phone" if login == "june" else "desk")
    faults = {}
    for path in OF_OTHERS[login]:
        page = opened.go(path.format(unit=UNIT))
        page.screenshot(path=shots / f"{login}{path.format(unit='').replace('/', '-')}.png", full_page=True)
        if found := faults_of(page):
            faults[path] = found
    assert faults == {}


@pytest.mark.parametrize("size", sorted(SIZES))
@pytest.mark.parametrize("login", ["rosa", "del"])
def test_every_page_is_sound_in_both_languages_and_sizes(
    window: Callable[..., Window], shots: Path, login: str, size: str
) -> None:
    """rosa reads Spanish, del English; axe looks at the phone's pages in Spanish and at the desk's in English."""
    opened = window(login, size)
    language = {"rosa": "es", "del": "en"}[login]
    faults = {}
    for name, path in PAGES.items():
        page = opened.go(path.format(unit=UNIT))
        assert page.locator("html").get_attribute("lang") == language
        page.screenshot(path=shots / f"{name}-{size}-{language}.png", full_page=size == "desk")
        if found := faults_of(page, axe=(login == "rosa") == (size == "phone")):
            faults[name] = found
    if opened.complaints == [
        "Failed to load resource: the server responded with a status of 404 (Not Found)"
    ]:
        opened.complaints.clear()  # the page that is not there
    assert faults == {}


def test_dark_pages_are_sound_too(window: Callable[..., Window], yard: Yard) -> None:
    opened = window("pat", "phone")
    page = opened.go("/reading/")
    page.check("input[name=dark][value=yes]")
    page.click("main button.act")
    faults = {}
    for name in ("yard", "unit", "history", "put-right-all"):
        if found := faults_of(opened.go(PAGES[name].format(unit=UNIT))):
            faults[name] = found
    assert faults == {}


def test_targets_of_a_phone_are_large_enough_for_a_glove(window: Callable[..., Window]) -> None:
    """48 px, a house rule; inline links of running text and what is not shown are left out."""
    opened = window("del", "phone")
    small = {}
    for name, path in PAGES.items():
        if name == "nothing-there":
            continue
        page = opened.go(path.format(unit=UNIT))
        found = page.evaluate(
            """() => [...document.querySelectorAll("main a, main button, main input, main select, .bar a")]
            .filter(e => e.offsetParent !== null && e.type !== "hidden"
                && !e.closest("p:not(.links), svg, label, .for-ears"))
            .map(e => [e.outerHTML.slice(0, 90), e.getBoundingClientRect()])
            .filter(([, r]) => r.height && (r.height < 47.5 || r.width < 47.5))
            .map(([h, r]) => `${h} ${r.width}x${r.height}`)"""
        )
        if found:
            small[name] = found[:3]
    assert small == {}


def test_a_phone_reads_a_pressure_out_of_tolerance_twice_then_opens_an_item(
    window: Callable[..., Window], yard: Yard
) -> None:
    """The course of one check: keypad, out of tolerance asks again, accepted, put right, read again by another."""
    public = _unit(yard, "QB-0111")
    one = window("del", "phone")
    page = one.go(f"/unit/{public}/check/tires/pressure/left_1_out/")
    for key in "60":
        page.click(f".keypad button[data-key='{key}']")
    assert page.input_value("#given") == "60"
    page.click("button[value=value]")
    assert "short by" in page.inner_text("main")
    page.click("a.act")
    for key in "61":
        page.click(f".keypad button[data-key='{key}']")
    page.click("button.act[value=value]")
    page.click("button.other[value=value]")
    page.goto(f"{yard.address}/unit/{public}/put-right/1/")
    assert "safety item" in page.inner_text("main")
    page.fill("#note", "Pumped up")
    page.click("button[value=put_right]")
    assert "by anybody but D. Hartwig" in page.inner_text("main")
    other = window("rosa", "phone")
    page = other.go(f"/unit/{public}/put-right/1/")
    page.click("a.act")
    wanted = page.inner_text(".wanted").split()[0]
    for key in wanted:
        page.click(f".keypad button[data-key='{key}']")
    page.click("button.act[value=value]")
    page.goto(f"{yard.address}/unit/{public}/put-right/1/")
    assert "revisado otra vez" in page.inner_text("main")
    with closing(sqlite3.connect(yard.folder / "books" / "yard.sqlite3")) as books:
        rows = books.execute(
            "select first_given, given, outcome from yard_reading r join yard_unit u on u.id = r.unit_id"
            " where u.public_id = ? order by r.received_at",
            (public,),
        ).fetchall()
    assert rows == [("60 psi", "61 psi", "not_in_order"), ("", f"{wanted} psi", "in_order")]


def test_the_course_goes_by_keyboard_alone(window: Callable[..., Window], yard: Yard) -> None:
    opened = window("del", "desk")
    page = opened.go("/")
    page.keyboard.press("/")
    page.keyboard.type("0203")
    page.keyboard.press("Enter")
    page.wait_for_url("**find=0203")
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "QB-0203":
            break
    page.keyboard.press("Enter")
    page.wait_for_url("**/unit/**")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "main", "the first Tab leads past the head"
    reached = set()
    for _ in range(60):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement.getAttribute('href') || ''"))
    stations = {link for link in reached if "/station/" in link}
    assert len(stations) >= 13, "every station of the drawing can be reached"


def _unit(yard: Yard, number: str) -> str:
    with closing(sqlite3.connect(yard.folder / "books" / "yard.sqlite3")) as books:
        return str(books.execute("select public_id from yard_unit where number = ?", (number,)).fetchone()[0])
