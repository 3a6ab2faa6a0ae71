"""Keeping houses: every version as it was entered, none ever written over."""

from django.db import transaction
from django.utils.text import slugify

from setday.web.keeping.models import House, HouseVersion

__all__ = ["add_version", "keep_house", "version_of"]

_LONGEST_KEY = 50
_TAKEN = {"new", "check", "keys", "put-away"}


@transaction.atomic
def keep_house(*, name: str, file_name: str, text: str) -> House:
    """Keep a new house with its first version."""
    house = House.objects.create(key=_free_key(name), name=name[:200])
    HouseVersion.objects.create(house=house, number=1, file_name=file_name[:200], text=text)
    return house


@transaction.atomic
def add_version(house: House, *, name: str, file_name: str, text: str, note: str = "") -> HouseVersion:
    """Keep another version; the same text as the newest adds none."""
    newest = HouseVersion.objects.select_for_update().filter(house=house).order_by("-number")[0]
    if newest.text == text:
        return newest
    house.name = name[:200]
    house.save(update_fields=["name"])
    return HouseVersion.objects.create(
        house=house, number=newest.number + 1, file_name=file_name[:200], text=text, note=note[:200]
    )


def version_of(house: House, number: str | None) -> HouseVersion | None:
    """Return the version of that number, the newest without a number, None when there is no such."""
    if not number:
        return house.newest
    if not number.isdecimal() or len(number) > 8:
        return None
    found: HouseVersion | None = house.versions.filter(number=int(number)).first()
    return found


def _free_key(name: str) -> str:
    wanted = slugify(name)[:_LONGEST_KEY] or "house"
    key, count = wanted, 1
    while key in _TAKEN or House.objects.filter(key=key).exists():
        count += 1
        key = f"{wanted}-{count}"
    return key
