"""A bar for long work: on a screen only, never into a file or a pipe, gone when the work is done."""

from __future__ import annotations

import sys
import time
from typing import Final, TextIO

WIDTH: Final = 28
LEAST_BETWEEN_S: Final = 0.1


class Bar:
    """One line at the foot of a screen: how many are done, how long it will still take."""

    def __init__(self, stream: TextIO | None = None) -> None:
        self.stream = stream if stream is not None else sys.stderr
        self.shown = self.stream.isatty()
        self.begun = time.monotonic()
        self.drawn_at, self.line = 0.0, ""

    def show(self, done: int, total: int) -> None:
        """Draw the bar as it stands; with one thing only, or all done, there is none."""
        if not self.shown or total < 2:
            return
        if done >= total:
            self.clear()
            return
        now = time.monotonic()
        if self.line and now - self.drawn_at < LEAST_BETWEEN_S:
            return
        self.drawn_at = now
        self._write(bar_line(done, total, now - self.begun))

    def clear(self) -> None:
        """Take the bar off the screen, so that a line may be printed."""
        if self.shown and self.line:
            self._write("")

    def _write(self, line: str) -> None:
        self.stream.write("\r" + line + " " * max(len(self.line) - len(line), 0) + ("" if line else "\r"))
        self.stream.flush()
        self.line = line


def bar_line(done: int, total: int, seconds: float) -> str:
    """Return the bar in signs every screen has.

    >>> bar_line(50, 200, 30.0)
    '[#######.....................] 50 of 200, about 1:30 left'
    >>> bar_line(0, 200, 0.0)
    '[............................] 0 of 200'
    """
    full = WIDTH * done // total
    told = f"[{'#' * full}{'.' * (WIDTH - full)}] {done} of {total}"
    if not done:
        return told
    left = round(seconds / done * (total - done))
    return f"{told}, about {left // 60}:{left % 60:02} left"
