"""Who of the class is on which crew, when the finish stands: annealing by name, compiled.

Two students trade places over some periods, or one moves over to another crew that has room and work for
one more.  No task begins or ends in another period than before, so nothing that waits is touched.
"""

import numpy as np
from numpy.typing import NDArray

from setday.solving import compiled
from setday.timetable.classwork.aims import ClassAims
from setday.timetable.classwork.arrays import FILLER, LEAST, MOST, PLACE, ClassArrays, GivenArrays
from setday.timetable.classwork.naming import Names, put, weight

__all__ = ["anneal"]

Ints = NDArray[np.int32]

SPAN = 24
"""Most periods of one move."""


@compiled
def _over(period: int, student: int, task: int, n: Names, a: ClassArrays, aims: ClassAims) -> None:
    """Take a student from one task over to another."""
    put(period, student, n.on[period, student], -1, n, a, aims)
    n.on[period, student] = task
    put(period, student, task, 1, n, a, aims)


@compiled
def _trade(period: int, one: int, other: int, n: Names, a: ClassArrays, aims: ClassAims) -> None:
    """Let two students trade places: no crew changes its size."""
    on, got, knows, house, tasks = n.on, n.got, aims.knows, n.house, a.tasks
    minutes = a.minutes[period]
    mine, theirs = on[period, one], on[period, other]
    on[period, one], on[period, other] = theirs, mine
    for side in range(2):
        task = theirs if side else mine
        if task >= 0:
            sign = 1 if side else -1
            trade = aims.trade[task]
            n.shown[period, task] += sign * (knows[one, trade] - knows[other, trade])
            got[one, trade] += sign * minutes
            got[other, trade] -= sign * minutes
            if not tasks[task, FILLER]:
                house[one] += sign * minutes
                house[other] -= sign * minutes


@compiled
def _bears(
    period: int, student: int, task: int, but: int, on: Ints, may: Ints, foes: Ints, tasks: Ints
) -> bool:
    """Return whether a student may be on a task's crew, `but` being about to leave it."""
    if task < 0:
        return True
    if not may[task, student]:
        return False
    if tasks[task, FILLER]:
        return True
    for other in foes[student]:
        if other < 0:
            break
        if other != but and on[period, other] == task:
            return False
    return True


@compiled
def _can_trade(
    period: int,
    one: int,
    other: int,
    on: Ints,
    present: Ints,
    asked: Ints,
    may: Ints,
    foes: Ints,
    tasks: Ints,
) -> bool:
    mine, theirs = on[period, one], on[period, other]
    if mine == theirs or not present[period, one] or not present[period, other]:
        return False
    if asked[period, one] >= 0 or asked[period, other] >= 0:
        return False
    return _bears(period, one, theirs, other, on, may, foes, tasks) and _bears(
        period, other, mine, one, on, may, foes, tasks
    )


@compiled
def _can_move(period: int, student: int, task: int, n: Names, a: ClassArrays, g: GivenArrays) -> bool:
    """Return whether a student can go over to a task's crew and no task ends in another period for it."""
    now = n.on[period, student]
    if now == task or task < 0 or not g.present[period, student] or g.asked[period, student] >= 0:
        return False
    minutes = a.minutes[period]
    place = a.tasks[task, PLACE]
    if n.crew[period, task] >= a.tasks[task, MOST]:
        return False
    if (now < 0 or a.tasks[now, PLACE] != place) and n.people[period, place] >= a.holds[place]:
        return False
    if not a.tasks[task, FILLER]:
        end = n.spans[task, 1]
        if n.crew[period, task] == 0 or end >= n.on.shape[0]:
            return False
        before = n.total[task] - n.crew[end, task] * a.minutes[end]
        if period != end and before + minutes >= n.need[task]:
            return False
    if now >= 0 and not a.tasks[now, FILLER]:
        if n.spans[now, 1] >= n.on.shape[0] or n.crew[period, now] <= a.tasks[now, LEAST]:
            return False
        if n.total[now] - minutes < n.need[now]:
            return False
    return _bears(period, student, task, -1, n.on, a.may, a.foes, a.tasks)


@compiled
def _meet(task: int, met: Ints, many: int) -> int:
    """Add a task to those met; return how many there are."""
    for index in range(many):
        if met[index] == task:
            return many
    met[many] = task
    return many + 1


@compiled
def anneal(
    seed: int, rounds: int, hot: float, cold: float, n: Names, a: ClassArrays, g: GivenArrays, aims: ClassAims
) -> int:
    """Try `rounds` moves, cooling from `hot` to `cold`; change `n` in place; return the weight won."""
    np.random.seed(seed)
    periods, students = n.on.shape
    met, where = np.empty(2 * SPAN + 2, dtype=np.int32), np.full(SPAN + 1, -1, dtype=np.int32)
    were = np.empty(SPAN + 1, dtype=np.int32)
    won = 0
    if periods <= g.since or students < 2:
        return won
    heat, cooling = hot, (cold / hot) ** (1.0 / max(1, rounds))
    for _ in range(rounds):
        heat *= cooling
        period = g.since + np.random.randint(periods - g.since)
        one, other = np.random.randint(students), np.random.randint(students)
        if one == other or not g.present[period, one]:
            continue
        task = n.on[period, other]
        trades = 1 if np.random.random() < 0.7 else 0
        if trades and not _can_trade(period, one, other, n.on, g.present, g.asked, a.may, a.foes, a.tasks):
            continue
        if not trades and not _can_move(period, one, task, n, a, g):
            continue
        many = _stretch(period, one, other, task, trades, where, met, n, a, g)
        beside = other if trades else one
        before = weight(one, beside, met, many, where, n, a, g, aims)
        _do(one, other, task, trades, where, were, n, a, g, aims)
        worse = weight(one, beside, met, many, where, n, a, g, aims) - before
        if worse > 0 and np.random.random() >= np.exp(-worse / heat):
            _undo(one, other, trades, where, were, n, a, aims)
        else:
            won -= worse
    return won


@compiled
def _stretch(
    period: int, one: int, other: int, task: int, trades: int, where: Ints, met: Ints, n: Names,
    a: ClassArrays, g: GivenArrays,
) -> int:  # fmt: skip
    """Choose the periods of a move into `where`, then -1; fill the tasks met and return how many.

    One period, or the whole stretch in which either student stays on the task of this period.
    """
    on, present = n.on, g.present
    mine = on[period, one]
    kind = np.random.randint(4)
    periods = 0
    many = 0
    step = 1 if np.random.random() < 0.5 else -1
    now = period
    while g.since <= now < on.shape[0] and periods < SPAN:
        same = on[now, one] == mine if kind == 1 else on[now, other] == task
        if kind == 3:
            same = on[now, one] == mine and on[now, other] == task
        if now != period and present[now, one] and present[now, other] and not same:
            break
        fits = (
            _can_trade(now, one, other, on, g.present, g.asked, a.may, a.foes, a.tasks)
            if trades
            else on[now, one] != task
        )
        if fits and (now == period or same):
            where[periods] = now
            periods += 1
            many = _meet(on[now, one], met, many)
            many = _meet(on[now, other] if trades else task, met, many)
        if kind == 0:
            break
        now += step
    where[periods] = -1
    return many


@compiled
def _do(
    one: int, other: int, task: int, trades: int, where: Ints, were: Ints, n: Names, a: ClassArrays,
    g: GivenArrays, aims: ClassAims,
) -> None:  # fmt: skip
    for index in range(where.shape[0]):
        period = where[index]
        if period < 0:
            break
        were[index] = n.on[period, one]
        if trades:
            _trade(period, one, other, n, a, aims)
        elif _can_move(period, one, task, n, a, g):
            _over(period, one, task, n, a, aims)


@compiled
def _undo(
    one: int, other: int, trades: int, where: Ints, were: Ints, n: Names, a: ClassArrays, aims: ClassAims
) -> None:
    for index in range(where.shape[0]):
        period = where[index]
        if period < 0:
            break
        if trades:
            _trade(period, one, other, n, a, aims)
        else:
            _over(period, one, were[index], n, a, aims)
