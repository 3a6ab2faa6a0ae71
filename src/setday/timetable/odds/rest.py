"""What is left to do after some periods, as a class problem of its own whose calendar begins then."""

from collections.abc import Sequence
from dataclasses import replace

from setday.errors import NoAnswer
from setday.timetable.classwork import ClassProblem, Task

__all__ = ["ends_of", "rest_of"]

Rows = Sequence[Sequence[str]]

_NEVER = 1_000_000
"""A period no calendar has, for a task whose guests have all been."""


def ends_of(problem: ClassProblem, rows: Rows) -> dict[str, int]:
    """Return the period in which each task was finished, for those that `rows` finish.

    A mark, which nobody works on, is over in the first period its waits and dates allow.
    """
    left = {task.key: task.work for task in problem.tasks if not task.filler}
    ends: dict[str, int] = {}
    for number, row in enumerate(rows):
        over = dict(ends)
        for key in row:
            if key in left:
                left[key] -= problem.periods[number].minutes
                if left[key] <= 0:
                    ends.setdefault(key, number)
        for task in problem.tasks:
            mark = not task.work and not task.filler and task.key not in ends
            if mark and _passes(problem, task, number, over):
                ends[task.key] = number
    return ends


def _passes(problem: ClassProblem, mark: Task, number: int, ends: dict[str, int]) -> bool:
    period = problem.periods[number]
    if number < mark.begin or (mark.allowed and number not in mark.allowed) or (mark.dry and not period.dry):
        return False
    return all(
        wait.task in ends and period.day >= problem.periods[ends[wait.task]].day + wait.days
        for wait in mark.after
    )


def rest_of(problem: ClassProblem, happened: Rows) -> ClassProblem:
    """Return what is left after the periods that happened.

    Parameters
    ----------
    problem : ClassProblem
        With each task's work as it turned out: what was spent on it and what is left.
    happened : rows of the periods that are over

    Returns
    -------
    ClassProblem
        Without the finished tasks; periods are numbered from the first that is left.  Set day is put at
        the end of the calendar, so that what is late can be planned too.

    Raises
    ------
    NoAnswer
        When no period is left.
    """
    since = len(happened)
    periods = problem.periods[since:]
    if not periods:
        raise NoAnswer("the calendar is over: no period is left", do="Add periods to the calendar.")
    ends = ends_of(problem, happened)
    spent = dict.fromkeys(problem.number, 0)
    for period, row in zip(problem.periods, happened, strict=False):
        for key in row:
            if key:
                spent[key] += period.minutes
    tasks = tuple(
        _left(problem, task, spent=spent[task.key], ends=ends, since=since)
        for task in problem.tasks
        if task.key not in ends
    )
    return replace(problem, tasks=tasks, periods=periods, set_period=len(periods))


def _left(problem: ClassProblem, task: Task, *, spent: int, ends: dict[str, int], since: int) -> Task:
    begin = max(0, task.begin - since)
    for wait in task.after:
        if wait.task in ends:
            day = problem.periods[ends[wait.task]].day + wait.days
            first = (n for n, p in enumerate(problem.periods[since:]) if p.day >= day)
            begin = max(begin, next(first, len(problem.periods) - since - 1))
    begun = spent > 0 and not task.filler
    allowed = tuple(number - since for number in task.allowed if number >= since)
    return replace(
        task,
        work=task.work if task.filler else task.work - spent,
        after=() if begun else tuple(wait for wait in task.after if wait.task not in ends),
        begin=0 if begun else begin,
        allowed=allowed or ((_NEVER,) if task.allowed else ()),
    )
