"""Placing students on a crew one by one by name; compiled.

`may`, `scarce` and `foes` are those of `ClassArrays`; `here`, `asked`, `last` and `now` name for each student
whether he is there, the task asked for, the task last worked on and the task of this period.
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.classwork.arrays import FILLER

__all__ = ["NOBODY", "add", "staff"]

Ints = NDArray[np.int32]

NOBODY = -1
BUSY = 10_000
"""What it weighs against a student to be on a task that goes on; more than any number of tasks."""


@compiled
def staff(
    task: int,
    many: int,
    least: int,
    tasks: Ints,
    may: Ints,
    scarce: Ints,
    foes: Ints,
    here: Ints,
    asked: Ints,
    last: Ints,
    now: Ints,
) -> int:
    """Place `many` students on `task`, else `least`, or none; return how many."""
    for turn in range(2):
        size = int(least if turn else many)
        placed = 0
        while placed < size and add(task, tasks, may, scarce, foes, here, asked, last, now):
            placed += 1
        if placed == size:
            return size
        for student in range(now.shape[0]):
            if now[student] == task:
                now[student] = NOBODY
        if many == least:
            break
    return 0


@compiled
def add(
    task: int,
    tasks: Ints,
    may: Ints,
    scarce: Ints,
    foes: Ints,
    here: Ints,
    asked: Ints,
    last: Ints,
    now: Ints,
) -> bool:
    """Place one more student on `task`; somebody else may have to move over."""
    student = _free(task, NOBODY, tasks, may, scarce, foes, here, asked, last, now)
    if student == NOBODY:
        for busy in range(now.shape[0]):
            beside = now[busy]
            stays = beside == task or asked[busy] == beside
            if beside == NOBODY or stays or not may[task, busy]:
                continue
            if not _bears(task, busy, tasks, foes, now):
                continue
            now[busy] = NOBODY
            instead = _free(beside, busy, tasks, may, scarce, foes, here, asked, last, now)
            if instead != NOBODY:
                now[instead] = beside
                student = busy
                break
            now[busy] = beside
    if student == NOBODY:
        return False
    now[student] = task
    return True


@compiled
def _bears(task: int, student: int, tasks: Ints, foes: Ints, now: Ints) -> bool:
    """Return whether nobody the student must be kept apart from is on the task's crew; benches are none."""
    at = 0
    while foes[student, at] != NOBODY:
        if now[foes[student, at]] == task:
            return bool(tasks[task, FILLER])
        at += 1
    return True


@compiled
def _free(
    task: int,
    but: int,
    tasks: Ints,
    may: Ints,
    scarce: Ints,
    foes: Ints,
    here: Ints,
    asked: Ints,
    last: Ints,
    now: Ints,
) -> int:
    """Return the free student who fits `task` best, or NOBODY.

    First who is asked for it, then who was on it, then who may do few others, then who is on a task that
    goes on; last who is asked for another.
    """
    best, least = NOBODY, 1 << 30
    for student in range(now.shape[0]):
        if not here[student] or now[student] != NOBODY or not may[task, student] or student == but:
            continue
        rank = 1 if last[student] == task else scarce[student] + 2
        if last[student] != NOBODY and last[student] != task:
            rank += BUSY
        if asked[student] != NOBODY:
            rank = 0 if asked[student] == task else rank + 2 * BUSY
        if rank < least and _bears(task, student, tasks, foes, now):
            best, least = student, rank
    return best
