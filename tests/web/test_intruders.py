"""Headers, forms from elsewhere, uploads, stored markup, and Django's own deployment checks."""

from __future__ import annotations

import io
import re
import uuid
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image

from sendoff.errors import FaultyInput
from sendoff.web import stock
from sendoff.web.services import photos, put_right
from sendoff.web.services.writing import told_now
from tests.web.conftest import Cast

WEB = Path(__file__).resolve().parents[2] / "src" / "sendoff" / "web"
MARKUP = "<script>alert(1)</script><img src=x onerror=alert(2)>\"'>{{7*7}}"


def test_the_policy_allows_nothing_inline_and_nothing_from_elsewhere(cast: Cast) -> None:
    policy = cast.client("office").get("/").headers["Content-Security-Policy"]
    assert "unsafe" not in policy
    assert "*" not in policy
    assert "http" not in policy
    for wanted in (
        "default-src 'none'",
        "script-src 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
        "form-action 'self'",
    ):
        assert wanted in policy


def test_no_template_has_an_inline_script_style_or_handler() -> None:
    for path in (WEB / "templates").glob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=|javascript:|<script(?![^>]*\bsrc=)", text), (
            path.name
        )


@pytest.mark.parametrize("path", ["/", "/sign-in/", "/no-such-page/"])
def test_headers_of_every_answer(cast: Cast, path: str) -> None:
    headers = cast.client("office").get(path).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["X-Frame-Options"] == "DENY"
    assert headers["Referrer-Policy"] == "same-origin"
    assert "no-cache" in headers["Cache-Control"]


def test_a_form_without_its_token_is_refused_in_plain_words(cast: Cast) -> None:
    client = Client(enforce_csrf_checks=True)
    answer = client.post("/sign-in/", {"login": "office", "password": "x"})
    assert answer.status_code == 403
    assert "open for too long" in answer.content.decode()


def test_cookies_cannot_be_read_by_scripts_nor_sent_from_elsewhere(cast: Cast) -> None:
    client = Client()
    client.post("/sign-in/", {"login": "office", "password": "a long enough password"})
    client.get("/people/")
    for cookie in client.cookies.values():
        assert cookie["httponly"]
        assert cookie["samesite"] == "Lax"


def test_stored_markup_is_text_on_every_page(cast: Cast) -> None:
    hand = cast.people["yard_hand"]
    station = stock.built(cast.utility).stations[0].id
    found = put_right.Found(kind="dent", station=station, what=MARKUP, size=MARKUP[:40], whose="yard")
    put_right.find(cast.utility, found, told_now(hand))
    item = cast.utility.put_right.get()
    put_right.step(item, "put_right", MARKUP, told_now(hand))
    hand.name = MARKUP[:80]
    hand.save()
    client = cast.client("yard_hand")
    base = f"/unit/{cast.utility.public_id}/"
    for path in (
        base,
        f"{base}put-right/",
        f"{base}put-right/1/",
        f"{base}station/1/",
        f"{base}history/",
        "/put-right/",
        "/",
    ):
        page = client.get(path).content.decode()
        assert "<script>alert" not in page, path
        assert "<img src=x" not in page, path
        assert "49" not in re.findall(r"&gt;(\d+)", page), path


def photo(content: bytes, kind: str = "image/jpeg") -> SimpleUploadedFile:
    return SimpleUploadedFile("x.jpg", content, kind)


def jpeg(width: int, height: int, exif: bytes = b"") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (width, height), "gray").save(out, "JPEG", exif=exif)
    return out.getvalue()


def test_a_photo_loses_place_and_camera_and_is_bounded(cast: Cast) -> None:
    exif = Image.Exif()
    exif[0x010F] = "CameraMaker"
    exif[0x0112] = 6  # turned by a quarter
    exif.get_ifd(0x8825)[2] = (41.0, 30.0, 0.0)
    row = photos.keep(cast.utility, photo(jpeg(4000, 1000, exif.tobytes())), cast.people["yard_hand"])
    kept = photos.path_of(row.digest).read_bytes()
    with Image.open(io.BytesIO(kept)) as opened:
        assert not opened.getexif()
        assert opened.size == (512, 2048), "upright, and at most 2048 px"
    assert b"CameraMaker" not in kept
    assert oct(photos.path_of(row.digest).stat().st_mode)[-3:] == "600"


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "no_photo"),
        (b"%PDF-1.7", "no_photo"),
        (jpeg(60, 60)[:300], "no_photo"),
        (b"GIF89a" + bytes(100), "no_photo"),
    ],
)
def test_what_is_no_photo_is_refused(cast: Cast, content: bytes, why: str) -> None:
    with pytest.raises(FaultyInput) as refused:
        photos.keep(cast.utility, photo(content), cast.people["yard_hand"])
    assert refused.value.faults[0].problem == why


def test_a_picture_that_unpacks_to_too_much_is_refused(cast: Cast) -> None:
    out = io.BytesIO()
    Image.new("1", (20_000, 20_000)).save(out, "PNG")
    assert len(out.getvalue()) < 100_000
    with pytest.raises(FaultyInput) as refused:
        photos.keep(cast.utility, photo(out.getvalue(), "image/png"), cast.people["yard_hand"])
    assert refused.value.faults[0].problem == "photo_too_large"


def test_control_and_direction_signs_are_taken_out(cast: Cast) -> None:
    client = cast.client("yard_hand")
    station = stock.built(cast.utility).stations[0].id
    client.post(
        f"/unit/{cast.utility.public_id}/put-right/new/",
        {
            "act": str(uuid.uuid4()),
            "where": station,
            "kind": "dent",
            "what": "a\u202eb\x00c\x1bd",
            "whose": "yard",
        },
    )
    assert cast.utility.put_right.get().what == "abcd"


def test_django_s_own_deployment_checks_are_clean_over_https() -> None:
    import subprocess
    import sys

    code = (
        f"import os; os.environ['SENDOFF_YARD']={str(stock.yard_settings().folder)!r};"
        "os.environ['SENDOFF_HTTPS']='true';"
        "os.environ['SENDOFF_NAMES']='yard.example'; os.environ['DJANGO_SETTINGS_MODULE']='sendoff.web.config';"
        "import django; django.setup(); from django.core.management import call_command;"
        "call_command('check', '--deploy', '--fail-level', 'WARNING')"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "no issues" in done.stdout
