"""Mixing and shuffling lists of tasks, compiled; the searches of projects and of classes both breed by it."""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled

__all__ = ["mix", "move"]

Ints = NDArray[np.int32]


@compiled
def mix(first: Ints, second: Ints, low: int, high: int, child: Ints, taken: Ints) -> None:
    """Fill `child`: `first` from place `low` to `high`; what lies before and after it as in `second`.

    When both lists name every task after those it waits for, so does the child.  `taken` is scratch.
    """
    count = first.shape[0]
    for place in range(count):
        taken[first[place]] = 0 if place < low else (1 if place < high else 2)
    early, end = 0, high
    for place in range(count):
        task = second[place]
        if taken[task] == 0:
            child[early] = task
            early += 1
        elif taken[task] == 2:
            child[end] = task
            end += 1
    for place in range(low, high):
        child[place] = first[place]


@compiled
def move(order: Ints, place: int, aim: int) -> None:
    """Take the task at `place` out and put it in at `aim`; those between close up."""
    task = order[place]
    step = 1 if aim > place else -1
    while place != aim:
        order[place] = order[place + step]
        place += step
    order[aim] = task
