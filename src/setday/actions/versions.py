"""The rules of keeping files: every version as it was entered, none ever written over."""

import re
from unicodedata import normalize

from setday.actions.stores import Thing, Version, VersionStore

__all__ = ["LONGEST_NAME", "add_version", "free_key", "keep_new", "version_of"]

LONGEST_NAME = 200
"""Letters of a name, a file's name or a note that are kept; our own."""
_LONGEST_KEY = 50
_LONGEST_NUMBER = 8


def keep_new(
    store: VersionStore[Thing, Version], *, name: str, file_name: str, text: str
) -> tuple[Thing, Version]:
    """Keep a new thing with its first version.

    Parameters
    ----------
    store : VersionStore
    name : str
        In words; its key is made from it.
    file_name, text : str
        The file as it was entered.
    """
    with store.together():
        thing = store.begin(key=free_key(store, name), name=name[:LONGEST_NAME])
        return thing, store.write(thing, number=1, file_name=file_name[:LONGEST_NAME], text=text, note="")


def add_version(
    store: VersionStore[Thing, Version],
    thing: Thing,
    *,
    name: str,
    file_name: str,
    text: str,
    note: str = "",
) -> Version:
    """Keep another version; the same text as the newest adds none.

    Parameters
    ----------
    store : VersionStore
    thing : KeptThing
    name : str
        As the file gives it now.
    file_name, text : str
        The file as it was entered.
    note : str
        What changed.
    """
    with store.together():
        store.hold(thing)
        newest = store.newest(thing)
        if newest is not None and newest.text == text:
            return newest
        store.rename(thing, name[:LONGEST_NAME])
        return store.write(
            thing,
            number=newest.number + 1 if newest else 1,
            file_name=file_name[:LONGEST_NAME],
            text=text,
            note=note[:LONGEST_NAME],
        )


def version_of(store: VersionStore[Thing, Version], thing: Thing, number: str | None) -> Version | None:
    """Return the version that an address asks for.

    Parameters
    ----------
    store : VersionStore
    thing : KeptThing
    number : str or None
        As it came in an address: anything at all; nothing asks for the newest.
    """
    if not number:
        return store.newest(thing)
    if not (number.isascii() and number.isdecimal()) or len(number) > _LONGEST_NUMBER:
        return None
    return store.numbered(thing, int(number))


def free_key(store: VersionStore[Thing, Version], name: str) -> str:
    """Return a key that no thing has, near a name.

    Parameters
    ----------
    store : VersionStore
    name : str
    """
    wanted = _plain(name)[:_LONGEST_KEY].strip("-") or store.usual_key
    key, count = wanted, 1
    while key in store.taken_keys or store.has_key(key):
        count += 1
        key = f"{wanted}-{count}"
    return key


def _plain(name: str) -> str:
    """Return a name in small letters without accents, words joined by hyphens."""
    letters = normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    kept = re.sub(r"[^a-z0-9\s_-]", "", letters)
    return re.sub(r"[\s_-]+", "-", kept).strip("-")
