"""Django's settings.  What differs from one machine to the next comes from a few named variables."""

import os
from pathlib import Path

from django.utils.translation import gettext_lazy as _

from setday.web.clock import zone_name
from setday.web.database import DATABASE_VARIABLE, database_settings
from setday.web.place import data_folder, secret_key

HERE = Path(__file__).resolve().parent
DATA_FOLDER = data_folder()
SECRET_KEY = secret_key(DATA_FOLDER)
DEBUG = False

# What answers, and to whom
ALLOWED_HOSTS = os.environ.get("SETDAY_HOSTS", "localhost,127.0.0.1,[::1]").split(",")
BEHIND_HTTPS = os.environ.get("SETDAY_HTTPS", "") == "yes"
CSRF_TRUSTED_ORIGINS = [f"https://{host}" for host in ALLOWED_HOSTS if BEHIND_HTTPS and host != "*"]
ROOT_URLCONF = "setday.web.urls"
WSGI_APPLICATION = "setday.web.wsgi.application"
APPEND_SLASH = True

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "setday.web.keeping",
    "setday.web.layout",
    "setday.web.desk",
    "setday.web.people",
    "setday.web.houses",
    "setday.web.boards",
    "setday.web.buying",
    "setday.web.hunts",
    "setday.web.workings",
    "setday.web.paper",
    "setday.web.switching",
    "setday.web.cable",
    "setday.web.photos",
    "setday.web.gates",
    "setday.web.period",
    "setday.web.sealed",
    "setday.web.timetable",
]

MIDDLEWARE = [
    "setday.web.headers.SecurityHeaders",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "setday.web.uploads.SizeLimit",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "setday.web.people.who.WhoIsHere",
    "django.contrib.messages.middleware.MessageMiddleware",
    "setday.web.people.idle.SignOutWhenIdle",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "setday.web.access.OnlyWhoMay",
    "setday.web.errors.SayWhatWentWrong",
]

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "setday.web.layout.context.layout",
            ],
        },
    }
]

# Records
DATABASES = {"default": database_settings(os.environ.get(DATABASE_VARIABLE, ""), folder=DATA_FOLDER)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# Who signs in
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
]
LOGIN_URL = "desk:sign-in"
LOGIN_REDIRECT_URL = "houses:list"
LOGOUT_REDIRECT_URL = "desk:sign-in"
SESSION_COOKIE_AGE = 14 * 60 * 60  # a long school day
SESSION_COOKIE_NAME = "setday_session"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = BEHIND_HTTPS
CSRF_COOKIE_NAME = "setday_form"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_SECURE = BEHIND_HTTPS
CSRF_FAILURE_VIEW = "setday.web.errors.form_too_old"

# What a browser may do with our pages (the content-security policy is in headers.py)
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if BEHIND_HTTPS else None
X_FRAME_OPTIONS = "DENY"

# What may be sent in
LARGEST_HOUSE_FILE = 200_000  # what the reader of house files takes
LARGEST_PRICE_LIST = 5_000_000  # what the reader of lists takes
LARGEST_PHOTO = 14_000_000  # what the reader of photos takes
LARGEST_REQUEST = 16 * 1024 * 1024
DATA_UPLOAD_MAX_MEMORY_SIZE = LARGEST_REQUEST
FILE_UPLOAD_MAX_MEMORY_SIZE = 8 * 1024 * 1024  # larger ones wait on the disk
DATA_UPLOAD_MAX_NUMBER_FILES = 12  # a OneRoster export comes in so many

# Words
LANGUAGE_CODE = "en"
LANGUAGES = [("en", _("English")), ("es", _("Spanish"))]
LANGUAGE_COOKIE_NAME = "setday_language"
LANGUAGE_COOKIE_SAMESITE = "Lax"
LANGUAGE_COOKIE_HTTPONLY = True
LANGUAGE_COOKIE_AGE = 365 * 24 * 60 * 60
LOCALE_PATHS = [HERE / "locale"]
FORMAT_MODULE_PATH = ["setday.web.formats"]
USE_I18N = True
USE_TZ = True
TIME_ZONE = zone_name()

# Files that never change: served by the site itself, under names that carry a digest
STATIC_URL = "/static/"
STATIC_ROOT = DATA_FOLDER / "static"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.ManifestStaticFilesStorage"},
}
WHITENOISE_MAX_AGE = 60

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {
        "file": {
            "class": "logging.handlers.RotatingFileHandler",
            "filename": DATA_FOLDER / "setday.log",
            "maxBytes": 1_000_000,
            "backupCount": 3,
            "encoding": "utf-8",
            "delay": True,
            "formatter": "plain",
        }
    },
    "root": {"handlers": ["file"], "level": "WARNING"},
    "loggers": {
        "django": {"handlers": ["file"], "level": "WARNING", "propagate": False},
        # a mistyped address or a refused form is no news
        "django.request": {"handlers": ["file"], "level": "ERROR", "propagate": False},
        # nor is a page that waited its turn
        "waitress.queue": {"handlers": ["file"], "level": "ERROR", "propagate": False},
    },
}
