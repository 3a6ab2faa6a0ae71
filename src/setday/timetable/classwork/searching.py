"""Looking for the list whose play ends earliest: the genetic search of the hard core, on class problems.

Compiled.  A child keeps a stretch of one parent's list and takes the rest in the order of the other.  Lists
are weighed by the pins kept, by the finish, by the places that differ from a timetable to stay near, then by
how early tasks end on the whole, so that a list just as long but with more behind it wins.

A member has three rows: the list, the crew wished for by task, and first in the last row the period until
which the timetable to stay near is followed.
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.classwork.arrays import FILLER, LEAST, MOST, PLACE, ClassArrays, GivenArrays
from setday.timetable.classwork.policy import HOLD, play
from setday.timetable.mixing import mix, move

__all__ = ["FINISH", "breed", "replay", "sow"]

Ints = NDArray[np.int32]
Weights = NDArray[np.int64]

FINISH = 1_000_000
"""Weight of one period of finish against one of a task's end."""


PINS = 10_000
"""Periods of finish that a pin not kept weighs."""


JUSTIFIED = 1.0
"""Share of children that are played from the end too."""


LEAVE = 300
"""What one who leaves a task that goes on weighs, against one period of one task's end."""


@compiled
def replay(member: Ints, a: ClassArrays, g: GivenArrays, work: Ints, spans: Ints, on: Ints) -> int:
    """Play a member; return what is minimised: pins not kept, the finish, places changed, all ends."""
    finish, leaves = play(member[0], member[1], member[2, 0], a, g, work, spans, on)
    total = np.int64(max(finish, g.good)) * FINISH + LEAVE * leaves
    if g.bound:
        total += _off(g.since, g.asked, g.called, g.near, g.present, g.change, on)
    for task in range(spans.shape[0]):
        if not a.tasks[task, FILLER]:
            total += spans[task, 1]
    return int(total)


@compiled
def _off(since: int, asked: Ints, called: Ints, near: Ints, present: Ints, change: Weights, on: Ints) -> int:
    """Return what pins not kept weigh, and places that differ from the timetable to stay near."""
    total = np.int64(0)
    for period in range(since, on.shape[0]):
        for student in range(on.shape[1]):
            pinned, beside = asked[period, student], near[period, student]
            if pinned >= 0 and on[period, student] != pinned:
                total += np.int64(PINS) * FINISH
            if beside >= 0 and present[period, student] and on[period, student] != beside:
                total += change[period]
        for task in range(called.shape[1]):
            if called[period, task] and not (on[period] == task).any():
                total += np.int64(PINS) * FINISH
    return int(total)


@compiled
def _urgency(a: ClassArrays, work: Ints) -> Ints:
    """Return for each task the work that hangs behind it by its longest chain, least crews counted."""
    tasks = work.shape[0]
    behind = np.zeros(tasks, dtype=np.int32)
    for _ in range(tasks):
        changed = False
        for task in range(tasks):
            own = work[task] // max(1, a.tasks[task, MOST]) + a.minutes[0]
            most = 0
            for link in range(a.waiting_at[task], a.waiting_at[task + 1]):
                most = max(most, behind[a.waiting[link]])
            if own + most > behind[task]:
                behind[task] = own + most
                changed = True
        if not changed:
            break
    return behind


@compiled
def sow(seed: int, a: ClassArrays, g: GivenArrays, work: Ints, lists: Ints, weights: Weights) -> None:
    """Fill the population: the first list by urgency, the others by urgency with noise.

    Where there is a timetable to stay near, all but the first follow it, every other one to its end.
    """
    np.random.seed(seed)
    size, tasks = lists.shape[0], work.shape[0]
    behind = _urgency(a, work)
    spans = np.empty((tasks, 2), dtype=np.int32)
    on = np.empty(g.present.shape, dtype=np.int32)
    keys = np.empty(tasks)
    most = np.flatnonzero(g.change > 0)
    end = most[-1] + 1 if most.shape[0] else 0
    for member in range(size):
        noise = 0.0 if member == 0 else np.random.random() * 0.8
        for task in range(tasks):
            keys[task] = -behind[task] * (1.0 + noise * (np.random.random() - 0.5) * 2.0)
        lists[member, 0] = np.argsort(keys)
        for task in range(tasks):
            more = a.tasks[task, MOST] - a.tasks[task, LEAST]
            lists[member, 1, task] = a.tasks[task, LEAST]
            if member % 2:
                lists[member, 1, task] += np.random.randint(more + 1)
            elif member > 0:
                lists[member, 1, task] = _steady(a, task, work[task])
            if member >= 2:
                lists[member, 1, task] += HOLD * np.random.randint(4)
        lists[member, 2, 0] = 0 if member == 0 else (end if member % 2 else np.random.randint(end + 1))
        weights[member] = replay(lists[member], a, g, work, spans, on)


@compiled
def _steady(a: ClassArrays, task: int, work: int) -> int:
    """Return the smallest crew with which a task runs for no more periods than with its largest."""
    most = max(1, min(a.tasks[task, MOST], a.holds[a.tasks[task, PLACE]]))
    heads = max(1, -(-work // a.minutes.max()))
    runs = -(-heads // most)
    return int(max(a.tasks[task, LEAST], -(-heads // runs)))


@compiled
def breed(
    seed: int,
    rounds: int,
    goal: int,
    a: ClassArrays,
    g: GivenArrays,
    work: Ints,
    back: ClassArrays,
    given_back: GivenArrays,
    lists: Ints,
    weights: Weights,
) -> int:
    """Let the population breed `rounds` children or until one finishes by `goal`; return the best member.

    `back` and `given_back` are the calendar turned round, for children that are played from the end too.
    """
    np.random.seed(seed)
    tasks = work.shape[0]
    spans = np.empty((tasks, 2), dtype=np.int32)
    on, on_back = (
        np.empty(g.present.shape, dtype=np.int32),
        np.empty(given_back.present.shape, dtype=np.int32),
    )
    child, taken = np.zeros((3, tasks), dtype=np.int32), np.empty(tasks, dtype=np.int32)
    best = int(np.argmin(weights))
    for _ in range(rounds):
        if weights[best] // FINISH <= goal:
            break
        first, second = lists[_parent(weights)], lists[_parent(weights)]
        _cross(first[0], second[0], child[0], taken)
        _shake(child[0])
        _wish(a.tasks, first[1], second[1], child[1])
        child[2, 0] = _until(first[2, 0], second[2, 0])
        weight = replay(child, a, g, work, spans, on)
        _let_in(child, weight, lists, weights)
        if g.bound == 0 and g.since == 0 and np.random.random() < JUSTIFIED:
            child[0] = np.argsort(-spans[:, 1], kind="mergesort")
            play(child[0], child[1], 0, back, given_back, work, spans, on_back)
            child[0] = np.argsort(-spans[:, 1], kind="mergesort")
            _let_in(child, replay(child, a, g, work, spans, on), lists, weights)
        best = int(np.argmin(weights))
    return best


@compiled
def _let_in(child: Ints, weight: int, lists: Ints, weights: Weights) -> None:
    """Let a child take the place of the worst member, if it is better and unlike all others."""
    worst = int(np.argmax(weights))
    if weight < weights[worst] and not (weights == weight).any():
        lists[worst, :] = child
        weights[worst] = weight


@compiled
def _until(first: int, second: int) -> int:
    """Return until when a child follows: as one parent, or now and then some other period up to theirs."""
    until = first if np.random.random() < 0.5 else second
    if np.random.random() < 0.2:
        until = np.random.randint(max(first, second) + 1)
    return int(until)


@compiled
def _parent(weights: Weights) -> int:
    one, other = np.random.randint(weights.shape[0]), np.random.randint(weights.shape[0])
    return one if weights[one] < weights[other] else other


@compiled
def _cross(first: Ints, second: Ints, child: Ints, taken: Ints) -> None:
    """Fill `child`: a stretch of `first`, what lies before and after it in the order of `second`."""
    count = first.shape[0]
    low = np.random.randint(count)
    high = min(count, low + 1 + np.random.randint(max(1, count // 2)))
    mix(first, second, low, high, child, taken)


@compiled
def _shake(child: Ints) -> None:
    """Move a few tasks to other places of the list."""
    count = child.shape[0]
    for _ in range(np.random.randint(4)):
        move(child, np.random.randint(count), np.random.randint(count))


@compiled
def _wish(tasks: Ints, first: Ints, second: Ints, child: Ints) -> None:
    """Fill the crews wished for from either parent; now and then another size."""
    for task in range(child.shape[0]):
        child[task] = first[task] if np.random.random() < 0.5 else second[task]
        if np.random.random() < 0.01:
            more = tasks[task, MOST] - tasks[task, LEAST]
            child[task] = tasks[task, LEAST] + np.random.randint(more + 1) + child[task] // HOLD * HOLD
        if np.random.random() < 0.01:
            child[task] = child[task] % HOLD + HOLD * np.random.randint(4)
