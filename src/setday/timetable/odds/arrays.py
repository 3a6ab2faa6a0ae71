"""A class problem and its chances as flat arrays for the compiled simulation.

Tasks are numbered as they stand in the list, students by how few tasks they may do: so the next task and
the student who is spared best are always the lowest number.  Sets of students are bits, 63 to a word.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork import ClassProblem, Task
from setday.timetable.odds.chances import Chances, Spread

__all__ = [
    "ATTENDED",
    "ATTENTION",
    "BEGIN",
    "DAY",
    "DAY_NUMBER",
    "DELIVERY",
    "DOUBT",
    "DRY",
    "FILLER",
    "LEAST",
    "MINUTES",
    "MOST",
    "NUMBER",
    "PLACE",
    "SHARE",
    "TRADE",
    "WAITS",
    "WISH",
    "WORD",
    "WORK",
    "OddsArrays",
    "arrays_of",
    "students_in_order",
]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]

WORD = 63
"""Students to a word; the sign of a 64-bit number is left alone."""
_POINTS = 257
"""Points at which a spread is kept."""
_TAIL = 1e-4
"""An unbounded spread is cut here at either end."""

(LEAST, MOST, ATTENTION, PLACE, FILLER, DRY, WISH, WORK, BEGIN, WAITS, SHARE, DOUBT, TRADE, DELIVERY,
 NUMBER) = range(15)  # fmt: skip
"""Columns of a task's row; SHARE and DOUBT are rows of `spreads`, DELIVERY one of `late` or -1, NUMBER the
task's number in the problem, by which chance is drawn."""

MINUTES, ATTENDED, DAY, DAY_NUMBER = range(4)
"""Columns of a period's row; DAY counts from the calendar's first, DAY_NUMBER only days with a period."""


class OddsArrays(NamedTuple):
    """Flat arrays; t tasks in the order of the list, s students, w words, p periods, q places.

    `tasks` and `calendar` have columns as named above.  `waiting[waiting_at[t]]` on: tasks that wait for t,
    and for how long; `ready_from[d, f]` is the first period that may follow a last period f after waiting
    kind d.  `open_in` knows guests only; material and wet days are drawn.  `apart[t]` lists tasks that may
    not run beside t, then -1.  `who` is each student's number in the problem.
    """

    tasks: Ints
    calendar: Ints
    waiting_at: Ints
    waiting: Ints
    ready_from: Ints
    open_in: Ints
    apart: Ints
    may: Ints
    here: Ints
    foes: Ints
    holds: Ints
    who: Ints
    absent: Floats
    wet: Floats
    spreads: Floats
    late: Floats


def students_in_order(problem: ClassProblem) -> list[int]:
    """Return the numbers of the students, those who may do the fewest tasks first."""
    many = [sum(problem.may(student, task) for task in problem.tasks) for student in problem.students]
    return sorted(range(len(many)), key=lambda s: (many[s], s))


def arrays_of(
    problem: ClassProblem, chances: Chances, *, order: Sequence[int], wish: Sequence[int]
) -> OddsArrays:
    """Return the arrays of `problem` for the list `order` with the crews wished for, by task number."""
    tasks = [problem.tasks[number] for number in order]
    who = students_in_order(problem)
    students = [problem.students[number] for number in who]
    place = {place.key: n for n, place in enumerate(problem.places)}
    spreads, rows = _spreads(tasks, chances)
    late = {key: n for n, delivery in enumerate(chances.deliveries) for key in delivery.tasks}
    kinds = sorted({wait.days for task in tasks for wait in task.after} | {0})
    links = _links(tasks, kinds)
    waits = np.bincount([after for after, _, _ in links], minlength=len(tasks))
    table = [
        (t.crew_least, t.crew_most, t.attention, place[t.place], t.filler, t.dry, wish[n], t.work, t.begin,
         waits[i], *rows[i], late.get(t.key, -1), n)
        for i, (n, t) in enumerate(zip(order, tasks, strict=True))
    ]  # fmt: skip
    absent = dict(chances.absent_by_student)
    wet = chances.wet or tuple(0.0 if period.dry else 1.0 for period in problem.periods)
    days = [period.day for period in problem.periods]
    return OddsArrays(
        tasks=_ints(table),
        calendar=_calendar(problem),
        waiting_at=np.searchsorted([before for _, _, before in links], range(len(tasks) + 1)),
        waiting=_ints([(after, kind) for after, kind, _ in links]).reshape(-1, 2),
        ready_from=_ready_from(days, kinds),
        open_in=_ints([[not t.allowed or p in t.allowed for p in range(len(days))] for t in tasks]),
        apart=_apart(tasks),
        may=_words([[problem.may(s, t) for s in students] for t in tasks]),
        here=_words([[s.key in p.present for s in students] for p in problem.periods]),
        foes=_words([[s.key in o.apart or o.key in s.apart for s in students] for o in students]),
        holds=_ints([p.holds for p in problem.places]),
        who=_ints(who),
        absent=np.array([absent.get(s.key, chances.absent) for s in students], dtype=np.float64),
        wet=np.array(wet, dtype=np.float64),
        spreads=spreads,
        late=np.array([(d.chance, d.least, d.most) for d in chances.deliveries], float).reshape(-1, 3),
    )


def _calendar(problem: ClassProblem) -> Ints:
    numbers = np.unique([period.day for period in problem.periods], return_inverse=True)[1]
    rows = zip(problem.periods, numbers, strict=True)
    return _ints([(period.minutes, period.attention, period.day, number) for period, number in rows])


def _ints(values: object) -> Ints:
    return np.array(values, dtype=np.int64)


def _words(rows: Sequence[Sequence[bool]]) -> Ints:
    """Return sets of students as bits: a row a set."""
    many = -(-max(1, len(rows[0])) // WORD)
    table = np.zeros((len(rows), many), dtype=np.int64)
    for number, row in enumerate(rows):
        for student, inside in enumerate(row):
            if inside:
                table[number, student // WORD] |= 1 << (student % WORD)
    return table


def _links(tasks: list[Task], kinds: list[int]) -> list[tuple[int, int, int]]:
    """Return (after, kind of waiting, before), the longest wait of each pair, sorted by `before`."""
    number = {task.key: n for n, task in enumerate(tasks)}
    longest: dict[tuple[int, int], int] = {}
    for after, task in enumerate(tasks):
        for wait in task.after:
            pair = (number[wait.task], after)
            longest[pair] = max(longest.get(pair, 0), kinds.index(wait.days))
    return [(after, kind, before) for (before, after), kind in sorted(longest.items())]


def _ready_from(days: list[int], kinds: list[int]) -> Ints:
    table = np.empty((len(kinds), len(days)), dtype=np.int64)
    for kind, wait in enumerate(kinds):
        first = np.searchsorted(days, np.array(days) + wait)
        table[kind] = np.maximum(first, np.arange(1, len(days) + 1))
    return table


def _apart(tasks: list[Task]) -> Ints:
    rows = [
        [
            n
            for n, other in enumerate(tasks)
            if other.place == task.place
            and other is not task
            and (other.trade in task.clashes or task.trade in other.clashes)
        ]
        for task in tasks
    ]
    table = np.full((len(tasks), max(len(row) for row in rows) + 1), -1, dtype=np.int64)
    for number, row in enumerate(rows):
        table[number, : len(row)] = row
    return table


def _spreads(tasks: list[Task], chances: Chances) -> tuple[Floats, list[tuple[int, int, int]]]:
    """Return the spreads as rows of quantiles, and for each task the rows of its share, doubt, and trade."""
    by_task, by_trade = dict(chances.tasks), dict(chances.trades)
    points = np.linspace(0.0, 1.0, _POINTS)
    kept: list[Floats] = []
    seen: dict[object, int] = {}

    def row(key: object, quantiles: Floats) -> int:
        if key not in seen:
            seen[key] = len(kept)
            kept.append(quantiles)
        return seen[key]

    trades = sorted({task.trade for task in tasks})
    rows = []
    for task in tasks:
        spread: Spread = by_task.get(task.key) or by_trade.get(task.trade) or chances.otherwise
        share = row(spread, spread.quantiles(points))
        doubt = row(("doubt", spread.doubt), _doubt(spread.doubt, points))
        rows.append((share, doubt, trades.index(task.trade)))
    return np.ascontiguousarray(kept), rows


def _doubt(deviation: float, points: Floats) -> Floats:
    """Return quantiles of a share with mean 1 whose logarithm has this standard deviation."""
    from scipy.special import ndtri  # loads slowly

    inside = np.clip(points, _TAIL, 1 - _TAIL)
    return np.asarray(np.exp(deviation * ndtri(inside) - deviation**2 / 2), dtype=np.float64)
