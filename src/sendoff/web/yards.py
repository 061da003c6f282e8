"""Making, serving, judging, keeping and restoring a yard's books from outside: what `sendoff yard` calls."""

from __future__ import annotations

import os
import secrets
import shutil
import sqlite3
import subprocess
import tarfile
import tempfile
import threading
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Final

from sendoff import settings
from sendoff.errors import CannotWrite, Fault, FaultyInput, SendoffError

Say = Callable[[str], object]
SERVER: Final = """\
# How this yard's server runs; sendoff/settings.py says what else may stand here. A variable such as
# SENDOFF_PORT wins over this file. What is secret is in the file `secret` beside it, which only its owner may read.
port = 8400
# names = ["yard.example.com"]            # the names under which people reach it
# https = true                            # once they reach it over HTTPS; cookies are then sent over nothing else
# database = "postgresql://sendoff@localhost/sendoff"     # else SQLite in books/
"""
CHECKPOINT_EVERY_S: Final = 60.0


def prepare(folder: Path) -> None:
    """Set Django up for the yard in a folder."""
    settings.load(folder)
    os.environ["SENDOFF_YARD"] = str(folder.resolve())
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "sendoff.web.config")
    import django

    django.setup()


def migrate() -> None:
    """Bring the tables up to date."""
    from django.core.management import call_command

    call_command("migrate", verbosity=0, interactive=False)


def lay_out(folder: Path) -> list[str]:
    """Write what a yard's folder needs and does not have yet; return what was written."""
    made = []
    try:
        if not (folder / "catalogue").is_dir():
            from sendoff.catalogue.starter import write_starter

            made += [str(name) for name in write_starter(folder)]
        if not (folder / settings.FILE).exists():
            (folder / settings.FILE).write_text(SERVER, encoding="utf-8")
            made.append(settings.FILE)
        if not (folder / settings.SECRET).exists():
            descriptor = os.open(folder / settings.SECRET, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(descriptor, "w", encoding="ascii") as file:
                file.write(secrets.token_urlsafe(48) + "\n")
            made.append(settings.SECRET)
    except OSError as error:
        raise CannotWrite(
            f"{folder}: cannot be written ({error.strerror or error}). Name another folder."
        ) from None
    return made


def init(folder: Path, name: str, login: str, say: Say) -> None:
    """Make a yard in a folder: settings, secret, starter catalogue, tables, first person."""
    for made in lay_out(folder):
        say(f"wrote {folder / made}")
    prepare(folder)
    migrate()
    from sendoff.catalogue.load import load
    from sendoff.web.models import Person, Site
    from sendoff.web.services.people import invite

    if Person.objects.exists():
        say("The yard has its people already; nothing else was changed.")
        return
    yard = load(folder / "catalogue").yard
    site, _ = Site.objects.get_or_create(
        name=str(yard.address[-1]) if yard.address else str(yard.name),
        defaults={"zone": str(yard.zone), "telephone": str(yard.telephone)},
    )
    token = invite(name, login, "office", yard.language, site, None)
    say(f"The yard stands in {folder}. Serve it with: sendoff yard serve {folder}")
    say(f"Then {name} opens this address once, and chooses a password: {address(folder)}/invitation/{token}/")


def address(folder: Path) -> str:
    """Return where the yard is reached from this machine."""
    found = settings.load(folder)
    return f"http://{'localhost' if found.host in {'127.0.0.1', '0.0.0.0'} else found.host}:{found.port}"  # noqa: S104


def serve(folder: Path, say: Say) -> None:
    """Serve a yard until stopped; all heads are sealed once a minute."""
    prepare(folder)
    migrate()
    import waitress

    from sendoff.web.stock import catalogue, yard_settings
    from sendoff.web.wsgi import application

    catalogue()
    found = yard_settings()
    ended = threading.Event()
    sealing = threading.Thread(target=_seal_until, args=(ended,), name="checkpoints", daemon=True)
    sealing.start()
    say(f"The yard is open at {address(folder)} (stop with Ctrl-C)")
    if found.host not in {"127.0.0.1", "localhost"} and not found.https:
        say(
            "It is reached over plain HTTP: passwords can be read on the way. docs/yard.md says how to mend that."
        )
    try:
        waitress.serve(
            application, host=found.host, port=found.port, threads=found.threads, ident="", channel_timeout=60,
            max_request_body_size=found.photo_megabytes * 1_000_000 + 1_000_000, clear_untrusted_proxy_headers=True,
        )  # fmt: skip
    finally:
        ended.set()
        sealing.join(timeout=5)


def _seal_until(ended: threading.Event) -> None:
    import logging

    from django.db import DatabaseError, connections

    from sendoff.web.services.audit import make_checkpoint

    while not ended.wait(CHECKPOINT_EVERY_S):
        try:
            make_checkpoint()
        except (DatabaseError, OSError) as error:
            logging.getLogger("sendoff.web").warning("no checkpoint this minute: %s", error)
        finally:
            connections.close_all()


def add(folder: Path, sheets: list[Path], site_name: str | None, say: Say) -> int:
    """Take units in by their build sheets; each is accepted or refused with its reason."""
    prepare(folder)
    migrate()
    from sendoff.web.models import Site
    from sendoff.web.services.units import add as take_in

    sites = {site.name: site for site in Site.objects.all()}
    if not sites or (site_name is not None and site_name not in sites):
        cure = f"Use one of: {', '.join(sites)}." if sites else "Run sendoff yard init first."
        raise FaultyInput(Fault("--site", "", site_name or "", "the yard has no such site", cure))
    site = sites[site_name] if site_name is not None else next(iter(sites.values()))
    refused = 0
    for path in sheets:
        try:
            unit = take_in(site, path.read_text(encoding="utf-8"), str(path), None)
            say(f"{unit.number}  taken in from {path}")
        except (SendoffError, OSError, UnicodeDecodeError) as error:
            refused += 1
            say(str(error))
    say(f"{len(sheets) - refused} of {len(sheets)} units taken in")
    return 2 if refused else 0


def audit(folder: Path, language: str, say: Say) -> int:
    """Say of every unit whether its chain holds, and name the first broken link; exit code 1 when one does not."""
    prepare(folder)
    from sendoff.phrases import say as phrase
    from sendoff.web.models import Checkpoint, Link, Unit
    from sendoff.web.services import audit as service

    found = 0
    for problem in service.audit():
        found += 1
        values = {"unit": problem.unit, "number": problem.number, "told": problem.told}
        say(phrase(f"books.broken.{problem.why}", language, **values))
    last = Checkpoint.objects.order_by("-number").first()
    if found:
        say(phrase("books.does_not", language, n=found))
        return 1
    counts = {
        "units": Unit.objects.count(),
        "links": Link.objects.count(),
        "checkpoints": Checkpoint.objects.count(),
    }
    say(phrase("books.all_hold", language, **counts))
    if last is not None:
        say(phrase("books.said", language, digest=last.digest))
    return 0


# ── backup and restore ──────────────────────────────────────────────────────────────────────────────────────────────

BOOKS: Final = "books/yard.sqlite3"
DUMP: Final = "books/yard.pgdump"


def backup(folder: Path, out: Path, say: Say) -> None:
    """Write the whole yard, books and media and settings, into one file, while it is served."""
    found = settings.load(folder)
    if out.exists():
        raise CannotWrite(f"{out}: that file is there already. Name another.")
    beside = out.with_name(f".{out.name}-{secrets.token_hex(4)}")
    try:
        with tempfile.TemporaryDirectory() as scratch:
            copy = _copy_of_books(found, Path(scratch))
            descriptor = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(descriptor, "wb") as raw, tarfile.open(fileobj=raw, mode="w:gz") as archive:
                archive.add(copy, BOOKS if copy.suffix == ".sqlite3" else DUMP)
                for name in (
                    settings.FILE,
                    settings.SECRET,
                    "yard.toml",
                    "catalogue",
                    "trucks",
                    "cargo",
                    "media",
                ):
                    if (folder / name).exists():
                        archive.add((folder / name).resolve(), name)
        beside.replace(out)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise CannotWrite(
            f"{out}: cannot be written ({error.strerror or error}). Nothing was left."
        ) from None
    say(
        f"wrote {out}, {out.stat().st_size / 1e6:,.1f} MB. It holds the yard's secret: keep it like the books."
    )


def _copy_of_books(found: settings.Settings, scratch: Path) -> Path:
    if found.database:
        copy = scratch / "yard.pgdump"
        _postgres("pg_dump", found.database, "--format=custom", "--no-owner", f"--file={copy}")
        return copy
    if not found.books.is_file():
        raise FaultyInput(
            Fault(str(found.books), "", "", "there are no books", "Run sendoff yard init first.")
        )
    copy = scratch / "yard.sqlite3"
    with (
        closing(sqlite3.connect(found.books, timeout=30)) as source,
        closing(sqlite3.connect(copy)) as target,
    ):
        source.backup(target)
    return copy


def _postgres(program: str, database: str, *words: str) -> None:
    found = shutil.which(program)
    if found is None:
        raise SendoffError(
            f"{program} is not here. Install PostgreSQL's client programs (Debian: postgresql-client)."
        )
    done = subprocess.run(  # noqa: S603 (a program of PostgreSQL, with words of ours)
        [found, *words, f"--dbname={database}"], capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise SendoffError(f"{program}: {done.stderr.strip().splitlines()[-1] if done.stderr else 'failed'}")


def restore(archive: Path, folder: Path, say: Say) -> None:
    """Set up a yard in an empty folder from a backup."""
    if folder.exists() and any(folder.iterdir()):
        raise CannotWrite(f"{folder}: something stands there. Name an empty or a new folder.")
    folder.mkdir(parents=True, exist_ok=True)
    try:
        with tarfile.open(archive, "r:gz") as packed:
            packed.extractall(folder, filter="data")
    except (OSError, tarfile.TarError) as error:
        shutil.rmtree(folder, ignore_errors=True)
        raise FaultyInput(
            Fault(str(archive), "", "", f"it cannot be unpacked: {error}", "Give a whole backup.")
        ) from None
    (folder / settings.SECRET).chmod(0o600)
    found = settings.load(folder)
    if (folder / DUMP).is_file():
        if not found.database:
            raise FaultyInput(
                Fault(
                    str(folder),
                    "database",
                    "",
                    "the backup is of PostgreSQL",
                    "Set SENDOFF_DATABASE to an empty one.",
                )
            )
        _postgres("pg_restore", found.database, "--no-owner", "--exit-on-error", str(folder / DUMP))
    say(f"restored into {folder}. Look at it with: sendoff yard audit {folder}")
