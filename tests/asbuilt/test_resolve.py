"""From build sheet to as-built unit: what is fitted, why, where; and everything wrong told at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from sendoff.asbuilt.new_sheet import commented_sheet, new_public_id
from sendoff.asbuilt.resolve import as_built
from sendoff.asbuilt.unit import from_json, to_json
from sendoff.catalogue.load import load
from sendoff.errors import FaultyInput
from tests.yards import SmallYard


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


def test_an_option_fits_its_variant_and_says_why(yard: SmallYard) -> None:
    unit = as_built(yard.sheet, load(yard.catalogue))
    tires = unit.part("tires")
    assert tires is not None
    assert (tires.variant, tires.why.by, tires.why.options) == ("range_d", "option", ("stronger_tires",))
    assert tires.values["cold_pressure"].given == "67 psi"
    assert tires.values["cold_pressure"].si == pytest.approx(67 * 6894.757293168)
    assert [(place.id, round(place.y_m, 4)) for place in tires.places] == [
        ("left_1", -0.8382),
        ("right_1", 0.8382),
    ]
    coupler = unit.part("coupler")
    assert coupler is not None
    assert coupler.why.by == "standard"


def test_unit_json_reads_back_the_same(yard: SmallYard) -> None:
    unit = as_built(yard.sheet, load(yard.catalogue))
    assert from_json(to_json(unit)) == unit
    assert to_json(from_json(to_json(unit))) == to_json(unit)


def test_the_digest_changes_with_catalogue_and_sheet(yard: SmallYard) -> None:
    first = as_built(yard.sheet, load(yard.catalogue)).digests
    yard.change("catalogue/cards/deck/my_floor.toml", '"700 lb"', '"701 lb"')
    second = as_built(yard.sheet, load(yard.catalogue)).digests
    yard.change("sheets/t-1.toml", "loads = 8", "loads = 9")
    third = as_built(yard.sheet, load(yard.catalogue)).digests
    assert first.sheet == second.sheet != third.sheet
    assert first.catalogue != second.catalogue == third.catalogue


FAULTS = [
    ('type = "small_flat"', 'type = "large_flat"', "no such trailer type"),
    ('options = ["stronger_tires"]', 'options = ["gold_rims"]', "has no such option"),
    ('options = ["stronger_tires"]', 'options = ["stronger_tires", "stronger_tires"]', "named twice"),
    ('vin = "1X9SF081XTYKB4019"', 'vin = "1X9SF081XTYKB4O19"', "must not hold 'O'"),
    ('vin = "1X9SF081XTYKB4019"', 'vin = "1X9SF081XTYKB401"', "17"),
    ('vin = "1X9SF081XTYKB4019"', 'vin = "1X9SF081XTYKB4018"', "place 9"),
    ("built = 2026-10-14", 'built = "yesterday"', "built"),
    ("built = 2026-10-14", "built = 1926-10-14", "no unit of this yard is that old"),
    ("on = 2026-11-20", "on = 2026-09-20", "before it was built"),
    ('left_1 = { tin = "DOT 1AB CDEF12 2026" }', 'left_1 = { tin = "DOT 1AB CDEF12 5426" }', "left_1"),
    ('left_1 = { tin = "DOT 1AB CDEF12 2026" }', 'left_9 = { tin = "DOT 1AB CDEF12 2026" }', "no such place"),
    ('left_1 = { tin = "DOT 1AB CDEF12 2026" }', "", "have no row"),
    ('left_1 = { tin = "DOT 1AB CDEF12 2026" }', 'left_1 = { tin = "DOT 1AB CDEF12 4826" }', "made after the unit"),
    ('public_id = "23456789AB"', 'public_id = "23456789A0"', "public_id"),
    ('name = "A. Person"', 'name = "A. \\u202ePerson"', "direction mark"),
    ('name = "A. Person"', 'name = ""', "the text is empty"),
    ("miles = 800", "miles = 80000000", "miles"),
    ("miles = 800", "miles = -1", "miles"),
    ('unit = "T-1"', "unit = 1", "a text is expected"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "told"), FAULTS)
def test_a_faulty_sheet_is_refused_in_one_clear_message(
    yard: SmallYard, old: str, new: str, told: str
) -> None:
    yard.change("sheets/t-1.toml", old, new)
    with pytest.raises(FaultyInput) as refused:
        as_built(yard.sheet, load(yard.catalogue))
    assert told in str(refused.value), str(refused.value)
    assert all(fault.file == str(yard.sheet) and fault.cure for fault in refused.value.faults)


def test_a_new_sheet_needs_only_its_blanks_filled(yard: SmallYard) -> None:
    catalogue = load(yard.catalogue)
    text = commented_sheet("small_flat", catalogue)
    filled = (
        text.replace('unit = "…"', 'unit = "N-1"')
        .replace('vin = "…"', 'vin = "1X9SF081XTYKB4019"')
        .replace('name = "…"', 'name = "B. Person"')
    )
    yard.sheet.write_text(filled, encoding="utf-8")
    unit = as_built(yard.sheet, catalogue)
    assert unit.unit == "N-1"
    assert unit.options == ()


def test_public_ids_hold_no_sign_that_is_read_for_another() -> None:
    assert not set("".join(new_public_id() for _ in range(200))) & set("0O1I")
