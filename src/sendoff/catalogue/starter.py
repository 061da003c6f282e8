"""Writing the small commented catalogue a new yard starts from (data/starter)."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Final

from sendoff.errors import CannotWrite

STARTER: Final = Path(__file__).parents[1] / "data" / "starter"


def write_starter(folder: Path) -> tuple[str, ...]:
    """Copy the starter into a folder that does not exist yet or is empty; return the names of its files."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CannotWrite(f"{folder}: something is there already. Name a new or an empty folder.")
    try:
        shutil.copytree(STARTER, folder, dirs_exist_ok=True)
    except OSError as error:
        raise CannotWrite(
            f"{folder}: cannot be written ({error.strerror}). Name a folder you may write to."
        ) from None
    return tuple(sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()))
