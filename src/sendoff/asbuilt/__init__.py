"""The as-built unit: a build sheet resolved against a catalogue, frozen, with its JSON form (unit.json)."""

from __future__ import annotations
