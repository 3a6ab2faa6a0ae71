"""A quick bound on the finish: what has to be done between two periods against what can be.

For every pair of periods, the tasks that can neither begin before the first nor end after the second need
attention, places and students between them (P. Baptiste, C. Le Pape and W. Nuijten, Constraint-Based
Scheduling, 2001, call the reasoning energetic).
"""

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.arrays import ATTENTION, PLACE, ClassArrays
from setday.timetable.classwork.windows import Windows

__all__ = ["Energy"]

Ints = NDArray[np.int64]
Groups = list[tuple[NDArray[np.int32], set[int]]]


class Energy:
    """Needs and supplies of one class problem.

    Parameters
    ----------
    a : ClassArrays
    present : (p, s)
    windows : Windows
    tasks : list of int
        Those that have to be finished.
    groups : list
        Sets of students who may do a task, each with every task that only they may do.
    """

    def __init__(
        self,
        a: ClassArrays,
        present: NDArray[np.int32],
        windows: Windows,
        *,
        tasks: list[int],
        groups: Groups,
    ) -> None:
        self.windows = windows
        self.tasks = np.array([t for t in tasks if windows.work[t] > 0], dtype=np.int64)
        self.following, self.before = _open_ones(windows.pace[self.tasks] > 0)
        work, fastest = windows.work[self.tasks], np.maximum(windows.pace[self.tasks].max(axis=1), 1)
        minutes = a.minutes.astype(np.int64)
        runs = -(-work // fastest)
        self.kinds: list[tuple[Ints, Ints]] = [
            (runs * a.tasks[self.tasks, ATTENTION], a.attended.astype(np.int64))
        ]
        for place, holds in enumerate(a.holds):
            there = a.tasks[self.tasks, PLACE] == place
            self.kinds.append((work * there, holds * minutes))
        for able, members in groups:
            inside = np.isin(self.tasks, sorted(members))
            self.kinds.append((work * inside, present.astype(np.int64) @ able * minutes))

    def disproves(self, finish: int) -> bool:
        """Return True when the work cannot be done before period `finish`; False proves nothing."""
        if not len(self.tasks):
            return False
        first, last = self.windows.first[self.tasks], self.windows.latest(finish)[self.tasks]
        if (last < first).any() or (first >= finish).any():
            return True
        rows = np.arange(len(self.tasks))
        first, last = self.following[rows, first], self.before[rows, last]
        if (last < first).any():
            return True
        return any(self._overdrawn(first, last, need, supply, finish) for need, supply in self.kinds)

    @staticmethod
    def _overdrawn(first: Ints, last: Ints, need: Ints, supply: Ints, finish: int) -> bool:
        """Return whether somewhere tasks need more between a first and a last period than there is."""
        table = np.zeros((finish, finish), dtype=np.int64)
        np.add.at(table, (first, last), need)
        needed = table[::-1].cumsum(axis=0)[::-1].cumsum(axis=1)
        sums = np.concatenate([[0], supply[:finish].cumsum()])
        there = sums[None, 1:] - sums[:-1, None]
        return bool((np.triu(needed) > np.triu(there)).any())


def _open_ones(open_in: NDArray[np.bool_]) -> tuple[Ints, Ints]:
    """Return for each task and period the next period in which it can run, and the one before (or -1)."""
    periods = open_in.shape[1]
    numbers = np.arange(periods, dtype=np.int64)
    following = np.minimum.accumulate(np.where(open_in, numbers, periods)[:, ::-1], axis=1)[:, ::-1]
    return following, np.maximum.accumulate(np.where(open_in, numbers, -1), axis=1)
