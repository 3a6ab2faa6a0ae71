"""Rows hung and taken down, what a round has touched, and the best state so far, compiled.

For `m` and `v` see `memory`.
"""

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.kernel_boards import refresh, take_off
from setday.boards.layout.memory import (
    ARC,
    ARC_HEAD,
    ARC_JOINT,
    ARC_SIZE,
    B_N,
    B_PIECE,
    B_SIZE,
    B_STAMP,
    B_WIDTH,
    BEST,
    BEST_CENTS,
    BEST_HUNG,
    BEST_JOINTS,
    BEST_PIECES,
    BETTERED,
    BOARD,
    BOARD_OF,
    CLASH,
    FACE,
    FACE_BEST,
    FACE_SIZE,
    FACE_TAKEN,
    FOUND_FACES,
    H_ARC,
    H_N,
    H_STAMP,
    HITS,
    HUNG,
    HUNG_SIZE,
    JOINTS,
    KEPT_BOARD,
    KEPT_ROW,
    LEFT,
    MONEY,
    MONEY_SIZE,
    N_BOARDS,
    N_FACES,
    N_ROWS,
    OPENED,
    P_ARC,
    PIECES,
    STAMP,
    SUMS,
    TOTAL,
    TOUCHED_BOARDS,
    TOUCHED_FACES,
    TOUCHED_ROWS,
)
from setday.solving import compiled

__all__ = ["better", "mark", "note_best", "refresh_touched", "sum_up", "take_back", "take_down", "touch_row"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]


@compiled
def touch_row(m: Ints, r: int) -> None:
    """Write a row down as it was before this round."""
    o = m[HUNG] + r * m[HUNG_SIZE]
    if m[o + H_STAMP] == m[STAMP]:
        return
    m[o + H_STAMP] = m[STAMP]
    k = m[KEPT_ROW] + m[TOUCHED_ROWS] * m[HUNG_SIZE]
    m[TOUCHED_ROWS] += 1
    for i in range(H_ARC + m[o + H_N]):
        m[k + i] = m[o + i]
    m[k + H_STAMP] = r


@compiled
def mark(m: Ints, r: int, by: int) -> None:
    """Count the joints of a row in or out."""
    o = m[HUNG] + r * m[HUNG_SIZE]
    for i in range(o + H_ARC, o + H_ARC + m[o + H_N]):
        a = m[ARC] + m[i] * ARC_SIZE
        m[JOINTS] += by * m[a + ARC_JOINT]
        m[PIECES] += by
        c = m[CLASH] + m[a + ARC_HEAD]
        for n in range(m[c], m[c + 1]):
            m[m[HITS] + m[n]] += by


@compiled
def take_down(m: Ints, r: int) -> None:
    """Take a row's pieces off the wall and out of their boards (which are refreshed later)."""
    touch_row(m, r)
    mark(m, r, -1)
    o = m[HUNG] + r * m[HUNG_SIZE]
    for i in range(o + H_ARC, o + H_ARC + m[o + H_N]):
        take_off(m, m[i])
    m[o + H_N] = 0


@compiled
def refresh_touched(m: Ints, v: Values) -> None:
    """Judge the boards this round has touched afresh."""
    for i in range(m[TOUCHED_BOARDS]):
        refresh(m, v, m[m[KEPT_BOARD] + i * B_SIZE + B_STAMP])


@compiled
def take_back(m: Ints, v: Values) -> None:
    """Undo what the round has done."""
    for i in range(m[TOUCHED_ROWS]):
        k = m[KEPT_ROW] + i * m[HUNG_SIZE]
        r = m[k + H_STAMP]
        o = m[HUNG] + r * m[HUNG_SIZE]
        mark(m, r, -1)
        for n in range(H_N, H_ARC + m[k + H_N]):
            m[o + n] = m[k + n]
        mark(m, r, 1)
    for i in range(m[TOUCHED_BOARDS]):
        k = m[KEPT_BOARD] + i * B_SIZE
        b = m[k + B_STAMP]
        o = m[BOARD] + b * B_SIZE
        m[o + B_N] = m[k + B_N]
        m[o + B_WIDTH] = m[k + B_WIDTH]
        for n in range(B_PIECE, B_PIECE + 3 * m[k + B_N]):
            m[o + n] = m[k + n]
        for p in range(o + B_PIECE, o + B_PIECE + 3 * m[k + B_N], 3):
            m[m[BOARD_OF] + m[p + P_ARC]] = b
        refresh(m, v, b)
    for q in range(m[TOUCHED_FACES]):
        m[m[FACE] + m[FOUND_FACES + 2 * q] * FACE_SIZE + FACE_TAKEN] = m[FOUND_FACES + 2 * q + 1]


@compiled
def sum_up(m: Ints, v: Values) -> None:
    """Add up the money of all boards and what is left of them."""
    total, left = 0.0, 0.0
    for b in range(m[OPENED]):
        if m[m[BOARD] + b * B_SIZE + B_N]:
            total += v[m[MONEY] + b * MONEY_SIZE]
            left += v[m[MONEY] + b * MONEY_SIZE + 1]
    v[m[SUMS] + TOTAL] = total
    v[m[SUMS] + LEFT] = left


@compiled
def better(m: Ints, v: Values) -> bool:
    """Return whether the state beats the best: money, then joints, then pieces."""
    cents = int(v[m[SUMS] + TOTAL] + 0.5)
    if cents != m[BEST_CENTS]:
        return bool(cents < m[BEST_CENTS])
    if m[JOINTS] != m[BEST_JOINTS]:
        return bool(m[JOINTS] < m[BEST_JOINTS])
    return bool(m[PIECES] < m[BEST_PIECES])


@compiled
def note_best(m: Ints, v: Values) -> None:
    """Write the state down as the best."""
    m[BEST_CENTS] = int(v[m[SUMS] + TOTAL] + 0.5)
    m[BEST_JOINTS] = m[JOINTS]
    m[BEST_PIECES] = m[PIECES]
    m[BETTERED] += 1
    for i in range(m[N_BOARDS] * B_SIZE):
        m[m[BEST] + i] = m[m[BOARD] + i]
    for i in range(m[N_ROWS] * m[HUNG_SIZE]):
        m[m[BEST_HUNG] + i] = m[m[HUNG] + i]
    for face in range(m[N_FACES]):
        o = m[FACE] + face * FACE_SIZE
        m[o + FACE_BEST] = m[o + FACE_TAKEN]
