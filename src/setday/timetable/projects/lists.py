"""Timetables from lists: each task in turn at the first (or last) place where everything fits.

Compiled with numba; every function here takes the flat arrays of `arrays.ProjectArrays`.  The serial
schedule-generation scheme and the double justification are textbook methods (R. Kolisch, European Journal
of Operational Research 90, 1996; V. Valls, F. Ballestin and S. Quintanilla, ibid. 165, 2005).
"""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled

__all__ = ["forward", "scratch_for", "squeeze"]

Ints = NDArray[np.int32]
Words = NDArray[np.int64]
Arrays = tuple[NDArray[Any], ...]


@compiled
def _turn_round(order: Ints) -> None:
    count = order.shape[0]
    for place in range(count // 2):
        order[place], order[count - 1 - place] = order[count - 1 - place], order[place]


@compiled
def forward(order: Ints, arrays: Arrays, free: Words, start: Ints) -> int:
    """Place each task of `order` as early as it fits; fill `start`, return the finish.

    `order` has to name every task after those it waits for.  `free` is scratch of the shape of the rooms.
    """
    durations, releases, before_at, before, before_lag = arrays[0], arrays[1], arrays[4], arrays[5], arrays[6]
    loads, guard = arrays[11], arrays[13][0]
    free[:, :] = arrays[12]
    words = loads.shape[1]
    finish = 0
    for place in range(order.shape[0]):
        task = order[place]
        length = durations[task]
        at = releases[task]
        for link in range(before_at[task], before_at[task + 1]):
            ready = start[before[link]] + durations[before[link]] + before_lag[link]
            at = max(at, ready)
        for word in range(words):
            load = loads[task, word]
            period = at
            while period < at + length:
                if (free[period, word] - load) & guard != guard:
                    at = period + 1
                period += 1
        if words > 1:
            at = _fits_at(free, loads, task, at, length, guard)
        for period in range(at, at + length):
            for word in range(words):
                free[period, word] -= loads[task, word]
        start[task] = at
        finish = max(finish, at + length)
    return finish


@compiled
def _fits_at(free: Words, loads: Words, task: int, at: int, length: int, guard: int) -> int:
    """Return the first period from `at` on where a task fits by all words."""
    period = at
    while period < at + length:
        for word in range(loads.shape[1]):
            if (free[period, word] - loads[task, word]) & guard != guard:
                at = period + 1
                break
        period += 1
    return at


@compiled
def backward(order: Ints, arrays: Arrays, deadline: int, free: Words, start: Ints) -> bool:
    """Place each task of `order` as late as it fits before `deadline`; fill `start`.

    `order` has to name every task before those it waits for.  Return False when something would have to
    start before its release; `start` then holds no timetable.
    """
    durations, releases = arrays[0], arrays[1]
    after_at, after, after_lag = arrays[7], arrays[8], arrays[9]
    loads, guard = arrays[11], arrays[13][0]
    free[:, :] = arrays[12]
    words = loads.shape[1]
    for place in range(order.shape[0]):
        task = order[place]
        length = durations[task]
        end = deadline
        for link in range(after_at[task], after_at[task + 1]):
            end = min(end, start[after[link]] - after_lag[link])
        period = end - 1
        while period >= end - length:
            if period < 0:
                return False
            for word in range(words):
                if (free[period, word] - loads[task, word]) & guard != guard:
                    end = period
                    break
            period -= 1
        if end - length < releases[task]:
            return False
        for period in range(end - length, end):
            for word in range(words):
                free[period, word] -= loads[task, word]
        start[task] = end - length
    return True


@compiled
def in_turn(order: Ints, keys: Ints, sorted_: Ints, counts: Ints) -> None:
    """Sort `order` by the keys of its tasks, ties as they stood (counting sort).

    `sorted_` and `counts` are scratch; `counts` has a place more than the largest key.
    """
    top = 0
    for task in range(keys.shape[0]):
        top = max(top, keys[task])
    counts[: top + 2] = 0
    for task in range(keys.shape[0]):
        counts[keys[task] + 1] += 1
    for key in range(1, top + 1):
        counts[key] += counts[key - 1]
    for place in range(order.shape[0]):
        task = order[place]
        sorted_[counts[keys[task]]] = task
        counts[keys[task]] += 1
    order[:] = sorted_


@compiled
def scratch_for(arrays: Arrays) -> Ints:
    """Return the scratch that `squeeze` works on."""
    return np.empty((4, max(arrays[0].shape[0], arrays[12].shape[0]) + 2), dtype=np.int32)


@compiled
def squeeze(order: Ints, arrays: Arrays, free: Words, start: Ints, scratch: Ints) -> int:
    """Place `order` forward, push all late, pull all early; leave `order` sorted by the new starts.

    Return the finish.  Marks of length nothing keep to their links: a task of length 0 sorts before those
    that wait for it, since `order` was sorted stably from a list that did.
    """
    durations = arrays[0]
    count = order.shape[0]
    late_start, keys, spare, counts = scratch[0, :count], scratch[1, :count], scratch[2, :count], scratch[3]
    finish = forward(order, arrays, free, start)
    _turn_round(order)
    for task in range(count):
        keys[task] = finish - start[task] - durations[task]
    in_turn(order, keys, spare, counts)
    pushed = backward(order, arrays, finish, free, late_start)
    _turn_round(order)
    if pushed:
        in_turn(order, late_start, spare, counts)
        finish = forward(order, arrays, free, start)
    in_turn(order, start, spare, counts)
    return finish
