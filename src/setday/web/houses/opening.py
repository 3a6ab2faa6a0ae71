"""Opening houses: read and built once, then kept in memory while the text is the same."""

from functools import lru_cache
from typing import TYPE_CHECKING

from setday.web.keeping.models import HouseVersion

if TYPE_CHECKING:
    from setday.actions.houses import OpenHouse

__all__ = ["glance", "opened", "opened_text", "read", "warm_up"]

_KEPT = 12
_KEPT_PICTURES = 200


def opened(version: HouseVersion) -> "OpenHouse":
    """Return the house of a version."""
    return opened_text(version.text, version.file_name)


@lru_cache(maxsize=_KEPT)
def opened_text(text: str, name: str) -> "OpenHouse":
    """Return the house of a text and its file's name."""
    return read(text, name=name)


def glance(version: HouseVersion) -> str:
    """Return the small picture of a version; nothing where its file has problems."""
    return _glance(version.text, version.file_name)


@lru_cache(maxsize=_KEPT_PICTURES)
def _glance(text: str, name: str) -> str:
    from setday.web.houses.thumbnail import thumbnail

    built = opened_text(text, name).house
    return thumbnail(built) if built else ""


def read(data: bytes | str, *, name: str) -> "OpenHouse":
    """Read and build what somebody sent in; its findings say what is wrong with it."""
    from setday.actions.houses import open_house

    return open_house(data, name=name)


def warm_up() -> None:
    """Open the first house, so that nobody waits for it."""
    from django.db import connection

    from setday.web.keeping.models import House

    try:
        house = House.objects.filter(put_away=False).first()
        if house is not None:
            opened(house.newest)
    finally:
        connection.close()
