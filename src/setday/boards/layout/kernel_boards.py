"""Boards being filled, compiled: pieces are laid and taken away, and what is left is judged.

A board is a list of pieces, each in a section and a lane (section -1: over the full width).  What a round
touches is written down first, so that it can be taken back.  For `m` and `v` see `memory`.
"""

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.memory import (
    ARC,
    ARC_ITEM,
    ARC_SIZE,
    B_N,
    B_PIECE,
    B_SIZE,
    B_SPACE,
    B_SPACES,
    B_STAMP,
    B_USED,
    B_WIDTH,
    BOARD,
    BOARD_OF,
    COST,
    ITEM,
    ITEM_EDGES,
    ITEM_HEIGHT,
    ITEM_SIZE,
    ITEM_STEPS,
    JUDGING,
    KEPT_BOARD,
    KNOWN,
    LANE,
    LANES,
    LEAST_HEIGHT,
    LEAST_STEPS,
    LEVEL_KNOWN,
    LEVELS,
    LOOK,
    LOW,
    MONEY,
    MONEY_SIZE,
    MOST_LANES,
    MOST_PIECES,
    MOST_SECTIONS,
    MOST_SPACES,
    N_BOARDS,
    N_HEIGHTS,
    N_ITEMS,
    N_STEPS,
    N_WIDTHS,
    OPENED,
    P_ARC,
    P_LANE,
    P_SECTION,
    PRICE,
    REACHED,
    REACHED_KNOWN,
    REST,
    S_EDGE,
    S_HIGH,
    S_LANE,
    S_LEFT,
    S_SECTION,
    SPACED,
    SPACED_BOARDS,
    STAMP,
    STRIP,
    TOUCHED_BOARDS,
    TRIM,
    VALUE,
    WIDTHS,
)
from setday.solving import compiled

__all__ = ["NEVER", "item_cost", "look", "place", "refresh", "take_off", "touch_board"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]
NEVER = 1e12


@compiled
def touch_board(m: Ints, b: int) -> None:
    """Write a board down as it was before this round."""
    o = m[BOARD] + b * B_SIZE
    if m[o + B_STAMP] == m[STAMP]:
        return
    m[o + B_STAMP] = m[STAMP]
    k = m[KEPT_BOARD] + m[TOUCHED_BOARDS] * B_SIZE
    m[TOUCHED_BOARDS] += 1
    for i in range(B_PIECE + 3 * m[o + B_N]):
        m[k + i] = m[o + i]
    m[k + B_STAMP] = b


@compiled
def refresh(m: Ints, v: Values, b: int) -> None:
    """Work out afresh what a board's pieces leave: its length used, its spaces, its worth."""
    o, lanes = m[BOARD] + b * B_SIZE, m[LANES]
    used, sections, value = 0, 0, 0.0
    for p in range(o + B_PIECE, o + B_PIECE + 3 * m[o + B_N], 3):
        item = m[m[ARC] + m[p + P_ARC] * ARC_SIZE + ARC_ITEM]
        i = m[ITEM] + item * ITEM_SIZE
        value += v[m[VALUE] + item]
        if m[p + P_SECTION] < 0:
            used += m[i + ITEM_STEPS]
            continue
        while sections <= m[p + P_SECTION]:
            for n in range(3 * MOST_LANES):
                m[lanes + sections * 3 * MOST_LANES + n] = 0
            sections += 1
        lane = lanes + 3 * (m[p + P_SECTION] * MOST_LANES + m[p + P_LANE])
        m[lane] += m[i + ITEM_STEPS]
        m[lane + 1] = max(m[lane + 1], m[i + ITEM_HEIGHT])
        m[lane + 2] |= m[i + ITEM_EDGES]
    m[o + B_SPACES] = 0
    rest = 0.0
    for c in range(sections):
        length, made = _refresh_section(m, v, o, c)
        used += length
        rest += made
    m[o + B_USED] = used
    k = m[o + B_WIDTH] * m[N_STEPS] + used
    price = v[m[PRICE] + k]
    out = m[MONEY] + b * MONEY_SIZE
    v[out] = price
    v[out + 1] = rest + price - v[m[STRIP] + JUDGING * m[N_WIDTHS] * m[N_STEPS] + k]
    v[out + 2] = price - value


@compiled
def _refresh_section(m: Ints, v: Values, o: int, c: int) -> tuple[int, float]:
    """Return the length of a section and what its spaces are worth; note the spaces."""
    lanes = m[LANES] + c * 3 * MOST_LANES
    length, edged, room = 0, 0, m[m[WIDTHS] + m[o + B_WIDTH]]
    for e in range(lanes, lanes + 3 * MOST_LANES, 3):
        if m[e]:
            length = max(length, m[e])
            edged += 1 if m[e + 2] else 0
            room -= m[e + 1] + m[TRIM]
    if not length:
        return 0, 0.0
    rest = _note_space(m, v, o, c, -1, room, length, 1 if edged < 2 else 0)
    for e in range(MOST_LANES):
        lane = lanes + 3 * e
        if m[lane]:
            edge = 1 if m[lane + 2] or edged < 2 else 0
            rest += _note_space(m, v, o, c, e, m[lane + 1], length - m[lane], edge)
    return length, rest


@compiled
def _note_space(m: Ints, v: Values, o: int, c: int, e: int, high: int, left: int, edge: int) -> float:
    """Note a space that something could be cut from; return its worth."""
    n = m[o + B_SPACES]
    if high < m[LEAST_HEIGHT] or left < m[LEAST_STEPS] or n >= MOST_SPACES:
        return 0.0
    s = o + B_SPACE + 5 * n
    m[s + S_SECTION] = c
    m[s + S_LANE] = e
    m[s + S_HIGH] = high
    m[s + S_LEFT] = left
    m[s + S_EDGE] = edge
    m[o + B_SPACES] = n + 1
    return _lane_worth(m, v, JUDGING, edge, high, left)


@compiled
def _lane_worth(m: Ints, v: Values, t: int, edge: int, high: int, left: int) -> float:
    row = (t * 2 + edge) * m[N_HEIGHTS] + m[m[LOW] + high]
    return float(v[m[LANE] + row * m[N_STEPS] + left])


@compiled
def take_off(m: Ints, a: int) -> None:
    """Take a piece out of its board, which is refreshed later."""
    b = m[m[BOARD_OF] + a]
    touch_board(m, b)
    o = m[BOARD] + b * B_SIZE
    last = m[o + B_N] - 1
    p = o + B_PIECE
    while m[p + P_ARC] != a:
        p += 3
    for i in range(3):
        m[p + i] = m[o + B_PIECE + 3 * last + i]
    m[o + B_N] = last


@compiled
def _space_cost(m: Ints, v: Values, t: int, s: int, item: int) -> float:
    """Return what an item takes off the worth of a space."""
    i = m[ITEM] + item * ITEM_SIZE
    height, steps = m[i + ITEM_HEIGHT], m[i + ITEM_STEPS]
    high, left, edge = m[s + S_HIGH], m[s + S_LEFT], m[s + S_EDGE]
    if height > high or steps > left or (m[i + ITEM_EDGES] and not edge):
        return NEVER
    before = _lane_worth(m, v, t, edge, high, left)
    if m[s + S_LANE] >= 0:
        return before - _lane_worth(m, v, t, edge, high, left - steps)
    kept = _lane_worth(m, v, t, 1, height, left - steps)
    room = high - height - m[TRIM]
    if room >= m[LEAST_HEIGHT]:
        kept += _lane_worth(m, v, t, 0, room, left)
    return before - kept


@compiled
def look(m: Ints) -> None:
    """Note the lengths used and the boards with spaces: costs of items are asked for next."""
    m[LOOK] += 1
    size = m[N_STEPS] + 1
    for k in range(m[N_WIDTHS]):
        m[m[LEVELS] + k * size] = 1
        m[m[LEVELS] + k * size + 1] = 0
    n = 0
    for b in range(m[OPENED]):
        o = m[BOARD] + b * B_SIZE
        if not m[o + B_N]:
            continue
        if m[o + B_SPACES]:
            m[m[SPACED] + n] = o
            n += 1
        used, levels = m[o + B_USED], m[LEVELS] + m[o + B_WIDTH] * size
        seen = m[LEVEL_KNOWN] + m[o + B_WIDTH] * m[N_STEPS] + used
        if used + m[LEAST_STEPS] < m[N_STEPS] and m[seen] != m[LOOK]:
            m[seen] = m[LOOK]
            m[levels] += 1
            m[levels + m[levels]] = used
    m[SPACED_BOARDS] = n


@compiled
def _strip_cost(m: Ints, v: Values, t: int, k: int, steps: int) -> float:
    """Return the least that so much more length of a width costs, a new board or one begun."""
    place = k * m[N_STEPS] + steps
    if m[m[REACHED_KNOWN] + place] == m[LOOK]:
        return float(v[m[REACHED] + place])
    best = NEVER
    strip = m[STRIP] + (t * m[N_WIDTHS] + k) * m[N_STEPS]
    levels = m[LEVELS] + k * (m[N_STEPS] + 1)
    for i in range(levels + 1, levels + 1 + m[levels]):
        used = m[i]
        if used + steps < m[N_STEPS]:
            best = min(best, v[strip + used + steps] - v[strip + used])
    v[m[REACHED] + place] = best
    m[m[REACHED_KNOWN] + place] = m[LOOK]
    return best


@compiled
def item_cost(m: Ints, v: Values, t: int, item: int) -> float:
    """Return what laying an item would cost at best."""
    if m[m[KNOWN] + item] == m[LOOK]:
        return float(v[m[COST] + item])
    i = m[ITEM] + item * ITEM_SIZE
    best = NEVER
    for k in range(m[N_WIDTHS]):
        if _serves(m, k, i):
            rest = v[m[REST] + (t * m[N_WIDTHS] + k) * m[N_ITEMS] + item]
            best = min(best, _strip_cost(m, v, t, k, m[i + ITEM_STEPS]) - rest)
    if m[i + ITEM_EDGES] < 2:
        for n in range(m[SPACED_BOARDS]):
            o = m[m[SPACED] + n]
            for s in range(o + B_SPACE, o + B_SPACE + 5 * m[o + B_SPACES], 5):
                best = min(best, _space_cost(m, v, t, s, item))
    m[m[KNOWN] + item] = m[LOOK]
    v[m[COST] + item] = best
    return best


@compiled
def _serves(m: Ints, k: int, i: int) -> bool:
    """Return whether boards of a width give the item written at `i`."""
    width, height = m[m[WIDTHS] + k], m[i + ITEM_HEIGHT]
    return bool(width == height if m[i + ITEM_EDGES] == 2 else width >= height)


@compiled
def place(m: Ints, v: Values, t: int, a: int) -> bool:
    """Lay one piece where it costs least; False where no board has room to write it down."""
    item = m[m[ARC] + a * ARC_SIZE + ARC_ITEM]
    cost, at, wide = _on_strip(m, v, t, item)
    space = -1
    if m[m[ITEM] + item * ITEM_SIZE + ITEM_EDGES] < 2:
        for b in range(m[OPENED]):
            o = m[BOARD] + b * B_SIZE
            if 0 < m[o + B_N] < MOST_PIECES:
                for s in range(m[o + B_SPACES]):
                    more = _space_cost(m, v, t, o + B_SPACE + 5 * s, item)
                    if more < cost:
                        cost, at, space = more, b, s
    if cost >= NEVER / 2:
        return False
    return bool(_lay(m, v, a, at if at >= 0 else _open(m, wide), space))


@compiled
def _on_strip(m: Ints, v: Values, t: int, item: int) -> tuple[float, int, int]:
    """Return the best board to lay an item at the end of: cost, which (-1: a new one), width."""
    i = m[ITEM] + item * ITEM_SIZE
    steps = m[i + ITEM_STEPS]
    cost, at, wide = NEVER, -1, -1
    for k in range(m[N_WIDTHS]):
        if not _serves(m, k, i):
            continue
        strip = m[STRIP] + (t * m[N_WIDTHS] + k) * m[N_STEPS]
        rest = v[m[REST] + (t * m[N_WIDTHS] + k) * m[N_ITEMS] + item]
        if v[strip + steps] - rest < cost:
            cost, at, wide = v[strip + steps] - rest, -1, k
        for b in range(m[OPENED]):
            o = m[BOARD] + b * B_SIZE
            if m[o + B_WIDTH] != k or not 0 < m[o + B_N] < MOST_PIECES:
                continue
            end = m[o + B_USED] + steps
            if end < m[N_STEPS] and v[strip + end] - v[strip + end - steps] - rest < cost:
                cost, at = v[strip + end] - v[strip + end - steps] - rest, b
    return cost, at, wide


@compiled
def _open(m: Ints, k: int) -> int:
    """Open a new board of a width."""
    b = 0
    while b < m[OPENED] and m[m[BOARD] + b * B_SIZE + B_N]:
        b += 1
    if b < m[N_BOARDS]:
        m[OPENED] = max(m[OPENED], b + 1)
        touch_board(m, b)
        m[m[BOARD] + b * B_SIZE + B_WIDTH] = k
    return b


@compiled
def _lay(m: Ints, v: Values, a: int, b: int, space: int) -> bool:
    """Write a piece down on a board: in a space, or at the end of its strip."""
    if b >= m[N_BOARDS]:
        return False
    touch_board(m, b)
    o = m[BOARD] + b * B_SIZE
    i = m[ITEM] + m[m[ARC] + a * ARC_SIZE + ARC_ITEM] * ITEM_SIZE
    section, lane = -1, 0
    if space >= 0:
        section, lane = m[o + B_SPACE + 5 * space + S_SECTION], m[o + B_SPACE + 5 * space + S_LANE]
        if lane < 0:
            lane = _free(m, o, section)
    elif m[i + ITEM_EDGES] < 2 and m[i + ITEM_HEIGHT] < m[m[WIDTHS] + m[o + B_WIDTH]]:
        section = _free(m, o, -1)
    if lane >= MOST_LANES or section >= MOST_SECTIONS:
        return False
    p = o + B_PIECE + 3 * m[o + B_N]
    m[p + P_ARC] = a
    m[p + P_SECTION] = section
    m[p + P_LANE] = lane
    m[o + B_N] += 1
    m[m[BOARD_OF] + a] = b
    refresh(m, v, b)
    return True


@compiled
def _free(m: Ints, o: int, section: int) -> int:
    """Return the first lane of a section that holds nothing, or (section -1) the first such section."""
    used = 0
    for p in range(o + B_PIECE, o + B_PIECE + 3 * m[o + B_N], 3):
        if section < 0 and m[p + P_SECTION] >= 0:
            used |= 1 << m[p + P_SECTION]
        elif section >= 0 and m[p + P_SECTION] == section:
            used |= 1 << m[p + P_LANE]
    free = 0
    while used >> free & 1:
        free += 1
    return free
