"""What Django checks before it starts, each with what to do about it."""

from importlib.util import find_spec
from typing import Any

from django.apps import AppConfig
from django.conf import settings
from django.core.checks import CheckMessage, Error, register
from django.core.checks import Warning as Caution
from django.urls import URLPattern, URLResolver, get_resolver

__all__ = ["register_all", "screens"]


def register_all() -> None:
    """Tell Django of our checks."""
    for check in (data_folder_can_be_written, driver_is_there, every_screen_is_in_the_table, hosts_are_named):
        register(check)


def data_folder_can_be_written(app_configs: list[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    probe = settings.DATA_FOLDER / "write-probe"
    try:
        probe.write_text("", encoding="ascii")
        probe.unlink()
    except OSError as error:
        return [
            Error(
                f"The data folder {settings.DATA_FOLDER} cannot be written: {error.strerror or error}.",
                hint="Get the right to write there, or name another folder with --data.",
                id="setday.E001",
            )
        ]
    return []


def driver_is_there(app_configs: list[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    if "postgresql" not in settings.DATABASES["default"]["ENGINE"] or find_spec("psycopg"):
        return []
    return [
        Error(
            "SETDAY_DATABASE names a PostgreSQL database, and its driver is not installed.",
            hint="Install it into Setday's environment: pip install 'psycopg[binary]'.",
            id="setday.E002",
        )
    ]


def every_screen_is_in_the_table(app_configs: list[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    from setday.web.access import TABLE

    known = set(screens())
    missing = [
        Error(f"The screen {name} is not in the access table.", hint="Say who may see it.", id="setday.E003")
        for name in sorted(known - set(TABLE))
    ]
    stale = [
        Error(f"The access table names {name}, which is no screen.", hint="Take it out.", id="setday.E004")
        for name in sorted(set(TABLE) - known)
    ]
    return missing + stale


def hosts_are_named(app_configs: list[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    if "*" not in settings.ALLOWED_HOSTS:
        return []
    return [
        Caution(
            "The site answers to any host name.",
            hint="Name the addresses people type in the variable SETDAY_HOSTS.",
            id="setday.W001",
        )
    ]


def screens(patterns: list[Any] | None = None, *, prefix: str = "") -> list[str]:
    """Return the names of all screens, as written in the access table."""
    names = []
    for entry in get_resolver().url_patterns if patterns is None else patterns:
        if isinstance(entry, URLResolver):
            inner = f"{prefix}{entry.namespace}:" if entry.namespace else prefix
            names += screens(entry.url_patterns, prefix=inner)
        elif isinstance(entry, URLPattern):
            names.append(f"{prefix}{entry.name}")
    return names
