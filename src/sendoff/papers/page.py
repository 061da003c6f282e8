"""briefing.html: the whole briefing in one file that works from a phone's storage, without network."""

from __future__ import annotations

import base64
import datetime
import hashlib
import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from sendoff.asbuilt.unit import AsBuiltUnit
from sendoff.briefing.model import Briefing
from sendoff.catalogue.load import Catalogue
from sendoff.findings.model import Finding
from sendoff.papers.booklet import data_of_booklet
from sendoff.papers.figures import Figures
from sendoff.phrases import table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from jinja2 import Template

DATA: Final = Path(__file__).parents[1] / "data"
WEIGHTS: Final = (400, 600, 700)
ICONS: Final = {
    "alert": '<svg viewBox="0 0 24 24" aria-hidden="true"><path d="M12 2 23 22H1Z" fill="currentColor"/>'
    '<path d="M12 9v7M12 18v2.2" stroke="{hole}" stroke-width="2.4"/></svg>',
    "notice": '<svg viewBox="0 0 24 24" aria-hidden="true"><circle cx="12" cy="12" r="11" fill="currentColor"/>'
    '<path d="M12 10v9M12 5v3" stroke="#0047BB" stroke-width="2.6"/></svg>',
}
_IDS: Final = re.compile(r'(\sid="|href="#|url\(#)(?=[^"#)]+["#)])')
"""Where an id stands in an SVG: as itself, as the aim of a link, as a fill."""
HOLES: Final = {"danger": "#C8102E", "warning": "#FF8200", "caution": "#FFD100"}


@cache
def _template() -> Template:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(DATA / "web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("briefing.html.jinja")


@cache
def _style() -> str:
    faces = []
    for weight in WEIGHTS:
        data = base64.b64encode((DATA / "fonts" / f"sendoff-sans-{weight}.woff2").read_bytes()).decode()
        source = f"url(data:font/woff2;base64,{data}) format('woff2')"
        faces.append(f"@font-face{{font-family:'Sendoff Sans';font-weight:{weight};src:{source}}}")
    return "\n".join([*faces, (DATA / "web" / "briefing.css").read_text(encoding="utf-8")])


@cache
def _script() -> str:
    return (DATA / "web" / "briefing.js").read_text(encoding="utf-8")


def _digest(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def page(
    unit: AsBuiltUnit,
    briefing: Briefing,
    catalogue: Catalogue,
    figures: Figures,
    found: Sequence[Finding],
    day: datetime.date,
) -> bytes:
    """Return briefing.html; its texts are escaped, its drawings and its own style and script alone are not."""
    from markupsafe import Markup, escape

    language = briefing.language
    data = data_of_booklet(unit, briefing, catalogue, figures, found, day)
    origins = table("origin", language)
    for station in data["stations"]:
        for part in station["numbers"]:
            for number in part["values"]:
                number["from"] = origins[number["origin"]]
        for key in ("locator", "figure"):
            station[key] = _inline(station[key], f"{key}-{station['number']}")
    for block in data["numbers"]:
        for row in block["rows"]:
            row["from"] = origins[row["origin"]]
    for position, row in enumerate(data["findings"]["rows"]):
        row["bar"] = _inline(row["bar"], f"bar-{position}")
    for position, diagram in enumerate(data["diagrams"]):
        diagram["drawing"] = _inline(diagram["drawing"], f"diagram-{position}")

    def icon(signal: str) -> Markup:
        return Markup(ICONS["notice"] if signal == "notice" else ICONS["alert"].format(hole=HOLES[signal]))  # noqa: S704 our own marks

    def lines(text: str) -> Markup:
        return Markup("<br>").join(escape(line) for line in text.split("\n"))

    return (
        _template()
        .render(
            data,
            t=data["phrases"],
            map=_inline(data["drawings"]["map"], "map"),
            style=Markup(_style()),  # noqa: S704 our own file
            script=Markup(_script()),  # noqa: S704 our own file
            style_digest=_digest(_style()),
            script_digest=_digest(_script()),
            icon=icon,
            lines=lines,
        )
        .encode()
    )


def _inline(drawing: dict[str, Any] | None, name: str) -> dict[str, Any] | None:
    """Let the SVG of a drawing, whose every text its builder escaped, stand in the page under ids of its own."""
    from markupsafe import Markup

    if drawing is None:
        return None
    return drawing | {"svg": Markup(own_ids(drawing["svg"], name))}  # noqa: S704 escaped by drawings.svg


def own_ids(svg: str, name: str) -> str:
    """Put a name before every id of an SVG and before every reference to one, so that two never clash in one page.

    >>> own_ids('<path id="a"/><use href="#a" fill="url(#b)"/>', "s1")
    '<path id="s1-a"/><use href="#s1-a" fill="url(#s1-b)"/>'
    """
    return _IDS.sub(lambda found: f"{found[1]}{name}-", svg)
