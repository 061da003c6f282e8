"""The view of a raised body: as high as the geometry says, with what lifts it and what holds it."""

from __future__ import annotations

import math

import msgspec
import pytest

from sendoff.drawings import UnitDrawings
from sendoff.drawings.hoists import knee, rises
from sendoff.drawings.raised import raised_hinge
from tests.drawings.reading import INCH_M, said, texts, unit


@pytest.mark.parametrize("name", ["qb-0302", "qb-0309"])
def test_the_height_with_the_body_up_is_the_turned_corner(name: str) -> None:
    """By hand: the tarp's corner, 164 in ahead of the hinge and 37 in above it, turned by 45 degrees."""
    inches = 23 + 164 * math.sin(math.radians(45)) + 37 * math.cos(math.radians(45))
    drawing = UnitDrawings(unit(name), "en", "us").raised
    assert drawing is not None
    feet, rest = divmod(round(inches * 2) / 2, 12)
    words = f"{feet:.0f} ft {rest:g} in".replace(".5", "½")
    assert words in [said(seen) for seen in texts(drawing)]


def test_only_what_is_raised_to_work_has_such_a_view() -> None:
    for name in ("qb-0107", "qb-0203", "qb-0401"):
        assert UnitDrawings(unit(name), "en", "us").raised is None


def test_the_knee_of_a_scissor_hoist_is_an_arm_away_from_both_eyes() -> None:
    hinge = raised_hinge(unit("qb-0309"))
    assert hinge is not None
    assert hinge.cylinders is not None
    assert hinge.cylinders.arms_m is not None
    lower, upper, _ = hinge.cylinders.arms_m
    joint = knee(hinge.cylinders, hinge.cylinders.body_m)
    assert math.dist(joint, hinge.cylinders.frame_m) == pytest.approx(lower)
    assert math.dist(joint, hinge.cylinders.body_m) == pytest.approx(upper)
    assert joint[1] > 8 * INCH_M, "it hangs clear of the ground"


def test_a_prop_stands_as_long_as_its_card_says() -> None:
    made = unit("qb-0309")
    hinge = raised_hinge(made)
    assert hinge is not None
    assert hinge.prop is not None
    x, z = hinge.prop.body_m[0] - hinge.x_m, hinge.prop.body_m[1] - hinge.z_m
    half = math.sqrt(0.5)
    top = (hinge.x_m + (x + z) * half, hinge.z_m + (z - x) * half)
    prop = made.part("prop")
    assert prop is not None
    assert math.dist(top, hinge.prop.frame_m) == pytest.approx(prop.si("length"), abs=2 * INCH_M)


def test_a_tail_that_goes_down_is_not_raised() -> None:
    (hinge,) = unit("qb-0107").geometry.hinges
    assert not rises(hinge, iter([(9.0, 1.0), (7.2, 1.0)]))
    assert rises(msgspec.structs.replace(hinge, x_m=9.0), iter([(2.0, 1.0), (9.1, 1.0)]))
