"""The bar of long work: drawn on a screen, taken away for every line and at the end, never in a pipe."""

from __future__ import annotations

import io

import pytest

from sendoff.cli import progress
from sendoff.cli.progress import Bar


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def on_screen(written: str) -> str:
    """What stands on a line after all that was written: a carriage return goes back to its head."""
    line: list[str] = []
    column = 0
    for sign in written:
        if sign == "\r":
            column = 0
        else:
            line[column : column + 1] = [sign]
            column += 1
    return "".join(line).rstrip()


def test_it_stands_on_a_screen_and_is_gone_when_all_is_done(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(progress, "LEAST_BETWEEN_S", 0.0)
    screen = Screen()
    bar = Bar(screen)
    bar.show(0, 4)
    assert on_screen(screen.getvalue()).endswith("] 0 of 4")
    bar.show(2, 4)
    assert "2 of 4, about 0:00 left" in on_screen(screen.getvalue())
    bar.clear()
    assert on_screen(screen.getvalue()) == ""
    bar.show(3, 4)
    bar.show(4, 4)
    assert on_screen(screen.getvalue()) == ""


def test_it_is_silent_in_a_pipe_and_for_one_thing() -> None:
    pipe = io.StringIO()
    Bar(pipe).show(1, 9)
    screen = Screen()
    Bar(screen).show(0, 1)
    assert pipe.getvalue() == screen.getvalue() == ""
