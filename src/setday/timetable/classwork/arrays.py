"""A class problem as flat arrays for the compiled policy."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.problem import ClassProblem, Task

__all__ = [
    "ATTENTION",
    "FILLER",
    "LEAST",
    "MOST",
    "PLACE",
    "ClassArrays",
    "GivenArrays",
    "arrays_of",
    "present_of",
    "work_of",
]

Ints = NDArray[np.int32]


LEAST, MOST, ATTENTION, PLACE, FILLER = range(5)
"""Columns of a task's row."""


class ClassArrays(NamedTuple):
    """Flat arrays; t tasks, s students, p periods, q places, w waits, d kinds of waiting.

    `tasks` has a row a task, columns as named above.  `waiting` lists from `waiting_at[t]` on the tasks
    that wait for t, `waiting_kind` for how long; `ready_from[d, f]` is the first period that may follow a
    last period f after waiting kind d.  `open_in[t, p]` is 1 where a task may run by its begin, guests and
    weather.  `apart[t]` lists tasks that may not run beside t, then -1.  `may[t, s]` says who may do it,
    `scarce[s]` how many tasks a student may do, `foes[s]` who is never on the student's crew, then -1.
    """

    tasks: Ints
    waits_at: Ints
    waiting_at: Ints
    waiting: Ints
    waiting_kind: Ints
    ready_from: Ints
    open_in: Ints
    apart: Ints
    may: Ints
    scarce: Ints
    foes: Ints
    minutes: Ints
    attended: Ints
    holds: Ints


class GivenArrays(NamedTuple):
    """Who is there, and what is given besides; p periods, s students, t tasks.

    `present[p, s]` is 1 for who is expected.  `asked[p, s]` is, before period `since`, the task each student
    was on, afterwards the one pinned; -1 for none.  `called[p, t]` is 1 for a task pinned to a period,
    `held[p, t]` its work to be left for pins after p.
    `near[p, s]` is the timetable to stay near, `change[p]` the weight of one place changed; finishes up to
    `good` count as equally good.  `bound` is 1 when there are pins or a timetable to stay near.
    """

    since: int
    bound: int
    present: Ints
    asked: Ints
    called: Ints
    held: Ints
    near: Ints
    change: NDArray[np.int64]
    good: int


def arrays_of(problem: ClassProblem) -> ClassArrays:
    """Return the arrays of `problem`; students by period and work are handed to the policy beside them."""
    tasks, periods = problem.tasks, problem.periods
    place = {place.key: n for n, place in enumerate(problem.places)}
    kinds = sorted({wait.days for task in tasks for wait in task.after} | {0})
    rows = [_waits(problem, task, kinds) for task in tasks]
    back: list[list[tuple[int, int]]] = [[] for _ in tasks]
    for number, row in enumerate(rows):
        for before, kind in row:
            back[before].append((number, kind))
    may = np.array([[problem.may(s, t) for s in problem.students] for t in tasks], dtype=np.int32)
    return ClassArrays(
        tasks=np.array(
            [[t.crew_least, t.crew_most, t.attention, place[t.place], t.filler] for t in tasks],
            dtype=np.int32,
        ),
        waits_at=_starts(rows),
        waiting_at=_starts(back),
        waiting=_ints(task for row in back for task, _ in row),
        waiting_kind=_ints(kind for row in back for _, kind in row),
        ready_from=_ready_from(problem, kinds),
        open_in=_open_in(problem),
        apart=_apart(problem),
        may=may,
        scarce=may.sum(axis=0).astype(np.int32),
        foes=_foes(problem),
        minutes=_ints(period.minutes for period in periods),
        attended=_ints(period.attention for period in periods),
        holds=_ints(place.holds for place in problem.places),
    )


def _waits(problem: ClassProblem, task: Task, kinds: list[int]) -> list[tuple[int, int]]:
    """Return (task, kind of waiting) once for every task waited for, the longest wait of each."""
    longest: dict[int, int] = {}
    for wait in task.after:
        before = problem.number[wait.task]
        longest[before] = max(longest.get(before, 0), kinds.index(wait.days))
    return sorted(longest.items())


def present_of(problem: ClassProblem) -> Ints:
    """Return who is there: 1 or 0 by period and student."""
    return np.array([[s.key in p.present for s in problem.students] for p in problem.periods], dtype=np.int32)


def work_of(problem: ClassProblem) -> Ints:
    """Return the work of each task [student-minutes]."""
    return _ints(task.work for task in problem.tasks)


def _ints(values: object) -> Ints:
    return np.array(list(values), dtype=np.int32)  # type: ignore[call-overload]


def _starts(rows: list[list[tuple[int, int]]]) -> Ints:
    return np.cumsum([0, *(len(row) for row in rows)]).astype(np.int32)


def _ready_from(problem: ClassProblem, kinds: list[int]) -> Ints:
    days = [period.day for period in problem.periods]
    table = np.full((len(kinds), len(days)), len(days), dtype=np.int32)
    for kind, wait in enumerate(kinds):
        for last, day in enumerate(days):
            onward = (p for p in range(last + 1, len(days)) if days[p] >= day + wait)
            table[kind, last] = next(onward, len(days))
    return table


def _open_in(problem: ClassProblem) -> Ints:
    table = np.ones((len(problem.tasks), len(problem.periods)), dtype=np.int32)
    for number, task in enumerate(problem.tasks):
        table[number, : task.begin] = 0
        if task.allowed:
            table[number, [p for p in range(len(problem.periods)) if p not in task.allowed]] = 0
        if task.dry:
            table[number, [p for p, period in enumerate(problem.periods) if not period.dry]] = 0
    return table


def _apart(problem: ClassProblem) -> Ints:
    """Return the tasks each task may not run beside: same place, and one's trade clashes with the other."""
    rows = [
        [
            other
            for other, beside in enumerate(problem.tasks)
            if beside.place == task.place
            and beside is not task
            and (beside.trade in task.clashes or task.trade in beside.clashes)
        ]
        for task in problem.tasks
    ]
    return _table(rows)


def _foes(problem: ClassProblem) -> Ints:
    """Return with whom each student is never on one crew, asked for from either side."""
    number = {student.key: n for n, student in enumerate(problem.students)}
    rows: list[set[int]] = [set() for _ in problem.students]
    for student in problem.students:
        for other in sorted(student.apart & set(number)):
            rows[number[student.key]].add(number[other])
            rows[number[other]].add(number[student.key])
    return _table([sorted(row) for row in rows])


def _table(rows: list[list[int]]) -> Ints:
    """Return a table with a row each, filled up with -1, at least one of them at the end."""
    table = np.full((len(rows), max(len(row) for row in rows) + 1), -1, dtype=np.int32)
    for number, row in enumerate(rows):
        table[number, : len(row)] = row
    return table
