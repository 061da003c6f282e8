"""Setting pages: one typst compiler a process, data in as JSON, PDF out; the same data gives the same bytes."""

from __future__ import annotations

import datetime
import functools
import importlib.util
import json
from pathlib import Path
from typing import Any, Final, cast

from sendoff.errors import SendoffError

TEMPLATES: Final = Path(__file__).parents[1] / "data" / "typst"
ARCHIVE: Final = ["a-2a", "ua-1"]
"""PDF/A-2a for keeping, PDF/UA-1 for reading aloud; the compiler writes to both, no full validator was to be had."""

KEPT_RUNS: Final = 11
"""How many runs of the compiler outlive what it remembers of a page."""


def fonts() -> Path:
    """Return the folder of the one face (PyPI package font-source-sans-pro, SIL Open Font License)."""
    found = importlib.util.find_spec("font_source_sans_pro")
    if found is None or found.origin is None:
        raise SendoffError("The face is missing. Install Sendoff again with its requirements (make setup).")
    return Path(found.origin).parent / "files"


@functools.cache
def _compiler() -> Any:
    import typst

    return typst.Compiler(root=str(TEMPLATES), font_paths=[str(fonts())], ignore_system_fonts=True)


def _forget() -> None:
    """Let the compiler drop what it keeps of the pages just set: it does so only when ten more were set after them.

    Without this a process that makes pack after pack grows to 2.2 GB; with it, it stays near the 0.6 GB that the
    largest booklet takes (measured over 24 packs, typst 0.15).
    """
    for _ in range(KEPT_RUNS):
        _compiler().compile(input=str(TEMPLATES / "blank.typ"), format="svg")


def pdf(template: str, data: dict[str, Any], day: datetime.date) -> bytes:
    """Set a template of data/typst with its data."""
    stamp = int(datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC).timestamp())
    inputs = {"data": json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))}
    return cast("bytes", _set(template, inputs, format="pdf", pdf_standards=ARCHIVE, timestamp=stamp))


def png(template: str, data: dict[str, Any], pixels_per_inch: float = 100.0) -> list[bytes]:
    """Set a template as pictures, one a page, to be looked at."""
    inputs = {"data": json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))}
    pages = _set(template, inputs, format="png", ppi=pixels_per_inch)
    return [pages] if isinstance(pages, bytes) else list(pages)


def _set(template: str, inputs: dict[str, str], **how: Any) -> Any:
    import typst

    try:
        pages = _compiler().compile(input=str(TEMPLATES / template), sys_inputs=inputs, **how)
        _forget()
        return pages
    except (RuntimeError, typst.TypstError) as error:
        raise SendoffError(
            f"{template}: a page could not be set: {error}. Look for an unusual sign in the texts."
        ) from error
