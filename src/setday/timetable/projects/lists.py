"""Timetables from lists: each task in turn at the first (or last) place where everything fits.

Compiled with numba; every function here takes the flat arrays of `arrays.ProjectArrays`.  The serial
schedule-generation scheme and the double justification are textbook methods (R. Kolisch, European Journal
of Operational Research 90, 1996; V. Valls, F. Ballestin and S. Quintanilla, ibid. 165, 2005).
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled

__all__ = ["by_finish_backward", "by_start_forward", "forward", "squeeze"]

Ints = NDArray[np.int32]
Arrays = tuple[Ints, ...]


@compiled
def _turn_round(order: Ints) -> None:
    count = order.shape[0]
    for place in range(count // 2):
        order[place], order[count - 1 - place] = order[count - 1 - place], order[place]


@compiled
def forward(order: Ints, arrays: Arrays, free: Ints, start: Ints) -> int:
    """Place each task of `order` as early as it fits; fill `start`, return the finish.

    `order` has to name every task after those it waits for.  `free` is scratch of the profile's shape.
    """
    durations, releases, demands, profile, before_at, before, before_lag = arrays[:7]
    free[:, :] = profile
    resources = demands.shape[1]
    finish = 0
    for place in range(order.shape[0]):
        task = order[place]
        length = durations[task]
        at = releases[task]
        for link in range(before_at[task], before_at[task + 1]):
            ready = start[before[link]] + durations[before[link]] + before_lag[link]
            at = max(at, ready)
        period = at
        while period < at + length:
            for resource in range(resources):
                if free[period, resource] < demands[task, resource]:
                    at = period + 1
                    break
            period += 1
        for period in range(at, at + length):
            for resource in range(resources):
                free[period, resource] -= demands[task, resource]
        start[task] = at
        finish = max(finish, at + length)
    return finish


@compiled
def backward(order: Ints, arrays: Arrays, deadline: int, free: Ints, start: Ints) -> bool:
    """Place each task of `order` as late as it fits before `deadline`; fill `start`.

    `order` has to name every task before those it waits for.  Return False when something would have to
    start before its release; `start` then holds no timetable.
    """
    durations, releases, demands, profile = arrays[:4]
    after_at, after, after_lag = arrays[7:10]
    free[:, :] = profile
    resources = demands.shape[1]
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
            for resource in range(resources):
                if free[period, resource] < demands[task, resource]:
                    end = period
                    break
            period -= 1
        if end - length < releases[task]:
            return False
        for period in range(end - length, end):
            for resource in range(resources):
                free[period, resource] -= demands[task, resource]
        start[task] = end - length
    return True


@compiled
def by_start_forward(order: Ints, start: Ints) -> None:
    """Sort `order` by start, ties as they stood (insertion sort: the list is nearly sorted)."""
    for place in range(1, order.shape[0]):
        task = order[place]
        key = start[task]
        back = place - 1
        while back >= 0 and start[order[back]] > key:
            order[back + 1] = order[back]
            back -= 1
        order[back + 1] = task


@compiled
def by_finish_backward(order: Ints, start: Ints, durations: Ints) -> None:
    """Sort `order` by finish, the last first, ties turned round."""
    _turn_round(order)
    for place in range(1, order.shape[0]):
        task = order[place]
        key = start[task] + durations[task]
        back = place - 1
        while back >= 0 and start[order[back]] + durations[order[back]] < key:
            order[back + 1] = order[back]
            back -= 1
        order[back + 1] = task


@compiled
def squeeze(order: Ints, arrays: Arrays, free: Ints, start: Ints, late_start: Ints) -> int:
    """Place `order` forward, push all late, pull all early; leave `order` sorted by the new starts.

    Return the finish.  Marks of length nothing keep to their links: a task of length 0 sorts before those
    that wait for it, since `order` was sorted stably from a list that did.
    """
    finish = forward(order, arrays, free, start)
    by_finish_backward(order, start, arrays[0])
    pushed = backward(order, arrays, finish, free, late_start)
    _turn_round(order)
    if pushed:
        by_start_forward(order, late_start)
        finish = forward(order, arrays, free, start)
    by_start_forward(order, start)
    return finish
