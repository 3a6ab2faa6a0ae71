"""What actions ask of whoever keeps the records: a small protocol, so that a test can keep them in memory."""

from contextlib import AbstractContextManager
from typing import Protocol, TypeVar

__all__ = ["KeptThing", "KeptVersion", "Thing", "Version", "VersionStore"]


class KeptThing(Protocol):
    """A house, a hookup: something whose file is kept, every version of it."""

    @property
    def key(self) -> str:
        """Its short name in addresses."""

    @property
    def name(self) -> str:
        """Its name in words."""


class KeptVersion(Protocol):
    """A file as it was entered, to the letter."""

    @property
    def number(self) -> int:
        """Counted from 1."""

    @property
    def text(self) -> str:
        """What it says."""


Thing = TypeVar("Thing", bound=KeptThing)
Version = TypeVar("Version", bound=KeptVersion)
Version_co = TypeVar("Version_co", bound=KeptVersion, covariant=True)


class VersionStore(Protocol[Thing, Version_co]):
    """Things of one kind, with every version of their files.

    The rules of keeping are in `setday.actions.versions`; a store only finds and writes.
    """

    @property
    def usual_key(self) -> str:
        """The key of a thing whose name has no letter that a key may have."""

    @property
    def taken_keys(self) -> frozenset[str]:
        """Keys that stand for something else in addresses."""

    def together(self) -> AbstractContextManager[object]:
        """Begin a block in which everything is kept, or nothing."""

    def has_key(self, key: str) -> bool:
        """Tell whether a thing has this key."""

    def named(self, name: str) -> Thing | None:
        """Return the thing of this name, whatever its case; one that is not put away first."""

    def begin(self, *, key: str, name: str) -> Thing:
        """Write down a new thing, which has no version yet."""

    def hold(self, thing: Thing) -> None:
        """Let nobody else write versions of a thing until the block of `together` ends."""

    def rename(self, thing: Thing, name: str) -> None:
        """Write down another name."""

    def newest(self, thing: Thing) -> Version_co | None:
        """Return the version in force."""

    def numbered(self, thing: Thing, number: int) -> Version_co | None:
        """Return the version of a number."""

    def write(self, thing: Thing, *, number: int, file_name: str, text: str, note: str) -> Version_co:
        """Write down a version."""
