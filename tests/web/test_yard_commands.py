"""`sendoff yard` as a person runs it: init, add, audit after a change by hand, backup and restore, a kill -9."""

from __future__ import annotations

import re
import sqlite3
import stat
from contextlib import closing
from pathlib import Path

import pytest

from proofs import prove_yard_kill
from tests.cli.running import apart
from tests.web.config_for_tests import EXAMPLE


@pytest.fixture(scope="module")
def yard(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("yards") / "mine"
    folder.mkdir()
    for name in ("catalogue", "yard.toml", "trucks", "cargo"):
        (folder / name).symlink_to(EXAMPLE / name)
    done = apart("yard", "init", folder, "--name", "P. Moreno", "--login", "pat", settings=NO_SETTINGS)
    assert done.returncode == 0, done.stderr
    text = done.stdout.decode()
    assert re.search(r"http://localhost:8400/invitation/[\w-]{20,}/", text)
    sheets = [EXAMPLE / "sheets" / f"{name}.toml" for name in ("qb-0203", "qb-0207")]
    done = apart("yard", "add", folder, *sheets, sheets[0], settings=NO_SETTINGS)
    assert done.returncode == 2, "the second time the first sheet is refused"
    assert "2 of 3 units taken in" in done.stdout.decode()
    return folder


NO_SETTINGS = {"DJANGO_SETTINGS_MODULE": "sendoff.web.config"}


def audit(folder: Path) -> tuple[int, str]:
    done = apart("yard", "audit", folder, settings=NO_SETTINGS)
    return done.returncode, done.stdout.decode()


def test_the_secret_is_for_its_owner_alone_and_a_second_init_changes_nothing(yard: Path) -> None:
    assert stat.S_IMODE((yard / "secret").stat().st_mode) == 0o600
    before = (yard / "secret").read_text(encoding="ascii")
    assert apart("yard", "init", yard, settings=NO_SETTINGS).returncode == 0
    assert (yard / "secret").read_text(encoding="ascii") == before


def test_the_audit_names_the_entry_that_was_changed_by_hand_and_a_backup_holds_what_was_there(
    yard: Path, tmp_path: Path
) -> None:
    code, told = audit(yard)
    assert (code, "2 units" in told) == (0, True)
    archive = tmp_path / "yard.tar.gz"
    assert apart("yard", "backup", yard, archive, settings=NO_SETTINGS).returncode == 0
    assert stat.S_IMODE(archive.stat().st_mode) == 0o600
    with closing(sqlite3.connect(yard / "books" / "yard.sqlite3")) as books:
        books.execute(
            "update yard_link set body = replace(body, '\"number\":1', '\"number\":7') where number = 1"
        )
        books.commit()
    code, told = audit(yard)
    assert code == 1
    assert "QB-0203, entry 1: its text was changed after it was written" in told
    again = tmp_path / "again"
    assert apart("yard", "restore", archive, again, settings=NO_SETTINGS).returncode == 0
    code, told = audit(again)
    assert (code, "2 units" in told) == (0, True)
    assert apart("yard", "restore", archive, again, settings=NO_SETTINGS).returncode == 2, (
        "never over something"
    )


def test_a_folder_without_a_yard_and_a_wrong_setting_are_one_plain_line(tmp_path: Path, yard: Path) -> None:
    done = apart("yard", "audit", tmp_path, settings=NO_SETTINGS)
    assert done.returncode == 2
    assert b"sendoff yard init DIR" in done.stderr
    assert b"Traceback" not in done.stderr
    done = apart("yard", "audit", yard, settings=NO_SETTINGS | {"SENDOFF_PROT": "8400"})
    assert (done.returncode, b"SENDOFF_PROT" in done.stderr) == (2, True)


def test_nothing_acknowledged_is_lost_when_the_server_is_killed() -> None:
    """The fixed slice of proofs/prove_yard_kill.py: two kills."""
    found = prove_yard_kill.step("slice", kills=2)
    assert int(found["acknowledged"]) > 0
