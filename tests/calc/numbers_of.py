"""Every number of a result, however deep: what the property tests look through for NaN and infinity."""

from __future__ import annotations

import dataclasses
from typing import Any


def numbers(result: Any) -> list[float]:
    """Return every number of a result."""
    if isinstance(result, float | int):
        return [float(result)]
    if isinstance(result, tuple):
        return [number for item in result for number in numbers(item)]
    if dataclasses.is_dataclass(result):
        fields = dataclasses.fields(result)
        return [number for field in fields for number in numbers(getattr(result, field.name))]
    return []
