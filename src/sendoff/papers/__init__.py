"""What is handed over on paper or as a file: booklet, check sheet, single-page briefing, calendar."""

from __future__ import annotations
