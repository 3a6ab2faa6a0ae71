"""Names of time zones in the IANA list."""

from difflib import get_close_matches
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

__all__ = ["known_zone", "nearest_zone"]


def known_zone(name: str) -> bool:
    """Return whether a name is in the IANA list of time zones.

    Parameters
    ----------
    name : str
    """
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True


def nearest_zone(name: str) -> str:
    """Return the zone whose name is most like a misspelled one, or an empty text.

    Parameters
    ----------
    name : str
    """
    names = {zone.lower(): zone for zone in sorted(available_timezones())}
    close = get_close_matches(name[:60].lower().replace(" ", "_"), list(names), n=1, cutoff=0.6)
    return names[close[0]] if close else ""
