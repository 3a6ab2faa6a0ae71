"""The time of day where the machine stands."""

import os
import sys
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

__all__ = ["on_site", "zone_name"]

_LINK = Path("/etc/localtime")
_WORD = Path("/etc/timezone")


def zone_name() -> str:
    """Return the name of this machine's time zone; UTC where it does not say."""
    for name in (os.environ.get("TZ", ""), _from_link(), _from_word()):
        if name and _known(name):
            return name
    return "UTC"


def on_site(moment: datetime) -> datetime:
    """Return the moment in the time of day of this machine."""
    if sys.platform == "win32":  # Django leaves the clock of Windows alone, so the system knows best
        return moment.astimezone()
    return moment.astimezone(ZoneInfo(zone_name()))


def _from_link() -> str:
    try:
        target = str(_LINK.resolve(strict=True))
    except OSError:
        return ""
    return target.partition("zoneinfo/")[2]


def _from_word() -> str:
    try:
        return _WORD.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError):
        return ""


def _known(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True
