"""What crews are possible and which were planned, without names: the frame of a search for crews."""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.arrays import FILLER, LEAST, ClassArrays
from setday.timetable.classwork.windows import Windows, pace_of
from setday.timetable.repair.choosing import Kept

__all__ = ["Crews"]

Ints = NDArray[np.int32]

_SETS_MOST = 64
"""Sets of sign-offs looked at together."""


class Crews:
    """The crews of one repair.

    Parameters
    ----------
    a : ClassArrays
        Of what is left.
    work : (t,) student-minutes left
    k : Kept
    near : int
        First period that is not near.
    """

    def __init__(self, a: ClassArrays, work: Ints, k: Kept, near: int) -> None:
        self.a, self.work, self.k, self.near = a, work, k, near
        pace = pace_of(a, k.present)
        self.most = pace // np.maximum(1, a.minutes)[None, :]
        self.windows = Windows(a, work, pace)
        self.tasks = [t for t in range(len(work)) if not a.tasks[t, FILLER] and work[t] > 0]
        self.marks = [t for t in range(len(work)) if not a.tasks[t, FILLER] and work[t] <= 0]
        self.fillers = [t for t in range(len(work)) if a.tasks[t, FILLER]]
        self.was = self._was()

    def _was(self) -> Ints:
        """Return how many of those who are there were planned, by period and task."""
        was = np.zeros((len(self.k.present), len(self.work)), dtype=np.int32)
        for period, row in enumerate(self.k.old):
            for student, task in enumerate(row):
                if task >= 0 and self.k.present[period, student]:
                    was[period, task] += 1
        return was

    @cached_property
    def sets(self) -> list[tuple[NDArray[np.bool_], list[int]]]:
        """Sets of students such that some tasks can only be done by them, with those tasks."""
        kinds = {tuple(self.a.may[t].tolist()) for t in self.tasks}
        found = set(kinds)
        for kind in sorted(kinds):
            if len(found) > _SETS_MOST:
                break
            found |= {tuple(max(pair) for pair in zip(kind, other, strict=True)) for other in found}
        everybody = (1,) * self.a.may.shape[1]
        return [
            (np.array(able, dtype=bool), [t for t in self.tasks if (self.a.may[t] <= np.array(able)).all()])
            for able in sorted(found | {everybody})
        ]

    def forced(self) -> int:
        """Return how many tasks cannot begin when planned, whatever is planned now."""
        waiting = [t for t in self.tasks if not self.k.runs[t] and self.k.begins[t] < len(self.k.present)]
        return sum(not self.can(t, int(self.k.begins[t])) for t in waiting)

    def can(self, task: int, period: int) -> bool:
        """Return whether a task can begin in a period for all that is known of it and what it waits for."""
        least = int(self.a.tasks[task, LEAST])
        return bool(self.windows.first[task] <= period and self.most[task, period] >= least)
