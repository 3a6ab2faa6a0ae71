"""Playing what is left of a timetable so that it stays what it was wherever it can.

Compiled.  In each period pinned tasks go first, then those that run or were planned for it, then others
whose turn has come.  Crews are as planned; students stay where they were planned, then where they were;
whoever was planned for what cannot run helps out before anybody else is called away.  A task that is behind
its plan grows by those who would practise at the bench.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled_bare
from setday.timetable.classwork.arrays import ATTENTION, FILLER, LEAST, MOST, PLACE, ClassArrays
from setday.timetable.repair.choosing import (
    ALIVE,
    BEGUN,
    CREW,
    EARLIEST,
    ENDED,
    LEFT,
    NOBODY,
    WAITS,
    Kept,
    place_one,
    take_off,
)

__all__ = ["BEGUN", "ENDED", "HOLD", "ORDER", "PRESS", "WISH", "Scratch", "play_kept"]

Ints = NDArray[np.int32]

ORDER, HOLD, WISH, PRESS = range(4)
"""Rows of a plan: the list, the first period in which a task takes its turn, the crew where none was
planned, and first in the last row the period from which every crew grows as far as it can."""


class Scratch(NamedTuple):
    """Arrays the play works in: state by task, crew room by place, who was last where."""

    state: Ints
    room: Ints
    last: Ints


@compiled_bare
def play_kept(plan: Ints, a: ClassArrays, k: Kept, work: Ints, scratch: Scratch, on: Ints) -> int:
    """Play `plan`; fill `on`, and the first and last periods in the state.

    Return how many periods it takes until all work is finished; where the calendar is too short, its
    length and one more for each task left.
    """
    state, room, last = scratch.state, scratch.room, scratch.last
    periods, students = on.shape
    undone = _begin(a, k, work, state)
    for student in range(students):
        last[student] = k.last[student]
    finish = 0
    for period in range(periods):
        for student in range(students):
            on[period, student] = NOBODY
        if undone == 0:
            continue
        for place in range(room.shape[0]):
            room[place] = a.holds[place]
        _look(plan, period, a, k, state)
        _staff_planned(plan, period, a, k, state, room, last, on)
        _grow(plan, period, a, k, state, room, last, on)
        _bench(period, a, k, state, room, last, on)
        done = _work_off(period, a, state)
        if done:
            finish = period + 1
        undone -= done
        for student in range(students):
            if on[period, student] != NOBODY:
                last[student] = on[period, student]
    return int(finish if undone == 0 else periods + undone)


@compiled_bare
def _begin(a: ClassArrays, k: Kept, work: Ints, state: Ints) -> int:
    undone, periods = 0, a.minutes.shape[0]
    for task in range(state.shape[0]):
        state[task, LEFT] = work[task]
        state[task, WAITS] = a.waits_at[task + 1] - a.waits_at[task]
        state[task, EARLIEST] = 0
        state[task, BEGUN] = -1 if k.runs[task] else periods
        state[task, ENDED] = periods
        undone += a.tasks[task, FILLER] == 0
    return undone


@compiled_bare
def _look(plan: Ints, period: int, a: ClassArrays, k: Kept, state: Ints) -> None:
    """Note which tasks can run in `period`, and take their crews off."""
    for task in range(state.shape[0]):
        state[task, CREW] = 0
        state[task, ALIVE] = 0
        if a.tasks[task, FILLER]:
            state[task, ALIVE] = 1
            continue
        if state[task, LEFT] <= 0 or state[task, WAITS] > 0 or state[task, EARLIEST] > period:
            continue
        turn = state[task, BEGUN] < period or plan[HOLD, task] <= period
        if a.open_in[task, period] and (turn or k.called[period, task]):
            state[task, ALIVE] = 1


@compiled_bare
def _staff_planned(
    plan: Ints, period: int, a: ClassArrays, k: Kept, state: Ints, room: Ints, last: Ints, on: Ints
) -> None:
    watch, minutes = a.attended[period], a.minutes[period]
    for turn in range(3):
        for index in range(state.shape[0]):
            task = plan[ORDER, index]
            if not state[task, ALIVE] or state[task, CREW] or a.tasks[task, FILLER]:
                continue
            if _turn(task, period, period >= plan[PRESS, 0], k, state) != turn or _clashes(task, a, state):
                continue
            least, place = a.tasks[task, LEAST], a.tasks[task, PLACE]
            if watch < a.tasks[task, ATTENTION] or room[place] < least:
                continue
            crew = k.planned[period, task] or plan[WISH, task]
            if not k.planned[period, task]:
                crew = min(crew, -(-state[task, LEFT] // minutes))
            crew = max(least, min(crew, room[place], a.tasks[task, MOST]))
            placed = _staff(task, crew, period, a, k, state, last, on)
            if placed:
                state[task, CREW] = placed
                watch -= a.tasks[task, ATTENTION]
                room[place] -= placed


@compiled_bare
def _turn(task: int, period: int, pressed: bool, k: Kept, state: Ints) -> int:  # noqa: FBT001
    """Return 0 for a pinned task, 1 for one planned now or run over, 2 for others, 3 for one to wait.

    What runs and is planned for later again, with enough time for what is left, waits as planned.
    """
    if k.called[period, task]:
        return 0
    if k.planned[period, task] or (state[task, BEGUN] < period and k.ahead[period, task] == 0):
        return 1
    if state[task, BEGUN] < period and state[task, LEFT] <= k.ahead[period, task] and not pressed:
        return 3
    return 2


@compiled_bare
def _clashes(task: int, a: ClassArrays, state: Ints) -> bool:
    index = 0
    while a.apart[task, index] != NOBODY:
        if state[a.apart[task, index], CREW] > 0:
            return True
        index += 1
    return False


@compiled_bare
def _staff(
    task: int, crew: int, period: int, a: ClassArrays, k: Kept, state: Ints, last: Ints, on: Ints
) -> int:
    """Place `crew` students, as many as can be spared but at least the least; return how many, or 0."""
    placed = 0
    while placed < crew:
        how = 1 if placed >= a.tasks[task, LEAST] else 0
        if not place_one(task, period, how, a, k, state, last, on):
            break
        placed += 1
    if placed < a.tasks[task, LEAST]:
        take_off(task, period, on)
        return 0
    return placed


@compiled_bare
def _grow(
    plan: Ints, period: int, a: ClassArrays, k: Kept, state: Ints, room: Ints, last: Ints, on: Ints
) -> None:
    """Let crews that are behind their plan grow, then any, by those whose planned task cannot run."""
    minutes = a.minutes[period]
    pressed = period >= plan[PRESS, 0]
    for blocked in range(2):
        for index in range(state.shape[0]):
            task = plan[ORDER, index]
            if state[task, CREW] == 0 or a.tasks[task, FILLER]:
                continue
            most = min(a.tasks[task, MOST], -(-state[task, LEFT] // minutes))
            if blocked == 0 and not pressed:
                behind = state[task, LEFT] - k.ahead[period, task]
                most = min(most, k.planned[period, task] - (-behind // minutes))
            how = 2 if blocked else 1
            while state[task, CREW] < most and room[a.tasks[task, PLACE]] > 0:
                if not place_one(task, period, how, a, k, state, last, on):
                    break
                state[task, CREW] += 1
                room[a.tasks[task, PLACE]] -= 1


@compiled_bare
def _bench(period: int, a: ClassArrays, k: Kept, state: Ints, room: Ints, last: Ints, on: Ints) -> None:
    """Whoever is left over goes to the bench planned, or to any."""
    for student in range(on.shape[1]):
        wanted = k.old[period, student]
        if on[period, student] != NOBODY or not k.present[period, student] or wanted == NOBODY:
            continue
        if a.tasks[wanted, FILLER] and a.may[wanted, student]:
            place = a.tasks[wanted, PLACE]
            if room[place] > 0 and state[wanted, CREW] < a.tasks[wanted, MOST]:
                on[period, student] = wanted
                state[wanted, CREW] += 1
                room[place] -= 1
    for task in range(state.shape[0]):
        if a.tasks[task, FILLER]:
            place = a.tasks[task, PLACE]
            while state[task, CREW] < a.tasks[task, MOST] and room[place] > 0:
                if not place_one(task, period, 3, a, k, state, last, on):
                    break
                state[task, CREW] += 1
                room[place] -= 1


@compiled_bare
def _work_off(period: int, a: ClassArrays, state: Ints) -> int:
    """Take this period's work off; open what waited for what is finished; return how many finished."""
    done, periods = 0, a.minutes.shape[0]
    for task in range(state.shape[0]):
        if a.tasks[task, FILLER] or state[task, ENDED] < periods or state[task, WAITS] > 0:
            continue
        crew = state[task, CREW]
        mark = state[task, LEFT] <= 0 and state[task, EARLIEST] <= period and a.open_in[task, period] > 0
        state[task, LEFT] -= crew * a.minutes[period]
        if crew > 0 and state[task, BEGUN] == periods:
            state[task, BEGUN] = period
        if (crew > 0 and state[task, LEFT] <= 0) or mark:
            state[task, ENDED] = period
            done += 1
    for task in range(state.shape[0]):
        if state[task, ENDED] == period:
            for link in range(a.waiting_at[task], a.waiting_at[task + 1]):
                after = a.waiting[link]
                state[after, WAITS] -= 1
                begin = a.ready_from[a.waiting_kind[link], period]
                state[after, EARLIEST] = max(state[after, EARLIEST], begin)
    return done
