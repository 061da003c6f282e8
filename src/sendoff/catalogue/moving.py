"""What moves a hinged piece and what holds it up: cylinders, the arms of a scissor hoist, the prop."""

from __future__ import annotations

from sendoff.catalogue.fields import Id, Length, Record, Size


class FoldingArms(Record, frozen=True, kw_only=True):
    """The two arms of a scissor hoist between its eyes: folded flat, spread by a cylinder from the frame eye."""

    lower: Size
    """From the frame eye to the knee."""
    upper: Size
    """From the knee to the eye on what turns."""
    rod: Size
    """From the knee along the upper arm to where the cylinder's rod holds it."""


class CylinderEyes(Record, frozen=True, kw_only=True):
    """Where the cylinders of a hinge push, in travel position: their eye on the frame and the one on what turns."""

    slot: Id
    card: Id | None = None
    """The kind of part these eyes are for, where a slot may hold several kinds; none: for whatever is fitted."""
    frame_x: Length
    frame_z: Length
    body_x: Length
    body_z: Length
    arms: FoldingArms | None = None
    """Arms between the eyes, which the cylinder spreads; none: the cylinder itself reaches from eye to eye."""


class PropEnds(Record, frozen=True, kw_only=True):
    """The prop that holds a raised body: its foot on the frame, and where on the body (in travel position) it bears."""

    slot: Id
    frame_x: Length
    frame_z: Length
    body_x: Length
    body_z: Length
