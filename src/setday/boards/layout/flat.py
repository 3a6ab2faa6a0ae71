"""A group laid flat for the compiled search: its network, its tables and its boards as arrays, and back."""

from collections.abc import Sequence
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout import memory as at
from setday.boards.layout.filling import Filling, Lane, Piece
from setday.boards.layout.hanging import Hanging, Snapshot
from setday.boards.layout.worth import worth

__all__ = ["Flat"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]

SHARES = (0.8, 0.9, 1.0)
"""How far what is left of a board is counted on when pieces are laid."""
SPARE_BOARDS = 60


class Flat:
    """One group in two arrays: `m` whole numbers, `v` money and worth (see `memory`).

    Parameters
    ----------
    hanging : Hanging
    values : array
        Worth per item [cents].
    boards : int
        About how many boards it takes.
    seed : int
    """

    def __init__(self, hanging: Hanging, values: Values, *, boards: int, seed: int) -> None:
        self.hanging = hanging
        self.network = hanging.network
        self.pricer = hanging.pricer
        head = np.zeros(at.HEADER, dtype=np.int64)
        head[at.DICE] = seed * 7919 % 2147483646 + 1
        tables = self._network_tables() | self._room(boards + SPARE_BOARDS)
        self._counts(head, boards + SPARE_BOARDS)
        self.m = _joined(head, tables)
        widths, steps = len(self.pricer.widths), self._steps
        money = {
            at.DIST: int(self.network.first[-1]),
            at.COST: len(self.network.items),
            at.REACHED: widths * steps,
            at.ROW_COST: len(self.network.rows),
            at.MONEY: (boards + SPARE_BOARDS) * at.MONEY_SIZE,
            at.SUMS: 3,
        }
        self._scratch = {place: np.zeros(size) for place, size in money.items()}
        self.v = np.zeros(0)
        self.judge_by(values)

    @property
    def _steps(self) -> int:
        return max(self.pricer.board_steps) + 1

    @property
    def _longest(self) -> int:
        """The most pieces a row can have, and what else is written of it."""
        return int(max(np.diff(self.network.first), default=1)) + at.H_ARC

    def _counts(self, head: Ints, boards: int) -> None:
        pricer = self.pricer
        ripped = pricer.edges < 2
        head[at.TRIM] = pricer.trim
        head[at.LEAST_HEIGHT] = pricer.heights[ripped].min(initial=max(pricer.widths))
        head[at.LEAST_STEPS] = pricer.steps.min(initial=self._steps)
        head[at.N_WIDTHS] = len(pricer.widths)
        head[at.N_STEPS] = self._steps
        head[at.N_ITEMS] = len(pricer.items)
        head[at.N_HEIGHTS] = max(len(np.unique(pricer.heights[ripped])), 1)
        head[at.N_BOARDS] = boards
        head[at.N_ROWS] = len(self.network.rows)
        head[at.N_FACES] = len(self.network.faces)
        head[at.DIVISION_SIZE] = 1 + max(len(d) for some in self.hanging.divisions for d in some)
        head[at.HUNG_SIZE] = self._longest

    def _network_tables(self) -> dict[int, Ints]:
        net, pricer = self.network, self.pricer
        divisions = [d for some in self.hanging.divisions for d in some]
        size = 1 + max(len(d) for d in divisions)
        until = np.cumsum([len(d) for d in self.hanging.divisions])
        rows_until = np.cumsum([len(net.face_rows(f)) for f in range(len(net.faces))])
        arcs_until = np.cumsum(np.bincount(net.arc_row, minlength=len(net.rows)))
        heights = np.unique(pricer.heights[pricer.edges < 2])
        low = np.searchsorted(heights, np.arange(max(pricer.widths) + 1), side="right") - 1
        faces = np.zeros((len(net.faces), at.FACE_SIZE), dtype=np.int64)
        for column, ends in ((at.FACE_DIVISIONS, until), (at.FACE_ROWS, rows_until)):
            faces[:, column] = _begins(ends)
            faces[:, column + 1] = ends
        return {
            at.WIDTHS: np.array(pricer.widths),
            at.LOW: np.maximum(low, 0),
            at.ITEM: np.stack([pricer.heights, pricer.edges, pricer.steps], axis=1),
            at.ARC: np.stack([net.tail, net.head, net.arc_item, net.joint[net.head], net.arc_row], axis=1),
            at.ROW: np.stack(
                [net.first[:-1], net.first[1:] - 1, _begins(arcs_until), arcs_until, net.row_face], axis=1
            ),
            at.FACE: faces,
            at.DIVISION: np.array([[len(d), *d, *[0] * (size - 1 - len(d))] for d in divisions]),
            at.CLASH: _lists([self.hanging.conflicts.get(n, ()) for n in range(int(net.first[-1]))]),
        }

    def _room(self, boards: int) -> dict[int, Ints]:
        net, widths = self.network, len(self.pricer.widths)
        rows = len(net.rows) * self._longest
        sizes = {
            at.BOARD: boards * at.B_SIZE,
            at.HUNG: rows,
            at.KEPT_BOARD: boards * at.B_SIZE,
            at.KEPT_ROW: rows,
            at.HITS: int(net.first[-1]),
            at.BACK: int(net.first[-1]),
            at.BOARD_OF: len(net.arcs),
            at.KNOWN: len(net.items),
            at.REACHED_KNOWN: widths * self._steps,
            at.LEVELS: widths * (self._steps + 1),
            at.LEVEL_KNOWN: widths * self._steps,
            at.LANES: at.MOST_SECTIONS * at.MOST_LANES * 3,
            at.SPACED: boards,
            at.SOME: 2 * at.MOST_PIECES,
            at.BEST: boards * at.B_SIZE,
            at.BEST_HUNG: rows,
        }
        return {place: np.zeros(size, dtype=np.int64) for place, size in sizes.items()}

    def judge_by(self, values: Values) -> None:
        """Judge by the tables at some item values from now on."""
        pricer, low = self.pricer, self.m[self.m[at.LOW] :][: max(self.pricer.widths) + 1]
        some = [worth(pricer, values, share) for share in (*SHARES, 1.0)]
        room = np.array(pricer.widths)[:, None] - pricer.heights[None, :] - pricer.trim
        beside = (room >= self.m[at.LEAST_HEIGHT]) & (pricer.edges[None, :] < 2)
        rows = low[np.maximum(room, 0)]
        rest = [np.where(beside, w.lane[1, rows, pricer.steps[None, :]], 0.0) for w in some]
        tables: dict[int, Values] = {
            at.PRICE: some[0].price,
            at.STRIP: np.stack([w.strip for w in some]),
            at.LANE: np.stack([w.lane for w in some]),
            at.REST: np.stack(rest),
            at.VALUE: np.asarray(values, dtype=np.float64),
        }
        joint_price = self.v[self.m[at.SUMS] + at.JOINT_PRICE] if len(self.v) else 0.0
        self.v = _placed(self.m, tables | self._scratch)
        self.price_joints(joint_price)

    def price_joints(self, price: float) -> None:
        """Count a joint for so much [cents per 1/64 in]."""
        self.v[self.m[at.SUMS] + at.JOINT_PRICE] = price

    def load(self, snapshot: Snapshot) -> None:
        """Put a layout into the arrays; `kernel.begin` then judges it."""
        m, net = self.m, self.network
        self._table(at.HITS, int(net.first[-1]))[:] = 0
        hung = self._table(at.HUNG, len(net.rows) * self._longest).reshape(len(net.rows), -1)
        hung[:, at.H_N] = 0
        m[[at.JOINTS, at.PIECES]] = 0
        self._load_boards(snapshot)
        for face, division in enumerate(snapshot.taken):
            first = m[m[at.FACE] + face * at.FACE_SIZE + at.FACE_DIVISIONS]
            taken = first + self.hanging.divisions[face].index(division)
            m[m[at.FACE] + face * at.FACE_SIZE + at.FACE_TAKEN] = taken
            for r in division:
                arcs = snapshot.cuts[r]
                hung[r, at.H_N] = len(arcs)
                hung[r, at.H_ARC : at.H_ARC + len(arcs)] = arcs
                m[at.PIECES] += len(arcs)
                for a in arcs:
                    head = int(net.head[a])
                    m[at.JOINTS] += net.joint[head]
                    for other in self.hanging.conflicts.get(head, ()):
                        m[m[at.HITS] + other] += 1

    def _load_boards(self, snapshot: Snapshot) -> None:
        m = self.m
        boards = self._table(at.BOARD, m[at.N_BOARDS] * at.B_SIZE).reshape(-1, at.B_SIZE)
        boards[:] = 0
        m[at.OPENED] = len(snapshot.fillings)
        for b, filling in enumerate(snapshot.fillings):
            laid = [(p.owner, -1, 0) for p in filling.full]
            for c, section in enumerate(filling.sections):
                laid += [(p.owner, c, e) for e, lane in enumerate(section) for p in lane.pieces]
            boards[b, at.B_N] = len(laid)
            boards[b, at.B_WIDTH] = self.pricer.widths.index(filling.width)
            boards[b, at.B_PIECE : at.B_PIECE + 3 * len(laid)] = list(chain.from_iterable(laid))
            for arc, _, _ in laid:
                m[m[at.BOARD_OF] + arc] = b

    def _table(self, place: int, size: int) -> Ints:
        return self.m[self.m[place] : self.m[place] + size]

    def best(self) -> Snapshot:
        """Return the best layout that was written down."""
        m, net = self.m, self.network
        hung = self._table(at.BEST_HUNG, len(net.rows) * self._longest).reshape(len(net.rows), -1).tolist()
        taken = []
        for face, divisions in enumerate(self.hanging.divisions):
            o = m[at.FACE] + face * at.FACE_SIZE
            taken.append(divisions[m[o + at.FACE_BEST] - m[o + at.FACE_DIVISIONS]])
        cuts = {
            r: tuple(sorted(hung[r][at.H_ARC : at.H_ARC + hung[r][at.H_N]])) for rows in taken for r in rows
        }
        boards = self._table(at.BEST, m[at.N_BOARDS] * at.B_SIZE).reshape(-1, at.B_SIZE).tolist()
        return Snapshot(tuple(self._filling(b) for b in boards if b[at.B_N]), tuple(taken), cuts)

    def _filling(self, board: list[int]) -> Filling:
        full: list[Piece] = []
        lanes: dict[tuple[int, int], list[Piece]] = {}
        for p in range(at.B_PIECE, at.B_PIECE + 3 * board[at.B_N], 3):
            arc, section, lane = board[p : p + 3]
            item = int(self.network.arc_item[arc])
            piece = Piece(arc, self.network.items[item], int(self.pricer.steps[item]))
            if section < 0:
                full.append(piece)
            else:
                lanes.setdefault((section, lane), []).append(piece)
        sections: dict[int, list[Lane]] = {}
        for (section, _), pieces in sorted(lanes.items()):
            sections.setdefault(section, []).append(Lane(tuple(pieces)))
        width = self.pricer.widths[board[at.B_WIDTH]]
        ripped = tuple(tuple(lanes) for _, lanes in sorted(sections.items()))
        return Filling(width, self.pricer.trim, tuple(full), ripped)


def _begins(until: Ints) -> Ints:
    """Return where each of some stretches begins, given where each ends."""
    return np.concatenate([[0], until[:-1]]).astype(np.int64)


def _lists(lists: Sequence[Sequence[int]]) -> Ints:
    """Return lists end to end, led by where each begins (from the start of the whole)."""
    begins = len(lists) + 1 + np.cumsum([0, *(len(x) for x in lists)])
    return np.concatenate([begins, np.array(list(chain.from_iterable(lists)), dtype=np.int64)])


def _joined(head: Ints, tables: dict[int, Ints]) -> Ints:
    """Return a header and its tables as one array, the beginning of each noted in the header."""
    at_ = len(head)
    for place, table in tables.items():
        head[place] = at_
        at_ += table.size
    whole = np.concatenate([head, *(t.ravel() for t in tables.values())]).astype(np.int64)
    clash, size = int(head[at.CLASH]), tables[at.CLASH]
    whole[clash : clash + size[0]] += clash
    return whole


def _placed(m: Ints, tables: dict[int, Values]) -> Values:
    """Return tables of money as one array, the beginning of each noted in `m`."""
    begins = 0
    for place, table in tables.items():
        m[place] = begins
        begins += table.size
    return np.concatenate([np.asarray(t, dtype=np.float64).ravel() for t in tables.values()])
