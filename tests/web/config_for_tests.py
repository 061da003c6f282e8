"""Django's settings in tests: a yard in a temporary folder; its books in SQLite unless SENDOFF_TEST_DATABASE says."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from pathlib import Path

FOLDER = Path(tempfile.mkdtemp(prefix="sendoff-yard-"))
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)
EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "quillback"
(FOLDER / "server.toml").write_text(
    f'database = "{os.environ.get("SENDOFF_TEST_DATABASE", "")}"\n', encoding="utf-8"
)
(FOLDER / "secret").write_text("for tests only " * 4, encoding="ascii")
(FOLDER / "secret").chmod(0o600)
if EXAMPLE.is_dir():
    for name in ("catalogue", "yard.toml", "sheets", "trucks", "cargo"):
        (FOLDER / name).symlink_to(EXAMPLE / name)
for variable in [
    name for name in os.environ if name.startswith("SENDOFF_") and name != "SENDOFF_TEST_DATABASE"
]:
    del os.environ[variable]
os.environ.pop("SENDOFF_TEST_DATABASE", None)
os.environ["SENDOFF_YARD"] = str(FOLDER)

from sendoff.web.config import *  # noqa: E402, F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
"""Fast; that true passwords go through Argon2 has a test of its own."""
