"""What keeping gates asks of whoever keeps the records of one house: a small protocol."""

from collections.abc import Collection
from contextlib import AbstractContextManager
from typing import Any, Protocol

from setday.closein import Added, Mark

__all__ = ["GateStore"]


class GateStore(Protocol):
    """Marks, added items and records of the gates of one house.

    The rules are in `setday.closein` and `setday.actions.gates.marks`; a store only finds and writes, and
    writes nothing over, except that an added item may be struck.
    """

    def together(self) -> AbstractContextManager[object]:
        """Begin a block in which everything is kept, or nothing."""

    def hold(self) -> None:
        """Let nobody else write at the gates of this house until the block of `together` ends."""

    def marks(self, surfaces: Collection[str] | None = None) -> tuple[Mark, ...]:
        """Return marks in the order they were written: all, or those on some surfaces."""

    def mark_of(self, entry: str) -> Mark | None:
        """Return the mark of an entry."""

    def write(self, mark: Mark, *, version: int) -> None:
        """Write down a mark, made while a version of the house file was in force."""

    def added(self) -> tuple[Added, ...]:
        """Return everything that was added, struck or not, in the order it was."""

    def add(self, added: Added) -> None:
        """Write down an added item."""

    def strike(self, added: Added) -> None:
        """Write down why an added item is asked for no longer."""

    def write_record(self, entry: str, surface: str, document: dict[str, Any]) -> None:
        """Write down what was inside a surface when the mark of this entry closed it."""

    def record(self, entry: str) -> dict[str, Any] | None:
        """Return the record that goes with the entry of a closing."""

    @property
    def helper_confirms(self) -> bool:
        """Whether helpers may confirm and refuse at the gates of this house."""
