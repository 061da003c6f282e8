"""Generated pages are what the docstrings, tables and cases say today."""

from __future__ import annotations

import re
from pathlib import Path

from sendoff import sources, tables
from sendoff.calc import calculations
from tools import docs

LINK = re.compile(r"\]\(([^)#]*)(?:#([A-Za-z0-9_-]+))?\)")


def test_the_pages_in_docs_are_up_to_date() -> None:
    assert docs.stale() == [], "run: make docs"


def test_a_page_that_differs_is_named(tmp_path: Path) -> None:
    docs.write(tmp_path)
    assert docs.stale(tmp_path) == []
    (tmp_path / "sources.md").write_text("old", encoding="utf-8")
    (tmp_path / "calculations" / "tires.md").unlink()
    (tmp_path / "calculations" / "gone.md").write_text("", encoding="utf-8")
    assert docs.stale(tmp_path) == [
        "calculations/tires.md is out of date",
        "sources.md is out of date",
        "calculations/gone.md belongs to no family",
    ]
    docs.write(tmp_path)
    assert docs.stale(tmp_path) == []


def test_every_calculation_source_and_table_has_its_place() -> None:
    made = docs.pages()
    for name, calculation in calculations().items():
        assert f"\n## {name}\n" in made[Path("calculations") / f"{calculation.family}.md"]
    for key in sources.load():
        assert f"\n## {key}\n" in made[Path("sources.md")]
    for table_id in tables.ids():
        assert f"\n## {table_id}\n" in made[Path("tables.md")]


def test_every_link_leads_somewhere() -> None:
    made = docs.pages()
    for page, text in made.items():
        for target, anchor in LINK.findall(text):
            there = (docs.DOCS / page.parent / target).resolve().relative_to(docs.DOCS) if target else page
            assert there in made, f"{page}: {target}"
            assert not anchor or f"\n## {anchor}\n" in made[there], f"{page}: {target}#{anchor}"


def test_tables_have_as_many_cells_as_their_head() -> None:
    for page, text in docs.pages().items():
        width = 0
        for line in text.splitlines():
            cells = len(re.findall(r"(?<!\\)\|", line)) if line.startswith("|") else 0
            assert not cells or not width or cells == width, f"{page}: {line}"
            width = cells


def test_only_the_check_flag_is_understood() -> None:
    assert docs.main(["--all"]) == 2


def test_no_clause_stands_without_any_check() -> None:
    page = docs.pages()[Path("coverage.md")]
    assert "nothing yet" not in page
    rows = [line for line in page.splitlines() if line.startswith("| [")]
    assert len(rows) > 400
    for line in rows:
        assert any(
            how in line
            for how in ("| read |", "| from memory |", "| derived |", "| common practice, no source |")
        )
