"""The machinery of `make prove`: it finds failures, remembers what is done, and forgets it when the code changes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from proofs import runner

PROOF = '''"""A proof for these tests."""
from pathlib import Path
TITLE = "Small numbers are small."
BOOK = Path(__file__).with_name("calls.txt")

def keys():
    return ["1", "2", "30"]

def step(key):
    with BOOK.open("a") as book:
        book.write(key + "\\n")
    assert int(key) < {limit}, f"{{key}} is not small"
    return {{"numbers": 1, "largest": float(key)}}

def conclude(figures):
    return f"{{len(figures)}} numbers looked at."
'''


@pytest.fixture
def written(tmp_path: Path, request: pytest.FixtureRequest) -> Path:
    """A proof in a file of its own; the parameter is the limit it holds numbers against."""
    path = tmp_path / f"prove_small_{tmp_path.name}.py"
    path.write_text(PROOF.format(limit=getattr(request, "param", 100)), encoding="utf-8")
    return path


def calls(proof: Path) -> list[str]:
    return sorted((proof.parent / "calls.txt").read_text(encoding="utf-8").split())


def test_a_proof_that_holds_adds_up_what_it_counted(written: Path, tmp_path: Path) -> None:
    outcome = runner.prove("small", written, tmp_path / "out", "state", jobs=2)
    assert outcome.failures == {}
    assert outcome.totals == {"numbers": 3}
    assert outcome.conclusion == "3 numbers looked at."
    assert calls(written) == ["1", "2", "30"]


def test_what_is_done_is_not_done_again(written: Path, tmp_path: Path) -> None:
    runner.prove("small", written, tmp_path / "out", "state")
    outcome = runner.prove("small", written, tmp_path / "out", "state")
    assert (outcome.steps, outcome.remembered) == (3, 3)
    assert outcome.totals == {"numbers": 3}
    assert len(calls(written)) == 3


def test_a_changed_state_of_the_code_is_proved_anew(written: Path, tmp_path: Path) -> None:
    runner.prove("small", written, tmp_path / "out", "state")
    assert runner.prove("small", written, tmp_path / "out", "other state").remembered == 0
    assert len(calls(written)) == 6


def test_a_run_stopped_midway_goes_on_with_what_is_left(written: Path, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    done = {"state": "state", "key": "2", "seconds": 1.0, "figures": {"numbers": 1}}
    book = tmp_path / "out" / "small.jsonl"
    book.write_text(json.dumps(done) + '\n{"state": "state", "key": "30", "sec', encoding="utf-8")
    outcome = runner.prove("small", written, tmp_path / "out", "state")
    assert outcome.remembered == 1
    assert calls(written) == ["1", "30"]
    assert runner.prove("small", written, tmp_path / "out", "state").remembered >= 2


@pytest.mark.parametrize("written", [10], indirect=True)
def test_a_step_that_does_not_hold_is_named_and_tried_again_next_time(written: Path, tmp_path: Path) -> None:
    outcome = runner.prove("small", written, tmp_path / "out", "state")
    assert list(outcome.failures) == ["30"]
    assert "30 is not small" in outcome.failures["30"]
    assert outcome.conclusion == ""
    again = runner.prove("small", written, tmp_path / "out", "state")
    assert (again.remembered, list(again.failures)) == (2, ["30"])
    runner.write_summary([again], tmp_path / "summary.md")
    summary = (tmp_path / "summary.md").read_text(encoding="utf-8")
    assert "## small: does not hold" in summary
    assert "30 is not small" in summary


def test_the_digest_sees_a_changed_byte_and_a_renamed_file(tmp_path: Path) -> None:
    folder = tmp_path / "code"
    folder.mkdir()
    (folder / "a.py").write_text("1", encoding="utf-8")
    first = runner.digest([folder])
    (folder / "a.py").write_text("2", encoding="utf-8")
    second = runner.digest([folder])
    (folder / "a.py").rename(folder / "b.py")
    assert len({first, second, runner.digest([folder])}) == 3


def test_every_proof_of_the_project_has_a_title_and_steps() -> None:
    found = runner.find(Path(__file__).resolve().parents[2] / "proofs")
    assert found
    for path in found.values():
        proof = runner.load(path)
        assert len(proof.TITLE.split()) > 3
        assert proof.keys()
