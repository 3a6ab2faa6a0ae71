"""Looking for the plan that keeps most of a timetable: small changes, kept when little is lost by them.

Compiled.  What is minimised: pins not kept, work not done, a finish later than allowed, tasks that begin in
another period than planned, students who are elsewhere than planned, the near ones first, and the finish.
"""

import math

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled, compiled_bare
from setday.timetable.classwork.arrays import FILLER, LEAST, MOST, ClassArrays
from setday.timetable.mixing import move
from setday.timetable.repair.choosing import BEGUN, ENDED, Kept
from setday.timetable.repair.keeping import HOLD, ORDER, PRESS, WISH, Scratch, play_kept

__all__ = ["better", "weigh"]

Ints = NDArray[np.int32]

PIN, LATE, OVER, MOVED_NEAR, MOVED, PLACE_NEAR, PLACE_FAR, FINISH = (
    1_000_000,
    6000,
    500,
    500,
    300,
    100,
    4,
    300,
)
"""Weights of a pin not kept, a period later than allowed, a period by which one task is over that, a task
moved near or far, a place changed near or far, a period of finish."""


@compiled_bare
def weigh(finish: int, good: int, near: int, a: ClassArrays, k: Kept, scratch: Scratch, on: Ints) -> int:
    """Return what a timetable costs; finishes up to `good` are allowed, periods before `near` are near."""
    total = max(0, finish - good) * LATE + finish * FINISH
    periods, students = on.shape
    for task in range(scratch.state.shape[0]):
        was, now = k.begins[task], scratch.state[task, BEGUN]
        if a.tasks[task, FILLER] == 0:
            total += max(0, scratch.state[task, ENDED] + 1 - good) * OVER
        if a.tasks[task, FILLER] == 0 and k.runs[task] == 0 and was < periods and was != now:
            total += MOVED_NEAR if min(was, now) < near else MOVED
    for period in range(periods):
        for student in range(students):
            is_on, pinned, was = on[period, student], k.pinned[period, student], k.old[period, student]
            if pinned >= 0 and is_on != pinned:
                total += PIN
            if was >= 0 and is_on != was and k.present[period, student] and period < finish:
                total += PLACE_NEAR if period < near else PLACE_FAR
    return int(total + PIN * _uncalled(k, on))


@compiled_bare
def _uncalled(k: Kept, on: Ints) -> int:
    """Return how many tasks do not run in a period they are pinned to."""
    many = 0
    for index in range(k.calls.shape[0]):
        period, task = k.calls[index, 0], k.calls[index, 1]
        runs = 0
        for student in range(on.shape[1]):
            runs += on[period, student] == task
        many += runs == 0
    return many


@compiled
def better(
    seed: int,
    rounds: int,
    heats: tuple[float, float],
    bounds: tuple[int, int],
    plans: Ints,
    costs: NDArray[np.int64],
    a: ClassArrays,
    k: Kept,
    work: Ints,
    scratch: Scratch,
    on: Ints,
) -> None:
    """Change the plan `plans[0]` `rounds` times and keep the best in `plans[1]`; `costs` goes with them.

    `heats` are how much worse a change may be, at the start and at the end; `bounds` the latest finish
    allowed and the first period that is not near.
    """
    np.random.seed(seed)
    good, near = bounds
    trial = plans[0].copy()
    for number in range(rounds):
        heat = heats[0] * (heats[1] / heats[0]) ** (number / rounds)
        trial[:] = plans[0]
        _change(trial, a, k)
        finish = play_kept(trial, a, k, work, scratch, on)
        cost = weigh(finish, good, near, a, k, scratch, on)
        worse = cost - costs[0]
        if worse <= 0 or np.random.random() < math.exp(-worse / heat):
            plans[0] = trial
            costs[0] = cost
            if cost < costs[1]:
                plans[1] = trial
                costs[1] = cost


@compiled
def _change(plan: Ints, a: ClassArrays, k: Kept) -> None:
    """Change one to three things: a place in the list, a turn, a crew, or when to press."""
    tasks, periods = plan.shape[1], k.old.shape[0]
    for _ in range(1 + np.random.randint(3)):
        task = np.random.randint(tasks)
        what = np.random.random()
        if what < 0.4:
            place = np.random.randint(tasks)
            aim = min(tasks - 1, max(0, place + np.random.randint(-8, 9)))
            move(plan[ORDER], place, aim)
        elif what < 0.8:
            held = k.begins[task]
            if np.random.random() < 0.6:
                held = plan[HOLD, task] + np.random.randint(-3, 4)
            plan[HOLD, task] = min(periods, max(0, held))
        elif what < 0.97:
            more = a.tasks[task, MOST] - a.tasks[task, LEAST]
            plan[WISH, task] = a.tasks[task, LEAST] + np.random.randint(more + 1)
        else:
            plan[PRESS, 0] = np.random.randint(periods + 1)
