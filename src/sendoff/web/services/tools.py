"""Tools and their calibration dates: a lapsed tool gives no reading."""

from __future__ import annotations

import datetime

from sendoff.phrases import table
from sendoff.web.models import Site, Tool

KINDS = tuple(table("tool", "en"))


def keep(site: Site, code: str, kind: str, good_until: datetime.date | None) -> Tool:
    """Add a tool, or give it a new calibration date."""
    tool, _ = Tool.objects.update_or_create(
        site=site, code=code.upper(), defaults={"kind": kind, "good_until": good_until, "away": False}
    )
    return tool
