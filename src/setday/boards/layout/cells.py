"""Pieces counted as cells, so that the linear program of the bound has few things to supply.

A piece is thought of as cut, where it lies on its board, into cells as long as the members are apart (less
what the cut takes) and one rest that is at least so long.  A board that gives the piece gives its cells in
the same place, so every layout in pieces is one in cells too, and what is proven for cells holds for
pieces.  Where pieces may be cut at members the cells are pieces themselves, and hardly anything is given
away.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.network import Network
from setday.boards.layout.patterns import Pattern, Slot
from setday.boards.layout.rows import Item

__all__ = ["Cells", "in_cells"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]
FEW = 0.3
"""Pieces are counted as cells where that leaves at most this share of different things."""


@dataclass(frozen=True, slots=True)
class Cells:
    """What every piece of a network is counted as.

    Parameters
    ----------
    items : list of Item
        The cells.
    main, times : array
        For every item of the network: a cell, and how many of it.
    rest, once : array
        Another cell, and whether (1) or not (0) it is one of the item's.
    trim : int
        Loss of a cut [1/64 in].
    """

    items: list[Item]
    main: Ints
    times: Ints
    rest: Ints
    once: Ints
    trim: int

    def values(self, values: Values) -> Values:
        """Return what every item of the network is worth when its cells are worth `values`."""
        return np.asarray(self.times * values[self.main] + self.once * values[self.rest])

    def lean(self, values: Values, slack: Values, arc_item: Ints) -> Values:
        """Return values of the cells as low as they may be while no piece loses more than its slack.

        Parameters
        ----------
        values : array
            Value per cell.
        slack : array
            What every piece may lose.
        arc_item : array
            The item of every piece.
        """
        share = slack / (self.times + self.once)[arc_item]
        least = np.full(len(self.items), np.inf)
        np.minimum.at(least, self.main[arc_item], share)
        with_rest = self.once[arc_item] > 0
        np.minimum.at(least, self.rest[arc_item][with_rest], share[with_rest])
        least[np.isinf(least)] = 0.0
        return np.asarray(np.maximum(values - np.maximum(least, 0.0), 0.0))

    def pattern(self, pattern: Pattern) -> Pattern:
        """Return a way to cut a board into pieces as the same way to cut it into their cells."""
        slots: list[Slot] = []
        for s in pattern.slots:
            x = s.x
            for _ in range(int(self.times[s.item])):
                cell = int(self.main[s.item])
                slots.append(Slot(cell, x, s.y))
                x += self.items[cell][2] + self.trim
            if self.once[s.item]:
                slots.append(Slot(int(self.rest[s.item]), x, s.y))
        return Pattern(pattern.board, tuple(slots))


def in_cells(network: Network, *, trim: int) -> Cells:
    """Return the cells of a network; every item is a cell of its own where others would save little.

    Parameters
    ----------
    network : Network
    trim : int
        Loss of a cut [1/64 in].
    """
    spacing = min((f.surface.member_spacing for f in network.faces), default=0)
    if spacing > trim:
        made = _made([_parts(item, spacing, trim) for item in network.items], trim)
        if len(made.items) <= FEW * len(network.items):
            return made
    return _made([(item, 1, None) for item in network.items], trim)


Parts = tuple[Item, int, Item | None]


def _parts(item: Item, spacing: int, trim: int) -> Parts:
    """Return the cell an item is counted as, how often, and its rest."""
    height, edges, length = item
    cell = (height, edges, spacing - trim)
    count = length // spacing - 1
    if count < 1:
        return item, 1, None
    rest = (height, edges, length - count * spacing)
    return (cell, count + 1, None) if rest == cell else (cell, count, rest)


def _made(parts: Sequence[Parts], trim: int) -> Cells:
    found = {main for main, _, _ in parts} | {rest for *_, rest in parts if rest is not None}
    items = sorted(found)
    place = {item: i for i, item in enumerate(items)}
    return Cells(
        items=items,
        main=np.array([place[main] for main, _, _ in parts], dtype=np.int64),
        times=np.array([times for _, times, _ in parts], dtype=np.int64),
        rest=np.array([0 if rest is None else place[rest] for *_, rest in parts], dtype=np.int64),
        once=np.array([rest is not None for *_, rest in parts], dtype=np.int64),
        trim=trim,
    )
