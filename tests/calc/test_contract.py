"""The contract itself: what a decorated function leaves behind, and what the guards refuse."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from sendoff.calc import contract
from sendoff.calc.contract import Step, Term, calculation, worked
from sendoff.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class Both:
    """Two results."""

    sum_kg: float
    heavy: bool


@pytest.fixture(autouse=True)
def _registry_as_it_was() -> Iterator[None]:
    before = dict(contract.REGISTRY)
    yield
    contract.REGISTRY.clear()
    contract.REGISTRY.update(before)


def test_a_step_tells_what_was_put_in_and_what_it_gave() -> None:
    @calculation("tests", "F = m · g", gives="force_N", symbols={"mass_kg": "m", "force_N": "F"})
    def weight(mass_kg: float, name: str = "x", note: str | None = None) -> float:
        """Weight of a mass."""
        return mass_kg * 9.80665

    done = worked(weight, 2.0)
    assert done.result == pytest.approx(19.6133)
    assert done.steps == (
        Step(
            "weight",
            "F = m · g",
            (Term("mass_kg", "m", "mass", 2.0), Term("name", "name", "text", "x")),
            (Term("force_N", "F", "force", done.result),),
        ),
    )
    assert done.steps[0].put_in[0].unit == "kg"
    assert done.steps[0].put_in[1].unit == ""


def test_inner_steps_come_before_the_outer_one() -> None:
    @calculation("tests", "a", gives="a_kg")
    def inner(a_kg: float) -> float:
        """Inner."""
        return a_kg

    @calculation("tests", "b", symbols={"sum_kg": "S"})
    def outer(a_kg: float) -> Both:
        """Outer."""
        return Both(inner(a_kg) + inner(a_kg), heavy=True)

    steps = worked(outer, 3.0).steps
    assert [step.calculation for step in steps] == ["inner", "inner", "outer"]
    assert [(term.symbol, term.kind, term.value) for term in steps[-1].gave] == [
        ("S", "mass", 6.0),
        ("heavy", "text", True),
    ]


def test_nothing_is_left_behind_outside_of_worked() -> None:
    @calculation("tests", "a", gives="a_kg")
    def plain(a_kg: float) -> float:
        """Plain."""
        return a_kg

    plain(1.0)
    assert worked(plain, 2.0).steps[0].put_in[0].value == 2.0
    assert len(worked(plain, 2.0).steps) == 1


def test_a_refusal_inside_worked_leaves_nothing_behind_either() -> None:
    @calculation("tests", "a", gives="a_kg")
    def refusing(a_kg: float) -> float:
        """Refuse."""
        contract.require_positive(a_kg=a_kg)
        return a_kg

    with pytest.raises(OutOfRange):
        worked(refusing, -1.0)
    assert len(worked(refusing, 1.0).steps) == 1


def test_two_calculations_of_one_name_are_refused() -> None:
    @calculation("tests", "a", gives="a_kg")
    def once(a_kg: float) -> float:
        """Once."""
        return a_kg

    def again(a_kg: float) -> float:
        """Again."""
        return a_kg

    again.__name__ = once.__name__
    again.__module__ = "elsewhere"
    with pytest.raises(ValueError, match="two calculations are named once"):
        calculation("tests", "a", gives="a_kg")(again)


def test_the_meaning_is_the_first_line() -> None:
    @calculation("tests", "a", gives="a_kg")
    def meant(a_kg: float) -> float:
        """First line.

        More.
        """
        return a_kg

    assert contract.REGISTRY["meant"].meaning == "First line."


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_every_guard_refuses_what_is_no_number(value: float) -> None:
    for guard in (contract.require_finite, contract.require_positive, contract.require_not_negative):
        with pytest.raises(OutOfRange, match="finite") as refused:
            guard(mass_kg=value)
        assert refused.value.name == "mass_kg"
    with pytest.raises(OutOfRange, match="finite"):
        contract.require_between(0, 1, mass_kg=value)


def test_guards_name_the_field_and_what_is_allowed() -> None:
    with pytest.raises(OutOfRange, match="mass_kg: must be above zero"):
        contract.require_positive(mass_kg=0.0)
    with pytest.raises(OutOfRange, match="mass_kg: must not be below zero"):
        contract.require_not_negative(mass_kg=-1e-300)
    with pytest.raises(OutOfRange, match="mass_kg: must lie from 1 to 2 kg"):
        contract.require_between(1, 2, "kg", mass_kg=2.1)
    with pytest.raises(OutOfRange, match="side: must be one of left, right"):
        contract.require_one_of(("left", "right"), side="top")


def test_guards_let_the_edge_pass() -> None:
    contract.require_not_negative(mass_kg=0.0)
    contract.require_between(1, 2, mass_kg=1.0)
    contract.require_between(1, 2, mass_kg=2.0)
    contract.require_one_of(("left",), side="left")


@pytest.mark.parametrize("value", [1e13, -1e13, 1e300])
def test_every_guard_refuses_what_is_beyond_any_measure(value: float) -> None:
    for guard in (contract.require_finite, contract.require_positive, contract.require_not_negative):
        with pytest.raises(OutOfRange, match="beyond any measure"):
            guard(mass_kg=value)


def test_what_is_above_zero_but_below_any_measure_is_refused_as_a_divisor() -> None:
    with pytest.raises(OutOfRange, match="below any measure"):
        contract.require_positive(mass_kg=5e-324)
    contract.require_not_negative(mass_kg=5e-324)


def test_an_inner_refusal_can_be_told_in_the_outer_words() -> None:
    with (
        pytest.raises(OutOfRange, match="outer_kg: must be above zero") as refused,
        contract.refused_as(inner_kg="outer_kg"),
    ):
        contract.require_positive(inner_kg=-1.0)
    assert refused.value.name == "outer_kg"
    assert refused.value.value == -1.0
    with pytest.raises(OutOfRange, match="other_kg"), contract.refused_as(inner_kg="outer_kg"):
        contract.require_positive(other_kg=-1.0)
