"""The shapes of a yard's files: part cards, trailer types, the yard itself, trucks and cargo.

These records are the one truth: the loader reads by them, the lint judges by them, and the JSON Schemas that an
editor uses are generated from them.
"""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, field

from sendoff.catalogue.decks import Deck, Rails, Way
from sendoff.catalogue.fields import (
    ActReference,
    Angle,
    Condition,
    Duration,
    Entry,
    Id,
    Length,
    Outline,
    PaperName,
    PlainText,
    QuantityKind,
    Ratio,
    RawValue,
    Record,
    Reference,
    Section,
    Side,
    SignalWord,
    Size,
    State,
    Stiffness,
    System,
    Text,
    ValueReference,
    WebAddress,
    Weight,
)
from sendoff.catalogue.moving import CylinderEyes, PropEnds
from sendoff.display import Role

Count = Annotated[int, Meta(ge=1, le=1000)]
Version = Literal[1]


# ── part cards ──────────────────────────────────────────────────────────────────────────────────────────────────────


class ValueMeaning(Record, frozen=True, kw_only=True):
    """What one value of a kind of part means: its quantity, its role, what people call it."""

    say: Text
    quantity: QuantityKind
    role: Role = "fact"
    sheet: Section | None = None
    """Block of the numbers sheet it belongs to; none keeps it off that sheet."""
    optional: bool = False
    """A variant may leave it out where its maker does not tell it: findings then say what to ask, and no text of
    the card may lean on it."""


class Variant(Record, frozen=True, kw_only=True):
    """One make-up of a kind of part, with all its values."""

    name: Text
    values: dict[Id, RawValue] = {}
    sources: dict[Id, str] = {}
    """Source of a value that does not come from the card's own."""
    note: Text | None = None
    """Something this variant's reader must know, such as why the sidewall says more than the plate."""


class Step(Entry, frozen=True, kw_only=True):
    """One thing to do, in the order taught."""

    say: Text
    state: State | None = None
    """The state it is done in; none: the state of its station."""
    hands: Literal[1, 2] = 1
    needs_before: tuple[ActReference, ...] = ()


class CautionText(Record, frozen=True, kw_only=True):
    """A caution in one language: what the hazard is, what it does, what to do so that it does not."""

    hazard: PlainText
    consequence: PlainText
    avoid: PlainText


class Caution(Entry, frozen=True, kw_only=True):
    """A safety message with its signal word (ANSI Z535.6)."""

    signal: SignalWord
    say: dict[Annotated[str, Meta(pattern="^[a-z]{2}$")], CautionText]


class Check(Entry, frozen=True, kw_only=True):
    """What a person looks at, feels or measures."""

    say: Text
    how: Literal["seen", "felt", "measured"]
    state: State | None = None
    hands: Literal[1, 2] = 1
    each: Literal["unit", "place"] = "unit"
    quantity: QuantityKind | None = None
    target: ValueReference | None = None
    """Name of the value it should read; never a number."""
    minus: str | None = None
    plus: str | None = None
    tool: Id | None = None
    safety: bool = False
    stale_after: Duration | None = None
    needs_before: tuple[ActReference, ...] = ()


class Every(Record, frozen=True, kw_only=True):
    """When an upkeep falls due, whichever comes first."""

    loads: Count | None = None
    trips: Count | None = None
    miles: Annotated[int, Meta(ge=1, le=200_000)] | None = None
    hours: Annotated[int, Meta(ge=1, le=100_000)] | None = None
    months: Annotated[int, Meta(ge=1, le=240)] | None = None


class Upkeep(Entry, frozen=True, kw_only=True):
    """Something done again and again, or at the first miles only."""

    say: Text
    every: Every | None = None
    at_miles: tuple[Count, ...] = ()
    """Miles after delivery (or after any wheel was off) at which it is done once each."""


class Trouble(Entry, frozen=True, kw_only=True):
    """What usually goes wrong: what you see (the text) and what to look at first."""

    say: Text
    look: Text
    first: tuple[ActReference, ...] = ()


class ShowMe(Entry, frozen=True, kw_only=True):
    """A seed of a question by which the owner shows it was understood."""

    say: Text
    hurts: SignalWord
    """How badly a wrong answer can hurt; what can hurt most is asked first."""
    ask: Id | None = None
    """A value of the fitted variant."""
    order: tuple[Id, ...] = ()
    """Steps of this card whose order is asked."""
    wrong: tuple[
        Literal[
            "other_variants",
            "read_hot",
            "metric_taken_for_us",
            "next_step_first",
            "steps_swapped",
            "last_step_first",
            "half",
            "double",
        ],
        ...,
    ] = ()


class HandedOver(Entry, frozen=True, kw_only=True):
    """A loose item or paper that must go with the unit, counted."""

    say: Text
    count: Count = 1
    each: Literal["unit", "place"] = "unit"


class PaperLine(Entry, frozen=True, kw_only=True):
    """What one of the one-page papers says of this part, beside what holds for every trailer."""

    paper: PaperName
    say: Text
    rank: Annotated[int, Meta(ge=1, le=99)] = 50
    """Lines of a paper stand by their rank, then by station: for acts whose order matters."""


class Shape(Record, frozen=True, kw_only=True):
    """How the part is drawn: a shape the drawings know, and which of its values give the shape's measures."""

    kind: Literal[
        "tire", "wheel", "hub", "box", "jack", "gooseneck_coupler", "ball_coupler", "winch", "lamp", "tie_down_point",
        "cylinder", "battery", "charger", "plug", "plate", "spare", "fitting", "tape", "chain", "control", "pump",
        "latch", "fill_lines", "inlet", "marker", "planks", "tread", "door", "guard",
        "ramp", "infill", "shield", "runner", "kingpin", "ring_eye", "air_chamber", "air_tank", "air_line",
    ]  # fmt: skip
    measures: dict[Id, Id] = {}


class Card(Record, frozen=True, kw_only=True):
    """Everything known of one kind of part."""

    schema_version: Version = field(name="schema")
    id: Id
    system: System
    name: Text
    what: Text
    """What it is and why it matters, in two or three plain sentences."""
    passive: Text | None = None
    """Why nobody has to do anything with it, for a card without steps."""
    sources: Annotated[tuple[str, ...], Meta(min_length=1)]
    """Where its values come from when a value names no source of its own."""
    needs: tuple[Id, ...] = ()
    """Slots that must be filled wherever this part is fitted."""
    values: dict[Id, ValueMeaning] = {}
    variants: Annotated[dict[Id, Variant], Meta(min_length=1)]
    shape: Shape | None = None
    steps: tuple[Step, ...] = field(default=(), name="step")
    cautions: tuple[Caution, ...] = field(default=(), name="caution")
    checks: tuple[Check, ...] = field(default=(), name="check")
    upkeep: tuple[Upkeep, ...] = ()
    troubles: tuple[Trouble, ...] = field(default=(), name="fault")
    show_me: tuple[ShowMe, ...] = ()
    handed_over: tuple[HandedOver, ...] = ()
    lines: tuple[PaperLine, ...] = field(default=(), name="line")

    @property
    def sure_values(self) -> dict[Id, ValueMeaning]:
        """The values every variant gives: what texts, shapes, checks and questions may lean on."""
        return {name: meaning for name, meaning in self.values.items() if not meaning.optional}


# ── trailer types ───────────────────────────────────────────────────────────────────────────────────────────────────


class Place(Record, frozen=True, kw_only=True):
    """One spot where a part stands: x rearwards from the coupling point, y to the right, z up from the ground."""

    id: Id
    side: Side
    x: Length
    y: Length | None = None
    """None: on the center line, or at the deck's edge for left and right."""
    z: Length


class FromAxles(Record, frozen=True, kw_only=True):
    """Places taken from the axles: left_1, right_1, left_2 …, or left_1_out and left_1_in for dual wheels."""

    from_axles: Literal[True]
    sides: tuple[Literal["left", "right"], ...] = ("left", "right")
    dual: bool = False
    z: Length


class Slot(Record, frozen=True, kw_only=True):
    """A role that a part fills on this type, with the places where it stands."""

    station: Id | dict[Side, Id]
    standard: Reference | None = None
    """What is fitted unless an option says otherwise; none: empty unless an option fills it."""
    places: FromAxles | tuple[Place, ...]


class Station(Record, frozen=True, kw_only=True):
    """A place on the walk-around."""

    name: Text
    side: Side
    """Where on the lap it is met: the front, the left (driver's) side, the rear, the right side, or the center."""
    state: State
    """The state in which its steps and checks are done when they say nothing else."""
    x: Length | None = None
    """Where on the lap; none: the middle of its places."""
    twin_of: Id | None = None
    """The station on the other side that teaches the same: its steps are told once."""


class Option(Record, frozen=True, kw_only=True):
    """Something a buyer may order."""

    name: Text
    fits: dict[Id, Reference] = {}
    empties: tuple[Id, ...] = ()
    """Slots left empty by it."""
    requires: tuple[Id, ...] = ()
    excludes: tuple[Id, ...] = ()
    group: Id | None = None
    """At most one option of a group."""
    rank: Annotated[int, Meta(ge=0, le=99)] = 0
    """Where two options fit one slot differently, the higher rank holds; equal ranks are refused."""


class OrderRule(Record, frozen=True, kw_only=True):
    """An order between two acts that the walk must keep."""

    before: ActReference
    after: ActReference
    why: Text


class Labels(Record, frozen=True, kw_only=True):
    """What the yard's own plate on this type says."""

    gvwr: Weight
    gawr: Annotated[tuple[Weight, ...], Meta(min_length=1, max_length=6)]
    empty_mass: Weight
    coupling_share: tuple[Ratio, Ratio]
    """Least and most of the gross mass on the coupling."""
    empty_coupling_share: Ratio | None = None


class Axles(Record, frozen=True, kw_only=True):
    """Where the axles stand."""

    x: Annotated[tuple[Length, ...], Meta(min_length=1, max_length=6)]
    track: Size
    """Between the middles of the left and right wheel (or of the dual pair)."""
    dual_spacing: Size | None = None
    """Between the middles of the two wheels of a pair."""
    suspension: Literal["sprung", "torsion"]
    braked: tuple[bool, ...]
    stiffness: Stiffness | None = None
    """Of one torsion axle, both sides together: how much heavier it bears for each inch its arms give way."""


class Member(Record, frozen=True, kw_only=True):
    """A piece of the frame or body, drawn from its outlines: `"in: 0,30 96,30 96,34 0,34"`.

    `side` pairs are x,z; `plan` pairs are x,y (right half or whole; `mirror` adds the other half).
    """

    id: Id
    side: Outline | None = None
    plan: Outline | None = None
    mirror: bool = False
    line: Literal["outline", "edge", "detail", "hidden", "ghost"] = "outline"
    fill: Literal["white", "pale", "mid", "ink", "none"] = "white"
    least_detail: Literal[0, 1, 2] = 0
    """Least level of detail at which it is drawn: 0 list silhouette, 1 small figure, 2 drawing sheet."""
    layer: Annotated[int, Meta(ge=-9, le=9)] = 0
    """Painted from low to high; wheels are layer 0."""
    slot: Condition | None = None
    """Drawn only where this slot is filled (`slot`), or filled so (`slot=card`); none: always."""


class Hinge(Record, frozen=True, kw_only=True):
    """A part of the body that turns: the tilt tail, a ramp gate, a dump body."""

    id: Id
    x: Length
    z: Length
    members: tuple[Id, ...]
    lowered: Angle
    """How far it turns from its travel position to its working one (positive: the rear end goes down)."""
    name: Text
    cylinders: CylinderEyes | tuple[CylinderEyes, ...] | None = None
    prop: PropEnds | None = None

    @property
    def eyes(self) -> tuple[CylinderEyes, ...]:
        """All eyes, of whichever kind of cylinder."""
        if self.cylinders is None:
            return ()
        return (self.cylinders,) if isinstance(self.cylinders, CylinderEyes) else self.cylinders


class Frame(Record, frozen=True, kw_only=True):
    """The geometry table every drawing comes from."""

    coupling_height: Size
    overall_length: Size
    overall_width: Size
    front_x: Length
    """The foremost point, usually a little ahead of the coupling point (negative)."""
    axles: Axles
    decks: Annotated[tuple[Deck, ...], Meta(min_length=1)] = field(name="deck")
    members: Annotated[tuple[Member, ...], Meta(min_length=1)] = field(name="member")
    hinges: tuple[Hinge, ...] = field(default=(), name="hinge")
    ways: tuple[Way, ...] = field(default=(), name="way")
    """Ways to set up the decks, such as a lift deck up or down; none: there is one way, the decks as they are."""
    rails: Rails | None = None
    """The main rails, where the frame is to be checked as one that bends (torsion axles)."""


class TrailerType(Record, frozen=True, kw_only=True):
    """A product line: geometry, slots, places, stations, options and their rules, labels."""

    schema_version: Version = field(name="schema")
    id: Id
    name: Text
    what: Text
    sources: Annotated[tuple[str, ...], Meta(min_length=1)]
    coupling: Literal["ball", "gooseneck", "pintle", "fifth_wheel"]
    labels: Labels
    frame: Frame
    stations: Annotated[dict[Id, Station], Meta(min_length=1)]
    slots: Annotated[dict[Id, Slot], Meta(min_length=1)]
    options: dict[Id, Option] = {}
    orders: tuple[OrderRule, ...] = field(default=(), name="order")
    handed_over: tuple[HandedOver, ...] = ()


# ── the yard ────────────────────────────────────────────────────────────────────────────────────────────────────────


class Yard(Record, frozen=True, kw_only=True):
    """The yard itself: who hands over, where, in which order they walk."""

    schema_version: Version = field(name="schema")
    id: Id
    name: PlainText
    address: tuple[PlainText, ...]
    telephone: PlainText
    zone: PlainText
    """Time zone name, such as America/Chicago."""
    walk: Literal["left_side_first", "right_side_first"] = "left_side_first"
    """From the coupling down this side, round the back and home."""
    base_url: WebAddress | None = None
    """Where the public pages are; codes of labels lead there. Without it labels carry the station's number only."""
    language: Literal["en", "es"] = "en"
    units: Literal["us", "metric"] = "us"


class Sentence(Entry, frozen=True, kw_only=True):
    """One of the ten sentences an owner must never forget; of those that share an id, the first that fits is said."""

    say: Text


class Sentences(Record, frozen=True, kw_only=True):
    """`catalogue/sentences.toml`."""

    schema_version: Version = field(name="schema")
    sentences: Annotated[tuple[Sentence, ...], Meta(min_length=10)] = field(name="sentence")
