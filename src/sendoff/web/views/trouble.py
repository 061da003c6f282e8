"""Pages that say what did not work: nothing there, form too old, refused, the books do not answer."""

from __future__ import annotations

import errno
import logging

from django.http import HttpRequest, HttpResponse

from sendoff.errors import FaultyInput, SendoffError
from sendoff.web.reader import reader_of
from sendoff.web.views.showing import Words, show

LOG = logging.getLogger("sendoff.web")


def nothing_there(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Say that there is no such page, or none for this person: nobody is told which."""
    return _page(request, "nothing_there", 404)


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Say that a form came without its token: opened too long ago, or sent from elsewhere."""
    return _page(request, "form_too_old", 403)


def went_wrong(request: HttpRequest) -> HttpResponse:
    """Say that the fault is ours."""
    return _page(request, "went_wrong", 500)


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Say that what was sent cannot be used."""
    return _page(request, "bad_request", 400)


def refused(request: HttpRequest, error: SendoffError) -> HttpResponse:
    """Say what was refused and why."""
    words = Words(reader_of(request))
    told = []
    for fault in error.faults if isinstance(error, FaultyInput) else ():
        key = f"refused.{fault.problem}"
        told.append(words.t(key) if words.known(key) else str(fault))
    return _page(request, "refused", 422, told=told or [str(error)])


def books_do_not_answer(request: HttpRequest, error: Exception) -> HttpResponse:
    """Say that nothing was kept, why as far as it is known, and that nothing is half-done."""
    LOG.error("the books do not answer: %s: %s", type(error).__name__, error)
    said = str(error).lower()
    why = "unknown"
    if getattr(error, "errno", None) == errno.ENOSPC or "disk is full" in said or "no space" in said:
        why = "disk_full"
    elif (
        getattr(error, "errno", None) in {errno.EROFS, errno.EACCES}
        or "readonly" in said
        or "read-only" in said
    ):
        why = "read_only"
    elif "locked" in said:
        why = "busy"
    elif "connect" in said or "server closed" in said or "terminat" in said or "unable to open" in said:
        why = "away"
    return _page(request, "books", 503, why=why)


def _page(
    request: HttpRequest, what: str, status: int, told: list[str] | None = None, why: str = ""
) -> HttpResponse:
    try:
        return show(request, "trouble.html", what=what, status=status, told=told or [], why=why)
    except Exception:
        LOG.exception("the page about %s could not be shown", what)
        text = "Sendoff cannot answer now. Nothing was kept from your last act. / Sendoff no puede contestar ahora."
        return HttpResponse(text, status=status, content_type="text/plain; charset=utf-8")
