"""What the command line prints on: screens that lack signs, readers that went away, disks that are full, Ctrl-C."""

from __future__ import annotations

import codecs
import json
import os
import signal
import sys
from types import FrameType
from typing import Any, Final

INSTEAD: Final = {
    "…": "...", "→": "->", "−": "-", "–": "-", "—": "-", "·": "*", "×": "x", "÷": "/", "≤": "<=", "≥": ">=",
    "√": "sqrt ", "Σ": "sum ", "Δ": "d", "μ": "mu", "π": "pi", "Ω": "ohm", "°": " deg", "²": "2", "³": "3",
    "“": '"', "”": '"', "’": "'", "‘": "'", "½": "1/2", "¼": "1/4", "¾": "3/4", "\u202f": " ",
    "\u00a0": " ", "\u2011": "-",
}  # fmt: skip
"""What is printed for a sign that the screen's encoding lacks; a minus above all must stay one."""
_HANDLER: Final = "sendoff.plain"


def plain(error: UnicodeError) -> tuple[str, int]:
    """Write signs an encoding lacks in signs it has: accents fall off, the rest becomes a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    import unicodedata

    told = []
    for sign in error.object[error.start : error.end]:
        bare = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode()
        told.append(INSTEAD.get(sign) or bare or "?")
    return "".join(told), error.end


def is_unicode(encoding: str | None) -> bool:
    """Tell whether an encoding has every sign."""
    try:
        return encoding is None or codecs.lookup(encoding).name.startswith("utf")
    except LookupError:
        return False


def prepare() -> None:
    """Make both streams print anything, and let an end asked for from outside (SIGTERM) clean up like Ctrl-C."""
    for stream in (sys.stdout, sys.stderr):
        if not is_unicode(getattr(stream, "encoding", None)) and hasattr(stream, "reconfigure"):
            codecs.register_error(_HANDLER, plain)
            stream.reconfigure(errors=_HANDLER)
    signal.signal(signal.SIGTERM, _ended)


def _ended(number: int, _: FrameType | None) -> None:
    sys.exit(128 + number)


def as_json(data: Any, indent: int) -> str:
    """Return JSON that means the same on a screen of any encoding."""
    return json.dumps(data, ensure_ascii=not is_unicode(sys.stdout.encoding), indent=indent)


def nobody_reads() -> None:
    """Send what is still to be printed nowhere, so that closing the streams raises nothing more."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except (OSError, ValueError):
            os.dup2(nowhere, stream.fileno())
