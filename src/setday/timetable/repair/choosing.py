"""Who goes on a task when a timetable is to stay what it was.

Compiled.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled_bare
from setday.timetable.classwork.arrays import FILLER, ClassArrays

__all__ = [
    "ALIVE",
    "BEGUN",
    "CREW",
    "EARLIEST",
    "ENDED",
    "LEFT",
    "NOBODY",
    "WAITS",
    "Kept",
    "place_one",
    "take_off",
]

Ints = NDArray[np.int32]

NOBODY = -1
LEFT, WAITS, EARLIEST, BEGUN, ENDED, CREW, ALIVE = range(7)
"""Columns of a task's state: work left, tasks waited for, first period allowed, first and last period, crew
now, whether it can run now."""
PINNED, PLANNED, STAYS, BLOCKED, IDLE, CALLED_BACK, CALLED_AWAY = range(7)
"""How well a student fits a task, best first: pinned to it; planned for it now; was on it and is not needed
elsewhere, or it runs over; planned for what cannot run; planned for the bench; was on it but is needed
elsewhere; is needed elsewhere."""


class Kept(NamedTuple):
    """What is to be kept; p periods, s students, t tasks.

    `old` is the task planned by period and student, `pinned` the one pinned, `last` where each student was
    last; -1 for none.  `called` is 1 for a task pinned to a period.  `planned` is the crew planned by period
    and task, `ahead` the student-minutes planned from that period on.  `runs` is 1 for a task that is under
    way, `begins` the first period planned for each, the length of the calendar for none;
    `calls` lists the pinned periods and tasks.
    """

    old: Ints
    pinned: Ints
    last: Ints
    called: Ints
    planned: Ints
    ahead: Ints
    present: Ints
    runs: Ints
    begins: Ints
    calls: Ints


@compiled_bare
def place_one(
    task: int, period: int, how: int, a: ClassArrays, k: Kept, state: Ints, last: Ints, on: Ints
) -> bool:
    """Place one more student on `task`.

    `how` is 0 for anybody who may, even one who is needed elsewhere or must be replaced there; 1 for those
    who can be spared; 2 for those whose planned task cannot run; 3 for anybody who is left.
    """
    worst = IDLE if how == 1 else (BLOCKED if how == 2 else CALLED_AWAY)
    student = _best(task, period, worst, a, k, state, last, on)
    if student == NOBODY and how == 0:
        student = _replaced(task, period, a, k, state, last, on)
    if student == NOBODY:
        return False
    on[period, student] = task
    return True


@compiled_bare
def take_off(task: int, period: int, on: Ints) -> None:
    """Take everybody off a task."""
    for student in range(on.shape[1]):
        if on[period, student] == task:
            on[period, student] = NOBODY


@compiled_bare
def _best(
    task: int, period: int, worst: int, a: ClassArrays, k: Kept, state: Ints, last: Ints, on: Ints
) -> int:
    best, least = NOBODY, (worst + 1) * 10_000
    for student in range(on.shape[1]):
        if on[period, student] != NOBODY or not k.present[period, student] or not a.may[task, student]:
            continue
        pinned = k.pinned[period, student]
        if (pinned >= 0 and pinned != task) or not _bears(task, student, period, a, on):
            continue
        rank = 10_000 * _fit(task, student, period, a, k, state, last) + a.scarce[student]
        if rank < least:
            best, least = student, rank
    return best


@compiled_bare
def _fit(task: int, student: int, period: int, a: ClassArrays, k: Kept, state: Ints, last: Ints) -> int:
    wanted = k.old[period, student]
    if k.pinned[period, student] == task:
        return PINNED
    if wanted == task:
        return PLANNED
    bench = wanted != NOBODY and a.tasks[wanted, FILLER] > 0
    needed = wanted != NOBODY and not bench and state[wanted, ALIVE] > 0
    if last[student] == task and (not (needed or bench) or k.planned[period, task] == 0):
        return STAYS
    if needed:
        return CALLED_BACK if last[student] == task else CALLED_AWAY
    return IDLE if bench else BLOCKED


@compiled_bare
def _bears(task: int, student: int, period: int, a: ClassArrays, on: Ints) -> bool:
    """Return whether nobody the student must be kept apart from is on the task's crew; benches are none."""
    index = 0
    while a.foes[student, index] != NOBODY and not a.tasks[task, FILLER]:
        if on[period, a.foes[student, index]] == task:
            return False
        index += 1
    return True


@compiled_bare
def _replaced(task: int, period: int, a: ClassArrays, k: Kept, state: Ints, last: Ints, on: Ints) -> int:
    """Return somebody on another task for whom a free student can step in there, now free; or NOBODY."""
    for busy in range(on.shape[1]):
        beside = on[period, busy]
        if beside < 0 or beside == task or k.pinned[period, busy] == beside or not a.may[task, busy]:
            continue
        if not _bears(task, busy, period, a, on):
            continue
        on[period, busy] = task  # away from the other task while somebody is looked for
        instead = _best(beside, period, CALLED_AWAY, a, k, state, last, on)
        if instead != NOBODY:
            on[period, instead] = beside
            return busy
        on[period, busy] = beside
    return NOBODY
