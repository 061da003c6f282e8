"""Published tables: loads them from the package data and refuses a row without unit or source."""

from __future__ import annotations
