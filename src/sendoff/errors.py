"""Every way Sendoff refuses something, as one small family.

SendoffError                what any caller may catch
├── FaultyInput             a file, field or value is wrong; carries one Fault or many (exit code 2)
├── OutOfRange              a calculation was asked outside its range of validity (also a ValueError)
└── CannotWrite             a folder or file could not be written; nothing half-done is left (exit code 2)
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing that is wrong: where it stands, what was found there and how to cure it."""

    file: str
    key: str
    value: str
    problem: str
    cure: str

    def __str__(self) -> str:
        where = ": ".join(part for part in (shown(self.file, 300), self.key) if part)
        found = f" (found {self.value})" if self.value else ""
        return shown(f"{where}: {self.problem}{found}. {self.cure}", 2000)


def shown(value: object, longest: int = 80) -> str:
    """Return `value` as a message may show it: one line, short, without control characters."""
    text = value if isinstance(value, str) else repr(value)
    text = "".join(sign if sign.isprintable() else f"\\u{ord(sign):04x}" for sign in text)
    return text if len(text) <= longest else text[: longest - 1] + "…"


class SendoffError(Exception):
    """Anything Sendoff refuses to do, with a message a person can act on."""


class FaultyInput(SendoffError):
    """Input that cannot be used; `faults` names everything found wrong, not only the first."""

    def __init__(self, faults: Fault | Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = (faults,) if isinstance(faults, Fault) else tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))

    def __reduce__(self) -> tuple[type[FaultyInput], tuple[tuple[Fault, ...]]]:
        """Cross from one process to another with its faults."""
        return type(self), (self.faults,)


THE_SHEET: Final = "build sheet"
"""How a fault calls the file of a unit where only the unit is known, not the file."""


def of_sheet(refused: SendoffError, sheet: str) -> SendoffError:
    """Return what was refused while a build sheet was worked on, with the name of that sheet in its message."""
    if isinstance(refused, FaultyInput):
        return FaultyInput(
            replace(fault, file=sheet) if fault.file == THE_SHEET else fault for fault in refused.faults
        )
    if isinstance(refused, OutOfRange):
        return SendoffError(f"{shown(sheet, 300)}: {refused}")
    return refused


class OutOfRange(SendoffError, ValueError):
    """A value a calculation does not hold for; names the argument, the value and what is allowed."""

    def __init__(self, name: str, value: object, allowed: str) -> None:
        self.name, self.value, self.allowed = name, value, allowed
        super().__init__(f"{name}: {allowed} (found {shown(value)})")

    def __reduce__(self) -> tuple[type[OutOfRange], tuple[str, object, str]]:
        """Cross from one process to another with what it names."""
        return type(self), (self.name, self.value, self.allowed)


class CannotWrite(SendoffError):
    """A folder or file could not be written; what stood there before still stands."""
