"""The command line. Every command says what it made; bad input gets one clear message and exit code 2."""

from __future__ import annotations
