"""Keeping houses: every version as it was entered, none ever written over."""

from dataclasses import replace

from setday.actions.versions import add_version as add
from setday.actions.versions import keep_new
from setday.actions.versions import version_of as version_numbered
from setday.web.keeping.models import House, HouseVersion, School
from setday.web.keeping.versions import DjangoVersions

__all__ = ["HOUSES", "add_version", "houses_of", "keep_house", "version_of"]

HOUSES = DjangoVersions(
    things=House,
    versions=HouseVersion,
    link="house",
    usual_key="house",
    taken_keys=frozenset({"new", "check", "keys", "put-away"}),
)
"""The houses of every school; `houses_of` is the store that actions work on."""


def houses_of(school: School) -> DjangoVersions[House, HouseVersion]:
    """Return the store of the houses of a school."""
    return replace(HOUSES, more={"school": school}, within={"school": school})


def keep_house(*, school: School, name: str, file_name: str, text: str) -> House:
    """Keep a new house of a school with its first version."""
    return keep_new(houses_of(school), name=name, file_name=file_name, text=text)[0]


def add_version(house: House, *, name: str, file_name: str, text: str, note: str = "") -> HouseVersion:
    """Keep another version; the same text as the newest adds none."""
    return add(HOUSES, house, name=name, file_name=file_name, text=text, note=note)


def version_of(house: House, number: str | None) -> HouseVersion | None:
    """Return the version of that number, the newest without a number, None when there is no such."""
    return version_numbered(HOUSES, house, number)
