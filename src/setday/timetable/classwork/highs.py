"""A proven bound on the finish: the work as a flow through the periods, by linear programming.

A finish is disproved when even a class that may split its time at will could not keep it: every task within
its window and its pace, places, attention and students (as a whole, and those who may do the task) not
overdrawn, and no task ahead of one it waits for.
"""

import math
from dataclasses import dataclass

import highspy
import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array

from setday.solving import QuietHighs, run_highs
from setday.timetable.classwork.arrays import ATTENTION, FILLER, PLACE, ClassArrays, GivenArrays
from setday.timetable.classwork.energy import Energy
from setday.timetable.classwork.rounding import wholes
from setday.timetable.classwork.windows import Windows, pace_of

__all__ = ["FlowBound"]


@dataclass(slots=True)
class _Rows:
    """Rows of a linear program, gathered entry by entry."""

    row: list[int]
    column: list[int]
    value: list[float]
    most: list[float]

    def add(self, entries: list[tuple[int, float]], most: float) -> None:
        number = len(self.most)
        for column, value in entries:
            self.row.append(number)
            self.column.append(column)
            self.value.append(value)
        self.most.append(most)


class FlowBound:
    """Disproves finishes of one class problem.

    Parameters
    ----------
    a : ClassArrays
    work : (t,) student-minutes
    given : GivenArrays
        Who is there; what happened counts as done.
    """

    def __init__(self, a: ClassArrays, work: NDArray[np.int32], given: GivenArrays) -> None:
        self.a, self.present = a, given.present
        self.work, ended = _left(a, work, given)
        pace = pace_of(a, given.present)
        pace[:, : given.since] = 0
        self.windows = Windows(a, self.work, pace, ended)
        self.tasks = [t for t in range(len(work)) if not a.tasks[t, FILLER]]
        self.groups = _groups(a, self.tasks)
        self.energy = Energy(a, given.present, self.windows, tasks=self.tasks, groups=self.groups)

    def longest_chain(self) -> int:
        """Return the finish by waits alone [period]."""
        return int(max((self.windows.earliest_end[t] for t in self.tasks), default=-1)) + 1

    def quick(self, most: int) -> int:
        """Return a finish that is not disproved by chains and energies; `most` at most [period]."""
        low = min(self.longest_chain(), most)
        while low < most:
            middle = (low + most) // 2
            if self.energy.disproves(middle):
                low = middle + 1
            else:
                most = middle
        return low

    def possible(self, finish: int, *, seconds: float = math.inf, whole: bool = False) -> bool:
        """Return False when no timetable can be done before period `finish`; True proves nothing.

        Nor is anything proven when `seconds` run out.  With `whole` students are whole as far as rounding
        tells; that takes two to three times as long.
        """
        last = self.windows.latest(finish)
        first = self.windows.first
        if any(last[t] < self.windows.earliest_end[t] for t in self.tasks):
            return False
        columns = self._columns(first, last)
        rows = _Rows([], [], [], [])
        self._whole(rows, columns)
        self._shared(rows, columns)
        self._watched(rows, columns)
        upper = [self._upper(columns), np.ones(len(columns))]
        done = columns
        if whole:
            done = {key: 2 * len(columns) + column for key, column in columns.items()}
            self._whole_students(rows, columns, done)
            upper.append(upper[0])
        self._in_turn(rows, done)
        return _feasible(rows, np.concatenate(upper), seconds)

    def _columns(self, first: NDArray[np.int64], last: NDArray[np.int64]) -> dict[tuple[int, int], int]:
        """Return a column for every task and period in which it can take up work."""
        found: dict[tuple[int, int], int] = {}
        for task in self.tasks:
            if self.work[task] > 0:
                for period in range(int(first[task]), int(last[task]) + 1):
                    if self.windows.pace[task, period]:
                        found[task, period] = len(found)
        return found

    def _upper(self, columns: dict[tuple[int, int], int]) -> NDArray[np.float64]:
        return np.array([self.windows.pace[key] for key in columns], dtype=np.float64)

    def _whole(self, rows: _Rows, columns: dict[tuple[int, int], int]) -> None:
        by_task: dict[int, list[tuple[int, float]]] = {}
        for (task, _), column in columns.items():
            by_task.setdefault(task, []).append((column, -1.0))
        for task in self.tasks:
            if self.work[task] > 0:
                rows.add(by_task.get(task, []), -float(self.work[task]))

    def _whole_students(
        self, rows: _Rows, columns: dict[tuple[int, int], int], done: dict[tuple[int, int], int]
    ) -> None:
        """Whole students give a task more than it takes; `done` has columns for what it takes of that."""
        by_task: dict[int, list[tuple[int, int]]] = {}
        for (task, period), column in columns.items():
            rows.add([(done[task, period], 1.0), (column, -1.0)], 0.0)
            by_task.setdefault(task, []).append((column, int(self.a.minutes[period])))
        for task, entries in by_task.items():
            beyond = 2 * len(columns)
            rows.add([(beyond + column, -1.0) for column, _ in entries], -float(self.work[task]))
            rows.add([(beyond + column, 1.0) for column, _ in entries], float(self.work[task]))
            for weights, least in wholes(int(self.work[task]), {length for _, length in entries}):
                rows.add([(column, -weights[length] / length) for column, length in entries], -float(least))

    def _shared(self, rows: _Rows, columns: dict[tuple[int, int], int]) -> None:
        by_period: dict[int, list[tuple[int, int]]] = {}
        for (task, period), column in columns.items():
            by_period.setdefault(period, []).append((task, column))
        for period, entries in by_period.items():
            minutes = int(self.a.minutes[period])
            here = self.present[period]
            for able, members in self.groups:
                inside = [(column, 1.0) for task, column in entries if task in members]
                if inside:
                    rows.add(inside, float((able * here).sum() * minutes))
            for place, holds in enumerate(self.a.holds):
                inside = [(column, 1.0) for task, column in entries if self.a.tasks[task, PLACE] == place]
                if inside:
                    rows.add(inside, float(holds * minutes))

    def _watched(self, rows: _Rows, columns: dict[tuple[int, int], int]) -> None:
        """Attention is taken by a task that runs, however small its crew; column n + i says i runs.

        A task runs at least as many periods as its work takes at full pace.
        """
        count = len(columns)
        by_task: dict[int, list[int]] = {}
        by_period: dict[int, list[tuple[int, float]]] = {}
        for (task, period), column in columns.items():
            rows.add([(column, 1.0), (count + column, -float(self.windows.pace[task, period]))], 0.0)
            by_task.setdefault(task, []).append(count + column)
            if self.a.tasks[task, ATTENTION]:
                entry = (count + column, float(self.a.tasks[task, ATTENTION]))
                by_period.setdefault(period, []).append(entry)
        for period, entries in by_period.items():
            rows.add(entries, float(self.a.attended[period]))
        for task, runs in by_task.items():
            fastest = int(self.windows.pace[task].max())
            rows.add([(column, -1.0) for column in runs], -float(-(-self.work[task] // fastest)))

    def _in_turn(self, rows: _Rows, columns: dict[tuple[int, int], int]) -> None:
        """No task is further by a period than one it waits for was when its waiting began."""
        by_task: dict[int, list[tuple[int, int]]] = {}
        for (task, period), column in columns.items():
            by_task.setdefault(task, []).append((period, column))
        for before in self.tasks:
            span = range(self.a.waiting_at[before], self.a.waiting_at[before + 1])
            for link in span:
                after, kind = int(self.a.waiting[link]), int(self.a.waiting_kind[link])
                if before in by_task and after in by_task:
                    self._in_turn_by(rows, by_task, before, after, self.a.ready_from[kind])

    def _in_turn_by(
        self,
        rows: _Rows,
        by_task: dict[int, list[tuple[int, int]]],
        before: int,
        after: int,
        ready: NDArray[np.int32],
    ) -> None:
        behind = [(column, 1.0 / self.work[after]) for _, column in by_task[after]]
        for index, (period, _) in enumerate(by_task[after]):
            ahead = [
                (column, -1.0 / self.work[before])
                for when, column in by_task[before]
                if ready[when] <= period
            ]
            if len(ahead) == len(by_task[before]):
                break
            rows.add(behind[: index + 1] + ahead, 0.0)


def _left(
    a: ClassArrays, work: NDArray[np.int32], given: GivenArrays
) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    """Return the work left of each task, and the period in which it ended or -1."""
    left, ended = work.copy(), np.full(len(work), -1, dtype=np.int32)
    for period, row in enumerate(given.asked[: given.since]):
        for task in row[row >= 0]:
            left[task] -= a.minutes[period]
            ended[task] = period
    ended[(left > 0) | (a.tasks[:, FILLER] > 0)] = -1
    return np.maximum(left, 0), ended


def _groups(a: ClassArrays, tasks: list[int]) -> list[tuple[NDArray[np.int32], set[int]]]:
    """Return the sets of students who may do a task, each with every task that only they may do."""
    kinds = {tuple(a.may[task].tolist()) for task in tasks} | {(1,) * a.may.shape[1]}
    found = []
    for kind in sorted(kinds):
        able = np.array(kind, dtype=np.int32)
        found.append((able, {task for task in tasks if (a.may[task] <= able).all()}))
    return found


def _feasible(rows: _Rows, upper: NDArray[np.float64], seconds: float) -> bool:
    highs = QuietHighs()
    matrix = coo_array((rows.value, (rows.row, rows.column)), shape=(len(rows.most), len(upper))).tocsc()
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(upper), len(rows.most)
    model.col_cost_ = np.zeros(len(upper))
    model.col_lower_, model.col_upper_ = np.zeros(len(upper)), upper
    model.row_lower_ = np.full(len(rows.most), -highspy.kHighsInf)
    model.row_upper_ = np.array(rows.most) + 1e-6
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_, model.a_matrix_.index_ = matrix.indptr, matrix.indices
    model.a_matrix_.value_ = matrix.data
    highs.passModel(model)
    answer = run_highs(highs, seconds=seconds)
    return not (answer.final and not answer.values)
