"""The old timetable as a plan: played on, changed a little, told as a repair."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from setday.timetable.classwork import ClassProblem, Pin, unkept, verify
from setday.timetable.classwork.arrays import ClassArrays, arrays_of, work_of
from setday.timetable.odds import rest_of
from setday.timetable.repair.bettering import better, weigh
from setday.timetable.repair.crews import Crews
from setday.timetable.repair.given import changed_of, check, kept_of
from setday.timetable.repair.keeping import Scratch, play_kept
from setday.timetable.repair.moves import moves_of, said_of
from setday.timetable.repair.outcome import Repair
from setday.timetable.repair.prices import Prices

__all__ = ["Plans"]

Rows = Sequence[Sequence[str]]
Ints = NDArray[np.int32]

_AT_ONCE = 1500
"""Changes tried in the repair at once."""
_SPELL = 400
"""Changes between two looks at the clock."""
_HOT, _COLD = 400.0, 5.0
"""How much worse a change may be, at the start and at the end."""
_BROKEN = 1_000_000
"""What a pin not kept and a task not done count against a repair."""


class Plans:
    """What is left of a timetable, and the best plan for it so far.

    Parameters
    ----------
    problem : ClassProblem
        As it is now.
    happened, old : rows of the periods that are over, and of the old timetable
    pins : sequence of Pin
    near : int
        How many of the periods that are left are near.
    name : callable or None
        How a period is called.

    Raises
    ------
    NoAnswer
        When what is given does not fit together, or no period is left.
    """

    def __init__(
        self,
        problem: ClassProblem,
        happened: Rows,
        old: Rows,
        pins: Sequence[Pin],
        near: int,
        name: Callable[[int], str] | None,
    ) -> None:
        self.problem, self.pins, self.near = problem, tuple(pins), near
        self.name = name or (lambda period: f"period {period + 1}")
        self.happened = tuple(tuple(row) for row in happened)
        self.old = tuple(tuple(row) for row in old)
        self.since = len(self.happened)
        check(problem, self.happened, self.old, self.pins)
        self.rest = rest_of(problem, self.happened)
        self.arrays: ClassArrays = arrays_of(self.rest)
        self.work = work_of(self.rest)
        self.kept = kept_of(self.rest, self.happened, self.old[self.since :], self.pins)
        self.on = np.empty(self.kept.present.shape, dtype=np.int32)
        self.scratch = Scratch(
            state=np.zeros((len(self.rest.tasks), 7), dtype=np.int32),
            room=np.zeros(len(self.rest.places), dtype=np.int32),
            last=np.zeros(len(self.rest.students), dtype=np.int32),
        )
        self.allowed = max(self.finish_planned, 1)
        self.plans = np.stack([self._first_plan()] * 2)
        self.costs = np.zeros(2, dtype=np.int64)
        self._cheapest_press()
        self.unchanged = self._is_unchanged()
        if not self.unchanged:
            better(1, _AT_ONCE, (_HOT, _COLD), (self.allowed, self.near), self.plans, self.costs, self.arrays,
                   self.kept, self.work, self.scratch, self.on)  # fmt: skip

    @cached_property
    def crews(self) -> Crews:
        """The crews without names."""
        return Crews(self.arrays, self.work, self.kept, self.near)

    @property
    def finish_planned(self) -> int:
        """The finish that was planned, counted from the first period that is left."""
        keys = {task.key for task in self.problem.tasks if not task.filler}
        last = max((n for n, row in enumerate(self.old) if keys.intersection(row)), default=-1)
        return last + 1 - self.since

    def _first_plan(self) -> Ints:
        """Return the old timetable as a plan: its order, turns and crews."""
        begins, runs = self.kept.begins, self.kept.runs
        plan = np.zeros((4, len(begins)), dtype=np.int32)
        plan[0] = np.lexsort((np.arange(len(begins)), begins, 1 - runs))
        plan[1] = begins
        plan[2] = [task.crew_least for task in self.rest.tasks]
        planned = self.kept.planned.astype(float)
        runs_in = (planned > 0).sum(axis=0)
        usual = np.divide(planned.sum(axis=0), runs_in, out=np.zeros(len(begins)), where=runs_in > 0)
        plan[2] = np.maximum(plan[2], np.floor(usual))
        return plan

    def _cheapest_press(self) -> None:
        """Begin with the cheapest of a few: crews grow as far as they can at once, later, or never."""
        tried: list[tuple[int, int, Ints]] = []
        for press in sorted({0, self.near, 2 * self.near, 4 * self.near, len(self.rest.periods)}):
            for loose in sorted({0, self.near, 2 * self.near, len(self.rest.periods)}):
                plan = self.plans[0].copy()
                plan[3, 0] = min(press, len(self.rest.periods))
                plan[1, plan[1] >= loose] = loose
                tried.append((self._cost(plan), len(tried), plan))
        cost, _, plan = min(tried, key=lambda one: one[:2])
        self.plans[:], self.costs[:] = plan, cost

    def _is_unchanged(self) -> bool:
        """Return whether the old timetable can be kept as it is."""
        finish = play_kept(self.plans[1], self.arrays, self.kept, self.work, self.scratch, self.on)
        same = (self.on == self.kept.old) | (self.kept.present == 0)
        return finish <= self.allowed and bool(same[:finish].all())

    def _cost(self, plan: Ints) -> int:
        finish = play_kept(plan, self.arrays, self.kept, self.work, self.scratch, self.on)
        return weigh(finish, self.allowed, self.near, self.arrays, self.kept, self.scratch, self.on)

    def at_once(self) -> Repair:
        """Return the repair by the best plan so far, verified."""
        finish = int(play_kept(self.plans[1], self.arrays, self.kept, self.work, self.scratch, self.on))
        keys = [task.key for task in self.rest.tasks]
        made = self.on[: min(finish, len(self.on))].tolist()
        return self.told([[keys[n] if n >= 0 else "" for n in row] for row in made], finish)

    def spell(self, seed: int, part: float) -> None:
        """Try some changes of the plan, ever more choosily as `part` goes from 0 to 1."""
        heat = _HOT * (_COLD / _HOT) ** min(1.0, part)
        better(seed, _SPELL, (heat, heat), (self.allowed, self.near), self.plans, self.costs, self.arrays,
               self.kept, self.work, self.scratch, self.on)  # fmt: skip

    def prices(self, *, waiting: int = Prices.WAITING) -> Prices:
        """Return what counts against a repair; a finish past set day most, where it can be made.

        Parameters
        ----------
        waiting : int
            What a period counts in which a task that has begun could go on and does not.
        """
        made = self.allowed == self.problem.set_period - self.since
        late = Prices.MISSED if made else Prices.LATE
        return Prices(allowed=self.allowed, late=late, waiting=waiting)

    def price(self, made: Repair) -> int:
        """Return what counts against a repair."""
        moves = [None if move.was is None else move.was - self.since for move in made.moves]
        finish = made.finish - self.since
        whole = self.prices().of(
            finish=finish,
            moves=moves,
            near=self.near,
            places=made.places_changed,
            waiting=self.waiting(made.rows[self.since :]),
        )
        return whole + _BROKEN * len(made.broken)

    def waiting(self, rows: Rows) -> int:
        """Return in how many periods tasks that have begun could go on and do not, all together."""
        ran: dict[str, list[int]] = {}
        for period, row in enumerate(rows):
            for key in set(row) & self.rest.number.keys():
                ran.setdefault(key, []).append(period)
        many = 0
        for key, periods in ran.items():
            task = self.rest.number[key]
            if not self.rest.tasks[task].filler:
                begun = 0 if self.kept.runs[task] else periods[0]
                many += int(self.arrays.open_in[task, begun : periods[-1] + 1].sum()) - len(periods)
        return many

    def allow(self, possible: int) -> None:
        """Allow finishes up to one later than `possible`, but none that for this would miss set day.

        Costs are counted anew when that changes.
        """
        finish = possible if possible == self.problem.set_period - self.since else possible + 1
        if possible < len(self.rest.periods) and finish != self.allowed:
            self.allowed = finish
            self.costs[:] = [self._cost(plan) for plan in self.plans]

    def told(self, made: Rows, finish: int) -> Repair:
        """Return a timetable from the first period that is left, verified and explained."""
        rows = (*self.happened, *(tuple(row) for row in made))
        told = verify(self.problem, rows, since=self.since)
        if any(not said.endswith("is not finished") for said in told):
            raise RuntimeError("the repaired timetable breaks a rule: " + "; ".join(told[:3]))
        students = [student.key for student in self.problem.students]
        told += unkept(rows, pins=self.pins, students=students)
        moves = moves_of(
            self.problem, rows=rows, old=self.old, since=self.since, pins=self.pins, name=self.name
        )
        changed, places = changed_of(self.problem, rows, self.old, self.since, self.near)
        waiting = {key for row in self.old[self.since :] for key in row if key} & set(self.rest.number)
        begun = {key for row in self.happened for key in row}
        fillers = {task.key for task in self.problem.tasks if task.filler}
        made_repair = Repair(
            rows=rows,
            before=self.old,
            since=self.since,
            finish=finish + self.since,
            finish_before=self.finish_planned + self.since,
            possible=finish + self.since,
            moves=moves,
            tasks=len(waiting - begun - fillers),
            forced=self.crews.forced(),
            places_changed=changed,
            places=places,
            said=("", "", ""),
            broken=tuple(told),
        )
        said = said_of(
            self.problem,
            moves=moves,
            finishes=(made_repair.finish_before, made_repair.finish),
            places=(changed, places),
            tasks=made_repair.tasks,
            name=self.name,
        )
        return replace(made_repair, said=said)
