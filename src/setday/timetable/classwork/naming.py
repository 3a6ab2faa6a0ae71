"""What a timetable by name comes to: counts that annealing keeps up to date, and what they weigh; compiled.

What is weighed, in this order: places that differ from a timetable to stay near, hours wanted by trade,
students who leave a task before it is done though they are there, students new to a trade on a crew where
nobody knows it, students who rather work together, and how evenly the house's work is spread.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.classwork.aims import ClassAims
from setday.timetable.classwork.arrays import FILLER, PLACE, ClassArrays, GivenArrays

__all__ = ["AIMS", "Names", "count", "names_of", "put", "weight"]

Ints = NDArray[np.int32]
Longs = NDArray[np.int64]

SHORT, LEFT, ALONE, PARTED, UNEVEN, CHANGED = range(6)
"""Columns of what is counted."""

AIMS = np.array([30, 400, 40, 8, 1, 6], dtype=np.int64)
"""Weights: a minute short of a target, one who leaves, a crew without anyone who knows the trade, a pair
parted for a period, the square of each hour off a fair share, a change in the timetable to stay near."""


class Names(NamedTuple):
    """What the annealing keeps of one timetable; p periods, t tasks, q places.

    `crew[p, t]` and `people[p, q]` count heads, `shown[p, t]` those of a crew who know the trade, `total[t]`
    student-minutes, `got[s, r]` minutes by trade, `house[s]` minutes off the benches, `fair[s]` the share of
    them that would be even; `need[t]` the work.
    """

    on: Ints
    spans: Ints
    need: Ints
    crew: Ints
    people: Ints
    shown: Ints
    total: Ints
    got: Ints
    house: Ints
    fair: Ints


@compiled
def names_of(on: Ints, spans: Ints, work: Ints, a: ClassArrays, aims: ClassAims) -> Names:
    """Return the counts of a timetable by name."""
    periods, students = on.shape
    tasks, trades = a.tasks.shape[0], aims.knows.shape[1]
    n = Names(
        on.copy(),
        spans.copy(),
        work,
        np.zeros((periods, tasks), dtype=np.int32),
        np.zeros((periods, a.holds.shape[0]), dtype=np.int32),
        np.zeros((periods, tasks), dtype=np.int32),
        np.zeros(tasks, dtype=np.int32),
        np.zeros((students, trades), dtype=np.int32),
        np.zeros(students, dtype=np.int32),
        np.zeros(students, dtype=np.int32),
    )
    there = np.zeros(students)
    for period in range(periods):
        for student in range(students):
            if on[period, student] >= 0:
                put(period, student, on[period, student], 1, n, a, aims)
                there[student] += a.minutes[period]
    for student in range(students):
        n.fair[student] = n.house.sum() * there[student] / max(1.0, there.sum())
    return n


@compiled
def put(period: int, student: int, task: int, many: int, n: Names, a: ClassArrays, aims: ClassAims) -> None:
    """Count a student in on a task (`many` 1) or out (-1)."""
    if task < 0:
        return
    trade, minutes = aims.trade[task], many * a.minutes[period]
    n.crew[period, task] += many
    n.people[period, a.tasks[task, PLACE]] += many
    n.shown[period, task] += many * aims.knows[student, trade]
    n.total[task] += minutes
    n.got[student, trade] += minutes
    if not a.tasks[task, FILLER]:
        n.house[student] += minutes


@compiled
def _leaves(student: int, task: int, on: Ints, crew: Ints, spans: Ints, tasks: Ints, present: Ints) -> int:
    """Return how often a student leaves a task that goes on while the student is there."""
    if task < 0 or tasks[task, FILLER]:
        return 0
    many, on_it = 0, False
    for period in range(spans[task, 0], min(spans[task, 1] + 1, on.shape[0])):
        if crew[period, task] > 0 and present[period, student]:
            now = on[period, student] == task
            many += on_it and not now
            on_it = now
    return many


@compiled
def _own(student: int, got: Ints, wanted: Ints, house: Ints, fair: Ints) -> int:
    """Return what a student's hours weigh: short of targets, and off the fair share."""
    short = 0
    for trade in range(wanted.shape[1]):
        short += max(0, wanted[student, trade] - got[student, trade])
    off = (house[student] - fair[student]) / 60.0
    return int(AIMS[SHORT] * short + AIMS[UNEVEN] * off * off)


@compiled
def _parted(period: int, student: int, on: Ints, tasks: Ints, pals: Ints) -> int:
    """Return how many the student rather works with are on other crews of the house."""
    task = on[period, student]
    if task < 0 or tasks[task, FILLER]:
        return 0
    many = 0
    for pal in pals[student]:
        if pal < 0:
            break
        other = on[period, pal]
        many += other >= 0 and other != task and not tasks[other, FILLER]
    return many


@compiled
def _alone(period: int, task: int, crew: Ints, shown: Ints, tasks: Ints) -> int:
    """Return 1 for a crew in which nobody knows the trade."""
    if task < 0 or tasks[task, FILLER] or crew[period, task] == 0:
        return 0
    return 1 if shown[period, task] == 0 else 0


@compiled
def _off(period: int, student: int, on: Ints, near: Ints, change: Longs) -> int:
    return (
        int(change[period])
        if near[period, student] >= 0 and on[period, student] != near[period, student]
        else 0
    )


@compiled
def weight(
    one: int, other: int, met: Ints, many: int, where: Ints, n: Names, a: ClassArrays, g: GivenArrays,
    aims: ClassAims,
) -> int:  # fmt: skip
    """Return what the parts touched by a move weigh: two students (or one), tasks `met`, periods `where`."""
    total = 0
    on, crew, tasks = n.on, n.crew, a.tasks
    spans, shown, present, pals, near, change = n.spans, n.shown, g.present, aims.pals, g.near, g.change
    got, wanted, house, fair = n.got, aims.wanted, n.house, n.fair
    for turn in range(1 if one == other else 2):
        student = other if turn else one
        total += _own(student, got, wanted, house, fair)
        for index in range(many):
            total += AIMS[LEFT] * _leaves(student, met[index], on, crew, spans, tasks, present)
        for period in where:
            if period < 0:
                break
            total += AIMS[PARTED] * _parted(period, student, on, tasks, pals)
            total += AIMS[CHANGED] * _off(period, student, on, near, change)
    for period in where:
        if period < 0:
            break
        for index in range(many):
            total += AIMS[ALONE] * _alone(period, met[index], crew, shown, tasks)
    return total


@compiled
def count(n: Names, a: ClassArrays, g: GivenArrays, aims: ClassAims) -> Longs:
    """Return what a timetable comes to: minutes short, leaves, crews alone, pairs, squares, changes."""
    found = np.zeros(6, dtype=np.int64)
    periods, students = n.on.shape
    for student in range(students):
        for trade in range(aims.wanted.shape[1]):
            found[SHORT] += max(0, aims.wanted[student, trade] - n.got[student, trade])
        for task in range(n.crew.shape[1]):
            found[LEFT] += _leaves(student, task, n.on, n.crew, n.spans, a.tasks, g.present)
        found[UNEVEN] += np.int64(((n.house[student] - n.fair[student]) / 60.0) ** 2)
        for period in range(periods):
            found[PARTED] += _parted(period, student, n.on, a.tasks, aims.pals)
            found[CHANGED] += _off(period, student, n.on, g.near, g.change)
    for period in range(periods):
        for task in range(n.crew.shape[1]):
            found[ALONE] += _alone(period, task, n.crew, n.shown, a.tasks)
    return found
