"""What a solve is given besides the problem: periods that are over, pins, a timetable to stay near."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from setday.errors import NoAnswer
from setday.timetable.classwork.arrays import GivenArrays, present_of
from setday.timetable.classwork.problem import ClassProblem

__all__ = ["Fixed", "Near", "Pin", "carried_on", "given_of", "unkept"]

Rows = Sequence[Sequence[str]]

_CHANGE = 1000
"""Weight of one place changed in the next period, against one period of one task's end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """The instructor's word that a task runs in a period, with these students among its crew.

    Parameters
    ----------
    task : str
    period : int
    students : tuple of str
        Empty when it does not matter who.
    """

    task: str
    period: int
    students: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """What may not change.

    Parameters
    ----------
    happened : tuple of tuple of str
        Rows of the periods that are over, as they were; the rules are not asked of them.
    pins : tuple of Pin
    """

    happened: tuple[tuple[str, ...], ...] = ()
    pins: tuple[Pin, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A timetable to stay near, as after a period that went otherwise than planned.

    Parameters
    ----------
    rows : tuple of tuple of str
        A row a period from the first period of the calendar on.
    finish : int
        Finishes up to this count as equally good, so that fewer places change [period].
    fade : float
        What a change counts a period later, against 1 in the next period.
    """

    rows: tuple[tuple[str, ...], ...]
    finish: int = 0
    fade: float = 0.9


def carried_on(problem: ClassProblem, *, happened: Rows, left: Mapping[str, int]) -> ClassProblem:
    """Return the problem with each task's work as it turned out.

    Parameters
    ----------
    problem : ClassProblem
    happened : rows of the periods that are over
    left : mapping
        Student-minutes still to do by task key, 0 for what is finished; tasks not named keep their work.

    Returns
    -------
    ClassProblem
        Work is what was spent and what is left, so that `solve` and `verify` count as before.
    """
    spent = dict.fromkeys((task.key for task in problem.tasks), 0)
    for period, row in zip(problem.periods, happened, strict=False):
        for key in row:
            if key:
                spent[key] += period.minutes
    tasks = tuple(
        replace(task, work=spent[task.key] + left[task.key]) if task.key in left else task
        for task in problem.tasks
    )
    return replace(problem, tasks=tasks)


def given_of(problem: ClassProblem, fixed: Fixed, near: Near | None) -> GivenArrays:
    """Return the arrays of what is given.

    Raises
    ------
    NoAnswer
        All that cannot be kept: an unknown name, a pin in a period that is over, a student who is away ...
    """
    told = [*_misfits(problem, fixed, near), *_pins_told(problem, fixed)]
    if told:
        raise NoAnswer("\n".join(told))
    students = {student.key: n for n, student in enumerate(problem.students)}
    size = (len(problem.periods), len(problem.students))
    asked, called = np.full(size, -1, np.int32), np.zeros((size[0], len(problem.tasks)), np.int32)
    since = len(fixed.happened)
    if since:
        asked[:since] = _numbers(problem, fixed.happened)
    held = np.zeros_like(called)
    for pin in fixed.pins:
        task = problem.tasks[problem.number[pin.task]]
        called[pin.period, problem.number[pin.task]] = 1
        held[: pin.period, problem.number[pin.task]] += (
            max(task.crew_least, len(pin.students)) * problem.periods[pin.period].minutes
        )
        asked[pin.period, [students[key] for key in pin.students]] = problem.number[pin.task]
    followed, weights = np.full(size, -1, np.int32), np.zeros(size[0], np.int64)
    if near is not None and near.rows:
        rows = near.rows[: size[0]]
        followed[: len(rows)] = _numbers(problem, rows)
        weights[since : len(rows)] = [round(_CHANGE * near.fade**n) for n in range(max(0, len(rows) - since))]
    return GivenArrays(
        since=since,
        bound=int(bool(fixed.pins) or near is not None),
        present=present_of(problem),
        asked=asked,
        called=called,
        held=held,
        near=followed,
        change=weights,
        good=near.finish if near is not None else 0,
    )


def unkept(rows: Rows, *, pins: Sequence[Pin], students: Sequence[str]) -> list[str]:
    """Return the pins that a timetable does not keep, in words.

    Parameters
    ----------
    rows : sequence of sequences of str
    pins : sequence of Pin
    students : sequence of str
        Keys in the order of the rows.
    """
    told = []
    for pin in pins:
        row = rows[pin.period] if pin.period < len(rows) else ("",) * len(students)
        crew = {key for key, task in zip(students, row, strict=True) if task == pin.task}
        missing = [key for key in pin.students if key not in crew]
        if not crew:
            told.append(f"period {pin.period}: {pin.task} is pinned but does not run")
        elif missing:
            told.append(f"period {pin.period}: {', '.join(missing)} pinned to {pin.task} but not on it")
    return told


def _numbers(problem: ClassProblem, rows: Rows) -> list[list[int]]:
    return [[problem.number[key] if key else -1 for key in row] for row in rows]


def _misfits(problem: ClassProblem, fixed: Fixed, near: Near | None) -> Iterator[str]:
    for what, rows in (("that is over", fixed.happened), ("to stay near", near.rows if near else ())):
        for number, row in enumerate(rows):
            if len(row) != len(problem.students):
                yield f"period {number} {what} has {len(row)} places for {len(problem.students)} students"
            for key in sorted({key for key in row if key and key not in problem.number}):
                yield f"period {number} {what}: {key} is no task"
    if len(fixed.happened) > len(problem.periods):
        yield f"{len(fixed.happened)} periods are over, but the calendar has {len(problem.periods)}"


def _pins_told(problem: ClassProblem, fixed: Fixed) -> Iterator[str]:
    students = {student.key: student for student in problem.students}
    taken: dict[tuple[int, str], str] = {}
    for pin in fixed.pins:
        where = f"pin of {pin.task} in period {pin.period}"
        if pin.task not in problem.number:
            yield f"{where}: no such task"
            continue
        if not len(fixed.happened) <= pin.period < len(problem.periods):
            yield f"{where}: the period is over or not in the calendar"
            continue
        task = problem.tasks[problem.number[pin.task]]
        if len(pin.students) > task.crew_most:
            yield f"{where}: {len(pin.students)} students, but its crew is at most {task.crew_most}"
        for key in pin.students:
            if key not in students:
                yield f"{where}: {key} is not in the class"
                continue
            if key not in problem.periods[pin.period].present:
                yield f"{where}: {key} is away"
            if not problem.may(students[key], task):
                yield f"{where}: {key} may not do it"
            other = taken.setdefault((pin.period, key), pin.task)
            if other != pin.task:
                yield f"{where}: {key} is pinned to {other} too"
