"""Bad input as a person meets it: exit code 2, one clear line with file, field, value, cure; nothing half-written."""

from __future__ import annotations

import os
import secrets
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.running import Done, apart, files_in, run
from tests.yards import SHEET, SmallYard

TRACEBACK = "Traceback"


@pytest.fixture
def yard(tmp_path: Path) -> SmallYard:
    return SmallYard(tmp_path)


def refused(done: Done, *words: str, lines: int | None = 1) -> str:
    """See that a command was refused in so many lines, and that they hold these words."""
    assert done.code == 2, (done.out, done.err)
    assert TRACEBACK not in done.out + done.err
    assert all(word in done.err for word in words), done.err
    told = done.err.strip().splitlines()
    assert lines is None or len(told) == lines, done.err
    assert all(line.endswith((".", "…", "DIR")) for line in told), done.err
    return done.err


def both_refuse(yard: SmallYard, sheet: Path, *words: str, lines: int | None = 1) -> None:
    """See that findings and pack refuse a sheet alike, and that the pack leaves nothing behind."""
    said = refused(run("findings", sheet, "--catalogue", yard.folder), *words, lines=lines)
    out = yard.folder / "out"
    assert refused(run("pack", sheet, "-o", out, "--catalogue", yard.folder), lines=lines) == said
    assert files_in(out) == []


# ── the file itself ─────────────────────────────────────────────────────────────────────────────────────────────────

Writing = Callable[[Path], object]
FILES: dict[str, tuple[Writing, str]] = {
    "not there": (lambda path: None, "No such file"),
    "empty": (lambda path: path.write_text(""), "nothing is written in it"),
    "only notes": (lambda path: path.write_text("# nothing yet\n"), "nothing is written in it"),
    "a folder": (lambda path: path.mkdir(), "that is a folder"),
    "a broken link": (lambda path: path.symlink_to("nowhere.toml"), "No such file"),
    "a link to itself": (lambda path: path.symlink_to(path), "cannot be read"),
    "a pipe": (os.mkfifo, "that is no file"),
    "a device": (lambda path: path.symlink_to("/dev/zero"), "that is no file"),
    "not TOML": (lambda path: path.write_text("unit: T-1\n"), "not TOML"),
    "a table of another program": (lambda path: path.write_text('{"unit": "T-1"}'), "not TOML"),
    "huge": (lambda path: path.write_text("# " + "x" * 1_500_000), "too large"),
    "deep lists": (lambda path: path.write_text("a = " + "[" * 9000 + "]" * 9000), "nested too deeply"),
    "deep tables": (lambda path: path.write_text("a." * 9000 + "b = 1"), "nested too deeply"),
    "deep headings": (lambda path: path.write_text("[" + ".".join("a" * 300) + "]\nx = 1"), "nested too deeply"),
    "noise": (lambda path: path.write_bytes(b"\x93\x00\xff\xfe" * 99), "not UTF-8"),
    "UTF-16": (lambda path: path.write_text(SHEET, encoding="utf-16"), "not UTF-8"),
    "Latin letters": (lambda path: path.write_bytes('name = "Núñez"'.encode("latin-1")), "not UTF-8"),
    "a zero byte": (lambda path: path.write_text('unit = "\0"'), "not TOML"),
}  # fmt: skip


@pytest.mark.parametrize("kind", FILES)
def test_a_file_that_is_no_build_sheet_is_refused_by_name(yard: SmallYard, kind: str) -> None:
    write, told = FILES[kind]
    path = yard.folder / "sheets" / "odd.toml"
    write(path)
    both_refuse(yard, path, str(path), told)


def test_one_key_twice_is_refused_with_its_line(yard: SmallYard) -> None:
    yard.sheet.write_text('unit = "T-1"\nunit = "T-2"\n', encoding="utf-8")
    both_refuse(yard, yard.sheet, "not TOML", "line 2")


@pytest.mark.parametrize(
    "where", ["catalogue/cards/deck/odd.toml", "catalogue/trailers/odd.toml", "yard.toml"]
)
@pytest.mark.parametrize("kind", ["empty", "not TOML", "deep lists", "noise", "huge"])
def test_a_file_of_the_catalogue_that_is_none_is_named(yard: SmallYard, kind: str, where: str) -> None:
    write, told = FILES[kind]
    write(yard.folder / where)
    both_refuse(yard, yard.sheet, where.removeprefix("catalogue/"), told)
    refused(run("catalogue", "lint", yard.folder), told, "1 fault in", lines=2)


@pytest.mark.parametrize("change", ["bom", "crlf"])
def test_what_other_editors_save_is_read(yard: SmallYard, change: str) -> None:
    data = yard.sheet.read_bytes()
    yard.sheet.write_bytes(b"\xef\xbb\xbf" + data if change == "bom" else data.replace(b"\n", b"\r\n"))
    assert run("findings", yard.sheet).code == 3


def test_a_name_full_of_signals_reaches_the_screen_without_them(yard: SmallYard) -> None:
    told = refused(run("findings", yard.folder / "a\x1b[31m\nb.toml"))
    assert "\x1b" not in told


# ── what stands in a sheet ──────────────────────────────────────────────────────────────────────────────────────────

SHEETS = [
    ('unit = "T-1"', "unit = 1", ("unit", "a text is expected", "quotation marks")),
    ('unit = "T-1"', 'unit = "…"', ("unit", "still to be filled in")),
    ('unit = "T-1"', f'unit = "{"9" * 60}"', ("unit", "fits on no label", "24")),
    ('unit = "T-1"', 'unit = ["T-1"]', ("unit", "a text is expected")),
    ("schema = 1\n", "", ("schema", "is missing", "Add a line")),
    ("schema = 1\n", "schema = 2\n", ("schema", "Use one of: 1")),
    ('type = "small_flat"', 'type = "large_flat"', ("type", "large_flat", "Use one of: small_flat")),
    ('type = "small_flat"', 'type = "../../etc/passwd"', ("type", "cannot stand here")),
    ('options = ["stronger_tires"]', 'options = ["wings"]', ("options", "wings", "Use some of: stronger_tires")),
    ('options = ["stronger_tires"]', 'options = "stronger_tires"', ("options", "a list is expected")),
    ('options = ["stronger_tires"]', "options = [7]", ("options[1]", "a text is expected")),
    ("1X9SF081XTYKB4019", "1X9SF081XTYKB4O19", ("vin", "must not hold 'O'", "letter by letter")),
    ("1X9SF081XTYKB4019", "1X9SF08IXTYKB4019", ("vin", "must not hold 'I'")),
    ("1X9SF081XTYKB4019", "QX9SF081XTYKB4019", ("vin", "must not hold 'Q'")),
    ("1X9SF081XTYKB4019", "1X9SF0811TYKB4019", ("vin", "place 9 is 1 and must be X")),
    ("1X9SF081XTYKB4019", "1X9SF081XTYKB401", ("vin", "17 characters, this has 16")),
    ("1X9SF081XTYKB4019", "1X9SF081XTYKB4Ñ19", ("vin", "1X9SF081XTYKB4Ñ19")),
    ("1X9SF081XTYKB4019", "1X9SF081XTYKB4019" * 30, ("vin", "17 characters")),
    ("built = 2026-10-14", 'built = "one day"', ("built", "no day of the calendar")),
    ("built = 2026-10-14", "built = 2026-10-14T08:00:00", ("built", "not a day with a time")),
    ("built = 2026-10-14", "built = 1066-10-14", ("built", "no unit of this yard is that old")),
    ("on = 2026-11-20", "on = 9999-11-20", ("collects.on", "too far off")),
    ("on = 2026-11-20", "on = 2026-01-20", ("collects.on", "before it was built")),
    ('who = "owner"', 'who = "a thief"', ("collects.who", "a thief", "hired_driver")),
    ("miles = 800", "miles = 8e9", ("owner.use.miles", "decimal point")),
    ("miles = 800", "miles = 99999999", ("owner.use.miles", "at most 100,000")),
    ("miles = 800", "miles = -1", ("owner.use.miles", "at least 0")),
    ("miles = 800", "mile = 800", ("owner.use.mile", "not a key used here")),
    ('name = "A. Person"', 'name = ""', ("owner.name", "the text is empty")),
    ('name = "A. Person"', f'name = "{"A" * 5000}"', ("owner.name", "5000 characters")),
    ('name = "A. Person"', 'name = "A. \\u202enosreP"', ("owner.name", "direction mark (U+202E)")),
    ('name = "A. Person"', 'name = "A.\\u200f Person"', ("owner.name", "direction mark (U+200F)")),
    ('name = "A. Person"', 'name = "A. 山田"', ("owner.name", "no sign '山' (U+5C71)")),
    ('name = "A. Person"', 'name = "A. 🛻"', ("owner.name", "(U+1F6FB)")),
    ('name = "A. Person"', 'name = "A.\\u0007Person"', ("owner.name", "no page can show (U+0007)")),
    ('name = "A. Person"', 'name = "A.\\u0000Person"', ("owner.name", "(U+0000)")),
    ('right_1 = { tin = "DOT 1AB CDEF12 2026" }', 'right_1 = { tin = "DOT 1AB CDEF12 5426" }', ("right_1.tin", "week from 01 to 52")),  # noqa: E501
    ('right_1 = { tin = "DOT 1AB CDEF12 2026" }', 'right_1 = { tin = "DOT 1AB CDEF12 0026" }', ("right_1.tin", "week from 01")),  # noqa: E501
    ('right_1 = { tin = "DOT 1AB CDEF12 2026" }', 'right_1 = { tin = "DOT 1AB CDEF12 5126" }', ("right_1.tin", "made after the unit")),  # noqa: E501
    ('right_1 = { tin = "DOT 1AB CDEF12 2026" }', 'middle = { tin = "DOT 1AB CDEF12 2026" }', ("parts.tires", "middle")),  # noqa: E501
    ("[parts.tires]", "[parts.wings]", ("parts.wings", "nothing is fitted in that slot")),
    ('public_id = "23456789AB"', 'public_id = "0O1I"', ("public_id", "sendoff new makes one")),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "words"), SHEETS, ids=[new[:40] for _, new, _ in SHEETS])
def test_a_mistake_in_a_sheet_is_told_where_it_stands(
    yard: SmallYard, old: str, new: str, words: tuple[str, ...]
) -> None:
    yard.change("sheets/t-1.toml", old, new)
    both_refuse(
        yard,
        yard.sheet,
        str(yard.sheet),
        *words,
        lines={"middle": 2, "built = 1066-10-14": 3}.get(new.partition(" = {")[0], 1),
    )


TICKET = '\n[[ticket]]\non = 2026-10-16\nwhat = "whole"\ncoupled = false\nmass = "560 lb"\n'
TICKETS = [
    ('"560 lb"', '"… lb"', ("ticket[1].mass", "still to be filled in")),
    ('"560 lb"', "560", ("ticket[1].mass", "needs its unit", "12 kg")),
    ('"560 lb"', '"560"', ("ticket[1].mass", "the unit is missing", "lb")),
    ('"560 lb"', '"560 psi"', ("ticket[1].mass", "'psi' is not a unit of mass")),
    ('"560 lb"', '"-560 lb"', ("ticket[1].mass", "never below zero")),
    ('"560 lb"', '"1e99 lb"', ("ticket[1].mass", "no trailer has such a mass")),
    ('"560 lb"', '"5,60 lb"', ("ticket[1].mass",)),
    ('"560 lb"', '"560 lb 3 oz 2 g"', ("ticket[1].mass", "more than one value")),
    ('"whole"', '"half"', ("ticket[1].what", "whole, coupling, axle_group")),
    ("coupled = false", 'coupled = "no"', ("ticket[1].coupled", "true or false")),
    ("on = 2026-10-16", "on = 2026-10-01", ("ticket[1].on", "before it was built")),
    ("[[ticket]]", "[ticket]", ("ticket", "a list is expected")),
]


@pytest.mark.parametrize(("old", "new", "words"), TICKETS, ids=[new for _, new, _ in TICKETS])
def test_a_mistake_in_a_weighing_is_told_where_it_stands(
    yard: SmallYard, old: str, new: str, words: tuple[str, ...]
) -> None:
    yard.sheet.write_text(SHEET + TICKET.replace(old, new), encoding="utf-8")
    both_refuse(yard, yard.sheet, str(yard.sheet), *words)


def test_an_excluded_combination_says_which_option_to_leave_out(yard: SmallYard) -> None:
    path = yard.folder / "catalogue/trailers/small_flat.toml"
    more = '\n[options.rack]\nname = { en = "Rack", es = "Rejilla" }\nexcludes = ["stronger_tires"]\n'
    more += 'fits = { floor = "my_floor/plank" }\n'
    path.write_text(path.read_text("utf-8") + more, encoding="utf-8")
    yard.change("sheets/t-1.toml", '["stronger_tires"]', '["stronger_tires", "rack"]')
    both_refuse(yard, yard.sheet, "options", "rack", "stronger_tires")


def test_all_that_a_fresh_sheet_still_needs_is_told_at_once(yard: SmallYard) -> None:
    sheet = yard.folder / "sheets" / "fresh.toml"
    assert run("new", "small_flat", "-o", sheet).code == 0
    both_refuse(yard, sheet, "unit: it is still", "vin: it is still", "owner.name: it is still", lines=3)


@pytest.mark.parametrize("what", ["truck", "cargo"])
def test_a_truck_or_cargo_that_is_not_there_is_asked_of_the_sheet_that_names_it(
    yard: SmallYard, what: str
) -> None:
    yard.change("sheets/t-1.toml", "schema = 1", f'schema = 1\n{what} = "nobody"')
    both_refuse(yard, yard.sheet, f"{yard.sheet}: {what}", "nobody.toml", f"{what}")


@pytest.mark.parametrize("what", ["truck", "cargo"])
def test_a_faulty_truck_or_cargo_is_named_by_its_own_file(yard: SmallYard, what: str) -> None:
    path = yard.folder / f"{what}.toml"
    path.write_text('schema = 1\nid = "x"\nsources = ["invented:x"]\nname = 4\n', encoding="utf-8")
    done = run("findings", yard.sheet, f"--{what}", path)
    refused(done, str(path), "is missing", lines=None)


# ── words, folders, settings ────────────────────────────────────────────────────────────────────────────────────────


def test_a_sheet_given_twice_is_made_once(yard: SmallYard) -> None:
    done = run("pack", yard.sheet, yard.sheet, "-o", yard.folder / "out", "--date", "2026-11-25")
    assert (done.code, done.err) == (0, "")
    assert "1 of 1 packs made" in done.out
    assert files_in(yard.folder / "out")[0] == "T-1"


def test_two_sheets_with_one_unit_number_are_refused_before_anything_is_made(yard: SmallYard) -> None:
    other = yard.sheet.with_name("other.toml")
    other.write_text(SHEET.replace("23456789AB", "23456789AC"), encoding="utf-8")
    out = yard.folder / "out"
    refused(run("pack", yard.sheet, other, "-o", out), str(other), "unit", "T-1", "its own number")
    assert files_in(out) == []


def test_one_bad_sheet_does_not_keep_the_others_from_being_made(yard: SmallYard) -> None:
    other = yard.sheet.with_name("other.toml")
    other.write_text(SHEET.replace("T-1", "T-2").replace("1X9SF081XTYKB4019", "?"), encoding="utf-8")
    out = yard.folder / "out"
    done = run("pack", other, yard.sheet, "-o", out, "--date", "2026-11-25")
    refused(done, str(other), "vin")
    assert "1 of 2 packs made" in done.out
    assert [path.name for path in out.iterdir()] == ["T-1"]


@pytest.mark.parametrize(
    "words",
    [
        ("pack", "SHEET", "-o", "/proc/self/fd/x"),
        ("pack", "SHEET", "-o", "FILE"),
        ("pack", "SHEET", "-o", "FILE/deeper"),
        ("new", "small_flat", "-o", "FILE/x.toml", "--catalogue", "YARD"),
        ("new", "small_flat", "-o", "FILE", "--catalogue", "YARD"),
        ("new", "small_flat", "-o", "YARD", "--catalogue", "YARD"),
        ("catalogue", "new", "FILE"),
        ("catalogue", "new", "YARD"),
        ("catalogue", "new", "FILE/deeper"),
        ("catalogue", "schemas", "FILE"),
        ("catalogue", "schemas", "/proc/self/fd/x"),
    ],
    ids=" ".join,
)
def test_a_place_that_cannot_be_written_is_named_and_nothing_changes(
    yard: SmallYard, words: tuple[str, ...]
) -> None:
    file = yard.folder / "a file"
    file.write_text("as it was", encoding="utf-8")
    before = files_in(yard.folder)
    places = {"SHEET": yard.sheet, "FILE": file, "YARD": yard.folder}
    done = run(
        *(
            word.replace(name, str(places[name])) if (name := word.partition("/")[0]) in places else word
            for word in words
        )
    )
    refused(done, "ame a")
    assert file.read_text("utf-8") == "as it was"
    assert files_in(yard.folder) == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("findings", "SHEET", "--date", "someday"), "no day of the calendar"),
        (("findings", "SHEET", "--date", "2026-02-30"), "no day of the calendar"),
        (("pack", "SHEET", "--date", "9999-12-31"), "too far off"),
        (("findings", "SHEET", "--catalogue", "/nowhere"), "there is no catalogue in that folder"),
        (("findings", "SHEET", "--truck", "/nowhere.toml"), "No such file"),
        (("new", "jet_boat", "--catalogue", "YARD"), "Use one of: small_flat"),
        (("catalogue", "lint", "/nowhere"), "there is no catalogue in that folder"),
        (("catalogue", "lint", "SHEET"), "there is no catalogue in that folder"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_a_wrong_word_on_the_command_line_is_told(yard: SmallYard, words: tuple[str, ...], told: str) -> None:
    places = {"SHEET": str(yard.sheet), "YARD": str(yard.folder)}
    refused(run(*(places.get(word, word) for word in words)), told)


@pytest.mark.parametrize(
    "words",
    [
        ("fly",), ("findings",), ("pack",), ("new",), ("catalogue", "fly"), ("findings", "x.toml", "--fly"),
        ("pack", "x.toml", "-j", "0"), ("pack", "x.toml", "-j", "many"), ("pack", "x.toml", "--language", "fr"),
        ("pack", "x.toml", "--units", "cubits"), ("calc", "fly"), ("calc", "vin_check_digit", "vin"),
        ("calc", "vin_check_digit", "vin=1", "vin=2"), ("calc", "vin_check_digit", "win=1"),
    ],
    ids=" ".join,
)  # fmt: skip
def test_words_no_command_has_end_with_two_and_a_hint(words: tuple[str, ...]) -> None:
    done = run(*words)
    assert (done.code, done.out) == (2, "")
    assert done.err.strip()
    assert TRACEBACK not in done.err


@pytest.mark.parametrize("value", ["/nowhere", "/etc/passwd", "\n", "a\x1bb"])
def test_a_wrong_setting_is_named(yard: SmallYard, monkeypatch: pytest.MonkeyPatch, value: str) -> None:
    monkeypatch.setenv("SENDOFF_CATALOGUE", value)
    refused(run("findings", yard.sheet), "SENDOFF_CATALOGUE", "there is no catalogue in that folder")


def test_an_empty_setting_is_none(yard: SmallYard, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SENDOFF_CATALOGUE", "")
    assert run("findings", yard.sheet).code == 3


def test_without_any_catalogue_the_cure_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for words in (("catalogue", "lint"), ("catalogue", "count"), ("new", "small_flat")):
        refused(run(*words), "no catalogue was found", "sendoff catalogue new DIR")


def test_any_bytes_as_words_are_refused_plainly(yard: SmallYard) -> None:
    for _ in range(3):
        name = os.fsdecode(b"\xff\xfe" + secrets.token_bytes(6).replace(b"\0", b"").replace(b"/", b""))
        done = apart("findings", name, cwd=yard.folder)
        assert done.returncode == 2
        assert TRACEBACK.encode() not in done.stderr
