"""Photos: read, bounded, written anew as JPEG without anything but the picture, kept under the digest of its bytes."""

from __future__ import annotations

import contextlib
import hashlib
import io
import os
import secrets
import warnings
from pathlib import Path
from typing import Any, Final

from django.core.files.uploadedfile import UploadedFile
from django.utils import timezone
from PIL import Image, ImageOps, UnidentifiedImageError

from sendoff.errors import Fault, FaultyInput
from sendoff.web.models import Person, StoredFile, Unit
from sendoff.web.stock import yard_settings

LONGEST_PX: Final = 2048
MOST_PIXELS: Final = 60_000_000
KINDS: Final = ("JPEG", "PNG", "WEBP")


def _refuse(why: str) -> FaultyInput:
    return FaultyInput(Fault("", "photo", "", why, ""))


def re_encoded(sent: UploadedFile[Any]) -> tuple[bytes, int, int]:
    """Return a photo as a JPEG of at most 2048 px, turned upright, without place, camera or any other data."""
    if sent.size is None or sent.size > yard_settings().photo_megabytes * 1_000_000:
        raise _refuse("photo_too_large")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(sent, formats=KINDS) as opened:
                if opened.width * opened.height > MOST_PIXELS:
                    raise _refuse("photo_too_large")
                opened.draft("RGB", (LONGEST_PX, LONGEST_PX))
                picture = ImageOps.exif_transpose(opened).convert("RGB")
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _refuse("photo_too_large") from None
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError):
        raise _refuse("no_photo") from None
    picture.thumbnail((LONGEST_PX, LONGEST_PX))
    clean = Image.new("RGB", picture.size)
    clean.paste(picture)
    out = io.BytesIO()
    clean.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue(), clean.width, clean.height


def path_of(digest: str) -> Path:
    """Return where content of a digest is kept."""
    return yard_settings().media / digest[:2] / digest


def put(content: bytes) -> str:
    """Keep content under its digest: written beside, flushed, then renamed, so that it is there whole or not at all."""
    digest = hashlib.sha256(content).hexdigest()
    path = path_of(digest)
    if path.is_file() and path.stat().st_size == len(content):
        return digest
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{digest}-{secrets.token_hex(4)}")
    try:
        with beside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(0o600)
        beside.replace(path)
    finally:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)
    return digest


def keep(unit: Unit, sent: UploadedFile[Any], by: Person) -> StoredFile:
    """Keep a photo of a unit; the same picture sent twice is kept once."""
    content, width, height = re_encoded(sent)
    digest = put(content)
    row, _ = StoredFile.objects.get_or_create(
        unit=unit, digest=digest,
        defaults={
            "kind": "photo", "size": len(content), "width": width, "height": height, "by": by, "at": timezone.now(),
        },
    )  # fmt: skip
    return row
