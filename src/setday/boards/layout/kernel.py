"""The improving search, compiled: thousands of rounds of taking down and hanging again in a second.

The same search as `improve`, on arrays instead of objects.  For `m` and `v` see `memory`.
"""

from math import log

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.kernel_boards import NEVER, item_cost, look, place, refresh
from setday.boards.layout.kernel_rows import (
    better,
    mark,
    note_best,
    refresh_touched,
    sum_up,
    take_back,
    take_down,
    touch_row,
)
from setday.boards.layout.memory import (
    ARC,
    ARC_HEAD,
    ARC_ITEM,
    ARC_JOINT,
    ARC_ROW,
    ARC_SIZE,
    ARC_TAIL,
    B_N,
    B_PIECE,
    B_SIZE,
    BACK,
    BEST_CENTS,
    BETTERED,
    BOARD,
    DICE,
    DIST,
    DIVISION,
    DIVISION_SIZE,
    FACE,
    FACE_DIVISIONS,
    FACE_DIVISIONS_END,
    FACE_ROWS,
    FACE_ROWS_END,
    FACE_SIZE,
    FACE_TAKEN,
    FINISHING,
    FOUND_FACES,
    H_ARC,
    H_N,
    HITS,
    HUNG,
    HUNG_SIZE,
    ITEM,
    ITEM_SIZE,
    ITEM_STEPS,
    JOINT_PRICE,
    JOINTS,
    JUDGING,
    LEFT,
    MONEY,
    MONEY_SIZE,
    OPENED,
    P_ARC,
    ROW,
    ROW_ARCS,
    ROW_ARCS_END,
    ROW_COST,
    ROW_FACE,
    ROW_FIRST,
    ROW_LAST,
    ROW_SIZE,
    SOME,
    STAMP,
    SUMS,
    TOTAL,
    TOUCHED_BOARDS,
    TOUCHED_FACES,
    TOUCHED_ROWS,
)
from setday.solving import compiled

__all__ = ["begin", "rounds"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]

NOISE = 0.08
FACES = 0.35
HOT, COLD = 15.0, 0.5
KEPT_FIRST, KEPT_LAST = 0.8, 0.2
MOST_ROWS, MOST_FACES = 6, 3
SAMPLED = 4
WORST_ONLY = 0.7


@compiled
def _dice(m: Ints) -> float:
    """Return a number from 0 to 1 (Park and Miller's generator)."""
    m[DICE] = m[DICE] * 48271 % 2147483647
    return float(m[DICE] / 2147483647.0)


@compiled
def _pick(m: Ints, n: int) -> int:
    return min(int(_dice(m) * n), n - 1)


@compiled
def _cut(m: Ints, v: Values, t: int, r: int) -> float:
    """Find the cheapest path through a row that keeps clear of joints taken; note it in `BACK`."""
    o = m[ROW] + r * ROW_SIZE
    dist = m[DIST]
    for n in range(m[o + ROW_FIRST], m[o + ROW_LAST] + 1):
        v[dist + n] = NEVER
    v[dist + m[o + ROW_FIRST]] = 0.0
    joint_price = v[m[SUMS] + JOINT_PRICE]
    for n in range(m[o + ROW_ARCS], m[o + ROW_ARCS_END]):
        a = m[ARC] + n * ARC_SIZE
        d, head = v[dist + m[a + ARC_TAIL]], m[a + ARC_HEAD]
        if d >= NEVER / 2 or m[m[HITS] + head]:
            continue
        c = item_cost(m, v, t, m[a + ARC_ITEM]) + joint_price * m[a + ARC_JOINT]
        d += c * (1.0 + NOISE * _dice(m))
        if d < v[dist + head]:
            v[dist + head] = d
            m[m[BACK] + head] = n
    return float(v[dist + m[o + ROW_LAST]])


@compiled
def _steps(m: Ints, a: int) -> int:
    return int(m[m[ITEM] + m[m[ARC] + a * ARC_SIZE + ARC_ITEM] * ITEM_SIZE + ITEM_STEPS])


@compiled
def _hang_row(m: Ints, v: Values, t: int, r: int) -> bool:
    """Cut a row along its cheapest path and lay its pieces, the longest first."""
    look(m)
    if _cut(m, v, t, r) >= NEVER / 2:
        return False
    touch_row(m, r)
    o = m[HUNG] + r * m[HUNG_SIZE]
    pieces = o + H_ARC
    n = 0
    at = m[m[ROW] + r * ROW_SIZE + ROW_LAST]
    while at != m[m[ROW] + r * ROW_SIZE + ROW_FIRST]:
        a = m[m[BACK] + at]
        i = n
        while i > 0 and _steps(m, m[pieces + i - 1]) < _steps(m, a):
            m[pieces + i] = m[pieces + i - 1]
            i -= 1
        m[pieces + i] = a
        n += 1
        at = m[m[ARC] + a * ARC_SIZE + ARC_TAIL]
    m[o + H_N] = n
    mark(m, r, 1)
    done = True
    for i in range(n):
        done = done and place(m, v, t, m[pieces + i])
    return done


@compiled
def _hang_face(m: Ints, v: Values, t: int, face: int) -> bool:
    """Divide a surface into rows, as cheaply as it looks, and hang them from one side."""
    look(m)
    o = m[FACE] + face * FACE_SIZE
    for r in range(m[o + FACE_ROWS], m[o + FACE_ROWS_END]):
        v[m[ROW_COST] + r] = _cut(m, v, t, r)
    best, chosen = NEVER, -1
    for d in range(m[o + FACE_DIVISIONS], m[o + FACE_DIVISIONS_END]):
        rows = m[DIVISION] + d * m[DIVISION_SIZE]
        total = 0.0
        for i in range(rows + 1, rows + 1 + m[rows]):
            total += v[m[ROW_COST] + m[i]]
        if total < best:
            best, chosen = total, d
    if chosen < 0:
        return False
    rows = m[DIVISION] + chosen * m[DIVISION_SIZE]
    n = m[rows]
    upward = _dice(m) < 0.5
    for i in range(n):
        if not _hang_row(m, v, t, m[rows + 1 + i] if upward else m[rows + n - i]):
            return False
    m[o + FACE_TAKEN] = chosen
    return True


@compiled
def _loss(m: Ints, v: Values, b: int) -> float:
    return float(v[m[MONEY] + b * MONEY_SIZE + 2])


@compiled
def _bad_boards(m: Ints, v: Values) -> tuple[int, int]:
    """Return a badly used board, and now and then a second one (or -1)."""
    chosen, other = -1, -1
    worst_only = _dice(m) < WORST_ONLY
    for _ in range(SAMPLED if worst_only else 2):
        b = _pick(m, m[OPENED])
        while not m[m[BOARD] + b * B_SIZE + B_N]:
            b = _pick(m, m[OPENED])
        if b in (chosen, other):
            continue
        if chosen < 0 or _loss(m, v, b) > _loss(m, v, chosen):
            chosen, other = b, chosen
        elif other < 0 or _loss(m, v, b) > _loss(m, v, other):
            other = b
    if worst_only and _dice(m) < 0.5:
        other = -1
    return chosen, other


@compiled
def _some_rows(m: Ints, v: Values) -> int:
    """Note the rows cut from a badly used board or two in `SOME`, in any order; return how many."""
    n, some = 0, m[SOME]
    for b in _bad_boards(m, v):
        if b < 0:
            continue
        o = m[BOARD] + b * B_SIZE
        for p in range(o + B_PIECE, o + B_PIECE + 3 * m[o + B_N], 3):
            r = m[m[ARC] + m[p + P_ARC] * ARC_SIZE + ARC_ROW]
            i = 0
            while i < n and m[some + i] != r:
                i += 1
            if i == n:
                m[some + n] = r
                n += 1
    for i in range(n - 1, 0, -1):
        k = _pick(m, i + 1)
        m[some + i], m[some + k] = m[some + k], m[some + i]
    return n


@compiled
def _faces_again(m: Ints, v: Values, t: int, n: int) -> bool:
    """Hang one to three of the surfaces that some rows belong to again."""
    most = 1 + _pick(m, MOST_FACES)
    for i in range(n):
        face = m[m[ROW] + m[m[SOME] + i] * ROW_SIZE + ROW_FACE]
        q = 0
        while q < m[TOUCHED_FACES] and m[FOUND_FACES + 2 * q] != face:
            q += 1
        if q < m[TOUCHED_FACES] or q >= most:
            continue
        d = m[m[FACE] + face * FACE_SIZE + FACE_TAKEN]
        m[FOUND_FACES + 2 * q] = face
        m[FOUND_FACES + 2 * q + 1] = d
        m[TOUCHED_FACES] += 1
        rows = m[DIVISION] + d * m[DIVISION_SIZE]
        for k in range(rows + 1, rows + 1 + m[rows]):
            take_down(m, m[k])
    refresh_touched(m, v)
    done = True
    for q in range(m[TOUCHED_FACES]):
        done = done and _hang_face(m, v, t, m[FOUND_FACES + 2 * q])
    return done


@compiled
def _rows_again(m: Ints, v: Values, t: int, n: int) -> bool:
    """Hang one to six rows again."""
    n = min(n, 1 + _pick(m, MOST_ROWS))
    for i in range(n):
        take_down(m, m[m[SOME] + i])
    refresh_touched(m, v)
    done = True
    for i in range(n):
        done = done and _hang_row(m, v, t, m[m[SOME] + i])
    return done


@compiled
def begin(m: Ints, v: Values) -> None:
    """Judge every board afresh, and write the state down when it is better than the best."""
    for b in range(m[OPENED]):
        refresh(m, v, b)
    sum_up(m, v)
    if not m[BETTERED] or better(m, v):
        note_best(m, v)


@compiled
def _round(m: Ints, v: Values, heat: float) -> None:
    """Take down and hang again once; keep it when it is cheaper, or little dearer while it is hot."""
    m[STAMP] += 1
    m[TOUCHED_BOARDS] = 0
    m[TOUCHED_ROWS] = 0
    m[TOUCHED_FACES] = 0
    s = m[SUMS]
    total, left, joints = v[s + TOTAL], v[s + LEFT], m[JOINTS]
    t = _pick(m, JUDGING)
    n = _some_rows(m, v)
    done = _faces_again(m, v, t, n) if _dice(m) < FACES else _rows_again(m, v, t, n)
    if done:
        sum_up(m, v)
        share = KEPT_LAST + (KEPT_FIRST - KEPT_LAST) * heat
        more = v[s + TOTAL] - total + v[s + JOINT_PRICE] * (m[JOINTS] - joints)
        more -= share * (v[s + LEFT] - left)
        if m[FINISHING] and v[s + TOTAL] > m[BEST_CENTS] + 0.5:
            more = NEVER
        if more < -COLD * (HOT / COLD) ** heat * log(_dice(m) + 1e-12):
            if better(m, v):
                note_best(m, v)
            return
    take_back(m, v)
    v[s + TOTAL], v[s + LEFT] = total, left


@compiled
def rounds(m: Ints, v: Values, n: int, heat: float) -> None:
    """Run `n` rounds of the search."""
    for _ in range(n):
        _round(m, v, heat)
