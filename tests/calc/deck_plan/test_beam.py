"""The frame that bends, held against a table of beams and against another program for frames."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import pairwise

import pytest
from anastruct.fem.system import SystemElements

from sendoff.calc.deck_plan import Trailer, flexible_reactions
from sendoff.calc.deck_plan.limits import axle_loads, pin_load
from sendoff.errors import OutOfRange
from sendoff.units import STANDARD_GRAVITY_mps2

TRAILER = Trailer(
    3800.0,
    6.5,
    (7.9, 8.8, 9.7),
    "torsion",
    (3175.0,) * 3,
    11700.0,
    frame_stiffness_Nm2=2e7,
    axle_stiffness_Npm=4e5,
)
LOADS = [(900.0, 1.0), (600.0, 3.6), (800.0, 5.0), (700.0, 7.6), (1300.0, 10.0), (1000.0, 12.3)]


def other_program(
    trailer: Trailer, loads: list[tuple[float, float]], front: float, rear: float
) -> list[float]:
    """Axle loads by anastruct: one straight beam, hinged at the coupling, a vertical spring at each axle."""
    assert trailer.frame_stiffness_Nm2
    assert trailer.axle_stiffness_Npm
    half = min(trailer.empty_center_m - front, rear - trailer.empty_center_m)
    begin, end = trailer.empty_center_m - half, trailer.empty_center_m + half
    places = sorted({0.0, front, rear, begin, end, *trailer.axle_m, *(at for _, at in loads)})
    system = SystemElements(EI=trailer.frame_stiffness_Nm2, EA=1e12)
    for one, two in pairwise(places):
        system.add_element([[one, 0], [two, 0]])
    node = {at: number for number, at in enumerate(places, 1)}
    system.add_support_hinged(node_id=node[0.0])
    for at in trailer.axle_m:
        system.add_support_spring(node_id=node[at], translation=2, k=trailer.axle_stiffness_Npm)
        system.point_load(node_id=node[at], Fy=trailer.axle_preload_kg * STANDARD_GRAVITY_mps2)
    for kg, at in loads:
        system.point_load(node_id=node[at], Fy=-kg * STANDARD_GRAVITY_mps2)
    line = trailer.empty_mass_kg * STANDARD_GRAVITY_mps2 / (end - begin)
    for element, (one, two) in enumerate(pairwise(places), 1):
        if begin <= (one + two) / 2 <= end:
            system.q_load(q=-line, element_id=element)
    system.solve()
    found = []
    for at in trailer.axle_m:
        down = -system.get_node_displacements(node[at])["uy"]
        found.append(trailer.axle_preload_kg + trailer.axle_stiffness_Npm * down / STANDARD_GRAVITY_mps2)
    return found


def test_a_beam_on_three_stiff_supports_bears_three_eighths_ten_eighths_three_eighths() -> None:
    """Two equal spans under an even load: 0.375, 1.25, 0.375 of one span's load (any handbook's table of continuous
    beams, here the American steel manual's from memory)."""
    stiff = Trailer(
        1600.0,
        4.0,
        (4.0, 8.0),
        "torsion",
        (9000.0,) * 2,
        9000.0,
        frame_stiffness_Nm2=1e7,
        axle_stiffness_Npm=1e12,
    )
    found = flexible_reactions(stiff, [], 0.0, 8.0)
    assert [found.pin_kg, *found.axle_kg] == pytest.approx([0.375 * 800, 1.25 * 800, 0.375 * 800], rel=1e-4)


@pytest.mark.parametrize("seed", range(6))
def test_axle_loads_are_those_of_another_program_for_frames(seed: int) -> None:
    chance = random.Random(seed)
    trailer = replace(
        TRAILER, frame_stiffness_Nm2=chance.uniform(5e6, 8e7), axle_stiffness_Npm=chance.uniform(2e5, 8e5),
        axle_preload_kg=chance.choice([0.0, 150.0]),
        axle_m=tuple(x + chance.uniform(-0.2, 0.2) for x in TRAILER.axle_m),
    )  # fmt: skip
    loads = [(kg * chance.uniform(0.5, 1.5), at + chance.uniform(-0.3, 0.3)) for kg, at in LOADS]
    found = flexible_reactions(trailer, loads, -1.2, 13.5)
    assert list(found.axle_kg) == pytest.approx(other_program(trailer, loads, -1.2, 13.5), rel=1e-6)


def test_a_frame_that_hardly_bends_bears_as_the_rigid_formula_says() -> None:
    rigid = replace(TRAILER, frame_stiffness_Nm2=1e13)
    mass, moment = sum(kg for kg, _ in LOADS), sum(kg * at for kg, at in LOADS)
    found = flexible_reactions(rigid, LOADS, -1.2, 13.5)
    assert list(found.axle_kg) == pytest.approx(
        [load.at(mass, moment) for load in axle_loads(rigid)], rel=1e-6
    )
    assert found.pin_kg == pytest.approx(pin_load(rigid).at(mass, moment), rel=1e-6)


def test_forces_and_moments_balance_whatever_bends() -> None:
    found = flexible_reactions(TRAILER, LOADS, -1.2, 13.5)
    up = found.pin_kg + sum(found.axle_kg)
    assert up == pytest.approx(TRAILER.empty_mass_kg + sum(kg for kg, _ in LOADS))
    about = sum(kg * at for kg, at in zip(found.axle_kg, TRAILER.axle_m, strict=True))
    assert about == pytest.approx(
        TRAILER.empty_mass_kg * TRAILER.empty_center_m + sum(kg * at for kg, at in LOADS)
    )


def test_a_frame_without_known_stiffness_is_refused() -> None:
    with pytest.raises(OutOfRange, match="frame_stiffness_Nm2"):
        flexible_reactions(replace(TRAILER, frame_stiffness_Nm2=None), LOADS, -1.2, 13.5)
    with pytest.raises(OutOfRange, match="share alike"):
        flexible_reactions(replace(TRAILER, suspension="equalized"), LOADS, -1.2, 13.5)
