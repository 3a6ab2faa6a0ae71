"""The rows of many surfaces laid flat in arrays, and the cheapest way through them at given prices."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setday.boards.layout.rows import Arc, Face, Item, Node, Row, clashes
from setday.boards.problem import Rows

__all__ = ["Network", "Way"]

Ints = NDArray[np.int64]
Values = NDArray[np.float64]
FAR = float("inf")


@dataclass(frozen=True, slots=True)
class Way:
    """One way to cover every surface: the rows taken and the pieces of each, as places in the network."""

    rows: tuple[int, ...]
    arcs: tuple[int, ...]


class Network:
    """All rows of `faces`, with the items their pieces ask for.

    Parameters
    ----------
    faces : list of Face
    links : list of (int, int)
        Pairs of faces (lower layer, upper layer) whose joints keep apart.
    """

    def __init__(
        self,
        faces: list[Face],
        *,
        links: list[tuple[int, int]] | None = None,
    ) -> None:
        self.faces = faces
        self.rows: list[Row] = [r for f in faces for r in f.rows]
        self.row_face = np.array([i for i, f in enumerate(faces) for _ in f.rows], dtype=np.int64)
        self.arcs: list[Arc] = [a for r in self.rows for a in r.arcs]
        self.arc_row = np.array([i for i, r in enumerate(self.rows) for _ in r.arcs], dtype=np.int64)
        sizes = [len(r.nodes) for r in self.rows]
        self.first = np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64)
        base = self.first[self.arc_row] if self.arcs else np.zeros(0, dtype=np.int64)
        self.tail = base + np.array([a.tail for a in self.arcs], dtype=np.int64)
        self.head = base + np.array([a.head for a in self.arcs], dtype=np.int64)
        self.node_row = np.repeat(np.arange(len(self.rows)), sizes)
        self.joint = np.array([n.joint for r in self.rows for n in r.nodes], dtype=np.int64)
        self.items: list[Item] = sorted({a.item for a in self.arcs})
        self.place = {item: i for i, item in enumerate(self.items)}
        self.arc_item = np.array([self.place[a.item] for a in self.arcs], dtype=np.int64)
        self.links = links or []
        self._order = np.lexsort((self.head, self.tail))
        self._steps = [(int(a), int(self.tail[a]), int(self.head[a])) for a in self._order]
        self._face_rows = self._rows_by_face()

    def _rows_by_face(self) -> list[list[int]]:
        out: list[list[int]] = [[] for _ in self.faces]
        for i, f in enumerate(self.row_face):
            out[int(f)].append(i)
        return out

    def face_rows(self, face: int) -> list[int]:
        """Return the rows of one face."""
        return self._face_rows[face]

    def row_of(self, node: int) -> int:
        """Return the row a node belongs to."""
        return int(np.searchsorted(self.first, node, side="right")) - 1

    def node(self, node: int) -> Node:
        """Return a node."""
        row = self.row_of(node)
        return self.rows[row].nodes[node - int(self.first[row])]

    def unbroken(self, first: int, last: int) -> bool:
        """Return whether every node from `first` to `last` of a row is a joint: no opening between them."""
        return bool((self.joint[first : last + 1] > 0).all())

    def neighbours(self) -> list[tuple[int, int]]:
        """Return the pairs of rows (lower, upper) that meet along an edge."""
        out = []
        for mine in self._face_rows:
            low: dict[tuple[Rows, int], list[int]] = {}
            for r in mine:
                low.setdefault((self.rows[r].rows, self.rows[r].low), []).append(r)
            out += [(r, q) for r in mine for q in low.get((self.rows[r].rows, self.rows[r].high), ())]
        return out

    def layered(self) -> list[tuple[int, int]]:
        """Return the pairs of rows of two layers that lie over each other."""
        return [
            (r, q)
            for a, b in self.links
            for r in self._face_rows[a]
            for q in self._face_rows[b]
            if self.rows[r].rows == self.rows[q].rows
            and self.rows[r].low < self.rows[q].high
            and self.rows[q].low < self.rows[r].high
        ]

    def clash_pairs(self, lower: int, upper: int) -> list[tuple[int, int]]:
        """Return the joints (as places in the network) of two rows that stand too close."""
        stagger = self.faces[int(self.row_face[upper])].ease.stagger
        layers = self.row_face[lower] != self.row_face[upper]
        found = clashes(self.rows[lower], self.rows[upper], stagger, layers=bool(layers))
        return [(int(self.first[lower]) + i, int(self.first[upper]) + j) for i, j in found]

    def cheapest(self, costs: Values) -> tuple[Values, Way]:
        """Return the cheapest way through every face when every piece has a cost.

        Joints of neighbouring rows are not kept apart here; a caller prices them into `costs`.

        Parameters
        ----------
        costs : array
            Cost of every arc.

        Returns
        -------
        tuple
            Cost per face, and the way.
        """
        dist, back = self._row_paths(costs.tolist())
        totals = np.zeros(len(self.faces))
        rows: list[int] = []
        for f in range(len(self.faces)):
            totals[f], taken = self._divide(f, dist)
            rows += taken
        return totals, Way(tuple(rows), tuple(a for r in rows for a in self._trace(r, back)))

    def slack(self, costs: Values) -> Values:
        """Return how much less every piece might cost while the cheapest way through its face costs as much.

        All pieces may cost so much less at once: it is their slack against shortest paths from both ends.

        Parameters
        ----------
        costs : array
            Cost of every arc.
        """
        ahead = np.array(self._row_paths(costs.tolist())[0])
        behind = self._to_the_end(costs.tolist())
        target = self._targets(ahead)
        limit = target[self.node_row]
        low = np.minimum(ahead, limit)
        high = np.maximum(limit - behind, 0.0)
        place = (low + high) / 2
        return np.asarray(costs + place[self.tail] - place[self.head])

    def _to_the_end(self, costs: list[float]) -> Values:
        """Return the cost from every node to the end of its row."""
        dist = [FAR] * int(self.first[-1])
        for end in (self.first[1:] - 1).tolist():
            dist[end] = 0.0
        for arc, tail, head in reversed(self._steps):
            d = dist[head] + costs[arc]
            dist[tail] = min(dist[tail], d)
        return np.array(dist)

    def _targets(self, ahead: Values) -> Values:
        """Return what every row may cost at least for the cheapest division of its face to stay as it is."""
        whole = ahead[self.first[1:] - 1]
        out = whole.copy()
        for f in range(len(self.faces)):
            up = self._levels(f, whole)
            down = self._levels(f, whole, downward=True)
            best = min(up[k] for k in up if k[1] == self.faces[f].top(k[0]))
            for r in self._face_rows[f]:
                row = self.rows[r]
                low, high = (row.rows, row.low), (row.rows, row.high)
                low_at = (min(up[low], best) + max(best - down[low], 0.0)) / 2
                high_at = (min(up[high], best) + max(best - down[high], 0.0)) / 2
                out[r] = max(high_at - low_at, 0.0)
        return out

    def _levels(self, face: int, whole: Values, *, downward: bool = False) -> dict[tuple[Rows, int], float]:
        """Return the cost of reaching every level of a face from its lower edge, or from its upper."""
        out: dict[tuple[Rows, int], float] = {}
        rows = sorted(
            self._face_rows[face], key=lambda r: -self.rows[r].high if downward else self.rows[r].low
        )
        for r in rows:
            row = self.rows[r]
            near, far = (row.high, row.low) if downward else (row.low, row.high)
            start = 0.0 if near == (self.faces[face].top(row.rows) if downward else 0) else FAR
            before = out.setdefault((row.rows, near), start)
            out[row.rows, far] = min(out.get((row.rows, far), FAR), before + float(whole[r]))
        return out

    def _row_paths(self, costs: list[float]) -> tuple[list[float], list[int]]:
        dist = [FAR] * int(self.first[-1])
        back = [-1] * len(dist)
        for start in self.first[:-1].tolist():
            dist[start] = 0.0
        for arc, tail, head in self._steps:
            d = dist[tail] + costs[arc]
            if d < dist[head]:
                dist[head] = d
                back[head] = arc
        return dist, back

    def _divide(self, face: int, dist: list[float]) -> tuple[float, list[int]]:
        """Return the cheapest division of a face into rows, given the cost of every row."""
        best: dict[tuple[Rows, int], tuple[float, int]] = {}
        mine = sorted(self._face_rows[face], key=lambda r: self.rows[r].low)
        ends = []
        for r in mine:
            row = self.rows[r]
            below = (0.0, -1) if row.low == 0 else best.get((row.rows, row.low), (FAR, -1))
            cost = below[0] + dist[int(self.first[r + 1]) - 1]
            if cost < best.get((row.rows, row.high), (FAR, -1))[0]:
                best[row.rows, row.high] = (cost, r)
            if row.high == self.faces[face].top(row.rows):
                ends.append((row.rows, row.high))
        at = min(ends, key=lambda k: best.get(k, (FAR, -1))[0])
        total, taken = best[at][0], []
        while at[1] > 0:
            r = best[at][1]
            taken.append(r)
            at = (at[0], self.rows[r].low)
        return total, taken[::-1]

    def _trace(self, row: int, back: list[int]) -> list[int]:
        at, first = int(self.first[row + 1]) - 1, int(self.first[row])
        taken = []
        while at != first:
            arc = back[at]
            taken.append(arc)
            at = int(self.tail[arc])
        return taken[::-1]
