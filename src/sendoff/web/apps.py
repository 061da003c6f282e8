"""The one app of the yard."""

from __future__ import annotations

from django.apps import AppConfig


class YardConfig(AppConfig):
    """Names the tables `yard_…`."""

    name = "sendoff.web"
    label = "yard"
    default_auto_field = "django.db.models.BigAutoField"
