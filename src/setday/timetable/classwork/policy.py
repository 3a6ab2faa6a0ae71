"""Playing a list of tasks through the calendar, period by period, as a class would.

Compiled.  In each period tasks that run go first, then those that may begin, in the order of the list.
Each gets its least crew if place, attention, clashes and the students allow, then crews grow to their most
while there is work for them; whoever is left over goes to filler work.  Students are placed one by one by
name: whoever was on the task stays, then whoever may do the fewest tasks; when nobody is free, somebody on
another task makes room if a free student can take over there.
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.classwork.arrays import ATTENTION, FILLER, LEAST, MOST, PLACE, ClassArrays

__all__ = ["play"]

Ints = NDArray[np.int32]

NOBODY = -1
LEFT, WAITS, EARLIEST, BEGUN, ENDED, CREW, RANK = range(7)
"""Columns of a task's state: work left, tasks waited for, first period allowed, first and last period so
far, crew now, place in the list."""


@compiled
def play(order: Ints, wish: Ints, a: ClassArrays, work: Ints, present: Ints, spans: Ints, on: Ints) -> int:
    """Play `order` with crews begun at `wish`; fill `spans` and `on`.

    `spans` has the first and the last period of each task; `on` a task or -1 by period and student.
    Return how many periods it takes until all work is finished; where the calendar is too short, its
    length and one more for each task left.
    """
    tasks, periods = order.shape[0], present.shape[0]
    state = _begin(order, a, work, periods)
    ready = np.full(tasks + 1, NOBODY, dtype=np.int32)
    for task in order:
        if state[task, WAITS] == 0 and not a.tasks[task, FILLER]:
            _insert(ready, task, state)
    fillers = _fillers(a)
    last = np.full(present.shape[1], NOBODY, dtype=np.int32)
    room = a.holds.copy()
    on[:, :] = NOBODY
    undone = tasks - a.tasks[:, FILLER].sum()
    finish = 0
    for period in range(periods):
        if undone == 0:
            break
        now = on[period]
        state[:, CREW] = 0
        room[:] = a.holds
        _staff_all(ready, wish, a, period, present[period], state, last, now, room)
        _grow_all(ready, a, period, present[period], state, last, now, room)
        _grow_all(fillers, a, period, present[period], state, last, now, room)
        done = _work_off(ready, a, period, state)
        undone -= done
        if done > 0:
            finish = period + 1
        for student in range(now.shape[0]):
            if now[student] != NOBODY:
                last[student] = now[student]
    spans[:, 0] = state[:, BEGUN]
    spans[:, 1] = state[:, ENDED]
    return int(finish if undone == 0 else periods + undone)


@compiled
def _begin(order: Ints, a: ClassArrays, work: Ints, periods: int) -> Ints:
    state = np.zeros((work.shape[0], 7), dtype=np.int32)
    for task in range(work.shape[0]):
        state[task, LEFT] = work[task]
        state[task, WAITS] = a.waits_at[task + 1] - a.waits_at[task]
        state[task, BEGUN] = periods
        state[task, ENDED] = periods
        state[order[task], RANK] = task
    return state


@compiled
def _fillers(a: ClassArrays) -> Ints:
    """Return the filler tasks, then NOBODY."""
    tasks = a.tasks.shape[0]
    found = np.full(tasks + 1, NOBODY, dtype=np.int32)
    many = 0
    for task in range(tasks):
        if a.tasks[task, FILLER]:
            found[many] = task
            many += 1
    return found


@compiled
def _insert(ready: Ints, task: int, state: Ints) -> None:
    """Put a task into the ready ones, which stand in the order of the list and end with NOBODY."""
    at = 0
    while ready[at] != NOBODY and state[ready[at], RANK] < state[task, RANK]:
        at += 1
    moved = task
    while moved != NOBODY:
        moved, ready[at] = ready[at], moved
        at += 1


@compiled
def _staff_all(
    ready: Ints,
    wish: Ints,
    a: ClassArrays,
    period: int,
    here: Ints,
    state: Ints,
    last: Ints,
    now: Ints,
    room: Ints,
) -> None:
    """Give tasks that run, then tasks that may begin, the crew wished for or else their least."""
    tasks = a.tasks
    watch = a.attended[period]
    periods = a.attended.shape[0]
    free = here.sum()
    for running in range(2):
        for task in ready:
            if task == NOBODY or free == 0:
                break
            if (state[task, BEGUN] < periods) != (running == 0) or state[task, LEFT] <= 0:
                continue
            least, place = tasks[task, LEAST], tasks[task, PLACE]
            if watch < tasks[task, ATTENTION] or room[place] < least or free < least:
                continue
            if state[task, EARLIEST] > period or not a.open_in[task, period]:
                continue
            if _clashes(a.apart, task, state):
                continue
            useful = -(-state[task, LEFT] // a.minutes[period])
            crew = max(least, min(wish[task], useful, room[place], free))
            if not _staff(a.may, a.scarce, task, crew, here, last, now):
                if crew == least or not _staff(a.may, a.scarce, task, least, here, last, now):
                    continue
                crew = least
            state[task, CREW] = crew
            watch -= tasks[task, ATTENTION]
            room[place] -= crew
            free -= crew


@compiled
def _clashes(apart: Ints, task: int, state: Ints) -> bool:
    for other in apart[task]:
        if other == NOBODY:
            return False
        if state[other, CREW] > 0:
            return True
    return False


@compiled
def _staff(may: Ints, scarce: Ints, task: int, many: int, here: Ints, last: Ints, now: Ints) -> bool:
    """Place `many` students on `task`, or none."""
    for _ in range(many):
        if not _add(may, scarce, task, here, last, now):
            for student in range(now.shape[0]):
                if now[student] == task:
                    now[student] = NOBODY
            return False
    return True


@compiled
def _add(may: Ints, scarce: Ints, task: int, here: Ints, last: Ints, now: Ints) -> bool:
    """Place one more student on `task`; somebody else may have to move over."""
    student = _free(may, scarce, task, here, last, now)
    if student == NOBODY:
        for busy in range(now.shape[0]):
            if now[busy] >= 0 and now[busy] != task and may[task, busy]:
                instead = _free(may, scarce, now[busy], here, last, now)
                if instead != NOBODY:
                    now[instead] = now[busy]
                    student = busy
                    break
    if student == NOBODY:
        return False
    now[student] = task
    return True


@compiled
def _free(may: Ints, scarce: Ints, task: int, here: Ints, last: Ints, now: Ints) -> int:
    """Return the free student who fits `task` best, or NOBODY."""
    best, least = NOBODY, 1 << 30
    for student in range(now.shape[0]):
        if here[student] and now[student] == NOBODY and may[task, student]:
            if last[student] == task:
                return student
            if scarce[student] < least:
                best, least = student, scarce[student]
    return best


@compiled
def _grow_all(
    ready: Ints, a: ClassArrays, period: int, here: Ints, state: Ints, last: Ints, now: Ints, room: Ints
) -> None:
    """Let crews grow in the order of the list while there is work and room; filler work has no end."""
    tasks = a.tasks
    minutes = a.minutes[period]
    free = 0
    for student in range(now.shape[0]):
        free += here[student] > 0 and now[student] == NOBODY
    for task in ready:
        if task == NOBODY or free == 0:
            break
        place, most = tasks[task, PLACE], tasks[task, MOST]
        if not tasks[task, FILLER]:
            most = 0 if state[task, CREW] == 0 else min(most, -(-state[task, LEFT] // minutes))
        while state[task, CREW] < most and room[place] > 0 and free > 0:
            if not _add(a.may, a.scarce, task, here, last, now):
                break
            free -= 1
            state[task, CREW] += 1
            room[place] -= 1


@compiled
def _work_off(ready: Ints, a: ClassArrays, period: int, state: Ints) -> int:
    """Take this period's work off; open what waited for what is finished; return how many finished."""
    kept, done = 0, 0
    finished = np.empty(ready.shape[0], dtype=np.int32)
    for task in ready:
        if task == NOBODY:
            break
        crew = state[task, CREW]
        state[task, LEFT] -= crew * a.minutes[period]
        mark = crew == 0 and state[task, EARLIEST] <= period and a.open_in[task, period] > 0
        if crew > 0 or (mark and state[task, LEFT] <= 0):
            state[task, BEGUN] = min(state[task, BEGUN], period)
        if state[task, LEFT] <= 0 and (crew > 0 or mark):
            state[task, ENDED] = period
            finished[done] = task
            done += 1
        else:
            ready[kept] = task
            kept += 1
    ready[kept:] = NOBODY
    for index in range(done):
        _release(ready, a, finished[index], period, state)
    return done


@compiled
def _release(ready: Ints, a: ClassArrays, before: int, period: int, state: Ints) -> None:
    for link in range(a.waiting_at[before], a.waiting_at[before + 1]):
        task = a.waiting[link]
        state[task, WAITS] -= 1
        begin = a.ready_from[a.waiting_kind[link], period]
        state[task, EARLIEST] = max(state[task, EARLIEST], begin)
        if state[task, WAITS] == 0:
            _insert(ready, task, state)
