"""Playing a list of tasks through the calendar, period by period, as a class would.

Compiled.  Periods that are over are played as they were.  In each other, tasks that are asked for (pinned,
or in the timetable to stay near) go first, then those that run, then those that may begin, in the order of
the list.  Each gets its least crew if place, attention, clashes and the students allow, then crews grow to
their most while there is work for them; whoever is left over goes to filler work.  Students are placed one
by one by name: whoever was asked for or was on the task stays, then whoever may do the fewest tasks, last who
is on a task that goes on; when nobody is free, somebody on another task makes room if a free student can
take over there.
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.classwork.arrays import (
    ATTENTION,
    FILLER,
    LEAST,
    MOST,
    PLACE,
    ClassArrays,
    GivenArrays,
)
from setday.timetable.classwork.crewing import NOBODY, add, staff

__all__ = ["play"]

Ints = NDArray[np.int32]

LEFT, WAITS, EARLIEST, BEGUN, ENDED, CREW, RANK = range(7)
"""Columns of a task's state: work left, tasks waited for, first period allowed, first and last period so
far, crew now, place in the list."""


HOLD = 1000
"""Added to a crew wished for: once when whoever is on the task stays, twice when it grows only later."""


@compiled
def play(
    order: Ints, wish: Ints, until: int, a: ClassArrays, g: GivenArrays, work: Ints, spans: Ints, on: Ints
) -> tuple[int, int]:
    """Play `order` with crews begun at `wish`; fill `spans` and `on`.

    Before period `until` the timetable to stay near is followed where it can be.  `spans` has the first and
    the last period of each task; `on` a task or -1 by period and student.  Return how many periods it takes
    until all work is finished (where the calendar is too short, its length and one more for each task left),
    and how many leave a task that goes on.
    """
    tasks, periods = order.shape[0], g.present.shape[0]
    state = _begin(order, a, work, periods)
    ready = np.full(tasks + 1, NOBODY, dtype=np.int32)
    for task in order:
        if state[task, WAITS] == 0 and not a.tasks[task, FILLER]:
            _insert(ready, task, state)
    fillers = _fillers(a)
    last = np.full(g.present.shape[1], NOBODY, dtype=np.int32)
    asked, named = np.full_like(last, NOBODY), np.zeros(tasks, dtype=np.int32)
    room = a.holds.copy()
    on[:, :] = NOBODY
    undone = tasks - a.tasks[:, FILLER].sum()
    finish, leaves = 0, 0
    for period in range(periods):
        if undone == 0 and period >= g.since:
            break
        now = on[period]
        state[:, CREW] = 0
        room[:] = a.holds
        if period < g.since:
            _repeat(ready, g.asked[period], state, now, a.tasks)
        else:
            _ask(g.asked[period], g.near[period], g.called[period], 1 if period < until else 0, asked, named)
            _staff_all(ready, wish, a, g, period, asked, named, state, last, now, room)
            _grow_all(ready, wish, a, g, period, asked, state, last, now, room)
            _grow_all(fillers, wish, a, g, period, asked, state, last, now, room)
        done = _work_off(ready, a, period, state)
        undone -= done
        if done > 0:
            finish = period + 1
        leaves += _leave(now, state, last, a.tasks)
    spans[:, 0] = state[:, BEGUN]
    spans[:, 1] = state[:, ENDED]
    return int(finish if undone == 0 else periods + undone), leaves


@compiled
def _leave(now: Ints, state: Ints, last: Ints, tasks: Ints) -> int:
    """Keep who is on which task that is not finished; return how many left one on which others went on."""
    many = 0
    for student in range(now.shape[0]):
        task, was = now[student], last[student]
        if task != NOBODY:
            moved = was != task
            if was != NOBODY and moved and state[was, CREW] > 0:
                many += 1
                last[student] = NOBODY
            if not tasks[task, FILLER]:
                last[student] = task
        was = last[student]
        if was != NOBODY and state[was, LEFT] <= 0:
            last[student] = NOBODY
    return many


@compiled
def _repeat(ready: Ints, row: Ints, state: Ints, now: Ints, tasks: Ints) -> None:
    """Fill `now` as the period was; work done before its turn is counted too."""
    for student in range(now.shape[0]):
        task = row[student]
        now[student] = task
        if task != NOBODY:
            state[task, CREW] += 1
            first = state[task, CREW] == 1 and state[task, LEFT] > 0
            if first and not tasks[task, FILLER] and not _has(ready, task):
                _insert(ready, task, state)


@compiled
def _has(ready: Ints, task: int) -> bool:
    for one in ready:
        if one == task:
            return True
        if one == NOBODY:
            break
    return False


@compiled
def _ask(pinned: Ints, near: Ints, called: Ints, follow: int, asked: Ints, named: Ints) -> None:
    """Fill the task asked for each student, pinned or else followed, and how many are asked of each task."""
    for task in range(named.shape[0]):
        named[task] = NOBODY if called[task] == 0 else 0
    for student in range(asked.shape[0]):
        task = pinned[student]
        if task == NOBODY and follow:
            task = near[student]
        asked[student] = task
        if task != NOBODY:
            named[task] = max(named[task], 0) + 1


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
    g: GivenArrays,
    period: int,
    asked: Ints,
    named: Ints,
    state: Ints,
    last: Ints,
    now: Ints,
    room: Ints,
) -> None:
    """Give tasks asked for, tasks that run, then tasks that may begin, the crew wished for or their least."""
    tasks, here, held, may = a.tasks, g.present[period], g.held[period], a.may
    minutes, open_in, apart, scarce, foes = a.minutes[period], a.open_in, a.apart, a.scarce, a.foes
    watch, periods = a.attended[period], a.attended.shape[0]
    free = here.sum()
    for turn in range(3):
        for task in ready:
            if task == NOBODY or free == 0:
                break
            if turn != (0 if named[task] >= 0 else (1 if state[task, BEGUN] < periods else 2)):
                continue
            least, place = tasks[task, LEAST], tasks[task, PLACE]
            if watch < tasks[task, ATTENTION] or room[place] < least or free < least:
                continue
            if not _may_run(task, period, state, open_in, apart):
                continue
            useful = _useful(state[task, LEFT], held[task], minutes, least if turn == 0 else 0)
            if useful < least and held[task] > 0:
                continue
            most = min(useful, tasks[task, MOST], room[place], free)
            crew = max(least, min(max(named[task], _wished(task, turn, wish[task], here, last)), most))
            crew = staff(task, crew, least, tasks, may, scarce, foes, here, asked, last, now)
            if crew == 0:
                continue
            state[task, CREW] = crew
            watch -= tasks[task, ATTENTION]
            room[place] -= crew
            free -= crew


@compiled
def _wished(task: int, turn: int, wish: int, here: Ints, last: Ints) -> int:
    """Return the crew wished for; of one that stays together, no fewer than those who are there."""
    if turn == 0:
        return 0
    many = 0
    if turn == 1 and wish // HOLD & 1:
        for student in range(last.shape[0]):
            many += here[student] > 0 and last[student] == task
    return max(wish % HOLD, many)


@compiled
def _may_run(task: int, period: int, state: Ints, open_in: Ints, apart: Ints) -> bool:
    if state[task, EARLIEST] > period or not open_in[task, period] or state[task, WAITS] > 0:
        return False
    return state[task, LEFT] > 0 and not _clashes(apart, task, state)


@compiled
def _useful(left: int, held: int, minutes: int, least: int) -> int:
    """Return how many have work on a task now; what it is pinned to later periods for is left for then."""
    if held == 0:
        return int(-(-left // minutes))
    return int(max(0, (left - held) // minutes, least))


@compiled
def _clashes(apart: Ints, task: int, state: Ints) -> bool:
    for other in apart[task]:
        if other == NOBODY:
            return False
        if state[other, CREW] > 0:
            return True
    return False


@compiled
def _grow_all(
    ready: Ints,
    wish: Ints,
    a: ClassArrays,
    g: GivenArrays,
    period: int,
    asked: Ints,
    state: Ints,
    last: Ints,
    now: Ints,
    room: Ints,
) -> None:
    """Let crews grow in the order of the list while there is work and room; filler work has no end."""
    tasks, here, may, scarce, foes = a.tasks, g.present[period], a.may, a.scarce, a.foes
    minutes, held, called = a.minutes[period], g.held[period], g.called[period]
    free = 0
    for student in range(now.shape[0]):
        free += here[student] > 0 and now[student] == NOBODY
    for task in ready:
        if task == NOBODY or free == 0:
            break
        place, most = tasks[task, PLACE], tasks[task, MOST]
        if not tasks[task, FILLER]:
            begins = state[task, BEGUN] == a.attended.shape[0]
            if state[task, CREW] == 0 or (begins and wish[task] // HOLD & 2):
                continue
            least = tasks[task, LEAST] if called[task] else 0
            most = min(most, _useful(state[task, LEFT], held[task], minutes, least))
        while state[task, CREW] < most and room[place] > 0 and free > 0:
            if not add(task, tasks, may, scarce, foes, here, asked, last, now):
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
    periods = a.attended.shape[0]
    for link in range(a.waiting_at[before], a.waiting_at[before + 1]):
        task = a.waiting[link]
        state[task, WAITS] -= 1
        begin = a.ready_from[a.waiting_kind[link], period]
        state[task, EARLIEST] = max(state[task, EARLIEST], begin)
        if state[task, WAITS] == 0 and not _has(ready, task) and state[task, ENDED] == periods:
            _insert(ready, task, state)
