"""When each task can run at the earliest and at the latest, if nothing else were in its way."""

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.arrays import LEAST, MOST, PLACE, ClassArrays

__all__ = ["Windows", "pace_of"]

Ints = NDArray[np.int64]


def pace_of(a: ClassArrays, present: NDArray[np.int32]) -> Ints:
    """Return the most student-minutes each task can take up in each period; 0 where it cannot run.

    Bounded by its crew, the place, the students who may do it and are there, guests, weather and begin.
    """
    able = a.may.astype(np.int64) @ present.T.astype(np.int64)
    crew = np.minimum(able, np.minimum(a.tasks[:, MOST], a.holds[a.tasks[:, PLACE]])[:, None])
    crew[able < a.tasks[:, LEAST][:, None]] = 0
    return np.asarray(crew * a.minutes[None, :] * a.open_in, dtype=np.int64)


class Windows:
    """First and last periods of each task by its own pace and its waits.

    Parameters
    ----------
    a : ClassArrays
    work : (t,) student-minutes
        What is left of it.
    pace : (t, p), of `pace_of`
    ended : (t,), optional
        The period in which a task ended that is over already, else -1.
    """

    def __init__(
        self, a: ClassArrays, work: NDArray[np.int32], pace: Ints, ended: NDArray[np.int32] | None = None
    ) -> None:
        self.a, self.work, self.pace = a, work.astype(np.int64), pace
        self.ended = np.full(len(work), -1) if ended is None else ended
        self.done = np.concatenate([np.zeros((len(work), 1), dtype=np.int64), pace.cumsum(axis=1)], axis=1)
        self.order = _in_order(a)
        self.first, self.earliest_end = self._forward()

    def _forward(self) -> tuple[Ints, Ints]:
        """Return the first period and the earliest last period of each task; the calendar's end if never."""
        count, periods = self.pace.shape
        first = np.zeros(count, dtype=np.int64)
        end = np.full(count, periods, dtype=np.int64)
        for task in self.order:
            over = int(self.ended[task])
            end[task] = over if over >= 0 else self._ends(task, int(first[task]))
            if end[task] < periods:
                for after, kind in self._waiting(task):
                    first[after] = max(first[after], self.a.ready_from[kind, end[task]])
            else:
                for after, _ in self._waiting(task):
                    first[after] = periods
        return first, end

    def _ends(self, task: int, begin: int) -> int:
        """Return the period in which the task ends when it begins in `begin` and goes at full pace."""
        periods = self.pace.shape[1]
        if begin >= periods:
            return int(periods)
        if int(self.work[task]) <= 0:
            open_ones = np.flatnonzero(self.a.open_in[task, begin:])
            return begin + int(open_ones[0]) if len(open_ones) else int(periods)
        goal = int(self.done[task, begin] + self.work[task])
        return int(np.searchsorted(self.done[task, 1:], goal))

    def latest(self, finish: int) -> Ints:
        """Return the last period each task may end in so that all is done before period `finish`.

        -1 where that cannot be.
        """
        count = len(self.work)
        last = np.full(count, finish - 1, dtype=np.int64)
        for task in reversed(self.order):
            for after, kind in self._waiting(task):
                if self.ended[after] >= 0:
                    continue
                begin = self._latest_begin(after, int(last[after]))
                allowed = np.flatnonzero(self.a.ready_from[kind] <= begin)
                last[task] = min(last[task], allowed[-1] if len(allowed) and begin >= 0 else -1)
        return last

    def _latest_begin(self, task: int, end: int) -> int:
        if end < 0 or self.work[task] <= 0:
            return end
        goal = self.done[task, end + 1] - self.work[task]
        return int(np.searchsorted(self.done[task], goal, side="right")) - 1 if goal >= 0 else -1

    def _waiting(self, task: int) -> list[tuple[int, int]]:
        span = slice(self.a.waiting_at[task], self.a.waiting_at[task + 1])
        return list(zip(self.a.waiting[span].tolist(), self.a.waiting_kind[span].tolist(), strict=True))


def _in_order(a: ClassArrays) -> list[int]:
    waits = np.diff(a.waits_at).tolist()
    ready = [task for task, many in enumerate(waits) if not many]
    order = []
    while ready:
        task = ready.pop()
        order.append(task)
        for after in a.waiting[a.waiting_at[task] : a.waiting_at[task + 1]].tolist():
            waits[after] -= 1
            if not waits[after]:
                ready.append(after)
    return order
