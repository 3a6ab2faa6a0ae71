"""Taking in a house file: kept where nothing is wrong, every question is seen, and no name is doubtful."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Generic

from setday.actions.houses import OpenHouse
from setday.actions.stores import Thing, Version, VersionStore
from setday.actions.versions import add_version, keep_new
from setday.findings import Severity

__all__ = ["TakenIn", "Twin", "may_be_kept", "take_in_house", "take_in_version"]


class Twin(StrEnum):
    """What a file is whose house has the name of one that is kept already."""

    UNSAID = ""
    VERSION = "version"
    """Another version of that house."""
    ANOTHER = "another"
    """Another house of the same name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn(Generic[Thing, Version]):
    """What became of a file.

    Parameters
    ----------
    kept : KeptThing and KeptVersion, or None
        None where nothing was kept.
    twin : KeptThing or None
        The kept house of the same name, where somebody must say what the file is.
    """

    kept: tuple[Thing, Version] | None = None
    twin: Thing | None = None


def may_be_kept(opened: OpenHouse, *, as_meant: bool) -> bool:
    """Tell whether a file has no problem, and every question in it was seen.

    Parameters
    ----------
    opened : OpenHouse
    as_meant : bool
        Somebody saw the questions and said that it is as it was meant.
    """
    if opened.house is None or opened.problems:
        return False
    return as_meant or all(found.severity is not Severity.ASK for found in opened.findings)


def take_in_house(
    opened: OpenHouse,
    *,
    store: VersionStore[Thing, Version],
    as_meant: bool = False,
    twin: Twin = Twin.UNSAID,
) -> TakenIn[Thing, Version]:
    """Keep a file as a new house, or as what its sender says it is where the name is kept already.

    Parameters
    ----------
    opened : OpenHouse
    store : VersionStore
    as_meant : bool
        The questions in it were seen.
    twin : Twin
        What it is, where a house of its name is kept.
    """
    if not may_be_kept(opened, as_meant=as_meant):
        return TakenIn()
    name = opened.built().name
    with store.together():
        there = store.named(name)
        if there is not None and twin is Twin.UNSAID:
            return TakenIn(twin=there)
        if there is not None and twin is Twin.VERSION:
            return take_in_version(opened, store=store, house=there, as_meant=as_meant)
        return TakenIn(kept=keep_new(store, name=name, file_name=opened.name, text=opened.text))


def take_in_version(
    opened: OpenHouse,
    *,
    store: VersionStore[Thing, Version],
    house: Thing,
    as_meant: bool = False,
    note: str = "",
) -> TakenIn[Thing, Version]:
    """Keep a file as another version of a house.

    Parameters
    ----------
    opened : OpenHouse
    store : VersionStore
    house : KeptThing
    as_meant : bool
        The questions in it were seen.
    note : str
        What changed.
    """
    if not may_be_kept(opened, as_meant=as_meant):
        return TakenIn()
    version = add_version(
        store, house, name=opened.built().name, file_name=opened.name, text=opened.text, note=note
    )
    return TakenIn(kept=(house, version))
