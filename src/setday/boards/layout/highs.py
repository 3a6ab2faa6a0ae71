"""The linear program of the whole layout, in HiGHS.

Variables: which rows a surface is divided into (a path from its lower edge to its upper), which
pieces each row is cut into (a path through the row's graph), how many boards are cut by each
pattern, how many slots are trimmed to a smaller item, and (at a high price) pieces bought loose.
Constraints: paths are paths; every item asked for is supplied; joints of neighbouring rows keep apart.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import highspy
import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.cells import Cells
from setday.boards.layout.network import Network
from setday.boards.layout.patterns import Pattern
from setday.boards.layout.rows import Item
from setday.boards.problem import Board
from setday.solving import QuietHighs

__all__ = ["Duals", "Master"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]
INF = highspy.kHighsInf
OPTIONS: dict[str, bool | int | float | str] = {
    "solver": "ipx",
    "run_crossover": "off",
    "ipm_optimality_tolerance": 1e-5,
}
"""Interior points: their prices lie in the middle of all good ones, so few rounds are needed."""


@dataclass(slots=True)
class _Entries:
    """Coefficients being collected, one (row, column, value) at a time or in arrays."""

    rows: list[Ints] = field(default_factory=list)
    cols: list[Ints] = field(default_factory=list)
    values: list[Values] = field(default_factory=list)

    def add(self, rows: Sequence[int] | Ints, cols: Sequence[int] | Ints, value: float) -> None:
        self.rows.append(np.asarray(rows, dtype=np.int64))
        self.cols.append(np.asarray(cols, dtype=np.int64))
        self.values.append(np.full(len(self.rows[-1]), value))


@dataclass(frozen=True, slots=True)
class Duals:
    """Prices out of the linear program: per item, and per pair of clashing joints' constraint."""

    objective: float
    items: Values
    apart: Values


class Master:
    """The program over one network and a growing list of patterns.

    Parameters
    ----------
    network : Network
    cells : Cells
        What its pieces are counted as; these are the items supplied.
    boards : tuple of Board
    loose : array
        A price per cell at which it may be bought loose: keeps prices sensible while patterns are few.
    """

    def __init__(self, network: Network, cells: Cells, boards: tuple[Board, ...], loose: Values) -> None:
        self.network = network
        self.cells = cells
        self.boards = boards
        self.patterns: list[Pattern] = []
        self.apart: list[tuple[int, ...]] = []
        self.n_rows = len(network.rows)
        self.n_arcs = len(network.arcs)
        self.trims = _trims(cells.items)
        self.first_loose = self.n_rows + self.n_arcs + len(self.trims)
        self.first_pattern = self.first_loose + len(cells.items)
        self.loose: Values = np.array(loose)
        self.solver = QuietHighs(OPTIONS)
        self._pass_model()

    def _pass_model(self) -> None:
        entries = _Entries()
        lower: list[float] = []
        upper: list[float] = []
        self._division_rows(entries, lower, upper)
        self._path_rows(entries, lower, upper)
        self.first_item = len(lower)
        n = len(self.cells.items)
        lower += [0.0] * n
        upper += [INF] * n
        self._item_entries(entries)
        start = self.n_rows + self.n_arcs
        entries.add([self.first_item + b for _, b in self.trims], start + np.arange(len(self.trims)), 1.0)
        entries.add([self.first_item + a for a, _ in self.trims], start + np.arange(len(self.trims)), -1.0)
        entries.add(self.first_item + np.arange(n), self.first_loose + np.arange(n), 1.0)
        self.first_apart = len(lower)
        self._send(entries, lower, upper)

    def _item_entries(self, entries: _Entries) -> None:
        """What every piece takes of the cells it is counted as."""
        cells, item = self.cells, self.network.arc_item
        times = cells.times[item]
        for n in np.unique(times).tolist():
            able = np.flatnonzero(times == n)
            entries.add(self.first_item + cells.main[item[able]], self.n_rows + able, -float(n))
        able = np.flatnonzero(cells.once[item])
        entries.add(self.first_item + cells.rest[item[able]], self.n_rows + able, -1.0)

    def _division_rows(self, entries: _Entries, lower: list[float], upper: list[float]) -> None:
        net = self.network
        for f, face in enumerate(net.faces):
            mine = net.face_rows(f)
            entries.add([len(lower)], [0], 0.0)
            bottom = [r for r in mine if net.rows[r].low == 0]
            entries.add([len(lower)] * len(bottom), bottom, 1.0)
            lower.append(1.0)
            upper.append(1.0)
            levels = {(net.rows[r].rows, net.rows[r].high) for r in mine}
            for rows, level in sorted(levels):
                if level == face.top(rows):
                    continue
                ends = [r for r in mine if (net.rows[r].rows, net.rows[r].high) == (rows, level)]
                starts = [r for r in mine if (net.rows[r].rows, net.rows[r].low) == (rows, level)]
                entries.add([len(lower)] * len(ends), ends, 1.0)
                entries.add([len(lower)] * len(starts), starts, -1.0)
                lower.append(0.0)
                upper.append(0.0)

    def _path_rows(self, entries: _Entries, lower: list[float], upper: list[float]) -> None:
        """One balance per node but the last of every row; the first node gives what the row variable is."""
        net = self.network
        last = net.first[1:] - 1
        keep = np.ones(int(net.first[-1]), dtype=bool)
        keep[last] = False
        index = len(lower) + np.cumsum(keep) - 1
        columns = self.n_rows + np.arange(self.n_arcs)
        entries.add(index[net.tail], columns, 1.0)
        inner = keep[net.head]
        entries.add(index[net.head[inner]], columns[inner], -1.0)
        entries.add(
            index[net.first[:-1]][net.first[:-1] != last], np.flatnonzero(net.first[:-1] != last), -1.0
        )
        count = int(keep.sum())
        lower += [0.0] * count
        upper += [0.0] * count

    def _send(self, entries: _Entries, lower: list[float], upper: list[float]) -> None:
        rows, cols, values = (np.concatenate(x) for x in (entries.rows, entries.cols, entries.values))
        order = np.lexsort((rows, cols))
        lp = highspy.HighsLp()
        lp.num_col_ = self.first_pattern
        lp.num_row_ = len(lower)
        lp.col_cost_ = np.array([0.0] * self.first_loose + self.loose.tolist(), dtype=np.float64)
        lp.col_lower_ = np.zeros(lp.num_col_)
        lp.col_upper_ = np.full(lp.num_col_, INF)
        lp.row_lower_ = np.array(lower)
        lp.row_upper_ = np.array(upper)
        lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
        lp.a_matrix_.start_ = np.searchsorted(cols[order], np.arange(lp.num_col_ + 1)).astype(np.int32)
        lp.a_matrix_.index_ = rows[order].astype(np.int32)
        lp.a_matrix_.value_ = np.array(values[order].tolist())
        self.solver.passModel(lp)

    def add_patterns(self, patterns: list[Pattern]) -> None:
        """Add columns."""
        if not patterns:
            return
        counts = [p.counts for p in patterns]
        starts = np.concatenate([[0], np.cumsum([len(c) for c in counts])]).astype(np.int32)
        index = np.array([self.first_item + i for c in counts for i in c], dtype=np.int32)
        values = np.array([float(n) for c in counts for n in c.values()])
        cost = np.array([float(self.boards[p.board].price_cents) for p in patterns])
        n = len(patterns)
        self.solver.addCols(n, cost, np.zeros(n), np.full(n, INF), len(index), starts[:-1], index, values)
        self.patterns += patterns

    def keep_apart(self, groups: list[tuple[int, ...]]) -> None:
        """Add constraints: of the joints of each group at most one is used."""
        net = self.network
        into: dict[int, list[int]] = {n: [] for g in groups for n in g}
        for a, head in enumerate(net.head.tolist()):
            if head in into:
                into[head].append(self.n_rows + a)
        for g in groups:
            cols = np.array(sorted({c for n in g for c in into[n]}), dtype=np.int32)
            self.solver.addRow(-INF, 1.0, len(cols), cols, np.ones(len(cols)))
        self.apart += groups

    def drop(self, values: Values, *, keep: int) -> list[Pattern]:
        """Forget all but the `keep` patterns whose boards are best used at some item values."""
        cost = [
            self.boards[p.board].price_cents - sum(float(values[s.item]) for s in p.slots)
            for p in self.patterns
        ]
        order = np.argsort(np.array(cost), kind="stable")
        out = np.sort(order[keep:])
        self.solver.deleteCols(len(out), (self.first_pattern + out).astype(np.int32))
        gone = [self.patterns[i] for i in out]
        left = set(out.tolist())
        self.patterns = [p for i, p in enumerate(self.patterns) if i not in left]
        return gone

    def relax(self, seconds: float) -> Duals | None:
        """Solve the linear program; None when `seconds` are not enough."""
        self.solver.setOptionValue("time_limit", self.solver.getRunTime() + max(seconds, 0.01))
        self.solver.run()
        if self.solver.getModelStatus() == highspy.HighsModelStatus.kTimeLimit:
            return None
        duals = np.array(self.solver.getSolution().row_dual)
        items = np.maximum(duals[self.first_item : self.first_apart], 0.0)
        return Duals(
            self.solver.getInfo().objective_function_value, items, np.maximum(-duals[self.first_apart :], 0.0)
        )

    def dearer_loose(self, factor: float) -> bool:
        """Make the loose pieces that the last answer used dearer; True when there were any."""
        bought = np.array(self.solver.getSolution().col_value)[self.first_loose : self.first_pattern]
        used = np.flatnonzero(bought > 1e-4)
        self.loose[used] *= factor
        if len(used):
            self.solver.changeColsCost(
                len(used), (self.first_loose + used).astype(np.int32), self.loose[used]
            )
        return bool(len(used))

    def joints(self) -> Values:
        """Return how far every joint is used in the last answer."""
        used = np.array(self.solver.getSolution().col_value)[self.n_rows : self.n_rows + self.n_arcs]
        out = np.zeros(int(self.network.first[-1]))
        np.add.at(out, self.network.head, used)
        return out


def _trims(items: list[Item]) -> list[tuple[int, int]]:
    """Return which item may be trimmed to which: the next shorter one, and the next lower kind."""
    kinds: dict[tuple[int, int], list[int]] = {}
    for i, (height, edges, _) in enumerate(items):
        kinds.setdefault((height, edges), []).append(i)
    out = []
    for (height, edges), mine in kinds.items():
        out += [(b, a) for a, b in pairwise(mine)]
        for kind in _next_kinds(list(kinds), height, edges):
            out += _down(items, mine, kinds[kind])
    return out


def _next_kinds(kinds: list[tuple[int, int]], height: int, edges: int) -> list[tuple[int, int]]:
    """Return the kind one step below: the highest with fewer factory edges.

    A lower piece in a higher lane needs no trimming here, since patterns lay it there themselves.
    """
    fewer = [k for k in kinds if k[1] < edges and k[0] <= height]
    return [max(fewer, key=lambda k: (k[1], k[0]))] if fewer else []


def _down(items: list[Item], large: list[int], small: list[int]) -> list[tuple[int, int]]:
    """Join every item of one kind to the longest no longer item of another."""
    out = []
    for i in large:
        able = [j for j in small if items[j][2] <= items[i][2]]
        if able:
            out.append((i, max(able, key=lambda j: items[j][2])))
    return out
