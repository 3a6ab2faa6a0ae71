"""Playing a list of tasks through a calendar left to chance, many times over.

Compiled.  The same play, period by period, as the one that makes the timetable: tasks that run go first,
then those that may begin; least crews, then crews grow; whoever was on a task stays, then whoever may do
the fewest tasks; when nobody is free, somebody makes room.  Nobody is written down.
"""

import numpy as np

from setday.solving import compiled, compiled_bare
from setday.timetable.odds.arrays import (
    ATTENDED,
    ATTENTION,
    BEGIN,
    DAY,
    DAY_NUMBER,
    DELIVERY,
    DOUBT,
    DRY,
    FILLER,
    LEAST,
    MINUTES,
    MOST,
    NUMBER,
    PLACE,
    SHARE,
    TRADE,
    WAITS,
    WISH,
    WORD,
    Floats,
    Ints,
    OddsArrays,
)
from setday.timetable.odds.arrays import WORK as PLANNED
from setday.timetable.odds.chance import AWAY, LATE, SHARED, WEATHER, WORK, drawn, key_of, uniform
from setday.timetable.odds.crews import FREE, HERE, KEPT, LAST, MAY, NOBODY, NOW, ON, add, idle_of, staff

__all__ = ["simulate"]

LEFT, WAITING, EARLIEST, BEGUN, CREW = range(5)
"""Columns of a task's state: work left, tasks waited for, first period allowed, whether begun, crew now."""


@compiled
def simulate(seed: int, first: int, gained: int, gain: int, a: OddsArrays, finishes: Ints) -> None:
    """Fill `finishes` with the finish of simulations `first`, `first` + 1 ...

    A finish is how many periods it takes until all work is done; where the calendar is too short, its
    length and one more for each task left.  Task `gained` has `gain` student-minutes less to do; -1 for no
    task.
    """
    tasks, words, students = a.tasks.shape[0], a.may.shape[1], a.absent.shape[0]
    state = np.zeros((tasks, 5), dtype=np.int64)
    sets = np.zeros((3, tasks, words), dtype=np.int64)
    sets[MAY] = a.may
    folk = np.zeros((2, words), dtype=np.int64)
    at = np.zeros((2, students), dtype=np.int64)
    room = a.holds.copy()
    ready, done = np.zeros(tasks + 1, dtype=np.int64), np.zeros(tasks + 1, dtype=np.int64)
    fillers = _fillers(a.tasks)
    for number in range(finishes.shape[0]):
        key = key_of(seed, first + number)
        _draw(key, gained, gain, a.tasks, a.calendar, a.spreads, a.late, state)
        finishes[number] = _played(key, a, state, sets, folk, at, room, ready, done, fillers)


@compiled
def _fillers(table: Ints) -> Ints:
    found = np.full(table.shape[0] + 1, NOBODY, dtype=np.int64)
    many = 0
    for task in range(table.shape[0]):
        if table[task, FILLER]:
            found[many] = task
            many += 1
    return found


@compiled_bare
def _draw(
    key: np.uint64,
    gained: int,
    gain: int,
    tasks: Ints,
    calendar: Ints,
    spreads: Floats,
    late: Floats,
    state: Ints,
) -> None:
    """Draw the work of each task and when its material is there."""
    for task in range(tasks.shape[0]):
        work = tasks[task, PLANNED]
        if work > 0:
            share = drawn(spreads, tasks[task, SHARE], uniform(key, WORK + tasks[task, NUMBER]))
            share *= drawn(spreads, tasks[task, DOUBT], uniform(key, SHARED + tasks[task, TRADE]))
            work = max(1, int(np.rint(work * share)))
        if task == gained:
            work = max(min(work, 1), work - gain)
        begin, delivery = tasks[task, BEGIN], tasks[task, DELIVERY]
        if delivery >= 0 and begin < calendar.shape[0]:
            chance = uniform(key, LATE + delivery)
            if chance < late[delivery, 0]:
                span = late[delivery, 2] - late[delivery, 1] + 1
                days = calendar[begin, DAY] + late[delivery, 1] + int(chance / late[delivery, 0] * span)
                while begin < calendar.shape[0] and calendar[begin, DAY] < days:
                    begin += 1
        state[task, LEFT] = work
        state[task, WAITING] = tasks[task, WAITS]
        state[task, EARLIEST] = begin
        state[task, BEGUN] = 0


@compiled_bare
def _played(
    key: np.uint64,
    a: OddsArrays,
    state: Ints,
    sets: Ints,
    folk: Ints,
    at: Ints,
    room: Ints,
    ready: Ints,
    done: Ints,
    fillers: Ints,
) -> int:
    tasks, calendar, open_in, apart, foes, holds = a.tasks, a.calendar, a.open_in, a.apart, a.foes, a.holds
    undone = _begin(tasks, state, sets, at, ready)
    periods = calendar.shape[0]
    for period in range(periods):
        if undone == 0:
            return int(period)
        wet = int(uniform(key, WEATHER + calendar[period, DAY_NUMBER]) < a.wet[period])
        _who_comes(key, period, a.here, a.absent, a.who, folk)
        for place in range(room.shape[0]):
            room[place] = holds[place]
        _staff_all(ready, wet, period, calendar, tasks, open_in, apart, foes, state, sets, folk, at, room)
        minutes = calendar[period, MINUTES]
        _grow_all(ready, minutes, tasks, foes, state, sets, folk, at, room)
        _grow_all(fillers, minutes, tasks, foes, state, sets, folk, at, room)
        _clear(fillers, state, sets)
        many = _work_off(ready, done, wet, period, minutes, tasks, open_in, state)
        _clear(ready, state, sets)
        _clear(done, state, sets)
        for index in range(many):
            _release(done[index], period, a.waiting_at, a.waiting, a.ready_from, state, ready)
        undone -= many
        _remember(sets, at)
    return int(periods + undone)


@compiled_bare
def _begin(tasks: Ints, state: Ints, sets: Ints, at: Ints, ready: Ints) -> int:
    """List the tasks that are ready; return how many there are to do."""
    many, undone = 0, 0
    for task in range(tasks.shape[0]):
        state[task, CREW] = 0
        for word in range(sets.shape[2]):
            sets[ON, task, word] = 0
            sets[KEPT, task, word] = 0
        if not tasks[task, FILLER]:
            undone += 1
            if state[task, WAITING] == 0:
                ready[many] = task
                many += 1
    ready[many] = NOBODY
    for student in range(at.shape[1]):
        at[NOW, student] = NOBODY
        at[LAST, student] = NOBODY
    return undone


@compiled_bare
def _clear(listed: Ints, state: Ints, sets: Ints) -> None:
    """Take everybody off the tasks of a list."""
    index = 0
    while listed[index] != NOBODY:
        state[listed[index], CREW] = 0
        for word in range(sets.shape[2]):
            sets[ON, listed[index], word] = 0
        index += 1


@compiled_bare
def _remember(sets: Ints, at: Ints) -> None:
    for student in range(at.shape[1]):
        task, before = at[NOW, student], at[LAST, student]
        if task not in (NOBODY, before):
            word, bit = student // WORD, 1 << (student % WORD)
            if before != NOBODY:
                sets[KEPT, before, word] &= ~bit
            sets[KEPT, task, word] |= bit
            at[LAST, student] = task
        at[NOW, student] = NOBODY


@compiled_bare
def _who_comes(key: np.uint64, period: int, here: Ints, absent: Floats, who: Ints, folk: Ints) -> None:
    students = absent.shape[0]
    for word in range(here.shape[1]):
        folk[HERE, word] = here[period, word]
    for student in range(students):
        word, bit = student // WORD, 1 << (student % WORD)
        chance = absent[student] if folk[HERE, word] & bit else 0.0
        if chance > 0 and uniform(key, AWAY + (who[student] << 20) + period) < chance:
            folk[HERE, word] &= ~bit
    for word in range(here.shape[1]):
        folk[FREE, word] = folk[HERE, word]


@compiled_bare
def _staff_all(
    ready: Ints,
    wet: int,
    period: int,
    calendar: Ints,
    tasks: Ints,
    open_in: Ints,
    apart: Ints,
    foes: Ints,
    state: Ints,
    sets: Ints,
    folk: Ints,
    at: Ints,
    room: Ints,
) -> None:
    """Give tasks that run, then tasks that may begin, the crew wished for or else their least."""
    watch, minutes = calendar[period, ATTENDED], calendar[period, MINUTES]
    idle = idle_of(folk)
    for running in range(2):
        index = 0
        while ready[index] != NOBODY and idle > 0:
            task = ready[index]
            index += 1
            if state[task, BEGUN] == running or state[task, LEFT] <= 0:
                continue
            least, place = tasks[task, LEAST], tasks[task, PLACE]
            if watch < tasks[task, ATTENTION] or room[place] < least or idle < least:
                continue
            if not _open(task, wet, period, tasks, open_in, state) or _clashes(task, apart, state):
                continue
            useful = -(-state[task, LEFT] // minutes)
            crew = max(least, min(tasks[task, WISH], useful, room[place], idle))
            if not staff(task, crew, tasks, foes, sets, folk, at):
                if crew == least or not staff(task, least, tasks, foes, sets, folk, at):
                    continue
                crew = least
            state[task, CREW] = crew
            watch -= tasks[task, ATTENTION]
            room[place] -= crew
            idle -= crew


@compiled_bare
def _open(task: int, wet: int, period: int, tasks: Ints, open_in: Ints, state: Ints) -> bool:
    if state[task, EARLIEST] > period or wet * tasks[task, DRY] > 0:
        return False
    return bool(open_in[task, period] > 0)


@compiled_bare
def _clashes(task: int, apart: Ints, state: Ints) -> bool:
    index = 0
    while apart[task, index] != NOBODY:
        if state[apart[task, index], CREW] > 0:
            return True
        index += 1
    return False


@compiled_bare
def _grow_all(
    ready: Ints,
    minutes: int,
    tasks: Ints,
    foes: Ints,
    state: Ints,
    sets: Ints,
    folk: Ints,
    at: Ints,
    room: Ints,
) -> None:
    """Let crews grow in the order of the list while there is work and room; filler work has no end."""
    idle = idle_of(folk)
    index = 0
    while ready[index] != NOBODY and idle > 0:
        task = ready[index]
        index += 1
        place, most = tasks[task, PLACE], tasks[task, MOST]
        if not tasks[task, FILLER]:
            most = 0 if state[task, CREW] == 0 else min(most, -(-state[task, LEFT] // minutes))
        while state[task, CREW] < most and room[place] > 0 and idle > 0:
            if not add(task, tasks, foes, sets, folk, at):
                break
            idle -= 1
            state[task, CREW] += 1
            room[place] -= 1


@compiled_bare
def _work_off(
    ready: Ints, done: Ints, wet: int, period: int, minutes: int, tasks: Ints, open_in: Ints, state: Ints
) -> int:
    """Take this period's work off; move what is finished from `ready` to `done`; return how many."""
    kept, many, index = 0, 0, 0
    while ready[index] != NOBODY:
        task = ready[index]
        index += 1
        crew = state[task, CREW]
        if crew > 0:
            state[task, LEFT] -= crew * minutes
            state[task, BEGUN] = 1
        if state[task, LEFT] <= 0 and (crew > 0 or _open(task, wet, period, tasks, open_in, state)):
            done[many] = task
            many += 1
        else:
            ready[kept] = task
            kept += 1
    ready[kept] = NOBODY
    done[many] = NOBODY
    return many


@compiled_bare
def _release(
    before: int, period: int, waiting_at: Ints, waiting: Ints, ready_from: Ints, state: Ints, ready: Ints
) -> None:
    """Open what waited for `before`."""
    for link in range(waiting_at[before], waiting_at[before + 1]):
        task = waiting[link, 0]
        state[task, WAITING] -= 1
        state[task, EARLIEST] = max(state[task, EARLIEST], ready_from[waiting[link, 1], period])
        if state[task, WAITING] == 0:
            index = 0
            while ready[index] != NOBODY and ready[index] < task:
                index += 1
            moved = task
            while moved != NOBODY:
                moved, ready[index] = ready[index], moved
                index += 1
            ready[index] = NOBODY
