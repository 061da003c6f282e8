"""Every text of a record with the key it stands under; the lint, the glyph check and the counts read texts by it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from sendoff.catalogue.fields import Text
from sendoff.catalogue.schema import Caution, CautionText


def texts_of(record: msgspec.Struct, key: str = "") -> Iterator[tuple[str, Mapping[str, str]]]:
    """Yield key and text by language of each text of a record, in the order of its fields."""
    if isinstance(record, Caution):
        for field in CautionText.__struct_fields__:
            yield (
                f"{key}.{field}",
                {language: str(getattr(words, field)) for language, words in record.say.items()},
            )
        return
    for name in record.__struct_fields__:
        yield from _texts_in(getattr(record, name), f"{key}.{name}".lstrip("."))


def _texts_in(value: Any, key: str) -> Iterator[tuple[str, Mapping[str, str]]]:
    if isinstance(value, Text):
        yield key.removesuffix(".say"), value
    elif isinstance(value, msgspec.Struct):
        yield from texts_of(value, key)
    elif isinstance(value, Mapping):
        for name, item in value.items():
            yield from _texts_in(item, f"{key}.{name}")
    elif isinstance(value, tuple):
        for position, item in enumerate(value, start=1):
            yield from _texts_in(item, f"{key}.{getattr(item, 'id', position)}")
