"""Names for the crews of a repair: in every period those who were planned there, then those there before.

A period at a time, the cheapest assignment of students to places on crews.  Students who are to be kept apart
are tried one here, the other there.
"""

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.arrays import FILLER, LEAST, MOST, PLACE, ClassArrays
from setday.timetable.repair.choosing import NOBODY, Kept

__all__ = ["crews_of", "named", "trimmed"]

Ints = NDArray[np.int32]

_NEVER, _FILLED, _IDLE = 10_000_000, 100_000, 20_000
"""Cost of one who may not be there; worth of a place on a crew that is filled; cost of nothing to do."""
_NEAR, _FAR, _AFRESH = 1000, 100, 60
"""Cost of another place than planned, near and far, and of a task the student was not on before."""
_APART_MOST = 200
"""Assignments tried in a period until all who are to be kept apart are."""


def crews_of(on: Ints, tasks: int) -> Ints:
    """Return how many are on each task by period; `on` has the task or -1 by period and student."""
    crews = np.zeros((len(on), tasks), dtype=np.int32)
    periods, students = np.nonzero(on >= 0)
    np.add.at(crews, (periods, on[periods, students]), 1)
    return crews


def trimmed(crews: Ints, a: ClassArrays, work: Ints, k: Kept) -> Ints:
    """Return crews without those there for nothing: after the work is done, or more than it needs."""
    trim = crews.copy()
    for task in range(len(work)):
        left = int(work[task])
        if a.tasks[task, FILLER]:
            trim[:, task] = 0
            continue
        for period in np.flatnonzero(trim[:, task]):
            needed = max(int(a.tasks[task, LEAST]), -(-left // int(a.minutes[period]))) if left > 0 else 0
            if not k.called[period, task]:
                trim[period, task] = min(needed, int(trim[period, task]))
            left -= int(trim[period, task]) * int(a.minutes[period])
    return trim


def named(crews: Ints, a: ClassArrays, k: Kept, near: int) -> Ints | None:
    """Return who is on which task, a task or -1 by period and student; None where names do not fit.

    Parameters
    ----------
    crews : (p, t) how many are on each task of the house
    a : ClassArrays
    k : Kept
    near : int
        First period that is not near.
    """
    last, on = k.last.copy(), np.full_like(k.old, NOBODY)
    used = np.flatnonzero(crews.any(axis=1))
    for period in range(int(used[-1]) + 1 if len(used) else 0):
        row = _Row(period, crews[period], a, k, near, last).placed()
        if row is None:
            return None
        on[period] = row
        last = np.where(row >= 0, row, last)
    return on


class _Row:
    """One period to be filled with names."""

    def __init__(self, period: int, crew: Ints, a: ClassArrays, k: Kept, near: int, last: Ints) -> None:
        self.a, self.k, self.last, self.period = a, k, last, period
        self.here = np.flatnonzero(k.present[period])
        self.change = _NEAR if period < near else _FAR
        house = [int(t) for t in np.flatnonzero(crew) if not a.tasks[t, FILLER]]
        self.slots = np.array(
            [t for t in house for _ in range(crew[t])]
            + self._benches(house, crew)
            + [NOBODY] * len(self.here)
        )
        self.house = int(sum(crew[t] for t in house))
        self.tries = _APART_MOST

    def _benches(self, house: list[int], crew: Ints) -> list[int]:
        """Return the places on benches: those where somebody was planned first, as many as there is room."""
        a = self.a
        found: list[int] = []
        room = {int(place): int(a.holds[place]) for place in a.tasks[:, PLACE]}
        for task in house:
            room[int(a.tasks[task, PLACE])] -= int(crew[task])
        benches = [int(t) for t in np.flatnonzero(a.tasks[:, FILLER])]
        planned = self.k.old[self.period]
        for asked in (True, False):
            for task in benches:
                place = int(a.tasks[task, PLACE])
                wanted = int((planned == task).sum()) if asked else len(self.here)
                many = min(wanted, room[place], int(a.tasks[task, MOST]) - found.count(task))
                found += [task] * max(0, many)
                room[place] -= max(0, many)
        return found

    def placed(self) -> Ints | None:
        """Return the row, or None."""
        return self._apart(self._costs())

    def _costs(self) -> NDArray[np.int64]:
        students = self.here[:, None]
        slots = self.slots[None, :]
        planned, pinned = self.k.old[self.period][students], self.k.pinned[self.period][students]
        cost = np.where(planned == slots, 0, self.change).astype(np.int64)
        cost += np.where((self.last[students] == slots) | (planned == slots), 0, _AFRESH)
        cost += np.where(slots == NOBODY, _IDLE, self.a.scarce[students] // 4)
        allowed = (slots == NOBODY) | (self.a.may[slots, students] > 0)
        cost[~allowed | ((pinned >= 0) & (pinned != slots))] = _NEVER
        cost[:, : self.house] -= _FILLED
        return cost

    def _apart(self, cost: NDArray[np.int64]) -> Ints | None:
        """Return the cheapest row in which nobody is on a crew with one to be kept apart from."""
        from scipy.optimize import linear_sum_assignment  # loads slowly

        self.tries -= 1
        students, slots = linear_sum_assignment(cost)
        if self.tries < 0 or (slots < self.house).sum() < self.house:
            return None
        if (cost[students, slots] > _NEVER // 2).any():
            return None
        row = np.full(self.k.old.shape[1], NOBODY, dtype=np.int32)
        row[self.here[students]] = self.slots[slots]
        pair = self._foes(row)
        for one in pair:
            without = cost.copy()
            without[self.here == one, self.slots == row[one]] = _NEVER
            found = self._apart(without)
            if found is not None:
                return found
        return None if pair else row

    def _foes(self, row: Ints) -> tuple[int, ...]:
        """Return two who are on one crew of the house and are to be kept apart, or nobody."""
        for one in self.here:
            task = row[one]
            if task == NOBODY or self.a.tasks[task, FILLER]:
                continue
            for other in self.a.foes[one]:
                if other != NOBODY and row[other] == task:
                    return int(one), int(other)
        return ()
