"""The small fields that the files of a yard are made of: texts in every language, values with units.

Each field refuses what it cannot use with one plain sentence and its cure; `loading.py` adds file and key.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Annotated, Any, ClassVar, Final, Literal, Self

import msgspec
from msgspec import Meta

from sendoff import glyphs, units
from sendoff.catalogue import sensible
from sendoff.catalogue.outlines import outline

LANGUAGES: Final = ("en", "es")
"""Languages every text must have; a third one is one more line beside them and `lint` counts its gaps."""

State = Literal[
    "bare",
    "coupled",
    "plugged_in",
    "powered",
    "raised",
    "wheels_off_ground",
    "rolling",
    "loaded",
    "first_miles",
]
STATES: Final[tuple[State, ...]] = (
    "bare", "coupled", "plugged_in", "powered", "raised", "wheels_off_ground", "rolling", "loaded", "first_miles",
)  # fmt: skip
"""What the trailer is in while something is checked or taught, in the order a yard goes through them."""

SignalWord = Literal["danger", "warning", "caution", "notice"]
SIGNAL_WORDS: Final[tuple[SignalWord, ...]] = ("danger", "warning", "caution", "notice")
"""ANSI Z535.6 signal words, gravest first."""

Side = Literal["left", "right", "center", "front", "rear"]
QuantityKind = Literal[
    "text", "count", "mass", "force", "length", "area", "volume", "flow", "pressure", "torque", "energy", "power",
    "duration", "speed", "voltage", "current", "resistance", "resistance_per_length", "charge", "density",
    "area_load", "viscosity",
    "temperature", "angle", "ratio",
]  # fmt: skip
Section = Literal["pressure", "weight", "torque", "electric", "size", "fluid"]
"""Block of the numbers sheet; pressure and torque are never neighbors there."""

System = Literal[
    "coupling", "running_gear", "brakes", "electrical", "lighting", "hydraulics", "deck", "tie_down", "winch", "jacks",
    "storage", "papers",
]  # fmt: skip

PaperName = Literal[
    "driver", "visor", "sway", "put_away", "standing", "wake", "winter", "lent", "flat", "fire", "lost_wheel", "stolen",
]  # fmt: skip
"""One-page papers, or their chapters, that a part card may give lines to: the driver's sheet, the sun-visor sheet (a
value to write down; what to do when it sways), storage (putting away, standing, waking it again), winter, the card of
who borrows it, the emergencies."""

Id = Annotated[str, Meta(pattern="^[a-z][a-z0-9_]{0,47}$")]
Reference = Annotated[str, Meta(pattern="^[a-z][a-z0-9_]*/[a-z0-9][a-z0-9_]*$")]
"""`card/variant`."""
Condition = Annotated[str, Meta(pattern="^[a-z][a-z0-9_]*(=[a-z][a-z0-9_]*)?$")]
"""`slot` (anything fitted there) or `slot=card` (that kind fitted there)."""
ActReference = Annotated[str, Meta(pattern=r"^([a-z][a-z0-9_]*:)?[a-z][a-z0-9_]*\??$")]
"""`act` of this card, or `slot:act` of what is fitted there; a `?` at the end: only if that slot is filled."""
ValueReference = Annotated[str, Meta(pattern=r"^([a-z][a-z0-9_]*\.)?[a-z][a-z0-9_]*$")]
"""`value` of the fitted variant, or `slot.value` of what is fitted there."""
RawValue = str | int | dict[str, str]
"""A value as written: "110 psi", a whole count, "ISO VG 46", or words in each language; a bare decimal is refused."""

_BIDI: Final = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_LANGUAGE: Final = re.compile(r"^[a-z]{2}$")
LONGEST_TEXT: Final = 600
CURE_MARK: Final = "\x1f"
"""Parts a problem from its cure inside one message on its way to `loading.py`."""


def refusal(problem: str, cure: str) -> ValueError:
    """Return the error that `loading.py` turns into a fault with `problem` and `cure`."""
    return ValueError(f"{problem}{CURE_MARK}{cure}")


def plain_text(text: object) -> str:
    """Let a text pass that a page can show: no control or direction marks, not empty, not endless."""
    if not isinstance(text, str):
        raise refusal("a text is expected here", 'Write it between quotation marks: "…".')
    if not text.strip():
        raise refusal("the text is empty", "Write the text, or leave the whole entry out.")
    if len(text) > LONGEST_TEXT:
        raise refusal(
            f"the text has {len(text)} characters", f"Keep it under {LONGEST_TEXT}; make two entries of it."
        )
    if not text.isprintable():
        _refuse_unprintable(text)
    whole = text if text.isascii() else unicodedata.normalize("NFC", text)
    lacking = glyphs.missing_sign(whole)
    if lacking is not None:
        problem = f"the face of the papers has no sign '{lacking}' (U+{ord(lacking):04X})"
        raise refusal(problem, "Write it with other signs.")
    return whole


def _refuse_unprintable(text: str) -> None:
    for sign in text:
        if sign in _BIDI:
            raise refusal(
                f"the text holds a direction mark (U+{ord(sign):04X})", "Delete it and type the words again."
            )
        if unicodedata.category(sign) in {"Cc", "Cf", "Co", "Cs", "Cn", "Zl", "Zp"}:
            raise refusal(f"the text holds a sign no page can show (U+{ord(sign):04X})", "Delete it.")


class Field:
    """Something read from one value of a file by its own rule."""

    JSON_SCHEMA: dict[str, Any]

    @classmethod
    def read(cls, value: object) -> Self:
        """Read the value or raise a `refusal`."""
        raise NotImplementedError


class PlainText(str, Field):
    """One text a page can show."""

    __slots__ = ()
    JSON_SCHEMA = {"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT}

    @classmethod
    def read(cls, value: object) -> Self:
        """Read a text."""
        return cls(plain_text(value))


class WebAddress(PlainText):
    """Where the public pages of a yard are: what a code on a label begins with."""

    __slots__ = ()
    _SHAPE: ClassVar = re.compile(r"https?://[A-Za-z0-9.-]+(:[0-9]{1,5})?(/[A-Za-z0-9._~-]+)*/?")
    JSON_SCHEMA = {"type": "string", "pattern": "^https?://", "maxLength": 120}

    @classmethod
    def read(cls, value: object) -> Self:
        """Read an address without anything after its path."""
        text = plain_text(value)
        if len(text) > 120 or not cls._SHAPE.fullmatch(text):
            raise refusal(
                "that is no address a phone can open",
                'Write it as "https://your.yard.example", or leave the line out.',
            )
        return cls(text)


class Text(dict[str, str], Field):
    """A text in every language: `name.en = "Winch"`, `name.es = "Malacate"`."""

    JSON_SCHEMA = {
        "type": "object",
        "required": list(LANGUAGES),
        "patternProperties": {"^[a-z]{2}$": {"type": "string", "minLength": 1}},
        "additionalProperties": False,
    }

    @classmethod
    def read(cls, value: object) -> Self:
        """Read a table of texts by language."""
        if not isinstance(value, dict):
            raise refusal(
                "a text needs its languages", 'Write one line a language: name.en = "…", name.es = "…".'
            )
        for language in LANGUAGES:
            if language not in value:
                raise refusal(
                    f"the text in '{language}' is missing", f'Add a line that ends in .{language} = "…".'
                )
        for language in value:
            if not _LANGUAGE.match(str(language)):
                raise refusal(f"'{language}' is not a language", "Use a two-letter code such as en or es.")
        return cls({language: plain_text(text) for language, text in value.items()})


class Measure(Field):
    """A value with its unit, of one kind of quantity; subclasses name the kind."""

    __slots__ = ("given", "si")
    KIND = ""
    BOUNDS: ClassVar[tuple[float, float] | None] = None
    """Least and most of it in SI units; none: those of its kind (`sensible.py`)."""
    ABOVE_NOTHING: ClassVar[bool] = False

    def __init__(self, given: str, si: float) -> None:
        self.given, self.si = given, si

    @property
    def kind(self) -> str:
        """Kind of quantity."""
        return self.KIND

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Measure) and (self.KIND, self.given) == (other.KIND, other.given)

    def __hash__(self) -> int:
        return hash((self.KIND, self.given))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.given!r})"

    @classmethod
    def read(cls, value: object) -> Self:
        """Read "110 psi"."""
        if not isinstance(value, str):
            raise refusal(
                "a value needs its unit", f'Write it as text, such as "12 {units.units_of(cls.KIND)[0]}".'
            )
        try:
            found = units.parse(value, cls.KIND)
        except units.UnitError as error:
            raise refusal(error.problem, error.cure) from None
        least, most = cls.BOUNDS or sensible.BOUNDS[cls.KIND]
        absurd = sensible.problem(cls.KIND, found.si, least, most, above_nothing=cls.ABOVE_NOTHING)
        if absurd is not None:
            raise refusal(absurd, sensible.CURE)
        return cls(found.given, found.si)


class Length(Measure):
    """A length with its unit: of a trailer, a truck or a load, so none is longer than a road train."""

    __slots__ = ()
    KIND = "length"
    BOUNDS = (-60.0, 60.0)
    JSON_SCHEMA = {"type": "string", "examples": ["9 ft 6 in", "2.4 m"]}


class Size(Length):
    """How long, wide or high something is: more than nothing."""

    __slots__ = ()
    BOUNDS = (0.0, 60.0)
    ABOVE_NOTHING = True


class Mass(Measure):
    """A mass with its unit."""

    __slots__ = ()
    KIND = "mass"
    JSON_SCHEMA = {"type": "string", "examples": ["7,000 lb", "3175 kg"]}


class Weight(Mass):
    """What something weighs or is rated for: more than nothing."""

    __slots__ = ()
    ABOVE_NOTHING = True


class Ratio(Measure):
    """A share, such as "15 %"."""

    __slots__ = ()
    KIND = "ratio"
    BOUNDS = (0.0, 1.0)
    JSON_SCHEMA = {"type": "string", "examples": ["15 %"]}


class Volume(Measure):
    """A volume with its unit."""

    __slots__ = ()
    KIND = "volume"
    ABOVE_NOTHING = True
    JSON_SCHEMA = {"type": "string", "examples": ["52 gal", "200 L"]}


class Duration(Measure):
    """A time, such as "7 d"."""

    __slots__ = ()
    KIND = "duration"
    ABOVE_NOTHING = True
    JSON_SCHEMA = {"type": "string", "examples": ["7 d", "48 h"]}


class Angle(Measure):
    """An angle, such as "11 deg"."""

    __slots__ = ()
    KIND = "angle"
    JSON_SCHEMA = {"type": "string", "examples": ["11 deg"]}


class Stiffness(Measure):
    """How much force a spring takes for each length it gives way, such as "1,800 lbf/in"."""

    __slots__ = ()
    KIND = "stiffness"
    BOUNDS = (0.0, 1e9)
    ABOVE_NOTHING = True
    JSON_SCHEMA = {"type": "string", "examples": ["1,800 lbf/in", "315 N/mm"]}


class Outline(str, Field):
    """Points of an outline: a length unit and pairs, `"in: 0,30 96,30 96,34"`."""

    __slots__ = ()
    JSON_SCHEMA = {"type": "string", "examples": ["in: 0,30 96,30 96,34 0,34"]}

    @classmethod
    def read(cls, value: object) -> Self:
        """Read the text and see that its points can be told."""
        try:
            outline(value if isinstance(value, str) else "")
        except units.UnitError as error:
            raise refusal(error.problem, error.cure) from None
        return cls(value)


class Record(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A frozen record that refuses keys it does not know."""


class Entry(Record, frozen=True, kw_only=True):
    """An entry of a card that counts only on some units."""

    id: Id
    if_fitted: tuple[Condition, ...] = ()
    """All of these must be fitted."""
    unless_fitted: tuple[Condition, ...] = ()
    """None of these may be fitted."""
