"""Pricing with the compiled knapsacks: the same patterns and tables as `pricing`, many times faster."""

from bisect import bisect_right
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout import kernel_cuts as cuts
from setday.boards.layout.patterns import Pattern, Slot
from setday.boards.layout.pricing import Priced, Pricer, Tables
from setday.boards.layout.rows import Item
from setday.boards.problem import Board

__all__ = ["QuickPricer"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]
MOST_SLOTS = 400


class QuickPricer(Pricer):
    """Prices boards against item values.

    Parameters are those of `Pricer`.
    """

    def __init__(
        self, items: list[Item], boards: tuple[Board, ...], *, trim: int = 0, up: bool = True
    ) -> None:
        super().__init__(items, boards, trim=trim, up=up)
        lengths = np.array([i[2] + trim for i in items], dtype=np.int64)
        self.things = np.stack([self.heights, self.edges, self.steps, lengths], axis=1).astype(np.int64)
        self._quick = {w: _Quick(self, w) for w in self.widths}

    def best_values(self, values: Values) -> Values:
        """Return the value of the best pattern of every board of the list."""
        out = np.zeros(len(self.boards))
        for quick in self._quick.values():
            quick.fill(values)
            out[quick.mine] = quick.table[cuts.BOARD_ROW, quick.sizes]
        return out

    def best(self, values: Values) -> list[Priced]:
        """Return the best pattern of every board of the list, in its order."""
        out: dict[int, Priced] = {}
        for quick in self._quick.values():
            quick.fill(values)
            for b, size in zip(quick.mine.tolist(), quick.sizes.tolist(), strict=True):
                out[b] = Priced(float(quick.table[cuts.BOARD_ROW, size]), quick.cut(b, size))
        return [out[i] for i in range(len(self.boards))]

    def tables(self, width: int, values: Values) -> Tables:
        """Return what any length of board, and of lane, of one width is worth at most."""
        quick = self._quick[width]
        quick.fill(values)
        return Tables(
            board=quick.table[cuts.BOARD_ROW].copy(),
            edged=[(h, quick.table[cuts.FIRST_LANE + k].copy()) for k, h in enumerate(quick.side_heights)],
            plain=[(h, quick.table[quick.inner[0] + k].copy()) for k, h in enumerate(quick.inner_heights)],
        )

    def covering(self, values: Values, *, halt: Callable[[], bool] = lambda: False) -> list[Priced]:
        """Return for every item of some value the pattern that holds it and is worth most for its price."""
        best: dict[int, tuple[float, Priced]] = {}
        for quick in self._quick.values():
            quick.fill(values)
            for item in [] if halt() else quick.members.tolist():
                if values[item] <= cuts.EPS:
                    continue
                ratio, held = quick.best_with(item, float(values[item]))
                if item not in best or ratio > best[item][0]:
                    pattern = quick.cut_with(held)
                    worth = ratio * self.boards[pattern.board].price_cents
                    best[item] = (ratio, Priced(worth, pattern))
        return [best[i][1] for i in sorted(best)]


class _Quick:
    """The tables of one board width, and which lanes go with which."""

    def __init__(self, pricer: QuickPricer, width: int) -> None:
        self.pricer = pricer
        self.width = width
        self.things = pricer.things
        self.mine = np.array([i for i, b in enumerate(pricer.boards) if b.width == width], dtype=np.int64)
        self.sizes = np.array([pricer.board_steps[i] for i in self.mine], dtype=np.int64)
        self.prices = np.array([float(pricer.boards[i].price_cents) for i in self.mine])
        steps = int(self.sizes.max()) + 1
        heights, edges = pricer.heights, pricer.edges
        serves = np.where(edges == 2, heights == width, heights <= width) & (pricer.steps < steps)
        self.members = _by_length(np.flatnonzero(serves), pricer.steps)
        room = width + pricer.trim
        ripped = self.members[edges[self.members] < 2]
        least = int(heights[ripped].min(initial=width)) + pricer.trim
        ripped = ripped[heights[ripped] + pricer.trim + least <= room]
        self.side_heights, side_items, side_begins = _lanes(ripped, heights)
        self.inner_heights, inner_items, inner_begins = _lanes(ripped[edges[ripped] == 0], heights)
        self.sides = (cuts.FIRST_LANE, side_items, side_begins)
        self.inner = (cuts.FIRST_LANE + len(self.side_heights), inner_items, inner_begins)
        first = self.inner[0] + len(self.inner_heights)
        self.stacks, rooms = self._stack(room)
        self.between = (first, *self._rooms(rooms))
        self.stacks[:, 2] += first
        lanes = [*self.side_heights, *self.inner_heights]
        self.heights = np.array([pricer.trim, self.inner[0], *lanes], dtype=np.int64)
        self.near = self._near()
        self.table = np.zeros((first + len(rooms), steps))
        self.choice = np.zeros((first + len(rooms), steps), dtype=np.int64)
        self.out = np.zeros((MOST_SLOTS, 3), dtype=np.int64)

    def _stack(self, room: int) -> tuple[Ints, list[int]]:
        """Return two lanes at a board's edges and the room between them, and all rooms to be filled."""
        trim = self.pricer.trim
        sums = self._sums(room)
        found = []
        for i, low in enumerate(self.side_heights):
            able = [k for k in range(i + 1) if low + self.side_heights[k] + 2 * trim <= room]
            for k in able if self.inner_heights else able[-1:]:
                left = room - low - self.side_heights[k] - 2 * trim
                found.append((i, k, _floor(sums, left)))
        rooms = {0, *(r for _, _, r in found)}
        fresh = rooms
        while fresh:
            lower = {_floor(sums, r - h - trim) for r in fresh for h in self.inner_heights if r >= h + trim}
            fresh = lower - rooms
            rooms = rooms | fresh
        order = sorted(rooms)
        first = cuts.FIRST_LANE
        table = [(first + i, first + k, order.index(r)) for i, k, r in found]
        return np.array(table, dtype=np.int64).reshape(-1, 3), order

    def _sums(self, room: int) -> list[int]:
        """Return all room that lanes without a factory edge can take."""
        steps = [h + self.pricer.trim for h in self.inner_heights]
        sums, fresh = {0}, {0}
        while fresh:
            fresh = {f + h for f in fresh for h in steps if f + h <= room} - sums
            sums |= fresh
        return sorted(sums)

    def _rooms(self, rooms: list[int]) -> tuple[Ints, Ints]:
        """Return the lanes that fit each room, each with the room it leaves."""
        begins, ways = [0], []
        for r in rooms:
            for k, h in enumerate(self.inner_heights):
                left = r - h - self.pricer.trim
                if left >= 0:
                    ways.append((k, bisect_right(rooms, left) - 1))
            begins.append(len(ways))
        return np.array(begins, dtype=np.int64), np.array(ways, dtype=np.int64).reshape(-1, 2)

    def _near(self) -> dict[int, Ints]:
        """Return for every height some stacks with a lane so high, and which lane of theirs it is."""
        found: dict[int, list[tuple[int, int]]] = {}
        for s, (low, high, _) in enumerate(self.stacks.tolist()):
            for row in {low, high}:
                found.setdefault(int(self.heights[row]), []).append((s, int(row != low)))
        return {h: np.array(some[-cuts.MOST_STACKS :], dtype=np.int64) for h, some in found.items()}

    def fill(self, values: Values) -> None:
        """Fill the tables at some item values."""
        rows = (self.table, self.choice)
        sides, inner, between = self.sides, self.inner, self.between
        cuts.fill_tables(rows, self.members, sides, inner, between, self.stacks, self.things, values)

    def best_with(self, item: int, value: float) -> tuple[float, tuple[int, int, int, int, int]]:
        """Return worth over price of the best pattern that holds an item, and how it is held."""
        height, edges, step, _ = self.things[item].tolist()
        near = self.near.get(height, NOWHERE) if edges < 2 else NOWHERE
        rows, boards = (self.table, self.choice), (self.sizes, self.prices)
        ratio, board, size, k = cuts.best_with(rows, boards, near, self.stacks, (step, value))
        stack, upper = near[k].tolist() if k >= 0 else (-1, 0)
        return ratio, (item, stack, upper, size, board)

    def cut(self, board: int, size: int) -> Pattern:
        """Return the best pattern of a board."""
        self.out[0, 0] = 0
        place = (0, size, self.width)
        rows = (self.table, self.choice)
        cuts.cut_board(rows, self.stacks, self.between, place, self.heights, self.things, self.out)
        return self._pattern(board)

    def cut_with(self, held: tuple[int, int, int, int, int]) -> Pattern:
        """Return the pattern in which an item is held so."""
        item, stack, upper, size, k = held
        place = (int(self.sizes[k]), self.width)
        rows, how = (self.table, self.choice), (item, stack, upper, size)
        cuts.cut_with(rows, self.stacks, self.between, how, place, self.heights, self.things, self.out)
        return self._pattern(int(self.mine[k]))

    def _pattern(self, board: int) -> Pattern:
        n = int(self.out[0, 0])
        return Pattern(board, tuple(Slot(*slot) for slot in self.out[1 : n + 1].tolist()))


NOWHERE = np.zeros((0, 2), dtype=np.int64)


def _by_length(items: Ints, steps: Ints) -> Ints:
    return np.asarray(items[np.argsort(steps[items], kind="stable")], dtype=np.int64)


def _floor(sums: list[int], room: int) -> int:
    return sums[bisect_right(sums, room) - 1]


def _lanes(items: Ints, heights: Ints) -> tuple[list[int], Ints, Ints]:
    """Return the heights of some items, the items by height (shortest first), and where each begins."""
    order = items[np.argsort(heights[items], kind="stable")]
    found, begins = np.unique(heights[order], return_index=True)
    return found.tolist(), order.astype(np.int64), np.append(begins, len(order)).astype(np.int64)
