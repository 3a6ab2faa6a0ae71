"""Breeding better lists: a genetic search over task lists, compiled.

Every list is squeezed (`lists.squeeze`) before it is weighed.  A child takes a stretch of one parent where
the resources are busiest, in that parent's order, and everything before and after it in the order of the
other (after V. Valls, F. Ballestin and S. Quintanilla, European Journal of Operational Research 185, 2008,
who call the busy stretches peaks).  A list that finishes no later than the worst takes its place.
"""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.mixing import mix, move
from setday.timetable.projects.lists import forward, scratch_for, squeeze

__all__ = ["breed", "plain_finish", "sow"]

Ints = NDArray[np.int32]
Arrays = tuple[NDArray[Any], ...]

SHARPNESS = 2.0
"""How much likelier an urgent task is drawn while sowing."""


@compiled
def sow(seed: int, arrays: Arrays, lists: Ints, starts: Ints, finishes: Ints) -> None:
    """Fill the population with random lists that favour tasks with an early latest finish."""
    np.random.seed(seed)
    size = lists.shape[0]
    free = np.empty_like(arrays[12])
    scratch = scratch_for(arrays)
    for member in range(size):
        _random_list(arrays, lists[member], np.inf if member == 0 else SHARPNESS)
        finishes[member] = squeeze(lists[member], arrays, free, starts[member], scratch)


@compiled
def plain_finish(arrays: Arrays) -> int:
    """Return the finish of the list that always takes the task with the earliest latest finish."""
    count = arrays[0].shape[0]
    order = np.empty(count, dtype=np.int32)
    _random_list(arrays, order, np.inf)
    return int(forward(order, arrays, np.empty_like(arrays[12]), np.empty(count, dtype=np.int32)))


@compiled
def _random_list(arrays: Arrays, order: Ints, sharpness: float) -> None:
    """Fill `order`, tasks with an early latest finish likelier first; infinitely sharp: always first."""
    after_at, after, late = arrays[7], arrays[8], arrays[10]
    before_at = arrays[4]
    count = order.shape[0]
    waits = np.empty(count, dtype=np.int32)
    ready = np.empty(count, dtype=np.int32)
    many = 0
    for task in range(count):
        waits[task] = before_at[task + 1] - before_at[task]
        if waits[task] == 0:
            ready[many] = task
            many += 1
    for place in range(count):
        pick = _pick(ready, many, late, sharpness)
        task = ready[pick]
        many -= 1
        ready[pick] = ready[many]
        order[place] = task
        for link in range(after_at[task], after_at[task + 1]):
            waits[after[link]] -= 1
            if waits[after[link]] == 0:
                ready[many] = after[link]
                many += 1


@compiled
def _pick(ready: Ints, many: int, late: Ints, sharpness: float) -> int:
    worst = late[ready[0]]
    best = 0
    for index in range(many):
        worst = max(worst, late[ready[index]])
        if late[ready[index]] < late[ready[best]]:
            best = index
    if np.isinf(sharpness):
        return best
    total = 0.0
    for index in range(many):
        total += (worst - late[ready[index]] + 1.0) ** sharpness
    aim = np.random.random() * total
    for index in range(many):
        aim -= (worst - late[ready[index]] + 1.0) ** sharpness
        if aim <= 0.0:
            return index
    return many - 1


@compiled
def breed(
    seed: int, rounds: int, goal: int, arrays: Arrays, lists: Ints, starts: Ints, finishes: Ints
) -> int:
    """Let the population breed `rounds` children or until one finishes by `goal`; return the best member."""
    np.random.seed(seed)
    count = lists.shape[1]
    free = np.empty_like(arrays[12])
    child = np.empty(count, dtype=np.int32)
    begun = np.empty(count, dtype=np.int32)
    scratch = scratch_for(arrays)
    taken = np.empty(count, dtype=np.int32)
    best = int(np.argmin(finishes))
    for _ in range(rounds):
        if finishes[best] <= goal:
            break
        father, mother = _parents(finishes)
        _cross(arrays, lists[father], starts[father], lists[mother], child, taken)
        _shake(arrays, child, taken)
        finish = squeeze(child, arrays, free, begun, scratch)
        place = _place_for(finish, begun, starts, finishes)
        if place >= 0:
            lists[place, :] = child
            starts[place, :] = begun
            finishes[place] = finish
            if finish < finishes[best]:
                best = place
    return int(best)


@compiled
def _parents(finishes: Ints) -> tuple[int, int]:
    size = finishes.shape[0]
    father = np.random.randint(size)
    rival = np.random.randint(size)
    if finishes[rival] < finishes[father]:
        father = rival
    mother = np.random.randint(size)
    rival = np.random.randint(size)
    if finishes[rival] < finishes[mother]:
        mother = rival
    if mother == father:
        mother = (father + 1 + np.random.randint(size - 1)) % size
    return father, mother


@compiled
def _cross(arrays: Arrays, first: Ints, begun: Ints, second: Ints, child: Ints, taken: Ints) -> None:
    """Fill `child`: a busy stretch of `first`, what lies before and after it in the order of `second`."""
    low, high = _busy_stretch(arrays, first, begun)
    mix(first, second, low, high, child, taken)


@compiled
def _busy_stretch(arrays: Arrays, order: Ints, begun: Ints) -> tuple[int, int]:
    """Return places (low, high) of the busiest of a few random stretches of `order`."""
    durations, demands, profile = arrays[0], arrays[2], arrays[3]
    count = order.shape[0]
    best_low, best_high, best = 0, count, -1.0
    width = count // 4 + np.random.randint(max(1, count // 2))
    for _ in range(3):
        low = np.random.randint(max(1, count - width))
        high = min(count, low + width)
        busy = 0.0
        for place in range(low, high):
            task = order[place]
            for resource in range(demands.shape[1]):
                room = max(1, profile[begun[task], resource])
                busy += durations[task] * demands[task, resource] / room
        span = begun[order[high - 1]] - begun[order[low]] + 1
        if busy / span > best:
            best_low, best_high, best = low, high, busy / span
    return best_low, best_high


@compiled
def _shake(arrays: Arrays, child: Ints, at: Ints) -> None:
    """Move a few tasks of `child` to another place that their links allow."""
    before_at, before, after_at, after = arrays[4], arrays[5], arrays[7], arrays[8]
    count = child.shape[0]
    moves = np.random.randint(4)
    for _ in range(moves):
        for place in range(count):
            at[child[place]] = place
        place = np.random.randint(count)
        task = child[place]
        low, high = 0, count - 1
        for link in range(before_at[task], before_at[task + 1]):
            low = max(low, at[before[link]] + 1)
        for link in range(after_at[task], after_at[task + 1]):
            high = min(high, at[after[link]] - 1)
        aim = low + np.random.randint(high - low + 1)
        move(child, place, aim)


@compiled
def _place_for(finish: int, begun: Ints, starts: Ints, finishes: Ints) -> int:
    """Return which member the child replaces, or -1: the worst, unless an equal timetable is there."""
    worst = 0
    ties = 0
    for member in range(finishes.shape[0]):
        if finishes[member] == finish:
            same = True
            for task in range(begun.shape[0]):
                if starts[member, task] != begun[task]:
                    same = False
                    break
            if same:
                return -1
        if finishes[member] > finishes[worst]:
            worst = member
            ties = 1
        elif finishes[member] == finishes[worst]:
            ties += 1
            if np.random.randint(ties) == 0:
                worst = member
    return worst if finish <= finishes[worst] else -1
