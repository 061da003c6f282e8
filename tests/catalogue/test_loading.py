"""Reading the files of a yard: every fault is found, told with file, key, value and cure, and none hides another."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sendoff.catalogue.load import find_folder, load
from sendoff.catalogue.loading import read_record, read_toml
from sendoff.catalogue.schema import Card
from sendoff.errors import FaultyInput
from tests.yards import SmallYard


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


TIRE = "catalogue/cards/running_gear/my_tire.toml"
TRAILER = "catalogue/trailers/small_flat.toml"

FAULTS = [
    (TIRE, 'cold_pressure = "52 psi"', 'cold_pressure = "52"', ("cold_pressure", "the unit is missing", "Use one of: Pa")),  # noqa: E501
    (TIRE, 'cold_pressure = "52 psi"', 'cold_pressure = "52 lb"', ("cold_pressure", "not a unit of pressure")),
    (TIRE, 'cold_pressure = "52 psi"', "cold_pressure = 52", ("cold_pressure", "needs its unit")),
    (TIRE, 'cold_pressure = "52 psi"', "cold_pressure = 52.5", ("cold_pressure", "decimal point needs its unit")),
    (TIRE, 'cold_pressure = "52 psi"\n', "", ("cold_pressure", "does not give the value")),
    (TIRE, 'sources = ["invented:starter"]', 'sources = ["a_book"]', ("sources", "a_book", "no such source")),
    (TIRE, 'sources = ["invented:starter"]', "sources = []", ("sources", "at least 1 entry must stand here")),
    (TIRE, 'id = "my_tire"', 'id = "other_tire"', ("the file is named otherwise", "other_tire.toml")),
    (TIRE, 'signal = "warning"', 'signal = "attention"', ("caution[1].signal", "attention")),
    (TIRE, 'say.en = "Read each tire with a gauge."\n', "", ("step[2].say", "'en' is missing")),
    (TIRE, "say.es.hazard", "say.fr.hazard", ("caution[1].say.es.hazard", "'hazard' is missing")),
    (TIRE, 'id = "fill"', 'id = "read"', ("read", "used twice")),
    (TIRE, 'needs_before = ["read"]', 'needs_before = ["look"]', ("fill", "look", "no such step or check")),
    (TIRE, 'target = "cold_pressure"', 'target = "warm_pressure"', ("warm_pressure", "no such value")),
    (TIRE, 'ask = "cold_pressure"', 'ask = "cold_pressure"\norder = ["wait", "read", "fill"]', ("which_pressure", "one of them")),  # noqa: E501
    (TIRE, 'how = "measured"', 'how = "seen"', ("only a measured check",)),
    (TIRE, 'system = "running_gear"', 'system = "running_gear"\ncolor = "black"', ("color", "not a key used here")),
    (TRAILER, 'standard = "my_tire/range_c"', 'standard = "my_tire/range_z"', ("range_z", "no such variant")),
    (TRAILER, 'standard = "my_floor/plank"', 'standard = "other_floor/plank"', ("other_floor", "no such part card")),
    (TRAILER, 'station = "deck"', 'station = "dock"', ("dock", "no such station")),
    (TRAILER, 'gawr = ["2400 lb"]', 'gawr = ["2400 lb", "2400 lb"]', ("labels.gawr", "1 axle")),
    (TRAILER, 'side = "in: 48,15 144,15 144,19 48,19"', 'side = "48,15 144,15"', ("member[1].side", "not an outline")),
    (TRAILER, 'gvwr = "2400 lb"', 'gvwr = "2400 psi"', ("labels.gvwr", "not a unit of mass")),
    (TRAILER, "schema = 1", "schema = 2", ("schema",)),
    ("yard.toml", 'walk = "left_side_first"', 'walk = "any"', ("yard.toml", "walk", "any")),
    ("catalogue/sentences.toml", "schema = 1", "schema = 1\nx = = 2", ("sentences.toml", "not TOML")),
]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "old", "new", "told"), FAULTS, ids=lambda value: value if isinstance(value, str) else ""
)
def test_a_planted_fault_is_told_with_its_key_and_cure(
    yard: SmallYard, name: str, old: str, new: str, told: tuple[str, ...]
) -> None:
    yard.change(name, old, new)
    with pytest.raises(FaultyInput) as refused:
        load(yard.catalogue)
    message = str(refused.value)
    assert all(words in message for words in told), message
    assert all(fault.cure and fault.file for fault in refused.value.faults)


OPTIONAL = 'quantity = "pressure"\nrole = "set_point"\nsheet = "pressure"\n'


def test_a_value_its_maker_does_not_always_tell_may_be_left_out(yard: SmallYard) -> None:
    declared = '[values.burst]\nsay = { en = "Bursts at", es = "Revienta a" }\nquantity = "pressure"\noptional = true\n'
    yard.change(TIRE, "[values.max_load_single]", declared + "[values.max_load_single]")
    assert "burst" not in load(yard.catalogue).cards["my_tire"].variants["range_c"].values


def test_no_check_and_no_question_may_lean_on_an_optional_value(yard: SmallYard) -> None:
    """Left out it would leave a check without a target and a question without an answer."""
    yard.change(TIRE, OPTIONAL, OPTIONAL + "optional = true\n")
    with pytest.raises(FaultyInput) as refused:
        load(yard.catalogue)
    assert "check.pressure.target" in str(refused.value)
    assert "show_me.which_pressure.ask" in str(refused.value)


def test_all_faults_of_all_files_are_told_at_once(yard: SmallYard) -> None:
    yard.change(TIRE, 'quantity = "pressure"\nrole', 'quantity = "presure"\nrole')
    yard.change(TIRE, 'signal = "warning"', 'signal = "loud"')
    yard.change(TIRE, 'say.es = "Mida cada llanta con un manómetro."\n', "")
    yard.change(TRAILER, 'gvwr = "2400 lb"', "gvwr = 2400")
    with pytest.raises(FaultyInput) as refused:
        load(yard.catalogue)
    assert len(refused.value.faults) == 4


def test_a_caution_without_one_of_the_languages_is_refused(yard: SmallYard) -> None:
    path = yard.folder / TIRE
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("say.es.", "say.fr."), encoding="utf-8")
    with pytest.raises(FaultyInput, match=r"caution\[1\]\.say: the caution in 'es' is missing"):
        load(yard.catalogue)


def test_the_same_id_in_two_files_is_refused(yard: SmallYard) -> None:
    path = yard.folder / "catalogue/cards/deck/my_tire.toml"
    path.write_text((yard.folder / TIRE).read_text(encoding="utf-8"), encoding="utf-8")
    with pytest.raises(FaultyInput, match="has the same id"):
        load(yard.catalogue)


def test_a_huge_file_is_refused_by_its_size(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    path.write_text("# " + "x" * 1_100_000, encoding="utf-8")
    with pytest.raises(FaultyInput, match="too large"):
        read_toml(path, "huge.toml")


@pytest.mark.parametrize(
    "text", ["a = " + "[" * 5000 + "]" * 5000, "[" + ".".join("a" * 1 for _ in range(40)) + "]\nx = 1"]
)
def test_a_deep_file_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "deep.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(FaultyInput, match=r"nested too deeply|not TOML"):
        read_toml(path, "deep.toml")


def test_bytes_that_are_no_text_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "bytes.toml"
    path.write_bytes(b"\xff\xfe\x00\x00")
    with pytest.raises(FaultyInput, match="not UTF-8"):
        read_toml(path, "bytes.toml")


def test_no_catalogue_says_how_to_get_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SENDOFF_CATALOGUE", raising=False)
    with pytest.raises(FaultyInput, match="sendoff catalogue new DIR"):
        find_folder(None, tmp_path / "sheet.toml")


def test_the_catalogue_beside_a_sheet_is_found(yard: SmallYard, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SENDOFF_CATALOGUE", raising=False)
    assert find_folder(None, yard.sheet) == yard.catalogue.resolve()
    monkeypatch.setenv("SENDOFF_CATALOGUE", str(yard.folder))
    assert find_folder(None, Path("nowhere.toml")) == yard.catalogue


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=20,
)


@given(st.dictionaries(st.sampled_from([*Card.__struct_encode_fields__, "x"]), JSON, max_size=8))
def test_any_tables_give_a_card_or_faults_with_cures(tables: dict[str, object]) -> None:
    try:
        read_record(tables, Card, "card.toml")
    except FaultyInput as error:
        refused = error
    else:
        return
    assert refused.faults
    assert all(fault.problem and fault.cure for fault in refused.faults)
