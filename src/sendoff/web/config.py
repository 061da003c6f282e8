"""Django's settings, made from the yard's own (sendoff/settings.py); the yard's folder is named by SENDOFF_YARD."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from sendoff import settings

HERE = Path(__file__).parent
YARD = settings.load(Path(os.environ["SENDOFF_YARD"]))


def _database() -> dict[str, Any]:
    if not YARD.database:
        YARD.books.parent.mkdir(parents=True, exist_ok=True)
        pragmas = ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON", "busy_timeout = 20000")
        return {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": YARD.books,
            "OPTIONS": {
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
                "init_command": "".join(f"PRAGMA {pragma};" for pragma in pragmas),
            },
        }
    parts = urlsplit(YARD.database)
    return {
        "ENGINE": "django.db.backends.postgresql",
        "NAME": parts.path.lstrip("/"),
        "USER": unquote(parts.username or ""),
        "PASSWORD": unquote(parts.password or ""),
        "HOST": unquote(parts.hostname or ""),
        "PORT": str(parts.port or ""),
        "OPTIONS": {"application_name": "sendoff", "connect_timeout": 5},
    }


SECRET_KEY = YARD.secret
DEBUG = False
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]", YARD.host, *YARD.names]
INSTALLED_APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "sendoff.web",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "sendoff.web.middleware.headers",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "sendoff.web.middleware.reader",
    "sendoff.web.middleware.trouble",
]
ROOT_URLCONF = "sendoff.web.urls"
WSGI_APPLICATION = "sendoff.web.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.jinja2.Jinja2",
        "DIRS": [HERE / "templates"],
        "OPTIONS": {"environment": "sendoff.web.templating.environment", "autoescape": True},
    }
]
DATABASES = {"default": _database() | {"CONN_MAX_AGE": 600, "CONN_HEALTH_CHECKS": True}}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
AUTH_USER_MODEL = "yard.Person"
AUTHENTICATION_BACKENDS = ["django.contrib.auth.backends.ModelBackend"]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS: list[dict[str, Any]] = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "sign_in"

USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False

SESSION_COOKIE_NAME = "__Host-sendoff" if YARD.https else "sendoff"
SESSION_COOKIE_AGE = YARD.session_hours * 3600
SESSION_EXPIRE_AT_BROWSER_CLOSE = True
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = YARD.https
CSRF_COOKIE_NAME = "__Host-sendoff-form" if YARD.https else "sendoff-form"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SECURE = YARD.https
CSRF_FAILURE_VIEW = "sendoff.web.views.trouble.form_too_old"
CSRF_TRUSTED_ORIGINS = [f"https://{name}" for name in YARD.names] if YARD.https else []
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
SECURE_SSL_REDIRECT = False  # the yard's proxy or granian terminates TLS and answers on one port only
SECURE_HSTS_SECONDS = 31_536_000 if YARD.https else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = YARD.https
SECURE_HSTS_PRELOAD = YARD.https
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if YARD.https else None
X_FRAME_OPTIONS = "DENY"

STATIC_URL = "/static/"
STATICFILES_DIRS = [HERE / "static", HERE.parent / "data" / "fonts"]
WHITENOISE_USE_FINDERS = True
WHITENOISE_MAX_AGE = 31_536_000  # every address of a static file carries the digest of its content
WHITENOISE_AUTOREFRESH = False

DATA_UPLOAD_MAX_MEMORY_SIZE = 2_000_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 500
DATA_UPLOAD_MAX_NUMBER_FILES = 40
FILE_UPLOAD_MAX_MEMORY_SIZE = 1_000_000
FILE_UPLOAD_PERMISSIONS = 0o600
SILENCED_SYSTEM_CHECKS = [
    "security.W008",  # SECURE_SSL_REDIRECT: see above
]
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "%(asctime)s %(levelname)s %(name)s %(message)s"}},
    "handlers": {"screen": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["screen"], "level": "WARNING"},
    "loggers": {"waitress.queue": {"level": "ERROR"}},  # a page that waits for its turn is no news
}
