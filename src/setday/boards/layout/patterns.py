"""How one board is cut: cross-cut into sections, sections ripped into lanes, lanes cross-cut again."""

from collections import Counter
from dataclasses import dataclass

from setday.boards.layout.rows import Item
from setday.boards.problem import Board

__all__ = ["Pattern", "Slot", "fits"]


@dataclass(frozen=True, slots=True)
class Slot:
    """A place for one piece on a board: the item it is cut for and its lower left corner [1/64 in]."""

    item: int
    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to cut one board of the price list (`board` is its place on the list)."""

    board: int
    slots: tuple[Slot, ...]

    @property
    def counts(self) -> dict[int, int]:
        """How many of each item it gives."""
        return Counter(s.item for s in self.slots)

    @property
    def key(self) -> tuple[int, tuple[tuple[int, int], ...]]:
        """What makes two patterns the same purchase and the same pieces."""
        return self.board, tuple(sorted(self.counts.items()))


def fits(item: Item, board: Board) -> bool:
    """Return whether a board gives the item at all: both factory edges only at its full width."""
    height, edges, length = item
    wide = board.width == height if edges == 2 else board.width >= height
    return wide and board.length >= length
