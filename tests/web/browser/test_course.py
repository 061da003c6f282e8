"""The whole course of a unit in a real browser: from an inspected trailer to the gate pass and out of the yard."""

from __future__ import annotations

import io
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from tests.web.browser.conftest import Window, Yard

pytestmark = pytest.mark.needs_tool("chromium")
UNIT, VIN = "R9D4XJ6YBM", "1X9UT1222TYKB4203"
BASE = f"/unit/{UNIT}"
DONE_BY_OFFICE = ("recall", "paid", "origin", "tag", "insurance", "warranty", "papers", "tires")


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "plate.jpg"
    out = io.BytesIO()
    Image.new("RGB", (320, 200), "gray").save(out, "JPEG")
    path.write_bytes(out.getvalue())
    return path


def fill_line(window: Window, line: str, picture: Path) -> None:
    """Fill in one line of the gate pass as somebody honest does."""
    page = window.go(f"{BASE}/gate-pass/{line}/")
    for box in page.locator("main input[type=checkbox]").all():
        box.check()
    for field in page.locator("main form input[type=text]:visible").all():
        name = str(field.get_attribute("name"))
        field.fill(VIN if name.startswith("vin_") else VIN[-6:] if name == "last_six" else "something")
    for field in page.locator("main input[type=date]").all():
        field.fill("2099-01-01" if field.get_attribute("name") == "runs_out" else "2026-01-02")
    for radio in page.locator("main input[type=radio][value=empty]").all():
        radio.check()
    if page.locator("main input[type=file]").count():
        page.set_input_files("main input[type=file]", picture)
    page.click("main .shelf button[value=yes]")


def holds(page: Any) -> list[str]:
    return [str(line).strip() for line in page.locator(".gate-line .title").all_inner_texts()]


def test_a_unit_goes_from_inspected_to_gone(
    window: Callable[..., Window], yard: Yard, picture: Path, shots: Path
) -> None:
    hand, office, june = window("del", "phone"), window("pat", "desk"), window("june", "phone")
    page = june.go(f"{BASE}/gate-pass/")
    assert "It may not leave yet." in page.inner_text("main")
    rows = hand.go(f"{BASE}/loose/").locator("form.count").count()
    for number in range(rows):
        hand.page.locator("form.count button").nth(number).click()
    assert f"{rows} of {rows} counted whole" in hand.page.inner_text("h1")
    for line in DONE_BY_OFFICE:
        fill_line(office, line, picture)
    for line in ("load", "limits_told", "right_trailer", "driver_sheet"):
        fill_line(june, line, picture)
    assert holds(june.go(f"{BASE}/gate-pass/")) == ["Truck check"], june.page.inner_text("main")
    page = june.go(f"{BASE}/truck/")
    strong = {
        "plate": "DEMO 203", "gvwr": "10000", "gcwr": "25300", "gawr_front": "5200", "gawr_rear": "6350",
        "weighed_front": "4190", "weighed_rear": "2760", "wheelbase": "160", "coupling_behind_rear_axle": "50",
        "coupling_rating": "12000", "coupling_vertical_rating": "1200", "ball": "2",
    }  # fmt: skip
    for name, value in strong.items():
        page.fill(f"#{name}", value)
    page.select_option("#plug", "flat_4")
    page.check("input[name=at_gate]")
    page.click("main button.act")
    assert "None of the limits checked is passed" in page.inner_text("main")
    page = june.go(f"{BASE}/gate-pass/")
    assert holds(page) == []
    page.fill("#shift_code", "2580")
    page.click("main button[value=sign]")
    assert "It may leave." in page.inner_text("main")
    page.screenshot(path=shots / "gate-pass-granted-phone-en.png")
    office.go(f"{BASE}/gate-pass/").screenshot(path=shots / "gate-pass-granted-desk-es.png", full_page=True)
    page.click("main button[value=leave]")
    assert "It has left" in page.inner_text("main")
    assert "50" in office.go("/owes/").inner_text("main")
    with closing(sqlite3.connect(yard.folder / "books" / "yard.sqlite3")) as books:
        found = books.execute("select waits_for, turn from yard_unit where public_id = ?", (UNIT,)).fetchone()
    assert found == ("gone", "nobody")
