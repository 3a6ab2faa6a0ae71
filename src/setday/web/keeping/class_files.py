"""Keeping class files: every version as it was entered, none ever written over."""

from setday.actions.versions import add_version as add
from setday.actions.versions import version_of as version_numbered
from setday.web.keeping.models import ClassFileVersion, House
from setday.web.keeping.versions import DjangoVersions

__all__ = ["CLASS_FILES", "add_class_file", "class_file_of"]

CLASS_FILES = DjangoVersions(
    things=House,
    versions=ClassFileVersion,
    link="house",
    usual_key="house",
    taken_keys=frozenset(),
)
"""The class files of houses: they are versions of the house they belong to."""


def add_class_file(house: House, *, file_name: str, text: str, note: str = "") -> ClassFileVersion:
    """Keep another version; the same text as the newest adds none."""
    return add(CLASS_FILES, house, name=house.name, file_name=file_name, text=text, note=note)


def class_file_of(house: House, number: str | None = None) -> ClassFileVersion | None:
    """Return the version of that number, the newest without a number, None when there is no such."""
    return version_numbered(CLASS_FILES, house, number)
