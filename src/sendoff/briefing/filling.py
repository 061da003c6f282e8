"""Filling the placeholders of a text with this unit's own values, in the reader's units."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from sendoff import display
from sendoff.asbuilt.unit import AsBuiltUnit, FittedPart, Value
from sendoff.display import Shown
from sendoff.errors import Fault, FaultyInput, shown
from sendoff.units import System

_PLACEHOLDER: Final = re.compile(r"\{([^{}]*)\}")
_NO_BREAK: Final = "\N{NO-BREAK SPACE}"
_GLUED: Final = 14
"""Values up to this long are never parted at a line's end."""


@dataclass(frozen=True, slots=True)
class Filler:
    """Knows one unit and its reader; turns texts by language into the sentence this reader sees."""

    unit: AsBuiltUnit
    telephone: str
    language: str
    units: System
    by_slot: Mapping[str, FittedPart]

    @classmethod
    def of(cls, unit: AsBuiltUnit, telephone: str, language: str, units: System) -> Filler:
        """Return the filler of a unit for one reader."""
        return cls(unit, telephone, language, units, {part.slot: part for part in unit.parts})

    def show(self, value: Value, system: System | None = None) -> Shown:
        """Return a value as this reader sees it."""
        if value.si is None:
            return Shown((value.words or {}).get(self.language, value.given), "")
        return display.show(value.quantity, value.si, system or self.units, value.role, value.given)

    def second(self, value: Value) -> Shown | None:
        """Return the value in the other system of units, or None where it reads the same."""
        if value.si is None:
            return None
        other = self.show(value, "metric" if self.units == "us" else "us")
        return None if other == self.show(value) else other

    def fill(self, text: Mapping[str, str], part: FittedPart | None = None) -> str:
        """Return the text in this reader's language with its placeholders filled.

        Raises
        ------
        FaultyInput
            If a placeholder has no value on this unit: a catalogue that passes the lint has no such text.
        """

        def put_in(found: re.Match[str]) -> str:
            try:
                return self._value_of(found[1], part)
            except KeyError:
                where = f"card {part.card}" if part is not None else "a text of the catalogue"
                cure = "Run sendoff catalogue lint: it names file and line."
                problem = "no such value can be put in on this unit"
                raise FaultyInput(Fault(where, shown(text["en"]), found[0], problem, cure)) from None

        return _PLACEHOLDER.sub(put_in, text[self.language])

    def _value_of(self, name: str, part: FittedPart | None) -> str:
        if name == "unit":
            return self.unit.unit
        if name == "telephone":
            return self.telephone
        if name == "count" and part is not None:
            return str(len(part.places))
        slot, dot, value = name.rpartition(".")
        holder = self.by_slot[slot] if dot else part
        if holder is None:
            raise KeyError(name)
        told = str(self.show(holder.values[value]))
        # a figure keeps its unit beside it; a text of several words must be free to break
        return told.replace(" ", _NO_BREAK) if len(told) <= _GLUED else told
