"""Statics held against two beam programs: anastruct (numerical frames) and sympy (exact beams)."""

from __future__ import annotations

import itertools
import math
import random
from typing import Any

import pytest

from sendoff.calc.statics import suspension, trailer, truck
from sendoff.units import STANDARD_GRAVITY_mps2

G = STANDARD_GRAVITY_mps2
STIFF = 1e12  # N·m2: a frame that does not bend


def anastruct_reactions(
    places: list[float], loads: dict[float, float], supports: dict[float, float | None]
) -> tuple[dict[float, float], float]:
    """Upward reactions by place, and the slope at the first support, of a stiff beam; None is a rigid support."""
    from anastruct.fem.system import SystemElements

    frame: Any = SystemElements(EA=STIFF, EI=STIFF)
    for start, end in itertools.pairwise(places):
        frame.add_element([[start, 0], [end, 0]])
    node = {place: frame.find_node_id([place, 0]) for place in places}
    for place, stiffness in supports.items():
        if stiffness is None:
            frame.add_support_hinged(node[place]) if place == min(supports) else frame.add_support_roll(
                node[place]
            )
        else:
            frame.add_support_spring(node[place], translation=2, k=stiffness)
    for place, force in loads.items():
        frame.point_load(node[place], Fy=-force)
    frame.solve()
    found = {}
    for place, stiffness in supports.items():
        result: Any = frame.get_node_results_system(node[place])
        found[place] = -result["Fy"] if stiffness is None else -stiffness * result["uy"]
    slope: Any = frame.get_node_results_system(node[min(places)])
    return {place: abs(value) for place, value in found.items()}, abs(float(slope["phi_z"]))


@pytest.mark.parametrize("seed", range(6))
def test_a_loaded_trailer_against_anastruct(seed: int) -> None:
    chance = random.Random(seed)
    axles = chance.uniform(4.0, 9.0)
    items = [(chance.uniform(200, 3000), chance.uniform(0.5, axles - 0.2)) for _ in range(3)]
    whole = trailer.center_of_mass(tuple(m for m, _ in items), tuple(x for _, x in items))
    mine = trailer.trailer_loads(whole.total_mass_kg, whole.center_x_m, axles)
    places = sorted({0.0, axles, *(x for _, x in items)})
    theirs, _ = anastruct_reactions(places, {x: m * G for m, x in items}, {0.0: None, axles: None})
    assert mine.coupling_load_kg * G == pytest.approx(theirs[0.0], rel=1e-6)
    assert mine.axle_group_load_kg * G == pytest.approx(theirs[axles], rel=1e-6)


@pytest.mark.parametrize("behind", [0.3, 1.3, 2.0])
def test_an_overhung_coupling_against_anastruct(behind: float) -> None:
    wheelbase, front, rear, coupling = 3.7, 1900.0, 1500.0, 380.0
    mine = truck.truck_axle_loads(front, rear, wheelbase, coupling, behind)
    center = wheelbase * rear / (front + rear)
    theirs, _ = anastruct_reactions(
        [0.0, center, wheelbase, wheelbase + behind],
        {center: (front + rear) * G, wheelbase + behind: coupling * G},
        {0.0: None, wheelbase: None},
    )
    assert mine.front_axle_load_kg * G == pytest.approx(theirs[0.0], rel=1e-6)
    assert mine.rear_axle_load_kg * G == pytest.approx(theirs[wheelbase], rel=1e-6)


@pytest.mark.parametrize("count", [2, 3])
def test_torsion_axles_out_of_level_against_anastruct(count: int) -> None:
    axles = [6.5 + 0.85 * number for number in range(count)]
    stiffness, mass, center = 350e3, 6800.0, 6.0
    places = sorted({0.0, center, *axles})
    theirs, slope = anastruct_reactions(
        places, {center: mass * G}, {0.0: None, **dict.fromkeys(axles, stiffness)}
    )
    # the frame started level on free springs; under the load its rear sinks: nose up by the slope found
    mine = suspension.torsion_axle_loads(mass, center, tuple(axles), stiffness, slope)
    assert mine.coupling_load_kg * G == pytest.approx(theirs[0.0], rel=1e-4)
    for load, axle in zip(mine.axle_load_kg, axles, strict=True):
        assert load * G == pytest.approx(theirs[axle], rel=1e-4)


def test_a_trailer_against_sympy_exactly() -> None:
    from sympy import Rational, symbols  # type: ignore[import-untyped]
    from sympy.physics.continuum_mechanics.beam import Beam  # type: ignore[import-untyped]

    coupling, axles = symbols("coupling axles")
    beam = Beam(9, 1, 1)
    beam.apply_load(coupling, 0, -1)
    beam.apply_load(axles, 7, -1)
    for mass, place in ((2600, Rational(11, 2)), (4100, 3), (3700, Rational(17, 2))):
        beam.apply_load(mass, place, -1)
    beam.bc_deflection = [(0, 0), (7, 0)]
    beam.solve_for_reaction_loads(coupling, axles)
    whole = trailer.center_of_mass((2600.0, 4100.0, 3700.0), (5.5, 3.0, 8.5))
    mine = trailer.trailer_loads(whole.total_mass_kg, whole.center_x_m, 7.0)
    assert mine.coupling_load_kg == pytest.approx(-float(beam.reaction_loads[coupling]), rel=1e-12)
    assert mine.axle_group_load_kg == pytest.approx(-float(beam.reaction_loads[axles]), rel=1e-12)


def test_tandem_springs_against_sympy() -> None:
    """sympy has no springs: a sinking support is a deflection of R/k, which its sign wants as -R·EI/k over EI."""
    from sympy import solve, symbols

    first, second, slope = symbols("first second slope")
    stiffness, mass, center, one, other = 300e3, 5000.0, 4.4, 4.5, 5.4
    solved = solve(
        [
            first - stiffness * slope * one,
            second - stiffness * slope * other,
            first * one + second * other - mass * G * center,
        ],
        [first, second, slope],
        dict=True,
    )[0]
    mine = suspension.torsion_axle_loads(mass, center, (one, other), stiffness, float(solved[slope]))
    assert mine.axle_load_kg[0] * G == pytest.approx(float(solved[first]), rel=1e-9)
    assert mine.axle_load_kg[1] * G == pytest.approx(float(solved[second]), rel=1e-9)


def test_a_flexible_frame_strays_from_the_stiff_one_by_a_few_percent() -> None:
    """What the notes of torsion_axle_loads warn of: the same springs under a frame that bends.

    Two 12 in beams of 19 lb/ft under a 34 ft deck: E·I about 2.2e7 N·m2; cargo in five places along it.
    """
    from anastruct.fem.system import SystemElements

    axles, stiffness, mass = (6.5, 7.4, 8.3), 350e3, 6800.0
    cargo = (2.0, 4.0, 6.0, 8.0, 10.0)
    shares = []
    for bending in (STIFF, 2.2e7):
        frame: Any = SystemElements(EA=1e12, EI=bending)
        places = sorted({0.0, *cargo, *axles})
        for start, end in itertools.pairwise(places):
            frame.add_element([[start, 0], [end, 0]])
        frame.add_support_hinged(frame.find_node_id([0.0, 0]))
        for axle in axles:
            frame.add_support_spring(frame.find_node_id([axle, 0]), translation=2, k=stiffness)
        for place in cargo:
            frame.point_load(frame.find_node_id([place, 0]), Fy=-mass * G / len(cargo))
        frame.solve()
        results = [frame.get_node_results_system(frame.find_node_id([axle, 0])) for axle in axles]
        loads = [abs(stiffness * result["uy"]) for result in results]
        shares.append([load / math.fsum(loads) for load in loads])
    stray = max(abs(soft / stiff - 1) for stiff, soft in zip(*shares, strict=True))
    assert 0.005 < stray < 0.12
