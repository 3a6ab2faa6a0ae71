"""What is left of a board is worth: the tables by which pieces are placed one after another.

The prices per item that prove the bound also say what an off-cut of any size is worth: the value of
the best pieces that could still be cut from it.  A placement is then judged by what it adds to the
boards bought, less what remains useful.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.pricing import Pricer
from setday.boards.problem import Board

__all__ = ["Worth", "area_values", "cheapest_board", "worth"]

Values = NDArray[np.float64]
NEVER = 1e12


def area_values(pricer: Pricer) -> Values:
    """Return a first value for every item: its area at the lowest price per area on the list."""
    cheapest = min(b.price_cents / (b.width * b.length) for b in pricer.boards)
    lengths = np.array([i[2] for i in pricer.items], dtype=np.float64)
    return np.asarray(cheapest * pricer.heights * lengths, dtype=np.float64)


@dataclass(slots=True)
class Worth:
    """Tables of one board kind, by width (place in `widths`) and by length in steps.

    Parameters
    ----------
    widths : tuple of int
        Board widths [1/64 in].
    price : array (width, used)
        The cheapest board of which so much length is used [cents].
    strip : array (width, used)
        The same, less the share of worth left on the board [cents].
    heights : array
        Lane heights, ascending [1/64 in].
    lane : array (edge, height, length)
        Worth of a lane that has a factory edge (1) or none (0) [cents].
    ledger : list, optional
        The same for one piece at a time: width, `strip`, and what is left beside each item.
    """

    widths: tuple[int, ...]
    price: Values
    strip: Values
    heights: NDArray[np.int64]
    lane: Values
    ledger: list[tuple[int, list[float], list[float]]] | None = None

    def lane_row(self, height: int) -> int:
        """Return the row of `lane` for a lane of `height`; -1 when nothing fits it."""
        return int(np.searchsorted(self.heights, height, side="right")) - 1


def worth(pricer: Pricer, values: Values, share: float) -> Worth:
    """Return the tables at the given item values.

    Parameters
    ----------
    pricer : Pricer
    values : array
        Value per item [cents].
    share : float
        The part of the worth of what is left that is counted on, 0 to 1.
    """
    size = max(pricer.board_steps) + 1
    heights = np.unique(pricer.heights[pricer.edges < 2])
    price = np.full((len(pricer.widths), size), NEVER)
    strip = np.full((len(pricer.widths), size), NEVER)
    lane = np.zeros((2, max(len(heights), 1), size))
    for k, width in enumerate(pricer.widths):
        tables = pricer.tables(width, values)
        for steps, b in zip(pricer.board_steps, pricer.boards, strict=True):
            if b.width == width:
                kept = b.price_cents - share * tables.board[steps::-1]
                price[k, : steps + 1] = np.minimum(price[k, : steps + 1], b.price_cents)
                strip[k, : steps + 1] = np.minimum(strip[k, : steps + 1], kept)
        for edge, lanes in ((1, tables.edged), (0, tables.plain)):
            for height, table in lanes:
                first = int(np.searchsorted(heights, height))
                lane[edge, first:, : len(table)] = np.maximum(lane[edge, first:, : len(table)], table)
    price[:, 0] = 0.0
    strip[:, 0] = 0.0
    return Worth(tuple(pricer.widths), price, strip, heights, share * lane)


def cheapest_board(boards: tuple[Board, ...], width: int, length: int) -> int:
    """Return the place on the list of the cheapest board of `width` at least `length` long."""
    able = [i for i, b in enumerate(boards) if b.width == width and b.length >= length]
    return min(able, key=lambda i: (boards[i].price_cents, boards[i].length, i))
