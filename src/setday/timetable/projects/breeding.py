"""Breeding better lists: a genetic search over task lists, compiled.

Every list is squeezed (`lists.squeeze`) before it is weighed. A child takes a stretch of one parent in that
parent's order, and everything before and after it in the order of the other (two-point crossover, S.
Hartmann, Naval Research Logistics 45, 1998); then a few of its tasks are moved. A child that finishes no
later than the later of its parents takes that parent's place, unless the same timetable is there already:
lists compete with their own kind only, so that many kinds live on side by side (crowding, S. W. Mahfoud,
Parallel Problem Solving from Nature 2, 1992).
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

MOVES = 4
"""Tasks moved at the most in one child."""


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
        father, mother = _parents(finishes.shape[0])
        low, high = _stretch(count)
        mix(lists[father], lists[mother], low, high, child, taken)
        _shake(arrays, child, taken)
        finish = squeeze(child, arrays, free, begun, scratch)
        place = father if finishes[father] > finishes[mother] else mother
        if finish <= finishes[place] and not _is_known(finish, begun, starts, finishes):
            lists[place, :] = child
            starts[place, :] = begun
            finishes[place] = finish
            if finish < finishes[best]:
                best = place
    return int(best)


@compiled
def _parents(size: int) -> tuple[int, int]:
    """Return two different members."""
    father = np.random.randint(size)
    mother = np.random.randint(size - 1)
    return father, mother + 1 if mother >= father else mother


@compiled
def _stretch(count: int) -> tuple[int, int]:
    """Return places (low, high) of a random stretch, at least one long."""
    one, other = np.random.randint(count), np.random.randint(count)
    return min(one, other), max(one, other) + 1


@compiled
def _shake(arrays: Arrays, child: Ints, at: Ints) -> None:
    """Move a few tasks of `child` to another place that their links allow."""
    before_at, before, after_at, after = arrays[4], arrays[5], arrays[7], arrays[8]
    count = child.shape[0]
    for _ in range(np.random.randint(MOVES + 1)):
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
def _is_known(finish: int, begun: Ints, starts: Ints, finishes: Ints) -> bool:
    """Return whether a member is the same timetable."""
    for member in range(finishes.shape[0]):
        if finishes[member] == finish:
            same = True
            for task in range(begun.shape[0]):
                if starts[member, task] != begun[task]:
                    same = False
                    break
            if same:
                return True
    return False
