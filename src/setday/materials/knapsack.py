"""The most worth that fits on a stick: exact, in whole numbers, for every stick length at once."""

from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

__all__ = ["Knapsack"]

Numbers = npt.NDArray[np.int64]


class Knapsack:
    """Pieces of limited number to fill a stick with.

    Parameters
    ----------
    sizes, limits : sequence of int
        Size of each kind of piece, and how many there are.
    capacity : int
        The largest stick asked about.
    """

    def __init__(self, sizes: Sequence[int], limits: Sequence[int], capacity: int) -> None:
        self.sizes = tuple(sizes)
        self.limits = tuple(min(limit, capacity // size) for size, limit in zip(sizes, limits, strict=True))
        self.capacity = capacity
        self.best: Numbers = np.zeros(capacity + 1, dtype=np.int64)
        self._spare: Numbers = np.zeros(capacity + 1, dtype=np.int64)
        self._taken: list[tuple[int, int, npt.NDArray[np.bool_]]] = []

    def fill(self, worth: Sequence[int]) -> None:
        """Work out `best`: the most worth within each capacity, by dynamic programming.

        Parameters
        ----------
        worth : sequence of int
            Worth of each kind of piece; pieces worth nothing are left out.
        """
        self.best[:] = 0
        self._taken = []
        for kind, value in enumerate(worth):
            if value > 0:
                self._add(kind, value)

    def pattern(self, capacity: int) -> tuple[int, ...]:
        """Return how many of each kind the most worth within `capacity` takes."""
        counts = [0] * len(self.sizes)
        left = capacity
        for kind, bundle, taken in reversed(self._taken):
            shift = bundle * self.sizes[kind]
            if left >= shift and taken[left - shift]:
                counts[kind] += bundle
                left -= shift
        return tuple(counts)

    def less(self, capacity: int) -> int:
        """Return the largest capacity that holds less worth than `capacity` does; below nothing for none."""
        return int(np.searchsorted(self.best, self.best[capacity])) - 1

    def tails(self, worth: Sequence[int]) -> Numbers:
        """Return a table: row k is the most worth within each capacity with kinds k and after only."""
        table: Numbers = np.zeros((len(self.sizes) + 1, self.capacity + 1), dtype=np.int64)
        self.best[:] = 0
        self._taken = []
        for kind in reversed(range(len(self.sizes))):
            if worth[kind] > 0:
                self._add(kind, worth[kind])
            table[kind] = self.best
        return table

    def _add(self, kind: int, value: int) -> None:
        for bundle in _bundles(self.limits[kind]):
            shift = bundle * self.sizes[kind]
            if shift > self.capacity:
                return
            better, room = self._spare[shift:], self.best[shift:]
            np.add(self.best[:-shift], bundle * value, out=better)
            self._taken.append((kind, bundle, better > room))
            np.maximum(room, better, out=room)


def _bundles(limit: int) -> Iterator[int]:
    """Split a count into bundles of 1, 2, 4 ... of which any smaller count can be made."""
    bundle = 1
    while limit > 0:
        take = min(bundle, limit)
        yield take
        limit -= take
        bundle *= 2
