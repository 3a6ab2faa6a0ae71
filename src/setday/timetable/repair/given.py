"""What a repair is given: the old timetable, what happened and the pins, checked and as arrays."""

from collections import Counter
from collections.abc import Sequence

import numpy as np

from setday.errors import NoAnswer
from setday.timetable.classwork import ClassProblem, Pin
from setday.timetable.classwork.arrays import present_of
from setday.timetable.repair.choosing import Kept

__all__ = ["changed_of", "check", "kept_of"]

Rows = Sequence[Sequence[str]]


def check(problem: ClassProblem, happened: Rows, old: Rows, pins: Sequence[Pin]) -> None:
    """Raise what does not fit together, all at once."""
    told = [
        f"a row of {what} has {len(row)} places for {len(problem.students)} students"
        for what, rows in (("what happened", happened), ("the old timetable", old))
        for row in rows
        if len(row) != len(problem.students)
    ]
    told += [
        f"{key} is in the old timetable or in what happened, but is no task"
        for key in sorted({key for row in (*happened, *old) for key in row if key} - set(problem.number))
    ]
    told += [
        f"pin of {pin.task} in period {pin.period}: the period is over or not in the calendar"
        for pin in pins
        if not len(happened) <= pin.period < len(problem.periods)
    ]
    students = {student.key for student in problem.students}
    told += [f"pin of {pin.task}: no such task" for pin in pins if pin.task not in problem.number]
    told += [
        f"pin of {pin.task}: {key} is not in the class"
        for pin in pins
        for key in pin.students
        if key not in students
    ]
    if told:
        raise NoAnswer("\n".join(dict.fromkeys(told)))


def kept_of(rest: ClassProblem, happened: Rows, old: Rows, pins: Sequence[Pin]) -> Kept:
    """Return what is to be kept, by the numbers of what is left."""
    size, since = (len(rest.periods), len(rest.students)), len(happened)
    planned_on = np.full(size, -1, dtype=np.int32)
    for period, row in enumerate(old[: size[0]]):
        planned_on[period] = [rest.number.get(key, -1) for key in row]
    pinned, called = np.full(size, -1, dtype=np.int32), np.zeros((size[0], len(rest.tasks)), dtype=np.int32)
    students = {student.key: n for n, student in enumerate(rest.students)}
    for pin in pins:
        if pin.task in rest.number:
            called[pin.period - since, rest.number[pin.task]] = 1
            pinned[pin.period - since, [students[key] for key in pin.students]] = rest.number[pin.task]
    planned = np.zeros((size[0], len(rest.tasks)), dtype=np.int32)
    for period in range(size[0]):
        crews = Counter(planned_on[period].tolist())
        for task in set(crews) - {-1}:
            planned[period, task] = crews[task]
    minutes = np.array([period.minutes for period in rest.periods])
    ahead = (planned * minutes[:, None])[::-1].cumsum(axis=0)[::-1]
    spent = {key for row in happened for key in row}
    first = np.where(planned.any(axis=0), (planned > 0).argmax(axis=0), size[0])
    last = [rest.number.get(key, -1) for key in happened[-1]] if happened else [-1] * size[1]
    return Kept(
        old=planned_on,
        pinned=pinned,
        last=np.array(last, dtype=np.int32),
        called=called,
        planned=planned,
        ahead=ahead.astype(np.int32),
        present=present_of(rest),
        runs=np.array([task.key in spent and not task.filler for task in rest.tasks], dtype=np.int32),
        begins=first.astype(np.int32),
        calls=np.argwhere(called).astype(np.int32).reshape(-1, 2),
    )


def changed_of(problem: ClassProblem, rows: Rows, old: Rows, since: int, near: int) -> tuple[int, int]:
    """Return how many near places of present students changed, and how many there are."""
    changed = places = 0
    for period in range(since, min(since + near, len(problem.periods), len(old))):
        now = rows[period] if period < len(rows) else [""] * len(problem.students)
        for student, key, was in zip(problem.students, now, old[period], strict=True):
            if student.key in problem.periods[period].present:
                places += 1
                changed += key != was
    return changed, places
