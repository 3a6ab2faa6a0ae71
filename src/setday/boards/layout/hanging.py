"""Hanging surface by surface: every row cut along its cheapest path, given what is left of the boards.

This is the state that construction and improvement work on: the boards being filled, the rows and
pieces chosen for every surface, and which joints are taken.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from random import Random

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.filling import Filling, Piece, Space
from setday.boards.layout.network import Network
from setday.boards.layout.pricing import Pricer
from setday.boards.layout.worth import NEVER, Worth
from setday.boards.problem import Rows

__all__ = ["Hanging", "Snapshot"]

Values = NDArray[np.float64]
Ints = NDArray[np.int64]
FAR = float("inf")


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A state to come back to."""

    fillings: tuple[Filling, ...]
    taken: tuple[tuple[int, ...], ...]
    cuts: dict[int, tuple[int, ...]]


class Hanging:
    """Boards being filled and rows being cut.

    Parameters
    ----------
    network : Network
    pricer : Pricer
    tables : Worth
        How placements are judged.

    Attributes
    ----------
    joints : int
        Length of all butt joints [1/64 in].
    joint_price : float
        What a butt joint counts for [cents per 1/64 in].
    """

    def __init__(self, network: Network, pricer: Pricer, tables: Worth) -> None:
        self.network = network
        self.pricer = pricer
        self.trim = pricer.trim
        self.judge_by(tables)
        self.paths = _paths(network)
        self.row_items = [
            np.unique(network.arc_item[[a for a, _, _ in p]]) if p else np.zeros(0, np.int64)
            for p in self.paths
        ]
        self.conflicts = _conflicts(network)
        self.divisions = [_divisions(network, f) for f in range(len(network.faces))]
        self.fillings: list[Filling] = []
        self.taken: list[tuple[int, ...]] = [()] * len(network.faces)
        self.cuts: dict[int, tuple[int, ...]] = {}
        self.hits = [0] * int(network.first[-1])
        self.arc_joint: list[int] = network.joint[network.head].tolist()
        self.joints = 0
        self.joint_price = 0.0

    def judge_by(self, tables: Worth) -> None:
        """Judge placements by other tables from now on."""
        self.tables = tables
        if tables.ledger is None:
            pricer = self.pricer
            rest = [self._rest_worth(w, pricer.heights, pricer.steps) for w in tables.widths]
            tables.ledger = [
                (w, tables.strip[k].tolist(), np.where(pricer.edges < 2, rest[k], 0.0).tolist())
                for k, w in enumerate(tables.widths)
            ]
        self._ledger = tables.ledger
        self._rest = [np.array(rest) for _, _, rest in tables.ledger]

    # ------------------------------------------------------------ state

    def snapshot(self) -> Snapshot:
        """Return the state as it is."""
        return Snapshot(tuple(self.fillings), tuple(self.taken), dict(self.cuts))

    def restore(self, state: Snapshot) -> None:
        """Go back to a state."""
        self.fillings = list(state.fillings)
        self.taken = list(state.taken)
        for row in [r for r, arcs in self.cuts.items() if state.cuts.get(r) != arcs]:
            self._mark(self.cuts.pop(row), -1)
        for row in [r for r in state.cuts if r not in self.cuts]:
            self.cuts[row] = state.cuts[row]
            self._mark(state.cuts[row], 1)

    def cost(self) -> int:
        """Return the money for the boards filled so far [cents]."""
        return round(sum(float(self.tables.price[self._wide(f), f.used]) for f in self.fillings))

    def price_and_rest(self, filling: Filling, tables: Worth) -> tuple[float, float]:
        """Return what a board costs and what is left of it is worth [cents]."""
        k, used = self._wide(filling), filling.used
        price = float(tables.price[k, used])
        rest = price - float(tables.strip[k, used])
        if filling.sections:
            rest += sum(self._space_worth(s, tables) for s in filling.spaces)
        return price, rest

    def _space_worth(self, space: Space, tables: Worth) -> float:
        row = tables.lane_row(space.height)
        return float(tables.lane[int(space.edge), row, space.left]) if row >= 0 else 0.0

    def _wide(self, filling: Filling) -> int:
        return self.tables.widths.index(filling.width)

    # ------------------------------------------------------------ taking down

    def take_down(self, rows: Iterable[int]) -> None:
        """Take the pieces of some rows off the wall and out of the boards."""
        owners: set[int] = set()
        for r in rows:
            arcs = self.cuts.pop(r, ())
            self._mark(arcs, -1)
            owners.update(arcs)
        kept = []
        for f in self.fillings:
            if not owners.isdisjoint(f.owners):
                left = f.without(owners)
                if left.full or left.sections:
                    kept.append(left)
            else:
                kept.append(f)
        self.fillings = kept

    def _mark(self, arcs: Iterable[int], by: int) -> None:
        for a in arcs:
            self.joints += by * self.arc_joint[a]
            head = int(self.network.head[a])
            for n in self.conflicts.get(head, ()):
                self.hits[n] += by

    # ------------------------------------------------------------ hanging

    def hang_face(self, face: int, dice: Random, *, noise: float = 0.0) -> bool:
        """Divide a surface into rows and hang them; False when no path keeps the joints apart."""
        rows = self.network.face_rows(face)
        costs = self._costs(np.unique(np.concatenate([self.row_items[r] for r in rows])))
        totals = {r: self._cut(r, costs, dice, noise)[0] for r in rows}
        choice = min(self.divisions[face], key=lambda d: sum(totals[r] for r in d))
        order = list(choice) if dice.random() < 0.5 else list(reversed(choice))
        done: list[int] = []
        for r in order:
            if not self.hang_row(r, dice, noise=noise):
                self.take_down(done)
                return False
            done.append(r)
        self.taken[face] = choice
        return True

    def hang_row(self, row: int, dice: Random, *, noise: float = 0.0) -> bool:
        """Cut a row along its cheapest path and place its pieces; False when there is no path."""
        total, arcs = self._cut(row, self._costs(self.row_items[row]), dice, noise)
        if total >= NEVER / 2:
            return False
        self.hang_arcs(row, arcs)
        return True

    def hang_arcs(self, row: int, arcs: tuple[int, ...]) -> None:
        """Hang a row cut into the given pieces, the longest placed first."""
        steps = self.pricer.steps
        for a in sorted(arcs, key=lambda a: -int(steps[self.network.arc_item[a]])):
            item = int(self.network.arc_item[a])
            self.place(Piece(a, self.network.items[item], int(steps[item])))
        self.cuts[row] = arcs
        self._mark(arcs, 1)

    def _cut(
        self, row: int, costs: dict[int, float], dice: Random, noise: float
    ) -> tuple[float, tuple[int, ...]]:
        """Return the cheapest path through a row that uses no joint too close to one already taken."""
        net = self.network
        first, last = int(net.first[row]), int(net.first[row + 1]) - 1
        dist = [FAR] * (last - first + 1)
        back = [-1] * len(dist)
        dist[0] = 0.0
        item_of = net.arc_item
        for arc, tail, head in self.paths[row]:
            d = dist[tail]
            if d == FAR or self.hits[first + head]:
                continue
            c = costs[int(item_of[arc])] + self.joint_price * self.arc_joint[arc]
            d += c * (1 + noise * dice.random()) if noise else c
            if d < dist[head]:
                dist[head], back[head] = d, arc
        if dist[-1] == FAR:
            return NEVER, ()
        arcs = []
        at = last
        while at != first:
            arcs.append(back[at - first])
            at = int(net.tail[arcs[-1]])
        return dist[-1], tuple(reversed(arcs))

    # ------------------------------------------------------------ what a piece costs where

    def _strips(self) -> list[Ints]:
        """Return the used lengths of the boards of each width, a new board first."""
        out = []
        for width in self.tables.widths:
            used = {f.used for f in self.fillings if f.width == width} | {0}
            out.append(np.fromiter(used, dtype=np.int64, count=len(used)))
        return out

    def _costs(self, items: Ints) -> dict[int, float]:
        """Return for every item what placing it would cost at best."""
        pricer = self.pricer
        costs = np.full(len(items), NEVER)
        steps, heights, edges = pricer.steps[items], pricer.heights[items], pricer.edges[items]
        for k, used in enumerate(self._strips()):
            strip = self.tables.strip[k]
            width = self.tables.widths[k]
            mine = np.flatnonzero(np.where(edges == 2, heights == width, heights <= width))
            after = used[None, :] + steps[mine, None]
            fits = after < len(strip)
            more = np.where(fits, strip[np.minimum(after, len(strip) - 1)] - strip[used][None, :], NEVER).min(
                axis=1
            )
            costs[mine] = np.minimum(costs[mine], more - self._rest[k][items[mine]])
        self._lane_costs(costs, items)
        return dict(zip(items.tolist(), costs.tolist(), strict=True))

    def _rest_worth(self, width: int, heights: Ints, steps: Ints) -> Values:
        """Return what is left beside pieces ripped from a board's full width is worth."""
        rows = np.searchsorted(self.tables.heights, width - heights - self.trim, side="right") - 1
        return np.where(rows >= 0, self.tables.lane[1, np.maximum(rows, 0), steps], 0.0)

    def _lane_costs(self, costs: Values, items: Ints) -> None:
        """Lower `costs` where a space beside ripped pieces serves."""
        ripped = np.flatnonzero(self.pricer.edges[items] < 2)
        spaces = {s[1:]: None for f in self.fillings if f.sections for s in map(_kind, f.spaces)}
        if len(ripped) and spaces:
            table = np.array(list(spaces), dtype=np.int64)
            costs[ripped] = np.minimum(costs[ripped], self._space_costs(table, items[ripped]).min(axis=1))

    def _space_costs(self, spaces: Ints, items: Ints) -> Values:
        """Return what each item (first axis) costs in each space: what that takes off the space's worth.

        A space is a row of (new lane or not, height, left, with factory edge).
        """
        tables, pricer = self.tables, self.pricer
        fresh, height, left, edge = spaces.T
        steps, high = pricer.steps[items][:, None], pricer.heights[items][:, None]
        fits = (high <= height) & (steps <= left) & ((edge == 1) | (pricer.edges[items][:, None] == 0))
        row = np.searchsorted(tables.heights, height, side="right") - 1
        before = np.where(row >= 0, tables.lane[edge, np.maximum(row, 0), left], 0.0)
        behind_left = np.maximum(left - steps, 0)
        own = np.searchsorted(tables.heights, high, side="right") - 1
        kept = tables.lane[np.where(fresh, 1, edge), np.where(fresh, own, np.maximum(row, 0)), behind_left]
        rest = np.searchsorted(tables.heights, height - high - self.trim, side="right") - 1
        beside = np.where((fresh == 1) & (rest >= 0), tables.lane[0, np.maximum(rest, 0), left], 0.0)
        return np.asarray(np.where(fits, before - kept - beside, NEVER))

    def place(self, piece: Piece) -> None:
        """Place one piece where it costs least."""
        cost, at, width = self._on_strip(piece)
        inside = None
        if piece.item[1] < 2:
            cheaper, where, space = self._in_space(piece)
            if space is not None and cheaper < cost:
                at, inside = where, space
        if at < 0:
            self.fillings.append(Filling(width, self.trim).with_full(piece))
        elif inside is None:
            self.fillings[at] = self.fillings[at].with_full(piece)
        else:
            self.fillings[at] = self.fillings[at].with_in(piece, inside)

    def _on_strip(self, piece: Piece) -> tuple[float, int, int]:
        """Return the best board to lay a piece at the end of: cost, which (-1: a new one), width."""
        item = self.network.place[piece.item]
        height, edges, steps = piece.item[0], piece.item[1], piece.steps
        options = []
        for width, strip, rest in self._ledger:
            serves = (width == height) if edges == 2 else (width >= height)
            if serves and steps < len(strip):
                options.append((strip[steps] - rest[item], -1, width))
                options += [
                    (strip[f.used + steps] - strip[f.used] - rest[item], i, width)
                    for i, f in enumerate(self.fillings)
                    if f.width == width and f.used + steps < len(strip)
                ]
        return min(options)

    def _in_space(self, piece: Piece) -> tuple[float, int, Space | None]:
        """Return the best space beside ripped pieces: cost, which board, and the space."""
        height, edges, _ = piece.item
        found = [
            (i, s)
            for i, f in enumerate(self.fillings)
            if f.sections
            for s in f.spaces
            if height <= s.height and piece.steps <= s.left and (s.edge or not edges)
        ]
        if not found:
            return NEVER, -1, None
        table = np.array([_kind(s)[1:] for _, s in found], dtype=np.int64)
        costs = self._space_costs(table, np.array([self.network.place[piece.item]]))[0]
        best = int(np.argmin(costs))
        return float(costs[best]), *found[best]


def _kind(space: Space) -> tuple[int, int, int, int, int]:
    """Return a space in numbers: section, whether its lane is new, height, left, whether it has an edge."""
    return space.section, int(space.lane < 0), space.height, space.left, int(space.edge)


def _paths(network: Network) -> list[list[tuple[int, int, int]]]:
    """Return the arcs of every row, tails ascending, with nodes counted from the row's first."""
    out: list[list[tuple[int, int, int]]] = [[] for _ in network.rows]
    for a, arc in enumerate(network.arcs):
        out[int(network.arc_row[a])].append((a, arc.tail, arc.head))
    return [sorted(p, key=lambda x: (x[1], x[2])) for p in out]


def _conflicts(network: Network) -> dict[int, tuple[int, ...]]:
    """Return for every joint the joints that cannot be used beside it."""
    out: dict[int, set[int]] = {}
    for lower, upper in [*network.neighbours(), *network.layered()]:
        for a, b in network.clash_pairs(lower, upper):
            out.setdefault(a, set()).add(b)
            out.setdefault(b, set()).add(a)
    return {n: tuple(sorted(s)) for n, s in out.items()}


MOST_DIVISIONS = 200


def _divisions(network: Network, face: int) -> list[tuple[int, ...]]:
    """Return the ways to divide a surface into rows, fewest rows first (at most so many)."""
    starts: dict[tuple[Rows, int], list[int]] = {}
    for r in network.face_rows(face):
        starts.setdefault((network.rows[r].rows, network.rows[r].low), []).append(r)
    out: list[tuple[int, ...]] = []
    queue: list[tuple[int, ...]] = [(r,) for (_, low), rows in starts.items() if low == 0 for r in rows]
    while queue and len(out) < MOST_DIVISIONS:
        path = queue.pop(0)
        row = network.rows[path[-1]]
        if row.high == network.faces[face].top(row.rows):
            out.append(path)
        else:
            queue += [(*path, r) for r in starts.get((row.rows, row.high), ())]
    return out
