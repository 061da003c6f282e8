"""The templates' environment: every value escaped, a missing one an error, static files under their digest."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path
from typing import Any

from django.contrib.staticfiles import finders
from django.urls import reverse
from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from sendoff.drawings.svg import Drawing


@cache
def static(name: str) -> str:
    """Return the address of a static file, which changes whenever the file does."""
    found = finders.find(name)
    if not isinstance(found, str):
        raise FileNotFoundError(name)
    digest = hashlib.sha256(Path(found).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?v={digest}"


def url(name: str, /, *args: object, **kwargs: object) -> str:
    """Return the address of a page."""
    return reverse(name, args=args or None, kwargs=kwargs or None)


def drawn(drawing: Drawing | str, description: str = "") -> Markup:
    """Return a drawing of ours as an image with its words; the canvas has escaped every value in it."""
    svg, told = (drawing.svg, drawing.description) if isinstance(drawing, Drawing) else (drawing, description)
    from markupsafe import escape

    label = f'<svg role="img" aria-label="{escape(told)}"' if told else '<svg aria-hidden="true"'
    return Markup(svg.replace("<svg", label, 1))  # noqa: S704 (made by drawings/svg.py, which escapes)


def drawn_map(drawing: Drawing, told: str) -> Markup:
    """Return a drawing whose parts are links: a group with a name, not an image, so that the links can be reached."""
    from markupsafe import escape

    label = f'<svg role="group" aria-label="{escape(told)}"'
    return Markup(drawing.svg.replace("<svg", label, 1))  # noqa: S704 (made by drawings/svg.py, which escapes)


def environment(**options: Any) -> Environment:
    """Return the environment of the templates."""
    made = Environment(  # noqa: S701 (Django passes autoescape=True, see config.py)
        **(options | {"undefined": StrictUndefined, "trim_blocks": True, "lstrip_blocks": True})
    )
    made.globals |= {"static": static, "url": url, "drawn": drawn, "drawn_map": drawn_map}
    return made
