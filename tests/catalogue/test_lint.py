"""The lint: texts, orders, and references that some legal combination leaves dangling."""

from __future__ import annotations

from pathlib import Path

import pytest

from sendoff.briefing.lint import lint_everything
from sendoff.catalogue.load import load
from tests.yards import SmallYard

COUPLER = "catalogue/cards/coupling/my_coupler.toml"
TIRE = "catalogue/cards/running_gear/my_tire.toml"
TRAILER = "catalogue/trailers/small_flat.toml"
SENTENCES = "catalogue/sentences.toml"


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


def test_the_starter_catalogue_has_no_fault(yard: SmallYard) -> None:
    assert lint_everything(load(yard.catalogue)) == []


FAULTS = [
    (COUPLER, "put its latch pin through.", "put its pin through.", "bare 'pin'"),
    (COUPLER, 'say.en = "It rattles on the ball"', 'say.en = "It is not safe on the ball"', "never said of a unit"),
    (COUPLER, 'say.es = "Golpetea sobre la bola"', 'say.es = "No está seguro sobre la bola"', "never said of a unit"),
    (COUPLER, "it must say {ball}.", "it must say {balls}.", "same placeholders"),
    (TIRE, 'say.en = "One tire loses air"', 'say.en = "One tire {loses air"', "brace stands alone"),
    (TIRE, 'tool = "tire_gauge"', 'tool = "tire_gage"', "no such tool"),
    (SENTENCES, 'id = "call"', 'id = "look"', "does not get ten sentences"),
    (TRAILER, 'standard = "my_tire/range_c"\n', "", "it leans on slot tires|has no such value|no such value with no options"),  # noqa: E501
]  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new", "told"), FAULTS)
def test_a_planted_fault_is_found(yard: SmallYard, name: str, old: str, new: str, told: str) -> None:
    yard.change(name, old, new)
    message = "\n".join(map(str, lint_everything(load(yard.catalogue))))
    assert any(words in message for words in told.split("|")), message


def test_a_text_that_leans_on_an_optional_value_is_found(yard: SmallYard) -> None:
    declared = '[values.burst]\nsay = { en = "Bursts at", es = "Revienta a" }\nquantity = "pressure"\noptional = true\n'
    yard.change(TIRE, "[values.max_load_single]", declared + "[values.max_load_single]")
    yard.change(TIRE, 'say.en = "Look over tread and sidewalls."', 'say.en = "It bursts at {burst}."')
    yard.change(TIRE, 'say.es = "Revise el dibujo y los costados."', 'say.es = "Revienta a {burst}."')
    message = "\n".join(map(str, lint_everything(load(yard.catalogue))))
    assert "burst" in message


def test_a_loop_of_orders_is_named_act_by_act(yard: SmallYard) -> None:
    yard.change(COUPLER, 'id = "lower"', 'id = "lower"\nneeds_before = ["lift"]')
    message = "\n".join(map(str, lint_everything(load(yard.catalogue))))
    assert "in a loop" in message
    assert all(f"coupler:{act}" in message for act in ("lower", "latch", "lift"))


def test_an_order_the_walk_cannot_keep_is_named(yard: SmallYard) -> None:
    yard.change(TIRE, 'id = "wait"', 'id = "wait"\nneeds_before = ["coupler:lift"]')
    message = "\n".join(map(str, lint_everything(load(yard.catalogue))))
    assert "coupler:lift before tires:wait" in message


def test_a_text_that_leans_on_a_slot_some_combination_leaves_empty_is_found(yard: SmallYard) -> None:
    path = yard.folder / TRAILER
    path.write_text(
        path.read_text(encoding="utf-8")
        + '\n[options.no_floor]\nname = { en = "No floor", es = "Sin piso" }\nempties = ["floor"]\n',
        encoding="utf-8",
    )
    yard.change(COUPLER, 'look.en = "Ball size. Then', 'look.en = "Ball size. Not {floor.wheel_load}. Then')
    yard.change(
        COUPLER,
        'look.es = "Medida de la bola. Luego',
        'look.es = "Medida de la bola. No {floor.wheel_load}. Luego',
    )
    message = "\n".join(map(str, lint_everything(load(yard.catalogue))))
    assert "slot floor, which is empty with no_floor" in message
