"""A layout read together with its problem: who is where, and the rings of the pieces."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from setday.boards.outcome import BoughtBoard, Layout, Piece, SurfaceRows
from setday.boards.problem import Board, BoardProblem, Corner, Rows, Surface

__all__ = ["LaidOut", "Ring", "along_rows", "length_along", "ring_of", "twice_area"]

Ring = tuple[Corner, ...]
Key = TypeVar("Key")


@dataclass(frozen=True, kw_only=True)
class LaidOut:
    """A problem and one layout of it."""

    problem: BoardProblem
    layout: Layout

    @cached_property
    def surfaces(self) -> dict[str, Surface]:
        """The surfaces of the problem by id."""
        return {surface.id: surface for surface in self.problem.surfaces}

    @cached_property
    def divided(self) -> dict[str, SurfaceRows]:
        """The rows of each surface by its id."""
        return {rows.surface: rows for rows in self.layout.surfaces}

    @cached_property
    def price_list(self) -> dict[str, Board]:
        """The boards of the price list by key."""
        return {board.key: board for board in self.problem.boards}

    @cached_property
    def bought(self) -> dict[int, BoughtBoard]:
        """The bought boards by number."""
        return {board.number: board for board in self.layout.boards}

    @cached_property
    def pieces_on(self) -> dict[str, tuple[Piece, ...]]:
        """The pieces of each surface, in hanging order."""
        return _grouped((piece.surface, piece) for piece in self.layout.pieces)

    @cached_property
    def pieces_from(self) -> dict[int, tuple[Piece, ...]]:
        """The pieces cut from each board, in hanging order."""
        return _grouped((piece.board, piece) for piece in self.layout.pieces)

    def board_of(self, piece: Piece) -> Board:
        """Return the board of the price list that a piece is cut from."""
        return self.price_list[self.bought[piece.board].key]

    def rows_of(self, piece: Piece) -> Rows:
        """Return the direction of the rows of the piece's surface."""
        return self.divided[piece.surface].rows


def _grouped(pairs: Iterable[tuple[Key, Piece]]) -> dict[Key, tuple[Piece, ...]]:
    groups: defaultdict[Key, list[Piece]] = defaultdict(list)
    for key, piece in pairs:
        groups[key].append(piece)
    return {key: tuple(pieces) for key, pieces in groups.items()}


def ring_of(piece: Piece) -> Ring:
    """Return the piece's outline, or its box where it has none, counter-clockwise."""
    if piece.outline:
        return piece.outline
    x, y, right, top = piece.x, piece.y, piece.x + piece.w, piece.y + piece.h
    return ((x, y), (right, y), (right, top), (x, top))


def along_rows(ring: Ring, rows: Rows) -> Ring:
    """Return the ring with its first coordinate along the rows, counter-clockwise again."""
    return ring if rows is Rows.ALONG else tuple((y, x) for x, y in reversed(ring))


def length_along(piece: Piece, rows: Rows) -> int:
    """Return the length of a piece along its row, which is along its board [1/64 in]."""
    return piece.w if rows is Rows.ALONG else piece.h


def twice_area(ring: Ring) -> int:
    """Return twice the signed area of a ring; positive when it runs counter-clockwise [1/4096 in2]."""
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], *ring[:1]), strict=True))
