"""Repair of a timetable after a period was logged: at once by keeping, then better while there is time."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from threading import Thread

import numpy as np
from numpy.typing import NDArray

from setday.solving import Limits
from setday.timetable.classwork import ClassProblem, Fixed, Pin, solve, unkept, verify
from setday.timetable.classwork.arrays import ClassArrays, arrays_of, work_of
from setday.timetable.odds import rest_of
from setday.timetable.repair.bettering import better, weigh
from setday.timetable.repair.given import changed_of, check, kept_of
from setday.timetable.repair.keeping import Scratch, play_kept
from setday.timetable.repair.moves import Move, moves_of, said_of

__all__ = ["Repair", "repair", "repair_at_once"]

Rows = Sequence[Sequence[str]]
Ints = NDArray[np.int32]

_NONE: Rows = ()
_NEAR = 10
"""Periods that are near: two weeks of a class that meets every school day."""
_AT_ONCE = 1500
"""Changes tried in the repair at once."""
_SPELL = 400
"""Changes between two looks at the clock."""
_HOT, _COLD = 400.0, 5.0
"""How much worse a change may be, at the start and at the end."""
_FROM_NOTHING = 0.5
"""Share of the time in which a timetable is sought from nothing beside, to know what finish is possible."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A timetable repaired, and what became of the old one.

    Parameters
    ----------
    rows : tuple of tuple of str
        The whole timetable, what happened first.
    before : tuple of tuple of str
        The timetable it was made from; to undo is to take that again.
    since : int
        First period that was planned anew.
    finish, finish_before : int
        Periods until all work is done, now and as it was planned.
    possible : int
        The earliest finish found, also by planning anew from nothing.
    moves : tuple of Move
        Tasks that begin in another period than planned, the near ones first.
    tasks : int
        Tasks that were planned and had not begun.
    places_changed, places : int
        Places of present students in the near periods that changed, and how many there are.
    said : tuple of str
        What moved and why, in three lines.
    broken : tuple of str
        Work that the calendar leaves undone, and pins that cannot be kept; empty otherwise.
    """

    rows: tuple[tuple[str, ...], ...]
    before: tuple[tuple[str, ...], ...]
    since: int
    finish: int
    finish_before: int
    possible: int
    moves: tuple[Move, ...]
    tasks: int
    places_changed: int
    places: int
    said: tuple[str, str, str]
    broken: tuple[str, ...]


def repair_at_once(
    problem: ClassProblem,
    *,
    happened: Rows,
    old: Rows,
    pins: Sequence[Pin] = (),
    near: int = _NEAR,
    name: Callable[[int], str] | None = None,
) -> Repair:
    """Repair a timetable by a few changes tried, in parts of a second.

    Parameters
    ----------
    problem : ClassProblem
        As it is now: work as it turned out (`carried_on`), material, absences and weather as known.
    happened : rows of the periods that are over, as they were
    old : rows of the timetable that was planned, from the first period of the calendar
    pins : sequence of Pin
    near : int
        How many periods after those that are over are near.
    name : callable, optional
        How a period is called where it is said, as "12 May"; its number otherwise.

    Returns
    -------
    Repair
        Verified.

    Raises
    ------
    NoAnswer
        When what is given does not fit together, or no period is left.
    """
    return _Keeping(problem, happened, old, pins, near, name).at_once()


def repair(
    problem: ClassProblem,
    *,
    happened: Rows,
    old: Rows,
    limits: Limits,
    pins: Sequence[Pin] = (),
    near: int = _NEAR,
    name: Callable[[int], str] | None = None,
    on_progress: Callable[[Repair], bool | None] | None = None,
) -> Repair:
    """Repair a timetable so that little of it changes and little time is lost.

    What is done stays; what runs goes on with its crew where it can; the rest is planned anew near the old
    plan.  Beside it a timetable is sought from nothing; finishes up to one period later than that are as
    good, and where only that one makes set day, it is taken.

    Parameters
    ----------
    problem, happened, old, pins, near, name
        As for `repair_at_once`.
    limits : Limits
    on_progress : callable, optional
        Told the repair at once, then better ones; answers False to stop and keep the latest.

    Returns
    -------
    Repair

    Raises
    ------
    NoAnswer
        As for `repair_at_once`.
    """
    keeping = _Keeping(problem, happened, old, pins, near, name)
    first = keeping.at_once()
    if keeping.unchanged or (on_progress is not None and on_progress(first) is False):
        return first
    return keeping.bettered(limits, on_progress)


class _Keeping:
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
        return self._told([[keys[n] if n >= 0 else "" for n in row] for row in made], finish)

    def bettered(self, limits: Limits, on_progress: Callable[[Repair], bool | None] | None) -> Repair:
        """Return the best repair found in the time."""
        better(0, 0, (1.0, 1.0), (0, 0), self.plans, self.costs, self.arrays, self.kept, self.work,
               self.scratch, self.on)  # fmt: skip  # compiled before time counts
        deadline = limits.start()
        beside = _FromNothing(self, limits)
        beside.start()
        told, number, stopped = int(self.costs[1]), 0, False
        while not deadline.expired and not stopped:
            number += 1
            self._allow(beside.finish)
            heat = _HOT * (_COLD / _HOT) ** min(1.0, deadline.spent / max(limits.seconds, 1e-9))
            better(1000 * limits.seed + number, _SPELL, (heat, heat), (self.allowed, self.near), self.plans,
                   self.costs, self.arrays, self.kept, self.work, self.scratch, self.on)  # fmt: skip
            if on_progress is not None and number % 10 == 0 and self.costs[1] < told:
                told = int(self.costs[1])
                stopped = on_progress(self.at_once()) is False
        beside.ended = True
        beside.join()
        self._allow(beside.finish)
        found = self.at_once()
        set_period = self.problem.set_period
        if beside.rows and beside.finish + self.since <= set_period < found.finish:
            found = self._told(beside.rows, beside.finish)
        return replace(found, possible=min(found.finish, beside.finish + self.since))

    def _allow(self, possible: int) -> None:
        """Allow finishes up to one later than `possible`, but none that for this would miss set day.

        Costs are counted anew when that changes.
        """
        finish = possible if possible == self.problem.set_period - self.since else possible + 1
        if finish != self.allowed:
            self.allowed = finish
            self.costs[:] = [self._cost(plan) for plan in self.plans]

    def _told(self, made: Rows, finish: int) -> Repair:
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


class _FromNothing(Thread):
    """A timetable sought from nothing beside the repair, for its finish, and in case no repair comes near."""

    def __init__(self, keeping: _Keeping, limits: Limits) -> None:
        super().__init__(daemon=True)
        self.rest, self.limits, self.ended = keeping.rest, limits, False
        self.finish, self.rows = keeping.allowed, _NONE
        since = keeping.since
        self.pins = tuple(replace(pin, period=pin.period - since) for pin in keeping.pins)

    def run(self) -> None:
        limits = replace(self.limits, seconds=_FROM_NOTHING * self.limits.seconds, workers=1)
        found = solve(
            self.rest, limits=limits, fixed=Fixed(pins=self.pins), on_progress=lambda *_: not self.ended
        )
        if not found.broken:
            self.finish, self.rows = found.finish, found.rows
        else:
            self.finish = max(self.finish, found.finish)
