"""The peer of the yard's pages: a bare Django view with one query, on the same books and the same server."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import path

from sendoff.web.config import *  # noqa: F403

ROOT_URLCONF = "benchmarks.bare_view"
MIDDLEWARE = []


def one_query(request: HttpRequest) -> HttpResponse:
    """Answer with the number of one unit."""
    from sendoff.web.models import Unit

    return HttpResponse(Unit.objects.values_list("number", flat=True)[0])


urlpatterns = [path("", one_query)]
