"""The nested knapsacks of `pricing`, compiled: tables of worth by length, and the pieces behind them.

`table` has a row for every knapsack, `choice` what was laid last: for a lane an item, for the sections a
stack, for the board an item or, below zero, a section (of which length, less one), for lanes between two
others a lane.  -1 or (for the board) 0 worth means nothing.  What each row is, and which lanes go with
which, is in `shape` (see `quick`); a row of `things` is an item: height, edges, steps, exact length.
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled

__all__ = ["best_with", "cut_board", "cut_with", "fill_tables"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]

EPS = 1e-7
BOARD_ROW, SECTION_ROW, FIRST_LANE = 0, 1, 2
MOST_STACKS = 3


@compiled
def _fill(table: Values, choice: Ints, members: Ints, things: Ints, values: Values) -> None:
    """Add items to an unbounded knapsack, shortest first, but for those no better than the table."""
    for i in members:
        step, value = things[i, 2], values[i]
        if step >= len(table) or value <= table[step] + EPS:
            continue
        for x in range(step, len(table)):
            if table[x - step] + value > table[x] + EPS:
                table[x] = table[x - step] + value
                choice[x] = i


@compiled
def _fill_lanes(
    rows: tuple[Values, Ints], lanes: tuple[int, Ints, Ints], things: Ints, values: Values
) -> None:
    """Fill lanes of rising height, each built on the next lower one."""
    table, choice = rows
    first, members, begins = lanes
    for k in range(len(begins) - 1):
        if k:
            table[first + k] = table[first + k - 1]
            choice[first + k] = choice[first + k - 1]
        _fill(table[first + k], choice[first + k], members[begins[k] : begins[k + 1]], things, values)


@compiled
def fill_tables(
    rows: tuple[Values, Ints],
    members: Ints,
    sides: tuple[int, Ints, Ints],
    inner: tuple[int, Ints, Ints],
    between: tuple[int, Ints, Ints],
    stacks: Ints,
    things: Ints,
    values: Values,
) -> None:
    """Fill all tables of one board width at some item values."""
    table, choice = rows
    table[:] = 0.0
    choice[:] = -1
    _fill(table[BOARD_ROW], choice[BOARD_ROW], members, things, values)
    _fill_lanes(rows, sides, things, values)
    _fill_lanes(rows, inner, things, values)
    first, begins, ways = between
    for r in range(1, len(begins) - 1):
        for w in range(begins[r], begins[r + 1]):
            lane, rest = inner[0] + ways[w, 0], first + ways[w, 1]
            for x in range(table.shape[1]):
                worth = table[lane, x] + table[rest, x]
                if worth > table[first + r, x] + EPS:
                    table[first + r, x] = worth
                    choice[first + r, x] = w
    section, which = table[SECTION_ROW], choice[SECTION_ROW]
    for s in range(len(stacks)):
        low, high, room = table[stacks[s, 0]], table[stacks[s, 1]], table[stacks[s, 2]]
        for x in range(table.shape[1]):
            worth = low[x] + high[x] + room[x]
            if worth > section[x] + EPS:
                section[x] = worth
                which[x] = s
    _close(table, choice)


@compiled
def _close(table: Values, choice: Ints) -> None:
    """Lay sections and full-width pieces end to end."""
    board, section = table[BOARD_ROW], table[SECTION_ROW]
    for s in range(1, table.shape[1]):
        if section[s] <= section[s - 1] + EPS or section[s] <= board[s] + EPS:
            continue
        for x in range(s, table.shape[1]):
            if board[x - s] + section[s] > board[x] + EPS:
                board[x] = board[x - s] + section[s]
                choice[BOARD_ROW, x] = -s - 1


@compiled
def best_with(
    rows: tuple[Values, Ints],
    boards: tuple[Ints, Values],
    near: Ints,
    stacks: Ints,
    thing: tuple[int, float],
) -> tuple[float, int, int, int]:
    """Return worth over price, board, section length and stack of the best pattern that holds an item.

    `near` are the stacks with a lane as high as the item: the stack, and which of its lanes holds it.
    """
    table = rows[0]
    board = table[BOARD_ROW]
    step, value = thing
    best, chosen, size, stack = -1.0, -1, 0, -1
    for b in range(len(boards[0])):
        left, price = boards[0][b], boards[1][b]
        if left < step:
            continue
        if (value + board[left - step]) / price > best:
            best, chosen, size, stack = (value + board[left - step]) / price, b, step, -1
        for k in range(len(near)):
            s, upper = near[k, 0], near[k, 1]
            if s < 0:
                continue
            own, other, room = table[stacks[s, upper]], table[stacks[s, 1 - upper]], table[stacks[s, 2]]
            for x in range(left - step + 1):
                worth = own[x] + other[x + step] + room[x + step] + board[left - step - x]
                if (value + worth) / price > best:
                    best, chosen, size, stack = (value + worth) / price, b, step + x, k
    return best, chosen, size, stack


@compiled
def _cut_lane(
    rows: tuple[Values, Ints], lane: tuple[int, int], corner: tuple[int, int, int], things: Ints, out: Ints
) -> int:
    """Write the pieces of a lane down from `corner` on (or hanging from the board's edge); return its end."""
    choice = rows[1]
    row, size = lane
    x, y, top = corner
    n = out[0, 0]
    while size > 0 and choice[row, size] >= 0:
        i = choice[row, size]
        n += 1
        out[n, 0], out[n, 1], out[n, 2] = i, x, top - things[i, 0] if top >= 0 else y
        x += things[i, 3]
        size -= things[i, 2]
    out[0, 0] = n
    return x


@compiled
def _cut_stack(
    rows: tuple[Values, Ints],
    stack: tuple[int, int, int],
    between: tuple[int, Ints, Ints],
    place: tuple[int, int, int],
    held: tuple[int, int],
    heights: Ints,
    things: Ints,
    out: Ints,
) -> int:
    """Write a section down; return where it ends.  `held` is an item laid in it already, and its lane."""
    x, size, width = place
    trim = heights[0]
    reach = x
    for k in range(2):
        start, left = x, size
        if held[0] >= 0 and held[1] == k:
            start += things[held[0], 3]
            left -= things[held[0], 2]
        corner = (start, 0, width if k else -1)
        reach = max(reach, _cut_lane(rows, (stack[k], left), corner, things, out))
    y = heights[stack[0]] + trim
    room = stack[2] - between[0]
    while room > 0 and rows[1][between[0] + room, size] >= 0:
        w = rows[1][between[0] + room, size]
        lane = heights[1] + between[2][w, 0]
        reach = max(reach, _cut_lane(rows, (lane, size), (x, y, -1), things, out))
        y += heights[lane] + trim
        room = between[2][w, 1]
    return reach


@compiled
def cut_board(
    rows: tuple[Values, Ints],
    stacks: Ints,
    between: tuple[int, Ints, Ints],
    place: tuple[int, int, int],
    heights: Ints,
    things: Ints,
    out: Ints,
) -> None:
    """Write the best pattern of a length of board down, from a corner on."""
    x, left, width = place
    table, choice = rows
    while left > 0 and table[BOARD_ROW, left] > EPS:
        i = choice[BOARD_ROW, left]
        if i >= 0:
            out[0, 0] += 1
            n = out[0, 0]
            out[n, 0], out[n, 1], out[n, 2] = i, x, 0
            x += things[i, 3]
            left -= things[i, 2]
            continue
        size = -i - 1
        s = choice[SECTION_ROW, size]
        stack = (stacks[s, 0], stacks[s, 1], stacks[s, 2])
        x = _cut_stack(rows, stack, between, (x, size, width), (-1, 0), heights, things, out)
        left -= size


@compiled
def cut_with(
    rows: tuple[Values, Ints],
    stacks: Ints,
    between: tuple[int, Ints, Ints],
    held: tuple[int, int, int, int],
    place: tuple[int, int],
    heights: Ints,
    things: Ints,
    out: Ints,
) -> None:
    """Write the best pattern that holds an item down: the item, its stack (or -1), lane and section."""
    item, s, upper, size = held
    left, width = place
    out[0, 0] = 1
    out[1, 0], out[1, 1], out[1, 2] = item, 0, width - things[item, 0] if s >= 0 and upper else 0
    end = things[item, 3]
    if s >= 0:
        stack = (stacks[s, 0], stacks[s, 1], stacks[s, 2])
        end = _cut_stack(rows, stack, between, (0, size, width), (item, upper), heights, things, out)
        end = max(end, things[item, 3])
    cut_board(rows, stacks, between, (end, left - size, width), heights, things, out)
