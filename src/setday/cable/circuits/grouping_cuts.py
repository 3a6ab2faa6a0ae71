"""A stronger length that no division over circuits can beat: a linear program with what circuits carry."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog
from scipy.sparse import csr_array

from setday.cable.circuits.grouping import GroupingProblem

__all__ = ["cut_bound_ft"]

_PLAY = 1e-4
_ROUNDS = 12
_AT_ONCE = 60
"""Rows added in one round [count]; our own."""
_SAFE = 1e-5
"""Taken off for what the program rounds, relative."""

Array = NDArray[np.float64]


@dataclass(slots=True)
class _Program:
    """The program so far: how much of each cable is pulled, and the rows that bound it."""

    problem: GroupingProblem
    pairs: list[tuple[int, int]] = field(init=False)
    rows: list[Array] = field(default_factory=list)
    limits: list[float] = field(default_factory=list)
    known: set[frozenset[int]] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.pairs = list(combinations(range(len(self.problem.names)), 2))

    def most_within(self, group: frozenset[int]) -> int:
        """Return how many cables may lie between nodes of a group.

        Each circuit's part of the group is a forest, and so many circuits at least carry its load.
        """
        load = sum(self.problem.loads[node] for node in group)
        return len(group) - max(1, -(-load // self.problem.most_va))

    def solve(self) -> tuple[float, Array]:
        """Return the length, and how much of the cable between each two nodes is pulled."""
        problem = self.problem
        count, pairs = len(problem.names), len(self.pairs)
        cost = [problem.between[a][b] for a, b in self.pairs] + list(problem.from_panel)
        both = np.zeros((2, pairs + count))
        both[0, :pairs] = both[1, pairs:] = 1
        found = linprog(
            cost,
            A_ub=csr_array(np.array(self.rows)) if self.rows else None,
            b_ub=self.limits or None,
            A_eq=both,
            b_eq=[count - problem.circuits, problem.circuits],
            bounds=(0, 1),
            method="highs",
        )
        if not found.success:
            return 0.0, np.zeros((count, count))
        pulled = np.zeros((count, count))
        for (a, b), share in zip(self.pairs, found.x, strict=False):
            pulled[a, b] = pulled[b, a] = share
        return float(found.fun), pulled

    def tighten(self, pulled: Array) -> bool:
        """Add rows for groups with more cable inside than any division has; False where none is found."""
        broken = sorted(
            {
                (self.most_within(group) - _inside(group, pulled), tuple(sorted(group)))
                for group in _grown(pulled)
                if group not in self.known
            }
        )
        broken = [each for each in broken if each[0] < -_PLAY][:_AT_ONCE]
        for _, nodes in broken:
            group = frozenset(nodes)
            row = np.zeros(len(self.pairs) + len(self.problem.names))
            row[[n for n, (a, b) in enumerate(self.pairs) if a in group and b in group]] = 1
            self.known.add(group)
            self.rows.append(row)
            self.limits.append(float(self.most_within(group)))
        return bool(broken)


def _inside(group: frozenset[int], pulled: Array) -> float:
    nodes = sorted(group)
    return float(pulled[np.ix_(nodes, nodes)].sum() / 2)


def _grown(pulled: Array) -> Iterator[frozenset[int]]:
    """Yield groups grown from each node by whatever has most cable to them."""
    for start in range(len(pulled)):
        group = [start]
        towards = pulled[start].copy()
        towards[start] = -1.0
        while len(group) < len(pulled):
            nearest = int(np.argmax(towards))
            if towards[nearest] <= _PLAY:
                break
            group.append(nearest)
            towards += pulled[nearest]
            towards[group] = -1.0
            yield frozenset(group)


def cut_bound_ft(problem: GroupingProblem) -> float:
    """Return the optimum of a linear program that every division obeys [ft].

    Cables may be pulled in part; there are as many as nodes, as many home runs as circuits, and within
    each group of nodes never more than a forest of so many trees as circuits its load needs.  Rows for
    groups are added as long as groups are found that break one.  Every optimum on the way is a bound.

    Parameters
    ----------
    problem : GroupingProblem
    """
    program = _Program(problem=problem)
    best = 0.0
    for _ in range(_ROUNDS):
        length, pulled = program.solve()
        best = max(best, length * (1 - _SAFE))
        if not program.tighten(pulled):
            break
    return best
