"""Sources: every one says what it is and how we know; a faulty file is refused whole, with all its faults."""

from __future__ import annotations

from pathlib import Path

import pytest

from sendoff import sources
from sendoff.errors import FaultyInput


def write(folder: Path, text: str) -> Path:
    path = folder / "sources.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_every_source_says_what_it_is_and_how_we_know() -> None:
    for key, source in sources.load().items():
        assert source.id == key
        assert source.title.strip()
        assert source.evidence in sources.EVIDENCE
        assert str(source).startswith(source.title)


def test_federal_rules_say_their_edition() -> None:
    for key, source in sources.load().items():
        if "cfr" in key:
            assert source.edition, f"{key} has no edition"


def test_what_is_recalled_says_so() -> None:
    recalled = sources.Source("a", "Title", "", "", "memory")
    assert str(recalled) == "Title (from memory)"
    assert str(sources.Source("a", "Title", "Maker", "2015", "read")) == "Title, Maker, 2015"


def test_an_unknown_source_is_refused() -> None:
    with pytest.raises(FaultyInput, match="is not among the sources"):
        sources.get("nowhere")


def test_all_faults_of_a_file_are_named_at_once(tmp_path: Path) -> None:
    path = write(
        tmp_path,
        """
        lone = "text"
        [a]
        title = ""
        publisher = "P"
        edition = 2015
        evidence = "hearsay"
        color = "red"
        [b]
        title = "B"
        """,
    )
    with pytest.raises(FaultyInput) as refused:
        sources.read(path)
    keys = [fault.key for fault in refused.value.faults]
    assert keys == [
        "lone", "a.color", "a.title", "a.edition", "a.evidence", "b.publisher", "b.edition", "b.evidence",
    ]  # fmt: skip
    assert all(fault.file == "sources.toml" and fault.cure for fault in refused.value.faults)


@pytest.mark.parametrize("text", ["[a", "a = \x00", "[a]\ntitle = 'x'\n[a]\n"])
def test_what_is_no_toml_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(FaultyInput, match="not readable TOML"):
        sources.read(write(tmp_path, text))
