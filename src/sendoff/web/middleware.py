"""What happens around every page: headers, the end of idle sessions, plain words where the books do not answer."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from django.db import DatabaseError, InterfaceError
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from sendoff.errors import SendoffError
from sendoff.web.models import Person
from sendoff.web.stock import yard_settings

Answer = Callable[[HttpRequest], HttpResponse]

_POLICY: Final = (
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    "base-uri 'none'",
)
CONTENT_SECURITY_POLICY: Final = "; ".join(_POLICY)


def headers(get_response: Answer) -> Answer:
    """Set the policy of what a page may load, and keep pages out of shared caches."""

    def answer(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", CONTENT_SECURITY_POLICY)
        response.headers.setdefault("Permissions-Policy", "camera=(self), geolocation=(), microphone=()")
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        response.headers.setdefault("Cache-Control", "private, no-cache")
        return response

    return answer


def reader(get_response: Answer) -> Answer:
    """End a session that was left alone for too long."""

    def answer(request: HttpRequest) -> HttpResponse:
        if isinstance(request.user, Person):
            now = int(timezone.now().timestamp())
            seen = request.session.get("seen", now)
            if now - seen > yard_settings().idle_minutes * 60 or not request.user.is_active:
                request.session.flush()
                from django.contrib.auth.models import AnonymousUser

                request.user = AnonymousUser()
            elif now - seen > 60:  # once a minute is enough, and spares the books a write a page
                request.session["seen"] = now
        return get_response(request)

    return answer


class trouble:  # noqa: N801 (middleware is named like the functions beside it)
    """Answers in plain words what Sendoff refuses, and says what was not kept when the books do not answer."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """Return a page for what was refused; None leaves it to Django."""
        from sendoff.web.views import trouble as pages

        if isinstance(error, DatabaseError | InterfaceError | OSError):
            return pages.books_do_not_answer(request, error)
        if isinstance(error, SendoffError):
            return pages.refused(request, error)
        return None
