"""Values no trailer has are refused where they are written, with what to check; sensible ones at the edge pass."""

from __future__ import annotations

from pathlib import Path

import pytest

from sendoff import units
from sendoff.catalogue import sensible
from sendoff.catalogue.load import load
from sendoff.errors import FaultyInput
from tests.yards import SmallYard

TIRE = "catalogue/cards/running_gear/my_tire.toml"
TRAILER = "catalogue/trailers/small_flat.toml"
PRESSURE = 'cold_pressure = "52 psi"'
LOAD = 'max_load_single = "1350 lb"'
DECK = 'width = "54 in"\nheight = "19 in"'

ABSURD = [
    (TIRE, PRESSURE, 'cold_pressure = "-5 psi"', ("values.cold_pressure", "-5 psi", "never below zero")),
    (TIRE, PRESSURE, 'cold_pressure = "−5 psi"', ("values.cold_pressure", "never below zero")),
    (TIRE, PRESSURE, 'cold_pressure = "0 psi"', ("values.cold_pressure", "a pressure of nothing")),
    (TIRE, PRESSURE, 'cold_pressure = "520000 psi"', ("values.cold_pressure", "no trailer has such a pressure")),
    (TIRE, LOAD, 'max_load_single = "0 lb"', ("values.max_load_single", "a mass of nothing")),
    (TIRE, LOAD, 'max_load_single = "1e99 lb"', ("values.max_load_single", "no trailer has such a mass: at most")),
    (TIRE, LOAD, 'max_load_single = "1e400 lb"', ("values.max_load_single",)),
    (TIRE, LOAD, 'max_load_single = "nan lb"', ("values.max_load_single", "not a number with a unit")),
    (TIRE, LOAD, 'max_load_single = "inf lb"', ("values.max_load_single", "not a number with a unit")),
    (TIRE, 'minus = "0 psi"', 'minus = "-1 psi"', ("check.pressure.minus", "never below zero")),
    (TIRE, 'stale_after = "48 h"', 'stale_after = "0 h"', ("check[1].stale_after", "a duration of nothing")),
    (TIRE, "every = { trips = 1, months = 1 }", "every = {}", ("upkeep.look_over", "it never falls due")),
    (TIRE, "every = { trips = 1, months = 1 }", "every = { trips = 0 }", ("every.trips", "at least 1")),
    (TRAILER, 'gvwr = "2400 lb"', 'gvwr = "0 lb"', ("labels.gvwr", "0 lb", "a mass of nothing")),
    (TRAILER, 'gvwr = "2400 lb"', 'gvwr = "-2400 lb"', ("labels.gvwr", "never below zero")),
    (TRAILER, 'gvwr = "2400 lb"', 'gvwr = "1e99 lb"', ("labels.gvwr", "no trailer has such a mass")),
    (TRAILER, 'gvwr = "2400 lb"', 'gvwr = "500 lb"', ("labels.empty_mass", "may weigh loaded (500 lb)")),
    (TRAILER, 'gawr = ["2400 lb"]', 'gawr = ["0 lb"]', ("labels.gawr", "a mass of nothing")),
    (TRAILER, 'gawr = ["2400 lb"]', "gawr = []", ("labels.gawr", "at least 1 entry")),
    (TRAILER, '["10 %", "15 %"]', '["15 %", "10 %"]', ("labels.coupling_share", "least is more than the most")),
    (TRAILER, '["10 %", "15 %"]', '["10 %", "150 %"]', ("labels.coupling_share[2]", "at most 100.0 %")),
    (TRAILER, '["10 %", "15 %"]', '["-1 %", "15 %"]', ("labels.coupling_share[1]", "never below zero")),
    (TRAILER, 'x = ["92 in"]', 'x = ["400 mi"]', ("frame.axles.x[1]", "400 mi", "no trailer has such a length")),
    (TRAILER, 'track = "66 in"', 'track = "0 in"', ("frame.axles.track", "a length of nothing")),
    (TRAILER, DECK, DECK.replace("54", "0"), ("frame.deck[1].width", "a length of nothing")),
    (TRAILER, DECK, DECK.replace("54", "-54"), ("frame.deck[1].width", "never below zero")),
    (TRAILER, DECK, DECK.replace("19", "0"), ("frame.deck[1].height", "a length of nothing")),
    (TRAILER, 'twin_of = "wheels_left"', 'twin_of = "wheels_right"', ("twin_of", "no twin of itself")),
    (TRAILER, "fits = { tires", 'excludes = ["stronger_tires"]\nfits = { tires', ("excludes", "the option itself")),
    (TRAILER, "fits = { tires", 'requires = ["stronger_tires"]\nfits = { tires', ("requires", "the option itself")),
    (TRAILER, 'places = [{ id = "floor", side = "center", x = "96 in", z = "19 in" }]', "places = []", ("slots.floor.places", "the slot has no place")),  # noqa: E501
]  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new", "told"), ABSURD, ids=[case[2] for case in ABSURD])
def test_an_absurd_value_is_refused_where_it_stands(
    tmp_path: Path, name: str, old: str, new: str, told: tuple[str, ...]
) -> None:
    yard = SmallYard(tmp_path)
    yard.change(name, old, new)
    with pytest.raises(FaultyInput) as refused:
        load(yard.catalogue)
    (fault,) = refused.value.faults
    assert fault.file == name.removeprefix("catalogue/")
    assert fault.cure
    assert all(words in str(fault) for words in told), str(fault)


def test_requiring_and_excluding_one_option_is_refused(tmp_path: Path) -> None:
    yard = SmallYard(tmp_path)
    path = yard.folder / TRAILER
    more = '\n[options.rack]\nname = { en = "Rack", es = "Rejilla" }\nrequires = ["stronger_tires"]\n'
    more += 'excludes = ["stronger_tires"]\nfits = { floor = "my_floor/plank" }\n'
    path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")
    with pytest.raises(FaultyInput, match=r"options\.rack: it is required and excluded"):
        load(yard.catalogue)


@pytest.mark.parametrize("kind", sorted(units.FACTORS))
def test_every_kind_a_card_can_name_has_bounds(kind: str) -> None:
    used = {"acceleration", "line_load", "number", "stiffness"}  # kinds no file of a yard is written in
    assert (kind in sensible.BOUNDS) != (kind in used), kind


def test_nothing_is_allowed_where_nothing_has_a_meaning() -> None:
    assert sensible.problem_of_value("length", 0.0, "capacity") is None  # no play
    assert sensible.problem_of_value("length", -0.01, "fact") is None  # an offset
    assert sensible.problem_of_value("length", -0.01, "capacity") is not None
    assert sensible.problem_of_value("current", 0.0, "demand") is None
    assert sensible.problem_of_value("current", 0.0, "capacity") is not None
    assert sensible.problem_of_value("count", -1.0, "fact") is not None
