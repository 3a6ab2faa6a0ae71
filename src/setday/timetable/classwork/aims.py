"""What a class wants of its timetable besides the finish: as arrays for the naming, and counted by hand."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork.problem import ClassProblem, Student, Task

__all__ = ["ClassAims", "Tally", "aims_of", "tally"]

Ints = NDArray[np.int32]
Rows = Sequence[Sequence[str]]


class ClassAims(NamedTuple):
    """Aims by student; s students, r trades, t tasks.

    `trade[t]` is a task's trade, `knows[s, r]` 1 for who can show it, `wanted[s, r]` minutes wanted,
    `pals[s]` who rather works with the student, then -1.
    """

    trade: Ints
    knows: Ints
    wanted: Ints
    pals: Ints


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """How far a timetable meets the aims; nothing here is a rule broken.

    Parameters
    ----------
    short : int
        Minutes wanted by trade and not reached, all students together.
    leaves : int
        Times a student who is there leaves a task that goes on.
    alone : int
        Crews, period by period, in which nobody knows the trade.
    parted : int
        Times two who rather work together are on different crews.
    uneven : int
        Most minutes of house work that a student is off the share his presence makes fair.
    """

    short: int
    leaves: int
    alone: int
    parted: int
    uneven: int


def aims_of(problem: ClassProblem) -> ClassAims:
    """Return the aims of a class as arrays."""
    trades = {trade: n for n, trade in enumerate(sorted({task.trade for task in problem.tasks}))}
    number = {student.key: n for n, student in enumerate(problem.students)}
    size = (len(problem.students), len(trades))
    knows, wanted = np.zeros(size, dtype=np.int32), np.zeros(size, dtype=np.int32)
    pals: list[set[int]] = [set() for _ in problem.students]
    for n, student in enumerate(problem.students):
        knows[n, [trades[trade] for trade in sorted(student.knows & set(trades))]] = 1
        for trade, minutes in student.targets:
            if trade in trades:
                wanted[n, trades[trade]] = minutes
        for other in sorted(student.together & set(number)):
            pals[n].add(number[other])
            pals[number[other]].add(n)
    rows = np.full((len(pals), max(map(len, pals)) + 1), -1, dtype=np.int32)
    for n, others in enumerate(pals):
        rows[n, : len(others)] = sorted(others)
    trade_of = np.array([trades[task.trade] for task in problem.tasks], dtype=np.int32)
    return ClassAims(trade=trade_of, knows=knows, wanted=wanted, pals=rows)


def tally(problem: ClassProblem, rows: Rows, *, since: int = 0) -> Tally:
    """Count how far a timetable meets the aims; shares nothing with the search.

    Parameters
    ----------
    problem : ClassProblem
    rows : sequence of sequences of str
    since : int
        First period of which leaves, crews and pairs are counted; hours count from the first on.
    """
    tasks = {task.key: task for task in problem.tasks}
    crews = [_crews(problem, tasks, row) for row in rows]
    return Tally(
        short=_short(problem, tasks, rows),
        leaves=sum(when >= since for when in _left(problem, crews)),
        alone=sum(
            not any(tasks[key].trade in student.knows for student in crew)
            for crew_by_task in crews[since:]
            for key, crew in crew_by_task.items()
        ),
        parted=sum(_parted(crew_by_task) for crew_by_task in crews[since:]),
        uneven=_uneven(problem, tasks, rows),
    )


def _crews(problem: ClassProblem, tasks: dict[str, Task], row: Sequence[str]) -> dict[str, list[Student]]:
    """Return who is on each task of the house in one period; benches are no crews."""
    found: dict[str, list[Student]] = defaultdict(list)
    for student, key in zip(problem.students, row, strict=True):
        if key and not tasks[key].filler:
            found[key].append(student)
    return found


def _short(problem: ClassProblem, tasks: dict[str, Task], rows: Rows) -> int:
    short = 0
    for n, student in enumerate(problem.students):
        minutes = Counter[str]()
        for period, row in zip(problem.periods, rows, strict=False):
            if row[n]:
                minutes[tasks[row[n]].trade] += period.minutes
        short += sum(
            max(0, wanted - minutes[trade])
            for trade, wanted in dict(student.targets).items()
            if any(task.trade == trade for task in problem.tasks)
        )
    return short


def _left(problem: ClassProblem, crews: list[dict[str, list[Student]]]) -> Iterator[int]:
    """Yield each period in which a student is there, on a running task no longer, though on it before."""
    left = {task.key: task.work for task in problem.tasks}
    members: dict[str, set[str]] = defaultdict(set)
    for number, (period, crew_by_task) in enumerate(zip(problem.periods, crews, strict=False)):
        for key, crew in crew_by_task.items():
            now = {student.key for student in crew}
            if left[key] > 0:
                gone = (members[key] & period.present) - now
                yield from [number] * len(gone)
                members[key] = (members[key] - gone) | now
            left[key] -= len(now) * period.minutes


def _parted(crew_by_task: dict[str, list[Student]]) -> int:
    where = {student.key: key for key, crew in crew_by_task.items() for student in crew}
    pairs = {
        frozenset((student.key, other))
        for crew in crew_by_task.values()
        for student in crew
        for other in student.together
        if other in where
    }
    return sum(len({where[key] for key in pair}) > 1 for pair in pairs)


def _uneven(problem: ClassProblem, tasks: dict[str, Task], rows: Rows) -> int:
    there, house = [0] * len(problem.students), [0] * len(problem.students)
    for period, row in zip(problem.periods, rows, strict=False):
        for n, key in enumerate(row):
            there[n] += period.minutes if key else 0
            house[n] += period.minutes if key and not tasks[key].filler else 0
    rate = sum(house) / max(1, sum(there))
    return round(max(abs(done - rate * time) for done, time in zip(house, there, strict=True)))
