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
    """

    def __init__(self, network: Network, pricer: Pricer, tables: Worth) -> None:
        self.network = network
        self.pricer = pricer
        self.tables = tables
        self.trim = pricer.trim
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

    def energy(self, tables: Worth, share: float) -> float:
        """Return the money for the boards, less a share of what is left of them is worth."""
        total = 0.0
        for f in self.fillings:
            k, used = self._wide(f), f.used
            total += (1 - share) * float(tables.price[k, used]) + share * float(tables.strip[k, used])
            if f.sections:
                total -= share * sum(self._space_worth(s, tables) for s in f.spaces(self.trim))
        return total

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
            if any(p.owner in owners for p in f.pieces()):
                left = f.without(owners)
                if left.full or left.sections:
                    kept.append(left)
            else:
                kept.append(f)
        self.fillings = kept

    def _mark(self, arcs: Iterable[int], by: int) -> None:
        for a in arcs:
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
            c = costs[int(item_of[arc])]
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
        out: list[list[int]] = [[0] for _ in self.tables.widths]
        for f in self.fillings:
            out[self._wide(f)].append(f.used)
        return [np.unique(np.array(u, dtype=np.int64)) for u in out]

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
            costs[mine] = np.minimum(costs[mine], more - self._rest_worth(width, heights[mine], steps[mine]))
        self._lane_costs(costs, items)
        return dict(zip(items.tolist(), costs.tolist(), strict=True))

    def _rest_worth(self, width: int, heights: Ints, steps: Ints) -> Values:
        """Return what is left beside pieces ripped from a board's full width is worth."""
        rows = np.searchsorted(self.tables.heights, width - heights - self.trim, side="right") - 1
        return np.where(rows >= 0, self.tables.lane[1, np.maximum(rows, 0), steps], 0.0)

    def _lane_costs(self, costs: Values, items: Ints) -> None:
        """Lower `costs` where a space beside ripped pieces serves."""
        pricer = self.pricer
        ripped = np.flatnonzero(pricer.edges[items] < 2)
        if not len(ripped):
            return
        for f in self.fillings:
            if not f.sections:
                continue
            for space in f.spaces(self.trim):
                fits = ripped[
                    (pricer.heights[items[ripped]] <= space.height)
                    & (pricer.steps[items[ripped]] <= space.left)
                ]
                if not space.edge:
                    fits = fits[pricer.edges[items[fits]] == 0]
                if len(fits):
                    costs[fits] = np.minimum(costs[fits], self._space_costs(space, items[fits]))

    def _space_costs(self, space: Space, items: Ints) -> Values:
        tables, steps = self.tables, self.pricer.steps[items]
        row = tables.lane_row(space.height)
        if row < 0:
            return np.zeros(len(items))
        before = tables.lane[int(space.edge), row, space.left]
        if space.lane >= 0:
            return np.asarray(before - tables.lane[int(space.edge), row, space.left - steps])
        own = np.maximum(np.searchsorted(tables.heights, self.pricer.heights[items], side="right") - 1, 0)
        behind = tables.lane[1, own, space.left - steps]
        rest = (
            np.searchsorted(
                tables.heights, space.height - self.pricer.heights[items] - self.trim, side="right"
            )
            - 1
        )
        beside = np.where(rest >= 0, tables.lane[0, np.maximum(rest, 0), space.left], 0.0)
        return np.asarray(before - behind - beside)

    def place(self, piece: Piece) -> None:
        """Place one piece where it costs least."""
        height, edges, _ = piece.item
        best, at, inside = self._new_board(piece), -1, None
        rest = {
            w: float(self._rest_worth(w, np.array([height]), np.array([piece.steps]))[0])
            for w in self.tables.widths
        }
        for i, f in enumerate(self.fillings):
            if (f.width == height) if edges == 2 else (f.width >= height):
                strip, used = self.tables.strip[self._wide(f)], f.used
                if used + piece.steps < len(strip):
                    cost = float(strip[used + piece.steps] - strip[used]) - rest[f.width]
                    if cost < best[0]:
                        best, at, inside = (cost, f.width), i, None
            if edges == 2 or not f.sections:
                continue
            for space in f.spaces(self.trim):
                if height <= space.height and piece.steps <= space.left and (space.edge or not edges):
                    cost = self._space_cost(space, piece)
                    if cost < best[0]:
                        best, at, inside = (cost, f.width), i, space
        if at < 0:
            self.fillings.append(Filling(best[1]).with_full(piece))
        elif inside is None:
            self.fillings[at] = self.fillings[at].with_full(piece)
        else:
            self.fillings[at] = self.fillings[at].with_in(piece, inside)

    def _space_cost(self, space: Space, piece: Piece) -> float:
        return float(self._space_costs(space, np.array([self.network.place[piece.item]]))[0])

    def _new_board(self, piece: Piece) -> tuple[float, int]:
        height, edges, _ = piece.item
        options = []
        for k, width in enumerate(self.tables.widths):
            strip = self.tables.strip[k]
            if ((width == height) if edges == 2 else (width >= height)) and piece.steps < len(strip):
                rest = float(self._rest_worth(width, np.array([height]), np.array([piece.steps]))[0])
                options.append((float(strip[piece.steps]) - rest, width))
        return min(options)


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
