"""The best possible hunt: the decision tree with the fewest tests on average, for small sets."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from setday.switching.answers import Codes
from setday.switching.asking import ballot

__all__ = ["BestTree", "best_tree"]

_AT_ONCE = 12
_LARGEST = 100
"""More groups than this are not tried exactly."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BestTree:
    """What is proven of the mean number of tests.

    Parameters
    ----------
    least : float
        No order of tests needs fewer on average.
    exact : bool
        True when a decision tree with that mean was found.
    """

    least: float
    exact: bool


class _TooMuch(Exception):
    """The search would take too long."""


def best_tree(codes: Codes, *, most_steps: int = 150_000) -> BestTree:
    """Return the least mean number of tests that tells all rows apart.

    Every subset of rows that can be left is weighed once; a subset is passed over when even tests that
    divide it perfectly would need too many.  Where that takes more than `most_steps`, the bound by perfect
    division is returned.

    Parameters
    ----------
    codes : int array
        A row for each group that can be told apart, a column for each test.
    most_steps : int
    """
    rows = len(codes)
    if rows < 2:
        return BestTree(least=0.0, exact=True)
    vote = ballot(codes)
    search = _Search(vote.codes, most_steps)
    whole = (1 << rows) - 1
    least = search.bound_ahead(whole) if rows <= _LARGEST else int(search.floor[rows])
    try:
        if rows <= _LARGEST:
            return BestTree(least=search.total(whole) / rows, exact=True)
    except _TooMuch:
        pass
    return BestTree(least=least / rows, exact=False)


class _Search:
    """Total number of tests over all rows of a subset, the least of any tree.

    A subset is a mask of rows.  `floor` is the total if every test divided evenly; `_near` looks one test
    ahead, and `total` is the least itself.
    """

    def __init__(self, codes: Codes, most_steps: int) -> None:
        rows, _ = codes.shape
        self.rows = rows
        self.steps = most_steps
        answers = int(codes.max()) + 1
        hot = np.stack([codes == answer for answer in range(answers)], axis=1)
        self.hot = hot.reshape(rows, -1).astype(np.float32)
        self.shape = (answers, codes.shape[1])
        self.masks = [
            [sum(1 << int(row) for row in np.flatnonzero(column == answer)) for answer in range(answers)]
            for column in codes.T
        ]
        self.branches = sorted((int(column.max()) + 1 for column in codes.T), reverse=True)
        self.floor = np.array([self._even(count) for count in range(rows + 1)])
        self.near: dict[int, int] = {}
        self.known: dict[int, int] = {}

    def _even(self, count: int) -> int:
        """Return the least total for so many rows if every test divided them as evenly as it could.

        No path uses a test twice, so after k tests at most the product of the k largest numbers of answers
        can be told apart; Kraft's inequality then says how many rows can be done one test early.
        """
        if count < 2:
            return 0
        depth, room, before = 0, 1, 1
        while room < count:
            before, room, depth = room, room * self.branches[min(depth, len(self.branches) - 1)], depth + 1
        early = (room - count) * before // (room - before)
        return count * depth - early

    def _floors(self, subset: int) -> npt.NDArray[np.int64]:
        """Return for each test what the subset needs at least with it first."""
        self.steps -= 1
        if self.steps < 0:
            raise _TooMuch
        member = np.array([subset >> row & 1 for row in range(self.rows)], dtype=np.float32)
        sizes = (member @ self.hot).reshape(self.shape).astype(np.int64)
        count = subset.bit_count()
        least = count + self.floor[sizes].sum(axis=0)
        return np.asarray(np.where(sizes.max(axis=0) == count, count * count + 1, least))

    def bound(self, subset: int) -> int:
        """Return a bound of the least total, one test ahead."""
        count = subset.bit_count()
        if count <= 2:
            return (0, 0, 2)[count]
        if subset in self.known:
            return self.known[subset]
        if subset not in self.near:
            self.near[subset] = int(self._floors(subset).min())
        return self.near[subset]

    def bound_ahead(self, subset: int) -> int:
        """Return a bound of the least total, two tests ahead."""
        best = subset.bit_count() ** 2
        floors = self._floors(subset)
        for column in np.argsort(floors, kind="stable"):
            if floors[column] >= best:
                break
            best = min(best, self._with(subset, int(column)))
        return best

    def _with(self, subset: int, column: int) -> int:
        parts = [part for mask in self.masks[column] if (part := mask & subset)]
        return subset.bit_count() + sum(self.bound(part) for part in parts)

    def total(self, subset: int) -> int:
        """Return the least total."""
        count = subset.bit_count()
        if count <= 2:
            return (0, 0, 2)[count]
        if subset in self.known:
            return self.known[subset]
        best = count * count
        floors = self._floors(subset)
        order = np.argsort(floors, kind="stable")
        seen: set[tuple[int, ...]] = set()
        for start in range(0, len(order), _AT_ONCE):
            batch = order[start : start + _AT_ONCE]
            if floors[batch[0]] >= best:
                break
            for low, parts in self._promising(subset, batch, floors, best, seen):
                if low >= best:
                    break
                best = min(best, self._tree(parts, count, best))
        self.known[subset] = best
        return best

    def _promising(
        self,
        subset: int,
        columns: npt.NDArray[np.int64],
        floors: npt.NDArray[np.int64],
        best: int,
        seen: set[tuple[int, ...]],
    ) -> list[tuple[int, tuple[int, ...]]]:
        """Return the new divisions of some tests with a bound each, the most promising first."""
        found = []
        for column in columns:
            parts = tuple(sorted(part for mask in self.masks[column] if (part := mask & subset)))
            if floors[column] < best and parts not in seen:
                seen.add(parts)
                found.append((self._with(subset, int(column)), parts))
        return sorted(found)

    def _tree(self, parts: tuple[int, ...], count: int, best: int) -> int:
        """Return the least total with this division first, or `best` when it cannot be below it."""
        total, waiting = count, sum(self.bound(part) for part in parts)
        for part in sorted(parts, key=int.bit_count):
            waiting -= self.bound(part)
            total += self.total(part)
            if total + waiting >= best:
                return best
        return total
