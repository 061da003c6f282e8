"""The as-built unit: the one frozen object that everything after it reads, and its JSON form `unit.json`.

Its shape is settled early and kept: findings, briefing, drawings and papers are made from it alone (with the texts
of the part cards), and it is frozen with the delivery record. Lengths are meters in the type's axes: x rearwards from
the coupling point, y to the right looking forward, z up from the ground.
"""

from __future__ import annotations

from typing import Final, Literal

import msgspec

from sendoff.asbuilt.sheet import Collects, Owner, Reader
from sendoff.catalogue.fields import Field, PlainText, Side, State
from sendoff.display import Role

FORMAT: Final = 1
Texts = dict[str, str]
Origin = Literal["plate", "sheet", "card", "weighed", "drawing"]
"""Where a value comes from: the data plate, the build sheet, a part card, a scale ticket, the type's drawing."""
Pairs = tuple[tuple[float, float], ...]


class Part(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Base of the records in `unit.json`."""


class Value(Part, frozen=True, kw_only=True):
    """A value as it was written, the SI number it stands for, and where it comes from."""

    given: str
    quantity: str
    si: float | None = None
    """None for a text such as "ISO VG 46"."""
    words: Texts | None = None
    """A text value that is said differently in each language."""
    role: Role = "fact"
    origin: Origin = "card"
    source: str = ""


class Marks(Part, frozen=True, kw_only=True):
    """What is stamped or molded on the part at one place."""

    serial: str | None = None
    lot: str | None = None
    tin: str | None = None


class Place(Part, frozen=True, kw_only=True):
    """One spot where a part stands on this unit."""

    id: str
    side: Side
    x_m: float
    y_m: float
    z_m: float
    station: str
    marks: Marks = Marks()


class Why(Part, frozen=True, kw_only=True):
    """Why a part is fitted: it is standard, or these options brought it."""

    by: Literal["standard", "option"]
    options: tuple[str, ...] = ()


class Shape(Part, frozen=True, kw_only=True):
    """How the part is drawn: its shape, and that shape's measures in SI."""

    kind: str
    measures: dict[str, float]


class FittedPart(Part, frozen=True, kw_only=True):
    """A part on this unit: which kind and variant, in which slot, where, why, and with which values."""

    slot: str
    card: str
    variant: str
    system: str
    name: Texts
    variant_name: Texts
    why: Why
    places: tuple[Place, ...]
    values: dict[str, Value]
    shape: Shape | None = None

    def si(self, name: str) -> float | None:
        """Return the SI number of a value, or None where the part has no such number."""
        value = self.values.get(name)
        return value.si if value is not None else None


class UnitStation(Part, frozen=True, kw_only=True):
    """A station of this unit that has something fitted; in the order of the lap, so its number is its position."""

    id: str
    name: Texts
    side: Side
    state: State
    x_m: float
    y_m: float
    slots: tuple[str, ...]
    twin_of: str | None = None


class OptionTaken(Part, frozen=True, kw_only=True):
    """An option this unit was ordered with."""

    id: str
    name: Texts


class Plate(Part, frozen=True, kw_only=True):
    """What the yard's plate on this unit says."""

    gvwr: Value
    gawr: tuple[Value, ...]
    empty_mass: Value
    coupling_share_least: Value
    coupling_share_most: Value
    empty_coupling_share: Value | None = None


class Axles(Part, frozen=True, kw_only=True):
    """Where the axles stand."""

    x_m: tuple[float, ...]
    track_m: float
    dual_spacing_m: float | None
    suspension: Literal["sprung", "torsion"]
    braked: tuple[bool, ...]


class Member(Part, frozen=True, kw_only=True):
    """A piece of the frame or body: outlines in meters."""

    id: str
    side: Pairs = ()
    plan: Pairs = ()
    mirror: bool = False
    line: Literal["outline", "edge", "detail", "hidden", "ghost"] = "outline"
    fill: Literal["white", "pale", "mid", "ink", "none"] = "white"
    least_detail: Literal[0, 1, 2] = 0
    layer: int = 0
    slot: str = ""
    """The slot it is a piece of, if any."""


class CylinderEyes(Part, frozen=True, kw_only=True):
    """The two ends of the cylinders that turn a hinge, as x and z in travel position."""

    slot: str
    frame_m: tuple[float, float]
    body_m: tuple[float, float]
    arms_m: tuple[float, float, float] | None = None
    """Lower arm, upper arm and place of the rod on it, of a scissor hoist; none: the cylinder reaches eye to eye."""


class PropEnds(Part, frozen=True, kw_only=True):
    """The two ends of the prop that holds a raised body; the one on the body as in travel position."""

    slot: str
    frame_m: tuple[float, float]
    body_m: tuple[float, float]


class Hinge(Part, frozen=True, kw_only=True):
    """A piece that turns between its travel and its working position."""

    id: str
    name: Texts
    x_m: float
    z_m: float
    members: tuple[str, ...]
    lowered_rad: float
    cylinders: CylinderEyes | None = None
    prop: PropEnds | None = None


class Strip(Part, frozen=True, kw_only=True):
    """A stretch of a deck where no wheel may stand."""

    id: str
    name: Texts
    x0_m: float
    x1_m: float


class Deck(Part, frozen=True, kw_only=True):
    """A level where a load may stand; limits that are None are not told by the type."""

    id: str
    x0_m: float
    x1_m: float
    width_m: float
    height_m: float
    height_rear_m: float
    name: Texts = {}
    total_kg: float | None = None
    wheel_kg: float | None = None
    floor: str = "floor"
    height_limit_m: float | None = None
    lane_inner_m: float | None = None
    lane_outer_m: float | None = None
    over_front_m: float = 0.0
    over_rear_m: float = 0.0
    strips: tuple[Strip, ...] = ()


class Way(Part, frozen=True, kw_only=True):
    """One way to set up the decks."""

    id: str
    name: Texts
    decks: tuple[Deck, ...] = ()
    takes_away: tuple[str, ...] = ()
    headroom_m: dict[str, float] = {}
    over_front_m: dict[str, float] = {}
    after: dict[str, tuple[str, ...]] = {}
    effort: int = 0


class Geometry(Part, frozen=True, kw_only=True):
    """The table every drawing comes from."""

    coupling_height_m: float
    overall_length_m: float
    overall_width_m: float
    front_x_m: float
    axles: Axles
    decks: tuple[Deck, ...]
    members: tuple[Member, ...]
    hinges: tuple[Hinge, ...] = ()
    ways: tuple[Way, ...] = ()
    frame_stiffness_Nm2: float | None = None
    """Bending stiffness of both main rails together, where the type tells their section."""
    axle_stiffness_Npm: float | None = None
    """Of one torsion axle, where the type tells it."""


class Weighing(Part, frozen=True, kw_only=True):
    """One scale ticket."""

    on: str
    what: Literal["whole", "coupling", "axle_group"]
    coupled: bool
    state: Literal["empty", "loaded"]
    mass: Value
    error: Value | None = None
    scale: str | None = None


class Digests(Part, frozen=True, kw_only=True):
    """SHA-256 of the canonical JSON of what the unit was resolved from."""

    catalogue: str
    sheet: str


class AsBuiltUnit(Part, frozen=True, kw_only=True):
    """One unit as it stands in the yard."""

    format: Literal[1] = FORMAT
    unit: str
    public_id: str
    yard: str
    type: str
    type_name: Texts
    coupling: Literal["ball", "gooseneck", "pintle", "fifth_wheel"]
    vin: str
    built: str
    options: tuple[OptionTaken, ...]
    reader: Reader
    owner: Owner
    collects: Collects
    plate: Plate
    geometry: Geometry
    stations: tuple[UnitStation, ...]
    parts: tuple[FittedPart, ...]
    weighings: tuple[Weighing, ...] = ()
    truck: str | None = None
    cargo: str | None = None
    digests: Digests

    def part(self, slot: str) -> FittedPart | None:
        """Return what is fitted in a slot, or None."""
        return next((part for part in self.parts if part.slot == slot), None)

    def station(self, station_id: str) -> UnitStation:
        """Return a station by its id."""
        return next(station for station in self.stations if station.id == station_id)


def to_json(unit: AsBuiltUnit) -> bytes:
    """Return `unit.json`: keys sorted, one line a value, the same bytes for the same unit."""
    plain = msgspec.to_builtins(unit, order="sorted", enc_hook=_plain_field)
    return msgspec.json.format(msgspec.json.encode(plain, order="sorted"), indent=1) + b"\n"


def from_json(data: bytes) -> AsBuiltUnit:
    """Read `unit.json` back."""
    return msgspec.json.decode(data, type=AsBuiltUnit, dec_hook=_read_text)


def _plain_field(value: object) -> object:
    if isinstance(value, PlainText):
        return str(value)
    raise NotImplementedError(type(value))


def _read_text(kind: type, value: object) -> object:
    if issubclass(kind, Field):
        return kind.read(value)
    raise NotImplementedError(kind)
