"""Refusals say where, what, and how to mend it; in one line each, without what a terminal would obey."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.errors import CannotWrite, Fault, FaultyInput, OutOfRange, SendoffError, shown


def test_a_fault_names_file_field_value_and_cure() -> None:
    fault = Fault("sheet.toml", "tires.pressure", "110 lb", "is no pressure", "Write it in psi or kPa.")
    assert str(fault) == "sheet.toml: tires.pressure: is no pressure (found 110 lb). Write it in psi or kPa."


def test_a_fault_leaves_out_what_it_does_not_know() -> None:
    assert str(Fault("", "vin", "", "is missing", "Give it.")) == "vin: is missing. Give it."


def test_faulty_input_holds_all_faults_a_line_each() -> None:
    faults = [Fault("a", "x", "", "is missing", "Give it."), Fault("a", "y", "", "is missing", "Give it.")]
    refused = FaultyInput(faults)
    assert refused.faults == tuple(faults)
    assert str(refused).splitlines() == [str(fault) for fault in faults]
    assert FaultyInput(faults[0]).faults == (faults[0],)


def test_faults_can_be_sorted() -> None:
    one, two = Fault("a", "x", "", "p", "c"), Fault("b", "a", "", "p", "c")
    assert sorted([two, one]) == [one, two]


def test_out_of_range_is_a_value_error_and_names_the_argument() -> None:
    refused = OutOfRange("axle_load_kg", -3.0, "must be above zero")
    assert isinstance(refused, ValueError)
    assert isinstance(refused, SendoffError)
    assert (refused.name, refused.value) == ("axle_load_kg", -3.0)
    assert str(refused) == "axle_load_kg: must be above zero (found -3.0)"


def test_all_refusals_are_of_one_family() -> None:
    for kind in (FaultyInput, OutOfRange, CannotWrite):
        assert issubclass(kind, SendoffError)


@given(st.text(max_size=200))
def test_a_shown_value_is_one_short_printable_line(text: str) -> None:
    line = shown(text)
    assert len(line) <= 80
    assert line.isprintable()


@pytest.mark.parametrize("sign", ["\n", "\x1b", "\N{RIGHT-TO-LEFT OVERRIDE}", "\N{ZERO WIDTH SPACE}", "\x00"])
def test_a_sign_a_terminal_would_obey_is_spelled_out(sign: str) -> None:
    assert shown(f"a{sign}b") == f"a\\u{ord(sign):04x}b"


def test_what_is_no_text_is_shown_as_python_writes_it() -> None:
    assert shown(12) == "12"
    assert shown(None) == "None"
    assert shown("x" * 200).endswith("…")
