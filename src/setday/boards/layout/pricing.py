"""The best way to cut a board when every piece has a value: nested knapsacks, all lengths at once.

For one board width, three dynamic programs over the length of the board.  A *lane* of a given
height is filled with pieces no higher (`_lanes`).  A *section* of a given length is ripped into
lanes side by side: two keep a factory edge, lanes between them keep none (`_stacks`).  A *board* is
a row of sections and of pieces as wide as the board (`_closure`).  Every knapsack is unbounded, so
one table answers for every board length.
"""

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import reduce
from math import gcd

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.patterns import Pattern, Slot
from setday.boards.layout.rows import Item
from setday.boards.problem import Board

__all__ = ["Priced", "Pricer", "Tables", "unit_of"]

Values = NDArray[np.float64]

FINEST = 8
"""Lengths are counted in eighths of an inch where nothing coarser divides them all [1/64 in]."""
MOST_STEPS = 1600
MOST_STACKS = 3
"""How many ways to rip a section are tried around one piece."""
EPS = 1e-7
ASKED = 100
"""So many items are priced between two looks at the clock."""


def unit_of(items: list[Item], boards: tuple[Board, ...], trim: int) -> int:
    """Return the unit of length of the dynamic programs [1/64 in]."""
    lengths = [length + trim for *_, length in items] + [b.length + trim for b in boards]
    common = reduce(gcd, lengths, 0) or 1
    return common if max(lengths) // common <= MOST_STEPS else max(FINEST, common)


@dataclass(frozen=True, slots=True)
class Priced:
    """The best pattern of one board at the values asked about."""

    value: float
    pattern: Pattern


@dataclass(frozen=True, slots=True)
class Tables:
    """Worth by length: of a whole board's width, of lanes with a factory edge, of lanes without one."""

    board: Values
    edged: list[tuple[int, Values]]
    plain: list[tuple[int, Values]]


@dataclass(frozen=True, slots=True)
class _Lane:
    """The knapsack of one lane height: its table, and the items that may lie in it."""

    height: int
    table: Values
    members: NDArray[np.int64]


class _Between:
    """Lanes without a factory edge, stacked between the two at the edges of a board."""

    def __init__(self, lanes: list[_Lane], room: int, trim: int, nothing: Values) -> None:
        self.lanes = lanes
        self.trim = trim
        self.nothing = nothing
        self.tables: dict[int, Values] = {0: nothing}
        sums = fresh = {0}
        while fresh and lanes:
            fresh = {f + b.height + trim for f in fresh for b in lanes if f + b.height + trim <= room} - sums
            sums = sums | fresh
        self.sums = sorted(sums)

    def table(self, room: int) -> Values:
        """Return the best value of lanes stacked in `room`, for every section length."""
        room = self.sums[bisect_right(self.sums, room) - 1]
        if room not in self.tables:
            parts = [
                b.table + self.table(room - b.height - self.trim)
                for b in self.lanes
                if b.height + self.trim <= room
            ]
            self.tables[room] = reduce(np.maximum, parts, self.nothing)
        return self.tables[room]

    def at(self, room: int, length: int) -> list[_Lane]:
        """Return the lanes that give the best value for one section length."""
        value = self.table(room)[length]
        if value <= EPS:
            return []
        for b in self.lanes:
            left = room - b.height - self.trim
            if left >= 0 and b.table[length] + self.table(left)[length] >= value - EPS:
                return [b, *self.at(left, length)]
        raise AssertionError("a stacked value has lanes")


@dataclass(frozen=True, slots=True)
class _Stack:
    """Two lanes at the edges of a board and the room between them."""

    low: _Lane
    high: _Lane
    room: int


class Pricer:
    """Prices boards against item values.

    Parameters
    ----------
    items : list of Item
    boards : tuple of Board
    trim : int
        Loss of a cut [1/64 in].
    up : bool
        Round lengths up, so that every pattern can be cut; down gives an upper bound on the value of
        any pattern instead.  Where the unit divides every length the two are the same.
    """

    def __init__(
        self, items: list[Item], boards: tuple[Board, ...], *, trim: int = 0, up: bool = True
    ) -> None:
        self.items = items
        self.boards = boards
        self.trim = trim
        self.unit = unit_of(items, boards, trim)
        up_or_down = self.unit - 1 if up else 0
        self.steps = np.array([(i[2] + trim + up_or_down) // self.unit for i in items], dtype=np.int64)
        self.heights = np.array([i[0] for i in items], dtype=np.int64)
        self.edges = np.array([i[1] for i in items], dtype=np.int64)
        down = 0 if up else self.unit - 1
        self.board_steps = [(b.length + trim + down) // self.unit for b in boards]
        self.widths = sorted({b.width for b in boards})

    @property
    def exact(self) -> bool:
        """Whether the unit divides every length, so that rounding changes nothing."""
        lengths = [i[2] + self.trim for i in self.items] + [b.length + self.trim for b in self.boards]
        return all(length % self.unit == 0 for length in lengths)

    def best_values(self, values: Values) -> Values:
        """Return the value of the best pattern of every board of the list."""
        out = np.zeros(len(self.boards))
        for width in self.widths:
            table = _Width(self, width, values).table
            for i, b in enumerate(self.boards):
                if b.width == width:
                    out[i] = table[self.board_steps[i]]
        return out

    def best(self, values: Values) -> list[Priced]:
        """Return the best pattern of every board of the list, in its order."""
        out: dict[int, Priced] = {}
        for width in self.widths:
            made = _Width(self, width, values)
            for i, b in enumerate(self.boards):
                if b.width == width:
                    at = self.board_steps[i]
                    out[i] = Priced(float(made.table[at]), made.pattern(i))
        return [out[i] for i in range(len(self.boards))]

    def tables(self, width: int, values: Values) -> "Tables":
        """Return what any length of board, and of lane, of one width is worth at most."""
        made = _Width(self, width, values)
        return Tables(
            board=made.table,
            edged=[(lane.height, lane.table) for lane in made.sides],
            plain=[(lane.height, lane.table) for lane in made.between.lanes],
        )

    def covering(self, values: Values, *, halt: Callable[[], bool] = lambda: False) -> list[Priced]:
        """Return for every item the pattern that holds it and is worth most for its price.

        `halt` is asked now and then; True leaves the rest of the items out.
        """
        best: dict[int, tuple[float, Priced]] = {}
        for width in self.widths:
            made = _Width(self, width, values)
            for n, item in enumerate(made.usable.tolist()):
                if n % ASKED == 0 and halt():
                    break
                ratio, board, size, stack = made.best_with(item)
                if item not in best or ratio > best[item][0]:
                    pattern = made.pattern_with(item, board, (size, stack))
                    best[item] = (ratio, Priced(ratio * self.boards[board].price_cents, pattern))
        return [best[i][1] for i in sorted(best)]


class _Width:
    """The tables of one board width at one set of values."""

    def __init__(self, pricer: Pricer, width: int, values: Values) -> None:
        self.pricer = pricer
        self.width = width
        self.values = values
        self.size = max(s for s, b in zip(pricer.board_steps, pricer.boards, strict=True) if b.width == width)
        whole = (pricer.edges == 2) & (pricer.heights == width) | (pricer.edges < 2) & (
            pricer.heights <= width
        )
        self.usable = np.flatnonzero(whole & (values > EPS) & (pricer.steps <= self.size))
        self.full = self._filled(np.zeros(self.size + 1), self.usable)
        self.between = _Between([], 0, 0, np.zeros(self.size + 1))
        self.sides: list[_Lane] = []
        self.stacks = self._stacks()
        self.section = np.zeros(self.size + 1)
        self.which = np.zeros(self.size + 1, dtype=np.int64)
        self.of_height: dict[int, list[_Stack]] = {}
        for n, s in enumerate(self.stacks):
            table = s.low.table + s.high.table + self.between.table(s.room)
            better = table > self.section
            self.which[better] = n
            self.section[better] = table[better]
            for height in {s.low.height, s.high.height}:
                self.of_height.setdefault(height, []).append(s)
        self.table = self._closure()

    def _filled(self, table: Values, members: NDArray[np.int64]) -> Values:
        """Add `members` to an unbounded knapsack, longest first, but for those no better than the table."""
        steps, values = self.pricer.steps, self.values
        useful = members[values[members] > table[steps[members]] + EPS]
        for i in useful[np.argsort(-steps[useful], kind="stable")]:
            table = _with(table, int(steps[i]), float(values[i]))
        return table

    def _lanes(self, members: NDArray[np.int64], heights: list[int]) -> list[_Lane]:
        """Return the lane of every height, each built on the next lower one."""
        out: list[_Lane] = []
        table = np.zeros(self.size + 1)
        of = self.pricer.heights[members]
        for h in heights:
            table = self._filled(table.copy(), members[of == h])
            out.append(_Lane(h, table, members[of <= h]))
        return out

    def _stacks(self) -> list[_Stack]:
        """Return the ways to rip a section into two lanes or more that leave no room for a higher lane."""
        edges, heights, trim = self.pricer.edges, self.pricer.heights, self.pricer.trim
        ripped = self.usable[edges[self.usable] < 2]
        if not len(ripped):
            return []
        room = self.width + trim
        least = int(heights[ripped].min()) + trim
        ripped = ripped[heights[ripped] + trim + least <= room]
        free = ripped[edges[ripped] == 0]
        sides = self.sides = self._lanes(ripped, [int(h) for h in np.unique(heights[ripped])])
        inner = self._lanes(free, [int(h) for h in np.unique(heights[free])])
        self.between = _Between(inner, room, trim, np.zeros(self.size + 1))
        out = []
        for i, low in enumerate(sides):
            partners = [s for s in sides[: i + 1] if low.height + s.height + 2 * trim <= room]
            if not inner:
                partners = partners[-1:]
            out += [_Stack(low, high, room - low.height - high.height - 2 * trim) for high in partners]
        return out

    def _closure(self) -> Values:
        """Lay sections and full-width pieces end to end."""
        table = self.full.copy()
        steps = np.flatnonzero(np.diff(self.section) > EPS) + 1
        for s in steps[self.section[steps] > table[steps] + EPS]:
            table = _with(table, int(s), float(self.section[s]))
        return table

    def pattern(self, board: int) -> Pattern:
        """Read the best pattern of a board of this width back from the tables."""
        return Pattern(board, tuple(self._cut_board(self.pricer.board_steps[board], 0)))

    def best_with(self, item: int) -> tuple[float, int, int, _Stack | None]:
        """Return worth over price, board, section length and lanes of the best pattern that holds `item`."""
        pricer, step, value = self.pricer, int(self.pricer.steps[item]), float(self.values[item])
        height = int(pricer.heights[item])
        mine = self.of_height.get(height, [])[-MOST_STACKS:] if pricer.edges[item] < 2 else []
        sections: list[tuple[_Stack | None, Values]] = [(s, self._section_with(s, item)) for s in mine]
        best: tuple[float, int, int, _Stack | None] = (-1.0, -1, 0, None)
        for i, b in enumerate(pricer.boards):
            left = pricer.board_steps[i]
            if b.width != self.width or left < step:
                continue
            options: list[tuple[float, int, _Stack | None]] = [
                (value + float(self.table[left - step]), step, None)
            ]
            for stack, gain in sections:
                whole = gain[: left - step + 1] + self.table[left - step :: -1]
                at = int(np.argmax(whole))
                options.append((value + float(whole[at]), step + at, stack))
            top = max(options, key=lambda o: o[0])
            best = max(best, (top[0] / b.price_cents, i, top[1], top[2]), key=lambda o: o[0])
        return best

    def _section_with(self, stack: _Stack, item: int) -> Values:
        """Return what else a section holds beside `item`, by its length over the item's."""
        step = int(self.pricer.steps[item])
        own, other = (
            (stack.low, stack.high)
            if stack.low.height == self.pricer.heights[item]
            else (stack.high, stack.low)
        )
        beside = other.table + self.between.table(stack.room)
        return own.table[: self.size - step + 1] + beside[step:]

    def pattern_with(self, item: int, board: int, section: tuple[int, _Stack | None]) -> Pattern:
        """Read the best pattern that holds `item` back from the tables."""
        size, stack = section
        left, trim = self.pricer.board_steps[board], self.pricer.trim
        length = self.pricer.items[item][2] + trim
        if stack is None:
            return Pattern(board, (Slot(item, 0, 0), *self._cut_board(left - size, length)))
        upper = stack.low.height != self.pricer.heights[item]
        y = self.width - int(self.pricer.heights[item]) if upper else 0
        slots, reach = self._cut_stack(stack, size, 0, holding=(item, upper))
        return Pattern(board, (Slot(item, 0, y), *slots, *self._cut_board(left - size, reach)))

    def _cut_board(self, left: int, x: int) -> list[Slot]:
        slots: list[Slot] = []
        while self.table[left] > EPS:
            value = self.table[left]
            item = self._last_item(self.table, left, value, self.usable)
            if item is not None:
                slots.append(Slot(item, x, 0))
                x += self.pricer.items[item][2] + self.pricer.trim
                left -= int(self.pricer.steps[item])
                continue
            sizes = np.arange(1, left + 1)
            gained = self.section[sizes] + self.table[left - sizes]
            size = int(sizes[int(np.argmax(gained >= value - EPS))])
            made, length = self._cut_section(size, x)
            slots += made
            x += length
            left -= size
        return slots

    def _last_item(self, table: Values, left: int, value: float, members: NDArray[np.int64]) -> int | None:
        steps = self.pricer.steps[members]
        able = members[steps <= left]
        gained = self.values[able] + table[left - self.pricer.steps[able]]
        hits = np.flatnonzero(gained >= value - EPS)
        return int(able[hits[0]]) if len(hits) else None

    def _cut_section(self, size: int, x: int) -> tuple[list[Slot], int]:
        """Return the slots of the best section of `size` steps, and its exact length."""
        stack = self.stacks[int(self.which[size])]
        slots, reach = self._cut_stack(stack, size, x, holding=None)
        return slots, reach - x

    def _cut_stack(
        self, stack: _Stack, size: int, x: int, *, holding: tuple[int, bool] | None
    ) -> tuple[list[Slot], int]:
        """Return the slots of a section from `x` on, and where it ends (`holding` an item already)."""
        trim = self.pricer.trim
        lanes = [(stack.low, 0), (stack.high, self.width - stack.high.height)]
        y = stack.low.height + trim
        for b in self.between.at(stack.room, size):
            lanes.append((b, y))
            y += b.height + trim
        slots: list[Slot] = []
        reach = x
        for k, (lane, level) in enumerate(lanes):
            start, left = x, size
            if holding is not None and k == int(holding[1]):
                start += self.pricer.items[holding[0]][2] + trim
                left -= int(self.pricer.steps[holding[0]])
            made, end = self._cut_lane(lane, left, (start, level), upper=k == 1)
            slots += made
            reach = max(reach, end)
        return slots, reach

    def _cut_lane(
        self, lane: _Lane, size: int, corner: tuple[int, int], *, upper: bool
    ) -> tuple[list[Slot], int]:
        x, y = corner
        slots = []
        while lane.table[size] > EPS:
            item = self._last_item(lane.table, size, lane.table[size], lane.members)
            if item is None:
                raise AssertionError("a lane's value has pieces")
            height = self.pricer.items[item][0]
            slots.append(Slot(item, x, self.width - height if upper else y))
            x += self.pricer.items[item][2] + self.pricer.trim
            size -= int(self.pricer.steps[item])
        return slots, x


def _with(table: Values, step: int, value: float) -> Values:
    """Return an unbounded knapsack's table after one more item: any number of it, by doubling."""
    while step < len(table):
        longer = table.copy()
        np.maximum(table[step:], table[:-step] + value, out=longer[step:])
        table, step, value = longer, 2 * step, 2 * value
    return table
