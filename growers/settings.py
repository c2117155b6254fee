"""Every setting comes from the environment and is read strictly. docs/reference/settings.md says what each does."""

import os
from datetime import timedelta
from pathlib import Path

from csp.constants import NONE, SELF

from growers.furniture.environment import (
    asked,
    database,
    host_and_port,
    host_names,
    one_address,
    one_of,
    refuse_unknown_names,
    secret_key,
    switch,
    text,
    whole_number,
)

__all__ = ["asked"]  # for the test that holds the reference page against it

BASE_DIR = Path(__file__).resolve().parent.parent

# The book and who may reach it
HOME = Path(BASE_DIR, os.path.expanduser(text("GROWERS_HOME", ".book")))
SECRET_KEY = secret_key(HOME)
DEBUG = switch("GROWERS_DEBUG", False)
ADMIN = switch("GROWERS_ADMIN", False)
HTTPS = switch("GROWERS_HTTPS", True)
ALLOWED_HOSTS = host_names("GROWERS_HOSTS", "127.0.0.1, localhost, [::1]")
LISTEN = host_and_port("GROWERS_LISTEN", "127.0.0.1:8000")
PROXY = one_address("GROWERS_PROXY")
HSTS_SECONDS = whole_number("GROWERS_HSTS_SECONDS", 30 * 24 * 3600, 0, 2 * 366 * 24 * 3600)
DATABASES = {"default": database("DATABASE_URL", HOME, BASE_DIR)}
LANGUAGES = [("en", "English")]  # each named in its own tongue
LANGUAGE_CODE = one_of("GROWERS_LANGUAGE", "en", dict(LANGUAGES))
refuse_unknown_names()

# The house
STAGES = [
    "people", "beds", "harvest", "bundles", "drying", "stock", "soaking", "baskets", "customers", "trace",
    "today", "exchange",
]  # fmt: skip
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "axes",
    "csp",
    "django_filters",
    "django_htmx",
    "simple_history",
    "growers.furniture",
    *(f"growers.{stage}" for stage in STAGES),
    # It goes round every action, so it stands only where it is asked for.
    *(["django.contrib.admin"] if ADMIN else []),
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "axes.middleware.AxesMiddleware",
    "growers.middleware.HoldingMiddleware",
]
ROOT_URLCONF = "growers.urls"
WSGI_APPLICATION = "growers.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "growers/templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    }
]
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# Language and time
USE_TZ = True
TIME_ZONE = "UTC"  # each holding has a zone of its own; nothing else is local
LOCALE_PATHS = [BASE_DIR / "growers/locale"]
FORMAT_MODULE_PATH = ["growers.furniture.formats"]

# Static files
STATIC_URL = "/static/"
STATIC_ROOT = HOME / "static"
STATICFILES_DIRS = [BASE_DIR / "growers/static"]
STATICFILES_FINDERS = [
    "django.contrib.staticfiles.finders.FileSystemFinder",
    "django.contrib.staticfiles.finders.AppDirectoriesFinder",
    "growers.furniture.finders.PlotlyFinder",
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "growers.furniture.storage.NamedByContent"},
}

# Who is at the door
AUTH_USER_MODEL = "people.User"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in (
        "UserAttributeSimilarityValidator",
        "MinimumLengthValidator",
        "CommonPasswordValidator",
        "NumericPasswordValidator",
    )
]
LOGIN_URL = "/sign-in/"
LOGIN_REDIRECT_URL = "/"
LOGOUT_REDIRECT_URL = LOGIN_URL
# Cold fingers mistype: eight tries, then a quarter of an hour's rest for that name from that address.
AXES_FAILURE_LIMIT = 8
AXES_COOLOFF_TIME = timedelta(minutes=15)
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_RESET_ON_SUCCESS = True
AXES_LOCKOUT_TEMPLATE = "people/locked_out.html"
AXES_VERBOSE = False  # its greeting at each start tells nobody anything

# What the browser is told
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "base-uri": [NONE],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
        "object-src": [NONE],
    }
}
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SECURE_SSL_REDIRECT = HTTPS
SECURE_HSTS_SECONDS = HSTS_SECONDS if HTTPS else 0
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_AGE = 60 * 24 * 3600  # a phone in the shed stays signed in over the weeks between two weighings
SILENCED_SYSTEM_CHECKS = [
    "security.W005",  # this site speaks for its own host, not for others of the domain
    "security.W021",  # putting a domain on the browsers' own lists is for its owner to decide
]
# A spreadsheet of a whole winter passes; a film does not.
DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2000
DATA_UPLOAD_MAX_NUMBER_FILES = 10
