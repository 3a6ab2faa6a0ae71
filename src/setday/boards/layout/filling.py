"""Boards being filled, piece by piece.

A `Filling` is one board with what is cut from it so far: pieces over its full width laid end to
end, and sections ripped into lanes.  Fillings never change; placing or taking away a piece makes a
new one, so a whole state of the house is kept or given back by keeping or giving back a list.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from setday.boards.layout.patterns import Pattern, Slot
from setday.boards.layout.rows import Item

__all__ = ["Filling", "Lane", "Piece", "Section", "Space"]


class Piece(NamedTuple):
    """A piece cut from a board: who wants it, what it asks for, and its length in steps."""

    owner: int
    item: Item
    steps: int


@dataclass(frozen=True, eq=False)
class Lane:
    """Pieces one behind the other in a lane as high as the highest of them."""

    pieces: tuple[Piece, ...]

    @cached_property
    def height(self) -> int:
        """Height [1/64 in]."""
        return max(p.item[0] for p in self.pieces)

    @cached_property
    def edged(self) -> bool:
        """Whether a piece of it needs a factory edge."""
        return any(p.item[1] for p in self.pieces)

    @cached_property
    def steps(self) -> int:
        """Length in steps."""
        return sum(p.steps for p in self.pieces)


Section = tuple[Lane, ...]


class Space(NamedTuple):
    """Where a lane piece may go: section and lane of a filling (-1: a new one), room and what it opens."""

    section: int
    lane: int
    height: int
    left: int
    edge: bool


@dataclass(frozen=True, eq=False)
class Filling:
    """One board with what is cut from it.

    Parameters
    ----------
    width : int
        Board width [1/64 in].
    trim : int
        Loss of a cut [1/64 in].
    full : tuple of Piece
        Pieces over the full width.
    sections : tuple of Section
        Ripped sections, each a tuple of lanes.
    """

    width: int
    trim: int
    full: tuple[Piece, ...] = ()
    sections: tuple[Section, ...] = ()

    @cached_property
    def used(self) -> int:
        """Length used, in steps."""
        return sum(p.steps for p in self.full) + sum(max(lane.steps for lane in s) for s in self.sections)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece."""
        return (*self.full, *(p for s in self.sections for lane in s for p in lane.pieces))

    @cached_property
    def owners(self) -> frozenset[int]:
        """Who wants the pieces."""
        return frozenset(p.owner for p in self.pieces)

    @property
    def reach(self) -> int:
        """Length of board it takes [1/64 in]."""
        return max(x + p.item[2] for p, x, _, _ in self.placed())

    def without(self, owners: set[int]) -> "Filling":
        """Return the filling with the pieces of some owners taken away."""
        full = tuple(p for p in self.full if p.owner not in owners)
        sections = []
        for s in self.sections:
            lanes = (Lane(tuple(p for p in lane.pieces if p.owner not in owners)) for lane in s)
            kept = tuple(lane for lane in lanes if lane.pieces)
            if kept:
                sections.append(kept)
        return Filling(self.width, self.trim, full, tuple(sections))

    @cached_property
    def spaces(self) -> tuple[Space, ...]:
        """The room beside and behind the pieces of ripped sections."""
        out = []
        for i, s in enumerate(self.sections):
            length = max(lane.steps for lane in s)
            edged = sum(lane.edged for lane in s)
            out += [
                Space(i, k, lane.height, length - lane.steps, lane.edged or edged < 2)
                for k, lane in enumerate(s)
                if lane.steps < length
            ]
            rest = self.width - sum(lane.height + self.trim for lane in s)
            if rest > 0:
                out.append(Space(i, -1, rest, length, edged < 2))
        return tuple(out)

    def with_full(self, piece: Piece) -> "Filling":
        """Return the filling with a piece laid at the end of the strip."""
        if piece.item[1] < 2 and piece.item[0] < self.width:
            return Filling(self.width, self.trim, self.full, (*self.sections, (Lane((piece,)),)))
        return Filling(self.width, self.trim, (*self.full, piece), self.sections)

    def with_in(self, piece: Piece, space: Space) -> "Filling":
        """Return the filling with a piece laid into a space of a ripped section."""
        section = self.sections[space.section]
        if space.lane < 0:
            section = (*section, Lane((piece,)))
        else:
            lane = Lane((*section[space.lane].pieces, piece))
            section = (*section[: space.lane], lane, *section[space.lane + 1 :])
        sections = (*self.sections[: space.section], section, *self.sections[space.section + 1 :])
        return Filling(self.width, self.trim, self.full, sections)

    def placed(self) -> list[tuple[Piece, int, int, bool]]:
        """Return every piece with its corner on the board, and whether its lane lies at the upper edge."""
        trim = self.trim
        out = []
        x = 0
        for p in self.full:
            out.append((p, x, 0, False))
            x += p.item[2] + trim
        for s in self.sections:
            ordered = sorted(s, key=lambda lane: (not lane.edged, -lane.height))
            order = [*ordered[:1], *ordered[2:], *ordered[1:2]]
            y = 0
            for k, lane in enumerate(order):
                upper = 0 < k == len(order) - 1
                at = x
                for p in lane.pieces:
                    out.append((p, at, self.width - p.item[0] if upper else y, upper))
                    at += p.item[2] + trim
                y += lane.height + trim
            x += max(sum(p.item[2] + trim for p in lane.pieces) for lane in s)
        return out

    def pattern(self, board: int, place: dict[Item, int]) -> Pattern:
        """Return the pattern of the filling when cut from the board at `board` of the list."""
        return Pattern(board, tuple(Slot(place[p.item], x, y) for p, x, y, _ in self.placed()))
